"""Dialogs: all problems of a file readable and copied as text, templates with a look at each."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton
from pytestqt.qtbot import QtBot

from app.project.problems import Problem
from widgets.document.problems import MOST_SHOWN, ProblemsDialog

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
