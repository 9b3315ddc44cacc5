"""One value of one signal written from the readings: armed only, within limits, read back, told, and in the record."""

from __future__ import annotations

from fractions import Fraction

import pytest
from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from app.follower.simulation import Simulation
from tests.widgets.driving import MakeWindow, connect
from widgets.document.settings import Settings
from widgets.kit.commands import why_off
from widgets.shell.window import BENCH, START_UP, MainWindow

pytestmark = pytest.mark.usefixtures("own_settings", "no_thread_is_left")


@pytest.fixture
def window(make_window: MakeWindow, device: Simulation, qtbot: QtBot) -> MainWindow:
    """A window connected to a real line that is not armed."""
    made = make_window(Settings(keep=False), workspace=BENCH)
    connect(made, device, qtbot)
    return made


def choose(window: MainWindow, signal: str, qtbot: QtBot) -> None:
    """Select the signal in the table and ask for the bar by its key."""
    table = window.bench.readings
    row = next(row for row in range(table.model.rowCount()) if table.model.index(row, 0).data() == signal)
    table.view.setFocus()
    table.view.setCurrentIndex(table.model.index(row, 0))
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    window.bench.write_action.trigger()
    qtbot.waitUntil(window.bench.write_bar.isVisible)


def test_a_double_click_opens_the_bar_for_that_signal(window: MainWindow, qtbot: QtBot) -> None:
    table = window.bench.readings
    row = next(row for row in range(table.model.rowCount()) if table.model.index(row, 0).data() == "set point")
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    place = table.view.visualRect(table.model.index(row, 1)).center()
    for click in (QTest.mouseClick, QTest.mouseDClick):
        click(table.view.viewport(), Qt.MouseButton.LeftButton, pos=place)
    bar = window.bench.write_bar
    assert bar.isVisible()
    assert bar.name.text() == "set point"
    assert bar.value.hasFocus()


def test_what_is_typed_over_the_readings_jumps_to_no_other_row(window: MainWindow) -> None:
    table = window.bench.readings
    table.view.setFocus()
    table.view.setCurrentIndex(table.model.index(0, 0))
    for row in range(1, table.model.rowCount()):
        QTest.keyClicks(table.view, table.model.index(row, 0).data()[0])
    assert table.view.currentIndex().row() == 0


def enter(window: MainWindow, text: str) -> None:
    bar = window.bench.write_bar
    bar.value.selectAll()
    QTest.keyClicks(bar.value, text)
    QTest.keyClick(bar.value, Qt.Key.Key_Return)


def set_point(device: Simulation) -> object:
    return device.models["fan"].get("set point")


def test_nothing_is_written_unarmed_and_the_way_to_arm_is_offered(
    window: MainWindow, device: Simulation, qtbot: QtBot
) -> None:
    before = set_point(device)
    choose(window, "set point", qtbot)
    bar = window.bench.write_bar
    assert bar.now.text() == "now 20.0 Hz"
    assert bar.unit.text() == "0.0 Hz \u2026 50.0 Hz"
    enter(window, "25")
    assert bar.result.text() == "Not written: writing is not armed. Arm it first."
    assert bar.arm.isVisible()
    assert set_point(device) == before
    window.live.arm()
    assert not bar.arm.isVisible()


def test_a_value_is_written_read_back_told_and_recorded(window: MainWindow, device: Simulation, qtbot: QtBot) -> None:
    window.show_workspace(START_UP)
    window.show_workspace(BENCH)
    window.live.arm()
    choose(window, "set point", qtbot)
    bar = window.bench.write_bar
    enter(window, "41,65")
    qtbot.waitUntil(lambda: bar.result.text() == "Written: 41.65 Hz. Read back: 41.65 Hz.")
    assert set_point(device) == Fraction("41.65")  # raw 8330
    qtbot.waitUntil(lambda: bar.now.text() == "now 41.65 Hz")
    events = window.start_up.events.model
    qtbot.waitUntil(lambda: any("41.7 Hz was written" in event.text for event in events.shown))
    assert window.live.session is not None
    assert window.live.session.panel.state.message is None


@pytest.mark.parametrize(
    ("text", "words"), [("50.1", "above the limit"), ("-1", "below the limit"), ("x", "'x'"), ("", "number")]
)
def test_what_may_not_be_written_is_refused_in_words(
    window: MainWindow, device: Simulation, qtbot: QtBot, text: str, words: str
) -> None:
    window.live.arm()
    before = set_point(device)
    choose(window, "set point", qtbot)
    enter(window, text)
    assert words in window.bench.write_bar.result.text()
    assert set_point(device) == before


def test_what_cannot_be_written_at_all_says_why(window: MainWindow, qtbot: QtBot) -> None:
    for signal, words in (("frequency", "'write' is not set"), ("recipe", "stored in the panel")):
        choose(window, signal, qtbot)
        bar = window.bench.write_bar
        assert words in bar.result.text()
        assert not bar.button.isEnabled()


def test_a_bit_is_chosen(window: MainWindow, device: Simulation, qtbot: QtBot) -> None:
    window.live.arm()
    choose(window, "run", qtbot)
    bar = window.bench.write_bar
    bar.choice.setCurrentIndex(1)
    bar.button.click()
    qtbot.waitUntil(lambda: device.models["fan"].get("command") == 16)
    qtbot.waitUntil(lambda: bar.result.text().startswith("Written: 1"))


def test_what_the_follower_did_not_keep_is_told(window: MainWindow, device: Simulation, qtbot: QtBot) -> None:
    window.live.arm()
    choose(window, "set point", qtbot)
    device.models["fan"].silent = True
    enter(window, "30")
    qtbot.waitUntil(lambda: window.bench.write_bar.result.text().startswith("Not written: "))
    assert window.bench.write_bar.result.property("look") == "fault"


def test_it_moves_no_key_closes_by_escape_and_goes_with_the_connection(window: MainWindow, qtbot: QtBot) -> None:
    def keys() -> list[QRect]:
        found = window.bench.face.keypad.findChildren(QWidget)
        return [QRect(key.mapTo(window, QPoint()), key.size()) for key in found]

    before = keys()
    choose(window, "set point", qtbot)
    assert keys() == before
    QTest.keyClick(window.bench.write_bar.value, Qt.Key.Key_Escape)
    assert not window.bench.write_bar.isVisible()
    assert keys() == before
    choose(window, "set point", qtbot)
    window.live.disconnect_from_line()
    assert not window.bench.write_bar.isVisible()
    assert why_off(window.bench.write_action) == "connect first"
