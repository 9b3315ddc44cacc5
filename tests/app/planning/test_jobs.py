"""Reads that are refused: the guilty are found, the rest is read together, and no split is for good."""

from __future__ import annotations

import random
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

import pytest

from app.client.endpoint import Endpoint
from app.client.timing import pace_of
from app.line.engine import Engine
from app.modbus.requests import read_request
from app.planning.jobs import AGAIN_S, LONGEST_S, REFUSALS_WITHOUT_ANSWER, Job, Jobs
from app.planning.plan import make_plan
from app.planning.schedule import Schedule
from app.project.model import Project
from tests.builders import pump_project, word
from tests.staged_follower import Answer, Asked, Registers, StagedFollower
from tests.waiting import wait_for

EVERY_MS = 500
EXCHANGE_S = 0.01


def project(numbers: range | list[int], every_ms: int = EVERY_MS, **follower: Any) -> Project:
    return pump_project(*(word(str(n), n, every_ms=every_ms) for n in numbers), **follower)


Refuses = Callable[[float, range], bool]
"""Whether a device refuses a read of these registers at this time."""


def lacking(*registers: int) -> Refuses:
    return lambda now, asked: any(register in asked for register in registers)


@dataclass
class Device:
    """A device and a line in a time of their own: whatever is asked takes EXCHANGE_S."""

    refuses: Refuses
    plan: Project
    now: float = 0.0
    asked: list[tuple[float, int, int]] = field(default_factory=list)
    """Time, address and count of every request."""
    good: dict[str, float] = field(default_factory=dict)
    """When each signal was answered last."""

    def __post_init__(self) -> None:
        self.due: Schedule[Job] = Schedule()
        followers = self.plan.follower_named
        reads = make_plan(self.plan).lines[0].reads
        pace = pace_of(Endpoint.tcp("unused"))
        self.jobs = Jobs(reads, self.job, self.due.put, followers, pace)
        for job in self.jobs:
            self.due.put(job, 0.0)

    def job(self, read: Any) -> Job:
        return Job(read, read_request(read.unit, read.table, read.address, read.count), ())

    def run(self, seconds: float) -> list[tuple[float, int, int]]:
        """Go on for so long; gives what was asked meanwhile."""
        began, end = len(self.asked), self.now + seconds
        while (due := self.due.next_due) is not None and due < end:
            self.now = max(self.now, due)
            entry = self.due.take(self.now)
            assert entry is not None
            at, job = entry
            if job.retired:
                continue
            read = job.read
            self.asked.append((self.now, read.address, read.count))
            refused = self.refuses(self.now, range(read.address, read.address + read.count))
            began_at, self.now = self.now, self.now + EXCHANGE_S
            if refused:
                self.jobs.note_refusal(job, began_at, known=any(name in self.good for name in job.signals))
            else:
                self.good.update(dict.fromkeys(job.signals, self.now))
                self.jobs.note_answer(job, began_at)
                if not job.retired:
                    self.due.put(job, max(at + job.every_s, began_at))
        self.now = max(self.now, end)
        return self.asked[began:]

    def reads(self) -> set[tuple[int, int]]:
        """What is read now, without what is only tried again."""
        return {(job.read.address, job.read.count) for job in self.jobs if job.tries is None}


@pytest.mark.parametrize("booting", [(0.0, 0.05), (0.0, 1.0), (0.0, 30.0), (7.3, 8.3), (7.3, 97.3)])
def test_a_device_that_boots_is_read_as_planned_right_after(booting: tuple[float, float]) -> None:
    device = Device(lambda now, _: booting[0] <= now < booting[1], project(range(100)))
    device.run(booting[1])
    assert len(device.run(EVERY_MS / 1000 + 0.1)) <= 4
    assert {at > booting[1] for at in device.good.values()} == {True}
    assert {(address, count) for _, address, count in device.run(10.0)} == {(0, 100)}
    assert device.reads() == {(0, 100)}


def test_while_a_device_boots_it_is_asked_little() -> None:
    device = Device(lambda now, _: now < 120.0, project(range(100)))
    asked = device.run(120.0)
    polls = 120.0 / (EVERY_MS / 1000)
    # Searches after about 0, 2, 6, 14, 31, 66 s: 16 refusals, 32, 64, and then all of it: twice a hundred.
    assert len(asked) <= polls + 17 + 33 + 65 + 3 * 200
    assert len([at for at, _, _ in asked if at > 75.0]) <= polls


@pytest.mark.parametrize("boot_ends", [0.02, 0.05, 0.11, 0.17, 0.3, 1.0, 5.0])
def test_what_a_device_truly_lacks_is_still_told_from_what_it_refuses_while_it_boots(boot_ends: float) -> None:
    def refuses(now: float, asked: range) -> bool:
        return now < boot_ends or 40 in asked

    device = Device(refuses, project(range(100)))
    device.run(boot_ends + 20.0)
    assert device.reads() == {(0, 40), (40, 1), (41, 59)}
    assert set(device.good) == {str(n) for n in range(100)} - {"40"}


