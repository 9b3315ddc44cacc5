"""The list of screens."""

from __future__ import annotations

import pytest

from app import edits
from app.edits import EditRefused
from app.project.model import Project
from app.project.references import dangling


def names(project: Project) -> list[str]:
    return [screen.name for screen in project.screens]


def test_a_screen_is_added(project: Project) -> None:
    after = edits.add_screen(project, "ramps")
    assert names(after) == ["run", "status", "fault", "ramps"]
    assert after.screen_named["ramps"].text == ("", "", "")
    assert names(edits.add_screen(project, "ramps", at=1)) == ["run", "ramps", "status", "fault"]


def test_a_new_screen_finds_a_free_name(project: Project) -> None:
    after = edits.add_screen(edits.add_screen(edits.add_screen(project)))
    assert names(after)[3:] == ["screen", "screen 2", "screen 3"]


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("run", "there is already a screen 'run'; choose another name"),
        ("next", "a screen cannot be called 'next'"),
        ("", "name: is empty"),
        (" x", "name: starts or ends with a space"),
        ("x" * 41, "name: has 41 characters; at most 40 are allowed"),
    ],
)
def test_names_that_cannot_be(project: Project, name: str, words: str) -> None:
    with pytest.raises(EditRefused, match=words):
        edits.add_screen(project, name)
    with pytest.raises(EditRefused, match=words):
        edits.rename_screen(project, "status", name)
    with pytest.raises(EditRefused, match=words):
        edits.duplicate_screen(project, "status", name)


def test_a_copy_has_text_and_fields_but_no_turns(project: Project) -> None:
    after = edits.duplicate_screen(project, "run")
    assert names(after) == ["run", "run 2", "status", "fault"]
    assert after.screens[1].fields is project.screens[0].fields
    assert after.screens[1].text == project.screens[0].text
    assert after.screen_changes is project.screen_changes
    longest = edits.rename_screen(project, "run", "x" * 40)
    assert names(edits.duplicate_screen(longest, "x" * 40))[1] == "x" * 34 + " 2"


def test_uses_follow_a_new_name(project: Project) -> None:
    after = edits.rename_screen(project, "run", "drive")
    assert names(after) == ["drive", "status", "fault"]
    assert after.panel.start == "drive"
    assert [(screen_change.from_, screen_change.to) for screen_change in after.screen_changes] == [
        ("drive", "status"),
        ("status", "drive"),
        (None, "fault"),
    ]
    assert dangling(after) == ()
    assert edits.rename_screen(project, "run", "run") is project


def test_a_screen_that_turns_lead_to_stays(project: Project) -> None:
    with pytest.raises(
        EditRefused, match="screen 'status' cannot be deleted: screen changes go to it: screen change 1"
    ) as caught:
        edits.delete_screen(project, "status")
    assert [use.place for use in caught.value.uses] == [("screen_change", 0, "to")]
    with pytest.raises(EditRefused, match="it is the start screen, and screen changes go to it: screen change 2"):
        edits.delete_screen(project, "run")


def test_a_screen_is_deleted_with_what_begins_on_it(project: Project) -> None:
    alone = edits.delete_screen_change(project, 0)
    after = edits.delete_screen(alone, "status")
    assert names(after) == ["run", "fault"]
    assert [screen_change.to for screen_change in after.screen_changes] == ["fault"]
    assert [action.key for action in after.actions] == ["up"]
    assert dangling(after) == ()


def test_a_screen_is_deleted_with_the_turns_to_it(project: Project) -> None:
    after = edits.delete_screen(project, "status", with_screen_changes=True)
    assert [screen_change.to for screen_change in after.screen_changes] == ["fault"]
    assert dangling(after) == ()
    with pytest.raises(EditRefused, match="it is the start screen"):
        edits.delete_screen(project, "run", with_screen_changes=True)


def test_screens_change_places(project: Project) -> None:
    assert names(edits.move_screen(project, "run", 2)) == ["status", "fault", "run"]
    assert names(edits.move_screen(project, "fault", 0)) == ["fault", "run", "status"]
    assert edits.move_screen(project, "run", 0) is project
    with pytest.raises(EditRefused, match="there is no screen 4; there are 3"):
        edits.move_screen(project, "run", 3)


def test_notes(project: Project) -> None:
    assert edits.set_screen_notes(project, "run", "why").screen_named["run"].notes == "why"


def test_a_screen_that_is_not_there(project: Project) -> None:
    with pytest.raises(EditRefused, match="screen 'rnu' does not exist; did you mean 'run'"):
        edits.delete_screen(project, "rnu")
