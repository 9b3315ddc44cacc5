"""What is said when an endpoint cannot be had: one clear sentence for each reason."""

from __future__ import annotations

import asyncio
import errno
import socket
import sys

import pytest
import serial

from app.follower import server
from app.follower.errors import FollowerError
from app.follower.requests import Responder
from app.follower.server import SerialServer, SerialSettings, TcpServer
from tests.app.follower.playing import many

DEVICE = "/dev/ttyUSB7"


@pytest.fixture
def responder() -> Responder:
    from app.follower.register_bank import RegisterBank

    project = many(("a", "hall", 1))
    return Responder([RegisterBank(project, project.followers[0])])


def told_for_port(monkeypatch: pytest.MonkeyPatch, responder: Responder, why: OSError) -> str:
    def refuse(*args: object) -> None:
        raise why

    monkeypatch.setattr(socket.socket, "bind", refuse)
    with pytest.raises(FollowerError) as told:
        asyncio.run(TcpServer.open(responder, "127.0.0.1", 502))
    return str(told.value)


@pytest.mark.parametrize(
    ("number", "words"),
    [
        (errno.EADDRINUSE, "the port is in use by another program; close it, or choose another port"),
        (errno.EACCES, "ports below 1024 need special rights on this system; choose one from 1024"),
        (errno.EADDRNOTAVAIL, "this computer does not have this address"),
        (errno.ENOBUFS, "No buffer space available"),
    ],
)
def test_a_port_that_cannot_be_had(
    monkeypatch: pytest.MonkeyPatch, responder: Responder, number: int, words: str
) -> None:
    told = told_for_port(monkeypatch, responder, OSError(number, "No buffer space available"))
    assert told.startswith("cannot listen on 127.0.0.1:502: ")
    assert words in told


def told_for_device(monkeypatch: pytest.MonkeyPatch, responder: Responder, why: Exception) -> str:
    async def refuse(*args: object, **keys: object) -> None:
        raise why

    monkeypatch.setattr(server, "create_serial_connection", refuse)
    with pytest.raises(FollowerError) as told:
        asyncio.run(SerialServer.open(responder, DEVICE, SerialSettings()))
    return str(told.value)


# As pyserial words them: POSIX with an error number, Windows with the name of the exception in the text.
MISSING = "port not found; plug the adapter in, or check the name"
BUSY = "it is in use by another program; close that program first"


@pytest.mark.parametrize(
    ("why", "words"),
    [
        (serial.SerialException(errno.ENOENT, f"could not open port {DEVICE}"), MISSING),
        (serial.SerialException("could not open port 'COM7': FileNotFoundError(2, 'not found', None, 2)"), MISSING),
        (serial.SerialException(errno.EBUSY, f"could not open port {DEVICE}"), BUSY),
        (serial.SerialException(errno.EAGAIN, f"Could not exclusively lock port {DEVICE}"), BUSY),
        (serial.SerialException("could not open port 'COM7': PermissionError(13, 'denied', None, 5)"), BUSY),
        (ValueError("Invalid baudrate: 17"), "with these settings: Invalid baudrate: 17; change baud"),
        (serial.SerialException(errno.ENOTTY, "Inappropriate ioctl for device"), "this is not a serial port"),
        (serial.SerialException("Could not configure port: (25, 'Inappropriate ioctl')"), "this is not a serial port"),
        (serial.SerialException(errno.EIO, "Input/output error"), "Input/output error"),
    ],
)
def test_a_device_that_cannot_be_had(
    monkeypatch: pytest.MonkeyPatch, responder: Responder, why: Exception, words: str
) -> None:
    told = told_for_device(monkeypatch, responder, why)
    assert told.startswith(f"cannot open the serial port {DEVICE}")
    assert words in told


@pytest.mark.skipif(sys.platform == "win32", reason="termios is POSIX")
def test_a_device_without_permission_or_with_settings_that_it_refuses(
    monkeypatch: pytest.MonkeyPatch, responder: Responder
) -> None:
    import termios

    denied = serial.SerialException(errno.EACCES, f"could not open port {DEVICE}")
    assert "permission denied; on most systems" in told_for_device(monkeypatch, responder, denied)
    refused = termios.error(errno.EINVAL, "Invalid argument")
    assert "change baud, parity or stop_bits" in told_for_device(monkeypatch, responder, refused)
