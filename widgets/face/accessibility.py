"""What assistive technology is told beyond the names of widgets: the painted rows of a panel, and news."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QCoreApplication, QRect, Qt
from PySide6.QtGui import QPaintEvent
from PySide6.QtWidgets import QLabel, QWidget

from app.panel.rendering import Attribute, Row, Rows
from widgets.speech.voice import voice

translate = QCoreApplication.translate


def announce(widget: QWidget, words: str) -> None:
    """Have these words read out, if anything listens; of what the same widget announces only the newest."""
    voice().say(words, about=f"{type(widget).__name__} {id(widget)}")


class SpokenRows:
    """The rows of a grid of cells as texts that a screen reader walks through, each where it is painted.

    They are labels that never draw: an accessible interface written in Python would have to be kept alive and
    deleted in step with Qt's own, and no test could show that it always is.
    """

    def __init__(self, grid: QWidget, place_of: Callable[[int], QRect]) -> None:
        """`place_of` says where on `grid` a row is painted."""
        self._grid = grid
        self._place_of = place_of
        self._labels: list[_SpokenRow] = []

    def say(self, rows: Rows) -> None:
        """The grid shows these rows from now on."""
        if len(self._labels) != len(rows):
            for label in self._labels:
                label.setParent(None)
                label.deleteLater()
            self._labels = [_SpokenRow(self._grid) for _ in rows]
            self.place()
        for number, (label, row) in enumerate(zip(self._labels, rows, strict=True), start=1):
            label.say(number, row)

    def place(self) -> None:
        """The cells have another size."""
        for number, label in enumerate(self._labels):
            place = self._place_of(number)
            label.move(place.topLeft())
            label.setFixedSize(place.size())  # then another text asks for no other room


class _SpokenRow(QLabel):
    def __init__(self, grid: QWidget) -> None:
        super().__init__(grid)
        self._row: Row | None = None
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setUpdatesEnabled(False)
        self.show()

    def say(self, number: int, row: Row) -> None:
        if row is self._row or row == self._row:
            return
        self._row = row
        text = row.text.rstrip()
        if text and any(look & Attribute.STALE for look in row.attributes):
            text = translate("CellGrid", "old value: {text}").format(text=text)
        self.setText(text or translate("CellGrid", "row {number}: blank").format(number=number))
        self.setAccessibleDescription("; ".join(_remarks(row)))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draw nothing: the grid does."""


def _remarks(row: Row) -> list[str]:
    """What the look of some cells says, in words."""
    remarks = []
    looks = set(row.attributes)
    for bit, words in (
        (Attribute.STALE, translate("CellGrid", "old value: {text}")),
        (Attribute.BLINK, translate("CellGrid", "blinks: {text}")),
        (Attribute.INVERSE, translate("CellGrid", "light on dark: {text}")),
    ):
        if not any(look & bit for look in looks):
            continue
        cells = zip(row.text, row.attributes, strict=True)
        marked = "".join(character if attribute & bit else "\0" for character, attribute in cells)
        remarks += [words.format(text=part.strip()) for part in marked.split("\0") if part.strip()]
    return remarks
