"""How usual things are before anything was read, and how often people and displays err. Common practice, no source.

All are guesses of ours, of the order of magnitude only; `tests/bench/matching.py` holds what follows from them to what
comes true.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Final

import numpy as np
from numpy.typing import NDArray

from app.matching.reading_ways import Way
from app.matching.shown import Shown
from app.matching.usual_scales import USUAL_SCALES, UsualScale
from app.signals.encoding import EncodingName, is_float

USUAL, THROUGH_ZERO, ANY_LINE, NOWHERE = 0.85, 0.05, 0.02, 0.08
"""The value stands in some register with a usual scale, with another one, with an offset too; or in none."""

RIGHT, ONE_OFF = 0.97, 0.015
"""A reading is typed right, or is one of the last digit higher, or lower."""

CUTS_OFF: Final = 0.02
"""Displays that cut off instead of rounding."""

HALF_STRAIGHT: Final = 0.05
"""How often what moves with the value lies on one straight line with it, for each reading more than a line takes up."""

FLOAT_KEEPS_STILL: Final = 0.2
"""Floats whose low word does not change while their value does: round values such as 12.5 and 25."""

ONE_VALUE: Final = 0.02
"""Nothing is more certain than this before the value changed: what agrees may be a setting that always holds it."""

_WAYS: Final[dict[EncodingName, float]] = {
    "uint16": 0.26,
    "int16": 0.18,
    "uint32": 0.13,
    "int32": 0.11,
    "float32": 0.15,
    "uint64": 0.03,
    "int64": 0.03,
    "float64": 0.05,
    "bcd16": 0.04,
    "bcd32": 0.02,
}
_LOW_WORD_FIRST, _LOW_BYTE_FIRST = 0.4, 0.2
_FLOAT_SCALES: Final = {Fraction(1): 60.0}
"""Floats hold the value itself; other scales weigh a fiftieth of what they do for whole numbers."""
_FINER: Final = {1: 1.0, 10: 0.5, 100: 0.2, 1000: 0.05, 2000: 0.0}
"""Registers that count so many times finer than the display shows; in between as the next lower one. Still finer ones
are none: else any register would pass as the high word of a long number."""
_COARSE_STEPS: Final = {5: 0.1, 10: 0.1}
"""Displays that move by five or by ten of their last digit, which shows only in what they show."""


def way_weight(way: Way) -> float:
    """How usual a data type with its orders is; all ways together are 1."""
    weight = _WAYS[way.encoding]
    if way.width > 1:
        weight *= _LOW_WORD_FIRST if way.word_order == "low-first" else 1 - _LOW_WORD_FIRST
    return weight * (_LOW_BYTE_FIRST if way.byte_order == "low-first" else 1 - _LOW_BYTE_FIRST)


DisplaySteps = Sequence[tuple[Fraction, float]]
"""By how much a display may move, and how likely that is; the finest first."""


def possible_steps(readings: Sequence[Shown]) -> DisplaySteps:
    """As far as what it showed tells: by one of the last digit, or by five or ten of it."""
    finest = min(each.step for each in readings)
    steps = [(finest, 1.0)]
    for times, weight in _COARSE_STEPS.items():
        tenths_show = times == 10 and any(each.digit < 1 for each in readings)  # 25.0 is not moved by ones
        fives_show = times == 10 or any(each.value / finest % 10 == 5 for each in readings)
        if fives_show and not tenths_show and all(each.value % (finest * times) == 0 for each in readings):
            steps.append((finest * times, weight))
    return steps


def scale_weights(way: Way, steps: DisplaySteps) -> Iterator[tuple[UsualScale, float]]:
    """The usual scales that resolve what the display shows, and how usual each is; together 1."""
    if is_float(way.encoding):
        weights = [_FLOAT_SCALES.get(scale.slope, scale.weight / 50) for scale in USUAL_SCALES]
    else:
        weights = [scale.weight * _resolves(scale.slope, steps) for scale in USUAL_SCALES]
    total = sum(weights)
    for scale, weight in zip(USUAL_SCALES, weights, strict=True):
        if weight:
            yield scale, weight / total


def _resolves(slope: Fraction, steps: DisplaySteps) -> float:
    for step, weight in steps:
        if (finer := step / slope) >= 1:
            return weight * max((least, share) for least, share in _FINER.items() if finer >= least)[1]
    return 0.0


def fineness_weights(slopes: NDArray[np.float64], steps: DisplaySteps) -> NDArray[np.float64]:
    """How usual counts are that are worth so little beside what the display shows; 0 where they do not resolve it."""
    slopes = np.abs(slopes)
    finer = float(steps[0][0]) / slopes
    shares = np.array(list(_FINER.values()))[np.searchsorted(list(_FINER), finer, side="right").clip(1) - 1]
    return np.where(slopes <= float(steps[-1][0]) * (1 + 1e-6), shares, 0.0)


def coincidence(shown: Shown) -> float:
    """How often a register that has nothing to do with the display agrees with just this: with round numbers more often
    than with others."""
    count = max(round(abs(shown.value / shown.step)), 1)
    any_number = 1 / (count * np.log(10) * 5)  # spread over five decades, every decade alike
    digits = len(str(count).rstrip("0"))
    round_number = 1 / (4 * 9 * 10 ** (digits - 1))  # so many digits in one of four decades
    return min(0.5, float(any_number + round_number) / 2)
