"""The record of a run in the window: saved, accepted with exceptions, signed, compared with an earlier one."""

from __future__ import annotations

import shutil
import subprocess
from datetime import datetime
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QDialog, QFileDialog
from pytestqt.qtbot import QtBot

from app.project.model import Project
from app.project_file.files import save
from app.signing.keys import make_key
from app.trial.outcome import Result, Verdict
from app.trial_record.record import load_record
from app.trial_record.verifying import verify_record
from tests.widgets.driving import MakeWindow, button_of, press, type_in, when_asked
from tests.widgets.trial.trials import PUMP
from widgets.document.settings import Settings
from widgets.kit.commands import why_off
from widgets.shell.window import TRIAL, MainWindow
from widgets.trial.difference_dialog import DifferenceDialog
from widgets.trial.records import RecordKeeping, killed_runs, usual_record
from widgets.trial.sign_dialog import SignDialog
from widgets.trial.steps_model import StepKey
from widgets.trial.workspace import TrialWorkspace

pytestmark = pytest.mark.usefixtures("own_settings", "no_thread_is_left")
FIRST = "it runs and stops"
FAILS = PUMP.replace('text = "running" }', 'text = "stopped" }\nwithin_s = 1')


@pytest.fixture
def file(tmp_path: Path, pump: Project) -> Path:
    save(pump, tmp_path / "booster-pump.toml")
    path = tmp_path / "booster-pump.trial.toml"
    path.write_text(PUMP, "utf-8")
    return path


@pytest.fixture
def window(make_window: MakeWindow, file: Path) -> MainWindow:
    settings = Settings(keep=False)
    settings.tester = ("A. Tester", "hall 2")
    made = make_window(settings)
    made.open_file(file.with_name("booster-pump.toml"))
    made.show_workspace(TRIAL)
    return made


@pytest.fixture
def trial(window: MainWindow) -> TrialWorkspace:
    return window.trial


@pytest.fixture
def records(trial: TrialWorkspace) -> RecordKeeping:
    return trial.records


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Where a person's own keys are."""
    place = tmp_path / "home"
    place.mkdir()
    monkeypatch.setattr("widgets.trial.sign_dialog.usual_key", lambda: place / "signing-key")
    monkeypatch.setattr(
        "widgets.trial.sign_dialog.keys_here", lambda: tuple(each for each in place.iterdir() if not each.suffix)
    )
    return place


def run(trial: TrialWorkspace, qtbot: QtBot, case: str = FIRST) -> None:
    trial.table.go_to(StepKey(case))
    trial.chosen_action.trigger()
    qtbot.waitUntil(lambda: not trial.run.running, timeout=20_000)


def save_as(monkeypatch: pytest.MonkeyPatch, path: Path) -> None:
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(path), ""))


def test_a_record_goes_beside_its_trial_with_the_time_of_the_run(tmp_path: Path) -> None:
    at = datetime(2026, 12, 1, 14, 20, 3)
    place = usual_record(tmp_path / "fan.trial.toml", at)
    assert place.name == "fan 2026-12-01 142003.trial.json"
    assert killed_runs(tmp_path / "fan.trial.toml") == []
    for name in ("fan 2026-12-01 142003.trial.json.part", "pump 2026-12-01 142003.trial.json.part"):
        (tmp_path / name).touch()
    assert killed_runs(tmp_path / "fan.trial.toml") == [place]


def test_the_last_run_is_saved_with_who_tested(
    trial: TrialWorkspace, records: RecordKeeping, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, qtbot: QtBot
) -> None:
    assert why_off(records.save_action) == "there is no run that ended"
    run(trial, qtbot)
    trial.table.go_to(None)
    assert ("Record", "not saved yet") in trial.side.summary.lines()
    assert ("Last run", "1 of 3 cases, simulated devices") in trial.side.summary.lines()
    save_as(monkeypatch, tmp_path / "first")
    records.save_action.trigger()
    path = tmp_path / "first.trial.json"
    record = load_record(path)
    assert (record.by, record.place, record.result) == ("A. Tester", "hall 2", Verdict.PASSED)
    assert (record.project.name, record.trial.name) == ("booster-pump.toml", "booster-pump.trial.toml")
    assert ("Record", "first.trial.json") in trial.side.summary.lines()
    assert why_off(records.save_action) == "it stands in first.trial.json"


