"""Small drawings of what can be begun with, in the window's colours."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen, QPolygonF

from widgets.kit.palette import Colours

SIDE: Final = 112, 96
"""Width and height that all of them are drawn in."""
_GLASS: Final = QColor("#f6eedd")
_BODY: Final = QColor("#454150")
_KEY: Final = QColor("#e4e1ea")
_WRITING: Final = QColor("#2a2135")

CardDrawing = Callable[[QPainter, Colours], None]


def running_panel(painter: QPainter, colours: Colours) -> None:
    """A panel with values on it, and the sign of what runs."""
    _panel(painter, QRectF(6, 12, 92, 64), written=True)
    centre = QPointF(88, 72)
    _fill(painter, colours.colour("accent"))
    painter.drawEllipse(centre, 17, 17)
    _fill(painter, colours.colour("on_accent"))
    painter.drawPolygon(QPolygonF([centre + QPointF(*p) for p in ((-5, -9), (-5, 9), (10, 0))]))


def panel_and_drive(painter: QPainter, colours: Colours) -> None:
    """A panel, a line, and a drive with its motor."""
    _panel(painter, QRectF(2, 4, 74, 50), written=False)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(colours.colour("edge"), 2))
    painter.drawPolyline(QPolygonF([QPointF(38, 56), QPointF(38, 76), QPointF(66, 76)]))
    _fill(painter, _BODY)
    painter.drawRoundedRect(QRectF(66, 52, 42, 42), 4, 4)
    _fill(painter, _GLASS)
    painter.drawRoundedRect(QRectF(71, 57, 32, 11), 2, 2)
    _keys(painter, 3, QRectF(71, 76, 32, 8))


def unknown_device(painter: QPainter, colours: Colours) -> None:
    """A box on a line that nobody knows, under a magnifying glass."""
    painter.setPen(QPen(colours.colour("edge"), 2))
    painter.drawLine(QPointF(2, 80), QPointF(40, 80))
    _fill(painter, _BODY)
    painter.drawRoundedRect(QRectF(32, 22, 56, 68), 6, 6)
    _fill(painter, _GLASS)
    painter.drawRoundedRect(QRectF(40, 30, 40, 16), 2, 2)
    _keys(painter, 3, QRectF(40, 70, 40, 9))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(colours.colour("accent"), 5))
    painter.drawEllipse(QPointF(76, 44), 21, 21)
    painter.drawLine(QPointF(91, 59), QPointF(107, 77))


def folder(painter: QPainter, colours: Colours) -> None:
    """A folder that a panel looks out of."""
    accent, soft = colours.colour("accent"), colours.colour("soft")
    painter.setPen(QPen(accent, 2))
    painter.setBrush(accent)
    back = QPainterPath(QPointF(8, 30))
    for x, y in ((8, 20), (38, 20), (46, 28), (104, 28), (104, 60), (8, 60)):
        back.lineTo(x, y)
    back.closeSubpath()
    painter.drawPath(back)
    _panel(painter, QRectF(24, 6, 64, 44), written=True)
    painter.setPen(QPen(accent, 2))
    painter.setBrush(soft)
    painter.drawRoundedRect(QRectF(8, 46, 96, 44), 4, 4)


def _fill(painter: QPainter, colour: QColor) -> None:
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colour)


def _panel(painter: QPainter, body: QRectF, *, written: bool) -> None:
    _fill(painter, _BODY)
    painter.drawRoundedRect(body, 6, 6)
    glass = body.adjusted(7, 7, -7, -body.height() * 0.32)
    _fill(painter, _GLASS)
    painter.drawRoundedRect(glass, 2, 2)
    if written:
        _fill(painter, _WRITING)
        step = glass.height() / 3.4
        for row, (label, value) in enumerate(((0.42, 0.2), (0.3, 0.24), (0.38, 0.16))):
            top = glass.top() + step * (row + 0.4)
            painter.drawRect(QRectF(glass.left() + 5, top, glass.width() * label, 4))
            painter.drawRect(QRectF(glass.right() - 5 - glass.width() * value, top, glass.width() * value, 4))
    _keys(painter, 4, QRectF(body.left() + 9, body.bottom() - body.height() * 0.24, body.width() - 18, 9))


def _keys(painter: QPainter, count: int, room: QRectF) -> None:
    _fill(painter, _KEY)
    width = (room.width() - 4 * (count - 1)) / count
    for number in range(count):
        painter.drawRoundedRect(QRectF(room.left() + number * (width + 4), room.top(), width, room.height()), 2, 2)
