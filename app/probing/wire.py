"""Bytes out and bytes in on a line that is looked into: a serial port or a socket, opened once, from one thread."""

from __future__ import annotations

import os
import select
import socket
from abc import ABC, abstractmethod
from collections.abc import Callable
from contextlib import suppress
from typing import Any, Final, TypeVar

from app.client.endpoint import Endpoint
from app.client.faults import closed_fault, opening_fault
from app.modbus.own_ports import note_own
from app.modbus.serial_port import LineSettings, parity_letter
from app.probing.line_errors import NOTHING_TOLD, CharacterErrors, PortErrors
from app.probing.probe import CannotProbe

CONNECT_S: Final = 3.0
"""How long a host may take to accept a connection."""
SLICE_S: Final = 0.02
"""The longest that is waited in one go, so that whoever wants to stop is heard."""
_PIECE: Final = 4096

_T = TypeVar("_T")


class ProbedWire(ABC):
    """An open line. Each call raises CannotProbe, in words, if the line is gone."""

    def __init__(self, endpoint: Endpoint) -> None:
        self.endpoint = endpoint

    @abstractmethod
    def open(self) -> None:
        """Open it. Raises CannotProbe: no such port, no permission, in use, no such host, nobody listens."""

    @abstractmethod
    def close(self) -> None:
        """Let it go; no harm if it is closed."""

    @abstractmethod
    def send(self, data: bytes) -> None:
        """Put bytes on the line."""

    @abstractmethod
    def receive(self, limit_s: float) -> bytes:
        """What has come, or comes first within `limit_s`; empty if nothing does."""

    def tune(self, settings: LineSettings) -> None:  # noqa: B027 - a network has no settings
        """Carry characters so from now on. Serial ports only."""

    @property
    def errors(self) -> CharacterErrors:
        """Damaged characters since some beginning, as far as they are known; differences count."""
        return NOTHING_TOLD

    def _gone(self, error: Exception | None) -> CannotProbe:
        return CannotProbe(closed_fault(self.endpoint, error).sentence)


def wire_to(endpoint: Endpoint) -> ProbedWire:
    """The kind of wire that leads there, not opened yet."""
    return SerialWire(endpoint) if endpoint.kind == "serial" else SocketWire(endpoint)


class SerialWire(ProbedWire):
    """A serial port, held for this program alone where the system can."""

    def __init__(self, endpoint: Endpoint) -> None:
        super().__init__(endpoint)
        self.port: Any = None
        self._errors: PortErrors | None = None

    def open(self) -> None:
        """See ProbedWire."""
        import serial

        asked = self.endpoint
        try:
            self.port = serial.Serial(
                asked.device,
                asked.baud,
                parity=parity_letter(asked.device, asked.parity),
                stopbits=asked.stop_bits,
                timeout=SLICE_S,
                write_timeout=1.0,
                exclusive=True if os.name == "posix" else None,
            )
        except (OSError, ValueError) as error:
            raise CannotProbe(opening_fault(asked, error).sentence) from error
        except Exception as error:  # pyserial lets termios.error through, which is no OSError
            raise CannotProbe(opening_fault(asked, OSError(*error.args)).sentence) from error
        note_own(self.port)
        if os.name == "posix":
            self._errors = PortErrors(asked.device, self.port.fileno())
            self._errors.port_set_up(parity=asked.parity != "none")

    def close(self) -> None:
        """See ProbedWire."""
        if self.port is not None:
            with suppress(Exception):
                self.port.close()
            self.port = None
            self._errors = None

    def tune(self, settings: LineSettings) -> None:
        """See ProbedWire."""
        self._do(
            lambda port: port.apply_settings(
                {
                    "baudrate": settings.baud,
                    "parity": parity_letter(self.endpoint.device, settings.parity),
                    "stopbits": settings.stop_bits,
                }
            )
        )
        if self._errors is not None:
            self._errors.port_set_up(parity=settings.parity != "none")

    @property
    def errors(self) -> CharacterErrors:
        """See ProbedWire."""
        return NOTHING_TOLD if self._errors is None else self._errors.counts

    def send(self, data: bytes) -> None:
        """See ProbedWire."""
        self._do(lambda port: port.write(data))

    def receive(self, limit_s: float) -> bytes:
        """See ProbedWire."""
        data = self._do(lambda port: self._read(port, limit_s))
        return data if self._errors is None else self._errors.sound(data)

    @staticmethod
    def _read(port: Any, limit_s: float) -> bytes:
        if os.name == "posix":
            # pyserial's own time-out would set the port up anew each time that it changes.
            if not select.select([port.fileno()], [], [], max(0.0, limit_s))[0]:
                return b""
        elif limit_s <= 0 and not port.in_waiting:
            return b""
        # A port that is ready and has nothing is one that went away: then this raises.
        data: bytes = port.read(max(1, port.in_waiting))
        return data

    def _do(self, deed: Callable[[Any], _T]) -> _T:
        try:
            return deed(self.port)
        except (OSError, ValueError, TypeError, AttributeError) as error:
            raise self._gone(error) from error
        except Exception as error:  # termios.error, see above
            raise self._gone(OSError(*error.args)) from error


class SocketWire(ProbedWire):
    """A connection over a network: Modbus TCP, or RTU frames in a TCP stream."""

    def __init__(self, endpoint: Endpoint) -> None:
        super().__init__(endpoint)
        self._socket: socket.socket | None = None

    def open(self) -> None:
        """See ProbedWire."""
        self.close()
        try:
            found = socket.create_connection((self.endpoint.host, self.endpoint.port), CONNECT_S)
        except (OSError, UnicodeError) as error:
            raise CannotProbe(opening_fault(self.endpoint, error).sentence) from error
        found.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
        self._socket = found

    def close(self) -> None:
        """See ProbedWire."""
        if self._socket is not None:
            with suppress(OSError):
                self._socket.close()
            self._socket = None

    def send(self, data: bytes) -> None:
        """See ProbedWire."""
        try:
            self._open_one.settimeout(CONNECT_S)
            self._open_one.sendall(data)
        except OSError as error:
            raise self._gone(error) from error

    def receive(self, limit_s: float) -> bytes:
        """See ProbedWire."""
        found = self._open_one
        try:
            if not select.select([found], [], [], max(0.0, limit_s))[0]:
                return b""
            data = found.recv(_PIECE)
        except (OSError, ValueError) as error:
            raise self._gone(error) from error
        if not data:
            raise self._gone(None)
        return data

    @property
    def _open_one(self) -> socket.socket:
        if self._socket is None:
            raise self._gone(None)
        return self._socket
