"""The reply guard, byte by byte."""

from __future__ import annotations

import struct

import pytest

from app.client.faults import FaultKind
from app.client.reply_guard import Guard, MbapGuard, RtuGuard
from app.modbus.requests import Request, read_request, write_coil, write_register, write_registers
from tests.staged_follower import crc

READ = read_request(3, "holding", 10, 2)
TRUE_PDU = bytes.fromhex("03 04 00 0A 00 0B")


def rtu(unit: int, pdu: bytes) -> bytes:
    return bytes((unit,)) + pdu + crc(bytes((unit,)) + pdu)


def mbap(transaction: int, unit: int, pdu: bytes) -> bytes:
    return struct.pack(">HHHB", transaction, 0, len(pdu) + 1, unit) + pdu


TRUE = rtu(3, TRUE_PDU)
TCP_TRUE = mbap(7, 3, TRUE_PDU)


def both() -> list[tuple[Guard, bytes]]:
    return [(RtuGuard(READ), TRUE), (MbapGuard(READ, 7), TCP_TRUE)]


def test_the_true_answer_passes() -> None:
    for guard, frame in both():
        assert guard.feed(frame) == TRUE_PDU


def test_the_true_answer_passes_byte_by_byte_and_not_before_its_last() -> None:
    for guard, frame in both():
        for index in range(len(frame) - 1):
            assert guard.feed(frame[index : index + 1]) is None
        assert guard.feed(frame[-1:]) == TRUE_PDU


@pytest.mark.parametrize(
    "noise", [b"\x00", b"\xff\x00\x55", b"\x03", b"\x03\x03", b"\x03\x03\x04", b"\x00" * 40, b"\x03\x83\x02"]
)
def test_noise_ahead_is_skipped(noise: bytes) -> None:
    for guard, frame in both():
        assert guard.feed(noise) is None
        assert guard.feed(frame) == TRUE_PDU


def test_noise_behind_does_no_harm() -> None:
    for guard, frame in both():
        assert guard.feed(frame + b"\x03\x03\x04") == TRUE_PDU


def test_of_two_frames_in_one_piece_the_true_one_passes() -> None:
    assert RtuGuard(READ).feed(rtu(4, TRUE_PDU) + TRUE) == TRUE_PDU
    assert MbapGuard(READ, 7).feed(mbap(6, 3, bytes.fromhex("03 04 FF FF FF FF")) + TCP_TRUE) == TRUE_PDU


def test_an_exception_passes() -> None:
    assert RtuGuard(READ).feed(rtu(3, b"\x83\x02")) == b"\x83\x02"
    assert MbapGuard(READ, 7).feed(mbap(7, 3, b"\x83\x63")) == b"\x83\x63"


def test_what_stands_inside_another_units_frame_is_not_taken_for_the_answer() -> None:
    inner = TRUE
    outer = rtu(9, bytes((3, len(inner) + 1)) + b"\x00" + inner)
    guard = RtuGuard(READ)
    assert guard.feed(outer) is None
    assert guard.verdict().kind is FaultKind.WRONG_UNIT


@pytest.mark.parametrize(
    ("received", "kind"),
    [
        (b"", FaultKind.SILENCE),
        (rtu(4, TRUE_PDU), FaultKind.WRONG_UNIT),
        (rtu(3, b"\x04" + TRUE_PDU[1:]), FaultKind.WRONG_FUNCTION),
        (rtu(3, b"\x84\x02"), FaultKind.WRONG_FUNCTION),
        (rtu(3, bytes.fromhex("03 06 00 0A 00 0B 00 0C")), FaultKind.WRONG_LENGTH),
        (rtu(3, bytes.fromhex("03 02 00 0A")), FaultKind.WRONG_LENGTH),
        (TRUE[:-1] + b"\x00", FaultKind.BAD_CRC),
        (TRUE[:5] + b"\x40" + TRUE[6:], FaultKind.BAD_CRC),
        (TRUE[1:], FaultKind.BAD_CRC),
        (TRUE[:-3], FaultKind.CUT),
        (TRUE[:1], FaultKind.CUT),
        (TRUE[:2], FaultKind.CUT),
        (b"\xf0\x0f\xaa", FaultKind.GARBLED),
        (b"\xf0" * 3000, FaultKind.GARBLED),
    ],
)
def test_what_is_wrong_is_told_apart_on_rtu(received: bytes, kind: FaultKind) -> None:
    guard = RtuGuard(READ)
    assert guard.feed(received) is None
    assert guard.last_look() is None
    fault = guard.verdict()
    assert fault.kind is kind, fault
    assert fault.sentence
    assert len(fault.short) <= 20


