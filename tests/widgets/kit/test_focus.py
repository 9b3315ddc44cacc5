"""The way of the Tab key: the order in which one reads, whenever the parts were made and wherever the focus is."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QRect, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLineEdit, QPushButton, QScrollArea, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from tests.widgets.driving import focused, shown
from widgets.kit.focus import RingDialog, as_read, next_stop, stops_of


@pytest.mark.usefixtures("qapp")
@pytest.mark.parametrize(
    ("places", "order"),
    [
        ([(0, 30, 50, 20), (0, 0, 50, 20)], [1, 0]),  # rows
        ([(60, 0, 50, 20), (0, 4, 50, 12)], [1, 0]),  # beside one another, of several heights
        ([(110, 0, 50, 20), (0, 0, 100, 90), (110, 30, 50, 20), (0, 100, 160, 20)], [1, 0, 2, 3]),  # a pane, two rows
        ([(10, 10, 50, 50), (0, 0, 50, 50), (40, 40, 50, 50)], [1, 0, 2]),  # no gap goes through
        ([], []),
    ],
)
def test_rows_then_columns_then_rows_in_them(places: list[tuple[int, int, int, int]], order: list[int]) -> None:
    widgets = [(QRect(*place), QWidget()) for place in places]
    assert [widgets.index(each) for each in as_read(widgets)] == order


@pytest.fixture
def dialog(qtbot: QtBot) -> RingDialog:
    made = RingDialog()
    column = QVBoxLayout(made)
    row = QHBoxLayout()
    for name in ("b", "a"):
        row.insertWidget(0, QPushButton(name))
    column.addWidget(QLineEdit("c"))
    column.insertLayout(0, row)
    return shown(made, qtbot, 300, 200)


def texts(dialog: QWidget) -> list[str]:
    return [getattr(stop, "text")() for stop in stops_of(dialog)]  # noqa: B009 - all of these have one


def test_what_is_off_or_hidden_or_never_takes_it_is_left_out(dialog: RingDialog, qtbot: QtBot) -> None:
    assert texts(dialog) == ["a", "b", "c"]
    a, b = dialog.findChildren(QPushButton)
    for button in (a, b):
        (button.setEnabled if button.text() == "a" else button.setVisible)(False)
    assert texts(dialog) == ["c"]
    dialog.findChildren(QLineEdit)[0].setFocusPolicy(Qt.FocusPolicy.ClickFocus)
    assert texts(dialog) == []
    assert not next_stop(dialog, forward=True)


def test_it_goes_round_forth_and_back(dialog: RingDialog) -> None:
    next_stop(dialog, forward=True)
    seen = []
    for key in (Qt.Key.Key_Tab, Qt.Key.Key_Tab, Qt.Key.Key_Tab, Qt.Key.Key_Backtab, Qt.Key.Key_Backtab):
        QTest.keyClick(focused(), key)
        seen.append(getattr(focused(), "text")())  # noqa: B009
    assert seen == ["b", "c", "a", "c", "b"]
    QTest.keyClick(focused(), Qt.Key.Key_Tab)
    edit = focused()
    assert isinstance(edit, QLineEdit)
    assert edit.selectedText() == "c", "as with Qt's own ring, what is reached by Tab can be typed over"


def test_from_a_page_it_goes_to_what_lies_in_it(dialog: RingDialog) -> None:
    page = QFrame(dialog)
    page.setGeometry(0, 100, 100, 100)
    page.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
    inner = QPushButton("inner", page)
    page.show()
    page.setFocus()
    next_stop(dialog, forward=True)
    assert focused() is inner


def test_what_is_scrolled_out_of_sight_comes_into_it(qtbot: QtBot) -> None:
    area = QScrollArea()
    inner = QWidget()
    column = QVBoxLayout(inner)
    edits = [QLineEdit() for _ in range(30)]
    for edit in edits:
        column.addWidget(edit)
    area.setWidget(inner)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    shown(area, qtbot, 300, 200)
    edits[0].setFocus()
    next_stop(area, forward=False)
    assert edits[-1].hasFocus()
    assert not edits[-1].visibleRegion().isEmpty()
