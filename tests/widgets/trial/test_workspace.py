"""The Trial workspace as a person operates it: a trial is found, run, answered, stopped, and looked at."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app import edits
from app.project.model import Project
from app.project_file.files import save
from app.trial.outcome import Result, Verdict
from app.trial.script_file import project_digest
from tests.widgets.driving import MakeWindow, button_of, focused, press, type_in, when_asked, words_of
from tests.widgets.trial.trials import PUMP
from widgets.document.settings import Settings
from widgets.kit.commands import why_off
from widgets.shell.window import BENCH, TRIAL, MainWindow
from widgets.trial.ask_page import AskPage
from widgets.trial.starting import TrialTarget
from widgets.trial.steps_model import StepColumn, StepKey
from widgets.trial.workspace import TrialWorkspace

pytestmark = pytest.mark.usefixtures("own_settings", "no_thread_is_left")
FIRST, TRIP, PERSON = "it runs and stops", "a trip is shown", "what only a person sees"
ENDLESS = """
format = 1
[[case]]
name = "it waits"
[[case.step]]
key = "start"
[[case.step]]
wait = 86400
[[case.clean_up]]
key = "stop"
"""


@pytest.fixture
def file(tmp_path: Path, pump: Project) -> Path:
    """The pump's project, saved, with its trial beside it."""
    path = tmp_path / "booster-pump.toml"
    save(pump, path)
    (tmp_path / "booster-pump.trial.toml").write_text(PUMP, "utf-8")
    return path


@pytest.fixture
def window(make_window: MakeWindow, file: Path) -> MainWindow:
    settings = Settings(keep=False)
    settings.tester = ("A. Tester", "workshop")
    made = make_window(settings, None, workspace=BENCH)
    made.open_file(file)
    made.show_workspace(TRIAL)
    return made


@pytest.fixture
def trial(window: MainWindow) -> TrialWorkspace:
    return window.trial


def write(file: Path, text: str) -> None:
    file.with_name("booster-pump.trial.toml").write_text(text, "utf-8")


def run(trial: TrialWorkspace, qtbot: QtBot, *cases: str) -> None:
    """Run cases against the models until nothing more runs. Questions are answered with yes."""
    if cases:
        trial.table.go_to(StepKey(cases[0]))
        trial.chosen_action.trigger()
    else:
        trial.run_action.trigger()

    def over() -> bool:
        if trial.ask.asked is not None and trial.ask.asked.question.kind == "ask":
            trial.ask.say_yes()
        elif trial.ask.asked is not None:
            trial.ask.say_unknown()
        return not trial.run.running

    qtbot.waitUntil(over)


def until_asked(trial: TrialWorkspace, qtbot: QtBot) -> AskPage:
    qtbot.waitUntil(lambda: trial.ask.asked is not None)
    return trial.ask


def results(trial: TrialWorkspace) -> dict[str, Result | None]:
    found = {name: trial.model.case_outcome(name) for name in trial.model.case_names}
    return {name: None if outcome is None else outcome.result for name, outcome in found.items()}


def test_the_trial_beside_the_project_is_there(trial: TrialWorkspace) -> None:
    assert trial.opened is not None
    assert trial.model.case_names == (FIRST, TRIP, PERSON)
    assert trial.head.title.text() == "The pump's panel"
    assert trial.run_button.isEnabled()
    assert not trial.stop_button.isEnabled()
    assert not trial.head.notice.isVisible()


def test_the_key_of_the_workspace_leads_to_it_and_the_run_is_started_by_a_key(
    window: MainWindow, trial: TrialWorkspace, qtbot: QtBot
) -> None:
    window.show_workspace(BENCH)
    QTest.keyClick(window, Qt.Key.Key_4, Qt.KeyboardModifier.ControlModifier)
    assert window.workspace is trial
    assert focused() is trial.table
    press(Qt.Key.Key_F9)
    until_asked(trial, qtbot)
    press(Qt.Key.Key_Escape)
    qtbot.waitUntil(lambda: not trial.run.running, timeout=20_000)


