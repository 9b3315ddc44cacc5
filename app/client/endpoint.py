"""Where a line leads: a TCP port, a serial device, or RTU frames in a TCP stream."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import Final, Literal, Self

from app.client.hosts import same_host
from app.errors import FanlightError
from app.language import mark
from app.modbus.own_ports import port_path
from app.modbus.serial_port import Parity
from app.project.model import Line, SerialLine, SerialOverTcpLine, TcpLine
from app.signals.visible import visible

LineKind = Literal["tcp", "serial", "serial-over-tcp"]

USUAL_PORT: Final = 502
"""The port registered for Modbus TCP."""

_FORMS = "tcp://HOST:PORT, serial:DEVICE, serial+tcp://HOST:PORT"
_TCP = re.compile(
    r"(?P<scheme>tcp|serial\+tcp)://(?:\[(?P<six>[0-9A-Fa-f:.%\w]+)\]|(?P<host>[^:/\[\]\s]+))(?::(?P<port>\d+))?/?"
)


class BadEndpoint(FanlightError):
    """A text that names no endpoint; the message says what is wrong and what would be right."""


@dataclass(frozen=True, slots=True)
class Endpoint:
    """Where a line leads, with all that opening it needs.

    `host` and `port` belong to the two TCP kinds; `device`, `baud` (bits a second), `parity` and `stop_bits` to the
    serial kind. `timeout_ms` is how long an answer may take to begin, in milliseconds; `in_flight` how many requests a
    Modbus TCP connection may have outstanding at the same time, 1..16.
    """

    kind: LineKind
    host: str = ""
    port: int = USUAL_PORT
    device: str = ""
    baud: int = 19_200
    parity: Parity = "even"
    stop_bits: Literal[1, 2] = 1
    timeout_ms: int = 300
    in_flight: int = 1

    def __post_init__(self) -> None:
        """Raises BadEndpoint for names that no system takes, since some refuse such names in no words at all."""
        for name in (self.host, self.device):
            if not name.isprintable():
                raise BadEndpoint(
                    mark("bus", "'{name}' contains a control character; type the name again"), name=visible(name)
                )

    @classmethod
    def tcp(cls, host: str, port: int = USUAL_PORT, *, timeout_ms: int = 300, in_flight: int = 1) -> Self:
        """Modbus TCP at `host`:`port`."""
        return cls("tcp", host=host, port=port, timeout_ms=timeout_ms, in_flight=in_flight)

    @classmethod
    def serial_over_tcp(cls, host: str, port: int = USUAL_PORT, *, timeout_ms: int = 300) -> Self:
        """RTU frames in a TCP stream at `host`:`port`."""
        return cls("serial-over-tcp", host=host, port=port, timeout_ms=timeout_ms)

    @classmethod
    def serial(
        cls,
        device: str,
        *,
        baud: int = 19_200,
        parity: Parity = "even",
        stop_bits: Literal[1, 2] = 1,
        timeout_ms: int = 300,
    ) -> Self:
        """A serial port of this computer. The defaults are those of MODBUS over Serial Line V1.02 (from memory)."""
        return cls("serial", device=device, baud=baud, parity=parity, stop_bits=stop_bits, timeout_ms=timeout_ms)

    @classmethod
    def of_line(cls, line: Line) -> Self:
        """Where the project says that `line` leads."""
        match line:
            case SerialLine():
                return cls.serial(
                    line.device,
                    baud=line.baud,
                    parity=line.parity,
                    stop_bits=line.stop_bits,
                    timeout_ms=line.timeout_ms,
                )
            case TcpLine():
                return cls.tcp(line.host, line.port, timeout_ms=line.timeout_ms, in_flight=line.in_flight)
            case SerialOverTcpLine():
                return cls.serial_over_tcp(line.host, line.port, timeout_ms=line.timeout_ms)

    @classmethod
    def parse(cls, text: str, line: Line) -> Self:
        """The endpoint that `text` names, in place of where `line` leads; what the text does not say is the line's.

        Forms: tcp://HOST:PORT, serial:DEVICE, serial+tcp://HOST:PORT. A host that is an IPv6 address stands in square
        brackets. Raises BadEndpoint.
        """
        scheme, colon, rest = text.strip().partition(":")
        if colon and scheme == "serial":
            device = rest.removeprefix("//") if rest.startswith("///") else rest
            if not device or device != device.strip():
                raise BadEndpoint(
                    mark(
                        "bus",
                        "'{text}' has no serial port; use serial:DEVICE, such as serial:/dev/ttyUSB0 or serial:COM3",
                    ),
                    text=text,
                )
            own = cls.of_line(line)
            return (
                replace(own, device=device) if own.kind == "serial" else cls.serial(device, timeout_ms=line.timeout_ms)
            )
        if scheme not in ("tcp", "serial+tcp"):
            raise BadEndpoint(mark("bus", "'{text}' is not an endpoint; use {forms}"), text=text, forms=_FORMS)
        found = _TCP.fullmatch(text.strip())
        if found is None:
            raise BadEndpoint(
                mark("bus", "'{text}' is not {scheme}://HOST:PORT, such as {scheme}://192.168.0.10:{port}"),
                text=text,
                scheme=scheme,
                port=USUAL_PORT,
            )
        if found["port"] is None:
            raise BadEndpoint(
                mark("bus", "'{text}' has no port; the usual one is {port}: {whole}"),
                text=text,
                port=USUAL_PORT,
                whole=f"{text.rstrip('/')}:{USUAL_PORT}",
            )
        port = int(found["port"])
        if not 1 <= port <= 65_535:
            raise BadEndpoint(mark("bus", "'{text}': port {port} is not in 1..65535"), text=text, port=port)
        host = found["six"] or found["host"]
        if scheme == "tcp":
            in_flight = line.in_flight if isinstance(line, TcpLine) else 1
            return cls.tcp(host, port, timeout_ms=line.timeout_ms, in_flight=in_flight)
        return cls.serial_over_tcp(host, port, timeout_ms=line.timeout_ms)

    @property
    def rtu(self) -> bool:
        """Whether frames carry a unit and a CRC (RTU) rather than the MBAP header of Modbus TCP."""
        return self.kind != "tcp"

    def same_place(self, other: Endpoint) -> bool:
        """Whether both lead to one port of this computer, or of one host, by whichever of its names, as far as those
        are known in time (see `app.client.hosts`); with whatever settings and frames."""
        if self.kind == "serial" or other.kind == "serial":
            return self.kind == other.kind and port_path(self.device) == port_path(other.device)
        return self.port == other.port and same_host(self.host, other.host)

    def __str__(self) -> str:
        if self.kind == "serial":
            return f"serial:{self.device}"
        host = f"[{self.host}]" if ":" in self.host else self.host
        return f"{'tcp' if self.kind == 'tcp' else 'serial+tcp'}://{host}:{self.port}"
