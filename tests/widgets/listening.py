"""Hearing the program as a screen reader of a Linux desktop does: what has the focus, and what changes in it."""

from __future__ import annotations

import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field

from PySide6.QtCore import QTimer
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import QApplication, QWidget

from widgets.speech.voice import SpokenNotice

LISTEN_MS = 5


@dataclass(frozen=True)
class Heard:
    at: float
    words: str


@dataclass
class Listener:
    """Reads the accessible description of whatever has the focus, and speaks when that changes while it has it."""

    log: list[Heard] = field(default_factory=list)
    _focus: QWidget | None = None
    _words: dict[str, str] = field(default_factory=dict)

    def listen(self) -> None:
        focus = QApplication.focusWidget()
        notice = None if focus is None else focus.window().findChild(SpokenNotice)
        now = {
            "described": _text(focus, QAccessible.Text.Description),
            "named": _text(focus, QAccessible.Text.Name),
            "notice": _text(notice, QAccessible.Text.Name),
        }
        if focus is not self._focus:
            self._focus = focus
            self._words["described"], self._words["named"] = now["described"], now["named"]
        for what, words in now.items():
            if words != self._words.get(what) and words:
                self.log.append(Heard(time.monotonic(), words))
        self._words = now

    @property
    def words(self) -> list[str]:
        return [each.words for each in self.log]

    def first(self, part: str, after: float = 0.0) -> Heard | None:
        return next((each for each in self.log if part in each.words and each.at >= after), None)


def _text(widget: QWidget | None, what: QAccessible.Text) -> str:
    interface = None if widget is None else QAccessible.queryAccessibleInterface(widget)
    return "" if interface is None else interface.text(what)


@contextmanager
def listening() -> Iterator[Listener]:
    listener, timer = Listener(), QTimer()
    QAccessible.setActive(True)
    timer.timeout.connect(listener.listen)
    timer.start(LISTEN_MS)
    try:
        yield listener
    finally:
        timer.stop()
        QAccessible.setActive(False)
