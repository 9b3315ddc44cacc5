"""Whether a device takes two requests at once: against bare sockets that take them, lose, mix up or refuse them."""

from __future__ import annotations

import json
import socket
import struct
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import replace

import pytest

from app.client.endpoint import Endpoint
from app.discovery.examination import Examination
from app.discovery.search import Search, SearchState, Wanted
from app.probing import requests
from app.probing.found import FoundFollower, FoundRange
from app.probing.line import ReadingLine
from app.probing.probe import SearchStopped
from app.probing.two_at_once import FAILURES, ROUNDS, requests_in_flight
from tests.modelled_line import HiddenDevice, ModelledLine
from tests.staged_follower import StagedFollower

DEVICE = FoundFollower(1, 20.0, functions=(3,), longest_read=125, ranges=(FoundRange("holding", 100, 109),))

Packet = list[bytes]
"""The requests that came in one go, each with its header."""
Answers = list[bytes] | None
"""What goes back; None: the connection is closed."""


def answer(request: bytes, label: bytes | None = None) -> bytes:
    """Registers 100 to 109 hold three times their address; MBAP and 03 by hand, after V1.1b3 and the guide for TCP."""
    pdu = bytes((request[7] | 0x80, 1))
    if request[7] == 3:
        address, count = struct.unpack(">HH", request[8:12])
        inside = 100 <= address <= address + count - 1 <= 109
        words = [3 * (address + place) for place in range(count)] if inside else []
        pdu = struct.pack(f">BB{count}H", 3, 2 * count, *words) if inside else b"\x83\x02"
    return struct.pack(">2sHHB", label or request[:2], 0, len(pdu) + 1, request[6]) + pdu


def takes_both(packet: Packet) -> Answers:
    return [answer(request) for request in packet]


def turned_round(packet: Packet) -> Answers:
    return [answer(request) for request in reversed(packet)]


def first_only(packet: Packet) -> Answers:
    return [answer(packet[0])]


def second_only(packet: Packet) -> Answers:
    return [answer(packet[-1])]


def mixes_numbers(packet: Packet) -> Answers:
    labels = [request[:2] for request in reversed(packet)]
    return [answer(request, label) for request, label in zip(packet, labels, strict=True)]


def one_number_for_both(packet: Packet) -> Answers:
    return [answer(request, packet[0][:2]) for request in packet]


def hangs_up(packet: Packet) -> Answers:
    return None if len(packet) > 1 else takes_both(packet)


def falls_silent(packet: Packet) -> Answers:
    return []


class LosesOne:
    """Takes both, but not the very first time."""

    def __init__(self) -> None:
        self.lost = False

    def __call__(self, packet: Packet) -> Answers:
        if len(packet) > 1 and not self.lost:
            self.lost = True
            return first_only(packet)
        return takes_both(packet)


class Served:
    """What came, packet by packet, and how often it was connected to."""

    def __init__(self) -> None:
        self.packets: list[Packet] = []
        self.connections = 0


def split(data: bytes) -> Packet:
    found = []
    while data:
        length = 6 + int.from_bytes(data[4:6], "big")
        found.append(data[:length])
        data = data[length:]
    return found


@contextmanager
def serving(behaves: Callable[[Packet], Answers]) -> Iterator[tuple[Endpoint, Served]]:
    """A device of one connection at a time, in a thread; a packet is what one `recv` gives."""
    served = Served()

    def serve() -> None:
        while True:
            try:
                connection, _ = listener.accept()
            except OSError:
                return
            served.connections += 1
            with connection, suppress(OSError):
                while data := connection.recv(4096):
                    packet = split(data)
                    served.packets.append(packet)
                    answers = behaves(packet)
                    if answers is None:
                        break
                    for each in answers:
                        connection.sendall(each)

    with socket.create_server(("127.0.0.1", 0)) as listener:
        thread = threading.Thread(target=serve, daemon=True)
        thread.start()
        yield Endpoint.tcp("127.0.0.1", listener.getsockname()[1]), served
        listener.shutdown(socket.SHUT_RDWR)
    thread.join(5)
    assert not thread.is_alive()


def pairs(served: Served) -> int:
    return sum(1 for packet in served.packets if len(packet) == 2)


