"""Simulated followers on real sockets and serial devices."""

from __future__ import annotations

import asyncio
import errno
import os
import select
import socket
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from decimal import Decimal
from pathlib import Path

import pytest

from app.follower.drive import FaultCode
from app.follower.drive_bank import DriveBank
from app.follower.register_bank import TABLES
from app.follower.server import SerialSettings
from app.follower.simulation import FollowerError, Simulation
from app.modbus.own_ports import own_ports
from app.project.model import Project
from app.project_file.files import load
from projects import demo_path
from tests.app.follower.playing import (
    bank_project,
    client,
    drive_project,
    many,
    mbap,
    player_threads,
    rtu,
    signal,
)
from tests.builders import project_of
from tests.waiting import wait_for

if sys.platform != "win32":
    import tty

HERE = "127.0.0.1"


@pytest.fixture
def bank() -> Project:
    return bank_project(*(signal(f"h{place}", place, start_value=Decimal(place)) for place in range(4)))


@contextmanager
def played(it: Project, **keys: object) -> Iterator[tuple[Simulation, tuple[str, int]]]:
    with Simulation(it) as simulation:
        yield simulation, simulation.serve_tcp(None, HERE, 0)


# TCP ----------------------------------------------------------------------------------------------------------------


def test_requests_in_one_segment_are_all_answered_in_order(bank: Project) -> None:
    with played(bank) as (_, address), client(address) as raw:
        raw.send(b"".join(mbap(17, f"03 000{place} 0001", 100 + place) for place in range(4)))
        for place in range(4):
            assert raw.frame() == (100 + place, 17, bytes((3, 2, 0, place)))


def test_a_request_in_single_bytes_is_answered(bank: Project) -> None:
    with played(bank) as (_, address), client(address) as raw:
        raw.socket.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
        for byte in mbap(17, "03 0002 0001", 7):
            raw.send(bytes((byte,)))
        assert raw.frame() == (7, 17, b"\x03\x02\x00\x02")


def test_the_next_request_may_be_cut_by_the_answer_to_the_last(bank: Project) -> None:
    first, second = mbap(17, "03 0001 0001", 1), mbap(17, "03 0002 0001", 2)
    with played(bank) as (_, address), client(address) as raw:
        raw.send(first + second[:5])
        assert raw.frame() == (1, 17, b"\x03\x02\x00\x01")
        raw.send(second[5:])
        assert raw.frame() == (2, 17, b"\x03\x02\x00\x02")


def test_an_unknown_unit_stays_silent_and_the_connection_goes_on(bank: Project) -> None:
    with played(bank) as (_, address), client(address) as raw:
        raw.send(mbap(18, "03 0000 0001", 1) + mbap(17, "03 0001 0001", 2))
        assert raw.frame() == (2, 17, b"\x03\x02\x00\x01")


@pytest.mark.parametrize("rubbish", [b"GET / HTTP/1.1\r\n\r\n", bytes.fromhex("0001 0000 FFFF 11 03"), b"\0" * 7])
def test_what_is_no_modbus_closes_that_connection_only(bank: Project, rubbish: bytes) -> None:
    with played(bank) as (_, address), client(address) as good, client(address) as bad:
        bad.send(rubbish)
        assert bad.closed_by_peer()
        assert good.ask(17, "03 0001 0001") == "03 02 00 01"


def test_a_client_that_goes_in_mid_request_hurts_nobody(bank: Project) -> None:
    with played(bank) as (_, address):
        with client(address) as raw:
            raw.send(mbap(17, "03 0001 0001")[:9])
        with client(address) as raw:
            assert raw.ask(17, "03 0001 0001") == "03 02 00 01"


def test_a_client_that_never_reads_does_not_hold_up_the_stop(bank: Project) -> None:
    request = mbap(17, "03 0000 0004")
    with played(bank) as (simulation, address), client(address) as raw:
        raw.socket.setblocking(False)
        waiting = 0
        while waiting < 3:  # until both ends' buffers are full
            try:
                raw.socket.send(request * 1000)
                waiting = 0
            except BlockingIOError:
                waiting += 1
                select.select([], [raw.socket], [], 0.2)
        simulation.stop()
        assert not player_threads()


