"""Counts, turnaround and share of the time in use."""

from __future__ import annotations

import pytest

from app.bus.faults import Fault, FaultKind
from app.bus.requests import read_request
from app.bus.statistics import WINDOW_S, FollowerStatistics, LineStatistics, Turnaround, turnaround_of
from app.bus.transactions import Transaction

REQUEST = read_request(3, "holding", 1, 1)


def transaction(ms: float, fault: Fault | None = None) -> Transaction:
    return Transaction(0.0, "bus", "pump", REQUEST, REQUEST.rtu, b"", ms, fault)


def test_the_turnaround_is_given_by_nearest_ranks() -> None:
    # Nearest rank: of 100 values the 95th; of 20 the 19th; of 3 the 2nd (median) and the 3rd.
    assert turnaround_of([float(n) for n in range(100, 0, -1)]) == Turnaround(50.0, 95.0, 100.0)
    assert turnaround_of([float(n) for n in range(1, 21)]) == Turnaround(10.0, 19.0, 20.0)
    assert turnaround_of([3.0, 1.0, 2.0]) == Turnaround(2.0, 3.0, 3.0)
    assert turnaround_of([7.0]) == Turnaround(7.0, 7.0, 7.0)
    assert turnaround_of([]) is None


def test_requests_and_faults_are_counted_and_characters_are_not_turnaround() -> None:
    counts = FollowerStatistics()
    assert counts.turnaround() is None
    counts.took(transaction(12.0), 10.0)
    counts.took(transaction(9.0), 10.0)
    counts.took(transaction(100.0, Fault(FaultKind.SILENCE, "nobody")), 10.0)
    counts.took(transaction(1.0, Fault(FaultKind.CLOSED, "gone")), 10.0)
    assert (counts.requests, counts.good, dict(counts.faults_now())) == (4, 2, {FaultKind.SILENCE: 1})
    assert counts.turnaround() == Turnaround(0.0, 2.0, 2.0)


def test_the_share_is_that_of_the_latest_seconds() -> None:
    line = LineStatistics()
    assert line.share(5.0) == 0.0
    line.used(100.0, 101.0)
    assert line.share(102.0) == pytest.approx(0.5)
    line.used(100.5, 101.5)  # overlapping: two requests on their way at once
    assert line.share(102.0) == pytest.approx(0.75)
    assert line.share(100.0 + WINDOW_S) == pytest.approx(1.5 / WINDOW_S)
    assert line.share(101.0 + WINDOW_S) == pytest.approx(0.5 / WINDOW_S)
    assert line.share(120.0) == 0.0
