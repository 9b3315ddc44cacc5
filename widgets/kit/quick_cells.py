"""The cells of a table that changes many times a second, drawn from plain text."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Protocol, cast

from PySide6.QtCore import QModelIndex, QObject, QRect, Qt
from PySide6.QtGui import QFontMetrics, QPainter, QPaintEvent
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem, QTableView, QWidget

from widgets.kit import palette
from widgets.kit.drawn.rows import paint_hairline, paint_selected
from widgets.kit.scaling import heading_margin
from widgets.kit.tables import ROW, Index, TableModel, set_up


class _Drawn(Protocol):
    """What the stubs of Qt do not say of QStyleOptionViewItem."""

    rect: QRect
    state: QStyle.StateFlag
    fontMetrics: QFontMetrics  # noqa: N815


class QuickCells(QStyledItemDelegate):
    """Draws cells from what `cell` gives for a row and a column: the text, the name of its colour and its alignment.

    Asking a model for each role of each cell, as Qt does otherwise, would cost many times as much.
    """

    def __init__(
        self, parent: QObject, cell: Callable[[int, int], tuple[str, str, Qt.AlignmentFlag]], padding: int | None = None
    ) -> None:
        super().__init__(parent)
        self._cell = cell
        self._padding = heading_margin() if padding is None else padding
        self._letters: dict[tuple[int, int], int] = {}

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        view = cast("_Drawn", option)
        colours = palette.current()
        if view.state & QStyle.StateFlag.State_Selected:
            widget = self.parent()
            paint_selected(painter, view.rect, colours, focused=isinstance(widget, QWidget) and widget.hasFocus())
        paint_hairline(painter, view.rect, colours)
        self.draw(painter, view.rect, view.fontMetrics, index.row(), index.column())

    def draw(self, painter: QPainter, rect: QRect, metrics: QFontMetrics, row: int, column: int) -> None:
        """Draw the text of one cell into a rectangle."""
        text, ink, alignment = self._cell(row, column)
        if not text:
            return
        painter.setPen(palette.current().colour(ink))
        padding = self._padding
        rect = rect.adjusted(padding, 0, -padding, 0)
        # Measuring a text costs as much as drawing it; most are short enough whatever their letters.
        if len(text) * self._widest(metrics) > rect.width():
            text = metrics.elidedText(text, Qt.TextElideMode.ElideRight, rect.width())
        painter.drawText(rect, alignment, text)

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
        self.setItemDelegate(QuickCells(self, model.drawn))
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
                if selection.isRowSelected(row, root):
                    paint_selected(painter, QRect(0, top, wide, height), colours, focused=focused)
                paint_hairline(painter, QRect(0, top, wide, height), colours)
                for column, left, width in within:
                    # A cell that lies in two areas would have its text twice, and that darker.
                    if (row, column) in drawn:
                        continue
                    drawn.add((row, column))
                    cells.draw(painter, QRect(left, top, width, height), metrics, row, column)
        painter.end()
