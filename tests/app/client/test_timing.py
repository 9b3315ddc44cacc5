"""Predicted times on a line."""

from __future__ import annotations

import asyncio
import time

import numpy as np
import pytest
from hypothesis import given, strategies as st

from app.client.endpoint import Endpoint
from app.client.timing import (
    PunctualSleep,
    ResponseTimes,
    character_bits,
    exact_loop,
    pace_of,
    quantile,
    silent_intervals_ms,
)


@pytest.mark.parametrize(("count", "ms"), [(1, 12.6), (10, 22.9), (50, 68.8), (125, 154.7)])
def test_a_read_at_19200_bd(count: int, ms: float) -> None:
    # Computed by hand from MODBUS over Serial Line V1.02 (from memory): 8 characters out, 5 + 2n back, two silent
    # intervals of 3.5 characters, 11 bits a character, no response time.
    assert pace_of(Endpoint.serial("x", baud=19_200)).read_ms("holding", count) == pytest.approx(ms, abs=0.05)


def test_silent_intervals() -> None:
    # MODBUS over Serial Line V1.02 (from memory): fixed above 19 200 Bd.
    assert silent_intervals_ms(115_200) == (0.750, 1.750)
    assert silent_intervals_ms(19_201) == (0.750, 1.750)
    assert silent_intervals_ms(9600) == pytest.approx((1.71875, 4.0104), abs=1e-4)


def test_characters() -> None:
    # V1.02 (from memory): 11 bits; without parity a second stop bit keeps it at 11.
    assert character_bits("even", 1) == character_bits("none", 2) == 11
    assert character_bits("none", 1) == 10


def test_bits_are_charged_by_the_byte() -> None:
    pace = pace_of(Endpoint.serial("x", baud=19_200))
    assert pace.read_ms("coil", 1) == pace.read_ms("coil", 8) < pace.read_ms("coil", 9)


def test_the_response_time_is_added() -> None:
    pace = pace_of(Endpoint.tcp("h"))
    assert pace.read_ms("input", 3, 7.5) == pytest.approx(pace.read_ms("input", 3) + 7.5)


def test_response_times_know_their_quantiles_of_the_latest() -> None:
    measured = ResponseTimes(keep=4)
    assert measured.median_ms is None
    for ms in (100.0, 1.0, 2.0, 3.0, 4.0):
        measured.add(ms)
    assert [measured.quantile(share) for share in (0.5, 0.95, 0.0)] == [2.0, 4.0, 1.0]
    assert measured.count == 5
    measured.add(-0.5)
    assert measured.quantile(0.0) == 0.0


@given(st.lists(st.floats(0, 1000), min_size=1, max_size=200), st.integers(1, 20))
def test_response_times_are_those_of_a_sorted_list(times: list[float], keep: int) -> None:
    measured = ResponseTimes(keep)
    for ms in times:
        measured.add(ms)
    latest = times[-keep:]
    assert measured.median_ms == np.quantile(latest, 0.5, method="inverted_cdf")
    assert measured.quantile(1.0) == max(latest)


@given(st.lists(st.floats(0, 1000), min_size=1, max_size=300), st.sampled_from([0.0, 0.25, 0.5, 0.9, 0.99, 1.0]))
def test_quantiles_are_those_of_numpy(times: list[float], share: float) -> None:
    # numpy's method 1 of Hyndman and Fan (1996): the nearest rank.
    assert quantile(sorted(times), share) == np.quantile(times, share, method="inverted_cdf")


def test_an_exchange_takes_its_characters_and_the_response_time() -> None:
    pace = pace_of(Endpoint.serial("x", baud=19_200))
    # 8 + 7 characters of 11 bits, by hand: 8.594 ms; t3.5 of a follower that is not known: 2.005 ms.
    assert pace.exchange_ms(8, 7, 5.0) == pytest.approx(13.594, abs=1e-3)
    assert pace.exchange_ms(8, 7) == pytest.approx(10.599, abs=1e-3)
    assert pace_of(Endpoint.tcp("h")).exchange_ms(12, 13, 0.4) == pytest.approx(0.4)


def test_a_punctual_sleep_is_never_too_short() -> None:
    async def run() -> list[float]:
        sleep, early = PunctualSleep(), []
        for milliseconds in (0.0, 0.1, 0.4, 1.75, 2.0, 5.0, 60.0):
            due = time.perf_counter() + milliseconds / 1000
            await sleep.until(due)
            early.append(due - time.perf_counter())
        await sleep.until(time.perf_counter() - 1.0)
        return early

    with asyncio.Runner(loop_factory=exact_loop) as runner:
        assert max(runner.run(run())) <= 0
