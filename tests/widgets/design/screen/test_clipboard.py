"""Copying and pasting on the face and in the list of screens: within a project, between two, with other programs."""

from __future__ import annotations

import time
from collections.abc import Callable

import pytest
from PySide6.QtCore import QMimeData
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from app import edits
from app.panel.paging import PagingGraph
from app.project.model import Project
from app.project_file.files import parse
from tests.widgets.design.screen.driving import (
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
from widgets.design.screen.clipboard import CELLS, SCREENS
from widgets.design.screen.editor import ScreenEditor
from widgets.design.screen.paste_dialog import ArrivalsDialog
from widgets.design.screens_pane import ScreensPane
from widgets.document.document import Document, Selection
from widgets.kit.notice import Notice

OTHER = """
format = 2
[panel]
rows = 4
columns = 20
start = "first"
[[line]]
name = "attic"
kind = "tcp"
host = "192.0.2.7"
[[follower]]
name = "pump"
line = "attic"
[[signal]]
name = "frequency"
follower = "pump"
register = 1
[[screen]]
name = "first"
text = ["Other", "", "", ""]
"""

Elsewhere = Callable[[Project], tuple[ScreenEditor, Document]]


@pytest.fixture
def elsewhere(qtbot: QtBot) -> Elsewhere:
    """An editor of another project, as another window of the program has it."""
    kept: list[object] = []

    def make(project: Project) -> tuple[ScreenEditor, Document]:
        window = QWidget()
        qtbot.addWidget(window)
        document = Document(project)
        editor = ScreenEditor(document, Notice(window), window)
        document.refused.connect(editor.notice.say)
        window.resize(900, 500)
        editor.resize(900, 460)
        kept.extend((window, document))
        with qtbot.waitActive(window):
            window.show()
            window.activateWindow()
        editor.face.setFocus()
        qtbot.waitUntil(editor.face.hasFocus)
        return editor, document

    return make


def without(project: Project, *names: str) -> Project:
    """The other project without some signals."""
    return project.replace(signals=tuple(signal for signal in project.signals if signal.name not in names))


def select_row(editor: ScreenEditor, row: int, first: int, last: int) -> None:
    click(editor, row, first)
    editor.commands.go(row, first)
    press(editor, *[Key.Key_Right] * (last - first), modifiers=SHIFT)


def copy(editor: ScreenEditor) -> None:
    press(editor, Key.Key_C, modifiers=CTRL)


def paste(editor: ScreenEditor) -> None:
    press(editor, Key.Key_V, modifiers=CTRL)


def question(editor: ScreenEditor) -> ArrivalsDialog:
    found = editor.findChild(ArrivalsDialog)
    assert isinstance(found, ArrivalsDialog)
    return found


# In one project


def test_cells_are_copied_with_their_fields_and_pasted_as_one_step(editor: ScreenEditor, document: Document) -> None:
    before = document.project
    select_row(editor, 0, 0, 13)
    copy(editor)
    click(editor, 3, 2)
    paste(editor)
    assert text_of(document, 3) == "  Speed       Hz"
    assert field(document, 2).at == (3, 8)
    assert field(document, 2).signal == "frequency"
    assert document.undo_name == "Paste"
    block = document.selection.block
    assert block is not None
    assert (block.x(), block.y(), block.width()) == (2, 3, 14), "what was pasted is selected, to be moved on"
    document.undo()
    assert document.project is before
    assert document.undo_name is None


def test_cutting_takes_text_and_fields_away(editor: ScreenEditor, document: Document) -> None:
    select_row(editor, 0, 0, 13)
    press(editor, Key.Key_X, modifiers=CTRL)
    assert text_of(document, 0) == ""
    assert [each.signal for each in fields(document)] == ["running"]
    assert document.undo_name == "Cut"
    press(editor, Key.Key_Home, Key.Key_Down)
    paste(editor)
    assert text_of(document, 1) == "Speed       Hz"
    assert field(document, 1).at == (1, 6)


def test_a_field_is_copied_alone_and_leaves_the_text_beneath(editor: ScreenEditor, document: Document) -> None:
    click(editor, 0, 7)
    copy(editor)
    assert QGuiApplication.clipboard().text().strip() == "37.5"
    click(editor, 1, 3)
    paste(editor)
    assert (field(document, 2).at, field(document, 2).width) == ((1, 3), 5)
    assert document.selection.fields == (2,)
    assert text_of(document, 0) == "Speed       Hz"


def test_several_fields_keep_their_distance(editor: ScreenEditor, document: Document) -> None:
    click(editor, 0, 7)
    click(editor, 2, 11, CTRL)
    copy(editor)
    click(editor, 1, 6)
    paste(editor)
    assert [each.at for each in fields(document)[2:]] == [(1, 6), (3, 10)]


def test_without_a_selection_the_whole_row_goes(editor: ScreenEditor, document: Document) -> None:
    press(editor, Key.Key_Right)
    copy(editor)
    press(editor, Key.Key_Down, Key.Key_Right)
    paste(editor)
    assert text_of(document, 1) == "Speed       Hz", "into its own columns, wherever the cursor is"
    assert field(document, 2).at == (1, 6)


def test_what_would_cover_a_field_is_not_pasted(editor: ScreenEditor, document: Document) -> None:
    select_row(editor, 0, 0, 13)
    copy(editor)
    click(editor, 2, 0)
    paste(editor)
    assert "overlap field" in notice_of(editor)
    assert document.undo_name is None


def test_typed_letters_and_pasted_cells_are_taken_back_apart(editor: ScreenEditor, document: Document) -> None:
    press(editor, Key.Key_Down)
    type_in(editor, "ab")
    select_row(editor, 1, 0, 1)
    copy(editor)
    press(editor, Key.Key_Home, Key.Key_Down, Key.Key_Down)
    paste(editor)
    assert text_of(document, 3) == "ab"
    document.undo()
    assert (text_of(document, 1), text_of(document, 3)) == ("ab", "")


# Between projects


def test_a_field_takes_its_signal_follower_and_line_along(
    editor: ScreenEditor, elsewhere: Elsewhere, project: Project
) -> None:
    select_row(editor, 2, 8, 19)
    copy(editor)
    there, document = elsewhere(parse(OTHER))
    before = document.project
    press(there, Key.Key_Down)
    paste(there)
    assert field(document, 0).signal == "running"
    arrived = [name for name in document.project.signal_named if name not in before.signal_named]
    assert arrived == ["status", "running"]
    assert document.project.signal_named["running"] == project.signal_named["running"]
    assert "'status', 'running'" in notice_of(there)
    document.undo()
    assert document.project is before, "all of it in one step"
    document.redo()
    assert list(document.project.signal_named) == ["frequency", "status", "running"]


def test_what_is_the_same_there_is_not_brought_again(
    editor: ScreenEditor, elsewhere: Elsewhere, project: Project
) -> None:
    select_row(editor, 0, 0, 13)
    copy(editor)
    there, document = elsewhere(project)
    press(there, Key.Key_Down)
    paste(there)
    assert document.project.signals is project.signals
    assert notice_of(there) == ""


def test_the_same_name_with_another_meaning_is_asked_about(editor: ScreenEditor, elsewhere: Elsewhere) -> None:
    select_row(editor, 0, 0, 13)
    copy(editor)
    there, document = elsewhere(parse(OTHER))
    before = document.project
    press(there, Key.Key_Down)
    paste(there)
    dialog = question(there)
    rows = [dialog.tree.topLevelItem(row) for row in range(dialog.tree.topLevelItemCount())]
    told = [tuple(item.text(column) for column in range(4)) for item in rows if item is not None]
    assert ("signal 'frequency'", "register", "1", "401") in told
    assert document.project is before, "nothing is done before the answer"
    dialog.keep.click()
    assert field(document, 0).signal == "frequency"
    assert document.project.signals is before.signals


def test_the_pasted_signals_can_come_under_new_names(editor: ScreenEditor, elsewhere: Elsewhere) -> None:
    select_row(editor, 0, 0, 13)
    copy(editor)
    there, document = elsewhere(parse(OTHER))
    before = document.project
    press(there, Key.Key_Down)
    paste(there)
    question(there).rename.click()
    assert field(document, 0).signal == "frequency 2"
    assert "'frequency 2'" in notice_of(there)
    document.undo()
    assert document.project is before


def test_the_question_can_be_left_without_a_paste(editor: ScreenEditor, elsewhere: Elsewhere) -> None:
    select_row(editor, 0, 0, 13)
    copy(editor)
    there, document = elsewhere(parse(OTHER))
    paste(there)
    QTest.keyClick(question(there), Key.Key_Escape)
    assert document.undo_name is None
    assert fields(document) == ()


def test_a_smaller_panel_says_how_much_room_there_is(
    editor: ScreenEditor, elsewhere: Elsewhere, project: Project
) -> None:
    click(editor, 0, 0)
    press(editor, Key.Key_A, modifiers=CTRL)
    copy(editor)
    there, document = elsewhere(parse(OTHER.replace("rows = 4", "rows = 2").replace('"Other", "", "", ""', '""')))
    paste(there)
    assert there.findChild(ArrivalsDialog) is None, "no question in vain"
    assert "needs 4 x 20 cells" in notice_of(there)
    assert document.undo_name is None


# Other programs, and what others put there


def test_other_programs_get_what_one_sees(editor: ScreenEditor) -> None:
    select_row(editor, 0, 0, 13)
    copy(editor)
    assert QGuiApplication.clipboard().text() == "Speed  37.5 Hz"


@pytest.mark.parametrize("text", ["one\r\ntwo\r\n", "one\ntwo", "one\rtwo"])
def test_lines_of_any_program_are_pasted(editor: ScreenEditor, document: Document, text: str) -> None:
    QGuiApplication.clipboard().setText(text)
    press(editor, Key.Key_Down, Key.Key_Down)
    paste(editor)
    assert (text_of(document, 2), text_of(document, 3)) == ("one", "two")
    assert document.selection.cell == (3, 3)


def test_tabs_become_blanks_and_a_control_character_is_refused(editor: ScreenEditor, document: Document) -> None:
    press(editor, Key.Key_Down)
    QGuiApplication.clipboard().setText("a\tb")
    paste(editor)
    assert text_of(document, 1) == "a b"
    QGuiApplication.clipboard().setText("a\x07b")
    paste(editor)
    assert "control character" in notice_of(editor)
    assert text_of(document, 1) == "a b"


def test_a_megabyte_is_refused_in_words_and_at_once(editor: ScreenEditor, document: Document) -> None:
    QGuiApplication.clipboard().setText("line of text\n" * 100_000)
    start = time.monotonic()
    paste(editor)
    assert time.monotonic() - start < 2
    assert notice_of(editor) == "The text on the clipboard has 1300000 characters; this panel has 80 cells."
    assert document.undo_name is None


@pytest.mark.parametrize("kind", [CELLS, SCREENS])
@pytest.mark.parametrize(
    "content",
    [b"", b"\xff\xfe\x00", b"format = 2", b"not toml at all [", b"format = 99\n", b"x" * 5_000_000],
    ids=["nothing", "no text", "no panel", "no toml", "newer", "huge"],
)
def test_damaged_content_is_refused_in_words(
    editor: ScreenEditor, document: Document, kind: str, content: bytes
) -> None:
    mime = QMimeData()
    mime.setData(kind, content)
    QGuiApplication.clipboard().setMimeData(mime)
    paste(editor)
    assert "cannot be read: " in notice_of(editor)
    assert document.undo_name is None


def test_pictures_and_empty_text_are_refused(editor: ScreenEditor, document: Document) -> None:
    mime = QMimeData()
    mime.setData("image/png", b"1")
    for content in (mime, None):
        if content is None:
            QGuiApplication.clipboard().setText("")
        else:
            QGuiApplication.clipboard().setMimeData(content)
        paste(editor)
        assert "clipboard" in notice_of(editor)
    assert document.undo_name is None


# Whole screens


@pytest.fixture
def pane(editor: ScreenEditor, document: Document, qtbot: QtBot) -> ScreensPane:
    made = ScreensPane(document)
    qtbot.addWidget(made)
    made.use_clipboard(editor.clipboard)

    def show() -> None:
        made.show_project(document.project, PagingGraph(document.project), ())

    document.changed.connect(show)
    document.selection_changed.connect(made.show_selection)
    show()
    made.resize(240, 400)
    with qtbot.waitActive(made):
        made.show()
        made.activateWindow()
    made.list.list.setFocus()
    qtbot.waitUntil(made.list.list.hasFocus)
    return made


def test_screens_go_over_the_clipboard_into_another_project(
    pane: ScreensPane, editor: ScreenEditor, elsewhere: Elsewhere, project: Project
) -> None:
    QTest.keyClick(pane.list.list, Key.Key_Down, SHIFT)
    QTest.keyClick(pane.list.list, Key.Key_C, CTRL)
    assert QGuiApplication.clipboard().text().startswith("Speed")
    there, document = elsewhere(without(parse(OTHER), "frequency"))
    before = document.project
    paste(there)
    assert list(document.project.screen_named) == ["first", "bench", "run"]
    assert document.project.screen_named["run"] == project.screen_named["run"]
    assert document.selection == Selection("bench")
    assert document.undo_name == "Paste screens"
    assert "signals 'speed set point', 'status'" in notice_of(there)
    assert "No screen change leads here yet" in notice_of(there)
    document.undo()
    assert document.project is before


def test_a_screen_is_pasted_behind_the_current_one_under_a_free_name(pane: ScreensPane, document: Document) -> None:
    QTest.keyClick(pane.list.list, Key.Key_C, CTRL)
    QTest.keyClick(pane.list.list, Key.Key_V, CTRL)
    names = list(document.project.screen_named)
    assert names[:2] == ["bench", "bench 2"]
    assert document.selection.screen == "bench 2"
    assert document.undo_name == "Paste screen"


def test_text_is_no_screen(pane: ScreensPane, editor: ScreenEditor, document: Document) -> None:
    QGuiApplication.clipboard().setText("some text")
    QTest.keyClick(pane.list.list, Key.Key_V, CTRL)
    assert "There is no screen on the clipboard" in notice_of(editor)
    assert document.undo_name is None


def test_several_screens_are_deleted_as_one_step(pane: ScreensPane, document: Document) -> None:
    before = document.project
    document.do("Add", lambda project: edits.add_screen(edits.add_screen(project, "a"), "b"))
    with_two = document.project
    QTest.keyClick(pane.list.list, Key.Key_End)
    QTest.keyClick(pane.list.list, Key.Key_Up, SHIFT)
    assert pane.list.chosen_names() == ["a", "b"]
    QTest.keyClick(pane.list.list, Key.Key_Delete)
    assert document.project.screens == before.screens
    document.undo()
    assert document.project is with_two
