"""The cases of a trial with their steps as rows: what is expected, what was seen, and what came of it."""

from __future__ import annotations

import enum
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Final, NamedTuple

from PySide6.QtCore import QCoreApplication, QObject

from app.language import with_mark
from app.project.model import Project
from app.project.problems import Problem
from app.trial.outcome import CaseOutcome, Result, StepOutcome, StepPlace
from app.trial.script import Case, OrderStep, TrialStep
from app.trial.words import in_columns
from widgets.kit.tables import TableModel, Trim, to_the_right

translate = QCoreApplication.translate
MANY: Final = 60
"""Rows up to which all cases are open; with more, only those that run or did not pass."""


class StepColumn(enum.IntEnum):
    """The columns, from the left."""

    NUMBER = 0
    STEP = 1
    EXPECTED = 2
    SEEN = 3
    RESULT = 4
    TIME = 5


class StepKey(NamedTuple):
    """Which row: of a case by its name the row of the case itself, or that of a step."""

    case: str
    part: StepPlace | None = None
    number: int = 0
    """Counted from 1 within its part."""


@dataclass(frozen=True, slots=True)
class ResultLook:
    """How a state is told: the icon of it, the colour, and whether it stands out."""

    icon: str
    ink: str
    strong: bool = False


RESULTS: Final[Mapping[Result, ResultLook]] = {
    Result.PASS: ResultLook("state-good", "good"),
    Result.FAIL: ResultLook("state-alarm", "fault", strong=True),
    Result.BLOCKED: ResultLook("state-caution", "caution", strong=True),
    Result.NOT_TESTED: ResultLook("state-unread", "faint"),
}
RUNNING: Final = ResultLook("state-running", "accent", strong=True)
ASKING: Final = ResultLook("state-asks", "accent", strong=True)


def steps_of(case: Case) -> list[tuple[StepKey, TrialStep]]:
    """All that is done in a case, in order, each with its row."""
    parts: tuple[tuple[StepPlace, Sequence[TrialStep]], ...] = (
        ("setup", [OrderStep(order=order) for order in case.setup]),
        ("step", case.steps),
        ("clean-up", case.clean_up),
    )
    return [(StepKey(case.name, part, number), step) for part, steps in parts for number, step in enumerate(steps, 1)]


