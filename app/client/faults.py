"""What can go wrong on a line, told apart and put into words: a short text, and a sentence with what to check."""

from __future__ import annotations

import asyncio
import enum
import errno
import socket
from dataclasses import dataclass
from typing import Final

from app.client.endpoint import Endpoint
from app.errors import FanlightError
from app.language import mark, translate


class FaultKind(enum.StrEnum):
    """One kind of trouble. The first group concerns one request, the second the connection as a whole."""

    SILENCE = "silence"
    """Nothing came back."""
    LATE = "late"
    """The true answer came, but after the time-out."""
    BAD_CRC = "bad-crc"
    """An answer came whose check sum does not fit."""
    CUT = "cut"
    """An answer began and did not end."""
    GARBLED = "garbled"
    """Bytes came that make no frame at all."""
    WRONG_UNIT = "wrong-unit"
    """Another unit answered."""
    WRONG_FUNCTION = "wrong-function"
    """The answer was to another function."""
    WRONG_LENGTH = "wrong-length"
    """The answer brought more or fewer registers than were asked for."""
    WRONG_ECHO = "wrong-echo"
    """A write was acknowledged with another register, value or count."""
    WRONG_TRANSACTION = "wrong-transaction"
    """Modbus TCP: the answer was to no request that is known."""
    OTHER_CLIENT = "other-client"
    """Another client asks on the same line."""
    UNASKED = "unasked-answer"
    """A sound answer came that nobody had asked for: the second one to a request, as a rule."""
    EXCEPTION = "exception"
    """The follower refused with an exception code."""

    CLOSED = "closed"
    """The other end closed the connection."""
    RESET = "reset"
    """The other end, or something between, broke the connection off."""
    REFUSED_CONNECTION = "refused-connection"
    """Nothing listens at that port."""
    NO_SUCH_HOST = "no-such-host"
    """The host's name has no address."""
    UNREACHABLE = "unreachable"
    """The host does not answer at all, or no network leads there."""
    PORT_MISSING = "port-missing"
    """There is no such serial port."""
    PORT_BUSY = "port-busy"
    """Another program has the serial port."""
    PORT_PERMISSION = "port-permission"
    """The user may not open the serial port."""
    PORT_SETTINGS = "port-settings"
    """The serial port does not offer these settings, or is none."""
    PORT_VANISHED = "port-vanished"
    """The serial port was there and is gone."""


_SHORT: Final = {
    FaultKind.SILENCE: mark("bus", "no answer"),
    FaultKind.LATE: mark("bus", "answer too late"),
    FaultKind.BAD_CRC: mark("bus", "bad check sum"),
    FaultKind.CUT: mark("bus", "answer cut off"),
    FaultKind.GARBLED: mark("bus", "garbled bytes"),
    FaultKind.WRONG_UNIT: mark("bus", "wrong unit answered"),
    FaultKind.WRONG_FUNCTION: mark("bus", "wrong function"),
    FaultKind.WRONG_LENGTH: mark("bus", "wrong length"),
    FaultKind.WRONG_ECHO: mark("bus", "wrong echo"),
    FaultKind.WRONG_TRANSACTION: mark("bus", "wrong transaction"),
    FaultKind.OTHER_CLIENT: mark("bus", "another client"),
    FaultKind.UNASKED: mark("bus", "unexpected answer"),
    FaultKind.EXCEPTION: mark("bus", "refused"),
    FaultKind.CLOSED: mark("bus", "connection closed"),
    FaultKind.RESET: mark("bus", "connection reset"),
    FaultKind.REFUSED_CONNECTION: mark("bus", "connection refused"),
    FaultKind.NO_SUCH_HOST: mark("bus", "unknown host"),
    FaultKind.UNREACHABLE: mark("bus", "host unreachable"),
    FaultKind.PORT_MISSING: mark("bus", "port not found"),
    FaultKind.PORT_BUSY: mark("bus", "port is busy"),
    FaultKind.PORT_PERMISSION: mark("bus", "port: no permission"),
    FaultKind.PORT_SETTINGS: mark("bus", "port settings"),
    FaultKind.PORT_VANISHED: mark("bus", "port disappeared"),
}

