"""Finding and replacing on all screens, by keys."""

from __future__ import annotations

from PySide6.QtCore import QRect
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app import edits
from app.project.model import Project
from tests.widgets.design.screen.driving import CTRL, SHIFT, Key, click, field, notice_of, press, text_of, type_in
from widgets.design.screen.editor import ScreenEditor
from widgets.design.screen.find_bar import FindBar
from widgets.document.document import Document, Selection


def opened(editor: ScreenEditor, key: Key = Key.Key_F) -> FindBar:
    press(editor, key, modifiers=CTRL)
    assert editor.find_bar.isVisible()
    return editor.find_bar


def look_for(bar: FindBar, text: str) -> None:
    QTest.keyClicks(bar.sought, text)


def found_at(document: Document) -> tuple[str, tuple[int, int], QRect | None]:
    selection = document.selection
    return selection.screen, selection.cell, selection.block


def test_what_is_typed_is_found_from_the_cursor_on(editor: ScreenEditor, document: Document) -> None:
    bar = opened(editor)
    assert bar.sought.hasFocus()
    look_for(bar, "hz")
    assert found_at(document) == ("bench", (0, 12), QRect(12, 0, 2, 1))
    assert bar.count.text().startswith("1 of ")


def test_enter_goes_on_and_back_around_all_screens(editor: ScreenEditor, document: Document) -> None:
    bar = opened(editor)
    look_for(bar, "Set")
    places = []
    for _ in range(len(bar.matches)):
        places.append(found_at(document)[:2])
        QTest.keyClick(bar.sought, Key.Key_Return)
    assert len(set(places)) == len(bar.matches) > 1
    assert found_at(document)[:2] == places[0], "around the end"
    QTest.keyClick(bar.sought, Key.Key_Return, SHIFT)
    assert found_at(document)[:2] == places[-1]
    QTest.keyClick(bar.sought, Key.Key_F3)
    assert found_at(document)[:2] == places[0]


def test_f3_goes_on_from_the_face_after_the_bar_is_closed(
    editor: ScreenEditor, document: Document, qtbot: QtBot
) -> None:
    bar = opened(editor)
    look_for(bar, "Hz")
    QTest.keyClick(bar.sought, Key.Key_Escape)
    assert not bar.isVisible()
    qtbot.waitUntil(editor.face.hasFocus)
    first = found_at(document)
    press(editor, Key.Key_F3)
    assert found_at(document) != first
    press(editor, Key.Key_F3, modifiers=SHIFT)
    assert found_at(document) == first


def test_nothing_found_is_said(editor: ScreenEditor, document: Document) -> None:
    bar = opened(editor)
    before = document.selection
    look_for(bar, "no such words")
    assert bar.count.text() == "Not found"
    assert not bar.all_button.isEnabled()
    press(editor, Key.Key_F3)
    assert "was not found" in notice_of(editor)
    assert document.selection.screen == before.screen


def test_capitals_may_matter(editor: ScreenEditor) -> None:
    bar = opened(editor)
    look_for(bar, "SPEED")
    assert bar.matches
    bar.case.click()
    assert bar.matches == ()


def test_whole_words_can_be_asked_for(editor: ScreenEditor) -> None:
    bar = opened(editor)
    look_for(bar, "peed")
    assert bar.matches
    bar.words.click()
    assert bar.matches == ()


def test_selected_text_is_looked_for(editor: ScreenEditor) -> None:
    press(editor, *[Key.Key_Right] * 4, modifiers=SHIFT)
    bar = opened(editor)
    assert bar.sought.text() == "Speed"


def test_fields_are_found_by_their_signals(editor: ScreenEditor, document: Document) -> None:
    bar = opened(editor)
    bar.where.setCurrentIndex(1)
    bar.where.activated.emit(1)
    look_for(bar, "runn")
    assert document.selection == Selection("bench", (2, 10), (1,))


def test_a_count_follows_what_is_typed_on_the_face(editor: ScreenEditor, qtbot: QtBot) -> None:
    bar = opened(editor)
    look_for(bar, "Zebra")
    assert bar.count.text() == "Not found"
    click(editor, 1, 0)
    type_in(editor, "Zebra")
    qtbot.waitUntil(lambda: bar.count.text() == "Found: 1")


