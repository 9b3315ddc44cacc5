"""The face as an editor, driven by the keyboard and the mouse."""

from __future__ import annotations

from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from app.project.model import Project
from tests.widgets.design.screen.driving import (
    ALT,
    CTRL,
    NO,
    SHIFT,
    Key,
    centre,
    drag,
    field,
    notice_of,
    press,
    text_of,
    type_in,
)
from widgets.design.forms.signal_picker import SignalPicker
from widgets.design.screen.editor import ScreenEditor
from widgets.document.document import Document
from widgets.face.sample_values import FieldContents
from widgets.kit.notice import Notice

# Text


def test_typing_overwrites_at_the_cursor_and_can_be_undone_at_once(editor: ScreenEditor, document: Document) -> None:
    press(editor, Key.Key_Down, Key.Key_Right)
    type_in(editor, "Run time")
    assert text_of(document, 1) == " Run time"
    assert document.selection.cell == (1, 9)
    press(editor, Key.Key_Home)
    type_in(editor, "X")
    assert text_of(document, 1) == "XRun time"
    document.undo()
    document.undo()
    assert text_of(document, 1) == ""


def test_what_is_typed_is_seen(editor: ScreenEditor) -> None:
    press(editor, Key.Key_Down)
    type_in(editor, "Hello")
    assert editor.face.rows[1].text.startswith("Hello")


def test_typing_ends_with_the_row(editor: ScreenEditor, document: Document) -> None:
    press(editor, Key.Key_Down)
    type_in(editor, "x" * 20 + "yz")
    assert (text_of(document, 1), text_of(document, 2)) == ("x" * 20, "")
    assert notice_of(editor) == "The row is full. Enter goes to the next one."
    press(editor, Key.Key_Backspace)
    type_in(editor, "y")
    assert text_of(document, 1) == "x" * 19 + "y", "backspace takes the last letter back"
    press(editor, Key.Key_Return)
    assert document.selection.cell == (2, 0)
    press(editor, Key.Key_Up, Key.Key_End)
    type_in(editor, "z")
    assert text_of(document, 1) == "x" * 19 + "z", "moved there on purpose, typing writes over"


def test_a_key_of_the_panel_goes_where_it_turns(editor: ScreenEditor, document: Document) -> None:
    document.select_screen("run")
    right = editor.face.keypad.buttons["right"]
    assert right.toolTip() == "Goes to 'measured'"
    QTest.mouseClick(right, Qt.MouseButton.LeftButton)
    assert document.selection.screen == "measured"
    QTest.mouseClick(editor.face.keypad.buttons["enter"], Qt.MouseButton.LeftButton)
    assert "ENTER" in notice_of(editor)
    assert document.undo_name is None
    press(editor, Key.Key_F4, modifiers=SHIFT)
    assert not right.isVisible()


def test_insert_mode_moves_text_but_never_fields(editor: ScreenEditor, document: Document) -> None:
    assert not editor.actions_of.insert.isChecked()
    press(editor, Key.Key_Insert)
    assert editor.actions_of.insert.isChecked()
    press(editor, Key.Key_Right, Key.Key_Right, Key.Key_Right, Key.Key_Right)
    type_in(editor, "x")
    assert text_of(document, 0) == "Speexd      Hz", "the unit behind the field stays"
    assert field(document, 0).at == (0, 6)
    type_in(editor, "y")
    assert "No space" in notice_of(editor)
    assert text_of(document, 0) == "Speexd      Hz"


def test_text_under_a_field_is_refused_where_it_can_be_seen(editor: ScreenEditor, document: Document) -> None:
    press(editor, Key.Key_Right, modifiers=CTRL)
    assert document.selection.cell == (0, 6)
    type_in(editor, "x")
    assert "frequency" in notice_of(editor)
    assert not editor.notice.hasFocus()
    assert document.undo_name is None
    press(editor, Key.Key_Down)
    type_in(editor, "x")
    assert notice_of(editor) == "", "the next edit that works takes it away"


