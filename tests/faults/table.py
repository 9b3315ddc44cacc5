"""The faults that are staged, one a row: what the follower does, on which framings, and what it must be called."""

from __future__ import annotations

import struct
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Final

from app.client.faults import EXCEPTIONS, FaultKind, exception_text
from app.signals.reading import Quality
from tests.staged_follower import CLOSE, RESET, Answer, Asked

TIMEOUT_MS: Final = 100
"""The time-out of the lines on which the faults are staged. Everything else is measured in it."""
T: Final = TIMEOUT_MS / 1000

FRAMINGS: Final = {"tcp": "Modbus TCP", "serial-over-tcp": "RTU over TCP", "serial": "RTU on a pty"}
ALL: Final = tuple(FRAMINGS)
RTU: Final = ("serial-over-tcp", "serial")
NETWORK: Final = ("tcp", "serial-over-tcp")

MOMENT: Final = frozenset((FaultKind.SILENCE,))
"""What a late answer must be called at the time-out, when nothing has come yet."""
TWICE: Final = frozenset((FaultKind.UNASKED,))
"""What an answer must be called that comes a second time."""

Act = Callable[[Asked, bytes], Answer]
"""What the follower does about a request to which the second argument is the PDU of the true answer."""


@dataclass(frozen=True, slots=True)
class StagedFault:
    """One row of the table.

    `act` is None where the follower's whole end goes away instead.
    `named` is what every failed request or connection has to be called, and `says` words that its sentence must have;
    None where nothing may fail. `also` are names that single requests may get besides. `once`: only one request meets
    it. `shows` is the quality that all readings must take while it lasts; None where they go on, which is then
    demanded.
    """

    name: str
    act: Act | None
    named: FaultKind | None = None
    framings: tuple[str, ...] = ALL
    says: str = ""
    shows: Quality | None = Quality.STALE
    also: frozenset[FaultKind] = frozenset()
    once: bool = False
    write_fails: bool = False
    """Whether the write that is asked for as it begins must be reported as not done."""

    @property
    def goes_on(self) -> bool:
        """Whether values keep coming while it lasts."""
        return self.shows is None and not self.once


def late(times: float) -> Act:
    return lambda asked, pdu: [times * T, asked.framed(pdu)]


def of_reads(change: Callable[[bytes], bytes]) -> Act:
    """Reads are answered with a changed PDU in a sound frame."""
    return lambda asked, pdu: [asked.framed(change(pdu) if asked.function < 5 else pdu)]


def longer(pdu: bytes) -> bytes:
    return bytes((pdu[0], pdu[1] + 2)) + pdu[2:] + pdu[-2:]


def shorter(pdu: bytes) -> bytes:
    return bytes((pdu[0], pdu[1] - 2)) + pdu[2:-2]


def other_function(pdu: bytes) -> bytes:
    return bytes((7 - pdu[0],)) + pdu[1:]


def damaged(asked: Asked, pdu: bytes) -> Answer:
    frame = bytearray(asked.framed(pdu))
    frame[-3] ^= 0x10
    return [bytes(frame)]


def byte_by_byte(asked: Asked, pdu: bytes) -> Iterator[bytes | float]:
    for byte in asked.framed(pdu):
        yield bytes((byte,))
        yield 0.002


def noted_elsewhere(asked: Asked, pdu: bytes) -> Answer:
    """Writes are acknowledged with the next register."""
    return [asked.framed(pdu[:1] + struct.pack(">H", asked.address + 1) + pdu[3:] if asked.function > 4 else pdu)]


NOISE: Final = b"\xf5\x00\x81"

_EXCEPTIONS: Final = tuple(
    StagedFault(
        f"exception {code:02d}" + ("" if code in EXCEPTIONS else ", of no standard"),
        (lambda asked, pdu, code=code: [asked.framed(bytes((asked.function | 0x80, code)))]),  # type: ignore[misc]
        FaultKind.EXCEPTION,
        says=exception_text(code)[0] if code in EXCEPTIONS else f"exception {code:02X}h, a device-specific code",
        shows=Quality.REFUSED,
        write_fails=True,
    )
    for code in (*range(1, 12), 0x77)
)

