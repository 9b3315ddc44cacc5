"""Frames on the wire."""

from __future__ import annotations

import pytest

from app.follower.framing import (
    FrameError,
    mbap,
    mbap_frame,
    rtu_frame,
    rtu_request,
    rtu_rest,
    rtu_silence,
)
from app.modbus.framing import LONGEST_RTU
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
        "11",
        "16 0004 00F2 0025",
        "17 0003 0006 000E 0003 06 00FF 00FF 00FF",
        "2B 0E 01 00",
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


@pytest.mark.parametrize(
    "pdu",
    [
        "07",
        "2B 0D 0001 0203",
        # Counts that do not say how long the frame is.
        "0F 0013 0000 00 CD01",
        "0F 0013 000A 00 CD01",
        "0F 0013 000A 04 CD01",
        "10 0001 0000 00 000A 0102",
        "10 0001 007B 06 000A 0102",
        "10 0001 007B 06 022B 0001 0064 0000",
        "17",
        "17 03",
        "17 0003 0000 0000 0001 00 1234",
        "17 0003 0000 0000 0001 08 1234",
        "08 0000 0102 0304",
    ],
)
def test_a_request_of_another_length_than_it_says_is_known_by_the_silence_after_it(pdu: str) -> None:
    frame = rtu(17, pdu)
    for noise in (b"", b"\xff\x00", rtu(18, READ)):
        used, found = rtu_request(noise + frame, UNITS)
        assert found is None
        assert used <= len(noise)
        assert rtu_rest((noise + frame)[used:], UNITS) == (17, bytes.fromhex(pdu))
    assert rtu_rest(rtu(18, pdu), UNITS) is None
    # Without the silence a request behind it is not lost.
    assert rtu_request(frame + rtu(17, READ), UNITS) == (len(frame) + 8, (17, bytes.fromhex(READ)))


@pytest.mark.parametrize(
    "answer",
    [
        "83 02",
        "03 06 022B 0000 0064",
        "01 02 CD6B",
        "0F 0013 000A",
        "10 0001 0002",
        "11 04 11 FF 6974",
        "17 04 0001 0063",
        "2B 0E 01 82 00 00 01 00 01 41",
    ],
)
def test_answers_are_not_answered(answer: str) -> None:
    """An adapter that echoes brings the follower's own, and answering them would never end."""
    frame = rtu(17, answer)
    used, found = rtu_request(frame, UNITS)
    assert found is None
    assert rtu_rest(frame[used:], UNITS) is None


def test_what_waits_for_a_silence_is_bounded() -> None:
    endless = 50 * bytes.fromhex("11 10 0000 007B F6 11 41 00 10 00")
    used, found = rtu_request(endless, UNITS)
    assert found is None
    assert len(endless) - used <= LONGEST_RTU + 9


def test_two_requests_in_a_row_come_one_by_one() -> None:
    both = rtu(17, READ) + rtu(17, "06 0001 0003")
    used, first = rtu_request(both, UNITS)
    assert first == (17, bytes.fromhex(READ))
    assert rtu_request(both[used:], UNITS)[1] == (17, bytes.fromhex("06 0001 0003"))
