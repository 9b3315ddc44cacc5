"""What a person types off a display: its value, its last digit, its unit."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

import pytest

from app.language import speak
from app.matching.shown import shown


@pytest.fixture(autouse=True)
def _english_again() -> Iterator[None]:
    yield
    speak(None)


@pytest.mark.parametrize(
    ("text", "value", "digit", "unit"),
    [
        ("25.0 Hz", Fraction(25), Fraction(1, 10), "Hz"),
        ("25,0", Fraction(25), Fraction(1, 10), ""),
        ("-3", Fraction(-3), Fraction(1), ""),
        ("\N{MINUS SIGN}0.05 bar", Fraction(-1, 20), Fraction(1, 100), "bar"),
        ("1 450 min-1", Fraction(1450), Fraction(1), "min-1"),
        ("1450min-1", Fraction(1450), Fraction(1), "min-1"),
        ("1'450.5 kWh", Fraction(2901, 2), Fraction(1, 10), "kWh"),
        ("  41.65  Hz ", Fraction(833, 20), Fraction(1, 100), "Hz"),
        ("0", Fraction(0), Fraction(1), ""),
        ("+7 %", Fraction(7), Fraction(1), "%"),
        ("12 345 678", Fraction(12_345_678), Fraction(1), ""),
        ("3 phases", Fraction(3), Fraction(1), "phases"),
    ],
)
def test_value_last_digit_and_unit(text: str, value: Fraction, digit: Fraction, unit: str) -> None:
    found = shown(text)
    assert (found.value, found.digit, found.step, found.unit) == (value, digit, digit, unit)
    assert found.half == digit / 2
    assert found.decimals == (0 if digit == 1 else len(str(digit.denominator)) - 1)


def test_the_display_may_move_by_more_than_its_last_digit() -> None:
    found = shown("12.5", Fraction(1, 2))
    assert (found.step, found.digit, found.half) == (Fraction(1, 2), Fraction(1, 10), Fraction(1, 4))
    with pytest.raises(ValueError, match="greater than 0"):
        shown("12.5", Fraction(0))


@pytest.mark.parametrize("text", ["", "Hz", "Hz 25", "--3", "abc", "."])
def test_what_is_no_number_is_refused(text: str) -> None:
    with pytest.raises(ValueError):
        shown(text)


def test_the_decimal_mark_is_that_of_the_language() -> None:
    with pytest.raises(ValueError, match="can mean"):
        shown("1,450 min-1")
    speak(lambda _, text: text, ",")
    assert shown("41,65 Hz").value == Fraction(833, 20)
    with pytest.raises(ValueError, match="can mean"):
        shown("1.450 min-1")
