"""The findings in one line, and their list over the canvas."""

from __future__ import annotations

from functools import partial

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app import edits
from app.project.model import Field, Project
from tests.builders import demo
from tests.widgets.driving import designed
from widgets.design.findings import MOST_ROWS
from widgets.design.workspace import DesignWorkspace
from widgets.document.document import Document

Key = Qt.Key
LEFT = Qt.MouseButton.LeftButton


def spoiled(project: Project) -> Project:
    """A field that allows entry of what cannot be written (it can be fixed), and one too narrow."""
    screen = project.screens[1]
    fields = (screen.fields[0].replace(entry=True), screen.fields[1].replace(width=2), *screen.fields[2:])
    return project.replace(screens=(project.screens[0], screen.replace(fields=fields), *project.screens[2:]))


@pytest.fixture
def document(qapp: object) -> Document:
    return Document(spoiled(demo("booster-pump")))


@pytest.fixture
def design(document: Document, qtbot: QtBot) -> DesignWorkspace:
    return designed(document, qtbot)


def test_closed_it_says_the_most_severe_with_its_fix(design: DesignWorkspace, document: Document) -> None:
    strip = design.canvas.strip
    worst = design.findings.findings[0]
    assert not design.canvas.list_open
    assert strip.sentence.text() == f"{worst.where}: {worst.message}"
    assert {severity: button.text() for severity, button in strip.counts.items()} == {
        severity: str(count) for severity, count in design.findings.counted().items()
    }
    assert worst.fix is not None
    assert strip.act.accessibleName() == worst.fix.words
    before = document.project
    QTest.mouseClick(strip.act, LEFT)
    assert document.project is not before
    assert document.undo_name == worst.fix.words
    assert worst not in design.findings.findings


def test_where_there_is_no_fix_its_button_goes_there(design: DesignWorkspace, document: Document) -> None:
    rows = design.findings.model.rows
    at = next(n for n, row in enumerate(rows) if row.finding is not None and row.finding.fix is None)
    finding = rows[at].finding
    assert finding is not None
    design.findings.select(at)
    strip = design.canvas.strip
    assert strip.act.text() == "Go there"
    before = document.project
    QTest.mouseClick(strip.act, LEFT)
    assert document.project is before
    assert document.selection.screen == document.project.screens[1].name


def test_an_unused_signal_is_gone_to_and_not_deleted_by_the_one_button(
    design: DesignWorkspace, document: Document, qtbot: QtBot
) -> None:
    """Signals that were just copied in are not used yet: the one button in sight must not take them away again."""
    for name in document.project.signal_named:
        document.do("Copy", partial(edits.duplicate_signal, name=name))
    findings = design.findings
    qtbot.waitUntil(lambda: any(each.rule == "unused" for each in findings.findings))
    unused = [
        n for n, row in enumerate(findings.model.rows) if row.finding is not None and row.finding.rule == "unused"
    ]
    findings.select(unused[0])
    assert findings.fix_of_shown() is not None, "the list offers it"
    assert design.canvas.strip.act.text() == "Go there"
    before = document.project
    QTest.mouseClick(design.canvas.strip.act, LEFT)
    assert document.project is before


def test_the_list_lies_over_the_canvas_and_moves_nothing(design: DesignWorkspace) -> None:
    face = design.editor.face.geometry(), design.editor.face.grid.geometry(), design.canvas.strip.geometry()
    QTest.keyClick(design.editor.face, Key.Key_F8)
    assert design.canvas.list_open
    assert QApplication.focusWidget() is design.findings.tree
    now = design.editor.face.geometry(), design.editor.face.grid.geometry(), design.canvas.strip.geometry()
    assert now == face
    assert design.findings.geometry().bottom() + 1 == design.canvas.strip.y()
    assert design.findings.y() > 0, "it never covers all of the canvas"


@pytest.mark.parametrize("key", [Key.Key_Escape, Key.Key_F8])
def test_it_is_left_by_the_key_that_opened_it_and_by_escape(design: DesignWorkspace, key: Qt.Key) -> None:
    face = design.editor.face
    face.setFocus()
    QTest.keyClick(face, Key.Key_F8)
    QTest.keyClick(design.findings.tree, key)
    assert not design.canvas.list_open
    assert QApplication.focusWidget() is face


def test_a_click_on_the_sentence_opens_and_closes_it(design: DesignWorkspace) -> None:
    for wanted in (True, False):
        QTest.mouseClick(design.canvas.strip.sentence, LEFT)
        assert design.canvas.list_open is wanted


def test_enter_on_a_row_goes_there_and_uncovers_it(design: DesignWorkspace, document: Document) -> None:
    QTest.keyClick(design.editor.face, Key.Key_F8)
    QTest.keyClick(design.findings.tree, Key.Key_Return)
    assert not design.canvas.list_open
    assert document.selection.screen == document.project.screens[1].name


def test_next_and_previous_go_through_them(design: DesignWorkspace) -> None:
    strip = design.canvas.strip
    QTest.mouseClick(strip.after, LEFT)
    assert design.findings.current() is design.findings.model.rows[0]
    QTest.mouseClick(strip.after, LEFT)
    second = design.findings.model.rows[1]
    assert strip.sentence.text() == f"{second.where}: {second.what}"
    QTest.mouseClick(strip.before, LEFT)
    assert design.findings.current() is design.findings.model.rows[0]


def test_accepting_is_reached_from_the_strip_by_its_key(
    design: DesignWorkspace, document: Document, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("widgets.design.finding_deeds.TextQuestion.ask", lambda _question: "meant so")
    document.do("t", lambda project: edits.add_screen(project, "adrift"))
    design.checks.finish()
    at = next(n for n, row in enumerate(design.findings.model.rows) if row.kind == "warning")
    design.findings.select(at)
    QTest.keyClick(
        design.editor.face, Key.Key_F7, Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier
    )
    assert document.undo_name == "Accept a finding"


def test_nothing_found_is_said_and_nothing_can_be_pressed(qapp: object, qtbot: QtBot) -> None:
    design = designed(Document(demo("booster-pump")), qtbot)
    strip = design.canvas.strip
    assert strip.sentence.text() == "nothing found"
    assert not strip.act.isEnabled()
    assert not strip.after.isEnabled()


def test_of_very_many_the_first_are_listed_and_that_is_said(qapp: object, qtbot: QtBot) -> None:
    project = demo("booster-pump")
    narrow = tuple(
        screen.replace(
            fields=tuple(Field(at=(row, 2 * n), width=1, signal="current") for row in range(4) for n in range(9))
        )
        for screen in project.screens
    )
    design = designed(Document(project.replace(screens=narrow)), qtbot)
    assert len(design.findings.findings) > MOST_ROWS
    assert len(design.findings.model.rows) == MOST_ROWS
    assert f"the first {MOST_ROWS} of" in design.findings.summary.text()