def test_backspace_and_delete(editor: ScreenEditor, document: Document) -> None:
    press(editor, Key.Key_Down)
    type_in(editor, "abcd")
    press(editor, Key.Key_Backspace)
    assert text_of(document, 1) == "abc"
    assert document.selection.cell == (1, 3)
    press(editor, Key.Key_Left, Key.Key_Left)
    press(editor, Key.Key_Delete)
    assert text_of(document, 1) == "a c", "overwriting, a blank stays"
    press(editor, Key.Key_Insert, Key.Key_Delete)
    assert text_of(document, 1) == "ac", "inserting, the rest closes up"
    press(editor, Key.Key_Home, Key.Key_Backspace)
    assert text_of(document, 1) == "ac", "nothing before the first column"


def test_a_block_is_selected_copied_cleared_and_pasted(editor: ScreenEditor, document: Document) -> None:
    press(editor, Key.Key_Down)
    type_in(editor, "abcd")
    press(editor, Key.Key_Home)
    press(editor, Key.Key_Right, modifiers=SHIFT)
    press(editor, Key.Key_Up, modifiers=SHIFT)
    block = document.selection.block
    assert block is not None
    assert (block.x(), block.y(), block.width(), block.height()) == (0, 0, 2, 2)
    press(editor, Key.Key_C, modifiers=CTRL)
    assert QGuiApplication.clipboard().text() == "Sp\nab"
    press(editor, Key.Key_Delete)
    assert (text_of(document, 0), text_of(document, 1)) == ("  eed       Hz", "  cd")
    document.undo()
    assert document.selection.block == block, "what was cleared is selected again"
    press(editor, Key.Key_Home, Key.Key_Down, Key.Key_Down)
    press(editor, Key.Key_V, modifiers=CTRL)
    assert (text_of(document, 2), text_of(document, 3)) == ("Sp", "ab")
    document.undo()
    assert text_of(document, 3) == "", "a paste is one step"


def test_typing_replaces_text_selected_in_a_row(editor: ScreenEditor, document: Document) -> None:
    press(editor, *[Key.Key_Right] * 4, modifiers=SHIFT)
    type_in(editor, "Hz")
    assert text_of(document, 0) == "Hz          Hz"
    assert document.selection.cell == (0, 2)
    document.undo()
    assert text_of(document, 0) == "Speed       Hz"
    assert document.undo_name is None


def test_typing_over_a_selected_field_is_refused_and_clears_nothing(editor: ScreenEditor, document: Document) -> None:
    press(editor, *[Key.Key_Right] * 6)
    press(editor, *[Key.Key_Right] * 7, modifiers=SHIFT)
    type_in(editor, "x")
    assert "frequency" in notice_of(editor)
    assert text_of(document, 0) == "Speed       Hz"


def test_what_does_not_fit_is_not_pasted(editor: ScreenEditor, document: Document) -> None:
    for text in ("x" * 50, "\n".join("abcdefgh"), "x" * 5_000_000):
        QGuiApplication.clipboard().setText(text)
        editor.notice.hide()
        press(editor, Key.Key_V, modifiers=CTRL)
        assert "not enough room" in notice_of(editor) or "5000000 characters" in notice_of(editor), len(text)
        assert document.undo_name is None


def test_a_character_of_an_input_method_is_typed(editor: ScreenEditor, document: Document) -> None:
    press(editor, Key.Key_Down)
    editor.face.text_composed.emit("\N{DEGREE SIGN}C")
    assert text_of(document, 1) == "\N{DEGREE SIGN}C"


# Fields


def test_the_cursor_selects_the_field_that_it_comes_to(editor: ScreenEditor, document: Document) -> None:
    press(editor, *[Key.Key_Right] * 6)
    assert list(document.selection.fields) == [0]
    assert "frequency" in editor.status.text()
    assert "5 wide" in editor.status.text()
    press(editor, *[Key.Key_Right] * 5)
    assert not document.selection.fields


