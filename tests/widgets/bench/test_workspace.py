"""The Bench workplace on real sockets: the panel operated by keys, what the followers do, what is said of trouble."""

from __future__ import annotations

import time

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QFocusEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit, QMenu
from pytestqt.qtbot import QtBot

from app.follower.drive_bank import DriveBank
from app.follower.simulation import Simulation
from app.panel.rendering import Attribute
from app.project.model import Project
from app.signals.raw_text import RawForm
from tests.widgets.bench_project import bench_project
from tests.widgets.driving import MakeWindow
from widgets.bench.workspace import BenchWorkspace
from widgets.document.document import Document
from widgets.document.settings import Settings
from widgets.face.keypad import keyboard_map
from widgets.frame.connecting import REAL, SIMULATED, Connecting
from widgets.kit.notice_slot import Gravity
from widgets.live.live_session import LiveSession
from widgets.live.readings_model import ReadingColumn
from widgets.shell.window import BENCH, DESIGN, MainWindow

pytestmark = pytest.mark.usefixtures("own_settings", "no_thread_is_left")


@pytest.fixture
def real(device: Simulation) -> Project:
    return bench_project(device.serve_tcp(None, "127.0.0.1", 0)[1])


@pytest.fixture
def bench(make_window: MakeWindow, real: Project) -> BenchWorkspace:
    window = make_window(Settings(keep=False), workspace=BENCH)
    window.take(real, None)
    return window.bench


def around(bench: BenchWorkspace) -> MainWindow:
    window = bench.window()
    assert isinstance(window, MainWindow)
    return window


def connecting(bench: BenchWorkspace) -> Connecting:
    return around(bench).connecting


def face(bench: BenchWorkspace) -> list[str]:
    return [row.text.rstrip() for row in bench.face.rows]


def connect(bench: BenchWorkspace, qtbot: QtBot, where: int = SIMULATED) -> None:
    connecting(bench).choose(where)
    connecting(bench).connect_line()
    qtbot.waitUntil(lambda: face(bench)[:1] == ["Set point    20.0 Hz"] and not any("--" in row for row in face(bench)))


def drive(bench: BenchWorkspace) -> DriveBank:
    session = bench.live.session
    assert session is not None
    assert session.simulation is not None
    model = session.simulation.models["fan"]
    assert isinstance(model, DriveBank)
    return model


def press(bench: BenchWorkspace, *keys: Qt.Key) -> None:
    for key in keys:
        QTest.keyClick(bench.face, key)


def test_not_connected_it_says_so_and_shows_no_values(bench: BenchWorkspace) -> None:
    assert around(bench).badge.words == "Not connected: nothing can be written"
    assert set(face(bench)) <= {""}


def test_connected_it_shows_live_values_and_where(bench: BenchWorkspace, qtbot: QtBot) -> None:
    connect(bench, qtbot)
    assert face(bench)[:3] == ["Set point    20.0 Hz", "Speed         0.0 Hz", "no fault"]
    assert around(bench).badge.words == "Simulated: nothing real can move"
    assert bench.face.hasFocus()
    qtbot.waitUntil(lambda: bench.readings.summary.text().startswith("all"))


def test_the_keyboard_turns_screens(bench: BenchWorkspace, qtbot: QtBot) -> None:
    connect(bench, qtbot)
    press(bench, Qt.Key.Key_Right)
    qtbot.waitUntil(lambda: face(bench)[0] == "Tank level  63 %")
    press(bench, Qt.Key.Key_Left)
    qtbot.waitUntil(lambda: face(bench)[0].startswith("Set point"))


def test_the_keys_on_the_screen_do_the_same(bench: BenchWorkspace, qtbot: QtBot) -> None:
    connect(bench, qtbot)
    QTest.mouseClick(bench.face.keypad.buttons["right"], Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: face(bench)[0].startswith("Tank level"))


def test_a_set_point_is_entered_and_the_drive_follows(bench: BenchWorkspace, qtbot: QtBot) -> None:
    connect(bench, qtbot)
    QTest.mouseClick(bench.face.keypad.buttons["start"], Qt.MouseButton.LeftButton)
    press(bench, Qt.Key.Key_Return, Qt.Key.Key_Up, Qt.Key.Key_Up, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: face(bench)[0] == "Set point    21.0 Hz")
    assert drive(bench).get("set point") == 21
    qtbot.waitUntil(lambda: face(bench)[1] not in ("Speed         0.0 Hz", "Speed      -----  Hz"))


