"""The mouse on the face: selecting, dragging with a ghost, copying with Ctrl, resizing at both edges."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QImage
from PySide6.QtTest import QTest

from tests.widgets.design.screen.driving import (
    CTRL,
    LEFT,
    NO,
    SHIFT,
    Key,
    centre,
    click,
    drag,
    drop,
    field,
    fields,
    hold,
    move,
    notice_of,
    press,
    text_of,
    type_in,
)
from widgets.design.screen.editor import ScreenEditor
from widgets.document.document import Document


def select(editor: ScreenEditor, row: int, first: int, last: int) -> None:
    """A block of one row, from the keyboard."""
    editor.commands.go(row, first)
    press(editor, *[Key.Key_Right] * (last - first), modifiers=SHIFT)


def test_a_block_is_dragged_with_its_text_and_fields(editor: ScreenEditor, document: Document) -> None:
    select(editor, 0, 0, 13)
    hold(editor, centre(editor, 0, 2), centre(editor, 1, 3), centre(editor, 1, 4))
    ghost = editor.face.grid.ghost
    assert ghost is not None
    assert ghost.fits
    assert ghost.block is not None
    assert (ghost.block.x(), ghost.block.y(), ghost.block.width()) == (2, 1, 14)
    assert ghost.pieces[0].text == "Speed  37.5 Hz", "the ghost shows what comes"
    assert editor.status.what.text().startswith("Move to row 2, column 3")
    assert text_of(document, 0) == "Speed       Hz", "nothing is changed before the button is let go"
    drop(editor, centre(editor, 1, 4))
    assert editor.face.grid.ghost is None
    assert (text_of(document, 0), text_of(document, 1)) == ("", "  Speed       Hz")
    assert field(document, 0).at == (1, 8)
    assert document.undo_name == "Move cells"
    block = document.selection.block
    assert block is not None
    assert (block.x(), block.y()) == (2, 1)
    document.undo()
    assert text_of(document, 0) == "Speed       Hz"
    assert field(document, 0).at == (0, 6)


def test_where_a_block_does_not_fit_the_ghost_says_so_and_the_drop_is_refused(
    editor: ScreenEditor, document: Document
) -> None:
    press(editor, Key.Key_Down)
    type_in(editor, "Other")
    undo_name = document.undo_name
    select(editor, 0, 0, 13)
    before = editor.face.grid.grab().toImage()
    hold(editor, centre(editor, 0, 2), centre(editor, 1, 2))
    ghost = editor.face.grid.ghost
    assert ghost is not None
    assert not ghost.fits
    assert editor.status.what.text() == "Does not fit: the text 'Other' in row 2 is there"
    assert editor.face.grid.cursor().shape() == Qt.CursorShape.ForbiddenCursor
    assert editor.face.grid.grab().toImage() != before
    drop(editor, centre(editor, 1, 2))
    assert "'Other'" in notice_of(editor)
    assert document.undo_name == undo_name
    assert not editor.status.what.text().startswith("Does not fit")


def test_refusal_is_drawn_by_shape_not_by_colour_alone(editor: ScreenEditor) -> None:
    """The same ghost, fitting and not, differs where colours are taken away."""
    select(editor, 0, 0, 4)
    hold(editor, centre(editor, 0, 2), centre(editor, 3, 2))
    ghost = editor.face.grid.ghost
    assert ghost is not None
    pictures = []
    for fits in (True, False):
        editor.face.grid.set_ghost(replace(ghost, fits=fits))
        pictures.append(editor.face.grid.grab().toImage().convertToFormat(QImage.Format.Format_Mono))
    assert pictures[0] != pictures[1]


def test_ctrl_copies_and_may_come_in_the_middle_of_a_drag(editor: ScreenEditor, document: Document) -> None:
    select(editor, 0, 0, 13)
    hold(editor, centre(editor, 0, 2), centre(editor, 1, 2))
    QTest.keyPress(editor.face, Key.Key_Control)
    ghost = editor.face.grid.ghost
    assert ghost is not None
    assert ghost.copies
    assert editor.status.what.text().startswith("Copy to row 2")
    QTest.keyRelease(editor.face, Key.Key_Control)
    ghost = editor.face.grid.ghost
    assert ghost is not None
    assert not ghost.copies
    move(editor, centre(editor, 3, 2), CTRL)
    drop(editor, centre(editor, 3, 2), CTRL)
    assert (text_of(document, 0), text_of(document, 3)) == ("Speed       Hz", "Speed       Hz")
    assert [each.at for each in fields(document)] == [(0, 6), (2, 10), (3, 6)]
    assert document.undo_name == "Copy cells"


def test_a_field_is_copied_by_a_drag_with_ctrl(editor: ScreenEditor, document: Document) -> None:
    drag(editor, centre(editor, 0, 7), centre(editor, 3, 1), modifiers=CTRL)
    assert [each.at for each in fields(document)] == [(0, 6), (2, 10), (3, 0)]
    assert document.selection.fields == (2,)


def test_several_selected_fields_are_dragged_together(editor: ScreenEditor, document: Document) -> None:
    click(editor, 0, 7)
    click(editor, 2, 11, CTRL)
    hold(editor, centre(editor, 0, 8), centre(editor, 1, 8))
    ghost = editor.face.grid.ghost
    assert ghost is not None
    assert [(outline.row, outline.column) for outline in ghost.outlines] == [(1, 6), (3, 10)]
    drop(editor, centre(editor, 1, 8))
    assert [each.at for each in fields(document)] == [(1, 6), (3, 10)]
    assert document.undo_name == "Move fields"


def test_text_that_a_field_would_cover_is_said(editor: ScreenEditor, document: Document) -> None:
    hold(editor, centre(editor, 0, 7), centre(editor, 0, 9))
    assert editor.status.what.text().endswith("It would cover the text 'H'.")
    move(editor, centre(editor, 1, 9))
    assert "cover" not in editor.status.what.text()
    drop(editor, centre(editor, 1, 9))
    assert field(document, 0).at == (1, 8)


def test_ctrl_click_takes_a_field_in_and_out(editor: ScreenEditor, document: Document) -> None:
    click(editor, 0, 7)
    click(editor, 2, 11, CTRL)
    assert list(document.selection.fields) == [0, 1]
    click(editor, 0, 7, CTRL)
    assert list(document.selection.fields) == [1]


def test_a_click_on_one_of_several_selects_that_one(editor: ScreenEditor, document: Document) -> None:
    click(editor, 0, 7)
    click(editor, 2, 11, CTRL)
    click(editor, 0, 8)
    assert document.selection.fields == (0,)
    assert document.selection.cell == (0, 8)


def test_a_click_in_a_block_ends_the_selection(editor: ScreenEditor, document: Document) -> None:
    select(editor, 0, 0, 13)
    click(editor, 0, 3)
    assert document.selection.block is None
    assert document.selection.cell == (0, 3)


def test_shift_drags_a_rectangle_over_fields_too(editor: ScreenEditor, document: Document) -> None:
    click(editor, 0, 4)
    drag(editor, centre(editor, 0, 8), centre(editor, 1, 12), centre(editor, 2, 18), modifiers=SHIFT)
    block = document.selection.block
    assert block is not None
    assert (block.left(), block.top(), block.right(), block.bottom()) == (4, 0, 18, 2)
    assert document.selection.fields == (0, 1)
    assert field(document, 0).at == (0, 6), "and nothing was moved"


def test_a_double_click_selects_the_word(editor: ScreenEditor, document: Document) -> None:
    QTest.mouseDClick(editor.face.grid, LEFT, NO, centre(editor, 0, 2))
    block = document.selection.block
    assert block is not None
    assert (block.left(), block.right()) == (0, 4)
    QTest.mouseDClick(editor.face.grid, LEFT, NO, centre(editor, 3, 2))
    assert document.selection.block is None
    assert document.selection.cell == (3, 2)


def test_the_left_edge_is_dragged_and_the_right_one_stays(editor: ScreenEditor, document: Document) -> None:
    click(editor, 0, 8)
    edge = editor.face.grid.cell_rect(0, 6)
    hold(editor, QPoint(edge.left() + 1, edge.center().y()), centre(editor, 0, 5))
    assert editor.status.what.text() == "Width 6, from column 6 to 11"
    drop(editor, centre(editor, 0, 5))
    assert (field(document, 0).at, field(document, 0).width) == ((0, 5), 6)
    assert document.undo_name == "Resize field"
    document.undo()
    assert (field(document, 0).at, field(document, 0).width) == ((0, 6), 5)


def test_an_edge_dragged_onto_another_field_is_refused(editor: ScreenEditor, document: Document) -> None:
    drag(editor, centre(editor, 0, 7), centre(editor, 2, 5))
    assert field(document, 0).at == (2, 4)
    edge = editor.face.grid.cell_rect(2, 8)
    hold(editor, QPoint(edge.right(), edge.center().y()), centre(editor, 2, 12))
    assert "overlap field 2" in editor.status.what.text()
    drop(editor, centre(editor, 2, 12))
    assert "overlap field 2" in notice_of(editor)
    assert field(document, 0).width == 5


def test_escape_gives_a_drag_up(editor: ScreenEditor, document: Document) -> None:
    select(editor, 0, 0, 13)
    hold(editor, centre(editor, 0, 2), centre(editor, 1, 2))
    press(editor, Key.Key_Escape)
    assert editor.face.grid.ghost is None
    drop(editor, centre(editor, 1, 2))
    assert text_of(document, 0) == "Speed       Hz"
    assert document.selection.block is not None, "the first Escape ends the drag only"
    press(editor, Key.Key_Escape)
    assert document.selection.block is None
