"""The Trial workspace in every state that it is met in, with a trial of the booster pump."""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Iterator, Mapping
from contextlib import AbstractContextManager, contextmanager
from datetime import UTC, datetime
from pathlib import Path
from typing import Final
from unittest.mock import patch

from PySide6.QtWidgets import QDialog, QWidget

from app.project_file.files import load
from app.signing.keys import make_key
from app.trial.outcome import CaseOutcome, PersonAsked, Result, StepOutcome, TrialOutcome
from app.trial.script import Trial
from app.trial_record.comparison import compare_records
from app.trial_record.record import Circumstances, TrialRecord, record_of, save_record
from projects import demo_path
from tests.pictures.stage import settle, settle_until
from widgets.shell.window import TRIAL, MainWindow
from widgets.trial.ask_page import AskedNow
from widgets.trial.difference_dialog import DifferenceDialog
from widgets.trial.sign_dialog import SignDialog
from widgets.trial.starting import TesterDialog
from widgets.trial.steps_model import StepKey
from widgets.trial.workspace import TrialWorkspace

Opened = Callable[[MainWindow], AbstractContextManager[QWidget]]
PUMP_TRIAL: Final = """format = 1
title = "Acceptance of the booster pump"
project = "booster-pump.toml"
stage = "sat"

[[case]]
name = "The pump starts and stops"

[[case.step]]
expect = { screen = "run" }

[[case.step]]
key = "start"

[[case.step]]
expect = { signal = "running", text = "running" }
within_s = 4

[[case.step]]
wait = { signal = "frequency", value = 41.65, tolerance = "2%" }
within_s = 20

[[case.step]]
expect = { signal = "current", below = 6 }

[[case.step]]
ask = "Does the pump run quietly, and does it turn to the right?"

[[case.step]]
key = "stop"

[[case.step]]
expect = { row = 4, like = "stopped*" }
within_s = 20

[[case]]
name = "Screens"
moves = false

[[case.step]]
key = "right"

[[case.step]]
expect = { screen = "measured", row = 1, like = "Current*A" }

[[case.step]]
measure = "Voltage between L1 and L2 at the terminals of the drive"
unit = "V"
at_least = 360
at_most = 440

[[case.clean_up]]
key = "left"

[[case]]
name = "A jammed pump trips"
setup = ["pump.jammed=on"]

[[case.step]]
key = "start"

[[case.step]]
expect = { screen = "fault" }
within_s = 20

[[case.step]]
note = "The pump is free again."
"""
"""Passes at simulated devices, if whoever is asked says yes and measures 400 V."""


@contextmanager
def _in_trial(window: MainWindow) -> Iterator[QWidget]:
    window.show_workspace(TRIAL)
    settle()
    yield window
    window.show_workspace(0)


def _opened(then: Callable[[TrialWorkspace], object], text: str = PUMP_TRIAL) -> Opened:
    """The trial of the pump, and what is done with it."""

    @contextmanager
    def opened(window: MainWindow) -> Iterator[QWidget]:
        with tempfile.TemporaryDirectory() as folder:
            window.settings.tester = ("A. Tester", "workshop")
            window.show_workspace(TRIAL)
            trial = window.trial
            file = Path(folder) / "booster-pump.trial.toml"
            file.write_text(text, "utf-8")
            trial.open_file(file)
            settle()
            then(trial)
            settle()
            yield window
            trial.leave()
            trial.ask.end()
            trial.open_file(Path(folder) / "none.trial.toml")
        window.show_workspace(0)

    return opened


def _let_ask(trial: TrialWorkspace, kind: str) -> None:
    """Run it against the models until a person is asked like this."""
    trial.run_all()
    if kind == "measure":
        settle_until(lambda: trial.ask.asked is not None)
        trial.ask.say_no()
        settle_until(lambda: trial.run.question is not None and trial.run.question.kind == kind)
    settle_until(lambda: trial.ask.asked is not None)


def _let_fail(trial: TrialWorkspace) -> None:
    _let_ask(trial, "measure")
    trial.ask.say_unknown()
    settle_until(lambda: not trial.run.running)


def _may_move(trial: TrialWorkspace) -> None:
    """As it is asked at a real machine."""
    trial.ask.ask(
        AskedNow(
            PersonAsked("may move", "The pump starts", "This case can move the machine. Is everybody clear of it?")
        )
    )
    trial.side.show_question()


MISFIT: Final = PUMP_TRIAL.replace('"frequency"', '"frequenzy"')
UNREADABLE: Final = PUMP_TRIAL.replace("key =", "kay =")


def _summary(trial: TrialWorkspace) -> None:
    _let_fail(trial)
    trial.table.go_to(None)


def _dialog(make: Callable[[MainWindow, Path], QDialog]) -> Opened:
    """A dialog that is made in a folder of its own."""

    @contextmanager
    def opened(window: MainWindow) -> Iterator[QWidget]:
        with tempfile.TemporaryDirectory() as folder:
            dialog = make(window, Path(folder))
            dialog.show()
            settle()
            yield dialog
            dialog.close()
            dialog.deleteLater()
            settle()

    return opened


def _signed(window: MainWindow, folder: Path) -> SignDialog:
    record = folder / "booster-pump 2026-12-01 142003.trial.json"
    save_record(_record(Result.PASS), record)
    make_key(folder / "own-key")
    with patch("widgets.trial.sign_dialog.keys_here", lambda: (folder / "own-key",)):
        dialog = SignDialog(record, window)
    dialog.sign_button.click()
    assert dialog.signature is not None
    return dialog


def _record(result: Result) -> TrialRecord:
    """Of one case, as it came out."""
    project, at = load(demo_path("booster-pump")), datetime(2026, 12, 1, 14, 20, 3, tzinfo=UTC)
    step = StepOutcome(3, "step", "expect: 'running' is 'running'", result, found="stopped")
    outcome = TrialOutcome((CaseOutcome("The pump starts and stops", (step,)),), True, True, at, at, 3.0)
    return record_of(outcome, Trial(), project, Circumstances("A. Tester", "workshop"))


def _differences(window: MainWindow, _folder: Path) -> DifferenceDialog:
    before = _record(Result.PASS)
    told = compare_records(before, _record(Result.FAIL))
    return DifferenceDialog("booster-pump 2026-11-20 091500.trial.json", before, told, window)


PANES: Final[Mapping[str, Opened]] = {
    "trial-none": _in_trial,
    "trial-unreadable": _opened(lambda _trial: None, UNREADABLE),
    "trial-idle": _opened(lambda _trial: None),
    "trial-misfit": _opened(lambda trial: trial.table.go_to(StepKey("The pump starts and stops", "step", 4)), MISFIT),
    "trial-asking": _opened(lambda trial: _let_ask(trial, "ask")),
    "trial-measuring": _opened(lambda trial: _let_ask(trial, "measure")),
    "trial-may-move": _opened(_may_move),
    "trial-failed": _opened(_let_fail),
    "trial-summary": _opened(_summary),
    "dialog-tester": _dialog(lambda window, _: TesterDialog(("A. Tester", ""), window)),
    "dialog-sign": _dialog(
        lambda window, folder: SignDialog(folder / "booster-pump 2026-12-01 142003.trial.json", window)
    ),
    "dialog-signed": _dialog(_signed),
    "dialog-differences": _dialog(_differences),
}
