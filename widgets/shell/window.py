"""The main window: one project, its workspaces, its menus and the line strip."""

from __future__ import annotations

import time
from collections import deque
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QEvent, QSignalBlocker, QSize, Qt, QTimer, Signal
from PySide6.QtGui import QCloseEvent, QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import (
    QApplication,
    QDialog,
    QDockWidget,
    QFrame,
    QHBoxLayout,
    QMainWindow,
    QMessageBox,
    QStackedWidget,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from app.project.model import FORMAT, Project
from widgets.bench.workspace import BenchWorkspace
from widgets.document.blank import blank
from widgets.document.document import Document
from widgets.document.settings import LeftOff, Settings
from widgets.kit.commands import list_commands
from widgets.kit.elided import ShortLabel
from widgets.kit.focus import next_stop
from widgets.kit.language import Language
from widgets.kit.look import set_look
from widgets.kit.notice_slot import slot_height
from widgets.kit.palette import Appearance, Theme
from widgets.kit.questions import say
from widgets.kit.scaling import scaled
from widgets.live.activity_strip import ActivityStrip, StripMark, mark_of
from widgets.live.arming import ArmingBadge
from widgets.live.follower_card import DOUBTED, status_look
from widgets.live.live_session import LiveSession
from widgets.live.live_source import Observation
from widgets.live.recording import LastMinutes
from widgets.live.stop_alarm import StopAlarm
from widgets.shell import window_state
from widgets.shell.menus import WindowMenus
from widgets.shell.project_files import ProjectFiles

if TYPE_CHECKING:  # made, and so imported, when it is first wanted
    from app.client.transactions import Transaction
    from widgets.design.workspace import DesignWorkspace
    from widgets.live.line_view import LineView
    from widgets.start_up.workspace import StartUpWorkspace

DISARMED: Final = "disarmed"
RECORDINGS: Final = "recordings"
WITHHELD: Final = "withheld"
CHANGED: Final = "design"
"""What a notice of the window is about."""
DESIGN, BENCH, START_UP = 0, 1, 2
"""The workspaces in the order of the switcher."""
RECORDING: Final = ".fanrec"
"""The ending of recordings, which are played and not edited."""
STATUS_EVERY_S: Final = 0.4
"""How often it is said how lines, devices and data stand."""
MESSAGE_MS: Final = 8_000
"""How long a message stays in the bar."""
SUCCEED_AFTER_MS: Final = 300
"""From the place of a former window being taken until also the workspaces are made that are not in front."""
LINE_VIEW_AFTER_MS: Final = 300
"""From a window being there until its line view is made, which nobody asked for yet: behind the first values."""
UNLISTED: Final = 5_000
"""Transactions that are kept at most for a line view that is not made yet: of the first moments of a line."""
COMFORTABLE: Final = QSize(1240, 700)
LINE_VIEW_HEIGHT: Final = 250
"""Of the line view when it is opened first: a list of some seven transactions."""


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
        self.theme = theme
        self._ask = True
        self._stood_at = 0.0
        self.document = Document(blank(4, 20), None, self)
        self.live = LiveSession(self)
        self.observation = Observation(self.live, self)
        self.last_minutes = LastMinutes(self, self.observation, self.settings)
        if former is not None:
            self.document.take_over(former.document)
            self.live.take_over(former.live)
            self.observation.take_over(former.observation)
            self.last_minutes.allow()
        self.strip = ActivityStrip(self)
        self._line_view: LineView | None = None
        self._unlisted: deque[Transaction] = deque(maxlen=UNLISTED)
        self.line_dock = _LineDock(self)
        self.setAcceptDrops(True)
        self.files: ProjectFiles = ProjectFiles(
            self,
            self.document,
            self.live,
            self.settings,
            state if former is None else former.files.state,
            design=lambda: self.design,
            not_taken_over=self.not_taken_over,
        )
        self.menus = WindowMenus(self, self.document, self.settings)
        self._design: DesignWorkspace | None = None
        self._start_up: StartUpWorkspace | None = None
        self.notices = self.files.bar
        self.bench: BenchWorkspace = BenchWorkspace(self.document, self.live, self.notices, settings=self.settings)
        self._make_frame()
        self.menus.fill(self.files.fill_menu, self.bench.fill_menu, self.last_minutes.action)
        self._connect()
        self._former = former
        if former is not None:
            self.files.take_over(former.files)
        self._retitle()
        self.show_workspace(workspace)
        self.resize(COMFORTABLE)
        self._arrange()
        QTimer.singleShot(LINE_VIEW_AFTER_MS, self, lambda: self.line_view)
        if former is not None:
            self._succeed(former)

    def _succeed(self, former: MainWindow) -> None:
        """Look as the former window did, and stand in its place."""
        self.bench.where.setCurrentIndex(former.bench.where.currentIndex())
        self.restoreGeometry(former.saveGeometry())
        self.show()
        self.menus.strip.setChecked(former.menus.strip.isChecked())
        self.menus.full_screen.setChecked(former.menus.full_screen.isChecked())
        self.menus.line_view.setChecked(former.menus.line_view.isChecked())
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
        else:
            self._former = None
            former.deleteLater()
        QTimer.singleShot(0, self, self._go_on_succeeding)

    # Projects and files

    def open_file(self, path: Path) -> bool:
        """Open a project, after the question about unsaved changes, or play a recording.

        False if it was not opened; that has been said.
        """
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
        """Go to a workspace, counted from 0 in the order of the switcher."""
        self._stack.setCurrentWidget(self.start_up if number == START_UP else self.bench if number else self.design)
        self.menus.workspaces[number].setChecked(True)
        self.workspace.setFocus()
        self._say_changed()

    @property
    def workspace_number(self) -> int:
        """Which workspace is shown, counted from 0."""
        shown = self._stack.currentWidget()
        return BENCH if shown is self.bench else START_UP if shown is self._start_up else DESIGN

    @property
    def workspace(self) -> QWidget:
        """The workspace that is shown."""
        return self._stack.currentWidget() or self.bench

    @property
    def design(self) -> DesignWorkspace:
        """The Design workspace. Made when it is first wanted: a demo begins on the Bench, and is live sooner so."""
        if self._design is None:
            from widgets.design.screen.live_rows import LiveReadings
            from widgets.design.workspace import DesignWorkspace

            self._design = DesignWorkspace(self.document, self.settings)
            self._stack.addWidget(self._design)
            self._design.set_readings_source(LiveReadings(self.live, self))
            self._design.fill_menu(self.menus.design)
            self._design.wanted.connect(self._bring_design)
            self._design.not_taken_over_changed.connect(self._retitle)
            self.files.keep_drafts_of(self._design)
            window_state.arrange_parts(self._design, self.settings)
            if self._former is not None and self._former._design is not None:
                self._design.take_over(self._former._design)
                self._retitle()
        return self._design

    def not_taken_over(self) -> list[str]:
        """What was begun or typed and is not in the project, so in no file either, in words."""
        design = self._design or (self._former._design if self._former is not None else None)
        return design.not_taken_over() if design is not None else []

    @property
    def has_design(self) -> bool:
        """Whether the Design workspace has been made."""
        return self._design is not None

    @property
    def start_up(self) -> StartUpWorkspace:
        """The Start-up workspace. Made when it is first wanted."""
        if self._start_up is None:
            from widgets.start_up.workspace import StartUpWorkspace

            made = StartUpWorkspace(
                self.document,
                self.live,
                self.observation,
                self.settings,
                (self.bench.connect_action, self.bench.disconnect_action),
            )
            self._start_up = made
            self._stack.addWidget(made)
            made.fill_menu(self.menus.start_up)
            made.said.connect(self._say_of_recordings)
            made.withheld.connect(self._say_withheld)
            window_state.arrange_parts(made, self.settings)
            if self._former is not None and self._former._start_up is not None:
                made.take_over(self._former._start_up)
        return self._start_up

    def _bring_design(self) -> None:
        if self.workspace is not self.design:
            self.show_workspace(DESIGN)

    def _edit_screen(self, name: str) -> None:
        self.document.select_screen(name)
        self.show_workspace(DESIGN)
        self.design.show_view("screen")
        self.activateWindow()

    # Where the last window was left

    def take_up(self) -> None:
        """Begin where the last window was left: its project, its workspace, its view and its screen."""
        left = self.settings.left_off
        if not self.settings.resumes or left.path is None or not self.files.open_last(left.path):
            return
        self.document.select_screen(left.screen)
        self.show_workspace(left.workspace)
        if left.workspace == DESIGN and left.view:
            from widgets.design.views import VIEWS  # with its workspace, which is made only when it is wanted

            if left.view in VIEWS:
                self.design.show_view(left.view)

    def _arrange(self) -> None:
        """Stand where the last window stood, divided as that was."""
        window_state.arrange(self, self.settings)
        hidden, floating = self.line_dock.isHidden(), self.line_dock.isFloating()
        for action, on in ((self.menus.line_view, not hidden), (self.menus.line_window, floating)):
            with QSignalBlocker(action):  # it is so already, and opening it anew would take the focus
                action.setChecked(on)
        if not hidden:
            _ = self.line_view

    def _remember(self) -> None:
        window_state.remember(self, self.settings)
        self.settings.left_off = LeftOff(
            path=self.document.path,
            workspace=self.workspace_number,
            view=self._design.view if self._design is not None else self.settings.left_off.view,
            screen=self.document.selection.screen,
        )

    # What is said

    @property
    def told(self) -> str:
        """What was said last; empty if that is no longer shown."""
        return self._message.text().removeprefix("\u26a0 ")

    def tell(self, words: str, trouble: bool = False) -> None:
        """Say something in the bar for a while."""
        self._message.setText(("\u26a0 " if trouble else "") + words)
        set_look(self._message, "caution" if trouble else "faint")
        self._message_timer.start(MESSAGE_MS)

    def _say_of_recordings(self, words: str, trouble: bool) -> None:
        """What is wrong is said where there is room for all of it, until it is closed or all is well."""
        if trouble:
            self.notices.say(RECORDINGS, words)
        else:
            self.notices.retract(RECORDINGS)
            self.tell(words)

    def _say_withheld(self, why: str) -> None:
        if why:
            self.notices.say(WITHHELD, why)
        else:
            self.notices.retract(WITHHELD)

    def _say_changed(self) -> None:
        """Where the panel is operated: it is not the one that was designed meanwhile. In Design that is no news."""
        session = self.live.session
        if session is None or session.project is self.document.project or self.workspace_number == DESIGN:
            self.notices.retract(CHANGED)
        else:
            self.notices.say(
                CHANGED,
                self.tr("The design was changed after connecting. The panel still runs the previous version."),
                ((self.tr("Reconnect"), self._connect_again),),
            )

    def _connect_again(self) -> None:
        self.bench.connect_line()
        self._say_changed()  # whoever stays with the machine as it runs is asked first, and may

    # Making the window

    def _make_frame(self) -> None:
        self._stack = QStackedWidget()
        bar = QFrame()
        bar.setProperty("look", "bar")
        row = QHBoxLayout(bar)
        row.setContentsMargins(6, 0, 8, 0)
        row.setSpacing(0)
        self._stack.addWidget(self.bench)
        for action in self.menus.workspaces:
            button = QToolButton()
            button.setProperty("look", "workspace")
            button.setDefaultAction(action)
            button.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextOnly)
            button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
            row.addWidget(button)
        self._message = ShortLabel()
        self._message.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self._message_timer = QTimer(self)
        self._message_timer.setSingleShot(True)
        self._message_timer.timeout.connect(self._message.clear)
        self.badge = ArmingBadge(self.bench.arm_action, self.bench.disarm_action)
        self.status = ShortLabel()
        """The worst that is wrong, in every workspace but the Bench, which says more of it."""
        self.status.setAlignment(Qt.AlignmentFlag.AlignCenter)
        row.addWidget(self.status, 1)
        row.addWidget(self._message, 1)
        row.addWidget(self.badge)
        whole = QWidget()
        layout = QVBoxLayout(whole)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(bar)
        layout.addWidget(self._stack, 1)
        layout.addLayout(self._make_foot())
        self.setCentralWidget(whole)
        self.alarm = StopAlarm(self.live, (self.notices, self.strip), whole)
        self.addDockWidget(Qt.DockWidgetArea.BottomDockWidgetArea, self.line_dock)
        self.line_dock.hide()

    def _make_foot(self) -> QHBoxLayout:
        """The strip, and at its left the slot for what stays so; as high with a notice as without."""
        foot = QHBoxLayout()
        foot.setContentsMargins(0, 0, 0, 0)
        foot.setSpacing(0)
        foot.addWidget(self.notices, 3, Qt.AlignmentFlag.AlignVCenter)
        foot.addWidget(self.strip, 2)
        foot.addStrut(slot_height())
        return foot

    def _connect(self) -> None:
        self._connect_menus()
        self.document.status_changed.connect(self._retitle)
        self.files.said.connect(self.tell)
        self.files.screen_wanted.connect(self._edit_screen)
        self.document.changed.connect(self._reserve_lanes)
        self.document.changed.connect(self._say_changed)
        self.live.connection_changed.connect(self._connection_changed)
        self.last_minutes.said.connect(self._say_of_recordings)
        self.live.frame.connect(self._say_status)
        self.live.connection_changed.connect(self._say_status)
        self.live.frame.connect(self._show_trouble)
        self.live.left_on.connect(self._say_left_on)
        self.live.disarmed.connect(self._say_disarmed)
        self.live.transactions.connect(lambda news: self.strip.add(map(mark_of, news)))
        self.live.transactions.connect(self._keep_unlisted)
        self.strip.opened.connect(self._open_line_view)
        self.line_dock.closed.connect(lambda: self.menus.line_view.setChecked(False))
        self.line_dock.topLevelChanged.connect(self.menus.line_window.setChecked)
        self._connection_changed()

    def _connect_menus(self) -> None:
        menus = self.menus
        menus.workspace_chosen.connect(self.show_workspace)
        menus.strip_toggled.connect(self.strip.setVisible)
        menus.full_screen_toggled.connect(self.show_full_screen)
        menus.line_view_toggled.connect(self.show_line_view)
        menus.line_window_toggled.connect(self.float_line_view)
        menus.find_wanted.connect(self.find_command)
        menus.shortcuts_wanted.connect(self.show_shortcuts)
        menus.cautions_wanted.connect(self.show_cautions)
        menus.about_wanted.connect(self.show_about)
        menus.appearance_chosen.connect(self.choose_look)
        menus.language_chosen.connect(self.choose_language)
        menus.size_chosen.connect(self.choose_size)
        # What a menu is about is made when it is first opened, and puts its commands there.
        menus.design.aboutToShow.connect(lambda: self.design)
        menus.start_up.aboutToShow.connect(lambda: self.start_up)
        menus.line.aboutToShow.connect(lambda: self.line_view)

    def _say_status(self) -> None:
        now = time.monotonic()
        if self.live.connected and now - self._stood_at < STATUS_EVERY_S:
            return
        self._stood_at = now
        statuses = None if self.workspace is self.bench else self.live.statuses()
        worst = None if statuses is None else statuses.worst
        words = f"\u26a0 {worst.words}" if worst is not None and worst.level >= DOUBTED else ""
        if worst is not None and words != self.status.text():
            set_look(self.status, status_look(worst))
        if words != self.status.text():
            self.status.setText(words)
            self.status.setToolTip(worst.sentence if worst is not None and words else "")
            self.status.setAccessibleName(self.status.toolTip())

    def _say_left_on(self, signals: tuple[str, ...]) -> None:
        words = self.tr(
            "No confirmation that these signals were stopped or switched off: {signals}. They may still "
            "be on. Check the machine before anyone approaches it."
        ).format(signals=", ".join(signals))
        say(self, QMessageBox.Icon.Warning, self.tr("Possibly still on"), words)

    def _say_disarmed(self, why: str) -> None:
        words = self.tr("{why}. Keys that stop still write; arm again for the others.")
        self.notices.say(DISARMED, words.format(why=why[:1].upper() + why[1:]))

    # Keeping it in step

    def _retitle(self) -> None:
        self.setWindowTitle(self.tr("{name}[*] \u2013 Fanlight").format(name=self.files.name))
        modified = self.document.modified or bool(self.not_taken_over())
        if modified != self.isWindowModified():  # every widget is told of it, also where it was so before
            self.setWindowModified(modified)
        self.menus.name_steps()

    def _connection_changed(self) -> None:
        writing = self.live.writing
        self.badge.show_writing(writing)
        if not writing.disarmed:
            self.notices.retract(DISARMED)
        session = self.live.session
        if session is None or session.project is self.document.project:
            self.notices.retract(CHANGED)
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

    # The line view

    @property
    def line_view(self) -> LineView:
        """The list of transactions, with all of them since the connection. Made when it is wanted, or soon."""
        if self._line_view is None:
            from widgets.live.line_view import LineView

            self._line_view = LineView(self.live, self.settings)
            self._line_view.add(self._unlisted)
            self._unlisted.clear()
            self.line_dock.take(self._line_view)
            self._line_view.fill_menu(self.menus.line)
            window_state.arrange_parts(self._line_view, self.settings)
        return self._line_view

    def _keep_unlisted(self, news: Sequence[Transaction]) -> None:
        if self._line_view is None:
            self._unlisted.extend(news)

    def show_line_view(self, on: bool) -> None:
        """Show the list of transactions, or put it away."""
        if on == self.line_dock.isVisible():
            return
        if on and not self._has_room_for_line_view():
            self.line_dock.setFloating(True)
            self.line_dock.resize(self.width(), scaled(LINE_VIEW_HEIGHT))
        self.line_dock.setVisible(on)
        if not on:
            self.workspace.setFocus()
            return
        height = min(scaled(LINE_VIEW_HEIGHT), self.height() // 2)
        if not self.line_dock.isFloating() and self.line_dock.height() < height:
            self.resizeDocks([self.line_dock], [height], Qt.Orientation.Vertical)
        self.line_view.setFocus()

    def _has_room_for_line_view(self) -> bool:
        """Whether the window is high enough for both; it does not grow for it, since keys would move."""
        parts = (self.menuBar(), self.centralWidget(), self.line_view)
        return sum(part.minimumSizeHint().height() for part in parts if part is not None) <= self.height()

    def float_line_view(self, on: bool) -> None:
        """Make the line view a window of its own, or put it back below the strip."""
        if not on and not self._has_room_for_line_view():
            self.tell(self.tr("At this size the line view does not fit in this window"), trouble=True)
            self.menus.line_window.setChecked(True)
        elif on != self.line_dock.isFloating():
            self.line_dock.setFloating(on)
        self.menus.line_view.setChecked(True)

    def _open_line_view(self, strip_mark: StripMark | None) -> None:
        """Open the line view, on one transaction if the strip names it."""
        self.menus.line_view.setChecked(True)
        transaction = strip_mark.transaction if strip_mark is not None else None
        if transaction is not None and not self.line_view.show_transaction(transaction):
            self.tell(self.tr("This transaction is no longer in the list"), trouble=True)

    def choose_look(self, appearance: Appearance) -> None:
        """Light, dark or as the system, from now on."""
        self.settings.appearance = appearance
        if self.theme is not None:
            self.theme.choose(appearance)

    def choose_language(self, language: Language) -> None:
        """Speak this language from now on: whoever runs this window puts another one in its place."""
        self.settings.language = language
        self.language_chosen.emit(language)

    def choose_size(self, percent: int) -> None:
        """Draw everything at this many per cent from now on: whoever runs this window puts another one in its place."""
        self.settings.size = percent
        self.size_chosen.emit(percent)

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

        others = [each for each in list_commands(self.menus.all()) if each.action is not self.menus.find]
        find(others, self.design, self.settings, self)

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
        """Ask about unsaved changes, then disarm, disconnect and go."""
        self.succeed_wholly()
        if self._ask and not self.files.may_leave():
            event.ignore()
            return
        self.live.disconnect_from_line()
        self.files.close(keep=not self._ask)
        self._remember()
        event.accept()

    def changeEvent(self, event: QEvent) -> None:
        """A window that is not in front holds no key; one that comes to the front looks at its file."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.ActivationChange:
            if self.isActiveWindow():
                self.files.look()
            else:
                self.live.release_all()

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Take one file of this computer."""
        if _dragged_file(event) is not None:
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        """Open the file, once the drag is over."""
        path = _dragged_file(event)
        if path is not None:
            event.acceptProposedAction()
            # A dialog inside the drop would hold the program that the file was dragged from.
            QTimer.singleShot(0, self, lambda: self.open_file(path))


class _LineDock(QDockWidget):
    """The line view below the strip, or as a window of its own on another screen."""

    closed = Signal()
    """A button closed it."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("line view")
        self.setWindowTitle(self.tr("Line view"))
        self.setAllowedAreas(Qt.DockWidgetArea.BottomDockWidgetArea | Qt.DockWidgetArea.TopDockWidgetArea)
        self.topLevelChanged.connect(self._title)
        self._title(floating=False)

    def take(self, view: LineView) -> None:
        """Hold this view."""
        self.setWidget(view)
        view.away.clicked.connect(self.close)

    def _title(self, floating: bool) -> None:
        """A title to take hold of as a window of its own; below the strip the view's own heading is enough."""
        former = self.titleBarWidget()
        self.setTitleBarWidget(None if floating else QWidget())  # type: ignore[arg-type]  # None: Qt's own title
        if former is not None:
            former.deleteLater()

    def focusNextPrevChild(self, forward: bool) -> bool:
        return next_stop(self, forward=forward) if self.isFloating() else super().focusNextPrevChild(forward)

    def closeEvent(self, event: QCloseEvent) -> None:
        super().closeEvent(event)
        self.closed.emit()


def _run(dialog: QDialog) -> None:
    """Show a dialog until it is closed, and keep nothing of it."""
    dialog.exec()
    dialog.deleteLater()


def _dragged_file(event: QDropEvent) -> Path | None:
    urls = event.mimeData().urls()
    return Path(urls[0].toLocalFile()) if len(urls) == 1 and urls[0].isLocalFile() else None
