"""Any bytes to a simulated follower: it answers as the specification says, or not at all, and never breaks."""

from __future__ import annotations

import asyncio
from decimal import Decimal

from hypothesis import example, given, settings, strategies as st

from app.follower.drive_bank import DriveBank
from app.follower.framing import rtu_request
from app.follower.requests import BROADCAST, Responder
from app.follower.server import FRAME_END_S, serve_rtu
from tests.app.follower.playing import drive_project, rtu, signal

UNIT = 3

addresses = st.one_of(st.integers(0, 12), st.integers(298, 326), st.integers(398, 412), st.integers(0, 65_535))
words = st.one_of(st.integers(0, 4), st.integers(0, 65_535))
counts = st.one_of(st.integers(0, 12), st.integers(120, 130), st.integers(0, 65_535))


def word(number: int) -> bytes:
    return number.to_bytes(2, "big")


@st.composite
def near_requests(draw: st.DrawFn) -> bytes:
    """PDUs that are requests, or nearly."""
    function = draw(st.sampled_from([1, 2, 3, 4, 5, 6, 8, 15, 16, 22, 23, 43]))
    pdu = bytes((function,)) + word(draw(addresses))
    if function in (15, 16):
        data = draw(st.binary(max_size=24))
        pdu += word(draw(counts)) + bytes((draw(st.sampled_from([len(data), 0, 255])),)) + data
    elif function == 22:
        pdu += word(draw(words)) + word(draw(words))
    elif function == 23:
        data = draw(st.binary(max_size=24))
        pdu += word(draw(counts)) + word(draw(addresses)) + word(len(data) // 2) + bytes((len(data),)) + data
    else:
        pdu += word(draw(st.one_of(counts, st.just(0xFF00))))
    return pdu[: draw(st.one_of(st.just(len(pdu)), st.integers(1, len(pdu))))]


def drive() -> Responder:
    project = drive_project(
        signal("label", 5, encoding="string", length=3, start_value="abc"),
        signal("door", 9, table="discrete", start_value=Decimal(1)),
        write_functions=[5, 6, 15, 16, 22],
    )
    now = iter(range(10**9))
    return Responder([DriveBank(project, project.followers[0])], clock=lambda: next(now) / 10)


@given(st.lists(st.one_of(near_requests(), st.binary(min_size=1, max_size=253)), max_size=20))
@example([bytes.fromhex("17 0136 0001 0136 0001 02 FFFF")])
def test_every_request_is_answered_for_its_own_function(pdus: list[bytes]) -> None:
    async def ask() -> None:
        it = drive()
        for pdu in pdus:
            answer = await it.answer(UNIT, pdu)
            assert answer is not None
            assert 1 <= len(answer) <= 253
            if answer[0] & 0x80:
                assert answer[0] == pdu[0] | 0x80
                assert len(answer) == 2
                assert answer[1] in (1, 2, 3)
            else:
                assert answer[0] == pdu[0]
            assert await it.answer(UNIT + 1, pdu) is None

    asyncio.run(ask())


@given(st.lists(near_requests(), max_size=20))
def test_a_refused_write_changes_nothing(pdus: list[bytes]) -> None:
    async def ask() -> None:
        it = drive()
        bank = it.models[UNIT]
        for pdu in pdus:
            before = {table: dict(bank.cells(table)) for table in ("holding", "coil")}
            answer = await it.answer(UNIT, pdu)
            assert answer is not None
            if answer[0] & 0x80:
                after = {table: dict(bank.cells(table)) for table in ("holding", "coil")}
                measured = range(400, 410)
                for table, cells in before.items():
                    for address, value in cells.items():
                        assert after[table][address] == value or (table == "holding" and address in measured)

    asyncio.run(ask())


@st.composite
def streams(draw: st.DrawFn) -> tuple[list[bytes], list[bytes]]:
    """Requests with noise that no frame of ours can be mistaken for, and the chunks in which they arrive."""
    asked, stream = [], b""
    for _ in range(draw(st.integers(1, 6))):
        stream += bytes(draw(st.lists(st.integers(100, 255), max_size=12)))
        if draw(st.booleans()):
            stream += rtu(UNIT + 5, draw(near_requests()).replace(bytes((UNIT,)), b"\xaa").replace(b"\0", b"\xaa"))
        asked.append(bytes((3,)) + word(draw(st.integers(0x0101, 0xFFFF))) + word(1))
        stream += rtu(UNIT, asked[-1])
    chunks = []
    while stream:
        size = draw(st.integers(1, len(stream)))
        chunks.append(stream[:size])
        stream = stream[size:]
    return asked, chunks


@given(streams())
def test_requests_are_found_in_any_noise_and_any_chunks(stream: tuple[list[bytes], list[bytes]]) -> None:
    asked, chunks = stream
    found, held = [], b""
    for chunk in chunks:
        held += chunk
        while True:
            used, request = rtu_request(held, {BROADCAST, UNIT})
            assert 0 <= used <= len(held)
            held = held[used:]
            if request is None:
                break
            found.append(request)
    assert found == [(UNIT, pdu) for pdu in asked]


@settings(max_examples=40, deadline=None)
@given(st.lists(st.binary(min_size=1, max_size=300), max_size=10))
def test_any_bytes_on_a_serial_line_break_nothing(chunks: list[bytes]) -> None:
    async def run() -> list[bytes]:
        reader, sent = asyncio.StreamReader(), []

        async def send(frame: bytes) -> None:
            sent.append(frame)

        serving = asyncio.create_task(serve_rtu(drive(), reader, send))
        for chunk in chunks:
            reader.feed_data(chunk)
            for _ in range(3):
                await asyncio.sleep(0)
        await asyncio.sleep(FRAME_END_S * 1.2)  # the silence that ends a cut frame
        sent.clear()
        reader.feed_data(rtu(UNIT, "03 0136 0001"))
        reader.feed_eof()
        await serving
        return sent

    assert asyncio.run(run()) == [rtu(UNIT, "03 02 0000")] or any(_written_to(chunk) for chunk in chunks)


def _written_to(chunk: bytes) -> bool:
    """Whether chance made a good frame to the follower or to all."""
    return rtu_request(chunk, {BROADCAST, UNIT})[1] is not None
