"""The Bench workplace on real sockets: the panel operated by keys, what the followers do, what is said of trouble."""

from __future__ import annotations

import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, Qt, QTimer
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
from tests.widgets.driving import shown
from widgets.bench.workspace import REAL, SIMULATED, BenchWorkspace
from widgets.document.document import Document
from widgets.face.keypad import keyboard_map
from widgets.live.arming import ArmingDialog
from widgets.live.live_session import LiveSession
from widgets.live.readings_model import ReadingColumn

pytestmark = pytest.mark.usefixtures("no_thread_is_left")


@pytest.fixture
def real(device: Simulation) -> Project:
    return bench_project(device.serve_tcp(None, "127.0.0.1", 0)[1])


@pytest.fixture
def bench(qtbot: QtBot, real: Project) -> Iterator[BenchWorkspace]:
    document = Document(real)
    live = LiveSession(document)
    yield shown(BenchWorkspace(document, live), qtbot, 1300, 640)
    live.disconnect_from_line()


def face(bench: BenchWorkspace) -> list[str]:
    return [row.text.rstrip() for row in bench.face.rows]


def connect(bench: BenchWorkspace, qtbot: QtBot, where: int = SIMULATED) -> None:
    bench.choose(where)
    QTest.mouseClick(bench.connect_button, Qt.MouseButton.LeftButton)
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
    assert "Not connected" in bench.status.text()
    assert set(face(bench)) <= {""}
    assert bench.connect_button.text() == "Connect"


def test_connected_it_shows_live_values_and_where(bench: BenchWorkspace, qtbot: QtBot) -> None:
    connect(bench, qtbot)
    assert face(bench)[:3] == ["Set point    20.0 Hz", "Speed         0.0 Hz", "no fault"]
    qtbot.waitUntil(lambda: "Connected, simulated" in bench.status.text())
    assert "127.0.0.1" in bench.status.text()
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
    assert [action.text() for action in card.switches.actions] == ["Shaft &blocked", "Does not &answer"]
    QTest.mouseClick(bench.face.keypad.buttons["start"], Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: drive(bench).drive.speed_rpm > 300)
    card.switches.jammed.trigger()
    qtbot.waitUntil(lambda: face(bench)[2] == "FAULT")
    card.switches.jammed.trigger()
    assert not drive(bench).inputs.jammed
    drive(bench).inputs.remote = False
    qtbot.waitUntil(lambda: bench.readings.model.cell(5, ReadingColumn.VALUE)[0] == "local")


def test_a_bank_has_no_drive_switches_but_takes_values(bench: BenchWorkspace, qtbot: QtBot) -> None:
    connect(bench, qtbot)
    card = bench.cards.card(1)
    assert card.switches is not None
    assert [action.text() for action in card.switches.actions] == ["Does not &answer"]
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
    qtbot.waitUntil(lambda: bench.status.text().startswith("\u26a0 fan does not answer: unit 1"))
    qtbot.waitUntil(lambda: _no_live_digit(bench, 1), timeout=10_000)
    qtbot.waitUntil(lambda: "not good" in bench.readings.summary.text())
    # The other follower on the same line is not held up, and neither is the window.
    bench.cards.heads.setCurrentIndex(1)
    qtbot.waitUntil(lambda: bench.cards.card(1).state.text().startswith("✓"), timeout=10_000)
    bench.cards.heads.setCurrentIndex(0)
    press(bench, Qt.Key.Key_Right)
    qtbot.waitUntil(lambda: face(bench)[0] == "Tank level  63 %")
    press(bench, Qt.Key.Key_Left)
    card.switches.silent.trigger()
    qtbot.waitUntil(lambda: card.state.text().startswith("✓"), timeout=10_000)
    qtbot.waitUntil(lambda: "Connected, simulated" in bench.status.text())
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
    qtbot.waitUntil(lambda: "refuses all" in bench.status.text(), timeout=20_000)
    assert bench.status.property("look") == "fault"
    card = bench.cards.card(0)
    assert "refuses all" in card.state.text()
    assert "illegal data address (02) at holding register" in card.body.text()
    assert card.body.whole, "the sentence is cut"
    assert card.state.property("look") == "fault"
    drive(bench).faults.clear()
    qtbot.waitUntil(lambda: "Connected, simulated" in bench.status.text(), timeout=20_000)
    assert card.state.property("look") == "good"


