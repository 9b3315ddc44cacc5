"""What stops something is owed: sent ahead of all else and again until it is proved, whatever the line does."""

from __future__ import annotations

import os
import threading
import time
from collections.abc import Callable, Iterator
from concurrent.futures import Future
from contextlib import contextmanager
from fractions import Fraction
from pathlib import Path

import pytest

import app.line.poller
import app.line.writer
from app.client.faults import FaultKind
from app.line.engine import Engine
from app.line.states import Owed
from app.line.write_queue import Obstacle, Outcome, WriteReport
from app.project.model import Follower
from app.project.purpose import Purpose
from tests.app.line.armed_line import SIGNALS, TIMEOUT_MS, Line, running, word
from tests.builders import pump_project
from tests.staged_follower import Answer, Asked, Registers, StagedFollower
from tests.waiting import wait_for

T = TIMEOUT_MS / 1000
STOPPED, STARTED = "0500050000", "050005ff00"


def owed(line: Line) -> tuple[Owed, ...]:
    return line.engine.snapshot().lines["bus"].owed


def silent(_: Asked) -> Answer:
    return []


def silent_until_stopped(line: Line, times: int) -> Callable[[Asked], Answer]:
    """Nothing is answered until a stop of the lamp came so many times."""

    def answer(asked: Asked) -> Answer:
        return line.honest(asked) if line.written().count(STOPPED) >= times else []

    return answer


def lose_the_line(line: Line) -> None:
    line.follower.answer = silent
    wait_for(lambda: line.engine.snapshot().followers["pump"].answering is False)


@pytest.mark.parametrize("kind", ["tcp", "serial-over-tcp"])
def test_a_stop_goes_out_though_its_follower_does_not_answer(kind: str) -> None:
    with running(kind) as line:
        assert line.engine.write("lamp", 1).result(5).ok
        lose_the_line(line)
        line.follower.answer = silent_until_stopped(line, 3)
        report = line.engine.write("lamp", 0, Purpose.STOP).result(5)
        assert (report.ok, report.outcome) == (True, Outcome.KEPT)
        assert line.written()[0] == STARTED
        assert set(line.written()[1:]) == {STOPPED}
        wait_for(lambda: owed(line) == ())


def test_what_may_start_is_refused_where_a_stop_is_sent() -> None:
    with running() as line:
        lose_the_line(line)
        report = line.engine.write("lamp", 1).result(5)
        assert (report.outcome, report.obstacle) == (Outcome.NOT_SENT, Obstacle.NO_ANSWER)
        assert line.written() == []


def test_while_a_stop_is_not_proved_that_is_told_and_nothing_is_started() -> None:
    with running() as line:
        assert line.engine.write("lamp", 1).result(5).ok
        line.follower.answer = lambda asked: [] if asked.function == 5 else line.honest(asked)
        stop = line.engine.write("lamp", 0, Purpose.STOP)
        wait_for(lambda: any(each.tries >= 2 for each in owed(line)))
        (told,) = owed(line)
        assert (told.signal, told.value) == ("lamp", Fraction(0))
        assert told.until - told.since == app.line.writer.OWED_S
        assert told.reason.startswith("not acknowledged, but may have been written: unit 3 did not answer")
        # Its readings come, so it would be written to again, but for the stop.
        wait_for(lambda: line.engine.snapshot().followers["pump"].answering)
        for name in ("lamp", "speed", "bit 0"):
            report = line.engine.write(name, 1).result(5)
            assert (report.outcome, report.obstacle) == (Outcome.NOT_SENT, Obstacle.STOP_FIRST)
        assert report.reason == "a stop of device 'pump' ('lamp') is not confirmed yet"
        assert set(line.written()[1:]) == {STOPPED}
        line.follower.answer = line.honest
        assert stop.result(5).ok
        assert line.engine.write("lamp", 1).result(5).ok


