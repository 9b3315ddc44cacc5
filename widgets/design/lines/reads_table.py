"""How the registers are read: the requests of all lines, what is read across, and the time that each takes."""

from __future__ import annotations

from PySide6.QtWidgets import QVBoxLayout, QWidget

from app.planning.plan import Read, ReadPlan
from app.project.model import Follower, Project
from app.signals.numbering import documented_number
from widgets.design.tables.part_table import height_of
from widgets.kit.commands import mark_entry
from widgets.kit.elided import ShortLabel
from widgets.kit.plain import plain_label
from widgets.kit.quick_cells import QuickTable
from widgets.kit.scaling import scaled
from widgets.kit.tables import TableModel, add_copying, selected_rows, set_widths, to_the_right

_MOST_GAPS = 3
"""Ranges that are named of those that are read across."""


class ReadsModel(TableModel):
    """The requests, line by line, the most frequent of each first."""

    alignment = to_the_right(2, 4, 5)

    def __init__(self) -> None:
        super().__init__()
        self.titles = (
            self.tr("Device"),
            self.tr("Request"),
            self.tr("Registers"),
            self.tr("Read across"),
            self.tr("Every"),
            self.tr("Takes"),
        )
        self._reads: tuple[Read, ...] = ()
        self._devices: dict[str, Follower] = {}

    def show(self, project: Project, plan: ReadPlan) -> None:
        """Show the reads of a plan."""
        self.beginResetModel()
        self._reads = tuple(read for line in plan.lines for read in line.reads)
        self._devices = dict(project.follower_named)
        self.endResetModel()

    def count(self) -> int:
        """How many requests there are."""
        return len(self._reads)

    def cell(self, row: int, column: int) -> tuple[str, str]:
        """What stands in a cell, and the name of its colour."""
        read = self._reads[row]
        text = (
            read.follower,
            self.tr("read {registers}").format(registers=self._range(read, read.address, read.address + read.count)),
            str(read.count),
            self._across(read),
            f"{read.every_ms} ms",
            f"{read.ms:.0f} ms",
        )[column]
        return text, "ink"

    def _across(self, read: Read) -> str:
        texts = [self._range(read, *gap) for gap in read.gaps]
        if not texts:
            return ""
        shown = ", ".join(texts[:_MOST_GAPS])
        if len(texts) > _MOST_GAPS:
            shown = self.tr("{ranges} and {count} more").format(ranges=shown, count=len(texts) - _MOST_GAPS)
        return self.tr("{ranges} unused").format(ranges=shown)

    def _range(self, read: Read, first: int, end: int) -> str:
        """Addresses from the first to behind the last, as the device counts its registers."""
        numbering = self._devices[read.follower].numbering
        one, last = (documented_number(numbering, read.table, address) for address in (first, end - 1))
        if one == last:
            return f"{read.table} {one}"
        return self.tr("{table} {first} to {last}").format(table=read.table, first=one, last=last)


class ReadsTable(QWidget):
    """The table with its heading."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.model = ReadsModel()
        self.table = QuickTable(self.model)
        self.table.setAccessibleName(self.tr("How the registers are read"))
        set_widths(self.table, {0: scaled(130), 1: scaled(200), 2: scaled(80), 4: scaled(80), 5: scaled(70)})
        header = self.table.horizontalHeader()
        header.setStretchLastSection(False)
        header.setSectionResizeMode(3, header.ResizeMode.Stretch)
        words = self.tr("Copy the selected requests")
        mark_entry(add_copying(self.table, words, lambda: self.model.as_lines(selected_rows(self.table))))
        self.heading = plain_label(self.tr("How the registers are read"), "heading")
        self.count = ShortLabel()
        self.count.setProperty("look", "faint")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self.heading)
        layout.addWidget(self.count)
        self.heading.setContentsMargins(scaled(12), scaled(8), 0, 0)
        self.count.setContentsMargins(scaled(12), 0, 0, scaled(6))
        layout.addWidget(self.table)

    def show_plan(self, project: Project, plan: ReadPlan) -> None:
        """Show the requests of a plan, and which signals are not read."""
        self.model.show(project, plan)
        signals = sum(len(read.signals) for line in plan.lines for read in line.reads)
        words = self.tr("Requests: {requests}, for signals: {signals}").format(
            requests=self.model.count(), signals=signals
        )
        if plan.left_out:
            words += self.tr(". Not read: {names}").format(names=", ".join(list(plan.left_out)[:6]))
        self.count.setText(words)

    def fit_rows(self, most: int) -> None:
        """Be as high as the rows need, but with its heading not above `most` pixels."""
        above = self.heading.sizeHint().height() + self.count.sizeHint().height()
        self.table.setFixedHeight(height_of(self.table, self.model.count(), most - above))
