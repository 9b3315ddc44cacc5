"""A new panel from a few answers: by Enter alone, by keys, with its picture, with the ports of this computer."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QDialog, QWidget
from pytestqt.qtbot import QtBot

from app.checks import check
from app.modbus.ports_here import PortHere
from app.project.model import SerialLine, TcpLine
from app.starters.answers import SIZES, USUAL_PORT
from tests.widgets.driving import press, shown
from widgets.kit.controls import Choice
from widgets.welcome.new_panel import NewPanelDialog, WhatNext

KEY = Qt.Key


@pytest.fixture
def dialog(ports: list[PortHere], qtbot: QtBot) -> NewPanelDialog:
    return shown(NewPanelDialog(), qtbot, 900, 500)


def choose(choice: Choice, key: object) -> None:
    choice.setCurrentIndex(choice.findData(key))


def test_enter_alone_makes_a_panel_with_a_drive_that_is_to_be_connected(dialog: NewPanelDialog) -> None:
    assert dialog.focusWidget() is dialog.title
    press(KEY.Key_Return)
    assert dialog.result() == QDialog.DialogCode.Accepted
    assert dialog.next is WhatNext.CONNECT
    assert dialog.project is not None
    assert check(dialog.project) == ()


def test_every_question_is_reached_by_tab_and_what_is_typed_counts(dialog: NewPanelDialog, qtbot: QtBot) -> None:
    QTest.keyClicks(dialog.title, "Bandsaw 2")
    reached: list[QWidget | None] = []
    for _ in range(14):
        reached.append(dialog.focusWidget())
        press(KEY.Key_Tab)
    buttons = [dialog.connect_button, dialog.make_button]
    questions = [dialog.title, dialog.sizes, dialog.keys, dialog.line, dialog.unit, dialog.registers]
    assert [each for each in dict.fromkeys(reached) if each in questions] == questions
    assert all(button in reached for button in buttons)
    QTest.keyClick(dialog, KEY.Key_M, Qt.KeyboardModifier.AltModifier)
    qtbot.waitUntil(lambda: not dialog.isVisible())
    assert dialog.next is WhatNext.EDIT
    assert dialog.project is not None
    assert dialog.project.title == "Bandsaw 2"


def test_the_picture_follows_every_answer(dialog: NewPanelDialog) -> None:
    assert dialog.face.rows[0].text.strip() == "CONVEYOR"
    QTest.keyClicks(dialog.title, "Bandsaw")
    assert dialog.face.rows[0].text.strip() == "BANDSAW"
    for number, (rows, columns) in enumerate(SIZES):
        dialog.sizes.setCurrentIndex(number)
        assert (len(dialog.face.rows), len(dialog.face.rows[0].text)) == (rows, columns)
    choose(dialog.keys, "numbers")
    assert dialog.face.panel is not None
    assert "f3" in dialog.face.panel.keys
    choose(dialog.starter, "temperature")
    assert "°C" in "".join(row.text for row in dialog.face.rows)
    assert not dialog.registers.isEnabled()
    assert dialog.registers.toolTip()


def test_another_size_may_be_typed(dialog: NewPanelDialog) -> None:
    dialog.sizes.setCurrentIndex(dialog.sizes.count() - 1)
    for number, digits in ((dialog.rows, "6"), (dialog.columns, "24")):
        number.setFocus()
        number.selectAll()
        QTest.keyClicks(number, digits)
    assert (len(dialog.face.rows), len(dialog.face.rows[0].text)) == (6, 24)
    press(KEY.Key_Return)
    assert dialog.project is not None
    assert (dialog.project.panel.rows, dialog.project.panel.columns) == (6, 24)


def test_a_host_that_is_missing_is_said_and_asked_for(dialog: NewPanelDialog) -> None:
    choose(dialog.line, "tcp")
    press(KEY.Key_Return)
    assert dialog.isVisible()
    assert "IP address" in dialog.trouble.text()
    assert dialog.focusWidget() is dialog.host
    QTest.keyClicks(dialog.host, "192.0.2.20:1502")
    assert not dialog.trouble.text()
    press(KEY.Key_Return)
    assert dialog.project is not None
    line = dialog.project.lines[0]
    assert isinstance(line, TcpLine)
    assert (line.host, line.port) == ("192.0.2.20", 1502)


def test_the_port_that_was_chosen_is_that_of_the_line(
    dialog: NewPanelDialog, ports: list[PortHere], qtbot: QtBot
) -> None:
    assert dialog.answers.port == USUAL_PORT
    ports += [PortHere("COM3", trouble="in use"), PortHere("COM5", "RS-485")]
    choose(dialog.line, "serial")
    qtbot.waitUntil(lambda: dialog.answers.port == "COM5")
    dialog.port.setFocus()
    press(KEY.Key_Down)
    assert dialog.answers.port == "COM3"
    press(KEY.Key_Return)
    assert dialog.project is not None
    line = dialog.project.lines[0]
    assert isinstance(line, SerialLine)
    assert line.device == "COM3"


def test_a_list_to_import_comes_next(dialog: NewPanelDialog) -> None:
    choose(dialog.registers, "list")
    assert "import" in dialog.connect_button.text()
    press(KEY.Key_Return)
    assert dialog.next is WhatNext.IMPORT
    assert dialog.project is not None
    assert dialog.project.signals == ()


def test_another_starter_can_be_chosen_from_outside(qtbot: QtBot) -> None:
    dialog = shown(NewPanelDialog(starter="empty"), qtbot, 900, 500)
    dialog.sizes.setCurrentIndex(dialog.sizes.count() - 1)
    dialog.rows.setValue(1)
    dialog.columns.setValue(8)
    press(KEY.Key_Return)
    assert dialog.project is not None
    assert (dialog.project.panel.rows, dialog.project.panel.columns) == (1, 8)


def test_a_size_that_is_too_small_for_the_next_starter_grows(qtbot: QtBot) -> None:
    dialog = shown(NewPanelDialog(starter="empty"), qtbot, 900, 500)
    dialog.sizes.setCurrentIndex(dialog.sizes.count() - 1)
    dialog.rows.setValue(1)
    dialog.columns.setValue(8)
    choose(dialog.starter, "one-drive")
    assert (dialog.rows.value(), dialog.columns.value()) == (2, 16)


def test_escape_makes_nothing(dialog: NewPanelDialog) -> None:
    press(KEY.Key_Escape)
    assert dialog.result() == QDialog.DialogCode.Rejected
    assert dialog.project is None
