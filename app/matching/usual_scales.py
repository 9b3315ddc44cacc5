"""The scales that devices usually have: how often each is met, and why. All the program's knowledge of them is here."""

from __future__ import annotations

from fractions import Fraction
from typing import Final, NamedTuple

from app.language import Template, mark


class UsualScale(NamedTuple):
    """`raw` counts are `value`, and 0 is 0. `weight` says how often it is met beside the others."""

    raw: int
    value: int
    weight: float
    reason: Template

    @property
    def slope(self) -> Fraction:
        """What one count is worth."""
        return Fraction(self.value, self.raw)


USUAL_SCALES: Final[tuple[UsualScale, ...]] = (
    UsualScale(1, 1, 20, mark("matching", "the value itself")),
    UsualScale(10, 1, 20, mark("matching", "one decimal")),
    UsualScale(100, 1, 18, mark("matching", "two decimals; also 0 to 100 % as 0 to 10000")),
    UsualScale(1000, 1, 8, mark("matching", "three decimals")),
    UsualScale(10_000, 1, 1, mark("matching", "four decimals")),
    UsualScale(1, 10, 3, mark("matching", "tens")),
    UsualScale(1, 100, 1, mark("matching", "hundreds")),
    UsualScale(1, 1000, 1, mark("matching", "thousands, as where a device counts kilowatts and shows watts")),
    UsualScale(10_000, 50, 5, mark("matching", "0 to 50 as 0 to 10000; also steps of 0.005")),
    UsualScale(10_000, 60, 3, mark("matching", "0 to 60 as 0 to 10000")),
    UsualScale(16_384, 100, 5, mark("matching", "4000h is 100 %")),
    UsualScale(16_384, 50, 2, mark("matching", "4000h is 50")),
    UsualScale(16_384, 60, 1, mark("matching", "4000h is 60")),
    UsualScale(32_767, 100, 1, mark("matching", "7FFFh is 100 %")),
    UsualScale(27_648, 100, 1, mark("matching", "6C00h is 100 %, as of analogue inputs")),
    UsualScale(4_095, 100, 1, mark("matching", "a converter of 12 bits: FFFh is 100 %")),
    UsualScale(2, 1, 3, mark("matching", "halves, as of temperatures")),
    UsualScale(4, 1, 0.5, mark("matching", "quarters")),
    UsualScale(5, 1, 0.5, mark("matching", "fifths")),
    UsualScale(20, 1, 2, mark("matching", "steps of 0.05")),
    UsualScale(50, 1, 2, mark("matching", "steps of 0.02")),
)
"""Common practice, no source: the weights are guesses of ours, of the order of magnitude only."""

_BY_SLOPE: Final = {each.slope: each for each in USUAL_SCALES}


def usual_scale(slope: Fraction) -> UsualScale | None:
    """The usual scale with just this slope."""
    return _BY_SLOPE.get(slope)
