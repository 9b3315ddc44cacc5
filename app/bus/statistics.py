"""How a line has done so far: requests, good answers, faults by kind, time in use, and how long followers take."""

from __future__ import annotations

from collections import Counter, deque
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Final

from app.bus.faults import FaultKind
from app.bus.transactions import Transaction

WINDOW_S: Final = 10.0
"""The share of the wire in use is that of the latest so many seconds."""
ANSWERS_KEPT: Final = 200
"""Of each follower, the latest answers that its turnaround is worked out from."""


@dataclass(frozen=True, slots=True)
class Turnaround:
    """How long followers take from the end of a request to their answer, of the latest answers, in milliseconds.

    Half of them took no longer than `median_ms`, 95 % no longer than `most_ms`, none longer than `worst_ms`. Without
    the time of the characters where the line's speed is known, else with it.
    """

    median_ms: float
    most_ms: float
    worst_ms: float


def turnaround_of(times: Sequence[float]) -> Turnaround | None:
    """The turnaround of some answers, in milliseconds; None if there are none. Nearest ranks, without interpolation."""
    if not times:
        return None
    ordered = sorted(times)
    return Turnaround(ordered[(len(ordered) - 1) // 2], ordered[-(-95 * len(ordered) // 100) - 1], ordered[-1])


@dataclass(slots=True)
class FollowerStatistics:
    """Counts since the engine started. Belongs to the engine's thread; `faults_now` and `turnaround` give values."""

    requests: int = 0
    good: int = 0
    faults: Counter[FaultKind] = field(default_factory=Counter)
    answers: deque[float] = field(default_factory=lambda: deque(maxlen=ANSWERS_KEPT))
    """The turnaround of the latest answers, in milliseconds."""
    _worked_out: tuple[int, Turnaround | None] = (0, None)

    def fault(self, kind: FaultKind) -> None:
        """Count one trouble."""
        self.faults[kind] += 1

    def took(self, transaction: Transaction, characters_ms: float) -> None:
        """Count one request; `characters_ms` is the time that the characters of both frames took."""
        self.requests += 1
        fault = transaction.fault
        if fault is None:
            self.good += 1
            self.answers.append(max(0.0, transaction.ms - characters_ms))
        elif not fault.of_connection:
            self.fault(fault.kind)

    def faults_now(self) -> Mapping[FaultKind, int]:
        """The faults so far, as a value."""
        return MappingProxyType(dict(self.faults))

    def turnaround(self) -> Turnaround | None:
        """Of the latest answers; None before the first one. Worked out anew once in a while only."""
        count, found = self._worked_out
        if found is None or self.good - count >= len(self.answers) // 10:
            found = turnaround_of(self.answers)
            self._worked_out = self.good, found
        return found


@dataclass(slots=True)
class LineStatistics(FollowerStatistics):
    """The same of a line, and for how much of the time it was in use."""

    _busy: deque[tuple[float, float]] = field(default_factory=deque)
    """When the line was in use, from and to (monotonic seconds), apart and in order."""
    _since: float | None = None

    def used(self, start: float, end: float) -> None:
        """The line was in use from `start` to `end` (monotonic seconds); what is counted already is not again."""
        if self._since is None:
            self._since = start
        if self._busy:
            start = max(start, self._busy[-1][1])
        if end > start:
            self._busy.append((start, end))
        while self._busy and self._busy[0][1] < end - WINDOW_S:
            self._busy.popleft()

    def share(self, now: float) -> float:
        """The part of the latest WINDOW_S in which the line was in use, 0 to 1; of less time if it is younger."""
        if self._since is None or now <= self._since:
            return 0.0
        begin = max(self._since, now - WINDOW_S)
        busy = sum(min(end, now) - max(start, begin) for start, end in self._busy if end > begin and start < now)
        return min(1.0, max(0.0, busy / (now - begin)))
