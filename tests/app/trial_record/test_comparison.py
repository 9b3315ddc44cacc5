"""What differs between two records: what passed before and does not now, above all."""

from __future__ import annotations

from dataclasses import replace

from app.trial.outcome import CaseOutcome, Result, StepOutcome
from app.trial_record.comparison import RecordDifference, compare_records
from tests.app.trial_record.test_record import made


def case(name: str, *results: Result, words: str = "press start") -> CaseOutcome:
    steps = [StepOutcome(n, "step", words, result, str(result)) for n, result in enumerate(results, 1)]
    return CaseOutcome(name, tuple(steps))


def test_equal_records_do_not_differ() -> None:
    record = made()
    assert compare_records(record, record) == ()


def test_steps_and_cases_that_are_others_are_told() -> None:
    before = replace(made(), cases=(case("a", Result.PASS, Result.PASS), case("gone", Result.PASS)))
    after = replace(made(), cases=(case("new", Result.FAIL), case("a", Result.PASS, Result.FAIL)))
    found = compare_records(before, after)
    assert found == (
        RecordDifference("new", "", None, Result.FAIL, "", "fail"),
        RecordDifference("a", "press start", Result.PASS, Result.FAIL, "pass", "fail"),
        RecordDifference("gone", "", Result.PASS, None, "", ""),
    )
    assert [each.worse for each in found] == [False, True, True]


def test_a_step_that_does_something_else_is_another_step() -> None:
    before = replace(made(), cases=(case("a", Result.PASS),))
    after = replace(made(), cases=(case("a", Result.PASS, words="press stop"),))
    assert [(each.words, each.before, each.after) for each in compare_records(before, after)] == [
        ("press stop", None, Result.PASS),
        ("press start", Result.PASS, None),
    ]