def test_a_stop_amid_new_connections_leaves_none(bank: Project) -> None:
    for _ in range(20):
        simulation = Simulation(bank)
        simulation.start()
        address = simulation.serve_tcp(None, HERE, 0)
        with client(address) as first, client(address) as second:
            simulation.stop()
            assert first.closed_by_peer()
            assert second.closed_by_peer()


def test_many_clients_at_once(bank: Project) -> None:
    with played(bank) as (_, address):
        clients = [client(address) for _ in range(30)]
        raws = [each.__enter__() for each in clients]
        for number, raw in enumerate(raws):
            raw.send(mbap(17, "03 0003 0001", number))
        assert [raw.frame() for raw in raws] == [(number, 17, b"\x03\x02\x00\x03") for number in range(30)]
        for each in clients:
            each.__exit__(None, None, None)


def test_the_same_port_can_be_had_again_at_once(bank: Project) -> None:
    simulation = Simulation(bank)
    simulation.start()
    address = simulation.serve_tcp(None, HERE, 0)
    for round_ in range(3):
        with client(address) as raw:
            assert raw.ask(17, f"06 0000 000{round_}") == f"06 00 00 00 0{round_}"
            simulation.stop()  # the follower closes first, so its end waits in TIME_WAIT
            assert raw.closed_by_peer()
        simulation.start()
        assert simulation.serve_tcp(None, *address) == address
        with client(address) as raw:
            assert raw.ask(17, "03 0000 0001") == f"03 02 00 0{round_}"
    simulation.stop()


def test_nothing_is_left_after_a_stop(bank: Project) -> None:
    before = threading.active_count()
    simulation = Simulation(bank)
    simulation.stop()  # not started: nothing to do
    simulation.start()
    simulation.start()  # started already: nothing to do
    address = simulation.serve_tcp(None, HERE, 0)
    with client(address) as raw:
        raw.ask(17, "03 0000 0001")
        simulation.stop()
        assert raw.closed_by_peer()
    simulation.stop()
    assert threading.active_count() == before
    with pytest.raises(OSError) as told:
        socket.create_connection(address, timeout=5)
    assert told.value.errno == errno.ECONNREFUSED


def test_serving_without_a_start_is_a_mistake_of_the_caller(bank: Project) -> None:
    with pytest.raises(RuntimeError, match="start the simulation first"):
        Simulation(bank).serve_tcp(None, HERE, 0)


def test_a_port_in_use_is_told_and_the_rest_goes_on(bank: Project) -> None:
    with played(bank) as (simulation, address), Simulation(bank) as other:
        with pytest.raises(FollowerError, match=f"on {HERE}:{address[1]}: the port is in use by another program"):
            other.serve_tcp(None, *address)
        again = other.serve_tcp(None, HERE, 0)
        for place in (address, again):
            with client(place) as raw:
                assert raw.ask(17, "03 0001 0001") == "03 02 00 01"
        assert simulation.running


def test_a_host_that_is_not_ours_is_told(bank: Project) -> None:
    with Simulation(bank) as simulation:
        # 192.0.2.0/24 is set aside for documentation (RFC 5737), .invalid never resolves (RFC 6761).
        with pytest.raises(FollowerError, match="does not have this address"):
            simulation.serve_tcp(None, "192.0.2.1", 0)
        with pytest.raises(FollowerError, match="cannot resolve"):
            simulation.serve_tcp(None, "no-such-host.invalid", 0)


def test_several_simulations_in_one_process_do_not_meet() -> None:
    one = bank_project(signal("a", 0, start_value=Decimal(1)))
    two = bank_project(signal("a", 0, start_value=Decimal(2)))
    with played(one) as (_, first), played(two) as (_, second), client(first) as left, client(second) as right:
        left.ask(17, "06 0000 0063")
        assert left.ask(17, "03 0000 0001") == "03 02 00 63"
        assert right.ask(17, "03 0000 0001") == "03 02 00 02"


