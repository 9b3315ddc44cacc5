"""Copying and pasting cells and screens, within a project and between two."""

from __future__ import annotations

import pytest

from app.edits import (
    Block,
    EditRefused,
    NameClash,
    Unlike,
    arrivals,
    cells_of,
    change_follower,
    change_signal,
    delete_fields,
    delete_parts,
    paste_cells,
    paste_screens,
    rename_signal,
    screens_of,
    set_languages,
    set_size,
    translate_screen,
    type_text,
)
from app.project.model import Field, Project, RegisterSignal
from app.project_file.files import dump, parse

OTHER = """
format = 2
[panel]
rows = 4
columns = 20
start = "first"
[[screen]]
name = "first"
text = ["Other", "", "", ""]
"""


@pytest.fixture
def other() -> Project:
    return parse(OTHER)


def text(project: Project, name: str) -> tuple[str, ...]:
    return project.screen_named[name].text


def fields(project: Project, name: str) -> tuple[Field, ...]:
    return project.screen_named[name].fields


TOP = Block(0, 0, 1, 14)


def test_cells_are_copied_and_pasted_in_the_same_project(project: Project) -> None:
    piece = cells_of(project, "run", TOP)
    assert arrivals(project, piece).nothing
    after = paste_cells(project, piece, "status", 1, 2)
    assert text(after, "status") == ("Status", "  Speed      Hz", "")
    assert fields(after, "status")[0] == fields(project, "run")[0].replace(at=(1, 8))
    assert after.signals is project.signals


def test_a_piece_is_a_project_that_a_file_can_hold(project: Project) -> None:
    for piece in (cells_of(project, "run", Block(0, 0, 3, 16)), screens_of(project, ["run", "fault"])):
        assert parse(dump(piece)) == piece


def test_a_piece_holds_what_its_fields_need_and_nothing_else(project: Project) -> None:
    piece = cells_of(project, "run", Block(2, 0, 1, 16))
    assert [signal.name for signal in piece.signals] == ["command", "running"], "a bit and the signal that it is of"
    assert [follower.name for follower in piece.followers] == ["fan"]
    assert [line.name for line in piece.lines] == ["hall"]
    bare = cells_of(project, "run", Block(0, 0, 1, 6))
    assert (bare.signals, bare.followers, bare.lines) == ((), (), ())


def test_a_field_across_the_edge_is_not_copied(project: Project) -> None:
    piece = cells_of(project, "run", Block(0, 0, 1, 8))
    assert piece.screens[0].fields == ()
    assert piece.screens[0].text == ("Speed",)


def test_fields_alone_leave_the_text_beneath_alone(project: Project) -> None:
    piece = cells_of(project, "run", Block(0, 6, 3, 7), [0, 1])
    moved = type_text(project, "fault", 1, 5, "x")
    after = paste_cells(moved, piece, "fault", 0, 0)
    assert text(after, "fault") == text(moved, "fault")
    assert [field.at for field in fields(after, "fault")] == [(0, 0), (2, 0)]


def test_pasted_cells_write_over_text_also_with_blanks(project: Project) -> None:
    full = type_text(project, "fault", 0, 0, "x" * 16)
    after = paste_cells(full, cells_of(project, "run", TOP), "fault", 0, 1)
    assert text(after, "fault")[0] == "xSpeed      Hz x"


@pytest.mark.parametrize(
    ("row", "column", "why"),
    [
        (0, 3, "this needs 1 x 14 cells, but there are only 3 x 13 from the cursor"),
        (3, 0, "there are only 0 x 16 from the cursor"),
        (2, 0, "would overlap field 2"),
        (0, 1, "would overlap field 1"),
    ],
)
def test_what_does_not_fit_is_not_pasted(project: Project, row: int, column: int, why: str) -> None:
    with pytest.raises(EditRefused, match=why):
        paste_cells(project, cells_of(project, "run", TOP), "run", row, column)


def test_no_text_is_pasted_under_a_field(project: Project) -> None:
    with pytest.raises(EditRefused, match="the field of signal 'speed' would cover the text"):
        paste_cells(project, cells_of(project, "status", Block(0, 0, 1, 6)), "run", 0, 4)


