"""Copies that count up: names, registers, bits; and names made from a pattern."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from app.edits import EditRefused
from app.edits.copies import (
    CopiedSignal,
    Copying,
    add_copies,
    counted_name,
    duplicate_signal,
    likely_step,
    numbered_names,
    numbers_in,
    plan_copies,
)
from app.edits.signals import add_signal
from app.project.model import Bit, BitSignal, Project, RegisterSignal
from app.project.references import dangling
from tests.builders import project_of


def register(name: str, number: int, encoding: str = "uint16") -> RegisterSignal:
    return RegisterSignal.model_validate({"name": name, "follower": "fan", "register": number, "encoding": encoding})


def with_signals(project: Project, *signals: RegisterSignal | BitSignal) -> Project:
    for signal in signals:
        project = add_signal(project, signal)
    return project


def copied(project: Project, names: list[str], copies: int, step: int) -> tuple[object, ...]:
    plan = plan_copies(project, names, Copying(copies, step))
    if fault := plan.fault():
        raise EditRefused(fault)
    return tuple(each.signal for each in plan.signals)


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
    assert told(copied(project, ["belt 1"], 3, 2)) == [("belt 2", 502), ("belt 3", 504), ("belt 4", 506)]
    after = add_copies(project, ["belt 1"], Copying(2, 2))
    assert [part.name for part in after.signals][-3:] == ["belt 1", "belt 2", "belt 3"]


def test_numbers_that_are_taken_are_left_out_with_their_registers(project: Project) -> None:
    project = with_signals(project, register("belt 1", 500), register("belt 2", 501))
    assert told(copied(project, ["belt 1"], 2, 1)) == [("belt 3", 502), ("belt 4", 503)]


def test_a_group_is_copied_as_a_whole(project: Project) -> None:
    project = with_signals(
        project,
        register("station 1 speed", 100),
        register("station 1 state", 101),
        BitSignal(name="station 1 runs", bit=Bit(of="station 1 state", number=4)),
    )
    names = ["station 1 speed", "station 1 state", "station 1 runs"]
    assert likely_step(project, names) == 2
    copies = copied(project, names, 2, 10)
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
    assert told(copied(project, ["a 1", "a 2"], 1, 2)) == [("a 3", 104), ("a 4", 106)]


def test_a_bit_counts_to_the_next_bit(project: Project) -> None:
    assert told(copied(project, ["running"], 2, 1)) == [("running 2", 5), ("running 3", 6)]


def test_copies_that_cannot_be(project: Project) -> None:
    with pytest.raises(EditRefused, match="the copy 'running 13': signal 'command' has no bit 16"):
        copied(project, ["running"], 100, 1)
    with pytest.raises(EditRefused, match="must be 1 to 2000, not 0"):
        copied(project, ["running"], 0, 1)
    with pytest.raises(EditRefused, match="the copy 'speed 2': number: must be at least 0, not -99"):
        copied(project, ["speed"], 2, -500)
    with pytest.raises(EditRefused, match="does not exist"):
        copied(project, ["sped"], 2, 1)


STATION: dict[str, object] = {
    "line": [{"name": "hall", "kind": "tcp", "host": "h"}],
    "follower": [
        {"name": "drive 1", "line": "hall", "unit": 1, "max_registers": 4},
        {"name": "other", "line": "hall", "unit": 4, "write_functions": [5]},
    ],
    "signal": [
        {"name": "motor 1 speed 2", "follower": "drive 1", "register": 100, "write": True},
        {"name": "motor 1 word", "follower": "drive 1", "register": 110, "drive_role": "control-word"},
        {"name": "motor 1 run", "bit": {"of": "motor 1 word", "number": 3}, "write": True},
    ],
}
MOTOR = ["motor 1 speed 2", "motor 1 word", "motor 1 run"]


def by_name(project: Project, copying: Copying, names: list[str] = MOTOR) -> dict[str, CopiedSignal]:
    return {each.name: each for each in plan_copies(project, names, copying).signals}


def test_motor_1_becomes_motor_6() -> None:
    project = project_of(**STATION)
    after = add_copies(project, MOTOR, Copying(copies=5, step=20, counted=0))
    assert [part.name for part in after.signals[-3:]] == ["motor 6 speed 2", "motor 6 word", "motor 6 run"]
    speed, word, run = after.signals[-3:]
    assert isinstance(speed, RegisterSignal)
    assert isinstance(word, RegisterSignal)
    assert isinstance(run, BitSignal)
    assert (speed.number, word.number, run.bit.of, run.bit.number) == (200, 210, "motor 6 word", 3)
    assert word.drive_role is None, "one signal of a drive has a role"
    assert not dangling(after)


def test_which_number_of_the_names_is_counted() -> None:
    assert numbers_in(MOTOR) == 1
    assert numbers_in(MOTOR[:1]) == 2
    assert counted_name("motor 1 speed 2", 1, 0) == "motor 2 speed 2"
    assert counted_name("motor 1 speed 2", 1, None) == "motor 1 speed 2 2"
    assert counted_name("motor 1", 1, 1) == "motor 1 2", "it has no second number"


def test_copies_on_another_device_keep_their_roles_and_are_doubted_where_it_cannot_write_them() -> None:
    project = project_of(**STATION)
    plan = by_name(project, Copying(step=0, counted=0, device="other"))
    word = plan["motor 2 word"].signal
    assert isinstance(word, RegisterSignal)
    assert (word.follower, word.number, word.drive_role) == ("other", 110, "control-word")
    assert plan["motor 2 word"].doubt == ""
    assert plan["motor 2 speed 2"].doubt == "device 'other' offers no function that writes it"
    alone = by_name(project, Copying(counted=0, device="other"), ["motor 1 run"])
    assert alone["motor 2 run"].doubt == "a bit of 'motor 1 word', which is not copied"


def test_each_copy_on_a_new_device_with_the_next_unit_address() -> None:
    project = project_of(**STATION)
    after = add_copies(project, MOTOR, Copying(copies=2, step=0, counted=0, first_unit=2))
    assert [(part.name, part.unit) for part in after.followers[2:]] == [("drive 2", 2), ("drive 3", 3)]
    last = after.signal_named["motor 3 word"]
    assert isinstance(last, RegisterSignal)
    assert (last.follower, last.number, last.drive_role) == ("drive 3", 110, "control-word")
    plan = plan_copies(project, MOTOR, Copying(copies=3, step=0, counted=0, first_unit=2))
    assert plan.fault() == "the copy 'motor 4 speed 2': unit address 4 belongs to device 'other'"
    with pytest.raises(EditRefused, match="unit address 4"):
        add_copies(project, MOTOR, Copying(copies=3, step=0, counted=0, first_unit=2))


def test_what_a_copy_would_clash_with_is_told_row_by_row() -> None:
    project = project_of(**STATION)
    plan = by_name(project, Copying(step=10, counted=0))
    assert plan["motor 2 speed 2"].doubt == "'motor 1 word' is in the same register"
    assert plan["motor 2 word"].doubt == ""
    plan = by_name(project, Copying(step=65_426, counted=0))
    assert plan["motor 2 speed 2"].fault == ""
    assert "65536" in plan["motor 2 word"].fault
    assert plan["motor 2 word"].signal is None


def test_a_value_that_ends_behind_the_last_register_is_refused() -> None:
    project = with_signals(project_of(**STATION), changed_device(register("wide 1", 100, "uint32")))
    plan = by_name(project, Copying(step=65_435), ["wide 1"])
    assert plan["wide 2"].fault == "the value extends beyond the last register"


def test_what_the_device_never_answers_is_refused() -> None:
    never = [{"table": "holding", "first": 118, "last": 122}]
    few = STATION | {"follower": [{"name": "drive 1", "line": "hall", "never_read": never}]}
    plan = by_name(project_of(**few), Copying(step=10, counted=0))
    assert plan["motor 2 word"].fault == "device 'drive 1' is never asked for register 120"


def test_numbers_that_a_name_has_are_skipped_and_counted() -> None:
    project = with_signals(project_of(**STATION), changed_device(register("motor 2 word", 300)))
    plan = plan_copies(project, MOTOR, Copying(copies=2, step=20, counted=0))
    assert plan.skipped == 1
    assert [each.name for each in plan.signals][::3] == ["motor 3 speed 2", "motor 4 speed 2"]


def changed_device(signal: RegisterSignal) -> RegisterSignal:
    return signal.replace(follower="drive 1")


def test_a_duplicated_bit_is_the_next_free_one_and_has_no_role() -> None:
    bits = [
        {"name": "run", "bit": {"of": "motor 1 word", "number": 14}, "drive_role": "run"},
        {"name": "stop", "bit": {"of": "motor 1 word", "number": 15}},
    ]
    project = project_of(**STATION | {"signal": [*STATION["signal"], *bits]})  # type: ignore[misc]
    after = duplicate_signal(project, "run")
    copy = after.signals[[part.name for part in after.signals].index("run") + 1]
    assert isinstance(copy, BitSignal)
    assert (copy.name, copy.bit.number, copy.drive_role) == ("run 2", 0, None), "14 and 15 are taken: from the first"
    again = duplicate_signal(after, "run").signal_named["run 3"]
    assert isinstance(again, BitSignal)
    assert again.bit.number == 1


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
    after = add_copies(project, names, Copying(copies, step))
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
