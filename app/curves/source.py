"""Where curves come from: what was observed since a session began, or a recording, behind one interface."""

from __future__ import annotations

import bisect
import datetime
from typing import Final, Protocol

import numpy as np
from numpy.typing import NDArray

from app.project.binding import Binding, bindings
from app.project.model import BitSignal, Project, RegisterSignal
from app.recording.clock import SECOND, microseconds
from app.recording.envelope import Envelope, extremes, spread
from app.recording.gathering import Gathering
from app.recording.history import SampleHistory
from app.recording.reader import Recording
from app.recording.samples import Samples, values as decoded

Array = NDArray[np.float64]

SUMMED_UP: Final = 64
"""Samples that a long outline takes together: their least and greatest value are worked out once. When the room of a
history is full, the outlines of six whole curves take 2 ms in that way, and 88 ms without it."""

TOGETHER: Final = 32
"""Blocks that are summed up in one go."""


class CurveSource(Protocol):
    """Values of signals over time, in seconds of a clock of its own. Not-a-number: nothing good was read then.

    Methods that take a signal raise KeyError for one that is not a number on a line.
    """

    @property
    def project(self) -> Project:
        """The project whose signals these are."""
        ...

    def span(self) -> tuple[float, float]:
        """From when to when there is anything; both the same where there is nothing yet."""
        ...

    def envelope(self, signal: str, begin: float, end: float, columns: int) -> Envelope:
        """The least and greatest value in each of so many columns."""
        ...

    def window(self, signal: str, begin: float, end: float) -> tuple[Array, Array]:
        """Times and values from `begin` to `end`, with one neighbour on either side."""
        ...

    def at(self, signal: str, moment: float) -> float:
        """The value that held at a moment."""
        ...

    def civil(self, moment: float) -> datetime.datetime:
        """The civil time of a moment, with its zone."""
        ...


class LiveSource:
    """A history as a source: what has been read since a session began. Times are `time.monotonic()`.

    Belongs to the thread of the history. Values are worked out of the registers as they are asked for.
    """

    def __init__(self, history: SampleHistory) -> None:
        self._history = history
        self._summaries: dict[str, tuple[Array, Gathering | None]] = {}
        """Of a signal what its full blocks look like from afar, and the last one of them."""

    @property
    def project(self) -> Project:
        """The project that is observed."""
        return self._history.project

    def span(self) -> tuple[float, float]:
        """From when on everything is kept until now."""
        history = self._history
        return history.since, history.clock.now() if history.any else history.since

    def envelope(self, signal: str, begin: float, end: float, columns: int) -> Envelope:
        """See Source."""
        if not end > begin or columns < 1:
            raise ValueError("an outline needs a span and at least one column")
        edges = np.linspace(begin, end, columns + 1)
        binding, blocks = self._blocks(signal, begin, end)
        if sum(map(len, blocks)) < columns * SUMMED_UP:
            return extremes(edges, *self._between(signal, begin, end, neighbours=False))
        return spread(edges, *self._summed_up(signal, binding))

    def _summed_up(self, signal: str, binding: Binding) -> Array:
        """The summary of all samples of a signal; of those in full blocks it is made once."""
        *full, filling = self._history.samples(binding.base.name)
        done, last = self._summaries.get(signal, (np.empty((4, 0)), None))
        known = next((place for place in reversed(range(len(full))) if full[place] is last), -1) + 1
        if full[known:]:
            parts = [done[:, done[1] >= full[0].times[0] / SECOND]]
            for first in range(known, len(full), TOGETHER):  # not all at once: that would fill the caches
                blocks = [Samples.of(block) for block in full[first : first + TOGETHER]]
                parts.append(_summary(binding, Samples.joined(blocks, binding.count)))
            done = np.concatenate(parts, axis=1)
            self._summaries[signal] = done, full[-1]
        return np.concatenate([done, _summary(binding, Samples.of(filling.copy()))], axis=1) if len(filling) else done

    def window(self, signal: str, begin: float, end: float) -> tuple[Array, Array]:
        """See Source."""
        return self._between(signal, begin, end, neighbours=True)

    def at(self, signal: str, moment: float) -> float:
        """See Source."""
        times, values = self._between(signal, moment, moment, neighbours=True)
        index = int(np.searchsorted(times, microseconds(moment) / SECOND, side="right")) - 1
        return float(values[index]) if index >= 0 else float("nan")

    def civil(self, moment: float) -> datetime.datetime:
        """See Source."""
        return self._history.clock.at(moment)

    def _between(self, signal: str, begin: float, end: float, *, neighbours: bool) -> tuple[Array, Array]:
        """Times and values of the samples from `begin` to `end`, and of one on either side if asked for."""
        binding, blocks = self._blocks(signal, begin, end, neighbours=neighbours)
        samples = Samples.joined([Samples.of(block) for block in blocks], binding.count)
        low = int(np.searchsorted(samples.times, microseconds(begin), side="left")) - neighbours
        high = int(np.searchsorted(samples.times, microseconds(end), side="right")) + neighbours
        samples = samples.part(slice(max(0, low), high))
        return samples.times / SECOND, decoded(binding, samples)

    def _blocks(
        self, signal: str, begin: float, end: float, *, neighbours: bool = False
    ) -> tuple[Binding, list[Gathering]]:
        """What holds a signal; the blocks that touch a span, with their neighbours if asked for.

        The last one is a copy of the block that is being filled if that is among them.
        """
        if not _numeric(self.project, signal):
            raise KeyError(signal)
        binding = bindings(self.project)[signal]
        blocks = [block for block in self._history.samples(binding.base.name) if len(block)]
        first = bisect.bisect_left(blocks, microseconds(begin), key=_newest) - neighbours
        last = bisect.bisect_right(blocks, microseconds(end), key=_oldest) + neighbours
        chosen = blocks[max(0, first) : last]
        if chosen and chosen[-1] is blocks[-1]:
            chosen[-1] = chosen[-1].copy()
        return binding, chosen


