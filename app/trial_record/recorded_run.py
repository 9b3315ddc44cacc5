"""A run of a trial from its beginning to its record, with what is kept beside it: a journal, and a recording."""

from __future__ import annotations

import hashlib
import time
from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import replace
from datetime import UTC, datetime
from fractions import Fraction
from pathlib import Path
from typing import Any

from app.project.model import Project
from app.recording.clock import CivilClock
from app.recording.recorder import Recorder
from app.trial.outcome import CaseOutcome, PersonAsked, StepOutcome
from app.trial.runner import ANSWER_S, KilledRun, Person, Runner, Watcher
from app.trial.script import Case, Trial
from app.trial.stand import Stand
from app.trial_record.journal import Journal
from app.trial_record.record import (
    Circumstances,
    FileUsed,
    TrialRecord,
    record_head,
    record_of,
    recording_of,
    save_record,
)


class Watchers(Watcher):
    """Several that watch one run."""

    def __init__(self, watchers: Iterable[Watcher]) -> None:
        self._watchers = tuple(watchers)

    def case_begins(self, index: int, case: Case, before: Mapping[str, Fraction]) -> None:
        """Tell all of them."""
        for each in self._watchers:
            each.case_begins(index, case, before)

    def step_begins(self, index: int, part: Any, number: int, words: str) -> None:
        """Tell all of them."""
        for each in self._watchers:
            each.step_begins(index, part, number, words)

    def step_ends(self, index: int, outcome: StepOutcome) -> None:
        """Tell all of them."""
        for each in self._watchers:
            each.step_ends(index, outcome)

    def case_ends(self, index: int, outcome: CaseOutcome) -> None:
        """Tell all of them."""
        for each in self._watchers:
            each.case_ends(index, outcome)

    def asked(self, question: PersonAsked | None) -> None:
        """Tell all of them."""
        for each in self._watchers:
            each.asked(question)


class TrialRun:
    """One run. `run` waits in the thread that calls it; another thread may `stop` it."""

    def __init__(
        self,
        trial: Trial,
        project: Project,
        stand: Stand,
        person: Person | None = None,
        watchers: Iterable[Watcher] = (),
        *,
        around: Circumstances | None = None,
        record: Path | None = None,
        only: Collection[str] = (),
        answer_s: float = ANSWER_S,
        unfinished: KilledRun | None = None,
    ) -> None:
        """Prepare a run whose record goes to `record`, and nowhere if None. `unfinished` as of the Runner.

        Raises CannotUseRecord or CannotRecord if the files beside it cannot be made.
        """
        self._trial, self._project, self._stand = trial, project, stand
        self._around = around or Circumstances()
        self._path = record
        self._journal: Journal | None = None
        self._recorder: Recorder | None = None
        watching = list(watchers)
        if record is not None:
            head = record_head(trial, project, self._around, simulated=stand.simulated, began=datetime.now(UTC))
            self._journal = Journal(record, head)
            try:
                self._recorder = self._begin_recording(record)
            except BaseException:
                self._journal.close(over=True)
                raise
            watching.insert(0, self._journal)
        self._runner = Runner(
            trial, stand, person, Watchers(watching), only=only, answer_s=answer_s, unfinished=unfinished
        )

    @property
    def cases(self) -> tuple[Case, ...]:
        """The cases that are run, in order."""
        return self._runner.cases

    @property
    def trouble(self) -> str:
        """What of the files beside the record could not be written, in words; empty if nothing."""
        found = [self._journal.trouble if self._journal is not None else ""]
        if self._recorder is not None:
            found.append(self._recorder.progress.trouble)
        return "; ".join(filter(None, found))

    def stop(self) -> None:
        """End the run as soon as may be, from any thread; what is to be cleaned up is."""
        self._runner.stop()

    def run(self, *, coverage: Callable[[], Mapping[str, Any]] = dict) -> TrialRecord:
        """Run it, and write the record. Raises FanlightError if nothing could be run, CannotUseRecord if not written.

        `coverage` is asked when the run is over.
        """
        record: TrialRecord | None = None
        try:
            outcome = self._runner.run()
            record = record_of(outcome, self._trial, self._project, self._around)
            recordings = self._end_recording()
            record = replace(record, coverage=dict(coverage()), recordings=recordings)
            if self._path is not None:
                save_record(record, self._path)
        finally:
            self._end_recording()
            if self._journal is not None:
                self._journal.close(over=record is not None and self._path is not None and self._path.exists())
        return record

    # The recording

    def _begin_recording(self, record: Path) -> Recorder:
        stand = self._stand
        clock = CivilClock()
        if not stand.real_time:
            begin = time.time() - stand.now()
            clock = CivilClock(stand.now, lambda: begin + stand.now())
        # The panel of the first case is not there yet: it begins where every panel begins.
        recorder = Recorder(recording_of(record), self._project, stand.samples, clock=clock)

        def hear(events: list[Any]) -> None:
            for event in events:
                recorder.event(event)

        stand.heard.append(hear)
        return recorder

    def _end_recording(self) -> tuple[FileUsed, ...]:
        recorder, self._recorder = self._recorder, None
        if recorder is None:
            return ()
        path = recorder.stop().path
        if not path.exists():
            return ()
        with path.open("rb") as file:
            return (FileUsed(path.name, "", hashlib.file_digest(file, "sha256").hexdigest()),)
