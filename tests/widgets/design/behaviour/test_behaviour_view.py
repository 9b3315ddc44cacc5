"""Sentences operated by keyboard and mouse: chosen, changed, moved, copied, deleted, filtered, heard."""

from __future__ import annotations

from decimal import Decimal

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QContextMenuEvent, QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit, QMenu
from pytestqt.qtbot import QtBot

from app import edits
from app.project.model import Action, Condition, Project, ScreenChange
from tests.widgets.design.sentences import choose, chosen_row, note, rows, type_word, word
from tests.widgets.driving import designed, focused
from widgets.design.behaviour.word_editors import SoughtWord
from widgets.design.workspace import DesignWorkspace
from widgets.document.document import Document
from widgets.kit.language import Language, Translation

Key = Qt.Key
ALT, CTRL, SHIFT = (
    Qt.KeyboardModifier.AltModifier,
    Qt.KeyboardModifier.ControlModifier,
    Qt.KeyboardModifier.ShiftModifier,
)


@pytest.fixture
def project(pump: Project) -> Project:
    """The booster pump with a second override, and a number that a key writes."""
    remote = Condition.model_validate({"signal": "remote", "is": "set"})
    changes = (*pump.screen_changes, ScreenChange(when=remote, to="times"))
    writes = Action(key="up", from_="run", do="write", signal="speed set point", value=Decimal(30))
    return pump.replace(screen_changes=changes, actions=(*pump.actions, writes))


@pytest.fixture
def design(document: Document, qtbot: QtBot) -> DesignWorkspace:
    made = designed(document, qtbot)
    made.show_view("behaviour")
    return made


def test_the_list_shows_what_counts_on_the_screen_and_all_if_wanted(
    design: DesignWorkspace, document: Document
) -> None:
    model = design.behaviour.model
    assert [model.title(group) for group in model.groups] == ["On screen run", "On every screen", "Without a key"]
    document.select_screen("measured")
    assert model.title(model.groups[0]) == "On screen measured"
    few = len(rows(design))
    design.behaviour.all.click()
    assert len(rows(design)) == len(document.project.screen_changes) + len(document.project.actions) > few


def test_the_filter_finds_words_of_sentences(design: DesignWorkspace) -> None:
    QTest.keyClick(design.behaviour.table, Key.Key_F, CTRL)
    QTest.keyClicks(focused(), "reset held")
    assert rows(design) == ["Key RESET sets fault reset while it is held"]
    design.behaviour.select("screen_change", 0)
    assert design.behaviour.narrow.text() == "", "what is led to is shown"


def test_arrows_go_row_by_row_and_tab_word_by_word(design: DesignWorkspace) -> None:
    table = design.behaviour.table
    design.behaviour.select("screen_change", 0)
    first = chosen_row(design)
    QTest.keyClick(table, Key.Key_Down)
    assert chosen_row(design) != first
    QTest.keyClick(table, Key.Key_Up)
    assert chosen_row(design) == first
    QTest.keyClick(table, Key.Key_Tab)
    gone: list[str] = []
    for _ in range(5):
        gone.append(focused().accessibleName())
        QTest.keyClick(focused(), Key.Key_Tab)
    assert gone == ["Cause: by a key", "Key", "What it does", "Target screen", "On screen"]
    assert focused().accessibleName() == "Duplicate"
    for _ in range(6):
        QTest.keyClick(focused(), Key.Key_Backtab, SHIFT)
    assert table.hasFocus(), "back from the cause to the row"
    QTest.keyClick(table, Key.Key_Return)
    QTest.keyClick(focused(), Key.Key_Down)
    assert chosen_row(design) != first, "arrows go on to the next row"
    assert focused().accessibleName() == "Key", "to the same word of it"
    QTest.keyClick(focused(), Key.Key_Return)
    assert table.hasFocus(), "Enter ends"


def test_tab_goes_on_from_the_last_word_and_the_keys_are_not_trapped(design: DesignWorkspace) -> None:
    design.behaviour.select("screen_change", 0)
    design.behaviour.to_words()
    for _ in range(8):
        QTest.keyClick(focused(), Key.Key_Tab)
    assert not design.behaviour.table.isAncestorOf(focused())


