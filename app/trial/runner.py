"""Running a trial: one step after the other, each with what was seen, and everything put back in the end.

It waits in the thread of whoever calls `run`; another thread may only `stop` it. A question to a person never stops
the panel: time passes on the stand until there is an answer.
"""

from __future__ import annotations

import threading
import time
from collections.abc import Collection, Container, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime
from fractions import Fraction
from typing import Final, Protocol

from app.errors import FanlightError
from app.events.events import Event
from app.language import translate
from app.line.write_queue import Obstacle, WriteReport
from app.panel.events import Entered, Write
from app.project.binding import plain_text
from app.project.model import BitSignal, HeldSignal, Project, RegisterSignal
from app.project.purpose import stops
from app.signals.text import spoken_digits
from app.trial.entering import Enterer
from app.trial.outcome import CaseOutcome, PersonAsked, Reply, Result, StepOutcome, StepPlace, TrialOutcome
from app.trial.script import (
    AskStep,
    Case,
    EnterStep,
    Expectation,
    ExpectStep,
    KeysStep,
    KeyStep,
    MeasureStep,
    NoteStep,
    OrderStep,
    Trial,
    TrialStep,
    WaitStep,
)
from app.trial.seeing import concerned, fraction, fresh, look, patience, picture
from app.trial.stand import TICK_S, PanelStep, Stand
from app.trial.words import expectation_words, range_words, step_words

WRITTEN_S: Final = 3.0
"""How long a key waits until what it writes has been taken, before the next step."""
ANSWER_S: Final = 600.0
"""How long a question waits for a person, in seconds."""


class Person(Protocol):
    """Whoever answers. Both methods return at once."""

    def ask(self, question: PersonAsked) -> None:
        """Show a question; the one before is answered or no longer asked."""
        ...

    def answer(self) -> Reply | None:
        """The answer to the question shown, or None as long as there is none."""
        ...


class Nobody:
    """Nobody is there: what a person would have to see is not tested, and nothing that can move is begun."""

    def ask(self, question: PersonAsked) -> None:
        """Nobody hears it."""

    def answer(self) -> Reply | None:
        """Not tested."""
        return Reply(None, translate("trial", "nobody was asked"))


class Watcher:
    """Whoever wants to know how a run goes on. Called in the thread of the run; does nothing by itself."""

    def case_begins(self, index: int, case: Case, before: Mapping[str, Fraction]) -> None:
        """The case number `index` begins; `before` is what would have to be restored, by signal."""

    def step_begins(self, index: int, part: StepPlace, number: int, words: str) -> None:
        """A step of that case begins."""

    def step_ends(self, index: int, outcome: StepOutcome) -> None:
        """It ended so."""

    def case_ends(self, index: int, outcome: CaseOutcome) -> None:
        """The case ended so."""

    def asked(self, question: PersonAsked | None) -> None:
        """A person is asked now, or no longer."""


class TrialStopped(FanlightError):
    """Somebody stops the run."""


@dataclass(frozen=True, slots=True)
class _Left:
    """Why what is left of a case is not carried out, and what its steps count as."""

    why: str = ""
    result: Result = Result.BLOCKED


@dataclass(frozen=True, slots=True)
class _Found:
    """What a step came to, before it is written down."""

    result: Result
    reason: str = ""
    expected: str = ""
    found: str = ""
    names: tuple[str, ...] = ()
    attempts: int = 1
    answer: Reply | None = None
    ends_case: bool = False
    """What follows in the case cannot be carried out."""


@dataclass(frozen=True, slots=True)
class KilledRun:
    """What a run has left that was killed: the case in which it ended, and what the device held before it."""

    case: str
    before: Mapping[str, Fraction]


