"""Straight lines and rounding, exactly."""

from __future__ import annotations

from fractions import Fraction

import pytest

from app.signals.scaling import STRAIGHT_THROUGH, StraightLine, round_half_away


def line(raw0: int, raw1: int, value0: str, value1: str) -> StraightLine:
    return StraightLine(Fraction(raw0), Fraction(raw1), Fraction(value0), Fraction(value1))


def test_a_line_leads_through_its_two_points() -> None:
    speed = line(0, 10_000, "0", "50")
    assert speed.value(0) == 0
    assert speed.value(10_000) == 50
    assert speed.value(8_330) == Fraction("41.65")
    assert speed.raw(Fraction("41.65")) == 8_330
    assert speed.slope == Fraction(1, 200)


def test_a_line_may_fall() -> None:
    valve = line(4_000, 20_000, "100", "-20")
    assert valve.value(4_000) == 100
    assert valve.value(20_000) == -20
    assert valve.value(12_000) == 40
    assert valve.raw(Fraction(100)) == 4_000
    assert valve.slope < 0


def test_a_line_leads_on_beyond_its_points() -> None:
    current = line(4, 20, "0", "100")
    assert current.value(0) == -25
    assert current.raw(-25) == 0


def test_a_third_of_a_count_stays_a_third() -> None:
    thirds = line(0, 3, "0", "1")
    assert thirds.value(1) == Fraction(1, 3)
    assert thirds.raw(Fraction(1, 3)) == 1
    assert thirds.value(Fraction(1, 2)) == Fraction(1, 6)


def test_whole_and_broken_raw_numbers_take_the_same_line() -> None:
    odd = line(-7, 11, "0.3", "-2.7")
    for raw in range(-20, 20):
        assert odd.value(raw) == odd.value(Fraction(raw))


@pytest.mark.parametrize(("points", "which"), [((1, 1, "0", "5"), "raw numbers"), ((0, 1, "5", "5"), "values")])
def test_two_different_points_make_a_line(points: tuple[int, int, str, str], which: str) -> None:
    with pytest.raises(ValueError, match=f"two {which} are equal"):
        line(*points)


def test_without_a_scale_the_value_is_the_raw_number() -> None:
    assert STRAIGHT_THROUGH.value(-17) == -17
    assert STRAIGHT_THROUGH.raw(Fraction(1, 7)) == Fraction(1, 7)


def test_lines_through_the_same_points_are_equal() -> None:
    assert line(0, 10, "0", "1") == line(0, 10, "0", "1")
    assert hash(line(0, 10, "0", "1")) == hash(line(0, 10, "0", "1"))


@pytest.mark.parametrize(
    ("number", "decimals", "rounded"),
    [
        ("41.65", 1, "41.7"),
        ("-41.65", 1, "-41.7"),
        ("41.649999", 1, "41.6"),
        ("0.5", 0, "1"),
        ("-0.5", 0, "-1"),
        ("1.5", 0, "2"),
        ("2.5", 0, "3"),
        ("0.49999999999999999999", 0, "0"),
        ("-0.04", 1, "0"),
        ("7", 3, "7"),
    ],
)
def test_halves_round_away_from_zero(number: str, decimals: int, rounded: str) -> None:
    assert round_half_away(Fraction(number), decimals) == Fraction(rounded)
