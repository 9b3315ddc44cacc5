"""Any bytes to a simulated follower: it answers as the specification says, or not at all, and never breaks."""

from __future__ import annotations

import asyncio
import struct
from decimal import Decimal
from itertools import pairwise

from hypothesis import example, given, settings, strategies as st

from app.follower.drive_bank import DriveBank
from app.follower.framing import rtu_request, rtu_rest
from app.follower.requests import BROADCAST, Responder
from app.follower.server import FRAME_END_S, TcpServer, serve_rtu
from tests.app.follower.playing import drive_project, mbap, rtu, signal

UNIT = 3

addresses = st.one_of(st.integers(0, 12), st.integers(298, 326), st.integers(398, 412), st.integers(0, 65_535))
words = st.one_of(st.integers(0, 4), st.integers(0, 65_535))
counts = st.one_of(st.integers(0, 12), st.integers(120, 130), st.integers(0, 65_535))


noises = st.binary(max_size=20).map(lambda it: it.replace(bytes((UNIT,)), b"\xaa").replace(b"\0", b"\xaa"))
"""Bytes of which no frame to the follower or to all can begin."""


def word(number: int) -> bytes:
    return number.to_bytes(2, "big")


@st.composite
def near_requests(draw: st.DrawFn) -> bytes:
    """PDUs that are requests, or nearly."""
    function = draw(st.sampled_from([1, 2, 3, 4, 5, 6, 8, 15, 16, 17, 22, 23, 43]))
    if function in (17, 43):
        kind = bytes((draw(st.sampled_from([14, 13])), draw(st.integers(0, 6)), draw(st.integers(0, 255))))
        return bytes((function,)) + draw(st.sampled_from([kind, kind[:1], kind[:2], b"", kind + b"\0"]))
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
                measured = range(400, 414)  # by the drive itself, app.follower.layout
                for table, cells in before.items():
                    for address, value in cells.items():
                        assert after[table][address] == value or (table == "holding" and address in measured)

    asyncio.run(ask())


@settings(max_examples=300, deadline=None)
@given(
    near_requests() | st.integers(0, 255).map(lambda it: bytes((it,))) | st.binary(min_size=1, max_size=253),
    noises,
    st.data(),
)
def test_a_sound_frame_is_found_at_once_or_by_its_silence_and_answered_but_for_answers(
    pdu: bytes, noise: bytes, data: st.DataObject
) -> None:
    """On a serial line a request that says another length than it has is refused, and nothing else is kept silent."""
    stream = noise + rtu(UNIT, pdu)
    held, found = b"", []
    while stream or held:
        size = data.draw(st.integers(1, len(stream))) if stream else 0
        held, stream = held + stream[:size], stream[size:]
        used, request = rtu_request(held, {BROADCAST, UNIT})
        held = held[used:]
        if request is None and not stream:
            request = rtu_rest(held, {BROADCAST, UNIT})
            held = b""
        if request is not None:
            found.append(request)
    # What is found is what was sent, or by chance a shorter frame in it that is sound as well.
    assert found in ([(UNIT, pdu)], []) or (len(found) == 1 and rtu(*found[0]) in rtu(UNIT, pdu))
    if not found:
        # What has the form of an answer, or a length that no request of the function has.
        assert pdu[0] in (0, *range(1, 7), 17, 22, 43) or pdu[0] >= 0x80 or len(pdu) <= 5 or pdu[1] == len(pdu) - 2
        answer = asyncio.run(drive().answer(UNIT, pdu))
        assert answer is not None
        assert answer[0] & 0x80, "a good request was not found"


@settings(max_examples=30, deadline=None)
@given(st.lists(near_requests() | st.binary(min_size=1, max_size=253), min_size=1, max_size=30), st.data())
def test_any_requests_in_any_segments_of_a_connection_are_answered_in_their_order(
    pdus: list[bytes], data: st.DataObject
) -> None:
    """Over a real connection: whole answers, each to its own transaction, none left out and none doubled."""
    stream = b"".join(mbap(UNIT + number % 2, pdu, number) for number, pdu in enumerate(pdus))
    cuts = sorted(data.draw(st.sets(st.integers(0, len(stream)), max_size=6)))

    async def run() -> list[tuple[int, int, int]]:
        server = await TcpServer.open(drive(), "127.0.0.1", 0)
        reader, writer = await asyncio.open_connection(*server.address)
        for start, end in pairwise([0, *cuts, len(stream)]):
            writer.write(stream[start:end])
            await asyncio.sleep(0)
        writer.write_eof()
        answers, found = await reader.read(-1), []
        while answers:
            transaction, zero, length, unit, function = struct.unpack_from(">HHHBB", answers)
            assert zero == 0
            assert 3 <= length <= 254
            assert len(answers) >= 6 + length
            found.append((transaction, unit, function & 0x7F))
            answers = answers[6 + length :]
        writer.close()
        await server.close()
        return found

    expected = [(number, UNIT, pdu[0] & 0x7F) for number, pdu in enumerate(pdus) if number % 2 == 0]
    assert asyncio.run(run()) == expected


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
