"""The statistics of the lines: how much goes over them, how fast followers answer, and the faults by kind."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTreeWidget, QTreeWidgetItem, QWidget

from widgets.kit import palette
from widgets.kit.row_list import group_row, set_up_list
from widgets.kit.scaling import heading_margin, scaled
from widgets.kit.tables import add_copying

if TYPE_CHECKING:  # the bus is imported only when a line is connected
    from app.diagnosis.figures import Figures
    from app.line.states import LineState


class LineFigures(QTreeWidget):
    """A heading for each line, and under it a row for each figure. Only what changed is written again."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(self.tr("Statistics of the line"))
        set_up_list(self, (self.tr("Statistics"), self.tr("Value")))
        self.setItemsExpandable(False)
        self.setIndentation(10)
        self.setFrameShape(self.Shape.NoFrame)
        self.header().setStretchLastSection(False)
        self.header().setSectionResizeMode(0, QHeaderView.ResizeMode.Stretch)
        self.header().setSectionResizeMode(1, QHeaderView.ResizeMode.ResizeToContents)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._shown: list[tuple[str, list[tuple[str, str, bool]]]] = []
        self._items: list[list[QTreeWidgetItem]] = []
        self.copy_action = add_copying(self, self.tr("Copy the statistics"), self.text)

    def show_states(self, states: Iterable[LineState], measured: Mapping[str, Figures]) -> None:
        """Show how these lines do, and what their newest transactions show, by line."""
        told = [(state.name, self._figures(state, measured.get(state.name))) for state in states]
        if told == self._shown:
            return
        same = [(name, [row[0] for row in rows]) for name, rows in told] == [
            (name, [row[0] for row in rows]) for name, rows in self._shown
        ]
        self._shown = told
        if not same:
            self._rebuild()
            return
        for (_, rows), items in zip(told, self._items, strict=True):
            for (_, value, _), item in zip(rows, items, strict=True):
                if item.text(1) != value:
                    item.setText(1, value)

    def whole_width(self) -> int:
        """Pixels in which the figures of a device of a usual name stand whole."""
        measure = self.fontMetrics().horizontalAdvance
        label = measure(self.tr("{follower}: response time").format(follower="a name")) + self.indentation()
        return label + measure("1000.0 ms") + 4 * heading_margin() + scaled(20)

    def refresh_look(self) -> None:
        """The colours changed."""
        self._rebuild()

    def text(self) -> str:
        """The same as text, a line each."""
        lines: list[str] = []
        for name, rows in self._shown:
            lines.append(name)
            lines += [f"  {label}: {value}" for label, value, _ in rows]
        return "\n".join(lines)

    def _rebuild(self) -> None:
        self.clear()
        self._items = []
        for name, rows in self._shown:
            items = [QTreeWidgetItem([label, value]) for label, value, _ in rows]
            for item, (_, _, fault) in zip(items, rows, strict=True):
                if fault:
                    item.setForeground(0, palette.current().colour("fault"))
            group_row(self, name, items)
            self._items.append(items)
        self.expandAll()

    def _figures(self, state: LineState, measured: Figures | None) -> list[tuple[str, str, bool]]:
        """Label, value, and whether it is a fault."""
        from app.client.faults import kind_text
        from app.diagnosis.explain import milliseconds
        from app.diagnosis.transcript import by_number, outages_text

        rows = [
            (self.tr("Requests"), f"{state.requests}", False),
            (self.tr("Good answers"), f"{state.good}", False),
        ]
        faults = [(f"\u26a0 {kind_text(kind)}", f"{count}", True) for kind, count in by_number(state)]
        rows += faults or [(self.tr("Faults"), self.tr("none"), False)]
        if state.outages.count:
            out = self.tr("Outages")
            rows.append((f"\u26a0 {out}", outages_text(state.outages), True))
        if measured is None or not measured.transactions:
            return rows
        rows.append((self.tr("Poll cycle"), f"{milliseconds(measured.cycle_ms)} ms", False))
        rows.append((self.tr("Bus load"), f"{100 * measured.used:.0f} %", False))
        for follower, spread in measured.response_time.items():
            named = {
                self.tr("{follower}: response time"): spread.median,
                self.tr("{follower}: 95 % within"): spread.most,
                self.tr("{follower}: longest"): spread.worst,
            }
            rows += [(label.format(follower=follower), f"{milliseconds(ms)} ms", False) for label, ms in named.items()]
        return rows
