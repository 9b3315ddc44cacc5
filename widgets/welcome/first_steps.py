"""What a project needs before it runs, step by step: each ticks itself, and leads to its place."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final, Literal

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import QSizePolicy, QToolButton, QVBoxLayout, QWidget

from app.language import Template, mark
from app.project.model import Project
from widgets.document.document import Document
from widgets.document.settings import Settings
from widgets.kit.controls import push_button
from widgets.kit.icons import SIDE, state_icon
from widgets.kit.look import set_look
from widgets.kit.scaling import scaled
from widgets.kit.section import Section

StepName = Literal["line", "device", "signals", "screen", "changes", "try", "connect"]

STEPS: Final[dict[StepName, Template]] = {
    "line": mark("steps", "Add a line"),
    "device": mark("steps", "Add a device"),
    "signals": mark("steps", "Name its signals"),
    "screen": mark("steps", "Place them on a screen"),
    "changes": mark("steps", "Let keys change the screen"),
    "try": mark("steps", "Try it (F9)"),
    "connect": mark("steps", "Connect"),
}
"""In the order in which they are taken."""

_HAS: Final[dict[StepName, Callable[[Project], object]]] = {
    "line": lambda project: project.lines,
    "device": lambda project: project.followers,
    "signals": lambda project: project.signals,
    "screen": lambda project: any(screen.fields for screen in project.screens),
    "changes": lambda project: project.screen_changes,
}
"""Whether the project itself shows that a step was taken."""


BEGINNER: Final = 3
"""Steps; a project that has taken fewer opens the list, as long as nobody opened or closed it."""


class FirstSteps(QWidget):
    """A list for the side of a workspace; one line while it is closed, and nothing once it is put away."""

    wanted = Signal(str)
    """Somebody wants to go to the place of a step, one of STEPS."""

    def __init__(self, document: Document, settings: Settings, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._settings = settings
        self._done: set[StepName] = set()
        self.steps: dict[StepName, QToolButton] = {}
        body = QWidget()
        rows = QVBoxLayout(body)
        rows.setContentsMargins(scaled(4), 0, 0, scaled(4))
        rows.setSpacing(0)
        for name in STEPS:
            self.steps[name] = self._step(name)
            rows.addWidget(self.steps[name])
        self.away = push_button(self.tr("Put this list away"), lambda: self.put_away(True), "quiet")
        self.away.setToolTip(self.tr("It comes back from the Help menu."))
        rows.addWidget(self.away, 0, Qt.AlignmentFlag.AlignLeft)
        self.section = Section(self.tr("First steps"), body, is_open=False)
        self.section.toggled.connect(lambda on: self._remember("open" if on else "closed"))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(scaled(8), 0, 0, 0)
        layout.addWidget(self.section)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Maximum)
        document.replaced.connect(self._begin_anew)
        document.changed.connect(self._look)
        if settings.first_steps == "away":  # never shown here: without a place yet, it would be a window for a moment
            self.hide()
        self._begin_anew()

    def note(self, step: StepName) -> None:
        """A step was taken that the project does not show: it was tried, or connected."""
        if step not in self._done:
            self._done.add(step)
            self._look()

    def is_done(self, step: StepName) -> bool:
        """Whether a step was taken."""
        shows = _HAS.get(step)
        return step in self._done if shows is None else bool(shows(self._document.project))

    def put_away(self, away: bool) -> None:
        """Put the list away for good, or bring it back."""
        self._remember("away" if away else "open")
        self.section.set_open(True)
        self.setVisible(not away)

    def _step(self, name: StepName) -> QToolButton:
        button = QToolButton()
        set_look(button, "quiet")
        button.setAutoRaise(True)
        button.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        button.setIconSize(QSize(scaled(SIDE), scaled(SIDE)))
        button.setText(STEPS[name].translated())
        button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        button.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        button.clicked.connect(lambda _checked=False: self.wanted.emit(name))
        return button

    def _begin_anew(self) -> None:
        self._done.clear()
        self._look()
        left = self._settings.first_steps
        done = sum(map(self.is_done, STEPS))
        self.section.set_open(left in ("open", "away") or (not left and done < BEGINNER))

    def _look(self) -> None:
        done = 0
        for name, button in self.steps.items():
            is_done = self.is_done(name)
            done += is_done
            button.setIcon(state_icon("good" if is_done else "unread"))
            words = self.tr("{step}: done") if is_done else self.tr("{step}: to do")
            button.setAccessibleName(words.format(step=button.text()))
        self.section.set_summary(self.tr("{done} of {all}").format(done=done, all=len(self.steps)))

    def _remember(self, state: Literal["open", "closed", "away"]) -> None:
        self._settings.first_steps = state
