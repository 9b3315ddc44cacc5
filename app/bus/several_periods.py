"""The reads that cost the least share of the line's time, of signals that should not all be equally fresh."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import replace
from functools import lru_cache
from itertools import pairwise
from typing import Final

from app.bus.nested_reads import nested
from app.bus.overlapping_reads import overlapping
from app.bus.spans import Chosen, Span, Wanted
from app.bus.timing import Pace
from app.signals.numbering import Table

MOST_NESTED: Final = 5
"""Up to so many different periods in one table are weighed the fast way."""
EXACT_BITS: Final = 100
"""Up to so many bits of several periods are weighed by whole bytes, more of them by the bit."""


def several_periods(
    run: list[Span], periods: list[int], pace: Pace, table: Table, most: int
) -> list[tuple[int, int, int]]:
    """The cheapest reads for signals of several periods: period, first address and end of each."""
    if len(periods) > MOST_NESTED and len(run) > EXACT_BITS:
        # Some signals are then read more often than they ask for, and the plan is not proved to be the cheapest.
        periods = [periods[i * len(periods) // MOST_NESTED] for i in range(MOST_NESTED)]
    needed = _needed(run)
    origin = needed[0].address
    wanted = tuple(
        [
            (
                span.address - origin,
                span.address - origin + span.count,
                bisect_right(periods, span.every_ms) - 1,
            )
            for span in needed
        ]
    )
    found = cheapest(wanted, tuple(periods), pace, most, table in ("holding", "input"))
    return [(periods[k], origin + first, origin + end) for k, first, end in found]


@lru_cache(maxsize=128)
def cheapest(
    wanted: tuple[Wanted, ...], periods: tuple[int, ...], pace: Pace, most: int, word: bool
) -> tuple[Chosen, ...]:
    """The cheapest reads. Kept, since many a plant has many followers of one kind, and plans are made again."""
    rate = [1 / period for period in periods]
    in_order = all(former[1] < latter[1] for former, latter in pairwise(wanted))
    if in_order and len(periods) <= MOST_NESTED:
        if word:
            return tuple(nested(wanted, rate, pace, most))
        if len(wanted) > EXACT_BITS:
            # An eighth of a byte a bit: right to within one byte of each read.
            return tuple(nested(wanted, rate, replace(pace, byte_ms=pace.byte_ms / 16), most))
    return tuple(overlapping(wanted, rate, pace, most, word=word))


def _needed(run: list[Span]) -> list[Span]:
    """The spans without those that any read of another one brings anyway: inside it, and no more impatient."""
    needed: list[Span] = []
    furthest: dict[int, int] = {}
    far = -1
    for span in run:
        end = span.address + span.count
        if end > far or all(end > reached for every_ms, reached in furthest.items() if every_ms <= span.every_ms):
            needed.append(span)
            furthest[span.every_ms] = end
            far = max(far, end)
    return needed
