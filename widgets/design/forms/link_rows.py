"""Rows of a form that lead elsewhere: to what is done in a window of its own, to the places where a part is used."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from PySide6.QtWidgets import QPushButton, QWidget

from widgets.design.forms.form import FormRow, Get
from widgets.document.drafts import DraftTexts
from widgets.kit.plain import plain_label
from widgets.kit.row_list import RowList


class ButtonRow(FormRow):
    """A button for something that is done elsewhere. `get` gives () where it applies."""

    def __init__(self, label: str, get: Get, text: str, run: Callable[[], object], hint: str = "") -> None:
        super().__init__(label, get, lambda _texts: None, hint)
        self.single = True
        self.button = QPushButton(text)
        self.button.clicked.connect(lambda: run())
        self._layout.addWidget(self.button)
        self._layout.addStretch(1)

    def editors(self) -> tuple[QWidget, ...]:
        """The button."""
        return (self.button,)

    def texts(self) -> DraftTexts:
        """None."""
        return ()

    def set_texts(self, texts: DraftTexts) -> None:
        """Nothing to show."""


class PlacesRow(FormRow):
    """A list of places; a click or Enter on one leads there."""

    MOST_LINES: Final = 6

    def __init__(self, label: str, get: Get, go: Callable[[int], object], nothing: str, hint: str = "") -> None:
        super().__init__(label, get, lambda _texts: None, hint)
        self.single = True
        self._texts: DraftTexts = ()
        self._nothing = plain_label(nothing, "caution", wrap=True)
        self._list = RowList()
        self._list.setFrameShape(self._list.Shape.NoFrame)
        self._list.itemClicked.connect(lambda _item, _column: go(self._list.row()))
        self._list.itemActivated.connect(lambda _item, _column: go(self._list.row()))
        self._layout.addWidget(self._nothing, 1)
        self._layout.addWidget(self._list, 1)
        self.set_texts(())

    def editors(self) -> tuple[QWidget, ...]:
        """The list."""
        return (self._list,)

    def texts(self) -> DraftTexts:
        """What is listed."""
        return self._texts

    def set_texts(self, texts: DraftTexts) -> None:
        """List these."""
        self._texts = texts
        self._list.clear()
        for number, text in enumerate(texts):
            self._list.add_row(number, text)
        self._list.setVisible(bool(texts))
        self._nothing.setVisible(not texts)
        line = self._list.fontMetrics().height() + 6
        self._list.setFixedHeight(line * max(1, min(len(texts), self.MOST_LINES)) + 6)
