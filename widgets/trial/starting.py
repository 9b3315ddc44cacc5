"""Where a trial is run, and everything that must be asked before it is run there."""

from __future__ import annotations

import enum
from collections.abc import Callable, Collection
from dataclasses import replace
from datetime import datetime
from pathlib import Path
from typing import Final

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QLineEdit, QWidget

from app.client.endpoint import Endpoint
from app.errors import FanlightError
from app.project.model import Project
from app.trial.runner import KilledRun
from app.trial.script import Case
from app.trial.stand import RehearsedStand, SessionStand, Stand
from app.trial_record.record import CannotUseRecord, Circumstances
from widgets.document.document import Document
from widgets.document.settings import Settings
from widgets.frame.connecting import REAL, SIMULATED, Connecting
from widgets.kit.dialogs.dialog import Dialog
from widgets.kit.dialogs.questions import Question
from widgets.live.live_session import LentLines
from widgets.trial.opened import OpenTrial
from widgets.trial.records import killed_runs, put_aside, usual_record
from widgets.trial.run_model import RunningTrial, RunPlan


class TrialTarget(enum.Enum):
    """What a trial is run against."""

    MODELS = "models"
    """Simulated devices in a time of their own, at once."""
    SIMULATED = "simulated"
    """The same in real time, by way of a line."""
    REAL = "real"
    """Whatever is on the lines of the project."""

    @property
    def simulated(self) -> bool:
        """Whether nothing real can move."""
        return self is not TrialTarget.REAL


