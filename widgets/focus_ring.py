"""A ring around whatever has the keyboard focus, the same for every kind of widget."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QApplication, QFocusFrame, QMainWindow, QMenu, QMenuBar, QWidget

from widgets import palette
from widgets.face import PanelFace
from widgets.keypad import PanelKey

WIDTH: Final = 2.0
"""Thickness of the ring, in device-independent pixels."""

NO_RING: Final = (QMenu, QMenuBar, QMainWindow, PanelFace, PanelKey)
"""These show the focus themselves."""


class FocusRing(QFocusFrame):
    """Follows the keyboard focus through the whole application."""

    def __init__(self, application: QApplication) -> None:
        super().__init__()
        self._application = application
        application.focusChanged.connect(self._follow)

    def stop(self) -> None:
        """Follow no longer and disappear."""
        self._application.focusChanged.disconnect(self._follow)
        self.setWidget(None)  # type: ignore[arg-type]  # Qt documents a null widget as "none"
        self.deleteLater()

    def _follow(self, _before: QWidget | None, now: QWidget | None) -> None:
        shown = now is not None and not isinstance(now, NO_RING) and not now.isWindow()
        self.setWidget(now if shown else None)  # type: ignore[arg-type]

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw the ring."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(palette.current().colour("accent"), WIDTH))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        inset = WIDTH / 2
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(inset, inset, -inset, -inset), 3, 3)