def test_rtu_frames_in_a_tcp_stream(bank: Project) -> None:
    with Simulation(bank) as simulation:
        address = simulation.serve_tcp(None, HERE, 0, framing="rtu")
        with client(address) as raw:
            raw.send(b"\xff\x11\x03" + rtu(17, "03 0001 0001") + rtu(18, "03 0001 0001") + rtu(17, "03 0002 0001"))
            assert raw.receive(7) == rtu(17, "03 02 0001")
            assert raw.receive(7) == rtu(17, "03 02 0002")
            for wrong in ("2B 0D 01 00", "10 0001 0000 00 0063", "0F 0001 0001 09 01", "42 0000 0000"):
                raw.send(rtu(17, wrong))
                function, code = int(wrong[:2], 16), 1 if wrong[0] in "24" else 3
                assert raw.receive(5) == rtu(17, bytes((function | 0x80, code)))
            raw.send(rtu(0, "06 0001 0063"))
            raw.send(rtu(17, "03 0001 0001"))
            assert raw.receive(7) == rtu(17, "03 02 0063")


# who is played -------------------------------------------------------------------------------------------------------

FOUR = (("a", "hall", 1), ("b", "hall", 2), ("c", "yard", 1), ("d", "yard", 9))


def answering(address: tuple[str, int]) -> list[int]:
    """The units among 1, 2 and 9 that answer, by what their register 0 holds."""
    with client(address) as raw:
        raw.send(b"".join(mbap(unit, "03 0000 0001", unit) for unit in (1, 2, 9)))
        raw.send(mbap(99, "03 0000 0001"))
        raw.socket.shutdown(socket.SHUT_WR)
        data = b""
        while more := raw.socket.recv(1000):
            data += more
    frames = [data[start : start + 11] for start in range(0, len(data), 11)]
    assert all(frame[6] == frame[10] for frame in frames)
    return [frame[6] for frame in frames]


def test_a_line_an_endpoint() -> None:
    with Simulation(many(*FOUR)) as simulation:
        assert answering(simulation.serve_tcp("hall", HERE, 0)) == [1, 2]
        assert answering(simulation.serve_tcp("yard", HERE, 0)) == [1, 9]
        assert answering(simulation.serve_tcp(["a", "d"], HERE, 0)) == [1, 9]


def test_units_that_clash_at_one_endpoint_are_told() -> None:
    with Simulation(many(*FOUR)) as simulation:
        with pytest.raises(FollowerError, match="devices 'a' and 'c' have the same unit address 1"):
            simulation.serve_tcp(None, HERE, 0)
        with pytest.raises(FollowerError, match="choose one of them by name"):
            simulation.serve_tcp(["a", "c"], HERE, 0)
    with Simulation(many(*FOUR), ["a", "d"]) as simulation:
        assert answering(simulation.serve_tcp(None, HERE, 0)) == [1, 9]


@pytest.mark.parametrize("unit", [0, 255])
def test_units_of_modbus_tcp_are_not_played_in_frames_of_a_serial_line(unit: int) -> None:
    with Simulation(many(("a", "hall", unit))) as simulation:
        for serve in (
            lambda: simulation.serve_tcp(None, HERE, 0, framing="rtu"),
            lambda: simulation.serve_serial("/dev/null"),
        ):
            with pytest.raises(FollowerError, match=f"'a' has unit address {unit}, which is for Modbus TCP only"):
                serve()


def test_names_that_are_not_there_are_told() -> None:
    with pytest.raises(FollowerError, match="no device 'x' in the project; choose from: 'a', 'b', 'c', 'd'"):
        Simulation(many(*FOUR), ["x"])
    with Simulation(many(*FOUR), ["a"]) as simulation:
        with pytest.raises(FollowerError, match="no line 'attic' in the project; choose from: 'hall', 'yard'"):
            simulation.serve_tcp("attic", HERE, 0)
        with pytest.raises(FollowerError, match="no device to simulate on line 'yard'"):
            simulation.serve_tcp("yard", HERE, 0)
        with pytest.raises(FollowerError, match="no device 'b' to simulate; choose from: 'a'"):
            simulation.serve_tcp(["b"], HERE, 0)


