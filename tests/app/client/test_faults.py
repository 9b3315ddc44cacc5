"""Every trouble has its own words: short ones, and a sentence with what to check."""

from __future__ import annotations

import errno
import socket

import pytest

from app.client.endpoint import Endpoint
from app.client.faults import EXCEPTIONS, Fault, FaultKind, closed_fault, exception_fault, opening_fault

TCP = Endpoint.tcp("10.1.2.3", 1502)
SERIAL = Endpoint.serial("/dev/ttyUSB0")


@pytest.mark.parametrize("kind", FaultKind)
def test_every_kind_has_short_words_that_fit_a_panel(kind: FaultKind) -> None:
    fault = Fault(kind, "what was seen", code=2 if kind is FaultKind.EXCEPTION else 0)
    assert 0 < len(fault.short) <= 20
    assert fault.sentence.startswith("what was seen")


def test_short_words_tell_all_kinds_apart() -> None:
    assert len({Fault(kind, "").short for kind in FaultKind}) == len(FaultKind)


def test_which_kinds_take_the_whole_line_down() -> None:
    of_request = {
        "silence late bad-crc cut garbled wrong-unit wrong-function wrong-length wrong-echo wrong-transaction "
        "other-client unasked-answer exception"
    }
    assert {str(kind) for kind in FaultKind if not Fault(kind, "").of_connection} == set(of_request.pop().split())


def test_exception_codes_are_those_of_the_standard() -> None:
    # MODBUS Application Protocol V1.1b3, section 7 (from memory): 01 to 06, 08, 0A, 0B; older editions have 07 too.
    assert sorted(EXCEPTIONS) == [1, 2, 3, 4, 5, 6, 7, 8, 10, 11]
    assert {code: name for code, (name, _meaning) in EXCEPTIONS.items()} == {
        1: "illegal function",
        2: "illegal data address",
        3: "illegal data value",
        4: "server device failure",
        5: "acknowledge",
        6: "server device busy",
        7: "negative acknowledge",
        8: "memory parity error",
        10: "gateway path unavailable",
        11: "gateway target device failed to respond",
    }
    assert exception_fault(2).sentence.startswith(
        "refused: illegal data address (02); the device does not have this register"
    )
    assert "(0A)" in exception_fault(10).sentence
    assert "77h" in exception_fault(0x77).sentence
    assert "device-specific" in exception_fault(0x77).sentence


@pytest.mark.parametrize(
    ("error", "kind"),
    [
        (ConnectionRefusedError(errno.ECONNREFUSED, "x"), FaultKind.REFUSED_CONNECTION),
        (socket.gaierror(socket.EAI_NONAME, "x"), FaultKind.NO_SUCH_HOST),
        (TimeoutError(), FaultKind.UNREACHABLE),
        (OSError(errno.EHOSTUNREACH, "x"), FaultKind.UNREACHABLE),
        (OSError(errno.ENETUNREACH, "x"), FaultKind.UNREACHABLE),
        (OSError(errno.EADDRNOTAVAIL, "odd"), FaultKind.UNREACHABLE),
    ],
)
def test_why_a_network_line_does_not_open(error: Exception, kind: FaultKind) -> None:
    fault = opening_fault(TCP, error)
    assert fault.kind is kind
    assert "10.1.2.3" in fault.sentence
    assert "check" in fault.sentence


@pytest.mark.parametrize(
    ("error", "kind"),
    [
        (OSError(errno.ENOENT, "could not open port"), FaultKind.PORT_MISSING),
        (OSError(errno.ENODEV, "x"), FaultKind.PORT_MISSING),
        (OSError(errno.EACCES, "Permission denied"), FaultKind.PORT_PERMISSION),
        (OSError(errno.EBUSY, "x"), FaultKind.PORT_BUSY),
        (OSError("Could not exclusively lock port x: [Errno 11]"), FaultKind.PORT_BUSY),
        # As pyserial words what Windows says of a port in use, and of one that is not there.
        (OSError("could not open port 'COM3': PermissionError(13, 'Access is denied.', None, 5)"), FaultKind.PORT_BUSY),
        (
            OSError("could not open port 'COM3': PermissionError(13, 'Zugriff verweigert', None, 5)"),
            FaultKind.PORT_BUSY,
        ),
        (
            OSError("could not open port 'COM9': FileNotFoundError(2, 'The system cannot find the file specified.')"),
            FaultKind.PORT_MISSING,
        ),
        (OSError(errno.ENOTTY, "Inappropriate ioctl for device"), FaultKind.PORT_SETTINGS),
        (OSError(errno.EINVAL, "Invalid argument"), FaultKind.PORT_SETTINGS),
        (ValueError("Not a valid baudrate: 7"), FaultKind.PORT_SETTINGS),
        (TimeoutError(), FaultKind.PORT_BUSY),
        (OSError("something\nodd"), FaultKind.PORT_MISSING),
    ],
)
def test_why_a_serial_line_does_not_open(error: Exception, kind: FaultKind) -> None:
    fault = opening_fault(SERIAL, error)
    assert fault.kind is kind
    assert "/dev/ttyUSB0" in fault.sentence
    assert "\n" not in fault.sentence


def test_a_line_that_goes_away() -> None:
    assert closed_fault(SERIAL, OSError()).kind is FaultKind.PORT_VANISHED
    assert closed_fault(TCP, None).kind is FaultKind.CLOSED
    assert closed_fault(TCP, ConnectionResetError()).kind is FaultKind.RESET
    assert "closed" in closed_fault(TCP, None).sentence
