"""Tables that are only read: what a model says to Qt, what is worked out, and what keys do."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QTableView
from pytestqt.qtbot import QtBot

from widgets.kit import palette
from widgets.kit.quick_cells import QuickTable
from widgets.kit.scaling import heading_width
from widgets.kit.tables import (
    TableModel,
    Trim,
    add_copying,
    keep_headings_whole,
    selected_rows,
    set_up,
    set_widths,
    to_the_right,
)

Role = Qt.ItemDataRole
ACROSS = Qt.Orientation.Horizontal


class Squares(TableModel):
    alignment = to_the_right(1)

    def __init__(self, count: int) -> None:
        super().__init__()
        self.titles = ("Number", "A heading that is wider than its cells")
        self.explained = {1: "multiplied by itself"}
        self.asked: set[int] = set()
        self._count = count

    def count(self) -> int:
        return self._count

    def cell(self, row: int, column: int) -> tuple[str, str]:
        self.asked.add(row)
        return (f"<b>{row}</b>", "fault") if column == 0 else (str(row * row), "ink")


@pytest.fixture(params=["quick", "as Qt draws it"])
def view(request: pytest.FixtureRequest, qtbot: QtBot) -> QTableView:
    model = Squares(20_000)
    if request.param == "quick":
        view: QTableView = QuickTable(model)
    else:
        view = QTableView()
        view.setModel(model)
        set_up(view)
    model.setParent(view)
    qtbot.addWidget(view)
    view.resize(400, 300)
    with qtbot.waitExposed(view):
        view.show()
    return view


def test_texts_of_users_and_devices_are_never_taken_for_rich_text() -> None:
    model = Squares(3)
    index = model.index(2, 0)
    assert (index.data(), index.data(Role.ToolTipRole)) == ("<b>2</b>", "<p>&lt;b&gt;2&lt;/b&gt;</p>")


def test_a_cell_has_the_colour_and_the_side_that_its_model_says() -> None:
    model = Squares(3)
    assert model.index(0, 0).data(Role.ForegroundRole) == palette.current().colour("fault")
    assert model.index(0, 1).data(Role.ForegroundRole) is None
    for column, side in ((0, Qt.AlignmentFlag.AlignLeft), (1, Qt.AlignmentFlag.AlignRight)):
        assert model.headerData(column, ACROSS, Role.TextAlignmentRole) == side | Qt.AlignmentFlag.AlignVCenter
        assert model.index(0, column).data(Role.TextAlignmentRole) == side | Qt.AlignmentFlag.AlignVCenter


def test_headings_have_tips_and_rows_no_headings() -> None:
    model = Squares(3)
    assert [model.headerData(column, ACROSS, Role.ToolTipRole) for column in (0, 1)] == [None, "multiplied by itself"]
    assert model.headerData(0, Qt.Orientation.Vertical) is None
    assert (model.rowCount(model.index(0, 0)), model.columnCount(model.index(0, 0))) == (0, 0), "a table is no tree"


def test_only_rows_in_sight_are_worked_out(view: QTableView) -> None:
    model = view.model()
    assert isinstance(model, Squares)
    view.grab()
    assert 0 < len(model.asked) < 30


def test_a_heading_is_never_cut(view: QTableView) -> None:
    header = view.horizontalHeader()
    whole = heading_width(header, str(view.model().headerData(1, ACROSS)))
    set_widths(view, {0: 300, 1: 10})
    assert (view.columnWidth(0), view.columnWidth(1) >= whole) == (300, True)
    keep_headings_whole(header)
    view.setColumnWidth(0, 5)
    assert view.columnWidth(0) >= whole


def test_the_tab_key_leaves_the_table_and_a_click_takes_the_whole_row(view: QTableView) -> None:
    view.setCurrentIndex(view.model().index(0, 0))
    QTest.keyClick(view, Qt.Key.Key_Tab)
    assert view.currentIndex().column() == 0
    QTest.mouseClick(view.viewport(), Qt.MouseButton.LeftButton, pos=view.visualRect(view.model().index(3, 1)).center())
    assert [index.row() for index in view.selectionModel().selectedRows()] == [3]


def test_the_selected_rows_are_copied_by_key_from_the_top(view: QTableView) -> None:
    model = view.model()
    assert isinstance(model, Squares)
    action = add_copying(view, "Copy", lambda: model.as_lines(selected_rows(view)))
    QApplication.clipboard().setText("as it was")
    view.setFocus()
    QTest.keySequence(view, action.shortcut())
    assert QApplication.clipboard().text() == "as it was", "nothing is selected"
    for row in (4, 2, 3):
        at = view.visualRect(model.index(row, 0)).center()
        QTest.mouseClick(view.viewport(), Qt.MouseButton.LeftButton, Qt.KeyboardModifier.ControlModifier, at)
    QTest.keySequence(view, action.shortcut())
    assert QApplication.clipboard().text() == "<b>2</b>\t4\n<b>3</b>\t9\n<b>4</b>\t16"


def test_a_row_that_is_chosen_shows_it_on_a_ground_of_its_own_too(qtbot: QtBot) -> None:
    """The rows of cases in a trial have a ground; which of them would be run was not to be seen."""

    class Grounded(Squares):
        def trim(self, row: int, column: int) -> Trim | None:
            return Trim(ground="pane")

    view = QuickTable(Grounded(3))
    qtbot.addWidget(view)
    view.resize(400, 300)
    with qtbot.waitExposed(view):
        view.show()

    def grounds() -> list[int]:
        picture = view.viewport().grab().toImage()
        ends = [view.visualRect(view.model().index(row, 1)).topRight() for row in range(3)]
        return [picture.pixel(end.x() - 3, end.y() + 2) for end in ends]

    before = grounds()
    view.selectRow(1)
    after = grounds()
    assert (after[0], after[2]) == (before[0], before[2])
    assert after[1] != before[1]
