"""A Modbus TCP device on bare sockets: registers and coils that hold what is written, but for a planted fault.

Frames are made here by hand after the Modbus Application Protocol V1.1b3 (www.modbus.org); nothing of the program is
used. `most` and `swapped` are the faults: a limit that a register keeps by itself, and two bits of a register that
change places when it is written.
"""

from __future__ import annotations

import socket
import struct
import threading
import time
from contextlib import suppress
from dataclasses import dataclass, field


@dataclass
class RegisterDevice:
    """Answers functions 01 to 06, 15 and 16 for any unit. Input tables are the same as those that can be written."""

    registers: dict[int, int] = field(default_factory=dict)
    coils: dict[int, int] = field(default_factory=dict)
    most: dict[int, int] = field(default_factory=dict)
    """By register: more than this is not taken, this is kept instead."""
    swapped: dict[int, tuple[int, int]] = field(default_factory=dict)
    """By register: these two bits change places."""
    taken: list[tuple[float, int, int]] = field(default_factory=list)
    """What was written: when, by `time.monotonic()`, the register (a coil: less than 0), and the value that came."""

    def __post_init__(self) -> None:
        self._server = socket.create_server(("127.0.0.1", 0))
        self._connections: list[socket.socket] = []
        self._threads = [threading.Thread(target=self._listen, daemon=True)]
        self._threads[0].start()

    @property
    def port(self) -> int:
        """Where it listens, on this computer."""
        return int(self._server.getsockname()[1])

    def __enter__(self) -> RegisterDevice:
        return self

    def __exit__(self, *_: object) -> None:
        for each in (self._server, *self._connections):
            with suppress(OSError):
                each.shutdown(socket.SHUT_RDWR)
            each.close()
        for thread in self._threads:
            thread.join()

    def _listen(self) -> None:
        while True:
            try:
                connection, _ = self._server.accept()
            except OSError:
                return
            connection.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
            self._connections.append(connection)
            thread = threading.Thread(target=self._serve, args=(connection,), daemon=True)
            self._threads.append(thread)
            thread.start()

    def _serve(self, connection: socket.socket) -> None:
        stream = connection.makefile("rb")
        with suppress(OSError):
            while len(head := stream.read(8)) == 8:
                transaction, _protocol, length, unit, function = struct.unpack(">HHHBB", head)
                answer = self._answer(function, stream.read(length - 2))
                connection.sendall(struct.pack(">HHHB", transaction, 0, len(answer) + 1, unit) + answer)

    def _answer(self, function: int, body: bytes) -> bytes:
        if function not in (1, 2, 3, 4, 5, 6, 15, 16):
            return bytes([function | 0x80, 1])
        first, number = struct.unpack(">HH", body[:4])
        if function in (1, 2):
            bits = sum(self.coils.get(first + at, 0) << at for at in range(number))
            size = (number + 7) // 8
            return bytes([function, size]) + bits.to_bytes(size, "little")
        if function in (3, 4):
            words = [self.registers.get(first + at, 0) for at in range(number)]
            return struct.pack(f">BB{number}H", function, 2 * number, *words)
        if function in (5, 15):
            values = [int(number == 0xFF00)]
            if function == 15:
                values = [int.from_bytes(body[5:], "little") >> at & 1 for at in range(number)]
            for at, value in enumerate(values):
                self.taken.append((time.monotonic(), -1 - first - at, value))
                self.coils[first + at] = value
        else:
            values = [number] if function == 6 else list(struct.unpack(f">{number}H", body[5:]))
            for at, value in enumerate(values):
                self._take(first + at, value)
        return bytes([function]) + body[:4]

    def _take(self, register: int, value: int) -> None:
        self.taken.append((time.monotonic(), register, value))
        one, other = self.swapped.get(register, (0, 0))
        if one != other and (value >> one & 1) != (value >> other & 1):
            value ^= 1 << one | 1 << other
        self.registers[register] = min(value, self.most.get(register, 0xFFFF))