def test_a_stop_is_given_up_after_its_time_and_that_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(app.line.writer, "OWED_S", 6 * T)
    with running() as line:
        line.follower.answer = lambda asked: [] if asked.function == 5 else line.honest(asked)
        began = time.monotonic()
        report = line.engine.write("lamp", 0, Purpose.STOP).result(5)
        assert time.monotonic() - began >= 6 * T
        assert (report.ok, report.outcome) == (False, Outcome.UNPROVED)
        assert "did not answer" in report.reason
        count = len(line.written())
        assert count >= 2
        asked = len(line.follower.asked)
        wait_for(lambda: len(line.follower.asked) > asked + 20)
        assert len(line.written()) == count
        wait_for(lambda: owed(line) == ())
        line.follower.answer = line.honest
        assert line.engine.write("lamp", 1).result(5).ok


@pytest.mark.parametrize("code", [1, 2, 3, 4, 5, 6, 11])
def test_a_follower_that_is_busy_or_boots_is_asked_to_stop_again(code: int) -> None:
    with running() as line:
        assert line.engine.write("lamp", 1).result(5).ok
        refusals = 2

        def answer(asked: Asked) -> Answer:
            busy = asked.function == 5 and line.written().count(STOPPED) <= refusals
            return [asked.framed(bytes((0x85, code)))] if busy else line.honest(asked)

        line.follower.answer = answer
        assert line.engine.write("lamp", 0, Purpose.STOP).result(5).ok
        assert line.written().count(STOPPED) == refusals + 1


