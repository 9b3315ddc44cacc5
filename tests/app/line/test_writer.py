"""Writing over real sockets: by what the follower offers, bit by bit, and what is said of what it kept."""

from __future__ import annotations

import threading
import time
from collections.abc import Callable
from fractions import Fraction
from itertools import pairwise

import pytest

from app.line.engine import Engine
from app.line.write_queue import Obstacle, Outcome
from app.project.model import Follower, RegisterSignal
from app.project.purpose import Purpose
from app.signals.numbering import Table
from tests.app.line.armed_line import SIGNALS, TIMEOUT_MS, Line, running, word
from tests.builders import pump_project
from tests.staged_follower import Answer, Asked, Registers, StagedFollower
from tests.waiting import wait_for


@pytest.mark.parametrize("kind", ["tcp", "serial-over-tcp"])
def test_only_functions_that_the_follower_offers_are_used(kind: str) -> None:
    with running(kind, write_functions=(15, 16)) as line:
        assert line.engine.write("speed", 12).result(5).ok
        assert line.engine.write("lamp", 1).result(5).ok
        assert line.engine.write("bit 0", 1).result(5).ok
        assert line.written() == ["1001360001020078", "0f000500010101", "10012c00010200a1"]


def test_what_cannot_be_written_with_what_is_offered_is_refused_unsent() -> None:
    with running(write_functions=(6,)) as line:
        for name, words in (("total", "function 16"), ("lamp", "05 or 15")):
            report = line.engine.write(name, 1).result(5)
            assert (report.ok, report.outcome, report.obstacle) == (False, Outcome.NOT_SENT, None)
            assert words in report.reason
        assert line.written() == []


@pytest.mark.parametrize(("table", "word"), [("holding", 65_536), ("holding", -1), ("coil", 2)])
def test_a_word_that_no_register_can_hold_is_refused_and_the_line_goes_on(table: Table, word: int) -> None:
    with running() as line:
        report = line.engine.write_register("pump", table, 50, word).result(5)
        assert (report.outcome, report.obstacle) == (Outcome.NOT_SENT, None)
        assert line.engine.write("speed", 12).result(5).ok


def test_what_keeps_the_line_from_sending_is_told() -> None:
    with running() as line:
        line.follower.answer = lambda asked: []
        wait_for(lambda: line.engine.snapshot().followers["pump"].answering is False)
        report = line.engine.write("speed", 12).result(5)
        assert (report.ok, report.outcome, report.obstacle) == (False, Outcome.NOT_SENT, Obstacle.NO_ANSWER)
        line.engine.arm("bus", False)
        report = line.engine.write("speed", 12).result(5)
        assert (report.outcome, report.obstacle) == (Outcome.NOT_SENT, Obstacle.NOT_ARMED)
    report = line.engine.write("speed", 12).result(5)
    assert report.outcome is Outcome.NOT_SENT
    assert line.written() == []


@pytest.mark.parametrize("kind", ["tcp", "serial-over-tcp"])
def test_bits_are_written_by_mask_where_the_follower_offers_it(kind: str) -> None:
    with running(kind, write_functions=(6, 16, 22)) as line:
        assert line.engine.write("bit 1", 1).result(5).ok
        assert line.honest.words[300] == 0b1010_0010
        futures = [line.engine.write("bit 0", 1), line.engine.write("bit 1", 0)]
        assert all(future.result(5).ok for future in futures)
        assert line.honest.words[300] == 0b1010_0001
        # V1.1b3, section 6.16 (from memory): function, address, AND mask, OR mask.
        assert line.written()[0] == "16012cfffd0002"
        assert {pdu[:2] for pdu in line.written()} == {"16"}


def test_a_follower_that_has_no_mask_write_after_all_is_written_by_register() -> None:
    def refusing(asked: Asked) -> Answer:
        return [asked.framed(b"\x96\x01")] if asked.function == 22 else line.honest(asked)

    with running(write_functions=(6, 22)) as line:
        line.follower.answer = refusing
        for value in (1, 0):
            assert line.engine.write("bit 0", value).result(5).ok
        assert [pdu[:2] for pdu in line.written()] == ["16", "06", "06"]
        assert line.honest.words[300] == 0b1010_0000


def meddling(line: Line, when: Callable[[list[Asked]], bool], change: Callable[[], None]) -> None:
    """Once, after the honest answer to a request: somebody else changes the register."""
    seen: list[Asked] = []

    def answer(asked: Asked) -> Answer:
        parts = list(line.honest(asked))
        if asked.address == 300:
            seen.append(asked)
            if when(seen):
                change()
        return parts

    line.follower.answer = answer


def test_a_bit_that_somebody_else_sets_between_read_and_write_is_kept() -> None:
    def single_read(seen: list[Asked]) -> bool:
        return len(seen) == 1 and seen[-1].function == 3

    quiet = tuple(s.replace(every_ms=3_600_000) if isinstance(s, RegisterSignal) else s for s in SIGNALS)
    with running(signals=quiet) as line:
        meddling(line, single_read, lambda: line.honest.words.update({300: 0b1010_1000}))
        assert line.engine.write("bit 0", 1).result(5).ok
        assert line.honest.words[300] == 0b1010_1001