class Runner:
    """One run of a trial on a stand."""

    def __init__(
        self,
        trial: Trial,
        stand: Stand,
        person: Person | None = None,
        watcher: Watcher | None = None,
        *,
        only: Collection[str] = (),
        answer_s: float = ANSWER_S,
        today: date | None = None,
        unfinished: KilledRun | None = None,
    ) -> None:
        """`only` names the cases to run; all that the stand is for if empty. `today` judges instruments' due dates.

        What an `unfinished` run has left at a real device is cleaned up first, as a case of its own.
        """
        self.trial = trial
        self.cases = tuple(
            case for case in trial.expanded if case.is_on(simulated=stand.simulated) and (not only or case.name in only)
        )
        self._unfinished = None if stand.simulated else unfinished
        if self._unfinished is not None:
            self.cases = (_cleaning_up(trial, self._unfinished.case), *self.cases)
        self._stand = stand
        self._person: Person = person or Nobody()
        self._watcher = watcher or Watcher()
        self._answer_s = answer_s
        self._today = today or datetime.now(UTC).date()
        self._stop = threading.Event()
        self._cleaning = False
        self._began = stand.now()
        self._since = stand.now()
        """When the trial last did something."""
        self._events: list[Event] = []
        self._entered: dict[str, None] = {}
        self._written: dict[str, None] = {}
        self._by_key: set[str] = set()
        """What keys have written since the trial last did something."""
        self._failed: list[WriteReport] = []
        """What of it was written in vain."""
        self._put_back: dict[str, Fraction] = {}
        """What the case before has put back, by signal."""
        self._left = _Left()
        self._case_name = ""
        stand.ticked.append(self._look_for_stop)
        stand.observers.append(self._note_writes)
        stand.reported.append(self._note_failed)

    def stop(self) -> None:
        """End the run as soon as may be, from any thread: keys are let go, and what is to be cleaned up is."""
        self._stop.set()

    def run(self) -> TrialOutcome:
        """Run all cases. Raises FanlightError if nothing can be run at all; then nothing was done."""
        began, monotonic = datetime.now(UTC), self._stand.now()
        outcomes: list[CaseOutcome] = []
        try:
            for index, case in enumerate(self.cases):
                self._case_name = case.name
                outcome = self._case(index, case)
                outcomes.append(outcome)
                self._watcher.case_ends(index, outcome)
                if self._stop.is_set():
                    break
        finally:
            unproved = self._stand.end()
        if unproved and outcomes:
            words = translate("trial", "the stop of {signals} is not proved: look at the machine").format(
                signals=", ".join(unproved)
            )
            outcomes[-1] = replace(outcomes[-1], not_restored=(*outcomes[-1].not_restored, words))
        ended, took = datetime.now(UTC), self._stand.now() - monotonic
        jump = (ended - began).total_seconds() - took if self._stand.real_time else 0.0
        finished = len(outcomes) == len(self.cases) and not any(outcome.stopped for outcome in outcomes)
        return TrialOutcome(
            tuple(outcomes),
            self._stand.simulated,
            finished,
            began,
            ended,
            took,
            jump,
            real_time=self._stand.real_time,
        )

    # A case

    def _case(self, index: int, case: Case) -> CaseOutcome:
        stand, at = self._stand, self._stand.now()
        steps: list[StepOutcome] = []
        before: Mapping[str, Fraction] = {}
        self._entered, self._written = {}, {}
        self._left = _Left()
        stopped = begun = False
        agreed: Reply | None = None
        restored: list[str] = []
        not_restored: list[str] = []
        try:
            stand.begin()
            before = self._values()
            self._acted()
            if index == 0 and self._unfinished is not None:
                before = self._unfinished.before
                self._written = dict.fromkeys(before)
            self._watcher.case_begins(index, case, before)
            agreed = self._ask_whether_it_may_move(case)
            begun = not self._left.why
            stand.arm(begun)
            orders = [OrderStep(order=order) for order in case.setup]
            for part, listed in (("setup", orders), ("step", case.steps)):
                for step in self._steps(index, part, listed):  # type: ignore[arg-type]
                    steps.append(step)
        except TrialStopped:
            stopped = True
        if begun:
            self._left = _Left()
            self._cleaning = True
            try:
                stand.release_all()
                for step in self._steps(index, "clean-up", case.clean_up):
                    steps.append(step)
                self._restore(before, restored, not_restored)
            except TrialStopped:
                stopped = True
                not_restored.append(translate("trial", "the clean-up was stopped: look at the machine"))
            finally:
                self._cleaning = False
                stand.arm(False)
        elif index == 0 and self._unfinished is not None:
            words = translate("trial", "what an earlier run has changed was not put back: look at the machine")
            not_restored.append(words)
        took = stand.now() - at
        return CaseOutcome(
            case.name, tuple(steps), at - self._began, took, tuple(restored), tuple(not_restored), stopped, agreed
        )

    def _ask_whether_it_may_move(self, case: Case) -> Reply | None:
        """At a real machine somebody has to agree before a case begins that can move it."""
        if self._stand.simulated or not case.moves:
            return None
        words = translate("trial", "This case can move the machine. Is everybody clear of it?")
        answer = self._ask(PersonAsked("may move", case.name, words))
        if not answer.yes:
            why = answer.remark or (
                translate("trial", "the answer was no") if answer.yes is False else translate("trial", "not answered")
            )
            self._left = _Left(
                translate("trial", "nobody agreed that the machine may move: {why}").format(why=why), Result.NOT_TESTED
            )
        return answer

    def _steps(self, index: int, part: StepPlace, steps: Sequence[TrialStep]) -> Iterator[StepOutcome]:
        """Carry out steps, or say of each why it is left out."""
        stand = self._stand
        for number, step in enumerate(steps, 1):
            self._look_for_stop()
            words = step_words(stand.project, step, simulated=stand.simulated)
            self._watcher.step_begins(index, part, number, words)
            at, clock = stand.now(), datetime.now(UTC)
            if self._left.why:
                found = _Found(self._left.result, self._left.why, attempts=0)
            else:
                try:
                    found = self._do(step)
                except TrialStopped:
                    raise
                except FanlightError as why:
                    found = _Found(Result.BLOCKED, str(why))
            outcome = StepOutcome(
                number,
                part,
                words,
                found.result,
                found.reason,
                found.expected,
                found.found,
                picture(stand, found.names),
                at - self._began,
                clock,
                stand.now() - at,
                found.attempts,
                step.remark,
                found.answer,
            )
            self._watcher.step_ends(index, outcome)
            if found.ends_case and not self._left.why:
                self._left = _Left(translate("trial", "step {number} did not come true").format(number=number))
            yield outcome

    # A step

    def _do(self, step: TrialStep) -> _Found:
        if isinstance(step, KeyStep):
            return self._press([step.key] * step.times, float(step.hold_s))
        if isinstance(step, KeysStep):
            return self._press(step.keys, 0.0)
        if isinstance(step, EnterStep):
            return self._enter(step)
        if isinstance(step, OrderStep):
            return self._order(step)
        if isinstance(step, WaitStep):
            return self._wait(step)
        if isinstance(step, ExpectStep):
            within = None if step.within_s is None else float(step.within_s)
            return self._expect(step.expect, within, float(step.hold_s))
        if isinstance(step, AskStep):
            return self._question(step)
        if isinstance(step, MeasureStep):
            return self._measure(step)
        assert isinstance(step, NoteStep)
        return _Found(Result.PASS)

    def _press(self, keys: Sequence[str], hold_s: float) -> _Found:
        stand = self._stand
        failed: list[WriteReport] = []
        for key in keys:
            self._look_for_stop()
            if key not in stand.project.panel.keys:
                words = translate("trial", "the panel has no key '{key}'").format(key=key)
                return _Found(Result.FAIL, words, ends_case=True)
            self._acted()
            stand.key_down(key)
            try:
                self._pass(max(hold_s, TICK_S))
            finally:
                stand.key_up(key)
            self._since = stand.now()  # what happened while the key was down counts, too
            failed += self._see_written()
        unarmed = _unarmed(failed)
        if unarmed:
            return _Found(Result.BLOCKED, unarmed, ends_case=True)
        words = translate("trial", "'{signal}' was not written: {reason}")
        told = [words.format(signal=report.signal, reason=report.reason) for report in failed]
        waits = translate("trial", "'{signal}' is not confirmed to be written")
        told += [waits.format(signal=signal) for signal in sorted(self._by_key & stand.panel.state.sent.keys())]
        found = "; ".join(dict.fromkeys(told))
        if found and self._cleaning:
            # Elsewhere a later step says whether it did what it should; after a clean-up nobody looks any more.
            return _Found(Result.BLOCKED, found, found=found)
        return _Found(Result.PASS, found=found)

    def _enter(self, step: EnterStep) -> _Found:
        self._acted()
        enterer = Enterer(self._stand)
        why = enterer.enter(step.enter, fraction(step.value), refused=step.refused)
        unarmed = _unarmed(self._see_written())
        if not why and not step.refused:
            said = self._stand.panel.state.said
            if said is not None and said.signal == step.enter:
                why = said.reason or said.text
        found = translate("trial", "keys: {keys}").format(keys=enterer.told)
        if unarmed:
            return _Found(Result.BLOCKED, unarmed, found=found, names=(step.enter,), ends_case=True)
        return _Found(Result.FAIL if why else Result.PASS, why, found=found, names=(step.enter,), ends_case=bool(why))

    def _order(self, step: OrderStep) -> _Found:
        if self._stand.simulated:
            self._acted()
            self._stand.order(step.order)
            self._tick()  # nothing that is done after it is done before it has come about
            return _Found(Result.PASS)
        if step.by_hand is None:
            words = translate("trial", "only a simulated device can be operated this way, and no one was told how")
            return _Found(Result.NOT_TESTED, words, ends_case=True)
        answer = self._ask(PersonAsked("by hand", "", step.by_hand))
        self._acted()
        if answer.yes:
            return _Found(Result.PASS, answer=answer)
        return _Found(Result.NOT_TESTED, _said(answer), answer=answer, ends_case=True)

    def _wait(self, step: WaitStep) -> _Found:
        if not isinstance(step.wait, Expectation):
            self._pass(float(step.wait))
            return _Found(Result.PASS)
        found = self._expect(step.wait, None if step.within_s is None else float(step.within_s), 0.0)
        return replace(found, ends_case=found.result is not Result.PASS)

    def _expect(self, seen: Expectation, within_s: float | None, hold_s: float) -> _Found:
        """Glance until it is so and has stayed so, or the time is over."""
        stand = self._stand
        limit = patience(stand, seen) if within_s is None else within_s
        began, attempts = stand.now(), 0
        since: float | None = None
        while True:
            self._events += stand.take_events()
            found = look(stand, seen, self._since, self._events)
            attempts += 1
            now = stand.now()
            if found.holds:
                since = now if since is None else since
                if now - since >= hold_s:
                    break
            elif since is not None and hold_s and now - began > limit:
                since = None
                break
            else:
                since = None
            # What began in time may take as long as it must stay.
            if now - began > limit + (hold_s if since is not None else 0.0):
                break
            self._tick()
        expected = expectation_words(stand.project, seen)
        names = concerned(stand, seen)
        if found.holds and since is not None:
            return _Found(Result.PASS, "", expected, found.found, names, attempts)
        if found.blocked:
            return _Found(Result.BLOCKED, found.blocked, expected, found.found, names, attempts)
        why = translate("trial", "not within {seconds:.3g} s: {found}").format(seconds=limit, found=found.found)
        return _Found(Result.FAIL, why, expected, found.found, names, attempts)

    # A person

    def _question(self, step: AskStep) -> _Found:
        answer = self._ask(PersonAsked("ask", "", step.ask))
        expected = translate("trial", "yes")
        if answer.yes is None:
            return _Found(Result.NOT_TESTED, _said(answer), expected, answer=answer)
        said = expected if answer.yes else translate("trial", "no")
        why = "" if answer.yes else answer.remark or translate("trial", "the answer was no")
        return _Found(Result.PASS if answer.yes else Result.FAIL, why, expected, said, answer=answer)

    def _measure(self, step: MeasureStep) -> _Found:
        answer = self._ask(PersonAsked("measure", "", step.measure, step.unit, step.instrument))
        expected = range_words(step.at_least, step.at_most, step.unit)
        if answer.value is None:
            return _Found(Result.NOT_TESTED, _said(answer), expected, answer=answer)
        decimals = next((count for count in range(9) if (answer.value * 10**count).denominator == 1), 9)
        found = f"{spoken_digits(answer.value, decimals)} {step.unit}".rstrip()
        instrument = answer.instrument
        why = ""
        if step.instrument and (instrument is None or not instrument.name.strip()):
            why = translate("trial", "the instrument was not named")
        elif instrument is not None and instrument.due is not None and instrument.due < self._today:
            why = translate("trial", "the calibration of '{name}' was due on {due}").format(
                name=instrument.name, due=instrument.due.isoformat()
            )
        if why:
            return _Found(Result.NOT_TESTED, why, expected, found, answer=answer)
        low, high = step.at_least, step.at_most
        inside = (low is None or answer.value >= fraction(low)) and (high is None or answer.value <= fraction(high))
        outside = translate("trial", "{found} is outside of {range}").format(found=found, range=expected)
        return _Found(Result.PASS if inside else Result.FAIL, "" if inside else outside, expected, found, answer=answer)

    def _ask(self, question: PersonAsked) -> Reply:
        """Ask, and let time pass on the stand until somebody answers, or nobody does for too long."""
        question = replace(question, case=question.case or self._case_name)
        self._person.ask(question)
        self._watcher.asked(question)
        began = time.monotonic()
        try:
            while (answer := self._person.answer()) is None:
                if time.monotonic() - began > self._answer_s:
                    words = translate("trial", "nobody answered within {minutes:.0f} minutes")
                    return Reply(None, words.format(minutes=self._answer_s / 60))
                if not self._stand.real_time:
                    time.sleep(TICK_S)  # the time of models may run ahead of a person's
                self._tick()
        finally:
            self._watcher.asked(None)
        return answer

    # Time, and what happens in it

    def _tick(self) -> None:
        self._stand.tick()

    def _pass(self, seconds: float) -> None:
        end = self._stand.now() + seconds - TICK_S / 2
        while self._stand.now() < end:
            self._tick()

    def _acted(self) -> None:
        """The trial has done something: what is seen from now on counts, and what happens from now on."""
        self._stand.take_events()
        self._by_key, self._failed = set(), []
        self._events = []
        self._since = self._stand.now()

    def _see_written(self) -> list[WriteReport]:
        """Let what a key writes be taken, or refused, before the next step; it counts from when that is known.

        Gives what a key has written in vain.
        """
        self._events += self._stand.take_events()
        limit = self._stand.now() + WRITTEN_S
        while self._stand.panel.state.sent and self._stand.now() < limit:
            self._tick()
            self._events += self._stand.take_events()
            self._since = self._stand.now()
        return self._failed

    def _look_for_stop(self) -> None:
        if self._stop.is_set() and not self._cleaning:
            raise TrialStopped

    def _note_writes(self, told: PanelStep) -> None:
        for effect in told.effects:
            if isinstance(effect, Entered):
                self._entered[effect.signal] = None
            elif isinstance(effect, Write):
                self._written[effect.signal] = None
            if told.key is not None and isinstance(effect, Write):
                self._by_key.add(effect.signal)

    def _note_failed(self, reports: Sequence[WriteReport]) -> None:
        self._failed += (report for report in reports if not report.ok and report.signal in self._by_key)

    # Putting back

    def _values(self) -> dict[str, Fraction]:
        """The good values of all signals that the panel may write, to be put back after the case.

        What was put back just now may still read as it was before; what goes on doing so is not known.
        """
        back, self._put_back = self._put_back, {}
        unsure = self._read_again(back)
        return {name: value for name, value in values_to_restore(self._stand).items() if name not in unsure}

    def _restore(self, before: Mapping[str, Fraction], restored: list[str], not_restored: list[str]) -> None:
        """Put back what was entered, and switch off what was off; nothing is switched on or started by itself."""
        if self._stand.simulated:
            return
        changed = dict.fromkeys((*self._entered, *self._written))
        unsure = self._read_again(dict.fromkeys(changed))
        self._put_back = restore(self._stand, before, changed, restored, not_restored, unsure=unsure)
        self._acted()

    def _read_again(self, wanted: Mapping[str, Fraction | None]) -> set[str]:
        """Wait a little until these signals read as wanted, or were read after the last deed.

        Gives those that were not: what they read may be from before it.
        """
        project, limit = self._stand.project, self._stand.now() + WRITTEN_S
        while True:
            readings = self._stand.readings()
            unsure = {
                name
                for name, value in wanted.items()
                if name in project.signal_named
                and readings[name].good
                and (value is None or readings[name].value != value)
                and not fresh(project, name, readings[name], self._since)
            }
            if not unsure or self._stand.now() >= limit:
                return unsure
            self._tick()


