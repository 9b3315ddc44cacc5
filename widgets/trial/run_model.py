"""A trial that runs behind the window: in a thread of its own, which touches nothing of Qt.

That thread leaves frozen news in a queue; the window's thread takes them from time to time. What a person answers goes
the other way by one attribute.
"""

from __future__ import annotations

import sys
import threading
import time
from collections import deque
from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from pathlib import Path
from typing import Final

from PySide6.QtCore import QObject, QTimer, Signal

from app.errors import FanlightError
from app.panel.rendering import Rows
from app.project.model import Project
from app.trial.outcome import CaseOutcome, PersonAsked, Reply, StepOutcome, StepPlace
from app.trial.runner import KilledRun, Watcher
from app.trial.script import Case, Trial
from app.trial.stand import SessionStand, Stand
from app.trial_record.identify import identification
from app.trial_record.record import Circumstances, TrialRecord
from app.trial_record.recorded_run import TrialRun
from widgets.kit.dialogs.long_work import SWITCH_S

LOOKED_AFTER_MS: Final = 50
ROWS_EVERY_S: Final = 0.05
"""How often the rows of the panel are worked out: nobody sees more, and the time of models passes much quicker."""


@dataclass(frozen=True, slots=True)
class CaseBegins:
    """This case has begun."""

    case: str


@dataclass(frozen=True, slots=True)
class StepBegins:
    """This step of a case has begun."""

    case: str
    part: StepPlace
    number: int


@dataclass(frozen=True, slots=True)
class StepEnds:
    """So a step of a case has ended."""

    case: str
    outcome: StepOutcome


@dataclass(frozen=True, slots=True)
class CaseEnds:
    """So a case has ended."""

    outcome: CaseOutcome


RunNews = CaseBegins | StepBegins | StepEnds | CaseEnds


@dataclass(frozen=True, slots=True)
class RunPlan:
    """What is run, on what, and what its record says of it.

    `make_stand` is called in the thread of the run. `only` names the cases, all if it is empty. `record` is the file
    that the record goes to, with the curves beside it; None: the record is only handed on. `unfinished` is what an
    earlier run has not cleaned up. With `identify` the devices are asked first what they call themselves.
    """

    trial: Trial
    project: Project
    make_stand: Callable[[], Stand]
    only: Collection[str] = ()
    around: Circumstances = field(default_factory=Circumstances)
    record: Path | None = None
    unfinished: KilledRun | None = None
    identify: bool = False


class _AtWork(Watcher):
    """All of a run that belongs to its thread. The window only reads what stands here, and leaves a reply."""

    def __init__(self, plan: RunPlan) -> None:
        self.plan = plan
        self.news: deque[RunNews] = deque()
        self.rows: Rows | None = None
        self.armed: tuple[str, ...] = ()
        """The real lines that may be written to."""
        self.asked_now: PersonAsked | None = None
        self.replied: tuple[PersonAsked, Reply] | None = None
        self.record: TrialRecord | None = None
        self.why = ""
        """Why there is none, or what could not be written beside it."""
        self.stopped = False
        self._run: TrialRun | None = None
        self._stand: Stand | None = None
        self._waits_for: PersonAsked | None = None
        self._case = ""
        self._rows_at = 0.0
        self.thread = threading.Thread(target=self._work, name="fanlight-trial", daemon=True)

    # For the window

    def stop(self) -> None:
        """End the run."""
        self.stopped = True
        if self._run is not None:
            self._run.stop()

    def disarm(self) -> None:
        """Let nothing more be written, but stops."""
        if isinstance(self._stand, SessionStand):
            self._stand.disarm_for_good()

    # In the thread

    def _work(self) -> None:
        plan, around = self.plan, self.plan.around
        try:
            if plan.identify:
                around = replace(around, identification=identification(plan.project, around.endpoints))
            stand = self._stand = plan.make_stand()
            stand.ticked.append(self._look)
            run = self._run = TrialRun(
                plan.trial,
                plan.project,
                stand,
                self,
                [self],
                around=around,
                record=plan.record,
                only=plan.only,
                unfinished=plan.unfinished,
            )
            if self.stopped:
                run.stop()
            self.record = run.run()
            self.why = run.trouble
        except FanlightError as error:
            self.why = str(error)

    def _look(self) -> None:
        """Note now and then what the panel shows, and what may be written to."""
        now, stand = time.monotonic(), self._stand
        if stand is None or now - self._rows_at < ROWS_EVERY_S:
            return
        self._rows_at = now
        self._note_rows()
        if isinstance(stand, SessionStand) and not stand.simulated and stand.session.running:
            engine = stand.session.engine
            self.armed = tuple(line.name for line in stand.project.lines if engine.is_armed(line.name))

    def _note_rows(self) -> None:
        if self._stand is not None:
            self.rows = self._stand.panel.rows()

    def case_begins(self, index: int, case: Case, before: Mapping[str, Fraction]) -> None:  # noqa: ARG002
        self._case = case.name
        self.news.append(CaseBegins(case.name))

    def step_begins(self, index: int, part: StepPlace, number: int, words: str) -> None:  # noqa: ARG002
        self.news.append(StepBegins(self._case, part, number))

    def step_ends(self, index: int, outcome: StepOutcome) -> None:  # noqa: ARG002
        self.news.append(StepEnds(self._case, outcome))

    def case_ends(self, index: int, outcome: CaseOutcome) -> None:  # noqa: ARG002
        self._note_rows()
        self.news.append(CaseEnds(outcome))

    def asked(self, question: PersonAsked | None) -> None:
        self._note_rows()
        self.asked_now = question

    def ask(self, question: PersonAsked) -> None:
        """A question begins: what is answered to another one is no answer to it."""
        self._waits_for = question

    def answer(self) -> Reply | None:
        """What the person said to it."""
        replied = self.replied
        return replied[1] if replied is not None and replied[0] is self._waits_for else None