FAULTS: Final[tuple[StagedFault, ...]] = (
    StagedFault("silence", (lambda asked, pdu: []), FaultKind.SILENCE, says="did not answer", write_fails=True),
    StagedFault("always late, by half a time-out", late(1.5), FaultKind.LATE, says="after the time-out", also=MOMENT),
    StagedFault("always late, by two and a half", late(3.5), FaultKind.LATE, says="after the time-out", also=MOMENT),
    StagedFault("late once", late(1.5), FaultKind.LATE, also=MOMENT, shows=None, once=True),
    StagedFault(
        "answers every third request only",
        (lambda asked, pdu: [asked.framed(pdu)] if asked.number % 3 == 0 else []),
        FaultKind.SILENCE,
        shows=None,
    ),
    StagedFault("one register too many", of_reads(longer), FaultKind.WRONG_LENGTH),
    StagedFault("one register too few", of_reads(shorter), FaultKind.WRONG_LENGTH),
    StagedFault("another function", of_reads(other_function), FaultKind.WRONG_FUNCTION),
    StagedFault(
        "another unit",
        (lambda asked, pdu: [asked.framed(pdu, unit=9)]),
        FaultKind.WRONG_UNIT,
        says="unit 9 answered instead of unit 3",
        write_fails=True,
    ),
    StagedFault("another unit first, then the true answer",
        (lambda asked, pdu: [asked.framed(pdu, unit=9), asked.framed(pdu)]), shows=None),
    StagedFault(
        "write acknowledged for another register",
        noted_elsewhere,
        FaultKind.WRONG_ECHO,
        says="a different register or value",
        shows=None,
        write_fails=True,
    ),
    StagedFault("another transaction number",
        (lambda asked, pdu: [b"\0\0" + asked.framed(pdu)[2:]]), FaultKind.WRONG_TRANSACTION, ("tcp",),
        write_fails=True),
    StagedFault("bad CRC", damaged, FaultKind.BAD_CRC, RTU, says="damaged", write_fails=True),
    StagedFault("first byte missing",
        (lambda asked, pdu: [asked.framed(pdu)[1:]]), FaultKind.BAD_CRC, RTU, says="first byte",
        write_fails=True),
    StagedFault("noise instead of an answer", (lambda asked, pdu: [b"\xf5\xfa\xff\x80\x11"]), FaultKind.GARBLED,
        write_fails=True),
    StagedFault("three bytes of noise before", (lambda asked, pdu: [NOISE + asked.framed(pdu)]), shows=None),
    StagedFault("three bytes of noise between",
        (lambda asked, pdu: [asked.framed(pdu), 0.005, NOISE]), shows=None),
    StagedFault("three bytes of noise after", (lambda asked, pdu: [asked.framed(pdu) + NOISE]), shows=None),
    StagedFault("cut frame, then silence", (lambda asked, pdu: [asked.framed(pdu)[:-2]]), FaultKind.CUT,
        says="ended after", write_fails=True),
    StagedFault("byte by byte, 2 ms apart", (lambda asked, pdu: list(byte_by_byte(asked, pdu))), shows=None),
    StagedFault("every frame doubled", (lambda asked, pdu: [asked.framed(pdu) * 2]), shows=None, also=TWICE),
    StagedFault("echo, then the answer", (lambda asked, pdu: [asked.frame, asked.framed(pdu)]), None, RTU,
        shows=None),
    StagedFault("echo, and no device", (lambda asked, pdu: [asked.frame]), FaultKind.SILENCE, RTU,
        says="only our own request", write_fails=True),
    *_EXCEPTIONS,
    StagedFault("closed in mid-frame", (lambda asked, pdu: [asked.framed(pdu)[:4], CLOSE]), FaultKind.CLOSED,
        NETWORK, says="the device closed the connection", write_fails=True),
    StagedFault("connection reset", (lambda asked, pdu: [RESET]), FaultKind.RESET,
        NETWORK, says="was reset", write_fails=True),
    StagedFault("connection refused, then let in", None, FaultKind.REFUSED_CONNECTION, NETWORK,
        says="127.0.0.1 refused", also=frozenset((FaultKind.CLOSED,))),
    StagedFault("port closed, then there again", None, FaultKind.PORT_MISSING, ("serial",),
        says="there is no serial port", also=frozenset((FaultKind.PORT_VANISHED,))),
)  # fmt: skip
