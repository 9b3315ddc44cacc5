"""Buttons and boxes that are made the same way in every pane."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QLineEdit, QPushButton

from widgets.kit.elided import shorten_placeholder


def push_button(text: str, run: Callable[[], object]) -> QPushButton:
    """A button that calls `run`. In a dialog, Enter in another widget does not press it."""
    button = QPushButton(text)
    button.setAutoDefault(False)
    button.clicked.connect(lambda _checked=False: run())
    return button


def search_box(placeholder: str, name: str) -> QLineEdit:
    """A line to search or filter by; a screen reader calls it `name`."""
    box = QLineEdit()
    shorten_placeholder(box, placeholder)
    box.setAccessibleName(name)
    box.setClearButtonEnabled(True)
    return box