def test_a_run_tells_of_each_step_beside_what_is_expected(trial: TrialWorkspace, qtbot: QtBot) -> None:
    run(trial, qtbot)
    assert results(trial) == {FIRST: Result.PASS, TRIP: Result.PASS, PERSON: Result.NOT_TESTED}
    row = trial.model.place(StepKey(FIRST, "step", 2))
    cells = [trial.model.cell(row, column)[0] for column in StepColumn]
    assert cells[:5] == ["1.2", "Look at 'running'", "'running'", "running", "passed"]
    assert trial.head.count.text() == "7 of 7"
    assert trial.table.current == StepKey(PERSON, "step", 2), "the first that did not pass"
    assert trial.side.step.state.text() == "not tested"
    trial.table.go_to(None)
    assert trial.side.summary.state.text() == "The trial did not pass"
    assert ("Cases", "2 passed, 1 not tested") in trial.side.summary.lines()
    assert ("Tested by", "A. Tester, workshop") in trial.side.summary.lines()


def test_a_failed_step_can_be_read_whole_with_the_panel_as_it_was(
    file: Path, trial: TrialWorkspace, qtbot: QtBot
) -> None:
    write(file, PUMP.replace('text = "running" }', 'text = "stopped" }\nwithin_s = 1'))
    trial.again_action.trigger()
    run(trial, qtbot, FIRST)
    failed = StepKey(FIRST, "step", 2)
    assert trial.table.current == failed
    assert trial.side.step.why.text() == "not within 1 s: running"
    assert ("Expected", "'stopped', within 1 s") in trial.side.step.lines()
    assert trial.side.caption.text() == "Panel at the end of this step"
    then = [row.text for row in trial.side.face.rows]
    assert then[3].startswith("running")
    trial.table.go_to(None)
    assert [row.text for row in trial.side.face.rows] != then, "the panel after the clean-up"


def test_chosen_cases_stay_chosen_and_are_not_called_the_whole_trial(
    window: MainWindow, trial: TrialWorkspace, qtbot: QtBot
) -> None:
    trial.table.choose_cases((FIRST, TRIP))
    trial.chosen_action.trigger()
    qtbot.waitUntil(lambda: not trial.run.running, timeout=20_000)
    assert window.told == "The chosen cases passed. 2 passed"
    assert trial.table.chosen_cases() == (FIRST, TRIP)
    run(trial, qtbot, FIRST)
    assert window.told == "The chosen cases passed. 1 passed", "not what earlier runs have left in the list"
    trial.table.go_to(None)
    assert trial.side.summary.state.text() == "The chosen cases passed"


def test_a_click_on_run_leaves_the_focus_where_esc_stops(
    file: Path, window: MainWindow, trial: TrialWorkspace, qtbot: QtBot
) -> None:
    write(file, ENDLESS)
    trial.again_action.trigger()
    QTest.mouseClick(trial.run_button, Qt.MouseButton.LeftButton)
    assert trial.isAncestorOf(focused())
    qtbot.waitUntil(lambda: trial.model.now == StepKey("it waits", "step", 2))
    press(Qt.Key.Key_Escape)
    qtbot.waitUntil(lambda: not trial.run.running, timeout=20_000)
    assert trial.isAncestorOf(focused())
    assert trial.side.summary.state.text() == "The trial is not finished"
    trial.table.go_to(StepKey("it waits"))
    assert trial.side.step.why.text() == "the run was stopped"


def test_another_trial_shows_nothing_of_the_panel_before(file: Path, trial: TrialWorkspace, qtbot: QtBot) -> None:
    run(trial, qtbot, FIRST)
    trial.table.go_to(None)
    assert any(row.text.strip() for row in trial.side.face.rows)
    write(file, ENDLESS)
    trial.again_action.trigger()
    assert not trial.side.face.rows


def test_a_question_is_asked_large_and_answered_by_a_key(trial: TrialWorkspace, qtbot: QtBot) -> None:
    trial.table.setFocus()
    trial.table.go_to(StepKey(PERSON))
    trial.chosen_action.trigger()
    ask = until_asked(trial, qtbot)
    assert trial.side.asking
    assert ask.text.text() == "Does the shaft stand still?"
    assert trial.side.path.words() == ("Trial", PERSON, "Step 1")
    row = trial.model.place(StepKey(PERSON, "step", 1))
    assert trial.model.cell(row, StepColumn.RESULT)[0] == "asks you"
    press(Qt.Key.Key_Y)
    qtbot.waitUntil(lambda: ask.asked is not None and ask.asked.question.kind == "measure")
    type_in("402")
    ask.name.setText("Multimeter 1")
    press(Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: not trial.run.running, timeout=20_000)
    outcome = trial.model.case_outcome(PERSON)
    assert outcome is not None
    assert outcome.result is Result.PASS
    assert [step.answer.by for step in outcome.steps if step.answer is not None] == 2 * ["A. Tester"]
    assert outcome.steps[1].found == "402 V"
    assert not trial.side.asking


