"""Other implementations of Modbus reading and writing a simulated follower.

The clients: PyPI minimalmodbus (RTU on a pty), pyModbusTCP and uModbus (TCP), each with its own framing and CRC;
pymodbus (both).
"""

from __future__ import annotations

import contextlib
import os
import sys
from collections.abc import Iterator
from decimal import Decimal
from importlib.metadata import version
from typing import Any

import pytest

from app.client.endpoint import Endpoint
from app.follower.drive_bank import DriveBank
from app.follower.simulation import Simulation
from app.follower.states import DriveState
from app.line.engine import Engine
from app.line.write_queue import Outcome
from app.project.model import Project
from tests.app.follower.playing import bank_project, drive_project, signal, wired
from tests.waiting import wait_for

UNIT = 3


@pytest.fixture
def project() -> Project:
    """A drive at unit 3 with some bank cells beside its layout."""
    return drive_project(
        signal("level", 1000, encoding="float32", start_value=Decimal("12.5")),
        signal("count", 1002, encoding="uint32", start_value=Decimal(123_456_789)),
        signal("offset", 1004, encoding="int16", start_value=Decimal(-7)),
        signal("label", 1005, encoding="string", length=4, start_value="PUMP 2"),
        signal("door", 9, table="discrete", start_value=Decimal(1)),
    )


@pytest.fixture
def simulation(project: Project) -> Iterator[Simulation]:
    with Simulation(project) as it:
        yield it


@pytest.mark.skipif(sys.platform == "win32", reason="there are no ptys here")
class TestMinimalmodbus:
    @pytest.fixture
    def instrument(self, simulation: Simulation) -> Iterator[Any]:
        import tty

        import minimalmodbus
        import serial

        near, far = os.openpty()
        tty.setraw(near)
        tty.setraw(far)
        simulation.serve_serial(os.ttyname(far))
        port = _Descriptor(near)
        instrument = minimalmodbus.Instrument(port, UNIT)
        assert instrument.serial is port
        assert issubclass(_Descriptor, serial.SerialBase)
        yield instrument
        simulation.stop()
        os.close(near)
        os.close(far)

    def test_reads(self, instrument: Any) -> None:
        assert instrument.read_float(1000) == 12.5
        assert instrument.read_long(1002) == 123_456_789
        assert instrument.read_register(1004, signed=True) == -7
        assert instrument.read_string(1005, 4).rstrip("\0") == "PUMP 2"
        assert instrument.read_bit(9, functioncode=2) == 1
        assert instrument.read_bits(0, 4, functioncode=2) == [1, 0, 0, 0]
        assert instrument.read_registers(310, 3) == [0, 50, 50]

    def test_writes(self, instrument: Any) -> None:
        instrument.write_register(310, 41.65, number_of_decimals=2)  # 4165, by function 16
        instrument.write_register(311, 20, functioncode=6)
        assert instrument.read_registers(310, 2) == [4165, 20]
        instrument.write_float(1000, -0.5)
        assert instrument.read_float(1000) == -0.5
        instrument.write_string(1005, "FAN", 4)
        assert instrument.read_string(1005, 4).startswith("FAN")
        instrument.write_bit(4, 1)
        assert instrument.read_register(300) == 1 << 4
        instrument.write_bits(4, [0, 0])
        assert instrument.read_register(300) == 0

    def test_refusals(self, instrument: Any) -> None:
        import minimalmodbus

        with pytest.raises(minimalmodbus.IllegalRequestError, match="illegal data address"):
            instrument.read_register(500)
        with pytest.raises(minimalmodbus.IllegalRequestError, match="illegal data value"):
            instrument.write_register(310, 10_001)
        instrument.address = UNIT + 1
        with pytest.raises(minimalmodbus.NoResponseError):
            instrument.read_register(310)


