"""Values to the characters that a panel shows: numbers, texts and bars of a given width.

One rule for all of them: what does not fit is never cut, because a cut number is a wrong number; the whole run is
filled with '#'.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from app.language import translate, with_mark
from app.signals.scaling import round_half_away, rounded_count

OVERFLOW: Final = "#"
"""Fills the run of cells of whatever does not fit."""

FULL_BLOCK: Final = "█"
PLAIN_FULL: Final = "="


def number_digits(value: int | Fraction, decimals: int) -> str:
    """The number with exactly so many decimals, rounded half away from zero, as long as it gets.

    A minus sign stands in front of a negative number; what rounds to zero has none.
    """
    scaled = rounded_count(value, 10**decimals)
    digits = str(abs(scaled)).rjust(decimals + 1, "0")
    if decimals:
        digits = f"{digits[:-decimals]}.{digits[-decimals:]}"
    return f"-{digits}" if scaled < 0 else digits


def spoken_digits(value: int | Fraction, decimals: int) -> str:
    """The same for people beside the panel, whose own cells have the point: with the decimal mark of their language."""
    return with_mark(number_digits(value, decimals))


def number_text(value: int | Fraction, width: int, decimals: int) -> str:
    """The number at the right of `width` cells (1 or more), or all '#' if it needs more."""
    digits = number_digits(value, decimals)
    return digits.rjust(width) if len(digits) <= width else OVERFLOW * width


def number_width(value: int | Fraction, decimals: int) -> int:
    """How many cells the number needs, sign, point and decimals included.

    It grows with the distance from zero on either side, so the ends of a span need the most.
    """
    return len(number_digits(value, decimals))


def hexadecimal_digits(value: int | Fraction, registers: int) -> str | None:
    """The number in hexadecimal as manuals print it, 9000h: four digits for each of its registers (1 or more).

    A negative number is written as its registers hold it, in two's complement. None if they cannot hold it, or if it is
    no whole number.
    """
    bits = 16 * registers
    if value.denominator != 1 or not -(1 << bits - 1) <= value < 1 << bits:
        return None
    return f"{int(value) & (1 << bits) - 1:0{bits // 4}X}h"


def hexadecimal_text(value: int | Fraction, width: int, registers: int) -> str:
    """The number in hexadecimal at the right of `width` cells (1 or more), or all '#' if it needs more."""
    digits = hexadecimal_digits(value, registers)
    return OVERFLOW * width if digits is None or len(digits) > width else digits.rjust(width)


def hexadecimal_width(registers: int) -> int:
    """How many cells any number of so many registers needs in hexadecimal."""
    return 4 * registers + 1


def choice_text(text: str, width: int) -> str:
    """The text at the left of `width` cells (1 or more), or all '#' if it is longer."""
    return text.ljust(width) if len(text) <= width else OVERFLOW * width


def bar_fill(value: int | Fraction, low: int | Fraction, high: int | Fraction, width: int) -> int:
    """How many of `width` cells (1 or more) a bar fills: 0 at `low` and less, all at `high` and more.

    Rounded half up. `low` may be above `high`: then the bar fills as the value falls.
    Raises ValueError if the two ends are the same.
    """
    if low == high:
        raise ValueError(translate("signals", "the two ends of a bar are equal"))
    cells = round_half_away(Fraction(value - low) / Fraction(high - low) * width)
    return int(min(max(cells, Fraction(0)), Fraction(width)))


def bar_text(
    value: int | Fraction, low: int | Fraction, high: int | Fraction, width: int, full: str = PLAIN_FULL
) -> str:
    """A bar of `width` cells, filled from the left with `full` (one character).

    A value beyond an end says so: '<' in the first cell under the empty end, '>' in the last beyond the full end.
    All '#' if the two ends are the same.
    """
    if low == high:
        return OVERFLOW * width
    share = Fraction(value - low) / Fraction(high - low)
    if share < 0:
        return "<".ljust(width)
    if share > 1:
        return ">".rjust(width, full)
    return (full * bar_fill(value, low, high, width)).ljust(width)
