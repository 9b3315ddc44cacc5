"""What a screen reader gets of the painted panel: its rows as texts at their places, looks in words, the cursor."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtGui import QAccessible, QAccessibleInterface
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from app.panel.rendering import Attribute, Row, Rows
from app.project.model import Panel
from tests.pictures.stage import Setting, staged
from widgets.design.screen import cursor_line
from widgets.face.face import PanelFace

PLAIN, STALE, BLINK, INVERSE = Attribute.NONE, Attribute.STALE, Attribute.BLINK, Attribute.INVERSE
NAME, DESCRIPTION = QAccessible.Text.Name, QAccessible.Text.Description


def rows(*texts: str) -> Rows:
    return tuple(Row(text.ljust(20), (PLAIN,) * 20) for text in texts)


def children(widget: QWidget) -> Iterator[QAccessibleInterface]:
    interface = QAccessible.queryAccessibleInterface(widget)
    assert interface is not None
    for number in range(interface.childCount()):
        yield interface.child(number)


def spoken(face: PanelFace) -> list[str]:
    """The texts that a screen reader finds below the face, in order."""
    below = [child for child in children(face) if child.object() is face.grid]
    assert len(below) == 1, "the glass is a part of the face for assistive technology too"
    return [child.text(NAME) for child in children(face.grid)]


@pytest.fixture
def face(qtbot: QtBot) -> PanelFace:
    made = PanelFace()
    qtbot.addWidget(made)
    made.set_panel(Panel(rows=4, columns=20, start="run", keys=("left", "right", "enter")))
    made.set_rows(rows("BOOSTER PUMP", "Set point    42.5 Hz", "", "running"))
    made.resize(500, 300)
    made.show()
    return made


def test_the_rows_are_read_as_text(face: PanelFace) -> None:
    assert spoken(face) == ["BOOSTER PUMP", "Set point    42.5 Hz", "row 3: blank", "running"]
    assert all(child.role() == QAccessible.Role.StaticText for child in children(face.grid))
    assert "4 rows of 20" in QAccessible.queryAccessibleInterface(face).text(NAME)


def test_they_follow_what_is_shown(face: PanelFace) -> None:
    face.set_rows(rows("BOOSTER PUMP", "Set point    43.0 Hz", "tripped", "running"))
    assert spoken(face)[1:3] == ["Set point    43.0 Hz", "tripped"]
    face.set_panel(Panel(rows=2, columns=16, start="run"))
    assert spoken(face) == []
    face.set_rows(tuple(Row(text.ljust(16), (PLAIN,) * 16) for text in ("a", "b")))
    assert spoken(face) == ["a", "b"]


def test_each_is_where_it_is_painted(face: PanelFace) -> None:
    def placed() -> list[QRect]:
        corner = face.grid.mapToGlobal(QPoint(0, 0))
        return [child.rect().translated(-corner) for child in children(face.grid)]

    assert placed() == [face.grid.row_rect(number) for number in range(4)]
    face.set_zoom(30)
    assert placed() == [face.grid.row_rect(number) for number in range(4)]


def test_a_look_is_told_in_words(face: PanelFace) -> None:
    looks = (PLAIN,) * 13 + (STALE,) * 4 + (PLAIN,) * 3
    mixed = (INVERSE,) * 4 + (PLAIN,) * 2 + (BLINK | STALE,) * 3 + (PLAIN,) * 11
    face.set_rows(
        (
            Row("Set point    42.5 Hz", looks),
            Row("auto  12 Hz         ", mixed),
            Row(" " * 20, (STALE,) * 20),
            Row("plain".ljust(20), (PLAIN,) * 20),
        )
    )
    told = [child.text(DESCRIPTION) for child in children(face.grid)]
    assert told[0] == "old value: 42.5"
    assert told[1] == "old value: 12; blinks: 12; light on dark: auto"
    assert told[2:] == ["", ""]
    names = [child.text(NAME) for child in children(face.grid)]
    assert names == ["old value: Set point    42.5 Hz", "old value: auto  12 Hz", "row 3: blank", "plain"]


def test_it_draws_and_takes_nothing(face: PanelFace, qtbot: QtBot) -> None:
    label = face.grid.childAt(face.grid.row_rect(1).center())
    assert label is None, "the mouse goes to the cells"
    pressed: list[tuple[int, int]] = []
    face.grid.cell_pressed.connect(lambda row, column, _keys: pressed.append((row, column)))
    QTest.mouseClick(face.grid, Qt.MouseButton.LeftButton, pos=face.grid.cell_rect(1, 3).center())
    assert pressed == [(1, 3)]


def test_the_cursor_is_read_out_as_it_moves(monkeypatch: pytest.MonkeyPatch) -> None:
    said: list[str] = []
    monkeypatch.setattr(cursor_line, "announce", lambda _widget, words: said.append(words))
    with staged(Setting()) as window:
        face = window.design.editor.face
        window.design.show_view("screen")
        QTest.keyClick(face, Qt.Key.Key_Home, Qt.KeyboardModifier.ControlModifier)
        said.clear()
        QTest.keyClick(face, Qt.Key.Key_Right)
        QTest.keyClick(face, Qt.Key.Key_Down)
    assert said[0].startswith("Row 1, column 2")
    assert any(words.startswith("Row 2, column 2") for words in said)
