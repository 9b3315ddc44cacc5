"""Connecting and arming: the same commands in every workspace, and nothing is armed but by them."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.follower.simulation import Simulation
from tests.widgets.bench_project import bench_project
from tests.widgets.driving import MakeWindow
from widgets.document.settings import Settings
from widgets.frame.connecting import REAL, SIMULATED
from widgets.live.arming import ArmingDialog
from widgets.shell.window import BENCH, MainWindow

pytestmark = pytest.mark.usefixtures("own_settings", "no_thread_is_left")


@pytest.fixture
def window(make_window: MakeWindow, device: Simulation) -> MainWindow:
    made = make_window(Settings(keep=False), workspace=BENCH)
    made.take(bench_project(device.serve_tcp(None, "127.0.0.1", 0)[1]), None)
    return made


def connect(window: MainWindow, qtbot: QtBot) -> None:
    """To the real line; writing is off."""
    window.connecting.choose(REAL)
    window.connecting.connect_line()
    qtbot.waitUntil(lambda: window.live.readings()["set point"].good)


def test_the_real_line_is_armed_by_ticking_and_holding(window: MainWindow, device: Simulation, qtbot: QtBot) -> None:
    connect(window, qtbot)
    assert window.connecting.arm_action.isEnabled()
    assert not window.connecting.disarm_action.isEnabled()
    asked: list[bool] = []

    def take_the_cautions() -> None:
        dialog = QApplication.activeModalWidget()
        assert isinstance(dialog, ArmingDialog)
        asked.append(True)
        for tick in dialog.ticks:
            QTest.keyClick(tick.box, Qt.Key.Key_Space)
        QTest.keyPress(dialog.hold, Qt.Key.Key_Space)

    QTimer.singleShot(0, take_the_cautions)
    window.connecting.arm_action.trigger()
    assert asked
    assert window.live.writing.armed == ("hall",)
    assert window.connecting.disarm_action.isEnabled()
    QTest.mouseClick(window.bench.face.keypad.buttons["start"], Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: device.models["fan"].get("command") == 16)
    window.connecting.disarm_action.trigger()
    assert not window.live.writing.armed
    QTest.mouseClick(window.bench.face.keypad.buttons["stop"], Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: not window.live.session.writing)
    assert device.models["fan"].get("command") == 16


def test_who_arms_a_project_that_changed_since_is_told(
    window: MainWindow, device: Simulation, qtbot: QtBot, tmp_path: Path
) -> None:
    document = window.document
    document.mark_saved(tmp_path / "fan.toml")
    told: list[bool] = []

    def arm() -> None:
        connect(window, qtbot)

        def accept() -> None:
            dialog = QApplication.activeModalWidget()
            assert isinstance(dialog, ArmingDialog)
            told.append(not dialog.changed.isHidden())
            dialog.accept()

        QTimer.singleShot(0, accept)
        window.connecting.arm_action.trigger()
        window.connecting.disarm_action.trigger()
        window.connecting.disconnect_line()

    arm()
    arm()
    document.do("Title", lambda project: project.replace(title="another"))
    arm()
    arm()
    assert told == [False, False, True, False]


def test_a_line_that_goes_away_while_the_cautions_are_read_is_not_armed(window: MainWindow, qtbot: QtBot) -> None:
    connect(window, qtbot)
    QTimer.singleShot(0, window.connecting.disconnect_line)
    window.connecting.arm_action.trigger()
    assert QApplication.activeModalWidget() is None
    assert not window.live.writing.armed


def test_simulated_there_is_nothing_to_arm(window: MainWindow) -> None:
    window.connecting.connect_line()
    assert window.live.connected
    assert not window.connecting.arm_action.isEnabled()
    assert not window.connecting.disarm_action.isEnabled()


def test_a_project_without_a_line_is_said_where_one_looks(window: MainWindow) -> None:
    window.take(bench_project().replace(lines=(), followers=(), signals=(), actions=(), screens=()), None)
    window.connecting.connect_line()
    assert not window.live.connected
    assert "no line" in window.notices.words
    window.take(bench_project(), None)
    window.connecting.connect_line()
    assert window.notices.words == ""


def test_the_commands_go_with_the_state(window: MainWindow) -> None:
    connecting = window.connecting
    assert connecting.connect_action.isEnabled()
    assert not connecting.disconnect_action.isEnabled()
    connecting.real_action.trigger()
    assert connecting.where == REAL
    connecting.simulated_action.trigger()
    assert connecting.where == SIMULATED
    connecting.connect_action.trigger()
    assert window.live.connected
    assert not connecting.connect_action.isEnabled()
    assert not connecting.real_action.isEnabled()
    connecting.disconnect_action.trigger()
    assert not window.live.connected


def test_changed_since_it_was_connected_the_same_command_takes_the_new_design(window: MainWindow) -> None:
    connecting = window.connecting
    connecting.toggle()
    running = window.live.session
    window.document.do("Title", lambda project: project.replace(title="another"))
    assert connecting.changed
    assert connecting.connect_action.isEnabled()
    assert connecting.disconnect_action.isEnabled()
    connecting.toggle()
    assert not connecting.changed
    assert window.live.session is not None
    assert window.live.session is not running
    assert window.live.session.project.title == "another"
    connecting.toggle()
    assert not window.live.connected


def test_cautions_not_taken_leave_it_disarmed(window: MainWindow, qtbot: QtBot) -> None:
    connect(window, qtbot)

    def refuse() -> None:
        dialog = QApplication.activeModalWidget()
        assert dialog is not None
        QTest.keyClick(dialog, Qt.Key.Key_Escape)

    QTimer.singleShot(0, refuse)
    window.connecting.arm_action.trigger()
    assert not window.live.writing.armed
