"""Registers that were found, read anew: what they hold at this moment, all of one device."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import Final

from app.probing import requests
from app.probing.found import FoundFollower, FoundRange
from app.probing.probe import ProbedLine
from app.snapshots.snapshot import RegisterPlace

ATTEMPTS: Final = 3
"""How often is asked for a block that is not answered."""


def read_again(
    line: ProbedLine,
    follower: FoundFollower,
    ranges: Sequence[FoundRange],
    timeout_s: float,
    told: Callable[[float], object] = lambda _part: None,
    never: requests.Untouched | None = None,
) -> dict[RegisterPlace, int]:
    """What the ranges hold now: words, or bits as 0 and 1; without what could not be read, and without what must
    `never` be touched. `told` gets the part that is done, 0..1. Raises what `ask` raises."""
    found: dict[RegisterPlace, int] = {}
    ranges = [part for whole in ranges for part in _outside(whole, (never or {}).get(whole.table, ()))]
    whole = sum(part.last - part.first + 1 for part in ranges) or 1
    done = 0
    for part in ranges:
        most = requests.MOST[part.table]
        if part.table in ("holding", "input"):
            most = min(most, follower.longest_read or most)
        at = part.first
        while at <= part.last:
            count = min(most, part.last - at + 1)
            words = _read(line, follower.unit, part, at, count, timeout_s)
            if words is None and count > 1:
                # It gave shorter blocks when it was searched, and perhaps gives no longer ones.
                most = max(1, count // 2)
                continue
            found.update(((part.table, at + place), word) for place, word in enumerate(words or ()))
            at += count
            done += count
            told(done / whole)
    return found


def _outside(whole: FoundRange, never: Sequence[range]) -> Iterator[FoundRange]:
    first = whole.first
    for span in sorted(never, key=lambda span: span.start):
        if first <= span.stop - 1 and span.start <= whole.last:
            if first < span.start:
                yield FoundRange(whole.table, first, span.start - 1)
            first = span.stop
    if first <= whole.last:
        yield FoundRange(whole.table, first, whole.last)


def _read(
    line: ProbedLine, unit: int, part: FoundRange, at: int, count: int, timeout_s: float
) -> tuple[int, ...] | None:
    for _ in range(ATTEMPTS):
        result = line.ask(requests.read(unit, part.table, at, count), timeout_s)
        if result.kind == "answer":
            return requests.words_of(result)
        if result.kind == "exception" and not result.in_vain and result.code not in (5, 6):
            return None
    return None
