"""A follower whose every byte a test decides: on a TCP socket or a pty, told what to do by a plain function."""

from __future__ import annotations

import os
import queue
import select
import socket
import struct
import threading
import time
from collections.abc import Callable, Iterable
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path
from types import TracebackType
from typing import Self

from app.client.endpoint import Endpoint

CLOSE = object()
"""In an answer: close the connection here."""
RESET = object()
"""In an answer: reset the connection here, as a device does that was switched off and on."""

Answer = Iterable["bytes | float | object"]
"""What to do about a request: bytes are sent, a number is a pause in seconds, CLOSE closes, RESET resets."""


def crc(data: bytes) -> bytes:
    """CRC-16/MODBUS bit by bit, low byte first, as a check on the program's own table."""
    register = 0xFFFF
    for byte in data:
        register ^= byte
        for _ in range(8):
            register = register >> 1 ^ (0xA001 if register & 1 else 0)
    return struct.pack("<H", register)


@dataclass(frozen=True)
class Asked:
    """One request as it came; `number` counts from 1."""

    frame: bytes
    unit: int
    pdu: bytes
    label: bytes | None
    """The first four bytes of a Modbus TCP frame; None for RTU."""
    number: int
    at: float = 0.0
    """`time.monotonic()` when it had arrived."""

    @property
    def function(self) -> int:
        return self.pdu[0]

    @property
    def address(self) -> int:
        return int.from_bytes(self.pdu[1:3], "big")

    @property
    def count(self) -> int:
        return int.from_bytes(self.pdu[3:5], "big")

    def framed(self, pdu: bytes, unit: int | None = None) -> bytes:
        """An answer with the right frame around it."""
        body = bytes((self.unit if unit is None else unit,)) + pdu
        if self.label is None:
            return body + crc(body)
        return self.label + struct.pack(">H", len(body)) + body