_CONNECTION: Final = frozenset(
    kind for kind in FaultKind if list(FaultKind).index(kind) >= list(FaultKind).index(FaultKind.CLOSED)
)

_CHECK: Final = {
    FaultKind.SILENCE: mark(
        "bus", "check its power, its unit address, the wiring, and on a serial line baud rate and parity"
    ),
    FaultKind.LATE: mark("bus", "increase the time-out of the line"),
    FaultKind.BAD_CRC: mark(
        "bus", "check parity, baud rate, termination and shield, and that no two devices share a unit address"
    ),
    FaultKind.CUT: mark(
        "bus", "check the wiring and the converter; a device that pauses within a frame also causes this"
    ),
    FaultKind.GARBLED: mark("bus", "check baud rate and parity, and that A and B are not swapped"),
    FaultKind.WRONG_UNIT: mark("bus", "check for a second device or a second client on the line"),
    FaultKind.WRONG_FUNCTION: mark(
        "bus", "check for a second client on the line; otherwise the device violates the protocol"
    ),
    FaultKind.WRONG_LENGTH: mark(
        "bus", "check for a second client on the line; otherwise the device violates the protocol"
    ),
    FaultKind.WRONG_ECHO: mark("bus", "read the value back before relying on it"),
    FaultKind.WRONG_TRANSACTION: mark("bus", "the device or gateway violates Modbus TCP"),
    FaultKind.OTHER_CLIENT: mark("bus", "only one client may poll a serial line; disconnect the other one"),
    FaultKind.UNASKED: mark(
        "bus",
        "two devices at one address? A radio link or converter that repeats, or another client, can also be the cause",
    ),
}

EXCEPTIONS: Final = {
    1: (
        "illegal function",
        mark("bus", "the device does not support this function; its manual lists the ones it does"),
    ),
    2: (
        "illegal data address",
        mark("bus", "the device does not have this register; compare the number and the numbering with its manual"),
    ),
    3: ("illegal data value", mark("bus", "the device does not accept this value or count")),
    4: (
        "server device failure",
        mark("bus", "the device failed while doing this; look at its own fault display"),
    ),
    5: ("acknowledge", mark("bus", "the device has accepted the request and needs more time; ask again later")),
    6: ("server device busy", mark("bus", "the device is busy; ask again later, or less often")),
    7: ("negative acknowledge", mark("bus", "the device cannot do this now; see its manual")),
    8: ("memory parity error", mark("bus", "the device has a memory error")),
    10: (
        "gateway path unavailable",
        mark("bus", "the gateway has no path to that unit address; check its configuration"),
    ),
    11: (
        "gateway target device failed to respond",
        mark("bus", "the gateway got no answer from that unit address; check the device behind it"),
    ),
}
"""Exception codes: the name in the standard, which manuals use in every language, and what it means. MODBUS Application
Protocol Specification V1.1b3, section 7 (from memory).

07 stands in older editions only, and some devices still use it.
"""


def bytes_text(count: int) -> str:
    """So many bytes."""
    return translate("bus", "1 byte") if count == 1 else translate("bus", "{count} bytes").format(count=count)


def code_text(code: int) -> str:
    """An exception code in hexadecimal: as the standard writes its own, 02 or 0A; others with an h."""
    return f"{code:02X}" if code in EXCEPTIONS else f"{code:02X}h"


def exception_text(code: int) -> tuple[str, str]:
    """One of the exception codes as the standard names it, 'illegal data address (02)', and what it means.

    Raises KeyError.
    """
    name, meaning = EXCEPTIONS[code]
    return f"{name} ({code_text(code)})", translate("bus", meaning)


def _check(kind: FaultKind) -> str:
    return translate("bus", _CHECK[kind]) if kind in _CHECK else ""


