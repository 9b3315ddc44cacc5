"""Trials of projects that nobody would draw up: one is always proposed, names nothing that is not there, and runs."""

from __future__ import annotations

from typing import Any

from hypothesis import HealthCheck, given, settings

from app.follower.errors import FollowerError
from app.project.model import Project
from app.proposing.propose import propose
from app.trial.coverage import Coverage
from app.trial.runner import Runner
from app.trial.script_file import problems_with
from app.trial.stand import RehearsedStand
from tests.fuzz.test_checks import PROJECTS


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(PROJECTS)
def test_any_project_has_a_trial(tables: dict[str, Any]) -> None:
    project = Project.model_validate(tables)
    try:
        trial, stand = propose(project), RehearsedStand(project)
    except FollowerError:
        return  # a start value does not fit: the device cannot be simulated
    assert problems_with(trial, project) == ()
    quick = trial.replace(cases=tuple(case for case in trial.cases if not case.name.startswith("Idle")))
    covered = Coverage(stand)
    Runner(quick, stand).run()
    assert 0 <= covered.covered.share <= 1
