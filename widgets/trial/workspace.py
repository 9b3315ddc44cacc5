"""The Trial workspace: the cases of a trial with what came of them, and beside them the panel and its questions."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Sequence
from datetime import date
from pathlib import Path
from typing import Final

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QAction, QShowEvent
from PySide6.QtWidgets import (
    QApplication,
    QFileDialog,
    QMenu,
    QSplitter,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from app.errors import FanlightError
from app.panel.rendering import Rows
from app.project.model import Project
from app.project.problems import Problem
from app.proposing.propose import propose
from app.trial.outcome import Instrument, PersonAsked, Reply, Result, Verdict
from app.trial.script_file import ENDING, TrialFileError, save_trial, usual_place
from app.trial_record.record import DEVICE, TrialRecord
from widgets.document.document import Document
from widgets.document.problems import ProblemsDialog
from widgets.document.save_as import FileKind, where_to_save
from widgets.document.settings import Settings
from widgets.frame.connect_bar import real_words
from widgets.frame.connecting import Connecting
from widgets.frame.tool_row import ToolRow
from widgets.kit.background import GaveUp, run_with_wait_dialog
from widgets.kit.commands import Keys, allow, command
from widgets.kit.controls import push_button
from widgets.kit.dialogs.questions import Question
from widgets.kit.elided import ShortChoice
from widgets.kit.empty_state import EmptyState
from widgets.kit.icons import icon
from widgets.kit.notice_slot import NoticeSlot, SlotWork
from widgets.kit.plain import plain_label
from widgets.kit.scaling import scaled
from widgets.speech.voice import Urgency, voice
from widgets.trial.ask_page import AskedNow, AskPage
from widgets.trial.head import TrialHead
from widgets.trial.opened import OpenTrial, TrialFit, fit_of, read_trial, stamp_of
from widgets.trial.progress import RunProgress
from widgets.trial.records import RecordKeeping
from widgets.trial.run_model import CaseBegins, CaseEnds, RunNews, RunningTrial, StepBegins, StepEnds
from widgets.trial.side_pane import WIDTH, SidePane
from widgets.trial.starting import Starting, TrialTarget
from widgets.trial.steps_model import StepKey, TrialModel, result_words, took_words
from widgets.trial.steps_table import StepsTable

AGAINST_WIDTH: Final = 210
"""Pixels at 100 per cent of the choice what a trial is run against."""
LEAVING_S: Final = 3.0
"""How long another project waits for the end of a run that was told to stop."""


class TrialWorkspace(QWidget):
    """Runs the trial of the open project. What runs is in a thread of its own; here it is only looked at."""

    said = Signal(str, bool)
    """Something to tell the user, and whether it is trouble."""
    ended = Signal()
    """A run is over."""
    wanted = Signal()
    """It is to be brought to the front: a person is asked."""

    def __init__(
        self, document: Document, connecting: Connecting, settings: Settings, notices: NoticeSlot, window: QWidget
    ) -> None:
        super().__init__()
        self._document = document
        self._settings = settings
        self._notices = notices
        self._window = window
        self._opened: OpenTrial | None = None
        self._unreadable: TrialFileError | None = None
        self._chosen_path: Path | None = None
        """A file that somebody opened, other than the usual one."""
        self._project_path = document.path
        self._looked_at: Project | None = None
        self._work: SlotWork | None = None
        self.fit = TrialFit()
        self.progress = RunProgress()
        self.run = RunningTrial(self)
        self.starting = Starting(window, connecting, settings, self.run)
        self.records = RecordKeeping(self, window, settings)
        self.model = TrialModel(self)
        self._make_actions()
        self.ask = AskPage(self.yes_action, self.no_action, self.unknown_action)
        self.table = StepsTable(self.model)
        self.side = SidePane(self.model, self.ask, self.table.go_to, self.records.actions, self.records.accept_action)
        self.head = TrialHead(self.show_problems)
        self._lay_out()
        self._connect()
        self._name_targets()
        self.look_for_trial()

    # Commands

    def _make_actions(self) -> None:
        self.run_action = self._action(self.tr("&Run the trial"), self.run_all, "F9")
        self.chosen_action = self._action(self.tr("Run the &chosen cases"), self.run_chosen, "Shift+F9")
        self.chosen_action.setIconText(self.tr("Run chosen"))
        self.chosen_action.setIcon(icon("redo"))
        self.stop_action = self._action(self.tr("&Stop the trial"), self.run.stop, "Esc")
        self.follow_action = command(
            self, self.tr("&Follow what runs"), self._follow, "Ctrl+Alt+J", toggles=True, within=True
        )
        self.follow_action.setIconText(self.tr("Follow"))
        self.follow_action.setIcon(icon("down"))
        self.not_passed_action = command(
            self, self.tr("Only what did &not pass"), self._show_not_passed, "Ctrl+Alt+Y", toggles=True, within=True
        )
        self.not_passed_action.setIconText(self.tr("Not passed"))
        self.open_action = self._action(self.tr("&Open a trial\u2026"), self.open_trial, "Ctrl+Alt+A")
        self.open_action.setIconText(self.tr("Open\u2026"))
        self.open_action.setIcon(icon("open"))
        self.propose_action = self._action(
            self.tr("Propose a trial from this pro&ject\u2026"), self.propose, "Ctrl+Alt+Shift+P"
        )
        self.again_action = self._action(self.tr("R&ead the file again"), self.read_again, "Ctrl+F5")
        self.problems_action = self._action(self.tr("What does not f&it\u2026"), self.show_problems, "Ctrl+Alt+T")
        self.tester_action = self._action(
            self.tr("&Who tests\u2026"), lambda: self.starting.tester(again=True), "Ctrl+Alt+P"
        )
        self.yes_action = self._action(self.tr("&Yes, or done"), lambda: self.ask.say_yes(), "Y")
        self.no_action = self._action(self.tr("&No, or not possible"), lambda: self.ask.say_no(), "N")
        self.unknown_action = self._action(self.tr("Cannot &tell"), lambda: self.ask.say_unknown(), "U")

    def _action(self, text: str, run: Callable[[], object], keys: Keys) -> QAction:
        return command(self, text, run, keys, within=True)

    def fill_menu(self, menu: QMenu) -> None:
        """Put the commands of this workspace into a menu of the window."""
        menu.addActions([self.run_action, self.chosen_action, self.stop_action])
        answers = menu.addMenu(self.tr("&Answer"))
        answers.addActions([self.yes_action, self.no_action, self.unknown_action])
        menu.addSeparator()
        menu.addActions([self.follow_action, self.not_passed_action])
        menu.addSeparator()
        self.records.fill_menu(menu)
        menu.addSeparator()
        menu.addActions(
            [self.open_action, self.propose_action, self.again_action, self.problems_action, self.tester_action]
        )

    # Making it

    def _lay_out(self) -> None:
        self.against = ShortChoice()
        self.against.setAccessibleName(self.tr("Run against"))
        self.against.setFixedWidth(scaled(AGAINST_WIDTH))
        self.run_button = push_button(self.tr("Run"), self.run_action.trigger, "primary")
        self.run_button.setIcon(icon("play", "on_accent"))
        self.stop_button = push_button(self.tr("Stop"), self.stop_action.trigger)
        self.stop_button.setIcon(icon("stop"))
        caption = plain_label(self.tr("Against"), "faint")
        tools = ToolRow()
        tools.lead.addSpacing(scaled(4))
        tools.lead.addWidget(caption)
        tools.lead.addWidget(self.against)
        tools.lead.addStretch(1)
        for action in (self.open_action, self.not_passed_action, self.follow_action, self.chosen_action):
            tools.add(action)
        tools.add_widget(self.stop_button)
        tools.set_primary(self.run_button)
        self.tools = tools
        listed = QWidget()
        column = QVBoxLayout(listed)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.head)
        column.addWidget(self.table, 1)
        self._split = QSplitter(Qt.Orientation.Horizontal)
        self._split.setObjectName("cases and questions")
        self._split.setHandleWidth(1)
        self._split.setChildrenCollapsible(False)
        self._split.addWidget(listed)
        self._split.addWidget(self.side)
        self._split.setStretchFactor(0, 1)
        self._split.setSizes([1366 - scaled(WIDTH), scaled(WIDTH)])
        self._help = push_button("", self._help_empty)
        self.empty = EmptyState("", "", self._help)
        self._pages = QStackedWidget()
        self._pages.addWidget(self.empty)
        self._pages.addWidget(self._split)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(tools)
        layout.addWidget(self._pages, 1)

    def _connect(self) -> None:
        run, document = self.run, self._document
        self.follow_action.setChecked(self.table.following)
        self.against.activated.connect(lambda _at: self._choose_against())
        self.table.chosen.connect(self._show_chosen)
        self.table.following_changed.connect(self.follow_action.setChecked)
        self.ask.answered.connect(self._answer)
        self.ask.remember([_instrument(*one) for one in self._settings.instruments])
        run.began.connect(self._begin_run)
        run.happened.connect(self._take_news)
        run.rows_changed.connect(self._show_rows)
        run.asked.connect(self._ask)
        run.stopping_changed.connect(self._say_stopping)
        run.ended.connect(self._end_run)
        self.records.said.connect(self.said)
        self.records.changed.connect(self._show_summary)
        document.changed.connect(self._document_changed)
        document.replaced.connect(self._document_changed)
        document.status_changed.connect(self._document_changed)

    # Which trial

    @property
    def opened(self) -> OpenTrial | None:
        """The trial that is shown."""
        return self._opened

    @property
    def path(self) -> Path | None:
        """The file of the trial, there or not; None for a project that has no file, where nobody opened another."""
        if self._chosen_path is not None:
            return self._chosen_path
        return None if self._document.path is None else usual_place(self._document.path)

    def look_for_trial(self) -> None:
        """Show the trial that lies beside the project, or the one that was opened, as its file is now."""
        path = self.path
        if path is None or stamp_of(path) is None:
            self._show(None, None)
            return
        try:
            self._show(read_trial(path), None)
        except TrialFileError as error:
            self._show(None, error)

    def open_trial(self) -> None:
        """Ask for a trial file, and show it."""
        folder = self._settings.project_folder if self._document.path is None else self._document.path.parent
        kinds = self.tr("Trials (*{ending});;All files (*)").format(ending=ENDING)
        name, _ = QFileDialog.getOpenFileName(self._window, self.tr("Open a trial"), str(folder), kinds)
        if name:
            self.open_file(Path(name))

    def open_file(self, path: Path) -> None:
        """Show the trial of this file."""
        if not self.run.running:
            self._chosen_path = path
            self.look_for_trial()

    def choose_last_case(self) -> None:
        """Choose the case that was put into the trial last, to be run."""
        if self.model.case_names:
            self.table.choose_cases(self.model.case_names[-1:])
            self.table.setFocus(Qt.FocusReason.OtherFocusReason)

    def read_again(self) -> None:
        """Show the trial as its file is now."""
        if not self.run.running:
            self.look_for_trial()

    def _show(self, opened: OpenTrial | None, unreadable: TrialFileError | None) -> None:
        self._opened, self._unreadable = opened, unreadable
        self._looked_at = None
        if opened is not None:
            self._compare()
            self._pages.setCurrentWidget(self._split)
        else:
            self.model.show_trial((), self._document.project, {})
            self._pages.setCurrentWidget(self.empty)
            self._say_empty()
        self.setFocusProxy(self.table if opened is not None else self._help)
        self._follow_run()

    def _say_empty(self) -> None:
        error, path, button = self._unreadable, self.path, self._help
        if error is not None:
            button.setText(self.tr("Show all problems ({count})").format(count=len(error.problems)))
            name = "" if error.path is None else error.path.name
            self.empty.say(self.tr("{name} cannot be read").format(name=name), str(error.problems[0]))
            return
        button.setText(self.tr("Propose one from this project"))
        where = self.tr("It is a file that is read and written in any text editor.")
        if path is not None:
            where = self.tr("It is looked for as {name} beside the project.").format(name=path.name)
        self.empty.say(
            self.tr("No trial for this project yet"),
            self.tr("A trial operates the panel step by step and tells what was seen beside what is expected.")
            + " "
            + where,
        )

    def _help_empty(self) -> None:
        if self._unreadable is not None:
            self.show_problems()
        else:
            self.propose()

    def propose(self) -> None:
        """Make a trial from the project alone, and show it. It lies beside the project, if none lies there yet."""
        project, path = self._document.project, self.path
        if path is None or stamp_of(path) is not None:
            kind = FileKind(self.tr("Trials (*{ending})").format(ending=ENDING), ENDING)
            usual = "panel" + ENDING if path is None else str(path)
            title = self.tr("Save the proposed trial")
            place = where_to_save(self._window, self._settings, "project_folder", title, usual, (kind,))
            if place is None:
                return
            path = place[0]
        name = "" if self._document.path is None else self._document.path.name
        try:
            words = self.tr("Proposing a trial\u2026")
            save_trial(run_with_wait_dialog(self._window, words, lambda: propose(project, name)), path)
        except GaveUp:
            return
        except (FanlightError, OSError) as error:
            self.said.emit(self.tr("No trial was made: {why}").format(why=error), True)
            return
        self.open_file(path)
        self.said.emit(self.tr("A trial was proposed: read through what it expects before it is relied on."), False)

    def show_problems(self) -> None:
        """Show all that is wrong with the file, or that does not fit the project."""
        problems: tuple[Problem, ...] = self.fit.problems
        summary = self.tr(
            "These places of the trial point to nothing in the project. Correct the file, then read it "
            "again (Trial > Read the file again)."
        )
        if self._unreadable is not None:
            problems = self._unreadable.problems
            summary = self.tr("The trial cannot be read before this is put right.")
        if problems:
            dialog = ProblemsDialog(self.tr("Problems of the trial"), summary, problems, self._window)
            dialog.exec()
            dialog.deleteLater()

    def _document_changed(self) -> None:
        if self._document.path != self._project_path:
            self._project_path, self._chosen_path = self._document.path, None
            if not self.run.running:
                self.look_for_trial()
        elif self.isVisible():
            self._compare()

    def _compare(self) -> None:
        """Compare the trial with the project as it is now; not in a run, which keeps the one that it began with."""
        project = self._document.project
        if self._opened is None or self.run.running or project is self._looked_at:
            return
        self._looked_at = project
        self.fit = fit_of(self._opened.trial, project)
        problems: dict[StepKey, Problem] = {}
        for problem in self.fit.problems:
            for key in self._opened.keys_at(problem.place):
                problems.setdefault(key, problem)
        if not self.model.show_trial(self._opened.cases, project, problems):
            self.progress = RunProgress()
            self.records.show(None, self._opened.path)
            self.side.show_rows(())
        self.side.set_panel(project.panel)
        self.head.show_fit(self.fit)
        self._name_targets()
        self._show_head()
        self._show_summary()
        self._follow_run()

    def showEvent(self, event: QShowEvent) -> None:
        """Look whether the file or the project is another one than it was."""
        super().showEvent(event)
        self.look_at_file()
        self._compare()

    def look_at_file(self) -> None:
        """Read the file again if another program has changed it."""
        path = self.path
        known = None if self._opened is None else self._opened.stamp
        if not self.run.running and (path is None or stamp_of(path) != known or self._unreadable is not None):
            self.look_for_trial()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.ActivationChange and self.isVisible() and self.isActiveWindow():
            self.look_at_file()

    # Against what

    def _name_targets(self) -> None:
        self.against.offer(
            (
                (TrialTarget.MODELS.value, self.tr("Simulated, at once")),
                (TrialTarget.SIMULATED.value, self.tr("Simulated, in real time")),
                (TrialTarget.REAL.value, real_words(self._document.project)),
            )
        )
        self.against.setCurrentIndex(max(0, self.against.place_of(self.starting.against.value)))

    def _choose_against(self) -> None:
        self.choose_against(TrialTarget(self.against.currentData()))

    def choose_against(self, against: TrialTarget) -> None:
        """Run against this from now on."""
        self.starting.against = against
        self.against.setCurrentIndex(max(0, self.against.place_of(against.value)))
        self.model.tell_as(simulated=against.simulated)
        self._show_head()
        self._show_chosen(self.table.current)

    # Running

    def run_all(self) -> None:
        """Run all cases."""
        self._start(())

    def run_chosen(self) -> None:
        """Run the cases of which a row is selected."""
        if chosen := self.table.chosen_cases():
            self._start(chosen)

    def _start(self, only: Collection[str]) -> None:
        if self._opened is None or self.run.running:
            return
        cases = [case for case in self._opened.cases if not only or case.name in only]
        simulated = self.starting.against.simulated
        self.progress.begin([case for case in cases if case.is_on(simulated=simulated)])
        why = self.starting.start(self._opened, self._document, only)
        if why:
            self.said.emit(why, True)

    def _begin_run(self) -> None:
        self.model.begin(list(self.progress.steps))
        self.table.follow(True)
        self.side.set_running(True)
        self.table.go_to(None)
        self._work = self._notices.begin(self.tr("The trial runs"), self.run.stop)
        self._follow_run()
        if self.isVisible() and not self._has_focus():
            self.table.setFocus(Qt.FocusReason.OtherFocusReason)

    def _take_news(self, news: tuple[RunNews, ...]) -> None:
        at_models = self.starting.against is TrialTarget.MODELS
        for one in news:
            match one:
                case CaseBegins(name):
                    self.model.begin_case(name, at_models=at_models)
                case StepBegins(name, part, number):
                    self.model.begin_step(StepKey(name, part, number))
                case StepEnds(name, outcome):
                    self.model.end_step(StepKey(name, outcome.part, outcome.number), outcome)
                    self.progress.end_step(name, outcome.result)
                case CaseEnds(outcome):
                    self.model.end_case(outcome)
                    self.progress.of_cases[outcome.name] = outcome.result
        self.model.refresh()
        self.table.show_now()
        self._show_head()
        if self._work is not None and self.progress.total:
            self._work.show(self.progress.done / self.progress.total)
        # The row may be the same as before and have come to its end meanwhile.
        self._show_chosen(self.table.current)

    def _show_rows(self, rows: Rows) -> None:
        self.side.show_rows(rows)

    def _end_run(self) -> None:
        if self._work is not None:
            self._work.end()
            self._work = None
        plan = self.run.plan
        if self.run.record is not None and self._opened is not None:
            self.records.show(self.run.record, self._opened.path, None if plan is None else plan.record)
        self.model.begin_step(None)
        self.model.refresh()
        self.side.set_running(False)
        self._ask(None)
        if self.table.following:
            self._choose_after(() if plan is None else tuple(plan.only))
        self.side.show_beginning()
        self._show_head()
        self._show_summary()
        self._show_chosen(self.table.current)
        self._follow_run()
        self._say_end()
        self._looked_at = None
        if self.isVisible():
            self._compare()
        self.ended.emit()

    def _choose_after(self, only: Sequence[str]) -> None:
        """Choose what to look at first; the cases that were chosen stay so, to be run once more, if they passed."""
        left = self.run.record is not None and bool(_not_restored(self.run.record))
        first = self.model.first_not_passed(only)
        if left or (first is None and not only):
            self.table.go_to(None)
        elif first is not None:
            self.table.go_to(first)
        else:
            self.table.choose_cases(only)

    def _say_stopping(self) -> None:
        self.said.emit(self.tr("Stopping: keys are let go, and what is to be cleaned up still is."), False)
        self._follow_run()

    def _say_end(self) -> None:
        record = self.run.record
        if record is None:
            why = self.run.why or self.tr("the program failed")
            self.said.emit(self.tr("The trial could not be run to its end: {why}").format(why=why), True)
            return
        trouble = [*_not_restored(record), *filter(None, (self.run.why,))]
        counts = counts_words(case.result for case in record.cases)
        words = "\n".join((f"{self.verdict_words(record)}. {counts}", *trouble))
        self.said.emit(words, bool(trouble) or record.result is Verdict.NOT_PASSED)

    def verdict_words(self, record: TrialRecord) -> str:
        """What came of a run, in words: of the trial, or of the cases that were chosen from it."""
        verdict, simulated = record.result, record.against != DEVICE
        cases = () if self._opened is None else self._opened.cases
        run = {case.name for case in record.cases}
        if any(case.is_on(simulated=simulated) and case.name not in run for case in cases):
            if verdict is Verdict.PASSED:
                return self.tr("The chosen cases passed")
            if verdict is Verdict.WITH_EXCEPTIONS:
                return self.tr("The chosen cases passed with exceptions")
            if verdict is Verdict.NOT_PASSED:
                return self.tr("Not all chosen cases passed")
        return {
            Verdict.PASSED: self.tr("The trial passed"),
            Verdict.WITH_EXCEPTIONS: self.tr("The trial passed with exceptions"),
            Verdict.NOT_PASSED: self.tr("The trial did not pass"),
            Verdict.UNFINISHED: self.tr("The trial is not finished"),
        }[verdict]

    def counts(self) -> str:
        """How many cases of the list came to what."""
        found = map(self.model.case_outcome, self.model.case_names)
        return counts_words(outcome.result for outcome in found if outcome is not None)

    def _follow_run(self) -> None:
        """What can be done now."""
        had_focus = self._has_focus()
        running, stopping = self.run.running, self.run.stopping
        asked = self.ask.asked is not None
        there = self._opened is not None and bool(self._opened.cases)
        why = self.tr("there is no trial") if not there else self.tr("a trial runs")
        allow(self.run_action, there and not running, why)
        chosen = bool(self.table.chosen_cases())
        allow(self.chosen_action, there and chosen and not running, self.tr("choose cases first") if there else why)
        allow(self.stop_action, running and not stopping, self.tr("nothing runs"))
        for action in (self.yes_action, self.no_action, self.unknown_action):
            allow(action, asked, self.tr("nothing is asked"))
        for action in (self.open_action, self.propose_action, self.again_action):
            allow(action, not running, self.tr("a trial runs"))
        misfit = bool(self.fit.problems or self._unreadable is not None)
        allow(self.problems_action, misfit, self.tr("the trial fits the project"))
        self.run_button.setEnabled(self.run_action.isEnabled())
        self.stop_button.setEnabled(self.stop_action.isEnabled())
        self.against.setEnabled(not running)
        # Qt hands the focus of a button that is no longer enabled to the next widget, where the keys mean nothing.
        if had_focus and not self._has_focus():
            self.table.setFocus(Qt.FocusReason.OtherFocusReason)

    def _has_focus(self) -> bool:
        focus = self._window.focusWidget()
        return focus is not None and self.isAncestorOf(focus)

    def _follow(self, on: bool) -> None:
        self.table.follow(on)

    def _show_not_passed(self, on: bool) -> None:
        self.model.show_not_passed_only(on)

    # What is asked

    def _ask(self, question: PersonAsked | None) -> None:
        self.model.ask(question is not None)
        self.progress.ask(question is not None)
        if question is None:
            had_focus = self._focus_within()
            self.ask.end()
            self.side.show_question()
            if had_focus:
                self.table.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            now = self.model.now
            expected = "" if now is None else self.model.columns(now)[1]
            self.ask.ask(AskedNow(question, expected, self._settings.tester[0]))
            self.side.show_question()
            if self._focus_within() or self.table.hasFocus() or QApplication.focusWidget() in (None, self._window):
                self.ask.take_focus()
            voice().say(self.ask.accessibleName(), Urgency.NEWS, "trial")
        self._follow_run()

    def _focus_within(self) -> bool:
        focus = QApplication.focusWidget()
        return focus is not None and (focus is self.side or self.side.isAncestorOf(focus))

    def _answer(self, reply: Reply) -> None:
        if reply.instrument is not None:
            one = reply.instrument
            self._settings.keep_instrument(one.name, one.serial, "" if one.due is None else one.due.isoformat())
            self.ask.remember([_instrument(*each) for each in self._settings.instruments])
        self.run.reply(reply)

    # What is shown

    def _show_chosen(self, key: StepKey | None) -> None:
        self.side.show_key(key)
        self.records.choose_case("" if key is None else key.case)
        self._follow_run()

    def _show_head(self) -> None:
        opened = self._opened
        if opened is None:
            return
        title = opened.trial.title or opened.path.name
        against = self.starting.against
        in_moments = against is TrialTarget.MODELS
        self.head.show_trial(title, opened.cases, simulated=against.simulated, in_moments=in_moments)
        self.head.show_progress(self.progress, running=self.run.running)

    def _show_summary(self) -> None:
        opened, record = self._opened, self.records.record
        if opened is None:
            return
        title = opened.trial.title or opened.path.name
        rows = [
            (self.tr("File"), opened.path.name),
            (self.tr("Stage"), opened.trial.stage),
        ]
        notes = (self.tr("Notes"), opened.trial.notes)
        self.side.record_buttons.setVisible(record is not None)
        if record is None:
            self.side.summary.tell(("", ""), title, "", (*rows, notes))
            return
        kept = self.records.path
        rows += [
            (self.tr("Cases"), self.counts()),
            (self.tr("Last run"), self._run_words(record)),
            (self.tr("Tested by"), ", ".join(filter(None, (record.by, record.place)))),
            (self.tr("Took"), took_words(record.took_s)),
            (self.tr("Accepted"), "\n".join(f"{one.case}: {one.reason} ({one.by})" for one in record.exceptions)),
            (self.tr("Record"), self.tr("not saved yet") if kept is None else kept.name),
            (self.tr("Signed"), self.tr("yes") if self.records.signed else ""),
            notes,
        ]
        state = {Verdict.PASSED: "good", Verdict.NOT_PASSED: "alarm"}.get(record.result, "caution")
        why = "\n".join(_not_restored(record))
        self.side.summary.tell((state, self.verdict_words(record)), title, why, rows)

    def _run_words(self, record: TrialRecord) -> str:
        """What the last run was, whose record is kept: the list may show results of runs before."""
        words = self.tr("{count} of {all} cases, simulated devices")
        if record.devices and record.against == DEVICE:
            words = self.tr("{count} of {all} cases, at the device")
        return words.format(count=len(record.cases), all=len(self.model.case_names))

    # Leaving

    def take_over(self, former: TrialWorkspace) -> None:
        """Show what a former window has shown, and go on with what runs in it."""
        self._chosen_path = former._chosen_path
        self.look_for_trial()
        self.choose_against(former.starting.against)
        self.records.take_over(former.records)
        self.progress = former.progress
        self.model.take_over(former.model)
        self.run.take_over(former.run)
        self.starting.take_over(former.starting)
        if former._work is not None:
            former._work.end()
        if self.run.running:
            self._work = self._notices.begin(self.tr("The trial runs"), self.run.stop)
            self.side.set_running(True)
        self._show_head()
        self._show_summary()
        self._follow_run()

    def may_leave(self) -> bool:
        """Whether the project may be left: no trial runs, or a person lets it be stopped, and that is done."""
        if not self.run.running:
            return True
        question = Question(
            self._window,
            "caution",
            self.tr("A trial runs"),
            self.tr("Stop the trial?"),
            self.tr("Keys are let go and what is to be cleaned up is cleaned up before anything else happens."),
        )
        if not question.confirm(self.tr("&Stop the trial")):
            return False
        self.run.stop()
        if not self.run.wait(LEAVING_S):
            self.said.emit(self.tr("The trial is still cleaning up. Try again when it has ended."), False)
            return False
        return True

    def leave(self) -> None:
        """Stop without any question: the window goes."""
        self.run.stop()
        self.run.wait(LEAVING_S)


def counts_words(results: Iterable[Result]) -> str:
    """How many cases came to what."""
    listed = list(results)
    told = [(result, listed.count(result)) for result in Result]
    return ", ".join(f"{count} {result_words(result)}" for result, count in told if count)


def _not_restored(record: TrialRecord) -> list[str]:
    return [words for case in record.cases for words in case.not_restored]


def _instrument(name: str, serial: str, due: str) -> Instrument:
    try:
        return Instrument(name, serial, date.fromisoformat(due) if due else None)
    except ValueError:
        return Instrument(name, serial, None)