def test_a_value_that_the_panel_wrote_stands_out_for_a_moment(bench: BenchWorkspace, qtbot: QtBot) -> None:
    connect(bench, qtbot)
    model = bench.readings.model

    def ground(name: str) -> str:
        row = next(row for row in range(model.rowCount()) if model.name(row) == name)
        trim = model.trim(row, ReadingColumn.VALUE)
        return "" if trim is None else trim.ground

    assert ground("set point") == ""
    press(bench, Qt.Key.Key_Return, Qt.Key.Key_Up, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: ground("set point") == "soft")
    assert ground("frequency") == ""
    qtbot.waitUntil(lambda: ground("set point") == "")


def test_a_held_key_is_let_go_when_the_focus_leaves(bench: BenchWorkspace, qtbot: QtBot) -> None:
    connect(bench, qtbot)
    keys = keyboard_map(bench.document.project.panel.keys)
    jog = next(key for key, name in keys.items() if name == "jog")
    QTest.keyPress(bench.face, jog)
    qtbot.waitUntil(lambda: drive(bench).get("command") == 16)
    bench.readings.filter.setFocus()
    qtbot.waitUntil(lambda: drive(bench).get("command") == 0)
    QTest.keyRelease(bench.readings.filter, jog)


def test_a_held_key_is_let_go_when_the_program_is_left(bench: BenchWorkspace, qtbot: QtBot) -> None:
    connect(bench, qtbot)
    QTest.mousePress(bench.face.keypad.buttons["jog"], Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: drive(bench).get("command") == 16)
    application = QApplication.instance()
    assert isinstance(application, QApplication)
    application.applicationStateChanged.emit(Qt.ApplicationState.ApplicationInactive)
    qtbot.waitUntil(lambda: drive(bench).get("command") == 0)


def test_the_switches_of_the_simulated_drive(bench: BenchWorkspace, qtbot: QtBot) -> None:
    connect(bench, qtbot)
    card = bench.cards.card(0)
    assert card.switches is not None
    assert [action.text() for action in card.switches.actions] == ["Shaft &blocked", "Supply &low", "&Silent"]
    QTest.mouseClick(bench.face.keypad.buttons["start"], Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: drive(bench).drive.speed_rpm > 300)
    card.switches.actions[0].trigger()
    qtbot.waitUntil(lambda: face(bench)[2] == "FAULT")
    card.switches.actions[0].trigger()
    assert not drive(bench).inputs.jammed
    drive(bench).inputs.remote = False
    qtbot.waitUntil(lambda: bench.readings.model.cell(5, ReadingColumn.VALUE)[0] == "local")


def test_a_bank_has_no_drive_switches_but_takes_values(bench: BenchWorkspace, qtbot: QtBot) -> None:
    connect(bench, qtbot)
    card = bench.cards.card(1)
    assert card.switches is not None
    assert [action.text() for action in card.switches.actions] == ["&Silent"]
    field = next(edit for edit in card.findChildren(QLineEdit) if edit.accessibleName() == "Value to set")
    QTest.keyClicks(field, "71")
    QTest.keyClick(field, Qt.Key.Key_Return)
    press(bench, Qt.Key.Key_Right)
    qtbot.waitUntil(lambda: face(bench)[0] == "Tank level  71 %")


def test_the_menu_has_the_same_switches(bench: BenchWorkspace, qtbot: QtBot) -> None:
    menu = QMenu()
    bench.fill_menu(menu)
    connect(bench, qtbot)
    inner = next(
        action.menu() for action in menu.actions() if "devices" in action.text().replace("&", "") and action.menu()
    )
    assert isinstance(inner, QMenu)
    names = {action.text(): action.menu() for action in inner.actions()}
    assert list(names) == ["fan", "tank"]
    fan = names["fan"]
    assert isinstance(fan, QMenu)
    fan.actions()[0].trigger()
    assert drive(bench).inputs.jammed