class RunningTrial(QObject):
    """One run at a time. Whatever it tells, it tells in the window's thread."""

    began = Signal()
    happened = Signal(object)
    """What happened since the last look, oldest first: a tuple of RunNews."""
    rows_changed = Signal(object)
    """The panel shows these `Rows` now."""
    asked = Signal(object)
    """A person is asked this `PersonAsked`, or nothing any more (None)."""
    armed_changed = Signal()
    """`armed` is another: a case that can move the machine begins or ends, a line was lost, or somebody disarmed."""
    stopping_changed = Signal()
    ended = Signal()
    """It is over: `record` says how, or `why` says why there is none."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.record: TrialRecord | None = None
        self.why = ""
        self.plan: RunPlan | None = None
        """Of the run that goes on, or was the last."""
        self.armed: tuple[str, ...] = ()
        """The real lines that may be written to."""
        self.question: PersonAsked | None = None
        """What a person is asked and has not answered yet."""
        self._asked: PersonAsked | None = None
        self._at_work: _AtWork | None = None
        self._rows: Rows | None = None
        self._looking = QTimer(self)
        self._looking.setInterval(LOOKED_AFTER_MS)
        self._looking.timeout.connect(self.look)

    @property
    def running(self) -> bool:
        """Whether a trial runs, or is being cleaned up after."""
        return self._at_work is not None

    @property
    def stopping(self) -> bool:
        """Whether it was told to stop and has not ended yet."""
        return self._at_work is not None and self._at_work.stopped

    def take_over(self, former: RunningTrial) -> None:
        """Go on with what runs in another one, which knows nothing of it any more."""
        former._looking.stop()
        self.record, self.why, self.armed, self.plan = former.record, former.why, former.armed, former.plan
        self._at_work, former._at_work = former._at_work, None
        if self._at_work is not None:
            self._looking.start()

    def start(self, plan: RunPlan) -> None:
        """Run this. Not while something else runs."""
        if self._at_work is not None:
            return
        self.record, self.why, self.armed, self.plan = None, "", (), plan
        self.question, self._asked, self._rows = None, None, None
        self._at_work = _AtWork(plan)
        sys.setswitchinterval(SWITCH_S)  # models compute without a pause
        self._at_work.thread.start()
        self._looking.start()
        self.began.emit()

    def stop(self) -> None:
        """End it as soon as may be: keys are let go, nothing more is started, what is to be cleaned up still is."""
        if self._at_work is not None and not self._at_work.stopped:
            self._at_work.stop()
            self.stopping_changed.emit()

    def disarm(self) -> None:
        """Write to no real line any more, at once, but for stops; and stop."""
        if self._at_work is not None:
            self._at_work.disarm()
        self.stop()

    def reply(self, reply: Reply) -> None:
        """The answer to the question that is asked now."""
        if self.question is not None and self._at_work is not None:
            self._at_work.replied = self.question, reply
            self.question = None
            self.asked.emit(None)

    def wait(self, seconds: float) -> bool:
        """Wait for the end of the run; whether it came."""
        if self._at_work is not None:
            self._at_work.thread.join(seconds)
        self.look()
        return not self.running

    def look(self) -> None:
        """Take what the thread has left."""
        at_work = self._at_work
        if at_work is None:
            return
        ended = not at_work.thread.is_alive()
        news = tuple(at_work.news.popleft() for _ in range(len(at_work.news)))
        if news:
            self.happened.emit(news)
        rows, question = at_work.rows, at_work.asked_now
        if rows is not None and rows is not self._rows:
            self._rows = rows
            self.rows_changed.emit(rows)
        if at_work.armed != self.armed:
            self.armed = at_work.armed
            self.armed_changed.emit()
        if question is not self._asked:
            self._asked = self.question = question
            self.asked.emit(question)
        if ended:
            self._looking.stop()
            self.record, self.why, self.armed = at_work.record, at_work.why, ()
            self._at_work = self.question = self._asked = None
            self.ended.emit()
