"""The engine over real sockets: threads, states, arming, writing, reconnecting, stopping."""

from __future__ import annotations

import logging
import os
import socket
import threading
import time
from collections.abc import Callable, Iterator
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise
from typing import Any

import pytest

from app.client.endpoint import Endpoint
from app.client.faults import FaultKind
from app.line.engine import Engine
from app.line.followers import DEAD_SHARE
from app.planning.schedule import FRESH_S
from app.project.model import (
    Bit,
    BitSignal,
    Follower,
    HeldSignal,
    Panel,
    Project,
    Scale,
    SerialLine,
    Signal,
)
from app.signals.reading import NEVER_READ, Quality
from tests.app.line.armed_line import word
from tests.builders import pump_project
from tests.staged_follower import Answer, Asked, Registers, StagedFollower
from tests.waiting import wait_for

TIMEOUT_MS = 100


def project(*signals: Signal, followers: tuple[Follower, ...] | None = None) -> Project:
    return pump_project(
        *signals,
        line=SerialLine(name="pumproom", device="unused"),
        followers=followers or (Follower(name="pump", line="pumproom", unit=3),),
    )


SPEED = word(
    "speed",
    310,
    scale=Scale(raw=(Decimal(0), Decimal(10_000)), value=(Decimal(0), Decimal(50))),
    decimals=1,
    unit="Hz",
    limits=(0, 50),
)
COMMAND = word("command", 300)
BITS = tuple(
    BitSignal(name=name, bit=Bit(of="command", number=number), write=True)
    for number, name in enumerate(("run", "reverse", "reset"))
)
PROJECT = project(
    SPEED,
    COMMAND,
    *BITS,
    word("total", 406, encoding="uint32"),
    word("lamp", 5, table="coil"),
    word("status", 400, table="input", write=False),
    HeldSignal(name="preset", held=Decimal(5)),
)


class Running:
    def __init__(self, project: Project, follower: StagedFollower, honest: Registers, *, armed: bool) -> None:
        self.follower = follower
        self.honest = honest
        self.engine = Engine(project, {"pumproom": follower.endpoint}, armed=["pumproom"] if armed else [])
        self.engine.start()

    def value(self, name: str) -> object:
        reading = self.engine.snapshot().readings[name]
        return reading.value if reading.good else None

    def refused(self) -> tuple[str, ...]:
        readings = self.engine.snapshot().readings
        return tuple(name for name, reading in readings.items() if reading.quality is Quality.REFUSED)

    def written(self) -> list[Asked]:
        return [asked for asked in self.follower.asked if asked.function > 4]


@pytest.fixture
def honest() -> Registers:
    return Registers({310: 5000, 300: 0b1100_0000, 406: 1, 407: 2, 400: 7})


@pytest.fixture(params=["tcp", "serial-over-tcp"])
def follower(request: pytest.FixtureRequest, honest: Registers) -> Iterator[StagedFollower]:
    with StagedFollower(request.param, honest, TIMEOUT_MS) as staged:
        yield staged


@pytest.fixture
def running(follower: StagedFollower, honest: Registers) -> Iterator[Running]:
    running = Running(PROJECT, follower, honest, armed=True)
    try:
        wait_for(lambda: running.value("speed") is not None)
        yield running
    finally:
        running.engine.stop()


def test_readings_are_decoded_scaled_and_carry_their_bits(running: Running) -> None:
    wait_for(lambda: running.value("lamp") is not None and running.value("status") is not None)
    assert running.value("speed") == 25
    assert running.value("total") == 65_538
    assert (running.value("run"), running.value("lamp"), running.value("status")) == (0, 0, 7)
    assert "preset" not in running.engine.snapshot().readings
    running.honest.words[310] = 8330
    wait_for(lambda: running.value("speed") == Fraction("41.65"))
    state = running.engine.snapshot().followers["pump"]
    assert state.answering
    assert state.unit == 3
    assert state.answer_ms is not None


def test_before_it_starts_nothing_is_read() -> None:
    engine = Engine(PROJECT, {"pumproom": Endpoint.tcp("127.0.0.1", 1)})
    snapshot = engine.snapshot()
    assert all(reading is NEVER_READ for reading in snapshot.readings.values())
    assert snapshot.followers["pump"].answering is None
    assert not snapshot.lines["pumproom"].connected
    engine.stop()


