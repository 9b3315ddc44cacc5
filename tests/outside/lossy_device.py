"""A Modbus device written from the specification alone, on a bare socket or a pseudo terminal, which loses things.

Nothing of the program is in it. MODBUS Application Protocol V1.1b3, sections 6.1 to 6.16, MODBUS over Serial Line
V1.02, section 6.2.2 (CRC), MODBUS Messaging on TCP/IP V1.0b, section 3.1.3 (header); from memory.
"""

from __future__ import annotations

import os
import random
import select
import socket
import struct
import threading
import time
from contextlib import suppress
from dataclasses import dataclass
from types import TracebackType
from typing import Literal, Self

Loses = Literal["answers", "requests"]


@dataclass(frozen=True)
class Written:
    """One request with function 05, 06, 16 or 22: when it came, what it asked for, and whether it was carried out."""

    at: float
    function: int
    address: int
    data: bytes
    done: bool


def checksum(data: bytes) -> bytes:
    """CRC-16 with the polynomial A001h, low byte first."""
    crc = 0xFFFF
    for byte in data:
        crc ^= byte
        for _ in range(8):
            crc = crc >> 1 ^ 0xA001 if crc & 1 else crc >> 1
    return struct.pack("<H", crc)


class LossyDevice:
    """Answers whatever the address, and leaves out a share of its answers, or never hears a share of the requests."""

    def __init__(self, kind: Literal["tcp", "serial"], share: float, loses: Loses = "answers", seed: int = 1) -> None:
        self.kind = kind
        self.share = share
        """Of 1, how much is lost. May be changed at any time."""
        self.loses = loses
        self.coils: dict[int, int] = {}
        self.words: dict[int, int] = {}
        self.log: list[Written] = []
        self.requests = 0
        self.lost = 0
        self._chance = random.Random(seed)
        self._over = threading.Event()
        self._threads: list[threading.Thread] = []
        self._fds: tuple[int, ...] = ()
        self.where = ""
        """The port of the socket, or the device of the pseudo terminal."""

    def __enter__(self) -> Self:
        if self.kind == "tcp":
            listener = socket.create_server(("127.0.0.1", 0))
            self.where = str(listener.getsockname()[1])
            self._begin(self._accept, listener)
        else:
            import tty

            ours, theirs = os.openpty()
            tty.setraw(theirs)
            self._fds = ours, theirs
            self.where = os.ttyname(theirs)
            self._begin(self._serve_pty, ours)
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._over.set()
        for thread in self._threads:
            thread.join(5)
        for fd in self._fds:
            os.close(fd)

    def _begin(self, work: object, *args: object) -> None:
        thread = threading.Thread(target=work, args=args, daemon=True)  # type: ignore[arg-type]
        self._threads.append(thread)
        thread.start()

    def _accept(self, listener: socket.socket) -> None:
        with listener:
            listener.settimeout(0.05)
            while not self._over.is_set():
                with suppress(TimeoutError):
                    connection, _ = listener.accept()
                    self._begin(self._serve_tcp, connection)

    def _serve_tcp(self, connection: socket.socket) -> None:
        with connection, suppress(OSError):
            connection.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
            connection.settimeout(0.05)
            pending = b""
            while not self._over.is_set():
                try:
                    data = connection.recv(4096)
                except TimeoutError:
                    continue
                if not data:
                    return
                pending += data
                while len(pending) >= 6 and len(pending) >= 6 + pending[5]:
                    frame, pending = pending[: 6 + pending[5]], pending[6 + pending[5] :]
                    pdu = self._heard(frame[7:])
                    if pdu:
                        connection.sendall(frame[:4] + struct.pack(">HB", len(pdu) + 1, frame[6]) + pdu)

    def _serve_pty(self, ours: int) -> None:
        pending = b""
        while not self._over.is_set():
            if not select.select([ours], [], [], 0.05)[0]:
                pending = b""  # a pause ends a frame
                continue
            pending += os.read(ours, 4096)
            while len(pending) >= 8:
                length = {15: 9 + pending[6], 16: 9 + pending[6], 22: 10}.get(pending[1], 8)
                if len(pending) < length:
                    break
                frame, pending = pending[:length], pending[length:]
                if checksum(frame[:-2]) == frame[-2:]:
                    pdu = self._heard(frame[1:-2])
                    if pdu:
                        answer = frame[:1] + pdu
                        os.write(ours, answer + checksum(answer))

    def _heard(self, pdu: bytes) -> bytes:
        """The answer, or nothing."""
        at = time.monotonic()
        self.requests += 1
        loses = self._chance.random() < self.share
        self.lost += loses
        done = not (loses and self.loses == "requests")
        if pdu[0] in (5, 6, 16, 22):
            self.log.append(Written(at, pdu[0], int.from_bytes(pdu[1:3], "big"), pdu[3:], done))
        answer = self._answer(pdu) if done else b""
        return b"" if loses else answer

    def _answer(self, pdu: bytes) -> bytes:
        function = pdu[0]
        address, value = struct.unpack(">HH", pdu[1:5])
        if function == 1:
            bits = [self.coils.get(address + place, 0) for place in range(value)]
            packed = [sum(bit << place for place, bit in enumerate(bits[at : at + 8])) for at in range(0, value, 8)]
            return bytes((1, len(packed), *packed))
        if function == 3:
            words = [self.words.get(address + place, 0) for place in range(value)]
            return struct.pack(f">BB{value}H", 3, 2 * value, *words)
        if function == 5:
            self.coils[address] = int(value == 0xFF00)
            return pdu
        if function == 6:
            self.words[address] = value
            return pdu
        if function == 16:
            for place, word in enumerate(struct.unpack(f">{value}H", pdu[6:])):
                self.words[address + place] = word
            return pdu[:5]
        if function == 22:
            (put,) = struct.unpack(">H", pdu[5:7])
            self.words[address] = self.words.get(address, 0) & value | put & ~value & 0xFFFF
            return pdu
        return bytes((function | 0x80, 1))
