"""One line's client on real sockets and ptys: what it sends and when, and what it makes of what comes back."""

from __future__ import annotations

import asyncio
import os
import time
from collections.abc import Callable, Coroutine
from typing import Any

import pytest

from app.client.client import Answer, Client
from app.client.endpoint import Endpoint
from app.client.faults import FaultKind, LineFault
from app.client.timing import BROADCAST_TURNAROUND_S, exact_loop
from app.client.transactions import Transaction
from app.modbus.own_ports import own_ports, port_path
from app.modbus.requests import read_request, registers_of, write_register
from tests.staged_follower import CLOSE, Answer as Staged, Asked, Registers, StagedFollower

TIMEOUT_MS = 300
RTU = [
    "serial-over-tcp",
    pytest.param("serial", marks=pytest.mark.skipif(os.name != "posix", reason="needs a pty")),
]
TWO = read_request(3, "holding", 10, 2)


def run(
    kind: str, answer: Callable[[Asked], Staged], work: Callable[[Client], Coroutine[Any, Any, None]]
) -> tuple[StagedFollower, list[Transaction]]:
    """Do `work` with an open client; gives the follower and what was recorded."""
    told: list[Transaction] = []

    async def opened(endpoint: Endpoint) -> None:
        client = Client("line", endpoint, told.append)
        await client.open()
        try:
            await work(client)
        finally:
            client.close()

    with StagedFollower(kind, answer, TIMEOUT_MS) as follower, asyncio.Runner(loop_factory=exact_loop) as runner:
        runner.run(opened(follower.endpoint))
    return follower, told


async def fault_of(exchange: Coroutine[Any, Any, Answer]) -> FaultKind:
    with pytest.raises(LineFault) as failed:
        await exchange
    return failed.value.fault.kind


@pytest.mark.parametrize("kind", ["tcp", *RTU])
def test_a_transaction_is_recorded_with_its_predicted_time(kind: str) -> None:
    async def work(client: Client) -> None:
        for _ in range(3):
            assert registers_of((await client.exchange(TWO)).pdu) == (10, 11)

    _, told = run(kind, Registers(), work)
    assert len(told) == 3
    assert all(transaction.predicted_ms > 0 and transaction.fault is None for transaction in told)


@pytest.mark.skipif(os.name != "posix", reason="needs a pty")
def test_the_port_of_a_session_is_known_as_this_programs_own() -> None:
    async def work(client: Client) -> None:
        assert port_path(client.endpoint.device) in own_ports()

    follower, _ = run("serial", Registers(), work)
    assert port_path(follower.endpoint.device) not in own_ports()


@pytest.mark.parametrize("kind", RTU)
def test_what_was_asked_before_the_line_was_opened_has_a_time_out_to_be_answered(kind: str) -> None:
    before = time.perf_counter()

    async def work(client: Client) -> None:
        await client.exchange(TWO)
        assert time.perf_counter() - before >= TIMEOUT_MS / 1000

    run(kind, Registers(), work)


@pytest.mark.parametrize("kind", RTU)
@pytest.mark.parametrize("damage", ["crc", "length", "unit"])
def test_a_whole_wrong_answer_ends_the_wait(kind: str, damage: str) -> None:
    honest = Registers()

    def answer(asked: Asked) -> Staged:
        pdu = honest.pdu(asked)
        if damage == "crc":
            return [asked.framed(pdu)[:-1] + b"\x00"]
        return [asked.framed(pdu, unit=9)] if damage == "unit" else [asked.framed(b"\x03\x02\x00\x01")]

    kinds = {"crc": FaultKind.BAD_CRC, "length": FaultKind.WRONG_LENGTH, "unit": FaultKind.WRONG_UNIT}

    async def work(client: Client) -> None:
        client._timeout_s = 30.0  # so long that the test would not end if it were waited for
        client._busy_until = 0.0
        assert await fault_of(client.exchange(TWO)) is kinds[damage]
        assert client.settling.owes(3), "the true answer may be on its way all the same"

    run(kind, answer, work)


@pytest.mark.parametrize("kind", RTU)
def test_noise_long_before_the_answer_does_not_end_the_wait(kind: str) -> None:
    honest = Registers()

    async def work(client: Client) -> None:
        assert registers_of((await client.exchange(TWO)).pdu) == (10, 11)

    run(kind, lambda asked: [b"\xff\x00", 0.12, asked.framed(honest.pdu(asked))], work)


@pytest.mark.parametrize("kind", RTU)
@pytest.mark.parametrize("echoes", [True, False])
def test_before_a_write_that_an_echo_would_acknowledge_it_is_found_out_whether_there_is_one(
    kind: str, echoes: bool
) -> None:
    write = write_register(3, 10, 7)

    def answer(asked: Asked) -> Staged:
        return [asked.frame] if echoes else Registers()(asked)

    async def work(client: Client) -> None:
        if echoes:
            # Only the adapter is there, and no device at all.
            assert await fault_of(client.exchange(write)) is FaultKind.SILENCE
        else:
            assert (await client.exchange(write)).pdu == write.pdu

    follower, _ = run(kind, answer, work)
    assert [asked.function for asked in follower.asked] == [3, 6]


