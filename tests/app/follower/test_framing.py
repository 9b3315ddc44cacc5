"""Frames on the wire."""

from __future__ import annotations

import pytest

from app.follower.framing import FrameError, mbap, mbap_frame, rtu_frame, rtu_request, rtu_rest, rtu_silence
from tests.app.follower.playing import rtu

UNITS = {0, 17}
READ = "03 006B 0003"


def test_an_mbap_frame_there_and_back() -> None:
    frame = mbap_frame(0x1234, 17, bytes.fromhex("03 02 00 07"))
    assert frame == bytes.fromhex("1234 0000 0005 11 03 02 00 07")
    header = mbap(frame[:7])
    assert (header.transaction, header.unit, header.size) == (0x1234, 17, 4)


@pytest.mark.parametrize("header", ["0001 0001 0006 11", "0001 0000 0001 11", "0001 0000 0105 11", "0001 0000 FFFF 11"])
def test_an_impossible_header_is_told(header: str) -> None:
    with pytest.raises(FrameError):
        mbap(bytes.fromhex(header))


def test_an_rtu_frame_ends_with_its_crc_low_byte_first() -> None:
    # CRC-16/MODBUS of ASCII 123456789 is 0x4B37 (catalogue of parametrised CRC algorithms).
    assert rtu_frame(ord("1"), b"23456789") == b"123456789\x37\x4b"


@pytest.mark.parametrize(
    ("baud", "milliseconds"),
    [(9600, 4.010), (19_200, 2.005), (38_400, 1.75), (115_200, 1.75)],  # Serial Line V1.02, from memory
)
def test_the_silent_interval(baud: int, milliseconds: float) -> None:
    assert rtu_silence(baud) * 1000 == pytest.approx(milliseconds, abs=0.001)


@pytest.mark.parametrize(
    "pdu",
    [
        "01 0013 0013",
        "02 00C4 0016",
        READ,
        "04 0008 0001",
        "05 00AC FF00",
        "06 0001 0003",
        "08 0000 A537",
        "0F 0013 000A 02 CD01",
        "10 0001 0002 04 000A 0102",
        "16 0004 00F2 0025",
        "17 0003 0006 000E 0003 06 00FF 00FF 00FF",
    ],
)
def test_a_request_of_every_function_is_known_by_its_length(pdu: str) -> None:
    frame = rtu(17, pdu)
    for size in range(1, len(frame)):
        used, found = rtu_request(frame[:size], UNITS)
        assert found is None
        assert used == 0, "bytes of a frame that was not whole yet were thrown away"
    assert rtu_request(frame + b"\x11", UNITS) == (len(frame), (17, bytes.fromhex(pdu)))


def test_noise_in_front_is_passed_over_even_if_it_looks_like_a_start() -> None:
    frame = rtu(17, READ)
    for noise in (b"\xff", b"\x00\x00\x00", b"\x11\x03", b"\x11\x10\x00", bytes(range(60))):
        used, found = rtu_request(noise + frame, UNITS)
        assert (used, found) == (len(noise) + len(frame), (17, bytes.fromhex(READ)))


def test_traffic_of_others_is_passed_over() -> None:
    theirs = rtu(18, "03 006B 0003") + rtu(18, "03 06 022B 0000 0064")
    used, found = rtu_request(theirs + rtu(17, READ), UNITS)
    assert (used, found) == (len(theirs) + 8, (17, bytes.fromhex(READ)))
    used, found = rtu_request(theirs, UNITS)
    assert found is None


def test_a_wrong_crc_is_no_request() -> None:
    frame = bytearray(rtu(17, READ))
    frame[-1] ^= 1
    assert rtu_request(bytes(frame), UNITS)[1] is None
    assert rtu_rest(bytes(frame), UNITS) is None


def test_an_unknown_function_is_known_by_the_silence_after_it() -> None:
    frame = rtu(17, "2B 0E 01 00")
    assert rtu_request(frame, UNITS) == (0, None)
    assert rtu_rest(frame, UNITS) == (17, bytes.fromhex("2B 0E 01 00"))
    assert rtu_rest(rtu(18, "2B 0E 01 00"), UNITS) is None


def test_two_requests_in_a_row_come_one_by_one() -> None:
    both = rtu(17, READ) + rtu(17, "06 0001 0003")
    used, first = rtu_request(both, UNITS)
    assert first == (17, bytes.fromhex(READ))
    assert rtu_request(both[used:], UNITS)[1] == (17, bytes.fromhex("06 0001 0003"))
