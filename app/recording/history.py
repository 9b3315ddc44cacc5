"""The last minutes of a session in memory, in full: what curves are drawn from, and what can be saved afterwards.

Everything is kept from the first reading on, whether anybody thought of recording or not. Its room is bounded: the
oldest samples go first, block by block, and `since` says from when on all of them are there.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from app.events.events import Event, screen_after
from app.line.samples import Sample
from app.project.binding import bindings
from app.project.model import BitSignal, Project
from app.recording.clock import SECOND, CivilClock
from app.recording.gathering import OVERHEAD, Gathering
from app.recording.tables import QUALITY_NUMBER

ROOM: Final = 64_000_000
"""Bytes of samples: half an hour of 3 200 registers a second, or four hours of 50 signals ten times a second."""
BLOCK: Final = 1024
"""Samples that go together at most when the room is full."""
LEAST_BLOCK: Final = 32
KEPT_EVENTS: Final = 50_000
"""The newest events, and the newest changes of held values."""


@dataclass(frozen=True, slots=True)
class Kept:
    """What a history held at one moment, for another thread. Times are monotonic seconds; nothing in it changes."""

    project: Project
    clock: CivilClock
    begin: float
    """From when on all samples are there; of each signal the last one before is there, too."""
    end: float
    samples: dict[str, list[Gathering]]
    events: list[Event]
    screen: str
    """Where the operator was at the beginning."""
    held: list[tuple[float, str, Fraction]]


class SampleHistory:
    """The newest samples of the register signals of a project, its events and its held values. Of one thread."""

    def __init__(self, project: Project, clock: CivilClock | None = None, room: int = ROOM) -> None:
        self.project = project
        self.clock = clock or CivilClock()
        self.since = self.clock.now()
        """From when on all samples are there, in seconds of the clock."""
        self.events: deque[Event] = deque(maxlen=KEPT_EVENTS)
        """What has happened, as it was told: not always in the order of its times."""
        self.screen = project.panel.start
        """Where the operator was before the oldest of the events."""
        self._held_before: dict[str, tuple[float, Fraction]] = {}
        self._held: deque[tuple[float, str, Fraction]] = deque()
        self._tracks = {
            name: _Track(Gathering(binding.count))
            for name, binding in bindings(project).items()
            if not isinstance(binding.signal, BitSignal)
        }
        self._room = room
        self._filled: deque[_Track] = deque()
        """Whose oldest block is the next to go: in the order in which blocks were filled."""
        widest = sum(track.open.sample_size for track in self._tracks.values())
        self._block = min(BLOCK, max(LEAST_BLOCK, room // (4 * widest or 1)))
        """So that blocks which are still being filled, and cannot go, take a quarter of the room at most."""
        self.any = False
        """Whether any sample came."""
        self.size = OVERHEAD * len(self._tracks)
        """Bytes of samples, about."""

    def add(self, samples: Iterable[Sample]) -> None:
        """Samples arrived. Those of signals that the project does not have on a line are passed over."""
        tracks, numbers, block = self._tracks, QUALITY_NUMBER, self._block
        for name, at, words, reading in samples:
            track = tracks.get(name)
            if track is None:
                continue
            time = round(at * SECOND)
            if time < track.last:
                time = track.last  # what is looked up by its time must be in the order of its times
            track.last, self.any = time, True
            gathered = track.open
            gathered.add(time, numbers[reading.quality], words)
            self.size += gathered.sample_size
            if len(gathered) >= block:
                track.full.append(gathered)
                track.open = Gathering(gathered.width)
                self._filled.append(track)
                self.size += OVERHEAD
        while self.size > self._room and self._filled:
            self._forget()

    def add_events(self, events: Iterable[Event]) -> None:
        """These events happened."""
        for event in events:
            if len(self.events) == KEPT_EVENTS:
                self.screen = screen_after(self.project, self.screen, self.events[0])
            self.events.append(event)

    def hold(self, signal: str, at: float, value: Fraction) -> None:
        """A held value became another one."""
        self._held.append((at, signal, value))
        if len(self._held) > KEPT_EVENTS:
            before, name, former = self._held.popleft()
            self._held_before[name] = (before, former)

    def samples(self, signal: str) -> list[Gathering]:
        """The samples of a register signal in the order of their times; those in the last part may become more.

        Raises KeyError for a signal that is not one.
        """
        track = self._tracks[signal]
        return [*track.full, track.open]

    def contents(self) -> Kept:
        """All of it as it is now."""
        begin = self.since
        held = [(at, name, value) for name, (at, value) in self._held_before.items()] + list(self._held)
        events = sorted(self.events, key=lambda event: event.at)
        screen = self.screen
        for event in events:
            if event.at < begin:
                screen = screen_after(self.project, screen, event)
        before = {name: (begin, name, value) for at, name, value in held if at < begin}
        return Kept(
            self.project,
            self.clock,
            begin,
            self.clock.now(),
            {name: [*track.full, track.open.copy()] for name, track in self._tracks.items()},
            [event for event in events if event.at >= begin],
            screen,
            [*before.values(), *(change for change in held if change[0] >= begin)],
        )

    def _forget(self) -> None:
        """Give up the block that was filled first."""
        track = self._filled.popleft()
        block = track.full.popleft()
        following = track.full[0] if track.full else track.open
        self.since = max(self.since, (following.times[0] if following.times else block.times[-1] + 1) / SECOND)
        self.size -= len(block) * block.sample_size + OVERHEAD


class _Track:
    """The samples of one signal: full blocks, the oldest first, and the one that is being filled."""

    __slots__ = ("full", "last", "open")

    def __init__(self, first: Gathering) -> None:
        self.full: deque[Gathering] = deque()
        self.open = first
        self.last = 0
