"""Keys of a panel as they are shown beside words: a cap with what is printed on the key, arrows as arrows."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QRect, QRectF, Qt
from PySide6.QtGui import QFont, QFontInfo, QFontMetrics, QPainter, QPen

from widgets.face.keypad import key_legend
from widgets.kit import palette
from widgets.kit.scaling import scaled

ROUND: Final = 4.0
_GLYPHS: Final = {"left": "\u25c2", "right": "\u25b8", "up": "\u25b4", "down": "\u25be"}


def cap_legend(key: str) -> str:
    """What stands on the picture of a key. For what is spoken there is `key_legend`."""
    return _GLYPHS.get(key.lower()) or key_legend(key)


def cap_font(font: QFont) -> QFont:
    """The letters of a key beside words in `font`."""
    cap = QFont(font)
    cap.setWeight(QFont.Weight.DemiBold)
    cap.setPointSizeF(QFontInfo(font).pointSizeF() * 0.88)
    return cap


def paint_cap(painter: QPainter, rect: QRect, legend: str, font: QFont) -> None:
    """A key with its legend."""
    colours = palette.current()
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(colours.colour("edge"), 1))
    painter.setBrush(colours.colour("raised"))
    painter.drawRoundedRect(QRectF(rect).adjusted(0.5, 0.5, -0.5, -0.5), ROUND, ROUND)
    painter.setPen(colours.colour("ink"))
    painter.setFont(cap_font(font))
    painter.drawText(rect, Qt.AlignmentFlag.AlignCenter, legend)
    painter.restore()


def cap_width(legend: str, font: QFont) -> int:
    """Pixels of a key with that legend."""
    return max(scaled(28), QFontMetrics(cap_font(font)).horizontalAdvance(legend) + scaled(18))
