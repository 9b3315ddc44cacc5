"""The choice of a serial port: what is said of each, and what stands there while adapters are plugged in and out."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from app.modbus.ports_here import PortHere
from tests.widgets.driving import press, shown
from widgets.welcome import port_watch
from widgets.welcome.serial_choice import SerialChoice

USUAL = "/dev/ttyUSB0"
BOARD = PortHere("/dev/ttyS0", trouble="no permission")
FIRST = PortHere("/dev/ttyUSB1", "RS-485 adapter", "Works", "A12")
SECOND = PortHere("/dev/ttyUSB2", "RS-485 adapter", "Works", "A13")


@pytest.fixture(autouse=True)
def quick(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(port_watch, "LOOK_EVERY_MS", 20)


@pytest.fixture
def choice(ports: list[PortHere], qtbot: QtBot) -> SerialChoice:
    """It has seen one port that may not be opened."""
    ports.append(BOARD)
    made = shown(SerialChoice(USUAL), qtbot, 400, 60)
    qtbot.waitUntil(lambda: words(made) == ["/dev/ttyS0 (no permission)"])
    return made


def words(choice: SerialChoice) -> list[str]:
    """What is read in the list."""
    return [str(choice.model().index(row, 0).data()) for row in range(choice.count())]


def devices(choice: SerialChoice) -> list[str]:
    return [choice.itemText(row) for row in range(choice.count())]


def test_all_that_is_known_is_said_and_free_ones_come_first(
    choice: SerialChoice, ports: list[PortHere], qtbot: QtBot
) -> None:
    assert choice.port == USUAL, "none is free"
    choice.hide()
    ports += [PortHere("/dev/ttyU1", "Works adapter", "Works", trouble="in use"), FIRST]
    fresh = shown(SerialChoice(USUAL), qtbot, 400, 60)
    qtbot.waitUntil(lambda: fresh.count() == 3)
    assert words(fresh) == [
        "/dev/ttyUSB1  \u2013  RS-485 adapter, Works, serial number A12",
        "/dev/ttyS0 (no permission)",
        "/dev/ttyU1  \u2013  Works adapter (in use)",
    ]
    assert fresh.port == FIRST.device
    tips = [str(fresh.itemData(row, Qt.ItemDataRole.ToolTipRole)) for row in range(3)]
    assert BOARD.to_do in tips[1]
    assert "close it there" in tips[2]
    assert fresh.toolTip() == words(fresh)[0]


def test_what_was_plugged_in_last_stands_there_until_it_is_pulled_out(
    choice: SerialChoice, ports: list[PortHere], qtbot: QtBot
) -> None:
    told: list[str] = []
    choice.editTextChanged.connect(told.append)
    ports.append(FIRST)
    qtbot.waitUntil(lambda: choice.port == FIRST.device)
    assert words(choice)[0].endswith("serial number A12 (new)")
    ports.append(SECOND)
    qtbot.waitUntil(lambda: choice.port == SECOND.device)
    ports.remove(SECOND)
    qtbot.waitUntil(lambda: choice.port == FIRST.device)
    ports.remove(FIRST)
    qtbot.waitUntil(lambda: choice.port == USUAL)
    assert told == [FIRST.device, SECOND.device, FIRST.device, USUAL], "nobody is told of what did not stand there"


def test_a_new_one_that_may_not_be_opened_yet_is_there_when_it_may(
    choice: SerialChoice, ports: list[PortHere], qtbot: QtBot
) -> None:
    ports.append(PortHere(FIRST.device, trouble="no permission"))
    qtbot.waitUntil(lambda: choice.count() == 2)
    assert "(new, no permission)" in words(choice)[1]
    assert choice.port == USUAL
    ports[-1] = FIRST
    qtbot.waitUntil(lambda: choice.port == FIRST.device)


def test_what_was_typed_stays(choice: SerialChoice, ports: list[PortHere], qtbot: QtBot) -> None:
    choice.line.selectAll()
    QTest.keyClicks(choice, "COM12")
    ports.append(FIRST)
    qtbot.waitUntil(lambda: choice.count() == 2)
    assert choice.port == "COM12"


@pytest.mark.parametrize("device", [USUAL, "/dev/ttyUSB7"])
def test_what_was_said_from_outside_stays(
    choice: SerialChoice, ports: list[PortHere], qtbot: QtBot, device: str
) -> None:
    choice.choose(device)
    ports.append(FIRST)
    qtbot.waitUntil(lambda: choice.count() == 2)
    assert choice.port == device


def test_what_was_chosen_by_keys_stays_and_its_name_alone_is_the_port(
    choice: SerialChoice, ports: list[PortHere], qtbot: QtBot
) -> None:
    choice.setFocus()
    press(Qt.Key.Key_Down)
    assert choice.port == BOARD.device
    assert BOARD.to_do in choice.toolTip()
    ports.append(FIRST)
    qtbot.waitUntil(lambda: choice.count() == 2)
    assert choice.port == BOARD.device


def test_the_open_list_gains_what_is_plugged_in_and_keeps_what_is_marked(
    choice: SerialChoice, ports: list[PortHere], qtbot: QtBot
) -> None:
    choice.showPopup()
    view = choice.view()
    view.setCurrentIndex(choice.model().index(0, 0))
    ports.append(FIRST)
    qtbot.waitUntil(lambda: devices(choice) == [FIRST.device, BOARD.device])
    assert view.isVisible()
    assert view.currentIndex().row() == 1
    press(Qt.Key.Key_Return)
    assert choice.port == BOARD.device


def test_in_the_open_list_the_mark_follows_what_is_plugged_in_where_nobody_moved_it(
    choice: SerialChoice, ports: list[PortHere], qtbot: QtBot
) -> None:
    ports[:] = [FIRST]
    qtbot.waitUntil(lambda: choice.port == FIRST.device)
    choice.showPopup()
    ports.append(SECOND)
    qtbot.waitUntil(lambda: choice.port == SECOND.device)
    assert choice.view().currentIndex().data(Qt.ItemDataRole.EditRole) == SECOND.device


def test_after_it_was_hidden_only_what_came_meanwhile_is_new(
    choice: SerialChoice, ports: list[PortHere], qtbot: QtBot
) -> None:
    ports.append(FIRST)
    qtbot.waitUntil(lambda: "(new)" in words(choice)[0])
    choice.hide()
    ports.append(SECOND)
    choice.show()
    qtbot.waitUntil(lambda: choice.count() == 3)
    assert ["(new)" in each for each in words(choice)] == [False, True, False]
    assert choice.port == SECOND.device
