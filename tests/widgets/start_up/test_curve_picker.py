"""The list of curves: it stays open, finds by words, and knows when there are enough."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from tests.widgets.driving import shown
from widgets.start_up.curve_picker import CurvePicker

NAMES = tuple(f"value {number}" for number in range(5000))


@pytest.fixture
def owner(qtbot: QtBot) -> QWidget:
    return shown(QWidget(), qtbot, 300, 100)


@pytest.fixture
def picker(owner: QWidget, qtbot: QtBot) -> CurvePicker:
    made = CurvePicker(3, owner)
    made.open_below(owner, NAMES, ("value 7",))
    qtbot.waitUntil(made.isVisible)
    return made


def test_one_after_another_is_ticked_by_keys_and_it_stays_open(picker: CurvePicker, qtbot: QtBot) -> None:
    QTest.keyClicks(picker.filter, "4999 val")
    assert picker.model.rowCount() == 1
    with qtbot.waitSignal(picker.chosen) as chosen:
        QTest.keyClick(picker.filter, Qt.Key.Key_Return)
    assert chosen.args == [("value 7", "value 4999")]
    picker.filter.setText("")
    QTest.keyClick(picker.filter, Qt.Key.Key_Down)
    assert picker.list.hasFocus()
    with qtbot.waitSignal(picker.chosen) as chosen:
        QTest.keyClick(picker.list, Qt.Key.Key_Space)
    assert chosen.args == [("value 7", "value 4999", "value 0")]
    assert picker.isVisible()
    with qtbot.assertNotEmitted(picker.chosen):
        QTest.keyClick(picker.list, Qt.Key.Key_Down)
        QTest.keyClick(picker.list, Qt.Key.Key_Return)
    assert picker.model.ticked == ("value 7", "value 4999", "value 0"), "three are enough"
    QTest.keyClick(picker.list, Qt.Key.Key_Up)
    with qtbot.waitSignal(picker.chosen) as chosen:
        QTest.keyClick(picker.list, Qt.Key.Key_Return)
    assert chosen.args == [("value 7", "value 4999")]
    QTest.keyClick(picker.list, Qt.Key.Key_Escape)
    assert not picker.isVisible()


def test_a_tick_is_set_by_the_mouse(picker: CurvePicker, qtbot: QtBot) -> None:
    row = picker.list.visualRect(picker.model.index(0, 0))
    with qtbot.waitSignal(picker.chosen) as chosen:
        QTest.mouseClick(
            picker.list.viewport(), Qt.MouseButton.LeftButton, pos=QPoint(row.left() + 10, row.center().y())
        )
    assert chosen.args == [("value 7", "value 0")]
