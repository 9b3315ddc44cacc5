"""A case of a trial recorded while the panel is operated: its steps so far, and what a person marks in them."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QFrame, QMenu, QSizePolicy, QToolButton, QVBoxLayout

from widgets.document.document import Document
from widgets.kit.commands import allow, command, mark_entry
from widgets.kit.controls import push_button
from widgets.kit.dialogs.questions import Question, TextQuestion, say
from widgets.kit.elided import StateLabel
from widgets.kit.flow import FlowLayout
from widgets.kit.icons import tool
from widgets.kit.plain import plain_label
from widgets.kit.row_list import RowList
from widgets.kit.scaling import line_height, scaled
from widgets.live.live_session import LiveSession, NotConnectedError

if TYPE_CHECKING:
    from app.noting.case_notes import CaseNotes
    from app.noting.inputs import InputsWatched
    from app.session.session import Session

STEPS: Final = 5
FEWEST: Final = 2
"""So many of the last steps are in sight, and where the window is low."""
STEP_HEIGHT: Final = 26
"""Pixels of a step at 100 per cent."""


class CaseRecorder(QFrame):
    """Below the readings while a case is recorded: the steps so far, and buttons to mark what matters.

    It has the session tell what is done at the panel, wherever its keys are pressed.
    """

    kept = Signal(object)
    """A case was put into the trial in this file."""

    def __init__(self, document: Document, live: LiveSession, signal_chosen: Callable[[], str]) -> None:
        """`signal_chosen` gives the signal of the current row of the readings, empty if there is none."""
        super().__init__()
        self._document = document
        self._live = live
        self._signal_chosen = signal_chosen
        self._session: Session | None = None
        """The session that the case is of, also once it has ended."""
        self._notes: CaseNotes | None = None
        self._inputs: InputsWatched | None = None
        self._shown: tuple[object, ...] = ()
        self.setProperty("look", "card")
        self._make_actions()
        self._lay_out()
        live.frame.connect(self._look)
        live.connection_changed.connect(self._follow)
        self._follow()

    # Commands

    def _make_actions(self) -> None:
        def made(text: str, run: Callable[[], object], keys: str) -> QAction:
            return command(self, text, run, keys)

        self.record_action = made(self.tr("Record a &case of a trial"), self.start, "Ctrl+Alt+C")
        self.record_action.setToolTip(
            self.tr("The panel begins anew, and simulated devices with it; then keys are noted as steps.")
        )
        self.keep_action = made(self.tr("&Keep the case\u2026"), self.keep, "Ctrl+Alt+Shift+C")
        self.expect_action = made(self.tr("E&xpect\u2026"), lambda: self._open(self.expect), "Ctrl+Alt+Shift+X")
        self.wait_action = made(self.tr("Wai&t until\u2026"), lambda: self._open(self.until), "Ctrl+Alt+Shift+T")
        self.ask_action = made(self.tr("Ask a person\u2026"), self._ask, "Ctrl+Alt+Shift+A")
        self.note_action = made(self.tr("Add a note\u2026"), self._note, "Ctrl+Alt+Shift+N")
        self.undo_action = made(self.tr("Forget the last step"), self.undo, "Ctrl+Alt+Shift+Z")
        self.expect_signal_action = mark_entry(QAction(self.tr("Expect this value"), self))
        self.expect_signal_action.triggered.connect(lambda: self._mark_signal(wait=False))
        self.wait_signal_action = mark_entry(QAction(self.tr("Wait until it is this value"), self))
        self.wait_signal_action.triggered.connect(lambda: self._mark_signal(wait=True))

    @property
    def marks(self) -> tuple[QAction, ...]:
        """What is marked in a case, and taken back."""
        return self.expect_action, self.wait_action, self.ask_action, self.note_action, self.undo_action

    def fill_menu(self, menu: QMenu) -> None:
        """Put the commands into a menu."""
        of_case = menu.addMenu(self.tr("Case of a tr&ial"))
        of_case.addActions([self.record_action, self.keep_action])
        of_case.addSeparator()
        of_case.addActions(self.marks)

    def _lay_out(self) -> None:
        self.state = StateLabel()
        self.expect = self._mark_button(self.tr("Expect"), wait=False)
        self.until = self._mark_button(self.tr("Wait until"), wait=True)
        self._asking = [push_button(self.tr("Ask\u2026"), self._ask), push_button(self.tr("Note\u2026"), self._note)]
        self.undo_button = push_button(self.tr("Undo"), self.undo)
        self.undo_button.setToolTip(self.tr("Forget the last step; what it did to the panel stays done"))
        self.keep_button = push_button(self.tr("Keep\u2026"), self.keep)
        self.away = tool("cross", self.tr("Discard the case"), self)
        self.away.clicked.connect(self.discard)
        self.steps = RowList()
        self.steps.setAccessibleName(self.tr("Steps of the case"))
        self.steps.setFrameShape(QFrame.Shape.NoFrame)
        self.steps.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.steps.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self.steps.setMinimumHeight(line_height(STEP_HEIGHT) * FEWEST)
        self.steps.setMaximumHeight(line_height(STEP_HEIGHT) * STEPS)
        bar = self.steps.verticalScrollBar()
        bar.rangeChanged.connect(lambda _least, most: bar.setValue(most))  # the last step is what one looks for
        head = FlowLayout(spacing=scaled(8))
        head.addWidget(plain_label(self.tr("Case"), "heading"))
        for widget in (self.expect, self.until, *self._asking, self.undo_button, self.keep_button, self.away):
            head.addWidget(widget)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(scaled(12), scaled(6), scaled(8), scaled(6))
        layout.setSpacing(scaled(4))
        layout.addLayout(head)
        layout.addWidget(self.state)
        layout.addWidget(self.steps)

    def _mark_button(self, text: str, *, wait: bool) -> QToolButton:
        button = QToolButton()
        button.setText(text)
        button.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        menu = QMenu(button)
        menu.aboutToShow.connect(lambda: self._fill_marks(menu, wait=wait))
        button.setMenu(menu)
        return button

    def _open(self, button: QToolButton) -> None:
        """Open the menu of a button, also where the readings, and so the button, are in another view."""
        menu = button.menu()
        if button.isVisible():
            button.showMenu()
        elif menu is not None:
            window = self.window()
            menu.popup(window.mapToGlobal(window.rect().center()))

    def _fill_marks(self, menu: QMenu, *, wait: bool) -> None:
        """What is to be seen now, each as an entry: the screen, the rows that say something, the chosen signal."""
        menu.clear()
        session = self._session
        if self._notes is None or session is None:
            return

        def add(text: str, run: Callable[[], object]) -> None:
            mark_entry(menu.addAction(text.replace("&", "&&"))).triggered.connect(lambda _on=False: self._mark(run))

        notes = self._notes
        screen = self.tr("Screen: {screen}").format(screen=session.panel.state.shown)
        add(screen, lambda: notes.mark_screen(wait=wait))
        for row, cells in enumerate(session.panel.rows()):
            if text := " ".join(cells.text.split()):
                words = self.tr("Row {row}: {text}").format(row=row + 1, text=text)
                add(words, partial(notes.mark_row, row, wait=wait))
        name = self._signal_chosen()
        if name in session.project.signal_named:
            menu.addSeparator()
            add(self.tr("Value of {signal}").format(signal=name), lambda: notes.mark_signal(name, wait=wait))

    # Recording

    @property
    def recording(self) -> bool:
        """Whether what is done at the panel becomes steps now."""
        return self._notes is not None and self._live.session is self._session

    def start(self) -> None:
        """Begin a case where a case begins: the panel wakes up, simulated devices begin anew."""
        from app.noting.case_notes import CaseNotes
        from app.noting.inputs import InputsWatched

        session = self._live.session
        if session is None or not self.may_discard():
            return
        self._drop()
        if session.simulation is not None:
            try:
                self._live.connect_to(session.project, "simulated")
            except NotConnectedError as why:
                say(self.window(), "alarm", self.tr("The case cannot be recorded"), str(why))
                return
            session = self._live.session
            assert session is not None
        else:
            self._live.release_all()
            session.panel.begin()
        self._session = session
        self._notes = self._live.notes = CaseNotes(session.project, session.panel)
        self._inputs = InputsWatched({} if session.simulation is None else session.simulation.models)
        self._follow()

    def order(self, order: str) -> None:
        """A person has given a simulated device a value: DEVICE.WHAT=VALUE."""
        if self.recording and self._notes is not None:
            self._notes.order(order)
            self._show_steps()

    def _look(self) -> None:
        if not self.recording or self._notes is None or self._inputs is None:
            return
        for order in self._inputs.orders():
            self._notes.order(order)
        self._notes.look()
        self._show_steps()

    def _follow(self) -> None:
        """Say whether a case is recorded, and offer what can be done."""
        there, recording = self._notes is not None, self.recording
        if there and not recording:
            self._live.notes = None
        self.setVisible(there)
        allow(self.record_action, self._live.session is not None, self.tr("connect first"))
        allow(self.keep_action, there, self.tr("no case is recorded"))
        marks = (*self.marks, self.expect_signal_action, self.wait_signal_action)
        for action in marks:
            allow(action, recording, self.tr("no case is recorded"))
        for action in (self.expect_signal_action, self.wait_signal_action):
            action.setVisible(recording)
        for button in (self.expect, self.until, *self._asking, self.undo_button):
            button.setEnabled(recording)
        if there and not recording:
            self._tell("caution", self.tr("Disconnected: keep the case as it is, or discard it."))
        else:
            self._tell("", "")
        self._show_steps()

    def _tell(self, state: str, words: str) -> None:
        """Say what hinders, or no longer."""
        self.state.show_state(state, words)
        self.state.setVisible(bool(words))

    def _show_steps(self) -> None:
        from app.trial.words import step_words

        steps = () if self._notes is None else self._notes.steps
        if steps == self._shown or self._session is None:
            return
        self._shown = steps
        self.steps.clear()
        for number, step in enumerate(steps, 1):
            self.steps.add_row(step, f"{number}  {step_words(self._session.project, step)}")

    # Marks

    def row_menu(self, row: int) -> QMenu | None:
        """What can be marked of a row of the panel, counted from 0; None while no case is recorded."""
        notes = self._notes
        if notes is None or not self.recording:
            return None
        menu = QMenu(self)
        for text, wait in ((self.tr("Expect this row"), False), (self.tr("Wait until it is this row"), True)):
            entry = mark_entry(menu.addAction(text))
            entry.triggered.connect(lambda _on=False, wait=wait: self._mark(lambda: notes.mark_row(row, wait=wait)))
        for text, wait in ((self.tr("Expect this screen"), False), (self.tr("Wait until this screen is shown"), True)):
            entry = mark_entry(menu.addAction(text))
            entry.triggered.connect(lambda _on=False, wait=wait: self._mark(lambda: notes.mark_screen(wait=wait)))
        return menu

    def _mark_signal(self, *, wait: bool) -> None:
        name, notes = self._signal_chosen(), self._notes
        if notes is not None and self._session is not None and name in self._session.project.signal_named:
            self._mark(lambda: notes.mark_signal(name, wait=wait))

    def _mark(self, run: Callable[[], object]) -> None:
        """Mark something, if a step can end here: not while a key is down."""
        if self._notes is None or not self.recording:
            return
        if not self._notes.can_mark:
            self._tell("caution", self.tr("Let the key go first: a step ends when its key is let go."))
            return
        run()
        self._follow()

    def _ask(self) -> None:
        self._say(
            self.tr("Ask a person"),
            self.tr("Whoever runs the trial answers yes or no."),
            self.tr("Question"),
            lambda notes, text: notes.ask(text),
        )

    def _note(self) -> None:
        self._say(
            self.tr("Add a note"),
            self.tr("It is shown in the trial and stands in its record."),
            self.tr("Note"),
            lambda notes, text: notes.note(text),
        )

    def _say(self, headline: str, sentence: str, label: str, run: Callable[[CaseNotes, str], object]) -> None:
        notes = self._notes
        if notes is None or not self.recording:
            return
        question = TextQuestion(self.window(), headline, sentence, label)
        question.line.setMaxLength(400)
        text = (question.ask() or "").strip()
        if text:
            self._mark(lambda: run(notes, text))

    def undo(self) -> None:
        """Forget the last step."""
        if self._notes is not None and self.recording:
            self._notes.undo()
            self._show_steps()

    # Its end

    def keep(self) -> None:
        """Ask for a name, and put the case into the trial of the project."""
        from app.trial.script_file import TrialFileError, add_case, usual_place

        if self._notes is None or self._session is None:
            return
        project_file = self._document.path
        if project_file is None:
            self._tell("caution", self.tr("Save the project first: its trial lies beside it."))
            return
        path = usual_place(project_file)
        sentence = self.tr("It is appended to {name}, the trial of this project.").format(name=path.name)
        question = TextQuestion(
            self.window(), self.tr("Keep the case"), sentence, self.tr("What it proves"), needed=True
        )
        question.line.setMaxLength(120)
        name = question.ask()
        if name is None:
            return
        if not name.strip():
            self._tell("caution", self.tr("A case needs a name: say what it proves."))
            return
        try:
            add_case(path, self._notes.case(name.strip()), self._session.project, project_file.name)
        except TrialFileError as why:
            self._tell("caution", str(why.problems[0]))
            return
        except OSError as why:
            words = self.tr("{name} was not written: {why}").format(name=path.name, why=why.strerror or why)
            self._tell("alarm", words)
            return
        self._drop()
        self.kept.emit(path)

    def discard(self) -> None:
        """Let the case go, after a question where it has steps."""
        if self.may_discard():
            self._drop()

    def may_discard(self) -> bool:
        """Whether there is nothing to be lost, or a person lets it go."""
        if self._notes is None or not self._notes.steps:
            return True
        question = Question(
            self.window(),
            "caution",
            self.tr("Case of a trial"),
            self.tr("Discard the case?"),
            self.tr("Its steps are in no file yet."),
        )
        return question.confirm(self.tr("&Discard"))

    def _drop(self) -> None:
        self._notes = self._live.notes = self._inputs = self._session = None
        self._shown = ()
        self.steps.clear()
        self._follow()

    def take_over(self, former: CaseRecorder) -> None:
        """Go on with the case of a window that this one replaces."""
        self._notes, former._notes = former._notes, None
        self._inputs, self._session = former._inputs, former._session
        if self.recording:
            self._live.notes = self._notes
        self._follow()
