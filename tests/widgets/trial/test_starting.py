"""A trial at a real line: nothing is armed by default, one thing is in charge, and Disarm ends it at once."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime
from fractions import Fraction
from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog
from pytestqt.qtbot import QtBot

from app.client.endpoint import Endpoint
from app.follower.simulation import Simulation
from app.trial.outcome import Result
from app.trial_record.journal import Journal
from app.trial_record.record import Circumstances, load_record, record_head, recording_of
from tests.widgets.bench_project import bench_project
from tests.widgets.driving import MakeWindow, button_of, when_asked, words_of
from widgets.document.settings import Settings
from widgets.frame.badge import WriteState
from widgets.frame.connecting import REAL, SIMULATED
from widgets.kit.dialogs.questions import Question
from widgets.live.arming import ArmingDialog
from widgets.shell.window import TRIAL, MainWindow
from widgets.trial.starting import TrialTarget
from widgets.trial.workspace import TrialWorkspace

pytestmark = pytest.mark.usefixtures("own_settings", "no_thread_is_left")

FAN = """
format = 1
[[case]]
name = "the fan starts"
[[case.step]]
key = "start"
[[case.step]]
expect = { signal = "command", value = 16 }
[[case.step]]
ask = "Does it turn?"
[[case.clean_up]]
key = "stop"
[[case]]
name = "its values are read"
moves = false
[[case.step]]
expect = { signal = "frequency", quality = "good" }
[[case]]
name = "its trip is shown"
on = "simulated"
[[case.step]]
order = "fan.external-fault=on"
"""


@pytest.fixture
def window(make_window: MakeWindow, device: Simulation, tmp_path: Path) -> MainWindow:
    """A window on the project of a device that is there, with a trial."""
    settings = Settings(keep=False)
    settings.tester = ("A. Tester", "hall 2")
    made = make_window(settings)
    _, port = device.serve_tcp(None, "127.0.0.1", 0)
    made.take(bench_project(port), None)
    file = tmp_path / "fan.trial.toml"
    file.write_text(FAN, "utf-8")
    made.show_workspace(TRIAL)
    made.trial.open_file(file)
    made.trial.choose_against(TrialTarget.REAL)
    return made


@pytest.fixture
def trial(window: MainWindow) -> TrialWorkspace:
    return window.trial


def badge(window: MainWindow) -> WriteState:
    return window.badge.state


def command(device: Simulation) -> object:
    return device.models["fan"].get("command")


def begin(trial: TrialWorkspace, words: str, then: Callable[[QDialog], object] | None = None) -> str:
    """Run all at the real line, in this way; `then` answers the cautions. Gives what was asked first."""
    said: list[str] = []

    def choose(dialog: QDialog) -> None:
        said.append(words_of(dialog))
        if then is not None:
            when_asked(then)
        button_of(dialog, words).click()

    when_asked(choose)
    trial.run_action.trigger()
    return said[0]


def take_cautions(dialog: QDialog) -> None:
    assert isinstance(dialog, ArmingDialog)
    for tick in dialog.ticks:
        tick.box.click()
    QTest.keyPress(dialog.hold, Qt.Key.Key_Space)


def asked(trial: TrialWorkspace, kind: str, qtbot: QtBot) -> None:
    qtbot.waitUntil(lambda: trial.ask.asked is not None and trial.ask.asked.question.kind == kind, timeout=20_000)


def test_it_is_armed_case_by_case_after_the_cautions_and_the_question(
    window: MainWindow, trial: TrialWorkspace, device: Simulation, qtbot: QtBot
) -> None:
    question = begin(trial, "Arm and run", take_cautions)
    assert "1 of its cases can move the machine" in question
    asked(trial, "may move", qtbot)
    assert badge(window) is WriteState.LOCKED
    assert command(device) == 0
    trial.ask.say_yes()
    asked(trial, "ask", qtbot)
    assert badge(window) is WriteState.ARMED
    assert command(device) == 16
    trial.ask.say_yes()
    qtbot.waitUntil(lambda: not trial.run.running, timeout=20_000)
    assert command(device) == 0
    assert badge(window) is WriteState.NONE
    outcome = trial.run.record
    assert outcome is not None
    assert [(case.name, case.result) for case in outcome.cases] == [
        ("the fan starts", Result.PASS),
        ("its values are read", Result.PASS),
    ]
    assert outcome.against == "device"


def test_a_run_at_the_device_keeps_its_record_and_its_curves(
    window: MainWindow, trial: TrialWorkspace, tmp_path: Path, qtbot: QtBot
) -> None:
    begin(trial, "Run without writing")
    asked(trial, "may move", qtbot)
    trial.ask.say_no()
    qtbot.waitUntil(lambda: not trial.run.running, timeout=20_000)
    path = trial.records.path
    assert path is not None
    assert path.parent == tmp_path
    record = load_record(path)
    assert (record.against, record.by, record.place) == ("device", "A. Tester", "hall 2")
    assert [file.name for file in record.recordings] == [recording_of(path).name]
    assert recording_of(path).exists()
    assert window.told.startswith("The trial did not pass")
    trial.records.curves_action.trigger()
    assert window.workspace is window.start_up
    assert window.start_up.replay_bar.isVisible()


def left_by_a_killed_run(trial: TrialWorkspace, folder: Path) -> Journal:
    """What is kept of a run that ended in its first case."""
    assert trial.opened is not None
    head = record_head(
        trial.opened.trial, trial._document.project, Circumstances(), simulated=False, began=datetime.now(UTC)
    )
    journal = Journal(folder / "fan 2026-12-01 142003.trial.json", head)
    journal.case_begins(0, trial.opened.cases[0], {"run": Fraction(0)})
    journal.close(over=False)
    return journal


def test_a_run_that_writes_nothing_leaves_to_the_next_what_a_killed_run_has_left(
    trial: TrialWorkspace, tmp_path: Path, qtbot: QtBot
) -> None:
    journal = left_by_a_killed_run(trial, tmp_path)
    begin(trial, "Run without writing")
    asked(trial, "may move", qtbot)
    trial.ask.say_no()
    qtbot.waitUntil(lambda: not trial.run.running, timeout=20_000)
    assert journal.path.exists()


def test_what_a_killed_run_has_left_is_cleaned_up_first(
    trial: TrialWorkspace, device: Simulation, tmp_path: Path, qtbot: QtBot
) -> None:
    device.models["fan"].set("command", 16)
    journal = left_by_a_killed_run(trial, tmp_path)

    def clean_up() -> None:
        dialog = QApplication.activeModalWidget()
        if isinstance(dialog, Question) and words_of(dialog).startswith("Clean up after it first?"):
            button_of(dialog, "Clean up").click()
        else:  # the cautions are still being taken
            QTimer.singleShot(10, clean_up)

    def then_clean_up(dialog: QDialog) -> None:
        QTimer.singleShot(10, clean_up)
        take_cautions(dialog)

    begin(trial, "Arm and run", then_clean_up)
    asked(trial, "may move", qtbot)
    trial.ask.say_yes()
    qtbot.waitUntil(lambda: command(device) == 0)
    trial.stop_action.trigger()
    qtbot.waitUntil(lambda: not trial.run.running, timeout=20_000)
    assert not journal.path.exists()
    assert len(list(tmp_path.glob("*unfinished*.json"))) == 1


def test_results_of_simulated_devices_do_not_stand_beside_those_of_the_machine(
    window: MainWindow, trial: TrialWorkspace, qtbot: QtBot
) -> None:
    reads, trips = "its values are read", "its trip is shown"
    trial.choose_against(TrialTarget.MODELS)
    trial.table.choose_cases((reads, trips))
    trial.chosen_action.trigger()
    qtbot.waitUntil(lambda: not trial.run.running, timeout=20_000)
    assert trial.model.case_outcome(trips) is not None
    trial.choose_against(TrialTarget.REAL)
    trial.table.choose_cases((reads,))
    when_asked(lambda dialog: button_of(dialog, "Run without writing").click())
    trial.chosen_action.trigger()
    qtbot.waitUntil(lambda: not trial.run.running, timeout=20_000)
    assert trial.model.case_outcome(trips) is None
    assert window.told == "The chosen cases passed. 1 passed"


def test_without_writing_nothing_is_written(
    window: MainWindow, trial: TrialWorkspace, device: Simulation, qtbot: QtBot
) -> None:
    begin(trial, "Run without writing")
    asked(trial, "may move", qtbot)
    assert badge(window) is WriteState.LOCKED
    assert not window.connecting.arm_action.isEnabled()
    trial.ask.say_yes()

    def over() -> bool:
        if trial.ask.asked is not None and trial.ask.asked.question.kind == "ask":
            trial.ask.say_unknown()
        assert badge(window) is not WriteState.ARMED
        return not trial.run.running

    qtbot.waitUntil(over, timeout=20_000)
    assert command(device) == 0
    assert trial.run.record is not None
    fan, reading = trial.run.record.cases
    assert fan.result is not Result.PASS
    assert reading.result is Result.PASS


def test_cautions_that_are_not_taken_start_nothing(trial: TrialWorkspace, device: Simulation) -> None:
    begin(trial, "Arm and run", lambda dialog: dialog.reject())
    assert not trial.run.running
    begin(trial, "Cancel")
    assert not trial.run.running
    assert command(device) == 0


def test_disarm_locks_at_once_and_ends_the_run(
    window: MainWindow, trial: TrialWorkspace, device: Simulation, qtbot: QtBot
) -> None:
    begin(trial, "Arm and run", take_cautions)
    asked(trial, "may move", qtbot)
    trial.ask.say_yes()
    asked(trial, "ask", qtbot)
    assert window.connecting.disarm_action.isEnabled()
    window.connecting.disarm_action.trigger()
    qtbot.waitUntil(lambda: not trial.run.running, timeout=20_000)
    outcome = trial.run.record
    assert outcome is not None
    assert outcome.cases[0].stopped
    assert badge(window) is WriteState.NONE
    # As anywhere: who locks writing takes the stop key away, too. What is not put back is said, and stays in sight.
    assert command(device) == 16
    assert any("could not be put back" in words for words in outcome.cases[0].not_restored)
    assert "could not be put back" in window.told
    assert "could not be put back" in trial.side.summary.why.text()


def test_nothing_else_gets_the_line_while_a_trial_is_at_it(
    window: MainWindow, trial: TrialWorkspace, device: Simulation, qtbot: QtBot
) -> None:
    begin(trial, "Run without writing")
    asked(trial, "may move", qtbot)
    for where in (REAL, SIMULATED):
        window.connecting.choose(where)
        window.connecting.connect_action.trigger()
        assert not window.live.connected
    line = window.document.project.lines[0]
    assert "A trial runs on this line" in window.finding_out._held(Endpoint.of_line(line))
    trial.stop_action.trigger()
    qtbot.waitUntil(lambda: not trial.run.running, timeout=20_000)
    window.connecting.connect_action.trigger()
    assert window.live.connected
    assert command(device) == 0


def test_a_session_of_the_window_is_ended_first_if_that_is_wanted(
    window: MainWindow, trial: TrialWorkspace, qtbot: QtBot
) -> None:
    window.connecting.choose(REAL)
    window.connecting.connect_line()
    when_asked(lambda dialog: dialog.reject())
    trial.run_action.trigger()
    assert window.live.connected
    assert not trial.run.running

    def go_on(dialog: QDialog) -> None:
        when_asked(lambda question: button_of(question, "Run without writing").click())
        button_of(dialog, "Disconnect and go on").click()

    when_asked(go_on)
    trial.run_action.trigger()
    assert not window.live.connected
    asked(trial, "may move", qtbot)
    trial.stop_action.trigger()
    qtbot.waitUntil(lambda: not trial.run.running, timeout=20_000)
