"""Dialogs: all problems of a file readable and copied as text, templates with a look at each."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton
from pytestqt.qtbot import QtBot

from app.checks import check
from app.project.problems import Problem
from projects import demos
from widgets.document.problems import MOST_SHOWN, ProblemsDialog
from widgets.document.templates import TemplateDialog, templates

PROBLEMS = [
    Problem("screen 'run', field 2", "signal 'sped' does not exist", "did you mean 'speed'?"),
    Problem("", "the file ends in the middle of a table"),
    Problem("line 'x'", "<b>bold</b> & <img src='file:///etc/passwd'> is no device"),
]


def test_every_problem_is_shown_with_its_place_and_hint(qtbot: QtBot) -> None:
    dialog = ProblemsDialog("Title", "x.toml cannot be opened", PROBLEMS)
    qtbot.addWidget(dialog)
    text = dialog.list.toPlainText()
    for problem in PROBLEMS:
        assert problem.where in text
        assert problem.message in text
        assert problem.hint in text


def test_text_of_a_file_is_never_taken_for_markup(qtbot: QtBot) -> None:
    dialog = ProblemsDialog("Title", "<h1>x</h1>", PROBLEMS)
    qtbot.addWidget(dialog)
    assert "<img src='file:///etc/passwd'>" in dialog.list.toPlainText()
    assert "<img" not in dialog.list.document().toHtml()


def test_they_are_copied_as_text(qtbot: QtBot) -> None:
    dialog = ProblemsDialog("Title", "x.toml cannot be opened", PROBLEMS)
    qtbot.addWidget(dialog)
    dialog.show()
    button = next(each for each in dialog.findChildren(QPushButton) if "Copy" in each.text())
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)
    copied = QApplication.clipboard().text()
    assert copied.startswith("x.toml cannot be opened")
    assert "screen 'run', field 2: signal 'sped' does not exist\n    did you mean 'speed'?" in copied


def test_a_hostile_number_of_problems_is_cut_and_said(qtbot: QtBot) -> None:
    many = [Problem(f"signal {number}", "wrong") for number in range(MOST_SHOWN + 20)]
    dialog = ProblemsDialog("Title", "x", many)
    qtbot.addWidget(dialog)
    assert "and 20 more" in dialog.list.toPlainText()
    assert f"signal {MOST_SHOWN + 1}" not in dialog.list.toPlainText()
    assert dialog.height() < 700


def test_every_template_makes_a_sound_project() -> None:
    made = [template.make() for template in templates()]
    assert len(made) == len({template.name for template in templates()}) >= 3 + len(demos())
    for project in made:
        assert [finding for finding in check(project) if finding.severity == "error"] == []


def test_the_chosen_template_is_looked_at_and_taken(qtbot: QtBot) -> None:
    dialog = TemplateDialog()
    qtbot.addWidget(dialog)
    dialog.show()
    seen = []
    for row in range(dialog.list.count()):
        assert dialog.list.currentRow() == row
        panel = dialog.project.panel
        assert dialog.face.panel == panel
        assert (len(dialog.face.rows), len(dialog.face.rows[0].text)) == (panel.rows, panel.columns)
        seen.append(dialog.project)
        QTest.keyClick(dialog.list, Qt.Key.Key_Down)
    copies = [project for project in seen if project.title]
    assert len({id(project) for project in copies}) == len(demos())
    sizes = [(project.panel.rows, project.panel.columns) for project in seen if not project.title]
    assert {(2, 16), (4, 20), (8, 40)} <= set(sizes)


def test_a_panel_of_any_size_with_screens_to_turn(qtbot: QtBot) -> None:
    dialog = TemplateDialog()
    qtbot.addWidget(dialog)
    dialog.show()
    texts = [dialog.list.item(row).text() for row in range(dialog.list.count())]
    assert not dialog.rows_editor.isVisible()
    dialog.list.setCurrentRow(texts.index("Blank, other size"))
    assert dialog.rows_editor.isVisible()
    for editor, digits in ((dialog.rows_editor, "3"), (dialog.columns_editor, "24")):
        editor.selectAll()
        QTest.keyClicks(editor, digits)
    QTest.keyClick(dialog.paged, Qt.Key.Key_Space)
    project = dialog.project
    assert (project.panel.rows, project.panel.columns) == (3, 24)
    assert len(dialog.face.rows) == 3
    assert [(screen_change.key, screen_change.to) for screen_change in project.screen_changes] == [
        ("right", "next"),
        ("left", "previous"),
    ]
    assert len(project.screens) == 2
    assert [finding for finding in check(project) if finding.severity == "error"] == []
