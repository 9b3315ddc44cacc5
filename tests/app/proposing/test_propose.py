"""Trials proposed from projects: they pass on the simulation, reach all that can be reached, and say what cannot."""

from __future__ import annotations

import tomllib
from decimal import Decimal
from fractions import Fraction
from functools import cache

import pytest

from app.project.binding import bindings
from app.project.model import Project
from app.project_file.canonical import canonical_text
from app.project_file.files import load, parse
from app.proposing.propose import propose
from app.starters.answers import Answers
from app.starters.build import build
from app.trial.coverage import Coverage, Covered
from app.trial.outcome import Reply, TrialOutcome
from app.trial.runner import Nobody, Runner
from app.trial.script import EnterStep, KeyStep, OrderStep, Trial
from app.trial.script_file import problems_with, project_digest, trial_of
from app.trial.stand import RehearsedStand
from projects import demo_path
from tests.app.panel.operating import project as made
from tests.trial_panel import SMALL, small

DEMOS = ("booster-pump", "drying-hall")

UNREACHABLE = {
    "booster-pump": {
        "'line is quiet' of 'warning' on 'motor'",  # to read it ends the silence
        "'no fault' of 'fault code' on 'fault'",  # shown only while there is a fault
        "'other fault' of 'fault code' on 'fault'",  # the simulated drive has no other
    },
    "drying-hall": {
        "'no fault' of 'fan fault code' on 'fan fault'",
        "'no fault' of 'fan fault code' on 'fan fault' (Deutsch)",
        "'other fan fault' of 'fan fault code' on 'fan fault'",
        "'other fan fault' of 'fan fault code' on 'fan fault' (Deutsch)",
    },
}


@cache
def proposed(name: str) -> tuple[Project, Trial]:
    project = load(demo_path(name))
    return project, propose(project, f"{name}.toml")


def run(project: Project, trial: Trial) -> tuple[TrialOutcome, Covered]:
    stand = RehearsedStand(project)
    coverage = Coverage(stand)
    return Runner(trial, stand).run(), coverage.covered


def not_passed(outcome: TrialOutcome) -> list[str]:
    return [f"{case.name}: {step.words}: {step.reason}" for case in outcome.cases for step in case.steps if step.reason]


@cache
def played(name: str) -> tuple[TrialOutcome, Covered]:
    return run(*proposed(name))


@pytest.mark.parametrize("name", DEMOS)
def test_the_trial_of_a_demo_passes(name: str) -> None:
    outcome, _ = played(name)
    assert not_passed(outcome) == []
    assert outcome.verdict == "passed"


@pytest.mark.parametrize("name", DEMOS)
def test_it_reaches_everything_that_can_be_reached_and_says_what_cannot(name: str) -> None:
    _, covered = played(name)
    assert {one.words for one in covered.missing} == UNREACHABLE[name]
    notes = proposed(name)[1].notes
    for words in UNREACHABLE[name]:
        assert f"Text {words.removesuffix(' (Deutsch)')} is not tried" in notes


@pytest.mark.parametrize("name", DEMOS)
def test_it_fits_its_project_can_be_read_again_and_is_the_same_each_time(name: str) -> None:
    project, trial = proposed(name)
    assert problems_with(trial, project) == ()
    assert (trial.project, trial.digest) == (f"{name}.toml", project_digest(project))
    assert canonical_text(propose(project, f"{name}.toml")) == canonical_text(trial)
    names = [case.name for case in trial.expanded]
    assert len(set(names)) == len(names)


@pytest.mark.parametrize("name", DEMOS)
def test_what_is_also_for_a_machine_gives_no_orders_and_stops_what_it_started(name: str) -> None:
    _, trial = proposed(name)
    for case in trial.cases:
        if case.on != "both":
            continue
        assert not any(isinstance(step, OrderStep) for step in (*case.steps, *case.clean_up)), case.name
        if any(isinstance(step, KeyStep) and step.key == "start" for step in case.steps):
            assert case.moves, case.name
            assert case.clean_up == (KeyStep(key="stop"),), case.name


class KeepingStand(RehearsedStand):
    """Devices as at a machine: no case begins anew with them, and what it changed is put back by writing."""

    simulated = False
    _switched_on = False

    def begin(self) -> None:
        if self._switched_on:
            self.panel.begin()
            self.tick()
        else:
            super().begin()
            self._switched_on = True

    def put(self, signal: str, value: Fraction) -> str:
        self.models[bindings(self.project)[signal].follower.name].set(signal, value)
        return ""


