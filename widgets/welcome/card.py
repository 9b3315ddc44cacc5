"""A card that can be taken: what can be begun with, in a title and a sentence, with a drawing and its key."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QRect, QRectF, QSize, Qt
from PySide6.QtGui import QFont, QFontInfo, QFontMetrics, QKeyEvent, QKeySequence, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QSizePolicy

from widgets.kit import palette
from widgets.kit.scaling import scaled
from widgets.welcome.drawings import SIDE, CardDrawing

HEIGHT: Final = 150
"""Pixels at 100 per cent, where the texts need no more."""
LEAST: Final = 300
USUAL: Final = 365
"""The least width, and the one in a window of usual size, by which the height is asked for."""
BESIDE: Final = 20
"""Around what is on the card."""
TITLE: Final = 1.23
"""Times the size of other texts."""


class Card(QAbstractButton):
    """Enter and Space take it, as a click does."""

    def __init__(self, title: str, sentence: str, drawing: CardDrawing, keys: QKeySequence | None = None) -> None:
        super().__init__()
        self._title, self._sentence, self._drawing = title, sentence, drawing
        self._keys = "" if keys is None else keys.toString(QKeySequence.SequenceFormat.NativeText)
        self.setText(title)
        self.setAccessibleName(title)
        self.setAccessibleDescription(sentence)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)

    def sizeHint(self) -> QSize:
        return QSize(scaled(LEAST), self.heightForWidth(scaled(USUAL)))

    def minimumSizeHint(self) -> QSize:
        return QSize(scaled(LEAST), scaled(HEIGHT))

    def heightForWidth(self, width: int) -> int:
        below = self.fontMetrics().height() + scaled(4) if self._keys else 0
        return max(scaled(HEIGHT), sum(self._heights(width)) + scaled(6) + below + 2 * scaled(BESIDE))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and not event.isAutoRepeat():
            self.click()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, _event: QPaintEvent) -> None:
        colours = palette.current()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        chosen = self.hasFocus()
        ground = "line" if self.isDown() else "soft" if chosen else "hover" if self.underMouse() else "base"
        width = 2 if chosen else 1
        painter.setPen(QPen(colours.colour("accent" if chosen else "line"), width))
        painter.setBrush(colours.colour(ground))
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(width / 2, width / 2, -width / 2, -width / 2), 6, 6)
        self._paint_drawing(painter, colours)
        self._write(painter, colours)

    def _paint_drawing(self, painter: QPainter, colours: palette.Colours) -> None:
        painter.save()
        large = scaled(100) / 100
        painter.translate(scaled(BESIDE), (self.height() - SIDE[1] * large) / 2)
        painter.scale(large, large)
        self._drawing(painter, colours)
        painter.restore()

    def _write(self, painter: QPainter, colours: palette.Colours) -> None:
        room = self._room(self.width())
        title, sentence = self._heights(self.width())
        flags = int(Qt.TextFlag.TextWordWrap)
        painter.setPen(colours.colour("ink"))
        painter.setFont(self._title_font())
        painter.drawText(QRect(room.left(), room.top(), room.width(), title), flags, self._title)
        painter.setFont(self.font())
        painter.setPen(colours.colour("faint"))
        below = room.top() + title + scaled(6)
        painter.drawText(QRect(room.left(), below, room.width(), sentence), flags, self._sentence)
        if self._keys:
            bottom = QRect(room.left(), self.height() - scaled(BESIDE) - self.fontMetrics().height(), room.width(), 99)
            painter.drawText(bottom, int(Qt.AlignmentFlag.AlignRight), self._keys)

    def _room(self, width: int) -> QRect:
        """Where the texts stand."""
        left = scaled(BESIDE + SIDE[0] + 16)
        return QRect(left, scaled(BESIDE), width - left - scaled(BESIDE), self.height())

    def _heights(self, width: int) -> tuple[int, int]:
        """Pixels that the title and the sentence need."""
        room = QRect(0, 0, self._room(width).width(), 9999)
        flags = int(Qt.TextFlag.TextWordWrap)
        title = QFontMetrics(self._title_font()).boundingRect(room, flags, self._title).height()
        return title, self.fontMetrics().boundingRect(room, flags, self._sentence).height()

    def _title_font(self) -> QFont:
        font = QFont(self.font())
        font.setPointSizeF(TITLE * QFontInfo(font).pointSizeF())
        font.setWeight(QFont.Weight.DemiBold)
        return font