def test_a_number_counts_when_its_word_is_left_and_is_one_step(design: DesignWorkspace, document: Document) -> None:
    at = len(document.project.actions) - 1
    design.navigator.show_action(at)
    box = word(design, "number").box
    box.setFocus()
    assert isinstance(box, QLineEdit)
    box.selectAll()
    before = document.project
    QTest.keyClicks(box, "41.65")
    assert document.project is before, "not at each key"
    QTest.keyClick(box, Key.Key_Tab)
    assert str(document.project.actions[at].value) == "41.65"
    assert document.undo_name == "Change \u201cKey UP writes 41.65 Hz to speed set point\u201d"
    document.undo()
    assert document.project is before


def test_escape_gives_back_what_stood_there(design: DesignWorkspace, document: Document) -> None:
    at = len(document.project.actions) - 1
    design.navigator.show_action(at)
    before = document.project
    type_word(design, "number", "7x", Key.Key_Escape)
    assert document.project == before
    assert design.drafts.all() == ()
    assert design.behaviour.table.hasFocus()
    word(design, "do").box.setFocus()
    choose(design, "do", "toggles")
    assert document.project.actions[at].do == "toggle"
    QTest.keyClick(word(design, "do").box, Key.Key_Escape)
    assert design.behaviour.table.hasFocus()


def test_what_cannot_be_meant_is_kept_said_and_led_to(design: DesignWorkspace, document: Document) -> None:
    at = len(document.project.actions) - 1
    design.navigator.show_action(at)
    before = document.project
    type_word(design, "number", "fast")
    assert document.project is before
    assert "fast" in note(design)
    row = next(row for row in design.findings.model.rows if row.kind == "draft")
    design.show_view("signals")
    design.findings.draft_chosen.emit(row.subject, row.row)
    assert design.view == "behaviour"
    assert focused() is word(design, "number").box
    type_word(design, "number", "12")
    assert str(document.project.actions[at].value) == "12"
    assert design.drafts.all() == ()
    word(design, "target").box.setFocus()
    type_word(design, "target", "no such signal")
    assert "no such signal" in note(design)
    QTest.keyClick(word(design, "target").box, Key.Key_Z, CTRL)
    assert design.drafts.all() == (), "undo drops what is not accepted first"


def test_a_signal_is_found_by_typing_a_part_of_its_name(design: DesignWorkspace, document: Document) -> None:
    design.navigator.show_action(0)
    type_word(design, "target", "FAULT reset")
    assert document.project.actions[0].signal == "fault reset"
    type_word(design, "target", "run com")
    assert document.project.actions[0].signal == "run command", "only one name has this"
    before = document.project
    type_word(design, "target", "ramp")
    assert document.project is before, "several have this: none is guessed"


def test_conditions_are_put_into_another_order_and_the_first_says_so(
    design: DesignWorkspace, document: Document
) -> None:
    changes = document.project.screen_changes
    last = len(changes) - 1
    first = next(at for at, each in enumerate(changes) if each.when is not None)
    design.navigator.show_screen_change(first)
    assert note(design) == "before all others"
    design.navigator.show_screen_change(last)
    assert note(design) == ""
    moved = "While remote is set show screen times"
    assert chosen_row(design) == moved
    QTest.keyClick(design.behaviour.table, Key.Key_Up, ALT)
    while note(design) != "before all others":
        QTest.keyClick(design.behaviour.table, Key.Key_Up, ALT)
    now = document.project.screen_changes
    assert next(each.to for each in now if each.when is not None) == "times"
    assert [each for each in now if each.key is not None] == [each for each in changes if each.key is not None]
    assert chosen_row(design) == moved, "it stays chosen"
    assert document.undo_name == f"Move \u201c{moved}\u201d"


def test_the_order_is_changed_by_the_grip(design: DesignWorkspace, document: Document) -> None:
    table, model = design.behaviour.table, design.behaviour.model
    last = len(document.project.screen_changes) - 1
    table.scrollTo(model.index_of(("screen_change", last)))
    first = next(at for at, each in enumerate(document.project.screen_changes) if each.when is not None)
    start = table.visualRect(model.index_of(("screen_change", last))).topLeft() + QPoint(8, 18)
    end = table.visualRect(model.index_of(("screen_change", first))).topLeft() + QPoint(8, 4)
    QTest.mousePress(table.viewport(), Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, start)
    QTest.mouseMove(table.viewport(), (start + end) / 2)
    QTest.mouseMove(table.viewport(), end)
    QTest.mouseRelease(table.viewport(), Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, end)
    assert [each.to for each in document.project.screen_changes if each.when is not None] == ["times", "fault"]