def test_one_register_is_written_with_function_06_and_read_back(running: Running) -> None:
    report = running.engine.write("speed", Fraction("41.65")).result(5)
    assert report.ok
    assert report.kept == Fraction("41.65")
    assert [asked.pdu.hex() for asked in running.written()] == ["060136208a"]
    assert running.value("speed") == Fraction("41.65") or running.engine.snapshot().readings["speed"].raw == 5000
    wait_for(lambda: running.value("speed") == Fraction("41.65"))


def test_several_registers_are_written_together_with_function_16(running: Running) -> None:
    assert running.engine.write("total", Fraction(0x0001_0203)).result(5).ok
    assert [asked.pdu.hex() for asked in running.written()] == ["10019600020400010203"]


def test_a_coil_is_written_with_function_05(running: Running) -> None:
    assert running.engine.write("lamp", 1).result(5).ok
    assert [asked.pdu.hex() for asked in running.written()] == ["050005ff00"]
    wait_for(lambda: running.value("lamp") == 1)


def test_a_bit_keeps_the_other_bits_of_its_word(running: Running) -> None:
    futures = [running.engine.write("run", 1), running.engine.write("reset", 1)]
    assert all(future.result(5).ok for future in futures)
    assert running.honest.words[300] == 0b1100_0101
    assert running.engine.write("run", 0).result(5).ok
    assert running.honest.words[300] == 0b1100_0100
    wait_for(lambda: (running.value("run"), running.value("reset")) == (0, 1))


def test_a_value_outside_the_limits_is_refused_and_nothing_is_sent(running: Running) -> None:
    report = running.engine.write("speed", Fraction("50.1")).result(5)
    assert not report.ok
    assert "above the limit" in report.reason
    assert running.written() == []


@pytest.mark.parametrize(
    ("name", "words"), [("status", "'write' is not set"), ("nothing", "no signal 'nothing'"), ("preset", "held value")]
)
def test_what_cannot_be_written_is_refused(running: Running, name: str, words: str) -> None:
    report = running.engine.write(name, 1).result(5)
    assert not report.ok
    assert words in report.reason
    assert running.written() == []


def test_an_unarmed_line_writes_nothing(running: Running) -> None:
    running.engine.arm("pumproom", False)
    assert not running.engine.is_armed("pumproom")
    report = running.engine.write("speed", 10).result(5)
    assert (report.ok, report.reason) == (False, "line 'pumproom' is not armed")
    wait_for(lambda: not running.engine.snapshot().lines["pumproom"].armed)
    running.engine.arm("pumproom", True)
    assert running.engine.write("speed", 10).result(5).ok
    assert len(running.written()) == 1


def test_disarming_drops_what_waits_and_says_so(running: Running) -> None:
    gate = threading.Event()

    def slow(asked: Asked) -> list[bytes | float | object]:
        gate.wait(0.5 * TIMEOUT_MS / 1000)
        return list(running.honest(asked))

    running.follower.answer = slow
    futures = [running.engine.write("speed", 10), running.engine.write("total", 10), running.engine.write("lamp", 1)]
    running.engine.arm("pumproom", False)
    gate.set()
    reports = [future.result(5) for future in futures]
    assert [report.ok for report in reports[1:]] == [False, False]
    assert all("armed" in report.reason for report in reports[1:])
    assert all(asked.function not in (5, 16) for asked in running.written())


def test_stopping_drops_what_waits_and_leaves_no_thread(running: Running) -> None:
    running.follower.answer = lambda _: []
    futures = [running.engine.write(name, 1) for name in ("speed", "total", "lamp")]
    running.engine.stop()
    for future in futures:
        report = future.result(0)
        assert not report.ok
        assert report.reason
    assert not any(thread.name.startswith("fanlight") for thread in threading.enumerate())
    snapshot = running.engine.snapshot()
    assert snapshot.readings["speed"].quality is Quality.STALE
    assert not snapshot.lines["pumproom"].connected
    report = running.engine.write("speed", 1).result(0)
    assert (report.ok, report.reason) == (False, "line 'pumproom' is stopped")
    running.engine.stop()
    with pytest.raises(RuntimeError):
        running.engine.start()