def test_a_project_without_followers_is_told() -> None:
    with Simulation(project_of()) as simulation, pytest.raises(FollowerError, match="no device to simulate"):
        simulation.serve_tcp(None, HERE, 0)


@pytest.mark.parametrize("name", ["booster-pump", "drying-hall"])
def test_every_demo_follower_can_be_played_and_answers_for_every_signal(name: str) -> None:
    demo = load(demo_path(name))
    with Simulation(demo) as simulation:
        for line in demo.lines:
            address = simulation.serve_tcp(line.name, HERE, 0)
            with client(address) as raw:
                for model in simulation.models.values():
                    if model.follower.line != line.name:
                        continue
                    for function, table in enumerate(TABLES, 1):
                        for cell in model.cells(table):
                            answer = raw.ask(model.follower.unit, f"{function:02X} {cell:04X} 0001")
                            assert answer.startswith(f"{function:02X} 0"), answer


# models in time ------------------------------------------------------------------------------------------------------


def test_a_drive_runs_by_the_clock_and_not_by_requests() -> None:
    now = [0.0]
    it = drive_project()
    with Simulation(it, clock=lambda: now[0]) as simulation:
        address = simulation.serve_tcp(None, HERE, 0)
        drive = simulation.models["it"]
        assert isinstance(drive, DriveBank)
        with client(address) as raw:
            raw.ask(3, "06 0136 2710")
            now[0] = 0.5
            raw.ask(3, "06 012C 0010")
            now[0] = 3.01  # one step to switch on
            assert raw.ask(3, "04 0191 0001") == "04 02 13 88"  # 2.5 s of the 5 s ramp to 10000: 5000
            now[0] = 30.0
            wait_for(lambda: drive.drive.frequency == 50.0)  # nobody asked


def test_the_bench_operates_the_drives_inputs_from_another_thread() -> None:
    with played(drive_project()) as (simulation, address), client(address) as raw:
        drive = simulation.models["it"]
        assert isinstance(drive, DriveBank)
        wait_for(lambda: raw.ask(3, "02 0000 0004") == "02 01 01")
        drive.inputs.external_fault = True
        wait_for(lambda: raw.ask(3, "02 0000 0004") == "02 01 0B")
        drive.inputs.external_fault = False
        drive.inputs.remote = False
        wait_for(lambda: raw.ask(3, "02 0000 0004") == "02 01 08")


def test_a_silent_follower_comes_back_on_the_same_connection(bank: Project) -> None:
    with played(bank) as (simulation, address), client(address) as raw:
        model = simulation.models["it"]
        model.silent = True
        raw.send(mbap(17, "03 0001 0001", 1))
        raw.socket.settimeout(0.3)
        with pytest.raises(TimeoutError):
            raw.frame()
        model.silent = False
        raw.socket.settimeout(5)
        raw.send(mbap(17, "03 0002 0001", 2))
        assert raw.frame() == (2, 17, b"\x03\x02\x00\x02")


def test_a_drive_that_is_unplugged_while_it_runs_trips_by_itself() -> None:
    now = [0.0]
    it = drive_project(communication_timeout_ms=1000)
    with Simulation(it, clock=lambda: now[0]) as simulation:
        drive = simulation.models["it"]
        assert isinstance(drive, DriveBank)
        with client(simulation.serve_tcp(None, HERE, 0)) as raw:
            now[0] = 0.5
            raw.ask(3, "06 012C 0010")
            now[0] = 1.4
            raw.ask(3, "04 0190 0001")
            assert drive.drive.running
            drive.silent = True
            raw.send(mbap(3, "04 0190 0001"))
            now[0] = 2.5
            wait_for(lambda: drive.drive.fault is FaultCode.COMMUNICATION)
            drive.silent = False
            assert raw.ask(3, "04 0194 0001", 2) == "04 02 75 00"


