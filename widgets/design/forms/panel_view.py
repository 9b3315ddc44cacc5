"""The panel as a whole: its settings at the left, at the right what it says of its own accord, on glass."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QScrollArea, QVBoxLayout, QWidget

from widgets.design.forms.message_forms import MessagesForm
from widgets.design.forms.screen_forms import PanelForm
from widgets.kit.path_bar import HEIGHT as HEAD
from widgets.kit.plain import plain_label
from widgets.kit.scaling import line_height, scaled

SETTINGS: Final = 460
MESSAGES: Final = 640
"""How the width is divided among the two columns."""


class PanelView(QWidget):
    """Shows two forms that others keep up to date; the preview of a message stays while the messages scroll."""

    def __init__(self, settings: PanelForm, messages: MessagesForm, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._settings = settings
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        for head, parts, wide in (
            (self.tr("Settings of the panel"), (in_scroll_area(settings),), SETTINGS),
            (self.tr("What the panel says by itself"), (messages.preview, in_scroll_area(messages)), MESSAGES),
        ):
            side = QWidget()
            column = QVBoxLayout(side)
            column.setContentsMargins(0, 0, 0, 0)
            column.setSpacing(0)
            title = plain_label(head, "heading")
            title.setContentsMargins(scaled(12), 0, scaled(12), 0)
            title.setFixedHeight(line_height(HEAD))
            column.addWidget(title)
            for part in parts:
                column.addWidget(part, int(isinstance(part, QScrollArea)))
            row.addWidget(side, wide)

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
