"""Commands: actions with a key and a place in a menu, which can say why they cannot be used just now."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMenu, QWidget

Keys = QKeySequence.StandardKey | str | Sequence[str]
"""A standard key of the platform, a key sequence in Qt's portable words, or several of these words."""

WHY_OFF: Final = "why off"
"""Dynamic property of a command: why it cannot be used just now, in words."""
ENTRY: Final = "entry"
"""Dynamic property of an action of a menu that is an entry of a list (a recent file), and no command with a key."""
OWN_KEYS: Final = "own keys"
"""Dynamic property of a command whose key is handled by the widget itself: the keys, in Qt's portable words."""


def command(
    owner: QWidget,
    text: str,
    run: Callable[..., object],
    keys: Keys,
    *,
    toggles: bool = False,
    within: bool = False,
) -> QAction:
    """Make a command of `owner`. `run` gets whether it is on if the command `toggles`, else nothing.

    With `within` its keys hold only while the focus is in `owner`; else everywhere in the window.
    """
    action = QAction(text, owner)
    action.setCheckable(toggles)
    if isinstance(keys, QKeySequence.StandardKey):
        # Without the names of multimedia keys, which Qt lists too and few keyboards have.
        bindings = QKeySequence.keyBindings(keys)
        action.setShortcuts([each for each in bindings if "+" in each.toString()] or bindings)
    elif isinstance(keys, str):
        action.setShortcut(QKeySequence(keys))
    else:
        action.setShortcuts([QKeySequence(each) for each in keys])
    if within:
        action.setShortcutContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
    if toggles:
        action.toggled.connect(run)
    else:
        action.triggered.connect(lambda _checked=False: run())
    owner.addAction(action)
    return action


def allow(action: QAction, allowed: bool, why_not: str = "") -> None:
    """Let a command be used, or not; then `why_not` says why."""
    action.setEnabled(allowed)
    action.setProperty(WHY_OFF, "" if allowed else why_not)


def why_off(action: QAction) -> str:
    """Why a command cannot be used just now; empty if it can, or nobody knows why not."""
    return "" if action.isEnabled() else str(action.property(WHY_OFF) or "")


def mark_entry(action: QAction) -> QAction:
    """Call an action an entry of a list, or a command told elsewhere once more: it needs no key. Returns it."""
    action.setProperty(ENTRY, True)
    return action


def is_entry(action: QAction) -> bool:
    """Whether an action is an entry of a list."""
    return bool(action.property(ENTRY))


def plain(text: str) -> str:
    """A menu text without the marks of its access key and without the points that promise a question."""
    return text.replace("&&", "\0").replace("&", "").replace("\0", "&").rstrip("\u2026")


def native(sequences: Iterable[QKeySequence]) -> str:
    """Keys as this platform writes them, the same ones once."""
    return ", ".join(dict.fromkeys(each.toString(QKeySequence.SequenceFormat.NativeText) for each in sequences))


def keys_of(action: QAction) -> list[QKeySequence]:
    """The keys of a command, also where a widget handles them itself."""
    own = str(action.property(OWN_KEYS) or "")
    return action.shortcuts() or ([QKeySequence(own)] if own else [])


@dataclass(frozen=True, slots=True)
class Listed:
    """A command where it stands in the menus."""

    action: QAction
    path: tuple[str, ...]
    """The titles of the menus that lead to it, the outermost first."""

    @property
    def name(self) -> str:
        """What it says."""
        return plain(self.action.text())


def list_commands(menus: Iterable[QMenu]) -> Iterator[Listed]:
    """Everything in these menus and the menus in them, in order."""
    for menu in menus:
        yield from _list(menu, (plain(menu.title()),))


def _list(menu: QMenu, path: tuple[str, ...]) -> Iterator[Listed]:
    for action in menu.actions():
        inner = action.menu()
        if isinstance(inner, QMenu):
            yield from _list(inner, (*path, plain(inner.title())))
        elif not action.isSeparator():
            yield Listed(action, path)
