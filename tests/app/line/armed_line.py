"""One armed line with one follower whose answers a test decides."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from decimal import Decimal
from typing import Any

from app.line.engine import Engine
from app.project.model import Bit, BitSignal, RegisterSignal, Scale, Signal
from tests import builders
from tests.builders import pump_project
from tests.staged_follower import Registers, StagedFollower
from tests.waiting import wait_for

TIMEOUT_MS = 100


def word(name: str, number: int, **more: Any) -> RegisterSignal:
    """One that is read all the time, and may be written."""
    return builders.word(name, number, **{"every_ms": 20, "write": True, **more})


TENTHS = Scale(raw=(Decimal(0), Decimal(10)), value=(Decimal(0), Decimal(1)))
SIGNALS: tuple[Signal, ...] = (
    word("speed", 310, scale=TENTHS, decimals=1, unit="Hz"),
    word("total", 320, encoding="uint32"),
    word("command", 300),
    word("lamp", 5, table="coil"),
    *(BitSignal(name=f"bit {n}", bit=Bit(of="command", number=n), write=True) for n in range(4)),
)


class Line:
    """One armed line with one honest follower, until a test puts something in its way."""

    def __init__(self, kind: str, signals: tuple[Signal, ...], follower: dict[str, Any]) -> None:
        self.honest = Registers({300: 0b1010_0000, 310: 200})
        self.follower = StagedFollower(kind, self.honest, TIMEOUT_MS)
        self.project = pump_project(*signals, **follower)

    def start(self) -> None:
        self.follower.start()
        self.engine = Engine(self.project, {"bus": self.follower.endpoint}, armed=["bus"])
        self.engine.start()
        wait_for(lambda: all(reading.good for reading in self.engine.snapshot().readings.values()))

    def stop(self) -> None:
        self.engine.stop()
        self.follower.stop()

    def written(self) -> list[str]:
        return [asked.pdu.hex() for asked in self.follower.asked if asked.function > 4]


@contextmanager
def running(kind: str = "tcp", signals: tuple[Signal, ...] = SIGNALS, **follower: Any) -> Iterator[Line]:
    line = Line(kind, signals, follower)
    line.start()
    try:
        yield line
    finally:
        line.stop()
