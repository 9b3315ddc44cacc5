"""The keys that parts of the window handle by themselves, besides the commands of the menus: for the sheet of keys."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QCoreApplication
from PySide6.QtGui import QKeySequence

translate = QCoreApplication.translate


@dataclass(frozen=True, slots=True)
class OwnKeys:
    """Keys of one part: its name, and what each key does."""

    part: str
    keys: tuple[tuple[str, str], ...]
    """Key sequences in Qt's portable words, with " .. " between alternatives; and what they do."""


def shown_keys(keys: str) -> str:
    """Keys as this platform writes them."""
    native = QKeySequence.SequenceFormat.NativeText
    return ", ".join(QKeySequence(each).toString(native) for each in keys.split(" .. "))


def own_keys() -> list[OwnKeys]:
    """All of them, in the order of the window."""
    return [_on_the_face(), _on_the_map(), _on_screens(), _in_tables(), _in_cells(), _elsewhere()]


def _on_the_face() -> OwnKeys:
    return OwnKeys(
        translate("OwnKeys", "The screen under edit"),
        (
            ("Left .. Right .. Up .. Down", translate("OwnKeys", "Move the cursor")),
            ("Ctrl+Left .. Ctrl+Right", translate("OwnKeys", "Go to the word or field before or after")),
            ("Home .. End", translate("OwnKeys", "Go to the beginning or end of the row")),
            ("Ctrl+Home .. Ctrl+End", translate("OwnKeys", "Go to the first or last cell of the screen")),
            (
                "Shift+Left .. Shift+Right .. Shift+Up .. Shift+Down",
                translate("OwnKeys", "Select a block of cells"),
            ),
            ("Return", translate("OwnKeys", "Properties of the field, or the beginning of the next row")),
            ("Space", translate("OwnKeys", "On a field: operate the panel here; once more, and go on editing")),
            ("Del .. Backspace", translate("OwnKeys", "Delete the selected fields, or the character there or before")),
            ("PgUp .. PgDown", translate("OwnKeys", "Edit the screen before or after")),
            ("Esc", translate("OwnKeys", "Close the search, or select nothing")),
        ),
    )


def _on_the_map() -> OwnKeys:
    return OwnKeys(
        translate("OwnKeys", "The page map"),
        (
            ("Left .. Right .. Up .. Down", translate("OwnKeys", "Go to the next screen in that direction")),
            (
                "Shift+Left .. Shift+Right .. Shift+Up .. Shift+Down",
                translate("OwnKeys", "Select the screen there too"),
            ),
            ("Ctrl+Left .. Ctrl+Right .. Ctrl+Up .. Ctrl+Down", translate("OwnKeys", "Move the selected screens")),
            ("PgUp .. PgDown", translate("OwnKeys", "Select the turn before or after")),
            ("Home", translate("OwnKeys", "Go to the start screen")),
            ("Return", translate("OwnKeys", "Edit the screen, or the properties of the turn")),
            ("Ins", translate("OwnKeys", "Add a screen")),
            ("Del", translate("OwnKeys", "Delete what is selected")),
            ("+ .. -", translate("OwnKeys", "Larger or smaller")),
            ("0", translate("OwnKeys", "Show the whole map")),
        ),
    )


def _on_screens() -> OwnKeys:
    return OwnKeys(
        translate("OwnKeys", "The list of screens"),
        (
            ("Return", translate("OwnKeys", "Edit the screen")),
            ("F2", translate("OwnKeys", "Rename the screen")),
            ("Ins", translate("OwnKeys", "Add a screen")),
        ),
    )


def _in_tables() -> OwnKeys:
    return OwnKeys(
        translate("OwnKeys", "Tables in Design"),
        (
            ("Ins", translate("OwnKeys", "Add a row, or choose of which kind")),
            ("Del", translate("OwnKeys", "Delete whole rows, or empty the selected cells")),
            ("Shift+Space", translate("OwnKeys", "Select the whole rows")),
            ("Ctrl+A", translate("OwnKeys", "Select all")),
            ("Return .. Shift+Return", translate("OwnKeys", "Go down or up a row")),
            ("Alt+Return", translate("OwnKeys", "Properties of the row")),
            ("Ctrl+X", translate("OwnKeys", "Copy the cells and empty them")),
        ),
    )


def _in_cells() -> OwnKeys:
    return OwnKeys(
        translate("OwnKeys", "A cell under edit"),
        (
            ("F2", translate("OwnKeys", "Begin to edit what stands there; typing replaces it")),
            ("Return .. Shift+Return", translate("OwnKeys", "Take it over and go down or up")),
            ("Tab .. Shift+Tab", translate("OwnKeys", "Take it over and go to the next cell or back")),
            ("Ctrl+Return", translate("OwnKeys", "Take it over into all selected rows")),
            ("Alt+Down", translate("OwnKeys", "Show what can be chosen")),
            ("Esc", translate("OwnKeys", "Leave it as it was")),
        ),
    )


def _elsewhere() -> OwnKeys:
    return OwnKeys(
        translate("OwnKeys", "Elsewhere"),
        (
            ("Tab .. Shift+Tab", translate("OwnKeys", "Go to the next part or back")),
            (_menu_keys(), translate("OwnKeys", "Open a menu by its underlined letter")),
            ("F10", translate("OwnKeys", "Go to the menu bar")),
            ("Shift+F10 .. Menu", translate("OwnKeys", "Open the menu of what has the focus")),
            ("Return", translate("OwnKeys", "In the findings: go to the place")),
            ("Left .. Right", translate("OwnKeys", "On the line strip: the transaction before or after")),
            ("Up .. Down", translate("OwnKeys", "On the line strip: another line")),
            ("Space", translate("OwnKeys", "Press what has the focus: a button, a box, a key of the panel")),
        ),
    )


def _menu_keys() -> str:
    """The first menus, each by its letter in the language of the window."""
    menus = (translate("WindowMenus", "&File"), translate("WindowMenus", "&Edit"), translate("WindowMenus", "&View"))
    return " .. ".join(QKeySequence.mnemonic(menu).toString() for menu in menus)
