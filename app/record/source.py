"""Where curves come from: what was observed since a session began, or a recording, behind one interface."""

from __future__ import annotations

import datetime
from collections import defaultdict
from collections.abc import Iterable, Mapping
from typing import Final, Protocol

import numpy as np
from numpy.typing import NDArray

from app.bus.samples import Sample
from app.project.model import BitSignal, Project, RegisterSignal
from app.record.clock import CivilClock
from app.record.layout import SECOND
from app.record.outline import Outline
from app.record.reader import Recording
from app.record.series import Series

Array = NDArray[np.float64]

KEPT: Final = 6_000_000
"""Values that are kept in memory of all signals together; the recording keeps them all."""


class Source(Protocol):
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

    def outline(self, signal: str, begin: float, end: float, columns: int) -> Outline:
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


class Observed:
    """What has been read since a session began: each signal's newest values, in memory.

    Of bits only the changes are kept. Times are `time.monotonic()`. Belongs to one thread.
    """

    def __init__(
        self,
        project: Project,
        clock: CivilClock | None = None,
        keep: int = KEPT,
    ) -> None:
        """`keep` is how many values are kept, of all signals together; the oldest of each go."""
        self._project = project
        self._clock = clock or CivilClock()
        self._began = self._clock.now()
        share = keep // max(1, len(project.signals))
        self._series = {signal.name: Series(share) for signal in project.signals if _numeric(project, signal.name)}
        self._bits: Mapping[str, list[BitSignal]] = _bits_of(project)
        self._last_bits: dict[str, float] = {}

    @property
    def project(self) -> Project:
        """The project that is observed."""
        return self._project

    def add(self, samples: Iterable[Sample]) -> None:
        """Samples arrived."""
        times: dict[str, list[float]] = defaultdict(list)
        values: dict[str, list[float]] = defaultdict(list)
        for sample in samples:
            name, at, _, reading = sample
            if name not in self._series:
                continue
            good = reading.good and reading.value is not None and not isinstance(reading.value, str)
            times[name].append(at)
            values[name].append(float(reading.value) if good else np.nan)  # type: ignore[arg-type]
            for bit in self._bits.get(name, ()):
                on = float(reading.raw >> bit.bit.number & 1) if good and isinstance(reading.raw, int) else np.nan
                before = self._last_bits.get(bit.name)
                if before is None or (on != before and not (np.isnan(on) and np.isnan(before))):
                    self._last_bits[bit.name] = on
                    times[bit.name].append(at)
                    values[bit.name].append(on)
        for name, moments in times.items():
            self._series[name].extend(np.array(moments), np.array(values[name]))

    def span(self) -> tuple[float, float]:
        """From the oldest value that is kept until now."""
        firsts = [float(series.times[0]) for series in self._series.values() if len(series)]
        return (min(firsts), self._clock.now()) if firsts else (self._began, self._began)

    def outline(self, signal: str, begin: float, end: float, columns: int) -> Outline:
        """See Source. Of a bit the value holds until the next change, also in columns without one."""
        series = self._series[signal]
        outline = series.outline(begin, end, columns)
        if isinstance(self._project.signal_named[signal], BitSignal):
            _hold(outline, series, self._clock.now())
        return outline

    def window(self, signal: str, begin: float, end: float) -> tuple[Array, Array]:
        """See Source."""
        return self._series[signal].window(begin, end)

    def at(self, signal: str, moment: float) -> float:
        """See Source."""
        return self._series[signal].at(moment)

    def civil(self, moment: float) -> datetime.datetime:
        """See Source."""
        return self._clock.at(moment)


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

    def outline(self, signal: str, begin: float, end: float, columns: int) -> Outline:
        """See Source."""
        return self._recording.outline(signal, begin, end, columns)

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


def _bits_of(project: Project) -> dict[str, list[BitSignal]]:
    found: dict[str, list[BitSignal]] = {}
    for signal in project.signals:
        if isinstance(signal, BitSignal):
            found.setdefault(signal.bit.of, []).append(signal)
    return found


def _hold(outline: Outline, series: Series, now: float) -> None:
    """Let the value that held at the beginning of each column count for it."""
    begins = outline.edges[:-1]
    places = np.searchsorted(series.times, begins, side="right") - 1
    known = (places >= 0) & (begins <= now)
    held = np.full(len(begins), np.nan)
    held[known] = series.values[places[known]]
    np.fmin(outline.low, held, out=outline.low)
    np.fmax(outline.high, held, out=outline.high)
