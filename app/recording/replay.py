"""A recording played as if it were live: its panel, its readings and its events at any moment, at any speed.

The panel is the one of the project in the recording, driven by the readings that were recorded. Its screens change as
they did then, until somebody presses a key here: from then on it goes its own way, over the same readings, until
another moment is chosen. Nothing is ever written: there is no line.
"""

from __future__ import annotations

import bisect
import itertools
import time
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import partial
from types import MappingProxyType
from typing import Final

import numpy as np

from app.events.events import Event, EventKind, screen_after
from app.language import translate
from app.panel.driver import PanelDriver
from app.panel.events import Effect, KeyDown, PanelEvent, Tick, Write, WriteDone, WriteFailed
from app.panel.state import State
from app.project.binding import bindings
from app.project.model import BitSignal
from app.recording.reader import Recording, TooMany
from app.recording.samples import Samples
from app.recording.tables import GOOD, QUALITIES, SECOND
from app.signals.reading import NEVER_READ, Quality, Reading

CHUNK_S: Final = 20.0
"""Seconds of samples that are fetched at once."""
SLOWEST: Final = 0.1
FASTEST: Final = 1000.0
"""Of the speed of a replay; 1 is as it was."""
EDGE_S: Final = 0.001
"""What counts as the same moment when going from one event to the next."""