def kind_text(kind: FaultKind) -> str:
    """A kind of trouble in at most 20 characters, for tables and counts."""
    return translate("bus", _SHORT[kind])


@dataclass(frozen=True, slots=True)
class Fault:
    """One trouble, told apart.

    `detail` says in words what was seen, without a full stop; `code` is the exception code, 0 for all other kinds;
    `late_ms` is by how much a late answer missed the time-out; `check` what to check, where that is better known than
    by the kind alone.
    """

    kind: FaultKind
    detail: str
    code: int = 0
    late_ms: float = 0.0
    check: str = ""

    @property
    def short(self) -> str:
        """At most 20 characters, for a panel or a strip."""
        if self.kind is FaultKind.EXCEPTION:
            return translate("bus", "exception {code}").format(code=code_text(self.code))
        return kind_text(self.kind)

    @property
    def sentence(self) -> str:
        """What happened, and what to check."""
        check = self.check or (exception_text(self.code)[1] if self.code in EXCEPTIONS else _check(self.kind))
        return f"{self.detail}; {check}" if check else self.detail

    @property
    def of_connection(self) -> bool:
        """Whether the line as a whole is down, rather than one request lost."""
        return self.kind in _CONNECTION


class LineFault(FanlightError):
    """A request failed, or the line is down. `fault` tells which."""

    def __init__(self, fault: Fault) -> None:
        super().__init__(fault.sentence)
        self.fault = fault


def exception_fault(code: int, concerned: str = "") -> Fault:
    """The device refused with `code`, 0..255. `concerned` says what was asked of it: 'read holding 300..311'."""
    name = (
        exception_text(code)[0]
        if code in EXCEPTIONS
        else translate("bus", "exception {code}, a device-specific code; see the manual").format(code=code_text(code))
    )
    if concerned:
        told = translate("bus", "refused: {name} at {concerned} (0-based addresses)")
    else:
        told = translate("bus", "refused: {name}")
    return Fault(FaultKind.EXCEPTION, told.format(name=name, concerned=concerned), code)


def refusal_words(code: int, register: str) -> str:
    """Why a register, told in words, is refused: the name in the standard first, where a table has little room."""
    if code not in EXCEPTIONS:
        return translate("bus", "exception {code} at {register}, a device-specific code; see the manual").format(
            code=code_text(code), register=register
        )
    name, meaning = exception_text(code)
    return translate("bus", "{name} at {register}; {meaning}").format(name=name, register=register, meaning=meaning)


def opening_fault(endpoint: Endpoint, error: Exception) -> Fault:
    """Why `endpoint` could not be opened, from what the system said."""
    return _serial_fault(endpoint, error) if endpoint.kind == "serial" else _network_fault(endpoint, error)


def closed_fault(endpoint: Endpoint, error: Exception | None) -> Fault:
    """The open line at `endpoint` went away by itself."""
    if endpoint.kind == "serial":
        return Fault(
            FaultKind.PORT_VANISHED,
            translate("bus", "serial port {device} disappeared while in use; plug the adapter in again").format(
                device=endpoint.device
            ),
        )
    if isinstance(error, (ConnectionResetError, BrokenPipeError, ConnectionAbortedError)):
        return Fault(
            FaultKind.RESET,
            translate(
                "bus",
                "the connection to {endpoint} was reset; the device may have restarted, or a firewall has dropped it",
            ).format(endpoint=endpoint),
        )
    return Fault(
        FaultKind.CLOSED,
        translate(
            "bus",
            "the device closed the connection to {endpoint}; it may have been switched off, it may close idle "
            "connections, or it allows fewer connections",
        ).format(endpoint=endpoint),
    )


