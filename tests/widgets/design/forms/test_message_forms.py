"""What the panel says of its own accord, written in the panel's properties and read on the face."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit, QMenu, QScrollArea
from pytestqt.qtbot import QtBot

from app import edits
from app.panel.rendering import Attribute, Rows
from app.project.messages import MESSAGES
from app.project.model import PanelMessage
from app.project.problems import Place
from app.project_file.files import load
from projects import demo_path
from tests.widgets.design.test_workspace import choose, editor_of, reason, row_of, type_over
from tests.widgets.driving import designed, press, shown
from widgets.bench.workspace import BenchWorkspace
from widgets.design.findings_model import FindingRow
from widgets.design.forms.message_forms import message_names
from widgets.design.workspace import DesignWorkspace
from widgets.document.document import Document, Selection
from widgets.face.face import PanelFace
from widgets.live.live_session import LiveSession

Key = Qt.Key
CTRL = Qt.KeyboardModifier.ControlModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier


@pytest.fixture
def hall(qapp: object) -> Document:
    return Document(load(demo_path("drying-hall")))


def opened(document: Document, qtbot: QtBot) -> DesignWorkspace:
    """Its messages, by the command."""
    design = designed(document, qtbot)
    QTest.keyClick(design.editor.face, Key.Key_D, CTRL | SHIFT)
    assert design.inspector.current_form() is design.inspector.messages_form
    return design


def named(design: DesignWorkspace, text: str) -> None:
    """Name the languages of the panel, and come back."""
    design.show_view("panel")
    type_over(design.inspector.panel_form, "Languages", text)
    design.navigator.to_messages()


def paste_over(design: DesignWorkspace, label: str, text: str) -> None:
    """Write something that has other characters than those of the test's keyboard."""
    editor = editor_of(design.inspector.messages_form, label)
    editor.setFocus()
    QApplication.clipboard().setText(text)
    QTest.keyClick(editor, Key.Key_A, CTRL)
    QTest.keyClick(editor, Key.Key_V, CTRL)


def follow_finding(design: DesignWorkspace, wanted: Callable[[FindingRow], bool]) -> FindingRow:
    """Go down the findings to one, and press Enter on it."""
    QTest.keyClick(design.editor.face, Key.Key_F8)
    tree = design.findings.tree
    for _ in range(1000):
        row = design.findings.current()
        assert row is not None
        if wanted(row):
            QTest.keyClick(tree, Key.Key_Return)
            return row
        QTest.keyClick(tree, Key.Key_Down)
    raise AssertionError("nothing like it was found")


def words(design: DesignWorkspace, label: str) -> tuple[str, str]:
    """What is written in a row, and what stands there faintly while nothing is."""
    editor = editor_of(design.inspector.messages_form, label)
    assert isinstance(editor, QLineEdit)
    return editor.text(), editor.placeholderText()


def preview(design: DesignWorkspace) -> list[str]:
    return [row.text.rstrip() for row in design.inspector.messages_form.preview.grid.rows]


def message_on(rows: Rows) -> str:
    """What stands in the rows that are inverse as a whole: a message of the panel."""
    whole = [row.text.strip() for row in rows if set(row.attributes) == {Attribute.INVERSE}]
    return " ".join(whole)


def test_every_message_has_a_row_that_shows_what_the_panel_says_by_itself(document: Document, qtbot: QtBot) -> None:
    design = opened(document, qtbot)
    form = design.inspector.messages_form
    assert [row.label for row in form.rows if not row.isHidden()] == list(message_names().values())
    assert list(message_names()) == list(MESSAGES)
    assert form.heading.title == "Panel messages"
    assert words(design, "Above the limit") == ("", "at most {limit}")
    assert words(design, "No answer") == ("", "not written: no answer")


def test_words_are_one_step_and_are_left_out_again_by_emptying_the_row(document: Document, qtbot: QtBot) -> None:
    design = opened(document, qtbot)
    form = design.inspector.messages_form
    type_over(form, "Above the limit", "not above {limit} ")
    type_over(form, "Refused", "the drive says no")
    assert document.project.panel.messages == {"at_most": "not above {limit}", "refused": "the drive says no"}
    assert document.undo_name == "Change message “Refused”"
    document.undo()
    assert document.project.panel.messages == {"at_most": "not above {limit}"}
    assert document.undo_name == "Change message “Above the limit”"
    type_over(form, "Above the limit", "")
    assert document.project.panel.messages == {}
    assert words(design, "Above the limit") == ("", "at most {limit}")


