"""The Bench workspace: the panel operated against its followers, with everything that the line says about them."""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QPoint, QSignalBlocker, Qt, Signal
from PySide6.QtGui import QAction, QFocusEvent, QHideEvent, QKeySequence, QResizeEvent, QShowEvent
from PySide6.QtWidgets import QMenu, QSplitter, QStackedWidget, QTabBar, QVBoxLayout, QWidget

from app.project.model import Project
from widgets.bench.case_recorder import CaseRecorder
from widgets.document.document import Document
from widgets.document.settings import Settings
from widgets.face.column import FaceColumn, in_scroll_area
from widgets.face.face import PanelFace
from widgets.frame.tool_row import ToolRow
from widgets.kit.commands import allow
from widgets.kit.empty_state import EmptyState
from widgets.kit.scaling import percent, scaled
from widgets.live.follower_card import FollowerCards
from widgets.live.live_session import LiveSession
from widgets.live.panel_reason import PanelReason, keys_while_lost, what_keys_write
from widgets.live.readings_table import ReadingsTable
from widgets.live.write_bar import WriteBar

if TYPE_CHECKING:
    from app.line.states import Snapshot
    from app.line.status import Status
    from app.panel.rendering import Rows
    from app.panel.state import State
    from app.session.session import Session
    from app.signals.reading import Reading

TABLE_EVERY_S: Final = 0.4
"""How often the cards, and ages in the table, are brought up to date: nobody reads faster."""
BLINK_S: Final = 0.1
"""The cells are worked out anew at least this often, also where nothing happened: some of them blink."""


BESIDE_FROM: Final = 1180
"""Pixels of width, at 100 per cent, from which the readings stand beside the panel; in less they are a view of their
own."""
BELOW_FROM: Final = {True: 560, False: 640}
"""Pixels of height, as at 100 per cent, from which the devices stand below the panel: at that size, and at larger ones.
In less they are a view, too, and the panel gets the room: its letters do not become smaller as all else grows."""
SHARES: Final = (650, 716)
"""Pixels of 1366 for the panel and for the readings."""
BESIDE_FACE: Final = 24
AROUND_CARD: Final = 16
"""Pixels left and right of the face, and, at 100 per cent, around the card below it."""


