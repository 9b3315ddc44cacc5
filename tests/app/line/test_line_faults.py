"""What becomes of reads and writes on a disturbed line, on real sockets and ptys; tests/faults/ stages every fault."""

from __future__ import annotations

import os
import struct
import threading
from collections.abc import Callable, Iterator
from fractions import Fraction

import pytest

from app.client.faults import FaultKind
from app.line.engine import Engine, Snapshot
from app.line.write_queue import Outcome
from app.project.purpose import Purpose
from tests.builders import SERIAL, pump_project, word
from tests.staged_follower import Answer, Asked, Registers, StagedFollower
from tests.waiting import wait_for

TIMEOUT_MS = 100
KINDS = [
    "tcp",
    "serial-over-tcp",
    pytest.param("serial", marks=pytest.mark.skipif(os.name != "posix", reason="needs a pty")),
]

# Register n holds n, and two reads have the same shape: whatever is taken for another's answer shows as a wrong value.
PROJECT = pump_project(
    *(word(str(number), number, every_ms=20, write=True) for number in (10, 20, 30)),
    word("wide", 40, encoding="uint32", every_ms=20),
    line=SERIAL,
    max_registers=2,
)
VALUES = {"10": 10, "20": 20, "30": 30, "wide": 40 << 16 | 41}


class Stage:
    """A follower that is honest until a fault is put in its way."""

    def __init__(self) -> None:
        self.honest = Registers()
        self.fault: Callable[[Asked, bytes], Answer] | None = None

    def __call__(self, asked: Asked) -> Answer:
        return self.honest(asked) if self.fault is None else self.fault(asked, self.honest.pdu(asked))


class Watch:
    """Takes every snapshot it can get and remembers each reading that was shown as good with a wrong value."""

    def __init__(self, engine: Engine) -> None:
        self.wrong: list[tuple[str, object]] = []
        self._engine = engine
        self._end = threading.Event()
        self._thread = threading.Thread(target=self._watch)
        self._thread.start()

    def _watch(self) -> None:
        number = -1
        while not self._end.is_set():
            snapshot = self._engine.snapshot()
            if snapshot.number != number:
                number = snapshot.number
                for name, reading in snapshot.readings.items():
                    if reading.value is not None and reading.value != VALUES[name]:
                        self.wrong.append((name, reading.value))
            self._end.wait(0.002)

    def stop(self) -> None:
        self._end.set()
        self._thread.join()


def all_good(snapshot: Snapshot) -> bool:
    return all(snapshot.readings[name].good for name in VALUES)


@pytest.fixture(params=KINDS)
def staged(request: pytest.FixtureRequest) -> Iterator[tuple[StagedFollower, Stage, Engine, Watch]]:
    stage = Stage()
    with StagedFollower(request.param, stage, TIMEOUT_MS) as follower:
        engine = Engine(PROJECT, {"bus": follower.endpoint}, armed=["bus"])
        engine.start()
        watch = Watch(engine)
        try:
            wait_for(lambda: all_good(engine.snapshot()))
            yield follower, stage, engine, watch
        finally:
            watch.stop()
            engine.stop()
        assert watch.wrong == []


def late(seconds: float) -> Callable[[Asked, bytes], Answer]:
    return lambda asked, pdu: [seconds, asked.framed(pdu)]


@pytest.mark.parametrize("times", [1.5, 2.5, 3.5, 6.0])
def test_a_follower_that_is_always_late_never_gives_a_wrong_value(
    staged: tuple[StagedFollower, Stage, Engine, Watch], times: float
) -> None:
    follower, stage, engine, watch = staged
    stage.fault = late(times * TIMEOUT_MS / 1000)
    asked = len(follower.asked)
    wait_for(lambda: len(follower.asked) > asked + 6)
    assert watch.wrong == []
    stage.fault = None
    wait_for(lambda: all_good(engine.snapshot()))
    assert FaultKind.UNASKED not in engine.snapshot().lines["bus"].faults, "late, and not a second time"


def test_a_late_answer_is_measured(staged: tuple[StagedFollower, Stage, Engine, Watch]) -> None:
    _, stage, engine, _ = staged
    stage.fault = late(1.5 * TIMEOUT_MS / 1000)
    wait_for(lambda: engine.snapshot().followers["pump"].fault is FaultKind.LATE)
    assert "after the time-out" in engine.snapshot().followers["pump"].reason
    assert "increase the time-out" in engine.snapshot().followers["pump"].reason


