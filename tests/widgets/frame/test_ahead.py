"""What takes long to open is got ready while nobody does anything, and only where nothing real can come late for it."""

from __future__ import annotations

from functools import partial
from threading import current_thread

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from app.follower.simulation import Simulation
from app.project.model import Project
from tests.widgets.bench_project import bench_project
from tests.widgets.driving import MakeWindow
from widgets.document.settings import Settings
from widgets.shell.window import AHEAD, BENCH, MainWindow

pytestmark = pytest.mark.usefixtures("no_thread_is_left")
CTRL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture(autouse=True)
def _soon(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("widgets.frame.ahead.IMPORT_AFTER_MS", 0)
    monkeypatch.setattr("widgets.frame.ahead.LOOK_EVERY_MS", 30)


@pytest.fixture
def imported(monkeypatch: pytest.MonkeyPatch) -> dict[str, str]:
    """What was imported, and in which thread."""
    found: dict[str, str] = {}
    monkeypatch.setattr("widgets.frame.ahead.import_module", lambda name: found.setdefault(name, current_thread().name))
    return found


@pytest.fixture
def window(make_window: MakeWindow, pump: Project) -> MainWindow:
    made = make_window(Settings(keep=False), None, workspace=BENCH)
    made.take(pump, None)
    return made


def titled(project: Project, title: str) -> Project:
    return project.replace(title=title)


def made(window: MainWindow) -> tuple[bool, bool]:
    return window.has_design, window.has_start_up


def test_modules_are_imported_aside_after_the_first_values(
    window: MainWindow, imported: dict[str, str], qtbot: QtBot
) -> None:
    qtbot.waitUntil(lambda: window.isActiveWindow())
    assert imported == {}, "nothing is connected"
    QTest.keyClick(window, Qt.Key.Key_K, CTRL)
    qtbot.waitUntil(lambda: len(imported) == len(AHEAD))
    assert list(imported) == list(AHEAD)
    assert set(imported.values()) == {"fanlight-ahead"}


def test_workspaces_are_made_while_nobody_does_anything(
    window: MainWindow, imported: dict[str, str], qtbot: QtBot
) -> None:
    QTest.keyClick(window, Qt.Key.Key_K, CTRL)
    qtbot.waitUntil(lambda: len(imported) == len(AHEAD))
    for number in range(12):  # somebody edits
        window.document.do("Title", partial(titled, title=str(number)))
        qtbot.wait(20)
    assert made(window) == (False, False)
    qtbot.waitUntil(lambda: made(window) == (True, True))
    assert window.workspace_number == BENCH
    assert window.focusWidget() is window.bench.face


def test_nothing_is_made_on_a_real_line(make_window: MakeWindow, imported: dict[str, str], qtbot: QtBot) -> None:
    with Simulation(bench_project()) as device:
        _, port = device.serve_tcp(None, "127.0.0.1", 0)
        window = make_window(Settings(keep=False), None, workspace=BENCH)
        window.take(bench_project(port), None)
        window.live.connect_to(window.document.project, None)
        qtbot.waitUntil(lambda: len(imported) == len(AHEAD))
        qtbot.wait(400)
        assert made(window) == (False, False)
        window.leave()
