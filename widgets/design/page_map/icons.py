"""The icons of the page map's tools."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QIcon, QPainter, QPen, QPolygonF

from widgets.kit.icons import drawn_icon


def line_icon(style: Qt.PenStyle) -> QIcon:
    """An arrow in a style of line, which so explains the lines of the map."""

    def draw(painter: QPainter) -> None:
        pen = QPen(painter.pen())
        painter.setBrush(pen.color())
        pen.setStyle(style)
        pen.setCapStyle(Qt.PenCapStyle.FlatCap)
        painter.setPen(pen)
        painter.drawLine(QPointF(0, 8), QPointF(11, 8))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.drawPolygon(QPolygonF([QPointF(10, 4.5), QPointF(16, 8), QPointF(10, 11.5)]))

    return drawn_icon(draw)


def arrange_icon() -> QIcon:
    """Boxes in order."""

    def draw(painter: QPainter) -> None:
        for x, y in ((1, 2), (9.5, 2), (1, 10), (9.5, 10)):
            painter.drawRect(QRectF(x, y, 5.5, 4))

    return drawn_icon(draw)


def selection_icon() -> QIcon:
    """A frame around something."""

    def draw(painter: QPainter) -> None:
        painter.drawRect(QRectF(5.5, 6, 5, 4))
        for x, y, right, down in ((1, 2, 4, 3), (15, 2, -4, 3), (1, 14, 4, -3), (15, 14, -4, -3)):
            painter.drawPolyline(QPolygonF([QPointF(x + right, y), QPointF(x, y), QPointF(x, y + down)]))

    return drawn_icon(draw)


def fit_icon() -> QIcon:
    """All within a frame."""

    def draw(painter: QPainter) -> None:
        painter.drawRect(QRectF(1.5, 2.5, 13, 11))
        for x, y in ((4, 5), (8.5, 5), (4, 9), (8.5, 9)):
            painter.drawRect(QRectF(x, y, 3, 2))

    return drawn_icon(draw)