def test_one_place_is_replaced_and_the_next_is_shown(editor: ScreenEditor, document: Document) -> None:
    bar = opened(editor, Key.Key_H)
    look_for(bar, "Speed")
    QTest.keyClicks(bar.put, "Tempo")
    QTest.keyClick(bar.put, Key.Key_Return)
    assert text_of(document, 0, "bench") == "Tempo       Hz"
    assert document.undo_name == "Replace"
    assert document.selection.screen != "bench"
    document.undo()
    assert text_of(document, 0, "bench") == "Speed       Hz"


def test_all_places_are_replaced_in_one_step(editor: ScreenEditor, document: Document, project: Project) -> None:
    bar = opened(editor, Key.Key_H)
    look_for(bar, "Hz")
    count = len(bar.matches)
    QTest.keyClicks(bar.put, "1/s")
    bar.all_button.click()
    assert text_of(document, 0, "bench") == "Speed       1/s"
    assert bar.count.text() == f"Replaced: {count}"
    assert edits.find(document.project, edits.Sought("Hz", case=True)) == ()
    document.undo()
    assert document.project is project
    assert document.undo_name is None


def test_places_without_room_are_left_and_listed(editor: ScreenEditor, document: Document) -> None:
    bar = opened(editor, Key.Key_H)
    look_for(bar, "Speed")
    QTest.keyClicks(bar.put, "Velocity")
    bar.all_button.click()
    assert text_of(document, 0, "bench") == "Speed       Hz"
    assert bar.left.isVisible()
    words = bar.left.item(0).text()
    assert "screen 'bench', row 1, column 1" in words
    assert "'Velocity' needs 8 cells, but only 6 are free there" in words
    document.select(Selection("run", (3, 3)))
    bar.left.setFocus()
    QTest.keyClick(bar.left, Key.Key_Home)
    QTest.keyClick(bar.left, Key.Key_Return)
    assert found_at(document)[:2] == ("bench", (0, 0))
    QTest.keyClicks(bar.sought, "x")
    assert not bar.left.isVisible()


def test_a_single_place_without_room_is_refused_in_words(editor: ScreenEditor, document: Document) -> None:
    bar = opened(editor, Key.Key_H)
    look_for(bar, "Speed")
    QTest.keyClicks(bar.put, "Velocity")
    QTest.keyClick(bar.put, Key.Key_Return)
    assert "needs 8 cells" in notice_of(editor)
    assert document.undo_name is None


def test_signals_of_fields_are_replaced_by_such_that_exist(editor: ScreenEditor, document: Document) -> None:
    bar = opened(editor, Key.Key_H)
    bar.where.setCurrentIndex(1)
    bar.where.activated.emit(1)
    look_for(bar, "frequency")
    QTest.keyClicks(bar.put, "current")
    bar.all_button.click()
    assert field(document, 0).signal == "current"
    document.undo()
    QTest.keyClicks(bar.put, " of nothing")
    bar.all_button.click()
    assert field(document, 0).signal == "frequency"
    assert "does not exist" in bar.left.item(0).text()


def test_escape_on_the_face_closes_the_bar_first(editor: ScreenEditor, document: Document) -> None:
    bar = opened(editor)
    look_for(bar, "Hz")
    editor.face.setFocus()
    press(editor, Key.Key_Escape)
    assert not bar.isVisible()
    assert document.selection.block is not None
    press(editor, Key.Key_Escape)
    assert document.selection.block is None


def test_messages_do_not_cover_the_bar(editor: ScreenEditor, qtbot: QtBot) -> None:
    bar = opened(editor, Key.Key_H)
    editor.say("Something")
    QApplication.processEvents()

    def clear() -> bool:
        top = editor.status.mapTo(editor.window(), editor.status.rect().topLeft()).y()
        lowest = editor.notice.mapTo(editor.window(), editor.notice.rect().bottomLeft()).y()
        return lowest < top < bar.mapTo(editor.window(), bar.rect().topLeft()).y()

    qtbot.waitUntil(clear)
