"""How large everything is drawn: from 100 to 200 per cent of what the system asks for.

Texts follow the font of the application; a measure in pixels that belongs to texts goes through `scaled` when a widget
is made. A window is made anew for another size, as for another language.
"""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QSize
from PySide6.QtGui import QFont, QFontInfo, QFontMetrics
from PySide6.QtWidgets import QApplication, QHeaderView, QWidget

SIZES: Final = (100, 125, 150, 175, 200)
"""Per cent that can be chosen."""

TEXT: Final = 18
"""Pixels of a line of text at 100 per cent."""

_percent = 100


def percent() -> int:
    """The size in use, 100 to 200."""
    return _percent


def scaled(pixels: int) -> int:
    """Pixels at 100 per cent as pixels at the size in use."""
    return (pixels * _percent + 50) // 100


def air(pixels: int) -> int:
    """Pixels at 100 per cent around a text at the size in use: it grows as far as 125 per cent.

    What is read keeps the room.
    """
    return pixels * min(_percent, 125) // 100


def line_height(pixels: int, lines: int = 1) -> int:
    """The height of what holds so many lines of text, given at 100 per cent, at the size in use."""
    return scaled(lines * TEXT) + air(pixels - lines * TEXT)


def nearest(wanted: int) -> int:
    """The size that can be chosen which is nearest to `wanted`."""
    return min(SIZES, key=lambda size: abs(size - wanted))


def use(application: QApplication, font: QFont, wanted: int) -> None:
    """Draw at `wanted` per cent (the nearest that can be chosen) of `font` from now on."""
    global _percent
    _percent = nearest(wanted)
    larger = QFont(font)
    if font.pointSizeF() > 0:
        larger.setPointSizeF(font.pointSizeF() * _percent / 100)
    else:
        larger.setPixelSize(scaled(font.pixelSize()))
    application.setFont(larger)


def comfortable(dialog: QWidget, width: int, height: int) -> QSize:
    """The size of a dialog that is comfortable at 100 per cent, scaled, but no larger than the window it belongs to."""
    parent = dialog.parentWidget()
    room = parent.window().size() if parent is not None else dialog.screen().availableSize()
    return QSize(scaled(width), scaled(height)).boundedTo(room)


HEADING: Final = 28
"""Height of the headings of columns, in pixels at 100 per cent."""


def heading_margin() -> int:
    """Pixels beside the heading of a column and the text of a cell, on either side."""
    return scaled(8)


def heading_font(font: QFont) -> QFont:
    """The font of the headings of columns whose cells are written in `font`."""
    other = QFont(font)
    other.setWeight(QFont.Weight.DemiBold)
    other.setPixelSize(round(0.92 * QFontInfo(font).pixelSize()))
    return other


def heading_width(header: QHeaderView, text: str) -> int:
    """Pixels that the heading of a column needs, in its weight and with its margins."""
    return QFontMetrics(heading_font(header.font())).horizontalAdvance(text) + 2 * heading_margin() + 2
