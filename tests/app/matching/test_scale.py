"""Scales from readings: exact, usual ones first, and never more certain than the readings are."""

from __future__ import annotations

import random
from decimal import Decimal
from fractions import Fraction
from itertools import count

import numpy as np
import pytest

from app.matching.scale import FittedScale, NoStraightLine, ScalePoint, fit, simplest_between
from app.matching.usual_scales import USUAL_SCALES, UsualScale
from app.signals.scaling import round_half_away


def shown(raw: int, value: str) -> ScalePoint:
    number = Decimal(value)
    digits = number.as_tuple().exponent
    assert isinstance(digits, int)
    return ScalePoint(Fraction(raw), Fraction(number), Fraction(10) ** digits / 2)


def display(line: tuple[Fraction, Fraction], raw: int, decimals: int) -> ScalePoint:
    value = round_half_away(line[0] * raw + line[1], decimals)
    return ScalePoint(Fraction(raw), value, Fraction(1, 2 * 10**decimals))


def test_two_readings_give_the_usual_scale_and_a_third_confirms_it() -> None:
    found = fit([shown(6824, "41.65"), shown(3412, "20.83")])
    assert found.usual is not None
    assert (found.usual.raw, found.usual.value) == (16_384, 100)
    assert found.points == ((Decimal(0), Decimal(16_384)), (Decimal(0), Decimal(100)))
    assert found.spare == 1
    assert found.confirms(shown(8192, "50.00"))
    assert not found.confirms(shown(8192, "50.02"))


def test_with_an_offset() -> None:
    """A temperature in tenths of a kelvin, shown in degrees Celsius: 0 degrees Celsius are 273.15 K by definition."""
    found = fit([shown(2982, "25.0"), shown(3331, "60.0")], through_zero=False)
    assert found.slope == Fraction(1, 10)
    assert found.least_slope <= Fraction(1, 10) <= found.greatest_slope
    assert found.offset in (Fraction("-273.1"), Fraction("-273.2"), Fraction("-273.15"))
    assert found.spare == 0, "any two readings lie on some straight line"
    assert fit([shown(2982, "25.0"), shown(3331, "60.0"), shown(3732, "100.0")]).spare == 1


@pytest.mark.parametrize("scale", USUAL_SCALES, ids=lambda scale: f"{scale.value}/{scale.raw}")
def test_every_usual_scale_is_found_again(scale: UsualScale) -> None:
    slope = scale.slope
    decimals = max(0, next(places for places in count(-3) if slope >= Fraction(10) ** -places))
    found = fit([display((slope, Fraction(0)), raw, decimals) for raw in (9_111, 25_003, 31_777)])
    assert found.slope == slope
    assert found.offset == 0


def test_any_line_is_found_within_half_a_digit() -> None:
    """Whatever is found explains all readings, and the true slope is in the range that is told."""
    chance = random.Random(4)
    for _ in range(500):
        true = (
            Fraction(chance.randint(-400, 400) or 1, chance.randint(1, 4000)),
            Fraction(chance.randint(-900, 900), 10),
        )
        decimals = chance.randint(0, 3)
        points = [display(true, raw, decimals) for raw in chance.sample(range(-30_000, 30_000), chance.randint(2, 6))]
        if abs(true[0]) * (max(points).raw - min(points).raw) <= 4 * points[0].half:
            continue
        found = fit(points, through_zero=False)
        assert all(found.confirms(point) for point in points)
        assert found.least_slope <= true[0] <= found.greatest_slope
        line = found.line
        assert all(abs(line.value(raw) - value) <= half for raw, value, half in points), (
            "the file's points say the same"
        )


def test_least_squares_agree_with_numpy() -> None:
    points = [shown(1000, "12"), shown(2000, "23"), shown(3500, "37"), shown(4100, "44")]
    found = fit(points, through_zero=False)
    slope, offset = np.polyfit([float(p.raw) for p in points], [float(p.value) for p in points], 1)
    assert float(found.best_slope) == pytest.approx(slope)
    assert float(found.best_offset) == pytest.approx(offset)


@pytest.mark.parametrize(
    ("points", "words"),
    [
        ([shown(100, "10.0"), shown(200, "20.0"), shown(300, "35.0")], "mistyped"),
        ([shown(100, "10.0"), shown(100, "20.0")], "same number"),
        ([shown(100, "10.0")], "same number"),
        ([shown(0, "0"), shown(500, "0")], "too close"),
    ],
)
def test_what_is_no_line_is_refused(points: list[ScalePoint], words: str) -> None:
    with pytest.raises(NoStraightLine, match=words):
        fit(points, through_zero=False)


def test_simplest_between_has_the_smallest_denominator() -> None:
    chance = random.Random(9)
    for _ in range(500):
        one, other = sorted(Fraction(chance.randint(-500, 500), chance.randint(1, 60)) for _ in range(2))
        found = simplest_between(one, other)
        assert one <= found <= other
        under = next(d for d in count(1) if -(-one.numerator * d // one.denominator) <= other * d)
        assert found.denominator == under


def test_a_fitted_scale_is_a_value() -> None:
    assert isinstance(fit([shown(10, "1"), shown(20, "2")]), FittedScale)
    assert fit([shown(10, "1"), shown(20, "2")]) == fit([shown(10, "1"), shown(20, "2")])
