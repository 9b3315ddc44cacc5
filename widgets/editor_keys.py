"""Which key does what on the face while it is edited: the one place where keys go to the cursor and to typing.

Commands that stand in a menu have their keys there (see `widgets.editor_actions`) and come before these.
"""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent

from widgets.document import Document
from widgets.screen_commands import ScreenCommands

_ARROWS: Final = {
    Qt.Key.Key_Left: (0, -1),
    Qt.Key.Key_Right: (0, 1),
    Qt.Key.Key_Up: (-1, 0),
    Qt.Key.Key_Down: (1, 0),
}
_PLAIN: Final = Qt.KeyboardModifier.NoModifier
_SHIFT: Final = Qt.KeyboardModifier.ShiftModifier
_CTRL: Final = Qt.KeyboardModifier.ControlModifier
_ALT: Final = Qt.KeyboardModifier.AltModifier
_META: Final = Qt.KeyboardModifier.MetaModifier


class EditorKeys(QObject):
    """Hands the keys of the face to the commands of the cursor; the rest it asks for by signals."""

    escaped = Signal()
    """Escape, before it deselects: whoever has something open closes it and calls `use_escape`."""
    next_screen_wanted = Signal(int)
    field_opened = Signal()
    place_wanted = Signal()
    """A field is to be placed at the cursor."""
    try_wanted = Signal()
    """The panel is to be operated in place."""

    def __init__(self, document: Document, commands: ScreenCommands, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._commands = commands
        self._escape_used = False

    def use_escape(self) -> None:
        """Say, while `escaped` is told, that something was closed by it."""
        self._escape_used = True

    def handle(self, event: QKeyEvent) -> bool:
        """Do what a key asks for. Returns whether it was used."""
        key = Qt.Key(event.key())
        modifiers = event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
        if key in _ARROWS:
            return self._arrow(_ARROWS[key], modifiers)
        if key in (Qt.Key.Key_Home, Qt.Key.Key_End):
            return self._commands.to_end(key == Qt.Key.Key_End, modifiers)
        if key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            return self._enter(modifiers)
        if key == Qt.Key.Key_Backspace and modifiers in (_PLAIN, _SHIFT):
            self._commands.backspace()
            return True
        return self._plain_key(key) if modifiers == _PLAIN and self._is_command(key) else self._text(event, modifiers)

    def _is_command(self, key: Qt.Key) -> bool:
        selection = self._document.selection
        if key == Qt.Key.Key_Space:  # among text a blank; on what cannot take one it is free
            return bool(selection.fields) or selection.block is not None
        return key in (Qt.Key.Key_PageUp, Qt.Key.Key_PageDown, Qt.Key.Key_Delete, Qt.Key.Key_Escape)

    def _plain_key(self, key: Qt.Key) -> bool:
        if key == Qt.Key.Key_Escape:
            return self._escape()
        if key == Qt.Key.Key_Delete:
            self._commands.delete()
        elif key == Qt.Key.Key_Space:
            self.try_wanted.emit()
        else:
            self.next_screen_wanted.emit(-1 if key == Qt.Key.Key_PageUp else 1)
        return True

    def _arrow(self, way: tuple[int, int], modifiers: Qt.KeyboardModifier) -> bool:
        if modifiers == _PLAIN:
            self._commands.step(*way)
        elif modifiers == _SHIFT:
            row, column = self._document.selection.cell
            self._commands.stretch_block(row + way[0], column + way[1])
        elif modifiers == _CTRL and way[0] == 0:
            self._commands.jump(way[1])
        else:
            return False
        return True

    def _enter(self, modifiers: Qt.KeyboardModifier) -> bool:
        if modifiers == _CTRL:
            self.place_wanted.emit()
            return True
        if modifiers != _PLAIN:
            return False
        if self._document.selection.fields and self._document.selection.block is None:
            self.field_opened.emit()
        else:
            self._commands.new_line()
        return True

    def _escape(self) -> bool:
        self._escape_used = False
        self.escaped.emit()
        return self._escape_used or self._commands.select_nothing()

    def _text(self, event: QKeyEvent, modifiers: Qt.KeyboardModifier) -> bool:
        text = event.text()
        if not text or not text.isprintable():
            return False
        # AltGr arrives as Ctrl+Alt on some systems and still types a character.
        alt_gr = bool(modifiers & _CTRL) and bool(modifiers & _ALT)
        if modifiers & (_CTRL | _ALT | _META) and not alt_gr:
            return False
        self._commands.type(text)
        return True
