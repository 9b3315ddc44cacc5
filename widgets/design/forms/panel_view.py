"""The panel as a whole: its settings at the left, at the right what it says of its own accord, on glass."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QScrollArea, QVBoxLayout, QWidget

from widgets.design.forms.message_forms import MessagesForm
from widgets.design.forms.screen_forms import PanelForm
from widgets.kit.scaling import scaled

SETTINGS: Final = 460
MESSAGES: Final = 640
"""Pixels at 100 per cent that the two columns are wide at most: longer editors are not read better."""


class PanelView(QWidget):
    """Shows two forms that others keep up to date; the preview of a message stays while the messages scroll."""

    def __init__(self, settings: PanelForm, messages: MessagesForm, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._settings = settings
        beneath = QWidget()
        column = QVBoxLayout(beneath)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(messages.preview)
        column.addWidget(in_scroll_area(messages), 1)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(scaled(8))
        for part, wide in ((in_scroll_area(settings), SETTINGS), (beneath, MESSAGES)):
            part.setMaximumWidth(scaled(wide))
            row.addWidget(part, wide)
        row.addStretch(1)

    @property
    def first(self) -> QWidget:
        """The first of the settings."""
        return next(row.editors()[0] for row in self._settings.rows if row.editors())


def in_scroll_area(form: QWidget) -> QScrollArea:
    """A form that scrolls up and down when it is longer than its place."""
    area = QScrollArea()
    area.setWidgetResizable(True)
    area.setFrameShape(QFrame.Shape.NoFrame)
    area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    area.setWidget(form)
    return area
