"""While the panel operates a real machine, nothing takes its place and nobody lets go of the machine unasked."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QColor
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog
from pytestqt.qtbot import QtBot

import app.line.poller
from app.follower.simulation import Simulation
from app.recording.writer import Writer
from tests.widgets.bench_project import bench_project
from tests.widgets.driving import MakeWindow, button_of, connect, words_of
from widgets.document.settings import Settings
from widgets.kit import palette
from widgets.kit.dialogs.questions import Question
from widgets.shell.window import BENCH, DESIGN, START_UP, MainWindow

pytestmark = pytest.mark.usefixtures("own_settings", "no_thread_is_left")

LOST_S = 0.3


@pytest.fixture
def window(make_window: MakeWindow, device: Simulation, qtbot: QtBot) -> MainWindow:
    """A window connected to a real line, armed."""
    made = make_window(Settings(keep=False), workspace=BENCH)
    connect(made, device, qtbot)
    made.live.arm()
    return made


@pytest.fixture
def recording(tmp_path: Path) -> Path:
    path = tmp_path / "run.fanrec"
    Writer(path, bench_project()).close()
    return path


def let_it_disarm_itself(window: MainWindow, device: Simulation, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(app.line.poller, "LOST_S", LOST_S)
    device.models["fan"].silent = True
    with qtbot.waitSignal(window.live.disarmed):
        pass
    device.models["fan"].silent = False
    qtbot.waitUntil(lambda: window.live.readings()["command"].good)


def press(window: MainWindow, key: str) -> None:
    QTest.mouseClick(window.start_up.face.keypad.buttons[key], Qt.MouseButton.LeftButton)


@pytest.mark.parametrize("way", ["command", "file"])
def test_no_recording_takes_the_place_of_an_armed_panel(
    way: str,
    window: MainWindow,
    device: Simulation,
    recording: Path,
    qtbot: QtBot,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: (str(recording), ""))

    def open_it() -> None:  # a dropped or a recent file comes the way of `open_file`
        window.start_up.open_action.trigger() if way == "command" else window.open_file(recording)

    window.show_workspace(START_UP)
    open_it()
    assert window.notices.words.endswith(
        "Writing is armed: the panel here operates the machine. Disarm first, then open the recording."
    )
    assert window.start_up.replay_bar.replay is None
    press(window, "start")
    qtbot.waitUntil(lambda: device.models["fan"].get("command") == 16)
    let_it_disarm_itself(window, device, qtbot, monkeypatch)
    open_it()
    assert "Writing was disarmed automatically" in window.notices.words
    press(window, "stop")
    qtbot.waitUntil(lambda: device.models["fan"].get("command") == 0)
    window.connecting.disarm_action.trigger()
    qtbot.waitUntil(lambda: window.notices.about == "")  # what it said is true no longer
    open_it()
    assert window.start_up.replay_bar.replay is not None


def test_arming_closes_a_recording(window: MainWindow, recording: Path, device: Simulation, qtbot: QtBot) -> None:
    window.live.disarm()
    window.show_workspace(START_UP)
    assert window.open_file(recording)
    window.live.arm()
    assert window.start_up.replay_bar.replay is None
    assert "The recording was closed" in window.notices.words
    press(window, "start")
    qtbot.waitUntil(lambda: device.models["fan"].get("command") == 16)


def test_the_face_says_that_it_is_a_recording(window: MainWindow, recording: Path) -> None:
    face = window.start_up.face
    window.live.disarm()
    window.show_workspace(START_UP)

    def caution_above_the_glass() -> int:
        image = face.grab().toImage()
        ratio = image.devicePixelRatio()
        caution: QColor = palette.current().colour("caution")
        return sum(
            image.pixelColor(x, y) == caution
            for y in range(int((face.grid.geometry().top() - 4) * ratio))
            for x in range(image.width())
        )

    assert caution_above_the_glass() == 0
    assert window.open_file(recording)
    assert face.mark == "Recording: nothing here is live"
    assert face.accessibleName().startswith("Recording: nothing here is live. Panel of ")
    assert caution_above_the_glass() > 100
    window.start_up.close_recording()
    assert not face.mark
    assert face.accessibleName().startswith("Panel of ")
    assert caution_above_the_glass() == 0


def answering(press_button: bool, asked: list[str]) -> Callable[[], None]:
    def answer() -> None:
        box = QApplication.activeModalWidget()
        if not isinstance(box, Question):
            return
        asked.append(f"{box.windowTitle()}: {words_of(box)}")
        button_of(box, "Disconnect" if press_button else "Cancel").click()

    return answer


LEAVING: dict[str, Callable[[MainWindow], object]] = {
    "quit": lambda window: window.close(),
    "disconnect": lambda window: window.connecting.disconnect_action.trigger(),
    "connect again": lambda window: window.connecting.connect_line(),
    "another project": lambda window: window.files.new(),
}


@pytest.mark.parametrize("lost", [False, True], ids=["armed", "disarmed itself"])
@pytest.mark.parametrize("way", LEAVING)
def test_who_lets_go_of_a_machine_is_asked(
    way: str,
    lost: bool,
    window: MainWindow,
    device: Simulation,
    qtbot: QtBot,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    if lost:
        let_it_disarm_itself(window, device, qtbot, monkeypatch)
    session = window.live.session
    asked: list[str] = []
    QTimer.singleShot(0, answering(False, asked))
    LEAVING[way](window)
    question = (
        "Disarmed automatically: Stop keys still write. Disconnect?\n"
        f"Line 'hall' was disarmed: device 'fan' did not answer for {LOST_S} s."
        if lost
        else "Armed: Fanlight is armed on hall. Disconnect?"
    )
    consequence = (
        "Disconnecting does not stop anything: a running machine keeps running, and the panel can no longer stop it."
    )
    assert asked == [f"{question}\n{consequence}"]
    assert window.live.session is session
    assert window.isVisible()


def retitle(window: MainWindow) -> None:
    window.document.do("Title", lambda project: project.replace(title=project.title + "!"))


def test_that_the_panel_is_not_the_one_designed_is_said_as_long_as_it_is_so(window: MainWindow) -> None:
    button = window.header.connect_bar.button

    def said() -> bool:
        """In every workspace, since the button stands over all of them."""
        told = []
        for place in (DESIGN, BENCH, START_UP):
            window.show_workspace(place)
            told.append(button.text() == "Reconnect" and "still runs the previous" in button.accessibleDescription())
        assert len(set(told)) == 1
        return told[0]

    assert not said()
    retitle(window)
    assert said()
    QTimer.singleShot(0, answering(False, []))
    button.click()
    assert said(), "it was not connected again"
    window.document.undo()
    assert not said()
    retitle(window)
    running = window.live.session
    QTimer.singleShot(0, answering(True, []))
    button.click()
    assert not said()
    assert window.live.session is not None
    assert window.live.session is not running
    assert window.live.session.project is window.document.project


def test_who_says_so_disconnects_a_line_that_disarmed_itself(
    window: MainWindow, device: Simulation, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    let_it_disarm_itself(window, device, qtbot, monkeypatch)
    QTimer.singleShot(0, answering(True, []))
    window.connecting.disconnect_action.trigger()
    assert not window.live.connected
