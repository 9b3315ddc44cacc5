"""Which register holds what the display of a device shows: every register, data type, order and scale is weighed.

Each explanation has a weight: how usual it is, times how well it foretells what was typed. Against all of them stands
that none is true and what agrees does so by chance. So a candidate's `chance` is the share of everything but itself
(Bayes' rule; how usual things are is guessed in `guesses.py`).

- Half of the last digit to either side is the same as what is shown; one more digit is a typing error or a display that
  cuts off, which happens seldom.
- A candidate changes when the value does, and its counts are no coarser than what is shown.
- Equal readings and zeros say nothing in favour of anybody; they only rule out.
- Of explanations that cannot differ the narrowest is told, with the others named beside it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import suppress
from fractions import Fraction
from typing import Any, Final, NamedTuple

import numpy as np
from numpy.typing import NDArray

from app.matching.agreement import ShownReadings
from app.matching.bank import Bank, Decoded, banks, decoded
from app.matching.candidates import Candidate, DisplayReading, MatchResult, RegisterMeaning, told_by
from app.matching.guesses import FLOAT_KEEPS_STILL, HALF_STRAIGHT, NOWHERE, ONE_VALUE, USUAL, scale_weights, way_weight
from app.matching.reading_ways import Way
from app.matching.scale import NoStraightLine, ScalePoint, fit
from app.matching.shown import Shown
from app.signals.encoding import is_float, is_integer

_MOST_LISTED: Final = 50
_MOST_WEIGHED: Final = 200
"""Single explanations that are looked at one by one; all others only count against these."""
_CERTAIN: Final = 1e-6
"""No candidate is told to be more certain than this."""
_WORTHLESS: Final = 0.99
"""A line that is not a usual one is not told if it is more likely than this to be a coincidence."""


def match(readings: Sequence[DisplayReading]) -> MatchResult:
    """Compare all registers with what was shown. Any number of readings; without one that is not 0 nobody is found."""
    shown = tuple(reading.shown for reading in readings)
    all_banks = list(banks([reading.registers for reading in readings]))
    registers = sum(len(bank.addresses) for bank in all_banks)
    result = MatchResult(shown, (), registers)
    if not result.told or not registers:
        return result
    what = ShownReadings(shown)
    if what.change:
        result = MatchResult(shown, (), registers, sum(int(bank.moved(1).sum()) for bank in all_banks))
    able = registers if result.changed is None else result.changed
    with np.errstate(invalid="ignore", over="ignore", divide="ignore"):
        hits = [
            each for bank in all_banks for way in decoded(bank, moved=what.change) for each in _hits(what, bank, way)
        ]
    if not hits:
        return result
    nothing = NOWHERE * float(np.prod(what.coincidences)) * able
    candidates = _candidates(_groups(_singles(hits, shown)), nothing, _sum(hits), shown, len(result.told))
    return MatchResult(shown, candidates, registers, result.changed)


class _Hits(NamedTuple):
    """Explanations of one way and scale: a column of `raws`, an address and a weight for each."""

    bank: Bank
    way: Way
    addresses: NDArray[np.int64]
    raws: NDArray[np.float64]
    weights: NDArray[np.float64]
    slope: Fraction | None
    """None: each has a line of its own."""


def _hits(what: ShownReadings, bank: Bank, numbers: Decoded) -> Iterator[_Hits]:
    way, columns, raws = numbers
    addresses, prior = bank.addresses[columns], way_weight(way)
    usual = np.zeros(len(columns), bool)
    finest = _finest_moves(way, raws) | (not what.change)
    for scale, weight in scale_weights(way, what.steps):
        at, likely = what.by_scale(raws, float(scale.slope))
        usual[at] = True
        if len(at):
            # A float of which the low word keeps still may have another register in its place.
            still = np.where(finest[at], 1.0, FLOAT_KEEPS_STILL) if is_float(way.encoding) else 1.0
            yield _Hits(bank, way, addresses[at], raws[:, at], USUAL * prior * weight * likely * still, scale.slope)
    # Whole numbers whose low byte keeps still are small ones, with their bytes or words the wrong way round.
    others = np.flatnonzero(~usual & (finest | is_float(way.encoding)))
    for at, likely in what.by_lines(raws[:, others]):
        if len(at):
            at = others[at]
            yield _Hits(bank, way, addresses[at], raws[:, at], prior * likely, None)


def _finest_moves(way: Way, raws: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Whether the lowest digits of a number change at all, or the lowest word of a float."""
    lowest: NDArray[Any]
    if way.encoding == "float32":
        lowest = raws.astype(np.float32).view(np.uint32) & 0xFFFF
    elif way.encoding == "float64":
        lowest = np.ascontiguousarray(raws).view(np.uint64) & np.uint64(0xFFFF)
    else:
        lowest = raws % (256 if is_integer(way.encoding) else 100)
    moves: NDArray[np.bool_] = (lowest != lowest[0]).any(axis=0)
    return moves


