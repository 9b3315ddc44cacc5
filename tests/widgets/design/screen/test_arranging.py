"""Moving, duplicating and aligning by the keys of the menu."""

from __future__ import annotations

from PySide6.QtGui import QGuiApplication

from tests.widgets.design.screen.driving import (
    ALT,
    CTRL,
    SHIFT,
    Key,
    click,
    field,
    fields,
    notice_of,
    press,
    text_of,
    type_in,
)
from widgets.design.screen.editor import ScreenEditor
from widgets.document.document import Document


def select_top(editor: ScreenEditor) -> None:
    """The whole content of the first row."""
    press(editor, Key.Key_Home, modifiers=CTRL)
    press(editor, *[Key.Key_Right] * 13, modifiers=SHIFT)


def test_a_block_moves_step_by_step_as_one_step(editor: ScreenEditor, document: Document) -> None:
    select_top(editor)
    press(editor, Key.Key_Right, Key.Key_Right, Key.Key_Down, modifiers=ALT)
    assert (text_of(document, 0), text_of(document, 1)) == ("", "  Speed       Hz")
    assert field(document, 0).at == (1, 8)
    press(editor, Key.Key_Down, modifiers=ALT)
    assert "overlap field 2" in notice_of(editor)
    document.undo()
    assert text_of(document, 0) == "Speed       Hz"
    assert document.undo_name is None


def test_a_block_is_duplicated_where_nothing_is_covered(editor: ScreenEditor, document: Document) -> None:
    select_top(editor)
    press(editor, Key.Key_D, modifiers=CTRL)
    assert text_of(document, 1) == "Speed       Hz"
    press(editor, Key.Key_D, modifiers=CTRL)
    assert text_of(document, 3) == "Speed       Hz", "row 3 has a field in the way"
    undo_name = document.undo_name
    press(editor, Key.Key_D, modifiers=CTRL)
    assert "no room" in notice_of(editor)
    assert document.undo_name == undo_name


def test_several_fields_are_duplicated(editor: ScreenEditor, document: Document) -> None:
    click(editor, 0, 7)
    click(editor, 2, 11, CTRL)
    press(editor, Key.Key_D, modifiers=CTRL)
    assert [each.at for each in fields(document)[2:]] == [(1, 6), (3, 10)]
    assert document.selection.fields == (2, 3)


def test_a_duplicated_field_covers_no_text(editor: ScreenEditor, document: Document) -> None:
    press(editor, Key.Key_Down)
    type_in(editor, "x" * 20)
    click(editor, 0, 7)
    press(editor, Key.Key_D, modifiers=CTRL)
    assert field(document, 2).at == (3, 6), "row 2 is full of text, row 3 has a field there"


def test_the_row_of_the_cursor_is_aligned(editor: ScreenEditor, document: Document) -> None:
    press(editor, Key.Key_End, modifiers=ALT)
    assert text_of(document, 0) == "      Speed       Hz"
    assert field(document, 0).at == (0, 12)
    press(editor, Key.Key_E, modifiers=CTRL)
    assert text_of(document, 0) == "   Speed       Hz"
    press(editor, Key.Key_Home, modifiers=ALT)
    assert text_of(document, 0) == "Speed       Hz"
    assert field(document, 0).at == (0, 6)


def test_selected_cells_are_aligned_within_the_block(editor: ScreenEditor, document: Document) -> None:
    press(editor, Key.Key_Down)
    type_in(editor, "ab")
    press(editor, Key.Key_Home)
    press(editor, *[Key.Key_Right] * 9, modifiers=SHIFT)
    press(editor, Key.Key_End, modifiers=ALT)
    assert text_of(document, 1) == "        ab"
    block = document.selection.block
    assert block is not None
    assert block.width() == 10


def test_fields_are_aligned_by_their_edges(editor: ScreenEditor, document: Document) -> None:
    click(editor, 0, 7)
    click(editor, 2, 11, CTRL)
    press(editor, Key.Key_Home, modifiers=ALT)
    assert [each.at for each in fields(document)] == [(0, 6), (2, 6)]
    document.undo()
    press(editor, Key.Key_End, modifiers=ALT)
    assert [each.at[1] + each.width for each in fields(document)] == [18, 18]
    assert document.undo_name == "Align right"


def test_fields_are_made_equally_wide(editor: ScreenEditor, document: Document) -> None:
    click(editor, 0, 7)
    press(editor, Key.Key_G, modifiers=CTRL)
    assert "two or more" in notice_of(editor)
    click(editor, 2, 11, CTRL)
    press(editor, Key.Key_G, modifiers=CTRL)
    assert [(each.at, each.width) for each in fields(document)] == [((0, 3), 8), ((2, 10), 8)]


def test_the_width_is_fitted_to_the_widest_value(editor: ScreenEditor, document: Document) -> None:
    click(editor, 0, 7)
    assert "needs 6, has 5" in editor.status.text()
    press(editor, Key.Key_B, modifiers=CTRL)
    assert (field(document, 0).at, field(document, 0).width) == ((0, 5), 6), "a number keeps its right edge"
    assert "fits" in editor.status.text()
    click(editor, 3, 0)
    press(editor, Key.Key_B, modifiers=CTRL)
    assert "Select a field" in notice_of(editor)


def test_nothing_selected_is_said(editor: ScreenEditor, document: Document) -> None:
    click(editor, 3, 3)
    for keys, modifiers, words in (
        (Key.Key_Up, ALT, "Select a field or cells to move"),
        (Key.Key_D, CTRL, "Select a field or cells to duplicate"),
        (Key.Key_Right, ALT | SHIFT, "Select one field to change its width"),
    ):
        press(editor, keys, modifiers=modifiers)
        assert words in notice_of(editor)
    assert document.undo_name is None


def test_undo_brings_cursor_and_selection_back_with_the_edit(editor: ScreenEditor, document: Document) -> None:
    click(editor, 0, 8)
    press(editor, Key.Key_Down, Key.Key_Left, modifiers=ALT)
    assert document.selection.cell == (1, 7)
    document.undo()
    assert (document.selection.cell, document.selection.fields) == ((0, 8), (0,))
    assert editor.status.text().startswith("Row 1, column 9")
    assert "frequency" in editor.status.text()
    document.redo()
    assert (document.selection.cell, document.selection.fields) == ((1, 7), (0,))
    assert "frequency" in editor.status.text()


def test_what_is_cut_by_a_command_of_the_menu_is_on_the_clipboard(editor: ScreenEditor, document: Document) -> None:
    select_top(editor)
    press(editor, Key.Key_Delete, modifiers=SHIFT)
    assert QGuiApplication.clipboard().text() == "Speed  37.5 Hz"
    press(editor, Key.Key_Insert, modifiers=SHIFT)
    assert text_of(document, 0) == "Speed       Hz"
