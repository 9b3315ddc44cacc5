"""Looking for an unknown device: at devices that share no code with the program, and count each request they get."""

from __future__ import annotations

import socket
import struct
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Literal

import pytest

from app.client.endpoint import Endpoint
from app.probing import requests
from app.probing.line import ReadingLine
from app.probing.probe import CannotProbe, Probe, ProbeResult
from app.probing.registers import RegisterSearch, RegisterState
from app.probing.unit_search import UnitState, find_units
from app.signals.numbering import Table
from tests.app.follower.playing import wired
from tests.outside.counting_device import CountingDevice, Says, bank
from tests.outside.lossy_device import checksum
from tests.outside.test_libmodbus import compiled

Kind = Literal["tcp", "serial-over-tcp", "serial"]

KINDS: list[Kind] = ["tcp", "serial-over-tcp"]
if sys.platform != "win32":
    KINDS.append("serial")
READING = frozenset((1, 2, 3, 4, 8, 17, 43))
WORDS = {address: address * 7 & 0xFFFF for address in (*range(12), *range(100, 131), *range(400, 402))}
NAMES = {0: b"Pumps and more", 1: b"P-7", 2: b"2.11"}
HIDDEN = 93
UNITS = (1, 2, 3, 17, HIDDEN, 94, 247)
TABLES: tuple[Table, ...] = ("coil", "discrete", "holding", "input")
has_ptys = pytest.mark.skipif(sys.platform == "win32", reason="no ptys")


def at(device: CountingDevice) -> Endpoint:
    if device.kind == "serial":
        return Endpoint.serial(device.where, baud=115_200)
    make = Endpoint.tcp if device.kind == "tcp" else Endpoint.serial_over_tcp
    return make("127.0.0.1", int(device.where))


def all_kinds(unit: int) -> list[Probe]:
    return [
        *(requests.read(unit, table, address, 3) for table in TABLES for address in (0, 100, 9000)),
        requests.echo_query(unit),
        requests.server_id(unit),
        *(requests.identification(unit, 0, level) for level in (1, 2, 3, 4)),
    ]


def units_of(says: Callable[[bytes], bytes | None], *units: int) -> Says:
    return lambda unit, pdu: says(pdu) if unit in units else None


def found_units(line: ReadingLine, timeout_s: float = 0.1) -> UnitState:
    state = UnitState()
    find_units(line, UNITS, state, timeout_s)
    return state


@pytest.mark.parametrize("kind", ["tcp", "serial-over-tcp"])
def test_the_device_would_count_writes(kind: Kind) -> None:
    writes = [bytes.fromhex(pdu) for pdu in ("0500ACFF00", "0600010003", "0F0013000A02CD01", "16000400F20025")]
    with CountingDevice(kind, lambda _unit, pdu: pdu[:5]) as device:
        with socket.create_connection(("127.0.0.1", int(device.where)), 5) as other:
            for number, pdu in enumerate(writes):
                body = b"\x5d" + pdu
                header = struct.pack(">HHH", number, 0, len(body))
                other.sendall(header + body if kind == "tcp" else body + checksum(body))
                assert other.recv(100)
        assert device.functions == {5: 1, 6: 1, 15: 1, 22: 1}


@pytest.mark.parametrize("kind", KINDS)
def test_a_whole_search_only_reads_and_finds_all(kind: Kind) -> None:
    says = units_of(bank(WORDS, NAMES, functions=READING), HIDDEN)
    with CountingDevice(kind, says) as device, ReadingLine(at(device)) as line:
        assert found_units(line).answering == [HIDDEN]
        for table in TABLES:
            state = RegisterState()
            RegisterSearch(line, HIDDEN, table, state, span=range(500)).run("tens")
            bits = table in ("coil", "discrete")
            assert state.words == {address: word & 1 if bits else word for address, word in WORDS.items()}
        names: dict[int, bytes] = {}
        first: int | None = 0
        while first is not None:
            objects, first = requests.objects_of(line.ask(requests.identification(HIDDEN, first), 0.1))
            names |= objects
        assert names == NAMES
        for probe in all_kinds(HIDDEN):
            line.ask(probe, 0.1)
        assert set(device.functions) == READING
        assert device.functions == line.sent
        assert {unit for unit, _ in device.asked} == set(UNITS)
        assert device.strange == b""


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("code", [1, 2, 4, 6])
def test_a_device_that_refuses_everything_is_there(kind: Kind, code: int) -> None:
    says = units_of(lambda pdu: bytes((pdu[0] | 0x80, code)), HIDDEN)
    with CountingDevice(kind, says) as device, ReadingLine(at(device)) as line:
        assert found_units(line, 0.05).answering == [HIDDEN]
        results = [line.ask(probe, 0.1) for probe in all_kinds(HIDDEN)]
        assert {(result.kind, result.code) for result in results} == {("exception", code)}
        assert set(device.functions) == READING


