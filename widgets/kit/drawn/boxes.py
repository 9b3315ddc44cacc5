"""Boxes with round corners, rings of focus, and strokes through a few corners."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QPointF, QRect, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from widgets.kit import palette

CLEAR: Final = QColor(0, 0, 0, 0)
ROUND: Final = 4.0
"""Radius of the corners of controls, in pixels."""
RING: Final = 2.0
"""Thickness of the outline of what has the focus, and of what is wrong, in pixels."""
DOWNWARDS: Final = ((0.17, 0.33), (0.5, 0.67), (0.83, 0.33))
"""The corners of a chevron, as parts of a square; the others are turned from it."""


def paint_box(
    painter: QPainter, rect: QRect, edge: QColor, ground: QColor, *, thick: float = 1.0, radius: float = ROUND
) -> None:
    """A box with round corners, its edge wholly inside `rect`."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(edge, thick))
    painter.setBrush(ground)
    painter.drawRoundedRect(QRectF(rect).adjusted(thick / 2, thick / 2, -thick / 2, -thick / 2), radius, radius)
    painter.restore()


def paint_ring(painter: QPainter, rect: QRect, colour: str = "accent") -> None:
    """The outline of what has the focus, within its own edge so that nothing grows."""
    paint_box(painter, rect, palette.current().colour(colour), CLEAR, thick=RING)


def paint_stroke(painter: QPainter, square: QRect, corners: tuple[tuple[float, float], ...], ink: QColor) -> None:
    """A line through `corners`, given as parts of a square."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(ink, max(1.4, square.width() / 8), c=Qt.PenCapStyle.RoundCap, j=Qt.PenJoinStyle.RoundJoin))
    left, top, side = square.left(), square.top(), square.width()
    painter.drawPolyline([QPointF(left + x * side, top + y * side) for x, y in corners])
    painter.restore()


def square_in(rect: QRect, side: int) -> QRect:
    """A square in the middle of a rectangle, no larger than that."""
    side = min(side, rect.width(), rect.height())
    square = QRect(0, 0, side, side)
    square.moveCenter(rect.center())
    return square
