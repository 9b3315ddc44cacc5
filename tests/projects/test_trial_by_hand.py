"""A trial that was written by hand, from the README and the help alone: the conveyor that a starter makes.

It says what the machine is to do, not what the project says: so it finds what a proposed trial cannot know.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from app.project.model import Project
from app.project_file.canonical import canonical
from app.project_file.files import parse
from app.starters.answers import Answers
from app.starters.build import build
from app.trial.replies import load_replies
from app.trial.runner import Runner
from app.trial.script_file import load_trial, problems_with
from app.trial.stand import RehearsedStand

HERE = Path(__file__).parent / "by_hand"
CONVEYOR = build(Answers(title="Belt conveyor of the packing table"))


def not_passed(project: Project, machine: Project | None = None) -> list[str]:
    """The cases that do not pass, by name, with somebody who answers as a sound machine has it."""
    trial, known = load_trial(HERE / "conveyor.trial.toml"), load_replies(HERE / "conveyor.answers.toml")
    assert problems_with(trial, project) == ()
    assert known.never_asked(trial) == []
    outcome = Runner(trial, RehearsedStand(project, machine=machine), known).run()
    return [case.name for case in outcome.cases if case.result != "pass"]


def broken(old: str, new: str) -> Project:
    text = canonical(CONVEYOR)
    assert text.count(old) == 1
    return parse(text.replace(old, new))


def test_it_passes_on_the_simulation() -> None:
    assert not_passed(CONVEYOR) == []


@pytest.mark.parametrize(
    ("old", "new", "found"),
    [
        ("limits = [-50, 50]\nstep = 0.5", "limits = [-50, 40]\nstep = 0.5", "the set point goes to 50 and not beyond"),
        (
            "limits = [-50, 50]\nstep = 0.5",
            "limits = [-60, 50]\nstep = 0.5",
            "the set point goes to -50 and not beyond",
        ),
        ('"motor blocked"', '"motor overheated"', "a blocked motor trips, is told, and RESET leads back"),
        ('register = 401\nencoding = "int16"', 'register = 401\nencoding = "uint16"', "the direction is reversed"),
    ],
)
def test_it_finds_what_somebody_has_broken_without_a_machine(old: str, new: str, found: str) -> None:
    assert not_passed(broken(old, new)) == [found]


def test_a_wrong_register_is_found_against_the_machine_alone() -> None:
    """A simulated device has the registers that the project says, also the wrong one."""
    wrong = broken("register = 401\n", "register = 403\n")
    assert not_passed(wrong) == []
    assert not_passed(wrong, machine=CONVEYOR) == [
        "starts, reaches its set point and stops",
        "the direction is reversed",
    ]
