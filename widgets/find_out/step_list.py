"""The list of steps at the left: where one is, where one has been, where one cannot go yet."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import QListWidget, QListWidgetItem, QWidget

from widgets.kit.icons import SIDE, state_icon
from widgets.kit.scaling import line_height, scaled

_WIDTH: Final = 176
_ROW: Final = 32
"""Pixels at 100 per cent."""


class StepList(QListWidget):
    """A click, or Up and Down, goes to a step that can be reached."""

    chosen = Signal(int)

    def __init__(self, titles: Sequence[str], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(self.tr("Steps"))
        self.setFixedWidth(scaled(_WIDTH))
        self.setIconSize(QSize(scaled(SIDE), scaled(SIDE)))
        self.setFrameShape(QListWidget.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        for number, title in enumerate(titles, 1):
            item = QListWidgetItem(f"{number}  {title}")
            item.setToolTip(title)
            item.setSizeHint(QSize(0, line_height(_ROW)))
            self.addItem(item)
        self.currentRowChanged.connect(self._choose)

    def keyboardSearch(self, _search: str) -> None:
        """Nothing: a value that is typed while the list has the focus is no number of a step."""

    def choose(self, step: int) -> None:
        """Show where one is, which nobody is told."""
        self.blockSignals(True)
        self.setCurrentRow(step)
        self.blockSignals(False)

    def set_done(self, step: int, done: bool) -> None:
        """Whether something came of it; which is said aloud too."""
        item = self.item(step)
        words = self.tr("{step}, done") if done else self.tr("{step}, open")
        item.setIcon(state_icon("good" if done else "unread"))
        item.setData(Qt.ItemDataRole.AccessibleTextRole, words.format(step=item.text()))

    def set_reachable(self, step: int, reachable: bool) -> None:
        """Whether one can go there now."""
        item = self.item(step)
        flags = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable
        item.setFlags(flags if reachable else Qt.ItemFlag.NoItemFlags)

    def _choose(self, row: int) -> None:
        if row >= 0:
            self.chosen.emit(row)