def test_one_case_is_run_again_and_the_others_keep_their_results(trial: TrialWorkspace, qtbot: QtBot) -> None:
    run(trial, qtbot)
    before = trial.model.case_outcome(TRIP)
    run(trial, qtbot, FIRST)
    assert results(trial) == {FIRST: Result.PASS, TRIP: Result.PASS, PERSON: Result.NOT_TESTED}
    assert trial.model.case_outcome(TRIP) is before


def test_stop_is_never_covered_and_ends_the_run_with_its_clean_up(
    file: Path, window: MainWindow, trial: TrialWorkspace, qtbot: QtBot
) -> None:
    write(file, ENDLESS)
    trial.again_action.trigger()
    place = QRect(trial.stop_button.mapTo(window, QPoint()), trial.stop_button.size())
    trial.run_action.trigger()
    qtbot.waitUntil(lambda: trial.model.now == StepKey("it waits", "step", 2))
    assert QRect(trial.stop_button.mapTo(window, QPoint()), trial.stop_button.size()) == place
    assert window.childAt(place.center()) is trial.stop_button
    window.show_workspace(BENCH)
    qtbot.waitUntil(lambda: any(button.text() == "Stop" for button in window.notices.buttons))
    window.show_workspace(TRIAL)
    QTest.mouseClick(trial.stop_button, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: not trial.run.running, timeout=20_000)
    assert trial.run.record is not None
    assert trial.run.record.result is Verdict.UNFINISHED
    outcome = trial.model.outcome(StepKey("it waits", "clean-up", 1))
    assert outcome is not None
    assert outcome.result is Result.PASS
    assert "not finished" in window.told


def test_what_runs_is_followed_until_somebody_looks_elsewhere(file: Path, trial: TrialWorkspace, qtbot: QtBot) -> None:
    many = "".join(f'[[case]]\nname = "case {number}"\n[[case.step]]\nkey = "up"\n' for number in range(25))
    write(file, f"format = 1\n{many}" + ENDLESS.replace("format = 1", ""))
    trial.again_action.trigger()
    trial.run_action.trigger()
    qtbot.waitUntil(lambda: trial.model.now == StepKey("it waits", "step", 2))
    assert trial.table.current == StepKey("it waits", "step", 2)
    first = trial.table.visualRect(trial.model.index(0, StepColumn.STEP))
    assert first.bottom() < 0, "the first row has gone out of sight"
    trial.table.setFocus()
    press(Qt.Key.Key_Home)
    assert not trial.follow_action.isChecked()
    assert trial.table.current == StepKey("case 0")
    trial.follow_action.trigger()
    assert trial.table.current == StepKey("it waits", "step", 2)
    trial.stop_action.trigger()
    qtbot.waitUntil(lambda: not trial.run.running, timeout=20_000)


def test_what_does_not_fit_says_so_with_its_place(file: Path, window: MainWindow, trial: TrialWorkspace) -> None:
    write(file, PUMP.replace('"running", text', '"runing", text'))
    trial.again_action.trigger()
    assert trial.head.notice.isVisible()
    row = trial.model.place(StepKey(FIRST, "step", 2))
    assert trial.model.cell(row, StepColumn.RESULT)[0] == "does not fit"
    trial.table.go_to(StepKey(FIRST, "step", 2))
    assert "there is no signal 'runing' in the project" in trial.side.step.why.text()
    asked = when_asked(lambda dialog: dialog.reject())
    trial.head.show_problems.click()
    assert "did you mean 'running'?" in asked[0].text  # type: ignore[attr-defined]
    write(file, f'digest = "{"0" * 64}"\n{PUMP}')
    window.activateWindow()
    trial.look_at_file()
    assert trial.head.misfit.text().startswith("The project was changed")
    assert trial.run_action.isEnabled()


def test_an_edit_of_the_project_is_noticed(file: Path, window: MainWindow, trial: TrialWorkspace) -> None:
    write(file, f'digest = "{project_digest(window.document.project)}"\n{PUMP}')
    trial.again_action.trigger()
    assert not trial.head.notice.isVisible()
    window.document.do("Rename", lambda project: edits.rename_screen(project, "fault", "trip"))
    assert trial.head.notice.isVisible()
    window.document.undo()
    assert not trial.head.notice.isVisible()


