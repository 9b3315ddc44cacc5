"""One device that sends an energy low word first and floats high word first, as some meters do.

What it sends and was sent is packed and unpacked by others: PyPI `minimalmodbus` (its byte orders ABCD, called
BIG, and CDAB, called LITTLE_SWAP) and PyPI `pysunspec2` (`sunspec2.mb`: high word first, always).
"""

from __future__ import annotations

import struct
from collections.abc import Iterator

import minimalmodbus
import pytest
from sunspec2 import mb

from app.line.engine import Engine
from app.project.model import Project
from app.signals.order import WordOrder
from tests.builders import project_of
from tests.staged_follower import Registers, StagedFollower
from tests.waiting import wait_for

ENERGY = 3_000_123_456
POWER = 41.65
TOTAL = 0x0123_4567_89AB_CDEF


def words(data: bytes) -> tuple[int, ...]:
    return struct.unpack(f">{len(data) // 2}H", data)


def low_first(number: int) -> tuple[int, ...]:
    return words(minimalmodbus._long_to_bytes(number, False, 2, minimalmodbus.BYTEORDER_LITTLE_SWAP))


def metered(of_follower: WordOrder) -> Project:
    """The orders of the signals are said of each that differs from its follower."""
    low = {} if of_follower == "low-first" else {"word_order": "low-first"}
    high = {} if of_follower == "high-first" else {"word_order": "high-first"}
    common = {"follower": "meter", "every_ms": 20, "write": True}
    return project_of(
        line=[{"name": "bus", "kind": "tcp", "host": "unused"}],
        follower=[{"name": "meter", "line": "bus", "word_order": of_follower}],
        signal=[
            {"name": "energy", "register": 10, "encoding": "uint32", **low, **common},
            {"name": "power", "register": 12, "encoding": "float32", **high, **common},
            {"name": "total", "register": 14, "encoding": "uint64", **high, **common},
        ],
    )


@pytest.fixture(params=["high-first", "low-first"])
def running(request: pytest.FixtureRequest) -> Iterator[tuple[Engine, Registers]]:
    sent = (*low_first(ENERGY), *words(mb.f32_to_data(POWER)), *words(mb.u64_to_data(TOTAL)))
    device = Registers(dict(enumerate(sent, start=10)))
    with StagedFollower("tcp", device) as follower:
        engine = Engine(metered(request.param), {"bus": follower.endpoint}, armed=["bus"])
        engine.start()
        try:
            wait_for(lambda: all(reading.good for reading in engine.snapshot().readings.values()))
            yield engine, device
        finally:
            engine.stop()


def test_each_value_is_what_was_sent(running: tuple[Engine, Registers]) -> None:
    readings = running[0].snapshot().readings
    assert readings["energy"].value == ENERGY
    assert float(readings["power"].value or 0) == pytest.approx(POWER, rel=1e-7)
    assert readings["total"].value == TOTAL


def test_each_value_that_is_written_is_understood(running: tuple[Engine, Registers]) -> None:
    engine, device = running
    assert engine.write("energy", 70_000).result(5).ok
    assert engine.write("power", 12).result(5).ok
    assert engine.write("total", 5_000_000_000).result(5).ok

    def data(first: int, count: int) -> bytes:
        return struct.pack(f">{count}H", *(device.words[first + index] for index in range(count)))

    assert minimalmodbus._bytes_to_long(data(10, 2), False, 2, minimalmodbus.BYTEORDER_LITTLE_SWAP) == 70_000
    assert minimalmodbus._bytes_to_float(data(12, 2), 2, minimalmodbus.BYTEORDER_BIG) == 12.0
    assert mb.data_to_f32(data(12, 2)) == 12.0
    assert mb.data_to_u64(data(14, 4)) == 5_000_000_000
