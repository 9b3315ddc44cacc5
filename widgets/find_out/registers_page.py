"""The page "Registers": what a device's registers hold, a name for one that is known, and a closer search."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QLineEdit, QStackedWidget, QVBoxLayout, QWidget

from app.matching.advice import Namer
from app.probing.registers import Pass, estimate
from app.probing.untouched import address_span
from app.signals.numbering import LAST_ADDRESS, Table
from app.snapshots.snapshot import RegisterPlace
from widgets.find_out.found_tables import FoundColumn, FoundRegistersModel
from widgets.find_out.labelled import labelled
from widgets.find_out.never_touch import NeverTouch
from widgets.kit.controls import Choice, push_button
from widgets.kit.dialogs.dialog import WholeArea
from widgets.kit.empty_state import EmptyState
from widgets.kit.flow import FlowLayout
from widgets.kit.plain import plain_label
from widgets.kit.quick_cells import QuickTable
from widgets.kit.scaling import line_height, scaled
from widgets.kit.section import Section
from widgets.kit.tables import add_copying, selected_rows, set_widths

_IN_SIGHT: Final = 4
"""Registers that are seen at least, however low the window."""


class RegistersPage(QWidget):
    """Whoever owns it does what is wanted."""

    search_wanted = Signal()
    read_wanted = Signal()
    save_wanted = Signal()
    name_wanted = Signal(object)
    """A register is to get a name: its table and wire address."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.model = FoundRegistersModel(self)
        self.table = QuickTable(self.model)
        self.table.setAccessibleName(self.tr("Registers"))
        self.table.setSelectionMode(QuickTable.SelectionMode.SingleSelection)
        self.table.activated.connect(lambda _index: self._name())
        add_copying(self.table, self.tr("Copy"), lambda: self.model.as_lines(selected_rows(self.table)))
        widths = {
            FoundColumn.REGISTER: 200,
            FoundColumn.DECIMAL: 100,
            FoundColumn.SIGNED: 100,
            FoundColumn.HEX: 110,
        }
        set_widths(self.table, {column: scaled(width) for column, width in widths.items()})
        self.read_button = push_button(self.tr("&Read again"), self.read_wanted.emit)
        self.name_button = push_button(self.tr("N&ame this register\u2026"), self._name)
        self.save_button = push_button(self.tr("Sav&e snapshot\u2026"), self.save_wanted.emit)
        self.table.selectionModel().selectionChanged.connect(lambda *_: self._enable())
        self.when = plain_label("", "faint")
        tools = FlowLayout(spacing=scaled(8))
        for button in (self.read_button, self.name_button, self.save_button):
            tools.addWidget(button)
        tools.addWidget(self.when)
        self._make_closer()
        self.state = plain_label("", "fault", wrap=True)
        self.state.setMinimumHeight(line_height(20))
        header = self.table.horizontalHeader().sizeHint().height()
        self.table.setMinimumHeight(header + _IN_SIGHT * self.table.verticalHeader().defaultSectionSize())
        rows, outer = QWidget(), QVBoxLayout(self)
        outer.setContentsMargins(0, 0, 0, 0)
        outer.addWidget(WholeArea(rows))
        layout = QVBoxLayout(rows)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(scaled(8))
        layout.addLayout(tools)
        self._stack = QStackedWidget()
        self._stack.addWidget(self.table)
        self._stack.addWidget(
            EmptyState(
                self.tr("No registers are known of this device"),
                self.tr("They may begin where nobody looked yet: search for more registers below, more densely."),
            )
        )
        layout.addWidget(self._stack, 1)
        layout.addWidget(self.closer)
        layout.addWidget(self.state)
        self._enable()

    def _make_closer(self) -> None:
        body = QWidget()
        self.how = Choice()
        self.how.setAccessibleName(self.tr("How densely"))
        ways: list[tuple[str, Pass]] = [
            (self.tr("where registers usually begin"), "likely"),
            (self.tr("also at every tenth address"), "tens"),
            (self.tr("at every address"), "all"),
        ]
        for text, way in ways:
            self.how.addItem(text, way)
        self.how.currentIndexChanged.connect(lambda _at: self._estimate())
        self.tables: dict[Table, QCheckBox] = {}
        names: dict[Table, str] = {
            "holding": self.tr("&holding"),
            "input": self.tr("&input"),
            "discrete": self.tr("&discrete"),
            "coil": self.tr("&coil"),
        }
        self.span = QLineEdit(f"0-{LAST_ADDRESS}")
        self.span.setAccessibleName(self.tr("Wire addresses"))
        self.never = NeverTouch()
        for line in (self.span, self.never):
            line.textChanged.connect(lambda _text: self._estimate())
            line.returnPressed.connect(self._search)
        self.cost = plain_label("", "faint", wrap=True)
        self.search_button = push_button(self.tr("&Search for more"), self.search_wanted.emit)
        bar = FlowLayout(spacing=scaled(8))
        bar.addWidget(labelled(self.tr("&Look"), self.how))
        for table, text in names.items():
            box = self.tables[table] = QCheckBox(text)
            box.setChecked(True)
            box.toggled.connect(lambda _on: self._estimate())
            bar.addWidget(box)
        for text, line, width in (
            (self.tr("Wire addresses"), self.span, 110),
            (self.tr("Never touch"), self.never, 240),
        ):
            bar.addWidget(labelled(text, line, width))
        bar.addWidget(self.search_button)
        layout = QVBoxLayout(body)
        layout.addLayout(bar)
        layout.addWidget(self.cost)
        self.closer = Section(self.tr("Search for more registers"), body, is_open=False)
        self.exchange_s = 0.05
        self._estimate()

    # What is chosen

    @property
    def density(self) -> Pass:
        """How densely is to be looked."""
        way: Pass = self.how.currentData()
        return way

    def wanted_tables(self) -> tuple[Table, ...]:
        """Which tables are looked into."""
        return tuple(table for table, box in self.tables.items() if box.isChecked())

    def wanted_span(self) -> tuple[int, int]:
        """The first and the last wire address. Raises ValueError in words."""
        span = address_span(self.span.text())
        if span is None:
            text = self.tr("\u201c{part}\u201d is no range of wire addresses; write 0-9999")
            raise ValueError(text.format(part=self.span.text()))
        return span[0], span[1]

    def _search(self) -> None:
        if self.search_button.isEnabled():
            self.search_wanted.emit()

    def _estimate(self) -> None:
        try:
            first, last = self.wanted_span()
            self.never.untouched()
        except ValueError as why:
            self.cost.setText(str(why))
            self.search_button.setEnabled(False)
            return
        probes, seconds = estimate(self.density, len(self.wanted_tables()), self.exchange_s, range(first, last + 1))
        text = self.tr(
            "At most some {probes} requests more, about {minutes} min. Registers that are cleared by reading exist: "
            "name what must not be touched."
        )
        self.cost.setText(text.format(probes=probes, minutes=max(1, round(seconds / 60))))
        self.search_button.setEnabled(bool(probes))

    # What is shown

    def show_registers(
        self, held: Mapping[RegisterPlace, int], names: Mapping[RegisterPlace, str], name: Namer
    ) -> None:
        """Show what registers hold; what changed since they were shown last is marked."""
        self.model.show(held, names, name)
        self._stack.setCurrentIndex(0 if held else 1)
        self._enable()

    def tell_when(self, between: tuple[datetime, datetime] | None) -> None:
        """Say when the values were read: the first and the last of them."""
        words = ""
        if between is not None and self.model.count():
            first, last = (f"{at:%H:%M:%S}" for at in between)
            text = self.tr("Values read at {last}") if first == last else self.tr("Values read from {first} to {last}")
            words = text.format(first=first, last=last)
        self.when.setText(words)

    def tell(self, words: str) -> None:
        """Say what went wrong."""
        self.state.setText(words)

    def set_working(self, on: bool) -> None:
        """Nothing else can be wanted while something is done on the line."""
        for button in (self.read_button, self.search_button):
            button.setEnabled(not on)
        if not on:
            self._enable()
            self._estimate()

    def _name(self) -> None:
        rows = selected_rows(self.table)
        if rows:
            self.name_wanted.emit(self.model.place(rows[0]))

    def _enable(self) -> None:
        there = self.model.count() > 0
        self.name_button.setEnabled(bool(selected_rows(self.table)))
        for button in (self.read_button, self.save_button):
            button.setEnabled(there)
