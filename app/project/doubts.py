"""Whether a value that was read can be what its signal says: in its limits, or in a range that is usual for its unit.

A wrong register, encoding, word order or scale often shows so: the value is good as far as the line is concerned, and
yet cannot be. It is shown all the same, and said to be doubtful.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from math import ceil, floor
from typing import Final

from app.language import translate
from app.project.model import RegisterSignal
from app.signals.encoding import is_float, is_text
from app.signals.reading import Raw
from app.signals.scaling import StraightLine

_FAST: Final = (Fraction(-100_000), Fraction(100_000))
_USUAL: Final[Mapping[str, tuple[Fraction, Fraction]]] = {
    "Hz": (Fraction(-1000), Fraction(1000)),
    "%": (Fraction(-1000), Fraction(1000)),
    "\u00b0C": (Fraction("-273.15"), Fraction(3000)),
    "bar": (Fraction(-1), Fraction(10_000)),
    "V": _FAST,
    "A": _FAST,
    "kW": _FAST,
    "Nm": (Fraction(-10_000_000), Fraction(10_000_000)),
    "1/min": _FAST,
    "min-1": _FAST,
    "rpm": _FAST,
}
"""What values of a unit can be in drives and machines. Common practice, no source; -273.15 \u00b0C is absolute zero,
and -1 bar the vacuum."""
_LARGE: Final = 1e12
_SMALL: Final = 1e-12
"""A float beyond the one, or nearer to 0 than the other, is hardly a value of anything. Words in the wrong order bring
exponents of any size. Common practice, no source."""
_ROUNDING: Final = 1e-6
"""Relative to a limit, by how much a float may lie beyond it: some seven figures are in 32 bits."""


@dataclass(frozen=True, slots=True)
class Trusted:
    """The raw numbers between which a signal's value is believed, both ends included, and what they are in words."""

    low: float
    high: float
    span: str
    of_limits: bool
    float_too: bool
    """Whether it is a float, of which very small and very large numbers are not believed either."""

    def doubt(self, raw: Raw) -> str:
        """Why this raw number is doubtful, and what to check; empty if it is not."""
        if isinstance(raw, str):
            return ""
        if self.low <= raw <= self.high and not (self.float_too and raw and not _SMALL <= abs(raw) <= _LARGE):
            return ""
        if self.low <= raw <= self.high or not self.span:
            return translate("project", "implausible value: check the register, the data type and the word order")
        if self.of_limits:
            told = translate(
                "project", "outside its limits {span}: check the register, the data type, the word order and the scale"
            )
        else:
            told = translate(
                "project",
                "outside the usual range {span}: check the register, the data type, the word order and the scale",
            )
        return told.format(span=self.span)


def trust_in(signal: RegisterSignal, scale: StraightLine) -> Trusted | None:
    """What is believed of a signal that is a number in registers; None if anything is."""
    if is_text(signal.encoding):
        return None
    limits = None if signal.limits is None else (Fraction(signal.limits[0]), Fraction(signal.limits[1]))
    ends = limits or _USUAL.get(signal.unit)
    floating = is_float(signal.encoding)
    if ends is None:
        return Trusted(float("-inf"), float("inf"), "", of_limits=False, float_too=True) if floating else None
    raw = sorted(scale.raw(end) for end in ends)
    # A whole number in registers is the nearest count to a limit, perhaps on its other side.
    low, high = (float(raw[0]), float(raw[1])) if floating else (floor(raw[0]), ceil(raw[1]))
    if floating:
        low, high = low - abs(low) * _ROUNDING, high + abs(high) * _ROUNDING
    span = translate("project", "{low} to {high}").format(low=_plain_number(ends[0]), high=_plain_number(ends[1]))
    return Trusted(low, high, f"{span} {signal.unit}".rstrip(), of_limits=limits is not None, float_too=floating)


def _plain_number(value: Fraction) -> str:
    return f"{(Decimal(value.numerator) / value.denominator).normalize():f}"