@pytest.mark.parametrize("kind", KINDS)
def test_a_converter_that_answers_for_every_unit_is_asked_no_further(kind: Kind) -> None:
    says = bank(WORDS, NAMES, functions=READING)
    with CountingDevice(kind, lambda _unit, pdu: says(pdu)) as device, ReadingLine(at(device)) as line:
        state = UnitState()
        find_units(line, range(1, 248), state)
        assert state.every_unit
        assert device.functions.total() < 40
        assert 0 not in {unit for unit, _ in device.asked}


@pytest.mark.parametrize("code", [10, 11])
def test_a_gateway_with_five_units_behind_it(code: int) -> None:
    behind = (2, 5, 17, 93, 247)
    says = bank(WORDS, NAMES, functions=READING)

    def gateway(unit: int, pdu: bytes) -> bytes:
        return says(pdu) if unit in behind else bytes((pdu[0] | 0x80, code))

    with CountingDevice("tcp", gateway) as device, ReadingLine(at(device)) as line:
        state = UnitState()
        find_units(line, (255, *range(1, 248)), state)
        assert sorted(state.answering) == list(behind)
        assert set(state.behind_gateway.values()) == {code}
        assert len(state.behind_gateway) == 248 - len(behind)


@has_ptys
def test_an_adapter_that_is_pulled_out_while_it_is_waited_for() -> None:
    def pulled(unit: int, pdu: bytes) -> None:
        device.vanish()

    with CountingDevice("serial", pulled) as device, ReadingLine(at(device)) as line:
        with pytest.raises(CannotProbe, match="plug"):
            line.ask(requests.read(1, "holding", 0), 5.0)
        assert device.functions == {3: 1}


@has_ptys
def test_a_follower_of_libmodbus_at_a_hidden_unit(tmp_path: Path) -> None:
    program = compiled(tmp_path, "libmodbus_hidden_unit")
    with (
        wired() as (near, far),
        subprocess.Popen(
            [program, far, str(HIDDEN)], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
        ) as follower,
    ):
        assert follower.stdin is not None
        assert follower.stdout is not None
        assert follower.stdout.readline() == "ready\n"
        with ReadingLine(Endpoint.serial(near)) as line:
            assert found_units(line).answering == [HIDDEN]
            state = RegisterState()
            RegisterSearch(line, HIDDEN, "holding", state, span=range(600)).run()
            assert state.words == {address: 3 * address for address in range(200, 240)}
            told = line.ask(requests.server_id(HIDDEN), 0.2)
            # libmodbus, modbus.c (from memory): 180 whatever its address, FF for running, and its name.
            assert told.pdu[2:4] == bytes((180, 0xFF))
            assert b"LMB" in told.pdu
            # It knows neither 08 nor 43, nor where such a frame ends: then it is silent, and does not stay so.
            for probe in (requests.echo_query(HIDDEN), requests.identification(HIDDEN)):
                assert not line.ask(probe, 0.1).alive
            after: list[ProbeResult] = []
            while len(after) < 5 and not (after and after[-1].alive):
                after.append(line.ask(requests.read(HIDDEN, "holding", 239), 0.2))
            assert requests.words_of(after[-1]) == (717,)
        follower.stdin.close()
        counted = {int(function) for function, _, _ in (part.partition(":") for part in follower.stdout.read().split())}
        assert follower.wait(10) == 0
        assert {3, 17} <= counted <= READING
