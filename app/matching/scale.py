"""The straight line from raw numbers to what a display shows, from two or more readings, exactly.

What a display shows is known to half of its last digit, so readings allow a range of lines and not one. Of these the
usual one is meant, or else the simplest; least squares say what the readings themselves tend to.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from itertools import combinations
from typing import NamedTuple

from app.errors import FanlightError
from app.language import mark
from app.matching.usual_scales import USUAL_SCALES, UsualScale, usual_scale
from app.signals.scaling import StraightLine

_MOST_ZEROS, _MOST_PLACES = 3, 9
"""Of an offset: it is tried from whole thousands to so many decimals."""


class ScalePoint(NamedTuple):
    """A raw number and what the display showed with it: `value`, give or take `half` of its last digit."""

    raw: Fraction
    value: Fraction
    half: Fraction


class NoStraightLine(FanlightError, ValueError):
    """No straight line leads through the readings; the message says why, and what to do."""


@dataclass(frozen=True, slots=True)
class FittedScale:
    """value = slope x raw + offset: the simplest line that the readings allow, and what else they would allow."""

    slope: Fraction
    offset: Fraction
    least_slope: Fraction
    greatest_slope: Fraction
    best_slope: Fraction
    """By least squares; it may lie outside of what is allowed."""
    best_offset: Fraction
    spare: int
    """How many readings, at different raw numbers, it explains beyond those that any line of its kind would: with 0
    nothing confirms it yet."""

    @property
    def usual(self) -> UsualScale | None:
        """The usual scale that it is, if it is one."""
        return None if self.offset else usual_scale(self.slope)

    @property
    def points(self) -> tuple[tuple[Decimal, Decimal], tuple[Decimal, Decimal]]:
        """Two raw numbers and their two values, as `app.project.model.Scale` has them. Exact."""
        return points_of(self.slope, self.offset)

    @property
    def line(self) -> StraightLine:
        """The line as signals have it."""
        (raw0, raw1), (value0, value1) = self.points
        return StraightLine(Fraction(raw0), Fraction(raw1), Fraction(value0), Fraction(value1))

    def confirms(self, point: ScalePoint) -> bool:
        """Whether one more reading lies on it, within half of its last digit."""
        return abs(self.slope * point.raw + self.offset - point.value) <= point.half


def fit(points: Sequence[ScalePoint], *, through_zero: bool | None = None) -> FittedScale:
    """The simplest straight line through all readings: through zero if one does, usual if one is.

    `through_zero` True asks for no other, False asks for any. Raises NoStraightLine.
    """
    points = list(dict.fromkeys(points))
    raws = {point.raw for point in points}
    if through_zero is not False and raws - {Fraction(0)}:
        span = _span_through_zero(points)
        if span is not None:
            return _fitted(points, span, through_zero=True, spare=len(raws - {Fraction(0)}) - 1)
    if through_zero:
        raise NoStraightLine(mark("matching", "no scale through zero fits all readings"))
    if len(raws) < 2:
        raise NoStraightLine(
            mark("matching", "the register held the same number at every reading; read it again at another value")
        )
    least, greatest = _slope_span(points)
    if least > greatest:
        raise NoStraightLine(
            mark(
                "matching",
                "no straight line fits all readings: one of them is mistyped, or was taken while the value changed",
            )
        )
    return _fitted(points, (least, greatest), through_zero=False, spare=len(raws) - 2)


def points_of(slope: Fraction, offset: Fraction) -> tuple[tuple[Decimal, Decimal], tuple[Decimal, Decimal]]:
    """Two raw numbers and their two values on a line, as a usual scale says them, or else as the slope's fraction."""
    usual = usual_scale(slope)
    raw = usual.raw if usual else slope.denominator
    if usual is None and 10 % raw == 0 and raw > 1:
        raw = 10  # halves and fifths read better in tens
    return (Decimal(0), Decimal(raw)), (_decimal(offset), _decimal(offset + slope * raw))