def test_somebody_accepts_that_a_case_did_not_pass(
    file: Path, trial: TrialWorkspace, records: RecordKeeping, qtbot: QtBot
) -> None:
    file.write_text(FAILS, "utf-8")
    trial.again_action.trigger()
    run(trial, qtbot)
    assert trial.table.current == StepKey(FIRST, "step", 2)

    def tell(_dialog: QDialog) -> None:
        type_in("the text is changed with the next version")
        button_of(QApplication.activeModalWidget(), "Accept").click()

    when_asked(tell)
    records.accept_action.trigger()
    assert records.record is not None
    assert records.record.result is Verdict.WITH_EXCEPTIONS
    assert records.record.cases[0].result is Result.FAIL
    trial.table.go_to(None)
    accepted = f"{FIRST}: the text is changed with the next version (A. Tester)"
    assert ("Accepted", accepted) in trial.side.summary.lines()
    assert trial.side.summary.state.text() == "The chosen cases passed with exceptions"
    trial.table.go_to(StepKey(FIRST))
    offered: list[bool] = []

    def give_up(dialog: QDialog) -> None:
        offered.append(button_of(dialog, "Accept").isEnabled())
        dialog.reject()

    when_asked(give_up)
    records.accept_action.trigger()
    assert offered == [False]
    assert records.record.result is Verdict.WITH_EXCEPTIONS, "without a reason nothing is changed"


def test_a_key_that_is_made_here_signs(
    window: MainWindow,
    trial: TrialWorkspace,
    records: RecordKeeping,
    home: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    qtbot: QtBot,
) -> None:
    run(trial, qtbot)
    save_as(monkeypatch, tmp_path / "signed.trial.json")
    said: list[str] = []

    def sign(dialog: QDialog) -> None:
        assert isinstance(dialog, SignDialog)
        try:
            dialog.phrase.setText("a phrase")
            dialog.again.setText("another one")
            dialog.sign_button.click()
            said.append(dialog.note.text())
            dialog.again.setText("a phrase")
            dialog.sign_button.click()
            said.extend((dialog.note.text(), dialog.command.text()))
        finally:
            dialog.reject()

    when_asked(sign)
    records.sign_action.trigger()
    differ, signed, command = said
    assert differ == "The two pass phrases differ."
    found = verify_record(tmp_path / "signed.trial.json")
    assert found.good
    assert found.signatures[0].fingerprint in signed
    assert (home / "signing-key").exists()
    assert records.signed
    assert not records.accept_action.isEnabled()
    if shutil.which("ssh-keygen"):  # who has nothing of ours
        told = subprocess.run(command, shell=True, cwd=tmp_path, capture_output=True, text=True, check=True).stdout
        assert found.signatures[0].fingerprint in told
    run(trial, qtbot)
    when_asked(lambda dialog: button_of(dialog, "Replace").click())
    records.save_action.trigger()
    assert "signed.trial.json is signed" in window.told
    assert verify_record(tmp_path / "signed.trial.json").good


def test_a_key_that_is_there_is_opened_by_its_pass_phrase(home: Path, tmp_path: Path, qtbot: QtBot) -> None:
    make_key(home / "own", "right")
    dialog = SignDialog(tmp_path / "none.trial.json")
    qtbot.addWidget(dialog)
    assert dialog.key.currentText().endswith("own")
    dialog.phrase.setText("wrong")
    dialog.sign_button.click()
    assert dialog.note.text().startswith("this is not the pass phrase of")
    dialog.phrase.setText("right")
    dialog.sign_button.click()
    assert "none.trial.json cannot be read" in dialog.note.text()
    assert dialog.signature is None


def test_a_key_without_a_pass_phrase_is_warned_of_first(home: Path, tmp_path: Path, qtbot: QtBot) -> None:
    dialog = SignDialog(tmp_path / "none.trial.json")
    qtbot.addWidget(dialog)
    dialog.sign_button.click()
    assert dialog.note.text().startswith("Without a pass phrase, whoever")
    assert not (home / "signing-key").exists()


def test_what_came_to_another_result_than_before_is_shown(
    trial: TrialWorkspace, records: RecordKeeping, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, qtbot: QtBot
) -> None:
    run(trial, qtbot)
    save_as(monkeypatch, tmp_path / "before")
    records.save_action.trigger()
    run(trial, qtbot, "a trip is shown")
    shown: list[list[str]] = []

    def look(dialog: QDialog) -> None:
        assert isinstance(dialog, DifferenceDialog)
        rows = [dialog.tree.topLevelItem(number) for number in range(dialog.tree.topLevelItemCount())]
        shown.extend([[row.text(column) for column in (0, 1, 2, 4)] for row in rows if row is not None])
        press(Qt.Key.Key_Escape)

    when_asked(look)
    records.compare_with(tmp_path / "before.trial.json")
    assert shown == [
        [FIRST, "the whole case", "passed", "not there"],
        ["a trip is shown", "the whole case", "not there", "passed"],
    ], "what became worse stands first"


def test_a_file_that_is_no_record_says_so(
    window: MainWindow, trial: TrialWorkspace, records: RecordKeeping, file: Path, qtbot: QtBot
) -> None:
    run(trial, qtbot)
    records.compare_with(file)
    assert "is not a record of a trial" in window.told
