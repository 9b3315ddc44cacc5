"""Saying the same thing seldom: what clients can bring about at will must not fill a terminal or a disk."""

from __future__ import annotations

import logging
import time
from collections.abc import Callable


class Seldom(logging.Filter):
    """Lets one message of a kind through in `every_s` seconds; the next one tells how many were kept back."""

    def __init__(self, every_s: float = 60.0, clock: Callable[[], float] = time.monotonic) -> None:
        super().__init__()
        self._every_s = every_s
        self._clock = clock
        self._kept_back: dict[str, tuple[float, int]] = {}
        """By the message before its parameters: until when it is kept back, and how often it was."""

    def filter(self, record: logging.LogRecord) -> bool:
        """Whether to let it through."""
        now = self._clock()
        until, kept_back = self._kept_back.get(record.msg, (now, 0))
        if now < until:
            self._kept_back[record.msg] = until, kept_back + 1
            return False
        self._kept_back[record.msg] = now + self._every_s, 0
        if kept_back:
            record.msg += f" (and {kept_back} times more meanwhile)"
        return True
