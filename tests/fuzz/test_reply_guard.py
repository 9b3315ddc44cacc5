"""Any bytes around any request: the guard passes the true answer, or nothing."""

from __future__ import annotations

import struct
from itertools import pairwise

from hypothesis import given, settings, strategies as st

from app.client.faults import FaultKind
from app.client.reply_guard import Guard, MbapGuard, MbapStream, RtuGuard
from app.modbus.requests import Request, read_request, write_coil, write_register, write_registers
from tests.staged_follower import crc

units = st.integers(1, 247)
addresses = st.integers(0, 65_000)
word = st.integers(0, 65_535)
requests = st.one_of(
    st.builds(read_request, units, st.sampled_from(["holding", "input"]), addresses, st.integers(1, 125)),
    st.builds(read_request, units, st.sampled_from(["coil", "discrete"]), addresses, st.integers(1, 500)),
    st.builds(write_register, units, addresses, word),
    st.builds(write_coil, units, addresses, st.booleans()),
    st.builds(write_registers, units, addresses, st.lists(word, min_size=1, max_size=123)),
)


@st.composite
def answered(draw: st.DrawFn) -> tuple[Request, bytes]:
    """A request and a true answer to it (an exception included)."""
    request = draw(requests)
    if draw(st.booleans()):
        missing = request.answer_length - len(request.answer_head)
        return request, request.answer_head + draw(st.binary(min_size=missing, max_size=missing))
    return request, bytes((request.function | 0x80, draw(st.integers(0, 255))))


def framed(request: Request, pdu: bytes, transaction: int | None) -> bytes:
    if transaction is None:
        body = bytes((request.unit,)) + pdu
        return body + crc(body)
    return struct.pack(">HHHB", transaction, 0, len(pdu) + 1, request.unit) + pdu


def guard_for(request: Request, transaction: int | None) -> Guard:
    return RtuGuard(request) if transaction is None else MbapGuard(request, transaction)


def feed(guard: Guard, stream: bytes, cuts: list[int]) -> bytes | None:
    """Hand over the stream in pieces; what passes, at the end of time at the latest."""
    edges = sorted({0, len(stream), *(cut % (len(stream) + 1) for cut in cuts)})
    for start, end in pairwise(edges):
        passed = guard.feed(stream[start:end])
        if passed is not None:
            return passed
    return guard.last_look()


cuts = st.lists(st.integers(0, 1000), max_size=6)
framing = st.one_of(st.none(), st.integers(1, 65_535))


def is_answer(request: Request, pdu: bytes) -> bool:
    if pdu[0] & 0x80:
        return len(pdu) == 2 and pdu[0] == request.function | 0x80
    return len(pdu) == request.answer_length and pdu.startswith(request.answer_head)


@given(answered(), framing, cuts)
def test_a_true_answer_in_any_pieces_passes(
    case: tuple[Request, bytes], transaction: int | None, cuts: list[int]
) -> None:
    request, pdu = case
    assert feed(guard_for(request, transaction), framed(request, pdu, transaction), cuts) == pdu


@given(answered(), framing, st.binary(max_size=40), st.binary(max_size=40), cuts)
@settings(max_examples=150)
def test_with_noise_around_it_the_true_answer_passes_or_nothing(
    case: tuple[Request, bytes], transaction: int | None, before: bytes, after: bytes, cuts: list[int]
) -> None:
    request, pdu = case
    stream = before + framed(request, pdu, transaction) + after
    passed = feed(guard_for(request, transaction), stream, cuts)
    assert passed in (None, pdu)


@given(requests, framing, st.binary(max_size=300), cuts)
@settings(max_examples=150)
def test_whatever_passes_stands_whole_and_sound_in_the_stream(
    request: Request, transaction: int | None, stream: bytes, cuts: list[int]
) -> None:
    guard = guard_for(request, transaction)
    passed = feed(guard, stream, cuts)
    if passed is not None:
        assert is_answer(request, passed)
        assert framed(request, passed, transaction) in stream
    else:
        assert guard.verdict().sentence


@given(answered(), framing, st.data())
@settings(max_examples=150)
def test_a_damaged_answer_does_not_pass_as_another(
    case: tuple[Request, bytes], transaction: int | None, data: st.DataObject
) -> None:
    request, pdu = case
    frame = bytearray(framed(request, pdu, transaction))
    # Modbus TCP has no check sum of its own: there only what the header and the head of the answer say can be judged.
    guarded = len(frame) if transaction is None else 7 + min(len(request.answer_head), len(pdu) - (pdu[0] >> 7))
    index = data.draw(st.integers(0, guarded - 1))
    frame[index] ^= 1 << data.draw(st.integers(0, 7))
    guard = guard_for(request, transaction)
    assert feed(guard, bytes(frame), []) in (None, pdu)
    assert guard.verdict().kind is not FaultKind.SILENCE


@given(answered(), answered())
@settings(max_examples=100)
def test_the_answer_to_another_request_does_not_pass_unless_it_would_be_the_same(
    case: tuple[Request, bytes], other: tuple[Request, bytes]
) -> None:
    request, _ = case
    other_request, other_pdu = other
    passed = feed(RtuGuard(request), framed(other_request, other_pdu, None), [])
    if passed is not None:
        assert other_request.unit == request.unit
        assert is_answer(request, other_pdu)


