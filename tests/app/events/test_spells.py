"""Troubles of lines and devices among the events: lasting ones with their true reason, short ones by their number."""

from __future__ import annotations

import re
import time
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

import pytest

from app.client.faults import FaultKind
from app.events.event_detector import EventDetector
from app.events.events import Event, EventKind
from app.events.refusals import Refusals
from app.events.spells import TOGETHER_S, TOLD_AFTER_S, Spells
from app.line.samples import Sample
from app.project.model import TcpLine
from app.session.session import Session
from app.signals.reading import Quality, Reading
from tests.builders import pump_project, word
from tests.staged_follower import Answer, Asked, Registers, StagedFollower
from tests.waiting import wait_for

TIMEOUT_MS = 150
LATE_S = 0.1
PROJECT = pump_project(
    *(word(f"{n}", n, every_ms=50) for n in range(10, 16)),
    line=TcpLine(name="bus", host="127.0.0.1", timeout_ms=TIMEOUT_MS),
)


class Device:
    """An honest device that is told to answer late, not at all, or with an exception."""

    def __init__(self) -> None:
        self.pause_s = 0.0
        self.silent = False
        self.refused: frozenset[int] = frozenset()
        self.honest = Registers()

    def __call__(self, asked: Asked) -> Answer:
        if self.silent:
            return []
        if self.refused.intersection(range(asked.address, asked.address + asked.count)):
            return [asked.framed(bytes((asked.function | 0x80, 2)))]
        return [self.pause_s, *self.honest(asked)]


class Run:
    """A session with its watch and the events so far."""

    def __init__(self, device: Device, session: Session) -> None:
        self.device, self.session = device, session
        self.watch = EventDetector(PROJECT)
        self.samples = session.engine.samples.subscribe()
        self.events: list[Event] = []

    def look(self) -> list[Event]:
        self.session.panel.tick()
        self.watch.samples(self.samples.take())
        self.watch.look(self.session.snapshot(), self.session.panel.state, ())
        self.events += self.watch.take()
        return self.events

    def until(self, kind: EventKind, name: str) -> Event:
        wait_for(lambda: any((event.kind, event.subject) == (kind, name) for event in self.look()))
        return next(event for event in self.events if (event.kind, event.subject) == (kind, name))

    def of(self, name: str) -> list[tuple[EventKind, str]]:
        return [(event.kind, event.text) for event in self.events if event.subject == name]


@pytest.fixture
def run() -> Iterator[Run]:
    device = Device()
    with StagedFollower("tcp", device, TIMEOUT_MS) as follower, Session(PROJECT, follower.endpoint) as session:
        made = Run(device, session)
        wait_for(lambda: made.look() is not None and session.snapshot().readings["15"].good)
        made.events.clear()
        yield made


def test_late_answers_are_told_as_late_from_their_beginning_on(run: Run) -> None:
    began = time.monotonic()
    run.device.pause_s = TIMEOUT_MS / 1000 + LATE_S
    fault = run.until(EventKind.LINE_FAULT, "pump")
    assert "after the time-out; increase the time-out of the line" in fault.text
    assert began < fault.at < began + 2 * TIMEOUT_MS / 1000 + LATE_S
    run.device.pause_s = 0.0
    run.until(EventKind.LINE_BACK, "pump")
    back = run.until(EventKind.LINE_BACK, "bus")
    assert back.text.startswith("answers are in time again after ")
    assert "increase the time-out" in back.text
    assert not any("did not answer" in text for _, text in run.of("pump") + run.of("bus"))


def test_opening_a_connection_afresh_is_no_fault_of_the_line(run: Run) -> None:
    state = run.session.snapshot().lines["bus"]
    for connected in (True, False, True):
        line = replace(state, connected=connected, reason="" if connected else "connecting", since=time.monotonic())
        run.watch.look(replace(run.session.snapshot(), lines={"bus": line}), run.session.panel.state, ())
    run.device.silent = True
    run.until(EventKind.LINE_FAULT, "pump")
    run.device.silent = False
    run.until(EventKind.LINE_BACK, "pump")
    assert not any("connecting" in text for _, text in run.of("bus")), run.of("bus")


def flapping(spells: Spells, until: float, now: float = 0.0) -> list[Event]:
    """The events of a device that is silent for 0.2 s every half second."""
    events: list[Event] = []
    while now < until:
        events += spells.look("pump", True, now, "", None, "back", now)
        events += spells.look("pump", False, now + 0.3, "silent", FaultKind.SILENCE, "back", now + 0.3)
        now += 0.5
    events += spells.look("pump", True, now, "", None, "back", now)
    return events


