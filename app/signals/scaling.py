"""Raw counts to engineering values and back, exactly, along a straight line."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Final

from app.language import translate


@dataclass(frozen=True, slots=True)
class StraightLine:
    """The straight line through two points (raw0, value0) and (raw1, value1); it may fall as well as rise.

    Raises ValueError if the two raw numbers or the two values are the same: such a line leads only one way.
    """

    raw0: Fraction
    raw1: Fraction
    value0: Fraction
    value1: Fraction
    _slope: Fraction = field(init=False, repr=False, compare=False)
    # value = (raw * _up + _offset) / _under, in whole numbers: one reduction a value instead of three
    _up: int = field(init=False, repr=False, compare=False)
    _offset: int = field(init=False, repr=False, compare=False)
    _under: int = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        if self.raw0 == self.raw1:
            raise ValueError(
                translate("signals", "the two raw numbers are equal; a straight line needs two different ones")
            )
        if self.value0 == self.value1:
            raise ValueError(translate("signals", "the two values are equal; a straight line needs two different ones"))
        slope = Fraction(self.value1 - self.value0) / Fraction(self.raw1 - self.raw0)
        offset = self.value0 - slope * self.raw0
        object.__setattr__(self, "_slope", slope)
        object.__setattr__(self, "_up", slope.numerator * offset.denominator)
        object.__setattr__(self, "_offset", offset.numerator * slope.denominator)
        object.__setattr__(self, "_under", slope.denominator * offset.denominator)

    @property
    def slope(self) -> Fraction:
        """Engineering units for one raw count; negative on a falling line, never 0."""
        return self._slope

    def value(self, raw: int | Fraction) -> Fraction:
        """The engineering value of a raw number."""
        if isinstance(raw, int):
            return Fraction(raw * self._up + self._offset, self._under)
        return self.value0 + (raw - self.raw0) * self._slope

    def raw(self, value: int | Fraction) -> Fraction:
        """The raw number of an engineering value, not rounded."""
        top, bottom = value.numerator, value.denominator
        return Fraction(top * self._under - self._offset * bottom, bottom * self._up)


STRAIGHT_THROUGH: Final = StraightLine(Fraction(0), Fraction(1), Fraction(0), Fraction(1))
"""The scale of a signal that has none: the value is the raw number."""


def round_half_away(number: int | Fraction, decimals: int = 0) -> Fraction:
    """The number rounded to so many decimals (0 or more), a half away from zero: 41.65 to 41.7, -0.5 to -1.

    Exact as long as the number is: binary floats would turn 41.65 into 41.6.
    """
    power = 10**decimals
    return Fraction(rounded_count(number, power), power)


def rounded_count(number: int | Fraction, power: int) -> int:
    """The number times `power` (1 or more), rounded to a whole number, a half away from zero."""
    top, bottom = abs(number.numerator) * power, number.denominator
    count = (2 * top + bottom) // (2 * bottom)
    return -count if number.numerator < 0 else count