def test_flush_waits_for_what_was_written(running: Running) -> None:
    futures = [running.engine.write("run", 1), running.engine.write("run", 0)]
    assert running.engine.flush(5)
    assert all(future.done() for future in futures)
    assert [asked.pdu.hex() for asked in running.written()] == ["06012c00c1", "06012c00c0"]


def test_snapshots_are_immutable_and_number_upwards(running: Running) -> None:
    first = running.engine.snapshot()
    with pytest.raises(TypeError):
        first.readings["speed"] = NEVER_READ  # type: ignore[index]
    wait_for(lambda: running.engine.snapshot().number > first.number)
    assert first.readings["speed"].value == 25


def test_a_follower_killed_in_mid_poll_and_started_again_is_survived(running: Running) -> None:
    running.follower.stop()
    wait_for(lambda: running.engine.snapshot().followers["pump"].answering is False)
    wait_for(lambda: running.engine.snapshot().lines["pumproom"].faults.get(FaultKind.REFUSED_CONNECTION, 0) >= 1)
    snapshot = running.engine.snapshot()
    assert snapshot.readings["speed"].quality is Quality.STALE
    assert snapshot.readings["speed"].value == 25
    assert "connection to port" in snapshot.readings["run"].reason
    report = running.engine.write("speed", 10).result(5)
    assert not report.ok
    assert "is down" in report.reason
    running.follower.start()
    wait_for(lambda: running.value("speed") == 25)
    assert running.written() == []


def test_a_closed_connection_is_noticed_at_once(honest: Registers) -> None:
    with StagedFollower("tcp", honest, timeout_ms=30_000) as follower:
        running = Running(PROJECT, follower, honest, armed=False)
        try:
            wait_for(lambda: running.value("speed") is not None)
            waiting = threading.Event()

            def keep_waiting(_: Asked) -> list[bytes | float | object]:
                waiting.set()
                return []

            follower.answer = keep_waiting
            wait_for(waiting.is_set)
            follower.stop()
            # The time-out is 30 s; that it is noticed within the wait shows that the time-out had no part in it.
            wait_for(lambda: running.engine.snapshot().followers["pump"].answering is False, 5)
        finally:
            running.engine.stop()


def test_a_dead_follower_shows_within_its_time_out_and_does_not_block_the_others(honest: Registers) -> None:
    two = project(
        SPEED,
        word("other", 7, follower="fan"),
        followers=(Follower(name="pump", line="pumproom", unit=3), Follower(name="fan", line="pumproom", unit=4)),
    )
    with StagedFollower("serial-over-tcp", honest, TIMEOUT_MS) as follower:
        running = Running(two, follower, honest, armed=True)
        try:
            wait_for(lambda: running.value("speed") is not None and running.value("other") is not None)
            follower.answer = lambda asked: honest(asked) if asked.unit == 4 else []
            died = len(follower.asked)
            wait_for(lambda: running.engine.snapshot().followers["pump"].answering is False)
            assert running.engine.snapshot().readings["speed"].reason.startswith("unit 3 did not answer")
            assert not running.engine.write("speed", 5).result(5).ok
            assert running.engine.write("other", 8).result(5).ok
            wait_for(lambda: len(follower.asked) > died + 60)
            # At most a fifth of the line's time goes to the dead one; each of its requests costs a whole time-out.
            recent = running.engine.transactions.since(0)[1][-40:]
            spent = sum(entry.ms for entry in recent if entry.request.unit == 3)
            assert spent / 1000 < 0.3 * (recent[-1].at - recent[0].at) + 2 * TIMEOUT_MS / 1000
            assert running.value("other") == 8
        finally:
            running.engine.stop()


def test_a_refused_register_is_found_and_the_others_are_read(follower: StagedFollower, honest: Registers) -> None:
    def gap(asked: Asked) -> list[bytes | float | object]:
        if asked.function == 3 and asked.address <= 12 < asked.address + asked.count:
            return [asked.framed(b"\x83\x02")]
        return list(honest(asked))

    follower.answer = gap
    running = Running(project(*(word(str(n), n) for n in (10, 11, 12, 13, 14))), follower, honest, armed=False)
    try:
        wait_for(lambda: all(running.value(str(n)) == n for n in (10, 11, 13, 14)))
        wait_for(lambda: running.engine.snapshot().readings["12"].quality is Quality.REFUSED)
        reason = running.engine.snapshot().readings["12"].reason
        assert reason.startswith(
            "illegal data address (02) at holding register 12; the device does not have this register"
        )
    finally:
        running.engine.stop()


