"""A case of a trial is recorded on the Bench: keys become steps, marks are made, and it goes into the trial's file."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QMenu
from pytestqt.qtbot import QtBot

from app.follower.simulation import Simulation
from app.project.model import Project
from app.project_file.files import save
from app.trial.outcome import Result
from app.trial.script import AskStep, Expectation, ExpectStep, KeyStep, OrderStep, WaitStep
from app.trial.script_file import load_trial, project_digest, usual_place
from tests.noting_hand import run_again
from tests.widgets.bench_project import bench_project
from tests.widgets.driving import MakeWindow
from widgets.bench.case_recorder import CaseRecorder
from widgets.bench.workspace import BenchWorkspace
from widgets.document.settings import Settings
from widgets.frame.connecting import REAL, SIMULATED
from widgets.kit.commands import why_off
from widgets.kit.dialogs.questions import Question, TextQuestion
from widgets.shell.window import BENCH, TRIAL, MainWindow

pytestmark = pytest.mark.usefixtures("own_settings", "no_thread_is_left")


@pytest.fixture
def real(device: Simulation) -> Project:
    return bench_project(device.serve_tcp(None, "127.0.0.1", 0)[1])


@pytest.fixture
def window(make_window: MakeWindow, real: Project, tmp_path: Path) -> MainWindow:
    window = make_window(Settings(keep=False), workspace=BENCH)
    path = tmp_path / "bench.toml"
    save(real, path)
    window.open_file(path)
    return window


@pytest.fixture
def bench(window: MainWindow) -> BenchWorkspace:
    return window.bench


@pytest.fixture
def recorder(window: MainWindow, bench: BenchWorkspace, qtbot: QtBot) -> CaseRecorder:
    """Connected, and recording."""
    window.show_workspace(BENCH)
    window.connecting.choose(SIMULATED)
    window.connecting.connect_line()
    bench.recorder.record_action.trigger()
    good(bench, qtbot)
    return bench.recorder


def good(bench: BenchWorkspace, qtbot: QtBot) -> None:
    qtbot.waitUntil(lambda: bool(bench.live.readings()) and all(each.good for each in bench.live.readings().values()))
    qtbot.waitUntil(lambda: bool(bench.face.rows) and not any("--" in row.text for row in bench.face.rows))


def steps(recorder: CaseRecorder) -> list[object]:
    items = (recorder.steps.topLevelItem(row) for row in range(recorder.steps.topLevelItemCount()))
    return [item.data(0, Qt.ItemDataRole.UserRole) for item in items if item is not None]


def answer(monkeypatch: pytest.MonkeyPatch, text: str | None) -> None:
    monkeypatch.setattr(TextQuestion, "ask", lambda _self: text)


def entries(menu: QMenu) -> dict[str, object]:
    menu.aboutToShow.emit()
    return {action.text(): action for action in menu.actions() if action.text()}


def test_without_a_connection_nothing_is_recorded_and_it_says_why(bench: BenchWorkspace) -> None:
    assert why_off(bench.recorder.record_action) == "connect first"
    assert bench.recorder.isHidden()


def test_a_case_begins_anew_with_the_panel_and_the_simulated_devices(
    window: MainWindow, bench: BenchWorkspace, qtbot: QtBot
) -> None:
    window.connecting.choose(SIMULATED)
    window.connecting.connect_line()
    good(bench, qtbot)
    session = bench.live.session
    bench.live.key_down("right")
    bench.live.key_up("right")
    bench.recorder.start()
    assert bench.live.session is not session
    assert bench.live.session is not None
    assert bench.live.session.panel.state.shown == "run"
    assert bench.recorder.isVisible()


def test_keys_and_what_is_done_to_devices_become_steps(
    bench: BenchWorkspace, recorder: CaseRecorder, qtbot: QtBot
) -> None:
    QTest.keyClick(bench.face, Qt.Key.Key_Right)
    QTest.mouseClick(bench.face.keypad.buttons["left"], Qt.MouseButton.LeftButton)
    session = bench.live.session
    assert session is not None
    assert session.simulation is not None
    session.simulation.models["fan"].inputs.jammed = True  # type: ignore[attr-defined]
    qtbot.waitUntil(lambda: len(steps(recorder)) == 3)
    bench.cards.was_set.emit("tank.level=12")
    assert steps(recorder) == [
        KeyStep(key="right"),
        KeyStep(key="left"),
        OrderStep(order="fan.jammed=on"),
        OrderStep(order="tank.level=12"),
    ]


def test_a_row_is_marked_by_its_menu_and_from_the_keyboard(bench: BenchWorkspace, recorder: CaseRecorder) -> None:
    menu = recorder.row_menu(0)
    assert menu is not None
    menu.actions()[0].trigger()
    listed = entries(recorder.until.menu())
    row = next(text for text in listed if text.startswith("Row 1: Set point"))
    listed[row].trigger()  # type: ignore[attr-defined]
    first, second = steps(recorder)
    seen = Expectation(screen="run", row=1, text="Set point    20.0 Hz")
    assert isinstance(first, ExpectStep)
    assert first.expect == seen
    assert isinstance(second, WaitStep)
    assert second.wait == seen
    assert bench.face.rows


def test_where_the_readings_are_in_another_view_marks_are_offered_all_the_same(
    window: MainWindow, recorder: CaseRecorder
) -> None:
    window.resize(800, 768)
    assert not recorder.expect.isVisible()
    recorder.expect_action.trigger()
    menu = recorder.expect.menu()
    assert menu.isVisible()
    menu.actions()[0].trigger()
    menu.close()
    assert [type(step) for step in steps(recorder)] == [ExpectStep]


def test_the_chosen_signal_is_marked_in_the_table(bench: BenchWorkspace, recorder: CaseRecorder) -> None:
    name = bench.readings.model.name(0)
    bench.readings.view.selectRow(0)
    assert bench.readings.current_signal() == name
    recorder.expect_signal_action.trigger()
    assert f"Value of {name}" in entries(recorder.expect.menu())
    (step,) = steps(recorder)
    assert isinstance(step, ExpectStep)
    assert step.expect.signal == name


def test_nothing_is_marked_while_a_key_is_down_and_it_says_so(bench: BenchWorkspace, recorder: CaseRecorder) -> None:
    bench.live.key_down("jog")
    menu = recorder.row_menu(0)
    assert menu is not None
    menu.actions()[0].trigger()
    assert "Let the key go first" in recorder.state.text()
    bench.live.key_up("jog")
    menu.actions()[0].trigger()
    assert isinstance(steps(recorder)[-1], ExpectStep)


def test_asking_and_taking_back(recorder: CaseRecorder, monkeypatch: pytest.MonkeyPatch) -> None:
    answer(monkeypatch, "Does it turn?")
    recorder.ask_action.trigger()
    assert steps(recorder) == [AskStep(ask="Does it turn?")]
    recorder.undo_action.trigger()
    assert steps(recorder) == []


def test_the_case_is_kept_in_the_trial_and_shown_there(
    window: MainWindow, bench: BenchWorkspace, recorder: CaseRecorder, monkeypatch: pytest.MonkeyPatch
) -> None:
    QTest.keyClick(bench.face, Qt.Key.Key_Right)
    menu = recorder.row_menu(0)
    assert menu is not None
    menu.actions()[0].trigger()
    answer(monkeypatch, "it shows the tank")
    recorder.keep_action.trigger()
    project = window.document.project
    assert window.document.path is not None
    trial = load_trial(usual_place(window.document.path))
    assert [case.name for case in trial.cases] == ["it shows the tank"]
    assert trial.project == "bench.toml"
    assert trial.digest == project_digest(project)
    assert run_again(trial.cases[0], project).result is Result.PASS
    assert window.workspace_number == TRIAL
    assert window.trial.opened is not None
    assert window.trial.opened.trial == trial
    assert window.trial.table.chosen_cases() == ("it shows the tank",), "it can be run at once"
    assert bench.recorder.isHidden()
    assert bench.live.notes is None


def test_a_name_that_is_taken_is_said_and_the_case_stays(
    window: MainWindow, bench: BenchWorkspace, recorder: CaseRecorder, monkeypatch: pytest.MonkeyPatch
) -> None:
    QTest.keyClick(bench.face, Qt.Key.Key_Right)
    answer(monkeypatch, "it")
    recorder.keep()
    window.show_workspace(BENCH)
    recorder.start()
    QTest.keyClick(bench.face, Qt.Key.Key_Right)
    recorder.keep()
    assert "taken by another case" in recorder.state.text()
    answer(monkeypatch, " ")
    recorder.keep()
    assert "needs a name" in recorder.state.text()
    assert len(steps(recorder)) == 1


def test_a_case_whose_line_is_disconnected_can_still_be_kept_or_discarded(
    window: MainWindow, bench: BenchWorkspace, recorder: CaseRecorder, monkeypatch: pytest.MonkeyPatch
) -> None:
    QTest.keyClick(bench.face, Qt.Key.Key_Right)
    window.connecting.disconnect_line()
    assert not recorder.recording
    assert recorder.isVisible()
    assert len(steps(recorder)) == 1
    assert why_off(recorder.expect_action) == "no case is recorded"
    monkeypatch.setattr(Question, "confirm", lambda *_: False)
    recorder.discard()
    assert not recorder.may_discard()
    assert recorder.isVisible()
    monkeypatch.setattr(Question, "confirm", lambda *_: True)
    recorder.discard()
    assert recorder.isHidden()


def test_a_project_without_a_file_is_to_be_saved_first(
    window: MainWindow, real: Project, recorder: CaseRecorder, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(type(window.document), "path", None)
    answer(monkeypatch, "it")
    recorder.keep()
    assert "Save the project first" in recorder.state.text()
    assert real.signals


def test_at_a_real_device_only_the_panel_begins_anew_and_nothing_is_armed(
    window: MainWindow, bench: BenchWorkspace, qtbot: QtBot
) -> None:
    window.connecting.choose(REAL)
    window.connecting.connect_line()
    good(bench, qtbot)
    session = bench.live.session
    assert session is not None
    bench.live.key_down("right")
    bench.recorder.start()
    assert bench.live.session is session
    assert session.panel.state.shown == "run"
    assert not session.panel.state.down
    assert not bench.live.writing.armed
    assert bench.recorder.recording
