"""Driving the screen editor as a person does: by keys and by the mouse, and reading what it shows."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.project.model import Field
from widgets.design.screen.editor import ScreenEditor
from widgets.document.document import Document

Key = Qt.Key
NO = Qt.KeyboardModifier.NoModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier
CTRL = Qt.KeyboardModifier.ControlModifier
ALT = Qt.KeyboardModifier.AltModifier
LEFT = Qt.MouseButton.LeftButton


def press(editor: ScreenEditor, *keys: Qt.Key, modifiers: Qt.KeyboardModifier = NO) -> None:
    for key in keys:
        QTest.keyClick(editor.face, key, modifiers)


def type_in(editor: ScreenEditor, text: str) -> None:
    QTest.keyClicks(editor.face, text)


def text_of(document: Document, row: int, screen: str = "") -> str:
    found = document.project.screen_named[screen or document.selection.screen]
    return found.text[row] if row < len(found.text) else ""


def field(document: Document, index: int) -> Field:
    screen = document.screen
    assert screen is not None
    return screen.fields[index]


def fields(document: Document) -> tuple[Field, ...]:
    screen = document.screen
    assert screen is not None
    return screen.fields


def centre(editor: ScreenEditor, row: int, column: int) -> QPoint:
    return editor.face.grid.cell_rect(row, column).center()


def click(editor: ScreenEditor, row: int, column: int, modifiers: Qt.KeyboardModifier = NO) -> None:
    QTest.mouseClick(editor.face.grid, LEFT, modifiers, centre(editor, row, column))


def hold(editor: ScreenEditor, start: QPoint, *way: QPoint, modifiers: Qt.KeyboardModifier = NO) -> None:
    """Press the button and move, but do not let go."""
    grid = editor.face.grid
    QTest.mousePress(grid, LEFT, modifiers, start)
    for point in way:
        move(editor, point, modifiers)


def move(editor: ScreenEditor, to: QPoint, modifiers: Qt.KeyboardModifier = NO) -> None:
    """Move the mouse with the button down. QTest.mouseMove knows no modifiers."""
    grid = editor.face.grid
    event = QMouseEvent(
        QEvent.Type.MouseMove, QPointF(to), QPointF(grid.mapToGlobal(to)), Qt.MouseButton.NoButton, LEFT, modifiers
    )
    QApplication.sendEvent(grid, event)


def drop(editor: ScreenEditor, at: QPoint, modifiers: Qt.KeyboardModifier = NO) -> None:
    QTest.mouseRelease(editor.face.grid, LEFT, modifiers, at)


def drag(editor: ScreenEditor, start: QPoint, *way: QPoint, modifiers: Qt.KeyboardModifier = NO) -> None:
    hold(editor, start, *way, modifiers=modifiers)
    drop(editor, way[-1], modifiers)


def notice_of(editor: ScreenEditor) -> str:
    return editor.notice.text.text() if editor.notice.isVisible() else ""
