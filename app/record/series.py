"""The newest values of one signal in memory, with a pyramid of their extremes, so that any span is drawn quickly."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import NDArray

from app.record.outline import Outline

Array = NDArray[np.float64]

FACTOR: Final = 16
"""How many values of one level become one of the next."""
LEVELS: Final = 4
FIRST_ROOM: Final = 4096
"""Values that there is room for at first; it doubles as they come."""


class Series:
    """Values in the order of their times, in seconds. Not-a-number is a gap: nothing was read there.

    `keep` is how many are kept at least; when there are more, about the oldest quarter is forgotten at once, in steps
    of FACTOR to the power of LEVELS. Belongs to one thread.
    """

    def __init__(self, keep: int = 12_000_000) -> None:
        self._keep = keep
        self._times = np.empty(FIRST_ROOM)
        self._values = np.empty(FIRST_ROOM)
        self._count = 0
        self._levels: list[_Level] = [_Level() for _ in range(LEVELS)]
        self.forgotten = 0
        """How many values there is no room for any more."""

    def __len__(self) -> int:
        return self._count

    @property
    def times(self) -> Array:
        """The times of all values; a view, good until the next `extend`."""
        return self._times[: self._count]

    @property
    def values(self) -> Array:
        """All values; a view, good until the next `extend`."""
        return self._values[: self._count]

    def extend(self, times: Array, values: Array) -> None:
        """Values arrived. Those that are not later than the newest one are passed over."""
        if self._count:
            later = times > self._times[self._count - 1]
            if not later.all():
                times, values = times[later], values[later]
        if not len(times):
            return
        self._make_room(len(times))
        end = self._count + len(times)
        self._times[self._count : end] = times
        self._values[self._count : end] = values
        self._count = end
        self._build()
        if self._count > self._keep:
            self._forget(self._count - self._keep * 3 // 4)

    def window(self, begin: float, end: float) -> tuple[Array, Array]:
        """The times and values from `begin` to `end`, with the last one before and the first one behind; views."""
        first = max(0, int(np.searchsorted(self.times, begin, side="left")) - 1)
        last = min(self._count, int(np.searchsorted(self.times, end, side="right")) + 1)
        return self._times[first:last], self._values[first:last]

    def at(self, time: float) -> float:
        """The value that held at `time`: the last one before; not-a-number before the first, and in a gap."""
        index = int(np.searchsorted(self.times, time, side="right")) - 1
        return float(self._values[index]) if index >= 0 else float("nan")

    def outline(self, begin: float, end: float, columns: int) -> Outline:
        """The least and greatest value in each of so many columns of equal width; not-a-number where there is none.

        Raises ValueError if the span is empty.
        """
        if not end > begin or columns < 1:
            raise ValueError("an outline needs a span and at least one column")
        edges = np.linspace(begin, end, columns + 1)
        cuts = np.searchsorted(self.times, edges, side="left")
        cuts[-1] = np.searchsorted(self.times, end, side="right")
        low, high = np.full(columns, np.nan), np.full(columns, np.nan)
        share = (int(cuts[-1]) - int(cuts[0])) / columns
        level = 0
        while level < LEVELS and share >= 4 * FACTOR ** (level + 1):
            level += 1
        filled = np.flatnonzero(np.diff(cuts) > 0)
        if not len(filled):
            return Outline(edges, low, high)
        if level == 0:
            part = self._values[int(cuts[0]) : int(cuts[-1])]
            starts = cuts[filled] - int(cuts[0])
            low[filled] = np.fmin.reduceat(part, starts)
            high[filled] = np.fmax.reduceat(part, starts)
            return Outline(edges, low, high)
        step = FACTOR**level
        kept = self._levels[level - 1]
        starts = cuts[:-1][filled] // step
        stop = min(kept.count, -(-int(cuts[-1]) // step))
        if stop <= int(starts[0]):
            return Outline(edges, low, high)
        inside = starts < stop
        filled, starts = filled[inside], starts[inside]
        base = int(starts[0])
        low[filled] = np.fmin.reduceat(kept.low[base:stop], starts - base)
        high[filled] = np.fmax.reduceat(kept.high[base:stop], starts - base)
        # A cell of the pyramid that lies across an edge counts for the columns on both sides.
        low[filled[:-1]] = np.fmin(low[filled[:-1]], kept.low[starts[1:]])
        high[filled[:-1]] = np.fmax(high[filled[:-1]], kept.high[starts[1:]])
        tail = slice(kept.count * step, int(cuts[-1]))
        rest = self._values[tail]
        if len(rest) and not np.isnan(rest).all():
            low[filled[-1]] = np.fmin(low[filled[-1]], np.nanmin(rest))
            high[filled[-1]] = np.fmax(high[filled[-1]], np.nanmax(rest))
        return Outline(edges, low, high)

    def _make_room(self, more: int) -> None:
        wanted = self._count + more
        if wanted > len(self._times):
            room = max(wanted, 2 * len(self._times))
            self._times, self._values = (
                np.concatenate([each[: self._count], np.empty(room - self._count)])
                for each in (self._times, self._values)
            )

    def _build(self) -> None:
        """Bring the pyramid up to the values that there are: only whole cells."""
        low = high = self.values
        for level in self._levels:
            whole = len(low) // FACTOR
            if whole > level.count:
                part = slice(level.count * FACTOR, whole * FACTOR)
                level.extend(
                    np.fmin.reduce(low[part].reshape(-1, FACTOR), axis=1),
                    np.fmax.reduce(high[part].reshape(-1, FACTOR), axis=1),
                )
            low, high = level.low[: level.count], level.high[: level.count]

    def _forget(self, count: int) -> None:
        """Forget about so many of the oldest: a whole number of cells of the coarsest level, so the pyramid stays."""
        step = FACTOR**LEVELS
        count = count // step * step
        if not count:
            return
        self._times = self._times[count : self._count].copy()
        self._values = self._values[count : self._count].copy()
        self._count -= count
        self.forgotten += count
        for number, level in enumerate(self._levels, start=1):
            level.forget(count // FACTOR**number)


class _Level:
    """One level of the pyramid: the least and the greatest of each so many values."""

    def __init__(self) -> None:
        self.low = np.empty(64)
        self.high = np.empty(64)
        self.count = 0

    def extend(self, low: Array, high: Array) -> None:
        end = self.count + len(low)
        if end > len(self.low):
            room = max(end, 2 * len(self.low)) - self.count
            self.low = np.concatenate([self.low[: self.count], np.empty(room)])
            self.high = np.concatenate([self.high[: self.count], np.empty(room)])
        self.low[self.count : end] = low
        self.high[self.count : end] = high
        self.count = end

    def forget(self, count: int) -> None:
        self.low = self.low[count : self.count].copy()
        self.high = self.high[count : self.count].copy()
        self.count -= count
