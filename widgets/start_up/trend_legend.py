"""The legend of a trend: the left end of each lane, with the line of each signal and its values.

A table, so that it is walked by keys and read aloud; a row has the place of its curve, the last one of a lane the rest.
"""

from __future__ import annotations

import enum
import math
from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import Any, Final, cast

from PySide6.QtCore import QPointF, QRect, QSize, Qt
from PySide6.QtGui import QFont, QFontMetrics, QPainter
from PySide6.QtWidgets import (
    QHeaderView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableWidget,
    QTableWidgetItem,
    QWidget,
)

from app.project.binding import plain_text
from app.project.model import Project
from app.signals.text import spoken_digits
from widgets.kit import palette
from widgets.kit.drawn.rows import paint_selected
from widgets.kit.plain import plain_tip
from widgets.kit.scaling import scaled
from widgets.kit.tables import Index, selected_rows, set_up, set_widths
from widgets.start_up.trend_curves import is_set_point, pen
from widgets.start_up.trend_lanes import Lane

SAMPLE: Final = 20
"""Length of the line beside a name, in pixels at 100 per cent."""
EDGE: Final = 8
"""Pixels at 100 per cent beside the texts of a row, and between the line and the name."""
WIDTH: Final = 340
"""Of the legend, in pixels at 100 per cent."""
MOST_NOW: Final = 84
MOST_AT: Final = 54
"""Widths that words of a signal may take now and at a cursor, in pixels at 100 per cent; longer ones are cut."""
NOTHING: Final = "\N{EN DASH}"


class LegendColumn(enum.IntEnum):
    """The columns, from the left."""

    NAME = 0
    NOW = 1
    FIRST = 2
    SECOND = 3
    DIFFERENCE = 4


AT_CURSORS: Final = (LegendColumn.FIRST, LegendColumn.SECOND, LegendColumn.DIFFERENCE)


