"""The menus of the main window, and the commands that belong to the window as a whole."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt
from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QApplication, QMenu
from shiboken6 import isValid

from widgets.kit.commands import allow, command, listed
from widgets.kit.language import OWN_NAMES, Language
from widgets.kit.palette import Appearance
from widgets.kit.scaling import SIZES

if TYPE_CHECKING:
    from widgets.shell.window import MainWindow


class WindowMenus(QObject):
    """Makes the commands of the window at once, and the menu bar when `fill` is called: by then all parts exist."""

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self._window = window
        key = QKeySequence.StandardKey
        self.quit = command(window, self.tr("&Quit"), window.close, "Ctrl+Q")
        self.quit.setMenuRole(QAction.MenuRole.QuitRole)
        self.undo = command(window, self.tr("&Undo"), window.document.undo, key.Undo)
        self.redo = command(window, self.tr("&Redo"), window.document.redo, ["Ctrl+Shift+Z", "Ctrl+Y"])
        self.full_screen = command(
            window, self.tr("&Full screen"), window.show_full_screen, "Ctrl+Shift+F", toggles=True
        )
        self.strip = command(window, self.tr("&Line strip"), window.strip.setVisible, "Ctrl+Shift+L", toggles=True)
        self.strip.setChecked(True)
        self.line_view = command(window, self.tr("Line &view"), window.show_line_view, "Ctrl+L", toggles=True)
        self.line_window = command(
            window, self.tr("In its &own window"), window.float_line_view, "Ctrl+Shift+V", toggles=True
        )
        self.find = command(window, self.tr("&Find a command\u2026"), self._find, "Ctrl+J")
        self.shortcuts = command(window, self.tr("&Keys and shortcuts"), window.show_shortcuts, "Ctrl+F1")
        self.cautions = command(window, self.tr("&Cautions"), window.show_cautions, "Ctrl+Shift+F1")
        self.about = command(window, self.tr("&About Fanlight"), window.show_about, "Ctrl+Shift+H")
        self.about.setMenuRole(QAction.MenuRole.AboutRole)
        self.workspaces = [
            command(window, name, lambda number=number: window.show_workspace(number), f"Ctrl+{number + 1}")
            for number, name in enumerate((self.tr("&Design"), self.tr("&Bench"), self.tr("&Start-up")))
        ]
        group = QActionGroup(self)
        for action in self.workspaces:
            action.setCheckable(True)
            group.addAction(action)

    def fill(self) -> None:
        """Make the menu bar."""
        window = self._window
        bar = window.menuBar()
        file = bar.addMenu(self.tr("&File"))
        window.files.fill_menu(file)
        file.addSeparator()
        file.addAction(self.quit)
        edit = bar.addMenu(self.tr("&Edit"))
        edit.addActions([self.undo, self.redo])
        view = bar.addMenu(self.tr("&View"))
        self._add_appearance(view)
        self._add_sizes(view)
        self._add_language(view)
        view.addActions([self.strip, self.full_screen])
        workspace = bar.addMenu(self.tr("&Workspace"))
        workspace.addActions(self.workspaces)
        self.design = bar.addMenu(self.tr("&Design"))
        self.design.aboutToShow.connect(lambda: window.design)
        window.bench.fill_menu(bar.addMenu(self.tr("&Bench")))
        self.start_up = bar.addMenu(self.tr("&Start-up"))
        self.start_up.addAction(window.last_minutes.action)
        self.start_up.aboutToShow.connect(lambda: window.start_up)
        self.line = bar.addMenu(self.tr("&Line"))
        self.line.addActions([self.line_view, self.line_window])
        self.line.addSeparator()
        self.line.aboutToShow.connect(lambda: window.line_view)
        help_menu = bar.addMenu(self.tr("&Help"))
        help_menu.addActions([self.find, self.shortcuts, self.cautions])
        help_menu.addSeparator()
        help_menu.addAction(self.about)

    def all(self) -> list[QMenu]:
        """The menus of the bar, filled."""
        _ = (
            self._window.design,
            self._window.start_up,
            self._window.line_view,
        )  # their menus are filled when they are made
        found = [action.menu() for action in self._window.menuBar().actions()]
        return [menu for menu in found if isinstance(menu, QMenu)]

    def _find(self) -> None:
        """Ask for a command or a place by name, and go there."""
        from widgets.shell.finder import CommandFinder, command_targets, part_targets

        window = self._window
        focus = QApplication.focusWidget()
        commands = [each for each in listed(self.all()) if each.action is not self.find]
        targets = [*command_targets(commands), *part_targets(window.design)]
        finder = CommandFinder(targets, window.settings.recent_commands, window)
        finder.exec()
        chosen = finder.chosen
        finder.deleteLater()
        if chosen is not None:
            window.settings.remember_command(chosen.token)
            if focus is not None and isValid(focus):
                focus.setFocus(Qt.FocusReason.OtherFocusReason)  # many commands are about what has the focus
            chosen.run()

    def name_steps(self) -> None:
        """Say what would be undone and done again."""
        document = self._window.document
        for action, name, unnamed, named in (
            (self.undo, document.undo_name, self.tr("&Undo"), self.tr("&Undo: {step}")),
            (self.redo, document.redo_name, self.tr("&Redo"), self.tr("&Redo: {step}")),
        ):
            allow(action, name is not None, self.tr("no step available"))
            action.setText(unnamed if name is None else named.format(step=name.replace("&", "&&")))

    def _add_appearance(self, view: QMenu) -> None:
        window = self._window
        menu = view.addMenu(self.tr("&Appearance"))
        group = QActionGroup(self)
        for appearance, text, keys in (
            (Appearance.SYSTEM, self.tr("As the &system"), "Ctrl+Shift+1"),
            (Appearance.LIGHT, self.tr("&Light"), "Ctrl+Shift+2"),
            (Appearance.DARK, self.tr("&Dark"), "Ctrl+Shift+3"),
        ):
            action = command(window, text, lambda appearance=appearance: window.choose_look(appearance), keys)
            action.setCheckable(True)
            action.setChecked(appearance is window.settings.appearance)
            group.addAction(action)
            menu.addAction(action)

    def _add_language(self, view: QMenu) -> None:
        window = self._window
        menu = view.addMenu(self.tr("Lan&guage"))
        group = QActionGroup(self)
        for language, text, keys in (
            (Language.SYSTEM, self.tr("As the &system"), "Ctrl+Shift+F9"),
            (Language.ENGLISH, "&" + OWN_NAMES[Language.ENGLISH], "Ctrl+Shift+F10"),
            (Language.GERMAN, "&" + OWN_NAMES[Language.GERMAN], "Ctrl+Shift+F11"),
        ):
            action = command(window, text, lambda language=language: window.choose_language(language), keys)
            action.setCheckable(True)
            action.setChecked(language is window.settings.language)
            group.addAction(action)
            menu.addAction(action)

    def _add_sizes(self, view: QMenu) -> None:
        window = self._window
        menu = view.addMenu(self.tr("&Size"))
        group = QActionGroup(self)
        for number, percent in enumerate(SIZES):
            text = self.tr("{percent} %").format(percent=percent)
            action = command(
                window, text, lambda percent=percent: window.choose_size(percent), f"Ctrl+Shift+{4 + number}"
            )
            action.setCheckable(True)
            action.setChecked(percent == window.settings.size)
            group.addAction(action)
            menu.addAction(action)
