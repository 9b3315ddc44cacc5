"""What was done and marked, one thing after the other, and the steps that come of it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal, localcontext
from fractions import Fraction
from typing import Final

from app.panel.entry import REPEAT_AFTER_S, REPEAT_EVERY_S
from app.panel.layout import PanelLayout
from app.panel.state import Mode, State
from app.project.model import Project
from app.trial.script import EnterStep, Expectation, ExpectStep, KeyStep, OrderStep, TrialStep, WaitStep

SOON_S: Final = 0.5
"""What came so soon after a deed is not given a time of its own."""
FAR: Final = 5
"""So many units of its last decimal a value has to have gone to stand for how far the machine had got."""
_TIMES: Final = (2, 3, 5, 10, 15, 20, 30, 45, 60, 90, 120, 180, 300, 600, 900, 1800, 3600)


@dataclass(frozen=True, slots=True)
class Moved:
    """A value that had moved by itself when a deed was done, as it was then; it last changed at `since`.

    `travel` is how far it went since the deed before, in units of its last decimal, there and back; 0 for a text.
    """

    signal: str
    seen: Expectation
    since: float
    travel: Fraction
    live: bool
    """It was still moving."""


@dataclass(frozen=True, slots=True)
class KeyNoted:
    """A key that went down, and when it came up; `confirmed` is the value that it confirmed."""

    at: float
    key: str
    before: State
    after: State
    until: float | None = None
    confirmed: Fraction | None = None
    refused: bool = False
    """The device did not take that value."""
    repeats: int = 0
    """How often it changed the value again while it was held."""
    moved: tuple[Moved, ...] = ()

    @property
    def acts(self) -> bool:
        """Whether more came of it than another screen, or an entry that is not confirmed."""
        before, after = self.before, self.after
        own = after.sent is not before.sent or after.held is not before.held or after.pressing != before.pressing
        return own or self.confirmed is not None


@dataclass(frozen=True, slots=True)
class OrderNoted:
    """A simulated device was operated."""

    at: float
    order: str
    moved: tuple[Moved, ...] = ()


@dataclass(frozen=True, slots=True)
class ScreenNoted:
    """Another screen was shown, without a key."""

    at: float
    screen: str


@dataclass(frozen=True, slots=True)
class MarkNoted:
    """A person marked what is to be seen, which came to be so at `since`; `signals` are those that it is about.

    At `reached` the machine had come to it by itself; before any time if it had not, or that cannot be told.
    """

    seen: Expectation
    since: float
    wait: bool = False
    signals: frozenset[str] = frozenset()
    reached: float = -math.inf


@dataclass(frozen=True, slots=True)
class SayingNoted:
    """A step as a person wrote it: a question, a note."""

    step: TrialStep


Noted = KeyNoted | OrderNoted | ScreenNoted | MarkNoted | SayingNoted
StepPlaced = tuple[TrialStep, int]
"""A step, and where in the log it begins."""


def placed_steps(
    project: Project, log: Sequence[Noted], began: float, *, open_entry: bool, open_too: bool
) -> list[StepPlaced]:
    """The steps of a log that begins at the time `began`.

    `open_entry` tells that the last entry goes on; with `open_too` its keys are given as well.
    """
    return _Steps(project, log, began, open_entry=open_entry, open_too=open_too).work_out()


class _Steps:
    """The steps of one log, as they come about."""

    def __init__(
        self, project: Project, log: Sequence[Noted], began: float, *, open_entry: bool, open_too: bool
    ) -> None:
        self._project = project
        self._log = log
        self._open_entry = open_entry
        self._open_too = open_too
        self._found: list[StepPlaced] = []
        self._done = 0
        """Where in the log what follows the last deed begins."""
        self._waited = 0
        """Where what follows the last deed begins for which it was waited for what moves."""
        self._acted_at = began
        """When the last deed was done that acts on the machine: what comes of it counts from there."""
        self._over = 0.0
        """How much longer it was than what was waited, by rounding: the next wait makes up for it."""
        conditions = [one.when for one in project.screen_changes] + [one.when for one in project.actions]
        self._acted_on = frozenset(condition.signal for condition in conditions if condition is not None)
        roles = project.panel.entry
        self._roles = frozenset((roles.up, roles.down, roles.left, roles.right, roles.confirm, roles.abandon))

    def work_out(self) -> list[StepPlaced]:
        """All steps."""
        for part in self._parts():
            first = self._log[part[0]]
            if not (isinstance(first, KeyNoted) and first.after.mode is not Mode.WATCH):
                self._add(part)
            elif self._is_one_by_one(part):
                if (
                    self._open_too
                    or not self._is_open(part)
                    or any(isinstance(self._log[at], MarkNoted) for at in part)
                ):
                    self._add(part)
            else:
                self._add_folded(part)
        return self._found

    def _parts(self) -> Iterator[range]:
        """The log in parts: an entry from its beginning to its end, and each other thing by itself."""
        at = 0
        while at < len(self._log):
            noted, end = self._log[at], at + 1
            if isinstance(noted, KeyNoted) and noted.before.mode is Mode.WATCH and noted.after.mode is not Mode.WATCH:
                while end < len(self._log) and not self._ended_before(end):
                    end += 1
            yield range(at, end)
            at = end

    def _ended_before(self, at: int) -> bool:
        """Whether an entry was over when this came, by a key or by itself."""
        noted = self._log[at]
        former = next(one for one in reversed(self._log[:at]) if isinstance(one, KeyNoted))
        return (
            former.after.mode is Mode.WATCH
            or isinstance(noted, ScreenNoted)
            or (isinstance(noted, KeyNoted) and noted.before.mode is Mode.WATCH)
        )

    def _is_open(self, part: range) -> bool:
        return self._open_entry and part.stop == len(self._log)

    def _is_one_by_one(self, part: range) -> bool:
        """Whether an entry stays key by key: something came in its middle, or its keys do more than enter."""
        first = self._log[part[0]]
        assert isinstance(first, KeyNoted)
        behaviour = PanelLayout.of(self._project).behaviour
        others = [one for one in behaviour.key_actions(first.before.shown, first.key) if one.do != "begin-entry"]
        if others or behaviour.key_screen_change(first.before.shown, first.key) is not None:
            return True
        pending = True
        for at in part:
            noted = self._log[at]
            if isinstance(noted, OrderNoted) or (isinstance(noted, MarkNoted) and noted.seen.screen is not None):
                if pending:
                    return True
            elif not isinstance(noted, KeyNoted):
                continue
            elif noted.confirmed is not None:
                if noted.refused or exact(noted.confirmed) is None:
                    return True
                pending = False
            elif noted.key in self._roles and noted.after.mode is not Mode.WATCH:
                pending = True
        return False

    def _add_folded(self, part: range) -> None:
        """An entry: a step for each value that was confirmed, and the other keys and marks as they are."""
        pending: list[int] = []
        for at in part:
            noted = self._log[at]
            if isinstance(noted, KeyNoted) and noted.confirmed is not None:
                value = exact(noted.confirmed)
                assert value is not None
                self._wait_before(at)
                self._found.append((EnterStep(enter=entered_signal(self._project, noted.before), value=value), at))
                self._is_done(at)
                pending = []
            elif isinstance(noted, KeyNoted) and (at == part[0] or noted.key in self._roles):
                pending.append(at)
            else:
                self._add((at,))
        if self._open_too and self._is_open(part):
            self._add(pending)

    def _add(self, places: Iterable[int]) -> None:
        """Things of the log just as they are."""
        for at in places:
            noted = self._log[at]
            if isinstance(noted, SayingNoted):
                self._found.append((noted.step, at))
            elif isinstance(noted, MarkNoted):
                self._found.append((self._expecting(noted.seen, noted.since, wait=noted.wait), at))
            elif isinstance(noted, OrderNoted):
                self._wait_before(at)
                self._found.append((OrderStep(order=noted.order), at))
                self._is_done(at)
            elif isinstance(noted, KeyNoted):
                self._wait_before(at)
                self._press(noted, at)
                self._is_done(at)

    def _press(self, noted: KeyNoted, at: int) -> None:
        hold_s = _hold_of(noted)
        last, begin = self._found[-1] if self._found else (None, at)
        if not hold_s and isinstance(last, KeyStep) and last.key == noted.key and not last.hold_s:
            self._found[-1] = KeyStep(key=noted.key, times=last.times + 1), begin
        else:
            self._found.append((KeyStep(key=noted.key, hold_s=hold_s), at))

    def _is_done(self, at: int) -> None:
        noted = self._log[at]
        assert isinstance(noted, KeyNoted | OrderNoted)
        self._done = at + 1
        if isinstance(noted, OrderNoted) or noted.acts:
            self._acted_at = noted.at + (float(_hold_of(noted)) if isinstance(noted, KeyNoted) else 0.0)

    def _expecting(self, seen: Expectation, since: float, *, wait: bool) -> TrialStep:
        within_s = _generously(since - self._acted_at)
        return WaitStep(wait=seen, within_s=within_s) if wait else ExpectStep(expect=seen, within_s=within_s)

    def _wait_before(self, at: int) -> None:
        """Wait for what the deed that stands there in the log came after, and what it could not do without.

        That is the screen that came by itself; and if the deed acts on the machine, how far the machine had got. In the
        middle of a motion that is a time. After it, it is the value that went furthest, and each that counts later on.
        """
        deed = self._log[at]
        waits = [
            (noted.at, Expectation(screen=noted.screen))
            for noted in self._log[self._done : at]
            if isinstance(noted, ScreenNoted)
        ]
        acts = isinstance(deed, OrderNoted) or (isinstance(deed, KeyNoted) and deed.acts)
        moved = self._moved_before(at) if acts else []
        waits += [(one.since, one.seen) for one in moved if not moved[0].live]
        for since, seen in sorted(waits, key=lambda one: one[0]):
            self._found.append((self._expecting(seen, since, wait=True), at))
        if moved and moved[0].live:
            assert isinstance(deed, OrderNoted | KeyNoted)
            between = self._log[self._waited : at]
            reached = [noted.reached for noted in between if isinstance(noted, MarkNoted)] + [
                since for since, _ in waits
            ]
            passed = deed.at - max([self._acted_at, *reached]) + self._over
            seconds = Decimal(str(max(0.0, round(passed, 1))))
            self._over = passed - float(seconds)
            if seconds > 0:
                self._found.append((WaitStep(wait=seconds), at))
        if acts:
            self._waited = at + 1

    def _moved_before(self, at: int) -> list[Moved]:
        """What counts of what moved since the last deed that acts, the furthest first; that alone if it still moves."""
        marks: list[Expectation] = []
        moved: dict[str, Moved] = {}
        for noted in self._log[self._waited : at + 1]:
            if isinstance(noted, MarkNoted):
                marks.append(noted.seen)
            elif isinstance(noted, KeyNoted | OrderNoted):
                for one in noted.moved:
                    former = moved.get(one.signal)
                    moved[one.signal] = one if former is None else replace(one, travel=one.travel + former.travel)
        later = [one for one in self._log[at:] if isinstance(one, MarkNoted | ScreenNoted)]
        if not moved or not later:
            return []
        furthest = max(moved.values(), key=lambda one: one.travel)
        if furthest.live:
            return [furthest]
        names = self._acted_on.union(*(one.signals for one in later if isinstance(one, MarkNoted)))
        counting = [one for one in moved.values() if one.signal in names]
        first = [furthest] if furthest.travel >= FAR and furthest not in counting else []
        return [one for one in (*first, *counting) if one.seen not in marks]


def entered_signal(project: Project, state: State) -> str:
    """The signal whose value is under change in `state`; empty if there is none."""
    screen = project.screen_named.get(state.shown)
    return "" if screen is None or state.entry is None else screen.fields[state.entry.field].signal


def exact(value: Fraction) -> Decimal | None:
    """The same number as a decimal, or None where it has no end."""
    with localcontext() as context:
        context.prec = 40
        found = Decimal(value.numerator) / Decimal(value.denominator)
    return found if Fraction(found) == value else None


def _hold_of(noted: KeyNoted) -> Decimal:
    """How long a key is to be held, where that does anything: a momentary action, or a value that goes on changing."""
    if noted.repeats:  # until half way to the next, so that a little more or less time makes no difference
        hold_s = REPEAT_AFTER_S + (noted.repeats - 0.5) * REPEAT_EVERY_S
        return Decimal(str(round(hold_s, 2)))
    held = 0.0 if noted.until is None else noted.until - noted.at
    momentary = any(key == noted.key for key, _ in noted.after.pressing)
    return max(Decimal("0.1"), Decimal(str(round(held, 1)))) if momentary else Decimal(0)


def _generously(took_s: float) -> Decimal | None:
    """A time that is long enough for what took so long; None where the trial's usual patience will do."""
    if took_s <= SOON_S:
        return None
    wanted = 1 + 2 * took_s
    return Decimal(next((time for time in _TIMES if time >= wanted), math.ceil(wanted)))