def test_several_rows_are_deleted_as_one_step(design: DesignWorkspace, document: Document) -> None:
    before = document.project
    table = design.behaviour.table
    design.behaviour.select("action", 0)
    table.setFocus()
    QTest.keyClick(table, Key.Key_Down, SHIFT)
    assert len(table.places()) == 2
    QTest.keyClick(table, Key.Key_Delete)
    assert len(document.project.actions) == len(before.actions) - 2
    assert document.undo_name == "Delete 2 sentences"
    document.undo()
    assert document.project is before


def test_a_row_is_duplicated_by_key_and_by_its_button(design: DesignWorkspace, document: Document) -> None:
    count = len(document.project.actions)
    design.behaviour.select("action", 1)
    QTest.keyClick(design.behaviour.table, Key.Key_D, CTRL)
    assert document.project.actions[2] == document.project.actions[1]
    assert design.behaviour.current() == ("action", 2)
    QTest.mouseClick(design.behaviour.editor.copy, Qt.MouseButton.LeftButton)
    assert len(document.project.actions) == count + 2
    QTest.mouseClick(design.behaviour.editor.delete, Qt.MouseButton.LeftButton)
    assert len(document.project.actions) == count + 1


def test_a_click_on_a_word_chooses_the_row_and_opens_the_word(design: DesignWorkspace, qtbot: QtBot) -> None:
    table, model = design.behaviour.table, design.behaviour.model
    design.behaviour.select("screen_change", 0)
    index = model.index_of(("action", 0))
    table.scrollTo(index)
    rect = table.visualRect(index)
    delegate = table.itemDelegate()
    x = next(x for x in range(rect.width()) if delegate.word_at(index, x) == "target")  # type: ignore[attr-defined]
    QTest.mouseClick(
        table.viewport(),
        Qt.MouseButton.LeftButton,
        Qt.KeyboardModifier.NoModifier,
        QPoint(x + 4, rect.center().y()),
    )
    assert design.behaviour.current() == ("action", 0)
    qtbot.waitUntil(lambda: word(design, "target").box.hasFocus())


def test_a_click_on_a_word_that_is_sought_opens_its_list(design: DesignWorkspace, qtbot: QtBot) -> None:
    design.behaviour.select("screen_change", 0)
    design.behaviour.to_words()
    target = word(design, "to")
    assert isinstance(target, SoughtWord)
    qtbot.waitUntil(target.isVisible)
    QTest.mouseClick(target.line, Qt.MouseButton.LeftButton, pos=QPoint(6, 6))
    qtbot.waitUntil(lambda: target.opened)


def test_a_group_offers_to_add_by_mouse_and_by_key(design: DesignWorkspace, document: Document, qtbot: QtBot) -> None:
    table = design.behaviour.table
    index = design.behaviour.model.index(0, 0)
    add = table.itemDelegate().add_rect(table.visualRect(index))  # type: ignore[attr-defined]
    QTest.mouseClick(table.viewport(), Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, add.center())
    assert chosen_row(design) == "Key which key? does what?"
    assert focused().accessibleName() == "Key"
    QTest.keyClick(focused(), Key.Key_Escape)
    QTest.keyClick(table, Key.Key_Delete)
    without = design.behaviour.model.index(2, 0)
    table.setCurrentIndex(without)
    QTest.keyClick(table, Key.Key_Insert)
    menu = next(each for each in design.behaviour.findChildren(QMenu) if each.isVisible())
    menu.actions()[2].trigger()
    menu.close()
    assert chosen_row(design) == "After how long? without a key show screen which one?"


def test_rows_and_words_are_heard(design: DesignWorkspace) -> None:
    design.behaviour.select("action", 0)
    index = design.behaviour.table.currentIndex()
    model = design.behaviour.model
    assert model.data(index, Qt.ItemDataRole.AccessibleTextRole) == chosen_row(design)
    said = model.data(index.parent(), Qt.ItemDataRole.AccessibleTextRole)
    assert isinstance(said, str)
    assert said.startswith("On every screen, ")
    assert "Insert adds" in said
    editor = design.behaviour.editor
    assert editor.accessibleName() == chosen_row(design)
    assert all(each.box.accessibleName() for each in editor.words.values())


def test_the_sentences_are_copied_as_text(design: DesignWorkspace) -> None:
    design.behaviour.select("action", 0)
    QTest.keyClick(design.behaviour.table, Key.Key_C, CTRL)
    assert QGuiApplication.clipboard().text() == chosen_row(design)


# The keys


def does(design: DesignWorkspace) -> dict[str, str]:
    return {use.key: use.words for use in design.behaviour.keys.lines}


