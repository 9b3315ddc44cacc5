"""A device that does one thing after the other, and is slower than the time-out."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from app.client.endpoint import Endpoint
from app.client.faults import FaultKind
from app.line.engine import Engine
from tests.builders import SERIAL, pump_project, word
from tests.waiting import wait_for

TIMEOUT_MS = 300
TAKES_MS = 500
PROJECT = pump_project(*(word(f"{n}", n, every_ms=100) for n in (10, 300, 600)), line=SERIAL)


@pytest.mark.parametrize(
    "kind",
    [
        "tcp",
        "serial-over-tcp",
        pytest.param("serial", marks=pytest.mark.skipif(os.name != "posix", reason="needs a pty")),
    ],
)
def test_how_late_it_is_is_said_right_and_nothing_is_asked_while_it_owes_an_answer(kind: str) -> None:
    device = subprocess.Popen(
        [sys.executable, "-m", "tests.faults.slow_device", f"--kind={kind}", f"--takes={TAKES_MS}"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        cwd=Path(__file__).parents[2],
    )
    try:
        assert device.stdout is not None
        where = device.stdout.readline().strip()
        if kind == "serial":
            endpoint = Endpoint.serial(where, timeout_ms=TIMEOUT_MS)
        elif kind == "tcp":
            endpoint = Endpoint.tcp("127.0.0.1", int(where), timeout_ms=TIMEOUT_MS)
        else:
            endpoint = Endpoint.serial_over_tcp("127.0.0.1", int(where), timeout_ms=TIMEOUT_MS)
        engine = Engine(PROJECT, {"bus": endpoint})
        engine.start()
        wait_for(lambda: engine.snapshot().lines["bus"].faults.get(FaultKind.LATE, 0) >= 6)
        reason = engine.snapshot().followers["pump"].reason
        engine.stop()
        told, _ = device.communicate("", timeout=10)
    finally:
        device.kill()
        device.wait()
    _, transactions = engine.transactions.since(0)
    late = [done.fault.late_ms for done in transactions if done.fault and done.fault.kind is FaultKind.LATE]
    assert late
    truth = TAKES_MS - TIMEOUT_MS
    assert [ms for ms in late if abs(ms - truth) > truth / 10] == []
    assert "after the time-out" in reason
    owed = [entry[2] for entry in map(json.loads, told.splitlines())]
    assert sum(owed) <= 1, "only before its first late answer it may be held for dead"
    assert owed[-4:] == [0, 0, 0, 0]
