"""What a trial comes to: the worst of what is in it, and who accepts what."""

from __future__ import annotations

import pytest

from app.trial.outcome import CaseOutcome, Exempted, Result, StepOutcome, Verdict, verdict_of, worst

FAIL, BLOCKED, NOT_TESTED, PASS = Result.FAIL, Result.BLOCKED, Result.NOT_TESTED, Result.PASS


def steps(*results: Result) -> tuple[StepOutcome, ...]:
    return tuple(StepOutcome(number, "step", "", result, f"why {result}") for number, result in enumerate(results, 1))


@pytest.mark.parametrize(
    ("results", "expected"),
    [
        ([], PASS),
        ([PASS, NOT_TESTED], NOT_TESTED),
        ([NOT_TESTED, BLOCKED, PASS], BLOCKED),
        ([BLOCKED, FAIL, NOT_TESTED], FAIL),
    ],
)
def test_the_worst_counts(results: list[Result], expected: Result) -> None:
    assert worst(results) is expected


def test_a_case_without_a_step_proves_nothing() -> None:
    assert CaseOutcome("it", ()).result is NOT_TESTED


def test_a_case_that_left_something_behind_has_not_passed() -> None:
    left = CaseOutcome("it", steps(PASS), not_restored=("'level' was written",))
    assert (left.result, left.reason) == (BLOCKED, "'level' was written")
    assert CaseOutcome("it", steps(PASS), stopped=True).result is BLOCKED


def test_the_reason_of_a_case_is_that_of_its_worst_step() -> None:
    assert CaseOutcome("it", steps(NOT_TESTED, FAIL)).reason == f"why {FAIL}"


def test_exceptions_need_a_name_and_a_reason_for_every_case_that_did_not_pass() -> None:
    results = [("a", PASS), ("b", FAIL), ("c", BLOCKED)]
    both = [Exempted("b", "Ada", "spare part is ordered"), Exempted("c", "Ada", "next week")]
    assert verdict_of(results, both, finished=True) is Verdict.WITH_EXCEPTIONS
    assert verdict_of(results, both[:1], finished=True) is Verdict.NOT_PASSED
    assert verdict_of(results, [both[0], Exempted("c", " ", "next week")], finished=True) is Verdict.NOT_PASSED
    assert verdict_of(results, both, finished=False) is Verdict.UNFINISHED


def test_nothing_run_is_not_passed() -> None:
    assert verdict_of([], (), finished=True) is Verdict.UNFINISHED
    assert verdict_of([("a", PASS)], (), finished=True) is Verdict.PASSED
