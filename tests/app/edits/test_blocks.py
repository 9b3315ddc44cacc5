"""Moving, copying and aligning blocks of cells."""

from __future__ import annotations

from decimal import Decimal

import pytest

from app.edits import (
    Block,
    EditRefused,
    align_block,
    align_fields,
    blinking_at,
    cells_of,
    clear_block,
    copy_block,
    copy_fields,
    move_block,
    paste_cells,
    rename_signal,
    same_width,
    set_blinking,
    set_languages,
    stretch_field,
    translate_screen,
    type_text,
)
from app.project.model import Condition, Field, Project


def text(project: Project, name: str = "run") -> tuple[str, ...]:
    return project.screen_named[name].text


def fields(project: Project, name: str = "run") -> tuple[Field, ...]:
    return project.screen_named[name].fields


def with_fields(project: Project, *fields: Field) -> Project:
    first, *rest = project.screens
    return project.replace(screens=(first.replace(fields=fields), *rest))


def test_a_block_moves_with_its_text_and_its_fields(project: Project) -> None:
    after = move_block(project, "run", Block(0, 0, 1, 14), 1, 2)
    assert text(after) == ("", "  Speed      Hz", "State")
    assert fields(after)[0].at == (1, 8)
    assert fields(after)[1] is fields(project)[1]
    assert text(project)[0] == "Speed      Hz"


def test_a_block_may_move_over_its_own_cells(project: Project) -> None:
    after = move_block(project, "run", Block(0, 0, 1, 14), 0, 1)
    assert text(after)[0] == " Speed      Hz"
    assert fields(after)[0].at == (0, 7)


def test_a_block_moves_in_every_language(project: Project) -> None:
    two = translate_screen(set_languages(project, ("English", "Deutsch")), "run", "Deutsch", ("Tempo", "", "Zustand"))
    after = move_block(two, "run", Block(0, 0, 1, 6), 1, 0)
    assert text(after) == ("           Hz", "Speed", "State")
    assert after.screen_named["run"].text_in["Deutsch"] == ("", "Tempo", "Zustand")


@pytest.mark.parametrize(
    ("block", "by", "why"),
    [
        (Block(0, 0, 1, 14), (2, 0), "would overlap field 2"),
        (Block(0, 0, 1, 5), (2, 0), "the text 'State' in row 3 is there"),
        (Block(0, 0, 1, 5), (0, 6), "the field of signal 'speed' would cover the text"),
        (Block(0, 6, 1, 5), (2, -6), "the field of signal 'speed' would cover the text 'State' in row 3"),
        (Block(0, 0, 1, 14), (0, 3), "the cells would be outside the panel"),
        (Block(0, 0, 1, 14), (-1, 0), "the cells would be outside the panel"),
        (Block(0, 0, 1, 14), (0, -1), "the cells would be outside the panel"),
    ],
)
def test_a_block_that_does_not_fit_is_not_moved(project: Project, block: Block, by: tuple[int, int], why: str) -> None:
    with pytest.raises(EditRefused, match=why):
        move_block(project, "run", block, *by)


def test_blanks_of_a_moved_block_cover_nothing(project: Project) -> None:
    two_rows = type_text(project, "status", 1, 0, "a   b\n  x")
    after = move_block(two_rows, "status", Block(1, 0, 1, 5), 1, 0)
    assert text(after, "status") == ("Status", "", "a x b")


def test_a_block_is_copied(project: Project) -> None:
    after = copy_block(project, "run", Block(0, 0, 1, 14), 1, 0)
    assert text(after) == ("Speed      Hz", "Speed      Hz", "State")
    assert [field.at for field in fields(after)] == [(0, 6), (2, 6), (1, 6)]
    with pytest.raises(EditRefused, match="would overlap field 1"):
        copy_block(project, "run", Block(0, 0, 1, 14), 0, 1)


def test_fields_are_copied_without_text(project: Project) -> None:
    after = copy_fields(project, "run", [0], 1, 0)
    assert fields(after)[2] == fields(project)[0].replace(at=(1, 6))
    with pytest.raises(EditRefused, match="there is no field 8"):
        copy_fields(project, "run", [7], 1, 0)


def test_clearing_takes_text_and_whole_fields(project: Project) -> None:
    after = clear_block(project, "run", Block(0, 2, 3, 10))
    assert text(after) == ("Sp          z", "", "St")
    assert [field.signal for field in fields(after)] == ["running"], "it reaches beyond the block"


def test_clearing_leaves_other_languages_alone_unless_asked(project: Project) -> None:
    two = translate_screen(set_languages(project, ("English", "Deutsch")), "run", "Deutsch", ("Tempo", "", "Zustand"))
    after = clear_block(two, "run", Block(0, 0, 1, 5))
    assert after.screen_named["run"].text_in["Deutsch"][0] == "Tempo"
    after = clear_block(two, "run", Block(0, 0, 1, 5), in_all_languages=True)
    assert after.screen_named["run"].text_in["Deutsch"][0] == ""


