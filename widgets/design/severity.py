"""The shapes that say how severe something is, told apart without colours too."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QIcon, QPainter, QPixmap, QPolygonF

from app.checks.finding import Severity
from widgets.kit import palette


def severity_icon(severity: Severity | str, size: int = 14) -> QIcon:
    """A shape for how severe a finding is: a square with a cross, a triangle, a ring; a pencil stroke for a draft."""
    colours = palette.current()
    names = {"error": "fault", "warning": "caution", "note": "faint", "draft": "fault", "accepted": "faint"}
    # In a selected row it stands on the accent, in which none of its own colours can be seen.
    inks = (
        colours.colour(names[severity]),
        QColor(colours.base),
        colours.colour("on_accent"),
        colours.colour("accent"),
    )
    key: tuple[str | int, ...] = (severity, size, *[ink.rgba() for ink in inks])
    icon = _MADE.get(key)
    if icon is None:
        icon = _MADE[key] = QIcon(_shape(severity, inks[0], inks[1], size))
        icon.addPixmap(_shape(severity, inks[2], inks[3], size), QIcon.Mode.Selected)
    return icon


_MADE: Final[dict[tuple[str | int, ...], QIcon]] = {}
"""Lists ask for the shapes again at every painting."""


def _shape(severity: str, colour: QColor, ground: QColor, size: int) -> QPixmap:
    pixmap = QPixmap(size * 2, size * 2)
    pixmap.setDevicePixelRatio(2)
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    _paint_shape(painter, severity, colour, ground, float(size))
    painter.end()
    return pixmap


def _paint_shape(painter: QPainter, severity: str, colour: QColor, ground: QColor, size: float) -> None:
    area = QRectF(1, 1, size - 2, size - 2)
    pen = painter.pen()
    pen.setWidthF(1.8)
    pen.setColor(colour)
    if severity == "error":
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour)
        painter.drawRoundedRect(area, 2, 2)
        pen.setColor(ground)
        painter.setPen(pen)
        inner = area.adjusted(3, 3, -3, -3)
        painter.drawLine(inner.topLeft(), inner.bottomRight())
        painter.drawLine(inner.topRight(), inner.bottomLeft())
    elif severity == "warning":
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour)
        painter.drawPolygon(QPolygonF([QPointF(size / 2, 1), QPointF(size - 1, size - 1), QPointF(1, size - 1)]))
        pen.setColor(ground)
        painter.setPen(pen)
        painter.drawLine(QPointF(size / 2, size * 0.42), QPointF(size / 2, size * 0.68))
        painter.drawPoint(QPointF(size / 2, size * 0.84))
    elif severity == "draft":
        painter.setPen(pen)
        painter.drawLine(QPointF(2, size - 3), QPointF(size - 3, 2))
        painter.drawLine(QPointF(2, size - 1), QPointF(size - 2, size - 1))
    else:
        painter.setPen(pen)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawEllipse(area.adjusted(1, 1, -1, -1))
        painter.drawPoint(area.center())