def test_a_value_of_two_registers_is_never_torn_between_threads() -> None:
    halves = 0x0001_0001
    with played(bank_project(signal("long", 0, encoding="uint32"))) as (simulation, address), client(address) as raw:
        it, ended = simulation.models["it"], threading.Event()

        def screen_change() -> None:
            count = 0
            while not ended.is_set():
                count = (count + 1) % 0xFFFF
                it.set("long", count * halves)

        turning = threading.Thread(target=screen_change)
        turning.start()
        try:
            seen = {raw.ask(17, "03 0000 0002")[6:] for _ in range(300)}
        finally:
            ended.set()
            turning.join()
    assert len(seen) > 1
    assert all(words[:5] == words[6:] for words in seen)


def test_in_the_callers_own_loop(bank: Project) -> None:
    async def run() -> bytes:
        simulation = Simulation(bank)
        async with simulation.playing():
            host, port = await simulation.listen_tcp(None, HERE, 0)
            reader, writer = await asyncio.open_connection(host, port)
            writer.write(mbap(17, "03 0003 0001"))
            answer = await reader.readexactly(11)
            writer.close()
        assert [task for task in asyncio.all_tasks() if task is not asyncio.current_task()] == []
        return answer

    assert asyncio.run(run())[7:] == b"\x03\x02\x00\x03"
    assert not player_threads()


# serial --------------------------------------------------------------------------------------------------------------

on_ptys = pytest.mark.skipif(sys.platform == "win32", reason="there are no ptys here")


class Pty:
    """A pseudo-terminal: the follower's device, and the client's end as a file descriptor."""

    def __init__(self) -> None:
        self.client, self._device = os.openpty()
        tty.setraw(self._device)
        self.device = os.ttyname(self._device)

    def close(self) -> None:
        for end in (self.client, self._device):
            os.close(end)

    def receive(self, size: int) -> bytes:
        data = b""
        while len(data) < size:
            readable, _, _ = select.select([self.client], [], [], 5)
            assert readable, f"nothing more after {data.hex(' ')}"
            data += os.read(self.client, size - len(data))
        return data

    def quiet(self, seconds: float) -> bool:
        return not select.select([self.client], [], [], seconds)[0]


@pytest.fixture
def pty() -> Iterator[Pty]:
    it = Pty()
    yield it
    it.close()


@on_ptys
def test_on_a_serial_device(bank: Project, pty: Pty) -> None:
    with Simulation(bank) as simulation:
        simulation.serve_serial(pty.device)
        assert pty.device in own_ports()
        os.write(pty.client, rtu(17, "03 0001 0002"))
        assert pty.receive(9) == rtu(17, "03 04 0001 0002")
        os.write(pty.client, rtu(18, "03 0001 0002"))
        assert pty.quiet(0.2)
        for byte in rtu(17, "06 0001 0063"):
            os.write(pty.client, bytes((byte,)))
        assert pty.receive(8) == rtu(17, "06 0001 0063")
        os.write(pty.client, rtu(17, "03 0001 0001") + rtu(17, "03 0003 0001"))
        assert pty.receive(14) == rtu(17, "03 02 0063") + rtu(17, "03 02 0003")


@on_ptys
def test_a_cut_frame_on_a_serial_device_spoils_nothing_after_it(bank: Project, pty: Pty) -> None:
    with Simulation(bank) as simulation:
        simulation.serve_serial(pty.device)
        os.write(pty.client, rtu(17, "03 0001 0002")[:5])
        assert pty.quiet(0.2)
        os.write(pty.client, rtu(17, "03 0001 0001"))
        assert pty.receive(7) == rtu(17, "03 02 0001")


