"""The keys that parts of the window handle by themselves, besides the shortcuts of commands: one table for those who
handle them and for the sheet of keys, so that it can promise nothing else than what happens.

A row is what people read, and for each deed the keys that do it. Handlers ask a `Bindings` for the deed of an event.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Final

from PySide6.QtCore import QCoreApplication, QKeyCombination, Qt
from PySide6.QtGui import QKeyEvent, QKeySequence

translate = QCoreApplication.translate
_BETWEEN: Final = " .. "
"""Between the keys of one deed."""


@dataclass(frozen=True, slots=True)
class KeyRow:
    """Some keys and what they do. Without words they are the keys of a command, which stands in a menu with them."""

    words: str
    deeds: Mapping[str, str]
    """For each deed its keys, in Qt's portable words."""

    @property
    def keys(self) -> tuple[str, ...]:
        """All keys of the row."""
        return tuple(key for keys in self.deeds.values() for key in keys.split(_BETWEEN))


@dataclass(frozen=True, slots=True)
class OwnKeys:
    """Keys of one part: its name, and what each does."""

    part: str
    rows: tuple[KeyRow, ...]


class Bindings:
    """What the keys of one part do: looked up by those who handle them."""

    def __init__(self, keys: Callable[[], OwnKeys]) -> None:
        self._keys = keys

    @cached_property
    def _deeds(self) -> dict[str, str]:
        rows = self._keys().rows
        return {
            QKeySequence(key).toString(): deed
            for row in rows
            for deed, keys in row.deeds.items()
            for key in keys.split(_BETWEEN)
        }

    def deed(self, event: QKeyEvent) -> str | None:
        """What a key asks for in this part; None if it means nothing here."""
        found = self._deeds.get(_name(event))
        if found is None and not event.modifiers() & _HELD:  # "+" needs Shift on some keyboards
            found = self._deeds.get(event.text())
        return found

    def first_key(self, deed: str) -> str:
        """The key that stands in menus beside what does the same."""
        return next(row.deeds[deed].split(_BETWEEN)[0] for row in self._keys().rows if deed in row.deeds)


_HELD: Final = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier | Qt.KeyboardModifier.MetaModifier
_SAME: Final = {Qt.Key.Key_Enter: Qt.Key.Key_Return, Qt.Key.Key_Backtab: Qt.Key.Key_Tab}


def _name(event: QKeyEvent) -> str:
    key = Qt.Key(event.key())
    modifiers = event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
    if key == Qt.Key.Key_Backtab:
        modifiers |= Qt.KeyboardModifier.ShiftModifier
    return QKeySequence(QKeyCombination(modifiers, _SAME.get(key, key))).toString()


def shown_keys(keys: tuple[str, ...]) -> str:
    """Keys as this platform writes them."""
    native = QKeySequence.SequenceFormat.NativeText
    return ", ".join(QKeySequence(each).toString(native) for each in keys)


def own_keys() -> list[OwnKeys]:
    """All of them, in the order of the window."""
    return [face_keys(), map_keys(), screens_keys(), tray_keys(), table_keys(), cell_keys(), strip_keys(), _elsewhere()]


def face_keys() -> OwnKeys:
    """Of the screen under edit. Typing is all that is left."""
    return OwnKeys(
        translate("OwnKeys", "Screen editor"),
        (
            KeyRow(
                translate("OwnKeys", "Move the cursor"), {"left": "Left", "right": "Right", "up": "Up", "down": "Down"}
            ),
            KeyRow(
                translate("OwnKeys", "Go to the previous or next field; at the end of the screen, start over"),
                {"field before": "Ctrl+Left", "field after": "Ctrl+Right"},
            ),
            KeyRow(
                translate("OwnKeys", "Go to the beginning or end of the row"), {"row begin": "Home", "row end": "End"}
            ),
            KeyRow(
                translate("OwnKeys", "Go to the first or last cell of the screen"),
                {"screen begin": "Ctrl+Home", "screen end": "Ctrl+End"},
            ),
            KeyRow(
                translate("OwnKeys", "Select a block of cells"),
                {
                    "block left": "Shift+Left",
                    "block right": "Shift+Right",
                    "block up": "Shift+Up",
                    "block down": "Shift+Down",
                },
            ),
            KeyRow(
                translate("OwnKeys", "Select to the beginning or end of the row or the screen"),
                {
                    "block to row begin": "Shift+Home",
                    "block to row end": "Shift+End",
                    "block to screen begin": "Ctrl+Shift+Home",
                    "block to screen end": "Ctrl+Shift+End",
                },
            ),
            KeyRow(
                translate("OwnKeys", "Open the properties of the field, or go to the beginning of the next row"),
                {"enter": "Return"},
            ),
            KeyRow(
                translate("OwnKeys", "On a field: try the panel here; press again to go back to editing"),
                {"try": "Space"},
            ),
            KeyRow(
                translate("OwnKeys", "Delete the selected fields, or the character at or before the cursor"),
                {"delete": "Del", "backspace": "Backspace .. Shift+Backspace"},
            ),
            KeyRow(
                translate("OwnKeys", "Edit the previous or next screen"),
                {"screen before": "PgUp", "screen after": "PgDown"},
            ),
            KeyRow(translate("OwnKeys", "Close the search, or clear the selection"), {"escape": "Esc"}),
            KeyRow("", {"place": "Ctrl+Return"}),
        ),
    )


