"""Which civil time it was at a moment of the monotonic clock, also before and after somebody set the civil clock.

Everything that is kept or shown of one session takes its civil times from one such clock, so that one event has one
time: in the list, in a recording, in an export. Moments are counted in whole microseconds for the same reason: a
recording holds them so, and a rounding more would be another time.
"""

from __future__ import annotations

import datetime
import threading
import time
from collections.abc import Callable
from typing import Final

SECOND: Final = 1_000_000
"""Microseconds."""

CLOCK_SET_S: Final = 0.5
"""A civil clock that has gone further or less far than time itself, by more seconds than this, was set."""


def microseconds(at: float) -> int:
    """A moment in seconds as whole microseconds."""
    return round(at * SECOND)


class CivilClock:
    """The civil times of monotonic moments, in seconds. Any thread may use it."""

    def __init__(self, monotonic: Callable[[], float] = time.monotonic, civil: Callable[[], float] = time.time) -> None:
        """`monotonic` gives seconds of a clock that is never set, `civil` seconds since 1970."""
        self.now = monotonic
        """The moment that is now."""
        self._civil = civil
        self._lock = threading.Lock()
        self._known: tuple[tuple[int, datetime.datetime], ...] = (self._take(),)

    def look(self) -> None:
        """Notice it if the civil clock, or its zone, was set since the last look. Call it twice a second or so."""
        with self._lock:
            moment, civil = self._take()
            expected = self._at(moment)
            drift = abs((civil - expected).total_seconds())
            if drift > CLOCK_SET_S or civil.utcoffset() != expected.utcoffset():
                self._known = (*self._known, (moment, civil))

    def at(self, moment: float) -> datetime.datetime:
        """The civil time of a moment, with its zone."""
        return self._at(microseconds(moment))

    def settings(self, after: float) -> list[tuple[float, datetime.datetime]]:
        """When the civil clock was found to be set after a moment, and to what."""
        first = microseconds(after)
        return [(moment / SECOND, civil) for moment, civil in self._known if moment > first]

    def _take(self) -> tuple[int, datetime.datetime]:
        moment = microseconds(self.now())
        return moment, datetime.datetime.fromtimestamp(self._civil()).astimezone()

    def _at(self, moment: int) -> datetime.datetime:
        known = self._known
        since, civil = next((pair for pair in reversed(known) if pair[0] <= moment), known[0])
        return civil + datetime.timedelta(microseconds=moment - since)
