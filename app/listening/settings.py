"""Which speed and parity others use, from what a port makes of their characters; nothing is sent for it.

Only the right speed gives frames with a good CRC. Which speed to listen at next, and which parity it is, follows from
where a port samples the line: the tests sample it bit by bit at all usual speeds. Measured there: of the bytes that
are not zero 57 % or more have no more than one change of level if the port is three times too fast or more, and fewer
if it is not; of a port that is too slow these are few.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final, NamedTuple

from app.modbus.serial_port import LineSettings, Parity

SINGLE_RUNS: Final = frozenset((0x00, 0x80, 0xC0, 0xE0, 0xF0, 0xF8, 0xFC, 0xFE, 0xFF))
"""Bytes with no more than one change of level: what a port that is too fast makes of a long bit."""
_TOO_FAST: Final = 0.57
_ENOUGH: Final = 20
"""Characters below which nothing is concluded."""
_NEAR: Final = 0.1
"""How far a rate of errors may be from the one that a parity would give."""


def too_fast(data: bytes) -> bool | None:
    """Whether a port that read this without finding a frame is at least three times too fast; None: too few bytes."""
    if len(data) < _ENOUGH:
        return None
    whole = [byte for byte in data if byte]
    return sum(byte in SINGLE_RUNS for byte in whole) >= _TOO_FAST * len(whole)


def speeds_to_try(usual: Sequence[int], tried: Mapping[int, bytes]) -> list[int]:
    """The speeds that were not listened at yet: first those that fit what was received at the others, in the order of
    `usual`; then the rest, since a hint is no proof."""

    def contradicted(speed: int) -> bool:
        for port, data in tried.items():
            fast = too_fast(data)
            if fast is not None and (2 * speed > port if fast else 2 * speed < port):
                return True
        return False

    return sorted((speed for speed in usual if speed not in tried), key=contradicted)


class ParityVerdict(NamedTuple):
    """The settings that others most likely use, and whether the errors of the port prove the parity."""

    settings: LineSettings
    sure: bool


def settings_spoken(
    listened: LineSettings, data: bytes, parity_errors: int | None, framing_errors: int | None
) -> ParityVerdict:
    """What others use, if `data` with good frames came at these settings with so many errors (None: not counted).

    A port with even parity finds no error in characters with even parity, one in all with odd parity, and one in those
    with an even number of ones if there is a second stop bit in its place. A port without parity misses the stop bit
    where the parity bit is 0. Whether a port reads on rightly after that differs; so it is sure only where each parity
    would give another rate.
    """
    errors = framing_errors if listened.parity == "none" else parity_errors
    if errors is None or len(data) < _ENOUGH:
        return ParityVerdict(listened, False)
    rate = errors / len(data)
    even_ones = sum(byte.bit_count() % 2 == 0 for byte in data) / len(data)
    baud, parity = listened.baud, listened.parity
    rates: dict[LineSettings, float]
    if parity == "none":
        rates = {
            listened: 0.0,
            LineSettings(baud, "even", 1): even_ones,
            LineSettings(baud, "odd", 1): 1 - even_ones,
        }
    else:
        other: Parity = "odd" if parity == "even" else "even"
        rates = {
            listened: 0.0,
            LineSettings(baud, other, 1): 1.0,
            LineSettings(baud, "none", 2): even_ones if parity == "even" else 1 - even_ones,
        }
    nearest, next_one = sorted(rates, key=lambda one: abs(rates[one] - rate))[:2]
    near, further = abs(rates[nearest] - rate), abs(rates[next_one] - rate)
    return ParityVerdict(nearest, near <= _NEAR < further)
