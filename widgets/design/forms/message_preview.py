"""A message of the panel as its operator will read it, in the panel's cells."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QScrollArea, QVBoxLayout, QWidget

from app.panel.rendering import Rows
from widgets.face.cells import CellGrid
from widgets.face.colours import face_colours
from widgets.kit.plain import plain_label
from widgets.kit.scaling import scaled

LARGEST_PX: Final = 18
SMALLEST_PX: Final = 9
"""The height of a character, at 100 per cent. A panel too wide for the smallest is scrolled."""


class MessagePreview(QWidget):
    """The rows of one message, when the panel says it, and what there is to know of its room."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.when = plain_label("", "faint", wrap=True)
        self.grid = CellGrid()
        self.grid.setAccessibleName(self.tr("Message as shown on the panel"))
        self._area = QScrollArea()
        self._area.setFrameShape(QFrame.Shape.NoFrame)
        self._area.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._area.setAccessibleName(self.grid.accessibleName())
        self._area.setWidget(self.grid)
        self.fault = plain_label(self.tr("Too long for some values; shorten it."), "fault", wrap=True)
        self.room = plain_label("", "faint", wrap=True)
        layout = self._column = QVBoxLayout(self)
        layout.setContentsMargins(10, 8, 10, 4)
        layout.setSpacing(4)
        for widget in (self.when, self._area, self.fault, self.room):
            layout.addWidget(widget)
        self.grid.set_colours(face_colours(self.palette()))

    def show_message(self, when: str, rows: Rows, room: Iterable[str], *, fits: bool) -> None:
        """Show the rows of a message; `fits`: there is room for them beside every value."""
        self.when.setText(when)
        self.grid.set_count(len(rows), len(rows[0].text))
        self.grid.set_rows(rows)
        self.fault.setHidden(fits)
        self.room.setText("\n".join(room))
        self._refit()

    def _refit(self) -> None:
        """Draw the cells as large as they fit beside one another."""
        sizes = range(scaled(LARGEST_PX), scaled(SMALLEST_PX), -1)
        room = self._area.width()
        pixels = next((each for each in sizes if self.grid.size_at(each).width() <= room), scaled(SMALLEST_PX))
        self.grid.set_pixels(pixels)
        size = self.grid.size_at(pixels)
        self.grid.resize(size)
        scrolls = size.width() > room
        bar = self._area.horizontalScrollBar().sizeHint().height() if scrolls else 0
        self._area.setFixedHeight(size.height() + bar)
        self._area.setFocusPolicy(Qt.FocusPolicy.StrongFocus if scrolls else Qt.FocusPolicy.NoFocus)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._column.activate()
        self._refit()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange and hasattr(self, "room"):
            self.grid.set_colours(face_colours(self.palette()))
