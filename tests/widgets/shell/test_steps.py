"""The list of steps: what it shows, and going to any of them."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from app import edits
from tests.widgets.driving import shown
from widgets.document.document import Document
from widgets.shell.steps import StepsDialog


def rows(dialog: StepsDialog, role: Qt.ItemDataRole = Qt.ItemDataRole.DisplayRole) -> list[str]:
    model = dialog.list.model()
    return [model.index(row, 0).data(role) for row in range(model.rowCount())]


def edited(document: Document, path: Path) -> list[str]:
    for title in "ABCD":
        document.do(f"Title {title}", lambda project, title=title: edits.set_title(project, title))  # type: ignore[misc]
        if title == "B":
            document.mark_saved(path)
    return ["As it was opened", "Title A", "Title B \u2013 saved", "Title C", "Title D"]


def test_a_click_or_enter_goes_to_a_step_also_across_a_save(document: Document, qtbot: QtBot, tmp_path: Path) -> None:
    first = document.project.title
    dialog = shown(StepsDialog(document), qtbot, 340, 480)
    assert rows(dialog) == ["As it was opened \u2013 saved"]
    assert edited(document, tmp_path / "p.toml") == rows(dialog)
    assert dialog.list.currentIndex().row() == 4
    place = dialog.list.visualRect(dialog.list.model().index(1, 0)).center()
    QTest.mouseClick(dialog.list.viewport(), Qt.MouseButton.LeftButton, pos=place)
    assert (document.project.title, document.modified) == ("A", True)
    assert rows(dialog, Qt.ItemDataRole.AccessibleTextRole)[3] == "Title C, taken back"
    QTest.keyClick(dialog.list, Qt.Key.Key_Down)
    assert document.project.title == "A"  # only looked at
    QTest.keyClick(dialog.list, Qt.Key.Key_Return)
    assert (document.project.title, document.modified) == ("B", False)
    QTest.keyClick(dialog.list, Qt.Key.Key_Home)
    QTest.keyClick(dialog.list, Qt.Key.Key_Return)
    assert document.project.title == first
    document.redo()
    assert dialog.list.currentIndex().row() == 1


def test_the_present_step_stays_in_sight(document: Document, qtbot: QtBot) -> None:
    dialog = shown(StepsDialog(document), qtbot, 340, 300)
    for number in range(200):
        document.do(f"Title {number}", lambda project, number=number: edits.set_title(project, str(number)))  # type: ignore[misc]
    assert dialog.list.viewport().rect().contains(dialog.list.visualRect(dialog.list.currentIndex()))
    document.go_to_step(3)
    assert dialog.list.viewport().rect().contains(dialog.list.visualRect(dialog.list.currentIndex()))
