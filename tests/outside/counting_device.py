"""A Modbus device that counts what it is asked: written from the specification alone, on a socket or a pseudo terminal.

Nothing of the program is in it. MODBUS Application Protocol V1.1b3, MODBUS over Serial Line V1.02; from memory.
"""

from __future__ import annotations

import os
import select
import socket
import struct
import threading
from collections import Counter
from collections.abc import Callable, Mapping
from contextlib import suppress
from types import TracebackType
from typing import Literal, Self

from tests.outside.lossy_device import checksum

Says = Callable[[int, bytes], bytes | None]
"""The PDU of the answer to a unit and the PDU of a request; None is silence."""
FIXED = {1: 8, 2: 8, 3: 8, 4: 8, 5: 8, 6: 8, 7: 4, 8: 8, 11: 4, 12: 4, 17: 4, 22: 10, 24: 6, 43: 7}
"""Bytes of a whole request on a serial line, by function; 43 as it is with sub-function 14."""


class CountingDevice:
    """`says` decides; everything that came is counted before it is asked."""

    def __init__(self, kind: Literal["tcp", "serial-over-tcp", "serial"], says: Says) -> None:
        self.kind = kind
        self.asked: Counter[tuple[int, int]] = Counter()
        """Requests by unit and function."""
        self.strange = b""
        """What came and was no request."""
        self.where = ""
        """The port of the socket, or the device of the pseudo terminal."""
        self._says = says
        self._over = threading.Event()
        self._listener: socket.socket | None = None
        self._near = -1
        self._thread = threading.Thread(target=self._serve, daemon=True)

    @property
    def functions(self) -> Counter[int]:
        """Requests by function."""
        found: Counter[int] = Counter()
        for (_, function), times in self.asked.items():
            found[function] += times
        return found

    def __enter__(self) -> Self:
        if self.kind == "serial":
            import tty

            self._far, self._near = os.openpty()
            tty.setraw(self._near)
            self.where = os.ttyname(self._near)
        else:
            self._listener = socket.create_server(("127.0.0.1", 0))
            self._listener.settimeout(0.05)
            self.where = str(self._listener.getsockname()[1])
        self._thread.start()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._over.set()
        self._thread.join(5)
        if self._near >= 0:
            os.close(self._near)

    def vanish(self) -> None:
        """As an adapter that is pulled out: to be called by `says`."""
        self._over.set()

    def _serve(self) -> None:
        if self._listener is None:
            self._answer_all(self._far, lambda data: os.write(self._far, data))
            os.close(self._far)
            return
        with self._listener:
            while not self._over.is_set():
                with suppress(TimeoutError):
                    connection, _ = self._listener.accept()
                    with connection, suppress(OSError):
                        self._answer_all(connection.fileno(), connection.sendall)

    def _answer_all(self, descriptor: int, send: Callable[[bytes], object]) -> None:
        pending = b""
        take = self._take_tcp if self.kind == "tcp" else self._take_rtu
        while not self._over.is_set():
            if not select.select([descriptor], [], [], 0.02)[0]:
                self.strange += pending
                pending = b""
                continue
            data = os.read(descriptor, 4096)
            if not data:
                return
            pending += data
            while (taken := take(pending)) is not None:
                answer, pending = taken
                if answer:
                    send(answer)

    def _take_tcp(self, data: bytes) -> tuple[bytes, bytes] | None:
        if len(data) < 8 or len(data) < (end := 6 + int.from_bytes(data[4:6], "big")):
            return None
        pdu = self._heard(data[6], data[7:end])
        answer = data[:4] + struct.pack(">HB", len(pdu) + 1, data[6]) + pdu if pdu else b""
        return answer, data[end:]

    def _take_rtu(self, data: bytes) -> tuple[bytes, bytes] | None:
        if len(data) < 2:
            return None
        length = FIXED.get(data[1])
        if length is None:  # of unknown length: all that is there
            length = len(data)
        if len(data) < length:
            return None
        frame, rest = data[:length], data[length:]
        if checksum(frame[:-2]) != frame[-2:]:
            self.asked[frame[0], frame[1]] += 1
            self.strange += frame
            return b"", rest
        pdu = self._heard(frame[0], frame[1:-2])
        answer = frame[:1] + pdu
        return (answer + checksum(answer) if pdu else b""), rest

    def _heard(self, unit: int, pdu: bytes) -> bytes:
        self.asked[unit, pdu[0]] += 1
        return (not self._over.is_set() and self._says(unit, pdu)) or b""


def bank(
    words: Mapping[int, int], names: Mapping[int, bytes], *, functions: frozenset[int]
) -> Callable[[bytes], bytes]:
    """What a device says that has these registers in all four tables (bits are their lowest), and these names."""

    def says(pdu: bytes) -> bytes:
        function = pdu[0]
        if function not in functions:
            return bytes((function | 0x80, 1))
        if function in (1, 2, 3, 4):
            first, count = struct.unpack(">HH", pdu[1:5])
            held = [words.get(first + place) for place in range(count)]
            if None in held:
                return bytes((function | 0x80, 2))
            if function > 2:
                return struct.pack(f">BB{count}H", function, 2 * count, *(word or 0 for word in held))
            packed = bytearray(-(-count // 8))
            for place, word in enumerate(held):
                packed[place // 8] |= ((word or 0) & 1) << place % 8
            return bytes((function, len(packed))) + packed
        if function == 17:
            return bytes((17, 4)) + b"P7\x01\xff"
        if function == 43:
            wanted = [pdu[3]] if pdu[2] == 4 else [number for number in names if number >= pdu[3]]
            if not wanted or wanted[0] not in names:
                return bytes((0xAB, 2))
            # One object an answer, so that more follow.
            follow = (0xFF, wanted[1]) if len(wanted) > 1 else (0, 0)
            name = names[wanted[0]]
            return bytes((43, 14, pdu[2], 0x81, *follow, 1, wanted[0], len(name))) + name
        return pdu  # 08

    return says