def test_a_stop_that_is_always_refused_is_sent_seldom_and_told_why(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("app.line.writer.OWED_S", 2.0)
    with running() as line:
        line.follower.answer = lambda asked: [asked.framed(b"\x85\x02")] if asked.function == 5 else line.honest(asked)
        stop = line.engine.write("lamp", 0, Purpose.STOP)
        wait_for(lambda: owed(line) and "illegal data address (02)" in owed(line)[0].reason)
        report = stop.result(10)
        assert not report.ok
        assert "illegal data address (02)" in report.reason
        assert 3 <= line.written().count(STOPPED) <= 6  # at once again, then every half second at most


@pytest.mark.parametrize("what", ["silent", "refusing", "late"])
def test_a_stop_of_a_bit_goes_out_though_its_register_cannot_be_read_just_then(what: str) -> None:
    """The other bits stay as they were read last."""
    with running() as line:
        assert line.engine.write("bit 1", 1).result(5).ok
        started = line.honest.words[300]
        assert started & 0b10

        def answer(asked: Asked) -> Answer:
            found = line.honest(asked)  # it carries out what it is asked for, whatever it says
            if what == "refusing":
                return [asked.framed(bytes((asked.function | 0x80, 2)))] if asked.function == 3 else found
            return [] if what == "silent" else [2.5 * TIMEOUT_MS / 1000, *found]

        line.follower.answer = answer
        stop = line.engine.write("bit 1", 0, Purpose.STOP)
        wait_for(lambda: not line.honest.words[300] & 0b10)
        assert line.honest.words[300] == started & ~0b10
        line.follower.answer = line.honest
        assert stop.result(10).ok


def test_a_register_that_was_read_long_ago_is_not_written_for_a_stop(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("app.line.writer.KNOWN_FOR_S", 0.0)
    monkeypatch.setattr("app.line.writer.OWED_S", 1.0)
    with running() as line:
        line.follower.answer = lambda asked: []
        report = line.engine.write("bit 1", 0, Purpose.STOP).result(10)
        assert not report.ok
        assert line.written() == []


@pytest.mark.parametrize("kind", ["tcp", "serial-over-tcp"])
def test_a_stop_waits_for_the_connection_and_goes_ahead_of_all_reads(kind: str) -> None:
    with running(kind) as line:
        assert line.engine.write("lamp", 1).result(5).ok
        line.follower.stop()
        wait_for(lambda: not line.engine.snapshot().lines["bus"].connected)
        stop = line.engine.write("lamp", 0, Purpose.STOP)
        start = line.engine.write("lamp", 1).result(5)
        assert start.obstacle in (Obstacle.DOWN, Obstacle.STOP_FIRST)
        wait_for(lambda: owed(line))
        first = len(line.follower.asked)
        line.follower.start()
        assert stop.result(5).ok
        assert line.follower.asked[first].pdu.hex() == STOPPED
        assert set(line.written()[1:]) == {STOPPED}
        # Where the line may echo, its first acknowledgement proves nothing; on a slow computer one more may go out.
        assert len(line.written()) <= 4


def test_a_stop_of_a_line_that_was_never_open_is_sent_when_it_is() -> None:
    line = Line("tcp", SIGNALS, {})
    line.follower.start()
    endpoint = line.follower.endpoint
    line.follower.stop()
    line.engine = Engine(line.project, {"bus": endpoint}, armed=["bus"])
    line.engine.start()
    try:
        stop = line.engine.write("lamp", 0, Purpose.STOP)
        wait_for(lambda: owed(line))
        line.follower.start()
        assert stop.result(5).ok
        assert line.follower.asked[0].pdu.hex() == STOPPED
    finally:
        line.stop()


@pytest.mark.skipif(os.name != "posix", reason="needs a pty")
def test_a_stop_waits_for_a_port_that_was_unplugged(tmp_path: Path) -> None:
    line = Line("serial", SIGNALS, {})
    line.follower = StagedFollower("serial", line.honest, TIMEOUT_MS, tmp_path / "tty")
    line.start()
    try:
        assert line.engine.write("lamp", 1).result(5).ok
        line.follower.stop()
        wait_for(lambda: not line.engine.snapshot().lines["bus"].connected)
        stop = line.engine.write("lamp", 0, Purpose.STOP)
        wait_for(lambda: owed(line))
        first = len(line.follower.asked)
        line.follower.start()
        assert stop.result(5).ok
        assert line.follower.asked[first].pdu.hex() == STOPPED
    finally:
        line.stop()


class Held:
    """A follower that holds back its answer to a read until it may, so that writes pile up meanwhile."""

    def __init__(self, line: Line) -> None:
        self._caught, self._go = threading.Event(), threading.Event()
        self._line = line
        line.follower.answer = self
        assert self._caught.wait(5)

    def __call__(self, asked: Asked) -> Answer:
        if asked.function < 5 and not self._go.is_set():
            self._caught.set()
            self._go.wait(5)
        return self._line.honest(asked)

    def let_go(self) -> None:
        self._go.set()


def test_a_stop_overtakes_what_waits_and_drops_it() -> None:
    with running() as line:
        held = Held(line)
        values = [line.engine.write(name, 1) for name in ("speed", "lamp", "bit 0")]
        stop = line.engine.write("lamp", 0, Purpose.STOP)
        held.let_go()
        assert stop.result(5).ok
        for future in values:
            report = future.result(5)
            assert (report.outcome, report.obstacle) == (Outcome.NOT_SENT, Obstacle.STOP_FIRST)
        assert line.written() == [STOPPED]


def test_a_release_does_not_overtake_its_press() -> None:
    with running() as line:
        held = Held(line)
        futures = [line.engine.write("lamp", 1), line.engine.write("lamp", 0, Purpose.RELEASE)]
        held.let_go()
        assert all(future.result(5).ok for future in futures)
        assert line.written() == [STARTED, STOPPED]


def test_a_release_without_a_press_is_not_sent() -> None:
    with running() as line:
        lose_the_line(line)
        press, release = line.engine.write("lamp", 1), line.engine.write("lamp", 0, Purpose.RELEASE)
        assert press.result(5).obstacle is Obstacle.NO_ANSWER
        report = release.result(5)
        assert (report.outcome, report.obstacle, report.reason) == (
            Outcome.NOT_SENT,
            None,
            "the key press was not sent",
        )
        assert line.written() == []


def test_a_release_is_not_sent_if_its_press_was_dropped_on_the_way() -> None:
    with running() as line:
        held = Held(line)
        press, release = line.engine.write("lamp", 1), line.engine.write("lamp", 0, Purpose.RELEASE)
        stop = line.engine.write("speed", 0, Purpose.STOP)
        held.let_go()
        assert stop.result(5).ok
        assert press.result(5).obstacle is Obstacle.STOP_FIRST
        assert (release.result(5).outcome, release.result(5).reason) == (
            Outcome.NOT_SENT,
            "the key press was not sent",
        )
        assert line.written() == ["0601360000"]


def test_a_release_is_sent_though_a_stop_of_its_signal_was_refused() -> None:
    with running() as line:
        assert line.engine.write("lamp", 1).result(5).ok
        line.follower.answer = lambda asked: (
            [asked.framed(bytes((0x85, 2)))] if asked.function == 5 else line.honest(asked)
        )
        stop = line.engine.write("lamp", 0, Purpose.STOP)
        wait_for(lambda: line.written()[1:])
        line.follower.answer = line.honest
        assert line.engine.write("lamp", 0, Purpose.RELEASE).result(5).ok
        assert stop.result(5).ok
        assert line.written()[0] == STARTED
        assert set(line.written()[1:]) == {STOPPED}


@pytest.mark.parametrize("proved", [True, False])
def test_a_start_behind_a_stop_goes_out_only_if_that_is_proved_at_once(proved: bool) -> None:
    with running() as line:
        held = Held(line)
        stop = line.engine.write("lamp", 0, Purpose.STOP)
        start = line.engine.write("lamp", 1)
        if not proved:
            line.follower.answer = silent_until_stopped(line, 2)
        held.let_go()
        assert stop.result(5).ok
        report = start.result(5)
        if proved:
            assert report.ok
            assert line.written() == [STOPPED, STARTED]
        else:
            assert report.outcome is Outcome.NOT_SENT
            assert set(line.written()) == {STOPPED}


def test_a_stop_does_not_wait_for_the_read_back_of_a_start() -> None:
    with running() as line:
        stops: list[Future[WriteReport]] = []

        def answer(asked: Asked) -> Answer:
            if asked.pdu.hex() == STARTED:
                stops.append(line.engine.write("lamp", 0, Purpose.STOP))
            return line.honest(asked)

        line.follower.answer = answer
        start = line.engine.write("lamp", 1).result(5)
        assert stops[0].result(5).ok
        assert start.outcome in (Outcome.UNPROVED, Outcome.KEPT)
        sent = [asked.pdu.hex() for asked in line.follower.asked]
        assert sent.index(STOPPED) - sent.index(STARTED) in (1, 2)  # 2: the stop came as the read-back was going out


def test_a_stop_does_not_wait_until_the_register_of_a_start_stands_still() -> None:
    with running() as line:
        stops: list[Future[WriteReport]] = []

        def answer(asked: Asked) -> Answer:
            if asked.function == 3 and (asked.address, asked.count) == (300, 1):
                line.honest.words[300] += 16  # it never stands still
                if not stops:
                    stops.append(line.engine.write("lamp", 0, Purpose.STOP))
            return line.honest(asked)

        line.follower.answer = answer
        first = len(line.follower.asked)
        start = line.engine.write("bit 0", 1).result(5)
        assert (start.outcome, start.obstacle) == (Outcome.NOT_SENT, Obstacle.STOP_FIRST)
        assert stops[0].result(5).ok
        assert line.written() == [STOPPED]
        sent = [asked.pdu.hex() for asked in line.follower.asked[first:]]
        begun = sent.index("03012c0001")
        assert sent.index(STOPPED) - begun in (1, 2)  # 2: the stop came as the next read was going out


def test_the_same_stop_asked_for_again_is_one_and_both_hear_of_it() -> None:
    with running() as line:
        line.follower.answer = silent_until_stopped(line, 3)
        futures = [line.engine.write("lamp", 0, Purpose.STOP) for _ in range(5)]
        assert all(future.result(5).ok for future in futures)
        wait_for(lambda: owed(line) == ())
        assert line.written().count(STOPPED) <= 4  # one more, if the first was on its way as the others came


def test_a_stop_that_was_asked_for_anew_while_its_first_try_failed_goes_on_as_one() -> None:
    with running() as line:
        again: list[Future[WriteReport]] = []

        def answer(asked: Asked) -> Answer:
            if asked.function == 5 and not again:
                again.append(line.engine.write("lamp", 0, Purpose.STOP))
                return []
            return line.honest(asked)

        line.follower.answer = answer
        first = line.engine.write("lamp", 0, Purpose.STOP)
        assert first.result(5).ok
        assert again[0].result(5).ok
        assert line.engine.snapshot().lines["bus"].connected


@pytest.mark.parametrize("code", [2, 6])
def test_a_stop_that_was_not_acknowledged_is_not_proved_by_a_refused_read(code: int) -> None:
    with running() as line:
        assert line.engine.write("lamp", 1).result(5).ok

        def answer(asked: Asked) -> Answer:
            if line.written().count(STOPPED) > 3:
                return line.honest(asked)
            return [] if asked.function == 5 else [asked.framed(bytes((asked.function | 0x80, code)))]

        line.follower.answer = answer
        assert line.engine.write("lamp", 0, Purpose.STOP).result(5).ok
        assert not line.honest.coils[5]


def test_a_stop_whose_read_back_a_busy_follower_refuses_is_sent_again() -> None:
    with running() as line:
        assert line.engine.write("lamp", 1).result(5).ok

        def answer(asked: Asked) -> Answer:
            busy = asked.function == 1 and line.written().count(STOPPED) == 1
            return [asked.framed(bytes((0x81, 6)))] if busy else line.honest(asked)

        line.follower.answer = answer
        report = line.engine.write("lamp", 0, Purpose.STOP).result(5)
        assert (report.ok, report.kept, line.written()) == (True, Fraction(0), [STARTED, STOPPED, STOPPED])


def test_a_stop_of_a_bit_is_owed_through_lost_reads_and_lost_writes() -> None:
    with running() as line:
        assert line.engine.write("bit 0", 1).result(5).ok
        lost = {3: 2, 6: 2}

        def answer(asked: Asked) -> Answer:
            if asked.address == 300 and lost.get(asked.function):
                lost[asked.function] -= 1
                return []
            return line.honest(asked)

        line.follower.answer = answer
        assert line.engine.write("bit 0", 0, Purpose.STOP).result(5).ok
        assert line.honest.words[300] == 0b1010_0000


def test_stops_that_are_owed_end_with_the_engine() -> None:
    with running() as line:
        lose_the_line(line)
        stop = line.engine.write("lamp", 0, Purpose.STOP)
        wait_for(lambda: owed(line))
        line.engine.stop()
        assert not stop.result(5).ok


# Several stops, and others on the line ------------------------------------------------------------------------------

TWO = pump_project(
    *(word(f"pump {n}", n, table="coil") for n in (20, 40, 60)),
    word("fan", 80, table="coil", follower="fan"),
    followers=(Follower(name="pump", line="bus", unit=3), Follower(name="fan", line="bus", unit=4)),
)


@contextmanager
def two_followers() -> Iterator[tuple[Engine, StagedFollower]]:
    """Of which every coil is on."""
    honest = Registers(coils=dict.fromkeys((20, 40, 60, 80), True))
    with StagedFollower("tcp", honest, TIMEOUT_MS) as follower:
        engine = Engine(TWO, {"bus": follower.endpoint}, armed=["bus"])
        engine.start()
        try:
            wait_for(lambda: all(reading.good for reading in engine.snapshot().readings.values()))
            yield engine, follower
        finally:
            engine.stop()


def test_the_stops_of_a_dead_follower_hold_up_no_stop_of_another_one() -> None:
    with two_followers() as (engine, follower):
        honest = follower.answer
        follower.answer = lambda asked: honest(asked) if asked.unit == 4 else []
        wait_for(lambda: engine.snapshot().followers["pump"].answering is False)
        of_pump = [engine.write(f"pump {n}", 0, Purpose.STOP) for n in (20, 40, 60)]
        assert engine.write("fan", 0, Purpose.STOP).result(5).ok
        sent = [(asked.unit, asked.address) for asked in follower.asked if asked.function == 5]
        assert sent.index((4, 80)) <= 1  # one of the other's may have been on its way
        # None of the dead follower's own keeps another one back, and the other follower is read between them.
        asked = len(follower.asked)
        wait_for(
            lambda: (
                {each.address for each in follower.asked[asked:] if each.function == 5 and each.unit == 3}
                == {20, 40, 60}
            )
        )
        wait_for(lambda: sum(each.unit == 4 and each.function < 5 for each in follower.asked[asked:]) > 20)
        assert engine.snapshot().readings["fan"].good
        follower.answer = honest
        assert all(future.result(10).ok for future in of_pump)


def test_a_stop_that_is_never_acknowledged_leaves_time_for_others() -> None:
    with two_followers() as (engine, follower):
        honest = follower.answer

        def answer(asked: Asked) -> Answer:
            done = honest(asked)
            return [] if asked.function == 5 and asked.unit == 3 else done

        follower.answer = answer
        assert engine.write("pump 20", 0, Purpose.STOP).result(5).ok  # was on, and is off
        engine.write("pump 20", 0, Purpose.STOP)
        wait_for(lambda: any(each.tries >= 3 for each in engine.snapshot().lines["bus"].owed))
        asked = len(follower.asked)
        wait_for(lambda: {(3, 1), (4, 1)} <= {(each.unit, each.function) for each in follower.asked[asked:]})
        wait_for(lambda: sum(each.unit == 4 for each in follower.asked[asked:]) > 20)
        assert engine.snapshot().lines["bus"].owed
        assert engine.write("fan", 0, Purpose.STOP).result(5).ok


@pytest.mark.parametrize("name", ["lamp", "speed", "bit 0"])
def test_a_stop_that_was_acknowledged_and_changed_nothing_is_sent_once_more(name: str) -> None:
    with running(write_functions=(5, 6, 16, 22)) as line:
        assert line.engine.write(name, 1).result(5).ok
        wait_for(lambda: line.engine.snapshot().readings[name].value == 1)
        lost: list[Asked] = []

        def acknowledged_by_somebody_else(asked: Asked) -> Answer:
            if asked.function > 4 and not lost:
                lost.append(asked)
                return [asked.framed(asked.pdu)]
            return line.honest(asked)

        line.follower.answer = acknowledged_by_somebody_else
        report = line.engine.write(name, 0, Purpose.STOP).result(5)
        assert (report.ok, report.kept, len(line.written())) == (True, Fraction(0), 3)


# A line that is lost disarms itself -----------------------------------------------------------------------------------


@pytest.mark.parametrize("how", ["silent", "gone"])
@pytest.mark.parametrize("own", [True, False])
def test_a_line_that_was_lost_too_long_disarms_itself(how: str, own: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(app.line.poller, "LOST_S", 3 * T if not own else 1000.0)
    with running(communication_timeout_ms=3 * TIMEOUT_MS if own else 0) as line:
        if how == "silent":
            line.follower.answer = silent
        else:
            line.follower.stop()
        wait_for(lambda: not line.engine.snapshot().lines["bus"].armed)
        words = line.engine.snapshot().lines["bus"].disarmed
        assert words == "line 'bus' was disarmed: device 'pump' did not answer for 0.3 s"
        line.follower.answer = line.honest
        if how == "gone":
            line.follower.start()
        wait_for(lambda: all(reading.good for reading in line.engine.snapshot().readings.values()))
        report = line.engine.write("lamp", 1).result(5)
        assert report.obstacle is Obstacle.NOT_ARMED
        # What stops is sent all the same: nobody took that right away.
        assert line.engine.write("lamp", 0, Purpose.STOP).result(5).ok
        line.engine.arm("bus")
        assert line.engine.write("lamp", 1).result(5).ok
        wait_for(lambda: line.engine.snapshot().lines["bus"].disarmed == "")


def test_a_short_loss_does_not_disarm() -> None:
    with running(communication_timeout_ms=600_000) as line:
        lose_the_line(line)
        line.follower.answer = line.honest
        wait_for(lambda: line.engine.snapshot().followers["pump"].answering)
        assert line.engine.is_armed("bus")


def test_one_lost_answer_does_not_disarm_however_short_the_time_out_of_the_follower() -> None:
    with running(communication_timeout_ms=TIMEOUT_MS // 2) as line:
        lost: list[Asked] = []

        def lose_one(asked: Asked) -> Answer:
            if not lost:
                lost.append(asked)
                return []
            return line.honest(asked)

        line.follower.answer = lose_one
        wait_for(lambda: line.engine.snapshot().followers["pump"].answering is False)
        asked = len(line.follower.asked)
        wait_for(lambda: len(line.follower.asked) > asked + 20)
        assert line.engine.is_armed("bus")


def test_a_line_without_anything_real_stays_armed(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(app.line.poller, "LOST_S", T)
    line = Line("tcp", SIGNALS, {})
    line.follower.start()
    line.engine = Engine(line.project, {"bus": line.follower.endpoint}, armed=["bus"], stays_armed=True)
    line.engine.start()
    try:
        wait_for(lambda: all(reading.good for reading in line.engine.snapshot().readings.values()))
        line.follower.answer = silent
        asked = len(line.follower.asked)
        wait_for(lambda: len(line.follower.asked) > asked + 8)
        assert line.engine.is_armed("bus")
    finally:
        line.stop()


def test_who_arms_while_a_follower_is_lost_knows_it_and_stays_armed(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(app.line.poller, "LOST_S", 2 * T)
    with running() as line:
        line.follower.answer = silent
        wait_for(lambda: not line.engine.is_armed("bus"))
        line.engine.arm("bus")
        asked = len(line.follower.asked)
        wait_for(lambda: len(line.follower.asked) > asked + 8)
        assert line.engine.is_armed("bus")


@pytest.mark.parametrize("kind", ["tcp", "serial-over-tcp"])
def test_a_stop_does_not_wait_for_what_a_slow_follower_may_still_answer(kind: str) -> None:
    with running(kind) as line:
        lag: list[float] = [3 * T]

        def slow(asked: Asked) -> Answer:
            return [lag[0], *line.honest(asked)] if asked.function < 5 else line.honest(asked)

        line.follower.answer = slow
        wait_for(lambda: line.engine.snapshot().followers["pump"].fault is FaultKind.LATE)
        asked = len(line.follower.asked)
        wait_for(lambda: len(line.follower.asked) > asked + 3)
        # Known to be slow it is listened for up to ten time-outs now, and answers nothing more.
        line.follower.answer = silent_until_stopped(line, 1)
        asked = len(line.follower.asked)
        wait_for(lambda: len(line.follower.asked) > asked)
        stop = line.engine.write("lamp", 0, Purpose.STOP)
        pressed = time.monotonic()
        wait_for(lambda: line.written())
        arrived = next(each.at for each in line.follower.asked if each.function == 5)
        assert arrived - pressed < 3 * T
        assert stop.result(5).ok