class TesterDialog(Dialog):
    """Who runs trials, and where: that stands in every record."""

    def __init__(self, tester: tuple[str, str], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.tell(
            self.tr("Who tests?"),
            self.tr("Name and place stand in the record of every run and with every answer. They are asked only once."),
        )
        self.name, self.place = QLineEdit(tester[0]), QLineEdit(tester[1])
        self.place.setPlaceholderText(self.tr("e.g. workshop, or the place of the machine"))
        self.add_row(self.tr("&Name"), self.name)
        self.add_row(self.tr("&Place"), self.place)
        deed = self.add_deed(self.tr("&Accept"))
        self.add_cancel()
        self.name.textChanged.connect(lambda text: deed.setEnabled(bool(text.strip())))
        deed.setEnabled(bool(tester[0].strip()))
        self.name.setFocus()

    @property
    def tester(self) -> tuple[str, str]:
        """Name and place."""
        return self.name.text().strip(), self.place.text().strip()


ARMED, LOCKED = "armed", "locked"
"""How a trial is run on a real line: it may write, or it only reads."""
_MAKERS: Final[dict[TrialTarget, Callable[[Project], Stand]]] = {
    TrialTarget.MODELS: RehearsedStand,
    TrialTarget.SIMULATED: lambda project: SessionStand(project, "simulated"),
}


class Starting(QObject):
    """Starts runs for a window, and has nothing else use the lines of the project meanwhile."""

    def __init__(self, window: QWidget, connecting: Connecting, settings: Settings, run: RunningTrial) -> None:
        super().__init__(window)
        self._window = window
        self._connecting = connecting
        self._settings = settings
        self._run = run
        self.against = TrialTarget.MODELS
        run.ended.connect(self._give_back)
        run.armed_changed.connect(self._lend)
        self._endpoints: dict[str, Endpoint] = {}
        connecting.hindrances.append(self._hinders)

    def take_over(self, former: Starting) -> None:
        """Go on with what another one has started."""
        self.against = former.against
        self._endpoints, former._endpoints = former._endpoints, {}
        self._lend()

    def tester(self, *, again: bool = False) -> tuple[str, str] | None:
        """Who tests; asked if it is not known, or `again`. None if nobody said."""
        known = self._settings.tester
        if known[0] and not again:
            return known
        dialog = TesterDialog(known, self._window)
        told = dialog.tester if dialog.exec() else None
        dialog.deleteLater()
        if told is not None:
            self._settings.tester = told
        return told

    def start(self, opened: OpenTrial, document: Document, only: Collection[str] = ()) -> str | None:
        """Run cases, all if none is named, after everything that must be asked.

        Gives why not, empty where a person decided against it; None if it has begun.
        """
        if self._run.running:
            return ""
        cases = [case for case in opened.cases if not only or case.name in only]
        if not any(case.is_on(simulated=self.against.simulated) for case in cases):
            return self.tr("None of these cases is run against what is chosen. Choose another target above.")
        tester = self.tester()
        if tester is None:
            return ""
        project = document.project
        file = "" if document.path is None else document.path.name
        around = Circumstances(*tester, file, opened.path.name)
        plan = RunPlan(opened.trial, project, lambda: _MAKERS[self.against](project), only, around)
        if self.against.simulated:
            self._run.start(plan)
            return None
        return self._start_real(plan, opened.path, cases)

    def _start_real(self, plan: RunPlan, file: Path, cases: list[Case]) -> str | None:
        project = plan.project
        if why := self._connecting.hindrance(REAL):
            return why
        if not project.lines:
            return self.tr("The project has no line. Add one in Design.")
        try:
            endpoints = {line.name: Endpoint.of_line(line) for line in project.lines}
        except FanlightError as error:
            return str(error)
        if not self._line_is_free():
            return ""
        how = self._how(cases)
        if how is None or (how == ARMED and not self._connecting.takes_cautions(project, endpoints)):
            return ""
        try:
            # A run that writes nothing could not clean up, and would take away what tells of it.
            unfinished = self._left_by_killed_runs(file) if how == ARMED else None
        except CannotUseRecord as why:
            return str(why)
        self._endpoints = endpoints
        self._run.start(
            replace(
                plan,
                make_stand=lambda: SessionStand(project, None, armed=how == ARMED),
                around=replace(plan.around, endpoints=endpoints),
                record=usual_record(file, datetime.now()),
                unfinished=unfinished,
                identify=True,
            )
        )
        self._lend()
        return None

    def _left_by_killed_runs(self, file: Path) -> KilledRun | None:
        """Keep the records of earlier runs that were not ended, if somebody says so, and clean up after the newest."""
        killed = killed_runs(file)
        if not killed:
            return None
        question = Question(
            self._window,
            "caution",
            self.tr("An earlier run was not ended"),
            self.tr("Clean up after it first?"),
            self.tr(
                "The program ended while {file} was made, so a case at the device may not have been cleaned up. Its "
                "record so far is kept as an unfinished one. Leave it alone if that run goes on in another window."
            ).format(file=killed[-1].name),
        )
        if not question.ask(((self.tr("&Clean up"), True),), False):
            return None
        return put_aside(killed)

    def _line_is_free(self) -> bool:
        """Whether the window has no session on the line; offers to end it."""
        live = self._connecting.live
        if not live.connected:
            return True
        question = Question(
            self._window,
            "asks",
            self.tr("This project is connected"),
            self.tr("Disconnect it and run the trial?"),
            self.tr("The panel on the Bench and the trial cannot both operate it."),
        )
        if question.ask(((self.tr("&Disconnect and go on"), True),), False, enter=True):
            self._connecting.disconnect_line()
        return not live.connected

    def _how(self, cases: list[Case]) -> str | None:
        """Whether it is armed; None if it is not run at all."""
        moving = sum(case.moves for case in cases if case.is_on(simulated=False))
        words = self.tr(
            "Armed, the trial presses keys that write to the real line; {count} of its cases can move the machine, and "
            "each of these asks before it begins. Without writing it only reads: what needs a write does not pass."
        )
        return Question(
            self._window,
            "caution",
            self.tr("Trial on the real line"),
            self.tr("Run the trial on the real line?"),
            words.format(count=moving),
        ).ask(((self.tr("&Arm and run\u2026"), ARMED), (self.tr("Run without &writing"), LOCKED)), None)

    # While it runs

    def _hinders(self, where: int) -> str:
        """Why nothing can be connected now: while a trial is at the machine, one thing is in charge, and no other."""
        if not self._run.running or not self._endpoints:
            return ""
        assert where in (SIMULATED, REAL)
        return self.tr("A trial runs on the real line. Stop it first, then connect.")

    def _lend(self) -> None:
        if self._run.running and self._endpoints:
            self._connecting.live.lend(LentLines(self._endpoints, self._run.armed, self._run.disarm))

    def _give_back(self) -> None:
        self._endpoints = {}
        self._connecting.live.lend(None)
