"""The way to what the properties show: each part of it leads there."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Final

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QPushButton, QSizePolicy, QWidget

from widgets.kit.controls import push_button
from widgets.kit.elided import ShortLabel
from widgets.kit.icons import SIDE, paint_icon
from widgets.kit.scaling import line_height, scaled

HEIGHT: Final = 36
"""Pixels at 100 per cent, whatever it shows."""
PART_AT_MOST: Final = 120
"""Pixels at 100 per cent of a part that leads somewhere; the last part has the rest."""

Step = tuple[str, Callable[[], object]]
"""A part of the way: its words, and what goes there."""


class PathBar(QFrame):
    """`Panel > Filter > Filter pressure`: the last part is what is shown, those before it are quiet buttons."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("look", "bar")
        self.setFixedHeight(line_height(HEIGHT))
        self.steps: list[QPushButton] = []
        """The buttons, the outermost first."""
        self.last = ShortLabel()
        self.last.setProperty("look", "heading")
        self.last.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self._row = QHBoxLayout(self)
        self._row.setContentsMargins(scaled(8), 0, scaled(8), 1)
        self._row.setSpacing(scaled(2))
        self._row.addWidget(self.last, 1)
        self._before: list[QWidget] = []

    def set_path(self, steps: Sequence[Step], last: str) -> None:
        """Show the way to `last`. Buttons are kept where only their words or what they do is another."""
        if self.words()[:-1] == tuple(words for words, _ in steps):
            for button, (_, go) in zip(self.steps, steps, strict=True):
                self._lead(button, go)
            self.last.setText(last)
            return
        for widget in self._before:
            self._row.removeWidget(widget)
            widget.hide()
            widget.deleteLater()
        self.steps, self._before = [], []
        for words, go in steps:
            button = push_button("", lambda: None, "path")
            self._lead(button, go)
            wide = scaled(PART_AT_MOST)
            short = self.fontMetrics().elidedText(words, Qt.TextElideMode.ElideRight, wide)
            button.setText(short.replace("&", "&&"))
            button.setAccessibleName(words)
            if short != words:
                button.setToolTip(words)
            button.setProperty("words", words)
            self.steps.append(button)
            self._add(button)
            self._add(_Chevron())
        self.last.setText(last)

    def words(self) -> tuple[str, ...]:
        """What stands in it, from the left."""
        return (*(str(button.property("words")) for button in self.steps), self.last.text())

    def _lead(self, button: QPushButton, go: Callable[[], object]) -> None:
        button.clicked.disconnect()
        button.clicked.connect(lambda _checked=False: go())

    def _add(self, widget: QWidget) -> None:
        self._row.insertWidget(len(self._before), widget)
        self._before.append(widget)


class _Chevron(QWidget):
    """Between two parts."""

    def __init__(self) -> None:
        super().__init__()
        self.setFixedWidth(scaled(SIDE))

    def paintEvent(self, _event: QPaintEvent) -> None:
        side = scaled(SIDE) * 3 // 4
        square = QRect(0, 0, side, side)
        square.moveCenter(self.rect().center())
        paint_icon(QPainter(self), "chevron-right", "faint", square)