def _summary(binding: Binding, samples: Samples) -> Array:
    """Beginning, end, least and greatest value of every few samples: four rows. No gap lies within any of them."""
    parts = []
    for run in samples.runs():
        starts = np.arange(0, len(run), SUMMED_UP)
        ends = np.append(starts[1:], len(run)) - 1
        seen = decoded(binding, run)
        low, high = np.fmin.reduceat(seen, starts), np.fmax.reduceat(seen, starts)
        parts.append(np.array([run.times[starts] / SECOND, run.times[ends] / SECOND, low, high]))
    return np.concatenate(parts, axis=1)


def _oldest(block: Gathering) -> int:
    return block.times[0]


def _newest(block: Gathering) -> int:
    return block.times[-1]


class Recorded:
    """A recording as a source. Times are seconds since it began."""

    def __init__(self, recording: Recording) -> None:
        self._recording = recording
        self._span = recording.span()

    @property
    def project(self) -> Project:
        """The project as it was when it was recorded."""
        return self._recording.project

    def span(self) -> tuple[float, float]:
        """See Source."""
        return self._span

    def envelope(self, signal: str, begin: float, end: float, columns: int) -> Envelope:
        """See Source."""
        return self._recording.envelope(signal, begin, end, columns)

    def window(self, signal: str, begin: float, end: float) -> tuple[Array, Array]:
        """See Source."""
        before = self._recording.before(signal, begin - 1 / SECOND)
        first = int(before.times[0]) / SECOND if len(before) else begin
        after = self._recording.after(signal, end)
        found = self._recording.samples(signal, first, end if after is None else after)
        return found.times / SECOND, self._recording.values(signal, found)

    def at(self, signal: str, moment: float) -> float:
        """See Source."""
        found = self._recording.before(signal, moment)
        return float(self._recording.values(signal, found)[0]) if len(found) else float("nan")

    def civil(self, moment: float) -> datetime.datetime:
        """See Source."""
        return self._recording.civil(moment)


class Unread:
    """Curves of a project of which nothing was read yet. Time is that of the civil clock, in seconds since 1970."""

    def __init__(self, project: Project) -> None:
        self._project = project

    @property
    def project(self) -> Project:
        """The project whose signals would be read."""
        return self._project

    def span(self) -> tuple[float, float]:
        """See Source."""
        now = datetime.datetime.now(datetime.UTC).timestamp()
        return now, now

    def envelope(self, signal: str, begin: float, end: float, columns: int) -> Envelope:
        """See Source."""
        return extremes(np.linspace(begin, end, columns + 1), *self.window(signal, begin, end))

    def window(self, signal: str, begin: float, end: float) -> tuple[Array, Array]:  # noqa: ARG002
        """See Source."""
        if not _numeric(self.project, signal):
            raise KeyError(signal)
        return np.empty(0), np.empty(0)

    def at(self, signal: str, moment: float) -> float:  # noqa: ARG002
        """See Source."""
        return float("nan")

    def civil(self, moment: float) -> datetime.datetime:
        """See Source."""
        return datetime.datetime.fromtimestamp(moment, datetime.UTC).astimezone()


def plottable(project: Project) -> tuple[str, ...]:
    """The signals that have a curve: those on a line that are numbers, in the order of the project."""
    return tuple(signal.name for signal in project.signals if _numeric(project, signal.name))


def _numeric(project: Project, name: str) -> bool:
    signal = project.signal_named[name]
    if isinstance(signal, BitSignal):
        return isinstance(project.signal_named.get(signal.bit.of), RegisterSignal)
    if not isinstance(signal, RegisterSignal):
        return False
    return signal.encoding != "string" or signal.table in ("coil", "discrete")
