"""What stands beside the list: what is asked, or what came of the chosen row; and the panel, now or as it was then."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Final

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QPushButton, QScrollArea, QSizePolicy, QStackedWidget, QVBoxLayout, QWidget

from app.panel.rendering import Attribute, Row, Rows
from app.project.model import Panel
from app.trial.outcome import Seen
from widgets.face.column import in_scroll_area
from widgets.face.face import PanelFace
from widgets.kit import palette
from widgets.kit.commands import keys_of, native, plain
from widgets.kit.controls import push_button
from widgets.kit.flow import FlowLayout
from widgets.kit.path_bar import PathBar
from widgets.kit.plain import plain_label
from widgets.kit.scaling import air, scaled
from widgets.trial.ask_page import AskPage
from widgets.trial.step_page import Details, StepPage
from widgets.trial.steps_model import StepKey, TrialModel

WIDTH: Final = 344
"""Of the pane, in pixels at 100 per cent."""
LEAST_FOR: Final = {"ask": 260, "by hand": 260, "measure": 420, "may move": 480}
"""Pixels at 100 per cent that a question of a kind has, rather than the panel below it."""
LEAST_PAGE: Final = 100
"""Pixels at 100 per cent of what is told that a low window keeps; the rest is scrolled."""
MOST_FACE: Final = 0.4
"""The share of the height that the panel may take."""


class SidePane(QWidget):
    """Shows the question that is asked before all else; else the chosen row; else how the whole trial stands."""

    def __init__(
        self,
        model: TrialModel,
        ask: AskPage,
        go_up: Callable[[StepKey | None], object],
        record_actions: Sequence[QAction],
        accept_action: QAction,
    ) -> None:
        """`go_up` chooses the row of a case, or none: what the path leads to.

        `record_actions` stand with what is told of the whole trial, `accept_action` with what did not pass.
        """
        super().__init__()
        self._model = model
        self._go_up = go_up
        self._key: StepKey | None = None
        self._live: Rows = ()
        self._running = False
        self.ask = ask
        self.step = StepPage(model)
        self.summary = Details()
        self.record_buttons = QWidget()
        row = FlowLayout(self.record_buttons, spacing=scaled(8))
        for action in record_actions:
            row.addWidget(_button_of(action))
        self.summary.add_deeds(self.record_buttons)
        self.step.add_deeds(_button_of(accept_action))
        self.path = PathBar()
        self._pages = QStackedWidget()
        self._areas: dict[QWidget, QScrollArea] = {}
        for page in (self.summary, self.step):
            area = self._areas[page] = in_scroll_area(page)
            area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
            self._pages.addWidget(area)
        self._pages.addWidget(ask)
        self._pages.setMinimumHeight(scaled(LEAST_PAGE))
        self.caption = plain_label("", "faint", wrap=False)
        self.caption.setContentsMargins(scaled(20), air(6), scaled(20), 0)
        self.face = PanelFace()
        self.face.set_keys_shown(False)
        self.face.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.face.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self.path)
        layout.addWidget(self._pages, 1)
        layout.addWidget(self.caption)
        layout.addWidget(self.face)
        self.show_key(None)

    @property
    def asking(self) -> bool:
        """Whether a question is shown."""
        return self._pages.currentWidget() is self.ask

    def set_panel(self, panel: Panel) -> None:
        """Another panel."""
        self.face.set_panel(panel)
        self._fit_face()

    def set_running(self, running: bool) -> None:
        """Whether the panel is operated just now."""
        self._running = running
        self._show_face()

    def show_rows(self, rows: Rows) -> None:
        """The panel shows this now."""
        self._live = rows
        self._show_face()

    def show_key(self, key: StepKey | None) -> None:
        """Tell of this row, or of the whole trial; not while something is asked."""
        if key != self._key:
            self.show_beginning()
        self._key = key
        self._show_path()
        if key is not None:
            self.step.show_key(key)
        if self.ask.asked is None:
            self._pages.setCurrentWidget(self._areas[self.summary if key is None else self.step])
        self._show_face()

    def show_beginning(self) -> None:
        """Scroll to what is told first: how it stands, and what to look at."""
        for area in self._areas.values():
            area.verticalScrollBar().setValue(0)

    def show_question(self) -> None:
        """Show what is asked, or no longer."""
        self._fit_face()
        if self.ask.asked is not None:
            self._pages.setCurrentWidget(self.ask)
            self._show_path()
            self._show_face()
        else:
            self.show_key(self._key)

    def _show_path(self) -> None:
        key = self._model.now if self.ask.asked is not None else self._key
        trial = self.tr("Trial")
        if key is None:
            self.path.set_path((), trial)
            return
        up = (trial, lambda: self._go_up(None))
        if key.part is None:
            self.path.set_path((up,), key.case)
            return
        case = (key.case, lambda: self._go_up(StepKey(key.case)))
        words = {
            "setup": self.tr("Before: {number}"),
            "step": self.tr("Step {number}"),
            "clean-up": self.tr("Afterwards: {number}"),
        }[key.part]
        self.path.set_path((up, case), words.format(number=key.number))

    def _show_face(self) -> None:
        """The panel as it was when the chosen step ended; else as it is, or was at last."""
        then = self._seen()
        if then is not None and not (self._running and self._key == self._model.now):
            self.caption.setText(self.tr("Panel at the end of this step"))
            self.face.set_rows(_as_rows(then))
        else:
            self.caption.setText(self.tr("Panel now") if self._running else self.tr("Panel"))
            self.face.set_rows(self._live)

    def _seen(self) -> Seen | None:
        if self._key is None or self._key.part is None or self.ask.asked is not None:
            return None
        outcome = self._model.outcome(self._key)
        return None if outcome is None else outcome.seen

    # Size

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit_face()

    def _fit_face(self) -> None:
        """As high as the panel is at this width; the rest is for what is told, and before all for what is asked."""
        most = int(self.height() * MOST_FACE)
        room = self.height() - self.path.height() - most - self.caption.sizeHint().height()
        asked = self.ask.asked
        beside = asked is None or room >= scaled(LEAST_FOR[asked.question.kind])
        self.caption.setVisible(beside)
        self.face.setVisible(beside)
        self.face.setFixedHeight(max(self.face.minimumSizeHint().height(), most))
        needed = self.face.bezel_rect().bottom() + air(8)
        self.face.setFixedHeight(max(self.face.minimumSizeHint().height(), min(needed, most)))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        colours = palette.current()
        painter.fillRect(self.rect(), colours.colour("pane"))
        end = self.height() if self.caption.isHidden() else self.caption.y()
        painter.fillRect(0, 0, self.width(), end, colours.colour("base"))
        painter.fillRect(0, end - 1, self.width(), 1, colours.colour("line"))


def _button_of(action: QAction) -> QPushButton:
    button = push_button(action.iconText(), action.trigger)

    def follow() -> None:
        button.setVisible(action.isEnabled())
        keys = native(keys_of(action))
        button.setToolTip("  ".join((plain(action.text()), keys)))

    action.changed.connect(follow)
    follow()
    return button


def _as_rows(seen: Seen) -> Rows:
    return tuple(Row(text, (Attribute.NONE,) * len(text)) for text in seen.rows)
