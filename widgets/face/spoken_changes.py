"""What is said of a panel while somebody operates it: words and looks at once, numbers when they have been still."""

from __future__ import annotations

import re
import time
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from PySide6.QtCore import QCoreApplication, QObject, QTimer

from app.panel.rendering import Attribute, Row, Rows
from widgets.speech.voice import Urgency, Voice

translate = QCoreApplication.translate

STILL_S: Final = 1.0
"""A number is said when it has not changed for so long."""
IN_HAND_S: Final = 0.3
"""For so long, while an operator changes it."""
ENTRY: Final = "entry"
"""The matter of which an operator is told what he changes: its newest value breaks off what is said of its limits."""
LOOK_EVERY_MS: Final = 100
TOGETHER_MS: Final = 120
"""What changes within this time is said in one sentence."""
UNHEARD: Final = Row("", ())
"""Whatever stands in its place is news."""
_LETTERS: Final = re.compile(r"[^\W\d_]+")
_NO_VALUE: Final = re.compile(r"-{2,}")
_TOO_LONG: Final = re.compile(r"#{2,}")
_DRAWN: Final = re.compile(r"[\u2500-\u25ff]|([=*<>_.])\1+")
"""Bars, frames and rows of stars."""


def spoken_row(text: str) -> str:
    """What stands in a row as one reads it out."""
    no_value, too_long = translate("CellGrid", "no value"), translate("CellGrid", "too long")
    text = _TOO_LONG.sub(f" {too_long} ", _NO_VALUE.sub(f" {no_value} ", text))
    return " ".join(_DRAWN.sub(" ", text).split())


def spoken_rows(rows: Iterable[Row]) -> str:
    """Rows of a panel as one reads them out, old values first: nobody must take them for live ones."""
    old: list[str] = []
    live: list[str] = []
    for row in rows:
        text = spoken_row(row.text)
        if text:
            (old if any(look & Attribute.STALE for look in row.attributes) else live).append(text)
    said = [translate("CellGrid", "Old values: {texts}").format(texts="; ".join(old))] if old else []
    return ". ".join([*said, *(["; ".join(live)] if live else [])])


@dataclass(slots=True)
class _Line:
    """A row as it is, and what was said of it last."""

    row: Row
    heard: Row
    changed_at: float = 0.0

    @property
    def is_message(self) -> bool:
        """Whether the panel says something here, over what stands in the row otherwise."""
        return bool(self.row.text.strip()) and all(look & Attribute.INVERSE for look in self.row.attributes)

    @property
    def has_changed(self) -> bool:
        """Whether something else stands here than what was said last."""
        return not self.is_message and spoken_row(self.row.text) != spoken_row(self.heard.text)

    @property
    def is_news(self) -> bool:
        """Whether it has other words, or another look, than those that were said last."""
        return _words(self.row) != _words(self.heard) or _look(self.row) != _look(self.heard)

    def is_still(self, now: float) -> bool:
        """Whether its number has stood for long enough."""
        return now - self.changed_at >= (IN_HAND_S if self.is_in_hand else STILL_S)

    @property
    def is_in_hand(self) -> bool:
        """Whether an operator is changing what stands here."""
        return any(look & Attribute.INVERSE for look in self.row.attributes)


def _words(row: Row) -> list[str]:
    return _LETTERS.findall(spoken_row(row.text))


def _look(row: Row) -> tuple[int, ...]:
    """The looks that say something of the machine; those of what an operator has in hand are told by the entry."""
    return tuple(0 if look & Attribute.INVERSE else int(look) for look in row.attributes)


class SpokenChanges(QObject):
    """Says what changes on one panel from the moment on in which it was read as a whole."""

    def __init__(self, voice: Voice, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._voice = voice
        self._about = f"panel {id(self)}"
        self._lines: list[_Line] = []
        self._told: set[int] = set()
        """The rows whose message was said."""
        self._saying: list[int] = []
        """The rows whose news was said last."""
        self._news = QTimer(self)
        self._news.setSingleShot(True)
        self._news.setInterval(TOGETHER_MS)
        self._news.timeout.connect(self._say_news)
        self._still = QTimer(self)
        self._still.setInterval(LOOK_EVERY_MS)
        self._still.timeout.connect(self._say_numbers)

    def begin(self, rows: Rows) -> None:
        """These rows have just been read."""
        self._lines, self._saying = [_Line(row, row) for row in rows], []
        self._told.clear()

    def end(self) -> None:
        """Nobody listens any more."""
        self._lines, self._saying = [], []
        self._news.stop()
        self._still.stop()
        self._voice.forget(self._about)

    def show(self, rows: Rows) -> None:
        """The panel shows these rows now."""
        if len(rows) != len(self._lines):
            self._lines = [_Line(row, UNHEARD) for row in rows]
        now = time.monotonic()
        for number, (line, row) in enumerate(zip(self._lines, rows, strict=True)):
            if row is line.row or row == line.row:
                continue
            if spoken_row(row.text) != spoken_row(line.row.text):
                line.changed_at = now
                self._told.discard(number)
            line.row = row
        if not self._news.isActive() and self._new():
            self._news.start()
        if not self._still.isActive() and any(line.has_changed for line in self._lines):
            self._still.start()

    def _new(self) -> list[int]:
        """The rows of which there is news."""
        return [
            number
            for number, line in enumerate(self._lines)
            if (number not in self._told if line.is_message else line.is_news)
        ]

    def _say_news(self) -> None:
        new = len(self._new())
        # Another screen is read instead of what was read of the former one; a single row waits for what is being read.
        whole = 2 * new > sum(bool(line.row.text.strip()) for line in self._lines)
        self._voice.say(self._news_words, about=self._about if whole else "", broken_off=self._say_again)

    def _news_words(self) -> str:
        new = self._new()
        if new:
            self._saying = new
        for number in new:
            line = self._lines[number]
            if line.is_message:
                self._told.add(number)
            else:
                line.heard = line.row
        return spoken_rows(self._lines[number].row for number in new)

    def _say_again(self) -> None:
        """Something urgent broke it off."""
        for number in self._saying:
            self._told.discard(number)
            if number < len(self._lines):
                self._lines[number].heard = UNHEARD
        self._saying = []
        if self._new():
            self._news.start()

    def _say_numbers(self) -> None:
        changed = [line for line in self._lines if line.has_changed]
        now = time.monotonic()
        if not changed:
            self._still.stop()
        elif any(line.is_still(now) for line in changed if line.is_in_hand):
            self._voice.say(self._number_words, about=ENTRY)
        elif any(line.is_still(now) for line in changed):
            self._voice.say(self._number_words, Urgency.NUMBER, f"{self._about} numbers")

    def _number_words(self) -> str:
        now = time.monotonic()
        still = [each for each in self._lines if each.has_changed and each.is_still(now) and not each.is_news]
        for line in still:
            line.heard = line.row
        return spoken_rows(line.row for line in still)
