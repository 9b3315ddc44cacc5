"""What is compared, and what comes of it: readings of a display, explanations of them, candidates."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import NamedTuple

from app.matching.reading_ways import RegisterWords, Way
from app.matching.scale import points_of
from app.matching.shown import Shown
from app.signals.numbering import Table


class DisplayReading(NamedTuple):
    """What all registers held, and what the display showed at the same time."""

    registers: RegisterWords
    shown: Shown


class RegisterMeaning(NamedTuple):
    """Where a number stands, and how it becomes what is shown: value = slope x raw + offset."""

    table: Table
    address: int
    """On the wire, of the first of its registers."""
    way: Way
    slope: Fraction
    offset: Fraction = Fraction(0)

    @property
    def places(self) -> range:
        """Its addresses."""
        return range(self.address, self.address + self.way.width)

    @property
    def points(self) -> tuple[tuple[Decimal, Decimal], tuple[Decimal, Decimal]]:
        """Two raw numbers and their two values."""
        return points_of(self.slope, self.offset)

    def value(self, raw: float) -> float:
        """What the display would show, not rounded."""
        return float(self.slope) * raw + float(self.offset)


@dataclass(frozen=True, slots=True)
class Candidate:
    """One register that explains all readings."""

    best: RegisterMeaning
    chance: float
    """That it agrees by chance, or another register is meant: 0.001 is 'by chance 1 in 1000'."""
    raws: tuple[float, ...]
    """What it held at each reading."""
    also: tuple[RegisterMeaning, ...] = ()
    """Wider or less usual ones that come to the same values in the same register, so far."""
    twins: tuple[RegisterMeaning, ...] = ()
    """Other registers that came to the same values at every reading."""
    one_off: tuple[int, ...] = ()
    """The readings, from 0, that it takes for mistyped by one of the last digit."""

    @property
    def one_in(self) -> int:
        """By chance 1 in so many."""
        return round(1 / self.chance)


@dataclass(frozen=True, slots=True)
class MatchResult:
    """What readings amount to; the candidates are the best first."""

    readings: tuple[Shown, ...]
    candidates: tuple[Candidate, ...]
    registers: int = 0
    """So many were compared."""
    changed: int | None = None
    """So many of them changed between the readings; None as long as the value did not."""

    @property
    def told(self) -> tuple[int, ...]:
        """The readings that can tell anything, from 0: not 0, and not what one before it was."""
        return told_by(self.readings)


def told_by(readings: Sequence[Shown]) -> tuple[int, ...]:
    """The readings that can tell anything: not 0, since many registers hold 0, and not what one before it was."""
    seen = {Fraction(0)}
    told = []
    for at, each in enumerate(readings):
        if each.value not in seen:
            seen.add(each.value)
            told.append(at)
    return tuple(told)