@pytest.mark.parametrize(
    ("received", "kind"),
    [
        (b"", FaultKind.SILENCE),
        (mbap(7, 4, TRUE_PDU), FaultKind.WRONG_UNIT),
        (mbap(7, 255, TRUE_PDU), FaultKind.WRONG_UNIT),
        (mbap(7, 3, b"\x04" + TRUE_PDU[1:]), FaultKind.WRONG_FUNCTION),
        (mbap(7, 3, bytes.fromhex("03 06 00 0A 00 0B 00 0C")), FaultKind.WRONG_LENGTH),
        (mbap(0, 3, TRUE_PDU), FaultKind.WRONG_TRANSACTION),
        (mbap(8, 3, TRUE_PDU), FaultKind.WRONG_TRANSACTION),
        (mbap(6, 3, TRUE_PDU), FaultKind.LATE),
        (TCP_TRUE[:-2], FaultKind.CUT),
        (TCP_TRUE[:4], FaultKind.CUT),
        (struct.pack(">HHHB", 7, 0, 6, 3) + TRUE_PDU, FaultKind.WRONG_LENGTH),
        (struct.pack(">HHHB", 7, 1, 7, 3) + TRUE_PDU, FaultKind.GARBLED),
    ],
)
def test_what_is_wrong_is_told_apart_on_tcp(received: bytes, kind: FaultKind) -> None:
    guard = MbapGuard(READ, 7, {6: 40.0})
    assert guard.feed(received) is None
    assert guard.last_look() is None
    fault = guard.verdict()
    assert fault.kind is kind, fault
    if kind is FaultKind.LATE:
        assert fault.late_ms == 40.0


@pytest.mark.parametrize(
    ("request_", "other"),
    [
        (write_register(3, 10, 5), "06 00 0A 00 06"),
        (write_register(3, 10, 5), "06 00 0B 00 05"),
        (write_coil(3, 10, True), "05 00 0A 00 00"),
        (write_registers(3, 10, [1, 2]), "10 00 0A 00 01"),
        (write_registers(3, 10, [1, 2]), "10 00 0B 00 02"),
    ],
)
def test_a_write_must_be_acknowledged_as_it_was_asked(request_: Request, other: str) -> None:
    guards: list[tuple[Guard, bytes]] = [
        (RtuGuard(request_), rtu(3, bytes.fromhex(other))),
        (MbapGuard(request_, 7), mbap(7, 3, bytes.fromhex(other))),
    ]
    for guard, frame in guards:
        assert guard.feed(frame) is None
        assert guard.verdict().kind is FaultKind.WRONG_ECHO
    assert RtuGuard(request_).feed(rtu(3, request_.pdu[:5])) == request_.pdu[:5]


def test_the_echo_of_a_read_is_stripped_and_noticed() -> None:
    guard = RtuGuard(READ)
    assert guard.feed(READ.rtu) is None
    assert guard.echo_seen
    assert guard.verdict().kind is FaultKind.SILENCE
    assert guard.feed(TRUE) == TRUE_PDU


def test_on_a_line_that_echoes_the_echo_of_a_write_is_no_acknowledgement() -> None:
    write = write_register(3, 10, 5)
    guard = RtuGuard(write, echo=True)
    assert guard.feed(write.rtu) is None
    assert guard.verdict().kind is FaultKind.SILENCE
    assert guard.feed(write.rtu) == write.pdu


def test_bits_are_counted_in_bytes() -> None:
    request = read_request(1, "coil", 0, 9)
    assert RtuGuard(request).feed(rtu(1, b"\x01\x02\xff\x01")) == b"\x01\x02\xff\x01"
    assert RtuGuard(request).feed(rtu(1, b"\x01\x01\xff")) is None


def test_an_exception_behind_what_looks_like_an_answer_is_found_at_the_last_look() -> None:
    guard = RtuGuard(read_request(3, "holding", 10, 20))
    assert guard.feed(bytes.fromhex("03 03 28 00") + rtu(3, b"\x83\x02")) is None
    assert guard.last_look() == b"\x83\x02"
