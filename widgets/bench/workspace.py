"""The Bench workspace: the panel operated against its followers, with everything that the line says about them."""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QFocusEvent, QKeySequence, QShowEvent
from PySide6.QtWidgets import QMenu, QSplitter, QVBoxLayout, QWidget

from app.project.model import Project
from widgets.document.document import Document
from widgets.document.settings import Settings
from widgets.face.column import FaceColumn
from widgets.face.face import PanelFace
from widgets.kit.commands import allow
from widgets.live.follower_card import FollowerCards
from widgets.live.live_session import LiveSession
from widgets.live.panel_reason import PanelReason
from widgets.live.readings_table import ReadingsTable
from widgets.live.write_bar import WriteBar

if TYPE_CHECKING:
    from app.panel.rendering import Rows
    from app.panel.state import State
    from app.session.session import Session
    from app.signals.reading import Reading

TABLE_EVERY_S: Final = 0.4
"""How often the cards, and ages in the table, are brought up to date: nobody reads faster."""
BLINK_S: Final = 0.1
"""The cells are worked out anew at least this often, also where nothing happened: some of them blink."""


class BenchWorkspace(QWidget):
    """The panel with its keys, the followers, and the table of readings.

    The face shows the project that was connected; what was edited since then is said, and connecting again takes it.
    """

    def __init__(
        self,
        document: Document,
        live: LiveSession,
        arm: Callable[[], object],
        *,
        settings: Settings | None = None,
    ) -> None:
        """`arm` asks for the cautions."""
        super().__init__()
        self.document = document
        self.live = live
        self.settings = settings or Settings(keep=False)
        self._session: Session | None = None
        self._table_at = 0.0
        self._rows: Rows = ()
        self._seen: tuple[State | None, int, int] = (None, 0, 0)
        self._shown: Project | None = None
        self._writes: dict[str, float] = {}
        """When a write was asked for whose value was not read again yet, by signal."""
        self._make_actions()
        self.face = PanelFace()
        self.why = PanelReason()
        self.readings = ReadingsTable()
        self.readings.choose_raw_form(self.settings.raw_form)
        self.readings.raw_form_chosen.connect(lambda form: setattr(self.settings, "raw_form", form))
        self.write_bar = WriteBar(live, arm)
        self.write_bar.written.connect(lambda name: self.readings.set_written(name, time.monotonic()))
        self.readings.put_below(self.write_bar)
        self.readings.view.addAction(self.write_action)
        self.readings.view.doubleClicked.connect(lambda _index: self._write_value())
        self.cards = FollowerCards()
        self.cards.write_wanted.connect(self._write)
        self._followers_menu = QMenu(self.tr("Simulated d&evices"), self)
        self._lay_out()
        self.setFocusProxy(self.face)
        self.face.key_pressed.connect(live.key_down)
        self.face.key_released.connect(live.key_up)
        live.frame.connect(self._frame)
        live.happened.connect(self._note_write)
        live.connection_changed.connect(self._connection_changed)
        document.changed.connect(self._document_changed)
        self._show_project(document.project)
        self._connection_changed()

    # Commands

    def fill_menu(self, menu: QMenu) -> None:
        """Put the commands of this workspace into a menu."""
        menu.addMenu(self._followers_menu)
        menu.addSeparator()
        menu.addActions([self.panel_action, self.filter_action, self.not_good_action, self.readings.copy_action])
        menu.addActions([self.write_action, self.raw_action])

    def _make_actions(self) -> None:
        self.panel_action = self._action(self.tr("&Operate the panel"), self._operate, "Ctrl+P")
        self.filter_action = self._action(self.tr("Filter the readin&gs"), self._filter, QKeySequence.StandardKey.Find)
        # In the other workspace the same key looks for text.
        self.filter_action.setShortcutContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        self.addAction(self.filter_action)
        self.not_good_action = self._action(
            self.tr("Only readings that are &not good"), self._toggle_not_good, "Ctrl+Shift+N"
        )

        self.write_action = self._action(self.tr("Write a &value\u2026"), self._write_value, "Ctrl+Alt+W")
        self.raw_action = self._action(self.tr("Switch ra&w number format"), self._next_raw_form, "Ctrl+Alt+X")

    def _action(self, text: str, run: Callable[[], object], shortcut: str | QKeySequence.StandardKey) -> QAction:
        action = QAction(text, self)
        action.setShortcut(shortcut)
        action.triggered.connect(lambda _checked=False: run())
        return action

    def _operate(self) -> None:
        self.face.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def _filter(self) -> None:
        self.readings.filter.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.readings.filter.selectAll()

    def _toggle_not_good(self) -> None:
        self.readings.not_good.toggle()

    def _next_raw_form(self) -> None:
        self.readings.next_raw_form()

    def _write(self, name: str, text: str) -> None:
        """Write what was typed on the card of a real device, by the bar that asks what has to be asked."""
        session = self.live.session
        if session is not None and name in session.project.signal_named:
            self.write_bar.write_typed(session.project, name, text)

    def _write_value(self) -> None:
        name, session = self.readings.current_signal(), self.live.session
        if session is not None and name in session.project.signal_named:
            self.write_bar.open_for(session.project, name)
        else:
            self.readings.view.setFocus(Qt.FocusReason.ShortcutFocusReason)

    # Layout

    def _lay_out(self) -> None:
        self._column = FaceColumn(self.face, self.why, self.cards, self.cards.wanted_height)
        split = QSplitter(Qt.Orientation.Horizontal)
        split.setObjectName("bench")
        split.addWidget(self._column)
        split.addWidget(self.readings)
        split.setStretchFactor(0, 1)
        split.setStretchFactor(1, 1)
        split.setSizes([620, 700])
        split.setChildrenCollapsible(False)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(10, 8, 10, 8)
        layout.setSpacing(8)
        layout.addWidget(split, 1)

    # Keeping it in step

    def _document_changed(self) -> None:
        if self.live.session is None and self.isVisible():
            self._show_project(self.document.project)

    def _connection_changed(self) -> None:
        session = self.live.session
        if session is not self._session:
            self._session = session
            self._begin(session)
        allow(self.write_action, session is not None, self.tr("connect first"))

    def _begin(self, session: Session | None) -> None:
        """Put the project of this session on the bench, or the edited one while there is no session."""
        self._rows = ()
        self._seen = (None, 0, 0)
        self.face.set_rows(())
        self.why.clear()
        self._show_project(self.document.project if session is None else session.project)
        self._table_at = 0.0
        if session is not None and session.simulation is not None:
            self.cards.simulate(session.simulation.models)
        self._followers_menu.clear()
        for name, switches in self.cards.switches.items():
            self._followers_menu.addMenu(name.replace("&", "&&")).addActions([*switches.actions, switches.more])
        self._followers_menu.setEnabled(not self._followers_menu.isEmpty())

    def showEvent(self, event: QShowEvent) -> None:
        """Catch up with what was edited in another workspace: doing so at every key would take longer than the key."""
        super().showEvent(event)
        if self.live.session is None and self._shown is not self.document.project:
            self._show_project(self.document.project)

    def _show_project(self, project: Project) -> None:
        self._shown = project
        self.face.set_panel(project.panel)
        self.readings.set_project(project)
        self.cards.show_project(project)
        self._column.set_wanted(self.cards.wanted_height)

    # A frame

    def _frame(self) -> None:
        session = self.live.session
        if session is None or not self.isVisible():
            return
        now = time.monotonic()
        snapshot = session.snapshot()
        seen = (session.panel.state, snapshot.number, int(now / BLINK_S))
        if seen[0] is not self._seen[0] or seen[1:] != self._seen[1:]:
            self._seen = seen
            self.why.follow(session.panel.state.said)
            rows = session.panel.rows(snapshot.readings)
            if rows != self._rows:
                self._rows = rows
                self.face.set_rows(rows)
            self._show_written(snapshot.readings, now)
            self.readings.set_readings(self.live.readings(snapshot), now)
        if now - self._table_at >= TABLE_EVERY_S:
            self._table_at = now
            self.readings.set_readings(self.live.readings(snapshot), now)  # also where nothing came: it grows old
            statuses = self.live.statuses()
            self.cards.show_states(snapshot.followers, now, statuses)
            if statuses is not None:
                worst = statuses.worst
                self.readings.set_worst(worst.words if worst.kind == "refusing" else "")
                self.readings.set_not_good(statuses.not_good)

    def _note_write(self, effect: object) -> None:
        """The panel asked for a write: once its signal is read again, the value is to stand out."""
        from app.panel.events import Write

        if isinstance(effect, Write):
            self._writes[effect.signal] = time.monotonic()

    def _show_written(self, readings: Mapping[str, Reading], now: float) -> None:
        for name, asked in tuple(self._writes.items()):
            reading = readings.get(name)
            if reading is not None and reading.good and reading.time is not None and reading.time > asked:
                del self._writes[name]
                self.readings.set_written(name, now)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Keys are let go when the focus leaves."""
        self.live.release_all()
        super().focusOutEvent(event)
