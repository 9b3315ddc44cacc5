"""The window that compares two projects: listed, marked on the cells, gone through by key."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QPushButton, QTreeWidgetItem
from pytestqt.qtbot import QtBot

from app import edits
from app.project.model import Action, Project
from tests.widgets.bench_project import bench_project
from widgets.compare.faces import CellMark, Marked
from widgets.compare.window import ComparisonWindow, Side


@pytest.fixture
def before() -> Project:
    return bench_project()


@pytest.fixture
def after(before: Project) -> Project:
    """A text typed over, a field moved, one removed, a screen added, a signal renamed, a screen change removed."""
    project = edits.type_text(before, "run", 0, 0, "Nix")
    project = edits.rename_signal(project, "level", "fill")
    project = edits.add_screen(project, "extra")
    run = project.screen_named["run"]
    moved = run.fields[1].replace(at=(1, 13))
    screens = tuple(
        screen.replace(fields=(run.fields[0], moved)) if screen.name == "run" else screen for screen in project.screens
    )
    return project.replace(screens=screens, screen_changes=project.screen_changes[1:])


@pytest.fixture
def window(qtbot: QtBot, before: Project, after: Project) -> ComparisonWindow:
    made = ComparisonWindow(Side("old.toml", lambda: before), Side("here", lambda: after))
    qtbot.addWidget(made)
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    return made


def listed(window: ComparisonWindow) -> list[tuple[str, str]]:
    found = []
    for number in range(window.list.topLevelItemCount()):
        top = window.list.topLevelItem(number)
        assert top is not None
        found += [(child(top, row).text(0), child(top, row).text(1)) for row in range(top.childCount())]
    return found


def child(top: QTreeWidgetItem, row: int) -> QTreeWidgetItem:
    item = top.child(row)
    assert item is not None
    return item


def current(window: ComparisonWindow) -> str:
    item = window.list.currentItem()
    assert item is not None
    return item.text(0)


def table(window: ComparisonWindow) -> list[list[str]]:
    items = [window.table.topLevelItem(row) for row in range(window.table.topLevelItemCount())]
    return [[item.text(column).strip() for column in range(3)] for item in items if item is not None]


def test_everything_is_listed_with_a_sign_and_a_word(window: ComparisonWindow) -> None:
    assert listed(window) == [
        ("\u2260  run", "modified"),
        ("+  extra", "added"),
        ("\u2192  level \u2192 fill", "renamed"),
        ("\u2212  key right \u2192 the next screen (every screen)", "removed"),
    ]


def test_an_action_is_named_by_what_it_does(before: Project, qtbot: QtBot) -> None:
    after = before.replace(
        actions=(*before.actions, Action.model_validate({"key": "up", "do": "next-language", "from": "run"}))
    )
    made = ComparisonWindow(Side("old", lambda: before), Side("new", lambda: after))
    qtbot.addWidget(made)
    assert listed(made) == [("+  key up: switches to the next language (run)", "added")]


def test_cells_and_fields_are_marked_on_both_faces(window: ComparisonWindow) -> None:
    assert current(window).endswith("run")
    left, right = window.pair.faces
    assert left.rows[0].text.startswith("Set")
    assert right.rows[0].text.startswith("Nix")
    text = Marked(0, 0, 3, CellMark.TEXT)
    assert text in left.marks
    assert text in right.marks
    assert Marked(1, 12, 5, CellMark.CHANGED) in left.marks
    assert Marked(1, 13, 5, CellMark.CHANGED) in right.marks
    assert Marked(2, 0, 8, CellMark.ONE_SIDED) in left.marks
    assert CellMark.ONE_SIDED not in {marked.mark for marked in right.marks}


def test_marks_are_drawn_with_shapes_of_their_own(window: ComparisonWindow) -> None:
    face = window.pair.faces[0]

    def picture(marks: tuple[Marked, ...]) -> QImage:
        face.set_marks(marks)
        return face.grab().toImage().convertToFormat(QImage.Format.Format_Mono)

    bare = picture(())
    drawn = [picture((Marked(1, 2, 6, mark),)) for mark in CellMark]
    for number, one in enumerate(drawn):
        assert one != bare
        assert all(one != other for other in drawn[number + 1 :]), "told apart without colour"


def test_the_table_says_it_key_by_key(window: ComparisonWindow) -> None:
    rows = table(window)
    assert ["text, row 1", '"Set point         Hz"', '"Nix point         Hz"'] in rows
    assert ["at", "[1, 12]", "[1, 13]"] in rows
    assert ["\u2212 field removed", "fan fault at row 3, column 1", ""] in rows


def test_a_screen_on_one_side_only_says_so(window: ComparisonWindow) -> None:
    QTest.keySequence(window, "F7")
    assert current(window) == "+  extra"
    assert not window.pair.faces[0].isVisible()
    assert window.pair.faces[1].isVisible()


def test_differences_are_gone_through_by_key_and_button_round_and_round(window: ComparisonWindow) -> None:
    names = [name for name, _ in listed(window)]
    seen = [current(window)]
    for _ in names[1:]:
        QTest.keySequence(window, "F7")
        seen.append(current(window))
    assert seen == names
    QTest.keySequence(window, "F7")
    assert current(window) == names[0]
    QTest.keySequence(window, "Shift+F7")
    assert current(window) == names[-1]
    button = next(each for each in window.findChildren(QPushButton) if "Next" in each.text())
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)
    assert current(window) == names[0]


def test_screens_that_are_the_same_are_shown_if_wanted_and_skipped_by_the_keys(window: ComparisonWindow) -> None:
    QTest.mouseClick(window.same, Qt.MouseButton.LeftButton, pos=QPoint(8, window.same.height() // 2))
    assert ("=  tank", "identical") in listed(window)
    for _ in range(2 * len(listed(window))):
        QTest.keySequence(window, "F7")
        assert not current(window).startswith("=")


def test_enter_on_a_screen_leads_to_its_editor(window: ComparisonWindow, qtbot: QtBot) -> None:
    with qtbot.waitSignal(window.screen_wanted) as wanted:
        QTest.keyClick(window.list, Qt.Key.Key_Return)
    assert wanted.args == ["run"]


def test_nothing_differs(qtbot: QtBot, before: Project) -> None:
    window = ComparisonWindow(Side("old.toml", lambda: before), Side("here", lambda: before))
    qtbot.addWidget(window)
    window.show()
    assert listed(window) == []
    assert window.headline.text() == "No differences"
    assert window.nothing.isVisible()
    QTest.keySequence(window, "F7")


def test_panels_of_different_sizes_side_by_side(qtbot: QtBot, before: Project) -> None:
    small = edits.type_text(before, "run", 1, 0, "x").replace(panel=before.panel.replace(rows=2, columns=16))
    window = ComparisonWindow(Side("a", lambda: before), Side("b", lambda: small))
    qtbot.addWidget(window)
    window.show()
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    names = [name for name, _ in listed(window)]
    assert names[0] == "\u2260  Panel"
    QTest.keySequence(window, "F7")
    assert len(window.pair.faces[0].rows) == 4
    assert len(window.pair.faces[1].rows) == 2
