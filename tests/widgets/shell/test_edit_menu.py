"""The Edit menu acts on what has the focus, whatever that is, as its keys do."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QGuiApplication
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from tests.widgets.bench_project import bench_project
from tests.widgets.driving import MakeWindow
from widgets.document.settings import Settings
from widgets.shell.window import BENCH, DESIGN, START_UP, MainWindow

pytestmark = pytest.mark.usefixtures("own_settings")


@pytest.fixture
def window(make_window: MakeWindow) -> MainWindow:
    made = make_window(Settings(keep=False), workspace=DESIGN)
    made.take(bench_project(), None)
    QGuiApplication.clipboard().clear()
    return made


def entry(window: MainWindow, name: str) -> QAction:
    return next(each for each in [*window.edit.actions, window.edit.find] if each.text().replace("&", "") == name)


def choose(window: MainWindow, name: str, focus: QWidget) -> None:
    """As somebody does by the keyboard: the menu bar has the focus meanwhile, and gives it back."""
    focus.setFocus()
    assert focus.hasFocus()
    window.menuBar().setFocus(Qt.FocusReason.MenuBarFocusReason)
    focus.setFocus(Qt.FocusReason.MenuBarFocusReason)
    action = entry(window, name)
    assert action.isEnabled()
    action.trigger()


def clipboard() -> str:
    return QGuiApplication.clipboard().text()


def test_on_the_face_it_is_about_cells(window: MainWindow) -> None:
    face = window.design.editor.face
    before = window.document.project
    choose(window, "Select all", face)
    choose(window, "Copy", face)
    assert clipboard().startswith("Set point")
    choose(window, "Cut", face)
    assert window.document.project != before
    choose(window, "Paste", face)
    assert window.document.project.screens == before.screens


def test_in_a_line_of_text_it_is_about_its_text(window: MainWindow) -> None:
    window.show_workspace(BENCH)
    line = window.bench.readings.filter
    line.setText("level")
    choose(window, "Select all", line)
    choose(window, "Cut", line)
    assert (line.text(), clipboard()) == ("", "level")
    choose(window, "Paste", line)
    assert line.text() == "level"
    line.setCursorPosition(0)
    choose(window, "Delete", line)
    assert line.text() == "evel"


def test_in_a_table_it_is_about_its_cells(window: MainWindow) -> None:
    window.design.show_view("signals")
    table = window.design.signals.table.table
    table.setCurrentIndex(table.model().index(0, 0))
    choose(window, "Copy", table)
    assert clipboard().strip() == "command"


def test_find_is_where_everybody_looks_for_it(window: MainWindow, qtbot: QtBot) -> None:
    editor = window.design.editor
    choose(window, "Find\u2026", editor.face)
    qtbot.waitUntil(lambda: editor.find_bar.isVisible())
    window.show_workspace(BENCH)
    choose(window, "Find\u2026", window.bench.face)
    qtbot.waitUntil(window.bench.readings.filter.hasFocus)


@pytest.mark.parametrize("name", ["Cut", "Copy", "Paste", "Delete", "Select all"])
@pytest.mark.parametrize("workspace", [BENCH, START_UP])
def test_it_never_presses_a_key_of_the_panel(window: MainWindow, workspace: int, name: str) -> None:
    window.show_workspace(workspace)
    face = window.bench.face if workspace == BENCH else window.start_up.face
    heard: list[str] = []
    face.key_pressed.connect(heard.append)
    before = window.document.project
    for focus in (face, face.keypad.buttons["start"]):
        choose(window, name, focus)
        assert window.told == "There is nothing here for this command"
    assert heard == []
    assert window.document.project == before


@pytest.mark.parametrize("workspace", [DESIGN, BENCH, START_UP])
def test_its_keys_belong_to_what_has_the_focus(window: MainWindow, workspace: int) -> None:
    window.show_workspace(workspace)
    for action in (*window.edit.actions, window.edit.find):
        assert not any(isinstance(owner, QWidget) and owner.hasFocus() for owner in action.associatedObjects())
        assert action.shortcut().toString() != ""