def test_signals_come_along_with_their_follower_and_line(project: Project, other: Project) -> None:
    piece = cells_of(project, "run", Block(0, 0, 3, 16))
    found = arrivals(other, piece)
    assert (found.signals, found.followers, found.lines) == (("speed", "command", "running"), ("fan",), ("hall",))
    assert found.differing == ()
    after = paste_cells(other, piece, "first", 1, 0)
    assert after.signal_named["speed"] == project.signal_named["speed"]
    assert after.follower_named["fan"].line == "hall"
    assert after.line_named["hall"] == project.line_named["hall"]
    assert parse(dump(after)) == after


def test_a_line_and_a_follower_that_are_there_are_used(project: Project) -> None:
    here = delete_parts(delete_fields(project, "run", [0]).replace(actions=()), "signal", [0])
    assert "speed" not in here.signal_named
    here = change_follower(here, "fan", unit=9)
    after = paste_cells(here, cells_of(project, "run", TOP), "fault", 0, 0)
    assert after.followers == here.followers, "its unit is a matter of this plant"
    assert arrivals(here, cells_of(project, "run", TOP)).signals == ("speed",)


def test_a_signal_of_the_same_name_that_differs_is_told_and_not_replaced(project: Project) -> None:
    here = change_signal(project, "speed", number=402, unit="Hz")
    piece = cells_of(project, "run", TOP)
    assert arrivals(here, piece).differing == (
        NameClash("signal", "speed", (Unlike("unit", '"Hz"', '""'), Unlike("register", "402", "401"))),
    )
    after = paste_cells(here, piece, "fault", 0, 0)
    assert after.signals is here.signals
    assert fields(after, "fault")[0].signal == "speed"


def test_a_signal_that_differs_can_come_under_another_name(project: Project) -> None:
    here = change_signal(project, "command", number=301)
    piece = cells_of(project, "run", Block(2, 0, 1, 16))
    after = paste_cells(here, piece, "fault", 0, 0, renaming=True)
    assert after.signal_named["command 2"] == project.signal_named["command"].replace(name="command 2")
    assert fields(after, "fault")[0].signal == "running", "the bit is the same here, of the signal that is here"
    assert after.signal_named["command"] == here.signal_named["command"]
    assert parse(dump(after)) == after


def test_notes_are_no_difference(project: Project) -> None:
    here = change_signal(project, "speed", notes="from the manual, page 12")
    assert arrivals(here, cells_of(project, "run", TOP)).nothing


def test_a_follower_that_counts_otherwise_is_told(project: Project) -> None:
    piece = cells_of(project, "run", TOP)
    here = rename_signal(change_follower(project, "fan", numbering="from-1", unit=7), "speed", "n")
    assert arrivals(here, piece).differing == (
        NameClash("follower", "fan", (Unlike("numbering", '"from-1"', '"from-0"'),)),
    )
    after = paste_cells(here, piece, "fault", 0, 0, renaming=True)
    brought = after.signal_named["speed"]
    assert isinstance(brought, RegisterSignal)
    assert brought.follower == "fan 2"
    assert after.follower_named["fan 2"].numbering == "from-0"
    assert after.follower_named["fan"] == here.follower_named["fan"]
    kept = paste_cells(here, piece, "fault", 0, 0).signal_named["speed"]
    assert isinstance(kept, RegisterSignal)
    assert kept.follower == "fan"


def test_a_bit_of_what_is_no_word_here_is_refused(project: Project, other: Project) -> None:
    piece = cells_of(project, "run", Block(2, 0, 1, 16))
    here = paste_cells(other, piece, "first", 0, 0)
    here = delete_fields(here, "first", [0])
    one_bit = project.signal_named["running"].replace(name="command", bit={"of": "word", "number": 1})
    word = project.signal_named["command"].replace(name="word")
    here = here.replace(signals=(word, one_bit))
    with pytest.raises(EditRefused, match="'command' is itself a bit"):
        paste_cells(here, piece, "first", 0, 0)