def _sum(hits: Sequence[_Hits]) -> float:
    return float(sum(each.weights.sum() for each in hits))


class _Single(NamedTuple):
    explains: RegisterMeaning
    weight: float
    raws: tuple[float, ...]
    usual: bool

    @property
    def values(self) -> tuple[str, ...]:
        """What it comes to at each reading, as far as floats of 64 bits can be the same."""
        return tuple(f"{self.explains.value(raw):.9g}" for raw in self.raws)


def _singles(hits: Sequence[_Hits], shown: Sequence[Shown]) -> Iterator[_Single]:
    """The heaviest explanations, with exact lines."""
    weights = np.concatenate([each.weights for each in hits])
    ends = np.cumsum([len(each.weights) for each in hits])
    for place in np.argsort(-weights, kind="stable")[:_MOST_WEIGHED].tolist():
        number = int(np.searchsorted(ends, place, side="right"))
        of = hits[number]
        at = place - int(ends[number]) + len(of.weights)
        raws = tuple(of.raws[:, at].tolist())
        line = _line(raws, shown) if of.slope is None else (of.slope, Fraction(0))
        if line is not None:
            explains = RegisterMeaning(of.bank.table, int(of.addresses[at]), of.way, *line)
            yield _Single(explains, float(of.weights[at]), raws, of.slope is not None)


def _line(raws: Sequence[float], shown: Sequence[Shown]) -> tuple[Fraction, Fraction] | None:
    """As `ShownReadings.by_lines`: through zero, through zero but for one last digit, or else any."""
    points = [ScalePoint(Fraction(raw), each.value, each.half) for raw, each in zip(raws, shown, strict=True)]
    kinds = [(points, True)]
    if len(told := told_by(shown)) > 2:
        for at in told:
            wide = points[at]._replace(half=points[at].half + shown[at].digit)
            kinds.append(([*points[:at], wide, *points[at + 1 :]], True))
    for allowed, through_zero in [*kinds, (points, False)]:
        with suppress(NoStraightLine):
            found = fit(allowed, through_zero=through_zero)
            return found.slope, found.offset
    return None


class _Group:
    """Explanations that come to the same values in the same register, the narrowest first."""

    def __init__(self) -> None:
        self.singles: list[_Single] = []
        self.weight = 0.0
        self.twins: list[_Group] = []
        """Those that come to the same values elsewhere, itself among them."""

    @property
    def best(self) -> _Single:
        return self.singles[0]

    def add(self, single: _Single) -> None:
        self.singles.append(single)
        self.weight += single.weight

    def holds(self, other: RegisterMeaning) -> bool:
        mine = self.best.explains
        return mine.table == other.table and bool(set(mine.places) & set(other.places))

    def rank(self) -> tuple[float, int, int]:
        return -self.weight, self.best.explains.way.width, self.best.explains.address


def _groups(singles: Iterator[_Single]) -> list[_Group]:
    """The heaviest first."""
    by_values: dict[tuple[str, ...], list[_Group]] = {}
    for single in sorted(singles, key=lambda each: (not each.usual, each.explains.way.width, -each.weight)):
        alike = by_values.setdefault(single.values, [])
        group = next((each for each in alike if each.holds(single.explains)), None)
        if group is None:
            alike.append(group := _Group())
        group.add(single)
        group.twins = alike
    return sorted((each for alike in by_values.values() for each in alike), key=_Group.rank)


def _candidates(
    groups: Sequence[_Group], nothing: float, total: float, shown: Sequence[Shown], told: int
) -> tuple[Candidate, ...]:
    found = []
    for group in groups:
        best, *also = group.singles
        # Of a sum of floats little is left when its largest part is taken away: the next ones are added up anew.
        others = nothing + max(total - group.weight, sum(each.weight for each in groups[:8] if each is not group))
        chance = max(others / (others + group.weight), _CERTAIN if told > 1 else ONE_VALUE)
        one_off = _one_off(best, shown)
        if not best.usual:
            chance = max(chance, HALF_STRAIGHT ** (told - 1 - bool(best.explains.offset or one_off)))
        if best.usual or chance <= _WORTHLESS:
            twins = tuple(each.best.explains for each in group.twins if each is not group)
            found.append(
                Candidate(best.explains, chance, best.raws, tuple(each.explains for each in also), twins, one_off)
            )
    return tuple(sorted(found, key=lambda each: each.chance)[:_MOST_LISTED])


def _one_off(single: _Single, shown: Sequence[Shown]) -> tuple[int, ...]:
    return tuple(
        at
        for at, (raw, each) in enumerate(zip(single.raws, shown, strict=True))
        if abs(single.explains.value(raw) - float(each.value)) > float(each.half + abs(each.value) / 10**6)
    )
