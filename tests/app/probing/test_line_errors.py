"""What a serial port tells of damaged characters. Electrical errors are staged: a pseudo terminal has none.

The layout of the counters and the marks are from memory of Linux (struct serial_icounter_struct) and of termios(3).
"""

from __future__ import annotations

import errno
import os
import struct

import pytest

from app.client.endpoint import Endpoint
from app.probing.line import ReadingLine
from app.probing.line_errors import (
    NOTHING_TOLD,
    CharacterErrors,
    MarkedData,
    PortErrors,
    counted_by_system,
    mark_in_data,
)

posix = pytest.mark.skipif(os.name != "posix", reason="needs a pty")


class Driver:
    """Answers the call as a driver that counts does."""

    def __init__(self, received: int = 1000) -> None:
        self.received = received
        self.frame = self.overrun = self.parity = self.breaks = self.buffer_overrun = 0

    def __call__(self, descriptor: int, call: int, data: bytes) -> bytes:
        assert (call, len(data)) == (0x545D, 80)
        modem_and_traffic = [9, 9, 9, 9, self.received, 1000]
        errors = [self.frame, self.overrun, self.parity, self.breaks, self.buffer_overrun]
        return struct.pack("20i", *modem_and_traffic, *errors, *[0] * 9)


def test_linux_counts_each_kind_of_error() -> None:
    driver = Driver()
    errors = PortErrors("/dev/ttyUSB0", 3, driver)
    errors.port_set_up(parity=True)
    before = errors.counts
    assert before == CharacterErrors(0, 0, 0, 0)
    driver.parity, driver.frame, driver.overrun, driver.buffer_overrun, driver.breaks = 5, 7, 1, 2, 4
    assert errors.counts.since(before) == CharacterErrors(parity=5, framing=7, overruns=3, breaks=4)
    assert errors.sound(b"\xff\x00\x00\xff\xff") == b"\xff\x00\x00\xff\xff"  # the data is left alone


def test_counters_of_32_bits_that_start_again_do_no_harm() -> None:
    assert CharacterErrors(-2_147_483_646).since(CharacterErrors(2_147_483_647)).parity == 3


def refuse(descriptor: int, call: int, data: bytes) -> bytes:
    raise OSError(errno.ENOTTY, "Inappropriate ioctl for device")


def test_a_port_that_does_not_count_tells_nothing_rather_than_zeros() -> None:
    assert counted_by_system(3, refuse) == NOTHING_TOLD
    assert NOTHING_TOLD.since(CharacterErrors(1, 1, 1, 1)) == NOTHING_TOLD


def test_a_driver_that_counts_no_characters_either_tells_nothing_rather_than_zeros() -> None:
    errors = PortErrors("/dev/ttyUSB0", 3, Driver(received=0))
    before = errors.counts
    assert before == CharacterErrors(0, 0, 0, 0)  # so far nothing may have come
    errors.sound(b"\x01")
    assert errors.counts.since(before) == NOTHING_TOLD


# Marks


@pytest.mark.parametrize("lump", [1, 2, 3, 100])
def test_marks_are_taken_out_and_counted(lump: int) -> None:
    # termios(3): FF 00 xx is a damaged xx, FF FF a sound FF, FF 00 00 a break.
    data = b"\x01\xff\xff\x02\xff\x00\x41\xff\x00\xff\xff\x00\x00\x03\xff\xff"
    marked = MarkedData()
    assert b"".join(marked.sound(data[at : at + lump]) for at in range(0, len(data), lump)) == (
        b"\x01\xff\x02\x41\xff\x00\x03\xff"
    )
    assert (marked.damaged, marked.breaks) == (2, 1)


def test_an_ff_that_is_not_doubled_is_a_character_all_the_same() -> None:
    assert MarkedData().sound(b"\xff\x41\x42") == b"\xff\x41\x42"


def pair() -> tuple[int, int]:
    import tty

    master, slave = os.openpty()
    tty.setraw(slave)
    return master, slave


@posix
def test_a_terminal_doubles_a_sound_ff_once_it_is_asked_to_mark() -> None:
    master, slave = pair()
    try:
        mark_in_data(slave)
        os.write(master, b"\x01\xff\x00\xff")
        assert os.read(slave, 100) == b"\x01\xff\xff\x00\xff\xff"
    finally:
        os.close(master)
        os.close(slave)


@posix
def test_a_port_without_counters_is_asked_to_mark_each_time_that_it_is_set_up() -> None:
    master, slave = pair()
    try:
        errors = PortErrors("/dev/ttyUSB0", slave, refuse)  # it is none, but marks as one does
        for parity, expected in ((True, CharacterErrors(1, None, None, 1)), (False, CharacterErrors(None, 1, None, 1))):
            import tty

            tty.setraw(slave)  # as pyserial does
            errors.port_set_up(parity=parity)
            os.write(master, b"\xff\x01")
            assert errors.sound(os.read(slave, 100)) == b"\xff\x01"
            before = errors.counts
            assert errors.sound(b"\xff\x00\x41\xff\x00\x00") == b"\x41\x00"
            assert errors.counts.since(before) == expected
    finally:
        os.close(master)
        os.close(slave)


@posix
def test_a_pseudo_terminal_tells_nothing_and_is_not_asked_to_mark() -> None:
    master, slave = pair()
    try:
        errors = PortErrors(os.ttyname(slave), slave)
        errors.port_set_up(parity=True)
        assert errors.counts == NOTHING_TOLD
        os.write(master, b"\xff\xff")
        assert os.read(slave, 100) == b"\xff\xff"
    finally:
        os.close(master)
        os.close(slave)


# On the line that asks and listens


class Counting:
    """The errors of a port on which every character has a wrong parity bit."""

    counts = CharacterErrors(0, 0, 0, 0)

    def sound(self, data: bytes) -> bytes:
        self.counts = CharacterErrors((self.counts.parity or 0) + len(data), 0, 0, 0)
        return data


@posix
def test_what_is_overheard_tells_its_errors() -> None:
    master, slave = pair()
    try:
        with ReadingLine(Endpoint.serial(os.ttyname(slave))) as line:
            os.write(master, bytes(8))
            assert line.listen(0.1).parity_errors is None
            line._wire._errors = Counting()  # type: ignore[attr-defined]
            os.write(master, bytes(8))
            heard = line.listen(0.1)
            assert (heard.data, heard.parity_errors, heard.framing_errors, heard.breaks) == (bytes(8), 8, 0, 0)
    finally:
        os.close(master)
        os.close(slave)
