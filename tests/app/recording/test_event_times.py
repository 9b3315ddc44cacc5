"""An event bears the time at which it happened, once, everywhere: against a device that writes down its own times."""

from __future__ import annotations

import csv
import io
import time
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import pytest

from app.client.endpoint import Endpoint
from app.events.event_detector import EventDetector
from app.events.events import Event, EventKind
from app.events.spells import TOLD_AFTER_S
from app.line.samples import SampleBus
from app.panel.machine import Write
from app.project_file.files import parse
from app.recording.clock import CivilClock
from app.recording.export import write_events
from app.recording.reader import Recording
from app.recording.recorder import Recorder
from app.session.session import Session
from tests.counting_device import PROJECT_TEXT, CountingDevice
from tests.waiting import wait_for

PROJECT = parse(PROJECT_TEXT)
NEAR_S = 0.15
"""How far two witnesses on a busy computer may be apart; what is looked at late here is looked at far later."""
TIMEOUT_MS = 200


@pytest.fixture
def device() -> Iterator[CountingDevice]:
    with CountingDevice() as made:
        yield made


@pytest.fixture
def session(device: CountingDevice) -> Iterator[Session]:
    with Session(PROJECT, Endpoint.tcp("127.0.0.1", device.port, timeout_ms=TIMEOUT_MS), armed=True) as made:
        yield made


def answers(device: CountingDevice, more: int) -> None:
    """Wait for so many more answers: some 20 ms each."""
    goal = len(device.answered) + more
    wait_for(lambda: len(device.answered) >= goal)


def test_what_is_looked_at_late_happened_when_it_happened(device: CountingDevice, session: Session) -> None:
    watch = EventDetector(PROJECT)
    samples = session.engine.samples.subscribe()

    def look() -> list[Event]:
        watch.effects(session.panel.tick())
        watch.samples(samples.take())
        watch.reports(session.take_reports())
        watch.look(session.snapshot(), session.panel.state, ())
        return watch.take()

    wait_for(lambda: session.snapshot().readings["set point"].good)
    answers(device, 5)
    look()
    report = session.engine.write("set point", 20)
    session._waiting.append((Write("set point", Fraction(20)), report))
    wait_for(lambda: device.taken)
    answers(device, 3)
    device.silent = True
    wait_for(lambda: session.snapshot().followers["counter"].answering is False)
    silent_at = device.answered[-1][0]
    wait_for(lambda: time.monotonic() > silent_at + TOLD_AFTER_S + NEAR_S + TIMEOUT_MS / 1000)
    events = look()
    assert [event.at for event in events] == sorted(event.at for event in events)
    times = {event.kind: event.at for event in events}
    written = device.taken[0][0]
    assert written <= times[EventKind.WRITTEN] < written + NEAR_S
    assert written <= times[EventKind.RISE] < written + NEAR_S
    assert silent_at < times[EventKind.LINE_FAULT] < silent_at + TIMEOUT_MS / 1000 + NEAR_S


@pytest.mark.parametrize("set_back", [False, True])
def test_an_event_has_one_time_live_recorded_and_exported(tmp_path: Path, set_back: bool) -> None:
    """Also where the civil clock is set while the recording is made, and where making the file takes its time."""
    ahead = [1.8e9 + 0.123_456_7]
    clock = CivilClock(civil=lambda: time.monotonic() + ahead[0])
    happened = [Event(clock.now(), EventKind.NOTE, "", "before")]
    recorder = Recorder(tmp_path / "a.fanrec", PROJECT, SampleBus(), clock=clock)
    for number in range(200):
        happened.append(Event(clock.now(), EventKind.NOTE, "", str(number)))
        if number == 100 and set_back:
            ahead[0] -= 3600
            clock.look()
    for event in happened:
        recorder.event(event)
    recorder.stop()
    live = {event.text: clock.at(event.at) for event in happened}
    if set_back:
        assert 3599 < (live["100"] - live["101"]).total_seconds() < 3601
    with Recording.open(tmp_path / "a.fanrec") as recording:
        begin, end = recording.span()
        recorded = {event.text: recording.civil(event.at) for event in recording.events(begin, end)}
        out = io.StringIO()
        write_events(recording, out, begin, end)
    assert {text: recorded[text] for text in live} == live
    exported = {row["text"]: row["time"] for row in csv.DictReader(io.StringIO(out.getvalue()))}
    assert {text: exported[text] for text in live} == {
        text: civil.isoformat(timespec="milliseconds") for text, civil in live.items()
    }
