"""What was worked out of a project, kept as long as it lives."""

from __future__ import annotations

import gc

from app.project.project_cache import ProjectCache
from tests.builders import fresh_project


def test_what_was_made_of_a_project_is_kept_for_it() -> None:
    kept = ProjectCache[list[int]]()
    project = fresh_project()
    assert kept.get(project) is None
    made = kept.keep(project, [1])
    assert kept.get(project) is made


def test_another_project_has_nothing_though_it_is_equal() -> None:
    kept = ProjectCache[str]()
    project, same = fresh_project(), fresh_project()
    assert project == same
    kept.keep(project, "made")
    assert kept.get(same) is None


def test_what_is_kept_anew_takes_the_place_of_the_former() -> None:
    kept = ProjectCache[str]()
    project = fresh_project()
    kept.keep(project, "former")
    kept.keep(project, "now")
    gc.collect()
    assert kept.get(project) == "now"
    assert len(kept) == 1


def test_a_project_that_is_gone_takes_its_own_along() -> None:
    kept = ProjectCache[str]()
    stays = fresh_project()
    kept.keep(stays, "stays")
    goes = fresh_project()
    kept.keep(goes, "goes")
    assert len(kept) == 2
    del goes
    gc.collect()
    assert len(kept) == 1
    assert kept.get(stays) == "stays"


def test_an_id_that_is_given_again_brings_nothing_back() -> None:
    kept = ProjectCache[int]()
    for number in range(200):
        project = fresh_project()
        assert kept.get(project) is None
        kept.keep(project, number)
        del project


def test_it_is_made_once() -> None:
    kept = ProjectCache[list[int]]()
    project = fresh_project()
    made = kept.of(project, lambda _project: [])
    assert kept.of(project, lambda _project: [1]) is made
    assert kept.of(fresh_project(), lambda _project: [1]) == [1]
