"""What is kept of a run while it runs, so that a program that is killed leaves a record that can be read.

One line of JSON each: the head of the record, then what begins and ends. Every line is handed to the system at once,
and brought down to the drive with each case. When the run is over the record takes its place.
"""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from fractions import Fraction
from pathlib import Path
from typing import Any, Final, TextIO

from pydantic import ValidationError

from app.language import mark
from app.trial.outcome import CaseOutcome, PersonAsked, StepOutcome
from app.trial.runner import KilledRun, Watcher
from app.trial.script import Case
from app.trial_record.record import (
    CannotUseRecord,
    FileUsed,
    TrialRecord,
    plain,
    read_record,
    record_from,
    recording_of,
    save_record,
)

ENDING: Final = ".part"
"""Behind the name of a record: what is kept of a run that is not over."""


def journal_of(record: str | os.PathLike[str]) -> Path:
    """Where a run is kept whose record will be this file."""
    path = Path(record)
    return path.with_name(path.name + ENDING)


class Journal(Watcher):
    """Keeps a run as it goes on. What cannot be kept does not end the run: `trouble` says what it was."""

    def __init__(self, record: str | os.PathLike[str], head: TrialRecord) -> None:
        """Begin to keep a run. Raises CannotUseRecord if the file cannot be made, or if another run is kept there."""
        self.path = journal_of(record)
        self.trouble = ""
        try:
            self._file: TextIO = self.path.open("x", encoding="utf-8", newline="\n")
        except FileExistsError:
            raise CannotUseRecord(
                mark("trial", "a run that was not ended is kept in {file}; look at it, then delete it"), file=self.path
            ) from None
        except OSError as why:
            raise CannotUseRecord(
                mark("trial", "{file} cannot be written: {why}"), file=self.path, why=why.strerror or str(why)
            ) from None
        self._write({"head": plain(head)}, lasting=True)

    def case_begins(self, index: int, case: Case, before: Mapping[str, Fraction]) -> None:
        """Keep what would have to be put back."""
        self._write({"case": index, "name": case.name, "before": plain(before)}, lasting=True)

    def step_ends(self, index: int, outcome: StepOutcome) -> None:
        """Keep a step."""
        self._write({"case": index, "step": plain(outcome)})

    def case_ends(self, index: int, outcome: CaseOutcome) -> None:
        """Keep a case."""
        self._write({"case": index, "outcome": plain(outcome)}, lasting=True)

    def asked(self, question: PersonAsked | None) -> None:
        """Nothing of that is kept: the step has the answer."""

    def close(self, *, over: bool) -> None:
        """Keep no more; with `over` the record is written, and this is no longer needed."""
        self._file.close()
        if over and not self.trouble:
            self.path.unlink(missing_ok=True)

    def _write(self, line: Mapping[str, Any], *, lasting: bool = False) -> None:
        try:
            self._file.write(json.dumps(line, ensure_ascii=False, sort_keys=True) + "\n")
            self._file.flush()
            if lasting:
                os.fsync(self._file.fileno())
        except OSError as why:
            self.trouble = why.strerror or str(why)


@dataclass(frozen=True, slots=True)
class Leftover:
    """What a run that was not ended has left: its record so far, and what its last case had not put back yet."""

    record: TrialRecord
    case: str
    """The case in which it ended; empty if between two."""
    before: Mapping[str, Fraction]


def leftover(record: str | os.PathLike[str]) -> Leftover | None:
    """What is kept of a run whose record would be this file; None if nothing is. Raises CannotUseRecord."""
    path = journal_of(record)
    if not path.exists():
        return None
    head: TrialRecord | None = None
    cases: list[CaseOutcome] = []
    name, began = "", 0.0
    before: dict[str, Fraction] = {}
    steps: list[Any] = []
    for number, text in enumerate(read_record(path).decode("utf-8", "replace").splitlines(), 1):
        try:
            line = json.loads(text)
            if "head" in line:
                head = record_from(line["head"])
            elif "outcome" in line:
                cases += _cases(line["outcome"])
                name, steps, before = "", [], {}
            elif "step" in line:
                steps.append(line["step"])
            else:
                name = str(line["name"])
                before = {signal: Fraction(value) for signal, value in line["before"].items()}
        except (ValueError, KeyError, TypeError, AttributeError, ValidationError):
            if head is None:
                raise CannotUseRecord(
                    mark("trial", "{file}, line {number}: this is not what is kept of a trial"),
                    file=path,
                    number=number,
                ) from None
            break  # the line that was being written as the program ended
    if head is None:
        raise CannotUseRecord(mark("trial", "{file} is empty"), file=path)
    if name:
        cases += _cases({"name": name, "steps": steps, "at_s": str(began), "stopped": True})
    last = max((step.at for case in cases for step in case.steps if step.at is not None), default=head.began)
    return Leftover(_unfinished(head, cases, last), name, before)


def set_aside(record: Path) -> tuple[Path, KilledRun | None] | None:
    """Make room for another run of a record whose run was killed: what is kept becomes an unfinished record beside it.

    Gives that record, and what it had not cleaned up; None if nothing is kept. Raises CannotUseRecord.
    """
    left = leftover(record)
    if left is None:
        return None
    stem = record.name.removesuffix(".json")
    aside = record.with_name(f"{stem} unfinished {left.record.began:%Y-%m-%d %H%M%S}.json")
    curves = recording_of(record)
    kept = left.record
    if curves.exists():
        try:
            moved = curves.replace(recording_of(aside))
        except OSError as why:
            raise CannotUseRecord(
                mark("trial", "{file} cannot be moved: {why}"), file=curves, why=why.strerror or str(why)
            ) from None
        with moved.open("rb") as file:
            digest = hashlib.file_digest(file, "sha256").hexdigest()
        kept = replace(kept, recordings=(FileUsed(moved.name, "", digest),))
    save_record(kept, aside)
    journal_of(record).unlink()
    return aside, KilledRun(left.case, left.before) if left.case else None


def _unfinished(head: TrialRecord, cases: list[CaseOutcome], last: datetime) -> TrialRecord:
    took = max((case.at_s + case.took_s for case in cases), default=0.0)
    return replace(head, cases=tuple(cases), ended=last, finished=False, took_s=took).judged()


def _cases(table: object) -> tuple[CaseOutcome, ...]:
    from pydantic import TypeAdapter

    return (TypeAdapter(CaseOutcome).validate_python(table),)