def map_keys() -> OwnKeys:
    """Of the page map. A letter begins a search."""
    return OwnKeys(
        translate("OwnKeys", "Page map"),
        (
            KeyRow(
                translate("OwnKeys", "Go to the next screen in that direction"),
                {"left": "Left", "right": "Right", "up": "Up", "down": "Down"},
            ),
            KeyRow(
                translate("OwnKeys", "Also select the next screen in that direction"),
                {
                    "also left": "Shift+Left",
                    "also right": "Shift+Right",
                    "also up": "Shift+Up",
                    "also down": "Shift+Down",
                },
            ),
            KeyRow(
                translate("OwnKeys", "Move the selected screens"),
                {
                    "move left": "Ctrl+Left",
                    "move right": "Ctrl+Right",
                    "move up": "Ctrl+Up",
                    "move down": "Ctrl+Down",
                },
            ),
            KeyRow(
                translate("OwnKeys", "Move the selected screen backward or forward in its ring"),
                {"ring back": "Alt+Left .. Alt+Up", "ring on": "Alt+Right .. Alt+Down"},
            ),
            KeyRow(
                translate("OwnKeys", "Select the previous or next screen change"),
                {"screen change before": "PgUp", "screen change after": "PgDown"},
            ),
            KeyRow(translate("OwnKeys", "Go to the start screen"), {"start": "Home"}),
            KeyRow(translate("OwnKeys", "Edit the screen or the properties of the screen change"), {"open": "Return"}),
            KeyRow(translate("OwnKeys", "Add a screen"), {"add": "Ins"}),
            KeyRow(translate("OwnKeys", "Delete the selection"), {"delete": "Del .. Backspace"}),
            KeyRow(translate("OwnKeys", "Zoom in or out"), {"larger": "+ .. =", "smaller": "-"}),
            KeyRow(translate("OwnKeys", "Show the whole map"), {"whole": "0"}),
        ),
    )


def screens_keys() -> OwnKeys:
    """Of the list of screens; Return and F2 are Qt's own there."""
    return OwnKeys(
        translate("OwnKeys", "List of screens"),
        (
            KeyRow(translate("OwnKeys", "Edit the screen"), {"open": "Return"}),
            KeyRow(translate("OwnKeys", "Rename the screen"), {"rename": "F2"}),
            KeyRow(translate("OwnKeys", "Add a screen"), {"add": "Ins"}),
            KeyRow("", {"delete": "Backspace"}),
        ),
    )


def table_keys() -> OwnKeys:
    """Of the tables in Design."""
    return OwnKeys(
        translate("OwnKeys", "Tables in Design"),
        (
            KeyRow(translate("OwnKeys", "Add a row, or choose its kind first"), {"add": "Ins"}),
            KeyRow(
                translate("OwnKeys", "Delete whole rows, or clear the selected cells"), {"delete": "Del .. Backspace"}
            ),
            KeyRow(translate("OwnKeys", "Select the whole rows"), {"whole rows": "Shift+Space"}),
            KeyRow(translate("OwnKeys", "Select all"), {"all": "Ctrl+A"}),
            KeyRow(translate("OwnKeys", "Go down or up a row"), {"down": "Return", "up": "Shift+Return"}),
            KeyRow(
                translate("OwnKeys", "Go to the next or previous cell that can be edited, also into the next row"),
                {"next cell": "Tab", "cell before": "Shift+Tab"},
            ),
            KeyRow(
                translate("OwnKeys", "Leave the table for the next or previous area"),
                {"leave": "Ctrl+Tab", "leave back": "Ctrl+Shift+Tab"},
            ),
            KeyRow(
                translate("OwnKeys", "Select the current cell only; if it is, leave the table"),
                {"escape": "Esc"},
            ),
            KeyRow(translate("OwnKeys", "Properties of the row"), {"open": "Alt+Return"}),
            KeyRow(
                translate("OwnKeys", "Copy the current cell to all selected rows"),
                {"fill": "Ctrl+Return"},
            ),
            KeyRow(translate("OwnKeys", "Cut the cells"), {"cut": "Ctrl+X .. Shift+Del"}),
            KeyRow(
                "",
                {
                    "copy": "Ctrl+C .. Ctrl+Ins",
                    "copy headed": "Ctrl+Shift+Ins",
                    "paste": "Ctrl+V .. Shift+Ins",
                    "narrow": "Ctrl+F",
                    "duplicate": "Ctrl+D",
                    "duplicate rows": "Alt+Ins",
                    "delete rows": "Ctrl+Del",
                    "move up": "Alt+Up",
                    "move down": "Alt+Down",
                },
            ),
        ),
    )


