"""Target and Connect stand still: whatever is connected, armed, lost or changed, and however it is called."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

import app.line.poller
from app.follower.simulation import Simulation
from app.modbus.ports_here import PortHere
from app.project.model import SerialLine
from tests.pictures.stage import SMALLEST_SCREEN, Setting, settle, settle_until, staged
from tests.widgets.bench_project import bench_project
from tests.widgets.driving import MakeWindow
from widgets.document.settings import Settings
from widgets.frame.badge import WriteState
from widgets.frame.connect_bar import real_words
from widgets.frame.connecting import REAL, SIMULATED
from widgets.frame.header import ICON, Header
from widgets.kit.language import Language
from widgets.kit.palette import Appearance
from widgets.kit.scaling import scaled
from widgets.shell.window import BENCH, DESIGN, START_UP, TRIAL, MainWindow

pytestmark = pytest.mark.usefixtures("own_settings", "no_thread_is_left")


def places(window: MainWindow) -> list[QRect]:
    """Of the target, the button, the badge and the tabs, on the screen."""
    header = window.header
    widgets: list[QWidget] = [header.connect_bar.where, header.connect_bar.button, header.badge, header.tabs]
    return [QRect(widget.mapToGlobal(QPoint(0, 0)), widget.size()) for widget in widgets]


@pytest.mark.parametrize(
    "setting",
    [
        Setting(),
        Setting(Appearance.DARK, Language.GERMAN),
        Setting(percent=150),
        Setting(Appearance.LIGHT, Language.GERMAN, 200),
    ],
    ids=str,
)
def test_nothing_in_the_header_moves_in_any_state(setting: Setting, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(app.line.poller, "LOST_S", 0.3)
    with Simulation(bench_project()) as device, staged(setting) as window:
        window.resize(*SMALLEST_SCREEN)
        window.take(bench_project(device.serve_tcp(None, "127.0.0.1", 0)[1]), None)
        window.show_workspace(BENCH)
        settle()
        first = places(window)
        seen = {window.badge.state}

        def look() -> None:
            settle()
            seen.add(window.badge.state)
            for workspace in (DESIGN, BENCH, START_UP, TRIAL):
                window.show_workspace(workspace)
                settle()
                assert places(window) == first

        look()
        window.connecting.connect_line()
        look()
        window.document.do("Title", lambda project: project.replace(title="another"))
        look()
        window.document.undo()
        window.connecting.disconnect_line()
        window.connecting.choose(REAL)
        look()
        window.connecting.connect_line()
        settle_until(lambda: window.live.readings()["command"].good)
        look()
        window.live.arm()
        look()
        device.models["fan"].silent = True
        settle_until(lambda: window.badge.state is WriteState.DISARMED)
        look()
        window.live.disarm()
        window.live.disconnect_from_line()
        look()
        assert seen == set(WriteState)


@pytest.fixture
def window(make_window: MakeWindow) -> MainWindow:
    made = make_window(Settings(keep=False), workspace=BENCH)
    made.take(bench_project(), None)
    return made


def test_the_button_connects_and_disconnects_and_takes_a_changed_design(window: MainWindow) -> None:
    bar = window.header.connect_bar

    def click() -> None:
        QTest.mouseClick(bar.button, Qt.MouseButton.LeftButton)

    assert bar.button.text() == "Connect"
    assert "Ctrl+K" in bar.button.toolTip()
    assert bar.button.property("look") == "primary"
    click()
    assert window.live.connected
    assert bar.button.text() == "Disconnect"
    assert bar.button.property("look") != "primary"
    assert "127.0.0.1" in bar.button.toolTip()
    assert not bar.where.isEnabled()
    window.document.do("Title", lambda project: project.replace(title="another"))
    assert bar.button.text() == "Reconnect"
    assert "still runs the previous version" in bar.button.accessibleDescription()
    click()
    assert bar.button.text() == "Disconnect"
    click()
    assert not window.live.connected
    assert bar.where.isEnabled()


def test_the_choice_follows_the_command_and_the_other_way_round(window: MainWindow) -> None:
    where = window.header.connect_bar.where
    window.connecting.real_action.trigger()
    assert where.currentIndex() == REAL
    QTest.keyClick(where, Qt.Key.Key_Up)
    assert window.connecting.where == SIMULATED
    assert window.connecting.simulated_action.isChecked()


def test_the_choice_names_the_line(window: MainWindow) -> None:
    port = window.document.project.lines[0].port  # type: ignore[union-attr]
    assert window.header.connect_bar.where.itemText(REAL) == f"hall \u00b7 127.0.0.1:{port}"


def test_a_serial_port_of_this_computer_is_named_as_the_system_describes_it(
    window: MainWindow, monkeypatch: pytest.MonkeyPatch, qtbot: QtBot
) -> None:
    line = SerialLine(name="hall", device="/dev/ttyUSB0")
    project = bench_project().replace(lines=(line,))
    assert real_words(project) == "hall \u00b7 /dev/ttyUSB0"
    assert real_words(project, [PortHere("/dev/ttyUSB0")]) == "hall \u00b7 /dev/ttyUSB0"
    port = PortHere("/dev/ttyUSB0", "Serial adapter")
    monkeypatch.setattr("widgets.frame.connect_bar.ports_here", lambda: (port,))
    window.take(project, None)
    where = window.header.connect_bar.where
    where.showPopup()
    assert where.itemText(REAL) == "hall \u00b7 /dev/ttyUSB0 (Serial adapter)"
    where.hidePopup()


def test_in_a_narrow_window_it_gives_way_in_its_order(window: MainWindow, qtbot: QtBot) -> None:
    header = Header(window.menus.workspaces, window.connecting, window.document)
    host = QWidget()  # as in the window: no layout of its own keeps it from being narrow
    qtbot.addWidget(host)
    header.setParent(host)
    host.show()
    given: list[int] = []
    for width in range(1366, header.minimumSizeHint().width() - 1, -4):
        header.resize(width, header.height())
        caption, tabs = header.connect_bar.caption.isVisible(), header.tabs.isVisible()
        wide = header.connect_bar.where.width() == scaled(190)
        assert wide or not caption
        assert tabs or not wide
        assert tabs != header.list.isVisible()
        assert header.badge.geometry().right() < header.width()
        assert header.badge.width() >= header.badge.needed_width()
        given.append(caption + wide + tabs + (header.list.width() != scaled(ICON)))
    assert sorted(given, reverse=True) == given
    assert set(given) == {0, 1, 2, 3, 4}