class TestPyModbusTcp:
    @pytest.fixture
    def peer(self, simulation: Simulation) -> Iterator[Any]:
        from pyModbusTCP.client import ModbusClient

        host, port = simulation.serve_tcp(None, "127.0.0.1", 0)
        peer = ModbusClient(host, port, unit_id=UNIT, timeout=5)
        yield peer
        peer.close()

    def test_reads_and_writes(self, peer: Any) -> None:
        from pyModbusTCP.utils import decode_ieee, word_list_to_long

        assert word_list_to_long(peer.read_holding_registers(1002, 2)) == [123_456_789]
        assert decode_ieee(word_list_to_long(peer.read_holding_registers(1000, 2))[0]) == 12.5
        assert peer.read_discrete_inputs(9) == [True]
        assert peer.write_multiple_registers(310, [8330, 10, 20])
        assert peer.read_holding_registers(310, 3) == [8330, 10, 20]
        assert peer.write_single_register(1004, 65_535)
        assert peer.read_holding_registers(1004) == [65_535]
        assert peer.write_read_multiple_registers(320, [1, 2], 320, 2) == [1, 2]
        assert peer.write_multiple_coils(4, [False, True])
        assert peer.read_coils(4, 2) == [False, True]
        assert peer.read_holding_registers(300) == [1 << 5]

    def test_refusals(self, peer: Any) -> None:
        assert peer.read_holding_registers(500) is None
        assert peer.last_except == 2
        assert not peer.write_single_register(310, 10_001)
        assert peer.last_except == 3
        assert not peer.write_single_register(400, 1)
        assert peer.last_except == 2

    def test_a_drive_is_run_tripped_and_reset(self, peer: Any, simulation: Simulation) -> None:
        drive = simulation.models["it"]
        assert isinstance(drive, DriveBank)

        def status() -> int:
            words = peer.read_input_registers(400)
            assert words is not None
            return int(words[0])

        ready, running, fault = 1 << 8, 1 << 4, 1 << 7  # of the plain status word
        shown = ready | running | fault
        wait_for(lambda: status() & shown == ready)
        assert peer.write_multiple_registers(310, [5000, 1, 1])
        assert peer.write_single_coil(4, True)
        wait_for(lambda: status() & shown == ready | running)
        wait_for(lambda: peer.read_input_registers(401) == [5000])
        assert peer.write_single_coil(4, False)
        wait_for(lambda: status() & shown == ready)
        drive.inputs.external_fault = True
        wait_for(lambda: status() & shown == fault)
        assert peer.read_input_registers(404) == [0x9000]
        drive.inputs.external_fault = False
        wait_for(lambda: drive.drive.state is DriveState.FAULT)  # during the fault reaction no reset counts
        assert peer.write_single_coil(7, True)
        wait_for(lambda: status() & shown == ready)


class TestUModbus:
    @pytest.fixture
    def ask(self, simulation: Simulation) -> Iterator[Any]:
        import socket

        from umodbus.client import tcp

        with socket.create_connection(simulation.serve_tcp(None, "127.0.0.1", 0), timeout=5) as connection:
            yield lambda message: tcp.send_message(message, connection)

    def test_reads_and_writes(self, ask: Any) -> None:
        from umodbus.client import tcp

        assert ask(tcp.read_holding_registers(UNIT, 1002, 2)) == [123_456_789 >> 16, 123_456_789 & 0xFFFF]
        assert ask(tcp.read_discrete_inputs(UNIT, 0, 4)) == [1, 0, 0, 0]
        assert ask(tcp.write_single_register(UNIT, 310, 8330)) == 8330
        assert ask(tcp.write_multiple_registers(UNIT, 311, [10, 20])) == 2
        assert ask(tcp.read_holding_registers(UNIT, 310, 3)) == [8330, 10, 20]
        assert ask(tcp.write_single_coil(UNIT, 1, 1)) == 1
        assert ask(tcp.write_multiple_coils(UNIT, 0, [0, 0])) == 2
        assert ask(tcp.read_coils(UNIT, 0, 2)) == [0, 0]
        assert len(ask(tcp.read_input_registers(UNIT, 400, 10))) == 10

    def test_refusals(self, ask: Any) -> None:
        from umodbus.client import tcp
        from umodbus.exceptions import IllegalDataAddressError, IllegalDataValueError

        with pytest.raises(IllegalDataAddressError):
            ask(tcp.read_input_registers(UNIT, 500, 1))
        with pytest.raises(IllegalDataValueError):
            ask(tcp.write_single_register(UNIT, 310, 10_001))


