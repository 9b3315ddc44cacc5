"""Whether the display was still moving while it was read: then what was typed belongs to no moment of the registers."""

from __future__ import annotations

from collections.abc import Sequence

from app.matching.candidates import Candidate, DisplayReading, RegisterMeaning
from app.matching.match import match
from app.matching.reading_ways import RegisterWords
from app.matching.shown import Shown


def still_moving(readings: Sequence[DisplayReading], again: RegisterWords) -> bool:
    """Whether the display has more likely than not moved on since the newest reading, after which the registers held
    `again`: as the candidates have it that explain all readings, or those before it if none does."""
    newest = readings[-1]
    if all(again.get(place, word) == word for place, word in newest.registers.items()):
        return False
    candidates = match(readings).candidates or match(readings[:-1]).candidates
    moved = [one for one in candidates if _steps(one.best, newest.registers, again, newest.shown)]
    return bool(candidates) and 2 * _weight(moved) >= _weight(candidates)


def _weight(candidates: Sequence[Candidate]) -> float:
    return sum(1 - one.chance for one in candidates)


def _steps(what: RegisterMeaning, before: RegisterWords, after: RegisterWords, shown: Shown) -> bool:
    """Whether it went from one moment to the other by as much as the display moves at least."""
    first, last = (what.way.raw(words, what.table, what.address) for words in (before, after))
    return first is not None and last is not None and abs(float(what.slope) * (last - first)) >= float(shown.step)
