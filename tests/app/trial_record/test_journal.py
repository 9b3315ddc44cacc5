"""What is left of a run that was killed: its record so far, and what had not been put back."""

from __future__ import annotations

import signal
import subprocess
import sys
from fractions import Fraction
from pathlib import Path

import pytest

from app.trial.outcome import Result, Verdict
from app.trial.runner import Runner, Watcher
from app.trial.stand import RehearsedStand
from app.trial_record.journal import Journal, journal_of, leftover
from app.trial_record.record import CannotUseRecord, record_bytes, record_in
from projects import demo_path
from tests.app.trial.trials import PUMP, trial_in
from tests.app.trial_record.test_record import made
from tests.builders import demo
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
    assert again.returncode == 2, "the recording of the killed run is not written over"
    assert "an earlier run was not ended; its record so far is" in again.stderr
    assert "it ended in the case 'it runs and stops'" in again.stderr
    (kept,) = tmp_path.glob("r.trial unfinished *.json")
    assert record_in(kept.read_bytes()).result is Verdict.UNFINISHED
    assert not journal_of(record).exists()