def test_a_register_that_is_truly_lacking_costs_little_for_ever() -> None:
    device = Device(lacking(40), project(range(100)))
    found = device.run(2.0)
    # To find one of a hundred takes a read refused and one answered each time that it is halved.
    assert len(found) <= 2 * 7 + 1 + 2 + 2 * 4
    assert device.reads() == {(0, 40), (40, 1), (41, 59)}
    device.run(300.0)
    later = device.run(640.0)
    assert len([each for each in later if each[2] == 100]) <= 640.0 / LONGEST_S + 1
    assert len([each for each in later if each[1:] == (40, 1)]) <= 640.0 / LONGEST_S + 1
    assert {each[1:] for each in later} == {(0, 40), (40, 1), (41, 59), (0, 100)}


def test_a_register_that_comes_is_read_with_the_others_at_once() -> None:
    device = Device(lambda now, asked: now < 60.0 and 40 in asked, project(range(100)))
    device.run(60.0 + LONGEST_S)
    assert device.reads() == {(0, 100)}
    came = device.good["40"]
    assert [each[1:] for each in device.asked if came - 2 * EXCHANGE_S < each[0] < came + EXCHANGE_S][-1] == (0, 100)


def test_one_of_two_that_comes_is_joined_although_the_whole_stays_refused() -> None:
    device = Device(lambda now, asked: 70 in asked or (now < 60.0 and 40 in asked), project(range(100)))
    device.run(30.0)
    assert device.reads() == {(0, 40), (40, 1), (41, 29), (70, 1), (71, 29)}
    device.run(30.0 + LONGEST_S + 1.0)
    assert device.reads() == {(0, 70), (70, 1), (71, 29)}


def test_a_gap_that_cannot_be_read_across_is_known_and_other_gaps_are_still_read_across() -> None:
    numbers = [n for n in range(100) if n not in (10, 35, 36, 50, 51, 52, 77)]
    device = Device(lacking(50, 51, 52, 90), project(numbers))
    device.run(1.5)
    assert device.reads() == {(0, 50), (53, 37), (90, 1), (91, 9)}


def test_a_device_that_answers_fewer_registers_than_said_is_read_in_halves_for_good() -> None:
    device = Device(lambda now, asked: len(asked) > 60, project(range(100)))
    device.run(130.0)
    assert device.reads() == {(0, 50), (50, 50)}
    assert len([each for each in device.run(640.0) if each[2] == 100]) <= 640.0 / LONGEST_S + 1


def test_a_settled_device_that_boots_again_is_soon_as_it_was() -> None:
    device = Device(lambda now, asked: 100.0 <= now < 101.0 or 40 in asked, project(range(100)))
    device.run(99.0)
    before = device.reads()
    device.run(3.0)
    assert device.reads() == before
    assert min(device.good.values()) > 101.0


@pytest.mark.parametrize("seed", range(24))
def test_whatever_a_device_lacks_all_else_is_read_in_no_more_reads_than_it_takes(seed: int) -> None:
    chance = random.Random(seed)
    lacks = chance.sample(range(100), chance.choice((1, 1, 2, 3, 10, 60, 97)))
    boots = [(at := chance.uniform(0, 100), at + chance.choice((0.03, 0.2, 1.0, 9.0))) for _ in range(3)]

    def refuses(now: float, asked: range) -> bool:
        return any(begin <= now < end for begin, end in boots) or any(register in asked for register in lacks)

    device = Device(refuses, project(range(100), every_ms=chance.choice((500, 2000, 5000))))
    device.run(1000.0)
    here = set(range(100)) - set(lacks)
    fresh = device.now - 2 * device.plan.signals[0].every_ms / 1000 - 2.0  # type: ignore[union-attr]
    assert {int(name) for name, at in device.good.items() if at > fresh} == here
    runs = sum(register - 1 not in here for register in here)
    assert len(device.reads()) <= runs + len(lacks)
    later = [each[1:] for each in device.run(640.0)]
    rare = [read for read in later if not here.issuperset(range(read[0], sum(read)))]
    assert len(rare) <= (len(lacks) + 2 + runs) * (640.0 / LONGEST_S + 1)


@pytest.mark.parametrize("kind", ["tcp", "serial-over-tcp"])
def test_one_second_of_exception_02_changes_the_rate_of_requests_for_no_longer(kind: str) -> None:
    honest = Registers()
    booting: list[float] = []

    def answer(asked: Asked) -> Answer:
        if booting and time.monotonic() < booting[0] + 1.0:
            return [asked.framed(bytes((asked.function | 0x80, 2)))]
        return honest(asked)

    every_ms = 100
    with StagedFollower(kind, answer, timeout_ms=500) as device:
        engine = Engine(project(range(80), every_ms), {"bus": device.endpoint})
        engine.start()
        try:

            def in_a_second() -> int:
                began = time.monotonic()
                wait_for(lambda: time.monotonic() >= began + 1.0)
                return sum(began <= asked.at < began + 1.0 for asked in tuple(device.asked))

            wait_for(lambda: all(reading.good for reading in engine.snapshot().readings.values()))
            before = in_a_second()
            booting.append(time.monotonic())
            during = in_a_second()
            wait_for(lambda: all(reading.good for reading in engine.snapshot().readings.values()), AGAIN_S)
            after = in_a_second()
        finally:
            engine.stop()
    polls = 1000 / every_ms
    assert before <= polls + 2
    assert during <= polls + 2 * REFUSALS_WITHOUT_ANSWER
    assert after <= polls + 2
    assert {(each.address, each.count) for each in device.asked[-5:]} == {(0, 80)}
