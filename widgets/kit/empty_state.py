"""What stands where there is nothing yet: what the place is for, and what to do next."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from widgets.kit.plain import plain_label
from widgets.kit.scaling import scaled

WIDEST: Final = 420
"""Pixels at 100 per cent of its lines: longer ones are hard to read."""


class EmptyState(QWidget):
    """A title, a sentence and at most one button, in the middle of the upper two fifths."""

    def __init__(
        self, title: str = "", sentence: str = "", button: QPushButton | None = None, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.title = plain_label(title, "title", wrap=True)
        self.sentence = plain_label(sentence, "faint", wrap=True)
        self.button = button
        layout = QVBoxLayout(self)
        layout.setSpacing(scaled(8))
        layout.addStretch(2)
        for label in (self.title, self.sentence):
            label.setAlignment(Qt.AlignmentFlag.AlignCenter)
            label.setMaximumWidth(scaled(WIDEST))
            row = QHBoxLayout()
            row.addStretch()
            row.addWidget(label, 1000)
            row.addStretch()
            layout.addLayout(row)
        if button is not None:
            layout.addWidget(button, 0, Qt.AlignmentFlag.AlignHCenter)
        layout.addStretch(3)

    def say(self, title: str, sentence: str) -> None:
        """Say something else."""
        self.title.setText(title)
        self.sentence.setText(sentence)