def test_a_file_that_cannot_be_read_says_why(file: Path, trial: TrialWorkspace) -> None:
    write(file, PUMP.replace("key =", "kay ="))
    trial.again_action.trigger()
    assert trial.empty.isVisible()
    assert trial.empty.title.text() == "booster-pump.trial.toml cannot be read"
    assert "'kay' does not belong here" in trial.empty.sentence.text() or "a step needs" in trial.empty.sentence.text()
    assert not trial.run_action.isEnabled()
    write(file, PUMP)
    trial.look_at_file()
    assert not trial.empty.isVisible()


def test_a_project_without_a_trial_says_where_it_is_looked_for(file: Path, trial: TrialWorkspace) -> None:
    file.with_name("booster-pump.trial.toml").unlink()
    trial.look_at_file()
    assert "booster-pump.trial.toml beside the project" in trial.empty.sentence.text()
    assert why_off(trial.run_action) == "there is no trial"


def test_a_trial_is_proposed_from_the_project(file: Path, trial: TrialWorkspace, qtbot: QtBot) -> None:
    file.with_name("booster-pump.trial.toml").unlink()
    trial.look_at_file()
    assert trial.empty.button is not None
    trial.empty.button.click()
    assert file.with_name("booster-pump.trial.toml").exists()
    assert len(trial.model.case_names) > 20
    assert trial.fit.whole
    first = trial.model.case_names[0]
    run(trial, qtbot, first)
    assert results(trial)[first] is Result.PASS


def test_who_tests_is_asked_once(window: MainWindow, trial: TrialWorkspace, qtbot: QtBot) -> None:
    window.settings.tester = ("", "")
    asked = when_asked(lambda dialog: dialog.reject())
    trial.run_action.trigger()
    assert len(asked) == 1
    assert not trial.run.running

    def tell(_dialog: object) -> None:
        type_in("B. Tester")
        press(Qt.Key.Key_Return)

    when_asked(tell)
    trial.run_action.trigger()
    assert window.settings.tester == ("B. Tester", "")
    until_asked(trial, qtbot)
    trial.stop_action.trigger()
    qtbot.waitUntil(lambda: not trial.run.running, timeout=20_000)


@pytest.fixture
def running(file: Path, trial: TrialWorkspace, qtbot: QtBot) -> TrialWorkspace:
    write(file, ENDLESS)
    trial.again_action.trigger()
    trial.run_action.trigger()
    qtbot.waitUntil(lambda: trial.model.now == StepKey("it waits", "step", 2))
    return trial


@pytest.mark.parametrize("leave", [lambda window, file: window.open_file(file), lambda window, _file: window.close()])
def test_leaving_the_project_asks_before_it_stops_the_run(
    window: MainWindow, running: TrialWorkspace, file: Path, leave: Callable[[MainWindow, Path], object]
) -> None:
    asked = when_asked(lambda dialog: dialog.reject())
    leave(window, file)
    assert words_of(asked[0]).startswith("Stop the trial?")
    assert running.run.running
    assert window.isVisible()
    when_asked(lambda dialog: button_of(dialog, "Stop the trial").click())
    leave(window, file)
    assert not running.run.running
    assert running.run.record is not None
    assert running.run.record.cases[0].steps[-1].part == "clean-up"


def test_the_window_that_goes_without_a_question_ends_the_run(window: MainWindow, running: TrialWorkspace) -> None:
    window.leave()
    assert not running.run.running


def test_another_window_goes_on_with_the_run(
    window: MainWindow, running: TrialWorkspace, make_window: MakeWindow, qtbot: QtBot
) -> None:
    next_one = make_window(window.settings, None, workspace=TRIAL, former=window)
    next_one.succeed_wholly()
    trial = next_one.trial
    assert trial.run.running
    assert trial.model.now == StepKey("it waits", "step", 2)
    QApplication.processEvents()
    trial.stop_action.trigger()
    qtbot.waitUntil(lambda: not trial.run.running, timeout=20_000)
    assert trial.model.outcome(StepKey("it waits", "clean-up", 1)) is not None


def test_simulated_devices_are_run_in_real_time_too(trial: TrialWorkspace, qtbot: QtBot) -> None:
    trial.choose_against(TrialTarget.SIMULATED)
    run(trial, qtbot, TRIP)
    assert results(trial)[TRIP] is Result.PASS
    assert trial.run.record is not None
    assert trial.run.record.real_time