@pytest.mark.parametrize(("value", "left"), [(1, 0b1100_0000), (0, 0b1100_0000)])
def test_a_bit_that_somebody_else_undoes_after_the_write_is_cleared_again_but_not_set_again(
    value: int, left: int
) -> None:
    def first_write(seen: list[Asked]) -> bool:
        return seen[-1].function == 6 and sum(asked.function == 6 for asked in seen) == 1

    with running() as line:
        line.honest.words[300] = 0b1010_0000 | (1 - value)
        meddling(line, first_write, lambda: line.honest.words.update({300: 0b1100_0000 | (1 - value)}))
        report = line.engine.write("bit 0", value).result(5)
        assert report.ok is (value == 0)
        assert value == 0 or "another client wrote register 300" in report.reason
        assert line.honest.words[300] == left


def test_a_register_that_never_stands_still_is_written_and_that_is_said() -> None:
    with running() as line:
        meddling(
            line,
            lambda seen: seen[-1].function == 3,
            lambda: line.honest.words.update({300: line.honest.words[300] ^ 0x8000}),
        )
        report = line.engine.write("bit 0", 1).result(5)
        assert "register 300 keeps changing" in report.reason
        assert line.honest.words[300] & 1


def answering(line: Line, take: Callable[[int], int | None]) -> None:
    """Function 06 is acknowledged, and `take` says what is really kept; None for what was there."""

    def answer(asked: Asked) -> Answer:
        if asked.function != 6:
            return line.honest(asked)
        kept = take(asked.count)
        if kept is not None:
            line.honest.words[asked.address] = kept
        return [asked.framed(asked.pdu)]

    line.follower.answer = answer


@pytest.mark.parametrize(
    ("take", "kept", "outcome", "words"),
    [
        (lambda raw: None, 20, Outcome.IGNORED, "kept 20.0 Hz instead of 60.0 Hz, unchanged"),
        (
            lambda raw: min(raw, 500),
            50,
            Outcome.LIMITED,
            "kept 50.0 Hz instead of 60.0 Hz: the device limits this value",
        ),
        (lambda raw: 7, Fraction("0.7"), Outcome.CHANGED, "kept 0.7 Hz instead of 60.0 Hz"),
    ],
    ids=["ignored", "limited", "changed"],
)
def test_what_the_follower_made_of_a_value_is_told(
    take: Callable[[int], int | None], kept: Fraction, outcome: Outcome, words: str
) -> None:
    with running() as line:
        answering(line, take)
        report = line.engine.write("speed", 60).result(5)
        assert (report.ok, report.kept, report.outcome) == (False, kept, outcome)
        assert words in report.reason


def test_a_read_only_register_is_told_by_its_exception() -> None:
    with running() as line:
        line.follower.answer = lambda asked: [asked.framed(b"\x86\x02")] if asked.function == 6 else line.honest(asked)
        report = line.engine.write("speed", 60).result(5)
        assert (report.ok, report.outcome) == (False, Outcome.REFUSED)
        assert "illegal data address (02)" in report.reason


def test_disarming_writes_the_stops_that_are_owed_and_nothing_else() -> None:
    with running() as line:
        assert line.engine.write("lamp", 1).result(5).ok
        count = len(line.written())
        waiting = [line.engine.write("speed", 40), line.engine.write("total", 7)]
        release = line.engine.write("lamp", 0, Purpose.RELEASE)
        line.engine.arm("bus", False)
        assert not line.engine.is_armed("bus")
        assert release.result(5).ok
        assert line.honest.coils[5] is False
        outcomes = [future.result(5).outcome for future in waiting]
        assert set(outcomes) <= {
            Outcome.NOT_SENT,
            Outcome.KEPT,
            Outcome.UNPROVED,
        }  # not read back: the release went first
        for purpose in Purpose:
            report = line.engine.write("speed", 30, purpose).result(5)
            assert (report.ok, report.outcome) == (False, Outcome.NOT_SENT)
        # How many of the two were under way is a matter of the moment; what was not, is never sent.
        written = line.written()[count:]
        assert len(written) == 1 + sum(outcome is not Outcome.NOT_SENT for outcome in outcomes)
        assert written[-1] == "050005" + "0000"


def test_nothing_is_stopped_on_a_line_that_was_not_armed() -> None:
    with running() as line:
        line.engine.arm("bus", False)
        report = line.engine.write("lamp", 0, Purpose.STOP).result(5)
        assert (report.ok, report.reason) == (False, "line 'bus' is not armed")
        assert line.written() == []


