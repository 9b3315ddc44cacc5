"""The requests of another client that stand in what was heard on a line, beside our own."""

from __future__ import annotations

from contextlib import suppress

from app.modbus.framing import REQUEST, SHORTEST_RTU, whole_frames
from app.modbus.requests import Request, read_request
from app.signals.functions import READING, TABLE_OF_FUNCTION


def overheard(data: bytes) -> list[Request]:
    """The reads that another client has asked for in what was heard on an RTU line.

    Their answers may be on their way, and would pass for those of our own.
    """
    found = (read_in(data[at : at + length]) for at, length in whole_frames(data))
    return [request for request in found if request is not None]


def read_in(frame: bytes) -> Request | None:
    """The request to read that a sound frame of eight bytes is, if it is one and not an answer."""
    if len(frame) != REQUEST or frame[1] not in READING or frame[2] + SHORTEST_RTU == REQUEST:
        return None
    with suppress(ValueError):
        return read_request(
            frame[0], TABLE_OF_FUNCTION[frame[1]], int.from_bytes(frame[2:4], "big"), int.from_bytes(frame[4:6], "big")
        )
    return None