def test_the_message_is_shown_as_the_panel_shows_it_with_its_longest_value(document: Document, qtbot: QtBot) -> None:
    design = opened(document, qtbot)
    form = design.inspector.messages_form
    assert preview(design) == ["at most 50.0 Hz"]
    paste_over(design, "Above the limit", "Über {limit} kommt er nicht")
    assert preview(design) == ["Ueber 50.0 Hz kommt", "er nicht"]
    assert "2 rows of 20 cells" in form.preview.room.text()
    assert "\u201c50.0 Hz\u201d" in form.preview.room.text()
    assert form.preview.fault.isHidden()
    QTest.keyClicks(editor_of(form, "Above the limit"), ", nie und nimmer")
    assert len(preview(design)) == 3
    assert form.preview.fault.isVisible()
    editor_of(form, "Not written").setFocus()
    assert preview(design) == ["not written"]
    assert "another reason" in form.preview.when.text()


def test_a_message_of_a_wide_panel_is_scrolled_by_keys(document: Document, qtbot: QtBot) -> None:
    design = opened(document, qtbot)
    document.do("t", lambda project: edits.set_size(project, 4, 132))
    grid = design.inspector.messages_form.preview.grid
    editor = editor_of(design.inspector.messages_form, "Above the limit")
    editor.setFocus()
    press(Key.Key_Backtab, SHIFT, times=2)  # the heading, which closes the rows, is between
    area = QApplication.focusWidget()
    assert isinstance(area, QScrollArea)
    assert area.widget() is grid
    assert area.accessibleName()
    before = grid.pos().x()
    QTest.keyClick(area, Key.Key_Right)
    assert grid.pos().x() < before


def test_they_are_written_in_the_language_that_the_document_shows(hall: Document, qtbot: QtBot) -> None:
    design = opened(hall, qtbot)
    form = design.inspector.messages_form
    assert form.heading.title == "Panel messages in English"
    assert words(design, "Not possible") == ("", "not possible")
    choose(form, "Language", "Deutsch")
    assert hall.language == 1
    assert form.heading.title == "Panel messages in Deutsch"
    assert words(design, "Not possible")[0] == "nicht möglich"
    QTest.keyClick(design.editor.face, Key.Key_Space, CTRL | SHIFT)
    assert form.heading.title == "Panel messages in English"
    type_over(form, "Not possible", "cannot do that")
    assert hall.project.panel.messages == {"not_possible": "cannot do that"}
    hall.choose_language(1)
    type_over(form, "Not possible", "")
    assert "not_possible" not in hall.project.panel.messages_in["Deutsch"]
    assert words(design, "Not possible") == ("", "cannot do that")


def test_words_that_are_ready_in_the_language_fill_in_what_is_missing_as_one_step(
    document: Document, qtbot: QtBot
) -> None:
    design = opened(document, qtbot)
    form = design.inspector.messages_form
    assert not form.fill_button.isEnabled()
    assert "set the language" in form.why_not.text()
    named(design, "English, Deutsch")
    assert not form.fill_button.isEnabled()
    assert form.why_not.text() == "Nothing is missing: the panel has all messages in English already."
    document.choose_language(1)
    type_over(form, "Not possible", "geht nicht")
    assert form.fill_button.text() == "Fill in German"
    assert form.why_not.isHidden()
    form.fill_button.setFocus()
    QTest.keyClick(form.fill_button, Key.Key_Space)
    said = document.project.panel.messages_in["Deutsch"]
    assert set(said) == set(MESSAGES)
    assert said["not_possible"] == "geht nicht"
    assert said["at_least"] == "mindestens {limit}"
    assert not form.fill_button.isEnabled()
    assert form.why_not.text() == "Nothing is missing in Deutsch."
    assert document.undo_name == "Fill in German"
    document.undo()
    assert document.project.panel.messages_in == {"Deutsch": {"not_possible": "geht nicht"}}
    named(design, "English, Suomi")
    assert not form.fill_button.isEnabled()
    assert form.why_not.text() == "Ready-made texts exist in English and German only."
    assert form.heading.title == "Panel messages in Suomi"
    assert words(design, "Not possible")[0] == "geht nicht"


@pytest.mark.parametrize(
    ("place", "language", "message"),
    [
        (("panel", "messages", "refused"), 0, "refused"),
        (("panel", "messages_in", "Deutsch", "not_written"), 1, "not_written"),
        (("panel", "messages_in", "Deutsch"), 1, "kept"),
        (("panel", "messages"), 0, "at_most"),
    ],
)
def test_a_place_leads_to_the_very_row_in_its_language(
    hall: Document, qtbot: QtBot, place: Place, language: int, message: PanelMessage
) -> None:
    hall.do("t", lambda project: edits.set_message(project, 1, "kept", ""))
    hall.choose_language(1 - language)
    design = designed(hall, qtbot)
    design.resize(1366, 420)
    design.show_view("signals")
    design.navigator.go_to(place)
    assert hall.language == language
    editor = editor_of(design.inspector.messages_form, message_names()[message])
    assert editor.hasFocus()
    qtbot.waitUntil(lambda: editor.visibleRegion().boundingRect() == editor.rect())


