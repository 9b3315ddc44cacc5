"""Icons drawn in the colours of the window, and the flat buttons that carry them."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from PySide6.QtCore import QPoint, QRectF, QSize, Qt
from PySide6.QtGui import QIcon, QPainter, QPen, QPixmap
from PySide6.QtWidgets import QToolButton, QWidget

from widgets.kit import palette
from widgets.kit.scaling import scaled

SIDE: Final = 16
"""Of an icon, in pixels at 100 per cent."""


def drawn_icon(draw: Callable[[QPainter], None], colour: str = "ink") -> QIcon:
    """An icon drawn by a function on 16 x 16, in one of the window's colours."""
    side = scaled(SIDE)
    pixmap = QPixmap(2 * side, 2 * side)
    pixmap.setDevicePixelRatio(2)
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.scale(side / SIDE, side / SIDE)
    pen = QPen(palette.current().colour(colour), 1.7)
    pen.setCapStyle(Qt.PenCapStyle.RoundCap)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    painter.setPen(pen)
    draw(painter)
    painter.end()
    return QIcon(pixmap)


def mark_icon(mark: str, colour: str) -> QIcon:
    """One character, such as a tick."""

    def draw(painter: QPainter) -> None:
        font = painter.font()
        font.setPixelSize(13)
        painter.setFont(font)
        painter.drawText(QRectF(0, 0, SIDE, SIDE), Qt.AlignmentFlag.AlignCenter, mark)

    return drawn_icon(draw, colour)


def plus_icon() -> QIcon:
    """Add."""

    def draw(painter: QPainter) -> None:
        painter.drawLine(8, 3, 8, 13)
        painter.drawLine(3, 8, 13, 8)

    return drawn_icon(draw)


def cross_icon() -> QIcon:
    """Delete."""

    def draw(painter: QPainter) -> None:
        painter.drawLine(4, 4, 12, 12)
        painter.drawLine(12, 4, 4, 12)

    return drawn_icon(draw)


def copies_icon() -> QIcon:
    """Duplicate."""

    def draw(painter: QPainter) -> None:
        painter.drawRect(QRectF(2.5, 2.5, 7.5, 7.5))
        painter.drawPolyline([QPoint(12, 6), QPoint(13, 6), QPoint(13, 13), QPoint(6, 13), QPoint(6, 12)])

    return drawn_icon(draw)


def up_icon() -> QIcon:
    """One place up."""

    def draw(painter: QPainter) -> None:
        painter.drawLine(8, 4, 8, 13)
        painter.drawPolyline([QPoint(4, 8), QPoint(8, 4), QPoint(12, 8)])

    return drawn_icon(draw)


def down_icon() -> QIcon:
    """One place down."""

    def draw(painter: QPainter) -> None:
        painter.drawLine(8, 3, 8, 12)
        painter.drawPolyline([QPoint(4, 8), QPoint(8, 12), QPoint(12, 8)])

    return drawn_icon(draw)


def tool(icon: QIcon, name: str, parent: QWidget, tip: str = "") -> QToolButton:
    """A flat button with an icon and a spoken name."""
    button = QToolButton(parent)
    button.setIcon(icon)
    button.setIconSize(QSize(scaled(SIDE), scaled(SIDE)))
    button.setAutoRaise(True)
    button.setToolTip(tip or name)
    button.setAccessibleName(name)
    button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
    return button


def minus_icon() -> QIcon:
    """Less, smaller."""

    def draw(painter: QPainter) -> None:
        painter.drawLine(3, 8, 13, 8)

    return drawn_icon(draw)
