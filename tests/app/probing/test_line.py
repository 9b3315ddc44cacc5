"""The one client that asks an unknown line: against devices whose every byte is staged, on sockets and ptys."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Iterable
from pathlib import Path

import grimp
import pytest

from app.client.endpoint import Endpoint
from app.probing import requests
from app.probing.line import ReadingLine
from app.probing.probe import CannotProbe, LineSettings, Probe, SearchStopped, SomebodyElse
from tests.staged_follower import CLOSE, Asked, StagedFollower, crc

KINDS = ["tcp", "serial-over-tcp", *(["serial"] if sys.platform != "win32" else [])]
RTU = KINDS[1:]
READ = requests.read(7, "holding", 10, 2)
LIMIT = 0.25

Parts = Iterable["bytes | float | object"]


def words(asked: Asked) -> bytes:
    """Each register holds three times its address."""
    values = b"".join((3 * (asked.address + place) & 0xFFFF).to_bytes(2, "big") for place in range(asked.count))
    return bytes((asked.function, len(values))) + values


def at_seven(asked: Asked) -> Parts:
    if asked.unit == 7:
        yield asked.framed(words(asked) if asked.function in (3, 4) else bytes((asked.function | 0x80, 1)))


def frame(body: bytes) -> bytes:
    return body + crc(body)


@pytest.mark.parametrize("kind", KINDS)
def test_asks_and_is_answered(kind: str) -> None:
    with StagedFollower(kind, at_seven) as device, ReadingLine(device.endpoint) as line:
        result = line.ask(READ, LIMIT)
        assert (result.kind, requests.words_of(result)) == ("answer", (30, 33))
        assert result.waited_s is not None
        assert 0 <= result.waited_s < LIMIT
        assert line.ask(requests.read(8, "holding", 0), 0.05).kind == "silence"
        refused = line.ask(requests.identification(7), LIMIT)
        assert (refused.kind, refused.code, refused.alive) == ("exception", 1, True)
        assert device.asked[0].pdu == READ.pdu


@pytest.mark.parametrize("kind", KINDS)
def test_a_whole_session_never_writes(kind: str) -> None:
    everything = [
        *(requests.read(7, table, 5, 3) for table in ("coil", "discrete", "holding", "input")),
        requests.echo_query(7),
        requests.server_id(7),
        requests.identification(7),
        requests.identification(7, 0, 4),
    ]
    with StagedFollower(kind, at_seven) as device, ReadingLine(device.endpoint) as line:
        for probe in everything:
            line.ask(probe, 0.1)
        forbidden = [
            Probe(7, b"\x06\0\1\0\1"),
            Probe(7, b"\x05\0\1\xff\0"),
            Probe(7, b"\x10\0\1\0\1\2\0\1"),
            Probe(7, b"\x16\0\4\0\xf2\0\x25"),
            Probe(7, b"\x17" + bytes(9)),
            Probe(7, b"\x08\0\1\0\0"),
            Probe(300, READ.pdu),
        ]
        if kind != "tcp":
            forbidden.append(Probe(0, READ.pdu))
        for probe in forbidden:
            with pytest.raises(ValueError, match="may not be sent"):
                line.ask(probe, 0.1)
        assert {asked.function for asked in device.asked} <= {1, 2, 3, 4, 8, 17, 43}
        assert {asked.unit for asked in device.asked} == {7}
        assert len(device.asked) == len(everything) == sum(line.sent.values())


def test_no_encoder_of_a_write_can_be_reached() -> None:
    graph = grimp.build_graph("app", include_external_packages=True)

    def way(room: str, writer: str) -> object:
        assert {room, writer} <= graph.modules
        inside = sorted({room, *graph.find_descendants(room)})
        chains = (graph.find_shortest_chain(module, writer) for module in inside)
        return next((chain for chain in chains if chain), None)

    for writer in ("pymodbus", "app.modbus.requests", "app.client.client", "app.line.writer"):
        assert way("app.session", writer), f"the graph does not know the way of a session to {writer}"
        for room in ("app.probing", "app.listening", "app.matching"):
            assert way(room, writer) is None


@pytest.mark.parametrize("kind", RTU)
def test_its_own_echo_is_no_answer(kind: str) -> None:
    def echo_and_answer(asked: Asked) -> Parts:
        yield asked.frame
        if asked.unit == 7 and asked.function == 3:
            yield 0.01
            yield asked.framed(words(asked))

    with StagedFollower(kind, echo_and_answer) as device, ReadingLine(device.endpoint) as line:
        nobody = line.ask(requests.read(9, "holding", 0), 0.05)
        assert (nobody.kind, nobody.echoed) == ("silence", True)
        assert line.echoes
        result = line.ask(READ, LIMIT)
        assert (result.kind, result.echoed, requests.words_of(result)) == ("answer", True, (30, 33))
        # The adapter answers 08 as a device would: with nobody there it must not count.
        assert not line.ask(requests.echo_query(9), 0.05).alive


@pytest.mark.parametrize("kind", RTU)
def test_an_echo_of_08_proves_nothing_before_the_line_is_known(kind: str) -> None:
    with StagedFollower(kind, lambda asked: [asked.frame]) as device, ReadingLine(device.endpoint) as line:
        assert not line.ask(requests.echo_query(9), 0.1).alive


@pytest.mark.parametrize("kind", RTU)
def test_two_devices_at_one_address_are_noticed(kind: str) -> None:
    def both(asked: Asked) -> Parts:
        yield asked.framed(words(asked))
        yield 0.015
        yield asked.framed(b"\x83\x02")

    with StagedFollower(kind, both) as device, ReadingLine(device.endpoint) as line:
        result = line.ask(READ, LIMIT)
        assert result.twice
        assert requests.words_of(result) == (30, 33)
        assert requests.words_of(line.ask(requests.read(7, "holding", 100, 2), LIMIT)) == (300, 303)


@pytest.mark.parametrize("kind", RTU)
def test_garbled_answers_are_evidence(kind: str) -> None:
    def garbled(asked: Asked) -> Parts:
        sound = asked.framed(words(asked))
        yield sound[:-1] + bytes((sound[-1] ^ 1,))

    with StagedFollower(kind, garbled) as device, ReadingLine(device.endpoint) as line:
        result = line.ask(READ, LIMIT)
        assert (result.kind, len(result.received), result.alive) == ("garbled", 9, False)


@pytest.mark.parametrize("kind", RTU)
def test_a_late_answer_is_not_taken_for_the_next(kind: str) -> None:
    def late(asked: Asked) -> Parts:
        if asked.number == 1:
            yield 0.15
        yield asked.framed(words(asked))

    with StagedFollower(kind, late) as device, ReadingLine(device.endpoint) as line:
        assert line.ask(requests.read(7, "holding", 500), 0.08).kind == "silence"
        result = line.ask(requests.read(7, "holding", 1000), LIMIT)
        assert requests.words_of(result) == (3000,)


@pytest.mark.parametrize("kind", RTU)
def test_a_device_that_falls_asleep_is_never_believed_for_another_register(kind: str) -> None:
    """Its answer comes three time-outs later, when two more requests could have been sent."""

    def sleeps(asked: Asked) -> Parts:
        if asked.number % 3 == 0:
            yield 0.4
        yield asked.framed(words(asked))

    with StagedFollower(kind, sleeps) as device, ReadingLine(device.endpoint) as line:
        answered = 0
        for address in range(100, 1300, 100):
            result = line.ask(requests.read(7, "holding", address), 0.1)
            if result.alive:
                answered += 1
                assert requests.words_of(result) == (3 * address,)
        assert answered == 8


@pytest.mark.parametrize("kind", RTU)
def test_late_answers_that_are_as_long_as_a_request_are_nobody_elses(kind: str) -> None:
    def late(asked: Asked) -> Parts:
        if asked.address == 16:
            yield 0.15
        yield asked.framed(b"\x01\x03\x05\x00\x01")

    with StagedFollower(kind, late) as device, ReadingLine(device.endpoint) as line:
        kinds = [line.ask(requests.read(7, "coil", address, 17), 0.1).kind for address in (0, 16) * 4]
        assert kinds == ["answer", "silence"] * 4


def test_a_late_answer_over_tcp_is_told_by_its_number() -> None:
    def late(asked: Asked) -> Parts:
        if asked.number == 1:
            yield 0.1
        yield asked.framed(words(asked))

    with StagedFollower("tcp", late) as device, ReadingLine(device.endpoint) as line:
        assert line.ask(requests.read(7, "holding", 500), 0.05).kind == "silence"
        assert requests.words_of(line.ask(requests.read(7, "holding", 1000), 0.5)) == (3000,)
        (came,) = line.late_answers(0.0)
        assert (came.probe.pdu, requests.words_of(came)) == (requests.read(7, "holding", 500).pdu, (1500,))
        assert line.patience_s > 0.1, "as long as it was seen to take, and more"
        assert not line.late_answers(0.0)


def others(asked: Asked) -> Parts:
    """Whatever is asked: another master talks to unit 3."""
    for _ in range(2):
        yield frame(b"\x03\x03\x00\x10\x00\x02")
        yield frame(b"\x03\x03\x04\x00\x01\x00\x02")


@pytest.mark.parametrize("kind", RTU)
def test_gives_way_to_another_master(kind: str) -> None:
    with StagedFollower(kind, others) as device, ReadingLine(device.endpoint) as line:
        line.ask(READ, 0.1)
        with pytest.raises(SomebodyElse, match="another client"):
            line.ask(READ, 0.1)
        assert len(device.asked) == 1
        with pytest.raises(SomebodyElse):
            line.ask(requests.read(9, "holding", 0), 0.1)
        assert len(device.asked) == 1


class Speaker:
    """A far end that speaks by itself, on a pty."""

    def __init__(self, said: Callable[[], bytes]) -> None:
        import os
        import threading
        import tty

        self.far, near = os.openpty()
        tty.setraw(near)
        self.device = os.ttyname(near)
        self.near = near
        self._end = threading.Event()

        def speak() -> None:
            while not self._end.wait(0.001):
                os.write(self.far, said())

        self._thread = threading.Thread(target=speak, daemon=True)

    def __enter__(self) -> Speaker:
        self._thread.start()
        return self

    def __exit__(self, *_: object) -> None:
        import os

        self._end.set()
        self._thread.join(5)
        os.close(self.far)
        os.close(self.near)

    def asked(self) -> bytes:
        """What came to the far end."""
        import os
        import select

        found = b""
        while select.select([self.far], [], [], 0.05)[0]:
            found += os.read(self.far, 4096)
        return found


@pytest.mark.skipif(sys.platform == "win32", reason="no ptys")
def test_nothing_is_sent_into_a_master_that_polls() -> None:
    frames = frame(b"\x03\x03\x00\x10\x00\x02") + frame(b"\x03\x03\x04\x00\x01\x00\x02")
    with Speaker(lambda: frames) as master, ReadingLine(Endpoint.serial(master.device)) as line:
        with pytest.raises(SomebodyElse):
            line.ask(READ, 0.1)
        assert master.asked() == b""
        assert sum(line.sent.values()) == 0


@pytest.mark.skipif(sys.platform == "win32", reason="no ptys")
def test_frames_in_noise_are_not_another_master() -> None:
    """Of a megabyte of noise nine frames pass the CRC: one of each unit here, and a lot of noise around."""
    units = iter(range(1, 248))
    with (
        Speaker(lambda: frame(bytes((next(units, 0), 3, 2, next(units, 0), 7))) + b"\x00\xf0\x55") as noise,
        ReadingLine(Endpoint.serial(noise.device)) as line,
    ):
        assert not line.ask(READ, 0.1).sent
        assert not line.ask(READ, 0.1).sent


@pytest.mark.skipif(sys.platform == "win32", reason="no ptys")
def test_a_babbling_line_ends_the_request_unsent() -> None:
    with Speaker(lambda: b"\x00\xf0\x55") as babbler, ReadingLine(Endpoint.serial(babbler.device)) as line:
        begin = time.monotonic()
        result = line.ask(READ, 0.1)
        assert (result.kind, result.sent) == ("garbled", False)
        assert time.monotonic() - begin < 10
        assert babbler.asked() == b""


@pytest.mark.parametrize("kind", KINDS)
def test_stops_when_told(kind: str) -> None:
    wanted: list[bool] = []
    with StagedFollower(kind, lambda _: []) as device:
        with ReadingLine(device.endpoint, lambda: bool(wanted)) as line:
            line.listen(0.01)
            wanted.append(True)
            with pytest.raises(SearchStopped):
                line.ask(READ, 60.0)
            with pytest.raises(SearchStopped):
                line.listen(60.0)
        assert device.asked == []


def test_a_gateway_says_who_is_not_there() -> None:
    def gateway(asked: Asked) -> Parts:
        yield asked.framed(words(asked) if asked.unit in (3, 4, 5, 6, 7) else b"\x83\x0b")

    with StagedFollower("tcp", gateway) as device, ReadingLine(device.endpoint) as line:
        assert line.ask(READ, LIMIT).kind == "answer"
        assert line.ask(requests.read(8, "holding", 0), LIMIT).code == 11


def test_a_device_that_hangs_up_is_called_again() -> None:
    def hangs_up(asked: Asked) -> Parts:
        yield CLOSE if asked.unit != 7 else asked.framed(words(asked))

    with StagedFollower("tcp", hangs_up) as device, ReadingLine(device.endpoint) as line:
        assert line.ask(requests.read(8, "holding", 0), LIMIT).kind == "silence"
        assert line.ask(READ, LIMIT).kind == "answer"


@pytest.mark.parametrize("kind", KINDS)
def test_a_line_that_goes_away_is_told_in_words(kind: str) -> None:
    with StagedFollower(kind, at_seven) as device, ReadingLine(device.endpoint) as line:
        assert line.ask(READ, LIMIT).alive
        device.stop()
        with pytest.raises(CannotProbe, match=r"plug the adapter|closed|refused|reset"):
            assert [line.ask(READ, 0.1).alive for _ in range(3)] == []


@pytest.mark.parametrize(
    ("endpoint", "words"),
    [
        (Endpoint.serial("/dev/no-such-port"), "no-such-port"),
        (Endpoint.tcp("127.0.0.1", 1), "refused"),
        (Endpoint.tcp("no-such-host.invalid"), "not found"),
    ],
)
def test_what_cannot_be_opened_is_told_in_words(endpoint: Endpoint, words: str) -> None:
    with pytest.raises(CannotProbe, match=words), ReadingLine(endpoint):
        raise AssertionError("it was opened")


@pytest.mark.skipif(sys.platform == "win32", reason="no ptys")
def test_a_port_is_held_alone(tmp_path: Path) -> None:
    link = tmp_path / "port"
    with StagedFollower("serial", at_seven, link=link) as device, ReadingLine(device.endpoint) as line:
        assert line.ask(READ, LIMIT).alive
        with pytest.raises(CannotProbe), ReadingLine(device.endpoint):
            raise AssertionError("it was opened twice")


@pytest.mark.skipif(sys.platform == "win32", reason="no ptys")
def test_takes_other_settings_on_the_open_port() -> None:
    import termios

    with StagedFollower("serial", at_seven) as device, ReadingLine(device.endpoint) as line:
        assert line.ask(READ, LIMIT).alive
        line.tune(LineSettings(9600, "none", 2))
        # What the far end of a pty sees of its near end.
        seen = termios.tcgetattr(device._fds[1])
        assert seen[4] == termios.B9600
        assert seen[2] & termios.CSTOPB
        assert line.ask(READ, LIMIT).alive
        assert line.settings == LineSettings(9600, "none", 2)