class TestPymodbus:
    """The client of pymodbus, which has the decoders of the follower's own codecs but asks and frames by itself."""

    @pytest.fixture(params=["tcp", "rtu"])
    def peer(self, request: pytest.FixtureRequest) -> Iterator[Any]:
        from pymodbus.client import ModbusSerialClient, ModbusTcpClient

        titled = drive_project(write_functions=[5, 6, 15, 16, 22]).replace(
            title="Tr\u00f6cknung \u2014 Halle 2 " + 200 * "x"
        )
        with contextlib.ExitStack() as ended:
            if request.param == "rtu":
                if sys.platform == "win32":
                    pytest.skip("there are no ptys here")
                near, far = ended.enter_context(wired())
                ended.enter_context(Simulation(titled)).serve_serial(far)
                client: Any = ModbusSerialClient(near, timeout=5)
            else:
                host, port = ended.enter_context(Simulation(titled)).serve_tcp(None, "127.0.0.1", 0)
                client = ModbusTcpClient(host, port=port, timeout=5)
            yield ended.enter_context(client)

    def test_it_says_what_it_is(self, peer: Any) -> None:
        basic = peer.read_device_information(read_code=1, device_id=UNIT)
        assert (basic.conformity, basic.more_follows, basic.number_of_objects) == (0x82, 0, 3)
        assert basic.information[0].startswith(b"Trocknung ? Halle 2 xxx")
        assert len(basic.information[0]) == 120
        assert (basic.information[1], basic.information[2]) == (b"it", version("fanlight").encode())
        regular = peer.read_device_information(read_code=2, device_id=UNIT)
        assert {**regular.information} == {**basic.information, 4: b"simulated drive", 5: b"unit 3"}
        # Higher than what it has: what it has. Object by object as well.
        assert peer.read_device_information(read_code=3, device_id=UNIT).information == regular.information
        one = peer.read_device_information(read_code=4, object_id=1, device_id=UNIT)
        assert one.information == {1: b"it"}
        assert peer.read_device_information(read_code=4, object_id=3, device_id=UNIT).exception_code == 2
        assert peer.read_device_information(read_code=1, object_id=2, device_id=UNIT).information.keys() == {2}
        assert peer.read_device_information(read_code=1, object_id=9, device_id=UNIT).information.keys() == {0, 1, 2}

    def test_it_reports_its_id(self, peer: Any) -> None:
        # pymodbus takes the last byte for the run indicator, which stands behind the ID (V1.1b3, 6.13, from memory).
        assert peer.report_device_id(device_id=UNIT).identifier == bytes((UNIT, 0xFF)) + b"i"

    def test_it_gives_back_what_it_is_asked_to(self, peer: Any) -> None:
        assert peer.diag_query_data(b"\xa5\x37", device_id=UNIT).message == b"\xa5\x37"

    def test_a_mask_write(self, peer: Any) -> None:
        assert not peer.write_register(310, 0x12, device_id=UNIT).isError()
        assert not peer.mask_write_register(address=310, and_mask=0xF2, or_mask=0x25, device_id=UNIT).isError()
        assert peer.read_holding_registers(310, device_id=UNIT).registers == [0x17]


NARROW = bank_project(
    signal("speed", 12, start_value=Decimal(7), write=True, every_ms=20),
    signal("latch", 13, start_value=Decimal(8)),
    signal("total", 20, encoding="uint32", write=True),
    numbering="from-1",
    never_read=[{"first": 13, "last": 13}],
    write_functions=[6],
)
"""A follower as old ones are: one register a write, and a latch that reading would clear."""


