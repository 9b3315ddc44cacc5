"""The project to begin with."""

from __future__ import annotations

from app.project.files import dump, parse
from app.project.fresh import fresh_project


def test_it_can_be_saved_and_opened() -> None:
    assert parse(dump(fresh_project())) == fresh_project()


def test_it_shows_an_empty_screen_of_the_panel() -> None:
    project = fresh_project()
    assert project.screen_named[project.panel.start].text == ("",) * project.panel.rows
