"""What most likely damaged an answer: told from bytes as a serial port would have read them."""

from __future__ import annotations

import struct

import pytest
from hypothesis import given, strategies as st

from app.client.faults import FaultKind
from app.client.reply_guard import RtuGuard
from app.modbus.damage import likely_cause
from app.modbus.requests import read_request
from tests.serial_port import received
from tests.staged_follower import crc

VALUES = [0, 1, 500, 1234, 38_150, 65_535, 400, 3, 20_000, 77]
COUNTS = [2, 5, 10]


def answer(count: int) -> bytes:
    body = struct.pack(f">BBB{count}H", 3, 3, 2 * count, *(VALUES * 2)[:count])
    return body + crc(body)


def told(count: int, data: bytes) -> str:
    """The whole sentence that the guard has for what was received."""
    guard = RtuGuard(read_request(3, "holding", 10, count))
    assert guard.feed(data) is None
    assert guard.last_look() is None
    fault = guard.verdict()
    assert fault.kind in (FaultKind.BAD_CRC, FaultKind.GARBLED), fault
    return fault.sentence


def test_the_sampled_port_reads_what_was_sent_when_both_agree() -> None:
    for parity in ("none", "even", "odd"):
        assert received(answer(5), (19_200, parity), (19_200, parity)) == answer(5)


@pytest.mark.parametrize("count", COUNTS)
@pytest.mark.parametrize(("sender", "receiver"), [(9600, 19_200), (19_200, 38_400), (9600, 38_400), (9600, 115_200)])
def test_a_follower_that_is_slower(count: int, sender: int, receiver: int) -> None:
    sentence = told(count, received(answer(count), (sender, "even"), (receiver, "even")))
    assert "wrong baud rate" in sentence
    assert "lower than this line's" in sentence


@pytest.mark.parametrize("count", COUNTS)
@pytest.mark.parametrize(("sender", "receiver"), [(38_400, 19_200), (19_200, 9600), (115_200, 57_600)])
def test_a_follower_that_is_faster(count: int, sender: int, receiver: int) -> None:
    assert "higher than this line's" in told(count, received(answer(count), (sender, "even"), (receiver, "even")))


@pytest.mark.parametrize("count", COUNTS)
def test_a_follower_that_sends_no_parity_bit(count: int) -> None:
    assert "wrong parity" in told(count, received(answer(count), (19_200, "none"), (19_200, "even")))


@pytest.mark.parametrize("count", COUNTS)
@pytest.mark.parametrize("parity", ["even", "odd"])
def test_a_follower_that_sends_a_parity_bit_which_is_not_expected(count: int, parity: str) -> None:
    data = received(answer(count), (19_200, parity), (19_200, "none"))
    assert len(data) == len(answer(count))
    assert data != answer(count)
    assert f"the bytes suggest {parity} parity" in told(count, data)


@given(st.integers(1, 30), st.data())
def test_one_wrong_bit_is_found(count: int, data: st.DataObject) -> None:
    frame = bytearray(answer(min(count, 20)))
    place = data.draw(st.integers(24, 8 * len(frame) - 1))  # behind what the guard knows the answer by
    frame[place // 8] ^= 1 << place % 8
    assert f"one bit is wrong (bit {place % 8} of byte {place // 8 + 1})" in told(min(count, 20), bytes(frame))


def test_a_first_byte_that_is_missing() -> None:
    sentence = told(5, answer(5)[1:])
    assert "the first byte is missing" in sentence
    assert "turn-off delay" in sentence


def test_a_byte_that_came_twice() -> None:
    frame = answer(5)
    assert "byte 9 came twice" in told(5, frame[:9] + frame[8:])


def test_a_first_byte_that_came_twice_does_no_harm() -> None:
    guard = RtuGuard(read_request(3, "holding", 10, 5))
    assert guard.feed(answer(5)[:1] + answer(5)) == answer(5)[1:-2]


def test_our_own_request_come_back_damaged() -> None:
    request = read_request(3, "holding", 10, 20)
    echo = bytearray(request.rtu)
    echo[4] ^= 0x21
    guard = RtuGuard(request)
    assert guard.feed(bytes(echo)) is None
    sentence = guard.verdict().sentence
    assert "our own request, returned damaged" in sentence
    assert "second client" in sentence


@given(st.binary(min_size=1, max_size=300))
def test_any_bytes_have_a_sentence(data: bytes) -> None:
    cause = likely_cause(read_request(3, "holding", 10, 20), data)
    assert cause is None or (cause.seen and cause.check)
