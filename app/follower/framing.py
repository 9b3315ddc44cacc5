"""Requests as they stand on the wire: MBAP frames of Modbus TCP, RTU frames of a serial line. No sockets.

MBAP: MODBUS Messaging on TCP/IP Implementation Guide V1.0b; RTU: MODBUS over Serial Line V1.02 (both from memory).
"""

from __future__ import annotations

from collections.abc import Container
from dataclasses import dataclass
from typing import Final

from pymodbus.framer import FramerRTU

from app.errors import FanlightError
from app.modbus.crc import crc_fits
from app.modbus.framing import LONGEST_RTU

LONGEST_MBAP: Final = 260
"""Greatest length in a header that is still read. The specification allows 254; what is a little longer, such as a
write of 124 registers, gets the exception that it deserves instead of a closed connection."""

_SHORTEST_RTU: Final = 4
_LENGTHS: Final = {**dict.fromkeys((1, 2, 3, 4, 5, 6, 8), 8), 17: 4, 22: 10}
"""Bytes of RTU frames of requests that have always the same."""


class FrameError(FanlightError, ValueError):
    """The peer sent what cannot be the start of a frame; a TCP stream cannot be read on from there."""


@dataclass(frozen=True, slots=True)
class Mbap:
    """The header of a Modbus TCP frame."""

    transaction: int
    size: int
    """Bytes of the PDU."""
    unit: int


def mbap(header: bytes) -> Mbap:
    """The header from its seven bytes. Raises FrameError if protocol or length cannot be meant."""
    if header[2:4] != b"\0\0":
        raise FrameError(f"protocol identifier {header[2:4].hex()} is not Modbus")
    length = int.from_bytes(header[4:6], "big")
    if not 2 <= length <= LONGEST_MBAP:
        raise FrameError(f"length {length} is outside 2..{LONGEST_MBAP}")
    return Mbap(int.from_bytes(header[:2], "big"), length - 1, header[6])


def mbap_frame(transaction: int, unit: int, pdu: bytes) -> bytes:
    """A whole Modbus TCP frame."""
    return transaction.to_bytes(2, "big") + b"\0\0" + (len(pdu) + 1).to_bytes(2, "big") + bytes((unit,)) + pdu


def rtu_frame(unit: int, pdu: bytes) -> bytes:
    """A whole RTU frame with its CRC, low byte first."""
    body = bytes((unit,)) + pdu
    return body + FramerRTU.compute_CRC(body).to_bytes(2, "big")


def rtu_silence(baud: int) -> float:
    """The silent interval t3.5 between frames, s: 3.5 characters of 11 bits, fixed at 1.75 ms above 19 200 Bd."""
    return 0.00175 if baud > 19_200 else 3.5 * 11 / baud


def rtu_request(data: bytes, units: Container[int]) -> tuple[int, tuple[int, bytes] | None]:
    """The first request to one of `units` in what a line brought: bytes used up, and unit and PDU if there is one.

    Noise, requests to others and their answers, which every follower of a line hears, are passed over. Nothing is used
    up while the rest could still become a request.
    """
    waiting: int | None = None
    for start in range(len(data) - _SHORTEST_RTU + 1):
        if data[start] not in units:
            continue
        size = _request_size(data[start + 1 : start + 12])
        if size is not None and start + size > len(data):
            unfinished = True
        elif size is not None and crc_fits(data[start : start + size]):
            return start + size, (data[start], data[start + 1 : start + size - 2])
        else:
            unfinished = len(data) - start < LONGEST_RTU and _ended_by_silence(data[start + 1 :])
        if unfinished and waiting is None:
            waiting = start
    if waiting is not None:
        return waiting, None
    return max(0, len(data) - _SHORTEST_RTU + 1), None


def rtu_rest(data: bytes, units: Container[int]) -> tuple[int, bytes] | None:
    """The request that a silence has ended, of which no length is known or another than it says.

    It changes nothing, since it is refused for what it is, or (08) only given back: so noise taken for it does no harm.
    """
    for start in range(len(data) - _SHORTEST_RTU + 1):
        if data[start] in units and _ended_by_silence(data[start + 1 : -2]) and crc_fits(data[start:]):
            return data[start], data[start + 1 : -2]
    return None


def _ended_by_silence(pdu: bytes) -> bool:
    """Whether a request may begin so whose length only the silence after it tells.

    That is one of a function that nobody here knows, with a count that may be wrong, or with more data than usual. What
    has the form of an answer is one, such as our own on an adapter that echoes: answered again, it would never end.
    """
    match pdu[0]:
        case 8 | 15 | 16:
            return len(pdu) > 5
        case 23:
            return len(pdu) < 2 or pdu[1] != len(pdu) - 2
        case 43:
            return pdu[1:2] != bytes((14,))
        case function:
            return 0 < function < 0x80 and function not in _LENGTHS


def _request_size(pdu: bytes) -> int | None:
    """Bytes of the whole RTU frame of a request, from the start of its PDU; more than can be there if not told yet."""
    match pdu[0]:
        case 15 | 16:
            return 9 + pdu[5] if len(pdu) > 5 else LONGEST_RTU
        case 23:
            return 13 + pdu[9] if len(pdu) > 9 else LONGEST_RTU
        case 43 if pdu[1] == 14:
            return 7
        case function:
            return _LENGTHS.get(function)
