"""Trial files: read with everything wrong told at once, written the same way whatever they looked like."""

from __future__ import annotations

import tomllib
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from app.project_file.canonical import canonical_text
from app.project_file.files import load
from app.trial.outcome import Verdict
from app.trial.replies import load_replies
from app.trial.runner import Runner
from app.trial.script_file import (
    TrialFileError,
    add_case,
    load_trial,
    problems_with,
    project_digest,
    save_trial,
    trial_of,
    usual_place,
)
from app.trial.stand import RehearsedStand
from projects import demo_path
from tests.app.trial.trials import PUMP, trial_in
from tests.builders import demo
from tests.trial_panel import case, small, trial

GOOD = """\
format = 1
title = "Tank"

[[case]]
name = "Level {v}"
each = [
  { v = 1.5 },
  { v = 20 },
]

[[case.step]]
key = "right"

[[case.step]]
enter = "level"
value = "{v}"

[[case.step]]
expect = { signal = "level", value = "{v}" }
"""


def problems(text: str) -> list[str]:
    with pytest.raises(TrialFileError) as caught:
        trial(text)
    return [str(problem) for problem in caught.value.problems]


def test_a_file_comes_back_as_it_was_written(tmp_path: Path) -> None:
    path = tmp_path / "tank.trial.toml"
    path.write_text(GOOD, encoding="utf-8")
    read = load_trial(path)
    again = tmp_path / "again.trial.toml"
    save_trial(read, again)
    assert load_trial(again) == read
    before = again.read_bytes()
    save_trial(load_trial(again), again)
    assert again.read_bytes() == before == canonical_text(read).encode()


def test_all_problems_are_told_each_with_its_place() -> None:
    found = problems("""
[[case]]
name = "a"
onn = "both"
step = [{ presss = "up" }, { key = "up", hold_s = -1 }, { expect = { row = 1 } }]
""")
    assert len(found) == 4
    assert any("did you mean 'on'" in problem for problem in found)
    assert all("case" in problem for problem in found)


@pytest.mark.parametrize(
    ("step", "told"),
    [
        ('{ measure = "speed", between = [1, 2] }', "step 1: 'between' does not belong here; possible keys: remark"),
        ('{ ask = "Well?", within_s = 3 }', "step 1: 'within_s' does not belong here; possible keys: remark, ask"),
        ('{ expect = { signl = "level", value = 1 } }', "step 1, expect: 'signl' does not belong here; did you mean"),
        ('{ expect = { signal = "level", value = 1, tolerance = "1 %" } }', "not a text; or such as '1%'"),
        (
            '{ expect = { signal = "mode", value = "fill" } }',
            "value: must be a number, not a text; write 'text' instead",
        ),
        ('{ enter = "level", value = "much" }', "value: must be a number, not a text; or such as '{name}'"),
        ('{ keys = "up down" }', "keys: must be a list, not a text"),
    ],
)
def test_a_step_that_was_guessed_is_told_what_there_is(step: str, told: str) -> None:
    found = problems(f'[[case]]\nname = "a"\nstep = [{step}]')
    assert len(found) == 1
    assert told in found[0]


def test_a_name_that_could_mean_two_cases_is_refused() -> None:
    assert "taken by another case" in problems('[[case]]\nname = "a"\n[[case]]\nname = "a"')[0]
    assert "names of their own" in problems('[[case]]\nname = "a"\neach = [{ v = 1 }, { v = 2 }]')[0]


def test_a_placeholder_needs_a_value_in_every_row() -> None:
    text = '[[case]]\nname = "{v}"\neach = [{ v = 1 }, { w = 2 }]'
    assert "row 2 of 'each'" in problems(text)[0]
    assert "there is no 'each'" in problems('[[case]]\nname = "a"\nstep = [{ key = "{k}" }]')[0]


def test_a_newer_format_says_so_and_a_missing_one_too() -> None:
    with pytest.raises(TrialFileError, match="newer version"):
        trial_of({"format": 2})
    with pytest.raises(TrialFileError, match="'format' is missing"):
        trial_of({})