def test_a_follower_that_stops_answering_shows_dashes_and_why_and_comes_back(
    bench: BenchWorkspace, qtbot: QtBot
) -> None:
    connect(bench, qtbot)
    card = bench.cards.card(0)
    assert card.switches is not None
    card.switches.silent.trigger()
    qtbot.waitUntil(lambda: "not answering" in card.state.text(), timeout=10_000)
    assert "unit 1 did not answer" in card.body.text()
    # The reason stands once: on the card in sight; where that is not, in the slot.
    qtbot.waitUntil(lambda: around(bench).notices.words == "fan does not answer")
    qtbot.waitUntil(
        lambda: bench.why.text() == "fan: no answer. Refused: JOG, START. Sent anyway, until confirmed: STOP."
    )
    around(bench).show_workspace(DESIGN)
    qtbot.waitUntil(lambda: around(bench).notices.words.startswith("fan does not answer: unit 1"))
    around(bench).show_workspace(BENCH)
    qtbot.waitUntil(lambda: _no_live_digit(bench, 1), timeout=10_000)
    qtbot.waitUntil(lambda: "not good" in bench.readings.summary.text())
    # The other follower on the same line is not held up, and neither is the window.
    bench.cards.heads.setCurrentIndex(1)
    qtbot.waitUntil(lambda: bench.cards.card(1).state.state == "good", timeout=10_000)
    bench.cards.heads.setCurrentIndex(0)
    press(bench, Qt.Key.Key_Right)
    qtbot.waitUntil(lambda: face(bench)[0] == "Tank level  63 %")
    press(bench, Qt.Key.Key_Left)
    card.switches.silent.trigger()
    qtbot.waitUntil(lambda: card.state.state == "good", timeout=10_000)
    qtbot.waitUntil(lambda: around(bench).notices.about == "")
    qtbot.waitUntil(lambda: face(bench)[0] == "Set point    20.0 Hz", timeout=10_000)


def test_the_table_shows_what_the_face_shows_at_every_frame(bench: BenchWorkspace, qtbot: QtBot) -> None:
    """A value that changes all the time: never may one of them be a frame behind the other."""
    connect(bench, qtbot)
    press(bench, Qt.Key.Key_Right)
    qtbot.waitUntil(lambda: face(bench)[0].startswith("Tank level"))
    session = bench.live.session
    assert session is not None
    assert session.simulation is not None
    tank = session.simulation.models["tank"]
    model = bench.readings.model
    row = next(row for row in range(model.rowCount()) if model.name(row) == "level")
    seen: list[tuple[str, str]] = []

    def look() -> None:
        seen.append((face(bench)[0].removeprefix("Tank level").strip(), model.cell(row, ReadingColumn.VALUE)[0]))
        tank.set("level", len(seen) % 90 + 10)

    bench.live.frame.connect(look)
    qtbot.waitUntil(lambda: len({value for value, _ in seen}) > 12, timeout=30_000)
    bench.live.frame.disconnect(look)
    assert [pair for pair in seen if pair[0] != pair[1]] == []


def test_a_device_that_refuses_everything_is_neither_live_nor_answering(bench: BenchWorkspace, qtbot: QtBot) -> None:
    """It answers, but with exceptions only. Nothing is green then, and what is wrong is said whole, once."""
    connect(bench, qtbot)
    drive(bench).faults.exception = 2
    drive(bench).faults.exceptions = 1.0
    qtbot.waitUntil(lambda: "refuses all" in around(bench).notices.words, timeout=20_000)
    assert around(bench).notices.gravity is Gravity.FAULT
    qtbot.waitUntil(lambda: "refuses all" in bench.readings.summary.text())
    card = bench.cards.card(0)
    qtbot.waitUntil(lambda: "refuses all" in card.state.text())
    assert "illegal data address (02) at holding register" in card.body.text()
    assert card.body.whole or card.more_words.isVisible(), "the sentence is cut"
    assert card.state.property("look") == "fault"
    drive(bench).faults.clear()
    qtbot.waitUntil(lambda: around(bench).notices.about == "", timeout=20_000)
    qtbot.waitUntil(lambda: card.state.property("look") == "good")


def test_a_value_that_hardly_can_be_is_shown_and_said_to_be_doubtful(bench: BenchWorkspace, qtbot: QtBot) -> None:
    """A level of 2 000 %: a wrong register or a wrong order of words reads like that."""
    connect(bench, qtbot)
    session = bench.live.session
    assert session is not None
    assert session.simulation is not None
    session.simulation.models["tank"].set("level", 2000)
    qtbot.waitUntil(lambda: "doubtful" in around(bench).notices.words, timeout=20_000)
    assert around(bench).notices.gravity is Gravity.CAUTION
    press(bench, Qt.Key.Key_Right)
    qtbot.waitUntil(lambda: "2000" in face(bench)[0] or "###" in face(bench)[0])
    bench.cards.heads.setCurrentIndex(1)
    qtbot.waitUntil(lambda: "level: outside" in bench.cards.card(1).body.text())
    assert bench.cards.card(0).state.property("look") == "good"


