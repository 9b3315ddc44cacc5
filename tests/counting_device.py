"""A Modbus TCP device on bare sockets that counts, and writes down itself what it answered and took when.

Frames are made here by hand after the Modbus Application Protocol V1.1b3 and the Messaging Guide for TCP/IP V1.0b
(www.modbus.org); nothing of the program is used, so that its log is a second witness.
"""

from __future__ import annotations

import socket
import struct
import threading
import time
from contextlib import suppress
from dataclasses import dataclass, field
from typing import Final

COUNTER: Final = 0
"""Input register 0 (and 1, the high word first): how many answers went out before this one."""
SET_POINT: Final = 10
"""Holding register that may be written."""
STATUS: Final = 2
"""Input register whose lowest bit follows whether the set point is above 0."""


@dataclass
class CountingDevice:
    """Answers functions 03, 04, 06 and 16 for any unit, one request after the other."""

    answered: list[tuple[float, int]] = field(default_factory=list)
    """When the counter was given out, in `time.monotonic()` as the answer left, and its value."""
    taken: list[tuple[float, int]] = field(default_factory=list)
    """When the set point was written, and to what."""
    silent: bool = False
    """Whether it keeps every answer to itself."""

    def __post_init__(self) -> None:
        self._set_point = 0
        self._count = 0
        self._server = socket.create_server(("127.0.0.1", 0))
        self._connections: list[socket.socket] = []
        self._threads = [threading.Thread(target=self._listen, daemon=True)]
        self._threads[0].start()

    @property
    def port(self) -> int:
        """Where it listens, on this computer."""
        return int(self._server.getsockname()[1])

    def __enter__(self) -> CountingDevice:
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
        while True:
            head = _exactly(connection, 8)
            if head is None:
                return
            transaction, _protocol, length, unit, function = struct.unpack(">HHHBB", head)
            body = _exactly(connection, length - 2)
            if body is None:
                return
            answer = self._answer(function, body)
            if self.silent:
                continue
            frame = struct.pack(">HHHB", transaction, 0, len(answer) + 1, unit) + answer
            try:
                connection.sendall(frame)
            except OSError:
                return

    def _answer(self, function: int, body: bytes) -> bytes:
        if len(body) < 4:
            return bytes([function | 0x80, 1])
        address, number = struct.unpack(">HH", body[:4])
        if function in (3, 4):
            words = [self._word(function, register) for register in range(address, address + number)]
            if function == 4 and address <= COUNTER < address + number and not self.silent:
                self.answered.append((time.monotonic(), self._count))
                self._count += 1
            return struct.pack(f">BB{number}H", function, 2 * number, *words)
        if function in (6, 16):
            self._set_point = number if function == 6 else int.from_bytes(body[5:7], "big")
            self.taken.append((time.monotonic(), self._set_point))
            return bytes([function]) + body[:4]
        return bytes([function | 0x80, 1])

    def _word(self, function: int, register: int) -> int:
        if function == 3:
            return self._set_point if register == SET_POINT else 0
        return {COUNTER: self._count >> 16, COUNTER + 1: self._count & 0xFFFF, STATUS: int(self._set_point > 0)}.get(
            register, 0
        )


def _exactly(connection: socket.socket, count: int) -> bytes | None:
    found = b""
    while len(found) < count:
        try:
            part = connection.recv(count - len(found))
        except OSError:
            return None
        if not part:
            return None
        found += part
    return found


PROJECT_TEXT: Final = """\
format = 2
[panel]
start = "s"
keys = ["up", "down", "enter", "right"]
[[screen]]
name = "s"
[[line]]
name = "line"
kind = "tcp"
host = "127.0.0.1"
[[follower]]
name = "counter"
line = "line"
[[signal]]
name = "answers"
follower = "counter"
table = "input"
register = 0
encoding = "uint32"
every_ms = 20
[[signal]]
name = "status"
follower = "counter"
table = "input"
register = 2
every_ms = 20
[[signal]]
name = "turning"
bit = { of = "status", number = 0 }
texts = { 0 = "at rest", 1 = "turning" }
[[signal]]
name = "set point"
follower = "counter"
register = 10
unit = "Hz"
write = true
limits = [0, 50]
every_ms = 100
"""
"""A project for it; its addresses count from 0."""
