"""What differs between two records of a trial: before and after an update of the project or of a device."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from app.trial.outcome import CaseOutcome, Result, StepOutcome
from app.trial_record.record import TrialRecord


@dataclass(frozen=True, slots=True)
class RecordDifference:
    """One step of a case, or the case as a whole where only one of the records has it (then `words` is empty).

    Results are None on the side that has no such step.
    """

    case: str
    words: str
    before: Result | None
    after: Result | None
    found_before: str = ""
    found_after: str = ""

    @property
    def worse(self) -> bool:
        """Whether it passed before and does not now."""
        return self.before is Result.PASS and self.after is not Result.PASS


def compare_records(before: TrialRecord, after: TrialRecord) -> tuple[RecordDifference, ...]:
    """The steps whose result is another, or that only one has; in the order of the later record."""
    return tuple(_differences(before, after))


def _differences(before: TrialRecord, after: TrialRecord) -> Iterator[RecordDifference]:
    former = {case.name: case for case in before.cases}
    for case in after.cases:
        other = former.pop(case.name, None)
        if other is None:
            yield RecordDifference(case.name, "", None, case.result, "", case.reason)
        else:
            yield from _of_case(other, case)
    for case in former.values():
        yield RecordDifference(case.name, "", case.result, None, case.reason, "")


def _of_case(before: CaseOutcome, after: CaseOutcome) -> Iterator[RecordDifference]:
    former = {_key(before, step): step for step in before.steps}
    for step in after.steps:
        other = former.pop(_key(after, step), None)
        if other is None or other.result is not step.result:
            yield RecordDifference(
                after.name,
                step.words,
                None if other is None else other.result,
                step.result,
                "" if other is None else _found(other),
                _found(step),
            )
    for step in former.values():
        yield RecordDifference(after.name, step.words, step.result, None, _found(step), "")


def _key(case: CaseOutcome, step: StepOutcome) -> tuple[str, str, int]:
    """A step is the same if it does the same; of several that do, the first is compared with the first."""
    same = [other for other in case.steps if (other.part, other.words) == (step.part, step.words)]
    return step.part, step.words, next(at for at, other in enumerate(same) if other is step)


def _found(step: StepOutcome) -> str:
    return step.reason or step.found
