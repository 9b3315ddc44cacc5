"""A slow device that does one thing after the other: a program of its own, which shares no code with the client.

It takes requests in the order in which they come, and begins with one when it has answered the one before. It prints
where it is to be reached, answers until its standard input ends, and then prints one line of JSON for each request:
when it had come, when its answer went, and how many answers were owed just before it came.
"""

from __future__ import annotations

import argparse
import json
import os
import select
import socket
import struct
import sys
import time
from collections import deque


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


def main() -> None:
    """Answer until standard input ends."""
    ask = argparse.ArgumentParser()
    ask.add_argument("--kind", choices=("tcp", "serial-over-tcp", "serial"), default="tcp")
    ask.add_argument("--takes", type=float, default=500.0, help="milliseconds for one request")
    options = ask.parse_args()
    if options.kind == "serial":
        import tty

        descriptor, near = os.openpty()
        tty.setraw(near)
        sys.stdout.write(f"{os.ttyname(near)}\n")
        sys.stdout.flush()
    else:
        listener = socket.create_server(("127.0.0.1", 0))
        sys.stdout.write(f"{listener.getsockname()[1]}\n")
        sys.stdout.flush()
        connection, _ = listener.accept()
        connection.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
        descriptor = connection.fileno()
    network = options.kind == "tcp"
    waiting: deque[tuple[float, int, bytes]] = deque()
    begun = 0.0
    log: list[tuple[float, float, int]] = []
    pending = b""
    while True:
        wait = max(0.0, begun + options.takes / 1000 - time.monotonic()) if waiting else None
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
            length = 12 if network else 8
            while len(pending) >= length:
                if not waiting:
                    begun = time.monotonic()
                waiting.append((time.monotonic(), len(waiting), pending[:length]))
                pending = pending[length:]
        while waiting and begun + options.takes / 1000 <= time.monotonic():
            came, owed, frame = waiting.popleft()
            unit, function, address, count = struct.unpack(">BBHH", frame[6:12] if network else frame[:6])
            if function in (3, 4):
                body = struct.pack(f">BBB{count}H", unit, function, 2 * count, *range(address, address + count))
            else:
                body = bytes((unit, function | 0x80, 1))
            os.write(
                descriptor,
                frame[:4] + struct.pack(">H", len(body)) + body if network else body + check_sum(body),
            )
            begun = time.monotonic()
            log.append((came, begun, owed))
    sys.stdin.read()
    for entry in log:
        sys.stdout.write(json.dumps(entry) + "\n")


if __name__ == "__main__":
    main()
