"""The cells of a table that changes many times a second, drawn from plain text."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Final, Protocol, cast

from PySide6.QtCore import QModelIndex, QObject, QRect, Qt
from PySide6.QtGui import QFont, QFontMetrics, QPainter, QPaintEvent
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem, QTableView, QWidget

from widgets.kit import palette
from widgets.kit.drawn.rows import paint_hairline, paint_selected
from widgets.kit.icons import SIDE, paint_icon
from widgets.kit.scaling import heading_margin, scaled
from widgets.kit.tables import ROW, Index, TableModel, Trim, set_up

INDENT: Final = 16
"""Pixels at 100 per cent that a row stands deeper than the one that it belongs to."""


class _Drawn(Protocol):
    """What the stubs of Qt do not say of QStyleOptionViewItem."""

    rect: QRect
    state: QStyle.StateFlag
    fontMetrics: QFontMetrics  # noqa: N815


class QuickCells(QStyledItemDelegate):
    """Draws cells from what `cell` gives for a row and a column: the text, the name of its colour and its alignment.

    `trim` gives what else there is to draw. Asking a model for each role of each cell, as Qt does otherwise, would cost
    many times as much.
    """

    def __init__(
        self,
        parent: QObject,
        cell: Callable[[int, int], tuple[str, str, Qt.AlignmentFlag]],
        padding: int | None = None,
        trim: Callable[[int, int], Trim | None] = lambda _row, _column: None,
    ) -> None:
        super().__init__(parent)
        self._cell = cell
        self._trim = trim
        self._padding = heading_margin() if padding is None else padding
        self._letters: dict[tuple[int, int], int] = {}

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        view = cast("_Drawn", option)
        colours = palette.current()
        if view.state & QStyle.StateFlag.State_Selected:
            widget = self.parent()
            paint_selected(painter, view.rect, colours, focused=isinstance(widget, QWidget) and widget.hasFocus())
        paint_hairline(painter, view.rect, colours)
        selected = bool(view.state & QStyle.StateFlag.State_Selected)
        self.draw(painter, view.rect, view.fontMetrics, index.row(), index.column(), selected=selected)

    def draw(
        self, painter: QPainter, rect: QRect, metrics: QFontMetrics, row: int, column: int, *, selected: bool = False
    ) -> None:
        """Draw the text of one cell into a rectangle; the ground of a cell that is selected is drawn already."""
        text, ink, alignment = self._cell(row, column)
        trim, padding = self._trim(row, column), self._padding
        inner = rect.adjusted(padding, 0, -padding, 0)
        plain = painter.font()
        if trim is not None:
            metrics = self._draw_trim(painter, rect, inner, metrics, trim._replace(ground="") if selected else trim)
        if text:
            painter.setPen(palette.current().colour(ink))
            # Measuring a text costs as much as drawing it; most are short enough whatever their letters.
            if len(text) * self._widest(metrics) > inner.width():
                text = metrics.elidedText(text, Qt.TextElideMode.ElideRight, inner.width())
            painter.drawText(inner, alignment, text)
        painter.setFont(plain)

    def _draw_trim(
        self, painter: QPainter, rect: QRect, inner: QRect, metrics: QFontMetrics, trim: Trim
    ) -> QFontMetrics:
        """Draw what stands beside the text, and leave `inner` and the font to the text; gives its metrics."""
        if trim.ground:
            painter.fillRect(rect.adjusted(0, 0, 0, -1), palette.current().colour(trim.ground))
        inner.setLeft(inner.left() + trim.indent * scaled(INDENT))
        if trim.icon:
            side = scaled(SIDE)
            paint_icon(painter, trim.icon, trim.icon_ink, QRect(inner.left(), inner.top(), side, inner.height()))
            inner.setLeft(inner.left() + side + scaled(6))
        if not trim.strong:
            return metrics
        font = QFont(painter.font())
        font.setWeight(QFont.Weight.DemiBold)
        painter.setFont(font)
        return painter.fontMetrics()

    def _widest(self, metrics: QFontMetrics) -> int:
        font = metrics.height(), metrics.averageCharWidth()
        if font not in self._letters:
            self._letters[font] = metrics.horizontalAdvance("W")
        return self._letters[font]


class QuickTable(QTableView):
    """A table of QuickCells, rows of which are selected whole. What is drawn anew is drawn from here in one go.

    Qt would prepare an option, and ask the style for the ground, for each cell: twice the work of the cell itself.
    """

    def __init__(self, model: TableModel, parent: QWidget | None = None, row: int = ROW) -> None:
        super().__init__(parent)
        self.setModel(model)
        self.setItemDelegate(QuickCells(self, model.drawn, trim=model.trim))
        set_up(self, row)
        self.horizontalHeader().setStretchLastSection(True)

    def keyboardSearch(self, search: str) -> None:
        """Find nothing: Qt would jump to a row that happens to show the digit just now. There are filters for it."""

    def paintEvent(self, event: QPaintEvent) -> None:
        cells, model, selection = self.itemDelegate(), self.model(), self.selectionModel()
        assert isinstance(cells, QuickCells), "the cells of a quick table are quick ones"
        painter = QPainter(self.viewport())
        metrics, last, root = self.fontMetrics(), model.rowCount() - 1, QModelIndex()
        colours, focused, wide = palette.current(), self.hasFocus(), self.viewport().width()
        columns = [(at, self.columnViewportPosition(at), self.columnWidth(at)) for at in range(model.columnCount())]
        drawn: set[tuple[int, int]] = set()
        for area in cast("Iterable[QRect]", event.region()):  # what the stubs do not say of it either
            first, below = self.rowAt(area.top()), self.rowAt(area.bottom())
            if first < 0:
                continue
            within = [each for each in columns if each[1] <= area.right() and each[1] + each[2] > area.left()]
            for row in range(first, (below if below >= 0 else last) + 1):
                top, height = self.rowViewportPosition(row), self.rowHeight(row)
                selected = selection.isRowSelected(row, root)
                if selected:
                    paint_selected(painter, QRect(0, top, wide, height), colours, focused=focused)
                paint_hairline(painter, QRect(0, top, wide, height), colours)
                for column, left, width in within:
                    # A cell that lies in two areas would have its text twice, and that darker.
                    if (row, column) in drawn:
                        continue
                    drawn.add((row, column))
                    cells.draw(painter, QRect(left, top, width, height), metrics, row, column, selected=selected)
        painter.end()
