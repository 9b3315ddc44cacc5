"""Buttons that Enter elsewhere does not press; choices, number boxes and sliders that the wheel leaves alone.

The wheel changes them only while they have the focus: Qt gives the focus to what lies under the wheel before it hands
the wheel on, so that scrolling through a form would change what happens to come under the pointer. All of the program's
are made of these.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QComboBox, QDoubleSpinBox, QPushButton, QSlider, QSpinBox, QWidget

if TYPE_CHECKING:
    _Editor = QWidget
else:
    _Editor = object


class _Steady(_Editor):
    def wheelEvent(self, event: QWheelEvent) -> None:
        """Leave the wheel to what is scrolled, unless somebody went to this one."""
        if self.hasFocus():
            super().wheelEvent(event)
        else:
            event.ignore()


class Choice(_Steady, QComboBox):
    """One of several."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)


class WholeNumber(_Steady, QSpinBox):
    """A whole number; the keys Up and Down step, and there are no arrows."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setButtonSymbols(QSpinBox.ButtonSymbols.NoButtons)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)


class DecimalNumber(_Steady, QDoubleSpinBox):
    """A number with decimals; the keys Up and Down step, and there are no arrows."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setButtonSymbols(QDoubleSpinBox.ButtonSymbols.NoButtons)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)


class Slider(_Steady, QSlider):
    """A place on a scale."""

    def __init__(self, orientation: Qt.Orientation, parent: QWidget | None = None) -> None:
        super().__init__(orientation, parent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)


def push_button(text: str, run: Callable[[], object], rank: str = "") -> QPushButton:
    """A button that calls `run`. In a dialog, Enter in another widget does not press it.

    Its rank: `primary` for the deed that one comes for, of which a window shows one at most; `quiet` for a tool beside
    a heading; `caution` for what can let a machine move; empty for all others, which have an outline.
    """
    button = QPushButton(text)
    if rank:
        button.setProperty("look", rank)
    button.setAutoDefault(False)
    button.clicked.connect(lambda _checked=False: run())
    return button
