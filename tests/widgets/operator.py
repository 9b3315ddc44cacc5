"""Somebody at the window, whose actions are counted: each click, each key, each field that is typed."""

from __future__ import annotations

from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget

from tests.widgets.driving import focused

NO = Qt.KeyboardModifier.NoModifier


class Operator:
    """Acts on what is on the screen, and on nothing else: what is clicked must be in sight, and may be used."""

    def __init__(self) -> None:
        self.actions = 0

    def click(self, widget: QWidget, at: QPoint | None = None) -> None:
        """Click on something that can be seen."""
        assert widget.isVisible(), "nobody can click what is not there"
        assert widget.isEnabled(), "nobody can use what is switched off"
        self.actions += 1
        QTest.mouseClick(widget, Qt.MouseButton.LeftButton, NO, QPoint() if at is None else at)

    def key(self, key: Qt.Key, modifiers: Qt.KeyboardModifier = NO) -> None:
        """Press a key in whatever has the focus."""
        self.actions += 1
        QTest.keyClick(focused(), key, modifiers)

    def type(self, text: str) -> None:
        """Fill in the field that has the focus."""
        self.actions += 1
        QTest.keyClicks(focused(), text)
