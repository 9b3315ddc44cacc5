"""What the keys of the face do while it is edited; which they are stands in `widgets.kit.own_keys`.

Commands that stand in a menu have their keys there (see `widgets.design.screen.actions`) and come before these.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Final

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent

from widgets.design.screen.commands import ScreenCommands
from widgets.document.document import Document
from widgets.kit.own_keys import FACE

_WAYS: Final = {"left": (0, -1), "right": (0, 1), "up": (-1, 0), "down": (1, 0)}
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
        self._deeds = self._make_deeds()

    def use_escape(self) -> None:
        """Say, while `escaped` is told, that something was closed by it."""
        self._escape_used = True

    def handle(self, event: QKeyEvent) -> bool:
        """Do what a key asks for. Returns whether it was used."""
        deed = FACE.deed(event)
        if deed == "try" and not self._on_what_takes_no_blank():
            deed = None
        if deed is None:
            return self._text(event, event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier)
        if deed == "escape":
            return self._escape()
        self._deeds[deed]()
        return True

    def _on_what_takes_no_blank(self) -> bool:
        selection = self._document.selection
        return bool(selection.fields) or selection.block is not None

    def _make_deeds(self) -> dict[str, Callable[[], object]]:
        commands, tell = self._commands, self.next_screen_wanted.emit
        deeds: dict[str, Callable[[], object]] = {
            "field before": lambda: commands.jump(-1),
            "field after": lambda: commands.jump(1),
            "enter": self._enter,
            "place": self.place_wanted.emit,
            "try": self.try_wanted.emit,
            "delete": commands.delete,
            "backspace": commands.backspace,
            "screen before": lambda: tell(-1),
            "screen after": lambda: tell(1),
        }
        for way, (down, right) in _WAYS.items():
            deeds[way] = partial(commands.step, down, right)
            deeds[f"block {way}"] = partial(self._stretch, down, right)
        for end in (False, True):
            name = "end" if end else "begin"
            deeds[f"row {name}"] = partial(commands.to_end, end, _PLAIN)
            deeds[f"screen {name}"] = partial(commands.to_end, end, _CTRL)
            deeds[f"block to row {name}"] = partial(commands.to_end, end, _SHIFT)
            deeds[f"block to screen {name}"] = partial(commands.to_end, end, _CTRL | _SHIFT)
        return deeds

    def _stretch(self, down: int, right: int) -> None:
        row, column = self._document.selection.cell
        self._commands.stretch_block(row + down, column + right)

    def _enter(self) -> None:
        if self._document.selection.fields and self._document.selection.block is None:
            self.field_opened.emit()
        else:
            self._commands.new_line()

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
