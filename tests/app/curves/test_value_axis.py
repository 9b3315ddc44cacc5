"""The bounds of a value axis."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, strategies as st

from app.curves.value_axis import FILLED, bounds

values = st.floats(-1e9, 1e9)


@given(values, values, st.floats(0, 1e6))
def test_all_values_are_in_sight_and_fill_the_axis(one: float, other: float, least: float) -> None:
    low, high = sorted((one, other))
    bottom, top = bounds(low, high, least=least)
    assert bottom < low or math.isclose(bottom, low)
    assert top > high or math.isclose(top, high)
    assert top - bottom >= least
    span = max(high - low, least, 1e-9 * max(abs(low), abs(high)), 1e-12)
    assert span >= FILLED * (top - bottom), "else the next values would move it at once"


@given(values, values)
def test_it_rests_while_values_wander_within(one: float, other: float) -> None:
    low, high = sorted((one, other))
    first = bounds(low, high)
    assert bounds(low, high, now=first) == first
    middle = (low + high) / 2
    assert bounds((low + middle) / 2, (high + middle) / 2, now=first) == first or high - low < 1e-6 * abs(middle) + 1e-9


@pytest.mark.parametrize(
    ("low", "high", "least", "expected"),
    [(0.0, 50.0, 1.0, (-5.0, 55.0)), (0.0, 0.0, 0.2, (-0.12, 0.12)), (1480.0, 1500.0, 20.0, (1478.0, 1502.0))],
)
def test_bounds_are_round(low: float, high: float, least: float, expected: tuple[float, float]) -> None:
    assert bounds(low, high, least=least) == pytest.approx(expected)


@given(values, values, st.floats(0.001, 1e6))
def test_an_axis_from_zero_holds_it_and_ends_there_where_nothing_is_beyond(
    one: float, other: float, least: float
) -> None:
    low, high = sorted((one, other))
    bottom, top = bounds(low, high, least=least, zero=True)
    assert bottom <= min(0.0, low) or math.isclose(bottom, low)
    assert top >= max(0.0, high) or math.isclose(top, high)
    if low >= 0:
        assert bottom == 0.0
        assert top > high
    elif high <= 0:
        assert top == 0.0


def test_the_current_of_a_machine_at_rest_reads_from_zero() -> None:
    assert bounds(0.0, 0.0, least=1.0, zero=True) == pytest.approx((0.0, 1.1))


def test_values_that_leave_it_and_values_that_shrink_move_it() -> None:
    assert bounds(0.0, 61.0, now=(-10.0, 60.0))[1] > 61.0
    assert bounds(10.0, 12.0, now=(-10.0, 60.0)) != (-10.0, 60.0)


@pytest.mark.parametrize("bad", [(1.0, 0.0), (math.nan, 1.0), (0.0, math.inf)])
def test_what_has_no_axis_is_refused(bad: tuple[float, float]) -> None:
    with pytest.raises(ValueError, match="no axis"):
        bounds(*bad)
