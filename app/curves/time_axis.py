"""The marks along an axis of time: at round civil times, no closer than they can be read."""

from __future__ import annotations

import datetime
import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

STEPS: Final = (
    *(0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5),
    *(1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1800),
    *(3600, 2 * 3600, 3 * 3600, 6 * 3600, 12 * 3600),
)
"""Seconds between two marks that a person counts in."""
DAY: Final = 24 * 3600


@dataclass(frozen=True, slots=True)
class TimeMark:
    """One mark: where it is on the clock of the curves, in seconds, and the civil time there."""

    at: float
    civil: datetime.datetime
    step: float
    """Seconds from one mark to the next."""

    @property
    def text(self) -> str:
        """The time of day, as fine as the marks are; empty where they are days apart."""
        if self.step >= DAY:
            return ""
        if self.step >= 60:
            return f"{self.civil:%H:%M}"
        digits = max(0, -math.floor(math.log10(self.step)))
        whole = f"{self.civil:%H:%M:%S}"
        return whole if not digits else f"{whole}.{self.civil.microsecond:06d}"[: len(whole) + 1 + digits]


def time_marks(begin: float, end: float, civil_end: datetime.datetime, most: int) -> Iterator[TimeMark]:
    """At most `most` + 1 marks from `begin` to `end`, of which `civil_end` is the civil time.

    Where the civil clock was set within the span, the marks are those of its end.
    """
    if not end > begin:
        return
    wanted = (end - begin) / max(1, most)
    step = next((each for each in STEPS if each >= wanted), DAY * math.ceil(wanted / DAY))
    midnight = civil_end.replace(hour=0, minute=0, second=0, microsecond=0)
    since_midnight = (civil_end - midnight).total_seconds()
    first = math.ceil((since_midnight - (end - begin)) / step - 1e-9)
    for number in range(first, math.floor(since_midnight / step + 1e-9) + 1):
        into = round(number * step, 3)
        yield TimeMark(end - since_midnight + into, midnight + datetime.timedelta(seconds=into), step)
