"""Buttons that stay pressed, and those that exclude one another. What the wheel leaves alone: `tests/pictures`."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QDialog, QVBoxLayout
from pytestqt.qtbot import QtBot

from widgets.kit.controls import UNIT_COLUMN, Segments, UnitLine, push_button, toggle_button
from widgets.kit.look import set_look


def test_segments_exclude_one_another_and_touch(qtbot: QtBot) -> None:
    segments = Segments([("dec", "decimal"), ("hex", "hexadecimal"), ("bin", "binary")])
    qtbot.addWidget(segments)
    segments.show()
    segments.activateWindow()
    qtbot.waitUntil(segments.isActiveWindow)
    chosen: list[str] = []
    segments.chosen.connect(chosen.append)
    assert segments.current == "dec"
    QTest.mouseClick(segments.buttons["hex"], Qt.MouseButton.LeftButton)
    assert (segments.current, chosen) == ("hex", ["hex"])
    segments.buttons["hex"].setFocus()
    QTest.keyClick(segments.buttons["hex"], Qt.Key.Key_Right)
    assert (segments.current, chosen) == ("bin", ["hex", "bin"])
    segments.choose("dec")
    assert (segments.current, chosen) == ("dec", ["hex", "bin"]), "what the program chooses is told to nobody"
    places = [button.geometry() for button in segments.buttons.values()]
    assert [place.left() for place in places[1:]] == [place.right() + 1 for place in places[:-1]]


def test_enter_elsewhere_in_a_dialog_presses_none_of_them(qtbot: QtBot) -> None:
    dialog = QDialog()
    qtbot.addWidget(dialog)
    layout = QVBoxLayout(dialog)
    done: list[object] = []
    segments = Segments([("a", "a"), ("b", "b")])
    for widget in (push_button("Do it", lambda: done.append("pressed")), toggle_button("On", done.append), segments):
        layout.addWidget(widget)
    segments.chosen.connect(done.append)
    dialog.show()
    QTest.keyClick(dialog, Qt.Key.Key_Return)
    assert done == []


def test_a_toggle_tells_whether_it_is_on(qtbot: QtBot) -> None:
    told: list[bool] = []
    button = toggle_button("Only not good", told.append)
    qtbot.addWidget(button)
    button.click()
    button.click()
    assert told == [True, False]
    assert toggle_button("On", told.append, on=True).isChecked()


def test_a_unit_keeps_its_room_whatever_the_line_looks_like(qtbot: QtBot) -> None:
    line = UnitLine("Hz")
    qtbot.addWidget(line)
    room = line.textMargins().right()
    assert room >= UNIT_COLUMN
    line.show()
    for look in ("wrong", ""):
        set_look(line, look)
        assert line.textMargins().right() == room, look
    empty = UnitLine()
    qtbot.addWidget(empty)
    empty.show()
    assert empty.textMargins().right() == room, "digits stand under one another"
