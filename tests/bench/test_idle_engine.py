"""What a running engine costs: 50 signals read ten times a second."""

from __future__ import annotations

import time
from collections.abc import Callable

from app.line.engine import Engine
from tests.builders import pump_project, word
from tests.staged_follower import Registers, StagedFollower
from tests.waiting import wait_for

MOST_LOAD = 0.05
"""Of one core, asked where benchmarks are measured."""

PROJECT = pump_project(*(word(f"s{number}", number, every_ms=100) for number in (*range(0, 25), *range(500, 525))))


def test_load_of_an_engine(measured: bool, record_property: Callable[[str, object], None]) -> None:
    # The follower has a thread in this process too; the time of the process is an upper bound of the engine's.
    with StagedFollower("tcp", Registers(), timeout_ms=500) as follower:
        engine = Engine(PROJECT, {"bus": follower.endpoint})
        engine.start()
        try:
            wait_for(lambda: all(reading.good for reading in engine.snapshot().readings.values()))
            count, busy, began = engine.transactions.count, time.process_time(), time.perf_counter()
            wait_for(lambda: time.perf_counter() - began > (5.0 if measured else 0.3))
            took = time.perf_counter() - began
            load, reads = (time.process_time() - busy) / took, (engine.transactions.count - count) / took
        finally:
            engine.stop()
    print(f"{reads:.0f} transactions a second, {100 * load:.1f} % of a core, follower included")
    record_property("share of a core", round(load, 3))
    if measured:
        assert 15 < reads < 25  # two reads, ten times a second
        assert load < MOST_LOAD
