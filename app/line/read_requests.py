"""Reads that no plan has: registers that somebody wants to see once, between the reads of the plan."""

from __future__ import annotations

from collections import deque
from concurrent.futures import Future, InvalidStateError
from contextlib import suppress
from dataclasses import dataclass, field
from typing import Final

from app.client.faults import Fault, LineFault
from app.signals.numbering import Table

READS_BETWEEN: Final = 3
"""On a line that is busy all the time, so many reads of the plan go before each wish: the panel stays alive."""


@dataclass(frozen=True, slots=True)
class AdHocRead:
    """Registers or bits of a follower from a wire address on, and who waits for them."""

    follower: str
    table: Table
    address: int
    count: int
    words: Future[tuple[int, ...]]

    def fulfil(self, words: tuple[int, ...]) -> None:
        """Hand over what was read."""
        with suppress(InvalidStateError):
            self.words.set_result(tuple(map(int, words)))

    def fail(self, fault: Fault) -> None:
        """Tell why it was not read."""
        with suppress(InvalidStateError):
            self.words.set_exception(LineFault(fault))


@dataclass(slots=True)
class AdHocReads:
    """The wishes of one line that wait, oldest first. Belongs to the engine's event loop."""

    _waiting: deque[AdHocRead] = field(default_factory=deque)
    _passed: int = 0
    """Reads of the plan that went since the last wish."""

    def put(self, ad_hoc: AdHocRead) -> None:
        """Let a wish wait."""
        self._waiting.append(ad_hoc)

    def take(self, idle: bool) -> AdHocRead | None:
        """The read whose turn it is, if any; `idle` says that no read of the plan is due."""
        while self._waiting and self._waiting[0].words.cancelled():
            self._waiting.popleft()
        if not self._waiting:
            return None
        if not idle and self._passed < READS_BETWEEN:
            self._passed += 1
            return None
        self._passed = 0
        return self._waiting.popleft()

    def fail(self, fault: Fault) -> None:
        """Tell all who wait why nothing is read."""
        waiting, self._waiting = self._waiting, deque()
        for ad_hoc in waiting:
            ad_hoc.fail(fault)