class TestWhatAFollowerDoesNotOffer:
    """The same follower answers ours and others' clients as the project says it does."""

    def test_pymodbustcp_is_refused(self) -> None:
        from pyModbusTCP.client import ModbusClient

        with Simulation(NARROW) as simulation:
            peer = ModbusClient(*simulation.serve_tcp(None, "127.0.0.1", 0), unit_id=17, timeout=5)
            assert peer.read_holding_registers(11, 1) == [7]
            for first, count in ((12, 1), (11, 2)):
                assert peer.read_holding_registers(first, count) is None
                assert peer.last_except == 2
            assert not peer.write_multiple_registers(11, [9])
            assert peer.last_except == 1
            assert not peer.write_single_coil(0, True)
            assert peer.last_except == 1
            assert peer.write_single_register(11, 9)
            assert peer.write_single_register(12, 9)
            assert peer.read_holding_registers(11, 1) == [9]
            peer.close()

    @pytest.mark.skipif(sys.platform == "win32", reason="there are no ptys here")
    def test_minimalmodbus_is_refused_on_a_serial_line(self) -> None:
        import tty

        import minimalmodbus

        near, far = os.openpty()
        tty.setraw(near)
        tty.setraw(far)
        try:
            with Simulation(NARROW) as simulation:
                simulation.serve_serial(os.ttyname(far))
                instrument = minimalmodbus.Instrument(_Descriptor(near), 17)
                assert instrument.read_register(11) == 7
                with pytest.raises(minimalmodbus.IllegalRequestError, match="illegal data address"):
                    instrument.read_registers(11, 2)
                with pytest.raises(minimalmodbus.IllegalRequestError, match="illegal function"):
                    instrument.write_register(11, 9, functioncode=16)
                instrument.write_register(11, 9, functioncode=6)
                assert instrument.read_register(11) == 9
        finally:
            os.close(near)
            os.close(far)

    def test_ours_asks_for_nothing_that_is_refused(self) -> None:
        """Made for the follower, it stays within what is offered; made for another, it is refused like the others."""
        wide = NARROW.replace(followers=(NARROW.followers[0].replace(never_read=(), write_functions=(16,)),))
        with Simulation(NARROW) as simulation:
            host, port = simulation.serve_tcp(None, "127.0.0.1", 0)
            for project, fits in ((NARROW, True), (wide, False)):
                engine = Engine(project, {"hall": Endpoint.tcp(host, port, timeout_ms=1000)}, armed=["hall"])
                engine.start()
                try:
                    wait_for(lambda: engine.snapshot().readings["speed"].good)  # noqa: B023
                    report = engine.write("speed", 11).result(5)
                    assert report.ok is fits
                    assert ("illegal function (01)" in report.reason) is not fits
                    readings = engine.snapshot().readings
                    assert readings["latch"].quality == ("none" if fits else "refused")
                    if fits:
                        assert "never read" in readings["latch"].reason
                        report = engine.write("total", 1).result(5)
                        assert (report.ok, report.outcome) == (False, Outcome.NOT_SENT)
                    else:
                        assert "illegal data address (02)" in readings["latch"].reason
                finally:
                    engine.stop()


def test_other_clients_agree_on_a_bank(monkeypatch: pytest.MonkeyPatch) -> None:
    """What one client writes, the other reads."""
    import socket

    from pyModbusTCP.client import ModbusClient
    from umodbus.client import tcp

    words = [signal(f"w{place}", place) for place in range(100)]
    with Simulation(bank_project(*words)) as simulation:
        address = simulation.serve_tcp(None, "127.0.0.1", 0)
        one = ModbusClient(*address, unit_id=17, timeout=5)
        assert one.write_multiple_registers(0, [place * 655 for place in range(100)])
        one.close()
        with socket.create_connection(address, timeout=5) as connection:
            found = tcp.send_message(tcp.read_holding_registers(17, 0, 100), connection)
        assert found == [place * 655 for place in range(100)]


if sys.platform != "win32":
    import select
    import time

    import serial

    class _Descriptor(serial.SerialBase):
        """The client's end of a pty as pyserial has its ports; it has no name that could be opened."""

        def __init__(self, descriptor: int) -> None:
            self._descriptor = descriptor
            super().__init__(timeout=1.0)
            self.is_open = True

        def _reconfigure_port(self) -> None:
            """A pty has no settings."""

        def open(self) -> None:
            self.is_open = True

        def close(self) -> None:
            self.is_open = False

        def read(self, size: int = 1) -> bytes:
            data, end = b"", time.monotonic() + (self.timeout or 0.0)
            while len(data) < size and select.select([self._descriptor], [], [], max(0.0, end - time.monotonic()))[0]:
                data += os.read(self._descriptor, size - len(data))
            return data

        def write(self, data: Any) -> int:
            return os.write(self._descriptor, data)

        def reset_input_buffer(self) -> None:
            while select.select([self._descriptor], [], [], 0)[0]:
                os.read(self._descriptor, 4096)

        def reset_output_buffer(self) -> None:
            """Nothing waits."""
