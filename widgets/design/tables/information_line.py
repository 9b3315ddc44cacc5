"""The line under a table that says what its current cell means and what can be done there."""

from __future__ import annotations

from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QWidget

from widgets.design.tables.part_table import PartTable
from widgets.document.document import Document
from widgets.kit import palette
from widgets.kit.elided import ShortLabel
from widgets.kit.plain import plain_label
from widgets.kit.scaling import line_height, scaled

HEIGHT = 28
"""Pixels at 100 per cent, whatever it says."""


class InformationLine(QWidget):
    """Names the cell, then says what may stand there; of several rows how many are selected."""

    def __init__(self, table: PartTable, document: Document, keys: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._table = table
        self._document = document
        self.where = plain_label("", "heading")
        self.meaning = ShortLabel()
        self.meaning.setProperty("look", "faint")
        self.keys = ShortLabel(keys)
        self.keys.setProperty("look", "faint")
        self.keys.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Preferred)
        row = QHBoxLayout(self)
        row.setContentsMargins(scaled(12), 0, scaled(12), 0)
        row.setSpacing(scaled(8))
        row.addWidget(self.where)
        row.addWidget(self.meaning, 1)
        row.addWidget(self.keys)
        self.setFixedHeight(line_height(HEIGHT))
        table.table.selectionModel().currentChanged.connect(lambda _now, _before: self._say())
        table.arranged.connect(self._say)
        self._say()

    def _say(self) -> None:
        grid, model = self._table.table, self._table.model
        index = grid.currentIndex()
        rows = len(grid.area().rows) if index.isValid() else 0
        if not index.isValid() or model.project is None:
            self.where.clear()
            self.meaning.setText(self.tr("Choose a cell, or type into the last row"))
            return
        column = model.columns[index.column()]
        if rows > 1:
            self.where.setText(self.tr("{column} of {count} rows").format(column=column.title, count=rows))
        elif model.place(index.row()) < 0:
            self.where.setText(self.tr("{column} of a new row").format(column=column.title))
        else:
            name = model.part(index.row()).name
            self.where.setText(self.tr("{column} of {name}").format(column=column.title, name=_short(name)))
        if column.read is None:
            self.meaning.setText(self.tr("{hint}; it cannot be edited").format(hint=column.hint or column.title))
        elif not model.editable(index.row(), index.column()):
            self.meaning.setText(self.tr("This one has none"))
        else:
            self.meaning.setText(column.hint)

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: ARG002
        """A hairline above, on the ground of a pane."""
        painter = QPainter(self)
        colours = palette.current()
        painter.fillRect(self.rect(), colours.colour("pane"))
        painter.fillRect(0, 0, self.width(), 1, colours.colour("line"))


def _short(name: str) -> str:
    return name if len(name) <= 30 else f"{name[:29]}\N{HORIZONTAL ELLIPSIS}"
