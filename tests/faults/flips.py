"""A line on which one bit in a hundred is flipped, both ways: how many wrong values pass, against what a CRC allows.

A CRC of 16 bits lets about one in 65 536 badly damaged frames through; nobody can see those. What can be shown is that
no more pass than that, and that skipping noise in search of a frame does not let more pass.
"""

from __future__ import annotations

import random
import tempfile
import time
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Final

from app.client.faults import FaultKind
from app.client.reply_guard import RtuGuard
from app.line.engine import Engine
from app.modbus.crc import crc_fits
from app.modbus.requests import read_request
from tests.builders import SERIAL, pump_project, word
from tests.faults.stage import Stage, Watch
from tests.staged_follower import Asked, StagedFollower, crc

FLIPPED: Final = 0.01
"""The share of bits that are flipped."""
CRC_LETS_THROUGH: Final = 1 / 65_536
"""Of badly damaged frames."""
TIMEOUT_MS: Final = 10

_SIGNALS: Final = 12
_PROJECT: Final = pump_project(
    *(word(f"{3 * n}", 3 * n, encoding="uint32", every_ms=10) for n in range(_SIGNALS)),
    line=SERIAL,
    max_registers=2,
)


@dataclass(slots=True)
class Flips:
    """What came of so many transactions on a line with flipped bits."""

    framing: str
    noise: bool
    """Whether three bytes of noise went ahead of every answer as well."""
    transactions: int = 0
    damaged_requests: int = 0
    damaged_answers: int = 0
    values: int = 0
    wrong: list[str] = field(default_factory=list)
    kinds: Counter[FaultKind] = field(default_factory=Counter)

    @property
    def bound(self) -> float:
        """Wrong values that a CRC alone would be expected to let through, were all damage bad."""
        return (self.damaged_requests + self.damaged_answers) * CRC_LETS_THROUGH


class _Disturbed(Stage):
    """An honest follower at the far end of a disturbed line."""

    def __init__(self, outcome: Flips, seed: int) -> None:
        super().__init__()
        self._outcome = outcome
        self._chance = random.Random(seed)

    def __call__(self, asked: Asked) -> Iterator[bytes | float | object]:
        self.truth[asked.number] = self.honest.pdu(asked)
        self.truth.pop(asked.number - 1000, None)
        heard = self.flipped(asked.frame)
        if heard != asked.frame:
            self._outcome.damaged_requests += 1
            if crc(heard[:-2]) != heard[-2:] or heard[0] != asked.unit:
                return
            asked = replace(asked, frame=heard, pdu=heard[1:-2])
        frame = asked.framed(self.honest.pdu(asked))
        came = self.flipped(frame)
        self._outcome.damaged_answers += came != frame
        yield self._chance.randbytes(3) + came if self._outcome.noise else came

    def flipped(self, data: bytes) -> bytes:
        mask = sum(1 << bit for bit in range(8 * len(data)) if self._chance.random() < FLIPPED)
        return (int.from_bytes(data, "big") ^ mask).to_bytes(len(data), "big")


def disturbed_line(framing: str, transactions: int, seed: int, *, noise: bool) -> Flips:
    """Read over a line with flipped bits until there were so many transactions."""
    outcome = Flips(framing, noise)
    stage = _Disturbed(outcome, seed)
    with (
        tempfile.TemporaryDirectory() as folder,
        StagedFollower(framing, stage, TIMEOUT_MS, Path(folder) / "port" if framing == "serial" else None) as follower,
    ):
        engine = Engine(_PROJECT, {"bus": follower.endpoint})
        watch = Watch(engine, follower, stage, _PROJECT)
        engine.start()
        last, moved = -1, time.monotonic()
        while engine.transactions.count < transactions:
            time.sleep(0.02)
            if engine.transactions.count != last:
                last, moved = engine.transactions.count, time.monotonic()
            assert time.monotonic() - moved < 20, "the line stood still"
        outcome.transactions = engine.transactions.count
        outcome.kinds = Counter(engine.snapshot().lines["bus"].faults)
        engine.stop()
        outcome.values, outcome.wrong = watch.count, watch.wrong
    return outcome


@dataclass(frozen=True, slots=True)
class Passed:
    """Of so many frames, damaged as badly as can be, how many a CRC alone and the reply guard let pass."""

    frames: int
    by_crc: int
    by_guard: int
    by_guard_after_noise: int

    @property
    def bound(self) -> float:
        """How many a CRC of 16 bits is expected to let through."""
        return self.frames * CRC_LETS_THROUGH


def worst_damage(frames: int, seed: int) -> Passed:
    """Answers whose head is right and all else is chance, alone and behind three bytes of noise."""
    chance = random.Random(seed)
    request = read_request(3, "holding", 10, 2)
    head = bytes((3,)) + request.answer_head
    counts = [0, 0, 0]
    for _ in range(frames):
        frame = head + chance.randbytes(6)
        counts[0] += crc_fits(frame)
        for place, bytes_that_came in ((1, frame), (2, chance.randbytes(3) + frame)):
            guard = RtuGuard(request)
            counts[place] += (guard.feed(bytes_that_came) or guard.last_look()) is not None
    return Passed(frames, *counts)
