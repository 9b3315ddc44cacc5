"""Figures of a run of transactions, against runs whose figures can be told by looking at them."""

from __future__ import annotations

import pytest

from app.client.endpoint import Endpoint
from app.client.faults import Fault, FaultKind
from app.client.timing import Pace, pace_of
from app.client.transactions import Transaction
from app.diagnosis.figures import Spread, figures
from app.modbus.requests import Request, read_request, write_register

NETWORK = pace_of(Endpoint.tcp("h", 502))
FIRST, SECOND = read_request(1, "holding", 0, 1), read_request(1, "holding", 50, 1)


def done(
    at: float,
    ms: float,
    request: Request = FIRST,
    fault: Fault | None = None,
    follower: str = "fan",
    received: bytes = bytes(7),
) -> Transaction:
    return Transaction(
        at=at, line="l", follower=follower, request=request, sent=request.rtu, received=received, ms=ms, fault=fault
    )


def test_a_spread_is_middle_most_and_worst() -> None:
    assert Spread.of([float(n) for n in range(1, 101)]) == Spread(50.0, 95.0, 100.0)
    assert Spread.of([3.0]) == Spread(3.0, 3.0, 3.0)
    assert Spread.of([]) is None


def test_a_line_that_is_busy_half_of_the_time() -> None:
    run = [done(n * 0.1, 50.0) for n in range(10)]
    told = figures(run, NETWORK)
    # Ten transactions of 50 ms in the 0.95 s from the first request to the last answer.
    assert told.seconds == pytest.approx(0.95)
    assert told.used == pytest.approx(0.5 / 0.95)


def test_requests_on_their_way_together_count_once() -> None:
    run = [done(0.0, 100.0), done(0.0, 100.0), done(0.05, 100.0), done(0.3, 10.0)]
    assert figures(run, NETWORK).used == pytest.approx(0.16 / 0.31)


def test_silence_before_a_request_is_use_of_a_serial_line() -> None:
    pace = Pace(0.0, 0.0, silence_ms=10.0, character_ms=1.0)
    told = figures([done(0.010, 40.0), done(0.060, 40.0)], pace)
    assert told.used == pytest.approx(1.0)


def test_response_time_is_what_the_characters_leave() -> None:
    pace = Pace(0.0, 0.0, silence_ms=3.5, character_ms=1.0)
    # 8 characters out and 7 back take 15 ms.
    told = figures([done(0.0, 17.0), done(0.1, 19.0, follower="tank"), done(0.2, 14.0)], pace)
    assert told.response_time["fan"].worst == pytest.approx(2.0)
    assert told.response_time["tank"].median == pytest.approx(4.0)


def test_a_cycle_is_one_pass_over_all_different_reads() -> None:
    run = [done(0.0, 10.0), done(0.1, 12.0), done(0.2, 500.0), done(0.3, 30.0, SECOND)]
    run.append(done(0.4, 90.0, write_register(1, 0, 5)))
    assert figures(run, NETWORK).cycle_ms == pytest.approx(12.0 + 30.0)


def test_of_what_failed_no_response_time_is_measured() -> None:
    silent = Fault(FaultKind.SILENCE, "s")
    run = [*(done(n / 10, 90.0, fault=silent) for n in range(4)), done(0.5, 1.0)]
    told = figures(run, NETWORK)
    assert told.transactions == 5
    assert told.response_time["fan"] == Spread(1.0, 1.0, 1.0)


def test_nothing_gives_no_figures() -> None:
    told = figures([], NETWORK)
    assert (told.transactions, told.seconds, told.used, told.cycle_ms) == (0, 0.0, 0.0, 0.0)
    assert told.response_time == {}
