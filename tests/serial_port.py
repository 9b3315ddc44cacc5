"""What a serial port makes of characters that were sent with another speed or parity: the line, sampled bit by bit."""

from __future__ import annotations

_SAMPLES = 16
"""In one bit time, while waiting for a start bit."""


def bits_of(data: bytes, parity: str) -> list[int]:
    """The line's levels, one a bit: start bit, eight data bits from the lowest on, parity if any, stop bit."""
    line = []
    for byte in data:
        bits = [byte >> place & 1 for place in range(8)]
        line += [0, *bits]
        if parity != "none":
            line.append((sum(bits) + (parity == "odd")) % 2)
        line.append(1)
    return line


def received(data: bytes, sender: tuple[int, str], receiver: tuple[int, str]) -> bytes:
    """The bytes that a port set to `receiver` (baud, parity) reads of what one set to `sender` sent without a pause.

    A character without a stop bit (a framing error) reads as 00, as a POSIX terminal in raw mode hands it on.
    """
    line = bits_of(data, sender[1])
    bit = 1 / receiver[0]
    stop = 9 + (receiver[1] != "none")

    def level(at: float) -> int:
        index = int(at * sender[0])
        return line[index] if index < len(line) else 1

    out = bytearray()
    at, end = 0.0, (len(line) + 1) / sender[0]
    while at < end:
        if level(at) or level(at + bit / 2):
            at += bit / _SAMPLES
            continue
        byte = sum(level(at + bit * (1.5 + place)) << place for place in range(8))
        whole = level(at + bit * (stop + 0.5))
        out.append(byte if whole else 0)
        at += bit * (stop + 0.5)
        while not whole and at < end and not level(at):
            at += bit / _SAMPLES
    return bytes(out)