class TrendLegend(QTableWidget):
    """Rows in the order of the lanes."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(0, len(LegendColumn), parent)
        self._names: tuple[str, ...] = ()
        self._lasts: tuple[int, ...] = ()
        self._project: Project | None = None
        self.numbers: Mapping[str, int] = {}
        self._headings = [self.tr("Curve"), self.tr("Now"), self.tr("A"), self.tr("B"), self.tr("B \u2212 A")]
        self.setHorizontalHeaderLabels(self._headings)
        self.setAccessibleName(self.tr("Curves and their values"))
        set_up(self)
        self.setItemDelegate(_Rows(self))
        self.setFrameShape(self.Shape.NoFrame)
        self.setMinimumWidth(scaled(WIDTH) // 2)
        header = self.horizontalHeader()
        header.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        header.setSectionResizeMode(LegendColumn.NAME, QHeaderView.ResizeMode.Stretch)
        header.setMinimumSectionSize(scaled(24))
        header.setDefaultAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self.bold = QFont(self.font())
        self.bold.setWeight(QFont.Weight.DemiBold)
        self._narrow()
        name = self.horizontalHeaderItem(LegendColumn.NAME)
        if name is not None:
            name.setTextAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        self.show_cursors(shown=False)

    @property
    def line(self) -> int:
        """The height of the line of one curve."""
        return self.fontMetrics().height() + scaled(4)

    @property
    def names(self) -> tuple[str, ...]:
        """The curves, from the top."""
        return self._names

    def sizeHint(self) -> QSize:
        return QSize(scaled(WIDTH), super().sizeHint().height())

    def show_lanes(self, project: Project | None, lanes: Sequence[Lane], numbers: Mapping[str, int]) -> None:
        """Show the curves of these lanes, each with the pen of its number."""
        self._project, self.numbers = project, dict(numbers)
        self._names = tuple(name for lane in lanes for name in lane.names)
        ends = [sum(len(lane.names) for lane in lanes[: place + 1]) - 1 for place in range(len(lanes))]
        self._lasts = tuple(ends)
        self.setRowCount(len(self._names))
        for row, name in enumerate(self._names):
            item = self._item(row, LegendColumn.NAME)
            unit = self._unit(name)
            item.setText(name)
            item.setToolTip(plain_tip(f"{name} [{unit}]" if unit else name))
        self._narrow()
        self.viewport().update()

    def set_heights(self, heights: Sequence[int] | None) -> None:
        """Let the curves stand beside their lanes, which are so many pixels high; None: they stand elsewhere."""
        first = 0
        if heights is None:
            for row in range(self.rowCount()):
                self.setRowHeight(row, self.line)
            return
        for last, height in zip(self._lasts, heights, strict=True):
            for row in range(first, last):
                self.setRowHeight(row, self.line)
            self.setRowHeight(last, height - (last - first) * self.line)
            first = last + 1

    def show_heading(self, column: LegendColumn, words: str) -> None:
        """Put other words over a column."""
        item = self.horizontalHeaderItem(column)
        if item is not None:
            item.setText(words)

    def show_cursors(self, *, shown: bool) -> None:
        """Show the columns of the cursors while there are any."""
        for column in AT_CURSORS:
            self.setColumnHidden(column, not shown)
        if shown:
            for row in range(self.rowCount()):
                for column in AT_CURSORS:
                    self._widen(column, self._item(row, column).text())

    def show_values(self, column: LegendColumn, values: Mapping[str, float]) -> None:
        """The values of one column; not-a-number: there is none."""
        for row, name in enumerate(self._names):
            text = self.text_of(column, name, values[name])
            item = self._item(row, column)
            if item.text() != text:
                item.setText(text)
                self._widen(column, text)
                unit = self._unit(name)
                spoken = text if not unit or text in ("", NOTHING) else f"{text} {unit}"
                item.setData(Qt.ItemDataRole.AccessibleTextRole, spoken)
                item.setToolTip(plain_tip(spoken))

    def _narrow(self) -> None:
        """As wide as short numbers are; what needs more makes its column wider, and no value makes one narrower."""
        least = QFontMetrics(self.bold).horizontalAdvance("00.00") + scaled(EDGE)
        set_widths(self, dict.fromkeys(list(LegendColumn)[1:], least))

    def _widen(self, column: LegendColumn, text: str) -> None:
        metrics = QFontMetrics(self.bold) if column is LegendColumn.NOW else self.fontMetrics()
        most = scaled(MOST_NOW if column is LegendColumn.NOW else MOST_AT)
        wanted = min(most, metrics.horizontalAdvance(text) + scaled(EDGE))
        if wanted > self.columnWidth(column) and not self.isColumnHidden(column):
            self.setColumnWidth(column, wanted)

    def selected_curves(self) -> tuple[str, ...]:
        """The selected curves."""
        return tuple(self._names[row] for row in selected_rows(self))

    def spoken(self) -> str:
        """All curves with their value now, as a sentence for a screen reader."""
        rows = range(self.rowCount())
        said = [(name, self._item(row, LegendColumn.NOW)) for row, name in zip(rows, self._names, strict=True)]
        return ", ".join(f"{name} {item.data(Qt.ItemDataRole.AccessibleTextRole) or NOTHING}" for name, item in said)

    def text_of(self, column: LegendColumn, name: str, value: float) -> str:
        """A value of a curve as this column shows it: in the words of the signal, if it has words."""
        if math.isnan(value):
            return NOTHING
        signal = self._project.signal_named.get(name) if self._project is not None else None
        if signal is None or self._project is None:
            return f"{value:.6g}"
        number = Fraction(repr(round(value, signal.decimals + 3)))
        if column is not LegendColumn.DIFFERENCE:
            return plain_text(self._project, name, number)
        if signal.texts:
            return ""
        digits = spoken_digits(number, signal.decimals)
        return f"+{digits}" if number > 0 else digits

    def draw_sample(self, painter: QPainter, row: int, begin: QPointF) -> None:
        """The line of a curve, `SAMPLE` long."""
        name = self._names[row]
        wanted = self._project is not None and is_set_point(self._project, name)
        painter.setPen(pen(self.numbers.get(name, 0), dark=palette.current().dark, wanted=wanted, width=2.4))
        painter.drawLine(begin, begin + QPointF(scaled(SAMPLE), 0))

    def is_last(self, row: int) -> bool:
        """Whether a row is the last one of its lane."""
        return row in self._lasts

    def _unit(self, name: str) -> str:
        signal = self._project.signal_named.get(name) if self._project is not None else None
        return "" if signal is None else signal.unit

    def _item(self, row: int, column: LegendColumn) -> QTableWidgetItem:
        item = self.item(row, column)
        if item is None:
            item = QTableWidgetItem()
            self.setItem(row, column, item)
        return item


class _Rows(QStyledItemDelegate):
    """Draws each curve in the line that it has, whatever of its lane is left below."""

    def __init__(self, legend: TrendLegend) -> None:
        super().__init__(legend)
        self._legend = legend

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        legend, colours, view = self._legend, palette.current(), cast("Any", option)
        whole: QRect = view.rect
        line = QRect(whole.left(), whole.top(), whole.width(), min(whole.height(), legend.line))
        first = index.column() == LegendColumn.NAME
        painter.save()
        if view.state & QStyle.StateFlag.State_Selected:
            if first:
                paint_selected(painter, line, colours, focused=legend.hasFocus())
            else:
                painter.fillRect(line, colours.colour("soft"))
        if legend.is_last(index.row()):
            painter.fillRect(whole.left(), whole.bottom(), whole.width(), 1, colours.colour("line"))
        text = line.adjusted(scaled(EDGE) if first else 0, 0, -scaled(EDGE // 2), 0)
        align = Qt.AlignmentFlag.AlignVCenter | (Qt.AlignmentFlag.AlignLeft if first else Qt.AlignmentFlag.AlignRight)
        if first:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            legend.draw_sample(painter, index.row(), QPointF(text.left(), text.center().y()))
            text.setLeft(text.left() + scaled(SAMPLE + EDGE))
        elif index.column() == LegendColumn.NOW:
            painter.setFont(legend.bold)
        at_cursors = index.column() in AT_CURSORS
        painter.setPen(colours.colour("faint" if at_cursors else "ink"))
        words = painter.fontMetrics().elidedText(str(index.data() or ""), Qt.TextElideMode.ElideRight, text.width())
        painter.drawText(text, align, words)
        painter.restore()