@pytest.mark.parametrize("kind", RTU)
@pytest.mark.parametrize("echoes", [True, False])
def test_a_second_acknowledgement_is_an_unasked_answer_unless_the_line_echoes_from_now_on(
    kind: str, echoes: bool
) -> None:
    write = write_register(3, 10, 7)
    unasked: list[tuple[int, bytes]] = []

    def answer(asked: Asked) -> Staged:
        answered = Registers()(asked)
        if asked.number > 1 and (echoes or asked.function == 6):
            return [asked.frame, *answered]
        return answered

    async def work(client: Client) -> None:
        client.on_unasked = lambda unit, frame, _: unasked.append((unit, frame))
        await client.exchange(TWO)  # there is no echo yet
        assert (await client.exchange(write)).pdu == write.pdu
        await client.exchange(TWO)
        assert unasked == ([] if echoes else [(3, write.rtu)])
        assert client.repeats.careful(3, time.monotonic()) is not echoes

    run(kind, answer, work)


@pytest.mark.parametrize("kind", RTU)
def test_a_broadcast_is_not_answered_and_gives_the_followers_time(kind: str) -> None:
    async def work(client: Client) -> None:
        started = time.perf_counter()
        assert (await client.exchange(write_register(0, 10, 7))).pdu == b""
        assert time.perf_counter() - started >= BROADCAST_TURNAROUND_S
        with pytest.raises(ValueError, match="broadcast"):
            await client.exchange(read_request(0, "holding", 10, 1))

    follower, told = run(kind, lambda asked: [], work)
    assert [(asked.unit, asked.function) for asked in follower.asked] == [(0, 6)]
    assert [transaction.fault for transaction in told] == [None]


@pytest.mark.parametrize("kind", RTU)
def test_an_answer_that_comes_with_the_next_request_is_told_as_late(kind: str) -> None:
    honest = Registers()
    late: list[float] = []

    def answer(asked: Asked) -> Staged:
        return [1.2 * TIMEOUT_MS / 1000 if asked.number == 1 else 0.0, asked.framed(honest.pdu(asked))]

    async def work(client: Client) -> None:
        client.on_late = lambda unit, fault: late.append(fault.late_ms)
        assert await fault_of(client.exchange(TWO)) is FaultKind.SILENCE
        three = client.settling.unambiguous(TWO, time.monotonic())
        assert three is not None
        assert three.count != 2
        words = registers_of((await client.exchange(three)).pdu)
        assert words == tuple(range(three.address, three.address + three.count))
        assert not client.settling.owes(3)

    run(kind, answer, work)


def test_several_requests_in_flight_find_their_answers_in_whatever_order_they_come() -> None:
    honest = Registers()
    waiting: list[bytes] = []

    def answer(asked: Asked) -> Staged:
        waiting.append(asked.framed(honest.pdu(asked)))
        if len(waiting) < 8:
            return []
        out, waiting[:] = list(reversed(waiting)), []
        return [b"".join(out)]

    async def work(client: Client) -> None:
        asked = [read_request(3, "holding", 100 * index, 2) for index in range(8)]
        answers = await asyncio.gather(*(client.exchange(request) for request in asked))
        for request, got in zip(asked, answers, strict=True):
            assert registers_of(got.pdu) == (request.address, request.address + 1)

    run("tcp", answer, work)


def test_of_several_in_flight_only_the_silent_one_fails() -> None:
    honest = Registers()

    async def work(client: Client) -> None:
        asked = [read_request(3, "holding", 100 * index, 2) for index in range(4)]
        done = await asyncio.gather(*(client.exchange(request) for request in asked), return_exceptions=True)
        assert [isinstance(each, LineFault) for each in done] == [False, False, True, False]
        failed = done[2]
        assert isinstance(failed, LineFault)
        assert failed.fault.kind is FaultKind.SILENCE

    run("tcp", lambda asked: [] if asked.address == 200 else honest(asked), work)


def test_a_closed_connection_fails_all_that_is_in_flight_at_once() -> None:
    async def work(client: Client) -> None:
        client._timeout_s = 30.0
        asked = [client.exchange(read_request(3, "holding", index, 1)) for index in range(4)]
        done = await asyncio.gather(*asked, return_exceptions=True)
        kinds = {each.fault.kind for each in done if isinstance(each, LineFault)}
        assert len(done) == 4
        assert kinds <= {FaultKind.CLOSED, FaultKind.RESET}
        assert kinds

    run("tcp", lambda asked: [CLOSE], work)


def test_the_number_of_an_unanswered_request_is_not_given_out_again() -> None:
    async def work(client: Client) -> None:
        client._late.update(dict.fromkeys((1, 2, 3), 0.0))
        await client.exchange(TWO)

    _, told = run("tcp", Registers(), work)
    assert told[0].sent[:2] == b"\0\4"


def test_the_second_half_of_a_late_answer_is_not_looked_into() -> None:
    # Its registers hold what looks like the whole answer to the next request: the number of that is 2.
    inner = bytes.fromhex("00 02 00 00 00 07 03 03 04 BA DB AD BA")
    outer = bytes.fromhex("00 01 00 00 00 12 03 03 0F") + b"\x00" + inner + b"\x00"
    honest = Registers()

    def answer(asked: Asked) -> Staged:
        if asked.number == 1:
            return [outer[:10], 1.2 * TIMEOUT_MS / 1000, outer[10:]]
        return [0.05, asked.framed(honest.pdu(asked))]

    async def work(client: Client) -> None:
        assert await fault_of(client.exchange(read_request(3, "holding", 10, 8))) is not FaultKind.EXCEPTION
        assert registers_of((await client.exchange(TWO)).pdu) == (10, 11)

    run("tcp", answer, work)
