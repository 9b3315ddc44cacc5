"""What a serial port makes of characters that were sent with another speed or parity: the line, sampled bit by bit."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

_SAMPLES = 16
"""In one bit time, while waiting for a start bit."""


class Sampled(NamedTuple):
    """What a port reads, and how many of its characters were in error, as its driver counts them."""

    data: bytes
    parity_errors: int = 0
    framing_errors: int = 0
    breaks: int = 0


def bits_of(data: bytes, parity: str, stop_bits: int = 1) -> list[int]:
    """The line's levels, one a bit: start bit, eight data bits from the lowest on, parity if any, stop bits."""
    line = []
    for byte in data:
        bits = [byte >> place & 1 for place in range(8)]
        line += [0, *bits]
        if parity != "none":
            line.append((sum(bits) + (parity == "odd")) % 2)
        line += [1] * stop_bits
    return line


def sampled(
    line: Sequence[int], baud: float, receiver: tuple[int, str], rest: int = 1, *, keep: bool = False
) -> Sampled:
    """What a port set to `receiver` (baud, parity) reads of levels that change `baud` times a second; then it rests.

    A character without a stop bit (a framing error) reads as 00, as a POSIX terminal in raw mode hands it on; with
    `keep` as its bits were, as drivers of Linux hand it on while INPCK is off, and PARMRK marks it (from memory).
    Nothing but zeros is a break, and no framing error; a wrong parity is counted only where there is a stop bit.
    """
    bit = 1 / receiver[0]
    checked = receiver[1] != "none"
    stop = 9 + checked

    def level(at: float) -> int:
        index = int(at * baud)
        return line[index] if index < len(line) else rest

    out = bytearray()
    parity_errors = framing_errors = breaks = 0
    at, end = 0.0, (len(line) + 1) / baud
    while at < end:
        if level(at):
            # Nothing changes until the next level; samples keep their grid.
            at += max(1, math.ceil(((int(at * baud) + 1) / baud - at) / bit * _SAMPLES)) * bit / _SAMPLES
            continue
        if level(at + bit / 2):
            at += bit / _SAMPLES
            continue
        byte = sum(level(at + bit * (1.5 + place)) << place for place in range(8))
        tenth = level(at + bit * 9.5) if checked else 0
        whole = level(at + bit * (stop + 0.5))
        out.append(byte if whole or keep else 0)
        if not whole:
            breaks += not byte and not tenth
            framing_errors += bool(byte or tenth)
        elif checked:
            parity_errors += (byte.bit_count() + tenth) % 2 != (receiver[1] == "odd")
        at += bit * (stop + 0.5)
        while not whole and at < end and not level(at):
            at += bit / _SAMPLES
    return Sampled(bytes(out), parity_errors, framing_errors, breaks)


def frames_as_bits(frames: Sequence[bytes], parity: str, stop_bits: int = 1, pause: int = 40) -> list[int]:
    """Frames with so many bits of rest around each."""
    line = [1] * pause
    for frame in frames:
        line += [*bits_of(frame, parity, stop_bits), *[1] * pause]
    return line


def received(data: bytes, sender: tuple[int, str], receiver: tuple[int, str]) -> bytes:
    """The bytes that a port set to `receiver` (baud, parity) reads of what one set to `sender` sent without a pause."""
    return sampled(bits_of(data, sender[1]), sender[0], receiver).data
