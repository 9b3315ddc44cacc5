"""What became of a trial: of each step what was expected and what was seen, of each case and of the whole a result."""

from __future__ import annotations

import enum
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from fractions import Fraction
from typing import Literal

from app.language import translate

StepPlace = Literal["setup", "step", "clean-up"]


class Result(enum.StrEnum):
    """What became of a step or a case. Everything but PASS comes with a reason."""

    PASS = "pass"
    FAIL = "fail"
    """What was expected was not seen."""
    BLOCKED = "blocked"
    """It could not be carried out: a line is down, or what it waits for did not come."""
    NOT_TESTED = "not tested"
    """Nobody was there, or nobody tried it."""


class Verdict(enum.StrEnum):
    """What became of a whole trial."""

    PASSED = "passed"
    """Every step passed."""
    WITH_EXCEPTIONS = "passed with exceptions"
    """Somebody has accepted every step that did not pass, with a name and a reason."""
    NOT_PASSED = "not passed"
    UNFINISHED = "unfinished"
    """It was stopped, or the program ended before it was over."""


_WORST = (Result.FAIL, Result.BLOCKED, Result.NOT_TESTED)


def worst(results: Iterable[Result]) -> Result:
    """The result of what is made of others: fail before blocked before not tested before pass."""
    found = set(results)
    return next((result for result in _WORST if result in found), Result.PASS)


@dataclass(frozen=True, slots=True)
class SeenReading:
    """A signal as it was seen: `value` its text with the unit, `raw` what stood in the registers, `age_s` how old."""

    signal: str
    value: str
    raw: str
    quality: str
    reason: str = ""
    age_s: float | None = None


@dataclass(frozen=True, slots=True)
class Seen:
    """What was seen when a step ended: the screen, all rows of the panel as texts, and the signals it is about."""

    screen: str
    rows: tuple[str, ...]
    readings: tuple[SeenReading, ...] = ()


@dataclass(frozen=True, slots=True)
class Instrument:
    """What somebody measured with; `due` is when its calibration ends, None where that is not known."""

    name: str
    serial: str
    due: date | None = None


@dataclass(frozen=True, slots=True)
class PersonAsked:
    """What a person is asked.

    `kind`: "may move" (yes: the case may begin), "by hand" (do this, then say so), "ask" (yes or no), "measure" (a
    number in `unit`, of an instrument if `instrument`).
    """

    kind: Literal["may move", "by hand", "ask", "measure"]
    case: str
    text: str
    unit: str = ""
    instrument: bool = False


@dataclass(frozen=True, slots=True)
class Reply:
    """What a person said. `yes` is None: not tested; `value` and `instrument` are those of a measurement."""

    yes: bool | None
    remark: str = ""
    by: str = ""
    value: Fraction | None = None
    instrument: Instrument | None = None


@dataclass(frozen=True, slots=True)
class StepOutcome:
    """One step: `words` say what was done, `expected` and `found` what was to be seen and what was, all in one line.

    `at_s` counts from the beginning of the run (monotonic), `at` is the computer's clock (UTC); `took_s` is how long it
    took until the result stood; `attempts` how often it was looked.
    """

    number: int
    part: StepPlace
    words: str
    result: Result
    reason: str = ""
    expected: str = ""
    found: str = ""
    seen: Seen | None = None
    at_s: float = 0.0
    at: datetime | None = None
    took_s: float = 0.0
    attempts: int = 0
    remark: str = ""
    answer: Reply | None = None


@dataclass(frozen=True, slots=True)
class CaseOutcome:
    """One case: its steps, and what was restored afterwards or could not be, each a sentence."""

    name: str
    steps: tuple[StepOutcome, ...]
    at_s: float = 0.0
    took_s: float = 0.0
    restored: tuple[str, ...] = ()
    not_restored: tuple[str, ...] = ()
    stopped: bool = False
    agreed: Reply | None = None
    """What a person said who was asked whether the machine may move; None if nobody was asked."""

    @property
    def result(self) -> Result:
        """Its worst step's; blocked if it was stopped, or if something could not be restored."""
        found = worst(step.result for step in self.steps)
        if found is Result.PASS and (self.stopped or self.not_restored or not self.steps):
            return Result.NOT_TESTED if not self.steps else Result.BLOCKED
        return found

    @property
    def reason(self) -> str:
        """Why it did not pass; empty if it did."""
        if self.result is Result.PASS:
            return ""
        of_steps = next((step.reason for step in self.steps if step.result is self.result and step.reason), "")
        stopped = [translate("trial", "the run was stopped")] if self.stopped else []
        return of_steps or "; ".join((*stopped, *self.not_restored))


@dataclass(frozen=True, slots=True)
class Exempted:
    """Somebody accepts that a case did not pass."""

    case: str
    by: str
    reason: str


@dataclass(frozen=True, slots=True)
class TrialOutcome:
    """A whole run. `finished` tells that every case was tried to its end; `exceptions` are who accepts what."""

    cases: tuple[CaseOutcome, ...]
    simulated: bool
    finished: bool
    began: datetime
    ended: datetime
    took_s: float
    clock_set_s: float = 0.0
    """How far the computer's clock was set meanwhile."""
    exceptions: tuple[Exempted, ...] = ()
    real_time: bool = True
    """Whether seconds were seconds; else those of models."""

    @property
    def verdict(self) -> Verdict:
        """Passed only if every case passed."""
        return verdict_of([(case.name, case.result) for case in self.cases], self.exceptions, finished=self.finished)


def verdict_of(results: Sequence[tuple[str, Result]], exceptions: Iterable[Exempted], *, finished: bool) -> Verdict:
    """The verdict on cases, by name, and what somebody has accepted of them."""
    if not finished or not results:
        return Verdict.UNFINISHED
    accepted = {one.case for one in exceptions if one.by.strip() and one.reason.strip()}
    not_passed = [name for name, result in results if result is not Result.PASS]
    if not not_passed:
        return Verdict.PASSED
    return Verdict.WITH_EXCEPTIONS if accepted.issuperset(not_passed) else Verdict.NOT_PASSED
