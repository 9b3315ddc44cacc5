"""The menus of the main window, and the commands that belong to the window as a whole."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import QObject, Signal, SignalInstance
from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QMainWindow, QMenu

from widgets.document.document import Document
from widgets.document.settings import Settings
from widgets.kit.commands import Keys, allow, command
from widgets.kit.language import OWN_NAMES, Language
from widgets.kit.palette import Appearance
from widgets.kit.scaling import SIZES


class WindowMenus(QObject):
    """Makes the commands of the window at once, and the menu bar when `fill` is called: by then all parts exist."""

    workspace_chosen = Signal(int)
    """Counted from 0 in the order of the switcher."""
    blinking_toggled = Signal(bool)
    strip_toggled = Signal(bool)
    full_screen_toggled = Signal(bool)
    line_view_toggled = Signal(bool)
    line_window_toggled = Signal(bool)
    find_wanted = Signal()
    first_steps_wanted = Signal()
    steps_wanted = Signal()
    shortcuts_wanted = Signal()
    cautions_wanted = Signal()
    about_wanted = Signal()
    appearance_chosen = Signal(object)
    """An `Appearance`."""
    language_chosen = Signal(object)
    """A `Language`."""
    size_chosen = Signal(int)
    """In per cent."""

    def __init__(self, window: QMainWindow, document: Document, settings: Settings) -> None:
        super().__init__(window)
        self._window = window
        self._document = document
        self._settings = settings
        key = QKeySequence.StandardKey
        self.quit = self._command(self.tr("&Quit"), window.close, "Ctrl+Q")
        self.quit.setMenuRole(QAction.MenuRole.QuitRole)
        self.undo = self._command(self.tr("&Undo"), document.undo, key.Undo)
        self.redo = self._command(self.tr("&Redo"), document.redo, ["Ctrl+Shift+Z", "Ctrl+Y"])
        self.steps = self._command(self.tr("&Steps\u2026"), self.steps_wanted.emit, "Ctrl+Alt+Z")
        self.full_screen = self._toggle(self.tr("&Full screen"), self.full_screen_toggled, "Ctrl+Shift+F")
        self.strip = self._toggle(self.tr("&Line strip"), self.strip_toggled, "Ctrl+Shift+L")
        self.strip.setChecked(True)
        self.blinking = self._toggle(self.tr("Panel cells &blink"), self.blinking_toggled, "Ctrl+Shift+F12")
        self.blinking.setChecked(settings.blinks)
        self.line_view = self._toggle(self.tr("Line &view"), self.line_view_toggled, "Ctrl+L")
        self.line_window = self._toggle(self.tr("In its &own window"), self.line_window_toggled, "Ctrl+Shift+V")
        self.find = self._command(self.tr("&Find a command\u2026"), self.find_wanted.emit, "Ctrl+J")
        self.first_steps = self._command(self.tr("Fi&rst steps"), self.first_steps_wanted.emit, "Ctrl+Alt+F")
        self.shortcuts = self._command(self.tr("&Keys and shortcuts"), self.shortcuts_wanted.emit, "Ctrl+F1")
        self.cautions = self._command(self.tr("&Cautions"), self.cautions_wanted.emit, "Ctrl+Shift+F1")
        self.about = self._command(self.tr("&About Fanlight"), self.about_wanted.emit, "Ctrl+Shift+H")
        self.about.setMenuRole(QAction.MenuRole.AboutRole)
        self.workspaces = [
            self._command(name, partial(self.workspace_chosen.emit, number), f"Ctrl+{number + 1}")
            for number, name in enumerate(
                (self.tr("&Design"), self.tr("&Bench"), self.tr("&Start-up"), self.tr("&Trial"))
            )
        ]
        group = QActionGroup(self)
        for action in self.workspaces:
            action.setCheckable(True)
            group.addAction(action)

    def fill(
        self,
        files: Callable[[QMenu], object],
        bench: Callable[[QMenu], object],
        last_minutes: QAction,
        connecting: Callable[[QMenu], object],
        finding_out: QAction,
        edit: Callable[[QMenu], object],
    ) -> None:
        """Make the menu bar. `files`, `bench`, `connecting` and `edit` put their commands into their menus."""
        bar = self._window.menuBar()
        file = bar.addMenu(self.tr("&File"))
        files(file)
        file.addSeparator()
        file.addAction(self.quit)
        menu = bar.addMenu(self.tr("&Edit"))
        menu.addActions([self.undo, self.redo, self.steps])
        edit(menu)
        view = bar.addMenu(self.tr("&View"))
        self._add_appearance(view)
        self._add_sizes(view)
        self._add_language(view)
        view.addActions([self.strip, self.blinking, self.full_screen])
        workspace = bar.addMenu(self.tr("&Workspace"))
        workspace.addActions(self.workspaces)
        self.design = bar.addMenu(self.tr("&Design"))
        bench(bar.addMenu(self.tr("&Bench")))
        self.start_up = bar.addMenu(self.tr("&Start-up"))
        self.start_up.addAction(last_minutes)
        self.trial = bar.addMenu(self.tr("&Trial"))
        self.line = bar.addMenu(self.tr("&Line"))
        connecting(self.line)
        self.line.addSeparator()
        self.line.addActions([self.line_view, self.line_window])
        self.line.addSeparator()
        self.line.addAction(finding_out)
        help_menu = bar.addMenu(self.tr("&Help"))
        help_menu.addActions([self.find, self.first_steps, self.shortcuts, self.cautions])
        help_menu.addSeparator()
        help_menu.addAction(self.about)

    def made(self) -> list[QMenu]:
        """The menus of the bar as they are, of which some are filled when they are first opened."""
        return [menu for action in self._window.menuBar().actions() if isinstance(menu := action.menu(), QMenu)]

    def all(self) -> list[QMenu]:
        """The menus of the bar, filled."""
        menus = self.made()
        for menu in menus:
            menu.aboutToShow.emit()
        return menus

    def name_steps(self) -> None:
        """Say what would be undone and done again."""
        document = self._document
        for action, name, unnamed, named in (
            (self.undo, document.undo_name, self.tr("&Undo"), self.tr("&Undo: {step}")),
            (self.redo, document.redo_name, self.tr("&Redo"), self.tr("&Redo: {step}")),
        ):
            allow(action, name is not None, self.tr("no step available"))
            action.setText(unnamed if name is None else named.format(step=name.replace("&", "&&")))

    def _add_appearance(self, view: QMenu) -> None:
        menu = view.addMenu(self.tr("&Appearance"))
        group = QActionGroup(self)
        for appearance, text, keys in (
            (Appearance.SYSTEM, self.tr("As the &system"), "Ctrl+Shift+1"),
            (Appearance.LIGHT, self.tr("&Light"), "Ctrl+Shift+2"),
            (Appearance.DARK, self.tr("&Dark"), "Ctrl+Shift+3"),
        ):
            action = self._command(text, partial(self.appearance_chosen.emit, appearance), keys)
            action.setCheckable(True)
            action.setChecked(appearance is self._settings.appearance)
            group.addAction(action)
            menu.addAction(action)

    def _add_language(self, view: QMenu) -> None:
        menu = view.addMenu(self.tr("Lan&guage"))
        group = QActionGroup(self)
        for language, text, keys in (
            (Language.SYSTEM, self.tr("As the &system"), "Ctrl+Shift+F9"),
            (Language.ENGLISH, "&" + OWN_NAMES[Language.ENGLISH], "Ctrl+Shift+F10"),
            (Language.GERMAN, "&" + OWN_NAMES[Language.GERMAN], "Ctrl+Shift+F11"),
        ):
            action = self._command(text, partial(self.language_chosen.emit, language), keys)
            action.setCheckable(True)
            action.setChecked(language is self._settings.language)
            group.addAction(action)
            menu.addAction(action)

    def _add_sizes(self, view: QMenu) -> None:
        menu = view.addMenu(self.tr("&Size"))
        group = QActionGroup(self)
        for number, percent in enumerate(SIZES):
            text = self.tr("{percent} %").format(percent=percent)
            action = self._command(text, partial(self.size_chosen.emit, percent), f"Ctrl+Shift+{4 + number}")
            action.setCheckable(True)
            action.setChecked(percent == self._settings.size)
            group.addAction(action)
            menu.addAction(action)

    def _command(self, text: str, run: Callable[[], object], keys: Keys) -> QAction:
        return command(self._window, text, run, keys)

    def _toggle(self, text: str, toggled: SignalInstance, keys: Keys) -> QAction:
        return command(self._window, text, toggled.emit, keys, toggles=True)
