"""What a signal becomes on a screen: label, field, unit; and where there is no room for it."""

from __future__ import annotations

import pytest

from app import edits
from app.checks import check
from app.project.model import Field, HeldSignal, Project, Screen
from tests.builders import demo
from widgets.design.tray.placing import NoRoom, Placement, edit_of, in_row, placement, shortened, writable

EMPTY = "empty"


@pytest.fixture
def project() -> Project:
    return edits.add_screen(demo("booster-pump"), EMPTY)


def put(project: Project, *placed: Placement, screen: str = EMPTY) -> Screen:
    return edit_of(screen, placed, lambda edit, _screen: edit)(project).screen_named[screen]


def test_an_empty_row_gets_label_value_and_unit(project: Project) -> None:
    placed = placement(project, project.screen_named[EMPTY], "frequency", (1, 7))
    screen = put(project, placed)
    assert screen.text[1] == "Frequency         Hz"
    assert [(each.at, each.width, each.kind, each.entry) for each in screen.fields] == [((1, 11), 6, "number", False)]
    assert placed.behind == (2, 0), "the row is full, so the cursor goes on in the next"


def test_what_may_be_written_within_limits_comes_with_entry_and_nothing_else_does(project: Project) -> None:
    screen = project.screen_named[EMPTY]
    entered = {name for name in project.signal_named if in_row(project, name, 0).field.entry}
    assert entered == {"line lost after", "speed set point", "ramp up", "ramp down", "filling ramp"}
    for name in entered:
        after = edit_of(EMPTY, [placement(project, screen, name, (0, 0))], lambda edit, _screen: edit)(project)
        rules = {finding.rule for finding in check(after)}
        assert not rules & {"entry-not-writable", "entry-without-limits", "field-too-narrow"}, name


def test_a_text_per_value_is_shown_as_text_without_a_unit(project: Project) -> None:
    placed = placement(project, project.screen_named[EMPTY], "running", (0, 0))
    assert (placed.field.kind, placed.field.width, placed.unit) == ("choice", 7, "")


def test_on_a_row_with_something_the_value_begins_at_the_cell(project: Project) -> None:
    typed = edits.type_text(project, EMPTY, 0, 0, "Set")
    placed = placement(typed, typed.screen_named[EMPTY], "frequency", (0, 4))
    screen = put(typed, placed)
    assert (screen.fields[0].at, screen.text[0]) == ((0, 4), "Set        Hz")
    assert placed.behind == (0, 13)


def test_a_unit_that_stands_there_already_is_not_written_twice(project: Project) -> None:
    typed = edits.type_text(project, EMPTY, 0, 0, "Set        Hz")
    placed = placement(typed, typed.screen_named[EMPTY], "frequency", (0, 4))
    assert put(typed, placed).text[0] == "Set        Hz"


def test_the_value_only_brings_no_text(project: Project) -> None:
    placed = placement(project, project.screen_named[EMPTY], "frequency", (2, 5), value_only=True)
    assert (placed.texts, placed.field.at) == ((), (2, 5))


def test_the_digits_stand_under_those_of_the_row_above(project: Project) -> None:
    first = placement(project, project.screen_named[EMPTY], "shaft speed", (0, 0))
    once = edit_of(EMPTY, [first], lambda edit, _screen: edit)(project)
    second = placement(once, once.screen_named[EMPTY], "power", (1, 0))
    ends = [each.field.at[1] + each.field.width for each in (first, second)]
    assert ends[0] == ends[1]


def test_too_narrow_is_said_with_both_numbers(project: Project) -> None:
    typed = edits.type_text(project, EMPTY, 0, 8, "x")
    with pytest.raises(NoRoom, match=r"needs 6 cells.*room for 4"):
        placement(typed, typed.screen_named[EMPTY], "frequency", (0, 4))
    with pytest.raises(NoRoom, match="something else already"):
        placement(typed, typed.screen_named[EMPTY], "frequency", (0, 8))


def test_a_field_in_the_way_counts_as_well_as_text(project: Project) -> None:
    other = edits.add_field(project, EMPTY, Field(at=(0, 10), width=5, signal="current"))
    with pytest.raises(NoRoom, match="room for 2"):
        placement(other, other.screen_named[EMPTY], "frequency", (0, 8))
    assert placement(other, other.screen_named[EMPTY], "frequency", (0, 0)).room == 10


@pytest.mark.parametrize("columns", [8, 10, 12, 16, 20, 40])
def test_no_signal_of_the_demos_shows_hashes_on_any_panel_where_it_is_placed(columns: int) -> None:
    for name in ("booster-pump", "drying-hall"):
        whole = demo(name)
        panel = whole.panel.replace(columns=columns, rows=2)
        bare = whole.replace(panel=panel.replace(start="s"), screens=(Screen(name="s", text=("", "")),))
        bare = bare.replace(screen_changes=(), actions=())
        for signal in whole.signal_named:
            try:
                placed = placement(bare, bare.screen_named["s"], signal, (0, 0))
            except NoRoom:
                continue
            after = edit_of("s", [placed], lambda edit, _screen: edit)(bare)
            assert "field-too-narrow" not in {finding.rule for finding in check(after)}, (signal, columns)
            assert all(len(row) <= columns for row in after.screen_named["s"].text)


@pytest.mark.parametrize(
    ("text", "room", "label"),
    [
        ("thermal load", 12, "Thermal load"),
        ("thermal load", 11, "Therm. load"),
        ("speed set point", 11, "Speed set"),
        ("motor current 12", 13, "Motor cur. 12"),
        ("motor current 12", 9, "Motor 12"),
        ("motor current 12", 6, "Mot 12"),
        ("DC link", 7, "DC link"),
        ("x", 1, "X"),
        ("abc", 0, ""),
    ],
)
def test_a_label_is_shortened_and_keeps_its_number(text: str, room: int, label: str) -> None:
    assert shortened(text, room) == label
    assert len(shortened(text, room)) <= room


def test_a_unit_is_written_in_characters_that_the_panel_has(project: Project) -> None:
    ascii_only = project.replace(panel=project.panel.replace(repertoire="ascii"))
    assert writable(ascii_only, "m\N{SUPERSCRIPT THREE}/h") == "m3/h"
    assert writable(ascii_only, "\N{DEGREE SIGN}C") == "C"


def test_a_held_value_is_entered_too(project: Project) -> None:
    held = HeldSignal.model_validate({"name": "held", "held": 5, "limits": (0, 10)})
    assert in_row(project.replace(signals=(*project.signals, held)), "held", 0).field.entry