def test_short_faults_that_repeat_are_one_event_a_minute_with_their_number() -> None:
    spells = Spells()
    faults = 250
    first, *others = [*flapping(spells, faults / 2), *spells.end()]
    assert (first.at, first.kind, first.text) == (0.3, EventKind.LINE_FAULT, "fault for 0.2 s: silent")
    assert len(others) == -(-(faults / 2) // TOGETHER_S)
    counted = [re.fullmatch(r"short faults within \d+ s: (\d+), the last one: silent", each.text) for each in others]
    assert 1 + sum(int(found[1]) for found in counted if found) == faults


def test_what_waits_is_told_at_the_end() -> None:
    spells = Spells()
    flapping(spells, 5.0)
    (event,) = spells.end()
    assert event.text == "short faults within 4 s: 9, the last one: silent"
    assert list(spells.end()) == []
    assert not list(spells.look("pump", False, 6.0, "silent", FaultKind.SILENCE, "back", 6.0))
    assert [(event.at, event.text) for event in spells.end()] == [(6.0, "silent")]


def test_what_lasts_is_told_with_the_reason_that_is_known_in_the_end() -> None:
    spells = Spells()
    told: list[Event] = []
    for now, kind in ((1.0, None), (2.0, FaultKind.SILENCE), (2.5, FaultKind.LATE), (3.0, FaultKind.SILENCE)):
        told += spells.look("pump", kind is None, min(now, 2.0), str(kind), kind, "back", now)
    assert told == []
    told += spells.look("pump", False, 2.0, "silence", FaultKind.SILENCE, "back", 2.0 + TOLD_AFTER_S)
    told += spells.look("pump", True, 9.0, "", None, "back", 9.0)
    assert [(event.at, event.kind, event.text) for event in told] == [
        (2.0, EventKind.LINE_FAULT, "late"),
        (9.0, EventKind.LINE_BACK, "back"),
    ]


def test_a_device_that_never_answered_is_told() -> None:
    spells = Spells()
    spells.nothing_yet("pump")
    told = [
        *spells.look("pump", False, 2.0, "silent", FaultKind.SILENCE, "back", 2.0),
        *spells.look("pump", False, 2.0, "silent", FaultKind.SILENCE, "back", 2.0 + TOLD_AFTER_S),
    ]
    assert [(event.at, event.text) for event in told] == [(2.0, "silent")]


ILLEGAL_ADDRESS = "illegal data address (02)"
"""As the standard names it: MODBUS Application Protocol Specification V1.1b3, section 7 (from memory)."""


def test_a_device_that_refuses_everything_is_told_once_and_so_is_its_end(run: Run) -> None:
    began = time.monotonic()
    run.device.refused = frozenset(range(100))
    fault = run.until(EventKind.LINE_FAULT, "pump")
    assert began < fault.at < began + 0.5
    assert fault.text.startswith(f"6 of 6 readings are refused: {ILLEGAL_ADDRESS} at holding register 1")
    run.device.refused = frozenset()
    run.until(EventKind.LINE_BACK, "pump")
    assert run.of("pump") == [(EventKind.LINE_FAULT, fault.text), (EventKind.LINE_BACK, "no more readings are refused")]


def test_registers_that_are_refused_for_good_are_one_event_beside_which_others_are_told(run: Run) -> None:
    run.device.refused = frozenset((11, 13))
    fault = run.until(EventKind.LINE_FAULT, "pump")
    assert fault.text.startswith(f"2 of 6 readings are refused: {ILLEGAL_ADDRESS} at holding register 1")
    run.device.refused = frozenset(range(100))
    wait_for(lambda: run.look() is not None and len(run.of("pump")) > 1)
    run.device.refused = frozenset((11, 13))
    run.until(EventKind.LINE_BACK, "pump")
    assert [(kind, text.partition(":")[0]) for kind, text in run.of("pump")] == [
        (EventKind.LINE_FAULT, "2 of 6 readings are refused"),
        (EventKind.LINE_FAULT, "6 of 6 readings are refused"),
        (EventKind.LINE_BACK, "now only 2 of 6 readings are refused"),
    ]


def test_a_short_refusal_is_one_event_and_those_that_follow_are_counted() -> None:
    refusals = Refusals(PROJECT)
    good, refused = Reading(1, Fraction(1), Quality.GOOD), Reading(quality=Quality.REFUSED, reason="busy")
    told: list[Event] = []
    for number in range(5):
        for at, reading in ((number + 0.25, refused), (number + 0.5, good)):
            refusals.sample(Sample("10", at, (), reading))
            told += refusals.look(at)
    assert [(event.at, event.text) for event in told] == [(0.25, "fault for 0.2 s: 1 of 6 readings are refused: busy")]
    (counted,) = refusals.end()
    assert counted.text.startswith("short faults within 4 s: 4, the last one: 1 of 6 readings are refused")