def refusing(honest: Registers, *registers: int) -> Callable[[Asked], Answer]:
    """A follower that refuses every read with one of these registers in it."""

    def answer(asked: Asked) -> Answer:
        if asked.function == 3 and any(asked.address <= each < asked.address + asked.count for each in registers):
            return [asked.framed(b"\x83\x02")]
        return honest(asked)

    return answer


def test_around_refused_registers_the_others_are_read_together_again(
    follower: StagedFollower, honest: Registers
) -> None:
    follower.answer = refusing(honest, 13, 26)
    running = Running(project(*(word(str(n), n) for n in range(10, 40))), follower, honest, armed=False)
    try:
        wait_for(lambda: running.refused() == ("13", "26"))

        def reads() -> set[tuple[int, int]]:
            return {
                (entry.request.address, entry.request.count) for entry in running.engine.transactions.since(0)[1][-9:]
            }

        wait_for(lambda: reads() >= {(10, 3), (14, 12), (27, 13)} and len(reads()) <= 5)
        assert all(running.value(str(n)) == n for n in range(10, 40) if n not in (13, 26))
        # The line comes back, and what was found is still known.
        asked = len(follower.asked)
        follower.stop()
        wait_for(lambda: not running.engine.snapshot().lines["pumproom"].connected)
        follower.start()
        wait_for(lambda: len(follower.asked) > asked + 10)
        after = [(each.address, each.count) for each in follower.asked[asked:]]
        # A read of one register that the old connection left open is asked in another length, once.
        assert set(after) - {(13, 2), (26, 2)} <= {(10, 3), (14, 12), (27, 13), (13, 1), (26, 1)}
        # It has the register after all.
        follower.answer = refusing(honest, 26)
        wait_for(lambda: running.value("13") == 13)
        assert running.refused() == ("26",)
    finally:
        running.engine.stop()


def test_a_gap_that_the_follower_does_not_have_is_no_longer_read_along(
    follower: StagedFollower, honest: Registers
) -> None:
    follower.answer = refusing(honest, 12, 30)
    running = Running(project(*(word(str(n), n) for n in (10, 11, 13, 14, 30, 31))), follower, honest, armed=False)
    try:
        wait_for(lambda: all(running.value(str(n)) == n for n in (10, 11, 13, 14, 31)))
        count = len(follower.asked)
        wait_for(lambda: len(follower.asked) > count + 20)
        # The whole is tried again ever more rarely; a lone register may be asked in another length, to be told apart.
        recent = {(each.address, each.count) for each in follower.asked[count:]} - {(10, 22), (30, 2)}
        assert {(10, 2), (13, 2), (31, 1)} <= recent <= {(10, 2), (13, 2), (31, 1), (30, 1)}
        assert running.refused() == ("30",)
    finally:
        running.engine.stop()


def test_several_dead_followers_take_no_more_than_their_share_together(honest: Registers) -> None:
    names = ("pump", "one", "two", "three")
    many = project(
        word("good", 7, every_ms=10),
        *(word(name, 8, follower=name) for name in names[1:]),
        followers=tuple(Follower(name=name, line="pumproom", unit=3 + n) for n, name in enumerate(names)),
    )
    with StagedFollower("serial-over-tcp", honest, 40) as follower:
        follower.answer = lambda asked: honest(asked) if asked.unit == 3 else []
        running = Running(many, follower, honest, armed=False)
        try:
            wait_for(lambda: all(running.engine.snapshot().followers[name].requests >= 5 for name in names[1:]), 60)
            kept = running.engine.transactions.since(0)[1]
            third = [entry for entry in kept if entry.follower == "three"][2]
            recent = [entry for entry in kept if entry.at > third.at + third.ms / 1000]
            spent = sum(entry.ms for entry in recent if entry.request.unit != 3) / 1000
            # Each may just have been asked once more than its share when the count ends.
            assert spent <= float(DEAD_SHARE) * (recent[-1].at - recent[0].at) + 3 * 0.05
            assert running.engine.snapshot().readings["good"].good
            dead = running.engine.snapshot().followers["two"]
            assert dead.good == 0
            assert dead.faults == {FaultKind.SILENCE: dead.requests}
            reading = running.engine.snapshot().readings["two"]
            assert (reading.quality, reading.age(time.monotonic())) == (Quality.NONE, None)
            assert reading.reason.startswith("unit 5 did not answer")
        finally:
            running.engine.stop()


