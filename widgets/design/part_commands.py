"""Commands that add parts of every kind from anywhere in Design, and that work on the rows of its tables."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu, QWidget

from widgets.design.behaviour.behaviour_view import BehaviourView
from widgets.design.tables.part_table import PartTable
from widgets.design.views import DesignViews
from widgets.document.document import Document
from widgets.kit.commands import OWN_KEYS, command
from widgets.kit.own_keys import TABLE


class PartCommands(QObject):
    """Each brings the view into which it adds. Their keys are Ctrl+W and then a letter for the kind of part."""

    chosen = Signal()
    """One of the commands, perhaps while another workspace is in front. Comes before what it does."""

    def __init__(self, owner: QWidget, views: DesignViews, document: Document) -> None:
        """Their keys hold in `owner`."""
        super().__init__(owner)
        self._owner = owner
        self._views = views
        self._document = document
        signals, behaviour, lines = views.signals, views.behaviour, views.lines
        self._adding: list[QAction | None] = [
            self._adds(self.tr("&Signal read from a device"), "signals", lambda: signals.add("register"), "S"),
            self._adds(self.tr("Signal that is a &bit of another"), "signals", lambda: signals.add("bit"), "B"),
            self._adds(self.tr("Signal &held in the panel"), "signals", lambda: signals.add("held"), "H"),
            None,
            self._adds(
                self.tr("Screen chan&ge by a key"), "behaviour", lambda: behaviour.add_screen_change("key"), "G"
            ),
            self._adds(
                self.tr("Screen change by a &condition"), "behaviour", lambda: behaviour.add_screen_change("when"), "C"
            ),
            self._adds(
                self.tr("Screen change after &idle time"), "behaviour", lambda: behaviour.add_screen_change("idle"), "I"
            ),
            self._adds(self.tr("&Action by a key"), "behaviour", lambda: behaviour.add_action("key"), "A"),
            self._adds(
                self.tr("Action &when a condition becomes true"), "behaviour", lambda: behaviour.add_action("when"), "W"
            ),
            None,
            self._adds(self.tr("&Line on a serial port (RTU)"), "lines", lambda: lines.add_line("serial"), "L"),
            self._adds(self.tr("Line by &Modbus TCP"), "lines", lambda: lines.add_line("tcp"), "M"),
            self._adds(
                self.tr("Line by RTU frames &over TCP"), "lines", lambda: lines.add_line("serial-over-tcp"), "O"
            ),
            self._adds(self.tr("&Device"), "lines", lines.add_follower, "D"),
        ]
        self._rows = [
            self._on_rows(self.tr("Duplicate the rows"), lambda table: table.duplicate_rows(), "duplicate rows"),
            self._on_rows(self.tr("Delete the rows"), lambda table: table.delete_rows(), "delete rows"),
            self._on_rows(self.tr("Move the rows up"), lambda table: table.move_rows(-1), "move up"),
            self._on_rows(self.tr("Move the rows down"), lambda table: table.move_rows(1), "move down"),
        ]

    def fill_menu(self, menu: QMenu) -> None:
        """Put the commands that add parts into a menu."""
        for action in self._adding:
            if action is None:
                menu.addSeparator()
            else:
                menu.addAction(action)

    def fill_rows_menu(self, menu: QMenu) -> None:
        """Put the commands on rows of tables into a menu."""
        menu.addSeparator()
        menu.addActions(self._rows)

    def _adds(self, text: str, view: str, add: Callable[[], object], letter: str) -> QAction:
        def run() -> None:
            self.chosen.emit()
            if self._views.view != view:
                self._views.show_view(view)
            add()

        return command(self._owner, text, run, f"Ctrl+W, {letter}", within=True)

    def _table(self) -> PartTable | BehaviourView | None:
        self.chosen.emit()
        table = self._views.table()
        if table is None:
            self._document.refused.emit(
                self.tr("This works on the rows of tables: signals, screen changes, actions, lines.")
            )
        return table

    def _on_rows(self, text: str, run: Callable[[PartTable | BehaviourView], object], deed: str) -> QAction:
        """A command whose keys the table handles itself: they mean something else elsewhere."""
        action = QAction(text, self._owner)
        action.setProperty(OWN_KEYS, TABLE.first_key(deed))

        def run_there() -> None:
            table = self._table()
            if table is not None:
                table.table.setFocus(Qt.FocusReason.OtherFocusReason)
                run(table)

        action.triggered.connect(lambda _checked=False: run_there())
        return action
