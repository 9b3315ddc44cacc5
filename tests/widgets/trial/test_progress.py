"""How far a run is, in blocks, in numbers and in time."""

from __future__ import annotations

import pytest

from app.trial.outcome import Result
from tests.app.trial.trials import trial_in
from widgets.trial.progress import HOLLOW, MOST_BLOCKS, NOW, ProgressBlock, RunProgress, blocks_of, planned_of


def cases(count: int, steps: int, wait: float = 1.0) -> str:
    step = f"[[case.step]]\nwait = {wait}\n"
    return "format = 1\n" + "".join(f'[[case]]\nname = "case {number}"\n{steps * step}' for number in range(count))


class Clock:
    def __init__(self) -> None:
        self.now = 100.0

    def __call__(self) -> float:
        return self.now


@pytest.fixture
def clock() -> Clock:
    return Clock()


def begun(text: str, clock: Clock) -> RunProgress:
    made = RunProgress(clock=clock)
    made.begin(trial_in(text).expanded)
    return made


def test_each_step_has_a_block_that_tells_its_result(clock: Clock) -> None:
    progress = begun(cases(2, 3), clock)
    progress.end_step("case 0", Result.PASS)
    progress.end_step("case 0", Result.FAIL)
    assert (progress.done, progress.total) == (2, 6)
    assert blocks_of(progress, running=True) == [
        ProgressBlock("good"),
        ProgressBlock("fault", tall=True),
        NOW,
        *3 * [HOLLOW],
    ]
    assert NOW not in blocks_of(progress, running=False)


def test_many_steps_have_a_block_a_case_and_many_cases_one_for_several_which_is_as_the_worst(clock: Clock) -> None:
    progress = begun(cases(10, 50), clock)
    progress.of_cases["case 0"] = Result.PASS
    assert blocks_of(progress, running=True)[:3] == [ProgressBlock("good"), NOW, HOLLOW]
    many = begun(cases(3 * MOST_BLOCKS, 2), clock)
    many.of_cases |= {"case 0": Result.PASS, "case 1": Result.BLOCKED, "case 2": Result.PASS}
    blocks = blocks_of(many, running=True)
    assert len(blocks) == MOST_BLOCKS
    assert blocks[:3] == [ProgressBlock("caution", tall=True), NOW, HOLLOW]


def test_the_time_left_follows_the_pace_of_the_run_without_the_time_of_a_person(clock: Clock) -> None:
    progress = begun(cases(1, 10, 2.0), clock)
    assert progress.left_s() is None
    planned = planned_of(trial_in(cases(1, 10, 2.0)).expanded[0])
    clock.now += 8.0
    for _ in range(2):
        progress.end_step("case 0", Result.PASS)
    left = progress.left_s()
    assert left == pytest.approx(8 * 8.0 / 2, rel=1e-6)  # two of ten steps took 8 s
    progress.ask(True)
    clock.now += 1000
    assert progress.left_s() == pytest.approx(left)
    progress.ask(False)
    assert progress.left_s() == pytest.approx(left)
    assert planned == pytest.approx(20.4)
