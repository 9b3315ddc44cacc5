"""The commands on the tables of signals, lines and followers, with their keys and their place in the Design menu."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu, QWidget

from widgets.design.part_commands import PartCommands
from widgets.design.tables.part_table import PartTable
from widgets.design.tables.table_work import TableWork
from widgets.design.views import DesignViews
from widgets.document.document import Document
from widgets.kit.commands import OWN_KEYS, command, keys_of
from widgets.kit.own_keys import TABLE


class TableCommands(QObject):
    """Work on the table in front; without one they say which there are."""

    chosen = Signal()
    """One of the commands, perhaps while another workspace is in front. Comes before what it does."""

    def __init__(
        self,
        owner: QWidget,
        views: DesignViews,
        document: Document,
        on_parts: PartCommands,
        to_uses: Callable[[], object],
    ) -> None:
        """Their keys hold in `owner`. `to_uses` goes to where the current signal is used."""
        super().__init__(owner)
        self._owner = owner
        self._views = views
        self._document = document
        self._on_parts = on_parts
        signals, lines = views.signals, views.lines
        self._actions: list[QAction | None] = [
            self._cells(self.tr("&Copy the cells"), lambda work: work.copy(), "copy"),
            self._cells(self.tr("Copy with &headings"), lambda work: work.copy(headed=True), "copy headed"),
            self._cells(self.tr("&Paste over the cells"), lambda work: work.paste(), "paste"),
            self._on_cells(self.tr("Paste as &new rows"), lambda work: work.paste(as_new=True), "Ctrl+Shift+Q"),
            None,
            self._cells(self.tr("&Fill down"), lambda work: work.fill_down(), "duplicate"),
            self._on_cells(self.tr("Fill s&eries"), lambda work: work.count_on(), "Ctrl+F9"),
            self._on_signals(self.tr("Nu&mber the names\u2026"), signals.number_names, "Ctrl+F2"),
            self._on_signals(self.tr("Cop&y by an offset\u2026"), signals.count_up, "Ctrl+F3"),
            None,
            self._on_table(self.tr("&Sort by this column"), lambda table: table.sort_by_current(), "Ctrl+F6"),
            self._on_signals(self.tr("&Keep this order"), signals.keep_order, "Ctrl+Shift+F6"),
            self._own(self.tr("Filte&r"), self._narrow, "narrow"),
            None,
            self._on_signals(self.tr("Sca&ling\u2026"), signals.scaling_wanted.emit, "Ctrl+F12"),
            self._on_signals(self.tr("&Value looks wrong\u2026"), signals.wrong_wanted.emit, "Ctrl+F10"),
            self._on_signals(self.tr("Sho&w uses"), to_uses, "Ctrl+F11"),
        ]
        for table in (signals.table, lines.lines, lines.followers):
            table.table.customContextMenuRequested.connect(
                lambda point, table=table: self._context_menu(table).popup(table.table.viewport().mapToGlobal(point))
            )

    def fill_menu(self, menu: QMenu) -> None:
        """Put the commands into a menu of the window."""
        for action in self._actions:
            if action is None:
                menu.addSeparator()
            else:
                menu.addAction(action)

    def _context_menu(self, table: PartTable) -> QMenu:
        """The same commands and those on rows, with the keys that they have in the table."""
        menu = QMenu(table)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        all_of_them = QMenu(menu)
        self.fill_menu(all_of_them)
        self._on_parts.fill_rows_menu(all_of_them)
        for action in all_of_them.actions():
            if action.isSeparator():
                menu.addSeparator()
                continue
            entry = menu.addAction(action.text(), action.trigger)
            entry.setEnabled(action.isEnabled())
            entry.setShortcuts(keys_of(action))
            entry.setShortcutContext(Qt.ShortcutContext.WidgetShortcut)
            entry.setShortcutVisibleInContextMenu(True)
        return menu

    def _table(self) -> PartTable | None:
        self.chosen.emit()
        table = self._views.table()
        if isinstance(table, PartTable) and table.work is not None:
            return table
        self._document.refused.emit(self.tr("This works on the tables of signals, lines and devices."))
        return None

    def _on_table(self, text: str, run: Callable[[PartTable], object], keys: str) -> QAction:
        def run_there() -> None:
            table = self._table()
            if table is not None:
                run(table)

        return command(self._owner, text, run_there, keys, within=True)

    def _on_cells(self, text: str, run: Callable[[TableWork], object], keys: str) -> QAction:
        return self._on_table(text, lambda table: None if table.work is None else run(table.work), keys)

    def _on_signals(self, text: str, run: Callable[[], object], keys: str) -> QAction:
        def run_there() -> None:
            self.chosen.emit()
            if self._views.view != "signals":
                self._views.show_view("signals")
            run()

        return command(self._owner, text, run_there, keys, within=True)

    def _cells(self, text: str, run: Callable[[TableWork], object], deed: str) -> QAction:
        def run_there() -> None:
            table = self._table()
            if table is not None and table.work is not None:
                run(table.work)

        return self._own(text, run_there, deed)

    def _narrow(self) -> None:
        table = self._table()
        if table is not None:
            table.to_narrow()

    def _own(self, text: str, run: Callable[[], object], deed: str) -> QAction:
        """A command whose keys the grid handles itself: they mean something else elsewhere."""
        action = QAction(text, self._owner)
        action.setProperty(OWN_KEYS, TABLE.first_key(deed))
        action.triggered.connect(lambda _checked=False: run())
        return action
