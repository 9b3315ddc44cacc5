"""Where a trial runs: a panel, what lies behind it, and time that passes for both.

`RehearsedStand` has the models of simulated devices behind the panel and a clock of its own, so that minutes pass in
moments; `SessionStand` runs a session on real lines, simulated devices at the other end or real ones, in real time.
"""

from __future__ import annotations

import threading
import time
from abc import ABC, abstractmethod
from collections.abc import Callable, Iterable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from app.events.alarms import Alarm
from app.events.event_detector import EventDetector
from app.events.events import Event
from app.follower.operate import operate
from app.follower.register_bank import RegisterBank
from app.line.samples import Sample, SampleBus, Subscription
from app.line.write_queue import WriteReport
from app.panel.driver import PanelDriver
from app.panel.events import Effect
from app.panel.state import State
from app.project.model import BitSignal, Project, RegisterSignal
from app.session.rehearsal import Rehearsal
from app.session.session import Session, Via
from app.signals.reading import Quality, Reading

TICK_S: Final = 0.02
"""How often time passes for the panel, in seconds."""


@dataclass(frozen=True, slots=True)
class PanelStep:
    """The panel was told something: a key that went down, or that time passed (None); what it did and became."""

    before: State
    key: str | None
    effects: tuple[Effect, ...]
    after: State


Observer = Callable[[PanelStep], None]


class Stand(ABC):
    """A panel under trial. All methods belong to one thread; those that let time pass wait."""

    simulated: bool
    """Whether simulated devices lie behind the panel; else whatever is on the line, which may move."""
    real_time = True
    """Whether a second of it is a second."""

    def __init__(self, project: Project, observers: Iterable[Observer] = ()) -> None:
        self.project = project
        self.observers = list(observers)
        self.samples = SampleBus()
        """Every reading as it comes, over all cases."""
        self.heard: list[Callable[[list[Event]], None]] = []
        """Told what happened, as it is taken."""
        self.ticked: list[Callable[[], None]] = []
        """Called whenever time has passed; what they raise ends the wait."""
        self.reported: list[Callable[[Sequence[WriteReport]], None]] = []
        """Told what became of writes, as it is known."""
        self._detector = EventDetector(project, self.now)

    @property
    @abstractmethod
    def panel(self) -> PanelDriver:
        """The panel of the case that runs. `begin` makes it anew."""

    @abstractmethod
    def now(self) -> float:
        """Monotonic seconds as the panel sees them."""

    @abstractmethod
    def begin(self) -> None:
        """A case begins: the panel wakes up on its first screen, simulated devices begin anew.

        Returns when everything was read once, or could not be. Raises FanlightError if nothing can be run.
        """

    @abstractmethod
    def order(self, deed: str) -> None:
        """Operate a simulated device. Raises FollowerError."""

    @abstractmethod
    def arm(self, on: bool) -> None:
        """Let real lines be written to, if the stand may do that at all, or no longer."""

    @abstractmethod
    def put(self, signal: str, value: Fraction) -> str:
        """Write a value past the panel, to restore it; gives why that could not be, or an empty text."""

    @abstractmethod
    def end(self) -> tuple[str, ...]:
        """Let go of all keys and stop. Gives the signals whose stop is not proved."""

    @abstractmethod
    def _pass_tick(self) -> None:
        """Let TICK_S pass by the clock."""

    @abstractmethod
    def _look(self) -> None:
        """Hand to the detector what happened besides effects of the panel."""

    def tick(self) -> None:
        """Let TICK_S pass for the panel and all that lies behind it."""
        self._pass_tick()
        self._tell(None, self.panel.tick)
        self._look()
        for each in self.ticked:
            each()

    def key_down(self, key: str) -> None:
        """The operator presses a key."""
        self._tell(key, lambda: self.panel.key_down(key))

    def key_up(self, key: str) -> None:
        """The operator lets a key go."""
        self._tell(None, lambda: self.panel.key_up(key))

    def release_all(self) -> None:
        """No key is held any longer."""
        self._tell(None, self.panel.release_all)

    def readings(self) -> Mapping[str, Reading]:
        """All signals as they are now, bits and held values too."""
        return self.panel.readings()

    def rows(self) -> tuple[str, ...]:
        """The rows of the panel as texts, as wide as it is."""
        return tuple(row.text for row in self.panel.rows())

    def take_events(self) -> list[Event]:
        """What happened since the last call, in the order of its times."""
        events = self._detector.take()
        for each in self.heard:
            each(events)
        return events

    @property
    def alarms(self) -> Mapping[int, Alarm]:
        """The alarms, by the index of their override."""
        return self._detector.alarms.alarms

    def _report(self, reports: Sequence[WriteReport]) -> None:
        self._detector.reports(reports)
        for each in self.reported:
            each(reports)

    def _tell(self, key: str | None, deed: Callable[[], tuple[Effect, ...]]) -> None:
        before = self.panel.state
        effects = deed()
        self._detector.effects(effects, self.panel.at)
        told = PanelStep(before, key, effects, self.panel.state)
        for observer in self.observers:
            observer(told)


