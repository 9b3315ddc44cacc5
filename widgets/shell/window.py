"""The main window: one project, its workspaces, its menus and the line strip."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QEvent, QSize, Qt, QTimer, Signal
from PySide6.QtGui import QAction, QCloseEvent
from PySide6.QtWidgets import (
    QApplication,
    QDialog,
    QHBoxLayout,
    QMainWindow,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from app.project.model import FORMAT, Project
from widgets.bench.workspace import BenchWorkspace
from widgets.document.blank import blank
from widgets.document.document import Document
from widgets.document.settings import LeftOff, Settings
from widgets.face.blinking import let_blink
from widgets.frame.ahead import GettingReady
from widgets.frame.connecting import Connecting
from widgets.frame.file_drops import FileDrops
from widgets.frame.header import Header
from widgets.frame.spoken_news import SpokenNews
from widgets.frame.window_news import WindowNews
from widgets.kit.background import wait_pointer
from widgets.kit.commands import Listed, list_commands, mark_entry
from widgets.kit.focus import next_stop
from widgets.kit.language import Language
from widgets.kit.notice_slot import NoticeSlot, SlotWork, slot_height
from widgets.kit.palette import Appearance, Theme
from widgets.live.activity_strip import ActivityStrip, mark_of
from widgets.live.live_session import LiveSession
from widgets.live.live_source import Observation
from widgets.live.recording import LastMinutes
from widgets.live.stop_alarm import StopAlarm
from widgets.shell import window_state
from widgets.shell.beginning import Beginning
from widgets.shell.edit_menu import EditMenu
from widgets.shell.finding_out import FindingOut
from widgets.shell.line_place import LinePlace
from widgets.shell.menus import WindowMenus
from widgets.shell.project_files import ProjectFiles

if TYPE_CHECKING:  # made, and so imported, when it is first wanted
    from widgets.design.workspace import DesignWorkspace
    from widgets.start_up.workspace import StartUpWorkspace
    from widgets.trial.workspace import TrialWorkspace

DESIGN, BENCH, START_UP, TRIAL = range(4)
"""The workspaces in the order of the switcher."""
START_PAGE: Final = -1
"""Stands for the start page where a workspace is named."""
RECORDING: Final = ".fanrec"
"""The ending of recordings, which are played and not edited."""
AHEAD: Final = (
    "app.session.session",
    "app.line.status",
    "app.events.event_detector",
    "widgets.start_up.workspace",
    "widgets.design.screen.live_rows",
    "widgets.design.workspace",
    "widgets.shell.finder",
    "widgets.shell.help",
    "widgets.trial.workspace",
    "widgets.compare.window",
    "widgets.welcome.new_panel",
)
"""What is imported before it is wanted, the first wanted first."""
SUCCEED_AFTER_MS: Final = 300
"""From the place of a former window being taken until also the workspaces are made that are not in front."""
COMFORTABLE: Final = QSize(1240, 700)
SLOT: Final = (30, 60)
"""Hundredths of the width that the slot for notices has at least and at most."""


class MainWindow(QMainWindow):
    """Everything around the workspaces: which project, which workspace, what is connected, what may be written."""

    size_chosen = Signal(int)
    """The user wants everything drawn at this many per cent: a window of that size is to take this one's place."""
    language_chosen = Signal(object)
    """The user wants another `Language` (widgets.kit): a window that speaks it is to take this one's place."""

    def __init__(
        self,
        settings: Settings | None = None,
        theme: Theme | None = None,
        workspace: int = 0,
        state: Path | None = None,
        former: MainWindow | None = None,
    ) -> None:
        """Make the window with this workspace in front, counted from 0 in the order of the switcher.

        `state` is the folder for recovery copies; None keeps none. `former` is a window that this one takes the place
        of, with its project, its steps and its session. It is hidden, and deleted as soon as the workspaces are made
        that were made in it and are not in front: they have time until nothing else is to be done.
        """
        super().__init__()
        self.settings = settings or Settings()
        let_blink(self.settings.blinks)
        self.theme = theme
        self._ask = True
        self.document = Document(blank(4, 20), None, self)
        self.live = LiveSession(self)
        self.observation = Observation(self.live, self)
        self.notices = NoticeSlot()
        self.last_minutes = LastMinutes(self, self.observation, self.settings, self.notices)
        if former is not None:
            self.document.take_over(former.document)
            self.live.take_over(former.live)
            self.observation.take_over(former.observation)
            self.last_minutes.allow()
        self.strip = ActivityStrip(self)
        self.news = WindowNews(self, self.live, self.notices, explained=lambda status: self.bench.explains(status))
        FileDrops(self, self.notices, self.open_file)
        self.files: ProjectFiles = ProjectFiles(
            self,
            self.document,
            self.live,
            self.settings,
            state if former is None else former.files.state,
            self.notices,
            design=lambda: self.design,
            not_taken_over=self.not_taken_over,
        )
        self.menus = WindowMenus(self, self.document, self.settings)
        self._design: DesignWorkspace | None = None
        self._start_up: StartUpWorkspace | None = None
        self._trial: TrialWorkspace | None = None
        self._checking: SlotWork | None = None
        self.ahead = GettingReady(self, self.document, self.live, AHEAD, (lambda: self.design, lambda: self.start_up))
        self.connecting = Connecting(self, self.document, self.live, self.settings)
        self.bench: BenchWorkspace = BenchWorkspace(
            self.document, self.live, self.connecting.arm, settings=self.settings
        )
        self._make_frame()
        self.beginning = Beginning(
            self,
            self._stack,
            self.header,
            self.files,
            self.connecting,
            self.settings,
            show_workspace=self.show_workspace,
        )
        self.finding_out = FindingOut(self, self.document, self.connecting, self.files, self.settings)
        self.beginning.find_out_wanted.connect(self.finding_out.show)
        self.edit = EditMenu(self, self._find_here, lambda words: self.tell(words, trouble=True))
        self.menus.fill(
            self.files.fill_menu,
            self.bench.fill_menu,
            self.last_minutes.action,
            self.connecting.fill_menu,
            self.finding_out.action,
            self.edit.fill_menu,
        )
        snapshot = mark_entry(QAction(self.tr("Register snapshot\u2026"), self))  # a command of Start-up, once more
        snapshot.triggered.connect(lambda: self.start_up.show_registers())
        self.bench.tools.add(snapshot)
        self.line = LinePlace(
            self, self.bench, self.live, self.settings, self.menus, lambda: self.show_workspace(BENCH)
        )
        self._connect()
        self._former = former
        if former is not None:
            self.files.take_over(former.files)
        self._retitle()
        self.show_workspace(workspace)
        self.resize(COMFORTABLE)
        if former is not None:
            former.line.leave()
        self._arrange()
        if former is not None:
            self._succeed(former)

    def _succeed(self, former: MainWindow) -> None:
        """Look as the former window did, and stand in its place."""
        self.connecting.choose(former.connecting.where)
        self.restoreGeometry(former.saveGeometry())
        self.show()
        self.menus.strip.setChecked(former.menus.strip.isChecked())
        self.menus.full_screen.setChecked(former.menus.full_screen.isChecked())
        if former.bench.shows_line:
            self.bench.show_line()
        self.bench.recorder.take_over(former.bench.recorder)
        former.finding_out.close()
        former.hide()
        QTimer.singleShot(SUCCEED_AFTER_MS, self, self._go_on_succeeding)

    def succeed_wholly(self) -> None:
        """Make at once what was put off of the workspaces of a former window."""
        while self._former is not None:
            self._go_on_succeeding()

    def _go_on_succeeding(self) -> None:
        """Make one of the workspaces that a former window had, or let that window go."""
        former = self._former
        if former is None:
            return
        if former._design is not None and self._design is None:
            _ = self.design
        elif former._start_up is not None and self._start_up is None:
            _ = self.start_up
        elif former._trial is not None and self._trial is None:
            _ = self.trial
        else:
            self._former = None
            former.deleteLater()
        QTimer.singleShot(0, self, self._go_on_succeeding)

    def _show_what_was_made(self) -> None:
        """Go to the Bench; Enter connects the device that was found."""
        self.show_workspace(BENCH)
        self.header.connect_bar.button.setFocus(Qt.FocusReason.OtherFocusReason)

    # Projects and files

    def open_file(self, path: Path) -> bool:
        """Open a project, after the question about unsaved changes, play a recording or import a register list.

        False if it was not opened; that has been said.
        """
        from widgets.design.exchange.signal_lists import is_list  # not needed for the window to come up

        if is_list(path):
            self.show_workspace(DESIGN)
            self.design.import_signals(path)
            return True
        if path.suffix == RECORDING:
            if not self.start_up.play(path):
                return False
            self.show_workspace(START_UP)
            return True
        return self.files.open_file(path)

    def take(self, project: Project, path: Path | None, known: str | None = None, number: int = FORMAT) -> None:
        """Edit this project from now on (see `ProjectFiles.take`)."""
        self.files.take(project, path, known, number)

    def save(self) -> bool:
        """Save the project to its file. False if it was not saved; that has been said."""
        return self.files.save()

    def leave(self) -> None:
        """Close without any question. What is unsaved is offered at the next start."""
        self._ask = False
        question = QApplication.activeModalWidget()
        if isinstance(question, QDialog):
            # Nobody is there to answer it; and what asked it, perhaps the closing of this window, must end first.
            question.reject()
            QTimer.singleShot(0, self, self.leave)
        else:
            self.close()

    # Workspaces

    def show_workspace(self, number: int) -> None:
        """Go to a workspace, counted from 0 in the order of the switcher, or to the START_PAGE."""
        if number == START_PAGE:
            self.beginning.show()
            return
        self._stack.setCurrentWidget(self._workspace_at(number))
        self.menus.workspaces[number].setChecked(True)
        self.workspace.setFocus()

    def _workspace_at(self, number: int) -> QWidget:
        match number:
            case _ if number == BENCH:
                return self.bench
            case _ if number == START_UP:
                return self.start_up
            case _ if number == TRIAL:
                return self.trial
        return self.design

    @property
    def workspace_number(self) -> int:
        """Which workspace is shown, counted from 0, or START_PAGE."""
        if self.beginning.shown:
            return START_PAGE
        shown = self._stack.currentWidget()
        others: dict[QWidget | None, int] = {self.bench: BENCH, self._start_up: START_UP, self._trial: TRIAL}
        return others.get(shown, DESIGN) if shown is not None else DESIGN

    @property
    def workspace(self) -> QWidget:
        """The workspace that is shown."""
        return self._stack.currentWidget() or self.bench

    @property
    def design(self) -> DesignWorkspace:
        """The Design workspace. Made when it is first wanted: a demo begins on the Bench, and is live sooner so."""
        if self._design is None:
            with wait_pointer():
                self._make_design()
        assert self._design is not None
        return self._design

    def _make_design(self) -> None:
        from widgets.design.screen.live_rows import LiveReadings
        from widgets.design.workspace import DesignWorkspace

        self._design = DesignWorkspace(self.document, self.settings)
        self._stack.addWidget(self._design)
        self._design.set_readings_source(LiveReadings(self.live, self))
        self._design.fill_menu(self.menus.design)
        self._design.wanted.connect(self._bring_design)
        self._design.wrong_wanted.connect(self.show_ways_to_read)
        self._design.find_out_wanted.connect(self.finding_out.show)
        self._design.not_taken_over_changed.connect(self._retitle)
        self._design.checks.progressed.connect(self._show_checking)
        self.files.keep_drafts_of(self._design)
        window_state.arrange_parts(self._design, self.settings)
        self.beginning.lead(self._design)
        if self._former is not None and self._former._design is not None:
            self._design.take_over(self._former._design)
            self._retitle()

    def _show_checking(self, part: float) -> None:
        if part < 1 and self._checking is None:
            self._checking = self.notices.begin(self.tr("Checking the project\u2026"))
        if self._checking is not None:
            self._checking.show(part)
            if part >= 1:
                self._checking.end()
                self._checking = None

    def not_taken_over(self) -> list[str]:
        """What was begun or typed and is not in the project, so in no file either, in words."""
        design = self._design or (self._former._design if self._former is not None else None)
        return design.not_taken_over() if design is not None else []

    @property
    def has_design(self) -> bool:
        """Whether the Design workspace has been made."""
        return self._design is not None

    @property
    def has_start_up(self) -> bool:
        """Whether the Start-up workspace has been made."""
        return self._start_up is not None

    @property
    def start_up(self) -> StartUpWorkspace:
        """The Start-up workspace. Made when it is first wanted."""
        if self._start_up is None:
            with wait_pointer():
                self._make_start_up()
        assert self._start_up is not None
        return self._start_up

    def _make_start_up(self) -> None:
        from widgets.start_up.workspace import StartUpWorkspace

        made = StartUpWorkspace(self.document, self.live, self.observation, self.settings)
        self._start_up = made
        self._stack.addWidget(made)
        made.fill_menu(self.menus.start_up)
        made.record_menu.addAction(self.last_minutes.action)
        made.said.connect(self.news.say_of_recordings)
        made.withheld.connect(self.news.say_withheld)
        window_state.arrange_parts(made, self.settings)
        if self._former is not None and self._former._start_up is not None:
            made.take_over(self._former._start_up)

    @property
    def has_trial(self) -> bool:
        """Whether the Trial workspace has been made."""
        return self._trial is not None

    @property
    def trial(self) -> TrialWorkspace:
        """The Trial workspace. Made when it is first wanted."""
        if self._trial is None:
            with wait_pointer():
                self._make_trial()
        assert self._trial is not None
        return self._trial

    def _show_kept_case(self, path: Path) -> None:
        """A case was put into a trial: go and see it there."""
        self.show_workspace(TRIAL)
        self.trial.open_file(path)
        self.trial.choose_last_case()
        self.tell(self.tr("The case is in {name}").format(name=path.name))

    def _make_trial(self) -> None:
        from widgets.trial.workspace import TrialWorkspace

        made = TrialWorkspace(self.document, self.connecting, self.settings, self.notices, self)
        self._trial = made
        self._stack.addWidget(made)
        made.fill_menu(self.menus.trial)
        made.said.connect(self.tell)
        made.records.recording_wanted.connect(self.open_file)
        window_state.arrange_parts(made, self.settings)
        self.files.before_leaving = lambda: self.bench.recorder.may_discard() and made.may_leave()
        if self._former is not None and self._former._trial is not None:
            made.take_over(self._former._trial)

    def _bring_design(self) -> None:
        if self.workspace is not self.design:
            self.show_workspace(DESIGN)

    def _edit_screen(self, name: str) -> None:
        self.document.select_screen(name)
        self.show_workspace(DESIGN)
        self.design.show_view("screen")
        self.activateWindow()

    # Where the last window was left

    def take_up(self) -> bool:
        """Begin where the last window was left: its project, its workspace, its view and its screen.

        False if there is nothing to take up, or it cannot be opened, which has been said.
        """
        left = self.settings.left_off
        if not self.settings.resumes or left.path is None or not self.files.open_last(left.path):
            return False
        self.document.select_screen(left.screen)
        self.show_workspace(left.workspace)
        if left.workspace == DESIGN and left.view:
            from widgets.design.views import VIEWS  # with its workspace, which is made only when it is wanted

            if left.view in VIEWS:
                self.design.show_view(left.view)
        return True

    def _arrange(self) -> None:
        """Stand where the last window stood, divided as that was."""
        window_state.arrange(self, self.settings)
        self.line.take_up()

    def _remember(self) -> None:
        window_state.remember(self, self.settings)
        self.line.leave()
        self.settings.left_off = LeftOff(
            path=self.document.path,
            workspace=max(DESIGN, self.workspace_number),
            view=self._design.view if self._design is not None else self.settings.left_off.view,
            screen=self.document.selection.screen,
        )

    # What is said

    @property
    def told(self) -> str:
        """What happened last; empty if that is told no longer."""
        return self.notices.told

    def tell(self, words: str, trouble: bool = False) -> None:
        """Say what happened, in the slot for notices."""
        self.news.tell(words, trouble)

    def _operate(self) -> None:
        """Who connected or armed wants to operate the panel; connected from Design, whatever has the focus keeps it."""
        if self.workspace_number == BENCH:
            self.bench.operate()
        elif self.workspace_number != DESIGN:
            self.workspace.setFocus()

    # Making the window

    def _make_frame(self) -> None:
        self._stack = QStackedWidget()
        self._stack.addWidget(self.bench)
        self.header = Header(self.menus.workspaces, self.connecting, self.document)
        self.badge = self.header.badge
        self.spoken = SpokenNews(self, self.live, self.observation, self.notices, self.badge)
        whole = QWidget()
        layout = QVBoxLayout(whole)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self.header)
        layout.addWidget(self._stack, 1)
        layout.addLayout(self._make_foot())
        self.setCentralWidget(whole)
        self.alarm = StopAlarm(self.live, (self.notices, self.strip), whole)

    def _make_foot(self) -> QHBoxLayout:
        """The strip, and at its left the slot for what stays so; as high with a notice as without.

        What the slot does not need it leaves to the strip, whose newest mark stands at the right in any case.
        """
        foot = QHBoxLayout()
        foot.setContentsMargins(0, 0, 0, 0)
        foot.setSpacing(0)
        foot.addWidget(self.notices, 0, Qt.AlignmentFlag.AlignVCenter)
        foot.addWidget(self.strip)
        foot.addStrut(slot_height())

        def share(wanted: int) -> None:
            least, most = SLOT
            left = max(least, min(most, 100 * wanted // max(1, self.width()) + 1))
            for part, hundredths in ((self.notices, left), (self.strip, 100 - left)):
                foot.setStretchFactor(part, hundredths)

        self.notices.wants.connect(share)
        share(0)
        return foot

    def _connect(self) -> None:
        self._connect_menus()
        self.document.status_changed.connect(self._retitle)
        self.bench.wrong_wanted.connect(self.show_ways_to_read)
        self.bench.find_wanted.connect(self.finding_out.find)
        self.bench.recorder.kept.connect(self._show_kept_case)
        self.finding_out.said.connect(self.tell)
        self.finding_out.made.connect(self._show_what_was_made)
        self.files.said.connect(self.tell)
        self.files.screen_wanted.connect(self._edit_screen)
        self.files.recording_wanted.connect(self.open_file)
        self.beginning.import_wanted.connect(lambda: self.design.import_signals())
        self.beginning.said.connect(self.tell)
        self.document.changed.connect(self._reserve_lanes)
        self.connecting.refused.connect(self.news.say_refused)
        self.connecting.operate_wanted.connect(self._operate)
        self.live.connection_changed.connect(self._connection_changed)
        self.last_minutes.said.connect(self.news.say_of_recordings)
        self.live.frame.connect(self._show_trouble)
        self.live.transactions.connect(lambda news: self.strip.add(map(mark_of, news)))
        self.strip.opened.connect(self.line.open_on)
        self.line.said.connect(self.tell)
        self._connection_changed()

    def _connect_menus(self) -> None:
        menus = self.menus
        menus.workspace_chosen.connect(self.show_workspace)
        menus.strip_toggled.connect(self.strip.setVisible)
        menus.blinking_toggled.connect(self.choose_blinking)
        menus.full_screen_toggled.connect(self.show_full_screen)
        menus.find_wanted.connect(self.find_command)
        menus.first_steps_wanted.connect(lambda: self.beginning.bring_back(self.design))
        menus.steps_wanted.connect(self.show_steps)
        menus.shortcuts_wanted.connect(self.show_shortcuts)
        menus.cautions_wanted.connect(self.show_cautions)
        menus.about_wanted.connect(self.show_about)
        menus.appearance_chosen.connect(self.choose_look)
        menus.language_chosen.connect(self.choose_language)
        menus.size_chosen.connect(self.choose_size)
        # What a menu is about is made when it is first opened, and puts its commands there.
        menus.design.aboutToShow.connect(lambda: self.design)
        menus.start_up.aboutToShow.connect(lambda: self.start_up)
        menus.trial.aboutToShow.connect(lambda: self.trial)

    # Keeping it in step

    def _retitle(self) -> None:
        self.setWindowTitle(self.tr("{name}[*] \u2013 Fanlight").format(name=self.files.name))
        modified = self.document.modified or bool(self.not_taken_over())
        if modified != self.isWindowModified():  # every widget is told of it, also where it was so before
            self.setWindowModified(modified)
        self.menus.name_steps()

    def _connection_changed(self) -> None:
        session = self.live.session
        if session is None:
            self.strip.set_lines([])
            self._reserve_lanes()
        elif tuple(self.strip.lines) != tuple(line.name for line in session.project.lines):
            self.strip.set_lines([line.name for line in session.project.lines])

    def _reserve_lanes(self) -> None:
        """The strip is as high before as after connecting."""
        if self.live.session is None:
            self.strip.reserve(len(self.document.project.lines))

    def _show_trouble(self) -> None:
        session = self.live.session
        if session is not None:
            for name, line in session.snapshot().lines.items():
                self.strip.set_trouble(name, "" if line.connected else line.reason)
                self.strip.set_outages(name, line.outages)
                self.strip.set_counts(name, line.good, sum(line.faults.values()))

    def choose_look(self, appearance: Appearance) -> None:
        """Light, dark or as the system, from now on."""
        self.settings.appearance = appearance
        if self.theme is not None:
            self.theme.choose(appearance)

    def choose_blinking(self, on: bool) -> None:
        """Let cells of the panel that blink do so, or stay lit, from now on."""
        self.settings.blinks = on
        let_blink(on)

    def choose_language(self, language: Language) -> None:
        """Speak this language from now on: whoever runs this window puts another one in its place."""
        self.settings.language = language
        if self._may_be_replaced():
            self.language_chosen.emit(language)

    def choose_size(self, percent: int) -> None:
        """Draw everything at this many per cent from now on: whoever runs this window puts another one in its place."""
        self.settings.size = percent
        if self._may_be_replaced():
            self.size_chosen.emit(percent)

    def _may_be_replaced(self) -> bool:
        """Whether another window may take this one's place: the one that finds out a device would go with it."""
        if self.finding_out.may_close():
            return True
        self.tell(self.tr("This takes effect when Fanlight is started the next time."))
        return False

    def show_full_screen(self, on: bool) -> None:
        """Fill the screen, or be a window again."""
        self.setWindowState(
            self.windowState() | Qt.WindowState.WindowFullScreen
            if on
            else self.windowState() & ~Qt.WindowState.WindowFullScreen
        )

    def find_command(self) -> None:
        """Ask for a command or a place by name, and go there."""
        from widgets.shell.finder import find

        def now() -> Iterator[Listed]:
            commands = list_commands(self.menus.made())
            return (each for each in commands if each.action is not self.menus.find)

        rest = (lambda: self.design, lambda: self.start_up, lambda: self.trial, self.menus.all)
        find(now, rest, lambda: self._design, self.settings, self)

    def show_steps(self) -> None:
        """Show what was done to the project, beside the window, to go back or forward in."""
        from widgets.shell.steps import StepsDialog

        shown = self.findChild(StepsDialog) or StepsDialog(self.document, self)
        shown.show()
        shown.activateWindow()

    def show_ways_to_read(self, name: str) -> None:
        """Show the registers of a signal whose value looks wrong in every way, beside the window."""
        from app.discovery.repairs import can_be_explained
        from widgets.repair.dialog import RepairDialog

        if not can_be_explained(self.document.project, name):
            self.tell(self.tr("Only a number in registers can be read in several ways."), trouble=True)
            return
        RepairDialog(self.document, self.live, self.settings, name, self).show()

    def _find_here(self) -> None:
        """Look for something in the workspace in front, where nothing that has the focus does."""
        if self.workspace is self._design:
            self._design.editor.actions_of.find.trigger()
        elif self.workspace is self.bench:
            self.bench.filter_action.trigger()
        else:
            self.find_command()

    def show_shortcuts(self) -> None:
        """Show all commands with their keys."""
        from widgets.shell.help import ShortcutsDialog

        _run(ShortcutsDialog(self.menus.all(), self.document.project.panel, self))

    def show_cautions(self) -> None:
        """Show what everybody must know who lets a panel write to a machine."""
        from widgets.shell.help import CautionsDialog

        _run(CautionsDialog(self))

    def show_about(self) -> None:
        """Show what this program is."""
        from widgets.shell.help import AboutDialog

        _run(AboutDialog(self))

    # Events

    def focusNextPrevChild(self, forward: bool) -> bool:
        """The Tab key goes through all parts in reading order, whenever each was made."""
        return next_stop(self, forward=forward)

    def closeEvent(self, event: QCloseEvent) -> None:
        """Ask about unsaved changes and findings, then disarm, disconnect and go."""
        self.succeed_wholly()
        if self._ask and not (self.finding_out.may_close() and self.files.may_leave()):
            event.ignore()
            return
        self.finding_out.close()
        if self._trial is not None:
            self._trial.leave()
        self.live.disconnect_from_line()
        self.files.close(keep=not self._ask)
        self.ahead.close()
        self._remember()
        event.accept()

    def _give_focus_back(self) -> None:
        """After a dialog the focus is where it was before: where some leave it nowhere, Qt takes the first stop."""
        if self.focusWidget() in (None, self):
            (self.edit.target or self.workspace).setFocus(Qt.FocusReason.ActiveWindowFocusReason)

    def changeEvent(self, event: QEvent) -> None:
        """A window that is not in front holds no key; one that comes to the front looks at its file."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.ActivationChange:
            if self.isActiveWindow():
                self.files.look()
                self._give_focus_back()
            else:
                self.live.release_all()


def _run(dialog: QDialog) -> None:
    """Show a dialog until it is closed, and keep nothing of it."""
    dialog.exec()
    dialog.deleteLater()
