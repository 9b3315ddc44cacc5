"""Events made of a running session: bits, texts, entries, writes, screens, arming, lost lines and alarms."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

import pytest

import app.line.poller
from app.client.endpoint import Endpoint
from app.client.faults import FaultKind
from app.client.repeated_answers import CAREFUL_S
from app.events.alarms import AlarmBook, AlarmState
from app.events.event_detector import EventDetector
from app.events.events import Event, EventKind
from app.follower.drive_bank import DriveBank
from app.follower.simulation import Simulation
from app.line.engine import Snapshot
from app.line.states import FollowerState
from app.project.model import Project
from app.session.session import Session
from tests.waiting import wait_for


class Watched:
    """A session with its watch, stepped by hand; `seen` has all events so far."""

    def __init__(self, session: Session) -> None:
        self.session = session
        self.watch = EventDetector(session.project)
        self.samples = session.engine.samples.subscribe()
        self.seen: list[Event] = []

    def step(self) -> None:
        session = self.session
        self.watch.effects(session.panel.tick(), session.panel.at)
        self.watch.samples(self.samples.take())
        self.watch.reports(session.take_reports())
        armed = [line.name for line in session.project.lines if session.engine.is_armed(line.name)]
        self.watch.look(session.snapshot(), session.panel.state, armed)
        self.seen += self.watch.take()

    def press(self, *keys: str) -> None:
        for key in keys:
            self.watch.effects(self.session.panel.key_down(key), self.session.panel.at)
            self.watch.effects(self.session.panel.key_up(key), self.session.panel.at)

    def until(self, kind: EventKind, subject: str) -> Event:
        def found() -> Event | None:
            self.step()
            return next((event for event in self.seen if (event.kind, event.subject) == (kind, subject)), None)

        wait_for(lambda: found() is not None)
        event = found()
        assert event is not None
        return event

    def ready(self, *signals: str) -> None:
        def good() -> bool:
            self.step()
            readings = self.session.snapshot().readings
            return all(readings[name].good for name in signals)

        wait_for(good)


@pytest.fixture
def watched(pump: Project) -> Iterator[Watched]:
    with Session(pump, "simulated") as session:
        watched = Watched(session)
        watched.ready("speed set point", "command", "remote", "frequency")
        watched.seen.clear()
        yield watched


def test_an_entry_is_told_with_both_values_and_its_write_with_what_was_read_back(watched: Watched) -> None:
    watched.press("enter", "up", "enter")
    entered = watched.until(EventKind.ENTERED, "speed set point")
    assert (entered.data["old"], entered.data["new"]) == ("41.7 Hz", "41.8 Hz")
    written = watched.until(EventKind.WRITTEN, "speed set point")
    assert (written.data["wanted"], written.data["kept"]) == ("41.8 Hz", "41.8 Hz")
    assert entered.at <= written.at


def test_bits_rise_and_fall_and_screens_turn(watched: Watched) -> None:
    watched.press("right")
    assert watched.until(EventKind.SCREEN_CHANGED, watched.session.panel.state.shown).data["cause"] == "key right"
    watched.press("start")
    assert watched.until(EventKind.RISE, "running").text == "running"
    watched.press("stop")
    watched.until(EventKind.FALL, "running")


def test_a_trip_is_an_alarm_with_its_text_until_it_is_acknowledged(watched: Watched) -> None:
    simulation = watched.session.simulation
    assert simulation is not None
    drive = next(iter(simulation.models.values()))
    assert isinstance(drive, DriveBank)
    drive.inputs.external_fault = True
    alarm = watched.until(EventKind.ALARM, "fault")
    assert alarm.data["state"] == "UNACK"
    assert "external" in watched.until(EventKind.CHANGED, "fault code").data["new"]
    (index,) = watched.watch.alarms.waiting
    watched.watch.acknowledge([index])
    assert watched.watch.alarms.alarms[index].state is AlarmState.ACKNOWLEDGED
    assert watched.watch.alarms.waiting == ()


def test_a_lost_line_is_told_once_and_so_is_its_return(pump: Project) -> None:
    line = pump.lines[0].name
    with Simulation(pump) as simulation:
        host, port = simulation.serve_tcp(line, "127.0.0.1", 0, "rtu")
        end = Endpoint.serial_over_tcp(host, port, timeout_ms=100)
        with Session(pump, end) as session:
            watched = Watched(session)
            watched.ready("frequency")
            watched.seen.clear()
            follower = pump.followers[0].name
            simulation.models[follower].silent = True
            lost = watched.until(EventKind.LINE_FAULT, follower)
            assert lost.text
            session.engine.arm(line)
            watched.until(EventKind.ARMED, line)
            session.engine.arm(line, False)
            watched.until(EventKind.DISARMED, line)
            simulation.models[follower].silent = False
            watched.until(EventKind.LINE_BACK, follower)
            faults = [
                event for event in watched.seen if event.kind is EventKind.LINE_FAULT and event.subject == follower
            ]
            assert len(faults) == 1


def test_why_a_line_disarmed_itself_is_told(pump: Project, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(app.line.poller, "LOST_S", 0.3)
    own = pump.replace(followers=tuple(follower.replace(communication_timeout_ms=0) for follower in pump.followers))
    line = own.lines[0].name
    with Simulation(own) as simulation:
        host, port = simulation.serve_tcp(line, "127.0.0.1", 0)
        with Session(own, Endpoint.tcp(host, port, timeout_ms=100), armed=True) as session:
            watched = Watched(session)
            watched.ready("frequency")
            simulation.models[own.followers[0].name].silent = True
            event = watched.until(EventKind.DISARMED, line)
            assert event.text == "line 'pump room' was disarmed: device 'pump' did not answer for 0.3 s"


def test_held_values_are_told_when_they_change(watched: Watched) -> None:
    watch, session = watched.watch, watched.session
    first = dict(watch.changed_held(session.panel.state))
    assert first == {"filling ramp": Fraction(30)}
    assert watch.changed_held(session.panel.state) == []


def test_what_nobody_acknowledged_stays_after_it_is_over(pump: Project) -> None:
    book = AlarmBook(pump)
    (index,) = book.alarms
    assert [event.data["state"] for event in book.look([index], 1.0)] == ["UNACK"]
    assert book.look([index], 2.0) == []
    assert [event.data["state"] for event in book.look([], 3.0)] == ["RTNUN"]
    assert book.waiting == (index,)
    assert [event.data["state"] for event in book.look([index], 4.0)] == ["UNACK"]
    assert [event.data["state"] for event in book.acknowledge([index], 5.0)] == ["ACKED"]
    assert book.acknowledge([index], 6.0) == []
    assert [event.data["state"] for event in book.look([], 7.0)] == ["NORM"]
    assert (book.alarms[index].state, book.alarms[index].since) == (AlarmState.NORMAL, 7.0)


def test_a_remark_is_kept(pump: Project) -> None:
    watch = EventDetector(pump, clock=lambda: 5.0)
    watch.note("valve opened by hand")
    assert [(event.at, event.kind, event.text) for event in watch.take()] == [
        (5.0, EventKind.NOTE, "valve opened by hand")
    ]
    assert watch.take() == []


def test_answers_that_come_twice_are_an_event_once_in_a_while(pump: Project) -> None:
    state = Session(pump, via="simulated").panel.state
    (name,) = (follower.name for follower in pump.followers)
    now = [100.0]
    watch = EventDetector(pump, lambda: now[0])

    def look(count: int) -> list[Event]:
        follower = FollowerState(name, "", 1, answering=True, reason="twice", faults={FaultKind.UNASKED: count})
        watch.look(Snapshot(now[0], 1, {}, {name: follower}, {}), state, [])
        return watch.take()

    look(5)
    assert [(event.at, event.kind, event.subject, event.text) for event in look(6)] == [
        (100.0, EventKind.LINE_FAULT, name, "twice")
    ]
    for count in range(7, 20):
        now[0] += CAREFUL_S / 2
        assert look(count) == []
    now[0] += 2 * CAREFUL_S
    assert len(look(20)) == 1


def test_a_book_follows_what_was_recorded_of_alarms(pump: Project) -> None:
    book, told = AlarmBook(pump), AlarmBook(pump)
    (index, *_) = book.alarms
    events = [
        *book.look((index,), 1.0),
        *book.acknowledge((index,), 2.0),
        *book.look((), 3.0),
        *book.look((index,), 4.0),
    ]
    states = []
    for event in events:
        told.follow(event)
        states.append(told.alarms[index].state)
    assert states == [AlarmState.UNACKNOWLEDGED, AlarmState.ACKNOWLEDGED, AlarmState.NORMAL, AlarmState.UNACKNOWLEDGED]
    assert told.alarms == book.alarms
    for other in (
        Event(5.0, EventKind.NOTE, "", "", {"alarm": str(index), "state": "ACKED"}),
        Event(5.0, EventKind.ALARM, "", "", {"alarm": "999", "state": "ACKED"}),
        Event(5.0, EventKind.ALARM, "", "", {"alarm": str(index), "state": "no state"}),
        Event(5.0, EventKind.ALARM, "", "", {}),
    ):
        told.follow(other)
    assert told.alarms == book.alarms
