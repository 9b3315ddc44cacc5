"""The newest values in memory: their outlines have every peak whatever the level of the pyramid, and gaps stay gaps."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st
from numpy.typing import NDArray

from app.record.series import FACTOR, LEVELS, Series

FINE: NDArray[np.float64] = np.array([number * 0.01 for number in range(10_000)])
LATER: NDArray[np.float64] = FINE + 160


def filled(
    count: int, *, keep: int = 12_000_000, pieces: int = 7, seed: int = 1
) -> tuple[Series, np.ndarray, np.ndarray]:
    rng = np.random.default_rng(seed)
    times = np.cumsum(rng.uniform(0.001, 0.01, count))
    values = rng.normal(0, 1, count)
    series = Series(keep)
    for part in np.array_split(np.arange(count), pieces):
        series.extend(times[part], values[part])
    return series, times, values


@pytest.mark.parametrize("count", [10, FACTOR, 1000, 50_000, 2_000_000])
@pytest.mark.parametrize("columns", [1, 7, 300])
def test_an_outline_holds_every_value_and_no_more_than_lies_beside(count: int, columns: int) -> None:
    series, times, values = filled(count)
    outline = series.outline(times[0], times[-1], columns)
    assert np.nanmin(outline.low) == values.min()
    assert np.nanmax(outline.high) == values.max()
    width = outline.edges[1] - outline.edges[0]
    for column in range(0, columns, max(1, columns // 20)):
        left, right = outline.edges[column], outline.edges[column + 1]
        inside = values[(times >= left) & (times < right)]
        near = values[(times >= left - width) & (times <= right + width)]
        if len(inside):
            assert near.min() <= outline.low[column] <= inside.min()
            assert inside.max() <= outline.high[column] <= near.max()


@settings(max_examples=60, deadline=None)
@given(
    sizes=st.lists(st.integers(0, 900), max_size=12),
    columns=st.integers(1, 40),
    seed=st.integers(0, 99),
)
def test_values_that_come_in_pieces_are_as_if_they_came_at_once(sizes: list[int], columns: int, seed: int) -> None:
    rng = np.random.default_rng(seed)
    total = sum(sizes)
    times: NDArray[np.float64] = np.array([number * 0.1 for number in range(total)])
    values = rng.normal(0, 1, total)
    bit_by_bit, at_once = Series(), Series()
    at_once.extend(times, values)
    begin = 0
    for size in sizes:
        bit_by_bit.extend(times[begin : begin + size], values[begin : begin + size])
        begin += size
    assert bit_by_bit.values.tolist() == values.tolist()
    one, other = (series.outline(0.0, total * 0.1 + 1, columns) for series in (bit_by_bit, at_once))
    assert np.array_equal(one.low, other.low, equal_nan=True)
    assert np.array_equal(one.high, other.high, equal_nan=True)


def test_a_gap_is_empty_columns_and_not_a_line() -> None:
    series = Series()
    series.extend(FINE, np.ones(10_000))
    series.extend(np.array([100.0]), np.array([np.nan]))
    series.extend(LATER, np.ones(10_000))
    outline = series.outline(0, 260, 260)
    assert np.isnan(outline.low[102:158]).all()
    assert (outline.low[:99] == 1).all()
    assert np.isnan(series.at(130.0))
    assert series.at(170.0) == 1.0
    assert np.isnan(series.at(-1.0))


def test_the_oldest_is_forgotten_and_the_rest_stays_right() -> None:
    keep = 3 * FACTOR**LEVELS
    series, times, values = filled(5 * keep, keep=keep, pieces=300)
    assert len(series) <= keep + FACTOR**LEVELS
    assert len(series) + series.forgotten == len(times)
    left = len(series)
    assert series.values.tolist() == values[-left:].tolist()
    outline = series.outline(series.times[0], times[-1], 50)
    assert np.nanmax(outline.high) == values[-left:].max()


def test_few_are_kept_too() -> None:
    series, times, values = filled(300_000, keep=1000, pieces=3000)
    assert 1000 <= len(series) <= 1000 + 2 * FACTOR**LEVELS
    left = len(series)
    assert series.values.tolist() == values[-left:].tolist()
    assert np.nanmax(series.outline(times[-left], times[-1], 9).high) == values[-left:].max()


def test_a_window_has_its_neighbours() -> None:
    series = Series()
    series.extend(np.arange(10.0), np.arange(10.0) * 2)
    times, values = series.window(2.5, 5.0)
    assert times.tolist() == [2, 3, 4, 5, 6]
    assert values.tolist() == [4, 6, 8, 10, 12]
    times, _ = series.window(-5, 50)
    assert len(times) == 10


def test_what_is_not_later_is_passed_over() -> None:
    series = Series()
    series.extend(np.array([1.0, 2.0]), np.array([1.0, 2.0]))
    series.extend(np.array([1.5, 2.0, 3.0]), np.array([9.0, 9.0, 3.0]))
    assert series.values.tolist() == [1.0, 2.0, 3.0]


def test_an_empty_span_is_refused() -> None:
    with pytest.raises(ValueError, match="span"):
        Series().outline(1.0, 1.0, 5)
    assert np.isnan(Series().outline(0.0, 1.0, 5).low).all()
