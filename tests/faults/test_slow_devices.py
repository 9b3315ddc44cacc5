"""A device that does one thing after the other, and is slower than the time-out."""

from __future__ import annotations

import json
import os

import pytest

from app.client.faults import FaultKind
from app.line.engine import Engine
from tests.builders import SERIAL, pump_project, word
from tests.faults.repeats import device
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
    process, endpoint = device(kind, TIMEOUT_MS, "--in-turn", f"--takes={TAKES_MS}", "--share=0")
    try:
        engine = Engine(PROJECT, {"bus": endpoint})
        engine.start()
        wait_for(lambda: engine.snapshot().lines["bus"].faults.get(FaultKind.LATE, 0) >= 6)
        reason = engine.snapshot().followers["pump"].reason
        engine.stop()
        told, _ = process.communicate("", timeout=10)
    finally:
        process.kill()
        process.wait()
    _, transactions = engine.transactions.since(0)
    late = [done.fault.late_ms for done in transactions if done.fault and done.fault.kind is FaultKind.LATE]
    assert late
    truth = TAKES_MS - TIMEOUT_MS
    assert [ms for ms in late if abs(ms - truth) > truth / 10] == []
    assert "after the time-out" in reason
    owed = [entry[-1] for entry in map(json.loads, told.splitlines())]
    assert sum(owed) <= 1, "only before its first late answer it may be held for dead"
    assert owed[-4:] == [0, 0, 0, 0]
