"""Recording a running session: a thread that fetches samples and events and writes them, come what may.

Polling never waits for the disk. What cannot be written is kept for a while and tried again; what there is no room for
is given up, counted and noted in the recording.
"""

from __future__ import annotations

import threading
from collections import deque
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import Final

from app.events.events import Event, EventKind, screen_after
from app.language import translate
from app.line.samples import SampleBus
from app.panel.state import State
from app.project.model import Project
from app.recording.clock import CivilClock
from app.recording.limits import Limits
from app.recording.writer import CannotRecord, Writer

COMMIT_EVERY_S: Final = 0.5
"""How often what came is written: a crash loses at most this, and what the last write took."""

KEPT_WHILE_FULL: Final = 2_000_000
"""Samples that wait for the disk at most."""


@dataclass(frozen=True, slots=True)
class RecordingProgress:
    """How the recording is doing: its present file with its length and size, and all samples of all its files.

    `files` is how many files it has begun so far, also those deleted since; `trouble` says in words what is wrong now;
    empty: nothing.
    """

    path: Path
    files: int
    seconds: float
    samples: int
    size: int
    lost: int
    trouble: str


class Recorder:
    """Records all samples of an engine, and the events that it is told, until `stop`. Any thread may call it."""

    def __init__(
        self,
        path: Path,
        project: Project,
        bus: SampleBus,
        *,
        limits: Limits | None = None,
        compress: bool = True,
        clock: CivilClock | None = None,
        state: State | None = None,
    ) -> None:
        """Begin to record into `path`, which must not exist. `clock` as of the Writer. Raises CannotRecord.

        `state` is how the panel is now; left out, where it begins.
        """
        clock = clock or CivilClock()
        self.limits = limits or Limits()
        """May be changed while it records; what is over the new ones already goes on in another file at once."""
        self._first = path

        def begin(file: Path) -> Writer:
            return Writer(file, project, compress=compress, clock=clock, screen=self._screen)

        self._project = project
        self._screen = project.panel.start if state is None else state.screen
        self._begin = begin
        self._clock = clock
        self._writer = self._begin(path)
        self._files = [path]
        self._begun = 1
        self._number = 1
        self._subscription = bus.subscribe()
        self._events: deque[Event | tuple[str, float, Fraction]] = deque()
        self.curves: tuple[str, ...] = ()
        """The signals whose curves are looked at, to be shown first when it is played. May be changed at any time."""
        self._told_curves: tuple[str, ...] = ()
        self._held: dict[str, Fraction] = {}
        self._written = 0
        self._given_up = 0
        self._noted = 0
        self._trouble = ""
        self._ending = threading.Event()
        self._progress = self._look()
        self.event(Event(clock.now(), EventKind.RECORDING, path.name, translate("record", "recording started")))
        for signal, value in () if state is None else state.held.items():
            self.keep_held(signal, clock.now(), value)
        self._thread = threading.Thread(target=self._run, name="fanlight-recorder", daemon=True)
        self._thread.start()

    @property
    def progress(self) -> RecordingProgress:
        """How it is doing; costs nothing."""
        return self._progress

    @property
    def running(self) -> bool:
        """Whether it still records."""
        return self._thread.is_alive()

    def event(self, event: Event) -> None:
        """Keep an event, with the next write."""
        self._events.append(event)

    def keep_held(self, signal: str, at: float, value: Fraction) -> None:
        """Keep what a held value became, with the next write."""
        self._events.append((signal, at, value))

    def stop(self) -> RecordingProgress:
        """Write all that came, close the file and end the thread. May be called twice."""
        self._ending.set()
        self._thread.join()
        return self._progress

    # in its own thread

    def _run(self) -> None:
        while not self._ending.wait(COMMIT_EVERY_S):
            self._fetch()
            self._commit()
            self._rotate_if_due()
            self._progress = self._look()
        self._subscription.close()
        self._fetch()
        self.event(
            Event(
                self._clock.now(), EventKind.RECORDING, self._writer.path.name, translate("record", "recording ended")
            )
        )
        self._fetch_events()
        self._note_lost()
        try:
            self._writer.close()
            self._trouble = ""
        except CannotRecord as why:
            self._trouble = str(why)
        self._progress = self._look()

    def _fetch(self) -> None:
        writer = self._writer
        for sample in self._subscription.take():
            writer.add(sample.signal, sample.at, sample.reading.quality, sample.words)
        self._fetch_events()

    def _fetch_events(self) -> None:
        if self.curves != self._told_curves:
            self._told_curves = self.curves
            self._writer.curves(self._told_curves)
        while self._events:
            one = self._events.popleft()
            if isinstance(one, Event):
                self._screen = screen_after(self._project, self._screen, one)
                self._writer.event(one)
            else:
                signal, at, value = one
                self._held[signal] = value
                self._writer.keep_held(signal, at, value)

    def _commit(self) -> None:
        self._note_lost()
        try:
            self._writer.commit()
            self._trouble = ""
        except CannotRecord as why:
            self._trouble = str(why)
            if self._writer.waiting > KEPT_WHILE_FULL:
                self._given_up += self._writer.forget()

    def _note_lost(self) -> None:
        lost = self._subscription.lost + self._given_up
        if lost > self._noted:
            words = translate("record", "{count} samples were lost").format(count=lost - self._noted)
            self._writer.event(Event(self._clock.now(), EventKind.RECORDING, self._writer.path.name, words))
            self._noted = lost

    def _rotate_if_due(self) -> None:
        limits, writer = self.limits, self._writer
        if self._trouble or not limits.due(writer.size, writer.seconds):
            return
        try:
            following = self._begin(self._next_name())
        except CannotRecord as why:
            self._trouble = str(why)
            return
        self._written += writer.samples
        now = self._clock.now()
        for file, words, other in (
            (writer, translate("record", "recording continues in {file}"), following),
            (following, translate("record", "recording continued from {file}"), writer),
        ):
            file.event(Event(now, EventKind.RECORDING, file.path.name, words.format(file=other.path.name)))
        for signal, value in self._held.items():
            following.keep_held(signal, now, value)
        following.curves(self._told_curves)
        try:
            writer.close()
        except CannotRecord as why:
            self._trouble = str(why)
        self._writer = following
        self._files.append(following.path)
        self._begun += 1
        if limits.files:
            surplus, kept = self._files[: -limits.files], self._files[-limits.files :]
            self._files = [file for file in surplus if not self._delete(file)] + kept

    def _delete(self, file: Path) -> bool:
        """Delete a file. If it cannot be (another program may hold it), that is noted, and it is tried again later."""
        try:
            file.unlink(missing_ok=True)
        except OSError as why:
            words = translate("record", "{file} could not be deleted: {reason}")
            self.event(
                Event(
                    self._clock.now(),
                    EventKind.RECORDING,
                    self._writer.path.name,
                    words.format(file=file.name, reason=why.strerror or why),
                )
            )
            return False
        return True

    def _next_name(self) -> Path:
        """The name of the next file: run-2, run-3, ... behind run; names that are taken are passed over."""
        while True:
            self._number += 1
            path = self._first.with_stem(f"{self._first.stem}-{self._number}")
            if not path.exists():
                return path

    def _look(self) -> RecordingProgress:
        writer = self._writer
        return RecordingProgress(
            writer.path,
            self._begun,
            writer.seconds,
            self._written + writer.samples,
            writer.size,
            self._subscription.lost + self._given_up,
            self._trouble,
        )
