"""The cells of a table that changes many times a second, drawn from plain text."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Final, Protocol, cast

from PySide6.QtCore import QModelIndex, QObject, QRect, Qt
from PySide6.QtGui import QFontMetrics, QPainter, QPaintEvent
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem, QTableView, QWidget

from widgets.kit import palette
from widgets.kit.tables import Index, TableModel, set_up

PADDING: Final = 8
"""Between the edge of a cell and its text, in device-independent pixels."""


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
        self, parent: QObject, cell: Callable[[int, int], tuple[str, str, Qt.AlignmentFlag]], padding: int = PADDING
    ) -> None:
        super().__init__(parent)
        self._cell = cell
        self._padding = padding
        self._letters: dict[tuple[int, int], int] = {}

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        view = cast("_Drawn", option)
        selected = bool(view.state & QStyle.StateFlag.State_Selected)
        self.draw(painter, view.rect, view.fontMetrics, index.row(), index.column(), selected)

    def draw(
        self, painter: QPainter, rect: QRect, metrics: QFontMetrics, row: int, column: int, selected: bool
    ) -> None:
        """Draw one cell into a rectangle."""
        text, ink, alignment = self._cell(row, column)
        colours = palette.current()
        if selected:
            painter.fillRect(rect, colours.colour("accent"))
            ink = "on_accent"
        if not text:
            return
        painter.setPen(colours.colour(ink))
        rect = rect.adjusted(self._padding, 0, -self._padding, 0)
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

    def __init__(self, model: TableModel, parent: QWidget | None = None, *, striped: bool = False) -> None:
        super().__init__(parent)
        self.setModel(model)
        self.setItemDelegate(QuickCells(self, model.drawn))
        set_up(self, striped=striped)
        self.horizontalHeader().setStretchLastSection(True)

    def keyboardSearch(self, search: str) -> None:
        """Find nothing: Qt would jump to a row that happens to show the digit just now. There are filters for it."""

    def paintEvent(self, event: QPaintEvent) -> None:
        cells, model, selection = self.itemDelegate(), self.model(), self.selectionModel()
        assert isinstance(cells, QuickCells), "the cells of a quick table are quick ones"
        painter = QPainter(self.viewport())
        metrics, last, root = self.fontMetrics(), model.rowCount() - 1, QModelIndex()
        stripe = self.palette().alternateBase() if self.alternatingRowColors() else None
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
                for column, left, width in within:
                    # A cell that lies in two areas would have its text twice, and that darker.
                    if (row, column) in drawn:
                        continue
                    drawn.add((row, column))
                    place = QRect(left, top, width, height)
                    if stripe is not None and row & 1:
                        painter.fillRect(place, stripe)
                    cells.draw(painter, place, metrics, row, column, selected)
        painter.end()