def test_what_comes_on_the_screen_is_read_at_once(follower: StagedFollower, honest: Registers) -> None:
    slow = project(word("often", 50), word("slow", 60, table="input", write=False, every_ms=3_600_000))
    running = Running(slow, follower, honest, armed=False)
    try:
        wait_for(lambda: running.value("slow") == 60)
        honest.words[60] = 61
        at = running.engine.snapshot().readings["slow"].time
        assert at is not None
        wait_for(lambda: time.monotonic() > at + FRESH_S)
        assert running.value("slow") == 60
        running.engine.show(["slow", "no such signal"])
        wait_for(lambda: running.value("slow") == 61)
    finally:
        running.engine.stop()


def test_several_requests_are_on_their_way_at_once_where_the_line_allows_it(honest: Registers) -> None:
    together = project(*(word(str(n), 250 * n) for n in range(6)))
    with StagedFollower("tcp", honest, 2000) as follower:
        engine = Engine(together, {"pumproom": replace(follower.endpoint, in_flight=4)})
        engine.start()
        try:
            wait_for(lambda: all(engine.snapshot().readings[str(n)].value == 250 * n for n in range(6)))
            overlapping = 0
            entries = engine.transactions.since(0)[1]
            for former, latter in pairwise(entries):
                overlapping += latter.at < former.at + former.ms / 1000
            assert overlapping > 0
        finally:
            engine.stop()


def test_registers_that_the_encoding_cannot_mean_are_implausible(follower: StagedFollower, honest: Registers) -> None:
    honest.words[20] = 0xABCD
    running = Running(project(word("bcd", 20, encoding="bcd16")), follower, honest, armed=False)
    try:
        wait_for(lambda: running.engine.snapshot().readings["bcd"].quality is Quality.IMPLAUSIBLE)
        honest.words[20] = 0x1234
        wait_for(lambda: running.value("bcd") == 1234)
    finally:
        running.engine.stop()


def test_a_refreshed_output_is_written_again_until_disarmed(follower: StagedFollower, honest: Registers) -> None:
    running = Running(
        project(word("alive", 50, refresh_ms=30), word("idle", 60, refresh_ms=30)), follower, honest, armed=True
    )
    try:
        wait_for(lambda: running.value("alive") is not None)
        assert running.engine.write("alive", 9).result(5).ok
        wait_for(lambda: len(running.written()) >= 5)
        assert {asked.pdu.hex() for asked in running.written()} == {"0600320009"}
        running.engine.arm("pumproom", False)
        wait_for(lambda: not running.engine.snapshot().lines["pumproom"].armed)
        count, asked = len(running.written()), len(follower.asked)
        running.engine.arm("pumproom", True)
        wait_for(lambda: len(follower.asked) > asked + 20)
        assert len(running.written()) <= count + 1  # one may have been on its way
    finally:
        running.engine.stop()


def test_a_refreshed_output_does_not_come_back_with_the_connection(follower: StagedFollower, honest: Registers) -> None:
    running = Running(project(word("alive", 50, refresh_ms=30)), follower, honest, armed=True)
    try:
        wait_for(lambda: running.value("alive") is not None)
        assert running.engine.write("alive", 9).result(5).ok
        wait_for(lambda: len(running.written()) >= 3)
        follower.stop()
        wait_for(lambda: not running.engine.snapshot().lines["pumproom"].connected)
        count = len(running.written())
        honest.words[50] = 0
        follower.start()
        asked = len(follower.asked)
        wait_for(lambda: len(follower.asked) > asked + 20)
        assert len(running.written()) == count
        assert running.value("alive") == 0
    finally:
        running.engine.stop()


def test_the_log_of_transactions_grows_and_can_be_followed(running: Running) -> None:
    log = running.engine.transactions
    count, entries = log.since(0)
    assert count >= len(entries) > 0
    assert entries[0].line == "pumproom"
    assert entries[0].follower == "pump"
    assert entries[0].fault is None
    wait_for(lambda: log.count > count)
    later, new = log.since(count)
    assert len(new) == later - count
    assert {entry.kind.split()[0] for entry in new} == {"read"}


