"""Texts that are shortened where there is no room for them; the whole text is the tool tip.

Only for names and sentences of any length that stand in one line. All other texts get the room they need.
"""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QPaintEvent
from PySide6.QtWidgets import (
    QComboBox,
    QLabel,
    QLineEdit,
    QSizePolicy,
    QStyle,
    QStyleOptionComboBox,
    QStylePainter,
    QTabBar,
    QWidget,
)

ELIDES: Final = "elides"
"""Dynamic property of all that is shortened."""


class ShortLabel(QLabel):
    """A plain text in one line, as wide as there is room."""

    def __init__(self, text: str = "", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty(ELIDES, True)
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self.setText(text)

    def setText(self, text: str) -> None:
        """Show this, and the whole of it as the tool tip."""
        super().setText(text)
        self.setToolTip(text)

    def clear(self) -> None:
        """Show nothing."""
        self.setText("")

    def minimumSizeHint(self) -> QSize:
        """Any width will do."""
        return QSize(0, super().minimumSizeHint().height())

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: ARG002
        """Draw what fits."""
        painter = QStylePainter(self)
        room = self.contentsRect().adjusted(self.margin(), self.margin(), -self.margin(), -self.margin())
        lines = [
            self.fontMetrics().elidedText(line, Qt.TextElideMode.ElideRight, room.width())
            for line in self.text().splitlines()
        ]
        self.style().drawItemText(
            painter,
            room,
            self.alignment(),
            self.palette(),
            self.isEnabled(),
            "\n".join(lines),
            self.foregroundRole(),
        )


class ShortChoice(QComboBox):
    """A choice whose text may be longer than the box."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._hint = ""
        self.setProperty(ELIDES, True)
        self.currentTextChanged.connect(lambda _text: self._tip())

    def set_hint(self, hint: str) -> None:
        """What the choice is about, below its whole text in the tool tip."""
        self._hint = hint
        self._tip()

    def _tip(self) -> None:
        self.setToolTip("\n".join(text for text in (self.currentText(), self._hint) if text))

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: ARG002
        """Draw it with dots where the text is cut."""
        painter = QStylePainter(self)
        option = QStyleOptionComboBox()
        self.initStyleOption(option)
        painter.drawComplexControl(QStyle.ComplexControl.CC_ComboBox, option)
        field = self.style().subControlRect(
            QStyle.ComplexControl.CC_ComboBox, option, QStyle.SubControl.SC_ComboBoxEditField, self
        )
        option.currentText = self.fontMetrics().elidedText(
            self.currentText(), Qt.TextElideMode.ElideRight, field.width() - 2
        )
        painter.drawControl(QStyle.ControlElement.CE_ComboBoxLabel, option)


def shorten_placeholder(edit: QLineEdit, text: str) -> None:
    """Show a hint in an empty field, which Qt cuts with dots."""
    edit.setPlaceholderText(text)
    edit.setToolTip(text)
    edit.setProperty(ELIDES, True)


def shorten_tabs(bar: QTabBar) -> None:
    """Cut the titles of tabs with dots instead of pushing tabs out of sight. Their tool tips name them in full."""
    bar.setElideMode(Qt.TextElideMode.ElideRight)
    bar.setUsesScrollButtons(False)