def _no_live_digit(bench: BenchWorkspace, row: int) -> bool:
    """Whether the field in this row shows dashes, or its old value in the stale look."""
    shown = bench.face.rows[row]
    return "-" in shown.text[12:17] or all(
        Attribute.STALE in attribute for attribute in shown.attributes[12:17] if attribute is not None
    )


def test_a_follower_killed_in_mid_poll_is_said_and_the_window_lives(
    bench: BenchWorkspace, device: Simulation, qtbot: QtBot
) -> None:
    connect(bench, qtbot, REAL)
    device.stop()
    qtbot.waitUntil(lambda: "not answering" in bench.cards.card(0).state.text(), timeout=20_000)
    qtbot.waitUntil(lambda: _no_live_digit(bench, 1), timeout=20_000)
    frames: list[float] = []
    bench.live.frame.connect(lambda: frames.append(time.monotonic()))
    qtbot.waitUntil(lambda: len(frames) >= 10)
    press(bench, Qt.Key.Key_Right)
    qtbot.waitUntil(lambda: face(bench)[0].startswith("Tank level"))


def test_why_the_panel_did_not_write_is_said_below_it(bench: BenchWorkspace, device: Simulation, qtbot: QtBot) -> None:
    connect(bench, qtbot, REAL)
    assert bench.why.reason == ""
    before = device.models["fan"].get("command")
    QTest.mouseClick(bench.face.keypad.buttons["start"], Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: bench.why.reason != "")
    assert bench.why.reason == "'run': \u201cnot written: writing is off\u201d: line 'hall' is not armed"
    assert bench.why.accessibleName().startswith("Reason for this panel message: ")
    assert device.models["fan"].get("command") == before
    connecting(bench).disconnect_line()
    qtbot.waitUntil(lambda: bench.why.reason == "")


def test_why_the_panel_did_not_write_is_not_said_of_the_key_that_did(
    bench: BenchWorkspace, device: Simulation, qtbot: QtBot
) -> None:
    connect(bench, qtbot, REAL)
    bench.live.arm()
    fan, start = device.models["fan"], bench.face.keypad.buttons["start"]
    fan.silent = True
    QTest.mouseClick(start, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: bench.why.reason.startswith("'run': \u201cno"))
    fan.silent = False
    qtbot.waitUntil(lambda: bench.live.readings()["command"].good)
    QTest.mousePress(start, Qt.MouseButton.LeftButton)
    assert bench.why.reason == ""
    QTest.mouseRelease(start, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: fan.get("command") == 16)
    assert bench.why.reason == ""
    bench.live.disarm()


def test_disconnecting_empties_the_face_and_the_cards(bench: BenchWorkspace, qtbot: QtBot) -> None:
    connect(bench, qtbot)
    connecting(bench).disconnect_line()
    assert set(face(bench)) <= {""}
    assert bench.cards.card(0).state.text() == "not connected"
    assert bench.readings.summary.text() == "8 signals"
    assert bench.readings.empty.isVisible()


def test_the_shortcut_to_the_filter_goes_there(bench: BenchWorkspace) -> None:
    bench.filter_action.trigger()
    assert bench.readings.filter.hasFocus()
    bench.panel_action.trigger()
    assert bench.face.hasFocus()


def test_leaving_the_workplace_lets_go(bench: BenchWorkspace, qtbot: QtBot) -> None:
    connect(bench, qtbot)
    QTest.mousePress(bench.face.keypad.buttons["jog"], Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: drive(bench).get("command") == 16)
    bench.hide()
    qtbot.waitUntil(lambda: drive(bench).get("command") == 0)
    QApplication.sendEvent(bench, QFocusEvent(QEvent.Type.FocusOut))


def test_raw_numbers_are_written_as_they_were_last(bench: BenchWorkspace, real: Project, qtbot: QtBot) -> None:
    bench.raw_action.trigger()
    document = Document(real)
    other = BenchWorkspace(document, LiveSession(document), connecting(bench).arm, settings=bench.settings)
    qtbot.addWidget(other)
    assert other.readings.model.form is RawForm.HEXADECIMAL
    assert other.readings.model.form is RawForm.HEXADECIMAL
