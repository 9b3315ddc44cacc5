"""What the keys of a table of parts do."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent, QKeySequence

from widgets.table_work import TableWork

if TYPE_CHECKING:
    from widgets.part_table import PartTable

_NONE: Final = Qt.KeyboardModifier.NoModifier
_CONTROL: Final = Qt.KeyboardModifier.ControlModifier
_SHIFT: Final = Qt.KeyboardModifier.ShiftModifier
_ALT: Final = Qt.KeyboardModifier.AltModifier
_ENTER: Final = (Qt.Key.Key_Return, Qt.Key.Key_Enter)


def press(table: PartTable, event: QKeyEvent) -> None:
    """Do what a key asks for; the event is accepted if that was anything."""
    work = table.work
    if _of_rows(table, event) or (work is not None and _of_cells(table, work, event)):
        event.accept()


def _of_rows(table: PartTable, event: QKeyEvent) -> bool:
    key = event.key()
    modifiers = event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
    grid = table.table
    if not modifiers and key == Qt.Key.Key_Insert:
        table.add()
    elif not modifiers and key in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace):
        table.delete()
    elif modifiers == _CONTROL and key == Qt.Key.Key_D:
        table.duplicate()
    elif modifiers == _CONTROL and key == Qt.Key.Key_Delete:
        table.delete_rows()
    elif modifiers == _ALT and key in (Qt.Key.Key_Up, Qt.Key.Key_Down):
        table.move_rows(-1 if key == Qt.Key.Key_Up else 1)
    elif key in _ENTER and (modifiers == _ALT or (table.editing is None and not modifiers)):
        table.open_current()
    elif modifiers == _SHIFT and key == Qt.Key.Key_Space:
        grid.select_rows(list(grid.area().rows), current=grid.currentIndex().row())
    else:
        return False
    return True


def _of_cells(table: PartTable, work: TableWork, event: QKeyEvent) -> bool:
    key = event.key()
    modifiers = event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
    if event.matches(QKeySequence.StandardKey.Copy):
        work.copy()
    elif event.matches(QKeySequence.StandardKey.Paste):
        work.paste()
    elif event.matches(QKeySequence.StandardKey.Cut):
        work.copy()
        table.delete()
    elif event.matches(QKeySequence.StandardKey.Find):
        table.to_narrow()
    elif key == Qt.Key.Key_Insert and modifiers == _CONTROL | _SHIFT:
        work.copy(headed=True)
    elif key in _ENTER and modifiers == _CONTROL:
        work.fill_current()
    elif key in _ENTER and modifiers in (_NONE, _SHIFT):
        work.down(-1 if modifiers else 1)
    else:
        return False
    return True
