"""What is observed of a running session: every reading, every event, and the recording of them if one is made."""

from __future__ import annotations

import time
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QObject, Signal

from widgets.live.live_session import LiveSession

if TYPE_CHECKING:  # what watches and what keeps is imported with the line's libraries, only when something is connected
    from app.curves.source import LiveSource
    from app.events.event_detector import EventDetector
    from app.events.events import Event
    from app.line.samples import Subscription
    from app.recording.history import SampleHistory
    from app.recording.limits import Limits
    from app.recording.recorder import Recorder, RecordingProgress
    from app.session.session import Session


CLOCK_EVERY_S: Final = 0.5
"""How often it is looked whether the civil clock was set."""


class Observation(QObject):
    """Watches every session of a window from its first reading on, whatever is shown of it.

    All of it happens in the window's thread, once a frame; writing a recording has a thread of its own.
    """

    begun = Signal()
    """Another session is observed from now on: `history`, `source` and `watch` are others."""
    gathered = Signal()
    """Readings arrived."""
    happened = Signal(object)
    """A tuple of app.events.events.Event happened."""
    recording_changed = Signal()
    """A recording began or ended."""

    def __init__(self, live: LiveSession, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._live = live
        self._session: Session | None = None
        self._clock_at = 0.0
        self._samples: Subscription | None = None
        self._coming: tuple[Subscription, SampleHistory] | None = None
        """Of a session that is about to start."""
        self.history: SampleHistory | None = None
        """The last minutes of the session; None before the first connection. They stay when it is disconnected."""
        self.watch: EventDetector | None = None
        self._source: LiveSource | None = None
        self._curves: tuple[str, ...] = ()
        self._recorder: Recorder | None = None
        self._last: RecordingProgress | None = None
        live.about_to_start.connect(self._prepare)
        live.connection_changed.connect(self._connection_changed)
        live.frame.connect(self._look)
        live.happened.connect(self._effect)
        self._connection_changed()

    @property
    def source(self) -> LiveSource | None:
        """The curves of the history, if there is one. Made when they are first wanted."""
        if self._source is None and self.history is not None:
            from app.curves.source import LiveSource

            self._source = LiveSource(self.history)
        return self._source

    @property
    def events(self) -> Sequence[Event]:
        """What has happened, in the order in which it was told."""
        return () if self.history is None else self.history.events

    # The recording

    @property
    def curves(self) -> tuple[str, ...]:
        """The signals whose curves are looked at: what is recorded keeps them, to show them first when it is played."""
        return self._curves

    @curves.setter
    def curves(self, signals: tuple[str, ...]) -> None:
        self._curves = signals
        if self._recorder is not None:
            self._recorder.curves = signals

    @property
    def recording(self) -> bool:
        """Whether a recording is being made."""
        return self._recorder is not None

    @property
    def progress(self) -> RecordingProgress | None:
        """How the recording is doing, or how the last one ended; None if there was none."""
        return self._recorder.progress if self._recorder is not None else self._last

    @property
    def limits(self) -> Limits:
        """Those of the recording that is being made; none if none is."""
        from app.recording.limits import Limits

        return self._recorder.limits if self._recorder is not None else Limits()

    def record(self, path: Path, limits: Limits | None = None) -> None:
        """Begin to record into a new file.

        Raises app.recording.writer.CannotRecord, also while nothing is connected.
        """
        from app.recording.recorder import Recorder
        from app.recording.writer import CannotRecord

        session, history = self._session, self.history
        if session is None or history is None:
            raise CannotRecord(self.tr("Nothing is connected, so there is nothing to record. Connect first."))
        self.end_recording()
        self._recorder = Recorder(
            path,
            session.project,
            session.engine.samples,
            limits=limits,
            clock=history.clock,
            state=session.panel.state,
        )
        self._recorder.curves = self._curves
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
        """Somebody has seen these alarms (indexes of overrides in the project's screen changes)."""
        if self.watch is not None:
            self.watch.acknowledge(alarms)
            self._pass_on(self.watch.take())

    def note(self, text: str) -> None:
        """Somebody wrote a remark."""
        if self.watch is not None:
            self.watch.note(text)
            self._pass_on(self.watch.take())

    def take_over(self, former: Observation) -> None:
        """Go on with what another one has gathered. That one gathers no more."""
        if self._samples is not None:
            self._samples.close()
        self._session, former._session = former._session, None
        self._samples, former._samples = former._samples, None
        self._recorder, former._recorder = former._recorder, None
        self.history, self.watch, self._source = former.history, former.watch, former._source
        self._last, self._curves = former._last, former._curves

    # The session

    def _prepare(self, session: Session) -> None:
        """Miss no reading: what an operator does at once can be seen only against what was read before."""
        from app.recording.history import SampleHistory

        self._coming = session.samples.subscribe(), SampleHistory(session.project)

    def _connection_changed(self) -> None:
        session = self._live.session
        if session is self._session:
            self._look()  # armed or disarmed
            return
        if self._session is not None and self.watch is not None:
            self._take_samples()
            self.watch.reports(self._session.take_reports())
            self.watch.stops((), self._session.failed, self._session.looked_at)
            self.watch.end()
            self._pass_on(self.watch.take())
            self.end_recording()
            if self._samples is not None:
                self._samples.close()
                self._samples = None
        self._session = session
        if session is not None:
            self._begin(session)

    def _begin(self, session: Session) -> None:
        from app.events.event_detector import EventDetector
        from app.recording.history import SampleHistory

        self._samples, self.history = self._coming or (session.samples.subscribe(), SampleHistory(session.project))
        self._coming, self._source = None, None
        self.history.screen = session.panel.state.screen
        self.watch = EventDetector(session.project)
        self._keep_held(session)
        self.begun.emit()

    def _effect(self, effect: object) -> None:
        if self.watch is not None and self._session is not None:
            self.watch.effects([effect], self._session.panel.at)  # type: ignore[list-item]  # Qt passes it on untyped

    def _look(self) -> None:
        session, watch, history = self._session, self.watch, self.history
        if session is None or watch is None or history is None or not session.running:
            return
        now = time.monotonic()
        if now - self._clock_at >= CLOCK_EVERY_S:
            self._clock_at = now
            history.clock.look()
        came = self._take_samples()
        watch.reports(session.take_reports())
        armed = [line.name for line in session.project.lines if session.engine.is_armed(line.name)]
        watch.look(session.snapshot(), session.panel.state, armed, session.panel.at)
        watch.stops(session.owed, session.failed, session.looked_at)
        self._keep_held(session)
        self._pass_on(watch.take())
        if came:
            self.gathered.emit()

    def _keep_held(self, session: Session) -> None:
        if self.watch is None or self.history is None:
            return
        now = time.monotonic()
        for name, value in self.watch.changed_held(session.panel.state):
            self.history.hold(name, now, value)
            if self._recorder is not None:
                self._recorder.keep_held(name, now, value)

    def _take_samples(self) -> bool:
        samples = self._samples.take() if self._samples is not None else []
        if samples and self.history is not None and self.watch is not None:
            self.history.add(samples)
            self.watch.samples(samples)
        return bool(samples)

    def _pass_on(self, events: list[Event]) -> None:
        if not events:
            return
        if self.history is not None:
            self.history.add_events(events)
        if self._recorder is not None:
            for event in events:
                self._recorder.event(event)
        self.happened.emit(tuple(events))