def test_a_value_that_hardly_can_be_is_shown_and_said_to_be_doubtful(bench: BenchWorkspace, qtbot: QtBot) -> None:
    """A level of 2 000 %: a wrong register or a wrong order of words reads like that."""
    connect(bench, qtbot)
    session = bench.live.session
    assert session is not None
    assert session.simulation is not None
    session.simulation.models["tank"].set("level", 2000)
    qtbot.waitUntil(lambda: "doubtful" in bench.status.text(), timeout=20_000)
    assert bench.status.property("look") == "caution"
    press(bench, Qt.Key.Key_Right)
    qtbot.waitUntil(lambda: "2000" in face(bench)[0] or "###" in face(bench)[0])
    assert "level: outside" in bench.cards.card(1).body.text()
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


def test_the_real_line_is_armed_by_ticking_and_holding(bench: BenchWorkspace, device: Simulation, qtbot: QtBot) -> None:
    connect(bench, qtbot, REAL)
    assert bench.arm_action.isEnabled()
    assert not bench.disarm_action.isEnabled()
    asked: list[bool] = []

    def take_the_cautions() -> None:
        dialog = QApplication.activeModalWidget()
        assert isinstance(dialog, ArmingDialog)
        asked.append(True)
        for tick in dialog.ticks:
            QTest.keyClick(tick.box, Qt.Key.Key_Space)
        QTest.keyPress(dialog.hold, Qt.Key.Key_Space)

    QTimer.singleShot(0, take_the_cautions)
    bench.arm_action.trigger()
    assert asked
    assert bench.live.writing.armed == ("hall",)
    assert bench.disarm_action.isEnabled()
    QTest.mouseClick(bench.face.keypad.buttons["start"], Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: device.models["fan"].get("command") == 16)
    bench.disarm_action.trigger()
    assert not bench.live.writing.armed
    QTest.mouseClick(bench.face.keypad.buttons["stop"], Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: not bench.live.session.writing)
    assert device.models["fan"].get("command") == 16


def test_who_arms_a_project_that_changed_since_is_told(
    bench: BenchWorkspace, device: Simulation, qtbot: QtBot, tmp_path: Path
) -> None:
    document = bench.document
    document.mark_saved(tmp_path / "fan.toml")
    told: list[bool] = []

    def arm() -> None:
        connect(bench, qtbot, REAL)

        def accept() -> None:
            dialog = QApplication.activeModalWidget()
            assert isinstance(dialog, ArmingDialog)
            told.append(bool(dialog.changed.text()))
            dialog.accept()

        QTimer.singleShot(0, accept)
        bench.arm_action.trigger()
        bench.disarm_action.trigger()
        bench.disconnect_line()

    arm()
    arm()
    document.do("Title", lambda project: project.replace(title="another"))
    arm()
    arm()
    assert told == [False, False, True, False]


def test_why_the_panel_did_not_write_is_said_below_it(bench: BenchWorkspace, device: Simulation, qtbot: QtBot) -> None:
    connect(bench, qtbot, REAL)
    assert bench.why.text() == ""
    before = device.models["fan"].get("command")
    QTest.mouseClick(bench.face.keypad.buttons["start"], Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: bench.why.text() != "")
    assert bench.why.text() == "'run': \u201cnot written: writing is off\u201d: line 'hall' is not armed"
    assert bench.why.accessibleName().startswith("Reason for this panel message: ")
    assert device.models["fan"].get("command") == before
    bench.disconnect_line()
    qtbot.waitUntil(lambda: bench.why.text() == "")


