"""Placing, moving and changing fields."""

from __future__ import annotations

import pytest

from app.edits import (
    EditRefused,
    add_field,
    change_field,
    delete_fields,
    move_fields,
    room_at,
)
from app.project.model import Condition, Field, Project, Screen


def fields(project: Project) -> list[tuple[tuple[int, int], int]]:
    return [(field.at, field.width) for field in project.screen_named["run"].fields]


def field(row: int, column: int, width: int, signal: str = "speed") -> Field:
    return Field(at=(row, column), width=width, signal=signal)


def test_a_field_is_placed(project: Project) -> None:
    after = add_field(project, "run", field(1, 0, 16))
    assert fields(after) == [((0, 6), 5), ((2, 6), 7), ((1, 0), 16)]
    assert after.screens[0].fields[0] is project.screens[0].fields[0]


@pytest.mark.parametrize(
    ("placed", "words"),
    [
        (field(3, 0, 1), "would start outside the panel"),
        (field(-1, 0, 1), "would start outside the panel"),
        (field(0, 16, 1), "would start outside the panel"),
        (field(0, -1, 3), "would start outside the panel"),
        (field(1, 12, 5), "would reach 1 cell past the right edge of the panel"),
        (field(1, 12, 8), "would reach 4 cells past the right edge of the panel"),
        (field(0, 4, 3), "would overlap field 1 \\(signal 'speed'\\)"),
        (field(0, 10, 3), "would overlap field 1"),
        (field(2, 0, 16), "would overlap field 2 \\(signal 'running'\\)"),
        (field(1, 0, 3, "sped"), "signal 'sped' does not exist; did you mean 'speed'\\?"),
    ],
)
def test_a_field_that_cannot_be_placed(project: Project, placed: Field, words: str) -> None:
    with pytest.raises(EditRefused, match=words):
        add_field(project, "run", placed)


def test_fields_may_touch(project: Project) -> None:
    assert len(fields(add_field(add_field(project, "run", field(0, 0, 6)), "run", field(0, 11, 5)))) == 4


def test_a_field_is_moved_resized_and_changed(project: Project) -> None:
    assert fields(change_field(project, "run", 0, at=(1, 11)))[0] == ((1, 11), 5)
    assert fields(change_field(project, "run", 0, width=10))[0] == ((0, 6), 10)
    after = change_field(project, "run", 0, signal="preset", entry=True, blink=Condition(signal="running"))
    assert after.screens[0].fields[0] == Field(
        at=(0, 6), width=5, signal="preset", entry=True, blink=Condition(signal="running")
    )
    assert change_field(project, "run", 0, width=5) is project


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"width": 11}, "1 cell past"),
        ({"width": 0}, "width: must be at least 1, not 0"),
        ({"width": "5"}, "width: must be a whole number, not a text"),
        ({"at": (2, 0), "width": 7}, "would overlap field 2"),
        ({"kind": "text"}, "kind: must be 'number', 'hexadecimal', 'choice' or 'bar', not 'text'"),
        ({"signal": "x"}, "signal 'x' does not exist"),
        ({"blink": Condition(signal="x")}, "signal 'x' does not exist"),
        ({"colour": "red"}, "colour"),
    ],
)
def test_a_change_that_cannot_be(project: Project, changes: dict[str, object], words: str) -> None:
    with pytest.raises(EditRefused, match=words):
        change_field(project, "run", 0, **changes)


def test_a_field_that_is_not_there(project: Project) -> None:
    with pytest.raises(EditRefused, match="there is no field 3; there are 2"):
        change_field(project, "run", 2, at=(0, 0))
    with pytest.raises(EditRefused, match="there is no field 3; there are 2"):
        move_fields(project, "run", [0, 2], 0, 1)
    with pytest.raises(EditRefused, match="there is no field 0"):
        delete_fields(project, "run", [-1])


def test_fields_are_moved_together(project: Project) -> None:
    assert fields(move_fields(project, "run", [0, 1], 0, 1)) == [((0, 7), 5), ((2, 7), 7)]
    with pytest.raises(EditRefused, match="outside"):
        move_fields(project, "run", [0, 1], 1, 0)
    assert move_fields(project, "run", [0], 0, 0) is project
    assert move_fields(project, "run", [], 1, 0) is project


def test_fields_moved_together_may_take_each_others_places(project: Project) -> None:
    side_by_side = add_field(project, "run", field(0, 11, 5))
    after = move_fields(side_by_side, "run", [0, 2], 0, -5)
    assert fields(after) == [((0, 1), 5), ((2, 6), 7), ((0, 6), 5)]
    with pytest.raises(EditRefused, match="would overlap field 1"):
        move_fields(side_by_side, "run", [2], 0, -5)


def test_fields_are_deleted(project: Project) -> None:
    assert fields(delete_fields(project, "run", [0])) == [((2, 6), 7)]
    assert fields(delete_fields(project, "run", [1, 0])) == []
    assert delete_fields(project, "run", []) is project


def test_fields_that_lie_badly_in_a_file_can_be_mended_step_by_step(project: Project) -> None:
    bad = project.replace(
        screens=(Screen(name="run", fields=(field(0, 0, 30), field(0, 5, 5), field(9, 0, 4))), *project.screens[1:])
    )
    assert fields(change_field(bad, "run", 0, width=20))[0] == ((0, 0), 20)
    assert change_field(bad, "run", 1, entry=True).screens[0].fields[1].entry
    assert fields(change_field(bad, "run", 2, at=(1, 0)))[2] == ((1, 0), 4)
    with pytest.raises(EditRefused, match="past the right edge"):
        change_field(bad, "run", 0, width=31)
    with pytest.raises(EditRefused, match="would overlap field 1"):
        add_field(bad, "run", field(0, 1, 1))


def test_the_room_for_a_field(project: Project) -> None:
    assert room_at(project, "run", 0, 0) == 6
    assert room_at(project, "run", 0, 6) == 0
    assert room_at(project, "run", 0, 8) == 0
    assert room_at(project, "run", 0, 11) == 5
    assert room_at(project, "run", 0, 6, without=[0]) == 10
    assert room_at(project, "run", 1, 0) == 16
    assert room_at(project, "run", 3, 0) == 0
    assert room_at(project, "run", 0, 16) == 0
