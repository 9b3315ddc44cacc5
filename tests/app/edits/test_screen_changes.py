"""Screen changes and actions."""

from __future__ import annotations

import pytest

from app import edits
from app.edits import EditRefused
from app.project.model import Condition, Project


def test_a_turn_is_added(project: Project) -> None:
    screen_change = edits.screen_change(key="down", to="next")
    assert edits.add_screen_change(project, screen_change).screen_changes == (*project.screen_changes, screen_change)
    assert edits.add_screen_change(project, screen_change, at=0).screen_changes == (
        screen_change,
        *project.screen_changes,
    )


def test_turns_that_cannot_be_added(project: Project) -> None:
    with pytest.raises(EditRefused, match="a screen change needs exactly one of 'key', 'when' and 'idle_s'"):
        edits.screen_change(to="run")
    with pytest.raises(EditRefused, match="screen 'rnu' does not exist; did you mean 'run'"):
        edits.add_screen_change(project, edits.screen_change(key="down", to="rnu"))
    with pytest.raises(EditRefused, match="key 'f1' does not exist"):
        edits.add_screen_change(project, edits.screen_change(key="f1", to="run"))
    with pytest.raises(EditRefused, match="needs a value to compare with"):
        edits.condition(signal="speed", is_="above")


def test_a_turn_is_changed(project: Project) -> None:
    after = edits.edit_screen_change(project, 0, key=None, idle_s=60, from_=None)
    assert after.screen_changes[0] == edits.screen_change(idle_s=60, to="status")
    assert after.screen_changes[1] is project.screen_changes[1]
    assert edits.edit_screen_change(project, 0, key="right") is project
    with pytest.raises(EditRefused, match="exactly one"):
        edits.edit_screen_change(project, 0, idle_s=60)
    with pytest.raises(EditRefused, match="screen 'x' does not exist"):
        edits.edit_screen_change(project, 0, to="x")
    with pytest.raises(EditRefused, match="there is no screen change 4; there are 3"):
        edits.edit_screen_change(project, 3, key="up")


def test_turns_are_deleted_and_change_places(project: Project) -> None:
    one, two, three = project.screen_changes
    assert edits.delete_screen_change(project, 1).screen_changes == (one, three)
    with pytest.raises(EditRefused, match="there is no screen change 4; there are 3"):
        edits.delete_screen_change(project, 3)
    assert edits.order_parts(project, "screen_change", [2, 0, 1]).screen_changes == (three, one, two)
    assert edits.order_parts(project, "screen_change", [1, 2, 0]).screen_changes == (two, three, one)
    assert edits.order_parts(project, "screen_change", [0, 1, 2]) is project


def test_an_action_is_added(project: Project) -> None:
    action = edits.action(when=Condition(signal="running"), do="clear", signal="running")
    assert edits.add_action(project, action).actions == (*project.actions, action)
    with pytest.raises(EditRefused, match="'do = \"set\"' needs a signal"):
        edits.action(key="up", do="set")
    with pytest.raises(EditRefused, match="signal 'x' does not exist"):
        edits.add_action(project, edits.action(key="up", do="set", signal="x"))


def test_an_action_is_changed(project: Project) -> None:
    after = edits.change_action(project, 1, do="toggle", key="enter")
    assert after.actions[1] == project.actions[1].replace(do="toggle", key="enter")
    assert edits.change_action(project, 1, do="set") is project
    with pytest.raises(EditRefused, match="screen 'x' does not exist"):
        edits.change_action(project, 1, from_="x")


def test_actions_are_deleted_and_change_places(project: Project) -> None:
    one, two = project.actions
    assert edits.delete_parts(project, "action", [0]).actions == (two,)
    assert edits.order_parts(project, "action", [1, 0]).actions == (two, one)
    with pytest.raises(EditRefused, match="there is no action 3"):
        edits.delete_parts(project, "action", [2])
