"""The whole `fanlight find` at followers of libmodbus: on a serial port, through a converter, and behind a gateway.

Converter and gateway are of this file: one hands RTU frames on as they come, one gives each a header instead of the CRC
(MODBUS Messaging on TCP/IP Implementation Guide V1.0b, from memory) and says exception 0B for a unit that is silent.
"""

from __future__ import annotations

import json
import os
import select
import subprocess
import sys
from collections.abc import Iterator, Sequence
from contextlib import ExitStack, contextmanager
from pathlib import Path
from typing import Any

import pytest

from app.cli.parser import main
from app.project_file.files import load
from tests.app.follower.playing import wired
from tests.outside.counting_device import CountingDevice
from tests.outside.lossy_device import checksum
from tests.outside.test_libmodbus import compiled

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="no ptys")

READING = {1, 2, 3, 4, 8, 17, 43}
UNITS = (2, 5, 17, 93, 247)
RANGES = [{"table": "holding", "first": 200, "last": 239}]
"""What libmodbus_hidden_unit.c has."""
SILENT_S = 0.25
"""So long the gateway waits. A device of libmodbus on this computer answers within milliseconds."""
SLOW_S = 0.8
"""And so long one that is slow; many are set to 1 s."""
ON_A_BUS_S = 0.05


@contextmanager
def followers(tmp_path: Path, units: Sequence[int]) -> Iterator[dict[int, int]]:
    """Each at a serial port of its own, whose other end is given by unit; what it counted was reading alone."""
    import tty

    program = compiled(tmp_path, "libmodbus_hidden_unit")
    ends, running = {}, []
    with ExitStack() as stack:
        for unit in units:
            near, far = os.openpty()
            tty.setraw(far)
            stack.callback(os.close, near)
            stack.callback(os.close, far)
            follower = stack.enter_context(
                subprocess.Popen(
                    [program, os.ttyname(far), str(unit)], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
                )
            )
            assert follower.stdout is not None
            assert follower.stdout.readline() == "ready\n"
            ends[unit] = near
            running.append(follower)
        try:
            yield ends
        finally:
            for follower in running:
                said, _ = follower.communicate("", timeout=10)
                counted = {int(part.partition(":")[0]) for part in said.split()}
                assert {3, 17} <= counted <= READING


def handed_on(end: int, unit: int, pdu: bytes) -> bytes:
    """The PDU of what a follower says; empty if it is silent."""
    frame = bytes((unit,)) + pdu
    os.write(end, frame + checksum(frame))
    data = b""
    while select.select([end], [], [], 0.02 if data else SILENT_S)[0]:
        data += os.read(end, 256)
    whole = len(data) > 3 and data[0] == unit and checksum(data[:-2]) == data[-2:]
    return data[1:-2] if whole else b""


def found(capsys: pytest.CaptureFixture[str], *words: str) -> dict[str, Any]:
    assert main(["find", *words, "--tables", "holding", "--range", "100-300", "--listen", "0.2", "--json"]) == 0
    told: dict[str, Any] = json.loads(capsys.readouterr().out)
    assert told["stopped_by"] == "done"
    return told


def on_a_bus(ends: dict[int, int], unit: int, pdu: bytes) -> bytes:
    """What comes back where every follower hears every frame, those to others and their answers too."""
    frame = bytes((unit,)) + pdu
    for end in ends.values():
        os.write(end, frame + checksum(frame))
    data = b""
    while unit in ends and select.select([ends[unit]], [], [], 0.01 if data else ON_A_BUS_S)[0]:
        data += os.read(ends[unit], 256)
    for other, end in ends.items():
        if data and other != unit:
            os.write(end, data)
    return data[1:-2]


