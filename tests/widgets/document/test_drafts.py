"""Drafts follow the parts that they belong to."""

from __future__ import annotations

import pytest
from pytestqt.qtbot import QtBot

from app import edits
from app.project.model import Project
from widgets.document.drafts import Drafts, follow_drafts


@pytest.fixture
def drafts(qapp: object) -> Drafts:
    return Drafts()


def test_a_draft_is_kept_and_dropped(drafts: Drafts, qtbot: QtBot) -> None:
    with qtbot.waitSignal(drafts.changed):
        drafts.keep(("signal", "x"), "Step", ("fast",), "no number")
    with qtbot.assertNotEmitted(drafts.changed):
        drafts.keep(("signal", "x"), "Step", ("fast",), "no number")
    assert drafts.get(("signal", "x"), "Step") == (("fast",), "no number")
    drafts.drop(("signal", "x"), "Step")
    assert drafts.get(("signal", "x"), "Step") is None


def test_a_turn_that_moves_takes_its_draft_along(drafts: Drafts, project: Project) -> None:
    drafts.keep(("screen_change", 0), "Idle time", ("x",), "no number")
    order = [1, 2, 3, 0, *range(4, len(project.screen_changes))]
    follow_drafts(drafts, project, edits.order_parts(project, "screen_change", order))
    assert drafts.get(("screen_change", 3), "Idle time")


def test_an_edited_turn_keeps_its_draft(drafts: Drafts, project: Project) -> None:
    drafts.keep(("screen_change", 0), "Idle time", ("x",), "no number")
    follow_drafts(drafts, project, edits.edit_screen_change(project, 0, key="up"))
    assert drafts.get(("screen_change", 0), "Idle time")


def test_what_is_gone_has_no_draft(drafts: Drafts, project: Project) -> None:
    drafts.keep(("action", 1), "Number", ("x",), "no number")
    drafts.keep(("signal", "no such"), "Step", ("x",), "no number")
    drafts.keep(("field", "run", 0), "Width", ("x",), "no number")
    drafts.keep(("field", "run", 1), "Width", ("y",), "no number")
    drafts.keep(("panel",), "Rows", ("x",), "no number")
    after = edits.delete_parts(edits.delete_fields(project, "run", [0]), "action", [1])
    follow_drafts(drafts, project, after)
    assert {subject for subject, *_ in drafts.all()} == {("field", "run", 0), ("panel",)}
    assert drafts.get(("field", "run", 0), "Width") == (("y",), "no number")


def test_a_message_keeps_its_draft_while_its_language_is_there(drafts: Drafts, project: Project) -> None:
    def then(before: Project, *languages: str) -> tuple[Project, set[object]]:
        after = edits.set_languages(before, languages)
        follow_drafts(drafts, before, after)
        return after, {subject for subject, *_ in drafts.all()}

    drafts.keep(("messages",), "Refused", ("x" * 161,), "too long")
    now, subjects = then(project, "English", "Deutsch")
    assert subjects == {("messages", "English")}
    drafts.keep(("messages", "Deutsch"), "Refused", ("y" * 161,), "too long")
    now, subjects = then(now, "Deutsch", "English")
    assert subjects == {("messages", "English"), ("messages", "Deutsch")}
    renamed = edits.rename_language(now, "English", "British")
    follow_drafts(drafts, now, renamed)
    assert drafts.get(("messages", "British"), "Refused") == (("x" * 161,), "too long")
    now, subjects = then(renamed, "Deutsch")
    assert subjects == {("messages", "Deutsch")}
    _, subjects = then(now)
    assert subjects == {("messages",)}
