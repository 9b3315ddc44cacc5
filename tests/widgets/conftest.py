"""What tests of widgets share. A file that wants another project says so by a fixture `project` of its own."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import QObject, QSettings
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot
from shiboken6 import isValid

from app.follower.simulation import Simulation
from app.modbus.ports_here import PortHere
from app.project.model import Project
from app.project_file.files import save
from tests.pictures.stage import SMALLEST_SCREEN
from tests.widgets.bench_project import bench_project
from tests.widgets.driving import MakeWindow, designed
from widgets.design.workspace import DesignWorkspace
from widgets.document.document import Document
from widgets.kit.language import Language, Translation
from widgets.live.live_session import LiveSession
from widgets.shell.window import MainWindow


@pytest.fixture
def own_settings(tmp_path: Path) -> None:
    """What the program remembers between runs goes to a folder of the test."""
    QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, str(tmp_path / "settings"))


@pytest.fixture
def ports(monkeypatch: pytest.MonkeyPatch) -> list[PortHere]:
    """The serial ports of this computer, as whoever watches them finds them: to be plugged in and out."""
    found: list[PortHere] = []
    monkeypatch.setattr("widgets.welcome.port_watch.ports_here", lambda: tuple(found))
    return found


@pytest.fixture
def project(pump: Project) -> Project:
    return pump


@pytest.fixture
def document(qapp: object, project: Project) -> Document:
    return Document(project)


@pytest.fixture
def design(document: Document, qtbot: QtBot) -> DesignWorkspace:
    return designed(document, qtbot)


@pytest.fixture
def device() -> Iterator[Simulation]:
    """The followers of the bench project, and no part of the program's own session: what real lines lead to."""
    with Simulation(bench_project()) as simulation:
        yield simulation


@pytest.fixture
def live(qapp: object) -> Iterator[LiveSession]:
    parent = QObject()
    made = LiveSession(parent)
    yield made
    made.disconnect_from_line()
    parent.deleteLater()


@pytest.fixture
def speech(qapp: QApplication) -> Iterator[Translation]:
    made = Translation(qapp)
    yield made
    made.speak(Language.ENGLISH)
    made.deleteLater()


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """The bench project, saved."""
    path = tmp_path / "pump room.toml"
    save(bench_project(), path)
    return path


@pytest.fixture
def make_window(qtbot: QtBot) -> Iterator[MakeWindow]:
    """Makes main windows in front, of the smallest screen's size if not said otherwise. They go after the test."""
    made: list[MainWindow] = []

    def make(*settings: Any, size: tuple[int, int] | None = SMALLEST_SCREEN, **more: Any) -> MainWindow:
        window = MainWindow(*settings, **more)
        made.append(window)
        if size is not None:
            window.resize(*size)
        with qtbot.waitActive(window):
            window.show()
            window.activateWindow()
        return window

    yield make
    for window in made:
        if isValid(window):  # another window may have taken its place
            window.live.left_on.disconnect()  # nobody is there to be asked
            window.leave()
            window.deleteLater()


@pytest.fixture
def window(make_window: MakeWindow) -> MainWindow:
    return make_window()
