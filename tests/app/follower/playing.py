"""Projects with followers to play, and a client of a few lines that knows nobody else's Modbus code."""

from __future__ import annotations

import os
import select
import socket
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from decimal import Decimal
from typing import Any

from app.project.model import Project
from tests.builders import project_of


def signal(name: str, register: int, **keys: Any) -> dict[str, Any]:
    """A holding register of the device 'it', or what `keys` make of it."""
    return {"name": name, "follower": "it", "register": register, **keys}


def tcp_line(name: str = "hall", port: int = 5020) -> dict[str, Any]:
    return {"name": name, "kind": "tcp", "host": "127.0.0.1", "port": port}


def bank_project(*signals: dict[str, Any], **follower: Any) -> Project:
    """One bank named 'it' at unit 17."""
    return project_of(
        line=[tcp_line()],
        follower=[{"name": "it", "line": "hall", "unit": 17, **follower}],
        signal=list(signals),
    )


def drive_project(*signals: dict[str, Any], **follower: Any) -> Project:
    """One drive named 'it' at unit 3."""
    return bank_project(*signals, **{"unit": 3, "simulate": "drive", **follower})


def many(*followers: tuple[str, str, int]) -> Project:
    """Banks by name, line and unit, each with one register 0 that holds its unit."""
    lines = list(dict.fromkeys(line for _, line, _ in followers))
    return project_of(
        line=[tcp_line(name) for name in lines],
        follower=[{"name": name, "line": line, "unit": unit} for name, line, unit in followers],
        signal=[
            {"name": f"{name} zero", "follower": name, "register": 0, "start_value": Decimal(unit)}
            for name, _, unit in followers
        ],
    )


def mbap(unit: int, pdu: str | bytes, transaction: int = 1) -> bytes:
    """A Modbus TCP frame, put together by hand."""
    body = bytes.fromhex(pdu) if isinstance(pdu, str) else pdu
    return transaction.to_bytes(2, "big") + b"\0\0" + (len(body) + 1).to_bytes(2, "big") + bytes((unit,)) + body


class RawClient:
    """Bytes in, bytes out."""

    def __init__(self, address: tuple[str, int]) -> None:
        self.socket = socket.create_connection(address, timeout=5)

    def send(self, data: bytes) -> None:
        self.socket.sendall(data)

    def receive(self, size: int) -> bytes:
        """Exactly `size` bytes; fails after the socket's time-out."""
        data = b""
        while len(data) < size:
            more = self.socket.recv(size - len(data))
            assert more, f"the connection was closed after {data.hex(' ')}"
            data += more
        return data

    def frame(self) -> tuple[int, int, bytes]:
        """Transaction, unit and PDU of the next Modbus TCP frame."""
        header = self.receive(7)
        assert header[2:4] == b"\0\0"
        return int.from_bytes(header[:2], "big"), header[6], self.receive(int.from_bytes(header[4:6], "big") - 1)

    def ask(self, unit: int, pdu: str, transaction: int = 1) -> str:
        """The PDU that answers a PDU, both in hexadecimal; checks that the rest of the frame belongs to the request."""
        self.send(mbap(unit, pdu, transaction))
        answered, by, answer = self.frame()
        assert (answered, by) == (transaction, unit)
        return answer.hex(" ").upper()

    def closed_by_peer(self) -> bool:
        """Whether nothing more comes because the other side closed; fails after the socket's time-out."""
        try:
            return self.socket.recv(1) == b""
        except ConnectionError:
            return True


@contextmanager
def client(address: tuple[str, int]) -> Iterator[RawClient]:
    raw = RawClient(address)
    try:
        yield raw
    finally:
        raw.socket.close()


def crc(data: bytes) -> bytes:
    """CRC-16/MODBUS bit by bit, low byte first: an implementation of the tests' own."""
    register = 0xFFFF
    for byte in data:
        register ^= byte
        for _ in range(8):
            register = register >> 1 ^ (0xA001 if register & 1 else 0)
    return register.to_bytes(2, "little")


def rtu(unit: int, pdu: str | bytes) -> bytes:
    body = bytes((unit,)) + (bytes.fromhex(pdu) if isinstance(pdu, str) else pdu)
    return body + crc(body)


@contextmanager
def wired() -> Iterator[tuple[str, str]]:
    """Two serial devices that are wired to one another."""
    import tty

    (left, left_device), (right, right_device) = os.openpty(), os.openpty()
    ended, end = os.pipe()
    for device in (left_device, right_device):
        tty.setraw(device)

    def carry() -> None:
        while True:
            ready, _, _ = select.select([left, right, ended], [], [])
            if ended in ready:
                return
            for near in ready:
                os.write(right if near == left else left, os.read(near, 4096))

    carrier = threading.Thread(target=carry)
    carrier.start()
    yield os.ttyname(left_device), os.ttyname(right_device)
    os.close(end)
    carrier.join()
    for descriptor in (left, left_device, right, right_device, ended):
        os.close(descriptor)


def player_threads() -> list[threading.Thread]:
    return [thread for thread in threading.enumerate() if thread.name == "simulated followers"]