def test_it_is_said_what_each_key_does_on_this_screen(design: DesignWorkspace, document: Document) -> None:
    assert does(design)["start"] == "sets run command"
    assert does(design)["down"] == ""
    assert does(design)["enter"] == "edits speed set point"
    everywhere = {use.key for use in design.behaviour.keys.lines if use.everywhere}
    assert everywhere == {"start", "stop", "reset", "f1"}
    document.select_screen("motor")
    assert does(design)["enter"] == "", "nothing can be entered there"


def test_a_line_leads_to_its_sentence_and_a_free_key_is_used(design: DesignWorkspace, document: Document) -> None:
    lines = design.behaviour.keys.list
    lines.choose_row(next(at for at, use in enumerate(design.behaviour.keys.lines) if use.key == "stop"))
    QTest.keyClick(lines, Key.Key_Return)
    assert chosen_row(design) == "Key STOP clears run command"
    buttons = design.behaviour.keys.face.keypad.buttons
    assert [name for name, button in buttons.items() if button.marked] == ["stop"]
    QTest.mouseClick(buttons["start"], Qt.MouseButton.LeftButton)
    assert chosen_row(design) == "Key START sets run command"
    QTest.mouseClick(buttons["down"], Qt.MouseButton.LeftButton)
    assert chosen_row(design) == "Key DOWN does what?"
    assert does(design)["down"] == "new: not complete"
    choose(design, "do", "shows screen")
    choose(design, "to", "motor")
    assert document.project.screen_changes[-1].from_ == "run"
    assert does(design)["down"] == "shows screen motor"


def test_the_list_follows_undo_and_names_that_change(design: DesignWorkspace, document: Document) -> None:
    design.behaviour.select("action", 0)
    document.do("Rename", lambda project: edits.rename_signal(project, "run command", "go"))
    assert chosen_row(design) == "Key START sets go"
    document.undo()
    assert chosen_row(design) == "Key START sets run command"


def test_a_key_of_the_screen_leads_to_what_it_does(design: DesignWorkspace, document: Document) -> None:
    design.show_view("screen")
    buttons = design.editor.face.keypad.buttons
    QTest.mouseClick(buttons["stop"], Qt.MouseButton.LeftButton)
    QTest.mouseClick(design.notice.button, Qt.MouseButton.LeftButton)
    assert design.view == "behaviour"
    assert chosen_row(design) == "Key STOP clears run command"
    design.show_view("screen")
    event = QContextMenuEvent(QContextMenuEvent.Reason.Mouse, QPoint(4, 4), buttons["down"].mapToGlobal(QPoint(4, 4)))
    QApplication.sendEvent(buttons["down"], event)
    menu = next(each for each in design.editor.findChildren(QMenu) if each.isVisible())
    menu.actions()[0].trigger()
    menu.close()
    assert chosen_row(design) == "Key DOWN does what?"
    assert focused().accessibleName() == "What it does", "the key is chosen already"


def test_the_key_that_begins_entry_says_so(design: DesignWorkspace) -> None:
    QTest.mouseClick(design.behaviour.keys.face.keypad.buttons["enter"], Qt.MouseButton.LeftButton)
    assert design.notice.isVisible()
    assert "Begin key" in design.notice.text.text()


def test_what_was_typed_is_kept_when_the_language_of_the_window_changes(
    design: DesignWorkspace, document: Document, qtbot: QtBot, speech: Translation
) -> None:
    at = len(document.project.actions) - 1
    design.navigator.show_action(at)
    type_word(design, "number", "fast")
    speech.speak(Language.GERMAN)
    german = designed(document, qtbot)
    german.take_over(design)
    german.navigator.show_action(at)
    assert chosen_row(german) == "Taste UP schreibt 30 Hz in speed set point"
    number = word(german, "number").box
    assert isinstance(number, QLineEdit)
    assert number.text() == "fast"
    assert "fast" in note(german)


def test_a_screen_change_of_the_map_is_a_sentence_beside_it(design: DesignWorkspace, document: Document) -> None:
    at = next(at for at, each in enumerate(document.project.screen_changes) if each.idle_s)
    design.show_view("map")
    design.navigator.sentence.show_place(("screen_change", at))
    design.navigator.sentence.focus_word("Time without a key")
    sentence = design.navigator.sentence
    assert sentence.accessibleName() == "After 120 s without a key show screen run"
    box = sentence.words["idle"].box
    assert isinstance(box, QLineEdit)
    box.setText("45")
    QTest.keyClick(box, Key.Key_Return)
    assert document.project.screen_changes[at].idle_s == 45