def test_a_field_is_moved_resized_duplicated_and_deleted_by_keys(editor: ScreenEditor, document: Document) -> None:
    press(editor, Key.Key_Right, modifiers=CTRL)
    press(editor, Key.Key_Down, modifiers=ALT)
    press(editor, Key.Key_Left, Key.Key_Left, modifiers=ALT)
    assert field(document, 0).at == (1, 4)
    assert document.selection.cell == (1, 4), "the cursor goes along"
    press(editor, Key.Key_Right, Key.Key_Right, modifiers=ALT | SHIFT)
    press(editor, Key.Key_Left, modifiers=ALT | SHIFT)
    assert field(document, 0).width == 6
    press(editor, Key.Key_D, modifiers=CTRL)
    screen = document.screen
    assert screen is not None
    assert len(screen.fields) == 3
    assert document.selection.fields == (2,)
    press(editor, Key.Key_Delete)
    assert document.screen is not None
    assert len(document.screen.fields) == 2
    document.undo()
    document.undo()
    document.undo()
    document.undo()
    assert field(document, 0).at == (0, 6)
    assert field(document, 0).width == 5
    assert document.undo_name is None, "a row of moves is one step, and so is a row of resizings"


def test_a_move_out_of_the_panel_or_onto_a_field_is_refused(editor: ScreenEditor, document: Document) -> None:
    press(editor, Key.Key_Right, modifiers=CTRL)
    press(editor, Key.Key_Up, modifiers=ALT)
    assert "outside" in notice_of(editor)
    assert field(document, 0).at == (0, 6)
    press(editor, Key.Key_Down, Key.Key_Down, modifiers=ALT)
    assert field(document, 0).at == (2, 6) or "overlap field" in notice_of(editor)


def test_a_field_is_dragged_with_a_ghost(editor: ScreenEditor, document: Document) -> None:
    grid = editor.face.grid
    before = grid.grab().toImage()
    QTest.mousePress(grid, Qt.MouseButton.LeftButton, NO, centre(editor, 0, 7))
    QTest.mouseMove(grid, centre(editor, 3, 3))
    QApplication.processEvents()
    assert grid.grab().toImage() != before
    assert field(document, 0).at == (0, 6), "nothing is changed before the button is let go"
    QTest.mouseRelease(grid, Qt.MouseButton.LeftButton, NO, centre(editor, 3, 3))
    assert field(document, 0).at == (3, 2)
    document.undo()
    assert field(document, 0).at == (0, 6)


def test_a_drag_to_where_it_does_not_fit_is_refused(editor: ScreenEditor, document: Document) -> None:
    drag(editor, centre(editor, 0, 7), centre(editor, 2, 10))
    assert field(document, 0).at == (0, 6)
    assert "overlap field" in notice_of(editor)


def test_escape_ends_a_drag(editor: ScreenEditor, document: Document) -> None:
    grid = editor.face.grid
    QTest.mousePress(grid, Qt.MouseButton.LeftButton, NO, centre(editor, 0, 7))
    QTest.mouseMove(grid, centre(editor, 3, 3))
    press(editor, Key.Key_Escape)
    QTest.mouseRelease(grid, Qt.MouseButton.LeftButton, NO, centre(editor, 3, 3))
    assert field(document, 0).at == (0, 6)


def test_the_right_edge_of_the_selected_field_resizes_it(editor: ScreenEditor, document: Document) -> None:
    press(editor, Key.Key_Right, modifiers=CTRL)
    edge = editor.face.grid.cell_rect(0, 10)
    drag(editor, QPoint(edge.right(), edge.center().y()), centre(editor, 0, 11), centre(editor, 0, 8))
    assert field(document, 0).width == 3
    document.undo()
    assert field(document, 0).width == 5


