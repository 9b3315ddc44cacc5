"""How long things take on a line: characters, silent intervals, and the predicted time of one transaction.

Serial times follow MODBUS over Serial Line V1.02 (from memory): frames are kept apart by 3.5 character times; above
19 200 Bd the intervals are fixed at 0.750 ms (t1.5) and 1.750 ms (t3.5).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from app.bus.endpoint import Endpoint
from app.signals.numbering import Table

FASTEST_WITH_SCALED_SILENCE: Final = 19_200
"""Baud rate above which the silent intervals no longer shrink with the character time."""

_RTU_REQUEST: Final = 8
"""Characters of a read request: unit, function, address (2), count (2), CRC (2)."""
_RTU_ANSWER: Final = 5
"""Characters of a read answer beside its data: unit, function, byte count, CRC (2)."""
_NETWORK_MS: Final = 1.0
"""Assumed round trip of one transaction over a local network with a follower that is not busy."""
_NETWORK_BYTE_MS: Final = 0.001
"""Assumed cost of one more byte in an answer over a network."""


@dataclass(frozen=True, slots=True)
class Pace:
    """What a line charges.

    `fixed_ms` is spent on every read whatever it brings, `byte_ms` on every byte of data in the answer, `silence_ms`
    (t3.5) is kept before a request, `character_ms` is the time of one character (0 where the line hides it).
    """

    fixed_ms: float
    byte_ms: float
    silence_ms: float
    character_ms: float

    def read_ms(self, table: Table, count: int, turnaround_ms: float = 0.0) -> float:
        """Predicted time of one read of `count` registers or bits, in milliseconds.

        `turnaround_ms` is the follower's own time between the end of the request and the start of its answer.
        """
        return self.fixed_ms + self.byte_ms * data_bytes(table, count) + turnaround_ms


def data_bytes(table: Table, count: int) -> int:
    """Bytes of data in the answer to a read of `count` registers (two each) or bits (eight to a byte)."""
    return 2 * count if table in ("holding", "input") else (count + 7) // 8


def character_bits(parity: str, stop_bits: int) -> int:
    """Bits of one character on the wire: a start bit, eight data bits, parity if any, stop bits."""
    return 1 + 8 + (parity != "none") + stop_bits


def silent_intervals_ms(baud: int, bits: int = 11) -> tuple[float, float]:
    """t1.5 and t3.5 in milliseconds at `baud` bits a second with `bits` bits a character."""
    if baud > FASTEST_WITH_SCALED_SILENCE:
        return 0.750, 1.750
    character = 1000 * bits / baud
    return 1.5 * character, 3.5 * character


def pace_of(endpoint: Endpoint) -> Pace:
    """What the line at `endpoint` charges.

    A serial line: 8 characters out, 5 and the data back, two silent intervals. For RTU frames in a TCP stream the
    speed behind the converter is not known; the usual 19 200 Bd are assumed, with the network's round trip on top.
    """
    if endpoint.kind == "tcp":
        return Pace(_NETWORK_MS, _NETWORK_BYTE_MS, 0.0, 0.0)
    bits = character_bits(endpoint.parity, endpoint.stop_bits)
    character = 1000 * bits / endpoint.baud
    silence = silent_intervals_ms(endpoint.baud, bits)[1]
    fixed = (_RTU_REQUEST + _RTU_ANSWER) * character + 2 * silence
    if endpoint.kind == "serial-over-tcp":
        # The converter keeps the bus's silence itself; ours only keeps the frames apart in the stream.
        return Pace(fixed + _NETWORK_MS, character, 1.750, 0.0)
    return Pace(fixed, character, silence, character)
