"""When each read of a line is due, and which goes first: what is on the shown screen, without starving the rest."""

from __future__ import annotations

import heapq
from collections.abc import Iterable
from itertools import count
from typing import Final, Generic, Protocol, TypeVar

SHOWN_IN_A_ROW: Final = 3
"""While more is due than the line can do, so many reads of what is shown go out for one of the others."""
FRESH_S: Final = 0.5
"""What comes on the screen is read at once, unless it was read within so many seconds."""


class _Due(Protocol):
    @property
    def signals(self) -> tuple[str, ...]: ...

    @property
    def every_s(self) -> float: ...


_R = TypeVar("_R", bound=_Due)


class Schedule(Generic[_R]):
    """Reads and the times at which they are due (`time.monotonic()`); each is put in again after it was made."""

    def __init__(self) -> None:
        self._others: list[tuple[float, int, _R]] = []
        self._shown: list[tuple[float, int, _R]] = []
        self._names: frozenset[str] = frozenset()
        self._order = count()
        self._in_a_row = 0

    def put(self, read: _R, at: float) -> None:
        """Let a read be due at `at`."""
        heap = self._others if not self._names or self._names.isdisjoint(read.signals) else self._shown
        heapq.heappush(heap, (at, next(self._order), read))

    def clear(self) -> None:
        """Nothing is due any more."""
        self._others.clear()
        self._shown.clear()

    def show(self, names: Iterable[str], now: float) -> None:
        """From now on the signals `names` are shown. Those that come on are due at once if they are not fresh."""
        former, self._names = self._names, frozenset(names)
        if former == self._names:
            return
        entries = [*self._shown, *self._others]
        self.clear()
        coming = self._names - former
        for due, _, read in sorted(entries, key=lambda entry: entry[:2]):
            stale = due - read.every_s + FRESH_S < now
            self.put(read, min(due, now) if stale and not coming.isdisjoint(read.signals) else due)

    @property
    def next_due(self) -> float | None:
        """When the next read is due, or None."""
        return min((heap[0][0] for heap in (self._shown, self._others) if heap), default=None)

    def take(self, now: float) -> tuple[float, _R] | None:
        """The read that goes next of those that are due, with the time at which it was; None if none is due."""
        shown = bool(self._shown) and self._shown[0][0] <= now
        others = bool(self._others) and self._others[0][0] <= now
        if shown and (not others or self._in_a_row < SHOWN_IN_A_ROW):
            self._in_a_row += 1
            heap = self._shown
        elif others:
            self._in_a_row = 0
            heap = self._others
        else:
            return None
        due, _, read = heapq.heappop(heap)
        return due, read