def test_several_fields_move_together(editor: ScreenEditor, document: Document) -> None:
    grid = editor.face.grid
    QTest.mouseClick(grid, Qt.MouseButton.LeftButton, NO, centre(editor, 0, 7))
    QTest.mouseClick(grid, Qt.MouseButton.LeftButton, CTRL, centre(editor, 2, 11))
    assert document.selection.fields == (0, 1)
    press(editor, Key.Key_Down, modifiers=ALT)
    assert (field(document, 0).at, field(document, 1).at) == ((1, 6), (3, 10))


def test_dragging_over_empty_cells_selects_a_block(editor: ScreenEditor, document: Document) -> None:
    drag(editor, centre(editor, 3, 19), centre(editor, 2, 8))
    block = document.selection.block
    assert block is not None
    assert (block.left(), block.top(), block.right(), block.bottom()) == (8, 2, 19, 3)
    assert document.selection.fields == (1,), "the field inside it is selected too"


def picker_of(editor: ScreenEditor) -> SignalPicker:
    picker = editor.findChild(SignalPicker)
    assert isinstance(picker, SignalPicker)
    return picker


def test_a_field_is_placed_by_the_keyboard_alone(editor: ScreenEditor, document: Document, qtbot: QtBot) -> None:
    press(editor, Key.Key_Down)
    press(editor, Key.Key_Return, modifiers=CTRL)
    picker = picker_of(editor)
    QTest.keyClicks(picker.search, "set point")
    assert picker.list.topLevelItemCount() == 1
    QTest.keyClick(picker.search, Key.Key_Return)
    placed = field(document, 2)
    assert (placed.signal, placed.kind, placed.at) == ("speed set point", "number", (1, 0))
    assert placed.width == 5, "as wide as the widest value over the whole raw range: 327.7"
    assert document.undo_name == "Place field"
    qtbot.waitUntil(editor.face.hasFocus)


def test_the_picker_offers_a_text_for_signals_with_texts(editor: ScreenEditor, document: Document) -> None:
    press(editor, Key.Key_Down)
    press(editor, Key.Key_Return, modifiers=CTRL)
    picker = picker_of(editor)
    QTest.keyClicks(picker.search, "bit of status")
    assert picker.list.topLevelItemCount() > 1
    QTest.keyClick(picker.search, Key.Key_Down)
    QTest.keyClick(picker.search, Key.Key_Up)
    QTest.keyClicks(picker.search, " 4")
    QTest.keyClick(picker.search, Key.Key_Return)
    assert (field(document, 2).signal, field(document, 2).kind) == ("running", "choice")


def test_no_signal_of_that_name_offers_a_new_one(editor: ScreenEditor, document: Document, qtbot: QtBot) -> None:
    press(editor, Key.Key_Return, modifiers=CTRL)
    picker = picker_of(editor)
    QTest.keyClicks(picker.search, "no such thing")
    assert picker.none.isVisible()
    assert not picker.place.isEnabled()


def test_what_the_fields_show_can_be_switched(editor: ScreenEditor) -> None:
    texts = set()
    for shown in FieldContents:
        editor.set_shown(shown)
        texts.add(editor.face.rows[0].text)
    assert len(texts) == 4
    editor.set_shown(FieldContents.WIDEST)
    assert "#####" in editor.face.rows[0].text, "-163.8 does not fit 5 cells, and that is seen"


def test_zoom_by_keys(editor: ScreenEditor) -> None:
    fitting = editor.face.grid.pixels
    press(editor, Key.Key_Minus, modifiers=CTRL)
    assert editor.face.grid.pixels == fitting - 2
    press(editor, Key.Key_0, modifiers=CTRL)
    assert editor.face.grid.pixels == fitting


def test_without_a_screen_it_says_what_to_do(window: QWidget, project: Project) -> None:
    bare = Document(project.replace(screens=(), screen_changes=(), actions=()))
    made = ScreenEditor(bare, Notice(window), window)
    window.show()
    assert made.empty.isVisible()
    assert not any(action.isEnabled() for action in made.tools.actions)
    QTest.keyClicks(made.face, "abc")