def test_a_file_that_is_no_toml_names_the_line(tmp_path: Path) -> None:
    path = tmp_path / "x.trial.toml"
    path.write_text("format = 1\n[[case]\n", encoding="utf-8")
    with pytest.raises(TrialFileError, match="2"):
        load_trial(path)


def test_what_the_project_does_not_have_is_told_with_what_may_be_meant() -> None:
    written = case(
        """{ key = "rigth" }
        { enter = "levle", value = 1 }
        { order = "tnak.level=1" }
        { order = "level" }
        { expect = { screen = "sett" } }
        { expect = { row = 4, text = "" } }
        { wait = { signal = "modee", text = "fill" } }
        { expect = { alarm = "too hgih", state = "NORM" } }""",
        '{ keys = ["hlat"] }',
        'setup = ["tonk.level=1"]',
    )
    found = [str(problem) for problem in problems_with(written, small())]
    assert len(found) == 10
    assert sum("did you mean" in problem for problem in found) >= 7
    assert problems_with(case('{ key = "right" }'), small()) == ()
    entered = problems_with(case('{ enter = "pump", value = 1 }'), small())
    assert [problem.message for problem in entered] == ["no screen has an entry field of 'pump'"]


def test_what_only_a_row_names_is_looked_for_too_and_told_once() -> None:
    rows = 'each = [{ what = "level", v = 1 }, { what = "levle", v = 2 }, { what = "levle", v = 3 }]'
    steps = '[{ enter = "{what}", value = "{v}" }, { order = "tank.{what}=1" }]'
    text = f'[[case]]\nname = "{{what}} {{v}}"\n{rows}\nstep = {steps}'
    found = problems_with(trial(text), small())
    assert [problem.message for problem in found] == ["there is no signal 'levle' in the project"]


def test_the_digest_is_of_what_the_project_says_not_of_how_it_is_laid_out(tmp_path: Path) -> None:
    path = demo_path("booster-pump")
    project = load(path)
    loose = tmp_path / "p.toml"
    loose.write_text("# a remark\n" + path.read_text(encoding="utf-8"), encoding="utf-8")
    assert project_digest(load(loose)) == project_digest(project)
    assert project_digest(project.replace(title="another")) != project_digest(project)


def test_it_lies_beside_the_project_under_its_name() -> None:
    assert usual_place(Path("plant/booster-pump.toml")) == Path("plant/booster-pump.trial.toml")


def test_a_case_is_appended_and_a_trial_made_for_it(tmp_path: Path) -> None:
    path, project = tmp_path / "booster-pump.trial.toml", demo("booster-pump")
    first, second, _ = trial_in(PUMP).cases
    add_case(path, first, project, "booster-pump.toml")
    add_case(path, second, project, "booster-pump.toml")
    trial = load_trial(path)
    assert trial.cases == (first, second)
    assert (trial.project, trial.digest) == ("booster-pump.toml", project_digest(project))
    before = path.read_bytes()
    with pytest.raises(TrialFileError, match="taken by another case"):
        add_case(path, second, project, "booster-pump.toml")
    assert path.read_bytes() == before


def test_the_examples_of_the_readme_are_a_trial_of_the_demo_and_its_answers(tmp_path: Path) -> None:
    text = (Path(__file__).parents[3] / "README.md").read_text(encoding="utf-8")
    _, example, answers, *_ = text.split("## The trial and its record")[1].split("```toml\n")
    trial = trial_of(tomllib.loads(example.split("```")[0], parse_float=Decimal))
    assert problems_with(trial, demo("booster-pump")) == ()
    outcome = Runner(trial, RehearsedStand(demo("booster-pump"))).run()
    results = [[step.result.value for step in case.steps] for case in outcome.cases]
    assert results == [["pass", "pass", "pass", "pass", "not tested", "not tested", "pass"]] * 2
    (tmp_path / "answers.toml").write_text(answers.split("```")[0], encoding="utf-8")
    known = load_replies(tmp_path / "answers.toml")
    assert known.never_asked(trial) == []
    answered = Runner(trial, RehearsedStand(demo("booster-pump")), known, today=date(2026, 12, 1)).run()
    assert answered.verdict is Verdict.PASSED