def test_a_finding_leads_to_the_message_that_it_is_about(hall: Document, qtbot: QtBot) -> None:
    hall.do("t", lambda project: edits.set_message(project, 1, "still_on", "weiter nach {limit}"))
    design = designed(hall, qtbot)
    follow_finding(design, lambda row: "{limit} in" in row.what)
    assert hall.language == 1
    editor = QApplication.focusWidget()
    assert isinstance(editor, QLineEdit)
    assert editor.text() == "weiter nach {limit}"


def test_what_cannot_be_taken_over_is_kept_and_found_again(hall: Document, qtbot: QtBot) -> None:
    design = opened(hall, qtbot)
    form = design.inspector.messages_form
    choose(form, "Language", "Deutsch")
    before = hall.project
    paste_over(design, "Refused", "nein " * 40)
    assert reason(form, "Refused")
    assert hall.project is before
    hall.choose_language(0)
    assert words(design, "Refused")[0] == ""
    named(design, "English, deutsch")
    draft = follow_finding(design, lambda row: row.kind == "draft")
    assert "'deutsch'" in draft.where
    assert hall.language == 1
    assert words(design, "Refused")[0].startswith("nein nein")
    assert row_of(form, "Refused").editors()[0].hasFocus()


def test_messages_stay_with_their_language_when_languages_change(hall: Document, qtbot: QtBot) -> None:
    design = opened(hall, qtbot)
    form = design.inspector.messages_form
    german = dict(hall.project.panel.messages_in["Deutsch"])
    type_over(form, "Not possible", "no way")
    named(design, "English, German")
    assert hall.project.panel.messages_in == {"German": german}
    named(design, "German, English")
    assert hall.project.panel.messages == german
    assert hall.project.panel.messages_in["English"]["not_possible"] == "no way"
    named(design, "German")
    design.show_view("panel")
    assert "remove that language" in reason(design.inspector.panel_form, "Languages")
    menu = design.inspector.panel_form.take_out.menu()
    assert isinstance(menu, QMenu)
    menu.popup(design.mapToGlobal(design.rect().center()))
    for key in (Key.Key_Down, Key.Key_Down, Key.Key_Return):
        QTest.keyClick(menu, key)
    assert hall.project.panel.languages == ("German",)
    assert (hall.project.panel.messages, hall.project.panel.messages_in) == (german, {})
    hall.undo()
    assert hall.project.panel.messages_in["English"]["not_possible"] == "no way"


def enter_too_much(face: PanelFace) -> None:
    """Change the first value of the screen that may be entered by the panel's own keys, up beyond its limit."""
    QTest.keyClick(face, Key.Key_Return)
    QTest.keyClick(face, Key.Key_Return)
    for _ in range(200):
        QTest.keyClick(face, Key.Key_Up)
        if message_on(face.rows):
            return
    raise AssertionError("the limit was not reached")


def test_a_trial_says_them_in_the_language_that_was_shown(hall: Document, qtbot: QtBot) -> None:
    design = opened(hall, qtbot)
    form = design.inspector.messages_form
    choose(form, "Language", "Deutsch")
    type_over(form, "Above the limit", "mehr als {limit} darf es nicht sein")
    hall.select(Selection("recipe"))
    QTest.keyClick(design, Key.Key_F9)
    face = design.editor.tryout.face
    assert face.hasFocus()
    assert face.rows[0].text.strip() == "REZEPT"
    enter_too_much(face)
    assert message_on(face.rows) == "mehr als 55.0 °C darf es nicht sein"
    for key in (Key.Key_Escape, Key.Key_Escape, Key.Key_F3):
        QTest.keyClick(face, key)
    enter_too_much(face)
    assert message_on(face.rows) == "at most 55.0 °C"


@pytest.fixture
def bench(hall: Document, qtbot: QtBot) -> Iterator[BenchWorkspace]:
    live = LiveSession(hall)
    yield shown(BenchWorkspace(hall, live, lambda: None), qtbot, 1300, 640)
    live.disconnect_from_line()


def test_the_bench_says_them_in_the_language_that_the_operator_chose(
    bench: BenchWorkspace, hall: Document, qtbot: QtBot
) -> None:
    face = bench.face
    bench.live.connect_to(hall.project, "simulated")
    qtbot.waitUntil(lambda: face.rows[0].text.startswith("HERB DRYING HALL"))
    QTest.keyClick(face, Key.Key_F3)
    qtbot.waitUntil(lambda: face.rows[0].text.startswith("KRÄUTERTROCKNUNG"))
    while not face.rows[0].text.startswith("REZEPT"):
        before = face.rows[0]
        QTest.keyClick(face, Key.Key_Right)
        qtbot.waitUntil(lambda before=before: face.rows[0] != before)  # type: ignore[misc]
    qtbot.waitUntil(lambda: "42.0" in face.rows[2].text)
    enter_too_much(face)
    assert message_on(face.rows) == "höchstens 55.0 °C"
