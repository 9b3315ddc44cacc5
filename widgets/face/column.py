"""A face with what belongs below it, placed by nothing but the size of the column: no key moves under a pointer."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QFrame, QScrollArea, QSizePolicy, QWidget

from widgets.face.face import PanelFace
from widgets.kit import palette
from widgets.kit.scaling import scaled

MOST_BELOW: Final = 0.44
"""Of the height: what may stand below the face even in a low window."""
BELOW_FACE: Final = 4
"""Pixels between the panel and the words below it."""
LEAST_FACE: Final = (420, 90)
"""Pixels at 100 per cent below which the face, at its smallest, is scrolled rather than the window made larger."""
LEAST_BELOW: Final = 40
"""Pixels at 100 per cent of it that a low window keeps; the rest is scrolled."""


class FaceColumn(QWidget):
    """The face at the top, one slot for words below it, and at the lower end something of a height that never changes.

    No layout of Qt: that would ask the parts what they want, and what they want depends on what they say just now.
    """

    def __init__(
        self,
        face: PanelFace,
        slot: QWidget,
        below: QWidget | None = None,
        wanted: int = 0,
        narrowest: int = LEAST_FACE[0],
        *,
        beside: int = 0,
        around: int = 0,
        fills: bool = False,
    ) -> None:
        """`wanted` is the height of what stands `below`, in pixels; where it needs more, or gets less, it scrolls.

        `narrowest` is the width, in pixels at 100 per cent, that the window is made larger for and no more. `beside`
        the face (in pixels at any size: its letters are not to become smaller) and `around` what stands below (in
        pixels at 100 per cent) the ground is seen. What stands below `fills` all that is left, or stands at the end.
        """
        super().__init__()
        self._beside, self._around = beside, scaled(around)
        self._fills = fills
        self._face = face
        self._face_area = in_scroll_area(face)
        self._slot = slot
        self._below: QScrollArea | None = None
        self._narrowest = narrowest
        self._wanted = wanted + self._around
        face.fitted.connect(self._place_slot)
        for part in (self._face_area, self._slot):
            part.setParent(self)
        if below is not None:
            self.hold_below(below if isinstance(below, QScrollArea) else in_scroll_area(below))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    def set_wanted(self, wanted: int) -> None:
        """Another project wants another height of what stands below."""
        if wanted + self._around != self._wanted:
            self._wanted = wanted + self._around
            self.updateGeometry()
            self._arrange()

    def hold_below(self, below: QScrollArea | None) -> None:
        """Have this below the face, or nothing: then it is somebody else's, and the face gets its room."""
        self._below = below
        if below is not None:
            below.setParent(self)
            below.show()
        self.updateGeometry()
        self._arrange()

    @property
    def _kept(self) -> int:
        """Pixels kept for what stands below."""
        return 0 if self._below is None else self._wanted

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._arrange()

    def _arrange(self) -> None:
        width, height = self.width(), self.height()
        said = self._slot.sizeHint().height()
        # All keys first: what stands below can be scrolled, and a STOP that must be looked for is none.
        beside_keys = height - said - self._face.minimumSizeHint().height()
        low = min(self._kept, int(height * MOST_BELOW), max(scaled(LEAST_BELOW), beside_keys))
        top = max(0, height - low - said)
        self._face_area.setGeometry(self._beside, 0, width - 2 * self._beside, top)
        self._place_slot()
        if self._below is not None and not self._fills:
            around = self._around
            self._below.setGeometry(around, height - low, width - 2 * around, low - around)

    def _place_slot(self) -> None:
        """Right below the panel, where the eye is; nothing but the size of the window moves that either."""
        area = self._face_area.geometry()
        top = min(area.bottom() + 1, self._face.bezel_rect().bottom() + 1 + BELOW_FACE)
        self._slot.setGeometry(self._beside, top, self.width() - 2 * self._beside, self._slot.sizeHint().height())
        if self._below is not None and self._fills:
            top = self._slot.geometry().bottom() + 1
            self._below.setGeometry(0, top, self.width(), self.height() - top)

    def paintEvent(self, _event: QPaintEvent) -> None:
        QPainter(self).fillRect(self.rect(), palette.current().colour("canvas"))

    def sizeHint(self) -> QSize:
        face = self._face.sizeHint()
        return QSize(face.width() + 2 * self._beside, face.height() + self._slot.sizeHint().height() + self._kept)

    def minimumSizeHint(self) -> QSize:
        """Some of the face, which can be scrolled to the rest, beside the least of what else there is."""
        least = QSize(scaled(self._narrowest), scaled(LEAST_FACE[1]))
        face = self._face.minimumSizeHint().boundedTo(least)
        below = min(self._kept, scaled(LEAST_BELOW))
        return QSize(face.width() + 2 * self._beside, face.height() + self._slot.sizeHint().height() + below)


def in_scroll_area(widget: QWidget) -> QScrollArea:
    """A frame around a part that is scrolled where it has no room."""
    area = QScrollArea()
    area.setWidget(widget)
    area.setWidgetResizable(True)
    area.setFrameShape(QFrame.Shape.NoFrame)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    for part in (widget, area.viewport()):
        part.setAutoFillBackground(False)  # the ground is that of whatever lies behind
    return area
