"""The list of cases and steps: which rows there are, and what stands in them before, during and after a run."""

from __future__ import annotations

import pytest

from app.project.model import Project
from app.trial.outcome import CaseOutcome, Result, StepOutcome
from tests.app.trial.trials import trial_in
from tests.widgets.trial.trials import PUMP
from widgets.trial.opened import fit_of
from widgets.trial.steps_model import MANY, StepColumn, StepKey, TrialModel

FIRST, TRIP = "it runs and stops", "a trip is shown"
SEEN = StepKey(FIRST, "step", 2)


@pytest.fixture
def model(qapp: object, pump: Project) -> TrialModel:
    made = TrialModel()
    made.show_trial(trial_in(PUMP).expanded, pump, {})
    return made


def rows(model: TrialModel) -> list[list[str]]:
    return [[model.cell(row, column)[0] for column in StepColumn] for row in range(model.count())]


def test_steps_stand_below_their_case_with_what_is_expected_of_them(model: TrialModel) -> None:
    assert [row[:3] for row in rows(model)] == [
        ["1", FIRST, ""],
        ["1.1", "Press start", ""],
        ["1.2", "Look at 'running'", "'running'"],
        ["", "Afterwards: Press stop", ""],
        ["2", TRIP, ""],
        ["2.1", "Simulated: pump.external-fault=on", ""],
        ["2.2", "Look at screen 'fault', row 2", "'external fault'"],
        ["3", "what only a person sees", ""],
        ["3.1", "Ask: Does the shaft stand still?", "yes"],
        ["3.2", "Measure: mains voltage", "360 to 440 V"],
    ]


def test_a_case_closes_and_opens(model: TrialModel) -> None:
    model.set_open((FIRST,), False)
    assert [row[1] for row in rows(model)][:2] == [FIRST, TRIP]
    assert model.place(SEEN) == 0, "the row of its case"
    assert model.spoken(0, StepColumn.STEP) == f"Case {FIRST}, closed"
    model.set_open((FIRST,), True)
    assert model.place(SEEN) == 2


def test_a_run_fills_the_rows(model: TrialModel) -> None:
    model.begin((FIRST,))
    model.begin_case(FIRST, at_models=True)
    model.begin_step(SEEN)
    model.refresh()
    assert rows(model)[2][StepColumn.RESULT] == "running"
    assert rows(model)[0][StepColumn.RESULT] == "running"
    failed = StepOutcome(2, "step", "", Result.FAIL, "not within 2 s: stopped", "", "stopped", at_s=1.0, took_s=2.0)
    model.end_step(SEEN, failed)
    model.end_case(CaseOutcome(FIRST, (failed,), took_s=3.0))
    model.refresh()
    assert rows(model)[2][3:] == ["stopped", "failed", "3.0 s"]
    assert model.cell(2, StepColumn.SEEN)[1] == "fault"
    assert model.tip(2, StepColumn.SEEN) == "stopped\nnot within 2 s: stopped"
    assert rows(model)[0][3:] == ["not within 2 s: stopped", "failed", "3.0 s"]
    assert model.first_not_passed() == SEEN


def test_only_what_did_not_pass_is_shown_if_that_is_wanted(model: TrialModel) -> None:
    good = StepOutcome(1, "step", "", Result.PASS)
    failed = StepOutcome(2, "step", "", Result.FAIL, "no")
    model.end_step(StepKey(FIRST, "step", 1), good)
    model.end_step(SEEN, failed)
    model.end_case(CaseOutcome(FIRST, (good, failed)))
    model.end_case(CaseOutcome(TRIP, (good,)))
    model.show_not_passed_only(True)
    shown = [model.key(row) for row in range(model.count())]
    assert StepKey(FIRST, "step", 1) not in shown
    assert SEEN in shown
    assert StepKey(TRIP) not in shown


def test_what_is_not_run_there_says_so(model: TrialModel) -> None:
    model.tell_as(simulated=False)
    assert rows(model)[4][StepColumn.RESULT] == "simulated only"
    assert model.cell(4, StepColumn.STEP)[1] == "faint"


def test_a_step_that_names_what_is_gone_says_so_in_its_row(model: TrialModel, pump: Project) -> None:
    trial = trial_in(PUMP.replace('signal = "running"', 'signal = "runing"'))
    problem = fit_of(trial, pump).problems[0]
    model.show_trial(trial.expanded, pump, {SEEN: problem})
    assert rows(model)[2][3:5] == ["there is no signal 'runing' in the project", "does not fit"]


def test_results_stay_as_long_as_the_steps_are_the_same(model: TrialModel, pump: Project) -> None:
    model.end_step(SEEN, StepOutcome(2, "step", "", Result.PASS))
    assert model.show_trial(trial_in(PUMP).expanded, pump, {})
    assert model.outcome(SEEN) is not None
    assert not model.show_trial(trial_in(PUMP.replace("360", "361")).expanded, pump, {})
    assert model.outcome(SEEN) is None


def test_of_many_steps_only_those_that_run_or_did_not_pass_are_open(qapp: object, pump: Project) -> None:
    text = "format = 1\n" + "".join(
        f'[[case]]\nname = "case {number}"\n[[case.step]]\nkey = "up"\n' for number in range(MANY)
    )
    model = TrialModel()
    model.show_trial(trial_in(text).expanded, pump, {})
    assert model.count() == MANY
    for name, result in (("case 0", Result.PASS), ("case 1", Result.FAIL)):
        model.begin_case(name, at_models=True)
        outcome = StepOutcome(1, "step", "", result, "" if result is Result.PASS else "why")
        model.end_step(StepKey(name, "step", 1), outcome)
        assert model.is_open(name)
        model.end_case(CaseOutcome(name, (outcome,)))
    model.refresh()
    assert (model.is_open("case 0"), model.is_open("case 1")) == (False, True)
    assert model.count() == MANY + 1
