"""Where whole frames stand in bytes from a line, of whomever to whatever, in either framing.

Frames as in MODBUS Application Protocol V1.1b3 and MODBUS over Serial Line V1.02 (from memory).
"""

from __future__ import annotations

from typing import Final

from app.modbus.crc import crc_fits

SHORTEST_RTU: Final = 5
"""Bytes of the shortest frame in RTU framing: an exception."""
REQUEST: Final = 8
"""The length of a request to read in RTU framing, and of the answer to most writes."""
MBAP_HEADER: Final = 7
"""Bytes of an MBAP header, the unit included."""
LONGEST_RTU: Final = 256
"""Bytes of the longest frame in RTU framing."""
UNDECIDED: Final = -1
"""Of a frame that may have begun and is not complete."""

_LONGEST_PDU: Final = 253
_FIXED_LENGTH: Final = {5: 8, 6: 8, 7: 5, 8: 8, 11: 8, 15: 8, 16: 8, 22: 10}
"""Whole RTU frames of answers that have one length, by function."""
COUNTED: Final = frozenset((1, 2, 3, 4, 12, 17, 20, 21, 23))
"""Functions whose answers carry a byte count as their first data byte."""
_OF_REGISTERS: Final = frozenset((3, 4, 23))
"""Those of them that answer with whole registers."""
_READS: Final = frozenset((1, 2, 3, 4))


def sound_frames(data: bytes) -> list[bytes]:
    """All frames in RTU framing, of whomever to whatever, that stand whole in `data`."""
    return [data[at : at + length] for at, length in whole_frames(data)]


def whole_frame(data: bytes, at: int, *, wait: bool) -> int:
    """The length of a complete frame, of whomever to whatever, that begins at `at` and whose CRC fits; else 0.

    With `wait`, UNDECIDED if one may have begun there that is not complete.
    """
    left = len(data) - at
    if not 1 <= data[at] <= 247:
        return 0
    if left < 2:
        return UNDECIDED if wait else 0
    lengths = _lengths(data, at, left)
    if lengths is None:
        return UNDECIDED if wait else 0
    for length in lengths:
        if left < length:
            return UNDECIDED if wait else 0
        if crc_fits(data[at : at + length]):
            return length
    return 0


def _lengths(data: bytes, at: int, left: int) -> tuple[int, ...] | None:
    """The lengths that a frame beginning at `at` may have, shortest first; None if that cannot be told yet."""
    function = data[at + 1]
    if function > 0x80:
        return (SHORTEST_RTU,)
    if function in COUNTED:
        if left < 3:
            return None
        amount = data[at + 2]
        counted = amount + SHORTEST_RTU
        fits = amount > 0 and counted <= LONGEST_RTU and not (function in _OF_REGISTERS and amount % 2)
        asked = (REQUEST,) if function in _READS else ()
        return tuple(sorted({*asked, counted})) if fits else asked
    return (_FIXED_LENGTH[function],) if function in _FIXED_LENGTH else ()


def whole_frames(data: bytes) -> list[tuple[int, int]]:
    """Where sound frames stand in `data`, and their lengths."""
    found: list[tuple[int, int]] = []
    at = 0
    while len(data) - at >= SHORTEST_RTU:
        length = whole_frame(data, at, wait=False)
        if length:
            found.append((at, length))
        at += length or 1
    return found


def mbap_frames(data: bytes, *, final: bool) -> tuple[list[bytes], bytes]:
    """The whole frames in `data`, and what is left at its end. `final`: a frame that is not complete is none."""
    frames: list[bytes] = []
    at, end = 0, len(data)
    while end - at > MBAP_HEADER:
        length = mbap_length(data, at)
        if length is None:
            at += 1
        elif end - at >= length:
            frames.append(data[at : at + length])
            at += length
        elif final:
            at += 1
        else:
            break
    return frames, data[at:]


def mbap_length(data: bytes, at: int) -> int | None:
    """The length of the frame whose MBAP header and function stand at `at`, or None if they cannot."""
    if len(data) - at <= MBAP_HEADER:
        return None
    length = int.from_bytes(data[at + 4 : at + 6], "big")
    if data[at + 2 : at + 4] != b"\0\0" or not 2 < length <= _LONGEST_PDU + 1 or not data[at + 7] & 0x7F:
        return None
    return 6 + length
