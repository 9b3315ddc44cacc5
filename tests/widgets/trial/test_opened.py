"""A trial file and its project: found beside it, read, compared."""

from __future__ import annotations

from pathlib import Path

import pytest

from app.project.model import Project
from app.trial.script_file import TrialFileError, project_digest
from tests.app.trial.trials import trial_in
from tests.widgets.trial.trials import PUMP
from widgets.trial.opened import fit_of, read_trial, stamp_of
from widgets.trial.steps_model import StepKey

ROWS = """
format = 1
[[case]]
name = "{screen} is shown"
each = [{ screen = "measured" }, { screen = "motor" }]
setup = ["pomp.jammed=on"]
[[case.step]]
key = "rihgt"
[[case.step]]
expect = { screen = "{screen}" }
"""


def test_a_file_that_was_changed_has_another_stamp(tmp_path: Path) -> None:
    file = tmp_path / "x.trial.toml"
    assert stamp_of(file) is None
    file.write_text(PUMP, "utf-8")
    opened = read_trial(file)
    assert opened.stamp == stamp_of(file)
    file.write_text(PUMP + "\n", "utf-8")
    assert opened.stamp != stamp_of(file)


def test_what_is_wrong_with_a_file_is_told_at_once(tmp_path: Path) -> None:
    file = tmp_path / "x.trial.toml"
    file.write_text(PUMP.replace("key", "kay"), "utf-8")
    with pytest.raises(TrialFileError) as error:
        read_trial(file)
    assert len(error.value.problems) == 2


def test_a_trial_fits_the_state_of_the_project_that_it_names(pump: Project) -> None:
    digest = project_digest(pump)
    for text, whole in (
        (PUMP, True),
        (f'digest = "{digest}"\n{PUMP}', True),
        (f'digest = "{"0" * 64}"\n{PUMP}', False),
    ):
        assert fit_of(trial_in(text), pump).whole is whole
    assert fit_of(trial_in(f'digest = "{"0" * 64}"\n{PUMP}'), pump).other_state


def test_a_place_in_the_file_leads_to_the_rows_that_it_comes_to(tmp_path: Path, pump: Project) -> None:
    file = tmp_path / "x.trial.toml"
    file.write_text(ROWS, "utf-8")
    opened = read_trial(file)
    both = ("measured is shown", "motor is shown")
    setup, key = fit_of(opened.trial, pump).problems
    assert opened.keys_at(setup.place) == [each for name in both for each in (StepKey(name, "setup", 1), StepKey(name))]
    assert opened.keys_at(key.place) == [each for name in both for each in (StepKey(name, "step", 1), StepKey(name))]
    assert opened.keys_at(("title",)) == []
