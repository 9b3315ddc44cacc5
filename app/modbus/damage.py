"""What most likely damaged an answer in RTU framing, as far as its bytes show it.

What a serial port makes of characters with another speed or parity follows from where it samples them: a stop bit that
is not found is a framing error, which systems hand on as a byte of zeros. The tests sample such characters bit by bit.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from app.language import translate
from app.modbus.crc import crc_fits
from app.modbus.requests import Request

_RUNS: Final = frozenset((0x00, 0x80, 0xC0, 0xE0, 0xF0, 0xF8, 0xFC, 0xFE, 0xFF))
"""Bytes without more than one change in them, as a too fast port sees one long bit, and as a framing error reads."""
_RUNS_SHARE: Final = 0.55
"""Share of such bytes from which on the speed or the parity is suspected."""
_SURE: Final = 5
"""Bytes with the same parity that are hardly chance."""
_POLYNOMIAL: Final = 0xA001
"""Of the CRC, reflected."""


@dataclass(frozen=True, slots=True)
class DamageCause:
    """What was `seen`, and what to `check`; `of_answer` if the bytes are surely those of an answer."""

    seen: str
    check: str
    of_answer: bool = False


def likely_cause(request: Request, data: bytes) -> DamageCause | None:
    """Why no frame in `data`, which came in answer to `request`, is sound; None if nothing points anywhere."""
    head = bytes((request.unit,)) + request.answer_head
    wanted = request.answer_characters
    finds = (
        _first_byte_missing(request, data),
        _damaged_echo(request, data),
        _doubled_byte(head, data),
        _unexpected_parity(head, data, wanted),
        _one_bit(head, data[:wanted]) if len(data) >= wanted else None,
        _speed_or_parity(data, wanted),
    )
    return next((cause for cause in finds if cause is not None), None)


def _first_byte_missing(request: Request, data: bytes) -> DamageCause | None:
    if len(data) < 4 or not crc_fits(bytes((request.unit,)) + data):
        return None
    return DamageCause(
        translate("bus", "the first byte is missing"),
        translate(
            "bus",
            "the adapter or converter switches from sending to receiving too late; shorten its turn-off delay, or "
            "increase the device's answer delay",
        ),
        of_answer=True,
    )


def _damaged_echo(request: Request, data: bytes) -> DamageCause | None:
    own = request.rtu
    alike = sum(one == other for one, other in zip(own, data, strict=False))
    if request.echo_could_answer or len(data) < len(own) or not len(own) - 2 <= alike < len(own):
        return None
    return DamageCause(
        translate("bus", "this is our own request, returned damaged"),
        translate(
            "bus",
            "the adapter echoes, and something else sends on the line at the same time; check for a second client, "
            "two devices with the same unit address, and swapped wires",
        ),
    )


def _doubled_byte(head: bytes, data: bytes) -> DamageCause | None:
    for at in range(len(data) - 1):
        if data[at] == data[at + 1]:
            rest = data[:at] + data[at + 1 :]
            if rest.startswith(head[:2]) and crc_fits(rest):
                return DamageCause(
                    translate("bus", "byte {number} came twice").format(number=at + 1),
                    translate("bus", "check the converter and its driver; a doubled byte is not a wiring fault"),
                    of_answer=True,
                )
    return None


def _one_bit(head: bytes, frame: bytes) -> DamageCause | None:
    """One bit was turned over: the remainder of the whole frame is that of this bit alone."""
    if not frame.startswith(head[:2]):
        return None
    rest = _remainder(frame)
    of_bit = 0x0001
    # The last bit on the wire is the highest of the last byte; each one before it is one step of the register further.
    bits = len(frame) * 8
    for back in range(bits):
        of_bit = _POLYNOMIAL if back == 0 else of_bit >> 1 ^ (_POLYNOMIAL if of_bit & 1 else 0)
        if of_bit == rest:
            place = bits - 1 - back
            return DamageCause(
                translate("bus", "one bit is wrong (bit {bit} of byte {byte})").format(
                    bit=place % 8, byte=place // 8 + 1
                ),
                translate(
                    "bus",
                    "interference on the line; check termination (120 ohm), shield, and distance from motor cables",
                ),
                of_answer=True,
            )
    return None


def _remainder(data: bytes) -> int:
    """The CRC register after all of `data` from 0 on a sound frame gives 0; started as the CRC is."""
    register = 0xFFFF
    for byte in data:
        register ^= byte
        for _ in range(8):
            register = register >> 1 ^ (_POLYNOMIAL if register & 1 else 0)
    return register


def _unexpected_parity(head: bytes, data: bytes, wanted: int) -> DamageCause | None:
    """The parity bit stands where the stop bit is looked for: every character in which it is 0 reads as zeros.

    So the characters that are left all have the same parity (chance: one in 2 ** their number), and the other one than
    that of the follower, because in them its parity bit is 1.
    """
    left = [byte for byte in data if byte]
    odd = {byte.bit_count() % 2 for byte in left}
    known = list(zip(head, data, strict=False))
    lost = sum(true != byte == 0 for true, byte in known)
    if len(data) != wanted or len(odd) != 1 or len(left) == len(data) or not (lost or len(left) >= _SURE):
        return None
    if any(byte not in (true, 0) for true, byte in known):
        return None
    sends_even = translate(
        "bus",
        "this looks like a wrong parity: the device sends a parity bit that this line does not expect; the bytes "
        "suggest even parity",
    )
    sends_odd = translate(
        "bus",
        "this looks like a wrong parity: the device sends a parity bit that this line does not expect; the bytes "
        "suggest odd parity",
    )
    return DamageCause(
        translate("bus", "some bytes read as zero, the others are right"),
        sends_even if 1 in odd else sends_odd,
        of_answer=True,
    )


def _speed_or_parity(data: bytes, wanted: int) -> DamageCause | None:
    if len(data) < 2 or sum(byte in _RUNS for byte in data) < _RUNS_SHARE * len(data):
        return None
    share = len(data) / wanted
    if share > 1.05:
        return DamageCause(
            translate(
                "bus", "{count} bytes instead of {wanted}, most of them only zeros or a single run of ones"
            ).format(count=len(data), wanted=wanted),
            translate("bus", "this looks like a wrong baud rate: the device's is lower than this line's"),
        )
    if share > 0.6:
        return DamageCause(
            translate("bus", "{count} bytes instead of {wanted}, most of them zeros").format(
                count=len(data), wanted=wanted
            ),
            translate(
                "bus",
                "this looks like a wrong parity: the device sends no parity bit, or a different number of stop bits",
            ),
        )
    return DamageCause(
        translate("bus", "{count} bytes instead of {wanted}, most of them zeros").format(
            count=len(data), wanted=wanted
        ),
        translate("bus", "this looks like a wrong baud rate: the device's is higher than this line's"),
    )
