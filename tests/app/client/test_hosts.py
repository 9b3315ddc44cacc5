"""Whether two names are of one host: with a name server that answers, that knows nothing, and that hangs."""

from __future__ import annotations

import socket
import threading
import time
from collections.abc import Iterator

import pytest

from app.client import hosts
from app.client.endpoint import Endpoint
from app.client.hosts import look_up, same_host
from tests.waiting import wait_for

NAMES = {
    "drive.example": ["192.0.2.7", "2001:db8::7"],
    "pump.example": ["2001:db8:0::7"],
    "fan.example": ["192.0.2.8"],
    "mine.example": ["127.0.1.1"],
}


class NameServer:
    """Counts what it is asked; while `hangs` is set it answers nobody."""

    def __init__(self) -> None:
        self.asked: list[str] = []
        self.answers = threading.Event()
        self.answers.set()

    def __call__(self, host: str, _port: object, **_: object) -> list[tuple[object, ...]]:
        self.asked.append(host)
        assert threading.current_thread() is not threading.main_thread()
        assert self.answers.wait(10)
        if host not in NAMES:
            raise socket.gaierror(socket.EAI_NONAME, "unknown")
        return [(None, None, 6, "", (address, 0)) for address in NAMES[host]]


@pytest.fixture(autouse=True)
def server(monkeypatch: pytest.MonkeyPatch) -> Iterator[NameServer]:
    made = NameServer()
    monkeypatch.setattr("socket.getaddrinfo", made)
    monkeypatch.setattr(hosts, "_kept", {})
    yield made
    made.answers.set()


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ("drive.example", "192.0.2.7", True),
        ("Drive.Example.", "pump.example", True),
        ("drive.example", "fan.example", False),
        ("fan.example", "192.0.2.7", False),
        ("nobody.example", "192.0.2.7", False),
        ("nobody.example", "NOBODY.example.", True),
        ("mine.example", "localhost", True),
        ("::1", "127.0.0.2", True),
        ("0.0.0.0", "localhost", True),
        ("::ffff:192.0.2.7", "drive.example", True),
        ("2001:db8::7", "2001:0db8:0:0::0007", True),
        ("192.0.2.7", "192.0.2.70", False),
        ("", "192.0.2.7", False),
    ],
)
def test_names_and_addresses_of_one_host(one: str, other: str, same: bool) -> None:
    assert same_host(one, other, 5.0) is same
    assert same_host(other, one, 5.0) is same


def test_addresses_ask_no_name_server_and_a_name_is_asked_once(server: NameServer) -> None:
    same_host("192.0.2.7", "::1")
    assert server.asked == []
    for _ in range(3):
        assert same_host("drive.example", "192.0.2.7", 5.0)
    assert server.asked == ["drive.example"]


def test_a_name_server_that_hangs_holds_nobody_up_and_is_believed_later(server: NameServer) -> None:
    server.answers.clear()
    begin = time.monotonic()
    for _ in range(20):
        assert not same_host("drive.example", "192.0.2.7")
    assert time.monotonic() - begin < 5 * hosts.WAITED_S, "it is waited for once, not twenty times"
    server.answers.set()
    wait_for(lambda: same_host("drive.example", "192.0.2.7"))
    assert server.asked == ["drive.example"]


def test_what_was_looked_up_before_is_known_at_once(server: NameServer) -> None:
    look_up("drive.example")
    look_up("192.0.2.9")
    wait_for(lambda: same_host("drive.example", "192.0.2.7", 0.0))
    assert server.asked == ["drive.example"]


def test_lines_that_lead_to_one_host(server: NameServer) -> None:
    there = Endpoint.tcp("drive.example", 502)
    assert there.same_place(Endpoint.serial_over_tcp("192.0.2.7", 502))
    assert not there.same_place(Endpoint.tcp("192.0.2.7", 1502))
    assert not there.same_place(Endpoint.serial("/dev/ttyUSB0"))