class RehearsedStand(Stand):
    """Models of the devices from hand to hand, in a time of their own: nothing waits, every run is the same."""

    simulated = True
    real_time = False

    def __init__(
        self,
        project: Project,
        observers: Iterable[Observer] = (),
        *,
        language: int = 0,
        machine: Project | None = None,
    ) -> None:
        """The devices are those of another project, `machine`, if there is one. Raises FollowerError."""
        self._at = 0.0
        self._next: dict[str, float] = {}
        self._language = language
        self._machine = machine
        super().__init__(project, observers)
        words = {signal.bit.of for signal in project.signals if isinstance(signal, BitSignal)}
        self._read = [signal for signal in project.signals if isinstance(signal, RegisterSignal)]
        self._told = [
            signal
            for signal in self._read
            if signal.texts or signal.table in ("coil", "discrete") or signal.name in words
        ]
        """Those of which events may come."""
        self._rehearsal = self._rehearsed()

    def _rehearsed(self) -> Rehearsal:
        return Rehearsal(self.project, clock=self.now, language=self._language, machine=self._machine)

    @property
    def panel(self) -> PanelDriver:
        """The panel of the case that runs."""
        return self._rehearsal.panel

    def now(self) -> float:
        """Monotonic seconds as the panel sees them."""
        return self._at

    def begin(self) -> None:
        """Begin a case."""
        self._detector = EventDetector(self.project, self.now)
        self._rehearsal = self._rehearsed()
        self._next.clear()
        self.tick()

    @property
    def models(self) -> Mapping[str, RegisterBank]:
        """The models of the devices in the case that runs."""
        return self._rehearsal.models

    def order(self, deed: str) -> None:
        """Operate a simulated device. Raises FollowerError."""
        operate(self.models, deed)

    def arm(self, on: bool) -> None:
        """There is no line."""

    def put(self, signal: str, value: Fraction) -> str:  # noqa: ARG002  # the next case begins anew
        """Write a value past the panel; why not, if not."""
        return ""

    def end(self) -> tuple[str, ...]:
        """Let go and stop."""
        self.release_all()
        return ()

    def _pass_tick(self) -> None:
        self._at += TICK_S

    def _look(self) -> None:
        self._report(self._rehearsal.take_reports())
        samples = self._due()
        self._detector.samples(samples)
        if self.samples.wanted:
            for sample in samples:
                self.samples.put(sample.signal, sample.at, sample.words, sample.reading)
        self._detector.overrides(self.panel.state, self.panel.at)

    def _due(self) -> list[Sample]:
        """What a line would have read by now, each signal as often as it wants to be; as far as anybody looks at it."""
        readings = self._rehearsal.registers()
        found = []
        for signal in self._read if self.samples.wanted else self._told:
            if self._at >= self._next.get(signal.name, 0.0) and signal.name in readings:
                self._next[signal.name] = self._at + signal.every_ms / 1000
                found.append(Sample(signal.name, self._at, (), readings[signal.name]))
        return found


class SessionStand(Stand):
    """A session on real lines, in real time."""

    def __init__(
        self, project: Project, via: Via = None, *, armed: bool = False, observers: Iterable[Observer] = ()
    ) -> None:
        """`via` as for a session; with `armed` real lines may be armed, case by case.

        Raises FanlightError if it does not fit.
        """
        super().__init__(project, observers)
        self.simulated = via == "simulated"
        self._via: Via = via
        self._armed = armed
        self._arming = threading.Lock()
        self._came: Subscription = self.samples.subscribe()
        self._make()

    def _make(self) -> None:
        self._session = Session(self.project, self._via)
        self._session.samples = self.samples
        self._detector = EventDetector(self.project, self.now)

    @property
    def session(self) -> Session:
        """The session that runs, for whoever records it. Another one with each case of simulated devices."""
        return self._session

    @property
    def panel(self) -> PanelDriver:
        """The panel of the case that runs."""
        return self._session.panel

    def now(self) -> float:
        """Monotonic seconds as the panel sees them."""
        return time.monotonic()

    def begin(self) -> None:
        """Begin a case."""
        if self._session.running and self.simulated:
            self._session.stop()
            self._make()
        if not self._session.running:
            self._session.start()
        else:
            self._session.panel.begin()
        limit = self.now() + self._patience()
        while self.now() < limit and not self._all_read():
            self.tick()

    def arm(self, on: bool) -> None:
        """Let real lines be written to, or no longer."""
        if self.simulated or not self._session.running:
            return
        if not on:
            self._session.disarm()
            return
        with self._arming:
            if self._armed:
                for line in self.project.lines:
                    self._session.engine.arm(line.name)

    def disarm_for_good(self) -> None:
        """Let nothing more be written to real lines but stops, in whatever is still to come. From any thread."""
        with self._arming:
            self._armed = False
            if not self.simulated:
                with suppress(RuntimeError):  # it has ended meanwhile: then nothing is armed
                    for line in self.project.lines:
                        self._session.engine.arm(line.name, False)

    def order(self, deed: str) -> None:
        """Operate a simulated device. Raises FollowerError."""
        operate({} if self._session.simulation is None else self._session.simulation.models, deed)

    def put(self, signal: str, value: Fraction) -> str:
        """Write a value past the panel; why not, if not."""
        future = self._session.write(signal, value)
        while not future.done():
            self.tick()
        report = future.result()
        return "" if report.ok else report.reason

    def end(self) -> tuple[str, ...]:
        """Let go and stop."""
        return self._session.stop()

    def _pass_tick(self) -> None:
        time.sleep(TICK_S)

    def _look(self) -> None:
        session, detector = self._session, self._detector
        self._report(session.take_reports())
        detector.samples(self._came.take())
        armed = [line.name for line in self.project.lines if session.engine.is_armed(line.name)]
        detector.look(session.snapshot(), session.panel.state, armed, session.panel.at)
        detector.stops(session.owed, session.failed, session.looked_at)

    def _all_read(self) -> bool:
        """Whether every reading is one, or a refusal: none is still to come, or of a device that is silent."""
        readings = self._session.snapshot().readings.values()
        return bool(readings) and all(each.quality not in (Quality.NONE, Quality.STALE) for each in readings)

    def _patience(self) -> float:
        """Seconds in which a line that was lost is opened again, and everything read once."""
        return 4.0 + sum(line.timeout_ms for line in self.project.lines) / 1000 * (2 + len(self.project.followers))