@pytest.mark.parametrize(
    ("behaves", "in_flight", "tried"),
    [
        (takes_both, 2, ROUNDS),
        (turned_round, 2, ROUNDS),
        (LosesOne(), 2, ROUNDS + 1),
        (first_only, 1, FAILURES),
        (second_only, 1, FAILURES),
        (mixes_numbers, 1, FAILURES),
        (one_number_for_both, 1, FAILURES),
        (hangs_up, 1, FAILURES),
        (falls_silent, None, 1),
    ],
    ids=lambda each: getattr(each, "__name__", None),
)
def test_what_a_device_does_with_two(behaves: Callable[[Packet], Answers], in_flight: int | None, tried: int) -> None:
    with serving(behaves) as (endpoint, served):
        with ReadingLine(endpoint) as line:
            assert requests_in_flight(line, DEVICE, {}) == in_flight
            alive = line.ask(requests.read(1, "holding", 100), 1.0)
        assert pairs(served) == tried
        assert all(len(packet) in (1, 2) for packet in served.packets)
        assert len({request[:2] for packet in served.packets for request in packet}) == sum(map(len, served.packets))
        if in_flight is not None:
            assert requests.words_of(alive) == (300,), "what it is asked afterwards it answers"
        assert served.connections == (1 + FAILURES if behaves is hangs_up else 1)


@pytest.mark.parametrize("kind", ["serial-over-tcp", "serial"])
def test_a_serial_line_is_never_given_two(kind: str) -> None:
    if kind == "serial":
        line = ModelledLine([HiddenDevice(1)])
        assert requests_in_flight(line, DEVICE, {}) is None
        assert not line.sent
        return
    with StagedFollower(kind, lambda _: []) as device, ReadingLine(device.endpoint) as reading:
        assert requests_in_flight(reading, DEVICE, {}) is None
        with pytest.raises(ValueError, match="one request at a time"):
            reading.ask_both((requests.read(1, "holding", 0), requests.read(1, "holding", 1)), 0.1)
        assert device.stream == b""


@pytest.mark.parametrize(
    ("device", "never"),
    [
        (replace(DEVICE, ranges=()), {}),
        (replace(DEVICE, ranges=(FoundRange("holding", 7, 7),)), {}),
        (replace(DEVICE, longest_read=1), {}),
        (DEVICE, {"holding": (range(90, 101),)}),
    ],
    ids=["no register", "one alone", "one at a time", "not to be touched"],
)
def test_nothing_is_tried_where_two_answers_could_not_be_told_apart(
    device: FoundFollower, never: requests.Untouched
) -> None:
    with serving(takes_both) as (endpoint, served):
        with ReadingLine(endpoint) as line:
            assert requests_in_flight(line, device, never) is None
        assert not served.packets


def test_it_is_the_last_thing_that_a_search_asks() -> None:
    """Registers, names and the units where nobody answers come before: whatever it does then, nothing is lost."""
    with serving(hangs_up) as (endpoint, served), ReadingLine(endpoint) as line:
        wanted = Wanted(units=(1, 7), tables=("holding",), first=90, last=120)
        found = Search(line, wanted, SearchState(), examine=Examination()).run()
    (one,) = [each for each in found.followers if each.unit == 1]
    assert (one.in_flight, one.ranges, found.stopped_by) == (1, DEVICE.ranges, "done")
    first_pair = next(place for place, packet in enumerate(served.packets) if len(packet) == 2)
    assert {request[7] for packet in served.packets[:first_pair] for request in packet} >= {1, 2, 3, 4, 17, 43}
    assert {request[6] for packet in served.packets[first_pair:] for request in packet} == {1, 7}
    assert all(request[7] == 3 for packet in served.packets[first_pair:] for request in packet)
    assert found.as_json()["followers"][0]["in_flight"] == 1  # type: ignore[index]


def test_a_search_that_was_stopped_before_it_makes_up_for_it() -> None:
    state, examination = SearchState(), Examination()
    wanted = Wanted(units=(1,), tables=("holding",), first=90, last=120)

    def stop(_found: object, sentence: str, _seconds: object) -> None:
        if "two things at once" in sentence:
            raise SearchStopped

    with serving(takes_both) as (endpoint, served):
        with ReadingLine(endpoint) as line:
            assert Search(line, wanted, state, stop, examination).run().stopped_by == "person"
        assert pairs(served) == 0
        state = SearchState.from_json(json.loads(json.dumps(state.as_json())))
        with ReadingLine(endpoint) as line:
            found = Search(line, wanted, state, examine=examination).run()
        assert [one.in_flight for one in found.followers] == [2]
        assert pairs(served) == ROUNDS
        with ReadingLine(endpoint) as line:
            Search(line, wanted, SearchState.from_json(state.as_json()), examine=examination).run()
        assert pairs(served) == ROUNDS, "and it is not asked again"