def test_why_the_panel_did_not_write_is_not_said_of_the_key_that_did(
    bench: BenchWorkspace, device: Simulation, qtbot: QtBot
) -> None:
    connect(bench, qtbot, REAL)
    bench.live.arm()
    fan, start = device.models["fan"], bench.face.keypad.buttons["start"]
    fan.silent = True
    QTest.mouseClick(start, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: bench.why.text().startswith("'run': \u201cno"))
    fan.silent = False
    qtbot.waitUntil(lambda: bench.live.readings()["command"].good)
    QTest.mousePress(start, Qt.MouseButton.LeftButton)
    assert bench.why.text() == ""
    QTest.mouseRelease(start, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: fan.get("command") == 16)
    assert bench.why.text() == ""
    bench.live.disarm()


def test_cautions_not_taken_leave_it_disarmed(bench: BenchWorkspace, qtbot: QtBot) -> None:
    connect(bench, qtbot, REAL)

    def refuse() -> None:
        dialog = QApplication.activeModalWidget()
        assert dialog is not None
        QTest.keyClick(dialog, Qt.Key.Key_Escape)

    QTimer.singleShot(0, refuse)
    bench.arm_action.trigger()
    assert not bench.live.writing.armed


def test_a_line_that_goes_away_while_the_cautions_are_read_is_not_armed(bench: BenchWorkspace, qtbot: QtBot) -> None:
    connect(bench, qtbot, REAL)
    QTimer.singleShot(0, bench.disconnect_line)
    bench.arm_action.trigger()
    assert QApplication.activeModalWidget() is None
    assert not bench.live.writing.armed


def test_simulated_there_is_nothing_to_arm(bench: BenchWorkspace, qtbot: QtBot) -> None:
    connect(bench, qtbot)
    assert not bench.arm_action.isEnabled()
    assert not bench.disarm_action.isEnabled()


def test_disconnecting_empties_the_face_and_the_cards(bench: BenchWorkspace, qtbot: QtBot) -> None:
    connect(bench, qtbot)
    QTest.mouseClick(bench.connect_button, Qt.MouseButton.LeftButton)
    assert set(face(bench)) <= {""}
    assert bench.cards.card(0).state.text() == "not connected"
    assert bench.connect_button.text() == "Connect"
    assert bench.readings.summary.text() == "not read yet"


def test_a_project_without_a_line_is_said_where_one_looks(qtbot: QtBot) -> None:
    document = Document(bench_project().replace(lines=(), followers=(), signals=(), actions=(), screens=()))
    made = BenchWorkspace(document, LiveSession(document))
    qtbot.addWidget(made)
    made.show()
    QTest.mouseClick(made.connect_button, Qt.MouseButton.LeftButton)
    assert made.notices.isVisible()
    assert "no line" in made.notices.text.text()


def test_the_choice_names_the_real_line(bench: BenchWorkspace, real: Project) -> None:
    assert f"hall, 127.0.0.1:{real.lines[0].port}" in bench.where.itemText(REAL)  # type: ignore[union-attr]


def test_the_commands_go_with_the_state(bench: BenchWorkspace, qtbot: QtBot) -> None:
    assert bench.connect_action.isEnabled()
    assert not bench.disconnect_action.isEnabled()
    bench.real_action.trigger()
    assert bench.where.currentIndex() == REAL
    bench.simulated_action.trigger()
    bench.connect_action.trigger()
    qtbot.waitUntil(lambda: face(bench)[:1] == ["Set point    20.0 Hz"])
    assert not bench.connect_action.isEnabled()
    assert not bench.where.isEnabled()
    bench.disconnect_action.trigger()
    assert not bench.live.connected


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
    other = BenchWorkspace(document, LiveSession(document), settings=bench.settings)
    qtbot.addWidget(other)
    assert other.readings.raw_form.currentData() == RawForm.HEXADECIMAL
    assert other.readings.model.form is RawForm.HEXADECIMAL