def tray_keys() -> OwnKeys:
    """Of the signals beside the face."""
    return OwnKeys(
        translate("OwnKeys", "Signals beside the panel"),
        (
            KeyRow(translate("OwnKeys", "Place the selected signals at the cursor"), {"place": "Return"}),
            KeyRow(translate("OwnKeys", "Place the value only"), {"value": "Ctrl+Return"}),
            KeyRow(translate("OwnKeys", "Search"), {"find": "Ctrl+F"}),
        ),
    )


def cell_keys() -> OwnKeys:
    """Of a cell that is edited."""
    return OwnKeys(
        translate("OwnKeys", "Editing a cell"),
        (
            KeyRow(translate("OwnKeys", "Edit the content; typing replaces it"), {"begin": "F2"}),
            KeyRow(translate("OwnKeys", "Accept and go down or up"), {"enter": "Return", "enter up": "Shift+Return"}),
            KeyRow(
                translate("OwnKeys", "Accept and go to the next or previous cell"),
                {"tab": "Tab", "back tab": "Shift+Tab"},
            ),
            KeyRow(translate("OwnKeys", "Accept in all selected rows"), {"all": "Ctrl+Return"}),
            KeyRow(translate("OwnKeys", "Show the choices"), {"choose": "Down .. Alt+Down"}),
            KeyRow(translate("OwnKeys", "Cancel the change"), {"escape": "Esc"}),
        ),
    )


def strip_keys() -> OwnKeys:
    """Of the line strip."""
    return OwnKeys(
        translate("OwnKeys", "Line strip"),
        (
            KeyRow(translate("OwnKeys", "Previous or next transaction"), {"older": "Left", "newer": "Right"}),
            KeyRow(translate("OwnKeys", "Another line"), {"line above": "Up", "line below": "Down"}),
            KeyRow(translate("OwnKeys", "Show the transaction in the line view"), {"open": "Return"}),
            KeyRow(translate("OwnKeys", "Deselect the transaction"), {"escape": "Esc"}),
        ),
    )


def _elsewhere() -> OwnKeys:
    """Qt's own keys, which nobody here handles."""
    return OwnKeys(
        translate("OwnKeys", "Everywhere else"),
        (
            KeyRow(translate("OwnKeys", "Go to the next or previous area"), {"on": "Tab", "back": "Shift+Tab"}),
            KeyRow(translate("OwnKeys", "Open a menu by its underlined letter"), {"menu": _menu_keys()}),
            KeyRow(translate("OwnKeys", "Go to the menu bar"), {"menu bar": "F10"}),
            KeyRow(translate("OwnKeys", "Open the context menu"), {"context": "Shift+F10 .. Menu"}),
            KeyRow(translate("OwnKeys", "In the findings: go to the location"), {"place": "Return"}),
            KeyRow(
                translate("OwnKeys", "Press the button, check box or panel key that has the focus"),
                {"press": "Space"},
            ),
        ),
    )


def _menu_keys() -> str:
    """The first menus, each by its letter in the language of the window."""
    menus = (translate("WindowMenus", "&File"), translate("WindowMenus", "&Edit"), translate("WindowMenus", "&View"))
    return _BETWEEN.join(QKeySequence.mnemonic(menu).toString() for menu in menus)


FACE: Final = Bindings(face_keys)
MAP: Final = Bindings(map_keys)
SCREENS: Final = Bindings(screens_keys)
TRAY: Final = Bindings(tray_keys)
TABLE: Final = Bindings(table_keys)
CELL: Final = Bindings(cell_keys)
STRIP: Final = Bindings(strip_keys)