def down(endpoint: Endpoint, kind: FaultKind, *words: str) -> None:
    engine = Engine(PROJECT, {"pumproom": endpoint}, armed=["pumproom"])
    engine.start()
    try:
        wait_for(lambda: engine.snapshot().lines["pumproom"].faults.get(kind, 0) >= 1)
        state = engine.snapshot().lines["pumproom"]
        assert not state.connected
        for part in words:
            assert part in state.reason
        assert "\n" not in state.reason
        assert engine.snapshot().readings["speed"].quality is Quality.NONE
        assert engine.snapshot().readings["speed"].reason == state.reason
    finally:
        engine.stop()


def test_a_port_where_nobody_listens() -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        port = taken.getsockname()[1]
        down(Endpoint.tcp("127.0.0.1", port), FaultKind.REFUSED_CONNECTION, f"port {port}", "check")


def test_a_host_that_has_no_address() -> None:
    # RFC 2606: names under .invalid never resolve.
    down(Endpoint.tcp("nowhere.invalid", 502), FaultKind.NO_SUCH_HOST, "'nowhere.invalid'", "check the spelling")


def test_a_host_name_that_no_name_can_be() -> None:
    down(Endpoint.tcp("a" * 80 + ".example", 502), FaultKind.NO_SUCH_HOST, "check the spelling")


def test_a_serial_port_that_is_missing(tmp_path: Any) -> None:
    down(Endpoint.serial(str(tmp_path / "ttyUSB7")), FaultKind.PORT_MISSING, "ttyUSB7", "plug the adapter in")


@pytest.mark.skipif(os.name != "posix", reason="needs ptys")
def test_a_serial_port_that_is_busy() -> None:
    import serial

    far, near = os.openpty()
    try:
        with serial.Serial(os.ttyname(near), exclusive=True):
            down(Endpoint.serial(os.ttyname(near)), FaultKind.PORT_BUSY, "close the other program")
    finally:
        os.close(far)
        os.close(near)


@pytest.mark.skipif(os.name != "posix", reason="needs a pty")
def test_two_lines_on_one_serial_port(honest: Registers, tmp_path: Any) -> None:
    with StagedFollower("serial", honest, TIMEOUT_MS) as follower:
        device = follower.endpoint.device
        other = tmp_path / "the same"
        other.symlink_to(device)
        both = Project(
            panel=Panel(start="a"),
            lines=(SerialLine(name="east", device=device), SerialLine(name="west", device=str(other))),
            followers=(Follower(name="e", line="east", unit=3), Follower(name="w", line="west", unit=3)),
            signals=(word("of east", 5, follower="e"), word("of west", 6, follower="w")),
        )
        engine = Engine(both, {line.name: Endpoint.of_line(line) for line in both.lines})
        engine.start()
        try:
            wait_for(lambda: any(state.faults for state in engine.snapshot().lines.values()))
            wait_for(lambda: any(reading.good for reading in engine.snapshot().readings.values()))
            (busy,) = (state for state in engine.snapshot().lines.values() if not state.connected)
            names = {"east", "west"} - {busy.name}
            assert f"also used by line '{names.pop()}' of this project" in busy.reason
        finally:
            engine.stop()


def test_a_project_without_any_signal(follower: StagedFollower) -> None:
    engine = Engine(project(), {"pumproom": follower.endpoint})
    engine.start()
    try:
        wait_for(lambda: engine.snapshot().lines["pumproom"].connected)
        assert engine.snapshot().readings == {}
        assert engine.flush(5)
        assert not engine.write("nothing", 1).result(5).ok
    finally:
        engine.stop()
    bare = Engine(Project(panel=Panel(start="a")), {})
    bare.start()
    bare.stop()
    assert bare.snapshot().lines == {}