@dataclass
class Registers:
    """The honest follower: register n holds n until it is written, so a wrong value can be told by looking at it."""

    words: dict[int, int] = field(default_factory=dict)
    coils: dict[int, bool] = field(default_factory=dict)

    def __call__(self, asked: Asked) -> Answer:
        return [asked.framed(self.pdu(asked))]

    def pdu(self, asked: Asked) -> bytes:
        """The true answer."""
        function, address, count = asked.function, asked.address, asked.count
        if function in (1, 2):
            bits = [self.coils.get(address + index, False) for index in range(count)]
            data = bytes(
                sum(bit << place for place, bit in enumerate(bits[start : start + 8])) for start in range(0, count, 8)
            )
            return bytes((function, len(data))) + data
        if function in (3, 4):
            words = [self.words.get(address + index, address + index) for index in range(count)]
            return struct.pack(f">BB{count}H", function, 2 * count, *words)
        if function == 5:
            self.coils[address] = asked.pdu[3] == 0xFF
        elif function == 6:
            self.words[address] = count
        elif function == 16:
            self.words.update(
                zip(range(address, address + count), struct.unpack(f">{count}H", asked.pdu[6:]), strict=True)
            )
        elif function == 15:
            self.coils.update(
                (address + index, bool(asked.pdu[6 + index // 8] >> index % 8 & 1)) for index in range(count)
            )
        elif function == 22:
            and_mask, or_mask = count, int.from_bytes(asked.pdu[5:7], "big")
            self.words[address] = self.words.get(address, address) & and_mask | or_mask & ~and_mask
            return asked.pdu
        else:
            return bytes((function | 0x80, 1))
        return asked.pdu[:5]


class StagedFollower:
    """Listens on a free TCP port (`kind` tcp or serial-over-tcp) or plays the far end of a pty (`kind` serial)."""

    def __init__(
        self, kind: str, answer: Callable[[Asked], Answer], timeout_ms: int = 100, link: Path | None = None
    ) -> None:
        """`link`: for a pty, a symbolic link that always leads to it, also when it is another one after a restart."""
        self.kind = kind
        self.answer = answer
        self.asked: list[Asked] = []
        self.stream = b""
        """All bytes that the client sent, in order."""
        self._timeout_ms = timeout_ms
        self._link = link
        self._stop = threading.Event()
        self._connections: list[socket.socket] = []
        self._fds: list[int] = []
        self._listener: socket.socket | None = None
        self._port = 0
        self._device = ""
        self._threads: list[threading.Thread] = []
        self._lock = threading.Lock()

    def __enter__(self) -> Self:
        self.start()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.stop()

    @property
    def endpoint(self) -> Endpoint:
        """How to reach it."""
        if self.kind == "serial":
            return Endpoint.serial(self._device, baud=115_200, timeout_ms=self._timeout_ms)
        make = Endpoint.tcp if self.kind == "tcp" else Endpoint.serial_over_tcp
        return make("127.0.0.1", self._port, timeout_ms=self._timeout_ms)

    def start(self) -> None:
        """Start, or start again at the same port."""
        self._stop = threading.Event()
        if self.kind == "serial":
            import tty

            far, near = os.openpty()
            tty.setraw(near)
            self._fds = [far, near]
            self._device = os.ttyname(near)
            if self._link is not None:
                self._link.unlink(missing_ok=True)
                self._link.symlink_to(self._device)
                self._device = str(self._link)
            self._spawn(self._serve_pty, far)
        else:
            self._listener = socket.create_server(("127.0.0.1", self._port))
            self._port = self._listener.getsockname()[1]
            self._listener.settimeout(0.05)
            self._spawn(self._accept, self._listener)

    def stop(self) -> None:
        """Close everything and end all threads."""
        self._stop.set()
        if self._listener is not None:
            self._listener.close()
            self._listener = None
        for connection in self._connections:
            with suppress(OSError):
                connection.shutdown(socket.SHUT_RDWR)
        for thread in self._threads:
            thread.join(5)
            assert not thread.is_alive()
        if self._link is not None:
            self._link.unlink(missing_ok=True)
        for fd in self._fds:
            os.close(fd)
        self._fds, self._threads, self._connections = [], [], []

    def _spawn(self, work: Callable[..., None], *args: object) -> None:
        thread = threading.Thread(target=work, args=args, daemon=True)
        self._threads.append(thread)
        thread.start()

    def _accept(self, listener: socket.socket) -> None:
        while not self._stop.is_set():
            try:
                connection, _ = listener.accept()
            except TimeoutError:
                continue
            except OSError:
                return
            connection.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
            self._connections.append(connection)
            self._spawn(self._serve_socket, connection)

    def _serve_socket(self, connection: socket.socket) -> None:
        def hang_up(how: object) -> None:
            if how is RESET:  # the reader then finds nothing more, and closes at once
                connection.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, struct.pack("ii", 1, 0))
            connection.shutdown(socket.SHUT_RD if how is RESET else socket.SHUT_RDWR)

        with connection, suppress(OSError):
            connection.settimeout(0.05)
            self._serve(lambda: self._receive(connection), connection.sendall, hang_up)

    def _receive(self, connection: socket.socket) -> bytes | None:
        try:
            return connection.recv(4096) or None
        except TimeoutError:
            return b""

    def _serve_pty(self, far: int) -> None:
        def receive() -> bytes | None:
            ready, _, _ = select.select([far], [], [], 0.05)
            return os.read(far, 4096) if ready else b""

        def send(data: bytes) -> None:
            os.write(far, data)

        with suppress(OSError):
            self._serve(receive, send, lambda how: None)

    def _serve(
        self, receive: Callable[[], bytes | None], send: Callable[[bytes], None], hang_up: Callable[[object], None]
    ) -> None:
        """Take requests as they arrive, while earlier ones may still be being answered in a thread of their own."""
        waiting: queue.SimpleQueue[Asked | None] = queue.SimpleQueue()
        answering = threading.Thread(target=self._answer_all, args=(waiting, send, hang_up), daemon=True)
        answering.start()
        pending = b""
        try:
            while not self._stop.is_set():
                data = receive()
                if data is None:
                    return
                self.stream += data
                pending += data
                while (length := self._request_length(pending)) is not None and len(pending) >= length:
                    waiting.put(self._take(pending[:length]))
                    pending = pending[length:]
        finally:
            waiting.put(None)
            answering.join(5)

    def _answer_all(
        self,
        waiting: queue.SimpleQueue[Asked | None],
        send: Callable[[bytes], None],
        hang_up: Callable[[object], None],
    ) -> None:
        with suppress(OSError):
            while (asked := waiting.get()) is not None:
                for part in self.answer(asked):
                    if self._stop.is_set():
                        return
                    if part is CLOSE or part is RESET:
                        hang_up(part)
                        return
                    if isinstance(part, float):
                        self._stop.wait(part)
                    elif isinstance(part, bytes):
                        send(part)

    def _request_length(self, data: bytes) -> int | None:
        if self.kind == "tcp":
            return 6 + int.from_bytes(data[4:6], "big") if len(data) >= 6 else None
        if len(data) >= 2 and data[1] in (17, 43):
            return 4 if data[1] == 17 else 7
        if len(data) < 7:
            return None
        return 9 + data[6] if data[1] in (15, 16) else 10 if data[1] == 22 else 8

    def _take(self, frame: bytes) -> Asked:
        at = time.monotonic()
        with self._lock:
            number = len(self.asked) + 1
            if self.kind == "tcp":
                asked = Asked(frame, frame[6], frame[7:], frame[:4], number, at)
            else:
                assert crc(frame[:-2]) == frame[-2:], "the client's CRC is wrong"
                asked = Asked(frame, frame[0], frame[1:-2], None, number, at)
            self.asked.append(asked)
        return asked
