"""What is observed of a running session: every reading, every event, and the recording of them if one is made."""

from __future__ import annotations

import time
from collections import deque
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QObject, Signal

from app.record.clock import CivilClock
from app.record.events import Event
from app.record.limits import Limits
from app.record.recorder import Progress, Recorder
from app.record.source import Observed
from app.record.watch import Watch
from widgets.live import Live

if TYPE_CHECKING:
    from app.bus.samples import Subscription
    from app.session import Session

KEPT_EVENTS: Final = 50_000
"""The newest events that are listed; a recording keeps all."""


class Observation(QObject):
    """Watches the session of a window from the moment it is made, and each one after it.

    All of it happens in the window's thread, once a frame; writing a recording has a thread of its own.
    """

    begun = Signal()
    """Another session is observed from now on: `source` and `watch` are others, `events` is empty."""
    gathered = Signal()
    """Readings arrived."""
    happened = Signal(object)
    """A tuple of app.record.events.Event happened."""
    recording_changed = Signal()
    """A recording began or ended."""

    def __init__(self, live: Live, program: str = "", parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._live = live
        self._program = program
        self._session: Session | None = None
        self._samples: Subscription | None = None
        self._early: Subscription | None = None
        self.source: Observed | None = None
        """The curves; None before the first connection. They stay when the line is disconnected."""
        self.watch: Watch | None = None
        self.events: deque[Event] = deque(maxlen=KEPT_EVENTS)
        """What has happened, oldest first."""
        self._clock = CivilClock()
        """Of the session: what is shown of it live has the times that its recordings have."""
        self._recorder: Recorder | None = None
        self._last: Progress | None = None
        live.about_to_start.connect(self._prepare)
        live.connection_changed.connect(self._connection_changed)
        live.frame.connect(self._look)
        live.happened.connect(self._effect)
        self._connection_changed()

    # The recording

    @property
    def recording(self) -> bool:
        """Whether a recording is being made."""
        return self._recorder is not None

    @property
    def progress(self) -> Progress | None:
        """How the recording is doing, or how the last one ended; None if there was none."""
        return self._recorder.progress if self._recorder is not None else self._last

    @property
    def limits(self) -> Limits:
        """Those of the recording that is being made; none if none is."""
        return self._recorder.limits if self._recorder is not None else Limits()

    def record(self, path: Path, limits: Limits | None = None) -> None:
        """Begin to record into a new file.

        Raises app.record.writer.CannotRecord, also while nothing is connected.
        """
        from app.record.writer import CannotRecord

        session = self._session
        if session is None:
            raise CannotRecord(self.tr("Nothing is connected, so there is nothing to record. Connect first."))
        self.end_recording()
        self._recorder = Recorder(
            path, session.project, session.engine.samples, limits=limits, program=self._program, clock=self._clock
        )
        now = time.monotonic()
        for name, value in session.state.held.items():
            self._recorder.held(name, now, value)
        self.recording_changed.emit()

    def limit_recording(self, limits: Limits) -> None:
        """Let the recording that is being made, if there is one, go by other limits from now on."""
        if self._recorder is not None:
            self._recorder.limits = limits

    def end_recording(self) -> None:
        """Write what is left and close the file."""
        recorder, self._recorder = self._recorder, None
        if recorder is not None:
            self._last = recorder.stop()
            self.recording_changed.emit()

    # What people do

    def acknowledge(self, alarms: Iterable[int]) -> None:
        """Somebody has seen these alarms (indexes of overrides in the project's turns)."""
        if self.watch is not None:
            self.watch.acknowledge(alarms)
            self._pass_on(self.watch.take())

    def note(self, text: str) -> None:
        """Somebody wrote a remark."""
        if self.watch is not None:
            self.watch.note(text)
            self._pass_on(self.watch.take())

    def succeed(self, former: Observation) -> None:
        """Go on with what another one has gathered. That one gathers no more."""
        if self._samples is not None:
            self._samples.close()
        self._session, former._session = former._session, None
        self._samples, former._samples = former._samples, None
        self._recorder, former._recorder = former._recorder, None
        self.source, self.watch, self.events = former.source, former.watch, former.events
        self._last, self._clock = former._last, former._clock

    # The session

    def _prepare(self, session: Session) -> None:
        """Miss no reading: what an operator does at once can be seen only against what was read before."""
        self._early = session.samples.subscribe()

    def _connection_changed(self) -> None:
        session = self._live.session
        if session is self._session:
            self._look()  # armed or disarmed
            return
        if self._session is not None and self.watch is not None:
            self._take_samples()
            self.watch.reports(self._session.take_reports())
            self._pass_on(self.watch.take())
            self.end_recording()
            if self._samples is not None:
                self._samples.close()
                self._samples = None
        self._session = session
        if session is None:
            return
        self._samples, self._early = self._early or session.samples.subscribe(), None
        self._clock = CivilClock()
        self.source = Observed(session.project, self._clock)
        self.watch = Watch(session.project)
        self.watch.changed_held(session.state)
        self.events = deque(maxlen=KEPT_EVENTS)
        self.begun.emit()

    def _effect(self, effect: object) -> None:
        if self.watch is not None and self._session is not None:
            self.watch.effects([effect])  # type: ignore[list-item]  # Qt passes it on untyped

    def _look(self) -> None:
        session, watch = self._session, self.watch
        if session is None or watch is None or not session.running:
            return
        self._clock.look()
        came = self._take_samples()
        watch.reports(session.take_reports())
        armed = [line.name for line in session.project.lines if session.engine.armed(line.name)]
        watch.look(session.snapshot(), session.state, armed)
        changed = watch.changed_held(session.state)
        if self._recorder is not None:
            now = time.monotonic()
            for name, value in changed:
                self._recorder.held(name, now, value)
        self._pass_on(watch.take())
        if came:
            self.gathered.emit()

    def _take_samples(self) -> bool:
        samples = self._samples.take() if self._samples is not None else []
        if samples and self.source is not None and self.watch is not None:
            self.source.add(samples)
            self.watch.samples(samples)
        return bool(samples)

    def _pass_on(self, events: list[Event]) -> None:
        if not events:
            return
        self.events.extend(events)
        if self._recorder is not None:
            for event in events:
                self._recorder.event(event)
        self.happened.emit(tuple(events))