def test_on_an_adapter_that_echoes_a_write_needs_a_real_acknowledgement(
    staged: tuple[StagedFollower, Stage, Engine, Watch],
) -> None:
    follower, stage, engine, _ = staged
    if follower.kind == "tcp":
        pytest.skip("only two-wire adapters echo")
    stage.fault = lambda asked, pdu: [asked.frame, asked.framed(pdu)] if asked.function == 3 else [asked.frame]
    before = len(follower.asked)
    wait_for(lambda: len(follower.asked) > before + 5)
    report = engine.write("10", Fraction(10)).result(5)
    assert not report.ok
    assert "not acknowledged" in report.reason


def test_a_write_that_the_follower_ignores_or_clamps_is_told(
    staged: tuple[StagedFollower, Stage, Engine, Watch],
) -> None:
    _, stage, engine, _ = staged
    stage.fault = lambda asked, pdu: [
        asked.framed(
            asked.pdu if asked.function == 6 else struct.pack(">BBH", 3, 2, asked.address) if asked.count == 1 else pdu
        )
    ]
    report = engine.write("10", Fraction(50)).result(5)
    assert not report.ok
    assert report.kept == 10
    assert report.reason.startswith("device 'pump' kept 10 instead of 50, unchanged")
    assert report.outcome is Outcome.IGNORED


@pytest.mark.parametrize("purpose", Purpose)
def test_of_writes_that_are_lost_once_only_those_that_stop_are_sent_again(
    staged: tuple[StagedFollower, Stage, Engine, Watch], purpose: Purpose
) -> None:
    _, stage, engine, _ = staged
    assert engine.write("10", Fraction(10)).result(5).ok  # something to release
    writes: list[Asked] = []

    def lose_the_first(asked: Asked, pdu: bytes) -> Answer:
        if asked.function == 6:
            writes.append(asked)
            if len(writes) == 1:
                return []
        return [asked.framed(pdu)]

    stage.fault = lose_the_first
    report = engine.write("10", Fraction(10), purpose).result(5)
    sent = [bytes.fromhex("06 00 0A 00 0A")]
    if purpose is Purpose.VALUE:
        assert report.outcome is Outcome.UNPROVED
        assert [asked.pdu for asked in writes] == sent
    else:
        assert report.ok
        assert [asked.pdu for asked in writes] == sent * 2


def test_a_write_that_is_never_acknowledged_is_told(staged: tuple[StagedFollower, Stage, Engine, Watch]) -> None:
    follower, stage, engine, _ = staged
    stage.fault = lambda asked, pdu: [] if asked.function == 6 else [asked.framed(pdu)]
    report = engine.write("10", Fraction(10)).result(5)
    assert not report.ok
    assert report.reason.startswith("not acknowledged, but may have been written: unit 3 did not answer")
    assert [asked.function for asked in follower.asked].count(6) == 1
    wait_for(lambda: all_good(engine.snapshot()))


def test_a_register_that_can_only_be_written(staged: tuple[StagedFollower, Stage, Engine, Watch]) -> None:
    _, stage, engine, _ = staged
    stage.fault = lambda asked, pdu: [asked.framed(b"\x83\x02" if asked.function == 3 and asked.address == 10 else pdu)]
    report = engine.write("10", Fraction(10)).result(5)
    assert report.ok
    assert report.kept is None
    assert report.reason.startswith("acknowledged, but not read back: refused: illegal data address (02)")


def test_a_late_acknowledgement_is_not_taken_for_the_next_ones(
    staged: tuple[StagedFollower, Stage, Engine, Watch],
) -> None:
    _, stage, engine, _ = staged
    stage.fault = lambda asked, pdu: [0.25 if asked.function == 6 and asked.count == 10 else 0.0, asked.framed(pdu)]
    first, second = engine.write("10", Fraction(10)), engine.write("20", Fraction(20))
    assert not first.result(5).ok
    report = second.result(5)
    assert report.ok == (report.kept == 20)
    stage.fault = None
    wait_for(lambda: all_good(engine.snapshot()))


def test_a_read_only_register_is_told(staged: tuple[StagedFollower, Stage, Engine, Watch]) -> None:
    _, stage, engine, _ = staged
    stage.fault = lambda asked, pdu: [asked.framed(b"\x86\x02" if asked.function == 6 else pdu)]
    report = engine.write("10", Fraction(50)).result(5)
    assert not report.ok
    assert "illegal data address (02)" in report.reason
    assert engine.snapshot().readings["10"].good
