"""The trials of the demo projects: canonical, of the project as it is, passed on the simulation without anybody."""

from __future__ import annotations

import pytest

from app.project_file.canonical import canonical_text
from app.project_file.files import load
from app.trial.runner import Runner
from app.trial.script import AskStep, MeasureStep, OrderStep
from app.trial.script_file import load_trial, problems_with, project_digest
from app.trial.stand import RehearsedStand
from projects import demo_path, demos, trial_path


@pytest.mark.parametrize("name", demos())
def test_the_file_is_canonical_and_fits_its_project(name: str) -> None:
    trial, project = load_trial(trial_path(name)), load(demo_path(name))
    assert trial_path(name).read_bytes().decode() == canonical_text(trial)
    assert (trial.project, trial.digest) == (demo_path(name).name, project_digest(project))
    assert problems_with(trial, project) == ()


@pytest.mark.parametrize("name", demos())
def test_it_passes_on_the_simulation(name: str) -> None:
    outcome = Runner(load_trial(trial_path(name)), RehearsedStand(load(demo_path(name)))).run()
    reasons = [
        f"{case.name}: {step.words}: {step.reason}" for case in outcome.cases for step in case.steps if step.reason
    ]
    assert reasons == []
    assert outcome.verdict == "passed"


@pytest.mark.parametrize("name", demos())
def test_a_person_is_asked_at_the_machine_only_and_orders_are_given_to_the_simulation_only(name: str) -> None:
    for case in load_trial(trial_path(name)).cases:
        asked = any(isinstance(step, AskStep | MeasureStep) for step in case.steps)
        ordered = bool(case.setup) or any(isinstance(step, OrderStep) for step in case.steps)
        assert case.on == ("device" if asked else "simulated" if ordered else "both"), case.name


@pytest.mark.parametrize("name", demos())
def test_whatever_starts_something_stops_it_in_the_end(name: str) -> None:
    for case in load_trial(trial_path(name)).cases:
        keys = [key for step in case.steps for key in (getattr(step, "key", ""), *getattr(step, "keys", ()))]
        if "start" in keys:
            assert [getattr(step, "key", "") for step in case.clean_up] == ["stop"], case.name
