"""The queue of writes: what replaces what, what goes out together, what keeps its order."""

from __future__ import annotations

from concurrent.futures import Future
from fractions import Fraction

import pytest

from app.line.write_queue import Obstacle, Outcome, WriteQueue, WriteReport
from app.project.binding import bind
from app.project.model import Bit, BitSignal, Follower, RegisterSignal, SerialLine
from app.project.purpose import Purpose
from tests.builders import pump_project, word

PROJECT = pump_project(
    word("speed", 310, write=True),
    word("ramp", 311, write=True),
    word("word", 300, write=True),
    word("lamp", 1, table="coil", write=True),
    RegisterSignal(name="blower", follower="fan", number=1, table="coil", write=True),
    BitSignal(name="run", bit=Bit(of="word", number=4), write=True),
    BitSignal(name="reverse", bit=Bit(of="word", number=5), write=True),
    line=SerialLine(name="bus", device="x"),
    followers=(Follower(name="pump", line="bus"), Follower(name="fan", line="bus", unit=2)),
)


class Queue:
    def __init__(self) -> None:
        self.queue = WriteQueue()

    def put(self, name: str, value: int) -> Future[WriteReport]:
        future: Future[WriteReport] = Future()
        self.queue.put(bind(PROJECT, name), Fraction(value), future)
        return future

    def taken(self) -> list[dict[str, int]]:
        jobs = []
        while (job := self.queue.take(0.0)) is not None:
            jobs.append({wanted.signal: int(wanted.value) for wanted in job.wanted})
        return jobs


def test_a_newer_set_point_replaces_the_waiting_one_and_both_callers_hear_of_it() -> None:
    queue = Queue()
    first, second, _ = queue.put("speed", 1), queue.put("speed", 2), queue.put("ramp", 5)
    job = queue.queue.take(0.0)
    assert job is not None
    job.wanted[0].report(ok=True, kept=Fraction(2))
    assert first.result(0) == second.result(0) == WriteReport("speed", Fraction(2), Fraction(2), True)
    assert queue.taken() == [{"ramp": 5}]


def test_bits_of_one_register_go_out_together() -> None:
    queue = Queue()
    queue.put("run", 1)
    queue.put("reverse", 1)
    queue.put("speed", 7)
    assert queue.taken() == [{"run": 1, "reverse": 1}, {"speed": 7}]


def test_no_write_overtakes_another() -> None:
    queue = Queue()
    queue.put("reverse", 0)
    queue.put("speed", 5)
    queue.put("run", 1)
    queue.put("speed", 7)
    assert queue.taken() == [{"reverse": 0}, {"speed": 5}, {"run": 1}, {"speed": 7}]


@pytest.mark.parametrize("name", ["run", "lamp"])
def test_a_press_and_its_release_both_go_out(name: str) -> None:
    queue = Queue()
    for value in (1, 0):
        queue.put(name, value)
    assert queue.taken() == [{name: 1}, {name: 0}]


@pytest.mark.parametrize("name", ["run", "lamp"])
def test_of_many_presses_the_queue_keeps_the_last_state(name: str) -> None:
    queue = Queue()
    for _ in range(20):
        queue.put(name, 1)
        queue.put(name, 0)
    taken = queue.taken()
    assert len(taken) == 2
    assert taken[-1] == {name: 0}


def test_a_bit_does_not_overtake_the_whole_word() -> None:
    queue = Queue()
    queue.put("run", 1)
    queue.put("word", 8)
    queue.put("reverse", 1)
    queue.put("word", 9)
    assert queue.taken() == [{"run": 1}, {"word": 8}, {"reverse": 1}, {"word": 9}]


def test_what_is_dropped_is_said() -> None:
    queue = Queue()
    futures = [queue.put("speed", 1), queue.put("run", 1)]
    futures[0].cancel()
    queue.queue.drop("the line was disarmed", Obstacle.NOT_ARMED)
    report = futures[1].result(0)
    assert not report.ok
    assert (report.reason, report.obstacle) == ("the line was disarmed", Obstacle.NOT_ARMED)
    assert len(queue.queue) == 0


# What is owed ---------------------------------------------------------------------------------------------------------


def owe(
    queue: Queue, name: str, value: int, purpose: Purpose = Purpose.STOP, until: float = 30.0
) -> Future[WriteReport]:
    future: Future[WriteReport] = Future()
    queue.queue.owe(bind(PROJECT, name), Fraction(value), future, purpose, since=0.0, until=until)
    return future


def test_a_stop_goes_first_and_drops_what_waits_for_its_follower() -> None:
    queue = Queue()
    dropped = [queue.put("speed", 5), queue.put("run", 1)]
    other = queue.put("blower", 1)
    owe(queue, "lamp", 0)
    assert queue.taken() == [{"lamp": 0}, {"blower": 1}]
    assert [future.result(0).obstacle for future in dropped] == [Obstacle.STOP_FIRST] * 2
    assert not other.done()


def test_a_release_drops_nothing_and_stays_behind_its_press() -> None:
    queue = Queue()
    queue.put("speed", 5)
    queue.put("lamp", 1)
    owe(queue, "lamp", 0, Purpose.RELEASE)
    queue.put("ramp", 3)
    assert queue.taken() == [{"lamp": 1}, {"lamp": 0}, {"speed": 5}, {"ramp": 3}]


def test_a_press_behind_a_release_that_waits_gets_a_release_of_its_own() -> None:
    queue = Queue()
    owe(queue, "lamp", 0, Purpose.RELEASE)
    queue.put("lamp", 1)
    owe(queue, "lamp", 0, Purpose.RELEASE)
    assert queue.taken() == [{"lamp": 0}, {"lamp": 1}, {"lamp": 0}]


def test_stops_of_several_signals_keep_their_order_and_the_same_one_is_asked_for_once() -> None:
    queue = Queue()
    first, _, again = owe(queue, "run", 0), owe(queue, "lamp", 0), owe(queue, "run", 0)
    job = queue.queue.take(0.0)
    assert job is not None
    job.wanted[0].report(ok=True)
    assert first.result(0).ok
    assert again.result(0).ok
    assert queue.taken() == [{"lamp": 0}]


def test_a_stop_that_is_put_back_makes_way_for_the_same_one_that_was_asked_for_meanwhile() -> None:
    queue = Queue()
    former = owe(queue, "speed", 3)
    job = queue.queue.take(0.0)
    assert job is not None
    newer = owe(queue, "speed", 0)
    queue.queue.put_back(job)
    (last,) = queue.queue.stops
    assert last.wanted[0].value == 0
    last.wanted[0].report(ok=True)
    assert former.result(0) is newer.result(0)


def test_a_stop_waits_for_its_next_try_and_others_go_on() -> None:
    queue = Queue()
    owe(queue, "lamp", 0)
    (job,) = queue.queue.stops
    job.due = 5.0
    queue.put("blower", 1)
    assert queue.taken() == [{"blower": 1}]
    assert queue.queue.take(4.9) is None
    assert queue.queue.take(5.0) is job


def test_a_stop_whose_time_is_over_is_given_up() -> None:
    queue = Queue()
    late, later = owe(queue, "lamp", 0, until=10.0), owe(queue, "run", 0, until=20.0)
    assert queue.queue.drop_late(15.0)
    assert late.result(0).outcome is Outcome.NOT_SENT
    assert not later.done()
    assert not queue.queue.drop_late(15.0)