def test_a_stop_that_is_too_late_after_disarming_is_given_up() -> None:
    with running() as line:
        line.follower.answer = lambda asked: []
        stop = line.engine.write("lamp", 0, Purpose.STOP)
        wait_for(lambda: any(owed.tries for owed in line.engine.snapshot().lines["bus"].owed))
        line.engine.arm("bus", False, stops_s=0.0)
        assert stop.result(5).outcome is Outcome.UNPROVED
        count = len(line.written())
        asked = len(line.follower.asked)
        wait_for(lambda: len(line.follower.asked) > asked + 5)
        assert len(line.written()) == count


@pytest.mark.parametrize("functions", [(6, 16), (6, 16, 22)])
def test_refreshed_bits_are_written_again(functions: tuple[int, ...]) -> None:
    signals = tuple(s.replace(refresh_ms=30) if s.name == "command" else s for s in SIGNALS)
    with running(signals=signals, write_functions=functions) as line:
        assert line.engine.write("bit 0", 1).result(5).ok
        assert line.engine.write("bit 1", 1).result(5).ok
        line.honest.words[300] = 0b1010_0000
        wait_for(lambda: line.honest.words[300] == 0b1010_0011)
        count = len(line.written())
        wait_for(lambda: len(line.written()) > count + 3)
        line.engine.arm("bus", False)
        wait_for(lambda: not line.engine.snapshot().lines["bus"].armed)
        line.honest.words[300] = 0
        asked = len(line.follower.asked)
        wait_for(lambda: len(line.follower.asked) > asked + 10)
        assert line.honest.words[300] in (0, 0b1010_0011, 0b11)  # one may have been on its way
        count = len(line.written())
        wait_for(lambda: len(line.follower.asked) > asked + 20)
        assert len(line.written()) == count


@pytest.mark.parametrize("kind", ["tcp", "serial-over-tcp"])
def test_outputs_are_written_again_on_time_beside_a_dead_follower(kind: str) -> None:
    """Refreshing every 50 ms beside a follower whose silence costs 100 ms a time-out."""
    every = 0.05
    honest = Registers()
    staged = StagedFollower(kind, honest, TIMEOUT_MS)
    project = pump_project(
        word("alive", 50, refresh_ms=int(1000 * every)),
        RegisterSignal(name="gone", follower="dead", number=1, every_ms=20),
        followers=(Follower(name="pump", line="bus", unit=3), Follower(name="dead", line="bus", unit=9)),
    )
    times: list[float] = []

    def answer(asked: Asked) -> Answer:
        if asked.function == 6:
            times.append(time.monotonic())
        return [] if asked.unit == 9 else honest(asked)

    staged.answer = answer
    with staged:
        engine = Engine(project, {"bus": staged.endpoint}, armed=["bus"])
        engine.start()
        try:
            wait_for(lambda: engine.snapshot().followers["dead"].answering is False)
            wait_for(lambda: engine.snapshot().readings["alive"].good)
            assert engine.write("alive", 9).result(5).ok
            failed = engine.snapshot().followers["dead"].requests
            wait_for(lambda: engine.snapshot().followers["dead"].requests >= failed + 6)
            count = len(times)
            wait_for(lambda: len(times) > count + 20)
        finally:
            engine.stop()
    late = [b - a for a, b in pairwise(times) if b - a > every + 0.8 * TIMEOUT_MS / 1000]
    assert not late, late


def test_writes_to_different_registers_keep_their_order() -> None:
    with running() as line:
        held = threading.Event()
        caught = threading.Event()

        def wait_first(asked: Asked) -> Answer:
            if asked.function > 4:
                return line.honest(asked)
            caught.set()
            held.wait(5)
            return line.honest(asked)

        line.follower.answer = wait_first
        caught.wait(5)
        futures = [line.engine.write(name, value) for name, value in (("bit 1", 0), ("speed", 5), ("bit 0", 1))]
        held.set()
        assert all(future.result(5).ok for future in futures)
        assert [pdu[2:6] for pdu in line.written()] == ["012c", "0136", "012c"]


@pytest.mark.parametrize("functions", [(6, 16), (6, 16, 22)])
def test_a_switched_off_bit_is_not_refreshed_on_again_though_its_read_back_was_lost(functions: tuple[int, ...]) -> None:
    signals = tuple(s.replace(refresh_ms=150) if s.name == "command" else s for s in SIGNALS)
    with running(signals=signals, write_functions=functions) as line:
        assert line.engine.write("bit 0", 1).result(5).ok
        lose = [False]

        def lossy(asked: Asked) -> Answer:
            answer = line.honest(asked)
            if asked.function > 4 and not line.honest.words[300] & 1:
                lose[0] = True
                return answer
            if lose[0] and asked.function == 3 and asked.address == 300:
                lose[0] = False
                return []
            return answer

        line.follower.answer = lossy
        report = line.engine.write("bit 0", 0).result(5)
        assert not report.ok
        count = len(line.follower.asked)
        wait_for(lambda: len(line.follower.asked) > count + 40)
        assert line.honest.words[300] & 1 == 0
