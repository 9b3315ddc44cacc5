"""A ring around what has the keyboard focus, where it does not show that itself by its own outline."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QEvent, QObject, QPoint, QRect, QRectF, Qt, QTimer
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QRegion
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractScrollArea,
    QAbstractSlider,
    QAbstractSpinBox,
    QApplication,
    QComboBox,
    QLineEdit,
    QMainWindow,
    QMenu,
    QMenuBar,
    QPlainTextEdit,
    QTabBar,
    QTextEdit,
    QWidget,
)
from shiboken6 import isValid

from widgets.face.face import PanelFace
from widgets.kit import palette

WIDTH: Final = 2
"""Thickness of the ring, and its distance from the edge of the widget, in device-independent pixels."""

NO_RING: Final = (
    QMenu,
    QMenuBar,
    QMainWindow,
    PanelFace,
    QAbstractButton,
    QAbstractSlider,
    QAbstractSpinBox,
    QComboBox,
    QLineEdit,
    QPlainTextEdit,
    QTabBar,
    QTextEdit,
)
"""These show the focus themselves: what is pressed and filled in by its own outline, so that no frame is in another."""

_MOVING: Final = (
    QEvent.Type.Move,
    QEvent.Type.Resize,
    QEvent.Type.Show,
    QEvent.Type.Hide,
    QEvent.Type.ParentChange,
)


class FocusRing(QObject):
    """Follows the keyboard focus through the whole application.

    The ring lies in the window, over everything in it: Qt's own QFocusFrame lies in the widget's parent, which cuts it
    off wherever a layout leaves no margin.
    """

    def __init__(self, application: QApplication) -> None:
        super().__init__()
        self._application = application
        self._ring: _Ring | None = None
        self._target: QWidget | None = None
        self._watched: list[QWidget] = []
        # Placed once after many moves, and never in the middle of a widget's end, which sends events too.
        self._soon = QTimer(self)
        self._soon.setSingleShot(True)
        self._soon.setInterval(0)
        self._soon.timeout.connect(self._place)
        application.focusChanged.connect(self._follow)

    @property
    def ring(self) -> QWidget | None:
        """The ring as a widget of the window that it lies in; None while there is none."""
        return self._ring if self._ring is not None and isValid(self._ring) else None

    @property
    def target(self) -> QWidget | None:
        """What the ring is around."""
        return self._target if self._target is not None and isValid(self._target) else None

    def stop(self) -> None:
        """Follow no longer and disappear."""
        self._application.focusChanged.disconnect(self._follow)
        self._leave()
        self.deleteLater()

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:
        """Keep around the widget while it or anything that it lies in moves."""
        if event.type() in _MOVING:
            self._soon.start()
        return False

    def _follow(self, before: QWidget | None, now: QWidget | None) -> None:
        for widget in (before, now):
            if isinstance(widget, QPlainTextEdit | QTextEdit) and isValid(widget):
                widget.update()  # of these Qt paints only the inside anew
        self._leave()
        if now is None or isinstance(now, NO_RING) or now.isWindow():
            return
        self._target = now
        self._ring = _Ring(now.window())
        step: QWidget | None = now
        while step is not None and not step.isWindow():
            step.installEventFilter(self)
            self._watched.append(step)
            step = step.parentWidget()
        self._soon.start()

    def _leave(self) -> None:
        self._soon.stop()
        for widget in self._watched:
            if isValid(widget):
                widget.removeEventFilter(self)
        ring = self.ring
        self._ring, self._target, self._watched = None, None, []
        if ring is not None:
            ring.hide()
            ring.deleteLater()

    def _place(self) -> None:
        if self._ring is None or self.ring is None or self.target is None:
            self._leave()
            return
        if not self.target.isVisible():
            self._ring.hide()
            return
        window = self.target.window()
        around = QRect(self.target.mapTo(window, QPoint(0, 0)), self.target.size()).adjusted(
            -2 * WIDTH, -2 * WIDTH, 2 * WIDTH, 2 * WIDTH
        )
        self._ring.place(around & self._visible_part(window))

    def _visible_part(self, window: QWidget) -> QRect:
        """The part of the window in which the widget can be seen: what scrolls is cut off by its viewport."""
        seen = window.rect()
        for widget in filter(isValid, self._watched):
            parent = widget.parentWidget()
            area = parent.parentWidget() if parent is not None else None
            if isinstance(area, QAbstractScrollArea) and parent is area.viewport():
                seen &= QRect(parent.mapTo(window, QPoint(0, 0)), parent.size())
        return seen


class _Ring(QWidget):
    """The ring itself: nothing but its own few pixels, and no part of what one can click or focus."""

    def __init__(self, window: QWidget) -> None:
        super().__init__(window)
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)

    def place(self, around: QRect) -> None:
        if around.width() <= 4 * WIDTH or around.height() <= 4 * WIDTH:
            self.hide()
            return
        if around != self.geometry():
            self.setGeometry(around)
            inner = self.rect().adjusted(2 * WIDTH, 2 * WIDTH, -2 * WIDTH, -2 * WIDTH)
            # Without the mask every repaint of the widget below would repaint the ring too.
            self.setMask(QRegion(self.rect()) - QRegion(inner))
        self.show()
        self.raise_()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(palette.current().colour("accent"), WIDTH))
        inset = WIDTH / 2
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(inset, inset, -inset, -inset), 5, 5)