@pytest.mark.parametrize("wanted", ["93", "90-95"])
def test_on_a_serial_port(wanted: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """After a request to another unit libmodbus takes the next frame for the answer to that (modbus-rtu.c, from
    memory), and so misses what it is asked right behind a unit that is silent."""
    program = compiled(tmp_path, "libmodbus_hidden_unit")
    with (
        wired() as (near, far),
        subprocess.Popen([program, far, "93"], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as follower,
    ):
        assert follower.stdout is not None
        assert follower.stdout.readline() == "ready\n"
        try:
            told = found(capsys, "--serial", near, "--settings", "19200 8N1", "--units", wanted)
        finally:
            said, _ = follower.communicate("", timeout=10)
    assert told["settings"] == {"baud": 19200, "parity": "none", "stop_bits": 1}
    (one,) = told["followers"]
    assert (one["unit"], one["ranges"], one["in_flight"]) == (93, RANGES, None)
    assert {int(part.partition(":")[0]) for part in said.split()} <= READING


def test_on_a_bus_where_each_hears_all(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Some of them have missed their turn whatever the order is: the frames before are odd in number for one, and even
    for its neighbour."""
    units = (20, 21, 93, 94)
    with (
        followers(tmp_path, units) as ends,
        CountingDevice("serial-over-tcp", lambda unit, pdu: on_a_bus(ends, unit, pdu)) as device,
    ):
        place = f"127.0.0.1:{device.where}"
        told = found(capsys, "--serial-over-tcp", place, "--units", "18-23,90-95")
    assert {one["unit"]: one["ranges"] for one in told["followers"]} == dict.fromkeys(units, RANGES)
    assert set(device.functions) <= READING


def test_through_a_converter_with_rtu_frames(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Five on one line: whoever is not asked stays silent."""
    project = tmp_path / "found.toml"
    with (
        followers(tmp_path, UNITS) as ends,
        CountingDevice(
            "serial-over-tcp", lambda unit, pdu: handed_on(ends[unit], unit, pdu) if unit in ends else None
        ) as device,
    ):
        place = f"127.0.0.1:{device.where}"
        told = found(capsys, "--serial-over-tcp", place, "--units", "2-6,17,93,247", "--to", str(project))
    assert told["settings"] is None
    assert {one["unit"]: one["ranges"] for one in told["followers"]} == dict.fromkeys(UNITS, RANGES)
    assert {one["in_flight"] for one in told["followers"]} == {None}, "a serial line carries one request at a time"
    assert all("LMB" in one["identification"]["ServerId"] for one in told["followers"])
    assert set(device.functions) <= READING
    assert device.strange == b""
    made = load(str(project))
    assert ([line.kind for line in made.lines], sorted(one.unit for one in made.followers)) == (
        ["serial-over-tcp"],
        sorted(UNITS),
    )


def test_five_behind_a_gateway(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    def gateway(unit: int, pdu: bytes) -> bytes:
        said = handed_on(ends[unit], unit, pdu) if unit in ends else b""
        return said or bytes((pdu[0] | 0x80, 11))

    with followers(tmp_path, UNITS) as ends, CountingDevice("tcp", gateway) as device:
        told = found(capsys, "--tcp", f"127.0.0.1:{device.where}")
    assert {one["unit"]: one["ranges"] for one in told["followers"]} == dict.fromkeys(UNITS, RANGES)
    # libmodbus is silent to 43, of which it knows no length: what the gateway says of that is no word of the device.
    assert all(43 not in one["functions"] for one in told["followers"])
    assert {one["in_flight"] for one in told["followers"]} == {2}, "this gateway keeps what comes until its turn"
    assert set(device.functions) <= READING
    assert {unit for unit, _ in device.asked} == {0, 255, *range(1, 248)}


@pytest.mark.parametrize("says_so", [True, False])
def test_a_gateway_that_is_slower_than_we_are(says_so: bool, capsys: pytest.CaptureFixture[str]) -> None:
    """One request at a time; what comes meanwhile stands in its queue. Where it says nothing at all of a unit that is
    silent, only the answers of others show how long it took."""

    def gateway(unit: int, pdu: bytes) -> bytes:
        if unit in (2, 5):
            return bytes((pdu[0] | 0x80, 2))
        select.select([], [], [], SLOW_S)
        return bytes((pdu[0] | 0x80, 11)) if says_so else b""

    with CountingDevice("tcp", gateway) as device:
        told = found(capsys, "--tcp", f"127.0.0.1:{device.where}", "--units", "1-8")
    assert sorted(one["unit"] for one in told["followers"]) == [2, 5]
    assert {unit for unit, _ in device.asked} == set(range(1, 9))
    assert set(device.functions) <= READING
