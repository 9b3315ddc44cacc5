"""Watching a running session: everything that happens there besides readings, as events with their times."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable
from fractions import Fraction
from math import inf
from operator import attrgetter

from app.client.faults import FaultKind, kind_text
from app.client.repeated_answers import CAREFUL_S
from app.events.alarms import AlarmBook
from app.events.events import Event, EventKind
from app.events.refusals import Refusals
from app.events.spells import Spells
from app.language import translate
from app.line.engine import Snapshot
from app.line.samples import Sample
from app.line.states import FollowerState, Owed
from app.line.write_queue import Obstacle, WriteReport
from app.panel.events import Effect, Entered, Refused, ScreenChanged
from app.panel.state import State
from app.project.binding import plain_text
from app.project.model import BitSignal, Project, RegisterSignal
from app.signals.reading import Value


class EventDetector:
    """Makes events of what a session brings. Whoever drives the session hands everything in and takes the events out.

    Belongs to one thread. What was there when the watch began is no event: only what changes is.
    """

    def __init__(self, project: Project, clock: Callable[[], float] = time.monotonic) -> None:
        self.project = project
        self.alarms = AlarmBook(project)
        self._clock = clock
        self._events: list[Event] = []
        self._words: dict[str, int] = {}
        self._shown: dict[str, Value] = {}
        self._held: dict[str, Fraction] = {}
        self._line_spells, self._device_spells = Spells(), Spells()
        self._refusals = Refusals(project)
        self._outages: dict[str, int] = {}
        self._unasked: dict[str, int] = {}
        self._unasked_told: dict[str, float] = {}
        self._armed: dict[str, bool] = {}
        self._owed: dict[str, float] = {}
        """The stops that were told as not confirmed and are not over, and when each was asked for."""
        self._failed: dict[str, WriteReport] = {}
        self._reported: dict[str, float] = {}
        self._looked_at: float | None = None
        self._bits: dict[str, list[BitSignal]] = {}
        for signal in project.signals:
            if isinstance(signal, BitSignal):
                self._bits.setdefault(signal.bit.of, []).append(signal)

    def take(self) -> list[Event]:
        """The events since the last call, in the order of their times."""
        events, self._events = self._events, []
        return sorted(events, key=attrgetter("at"))

    def changed_held(self, state: State) -> list[tuple[str, Fraction]]:
        """The held values that are others than at the last call; all of them at the first."""
        changed = [(name, value) for name, value in state.held.items() if self._held.get(name) != value]
        self._held.update(changed)
        return changed

    def effects(self, effects: Iterable[Effect], at: float | None = None) -> None:
        """The panel did something, at this time; now if left out."""
        at = self._clock() if at is None else at
        for effect in effects:
            if isinstance(effect, ScreenChanged):
                words = translate("record", "the panel shows '{screen}': {cause}").format(
                    screen=effect.screen, cause=effect.cause
                )
                self._add(at, EventKind.SCREEN_CHANGED, effect.screen, words, cause=effect.cause)
            elif isinstance(effect, Entered):
                old, new = (self._text(effect.signal, value) for value in (effect.old, effect.new))
                words = translate("record", "the operator changed {old} to {new}").format(new=new, old=old)
                self._add(at, EventKind.ENTERED, effect.signal, words, old=old, new=new)
            elif isinstance(effect, Refused):
                self._add(at, EventKind.REFUSED, effect.signal, effect.reason)

    def reports(self, reports: Iterable[WriteReport]) -> None:
        """Writes ended."""
        for report in reports:
            if report.obstacle is not Obstacle.STOP_FIRST:  # that is the write which the stop has overtaken
                self._reported[report.signal] = report.at
            wanted = self._text(report.signal, report.wanted)
            kept = self._text(report.signal, report.kept)
            if report.ok:
                words = translate("record", "{wanted} was written").format(wanted=wanted)
                if kept:
                    words = translate("record", "{wanted} was written, {kept} read back").format(
                        wanted=wanted, kept=kept
                    )
                self._add(report.at, EventKind.WRITTEN, report.signal, words, wanted=wanted, kept=kept)
                self._note_stop(report)
            else:
                words = translate("record", "{wanted} was not written: {reason}").format(
                    wanted=wanted, reason=report.reason
                )
                self._add(report.at, EventKind.NOT_WRITTEN, report.signal, words, wanted=wanted, reason=report.reason)

    def stops(self, owed: Iterable[Owed], failed: Iterable[WriteReport], looked_at: float | None) -> None:
        """How the stops stand that a session must tell of; behind `reports`. See the session's parts of these names."""
        waiting = set()
        for each in owed:
            waiting.add(each.signal)
            # The snapshot may be a little older than the report that the stop is over.
            if each.signal not in self._owed and each.since > self._reported.get(each.signal, -inf):
                self._owed[each.signal] = each.since
                words = translate("record", "STOP NOT CONFIRMED: it may still be on; {reason}").format(
                    reason=each.reason or translate("bus", "it could not be sent")
                )
                self._add(each.since, EventKind.STOP, each.signal, words)
        if looked_at is not None and looked_at != self._looked_at:
            for signal in self._failed:
                self._add(looked_at, EventKind.STOP, signal, translate("record", "the machine has been checked"))
        self._looked_at = looked_at
        now = {report.signal: report for report in failed}
        for signal, report in now.items():
            if self._failed.get(signal) is not report:
                words = translate("record", "STOP FAILED: it may still be on. Stop the machine at the machine.")
                self._add(report.at, EventKind.STOP, signal, words)
        self._failed = now
        for signal, since in list(self._owed.items()):
            if signal not in waiting and signal not in now and self._reported.get(signal, -inf) > since:
                del self._owed[signal]

    def _note_stop(self, report: WriteReport) -> None:
        since = self._owed.pop(report.signal, None)
        if since is not None:
            words = translate("record", "the stop was confirmed late, {seconds:.1f} s after the request")
            self._add(report.at, EventKind.STOP, report.signal, words.format(seconds=report.at - since))

    def samples(self, samples: Iterable[Sample]) -> None:
        """Readings arrived: bits that rose or fell in them, and values with a text of their own that changed."""
        named = self.project.signal_named
        for sample in samples:
            self._refusals.sample(sample)
            reading = sample.reading
            signal = named.get(sample.signal)
            if not reading.good or reading.value is None or not isinstance(signal, RegisterSignal):
                continue
            if isinstance(reading.raw, int):
                self._edges(sample, reading.raw)
            if signal.texts or signal.table in ("coil", "discrete"):
                self._change(sample, reading.value)

    def look(self, snapshot: Snapshot, state: State, armed: Iterable[str], panel_at: float | None = None) -> None:
        """Lines and followers that are lost or back, arming, and the overrides that hold.

        `panel_at` is when the panel came to this state; now if left out.
        """
        at = self._clock()
        for name, line in snapshot.lines.items():
            if line.connected or line.short:  # a line without either is being opened, at first or afresh
                back = translate("record", "the line is connected")
                self._events += self._line_spells.look(name, line.connected, line.since, line.reason, None, back, at)
            else:
                self._line_spells.nothing_yet(name)
            outage = line.outages.last
            if outage is not None and self._outages.get(name) not in (None, line.outages.count):
                words = translate("record", "answers are back after {seconds:.1f} s without any: {reason}")
                if outage.late:
                    words = translate("record", "answers are in time again after {seconds:.1f} s: {reason}")
                text = words.format(seconds=outage.seconds, reason=outage.reason)
                self._add(outage.until, EventKind.LINE_BACK, name, text)
            self._outages[name] = line.outages.count
        for name, follower in snapshot.followers.items():
            answers = follower.answering
            if answers is None:
                self._device_spells.nothing_yet(name)
            else:
                back = translate("record", "it answers again")
                self._events += self._device_spells.look(
                    name, answers, follower.since, follower.reason, follower.fault, back, at
                )
            self._twice(name, follower, at)
        self._events += self._refusals.look(at)
        now_armed = frozenset(armed)
        for name in self.project.line_named:
            state_of = snapshot.lines.get(name)
            # Why a line disarmed itself is in the snapshot, which comes a little later than that it did.
            now = name in now_armed or (state_of is not None and state_of.armed)
            if self._turned_over(self._armed, name, now):
                if now:
                    self._add(at, EventKind.ARMED, name, translate("record", "writing to the line is enabled"))
                else:
                    why = state_of.disarmed if state_of is not None else ""
                    words = translate("record", "writing to the line is disabled")
                    self._add(at, EventKind.DISARMED, name, why or words)
        self.overrides(state, at if panel_at is None else panel_at)

    def overrides(self, state: State, at: float) -> None:
        """The overrides that hold since the panel came to this state, at this time."""
        self._events += self.alarms.look(state.holding, at)

    def _twice(self, name: str, follower: FollowerState, at: float) -> None:
        """Answers come twice: an event at the first one after a time without."""
        count = follower.faults.get(FaultKind.UNASKED, 0)
        if self._unasked.get(name, count) != count:
            if at - self._unasked_told.get(name, -inf) > CAREFUL_S:
                self._add(at, EventKind.LINE_FAULT, name, follower.reason or kind_text(FaultKind.UNASKED))
            self._unasked_told[name] = at
        self._unasked[name] = count

    def end(self) -> None:
        """Nobody looks any more: what waits to be told is told now."""
        self._events += [*self._line_spells.end(), *self._device_spells.end(), *self._refusals.end()]

    def acknowledge(self, indexes: Iterable[int]) -> None:
        """Somebody has seen these alarms."""
        self._events += self.alarms.acknowledge(indexes, self._clock())

    def note(self, text: str) -> None:
        """Somebody wrote a remark."""
        self._add(self._clock(), EventKind.NOTE, "", text)

    def _edges(self, sample: Sample, raw: int) -> None:
        before = self._words.get(sample.signal)
        self._words[sample.signal] = raw
        if before is None or before == raw:
            return
        for bit in self._bits.get(sample.signal, ()):
            was, now = before >> bit.bit.number & 1, raw >> bit.bit.number & 1
            if was != now:
                words = plain_text(self.project, bit.name, Fraction(now))
                self._add(sample.at, EventKind.RISE if now else EventKind.FALL, bit.name, words)

    def _change(self, sample: Sample, value: Value) -> None:
        before = self._shown.get(sample.signal)
        self._shown[sample.signal] = value
        if before is None or before == value:
            return
        old, new = self._text(sample.signal, before), self._text(sample.signal, value)
        words = translate("record", "{old} -> {new}").format(new=new, old=old)
        self._add(sample.at, EventKind.CHANGED, sample.signal, words, old=old, new=new)

    @staticmethod
    def _turned_over(known: dict[str, bool], name: str, now: bool) -> bool:
        before = known.get(name)
        known[name] = now
        return before is not None and before != now

    def _text(self, signal: str, value: Value | None) -> str:
        if value is None:
            return ""
        text = plain_text(self.project, signal, value)
        known = self.project.signal_named.get(signal)
        return f"{text} {known.unit}".rstrip() if known is not None else text

    def _add(self, at: float, kind: EventKind, subject: str, text: str, **data: str) -> None:
        self._events.append(Event(at, kind, subject, text, data))
