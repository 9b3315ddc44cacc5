"""The row of tools: what has no room goes into "More" from the left, the tabs and the primary button never do."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QPushButton, QTabBar, QToolButton
from pytestqt.qtbot import QtBot

from widgets.frame.tool_row import ToolRow

NAMES = ("Undo", "Redo", "Zoom", "Values")


@pytest.fixture
def row(qtbot: QtBot) -> ToolRow:
    tabs = QTabBar()
    for name in ("Screen", "Page map"):
        tabs.addTab(name)
    made = ToolRow(tabs)
    qtbot.addWidget(made)
    for name in NAMES:
        made.add(QAction(name, made))
    made.set_primary(QPushButton("Try it"))
    made.resize(1366, made.height())
    with qtbot.waitExposed(made):
        made.show()
    return made


def in_sight(row: ToolRow) -> list[str]:
    own = row.findChildren(QToolButton, options=Qt.FindChildOption.FindDirectChildrenOnly)
    buttons = [each for each in own if each.isVisible() and each is not row.more]
    return [each.text() for each in sorted(buttons, key=lambda each: each.mapTo(row, QPoint()).x())]


def test_with_room_everything_is_in_sight(row: ToolRow) -> None:
    assert in_sight(row) == list(NAMES)
    assert not row.more.isVisible()


def test_tools_go_from_the_left_and_nothing_is_cut(row: ToolRow, qtbot: QtBot) -> None:
    seen: list[int] = []
    primary, tabs = row.findChild(QPushButton), row.findChild(QTabBar)
    assert primary is not None
    assert tabs is not None
    for width in range(1366, row.minimumSizeHint().width() - 1, -7):
        row.resize(width, row.height())
        qtbot.waitUntil(lambda: primary.geometry().right() < row.width())
        left_out = [action.text() for action in row.in_more]
        assert left_out + in_sight(row) == list(NAMES)
        assert row.more.isVisible() == bool(left_out)
        seen.append(len(left_out))
        for each in (primary, tabs, *row.findChildren(QToolButton)):
            if each.isVisible():
                least = each.minimumSizeHint() if each is tabs and row.more.isVisible() else each.sizeHint()
                assert each.width() >= least.width(), f"{width}: a tool is cut"
                assert row.rect().contains(QRect(each.mapTo(row, QPoint()), each.size()))
    assert seen == sorted(seen)
    assert seen[-1] == len(NAMES)


def test_a_command_in_the_list_runs(row: ToolRow, qtbot: QtBot) -> None:
    row.resize(row.minimumSizeHint().width(), row.height())
    undo = row.in_more[0]
    with qtbot.waitSignal(undo.triggered):
        undo.trigger()


def test_a_command_that_is_not_there_takes_no_room(row: ToolRow) -> None:
    next(each for each in row.findChildren(QToolButton) if each.text() == "Redo").defaultAction().setVisible(False)
    assert len(in_sight(row)) == len(NAMES) - 1
    assert not row.more.isVisible()


def test_what_a_view_has_no_use_for_is_neither_in_sight_nor_in_the_list(row: ToolRow) -> None:
    shown = QAction("Show overrides", row)
    row.add_to_more(shown)
    assert row.more.isVisible()
    assert [action.text() for action in row.in_more] == ["Show overrides"]
    zoom = next(each for each in row.findChildren(QToolButton) if each.text() == "Zoom").defaultAction()
    row.put_away([zoom, shown], away=True)
    assert in_sight(row) == ["Undo", "Redo", "Values"]
    assert not row.more.isVisible()
    assert shown.isVisible(), "it may stand in a menu"
    row.put_away([zoom, shown], away=False)
    assert in_sight(row) == list(NAMES)
    assert [action.text() for action in row.in_more] == ["Show overrides"]
