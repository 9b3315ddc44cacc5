"""Tool tips: their ground, and long ones over several lines, which Qt breaks only where they are rich text."""

from __future__ import annotations

from typing import Any, Final

from PySide6.QtCore import QEvent, QObject
from PySide6.QtGui import QCursor, QPainter
from PySide6.QtWidgets import QLabel, QWidget

from widgets.kit.palette import Colours
from widgets.kit.scaling import scaled

WIDEST: Final = 420
"""Pixels at 100 per cent."""
BESIDE_POINTER: Final = 2
"""Pixels to the right of the pointer, as Qt places them."""


def paint_tip(option: Any, painter: QPainter, _widget: QWidget | None, colours: Colours) -> None:
    """The ground of a tool tip."""
    painter.fillRect(option.rect, colours.colour("base"))
    painter.setPen(colours.colour("edge"))
    painter.drawRect(option.rect.adjusted(0, 0, -1, -1))


def break_lines(tip: QWidget) -> None:
    """Let the label that Qt shows tool tips in be no wider than WIDEST, now and with every other text."""
    if tip.inherits("QTipLabel") and isinstance(tip, QLabel):
        tip.installEventFilter(_Narrow(tip))


class _Narrow(QObject):
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() in (QEvent.Type.Show, QEvent.Type.Resize) and isinstance(watched, QLabel):
            widest = scaled(WIDEST)
            if watched.width() > widest:
                watched.setWordWrap(True)
                watched.resize(widest, watched.heightForWidth(widest))
                # Qt moved it to the left by what it had been wider.
                room = watched.screen().availableGeometry()
                left = min(QCursor.pos().x() + BESIDE_POINTER, room.right() - widest)
                watched.move(max(watched.x(), left), watched.y())
        return False
