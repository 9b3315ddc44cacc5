"""A panel in several languages, made in the Design workplace: named, chosen by a key or a signal, and written."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QMenu, QToolButton
from pytestqt.qtbot import QtBot

from app import edits
from tests.widgets.design import sentences
from tests.widgets.design.test_workspace import choose, reason, type_over
from tests.widgets.driving import designed
from widgets.design.workspace import DesignWorkspace
from widgets.document.document import Document, Selection

CTRL_SHIFT = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier


@pytest.fixture
def design(document: Document, qtbot: QtBot) -> DesignWorkspace:
    design = designed(document, qtbot)
    design.show_view("panel")
    return design


def name_languages(design: DesignWorkspace, text: str) -> None:
    type_over(design.inspector.panel_form, "Languages", text)


def test_languages_are_named_with_commas_between(design: DesignWorkspace, document: Document) -> None:
    name_languages(design, "english, deutsch")
    assert document.project.panel.languages == ("english", "deutsch")
    document.undo()
    assert not document.project.panel.languages


def test_a_language_spelled_anew_keeps_its_texts(design: DesignWorkspace, document: Document) -> None:
    name_languages(design, "english, deutsch")
    screen = document.project.screens[0].name
    document.do("t", lambda project: edits.translate_screen(project, screen, "deutsch", ["Pumpe"]))
    name_languages(design, "english, Deutsch")
    assert document.project.screens[0].text_in == {"Deutsch": ("Pumpe", "", "", "")}


def test_a_slip_does_not_delete_a_translation(design: DesignWorkspace, document: Document) -> None:
    name_languages(design, "english, deutsch")
    screen = document.project.screens[0].name
    document.do("t", lambda project: edits.translate_screen(project, screen, "deutsch", ["Pumpe"]))
    name_languages(design, "english")
    assert "remove that language" in reason(design.inspector.panel_form, "Languages")
    assert document.project.screens[0].text_in == {"deutsch": ("Pumpe", "", "", "")}


def test_languages_change_places_by_typing_and_both_keep_their_texts(
    design: DesignWorkspace, document: Document
) -> None:
    name_languages(design, "english, deutsch")
    screen = document.project.screens[0]
    document.do("t", lambda project: edits.translate_screen(project, screen.name, "deutsch", ["Pumpe"]))
    name_languages(design, "deutsch")
    assert "\u201cenglish\u201d" in reason(design.inspector.panel_form, "Languages")
    name_languages(design, "deutsch, english")
    assert document.project.screens[0].text == ("Pumpe", "", "", "")
    assert document.project.screens[0].text_in == {"english": screen.text}


def test_a_language_is_taken_out_by_its_button_and_comes_back_by_undo(
    design: DesignWorkspace, document: Document
) -> None:
    name_languages(design, "english, deutsch")
    screen = document.project.screens[0].name
    document.do("t", lambda project: edits.translate_screen(project, screen, "deutsch", ["Pumpe"]))
    menu = design.inspector.panel_form.take_out.menu()
    assert isinstance(menu, QMenu)
    menu.popup(design.mapToGlobal(design.rect().center()))
    QTest.keyClick(menu, Qt.Key.Key_Down)
    QTest.keyClick(menu, Qt.Key.Key_Down)
    QTest.keyClick(menu, Qt.Key.Key_Return)
    assert document.project.panel.languages == ("english",)
    assert document.project.screens[0].text_in == {}
    assert document.undo_name == "Remove the language “deutsch”"
    document.undo()
    assert document.project.screens[0].text_in == {"deutsch": ("Pumpe", "", "", "")}


def test_a_signal_chooses_the_language(design: DesignWorkspace, document: Document) -> None:
    form = design.inspector.panel_form
    assert not [row for row in form.rows if row.label == "Selected by" and not row.isHidden()]
    name_languages(design, "english, deutsch")
    choose(form, "Selected by", "filling ramp")
    assert document.project.panel.language == "filling ramp"
    choose(form, "Selected by", "key action")
    assert document.project.panel.language is None


def test_a_key_shows_the_next_language(design: DesignWorkspace, document: Document) -> None:
    index = next(number for number, action in enumerate(document.project.actions) if action.key is not None)
    design.navigator.show_action(index)
    sentences.choose(design, "do", "switches to the next language")
    action = document.project.actions[index]
    assert (action.do, action.signal, action.value) == ("next-language", None, None)
    assert "target" not in design.behaviour.editor.words
    sentences.choose(design, "do", "sets")
    assert document.project.actions[index] == action, "it acts as before until the signal is chosen, too"
    sentences.choose(design, "target", "run command")
    assert (document.project.actions[index].do, document.project.actions[index].signal) == ("set", "run command")


def choose_language(design: DesignWorkspace, language: str) -> None:
    """Choose a language of the texts in its list."""
    menu = design.editor.tools.language.menu()
    assert isinstance(menu, QMenu)
    next(action for action in menu.actions() if action.text() == language).trigger()


def test_texts_are_typed_in_the_language_that_is_shown(design: DesignWorkspace, document: Document) -> None:
    name_languages(design, "english, deutsch")
    design.show_view("screen")
    document.select(Selection("run", (0, 0)))
    assert design.editor.tools.language.isVisible()
    choose_language(design, "deutsch")
    face = design.editor.face
    first = document.project.screen_named["run"].text
    face.setFocus()
    QTest.keyClicks(face, "Soll")
    assert document.project.screen_named["run"].text == first
    assert document.project.screen_named["run"].text_in["deutsch"][0].startswith("Soll")
    assert face.rows[0].text.startswith("Soll")
    document.choose_language(0)
    assert face.rows[0].text.startswith(first[0][:4])
    document.undo()
    assert document.project.screen_named["run"].text_in == {}


def test_the_small_faces_are_in_the_language_that_is_shown(
    design: DesignWorkspace, document: Document, qtbot: QtBot
) -> None:
    name_languages(design, "english, deutsch")
    document.select(Selection("run", (0, 0)))
    screens = design.screens.list
    design.show_view("screen")

    def small_face() -> QImage:
        item = screens.list.item(list(document.project.screen_named).index("run"))
        return screens.list.viewport().grab(screens.list.visualItemRect(item)).toImage()

    qtbot.waitUntil(lambda: screens.thumbs.settled)
    english = small_face()
    choose_language(design, "deutsch")
    design.editor.face.setFocus()
    QTest.keyClicks(design.editor.face, "SOLLWERT")
    qtbot.waitUntil(lambda: small_face() != english)
    QTest.keyClick(design.editor.face, Qt.Key.Key_Space, CTRL_SHIFT)
    assert document.language == 0
    qtbot.waitUntil(lambda: small_face() == english)


def test_the_whole_name_of_a_language_stands_in_its_choice(
    design: DesignWorkspace, document: Document, qtbot: QtBot
) -> None:
    design.show_view("screen")
    name_languages(design, "en, Schweizerdeutsch")
    design.show_view("screen")
    document.choose_language(1)
    action = design.editor.tools.language
    assert action.text() == "Schweizerdeutsch"
    button = next(each for each in design.tools.findChildren(QToolButton) if each.defaultAction() is action)
    assert button.isVisible()
    room = button.fontMetrics().horizontalAdvance(action.text())
    qtbot.waitUntil(lambda: button.width() > room)


def test_a_block_that_is_moved_by_the_clipboard_takes_all_its_languages_along(
    design: DesignWorkspace, document: Document
) -> None:
    name_languages(design, "english, deutsch")
    document.do("t", lambda project: edits.translate_screen(project, "run", "deutsch", ["Sollwert", "Drehzahl"]))
    design.show_view("screen")
    document.choose_language(1)
    document.select(Selection("run", (0, 0)))
    face = design.editor.face
    face.setFocus()
    before = document.project
    QTest.keyClick(face, Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    QTest.keyClick(face, Qt.Key.Key_X, Qt.KeyboardModifier.ControlModifier)
    assert document.project.screen_named["run"].text_in["deutsch"][0] == "  llwert"
    QTest.keyClick(face, Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)
    assert document.project.screen_named["run"].text_in == before.screen_named["run"].text_in
    assert document.project.screen_named["run"].text == before.screen_named["run"].text


def test_delete_clears_a_block_in_the_language_that_is_shown(design: DesignWorkspace, document: Document) -> None:
    name_languages(design, "english, deutsch")
    document.choose_language(1)
    document.select(Selection("run", (0, 0)))
    face = design.editor.face
    face.setFocus()
    first = document.project.screen_named["run"].text
    QTest.keyClick(face, Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    QTest.keyClick(face, Qt.Key.Key_Delete)
    assert document.project.screen_named["run"].text == first
    assert document.project.screen_named["run"].text_in["deutsch"][0] == "  " + first[0][2:]


def test_the_command_goes_round_the_languages_and_says_when_there_is_one(
    design: DesignWorkspace, document: Document
) -> None:
    keys = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier
    QTest.keyClick(design.editor.face, Qt.Key.Key_Space, keys)
    assert "only one language" in design.editor.notice.text.text()
    name_languages(design, "english, deutsch")
    for expected in (1, 0):
        QTest.keyClick(design.editor.face, Qt.Key.Key_Space, keys)
        assert document.language == expected
