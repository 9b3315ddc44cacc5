"""Other implementations of Modbus as masters on a line that is only listened to: what is heard is what they did.

The masters: PyPI minimalmodbus and libmodbus's client in C on a pty; PyPI pyModbusTCP through a gateway, as it knows
no RTU. Whoever listens sits between two ptys, as a receiver on the same pair of wires does.
"""

from __future__ import annotations

import os
import select
import socket
import struct
import sys
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any

import pytest

from app.follower.simulation import Simulation
from app.listening.heard import Heard, HeardUnit
from app.listening.listener import Listener
from tests.app.follower.playing import wired
from tests.outside.test_libmodbus import compiled, follower, running
from tests.staged_follower import crc

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="there are no ptys here")

UNIT = 17


class Tap:
    """Hands bytes on between two ends, and hears them in the order in which they passed."""

    def __init__(self, master: int, device: int) -> None:
        self._ends = {master: device, device: master}
        self._listener = Listener()
        self._begin = time.monotonic()
        self._stopped = threading.Event()
        self._thread = threading.Thread(target=self._run, daemon=True)
        self._thread.start()

    def _run(self) -> None:
        while not self._stopped.is_set():
            for end in select.select(list(self._ends), [], [], 0.02)[0]:
                with suppress(OSError):
                    data = os.read(end, 4096)
                    self._listener.feed(data, time.monotonic() - self._begin)
                    os.write(self._ends[end], data)

    def heard(self) -> Heard:
        """What was understood in the end."""
        self._stopped.set()
        self._thread.join()
        return self._listener.heard(None, time.monotonic() - self._begin)


@contextmanager
def tapped_line() -> Iterator[tuple[str, Tap]]:
    """The port for a master, and whoever listens between it and a simulated device."""
    import tty

    with wired() as (near, far), Simulation(follower(UNIT)) as simulation:
        simulation.serve_serial(far)
        master, slave = os.openpty()
        tty.setraw(slave)
        device = os.open(near, os.O_RDWR | os.O_NOCTTY)
        tap = Tap(master, device)
        try:
            yield os.ttyname(slave), tap
        finally:
            tap.heard()
            for end in (device, master, slave):
                os.close(end)


def only_unit(heard: Heard) -> HeardUnit:
    assert [unit.unit for unit in heard.units] == [UNIT]
    assert heard.stray == 0
    return heard.units[0]


def done(unit: HeardUnit) -> dict[tuple[int, bool, str, int, int], tuple[int, list[tuple[int, ...]]]]:
    """Function, whether it wrote, table, first address, count; how often it was answered, and with what."""
    return {
        (one.function, one.writes, one.table, one.first, one.count): (
            one.answered,
            [sample.words for sample in one.samples],
        )
        for one in unit.requests
    }


def test_minimalmodbus() -> None:
    import minimalmodbus

    with tapped_line() as (port, tap):
        instrument = minimalmodbus.Instrument(port, UNIT)
        instrument.serial.baudrate = 19_200
        instrument.serial.timeout = 2
        for value in (18, 4165):
            instrument.write_register(10, value, functioncode=6)
            assert instrument.read_registers(10, 3) == [value, 2, 3]
            assert instrument.read_register(5, functioncode=4) == 9
            assert instrument.read_bits(0, 3, functioncode=1) == [1, 0, 1]
            assert instrument.read_bit(7, functioncode=2) == 1
            with pytest.raises(minimalmodbus.IllegalRequestError):
                instrument.read_register(500)
        instrument.serial.close()
        unit = only_unit(tap.heard())
    assert done(unit) == {
        (6, True, "holding", 10, 1): (2, [(18,), (4165,)]),
        (3, False, "holding", 10, 3): (2, [(18, 2, 3), (4165, 2, 3)]),
        (4, False, "input", 5, 1): (2, [(9,)]),
        (1, False, "coil", 0, 3): (2, [(1, 0, 1)]),
        (2, False, "discrete", 7, 1): (2, [(1,)]),
        (3, False, "holding", 500, 1): (0, []),
    }
    assert unit.functions == (1, 2, 3, 4, 6)
    assert next(one for one in unit.requests if one.first == 500).refused == {2: 2}


