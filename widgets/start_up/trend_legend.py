"""The table beside a trend: each signal with its line, its value now or at the two cursors, and the difference."""

from __future__ import annotations

import enum
import math
from collections.abc import Sequence
from fractions import Fraction
from typing import Final

from PySide6.QtCore import QPointF, QRect, Qt
from PySide6.QtGui import QIcon, QPainter, QPixmap
from PySide6.QtWidgets import QHeaderView, QTableWidget, QTableWidgetItem, QWidget

from app.project.binding import plain_text
from app.project.model import Project
from app.signals.text import number_digits
from widgets.kit import palette
from widgets.kit.tables import selected_rows, set_up, set_widths
from widgets.start_up.trend_curves import pen

SAMPLE: Final = QRect(0, 0, 34, 12)
"""Of the line beside a name, in pixels."""


class LegendColumn(enum.IntEnum):
    """The columns, from the left."""

    NAME = 0
    NOW = 1
    FIRST = 2
    SECOND = 3
    DIFFERENCE = 4
    UNIT = 5


class TrendLegend(QTableWidget):
    """Rows in the order of the curves."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(0, len(LegendColumn), parent)
        self._names: tuple[str, ...] = ()
        self._project: Project | None = None
        self._headings = [
            self.tr("Signal"),
            self.tr("Now"),
            self.tr("At A"),
            self.tr("At B"),
            self.tr("B \u2212 A"),
            self.tr("Unit"),
        ]
        self.setHorizontalHeaderLabels(self._headings)
        self.setAccessibleName(self.tr("Curves and their values"))
        set_up(self)
        self.setIconSize(SAMPLE.size())
        self.horizontalHeader().setSectionResizeMode(LegendColumn.NAME, QHeaderView.ResizeMode.Stretch)
        number = self.fontMetrics().horizontalAdvance("-00000.00") + 12
        set_widths(self, dict.fromkeys(list(LegendColumn)[1:], number))

    def show_names(self, project: Project | None, names: Sequence[str]) -> None:
        """Show these curves."""
        self._project, self._names = project, tuple(names)
        self.setRowCount(len(names))
        for row, name in enumerate(names):
            self._item(row, LegendColumn.NAME).setText(name)
            signal = project.signal_named.get(name) if project is not None else None
            self._item(row, LegendColumn.UNIT).setText(signal.unit if signal is not None else "")
        self.recolour()

    def recolour(self) -> None:
        """Draw the lines beside the names in the colours of the curves."""
        for row in range(self.rowCount()):
            self._item(row, LegendColumn.NAME).setIcon(QIcon(_sample(row)))

    def show_heading(self, column: LegendColumn, words: str) -> None:
        """Put other words over a column."""
        self._headings[column] = words
        self.setHorizontalHeaderLabels(self._headings)

    def show_values(self, column: LegendColumn, values: Sequence[float]) -> None:
        """The values of one column, in the order of the curves; not-a-number: there is none."""
        for row, (name, value) in enumerate(zip(self._names, values, strict=True)):
            text = self._text(column, name, value)
            item = self._item(row, column)
            if item.text() != text:
                item.setText(text)

    def selected_curves(self) -> tuple[str, ...]:
        """The selected curves."""
        return tuple(self._names[row] for row in selected_rows(self))

    def _text(self, column: LegendColumn, name: str, value: float) -> str:
        if math.isnan(value):
            return "\N{EN DASH}"
        signal = self._project.signal_named.get(name) if self._project is not None else None
        if signal is None or self._project is None:
            return f"{value:.6g}"
        number = Fraction(repr(round(value, signal.decimals + 3)))
        if column is LegendColumn.DIFFERENCE:
            return "" if signal.texts else number_digits(number, signal.decimals)
        return plain_text(self._project, name, number)

    def _item(self, row: int, column: LegendColumn) -> QTableWidgetItem:
        item = self.item(row, column)
        if item is None:
            item = QTableWidgetItem()
            if column not in (LegendColumn.NAME, LegendColumn.UNIT):
                item.setTextAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
            self.setItem(row, column, item)
        return item


def _sample(number: int) -> QPixmap:
    picture = QPixmap(SAMPLE.size())
    picture.fill(Qt.GlobalColor.transparent)
    painter = QPainter(picture)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(pen(number, dark=palette.current().dark, width=2.4))
    middle = SAMPLE.height() / 2
    painter.drawLine(QPointF(1, middle), QPointF(SAMPLE.width() - 1, middle))
    painter.end()
    return picture