@on_ptys
def test_the_serial_device_is_given_back(bank: Project, pty: Pty) -> None:
    simulation = Simulation(bank)
    for _ in range(3):
        simulation.start()
        simulation.serve_serial(pty.device)
        os.write(pty.client, rtu(17, "03 0001 0001"))
        assert pty.receive(7) == rtu(17, "03 02 0001")
        simulation.stop()
    simulation.start()
    simulation.serve_serial(pty.device)
    simulation.stop()  # at once


@on_ptys
def test_a_device_in_use_is_told(bank: Project, pty: Pty) -> None:
    with Simulation(bank) as simulation, Simulation(bank) as other:
        simulation.serve_serial(pty.device)
        with pytest.raises(FollowerError, match=f"serial port {pty.device}: it is in use by another program"):
            other.serve_serial(pty.device)


def test_a_device_that_is_missing_is_told(bank: Project) -> None:
    missing = "COM250" if sys.platform == "win32" else "/dev/ttyUSB250"
    with Simulation(bank) as simulation, pytest.raises(FollowerError, match=f"{missing}: port not found"):
        simulation.serve_serial(missing)


@on_ptys
@pytest.mark.skipif(sys.platform != "win32" and os.geteuid() == 0, reason="root may open everything")
def test_a_device_without_permission_is_told(bank: Project, pty: Pty) -> None:
    Path(pty.device).chmod(0)
    with Simulation(bank) as simulation, pytest.raises(FollowerError, match="permission denied"):
        simulation.serve_serial(pty.device)


@on_ptys
def test_what_is_no_serial_device_is_told(bank: Project) -> None:
    with Simulation(bank) as simulation, pytest.raises(FollowerError, match="/dev/null: this is not a serial port"):
        simulation.serve_serial("/dev/null")


@on_ptys
def test_a_device_that_was_unplugged_is_opened_again(bank: Project, tmp_path: Path) -> None:
    device = tmp_path / "adapter"
    first, second = Pty(), Pty()
    device.symlink_to(first.device)
    with Simulation(bank) as simulation:
        simulation.serve_serial(str(device))
        os.write(first.client, rtu(17, "03 0001 0001"))
        assert first.receive(7) == rtu(17, "03 02 0001")
        first.close()
        device.unlink()
        device.symlink_to(second.device)

        def asked_again() -> bool:
            os.write(second.client, rtu(17, "03 0002 0001"))
            return not second.quiet(0.1)

        wait_for(asked_again)
        assert second.receive(7) == rtu(17, "03 02 0002")
    second.close()


def test_the_lines_settings_are_used(monkeypatch: pytest.MonkeyPatch) -> None:
    import app.follower.server as server

    asked = []

    def refuse(*args: object, **keys: object) -> object:
        asked.append(keys)
        raise OSError(errno.ENOENT, "no such device")

    monkeypatch.setattr(server, "create_serial_connection", refuse)
    line = {"name": "hall", "kind": "serial", "device": "/dev/null", "baud": 9600, "parity": "none", "stop_bits": 2}
    of_the_line = project_of(line=[line], follower=[{"name": "it", "line": "hall"}])
    for it, settings in (
        (of_the_line, None),
        (bank_project(), None),
        (of_the_line, SerialSettings(38_400, "odd", 1)),
    ):
        with Simulation(it) as simulation, pytest.raises(FollowerError):
            simulation.serve_serial("/dev/ttyUSB250", settings=settings)
    assert [(keys["baudrate"], keys["parity"], keys["stopbits"]) for keys in asked] == [
        (9600, "N", 2),
        (19_200, "E", 1),
        (38_400, "O", 1),
    ]


def test_lines_with_different_settings_are_not_played_at_one_device() -> None:
    lines = [
        {"name": name, "kind": "serial", "device": "/dev/null", "baud": baud}
        for name, baud in (("a", 9600), ("b", 19_200))
    ]
    followers = [{"name": name, "line": name, "unit": unit} for name, unit in (("a", 1), ("b", 2))]
    with (
        Simulation(project_of(line=lines, follower=followers)) as simulation,
        pytest.raises(FollowerError, match="different serial settings"),
    ):
        simulation.serve_serial("/dev/null")