def other_frames(request: Request) -> st.SearchStrategy[bytes]:
    """Sound RTU frames that are not the answer: of other units, functions and lengths, requests of a second client."""

    def answer_of(unit: int, function: int, data: bytes) -> bytes:
        body = bytes((unit, function, len(data))) + data
        return body + crc(body)

    reads = st.builds(read_request, units, st.sampled_from(["holding", "input", "coil"]), addresses, st.integers(1, 20))
    return st.one_of(
        st.builds(
            answer_of,
            units,
            st.sampled_from([1, 2, 3, 4]),
            st.binary(min_size=2, max_size=20).filter(lambda b: not len(b) % 2),
        ),
        reads.map(lambda asked: asked.rtu),
        st.just(request.rtu),
    )


@st.composite
def traffic(draw: st.DrawFn) -> tuple[Request, bytes, bytes]:
    """A request, the PDU of its true answer, and a stream in which that stands among other frames, echoes and noise."""
    request, pdu = draw(answered())
    pieces = st.one_of(other_frames(request), st.binary(max_size=12))
    before = b"".join(draw(st.lists(pieces, max_size=3)))
    after = b"".join(draw(st.lists(pieces, max_size=2)))
    return request, pdu, before + framed(request, pdu, None) + after


@given(traffic(), st.sampled_from([True, False, None]), cuts)
@settings(max_examples=150)
def test_how_the_stream_is_cut_makes_no_difference(
    case: tuple[Request, bytes, bytes], echo: bool | None, cuts: list[int]
) -> None:
    request, _, stream = case
    whole = feed(RtuGuard(request, echo=echo), stream, [])
    assert feed(RtuGuard(request, echo=echo), stream, cuts) == whole
    assert feed(RtuGuard(request, echo=echo), stream, list(range(len(stream)))) == whole


@given(traffic(), st.sampled_from([True, None]))
@settings(max_examples=150)
def test_among_others_frames_and_echoes_the_true_answer_passes_or_nothing(
    case: tuple[Request, bytes, bytes], echo: bool | None
) -> None:
    request, pdu, stream = case
    passed = feed(RtuGuard(request, echo=echo), stream, [])
    if passed is not None and passed != pdu:
        # Only what stands there whole and sound, and was drawn by chance: another's frame of the very same form.
        assert is_answer(request, passed)
        assert stream.count(framed(request, passed, None)) >= 1
        assert framed(request, passed, None) != request.rtu or stream.count(request.rtu) > 1


@given(requests, st.sampled_from([True, None]))
def test_an_echo_alone_is_never_an_answer(request: Request, echo: bool | None) -> None:
    for pieces in ([], list(range(300))):
        assert feed(RtuGuard(request, echo=echo), request.rtu, pieces) is None


@given(answered(), st.sampled_from([True, False, None]), cuts)
def test_behind_an_echo_the_true_answer_passes(case: tuple[Request, bytes], echo: bool | None, cuts: list[int]) -> None:
    request, pdu = case
    if echo is False and request.echo_could_answer:
        return  # on a line without echo this is the answer
    assert feed(RtuGuard(request, echo=echo), request.rtu + framed(request, pdu, None), cuts) == pdu


@given(units, addresses, addresses, st.integers(1, 20), st.binary(min_size=40, max_size=40))
def test_while_another_client_asks_the_like_nothing_passes(
    unit: int, address: int, elsewhere: int, count: int, data: bytes
) -> None:
    request = read_request(unit, "holding", address, count)
    other = read_request(unit, "holding", elsewhere, count)
    if other.rtu == request.rtu or other.rtu[2] == 3:
        return
    guard = RtuGuard(request)
    pdu = request.answer_head + data[: 2 * count]
    assert feed(guard, other.rtu + framed(request, pdu, None), []) is None
    assert guard.verdict().kind is FaultKind.OTHER_CLIENT


@st.composite
def exchanges(draw: st.DrawFn) -> tuple[list[bytes], bytes, list[int]]:
    """Frames of one Modbus TCP connection, their stream with noise between them that is no header, and its cuts."""
    frames = [
        framed(request, pdu, transaction)
        for transaction, (request, pdu) in enumerate(draw(st.lists(answered(), max_size=6)), start=1)
    ]
    noise = st.sampled_from([b"", b"", b"\xf5\x00\x81", b"\xff"])
    return frames, b"".join(draw(noise) + frame for frame in frames), draw(cuts)


@given(exchanges())
@settings(max_examples=150)
def test_the_stream_of_a_connection_is_cut_into_its_frames(case: tuple[list[bytes], bytes, list[int]]) -> None:
    frames, stream, cuts = case
    found: list[bytes] = []
    connection = MbapStream()
    edges = sorted({0, len(stream), *(cut % (len(stream) + 1) for cut in cuts)})
    for start, end in pairwise(edges):
        found += connection.feed(stream[start:end])
    assert found == frames