class BenchWorkspace(QWidget):
    """The panel with its keys, the followers, and the table of readings; and as another view, the line.

    The face shows the project that was connected; what was edited since then is said, and connecting again takes it.
    """

    line_wanted = Signal()
    """The view of the line is shown, and whoever has it is to give it (`hold_line`)."""
    wrong_wanted = Signal(str)
    """The value of this signal looks wrong."""
    find_wanted = Signal(str)
    """What is at the address of this device is to be found out, since it does not answer."""
    view_changed = Signal()
    """Another view is in front."""

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
        self._answers: tuple[bool | None, ...] = ()
        self._lost: tuple[str, ...] = ()
        """The devices that do not answer."""
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
        self.recorder = CaseRecorder(document, live, self.readings.current_signal)
        self.readings.put_below(self.recorder)
        self.readings.view.addActions([self.write_action, self.wrong_action])
        self.readings.view.addActions([self.recorder.expect_signal_action, self.recorder.wait_signal_action])
        self.readings.view.doubleClicked.connect(lambda _index: self._write_value())
        self.cards = FollowerCards()
        self.cards.write_wanted.connect(self._write)
        self.cards.find_wanted.connect(self.find_wanted)
        self.cards.was_set.connect(self.recorder.order)
        self._followers_menu = QMenu(self.tr("Simulated d&evices"), self)
        self._lay_out()
        self.face.grid.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        self.face.grid.customContextMenuRequested.connect(self._row_menu)
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
        menu.addActions([self.set_action, self.write_action, self.raw_action, self.wrong_action])
        menu.addSeparator()
        self.recorder.fill_menu(menu)

    def _make_actions(self) -> None:
        self.panel_action = self._action(self.tr("&Operate the panel"), self.operate, "Ctrl+P")
        self.filter_action = self._action(self.tr("Filter the readin&gs"), self._filter, QKeySequence.StandardKey.Find)
        # In the other workspace the same key looks for text.
        self.filter_action.setShortcutContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        self.addAction(self.filter_action)
        self.not_good_action = self._action(
            self.tr("Only readings that are &not good"), self._toggle_not_good, "Ctrl+Shift+N"
        )

        self.set_action = self._action(self.tr("&Set a value of the device"), self._set_value, "Ctrl+Alt+U")
        self.write_action = self._action(self.tr("Write a &value\u2026"), self._write_value, "Ctrl+Alt+W")
        self.wrong_action = self._action(self.tr("Value &looks wrong\u2026"), self._value_wrong, "Ctrl+Alt+L")
        self.raw_action = self._action(self.tr("Switch ra&w number format"), self._next_raw_form, "Ctrl+Alt+X")

    def _action(self, text: str, run: Callable[[], object], shortcut: str | QKeySequence.StandardKey) -> QAction:
        action = QAction(text, self)
        action.setShortcut(shortcut)
        action.triggered.connect(lambda _checked=False: run())
        return action

    def operate(self) -> None:
        """Go to the panel, so that the keyboard operates it."""
        self.show_panel()
        self.face.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def _filter(self) -> None:
        self._show(self.readings)
        self.readings.filter.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.readings.filter.selectAll()

    def _toggle_not_good(self) -> None:
        self.readings.not_good.toggle()

    def _next_raw_form(self) -> None:
        self.readings.next_raw_form()

    def _set_value(self) -> None:
        card = self.cards.current
        if card is not None:
            self._show(card)
            card.setter.value.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def _write(self, name: str, text: str) -> None:
        """Write what was typed on the card of a real device, by the bar that asks what has to be asked."""
        session = self.live.session
        if session is not None and name in session.project.signal_named:
            self._show(self.readings)
            self.write_bar.write_typed(session.project, name, text)

    def _write_value(self) -> None:
        self._show(self.readings)
        name, session = self.readings.current_signal(), self.live.session
        if session is not None and name in session.project.signal_named:
            self.write_bar.open_for(session.project, name)
        else:
            self.readings.view.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def _row_menu(self, at: QPoint) -> None:
        cell = self.face.grid.cell_at(at, inside=True)
        menu = None if cell is None else self.recorder.row_menu(cell[0])
        if menu is not None:
            menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
            menu.popup(self.face.grid.mapToGlobal(at))

    def _value_wrong(self) -> None:
        self._show(self.readings)
        if name := self.readings.current_signal():
            self.wrong_wanted.emit(name)
        else:
            self.readings.view.setFocus(Qt.FocusReason.ShortcutFocusReason)

    # Views

    def _lay_out(self) -> None:
        self.tabs = QTabBar()
        self.tabs.setDrawBase(False)
        self.tabs.setExpanding(False)
        self.tabs.setAccessibleName(self.tr("Views"))
        self.tools = ToolRow(self.tabs)
        """What is done with all that is read; the window adds what others have made."""
        self.tools.add(self.readings.copy_action, icon_only=True)
        self._column = FaceColumn(
            self.face, self.why, None, self.cards.wanted_height, beside=BESIDE_FACE, around=AROUND_CARD
        )
        self._devices = in_scroll_area(self.cards)
        self._device_page = QWidget()
        page = QVBoxLayout(self._device_page)
        page.setContentsMargins(*4 * [scaled(AROUND_CARD)])
        self._split = QSplitter(Qt.Orientation.Horizontal)
        self._split.setObjectName("panel and readings")
        self._split.setHandleWidth(1)
        self._split.setChildrenCollapsible(False)
        self._split.addWidget(self._column)
        self._pages = QStackedWidget()
        self._views: list[QWidget] = []
        """The pages in the order of their tabs."""
        self._line = QStackedWidget()
        self._line.addWidget(
            EmptyState(
                self.tr("The line has a window of its own"),
                self.tr("Close that window to have every transaction here."),
            )
        )
        self._arranged: tuple[bool, bool] | None = None
        """Whether the readings stand beside the panel, and the devices below it."""
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self.tools)
        layout.addWidget(self._pages, 1)
        self.tabs.currentChanged.connect(self._turn_to)
        self._arrange()

    def _arrange(self) -> None:
        """Put readings and devices beside the panel or into views of their own, by the size of the window alone."""
        arranged = self.width() >= scaled(BESIDE_FROM), self.height() >= scaled(BELOW_FROM[percent() == 100])
        if arranged == self._arranged:
            return
        self._arranged = arranged
        beside, below = arranged
        self._column.hold_below(self._devices if below else None)
        page = self._device_page.layout()
        if not below and page is not None:
            page.addWidget(self._devices)
        if beside:
            self._split.addWidget(self.readings)
            self.readings.show()
            self._split.setSizes(list(SHARES))
            for at, share in enumerate(SHARES):
                self._split.setStretchFactor(at, share)
        self._offer_views()

    def _offer_views(self) -> None:
        """Have a tab for each view; the one that is shown stays so if it can."""
        beside, below = self._arranged or (True, True)
        views: list[tuple[str, QWidget]] = [
            (self.tr("Panel and readings") if beside else self.tr("Panel"), self._split)
        ]
        if not beside:
            views.append((self.tr("Readings"), self.readings))
        if not below:
            views.append((self.tr("Devices"), self._device_page))
        views.append((self.tr("Line: every transaction"), self._line))
        shown = self._pages.currentWidget()
        for former in self._views:
            self._pages.removeWidget(former)
        self._views = [page for _, page in views]
        with QSignalBlocker(self.tabs):
            while self.tabs.count():
                self.tabs.removeTab(0)
            for words, page in views:
                self.tabs.addTab(words)
                self._pages.addWidget(page)
        self._show(shown if shown in self._views else self._split)

    def _show(self, part: QWidget) -> None:
        """Go to the view that this lies in."""
        for at, page in enumerate(self._views):
            if page is part or page.isAncestorOf(part):
                self.tabs.setCurrentIndex(at)
                self._turn_to(at)

    def _turn_to(self, at: int) -> None:
        page = self._views[at]
        self._pages.setCurrentWidget(page)
        first: dict[QWidget, QWidget] = {self._split: self.face, self.readings: self.readings.view}
        self.setFocusProxy(first.get(page, page))
        if page is self._line:
            self.line_wanted.emit()
        self.view_changed.emit()

    def show_devices(self) -> None:
        """Go to the view in which the cards of the devices are."""
        self._show(self.cards)

    def hold_line(self, view: QWidget) -> None:
        """Have this as the view of the line."""
        self._line.addWidget(view)
        self._line.setCurrentWidget(view)

    def release_line(self) -> None:
        """The view of the line goes into a window of its own; what is in its place says so."""
        self._line.setCurrentIndex(0)

    def show_line(self) -> None:
        """Go to the view of the line."""
        self._show(self._line)

    def show_panel(self) -> None:
        """Go to the view of the panel."""
        self._show(self._split)

    @property
    def shows_line(self) -> bool:
        """Whether the view of the line is in front."""
        return self._pages.currentWidget() is self._line

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._arrange()

    # Keeping it in step

    def _document_changed(self) -> None:
        if self.live.session is None and self.isVisible():
            self._show_project(self.document.project)

    def _connection_changed(self) -> None:
        session = self.live.session
        if session is not self._session:
            self._session = session
            self._begin(session)
        self._rest_below_keys()
        allow(self.set_action, session is not None, self.tr("connect first"))
        allow(self.write_action, session is not None, self.tr("connect first"))

    def _rest_below_keys(self) -> None:
        """What the keys do now, for as long as no message of the panel needs its reason told there."""
        session, writing = self.live.session, self.live.writing
        if session is None:
            self.why.rest_with(self.tr("The keys work once the line is connected."))
        elif self._lost and writing.in_charge | writing.simulated:
            self.why.rest_with(keys_while_lost(session.project, self._lost), "caution")
        elif writing.simulated:
            self.why.rest_with(
                self.tr("Click a key, or use the keyboard: arrows, Enter, Esc; the others by F1, F2 and so on.")
            )
        elif not writing.armed:
            self.why.rest_with(self.tr("Keys change screens, but write nothing: writing is locked."))
        else:
            written = what_keys_write(session.project)
            words = self.tr("On the real line {deeds}. No key here is an emergency stop.")
            alone = self.tr("Keys write to the real line. No key here is an emergency stop.")
            self.why.rest_with(words.format(deeds=written) if written else alone, "caution")

    def _begin(self, session: Session | None) -> None:
        """Put the project of this session on the bench, or the edited one while there is no session."""
        self._rows = ()
        self._seen = (None, 0, 0)
        self._answers, self._lost = (), ()
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
        self.view_changed.emit()
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
            self._note_answers(snapshot)
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

    def _note_answers(self, snapshot: Snapshot) -> None:
        """A device answers, or does so no longer: the cards say it at once, and so does the line below the keys."""
        answers = tuple(state.answering for state in snapshot.followers.values())
        if answers != self._answers:
            self._answers, self._table_at = answers, 0.0
            self._lost = tuple(name for name, state in snapshot.followers.items() if state.answering is False)
            self._rest_below_keys()

    def explains(self, status: Status) -> bool:
        """Whether a card in sight says what is wrong with the device that this is about, and what to do."""
        card = self.cards.current
        return card is not None and card.isVisible() and status.names == (card.follower.name,)

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

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self.view_changed.emit()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Keys are let go when the focus leaves."""
        self.live.release_all()
        super().focusOutEvent(event)
