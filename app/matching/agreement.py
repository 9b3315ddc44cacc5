"""Which numbers agree with what a display showed: whole columns of registers at once, by usual scales, by any line."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from itertools import combinations
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from app.matching.candidates import told_by
from app.matching.guesses import (
    ANY_LINE,
    CUTS_OFF,
    ONE_OFF,
    RIGHT,
    THROUGH_ZERO,
    coincidence,
    fineness_weights,
    possible_steps,
)
from app.matching.shown import Shown

_FLOAT_LOSS, _DIGIT_LOSS = 1e-6, 1e-9
"""What binary fractions lose, of the value (floats of 32 bits) and of its last digit."""

Numbers: TypeAlias = NDArray[np.float64]
Columns: TypeAlias = NDArray[np.intp]
_Ends: TypeAlias = Iterator[tuple[Numbers, float, float]]


class ShownReadings:
    """What was shown, as numbers. `raws` below have a row a reading, and a column for each place in the registers."""

    def __init__(self, readings: Sequence[Shown]) -> None:
        self.steps = possible_steps(readings)
        self.told = told_by(readings)
        self.coincidences = [coincidence(readings[at]) for at in self.told]
        """How often something that has nothing to do with the display agrees, for each reading that tells anything."""
        self._values = [float(each.value) for each in readings]
        self._digits = [float(each.digit) for each in readings]
        self._halves = [float(each.half) for each in readings]
        self._sharpest = max(self.told, key=lambda at: abs(readings[at].value / readings[at].step))

    @property
    def change(self) -> bool:
        """Whether not all of them are the same."""
        return len(set(self._values)) > 1

    def by_scale(self, raws: Numbers, slope: float) -> tuple[Columns, Numbers]:
        """The columns that agree by a scale, and how likely they make what was typed."""
        value, digit = self._values[self._sharpest], self._digits[self._sharpest]
        off = 2 * (self._halves[self._sharpest] + digit) + abs(value) * _FLOAT_LOSS
        row = raws[self._sharpest]
        near = np.flatnonzero((row >= (value - off) / slope) & (row <= (value + off) / slope))
        near = near[self._follow(raws[:, near], np.full(len(near), slope))]
        likely = self._likelihood(raws[:, near], slope)
        return near[likely > 0], likely[likely > 0]

    def by_lines(self, raws: Numbers) -> Iterator[tuple[Columns, Numbers]]:
        """The columns that agree by any other straight line, and how likely: what the line takes up says nothing.

        Lines through zero take up one reading, others two. One last digit more is looked for through zero only, and
        before an offset is: it would hide in that.
        """
        left = np.arange(raws.shape[1])
        right = RIGHT ** len(self._values)
        taken = sorted(self.coincidences, reverse=True)
        from_zero = THROUGH_ZERO * right * taken[0]
        kinds: list[tuple[int, float, Callable[[Numbers], _Ends]]] = [
            (2, from_zero, self._rises_from_zero),
            *((3, from_zero * ONE_OFF / RIGHT, partial(self._rises_from_zero, one_off=at)) for at in self.told),
            (3, ANY_LINE * right * float(np.prod(taken[:2])), self._rises),
        ]
        for fewest, weight, rises in kinds:
            if len(self.told) < fewest:
                return
            at, slopes = self._on_lines(raws[:, left], rises)
            yield left[at], weight * fineness_weights(slopes, self.steps)
            left = np.delete(left, at)

    def _likelihood(self, raws: Numbers, slope: float) -> Numbers:
        rounds: Numbers = np.full(raws.shape[1], 1 - CUTS_OFF)
        cuts: Numbers = np.full(raws.shape[1], CUTS_OFF)
        for row, value, digit, half in zip(raws, self._values, self._digits, self._halves, strict=True):
            loss = abs(value) * _FLOAT_LOSS + digit * _DIGIT_LOSS
            off = slope * row - value
            away = np.abs(off) - half
            rounds *= np.where(away <= loss, RIGHT, np.where(away <= digit + loss, ONE_OFF, 0))
            # Cut off towards 0, so the number itself lies farther out.
            away = np.abs((-off if value < 0 else off) - half) - half
            cuts *= np.where(away <= loss, RIGHT, np.where(away <= digit + loss, ONE_OFF, 0))
        return rounds + cuts

    def _follow(self, raws: Numbers, slopes: Numbers) -> NDArray[np.bool_]:
        """Whether they change when the value does, and to its side."""
        fine = np.ones(raws.shape[1], bool)
        for one, other in combinations(range(len(self._values)), 2):
            if (rise := self._values[other] - self._values[one]) != 0:
                fine &= (raws[other] - raws[one]) * slopes * rise > 0
        return fine

    def _rises_from_zero(self, raws: Numbers, one_off: int | None = None) -> _Ends:
        for at, (row, value, half) in enumerate(zip(raws, self._values, self._halves, strict=True)):
            yield row, value, half + self._digits[at] if at == one_off else half

    def _rises(self, raws: Numbers) -> _Ends:
        for one, other in combinations(range(len(self._values)), 2):
            rise = self._values[other] - self._values[one]
            yield raws[other] - raws[one], rise, self._halves[other] + self._halves[one]

    def _on_lines(self, raws: Numbers, rises: Callable[[Numbers], _Ends]) -> tuple[Columns, Numbers]:
        """The columns for which one slope fits all rises, and such a slope: `app.matching.scale`, for many at once."""
        least, greatest = np.full(raws.shape[1], -np.inf), np.full(raws.shape[1], np.inf)
        for run, rise, half in rises(raws):
            ends = (rise - half) / run, (rise + half) / run
            any_slope = (run == 0) & (abs(rise) <= half)
            least = np.maximum(least, np.where(any_slope, -np.inf, np.minimum(*ends)))
            greatest = np.minimum(greatest, np.where(any_slope, np.inf, np.maximum(*ends)))
        at = np.flatnonzero((least <= greatest) & (least * greatest > 0) & np.isfinite(least) & np.isfinite(greatest))
        slopes = (least[at] + greatest[at]) / 2
        fits = self._follow(raws[:, at], slopes) & (fineness_weights(slopes, self.steps) > 0)
        return at[fits], slopes[fits]