class Agreeing(Nobody):
    """Somebody to whom everything is fine."""

    def answer(self) -> Reply | None:
        return Reply(True)


@pytest.mark.parametrize("name", DEMOS)
def test_what_is_also_for_a_machine_passes_on_devices_that_keep_what_they_hold(name: str) -> None:
    project, trial = proposed(name)
    outcome = Runner(trial, KeepingStand(project), Agreeing()).run()
    assert len(outcome.cases) > 20
    assert not_passed(outcome) == []
    assert any(case.restored for case in outcome.cases)
    # The hall's heating goes off with its fan, and nothing is switched on by itself.
    left = {words for case in outcome.cases for words in case.not_restored}
    assert left == ({"'heating' was on before; it is not set by itself"} if name == "drying-hall" else set())


@pytest.mark.parametrize("by", ["step", "digit"])
def test_a_panel_in_front_of_a_plain_device_is_tried_whole(by: str) -> None:
    project = small(by)
    trial = propose(project, "small.toml")
    outcome, covered = run(project, trial)
    assert not_passed(outcome) == []
    assert [one.words for one in covered.missing] == []
    assert covered.share == 1.0


@pytest.mark.parametrize("answers", [Answers("one-drive"), Answers("temperature", rows=2, columns=16)], ids=str)
def test_what_a_new_panel_begins_with_passes_its_trial(answers: Answers) -> None:
    project = build(answers)
    outcome, covered = run(project, propose(project))
    assert not_passed(outcome) == []
    assert [one.words for one in covered.missing if "fault code" not in one.words] == []


def test_a_bit_is_entered_as_one_of_two() -> None:
    project = parse(SMALL.replace('signal = "gain"\nentry = true', 'signal = "pump"\nentry = true'))
    outcome, covered = run(project, propose(project))
    assert not_passed(outcome) == []
    assert [one.words for one in covered.missing] == []


def test_texts_that_no_screen_shows_are_tried_at_the_signal() -> None:
    names = [case.name for case in proposed("booster-pump")[1].cases]
    assert {"Text 'fault' of 'fault'", "Text 'no fault' of 'fault'"} <= set(names)


def test_limits_are_entered_and_what_is_beyond_them_is_refused() -> None:
    steps = [
        (str(step.value), step.refused)
        for case in propose(small()).cases
        for step in case.steps
        if isinstance(step, EnterStep) and step.enter == "level" and case.name.startswith("Entry")
    ]
    assert steps == [
        ("0", False),
        ("-0.5", True),
        ("33", False),
        ("100", False),
        ("100.5", True),
        ("33", False),
    ]


def test_a_value_is_tried_right_beside_the_limit_of_an_override() -> None:
    project = parse(SMALL.replace('{ signal = "high", is = "set" }', '{ signal = "level", is = "above", value = 80 }'))
    case = next(case for case in propose(project).cases if case.name.startswith("Override"))
    orders = [step.order for step in case.steps if isinstance(step, OrderStep)]
    assert orders == ["tank.level=80", "tank.level=80", "tank.level=80.1", "tank.level=80"]
    assert not_passed(run(project, propose(project))[0]) == []


def test_an_override_that_holds_from_the_beginning_is_lifted_first() -> None:
    project = parse(SMALL.replace('is = "set" }\nto = "too high"', 'is = "clear" }\nto = "too high"'))
    trial = propose(project)
    assert {case.setup for case in trial.cases} == {("tank.high=1",)}
    assert {case.on for case in trial.cases} == {"simulated"}
    assert not_passed(run(project, trial)[0]) == []


def test_what_nobody_can_bring_about_is_said() -> None:
    project = parse(SMALL.replace('{ signal = "high", is = "set" }', '{ signal = "gain", is = "above", value = 5 }'))
    assert "Override 'too high' is not tried: nobody can bring it about that gain is above 5." in propose(project).notes


def test_open_findings_stand_in_the_notes() -> None:
    project = parse(SMALL.replace('do = "set"\nsignal = "pump"', 'do = "set"\nsignal = "high"'))
    assert "Findings of the design checks that are open:" in propose(project).notes


def test_a_project_without_anything_gives_a_trial_without_cases_that_fail() -> None:
    empty = made(panel={"start": "a"}, screen=[{"name": "a"}])
    trial = propose(empty)
    assert not_passed(run(empty, trial)[0]) == []


def test_the_trial_is_a_file_that_can_be_read() -> None:

    _, trial = proposed("booster-pump")
    again = trial_of(tomllib.loads(canonical_text(trial), parse_float=Decimal))
    assert again == trial
