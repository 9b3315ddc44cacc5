"""What a line, or a follower on it, has done so far: requests, good answers, faults by kind, outages."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Final

from app.client.faults import FaultKind
from app.client.transactions import Transaction

OUTAGE_S: Final = 1.0
"""What lasts less, in seconds, is a fault of some requests and no outage."""


@dataclass(frozen=True, slots=True)
class Outage:
    """For some time no answer came over a line in time. Times are monotonic seconds; `reason` says what failed first.

    `late`: answers came, but too late.
    """

    since: float
    until: float
    reason: str
    late: bool = False

    @property
    def seconds(self) -> float:
        """How long it lasted."""
        return self.until - self.since


@dataclass(frozen=True, slots=True)
class Outages:
    """Those of a line that are over: how many, how long they lasted together in seconds, and the last one."""

    count: int = 0
    seconds: float = 0.0
    last: Outage | None = None


@dataclass(slots=True)
class OutageBook:
    """Keeps the outages of one line. Belongs to the engine's thread; `outages` is a value.

    An outage begins with the first thing that fails after an answer, and ends with the next answer.
    """

    outages: Outages = field(default_factory=Outages)
    _answered: bool = False
    _failed: tuple[float, str, bool] | None = None

    def note_failure(self, at: float, reason: str, *, late: bool = False) -> None:
        """A request that went out `at` brought nothing in time, or the line went down then."""
        if self._failed is None and self._answered:
            self._failed = at, reason, late
        elif late:
            self.late(reason)

    def late(self, reason: str) -> None:
        """What was taken for silence is answered too late."""
        if self._failed is not None and not self._failed[2]:
            self._failed = self._failed[0], reason, True

    def note_answer(self, at: float) -> None:
        """An answer came."""
        self._answered = True
        if self._failed is None:
            return
        (since, reason, late), self._failed = self._failed, None
        if at - since >= OUTAGE_S:
            last = Outage(since, at, reason, late)
            self.outages = Outages(self.outages.count + 1, self.outages.seconds + last.seconds, last)


@dataclass(slots=True)
class Counts:
    """Counts since the engine started. Belongs to the engine's thread; `faults` is never changed, but replaced."""

    requests: int = 0
    good: int = 0
    faults: Mapping[FaultKind, int] = field(default_factory=lambda: MappingProxyType({}))

    def fault(self, kind: FaultKind) -> None:
        """Count one trouble."""
        self.faults = MappingProxyType({**self.faults, kind: self.faults.get(kind, 0) + 1})

    def count(self, transaction: Transaction) -> None:
        """Count one request and what came of it."""
        self.requests += 1
        fault = transaction.fault
        if fault is None:
            self.good += 1
        elif not fault.of_connection:
            self.fault(fault.kind)