class TrialModel(TableModel):
    """A row for each case, and below it, if it is open, a row for each of its steps."""

    alignment = to_the_right(StepColumn.NUMBER)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.titles = (
            self.tr("No."),
            self.tr("Step"),
            self.tr("Expected"),
            self.tr("Seen"),
            self.tr("Result"),
            self.tr("Time"),
        )
        self._project: Project | None = None
        self.simulated = True
        """Whether the steps are told as they are at simulated devices."""
        self._cases: dict[str, Case] = {}
        self._steps: dict[StepKey, TrialStep] = {}
        self._of: dict[str, list[StepKey]] = {}
        self._numbers: dict[str, int] = {}
        self._problems: dict[StepKey, Problem] = {}
        self._outcomes: dict[StepKey, StepOutcome] = {}
        self._of_cases: dict[str, CaseOutcome] = {}
        self._results_simulated = True
        """Whether the results are of simulated devices: those of both kinds are never shown together."""
        self._at_models: dict[str, bool] = {}
        """By case, whether its times are those of models, which are not those of a clock."""
        self._open: set[str] = set()
        self._opened: set[str] = set()
        """Those that a run has opened, and not a person."""
        self._not_passed_only = False
        self._now: StepKey | None = None
        self._asking = False
        self._rows: list[StepKey] = []
        self._places: dict[StepKey, int] = {}
        self._columns = lru_cache(4096)(self._in_columns)

    # What is shown

    def show_trial(self, cases: Sequence[Case], project: Project, problems: Mapping[StepKey, Problem]) -> bool:
        """Show these cases. Results are kept if all steps are still the same, which it gives."""
        before = self._steps
        self._cases = {case.name: case for case in cases}
        self._numbers = {case.name: number for number, case in enumerate(cases, 1)}
        self._steps = {key: step for case in cases for key, step in steps_of(case)}
        self._of = {case.name: [] for case in cases}
        for key in self._steps:
            self._of[key.case].append(key)
        self._problems = dict(problems)
        self._project = project
        self._columns.cache_clear()
        same = before == self._steps
        if not same:
            self._outcomes, self._of_cases, self._now = {}, {}, None
            self._open = set() if self._many else set(self._cases)
            self._opened = set()
        self._rebuild()
        return same

    def tell_as(self, *, simulated: bool) -> None:
        """Tell the steps, and which cases are not run, for simulated devices or for real ones."""
        if simulated != self.simulated:
            self.simulated = simulated
            self._columns.cache_clear()
            self.refresh()

    def show_not_passed_only(self, on: bool) -> None:
        """Leave out cases and steps that passed."""
        self._not_passed_only = on
        self._rebuild()

    def count(self) -> int:
        """How many rows are in the list."""
        return len(self._rows)

    def key(self, row: int) -> StepKey:
        """What a row shows."""
        return self._rows[row]

    def place(self, key: StepKey) -> int:
        """The row in which something is shown, or that of its case; -1 if there is none."""
        return self._places.get(key, self._places.get(StepKey(key.case), -1))

    def is_open(self, case: str) -> bool:
        """Whether the steps of a case are shown."""
        return case in self._open

    def set_open(self, cases: Collection[str], on: bool) -> None:
        """Show the steps of cases, or leave them out."""
        self._opened.difference_update(cases)
        self._open = self._open | set(cases) if on else self._open - set(cases)
        self._rebuild()

    def case(self, name: str) -> Case | None:
        """A case by its name."""
        return self._cases.get(name)

    def step(self, key: StepKey) -> TrialStep | None:
        """A step; None for the row of a case."""
        return self._steps.get(key)

    def problem(self, key: StepKey) -> Problem | None:
        """What in a step, or in the case itself, points to nothing in the project."""
        return self._problems.get(key)

    def outcome(self, key: StepKey) -> StepOutcome | None:
        """What came of a step."""
        return self._outcomes.get(key)

    def case_outcome(self, name: str) -> CaseOutcome | None:
        """What came of a case."""
        return self._of_cases.get(name)

    def steps(self, case: str) -> Sequence[StepKey]:
        """The rows of the steps of a case."""
        return self._of.get(case, ())

    @property
    def case_names(self) -> tuple[str, ...]:
        """All cases, in order."""
        return tuple(self._cases)

    def first_not_passed(self, only: Collection[str] = ()) -> StepKey | None:
        """The first step that did not pass, of these cases if any are named."""
        found = (key for key in self._steps if key in self._outcomes and (not only or key.case in only))
        return next((key for key in found if self._outcomes[key].result is not Result.PASS), None)

    def take_over(self, former: TrialModel) -> None:
        """Have the results of another one that showed the same trial."""
        self._outcomes, self._of_cases = dict(former._outcomes), dict(former._of_cases)
        self._at_models, self._open = dict(former._at_models), set(former._open)
        self._results_simulated = former._results_simulated
        self._now = former._now
        self._rebuild()

    # A run

    def begin(self, cases: Collection[str]) -> None:
        """These cases are run anew, on what the steps are told for."""
        if self._results_simulated != self.simulated:
            cases = self.case_names
        self._results_simulated = self.simulated
        for name in cases:
            self._of_cases.pop(name, None)
            for key in self._of.get(name, ()):
                self._outcomes.pop(key, None)
        self._now, self._asking = None, False
        self._rebuild()

    def begin_case(self, name: str, *, at_models: bool) -> None:
        """A case is being run; `at_models`: in the time of models."""
        self._at_models[name] = at_models
        if name not in self._open:
            self._open.add(name)
            self._opened.add(name)

    def begin_step(self, key: StepKey | None) -> None:
        """This step is being carried out; None: none is."""
        self._now, self._asking = key, False

    def ask(self, on: bool) -> None:
        """Whether the step that is carried out waits for an answer."""
        self._asking = on
        self.refresh()

    def end_step(self, key: StepKey, outcome: StepOutcome) -> None:
        """This came of a step."""
        self._outcomes[key] = outcome

    def end_case(self, outcome: CaseOutcome) -> None:
        """This came of a case."""
        self._of_cases[outcome.name] = outcome
        self._now = None
        if outcome.name in self._opened and outcome.result is Result.PASS and self._many:
            self._opened.discard(outcome.name)
            self._open.discard(outcome.name)

    @property
    def _many(self) -> bool:
        return len(self._steps) + len(self._cases) > MANY

    @property
    def now(self) -> StepKey | None:
        """The step that is being carried out."""
        return self._now

    def refresh(self) -> None:
        """Show what has changed."""
        if self._wanted_rows() != self._rows:
            self._rebuild()
        elif self._rows:
            self.dataChanged.emit(self.index(0, 0), self.index(len(self._rows) - 1, len(self.titles) - 1))

    def _rebuild(self) -> None:
        self.beginResetModel()
        self._rows = self._wanted_rows()
        self._places = {key: row for row, key in enumerate(self._rows)}
        self.endResetModel()

    def _wanted_rows(self) -> list[StepKey]:
        rows: list[StepKey] = []
        for name in self._cases:
            outcome = self._of_cases.get(name)
            if self._not_passed_only and outcome is not None and outcome.result is Result.PASS:
                continue
            rows.append(StepKey(name))
            if name in self._open:
                rows += [key for key in self._of.get(name, ()) if not self._left_out(key)]
        return rows

    def _left_out(self, key: StepKey) -> bool:
        outcome = self._outcomes.get(key)
        return self._not_passed_only and outcome is not None and outcome.result is Result.PASS

    # Cells

    def cell(self, row: int, column: int) -> tuple[str, str]:
        """The text of a cell and the name of its colour."""
        key = self._rows[row]
        return self._case_cell(key.case, column) if key.part is None else self._step_cell(key, column)

    def trim(self, row: int, column: int) -> Trim | None:
        """The ground of cases, the sign that they are open, and the icon of a result."""
        key = self._rows[row]
        ground = "pane" if key.part is None else ""
        strong = key.part is None or key == self._now
        if column == StepColumn.STEP:
            if key.part is None:
                sign = "chevron-down" if key.case in self._open else "chevron-right"
                return Trim(sign, "faint", strong=True, ground=ground)
            return Trim(indent=1, strong=strong)
        if column == StepColumn.RESULT:
            look = self._look(key)
            if look is not None:
                return Trim(look.icon, look.ink, strong=look.strong, ground=ground)
        return Trim(strong=strong and column == StepColumn.NUMBER, ground=ground) if ground else None

    def spoken(self, row: int, column: int) -> str:
        """A case is called so, and whether its steps are shown."""
        key = self._rows[row]
        if key.part is not None or column != StepColumn.STEP:
            return ""
        words = self.tr("Case {name}, open") if key.case in self._open else self.tr("Case {name}, closed")
        return words.format(name=key.case)

    def state_words(self, key: StepKey) -> str:
        """What the column of results says."""
        outcome = self._result(key)
        if key == self._now:
            return self.tr("asks you") if self._asking else self.tr("running")
        if key.part is None and self._now is not None and self._now.case == key.case:
            return self.tr("running")
        if outcome is not None:
            return result_words(outcome)
        if key in self._problems:
            return self.tr("does not fit")
        case = self._cases[key.case]
        if key.part is None and not case.is_on(simulated=self.simulated):
            return self.tr("at the device only") if self.simulated else self.tr("simulated only")
        return ""

    def columns(self, key: StepKey) -> tuple[str, str]:
        """What a step does and what is expected, as the list tells it."""
        return self._columns(key)

    def _in_columns(self, key: StepKey) -> tuple[str, str]:
        step = self._steps.get(key)
        if step is None or self._project is None:
            return key.case, ""
        words, expected = in_columns(self._project, step, simulated=self.simulated)
        words = words[:1].upper() + words[1:]
        if key.part == "setup":
            words = self.tr("Before: {words}").format(words=words)
        elif key.part == "clean-up":
            words = self.tr("Afterwards: {words}").format(words=words)
        return words, expected

    def _result(self, key: StepKey) -> Result | None:
        if key.part is not None:
            outcome = self._outcomes.get(key)
            return None if outcome is None else outcome.result
        of_case = self._of_cases.get(key.case)
        return None if of_case is None else of_case.result

    def _look(self, key: StepKey) -> ResultLook | None:
        now = self._now
        if now is not None and (key == now or (key.part is None and key.case == now.case)):
            return ASKING if self._asking and key == now else RUNNING
        result = self._result(key)
        if result is not None:
            return RESULTS[result]
        if key in self._problems:
            return ResultLook("state-caution", "caution")
        if key.part is None and not self._cases[key.case].is_on(simulated=self.simulated):
            return ResultLook("state-unread", "off")
        return None

    def _case_cell(self, name: str, column: int) -> tuple[str, str]:
        key, outcome = StepKey(name), self._of_cases.get(name)
        on = self._cases[name].is_on(simulated=self.simulated)
        match column:
            case StepColumn.NUMBER:
                return str(self._numbers[name]), "ink" if on else "faint"
            case StepColumn.STEP:
                return name, "ink" if on else "faint"
            case StepColumn.SEEN:
                if outcome is not None:
                    return outcome.reason if outcome.result is not Result.PASS else "", "faint"
                problem = self._problems.get(key)
                return ("", "ink") if problem is None else (problem.message, "caution")
            case StepColumn.RESULT:
                look = self._look(key)
                return self.state_words(key), "ink" if look is None else look.ink
            case StepColumn.TIME:
                return ("", "faint") if outcome is None else (took_words(outcome.took_s), "faint")
        return "", "ink"

    def _step_cell(self, key: StepKey, column: int) -> tuple[str, str]:
        outcome = self._outcomes.get(key)
        ahead = outcome is None and key != self._now
        ink = "faint" if ahead else "ink"
        match column:
            case StepColumn.NUMBER:
                number = f"{self._numbers[key.case]}.{key.number}" if key.part == "step" else ""
                return number, "faint"
            case StepColumn.STEP:
                return self._columns(key)[0], ink
            case StepColumn.EXPECTED:
                return self._columns(key)[1], ink
            case StepColumn.SEEN:
                return self._seen_cell(key, outcome)
            case StepColumn.RESULT:
                look = self._look(key)
                return self.state_words(key), "ink" if look is None else look.ink
        if outcome is None:
            return "", "faint"
        return self.time_words(key.case, outcome), "faint"

    def time_words(self, case: str, outcome: StepOutcome) -> str:
        """When a step ended: by the clock of this place, or in seconds of models since the run began."""
        if self._at_models.get(case, False) or outcome.at is None:
            return with_mark(f"{outcome.at_s + outcome.took_s:.1f} s")
        return outcome.at.astimezone().strftime("%H:%M:%S")

    def _seen_cell(self, key: StepKey, outcome: StepOutcome | None) -> tuple[str, str]:
        if outcome is None:
            if key == self._now and self._asking:
                return self.tr("waiting for an answer"), "ink"
            problem = self._problems.get(key)
            return ("", "ink") if problem is None else (problem.message, "caution")
        ink = {Result.FAIL: "fault", Result.BLOCKED: "caution"}.get(outcome.result, "ink")
        return outcome.found or outcome.reason, ink

    def tip(self, row: int, column: int) -> str:
        """The whole text; of what was seen also why that is not enough."""
        outcome = self._outcomes.get(self._rows[row])
        text = self.cell(row, column)[0]
        if column == StepColumn.SEEN and outcome is not None and outcome.reason not in ("", text):
            return f"{text}\n{outcome.reason}"
        return text


def result_words(result: Result) -> str:
    """A result as people read it."""
    return {
        Result.PASS: translate("TrialModel", "passed"),
        Result.FAIL: translate("TrialModel", "failed"),
        Result.BLOCKED: translate("TrialModel", "blocked"),
        Result.NOT_TESTED: translate("TrialModel", "not tested"),
    }[result]


def took_words(seconds: float) -> str:
    """How long something took, as people say it."""
    if seconds < 60:
        return with_mark(f"{seconds:.1f} s")
    minutes, rest = divmod(round(seconds), 60)
    return f"{minutes}:{rest:02d} min"
