"""Turns and actions."""

from __future__ import annotations

import pytest

from app import edits
from app.edits import EditRefused
from app.project.model import Condition, Project


def test_a_turn_is_added(project: Project) -> None:
    turn = edits.turn(key="down", to="next")
    assert edits.add_turn(project, turn).screen_changes == (*project.screen_changes, turn)
    assert edits.add_turn(project, turn, at=0).screen_changes == (turn, *project.screen_changes)


def test_turns_that_cannot_be_added(project: Project) -> None:
    with pytest.raises(EditRefused, match="a screen change needs exactly one of 'key', 'when' and 'idle_s'"):
        edits.turn(to="run")
    with pytest.raises(EditRefused, match="screen 'rnu' does not exist; did you mean 'run'"):
        edits.add_turn(project, edits.turn(key="down", to="rnu"))
    with pytest.raises(EditRefused, match="key 'f1' does not exist"):
        edits.add_turn(project, edits.turn(key="f1", to="run"))
    with pytest.raises(EditRefused, match="needs a value to compare with"):
        edits.condition(signal="speed", is_="above")


def test_a_turn_is_changed(project: Project) -> None:
    after = edits.change_turn(project, 0, key=None, idle_s=60, from_=None)
    assert after.screen_changes[0] == edits.turn(idle_s=60, to="status")
    assert after.screen_changes[1] is project.screen_changes[1]
    assert edits.change_turn(project, 0, key="right") is project
    with pytest.raises(EditRefused, match="exactly one"):
        edits.change_turn(project, 0, idle_s=60)
    with pytest.raises(EditRefused, match="screen 'x' does not exist"):
        edits.change_turn(project, 0, to="x")
    with pytest.raises(EditRefused, match="there is no screen change 4; there are 3"):
        edits.change_turn(project, 3, key="up")


def test_turns_are_deleted_and_change_places(project: Project) -> None:
    one, two, three = project.screen_changes
    assert edits.delete_turn(project, 1).screen_changes == (one, three)
    with pytest.raises(EditRefused, match="there is no screen change 4; there are 3"):
        edits.delete_turn(project, 3)
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
    assert after.actions[1] == project.actions[1].but(do="toggle", key="enter")
    assert edits.change_action(project, 1, do="set") is project
    with pytest.raises(EditRefused, match="screen 'x' does not exist"):
        edits.change_action(project, 1, from_="x")


def test_actions_are_deleted_and_change_places(project: Project) -> None:
    one, two = project.actions
    assert edits.delete_parts(project, "action", [0]).actions == (two,)
    assert edits.order_parts(project, "action", [1, 0]).actions == (two, one)
    with pytest.raises(EditRefused, match="there is no action 3"):
        edits.delete_parts(project, "action", [2])