def test_libmodbus(tmp_path: Path) -> None:
    program = compiled(tmp_path, "libmodbus_client")
    with tapped_line() as (port, tap):
        with running(program, "rtu", port) as ask:
            for value in (7, 9):
                assert ask("holding 10 3").endswith("2 3")
                assert ask("input 5 1") == "9"
                assert ask("coils 0 3") == "1 0 1"
                assert ask("discrete 7 1") == "1"
                assert ask(f"write 10 {value}") == "done"
                assert ask(f"write 11 2 {value}") == "done"
                assert ask("write 12 3") == "done"
                assert ask("switch 0 1 0 1") == "done"
                assert ask("both 10 2 11 2") == f"{value} 2"
        unit = only_unit(tap.heard())
    assert done(unit) == {
        (3, False, "holding", 10, 3): (2, [(18, 2, 3), (7, 2, 3)]),
        (4, False, "input", 5, 1): (2, [(9,)]),
        (1, False, "coil", 0, 3): (2, [(1, 0, 1)]),
        (2, False, "discrete", 7, 1): (2, [(1,)]),
        (6, True, "holding", 10, 1): (2, [(7,), (9,)]),
        (16, True, "holding", 11, 2): (2, [(2, 7), (2, 9)]),
        (6, True, "holding", 12, 1): (2, [(3,)]),
        (15, True, "coil", 0, 3): (2, [(1, 0, 1)]),
        (23, False, "holding", 10, 2): (2, [(7, 2), (9, 2)]),
        (23, True, "holding", 11, 1): (2, [(2,)]),
    }


class Gateway:
    """Takes Modbus TCP frames, and asks on a serial port for them, one after the other."""

    def __init__(self, port: str) -> None:
        self._line = os.open(port, os.O_RDWR | os.O_NOCTTY)
        self._server = socket.create_server(("127.0.0.1", 0))
        self.address: tuple[str, int] = self._server.getsockname()
        self._thread = threading.Thread(target=self._run, daemon=True)
        self._thread.start()

    def _run(self) -> None:
        connection, _ = self._server.accept()
        with connection:
            while head := connection.recv(7, socket.MSG_WAITALL):
                label, length, unit = struct.unpack(">4sHB", head)
                frame = bytes((unit,)) + connection.recv(length - 1, socket.MSG_WAITALL)
                os.write(self._line, frame + crc(frame))
                answer = self._answer()
                connection.sendall(label + struct.pack(">H", len(answer) - 2) + answer[:-2])

    def _answer(self) -> bytes:
        """Until a CRC fits: the tap hands on whole pieces or parts of them."""
        answer = b""
        while len(answer) < 5 or answer[-2:] != crc(answer[:-2]):
            assert select.select([self._line], [], [], 5)[0]
            answer += os.read(self._line, 300)
        return answer

    def close(self) -> None:
        self._thread.join(5)
        self._server.close()
        os.close(self._line)


def test_pymodbustcp_through_a_gateway() -> None:
    from pyModbusTCP.client import ModbusClient

    with tapped_line() as (port, tap):
        gateway = Gateway(port)
        master: Any = ModbusClient(*gateway.address, unit_id=UNIT, timeout=5)
        reads: list[Callable[[], Any]] = [
            lambda: master.read_holding_registers(10, 3),
            lambda: master.read_input_registers(5, 1),
            lambda: master.read_coils(0, 3),
            lambda: master.read_discrete_inputs(7, 1),
        ]
        for value in (4165, 8330):
            assert master.write_multiple_registers(11, [value, 3])
            assert [read() for read in reads] == [[18, value, 3], [9], [True, False, True], [True]]
        master.close()
        gateway.close()
        unit = only_unit(tap.heard())
    assert done(unit) == {
        (16, True, "holding", 11, 2): (2, [(4165, 3), (8330, 3)]),
        (3, False, "holding", 10, 3): (2, [(18, 4165, 3), (18, 8330, 3)]),
        (4, False, "input", 5, 1): (2, [(9,)]),
        (1, False, "coil", 0, 3): (2, [(1, 0, 1)]),
        (2, False, "discrete", 7, 1): (2, [(1,)]),
    }
