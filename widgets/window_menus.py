"""The menus of the main window, and the commands that belong to the window as a whole."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QMenu

from widgets.commands import command, mark_entry
from widgets.palette import Appearance

if TYPE_CHECKING:
    from widgets.window import MainWindow


class WindowMenus(QObject):
    """Makes the commands of the window at once, and the menu bar when `fill` is called: by then all parts exist."""

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self._window = window
        key = QKeySequence.StandardKey
        self.new = command(window, self.tr("&New\u2026"), window.new, key.New)
        self.open = command(window, self.tr("&Open\u2026"), window.open, key.Open)
        self.save = command(window, self.tr("&Save"), window.save, key.Save)
        self.save_as = command(window, self.tr("Save &as\u2026"), window.save_as, "Ctrl+Shift+S")
        self.quit = command(window, self.tr("&Quit"), window.close, "Ctrl+Q")
        self.quit.setMenuRole(QAction.MenuRole.QuitRole)
        self.undo = command(window, self.tr("&Undo"), window.document.undo, key.Undo)
        self.redo = command(window, self.tr("&Redo"), window.document.redo, key.Redo)
        self.full_screen = command(
            window, self.tr("&Full screen"), window.show_full_screen, "Ctrl+Shift+F", toggles=True
        )
        self.strip = command(window, self.tr("&Line strip"), window.strip.setVisible, "Ctrl+Shift+L", toggles=True)
        self.strip.setChecked(True)
        self.line_view = command(window, self.tr("Line &view"), window.show_line_view, "Ctrl+L", toggles=True)
        self.line_window = command(
            window, self.tr("In its &own window"), window.float_line_view, "Ctrl+Shift+V", toggles=True
        )
        self.shortcuts = command(window, self.tr("&Keys and shortcuts"), window.show_shortcuts, "Ctrl+F1")
        self.cautions = command(window, self.tr("&Cautions"), window.show_cautions, "Ctrl+Shift+F1")
        self.about = command(window, self.tr("&About Fanlight"), window.show_about, "Ctrl+Shift+H")
        self.about.setMenuRole(QAction.MenuRole.AboutRole)
        self.workplaces = [
            command(window, name, lambda number=number: window.show_workplace(number), f"Ctrl+{number + 1}")
            for number, name in enumerate((self.tr("&Design"), self.tr("&Bench")))
        ]
        group = QActionGroup(self)
        for action in self.workplaces:
            action.setCheckable(True)
            group.addAction(action)

    def fill(self) -> None:
        """Make the menu bar."""
        window = self._window
        bar = window.menuBar()
        file = bar.addMenu(self.tr("&File"))
        file.addActions([self.new, self.open])
        self.recent = file.addMenu(self.tr("Open &recent"))
        file.addSeparator()
        file.addActions([self.save, self.save_as])
        file.addSeparator()
        file.addAction(self.quit)
        self.show_recent()
        edit = bar.addMenu(self.tr("&Edit"))
        edit.addActions([self.undo, self.redo])
        view = bar.addMenu(self.tr("&View"))
        self._add_appearance(view)
        view.addActions([self.strip, self.full_screen])
        workplace = bar.addMenu(self.tr("&Workplace"))
        workplace.addActions(self.workplaces)
        self.design = bar.addMenu(self.tr("&Design"))
        self.design.aboutToShow.connect(lambda: window.design)
        window.bench.fill_menu(bar.addMenu(self.tr("&Bench")))
        line = bar.addMenu(self.tr("&Line"))
        line.addActions([self.line_view, self.line_window])
        line.addSeparator()
        window.line_view.fill_menu(line)
        help_menu = bar.addMenu(self.tr("&Help"))
        help_menu.addActions([self.shortcuts, self.cautions])
        help_menu.addSeparator()
        help_menu.addAction(self.about)

    def all(self) -> list[QMenu]:
        """The menus of the bar, filled."""
        _ = self._window.design  # its menu is filled when it is made
        found = [action.menu() for action in self._window.menuBar().actions()]
        return [menu for menu in found if isinstance(menu, QMenu)]

    def show_recent(self) -> None:
        """List the files that were opened last."""
        window, menu = self._window, self.recent
        menu.clear()
        for number, path in enumerate(window.settings.recent, start=1):
            text = f"&{number}  {path.name}  \u2013  {path.parent}".replace("&", "&&").replace("&&", "&", 1)
            action = mark_entry(menu.addAction(text))
            if number == 1:
                action.setShortcut("Ctrl+Shift+O")
            action.triggered.connect(lambda _checked=False, path=path: window.open_file(path))
        menu.setEnabled(bool(window.settings.recent))
        if window.settings.recent:
            menu.addSeparator()
            empty = menu.addAction(self.tr("&Empty this list"))
            empty.setShortcut("Ctrl+Shift+Del")
            empty.triggered.connect(self._empty_recent)

    def _empty_recent(self) -> None:
        self._window.settings.forget_all()
        self.show_recent()

    def name_steps(self) -> None:
        """Say what would be undone and done again."""
        document = self._window.document
        for action, name, unnamed, named in (
            (self.undo, document.undo_name, self.tr("&Undo"), self.tr("&Undo: {step}")),
            (self.redo, document.redo_name, self.tr("&Redo"), self.tr("&Redo: {step}")),
        ):
            action.setEnabled(name is not None)
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
