"""Marks of time at round civil times."""

from __future__ import annotations

import datetime

import pytest
from hypothesis import given, strategies as st

from app.curves.time_axis import DAY, STEPS, time_marks

END = datetime.datetime(2030, 1, 2, 3, 4, 5, 600_000, tzinfo=datetime.UTC)


@pytest.mark.parametrize(
    ("span", "most", "expected"),
    [
        (10.0, 5, ["03:03:56", "03:03:58", "03:04:00", "03:04:02", "03:04:04"]),
        (60.0, 3, ["03:03:30", "03:04:00"]),
        (1.0, 3, ["03:04:05.0", "03:04:05.5"]),
        (0.02, 2, ["03:04:05.58", "03:04:05.59", "03:04:05.60"]),
        (900.0, 3, ["02:50", "02:55", "03:00"]),
        (24 * 3600.0, 4, ["06:00", "12:00", "18:00", "00:00"]),
    ],
)
def test_marks_are_round_and_as_fine_as_their_words(span: float, most: int, expected: list[str]) -> None:
    assert [mark.text for mark in time_marks(100.0 - span, 100.0, END, most)] == expected


@given(st.floats(0.1, 1e7), st.integers(1, 30))
def test_they_lie_within_where_their_time_is_and_no_closer_than_asked(span: float, most: int) -> None:
    marks = list(time_marks(5000.0, 5000.0 + span, END, most))
    assert len(marks) <= most + 1
    for mark in marks:
        assert 5000.0 - 0.01 <= mark.at <= 5000.0 + span + 0.01
        assert (END - mark.civil).total_seconds() == pytest.approx(5000.0 + span - mark.at, abs=0.001)
        assert mark.step in STEPS or mark.step % DAY == 0
        assert mark.step >= span / most


def test_nothing_has_no_marks() -> None:
    assert list(time_marks(5.0, 5.0, END, 4)) == []
