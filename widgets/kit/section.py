"""A part of a form under a heading that opens and closes it."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QRect, QSize, Qt, Signal
from PySide6.QtGui import QFont, QFontMetrics, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QToolButton, QVBoxLayout, QWidget

from widgets.kit import palette
from widgets.kit.drawn.boxes import paint_ring
from widgets.kit.elided import ELIDES
from widgets.kit.icons import SIDE, paint_icon
from widgets.kit.plain import plain_tip
from widgets.kit.scaling import line_height, scaled

HEAD: Final = 36
"""Pixels at 100 per cent."""


class Section(QWidget):
    """A heading, and below it a body that is there or not; closed, a summary beside the heading says what is in it."""

    toggled = Signal(bool)
    """Whether it is open now, when a person opened or closed it."""

    def __init__(self, title: str, body: QWidget, summary: str = "", *, is_open: bool = True) -> None:
        super().__init__()
        self.body = body
        self._summary = summary
        self._note = ""
        self.head = _Head(title)
        self.head.clicked.connect(lambda _checked=False: self._turn())
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self.head)
        layout.addWidget(body)
        self.set_open(is_open)

    @property
    def title(self) -> str:
        """What the heading says."""
        return self.head.title

    @property
    def is_open(self) -> bool:
        """Whether the body is there."""
        return not self.body.isHidden()

    def set_open(self, wanted: bool) -> None:
        """Open or close it."""
        self.body.setVisible(wanted)
        self._show()

    def set_title(self, title: str) -> None:
        """Another heading."""
        self.head.title = title
        self._show()

    def set_summary(self, summary: str) -> None:
        """Say in short what is in it, which is shown while it is closed."""
        self._summary = summary
        self._show()

    def set_note(self, note: str) -> None:
        """Say this beside the heading, whether it is open or closed."""
        self._note = note
        self._show()

    def _turn(self) -> None:
        self.set_open(not self.is_open)
        self.toggled.emit(self.is_open)

    def _show(self) -> None:
        summary = self._summary if not self.is_open else ""
        self.head.show_state(open_now=self.is_open, summary=", ".join(filter(None, (self._note, summary))))


class _Head(QToolButton):
    """The whole heading is one button; what has no room in it ends in dots."""

    def __init__(self, title: str) -> None:
        super().__init__()
        self.setProperty("look", "section")
        self.setProperty(ELIDES, True)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setFixedHeight(line_height(HEAD))
        self.title, self._summary, self._open = title, "", True

    def show_state(self, *, open_now: bool, summary: str) -> None:
        self._open, self._summary = open_now, summary
        self.setText(self.title)
        self.setAccessibleName(self.title)
        opened, closed = self.tr("open"), self.tr("closed")
        self.setAccessibleDescription(", ".join(filter(None, (opened if open_now else closed, summary))))
        self.setToolTip(plain_tip("\n".join(filter(None, (self.title, self._summary)))))
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        colours, gap = palette.current(), scaled(8)
        painter.fillRect(0, 0, self.width(), 1, colours.colour("line"))
        place = self.rect().adjusted(0, 1, 0, 0)
        side = scaled(SIDE)
        chevron = "chevron-down" if self._open else "chevron-right"
        paint_icon(
            painter, chevron, "accent" if self.underMouse() else "ink", QRect(0, place.top(), side, place.height())
        )
        place.setLeft(side + gap)
        for words, ink, weight in (
            (self.title, "ink", QFont.Weight.DemiBold),
            (self._summary, "faint", QFont.Weight.Normal),
        ):
            font = QFont(self.font())
            font.setWeight(weight)
            metrics = QFontMetrics(font)
            short = metrics.elidedText(words, Qt.TextElideMode.ElideRight, place.width())
            painter.setFont(font)
            painter.setPen(colours.colour(ink))
            painter.drawText(place, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, short)
            place.setLeft(place.left() + metrics.horizontalAdvance(short) + gap)
        if self.hasFocus():
            paint_ring(painter, self.rect())

    def sizeHint(self) -> QSize:
        return QSize(0, line_height(HEAD))

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()
