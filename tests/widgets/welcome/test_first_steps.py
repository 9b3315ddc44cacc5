"""The first steps tick themselves as the project gets there, lead to their places, and can be put away for good."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from app.project.model import Project
from app.starters.answers import Answers
from app.starters.build import build
from tests.builders import fresh_project
from tests.widgets.driving import shown
from widgets.document.document import Document
from widgets.document.settings import Settings
from widgets.welcome.first_steps import STEPS, FirstSteps


@pytest.fixture
def settings() -> Settings:
    return Settings(keep=False)


@pytest.fixture
def steps(settings: Settings, qtbot: QtBot) -> FirstSteps:
    return shown(FirstSteps(Document(fresh_project()), settings), qtbot, 236, 300)


def done(steps: FirstSteps) -> list[str]:
    return [name for name in STEPS if steps.is_done(name)]


def test_each_step_ticks_itself_when_the_project_has_it(steps: FirstSteps) -> None:
    whole = build(Answers())
    document = steps._document

    def give(**parts: object) -> None:
        assert document.do("step", lambda project: project.replace(**parts)) is None

    assert done(steps) == []
    give(lines=whole.lines)
    assert done(steps) == ["line"]
    give(followers=whole.followers)
    assert done(steps) == ["line", "device"]
    give(signals=whole.signals)
    assert done(steps) == ["line", "device", "signals"]
    give(panel=whole.panel, screens=whole.screens)
    assert done(steps) == ["line", "device", "signals", "screen"]
    give(screen_changes=whole.screen_changes)
    assert done(steps) == ["line", "device", "signals", "screen", "changes"]
    steps.note("try")
    steps.note("connect")
    assert done(steps) == list(STEPS)
    steps.section.set_open(False)
    assert steps.section.head.accessibleDescription().endswith("7 of 7")
    document.undo()
    assert not steps.is_done("changes")


def test_what_was_done_is_told_by_words_too(steps: FirstSteps) -> None:
    before = steps.steps["line"].accessibleName()
    steps._document.do("step", lambda project: project.replace(lines=build(Answers()).lines))
    assert (before, steps.steps["line"].accessibleName()) == ("Add a line: to do", "Add a line: done")


def test_another_project_begins_anew(steps: FirstSteps) -> None:
    steps.note("try")
    steps._document.open(fresh_project(), None)
    assert done(steps) == []


def test_every_step_leads_to_its_place_by_key_and_by_mouse(steps: FirstSteps) -> None:
    wanted: list[str] = []
    steps.wanted.connect(wanted.append)
    for button in steps.steps.values():
        button.setFocus()
        QTest.keyClick(button, Qt.Key.Key_Space)
    assert wanted == list(STEPS)
    QTest.mouseClick(steps.steps["line"], Qt.MouseButton.LeftButton)
    assert wanted[-1] == "line"


def test_closed_it_is_one_line_and_stays_closed(steps: FirstSteps, settings: Settings, qtbot: QtBot) -> None:
    high = steps.sizeHint().height()
    QTest.keyClick(steps.section.head, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: steps.sizeHint().height() <= 40)
    assert high > 150
    again = FirstSteps(Document(fresh_project()), settings)
    qtbot.addWidget(again)
    assert not again.section.is_open


def test_it_opens_by_itself_for_who_has_hardly_begun(settings: Settings, qtbot: QtBot) -> None:
    steps = FirstSteps(Document(fresh_project()), settings)
    qtbot.addWidget(steps)
    assert steps.section.is_open
    steps._document.open(build(Answers()), None)
    assert not steps.section.is_open
    assert settings.first_steps == "", "nobody has closed it"


def test_put_away_it_stays_away_until_it_is_brought_back(steps: FirstSteps, settings: Settings, qtbot: QtBot) -> None:
    QTest.mouseClick(steps.away, Qt.MouseButton.LeftButton)
    assert not steps.isVisible()
    again = FirstSteps(Document(fresh_project()), settings)
    qtbot.addWidget(again)
    assert again.isHidden()
    assert settings.first_steps == "away"
    steps.put_away(False)
    assert steps.isVisible()
    assert settings.first_steps == "open"


def test_a_new_panel_lacks_nothing_but_to_be_tried(settings: Settings, qtbot: QtBot) -> None:
    project: Project = build(Answers())
    steps = FirstSteps(Document(project), settings)
    qtbot.addWidget(steps)
    assert [name for name in STEPS if not steps.is_done(name)] == ["try", "connect"]
