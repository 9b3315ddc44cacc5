"""What is left of a run that was killed: its record so far, and what had not been put back."""

from __future__ import annotations

import signal
import subprocess
import sys
from fractions import Fraction
from pathlib import Path

import pytest

from app.project_file.files import save
from app.trial.outcome import Result, Verdict
from app.trial.runner import Runner, Watcher
from app.trial.stand import RehearsedStand
from app.trial_record.journal import Journal, journal_of, leftover
from app.trial_record.record import CannotUseRecord, record_bytes, record_in
from app.trial_record.verifying import verify_record
from projects import demo_path
from tests.app.trial.trials import PUMP, trial_in
from tests.app.trial_record.test_record import made
from tests.builders import demo
from tests.counting_device import CountingDevice
from tests.outside.test_trial_at_a_device import CASE, PROJECT
from tests.waiting import wait_for


def test_the_record_so_far_is_that_of_a_run_that_was_not_finished(tmp_path: Path) -> None:
    journal = Journal(tmp_path / "r.trial.json", made())

    class Killed(Watcher):
        def step_begins(self, index: int, part: str, number: int, words: str) -> None:
            if (index, part, number) == (1, "step", 2):
                raise KeyboardInterrupt

    from app.trial_record.recorded_run import Watchers

    with pytest.raises(KeyboardInterrupt):
        Runner(trial_in(PUMP), RehearsedStand(demo("booster-pump")), None, Watchers([journal, Killed()])).run()
    journal.close(over=False)
    left = leftover(tmp_path / "r.trial.json")
    assert left is not None
    assert left.case == "a trip is shown"
    assert left.before["speed set point"] == Fraction("41.65")
    assert left.record.result is Verdict.UNFINISHED
    assert [case.result for case in left.record.cases] == [Result.PASS, Result.BLOCKED]
    assert [step.words for step in left.record.cases[1].steps] == ["simulated: pump.external-fault=on"]
    assert record_in(record_bytes(left.record)).finished is False


def test_what_was_cut_in_the_middle_of_a_line_is_left_out(tmp_path: Path) -> None:
    record = tmp_path / "r.trial.json"
    journal = Journal(record, made())
    Runner(trial_in(PUMP), RehearsedStand(demo("booster-pump")), None, journal).run()
    journal.close(over=False)
    whole = journal_of(record).read_bytes()
    seen = set()
    for length in range(len(whole.splitlines()[0]) + 1, len(whole), 97):
        journal_of(record).write_bytes(whole[:length])
        left = leftover(record)
        assert left is not None
        seen.add(len(left.record.cases))
    assert seen == {0, 1, 2, 3}


def test_two_runs_do_not_share_a_record_and_a_run_that_is_over_leaves_nothing(tmp_path: Path) -> None:
    journal = Journal(tmp_path / "r.trial.json", made())
    with pytest.raises(CannotUseRecord, match="a run that was not ended is kept in"):
        Journal(tmp_path / "r.trial.json", made())
    journal.close(over=True)
    assert list(tmp_path.iterdir()) == []
    assert leftover(tmp_path / "r.trial.json") is None
    with pytest.raises(CannotUseRecord, match="cannot be written"):
        Journal(tmp_path / "no" / "r.trial.json", made())


@pytest.mark.parametrize("content", [b"", b"a text\n", b'{"head": {}}\n'])
def test_what_is_no_journal_is_refused_in_words(content: bytes, tmp_path: Path) -> None:
    journal_of(tmp_path / "r.trial.json").write_bytes(content)
    with pytest.raises(CannotUseRecord, match=r"r\.trial\.json\.part"):
        leftover(tmp_path / "r.trial.json")


@pytest.mark.skipif(sys.platform == "win32", reason="kills as POSIX does")
def test_a_run_that_is_killed_is_told_and_kept_at_the_next_start(tmp_path: Path) -> None:
    """By the command, in real time, with kill -9 in a case: nothing is left to tell of it but the files."""
    (tmp_path / "t.trial.toml").write_text(
        PUMP.replace('key = "start"\n', 'key = "start"\n[[case.step]]\nwait = 60\n', 1), encoding="utf-8"
    )
    record = tmp_path / "r.trial.json"
    words = [sys.executable, "-m", "app", "trial", str(demo_path("booster-pump")), str(tmp_path / "t.trial.toml")]
    run = subprocess.Popen([*words, "--via", "simulated", "--real-time", "--record", str(record)])
    try:
        wait_for(lambda: journal_of(record).exists() and '"press start"' in journal_of(record).read_text(), 30)
    finally:
        run.send_signal(signal.SIGKILL)
        run.wait()
    again = subprocess.run(
        [*words, "--via", "simulated", "--case", "a trip is shown", "--record", str(tmp_path / "r.trial.json")],
        capture_output=True,
        text=True,
        check=False,
    )
    assert again.returncode == 0, again.stderr
    assert "an earlier run was not ended; its record so far is" in again.stderr
    assert "it ended in the case 'it runs and stops'" in again.stderr
    (kept,) = tmp_path.glob("r.trial unfinished *.json")
    unfinished = record_in(kept.read_bytes())
    assert unfinished.result is Verdict.UNFINISHED
    assert [file.state for file in verify_record(kept).files] == ["whole"], "its curves are kept with it"
    assert not journal_of(record).exists()
    assert [case.name for case in record_in(record.read_bytes()).cases] == ["a trip is shown"]


@pytest.mark.skipif(sys.platform == "win32", reason="kills as POSIX does")
def test_what_a_killed_run_has_changed_at_a_device_is_put_back_by_the_next(tmp_path: Path) -> None:
    """The device's own log: 7 by the run that was killed, 0 by the next one, once somebody had agreed."""
    save(PROJECT, tmp_path / "p.toml")
    (tmp_path / "t.trial.toml").write_text(CASE + "[[case.step]]\nwait = 60\n", encoding="utf-8")
    (tmp_path / "answers.toml").write_text("[[answer]]\nmay_move = true\n", encoding="utf-8")
    record = tmp_path / "r.trial.json"
    with CountingDevice() as device:
        words = [sys.executable, "-m", "app", "trial", str(tmp_path / "p.toml"), str(tmp_path / "t.trial.toml")]
        words += ["--armed", "--via", f"tcp://127.0.0.1:{device.port}", "--record", str(record)]
        words += ["--answers", str(tmp_path / "answers.toml")]
        run = subprocess.Popen(words)
        try:
            wait_for(lambda: journal_of(record).exists() and '"number": 3' in journal_of(record).read_text(), 60)
        finally:
            run.send_signal(signal.SIGKILL)
            run.wait()
        assert [value for _, value in device.taken] == [7]
        (tmp_path / "t.trial.toml").write_text(CASE, encoding="utf-8")
        for unfit in ([word for word in words if word != "--armed"], [*words, "--via", "simulated"]):
            refused = subprocess.run(unfit, capture_output=True, text=True, check=False)
            assert refused.returncode == 2, "it cannot put back what only the files of the killed run tell of"
            assert "ended in the case 'the set point arrives', which had not been cleaned up" in refused.stderr
        again = subprocess.run(words, capture_output=True, text=True, check=False)
        assert again.returncode == 0, again.stderr
        assert [value for _, value in device.taken] == [7, 0, 7, 0]
    first = record_in(record.read_bytes()).cases[0]
    assert first.name == "cleaning up after 'the set point arrives'"
    assert first.restored == ("'set point' is 0 again",)