def simplest_between(least: Fraction, greatest: Fraction) -> Fraction:
    """The fraction with the smallest denominator from `least` to `greatest`, both included; of these the one next to 0.

    By the Stern-Brocot tree: the continued fraction of both ends, as far as they agree. `least` is not above
    `greatest`.
    """
    if least <= 0 <= greatest:
        return Fraction(0)
    if greatest < 0:
        return -simplest_between(-greatest, -least)
    terms = []
    while True:
        whole = least.numerator // least.denominator
        if least == whole or whole + 1 <= greatest:
            terms.append(whole if least == whole else whole + 1)
            break
        terms.append(whole)
        least, greatest = 1 / (greatest - whole), 1 / (least - whole)
    found = Fraction(terms.pop())
    while terms:
        found = terms.pop() + 1 / found
    return found


def _span_through_zero(points: Sequence[ScalePoint]) -> tuple[Fraction, Fraction] | None:
    least, greatest = None, None
    for raw, value, half in points:
        if not raw:
            if abs(value) > half:
                return None
            continue
        low, high = sorted(((value - half) / raw, (value + half) / raw))
        least = low if least is None else max(least, low)
        greatest = high if greatest is None else min(greatest, high)
    if least is None or greatest is None or least > greatest or least <= 0 <= greatest:
        return None
    return least, greatest


def _slope_span(points: Sequence[ScalePoint]) -> tuple[Fraction, Fraction]:
    """Some offset fits a slope just if each two readings allow that slope: so all of them, two by two."""
    least, greatest = [], []
    for one, other in combinations(sorted(points), 2):
        apart, halves = other.raw - one.raw, one.half + other.half
        if apart:
            least.append((other.value - one.value - halves) / apart)
            greatest.append((other.value - one.value + halves) / apart)
        elif abs(other.value - one.value) > halves:
            return Fraction(1), Fraction(0)
    return max(least), min(greatest)


def _fitted(
    points: Sequence[ScalePoint], span: tuple[Fraction, Fraction], *, through_zero: bool, spare: int
) -> FittedScale:
    if span[0] <= 0 <= span[1]:
        raise NoStraightLine(
            mark("matching", "the readings are too close together to tell a scale; read it again at another value")
        )
    best = _least_squares(points, through_zero=through_zero)
    for slope in _simple_slopes(*span):
        offset = Fraction(0) if through_zero else _simplest_offset(points, slope)
        if offset is not None:
            break
    else:
        raise NoStraightLine(
            mark("matching", "the readings leave no room for a scale that can be written; read it once more")
        )
    return FittedScale(slope, offset, *span, *best, max(spare, 0))


def _simple_slopes(least: Fraction, greatest: Fraction) -> Iterator[Fraction]:
    """Usual ones, then simple ones: from all that is allowed, and then from its inner part, where offsets have room."""
    fitting = [each for each in USUAL_SCALES if least <= each.slope <= greatest]
    yield from (each.slope for each in sorted(fitting, key=lambda each: -each.weight))
    edge = (greatest - least) / 16
    yield simplest_between(least, greatest)
    yield simplest_between(least + edge, greatest - edge)


def _simplest_offset(points: Sequence[ScalePoint], slope: Fraction) -> Fraction | None:
    """Of the offsets that the readings allow with a slope the one with the fewest digits; None if none has few."""
    least = max(value - half - slope * raw for raw, value, half in points)
    greatest = min(value + half - slope * raw for raw, value, half in points)
    for places in range(-_MOST_ZEROS, _MOST_PLACES + 1):
        power = Fraction(10) ** places
        rounded = Fraction(round((least + greatest) / 2 * power)) / power
        if least <= rounded <= greatest:
            return rounded
    return None


def _least_squares(points: Sequence[ScalePoint], *, through_zero: bool) -> tuple[Fraction, Fraction]:
    """Weighted by 1 / half squared: what is shown with more digits says more."""
    weighted = [(1 / half**2 if half else Fraction(1), raw, value) for raw, value, half in points]
    raw_mean = value_mean = Fraction(0)
    if not through_zero:
        total = sum(weight for weight, _, _ in weighted)
        raw_mean = Fraction(sum(weight * raw for weight, raw, _ in weighted), total)
        value_mean = Fraction(sum(weight * value for weight, _, value in weighted), total)
    above = sum(weight * (raw - raw_mean) * (value - value_mean) for weight, raw, value in weighted)
    under = sum(weight * (raw - raw_mean) ** 2 for weight, raw, _ in weighted)
    slope = Fraction(above, under)
    return slope, value_mean - slope * raw_mean


def _decimal(number: Fraction) -> Decimal:
    return Decimal(number.numerator) / Decimal(number.denominator)