def _cleaning_up(trial: Trial, name: str) -> Case:
    """The case that does what is left to do of another."""
    clean_up = next((case.clean_up for case in trial.expanded if case.name == name), ())
    words = translate("trial", "An earlier run ended in '{case}' before that was cleaned up.").format(case=name)
    return Case(
        name=translate("trial", "cleaning up after '{case}'").format(case=name)[:120],
        steps=(NoteStep(note=words),),
        clean_up=clean_up,
    )


def values_to_restore(stand: Stand) -> dict[str, Fraction]:
    """The good values of all signals that the panel may write, to be put back after a case."""
    readings = stand.readings()
    found: dict[str, Fraction] = {}
    for signal in stand.project.signals:
        if not isinstance(signal, HeldSignal) and signal.write:
            reading = readings[signal.name]
            if reading.good and isinstance(reading.value, Fraction):
                found[signal.name] = reading.value
    return found


def restore(
    stand: Stand,
    before: Mapping[str, Fraction],
    changed: Iterable[str],
    restored: list[str],
    not_restored: list[str],
    *,
    unsure: Container[str] = (),
) -> dict[str, Fraction]:
    """Put back on a real device what a case has changed, as far as that starts nothing; says so signal by signal.

    A value of registers is written as it was; a bit that was 0 is cleared. A bit that was 1 stays as it is, since
    setting it may start something; so does a word by which keys command, but for a value that stops. What reads as it
    was is left alone, unless it is `unsure` whether that is old.
    Gives what was put back.
    """
    project = stand.project
    back: dict[str, Fraction] = {}
    for name in changed:
        if name not in project.signal_named or isinstance(project.signal_named[name], HeldSignal):
            continue
        said = {"signal": name, "before": plain_text(project, name, before.get(name)), "why": ""}
        if name not in before:
            words = translate("trial", "'{signal}' was written, but its value before was not known")
            not_restored.append(words.format(**said))
            continue
        reading = stand.readings()[name]
        if reading.good and reading.value == before[name] and name not in unsure:
            continue
        if _may_start(project, name, before[name]):
            words = translate("trial", "'{signal}' was {before} before; it is not set by itself")
            not_restored.append(words.format(**said))
            continue
        said["why"] = stand.put(name, before[name])
        if said["why"]:
            words = translate("trial", "'{signal}' was {before} before and could not be put back: {why}")
            not_restored.append(words.format(**said))
        else:
            restored.append(translate("trial", "'{signal}' is {before} again").format(**said))
            back[name] = before[name]
    return back


def _unarmed(failed: Iterable[WriteReport]) -> str:
    """Why a key did nothing that could prove anything: writing was off. Empty if it was not."""
    return next((report.reason for report in failed if report.obstacle is Obstacle.NOT_ARMED), "")


def _may_start(project: Project, name: str, value: Fraction) -> bool:
    """Whether something may start if this value is written: a bit that is set, or a command, but for one that stops."""
    signal = project.signal_named[name]
    if isinstance(signal, BitSignal):
        return bool(value)
    amount = signal.unit or signal.decimals or signal.limits or (isinstance(signal, RegisterSignal) and signal.scale)
    commands = [action for action in project.actions if action.signal == name]
    if amount or not commands:
        return False
    stopping = [action for action in commands if stops(action)]
    return not any((action.do == "clear" and not value) or action.value == value for action in stopping)


def _said(answer: Reply) -> str:
    return answer.remark or translate("trial", "not tested")