def _network_fault(endpoint: Endpoint, error: Exception) -> Fault:
    where = translate("bus", "port {port} of {host}").format(port=endpoint.port, host=endpoint.host)
    if isinstance(error, (socket.gaierror, UnicodeError)):
        return Fault(
            FaultKind.NO_SUCH_HOST,
            translate(
                "bus", "host '{host}' not found; check the spelling and the DNS server, or use its IP address"
            ).format(host=endpoint.host),
        )
    if isinstance(error, ConnectionRefusedError):
        return Fault(
            FaultKind.REFUSED_CONNECTION,
            translate(
                "bus",
                "connection to {where} refused; check that the device is on, its Modbus server is enabled, and the "
                "port is right",
            ).format(where=where),
        )
    if isinstance(error, (asyncio.TimeoutError, TimeoutError)):
        return Fault(
            FaultKind.UNREACHABLE,
            translate(
                "bus", "connection to {where} timed out; check the address, the cable and any firewall in between"
            ).format(where=where),
        )
    if isinstance(error, OSError) and error.errno in (
        errno.EHOSTUNREACH,
        errno.ENETUNREACH,
        errno.EHOSTDOWN,
        errno.ENETDOWN,
    ):
        return Fault(
            FaultKind.UNREACHABLE,
            translate("bus", "no route to {host}; check the cable and this computer's network address").format(
                host=endpoint.host
            ),
        )
    return Fault(
        FaultKind.UNREACHABLE,
        translate("bus", "no connection to {where}: {said}; check address and port").format(
            where=where, said=_system_words(error)
        ),
    )


def _serial_fault(endpoint: Endpoint, error: Exception) -> Fault:
    port = translate("bus", "serial port {device}").format(device=endpoint.device)
    number = getattr(error, "errno", None)
    text = str(error).casefold()
    if number in (errno.EACCES, errno.EPERM) or "permission" in text:
        # Windows denies access to a port that is in use, and says so in its own language: there is no group to be in.
        if "permissionerror(" in text:
            return Fault(
                FaultKind.PORT_BUSY,
                translate("bus", "{port} is in use; close the other program that has it open").format(port=port),
            )
        return Fault(
            FaultKind.PORT_PERMISSION,
            translate(
                "bus",
                "no permission to open {port}; add this user to the group that owns it (often 'dialout') and log in "
                "again",
            ).format(port=port),
        )
    if number in (errno.ENOENT, errno.ENODEV, errno.ENXIO) or "no such file" in text or "filenotfound" in text:
        return Fault(
            FaultKind.PORT_MISSING,
            translate("bus", "there is no {port}; plug the adapter in, or check the port's name").format(port=port),
        )
    if number in (errno.EBUSY, errno.EWOULDBLOCK) or "exclusively lock" in text or "busy" in text:
        return Fault(
            FaultKind.PORT_BUSY,
            translate("bus", "{port} is in use; close the other program that has it open").format(port=port),
        )
    if isinstance(error, (asyncio.TimeoutError, TimeoutError)):
        return Fault(
            FaultKind.PORT_BUSY,
            translate("bus", "{port} cannot be opened; unplug the adapter and plug it in again").format(port=port),
        )
    settings = translate("bus", "{baud} Bd, parity {parity}, {stop_bits} stop bits").format(
        baud=endpoint.baud, parity=endpoint.parity, stop_bits=endpoint.stop_bits
    )
    if number == errno.ENOTTY or "not a typewriter" in text or "inappropriate ioctl" in text:
        return Fault(
            FaultKind.PORT_SETTINGS,
            translate("bus", "{device} is not a serial port; check the port's name").format(device=endpoint.device),
        )
    if (
        isinstance(error, ValueError)
        or number == errno.EINVAL
        or "invalid argument" in text
        or "configure port" in text
    ):
        return Fault(
            FaultKind.PORT_SETTINGS,
            translate("bus", "{port} does not support {settings}; choose other settings").format(
                port=port, settings=settings
            ),
        )
    return Fault(
        FaultKind.PORT_MISSING,
        translate("bus", "{port} cannot be opened: {said}; check the adapter and the port's name").format(
            port=port, said=_system_words(error)
        ),
    )


def _system_words(error: Exception) -> str:
    """What the system said, in one line."""
    return " ".join((getattr(error, "strerror", None) or str(error) or type(error).__name__).split())
