"""What a scale comes to: its formula, the span of its values, what one count is worth, how wide its texts get."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import cached_property
from typing import Final

from app.project.model import Project, Scale
from app.project.paths import in_words
from app.project.references import uses
from app.signals.encoding import EncodingName, is_float, is_text, raw_range
from app.signals.scaling import STRAIGHT_THROUGH, StraightLine, round_half_away
from app.signals.text import number_width, spoken_digits

_MOST_PLACES: Final = 12
"""A number with more decimals than this is told as a fraction."""


@dataclass(frozen=True, slots=False)
class ScaleFigures:
    """A scale on an encoding, shown with so many decimals. All numbers are exact."""

    encoding: EncodingName
    scale: Scale | None
    decimals: int

    @cached_property
    def line(self) -> StraightLine:
        """From raw counts to values."""
        if self.scale is None:
            return STRAIGHT_THROUGH
        (raw0, raw1), (value0, value1) = self.scale.raw, self.scale.value
        return StraightLine(Fraction(raw0), Fraction(raw1), Fraction(value0), Fraction(value1))

    @property
    def offset(self) -> Fraction:
        """The value of raw 0."""
        return self.line.value(0)

    @property
    def raw_span(self) -> tuple[Fraction, Fraction] | None:
        """The raw numbers that the encoding holds; None for floats, which hold nearly any, and for texts."""
        return None if is_float(self.encoding) or is_text(self.encoding) else raw_range(self.encoding)

    @property
    def value_span(self) -> tuple[Fraction, Fraction] | None:
        """The least and the greatest value of that."""
        raw = self.raw_span
        if raw is None:
            return None
        ends = self.line.value(raw[0]), self.line.value(raw[1])
        return min(ends), max(ends)

    @property
    def widest(self) -> str | None:
        """The value of the span that needs the most cells, as it is shown; None where there is no span."""
        span = self.value_span
        if span is None:
            return None
        return self.text_of(max(span, key=lambda value: number_width(value, self.decimals)))

    def text_of(self, value: Fraction) -> str:
        """A value as the panel shows it."""
        return spoken_digits(value, self.decimals)

    def raw_of(self, value: Fraction) -> Fraction:
        """What would be written for a value: the nearest count where the encoding holds whole numbers."""
        raw = self.line.raw(value)
        return raw if is_float(self.encoding) else round_half_away(raw)

    def holds(self, raw: Fraction) -> bool:
        """Whether the encoding holds a raw number."""
        span = self.raw_span
        return span is None or (span[0] <= raw <= span[1] and raw.denominator == 1)


def exact_text(number: Fraction) -> str:
    """A number without loss: with a point if its decimals come to an end soon, else as a fraction, "50/16383"."""
    places = 0
    while places <= _MOST_PLACES:
        scaled = number * 10**places
        if scaled.denominator == 1:
            return spoken_digits(number, places)
        places += 1
    return f"{number.numerator}/{number.denominator}"


def as_decimal(number: Fraction) -> Decimal | None:
    """The number as it can stand in a file; None if its decimals do not come to an end."""
    text = exact_text(number)
    return None if "/" in text else Decimal(text)


def points_of(slope: Decimal, offset: Decimal, raw: tuple[Decimal, Decimal]) -> Scale:
    """The scale with so much for a count and `offset` for raw 0, by its values at two raw numbers.

    Raises pydantic.ValidationError if that is no straight line that leads both ways.
    """
    ends = tuple(as_decimal(Fraction(slope) * Fraction(each) + Fraction(offset)) for each in raw)
    first, second = (Decimal(0) if end is None else end for end in ends)
    return Scale(raw=raw, value=(first, second))


def too_narrow(project: Project, name: str, width: int) -> tuple[tuple[str, int], ...]:
    """The number fields that show a signal in fewer than `width` cells: where each is, in words, and its cells."""
    found: list[tuple[str, int]] = []
    for use in uses(project, "signal", name):
        place = use.place
        if place[0] != "screen" or place[-2] == "blink" or len(place) != 5:
            continue
        field = project.screens[int(place[1])].fields[int(place[3])]
        if field.kind == "number" and field.width < width:
            found.append((in_words(project, place[:-1]), field.width))
    return tuple(found)
