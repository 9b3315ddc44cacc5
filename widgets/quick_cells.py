"""The cells of a table that changes many times a second, drawn from plain text."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final, Protocol, TypeAlias, cast

from PySide6.QtCore import QModelIndex, QObject, QPersistentModelIndex, QRect, Qt
from PySide6.QtGui import QFontMetrics, QPainter
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem

from widgets import palette

Index: TypeAlias = QModelIndex | QPersistentModelIndex
PADDING: Final = 8
"""Between the edge of a cell and its text, in device-independent pixels."""


class _Drawn(Protocol):
    """What the stubs of Qt do not say of QStyleOptionViewItem."""

    rect: QRect
    state: QStyle.StateFlag
    fontMetrics: QFontMetrics  # noqa: N815


class QuickCells(QStyledItemDelegate):
    """Draws cells from what `cell` gives: the text, the name of its colour and its alignment.

    Asking a model for each role of each cell, as Qt does otherwise, would cost many times as much.
    """

    def __init__(
        self, parent: QObject, cell: Callable[[Index], tuple[str, str, Qt.AlignmentFlag]], padding: int = PADDING
    ) -> None:
        super().__init__(parent)
        self._cell = cell
        self._padding = padding
        self._letters: dict[tuple[int, int], int] = {}

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Draw one cell."""
        text, ink, alignment = self._cell(index)
        view = cast("_Drawn", option)
        rect = view.rect
        colours = palette.current()
        if view.state & QStyle.StateFlag.State_Selected:
            painter.fillRect(rect, colours.colour("accent"))
            ink = "on_accent"
        if not text:
            return
        painter.setPen(colours.colour(ink))
        rect = rect.adjusted(self._padding, 0, -self._padding, 0)
        metrics = view.fontMetrics
        # Measuring a text costs as much as drawing it; most are short enough whatever their letters.
        if len(text) * self._widest(metrics) > rect.width():
            text = metrics.elidedText(text, Qt.TextElideMode.ElideRight, rect.width())
        painter.drawText(rect, alignment, text)

    def _widest(self, metrics: QFontMetrics) -> int:
        font = metrics.height(), metrics.averageCharWidth()
        if font not in self._letters:
            self._letters[font] = metrics.horizontalAdvance("W")
        return self._letters[font]
