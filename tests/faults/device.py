"""A device whose answers come twice, or slowly: a program of its own, which shares no code with the client.

It plays two devices at one unit address, or one behind a radio or a converter that repeats, or one that does one thing
after the other: bare sockets or a bare terminal, a check sum of its own. It prints where it is to be reached, answers
until its standard input ends, and then prints its log, one line of JSON for each answer: when it was asked, to which
function, address and count, the registers that it held, and how many answers it owed just then.
"""

from __future__ import annotations

import argparse
import heapq
import itertools
import json
import os
import random
import select
import socket
import struct
import sys
import time

UNIT = 3


def check_sum(data: bytes) -> bytes:
    """CRC-16/MODBUS, a bit at a time."""
    value = 0xFFFF
    for byte in data:
        value ^= byte
        for _ in range(8):
            low = value & 1
            value >>= 1
            if low:
                value ^= 0xA001
    return bytes((value & 0xFF, value >> 8))


class Device:
    """What is held, and what is to be sent when."""

    def __init__(self, ask: argparse.Namespace) -> None:
        self.ask = ask
        self.chance = random.Random(ask.seed)
        self.number = 0
        self.due: list[tuple[float, int, bytes]] = []
        self.order = itertools.count()
        self.log: list[tuple[float, int, int, int, tuple[int, ...], int]] = []
        self.free = 0.0
        """When it has done all that it was asked, where it does one thing after the other."""
        self.written: dict[int, int] = {}
        self.writes = 0

    def heard(self, frame: bytes) -> None:
        """One whole request."""
        now, owed = time.monotonic(), len(self.due)
        head = b""
        if self.ask.kind == "tcp":
            head, frame = frame[:4], frame[6:] + check_sum(frame[6:])
        unit, function = frame[0], frame[1]
        if unit != UNIT or check_sum(frame[:-2]) != frame[-2:]:
            return
        self.number += 1
        address, count = struct.unpack(">HH", frame[2:6])
        other = b""
        if function in (3, 4):
            if self.ask.tight and not (count == 1 and address % 10 == 0):
                body = bytes((unit, function | 0x80, 2))
            else:
                words = tuple(self.word(function, address + place) for place in range(count))
                self.log.append((now, function, address, count, words, owed))
                body = struct.pack(f">BBB{count}H", unit, function, 2 * count, *words)
                if self.ask.second:
                    other = struct.pack(f">BBB{count}H", unit, function, 2 * count, *(word ^ 0x5555 for word in words))
        elif function in (6, 16):
            self.writes += 1
            if self.ask.deaf and self.writes % self.ask.deaf == 0:
                return
            words = (count,) if function == 6 else struct.unpack(f">{count}H", frame[7:-2])
            self.written.update((address + place, word) for place, word in enumerate(words))
            self.log.append((now, function, address, len(words), tuple(words), owed))
            body = frame[:6]
        else:
            body = bytes((unit, function | 0x80, 1))
        if self.ask.in_turn:
            self.free = at = max(now, self.free) + self.ask.takes / 1000
        else:
            at = now + self.chance.uniform(0.0, self.ask.takes) / 1000
        self.send(at, head, body)
        if self.chance.random() < self.ask.share:
            self.send(at + self.chance.uniform(self.ask.least, self.ask.most) / 1000, head, other or body)

    def word(self, function: int, address: int) -> int:
        """The address, and how often anything was asked: no two answers are alike. Or of few different values."""
        if address in self.written:
            return self.written[address]
        if self.ask.alike:
            return (address // 10 + self.number // 200) % 2
        return ((address * 7 + function) & 0xFF) << 8 | self.number & 0xFF

    def send(self, at: float, head: bytes, body: bytes) -> None:
        frame = head + struct.pack(">H", len(body)) + body if head else body + check_sum(body)
        heapq.heappush(self.due, (at, next(self.order), frame))


def length_of(data: bytes, kind: str) -> int:
    """Of the request that begins `data`."""
    if kind == "tcp":
        return 6 + int.from_bytes(data[4:6], "big")
    if len(data) < 7:
        return 8
    return 9 + data[6] if data[1] in (15, 16) else 8


def main() -> None:
    """Answer until standard input ends."""
    ask = argparse.ArgumentParser()
    ask.add_argument("--kind", choices=("tcp", "serial-over-tcp", "serial"), default="serial-over-tcp")
    ask.add_argument("--least", type=float, default=10.0, help="milliseconds until the second answer")
    ask.add_argument("--most", type=float, default=10.0)
    ask.add_argument("--share", type=float, default=1.0, help="of the answers that come twice, 0 to 1")
    ask.add_argument("--takes", type=float, default=2.0, help="milliseconds that an answer takes at most")
    ask.add_argument("--in-turn", action="store_true", help="each takes so long, one after the other")
    ask.add_argument("--second", action="store_true", help="the second answer has other values")
    ask.add_argument("--tight", action="store_true", help="it has only every tenth register, one at a time")
    ask.add_argument("--alike", action="store_true", help="its registers hold 0 or 1 and change seldom")
    ask.add_argument("--deaf", type=int, default=0, help="so many-th writes are not heard; 0: all are")
    ask.add_argument("--seed", type=int, default=1)
    options = ask.parse_args()
    device = Device(options)
    if options.kind == "serial":
        import tty

        far, near = os.openpty()
        tty.setraw(near)
        sys.stdout.write(f"{os.ttyname(near)}\n")
        sys.stdout.flush()
        descriptor = far
    else:
        listener = socket.create_server(("127.0.0.1", 0))
        sys.stdout.write(f"{listener.getsockname()[1]}\n")
        sys.stdout.flush()
        connection, _ = listener.accept()
        connection.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
        descriptor = connection.fileno()
    pending = b""
    while True:
        wait = max(0.0, device.due[0][0] - time.monotonic()) if device.due else None
        ready, _, _ = select.select((descriptor, sys.stdin), (), (), wait)
        if sys.stdin in ready:
            break
        if descriptor in ready:
            try:
                data = os.read(descriptor, 4096)
            except OSError:
                break
            if not data:
                break
            pending += data
            while len(pending) >= 8 and len(pending) >= (length := length_of(pending, options.kind)):
                device.heard(pending[:length])
                pending = pending[length:]
        while device.due and device.due[0][0] <= time.monotonic():
            os.write(descriptor, heapq.heappop(device.due)[2])
    sys.stdin.read()
    for entry in device.log:
        sys.stdout.write(json.dumps(entry) + "\n")


if __name__ == "__main__":
    main()
