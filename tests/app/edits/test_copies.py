"""Copies that count up: names, registers, bits; and names made from a pattern."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from app.edits import EditRefused
from app.edits.copies import (
    add_counted_copies,
    counted_copies,
    counted_name,
    likely_step,
    numbered_names,
)
from app.edits.signals import add_signal
from app.project.model import Bit, BitSignal, Project, RegisterSignal
from app.project.references import dangling


def register(name: str, number: int, encoding: str = "uint16") -> RegisterSignal:
    return RegisterSignal.model_validate({"name": name, "follower": "fan", "register": number, "encoding": encoding})


def with_signals(project: Project, *signals: RegisterSignal | BitSignal) -> Project:
    for signal in signals:
        project = add_signal(project, signal)
    return project


def told(parts: tuple[object, ...]) -> list[tuple[str, int]]:
    return [
        (part.name, part.bit.number if isinstance(part, BitSignal) else part.number)
        for part in parts
        if isinstance(part, BitSignal | RegisterSignal)
    ]


@pytest.mark.parametrize(
    ("name", "up", "counted"),
    [
        ("speed", 1, "speed 2"),
        ("belt 1 speed", 1, "belt 2 speed"),
        ("belt 09", 2, "belt 11"),
        ("line 2 belt 9", 1, "line 2 belt 10"),
        ("M007a", 3, "M010a"),
    ],
)
def test_the_last_number_of_a_name_counts(name: str, up: int, counted: str) -> None:
    assert counted_name(name, up) == counted


def test_copies_of_one_signal(project: Project) -> None:
    project = with_signals(project, register("belt 1", 500, "uint32"))
    assert likely_step(project, ["belt 1"]) == 2
    assert told(counted_copies(project, ["belt 1"], 3, 2)) == [("belt 2", 502), ("belt 3", 504), ("belt 4", 506)]
    after = add_counted_copies(project, ["belt 1"], 2, 2)
    assert [part.name for part in after.signals][-3:] == ["belt 1", "belt 2", "belt 3"]


def test_numbers_that_are_taken_are_left_out_with_their_registers(project: Project) -> None:
    project = with_signals(project, register("belt 1", 500), register("belt 2", 501))
    assert told(counted_copies(project, ["belt 1"], 2, 1)) == [("belt 3", 502), ("belt 4", 503)]


def test_a_group_is_copied_as_a_whole(project: Project) -> None:
    project = with_signals(
        project,
        register("station 1 speed", 100),
        register("station 1 state", 101),
        BitSignal(name="station 1 runs", bit=Bit(of="station 1 state", number=4)),
    )
    names = ["station 1 speed", "station 1 state", "station 1 runs"]
    assert likely_step(project, names) == 2
    copies = counted_copies(project, names, 2, 10)
    assert told(copies) == [
        ("station 2 speed", 110),
        ("station 2 state", 111),
        ("station 2 runs", 4),
        ("station 3 speed", 120),
        ("station 3 state", 121),
        ("station 3 runs", 4),
    ]
    assert isinstance(copies[2], BitSignal)
    assert copies[2].bit.of == "station 2 state"


def test_a_series_goes_on_where_it_ends(project: Project) -> None:
    project = with_signals(project, register("a 1", 100), register("a 2", 102))
    assert likely_step(project, ["a 1", "a 2"]) == 2
    assert told(counted_copies(project, ["a 1", "a 2"], 1, 2)) == [("a 3", 104), ("a 4", 106)]


def test_a_bit_counts_to_the_next_bit(project: Project) -> None:
    assert told(counted_copies(project, ["running"], 2, 1)) == [("running 2", 5), ("running 3", 6)]


def test_copies_that_cannot_be(project: Project) -> None:
    with pytest.raises(EditRefused, match="the copy 'running 61': number: must be at most 63, not 64"):
        counted_copies(project, ["running"], 100, 1)
    with pytest.raises(EditRefused, match="must be 1 to 2000, not 0"):
        counted_copies(project, ["running"], 0, 1)
    with pytest.raises(EditRefused, match="the copy 'speed 2': number: must be at least 0, not -99"):
        counted_copies(project, ["speed"], 2, -500)
    with pytest.raises(EditRefused, match="does not exist"):
        counted_copies(project, ["sped"], 2, 1)


@given(st.integers(1, 40), st.integers(1, 4), st.sets(st.integers(1, 30), min_size=1, max_size=5))
def test_copies_never_clash_and_keep_number_and_register_together(copies: int, step: int, numbers: set[int]) -> None:
    project = Project.model_validate(
        {
            "panel": {"start": "run"},
            "screen": [{"name": "run"}],
            "line": [{"name": "hall", "kind": "tcp", "host": "h"}],
            "follower": [{"name": "fan", "line": "hall"}],
            "signal": [{"name": f"a {n}", "follower": "fan", "register": 100 + n * step} for n in sorted(numbers)],
        }
    )
    names = [part.name for part in project.signals]
    after = add_counted_copies(project, names, copies, step)
    assert len({part.name for part in after.signals}) == len(after.signals) == len(names) * (copies + 1)
    for part in after.signals:
        assert isinstance(part, RegisterSignal)
        assert part.number == 100 + int(part.name.split()[1]) * step
    assert not dangling(after)


def test_names_from_a_pattern() -> None:
    assert numbered_names("belt ## speed", 3, 9) == ("belt 09 speed", "belt 10 speed", "belt 11 speed")
    assert numbered_names("#", 3, 10, 10) == ("10", "20", "30")
    for pattern in ("belt", "# and #"):
        with pytest.raises(EditRefused, match="write '#' once"):
            numbered_names(pattern, 2, 1)
