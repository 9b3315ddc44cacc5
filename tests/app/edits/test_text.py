"""Typing into a screen."""

from __future__ import annotations

import pytest

from app.edits import EditRefused, erase_text, field_at, type_text
from app.project.model import Project, Screen


def text(project: Project, name: str = "run") -> tuple[str, ...]:
    return project.screen_named[name].text


def test_typing_writes_over(project: Project) -> None:
    assert text(type_text(project, "run", 0, 0, "Revs")) == ("Revsd      Hz", "", "State")
    assert text(type_text(project, "run", 1, 3, "x")) == ("Speed      Hz", "   x", "State")
    assert text(type_text(project, "run", 0, 11, "  ")) == ("Speed", "", "State")


def test_the_screen_gets_as_many_rows_as_the_panel(project: Project) -> None:
    assert text(type_text(project, "status", 2, 15, "x"), "status") == ("Status", "", " " * 15 + "x")
    assert text(type_text(project, "fault", 0, 0, "FAULT"), "fault") == ("FAULT", "", "")


def test_several_lines_go_down_from_the_same_column(project: Project) -> None:
    assert text(type_text(project, "fault", 1, 2, "a\r\nb\n"), "fault") == ("", "  a", "  b")


def test_what_changes_nothing_is_no_edit(project: Project) -> None:
    assert type_text(project, "run", 0, 0, "Speed") is project
    assert type_text(project, "status", 1, 0, "  ") is project
    assert erase_text(project, "run", 1, 0) is project


def test_everything_else_is_shared(project: Project) -> None:
    after = type_text(project, "run", 0, 0, "Revs")
    assert after.signals is project.signals
    assert after.screens[1] is project.screens[1]
    assert after.screens[0].fields is project.screens[0].fields
    assert text(project)[0] == "Speed      Hz"


def test_inserted_text_moves_what_follows_up_to_the_next_field(project: Project) -> None:
    narrow = type_text(project, "run", 0, 4, " ")
    assert text(narrow)[0] == "Spee       Hz"
    assert text(type_text(narrow, "run", 0, 0, "x", insert=True))[0] == "xSpee      Hz"
    assert text(type_text(project, "run", 0, 11, "k", insert=True))[0] == "Speed      kHz"


def test_inserting_never_loses_text(project: Project) -> None:
    with pytest.raises(EditRefused, match="no space: text would be pushed under a field or off the panel"):
        type_text(project, "run", 0, 0, "xx", insert=True)
    with pytest.raises(EditRefused, match="no space"):
        type_text(project, "run", 0, 11, "kkkk", insert=True)


def test_erasing(project: Project) -> None:
    assert text(erase_text(project, "run", 0, 0, 2))[0] == "  eed      Hz"
    assert text(erase_text(project, "run", 0, 0, 99))[0] == ""
    assert text(erase_text(project, "run", 0, 4, 9))[0] == "Spee"


def test_closing_up_pulls_what_follows_up_to_the_next_field(project: Project) -> None:
    assert text(erase_text(project, "run", 0, 0, 2, close_up=True))[0] == "eed        Hz"
    assert text(erase_text(project, "run", 0, 11, 1, close_up=True))[0] == "Speed      z"
    assert text(erase_text(project, "run", 0, 0, 99, close_up=True))[0] == "           Hz"


@pytest.mark.parametrize(
    ("row", "column", "typed", "words"),
    [
        (3, 0, "x", "outside the panel"),
        (0, 16, "x", "outside the panel"),
        (-1, 0, "x", "outside the panel"),
        (2, 0, "a\nb", "outside the panel"),
        (1, 10, "much too long", "reaches 7 cells past the right edge of the panel"),
        (1, 15, "ab", "reaches 1 cell past"),
        (0, 4, "xxx", "the field of signal 'speed' would cover the text"),
        (1, 0, "a\tb", "control character"),
        (1, 0, "a\x7f", "control character"),
        (1, 0, "a\u2028", "control character"),
        (1, 0, "a\ud800", "control character"),
    ],
)
def test_what_cannot_be_typed(project: Project, row: int, column: int, typed: str, words: str) -> None:
    with pytest.raises(EditRefused, match=words):
        type_text(project, "run", row, column, typed)


def test_blanks_may_be_typed_across_a_field(project: Project) -> None:
    assert text(type_text(project, "run", 0, 4, " " * 9))[0] == "Spee"


def test_nothing_is_inserted_or_pulled_inside_a_field(project: Project) -> None:
    with pytest.raises(EditRefused, match="the field of signal 'speed' is there"):
        type_text(project, "run", 0, 8, "x", insert=True)
    with pytest.raises(EditRefused, match="the field of signal 'speed' is there"):
        erase_text(project, "run", 0, 8, close_up=True)


def test_a_screen_that_is_not_there(project: Project) -> None:
    with pytest.raises(EditRefused, match=r"screen 'rum' does not exist; did you mean 'run'\?"):
        type_text(project, "rum", 0, 0, "x")


def test_a_row_keeps_no_blanks_at_its_end(project: Project) -> None:
    assert text(type_text(project, "run", 1, 0, "Torque  "))[1] == "Torque"


def test_text_outside_the_panel_is_not_lost_by_typing_inside(project: Project) -> None:
    wide = project.replace(screens=(Screen(name="run", text=("x" * 20, "", "", "below")), *project.screens[1:]))
    after = type_text(wide, "run", 0, 0, "y")
    assert text(after) == ("y" + "x" * 19, "", "", "below")
    assert text(erase_text(wide, "run", 0, 0, 99, close_up=True))[0] == " " * 16 + "xxxx"


def test_the_field_at_a_cell(project: Project) -> None:
    screen = project.screen_named["run"]
    assert [field_at(screen, 0, column) is screen.fields[0] for column in (5, 6, 10, 11)] == [False, True, True, False]
    assert field_at(screen, 1, 6) is None
