"""A whole run: its record, its journal and its recording, and nothing left over."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from app.recording.reader import Recording
from app.recording.writer import CannotRecord
from app.trial.outcome import CaseOutcome, PersonAsked, StepOutcome, Verdict
from app.trial.runner import Watcher
from app.trial.stand import RehearsedStand, SessionStand
from app.trial_record.record import CannotUseRecord, load_record, recording_of
from app.trial_record.recorded_run import TrialRun, Watchers
from app.trial_record.verifying import verify_record
from tests.app.trial.trials import PUMP, trial_in
from tests.app.trial_record.test_record import Tester
from tests.builders import demo


def run_of(record: Path | None, *, real_time: bool = False, **more: object) -> TrialRun:
    project = demo("booster-pump")
    stand = SessionStand(project, "simulated") if real_time else RehearsedStand(project)
    return TrialRun(trial_in(PUMP), project, stand, Tester(), record=record, **more)  # type: ignore[arg-type]


@pytest.mark.parametrize("real_time", [False, True])
def test_a_run_leaves_its_record_and_its_curves(tmp_path: Path, real_time: bool) -> None:
    path = tmp_path / "pump.trial.json"
    record = run_of(path, real_time=real_time).run()
    assert record.result is Verdict.PASSED
    assert load_record(path).recordings == record.recordings
    assert sorted(file.name for file in tmp_path.iterdir()) == ["pump.trial.fanrec", "pump.trial.json"]
    assert [each.state for each in verify_record(path).files] == ["whole"]
    with Recording.open(recording_of(path)) as recording:
        assert recording.count("frequency") > 0
        rose = [event for event in recording.events(-1e9, 1e9) if event.subject == "running"]
        assert rose, "what happened is in it, too"
    assert record.real_time is real_time


def test_without_a_file_nothing_is_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    assert run_of(None).run(coverage=lambda: {"screens": 3}).coverage == {"screens": 3}
    assert list(tmp_path.iterdir()) == []


def test_only_the_cases_that_are_named_are_run() -> None:
    record = run_of(None, only=["a trip is shown"]).run()
    assert [case.name for case in record.cases] == ["a trip is shown"]


def test_a_recording_that_is_there_is_not_written_over_and_leaves_no_journal(tmp_path: Path) -> None:
    path = tmp_path / "pump.trial.json"
    recording_of(path).write_bytes(b"curves of another run")
    with pytest.raises(CannotRecord):
        run_of(path)
    assert [file.name for file in tmp_path.iterdir()] == ["pump.trial.fanrec"]


def test_a_record_that_cannot_be_written_leaves_the_journal(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A full disk: what was seen is not lost with it."""

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    run = run_of(tmp_path / "pump.trial.json")
    monkeypatch.setattr("app.trial_record.record.write_whole", full)
    with pytest.raises(CannotUseRecord, match="No space left on device"):
        run.run()
    assert (tmp_path / "pump.trial.json.part").exists()


def test_stopping_ends_it_with_what_was_seen_and_says_so() -> None:
    run = run_of(None)

    class Impatient(Watcher):
        def step_ends(self, index: int, outcome: StepOutcome) -> None:
            if index == 1:
                run.stop()

    run = TrialRun(trial_in(PUMP), demo("booster-pump"), RehearsedStand(demo("booster-pump")), Tester(), [Impatient()])
    record = run.run()
    assert record.result is Verdict.UNFINISHED
    assert [case.name for case in record.cases] == ["it runs and stops", "a trip is shown"]


def test_all_who_watch_are_told() -> None:
    told: list[str] = []

    class Ear(Watcher):
        def __init__(self, name: str) -> None:
            self.name = name

        def case_ends(self, index: int, outcome: CaseOutcome) -> None:
            told.append(f"{self.name} {index} {outcome.name}")

        def asked(self, question: PersonAsked | None) -> None:
            told.append(f"{self.name} {question.kind if question else 'answered'}")

    both = Watchers([Ear("a"), Ear("b")])
    both.case_ends(2, CaseOutcome("one", ()))
    both.asked(PersonAsked("ask", "one", "Does it stand still?"))
    both.asked(None)
    assert told == ["a 2 one", "b 2 one", "a ask", "b ask", "a answered", "b answered"]


def test_exceptions_stay_with_the_record(tmp_path: Path) -> None:
    project = demo("booster-pump")
    record = TrialRun(trial_in(PUMP), project, RehearsedStand(project), record=tmp_path / "r.trial.json").run()
    assert record.result is Verdict.NOT_PASSED
    accepted = replace(record).accepting("what only a person sees", "M. Tester", "no mains here")
    assert accepted.result is Verdict.WITH_EXCEPTIONS