def test_screens_are_pasted_with_their_signals_under_free_names(project: Project, other: Project) -> None:
    piece = screens_of(project, ["fault", "run"])
    assert [screen.name for screen in piece.screens] == ["run", "fault"]
    after = paste_screens(other, piece, 1)
    assert list(after.screen_named) == ["first", "run", "fault"]
    assert after.screen_named["run"] == project.screen_named["run"]
    assert parse(dump(after)) == after
    twice = paste_screens(after, piece, 0)
    assert list(twice.screen_named) == ["run 2", "fault 2", "first", "run", "fault"]
    assert twice.signals is after.signals


def test_turns_among_the_screens_come_along_and_actions_do_not(project: Project, other: Project) -> None:
    piece = screens_of(project, ["run", "status"])
    assert [(screen_change.from_, screen_change.key, screen_change.to) for screen_change in piece.screen_changes] == [
        ("run", "right", "status"),
        ("status", "left", "run"),
    ]
    assert piece.actions == ()
    assert screens_of(project, ["run", "fault"]).screen_changes == ()
    after = paste_screens(project, piece)
    assert [
        (screen_change.from_, screen_change.to) for screen_change in after.screen_changes[len(project.screen_changes) :]
    ] == [
        ("run 2", "status 2"),
        ("status 2", "run 2"),
    ]
    fewer = other.replace(panel=other.panel.replace(keys=("right",)))
    assert [screen_change.key for screen_change in paste_screens(fewer, piece).screen_changes] == ["right"], (
        "the panel has no other key"
    )
    assert parse(dump(paste_screens(fewer, piece))).screen_changes == paste_screens(fewer, piece).screen_changes


def test_a_screen_that_is_too_large_is_refused(project: Project, other: Project) -> None:
    wide = type_text(other, "first", 3, 16, "wide")
    with pytest.raises(EditRefused, match="screen 'first' is made for 4 x 20 cells; this panel has 3 x 16"):
        paste_screens(project, screens_of(wide, ["first"]))
    after = paste_screens(project, screens_of(other, ["first"]))
    assert text(after, "first")[:3] == ("Other", "", ""), "nothing of it stands in the cells that are missing"


def test_no_screen_is_no_piece(project: Project) -> None:
    with pytest.raises(EditRefused, match="no screen is selected"):
        screens_of(project, [])
    with pytest.raises(EditRefused, match="screen 'rum' does not exist"):
        screens_of(project, ["rum"])
    with pytest.raises(EditRefused, match="outside the panel"):
        cells_of(project, "run", Block(0, 0, 1, 99))


def test_languages_come_along_where_the_other_project_has_them(project: Project, other: Project) -> None:
    two = translate_screen(set_languages(project, ("English", "Deutsch")), "run", "Deutsch", ("Tempo", "", "Zustand"))
    piece = cells_of(two, "run", Block(0, 0, 1, 6))
    german = paste_cells(set_languages(other, ("Deutsch", "English")), piece, "first", 1, 0)
    assert german.screen_named["first"].text[:2] == ("Other", "Tempo")
    assert german.screen_named["first"].text_in["English"][:2] == ("Other", "Speed")
    plain = paste_cells(other, piece, "first", 1, 0)
    assert plain.screen_named["first"].text_in == {}
    french = paste_cells(set_languages(other, ("Francais",)), piece, "first", 1, 0)
    assert text(french, "first")[1] == "Speed"


def test_a_piece_in_one_language_is_pasted_into_all(project: Project) -> None:
    two = translate_screen(set_languages(project, ("English", "Deutsch")), "run", "Deutsch", ("Tempo", "", "Zustand"))
    after = paste_cells(two, cells_of(two, "status", Block(0, 0, 1, 6)), "run", 1, 0)
    assert after.screen_named["run"].text == ("Speed      Hz", "Status", "State")
    assert after.screen_named["run"].text_in["Deutsch"] == ("Tempo", "Status", "Zustand")


def test_a_larger_panel_takes_screens_of_a_smaller_one(project: Project) -> None:
    larger = set_size(project, 5, 20)
    after = paste_screens(larger, screens_of(project, ["run"]))
    assert after.screen_named["run 2"].fields == project.screen_named["run"].fields
