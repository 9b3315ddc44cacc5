"""What a running engine costs with a hundred followers on one line, asked a thousand times a second together."""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path

import pytest

from app.client.endpoint import Endpoint
from app.line.engine import Engine
from app.project.model import Follower, Panel, Project, RegisterSignal, TcpLine
from tests.bench.fast_server import fast_server
from tests.waiting import wait_for

FOLLOWERS, SIGNALS, EVERY_MS = 100, 10, 100
MOST_LOAD = 0.5
"""Of one core, asked where benchmarks are measured."""

PROJECT = Project(
    panel=Panel(start="a"),
    lines=(TcpLine(name="hall", host="unused"),),
    followers=tuple(Follower(name=f"f{n}", line="hall", unit=n + 1) for n in range(FOLLOWERS)),
    signals=tuple(
        RegisterSignal(name=f"{n} {number}", follower=f"f{n}", number=number, every_ms=EVERY_MS)
        for n in range(FOLLOWERS)
        for number in range(SIGNALS)
    ),
)


@pytest.mark.parametrize("in_flight", [1, 4])
def test_a_thousand_reads_a_second(
    tmp_path: Path, in_flight: int, measured: bool, record_property: Callable[[str, object], None]
) -> None:
    with fast_server(tmp_path) as port:
        engine = Engine(PROJECT, {"hall": Endpoint.tcp("127.0.0.1", port, timeout_ms=500, in_flight=in_flight)})
        engine.start()
        try:
            wait_for(lambda: all(reading.good for reading in engine.snapshot().readings.values()))
            if measured:  # figures of the latest seconds have their full length
                began = time.perf_counter()
                wait_for(lambda: time.perf_counter() - began > 12.0)
            count, busy, began = engine.transactions.count, time.process_time(), time.perf_counter()
            wait_for(lambda: time.perf_counter() - began > (5.0 if measured else 0.3))
            took = time.perf_counter() - began
            load, reads = (time.process_time() - busy) / took, (engine.transactions.count - count) / took
        finally:
            engine.stop()
    assert engine.snapshot().followers["f99"].good > 0
    print(f"{in_flight} in flight: {reads:.0f} reads a second, {100 * load:.1f} % of a core")
    record_property("share of a core", round(load, 3))
    if measured:
        assert reads > 900
        assert load < MOST_LOAD
