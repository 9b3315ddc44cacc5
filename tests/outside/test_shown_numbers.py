"""Numbers on the panel against common practice and against decimal arithmetic of the standard library."""

from __future__ import annotations

import random
from decimal import ROUND_HALF_UP, Context, Decimal
from fractions import Fraction

from app.signals.scaling import StraightLine
from app.signals.text import number_digits, number_text


def test_a_reference_of_76_3_percent_on_50_hz_shows_38_2() -> None:
    """Common practice, no source: 41.65 Hz at one decimal, a half away from zero; binary floats show 41.6."""
    of_base = StraightLine(Fraction(0), Fraction(100), Fraction(0), Fraction(50))
    assert number_text(of_base.value(Fraction("83.3")), 4, 1) == "41.7"
    assert number_text(-of_base.value(Fraction("83.3")), 5, 1) == "-41.7"
    counts = StraightLine(Fraction(0), Fraction(10_000), Fraction(0), Fraction(50))
    assert number_text(counts.value(8_330), 4, 1) == "41.7"
    assert f"{83.3 * 50 / 100:.1f}" == "41.6"  # what the exact arithmetic is for


def test_rounding_is_that_of_the_decimal_module() -> None:
    """`decimal` of the standard library: ROUND_HALF_UP is away from zero on a tie, on either side."""
    chance = random.Random(76_3)
    exact_enough = Context(prec=60)
    for _ in range(2_000):
        decimals = chance.randrange(7)
        value = Decimal(chance.randrange(-(10**9), 10**9)).scaleb(-chance.randrange(9))
        if chance.random() < 0.3:  # a tie, which random numbers hardly ever are
            value = (2 * value.quantize(Decimal(1)) + 1) / 2 * Decimal(1).scaleb(-decimals)
        quantum = Decimal(1).scaleb(-decimals)
        expected = value.quantize(quantum, rounding=ROUND_HALF_UP, context=exact_enough)
        if expected == 0:
            expected = abs(expected)  # a panel shows no negative zero
        assert number_digits(Fraction(value), decimals) == f"{expected:f}"