def test_the_content_of_rows_is_aligned_as_one(project: Project) -> None:
    whole = Block(0, 0, 3, 16)
    right = align_block(project, "run", whole, "right")
    assert text(right) == ("   Speed      Hz", "", "   State")
    assert [field.at for field in fields(right)] == [(0, 9), (2, 9)]
    centre = align_block(right, "run", whole, "centre")
    assert text(centre)[0] == " Speed      Hz"
    assert align_block(centre, "run", whole, "left") == project
    part = align_block(type_text(project, "run", 1, 3, "ab"), "run", Block(1, 2, 1, 8), "right")
    assert text(part)[1] == "        ab"


def test_a_field_across_the_edge_is_not_torn(project: Project) -> None:
    with pytest.raises(EditRefused, match=r"field 1 \(signal 'speed'\) is only partly selected"):
        align_block(project, "run", Block(0, 0, 1, 8), "right")


def test_fields_are_aligned_by_their_edges(project: Project) -> None:
    speed, running = fields(project)
    project = with_fields(project, speed.replace(at=(0, 4)), running)
    assert [field.at for field in fields(align_fields(project, "run", [0, 1], "left"))] == [(0, 4), (2, 4)]
    assert [field.at for field in fields(align_fields(project, "run", [0, 1], "right"))] == [(0, 8), (2, 6)]
    assert [field.at for field in fields(align_fields(project, "run", [0, 1], "centre"))] == [(0, 6), (2, 5)]
    assert align_fields(project, "run", [], "left") is project


def test_fields_of_one_row_cannot_share_an_edge(project: Project) -> None:
    speed, running = fields(project)
    project = with_fields(project, speed.replace(at=(0, 0)), running.replace(at=(0, 8)))
    with pytest.raises(EditRefused, match="would overlap field"):
        align_fields(project, "run", [0, 1], "left")


def test_fields_are_made_equally_wide_and_numbers_keep_their_right_edge(project: Project) -> None:
    after = same_width(project, "run", [0, 1])
    assert [(field.at, field.width) for field in fields(after)] == [((0, 4), 7), ((2, 6), 7)]


def test_the_left_edge_of_a_field_is_moved(project: Project) -> None:
    after = fields(stretch_field(project, "run", 0, 4))[0]
    assert (after.at, after.width) == ((0, 4), 7)
    after = fields(stretch_field(project, "run", 0, 30))[0]
    assert (after.at, after.width) == ((0, 10), 1), "never narrower than a cell"
    with pytest.raises(EditRefused, match="outside the panel"):
        stretch_field(project, "run", 0, -1)


ON = Condition(signal="running")


def runs(project: Project) -> list[tuple[tuple[int, int] | None, int | None]]:
    return [(run.at, run.width) for run in project.screen_named["run"].blinking]


def test_cells_blink_and_go_with_their_block(project: Project) -> None:
    blinking = set_blinking(project, "run", Block(0, 0, 1, 5), ON)
    assert runs(blinking) == [((0, 0), 5)]
    assert runs(move_block(blinking, "run", Block(0, 0, 1, 14), 1, 2)) == [((1, 2), 5)]
    assert runs(copy_block(blinking, "run", Block(0, 0, 1, 5), 1, 0)) == [((0, 0), 5), ((1, 0), 5)]
    assert runs(move_block(blinking, "run", Block(0, 0, 1, 3), 1, 0)) == [((0, 0), 5)]  # lies only partly in it
    assert runs(clear_block(blinking, "run", Block(0, 0, 1, 16))) == []
    piece = cells_of(blinking, "run", Block(0, 0, 1, 5))
    assert runs(paste_cells(blinking, piece, "run", 1, 3)) == [((0, 0), 5), ((1, 3), 5)]
    assert rename_signal(blinking, "running", "on").screen_named["run"].blinking[0].when.signal == "on"


def test_what_is_said_of_cells_takes_the_place_of_what_was_said(project: Project) -> None:
    other = Condition(signal="speed", is_="above", value=Decimal(3))
    both = set_blinking(set_blinking(project, "run", Block(0, 2, 2, 3), ON), "run", None, ON)
    assert runs(both) == [((0, 2), 3), ((1, 2), 3), (None, None)]
    screen = both.screen_named["run"]
    assert blinking_at(screen, 0, 3) == screen.blinking[0]
    assert blinking_at(screen, 0, 9) == screen.blinking[2]
    assert runs(set_blinking(both, "run", Block(0, 0, 1, 16), other)) == [((1, 2), 3), (None, None), ((0, 0), 16)]
    assert set_blinking(both, "run", None, ON) is both
    assert runs(set_blinking(both, "run", None, None)) == [((0, 2), 3), ((1, 2), 3)]
    with pytest.raises(EditRefused, match="outside the panel"):
        set_blinking(project, "run", Block(0, 10, 1, 9), ON)
    with pytest.raises(EditRefused, match="does not exist"):
        set_blinking(project, "run", None, Condition(signal="nothing"))