def test_overlapping_signals_and_a_follower_of_one_register(follower: StagedFollower, honest: Registers) -> None:
    one = Follower(name="pump", line="pumproom", unit=3, max_registers=1)
    many = Follower(name="fan", line="pumproom", unit=4, max_registers=4)
    signals = (
        word("a", 10),
        word("b", 11),
        word("again", 10, every_ms=50),
        word("wide", 406, encoding="uint32", follower="fan"),
        word("its end", 407, follower="fan", every_ms=100),
        word("across", 405, encoding="uint32", follower="fan", every_ms=50),
    )
    running = Running(project(*signals, followers=(one, many)), follower, honest, armed=False)
    try:
        wait_for(lambda: all(running.value(signal.name) is not None for signal in signals))
        assert [running.value(name) for name in ("a", "b", "again")] == [10, 11, 10]
        assert running.value("wide") == 1 << 16 | 2
        assert running.value("its end") == 2
        assert running.value("across") == 405 << 16 | 1
        assert {asked.count for asked in follower.asked if asked.unit == 3} == {1}
        assert all(asked.count <= 4 for asked in follower.asked)
    finally:
        running.engine.stop()


@pytest.mark.skipif(os.name != "posix", reason="needs file permissions")
def test_a_file_that_is_no_serial_port(tmp_path: Any) -> None:
    plain = tmp_path / "plain"
    plain.write_text("")
    down(Endpoint.serial(str(plain)), FaultKind.PORT_SETTINGS, "is not a serial port")


@pytest.mark.skipif(os.name != "posix" or os.getuid() == 0, reason="root may open everything")
def test_a_serial_port_without_permission(tmp_path: Any) -> None:
    plain = tmp_path / "locked"
    plain.write_text("")
    plain.chmod(0)
    down(Endpoint.serial(str(plain)), FaultKind.PORT_PERMISSION, "dialout")


@pytest.mark.skipif(os.name != "posix", reason="needs a pty")
def test_a_serial_port_that_vanishes_and_comes_back(honest: Registers, tmp_path: Any) -> None:
    port = tmp_path / "port"
    follower = StagedFollower("serial", honest, TIMEOUT_MS)
    follower.start()
    port.symlink_to(follower.endpoint.device)
    engine = Engine(PROJECT, {"pumproom": Endpoint.serial(str(port), timeout_ms=TIMEOUT_MS)})
    engine.start()
    try:
        wait_for(lambda: engine.snapshot().readings["speed"].good)
        follower.stop()
        wait_for(lambda: engine.snapshot().lines["pumproom"].faults.get(FaultKind.PORT_VANISHED, 0) == 1)
        port.unlink()
        wait_for(lambda: engine.snapshot().lines["pumproom"].faults.get(FaultKind.PORT_MISSING, 0) >= 1)
        follower.start()
        port.symlink_to(follower.endpoint.device)
        wait_for(lambda: engine.snapshot().readings["speed"].good)
    finally:
        engine.stop()
        follower.stop()


def test_a_line_that_leads_nowhere_stays_down() -> None:
    engine = Engine(PROJECT, {})
    engine.start()
    try:
        assert "no port or host" in engine.snapshot().lines["pumproom"].reason
        report = engine.write("speed", 1).result(1)
        assert not report.ok
        engine.arm("pumproom", True)
        assert not engine.is_armed("pumproom")
    finally:
        engine.stop()


def test_nothing_is_logged_and_no_task_is_left(
    follower: StagedFollower, honest: Registers, caplog: pytest.LogCaptureFixture, capfd: pytest.CaptureFixture[str]
) -> None:
    with caplog.at_level(logging.WARNING, logger="asyncio"):
        for _ in range(3):
            running = Running(PROJECT, follower, honest, armed=True)
            wait_for(lambda running=running: running.value("speed") is not None)  # type: ignore[misc]
            follower.stop()
            wait_for(lambda running=running: not running.engine.snapshot().lines["pumproom"].connected)  # type: ignore[misc]
            running.engine.stop()
            follower.start()
    assert [record for record in caplog.records if record.name == "asyncio"] == []
    assert capfd.readouterr().err == ""


def test_stopping_at_any_moment_is_quick(follower: StagedFollower, honest: Registers) -> None:
    for requests in (0, 1, 2, 3, 10, 20):
        asked = len(follower.asked)
        running = Running(PROJECT, follower, honest, armed=True)
        wait_for(lambda least=asked + requests: len(follower.asked) >= least)  # type: ignore[misc]
        started = time.monotonic()
        running.engine.stop()
        assert time.monotonic() - started < 5
    engine = Engine(PROJECT, {"pumproom": Endpoint.tcp("nowhere.invalid", 502)})
    engine.start()
    engine.stop()
