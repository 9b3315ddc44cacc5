"""How Design is divided: tools above, screens and signals at the left, the canvas, the properties at the right.

At large sizes the canvas has all of the width. The left pane opens over it by a button, the properties by F4.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from PySide6.QtCore import QRect, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QApplication, QSplitter, QToolButton, QVBoxLayout, QWidget

from widgets.kit import palette
from widgets.kit.focus import stops_of
from widgets.kit.scaling import percent, scaled

LEFT: Final = 236
RIGHT: Final = 344
MIDDLE: Final = 1366 - LEFT - RIGHT - 8
"""Pixels at 100 per cent of the panes beside the canvas, and of the canvas on the smallest screen."""
DRAWERS_FROM: Final = 150
"""Per cent of size from which the panes lie over the canvas."""


class Pane(QWidget):
    """What stands beside the canvas, or lies over it as a drawer with a line around."""

    left = Signal()
    """Escape, which nothing inside has used."""

    def __init__(self, content: QWidget, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAutoFillBackground(True)
        column = QVBoxLayout(self)
        edge = 1 if percent() >= DRAWERS_FROM else 0
        column.setContentsMargins(edge, 0, edge, edge)
        column.addWidget(content)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape leaves it."""
        if event.key() == Qt.Key.Key_Escape:
            event.accept()
            self.left.emit()
            return
        super().keyPressEvent(event)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """A line around a drawer."""
        if percent() >= DRAWERS_FROM:
            painter = QPainter(self)
            painter.setPen(palette.current().colour("edge"))
            painter.drawRect(self.rect().adjusted(0, -1, -1, -1))


class DesignPanes(QWidget):
    """`across` divides the width. `walk` leads the focus from pane to pane."""

    def __init__(
        self, tools: QWidget, left: QWidget, canvas: QWidget, right: QWidget, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.drawers = percent() >= DRAWERS_FROM
        self._tools = tools
        self.left, self.right = Pane(left), Pane(right)
        left.setMinimumWidth(scaled(120) + 70)
        right.setMinimumWidth(scaled(180) + 140)
        self.across = QSplitter(Qt.Orientation.Horizontal)
        self.across.setChildrenCollapsible(False)
        self.left_button = QToolButton()
        self.left_button.setCheckable(True)
        self.left_button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.left_button.toggled.connect(self._turn_left)
        self.left_button.setVisible(False)
        self._left_wanted = True
        self._right_wanted = True
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(tools)
        column.addWidget(self.across, 1)
        if self.drawers:
            self.across.addWidget(canvas)
            for pane in (self.left, self.right):
                pane.setParent(self)
                pane.hide()
        else:
            self.across.setObjectName("design across")
            for part in (self.left, canvas, self.right):
                self.across.addWidget(part)
            self.across.setStretchFactor(1, 1)
            # The face needs the room most: its letters never get smaller as all else grows.
            self.across.setSizes([LEFT, MIDDLE, RIGHT] if percent() == 100 else [1, MIDDLE, 1])
        self.left.left.connect(self.close_left)

    def want(self, *, left: bool, right: bool) -> None:
        """Which panes the view in front has any use for."""
        self._left_wanted, self._right_wanted = left, right
        if self.drawers:
            self.left_button.setVisible(left)
            if not left:
                self.left_button.setChecked(False)
            if not right:
                self.close_right()
        else:
            self.left.setVisible(left)
            self.right.setVisible(right)

    # Drawers

    def _turn_left(self, on: bool) -> None:
        if not self.drawers:
            return
        self.left.setVisible(on)
        if on:
            self._place()
            self.left.raise_()
            for first in stops_of(self.left):
                if isinstance(first, QAbstractItemView):  # the list of screens, and not the buttons over it
                    first.setFocus(Qt.FocusReason.OtherFocusReason)
                    break

    def close_left(self) -> None:
        """Put the drawer at the left away, and give the focus back."""
        focused = QApplication.focusWidget()
        inside = focused is not None and self.left.isAncestorOf(focused)
        if not self.drawers:
            return
        self.left_button.setChecked(False)
        if inside:
            self.left_button.setFocus(Qt.FocusReason.OtherFocusReason)

    def open_right(self) -> None:
        """Bring the properties into sight."""
        if self.drawers and self._right_wanted:
            self._place()
            self.right.show()
            self.right.raise_()

    def close_right(self) -> None:
        """Put the properties away where they lie over the canvas."""
        if self.drawers:
            self.right.hide()

    def _place(self) -> None:
        top = self._tools.height()
        room = QRect(0, top, self.width(), self.height() - top)
        left = min(scaled(LEFT), room.width() // 2)
        right = min(max(room.width() // 2, self.right.minimumSizeHint().width()), room.width())
        self.left.setGeometry(0, top, left, room.height())
        self.right.setGeometry(room.width() - right, top, right, room.height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if self.drawers:
            self._place()


def walk(stops: list[tuple[QWidget, Callable[[], object]]], way: int) -> None:
    """Lead the focus to the next (1) or the previous (-1) of some panes that are in sight, and round the end."""
    seen = [(pane, go) for pane, go in stops if pane.isVisible()]
    focused = QApplication.focusWidget()
    here = next(
        (
            at
            for at, (pane, _) in enumerate(seen)
            if focused is not None and (pane is focused or pane.isAncestorOf(focused))
        ),
        -1 if way > 0 else 0,
    )
    if seen:
        seen[(here + way) % len(seen)][1]()
