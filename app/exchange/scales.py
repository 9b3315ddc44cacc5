"""Factors, divisors, exponents and offsets of a list as the scale of a signal: two points of a line, exactly."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache
from typing import Final, TypeAlias

Points: TypeAlias = tuple[Decimal, Decimal, Decimal, Decimal]
"""Two raw numbers, then their two values."""

MOST_DECIMALS: Final = 9
"""That a signal can show."""


@dataclass(frozen=True, slots=True)
class Scaled:
    """What a row's factor and the like amount to."""

    points: Points | None
    """None: the value is the raw number."""
    decimals: int
    """As many as values on this line need, at most MOST_DECIMALS."""


@lru_cache(maxsize=4096)
def scaled(factor: Fraction | None, divisor: Fraction | None, exponent: int | None, offset: Decimal | None) -> Scaled:
    """value = raw x factor / divisor x 10^exponent + offset, where what is None does nothing."""
    slope = (factor or Fraction(1)) / (divisor or Fraction(1)) * Fraction(10) ** (exponent or 0)
    base = offset or Decimal(0)
    if slope == 1 and not base:
        return Scaled(None, 0)
    return Scaled(_line(slope, base), max(_decimals(slope), _decimals(Fraction(base))))


def _line(slope: Fraction, offset: Decimal) -> Points:
    """For x0.1 these are 0, 10 and 0, 1."""
    raw = slope.denominator
    if 10 % raw == 0 and raw > 1:
        raw = 10  # halves and fifths read better in tens
    return Decimal(0), Decimal(raw), offset, offset + Decimal(int(slope * raw))


def _decimals(number: Fraction) -> int:
    for count in range(MOST_DECIMALS + 1):
        if (number * 10**count).denominator == 1:
            return count
    return 2 if abs(number) >= Fraction(1, 100) else MOST_DECIMALS
