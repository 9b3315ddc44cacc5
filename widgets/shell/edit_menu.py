"""The commands of the Edit menu that everybody looks for there: they do to what has the focus what their keys do."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from PySide6.QtCore import QEvent, QKeyCombination, QObject, Qt
from PySide6.QtGui import QAction, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QApplication, QLineEdit, QMenu, QMenuBar, QWidget
from shiboken6 import isValid

from widgets.face.face import PanelFace
from widgets.kit.commands import allow

_CONTEXT: Final = Qt.ShortcutContext


class EditMenu(QObject):
    """Cut, copy, paste, delete, select all and find.

    Whatever has the focus handles these keys in its own way, by an editor's own means, by a command or by a handler of
    keys; so a command is its key, handed to what had the focus before the menu.
    """

    def __init__(self, window: QWidget, find: Callable[[], object], nothing: Callable[[str], object]) -> None:
        """`find` looks for something where nothing that has the focus does; `nothing` is told what did nothing."""
        super().__init__(window)
        self._window = window
        self._find = find
        self._nothing = nothing
        self._focus: QWidget | None = None
        self._selected = (-1, 0)
        """In a line of text: from where, how much."""
        self.actions = [
            self._action(self.tr("Cu&t"), "Ctrl+X"),
            self._action(self.tr("&Copy"), "Ctrl+C"),
            self._action(self.tr("&Paste"), "Ctrl+V"),
            self._action(self.tr("&Delete"), "Del"),
            self._action(self.tr("Select &all"), "Ctrl+A"),
        ]
        self.find = self._action(self.tr("&Find\u2026"), "Ctrl+F")
        QApplication.instance().focusChanged.connect(self._follow)  # type: ignore[union-attr]

    def fill_menu(self, menu: QMenu) -> None:
        """Put the commands into a menu."""
        menu.addSeparator()
        menu.addActions(self.actions)
        menu.addSeparator()
        menu.addAction(self.find)
        menu.aboutToShow.connect(self._look)
        self._look()

    def _action(self, text: str, keys: str) -> QAction:
        action = QAction(text, self)
        # For the menu to show. The key itself belongs to what has the focus: no widget but the menu has this action.
        action.setShortcut(QKeySequence(keys))
        action.setShortcutContext(_CONTEXT.WidgetShortcut)
        action.triggered.connect(lambda _checked=False: self._run(action))
        return action

    def _follow(self, _before: QWidget | None, now: QWidget | None) -> None:
        passing = now is None or now is self._window or isinstance(now, QMenu | QMenuBar)
        if now is not None and not passing and now.window() is self._window:
            before, self._focus = self._focus, now
            if before is None:
                self._look()
            if isinstance(now, QLineEdit) and now is not before:
                self._selected = _selection(now)
                now.selectionChanged.connect(self._keep_selection, Qt.ConnectionType.UniqueConnection)

    def _keep_selection(self) -> None:
        """Qt lets a line of text lose its selection as the menu bar gets the focus: it is taken up again."""
        if isinstance(self._focus, QLineEdit) and self._focus.hasFocus():
            self._selected = _selection(self._focus)

    @property
    def target(self) -> QWidget | None:
        """What the commands are about; None if nothing in the window has the focus, or it is gone."""
        focus = self._focus
        return focus if focus is not None and isValid(focus) and focus.isVisible() else None

    def _look(self) -> None:
        for action in self.actions:
            allow(action, self.target is not None, self.tr("nothing in the window has the focus"))

    def _run(self, action: QAction) -> None:
        target = self.target
        if isinstance(target, QLineEdit) and not target.hasSelectedText() and self._selected[0] >= 0:
            target.setSelection(*self._selected)
        if target is not None and not _operates(target) and _hand(target, action.shortcut()):
            return
        if action is self.find:
            self._find()
        else:
            self._nothing(self.tr("There is nothing here for this command"))


def _selection(line: QLineEdit) -> tuple[int, int]:
    return line.selectionStart(), line.selectionLength()


def _operates(target: QWidget) -> bool:
    """Whether keys that it gets are those of the panel: nothing in a menu presses them."""
    around: QWidget | None = target
    while around is not None:
        if isinstance(around, PanelFace):
            return not around.editing
        around = around.parentWidget()
    return False


def _hand(target: QWidget, keys: QKeySequence) -> bool:
    """Hand a key to a widget as Qt would. False if it means nothing there.

    An editor that claims it gets it, then a command of the widget or of what it lies in, then the widget and what it
    lies in.
    """
    if _send(QEvent.Type.ShortcutOverride, target, keys):
        return _send(QEvent.Type.KeyPress, target, keys)
    around: QWidget | None = target
    while around is not None and not around.isWindow():
        for action in around.actions():
            here = around is target or action.shortcutContext() is not _CONTEXT.WidgetShortcut
            if here and action.isEnabled() and keys in action.shortcuts():
                action.trigger()
                return True
        around = around.parentWidget()
    return _send(QEvent.Type.KeyPress, target, keys)


def _send(kind: QEvent.Type, target: QWidget, keys: QKeySequence) -> bool:
    combination: QKeyCombination = keys[0]  # type: ignore[index]  # unknown to the stubs
    event = QKeyEvent(kind, combination.key(), combination.keyboardModifiers())
    event.setAccepted(kind is QEvent.Type.KeyPress)
    QApplication.sendEvent(target, event)
    return event.isAccepted()
