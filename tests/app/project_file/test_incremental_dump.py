"""The text of a project under edit is always its canonical text, however little of it was written anew."""

from __future__ import annotations

import random
from collections.abc import Callable

import pytest

from app import edits
from app.project.model import Project
from app.project_file.canonical import canonical
from app.project_file.files import load, parse
from app.project_file.incremental_dump import KeptText
from projects import demo_path, demos


@pytest.mark.parametrize("name", demos())
def test_it_follows_edits_of_every_kind(name: str) -> None:
    project = load(demo_path(name))
    chance = random.Random(7)
    kept = KeptText()
    screens = [screen.name for screen in project.screens]
    steps: list[Callable[[Project], Project]] = [
        lambda p: edits.type_text(p, chance.choice(screens), 0, 0, chance.choice("abc")),
        lambda p: edits.set_title(p, f"title {chance.random()}"),
        lambda p: edits.set_notes(p, "one\ntwo"),
        lambda p: edits.rename_signal(p, p.signals[0].name, f"signal {chance.randrange(10**6)}"),
        lambda p: p.replace(signals=p.signals[::-1]),
        lambda p: p.replace(screen_changes=p.screen_changes[1:] + p.screen_changes[:1]),
    ]
    for _ in range(40):
        assert kept.text(project) == canonical(project)
        project = chance.choice(steps)(project)
    assert parse(kept.text(project)) == project


def test_it_is_prepared_in_slices(big_project: Project) -> None:
    kept = KeptText()
    slices = 1
    while not kept.prepare(big_project, 0.0):
        slices += 1
    assert slices > 100
    assert kept.text(big_project) == canonical(big_project)
    assert kept.prepare(big_project, 0.0), "nothing is left to write"


def test_it_forgets_what_the_project_no_longer_has(big_project: Project) -> None:
    kept = KeptText()
    kept.text(big_project)
    small = big_project.replace(screens=big_project.screens[:1], signals=(), screen_changes=())
    kept.text(small)
    assert not kept.prepare(big_project, 0.0)
