"""A line that is out for seconds leaves a trace, however its path died."""

from __future__ import annotations

import os
import time
from pathlib import Path

import pytest

from app.client.faults import FaultKind
from app.events.event_detector import EventDetector
from app.events.events import Event, EventKind
from app.line.engine import Engine
from app.project.model import SerialLine
from app.session.session import Session
from tests.builders import pump_project, word
from tests.staged_follower import Answer, Asked, Registers, StagedFollower
from tests.waiting import wait_for

OUT_S = 1.6
PROJECT = pump_project(
    word("10", 10, every_ms=20),
    line=SerialLine(name="bus", device="unused", timeout_ms=100),
)


class Cable:
    """An honest follower on a path that can be cut: then nothing comes back."""

    def __init__(self) -> None:
        self.cut = False
        self.honest = Registers()

    def __call__(self, asked: Asked) -> Answer:
        return [] if self.cut else self.honest(asked)


@pytest.mark.parametrize("way", ["cut", "closed"])
@pytest.mark.parametrize(
    "kind",
    [
        "tcp",
        "serial-over-tcp",
        pytest.param("serial", marks=pytest.mark.skipif(os.name != "posix", reason="needs a pty")),
    ],
)
def test_an_outage_is_counted_with_its_time_and_its_reason(kind: str, way: str, tmp_path: Path) -> None:
    path = Cable()
    link = tmp_path / "port" if kind == "serial" else None
    with StagedFollower(kind, path, 100, link) as follower:
        engine = Engine(PROJECT, {"bus": follower.endpoint})
        engine.start()
        try:
            wait_for(lambda: engine.snapshot().readings["10"].good)
            watch = EventDetector(PROJECT)
            session = Session(PROJECT, via="simulated")
            watch.look(engine.snapshot(), session.panel.state, [])
            began = time.monotonic()
            if way == "cut":
                path.cut = True
            else:
                follower.stop()
            wait_for(lambda: time.monotonic() > began + OUT_S)
            mended = time.monotonic()
            if way == "cut":
                path.cut = False
            else:
                follower.start()
            wait_for(lambda: engine.snapshot().lines["bus"].outages.count)
            back = time.monotonic()
            snapshot = engine.snapshot()
        finally:
            engine.stop()
    outages = snapshot.lines["bus"].outages
    assert outages.count == 1
    last = outages.last
    assert last is not None
    assert began - 0.1 <= last.since <= began + 0.25
    assert mended <= last.until <= back
    assert outages.seconds == last.seconds
    assert last.reason
    if way == "cut":
        assert snapshot.lines["bus"].faults[FaultKind.SILENCE]
    watch.look(snapshot, session.panel.state, [])
    events = [event for event in watch.take() if event.kind is EventKind.LINE_BACK and event.subject == "bus"]
    assert [event for event in events if _tells(event, last.seconds) and event.at == last.until]
    watch.look(snapshot, session.panel.state, [])
    assert watch.take() == []


def _tells(event: Event, seconds: float) -> bool:
    return f"after {seconds:.1f} s without any" in event.text