class Replay:
    """A recording being played. Times are seconds since the recording began. Belongs to one thread."""

    def __init__(self, recording: Recording, clock: Callable[[], float] = time.monotonic) -> None:
        """Begin at the first sample, standing still. `clock` gives monotonic seconds."""
        self.recording = recording
        self.project = recording.project
        self._clock = clock
        self.begin, self.end = recording.span()
        self._speed = 1.0
        self._playing = False
        self._at = self.begin
        self._seen = clock()
        self._chunks: dict[str, _Chunk] = {}
        changes = [event for event in recording.events(self.begin, self.end) if event.kind is EventKind.SCREEN_CHANGED]
        self._changed_at = [event.at for event in changes]
        first = recording.screen if recording.screen in self.project.screen_named else self.project.panel.start
        follow = partial(screen_after, self.project)
        self._screens = list(itertools.accumulate(changes, follow, initial=first))
        """Where the operator was before the first screen change, and after each."""
        self._held = recording.held_changes()
        self._own_way = False
        self.panel = PanelDriver(self.project, self, lambda: self._at)
        """What is operated; its ticks let the recording go on as far as the clock has, times the speed."""
        self.seek(self.begin)

    # Time

    @property
    def at(self) -> float:
        """The moment that is shown."""
        return self._at

    @property
    def playing(self) -> bool:
        """Whether time runs."""
        return self._playing

    @property
    def speed(self) -> float:
        """How much faster than it was; 1 is as it was."""
        return self._speed

    @speed.setter
    def speed(self, speed: float) -> None:
        self._speed = min(max(speed, SLOWEST), FASTEST)

    def play(self) -> None:
        """Let time run; at the end it begins anew."""
        if self._at >= self.end:
            self.seek(self.begin)
        self._playing = True
        self._seen = self._clock()

    def pause(self) -> None:
        """Stand still."""
        self._playing = False

    def seek(self, at: float) -> None:
        """Go to another moment, within the recording. The panel is as it was then."""
        self._at = min(max(at, self.begin), self.end)
        self._seen = self._clock()
        self._own_way = False
        self.panel.begin(self.panel.state.language)
        self.panel.state = self._as_recorded(self.panel.state)
        # One look at the readings, so that overrides that held then are shown.
        self.panel.take(Tick(self._at))

    def step(self, way: int) -> None:
        """Go to the next (`way` 1) or the former (-1) moment at which a sample arrived or something happened."""
        moments = [moment for name in self.recording.signals if (moment := self._neighbour(name, way)) is not None]
        events = (
            self.recording.events(self._at + EDGE_S, self.end)[:1]
            if way > 0
            else self.recording.events(self.begin, self._at - EDGE_S)[-1:]
        )
        moments += [event.at for event in events]
        if moments:
            self.seek(min(moments) if way > 0 else max(moments))

    # Behind the panel

    def answers(self) -> tuple[()]:
        """Let time go on before the panel's tick."""
        now = self._clock()
        passed, self._seen = now - self._seen, now
        if not self._playing:
            return ()
        self._at = min(self._at + passed * self._speed, self.end)
        if self._at >= self.end:
            self._playing = False
        if not self._own_way:
            self.panel.state = self._as_recorded(self.panel.state)
        return ()

    def registers(self) -> Mapping[str, Reading]:
        """The readings of the register signals as they were, looked up as they are asked for."""
        return _Then(self)

    def carry_out(self, effects: tuple[Effect, ...], cause: PanelEvent) -> tuple[Effect, ...]:
        """Write nothing, and tell the panel so at once: what a key would write is refused in words."""
        self._own_way = self._own_way or isinstance(cause, KeyDown)
        reason = translate("record", "not possible in a recording")
        for write in effects:
            if isinstance(write, Write) and not isinstance(cause, WriteDone | WriteFailed):
                # What a condition wrote was written then; what a key asks for now is not.
                self.panel.take(
                    WriteDone(write.signal, self._at, write.value)
                    if isinstance(cause, Tick)
                    else WriteFailed(write.signal, reason, self._at, write.value, "writing_off")
                )
        return tuple(effect for effect in effects if not isinstance(effect, Write))

    def events(self) -> list[Event]:
        """What had happened up to this moment, oldest first."""
        return self.recording.events(self.begin, self._at)

    def _as_recorded(self, state: State) -> State:
        """The state with the screen and the held values that the panel had then, as far as that was recorded."""
        held = {signal: value for at, signal, value in self._held if at <= self._at}
        if any(state.held.get(signal) != value for signal, value in held.items()):
            state = replace(state, held=MappingProxyType({**state.held, **held}))
        screen = self._screens[bisect.bisect_right(self._changed_at, self._at)]
        return state if screen == state.screen else replace(state, screen=screen, entry=None)

    def reading(self, signal: str) -> Reading:
        """The reading of a register signal at the moment that is shown."""
        chunk = self._chunk(signal)
        index = int(np.searchsorted(chunk.samples.times, round(self._at * SECOND), side="right")) - 1
        if index < 0:
            return NEVER_READ
        return self._reading_at(signal, chunk.samples, index)

    def _reading_at(self, signal: str, samples: Samples, index: int) -> Reading:
        at = int(samples.times[index]) / SECOND
        quality = QUALITIES[int(samples.qualities[index])]
        words = [int(word) for word in samples.words[index]]
        if quality is Quality.GOOD:
            return bindings(self.project)[signal].reading(words, at)
        reason = translate("record", "not read at that time")
        good = np.flatnonzero(samples.qualities[:index] == GOOD)
        if quality is Quality.STALE and len(good):
            former = self._reading_at(signal, samples, int(good[-1]))
            return Reading(former.raw, former.value, Quality.STALE, reason, former.time)
        return Reading(None, None, Quality.NONE if quality is Quality.STALE else quality, reason, at)

    def _chunk(self, signal: str) -> _Chunk:
        chunk = self._chunks.get(signal)
        if chunk is None or not chunk.begin <= self._at < chunk.end:
            begin_ = self.begin + (self._at - self.begin) // CHUNK_S * CHUNK_S
            try:
                samples = self.recording.samples(signal, begin_, begin_ + CHUNK_S)
            except TooMany:  # only what is shown now, then
                return _Chunk(self._at, self._at, self.recording.before(signal, self._at))
            before = self.recording.before(signal, begin_ - 1 / SECOND)
            width = samples.words.shape[1]
            chunk = _Chunk(begin_, begin_ + CHUNK_S, Samples.joined([before, samples], width))
            self._chunks[signal] = chunk
        return chunk

    def _neighbour(self, signal: str, way: int) -> float | None:
        now = round(self._at * SECOND)
        if way < 0:
            found = self.recording.before(signal, (now - 1) / SECOND)
            return int(found.times[-1]) / SECOND if len(found) else None
        times = self._chunk(signal).samples.times
        index = int(np.searchsorted(times, now, side="right"))
        if index < len(times):
            return int(times[index]) / SECOND
        return self.recording.after(signal, self._at)


@dataclass(frozen=True, slots=True)
class _Chunk:
    """The samples of one signal from `begin` on, before `end`, with the last one before them."""

    begin: float
    end: float
    samples: Samples


class _Then(Mapping[str, Reading]):
    """The readings of the register signals at the moment that a replay shows, looked up as they are asked."""

    def __init__(self, replay: Replay) -> None:
        self._replay = replay
        self._found: dict[str, Reading] = {}

    def __getitem__(self, name: str) -> Reading:
        found = self._found.get(name)
        if found is None:
            signal = self._replay.project.signal_named[name]
            if isinstance(signal, BitSignal) or name not in bindings(self._replay.project):
                raise KeyError(name)  # worked out from its word, or not on a line
            found = self._found[name] = self._replay.reading(name)
        return found

    def __iter__(self) -> Iterator[str]:
        return iter(self._replay.recording.signals)

    def __len__(self) -> int:
        return len(self._replay.recording.signals)
