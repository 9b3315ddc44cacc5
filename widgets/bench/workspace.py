"""The Bench workspace: the panel operated against its followers, with everything that the line says about them."""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QAction, QActionGroup, QFocusEvent, QKeySequence, QShowEvent
from PySide6.QtWidgets import QLabel, QMenu, QPushButton, QSizePolicy, QSplitter, QVBoxLayout, QWidget

from app.project.by_itself import written_by_itself
from app.project.model import Line, Project, SerialLine
from app.project_file.files import digest, dump
from widgets.document import file_questions
from widgets.document.document import Document
from widgets.document.settings import Settings
from widgets.face.column import FaceColumn
from widgets.face.face import PanelFace
from widgets.kit.commands import allow
from widgets.kit.elided import ShortChoice, ShortLabel
from widgets.kit.flow import FlowLayout
from widgets.kit.look import set_look
from widgets.kit.notice_slot import NoticeSlot
from widgets.kit.scaling import scaled
from widgets.live.arming import ArmingDialog
from widgets.live.follower_card import FollowerCards, status_look
from widgets.live.live_session import LiveSession, NotConnectedError
from widgets.live.panel_reason import PanelReason
from widgets.live.readings_table import ReadingsTable
from widgets.live.write_bar import WriteBar

if TYPE_CHECKING:
    from app.panel.rendering import Rows
    from app.panel.state import State
    from app.session.session import Session

TABLE_EVERY_S: Final = 0.4
"""How often the cards, and ages in the table, are brought up to date: nobody reads faster."""
BLINK_S: Final = 0.1
"""The cells are worked out anew at least this often, also where nothing happened: some of them blink."""

SIMULATED, REAL = 0, 1

NOT_CONNECTED: Final = "not connected"
"""What the notice of the bench is about."""
WHERE_WIDTH: Final = 260
"""Of the choice of the line in pixels at 100 per cent, whatever the lines are called."""


class BenchWorkspace(QWidget):
    """The panel with its keys, the followers, and the table of readings.

    The face shows the project that was connected; what was edited since then is said, and connecting again takes it.
    """

    def __init__(
        self,
        document: Document,
        live: LiveSession,
        notices: NoticeSlot | None = None,
        parent: QWidget | None = None,
        *,
        settings: Settings | None = None,
    ) -> None:
        """`notices` is where the window says what stays so; without one the workspace has its own."""
        super().__init__(parent)
        self.document = document
        self.live = live
        self.settings = settings or Settings(keep=False)
        self._session: Session | None = None
        self._table_at = 0.0
        self._rows: Rows = ()
        self._seen: tuple[State | None, int, int] = (None, 0, 0)
        self._shown: Project | None = None
        self._make_actions()
        self.face = PanelFace()
        self.why = PanelReason()
        self.readings = ReadingsTable()
        self.readings.choose_raw_form(self.settings.raw_form)
        self.readings.raw_form_chosen.connect(lambda form: setattr(self.settings, "raw_form", form))
        self.write_bar = WriteBar(live, self.arm)
        self.readings.put_below(self.write_bar)
        self.readings.view.addAction(self.write_action)
        self.readings.view.doubleClicked.connect(lambda _index: self._write_value())
        self.cards = FollowerCards()
        self._followers_menu = QMenu(self.tr("Simulated d&evices"), self)
        self.notices = notices or NoticeSlot()
        self._lay_out(own_notices=notices is None)
        self.setFocusProxy(self.face)
        self.face.key_pressed.connect(live.key_down)
        self.face.key_released.connect(live.key_up)
        live.frame.connect(self._frame)
        live.connection_changed.connect(self._connection_changed)
        document.changed.connect(self._document_changed)
        self._show_project(document.project)
        self._connection_changed()

    # Commands

    def connect_line(self) -> None:
        """Connect where the choice says. What cannot be done is said among the notices."""
        if not self._may_let_go():
            return
        project = self.document.project
        self.notices.retract(NOT_CONNECTED)
        try:
            self.live.connect_to(project, "simulated" if self.where.currentIndex() == SIMULATED else None)
        except NotConnectedError as why:
            self.notices.say(NOT_CONNECTED, str(why))
            return
        if self.isVisible():  # connected from the other workspace, whatever has the focus there keeps it
            self.face.setFocus()

    def disconnect_line(self) -> None:
        """Disarm and disconnect; asks first where the panel operates a machine."""
        if self._may_let_go():
            self.live.disconnect_from_line()

    def _may_let_go(self) -> bool:
        writing = self.live.writing
        return not writing.in_charge or file_questions.may_let_go(self.window(), writing.armed, writing.disarmed)

    def choose(self, where: int) -> None:
        """Choose SIMULATED or REAL for the next connection."""
        self.where.setCurrentIndex(where)

    def arm(self) -> None:
        """Ask for the cautions, then arm."""
        session = self.live.session
        writing = self.live.writing
        if session is None or writing.simulated or (writing.armed and not writing.disarmed):
            return
        lines = [f"{name}: {session.endpoints[name]}" for name in session.endpoints]
        armed = self.settings.armed_before(self.document.path)
        own = digest(dump(session.project).encode())
        dialog = ArmingDialog(
            lines,
            self.window(),
            by_itself=written_by_itself(session.project),
            changed=armed not in ("", own),
        )
        # The line may be disconnected, or become another one, while the cautions are read.
        self.live.connection_changed.connect(dialog.reject)
        accepted = bool(dialog.exec())
        self.live.connection_changed.disconnect(dialog.reject)
        dialog.deleteLater()
        if accepted and self.live.session is session:
            self.settings.keep_armed(self.document.path, own)
            self.live.arm()
            self.face.setFocus()

    def fill_menu(self, menu: QMenu) -> None:
        """Put the commands of this workspace into a menu."""
        menu.addActions([self.connect_action, self.disconnect_action])
        menu.addSeparator()
        menu.addActions([self.simulated_action, self.real_action])
        menu.addSeparator()
        menu.addActions([self.arm_action, self.disarm_action])
        menu.addSeparator()
        menu.addMenu(self._followers_menu)
        menu.addSeparator()
        menu.addActions([self.panel_action, self.filter_action, self.not_good_action, self.readings.copy_action])
        menu.addActions([self.write_action, self.raw_action])

    def _make_actions(self) -> None:
        self.connect_action = self._action(self.tr("&Connect"), self.connect_line, "Ctrl+K")
        self.disconnect_action = self._action(self.tr("D&isconnect"), self.disconnect_line, "Ctrl+Shift+K")
        self.simulated_action = self._action(
            self.tr("To &simulated devices"), lambda: self.choose(SIMULATED), "Ctrl+Shift+I"
        )
        self.real_action = self._action(self.tr("To the &real line"), lambda: self.choose(REAL), "Ctrl+Shift+R")
        where = QActionGroup(self)
        for action in (self.simulated_action, self.real_action):
            action.setCheckable(True)
            where.addAction(action)
        self.arm_action = self._action(self.tr("&Arm\u2026"), self.arm, "Ctrl+Shift+W")
        self.disarm_action = self._action(self.tr("&Disarm"), self.live.disarm, "Pause")
        self.disarm_action.setShortcuts([QKeySequence("Pause"), QKeySequence("Ctrl+.")])
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

    def _write_value(self) -> None:
        name, session = self.readings.current_signal(), self.live.session
        if session is not None and name in session.project.signal_named:
            self.write_bar.open_for(session.project, name)
        else:
            self.readings.view.setFocus(Qt.FocusReason.ShortcutFocusReason)

    # Layout

    def _lay_out(self, *, own_notices: bool) -> None:
        bar = FlowLayout(spacing=8)
        self.where = ShortChoice()
        self.where.setFixedWidth(scaled(WHERE_WIDTH))
        self.where.addItems(["", ""])
        self.where.setAccessibleName(self.tr("Connect to"))
        self.where.currentIndexChanged.connect(self._where_changed)
        caption = QLabel(self.tr("Connect &to"))
        caption.setBuddy(self.where)
        self.connect_button = _OneWidth(self.tr("Connect"), self.tr("Disconnect"))
        self.connect_button.setProperty("look", "primary")
        self.connect_button.setAutoDefault(False)
        self.connect_button.clicked.connect(self._toggle_connection)
        self.status = ShortLabel()
        self.status.setMinimumWidth(scaled(240))
        self.status.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        bar.addWidget(caption)
        bar.addWidget(self.where)
        bar.addWidget(self.connect_button)
        bar.addWidget(self.status)
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
        layout.addLayout(bar)
        layout.addWidget(split, 1)
        if own_notices:
            layout.addWidget(self.notices)

    def _toggle_connection(self) -> None:
        if self.live.connected:
            self.disconnect_line()
        else:
            self.connect_line()

    # Keeping it in step

    def _where_changed(self, where: int) -> None:
        self.simulated_action.setChecked(where == SIMULATED)
        self.real_action.setChecked(where == REAL)

    def _document_changed(self) -> None:
        if self.live.session is None and self.isVisible():
            self._show_project(self.document.project)
        self._name_lines()

    def _connection_changed(self) -> None:
        session = self.live.session
        if session is not self._session:
            self._session = session
            self._begin(session)
        writing = self.live.writing
        self._say_how_it_is()
        connected = session is not None
        self.connect_button.setText(self.tr("Disconnect") if connected else self.tr("Connect"))
        self.where.setEnabled(not connected)
        for action in (self.connect_action, self.simulated_action, self.real_action):
            allow(action, not connected, self.tr("disconnect first"))
        allow(self.disconnect_action, connected, self.tr("nothing is connected"))
        real = connected and not writing.simulated
        why_not = self.tr("already armed") if real else self.tr("connect to the real line first")
        allow(self.arm_action, real and (not writing.armed or bool(writing.disarmed)), why_not)
        allow(self.write_action, connected, self.tr("connect first"))
        allow(self.disarm_action, real and bool(writing.armed or writing.disarmed), self.tr("not armed"))

    def _say_how_it_is(self) -> None:
        from app.line.status import StatusLevel

        session = self.live.session
        if session is None:
            self._say_status("\u25cb", self.tr("Not connected"), "faint")
            return
        statuses = self.live.statuses()
        worst = statuses.worst if statuses is not None else None
        if worst is not None and worst.level >= StatusLevel.DATA:
            self._say_status("\u26a0", worst.sentence, status_look(worst))
            return
        at = self.tr("{line} at {endpoint}")
        where = ", ".join(at.format(line=name, endpoint=endpoint) for name, endpoint in session.endpoints.items())
        if worst is not None and worst.level is StatusLevel.WAITING:
            words = self.tr("Connecting: {where}")
            self._say_status("\u2026", words.format(where=where), "faint")
        else:
            words = (
                self.tr("Connected, simulated: {where}")
                if session.simulation is not None
                else self.tr("Connected: {where}")
            )
            self._say_status("\u25cf", words.format(where=where), "good")

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

    def _say_status(self, mark: str, words: str, look: str) -> None:
        text = f"{mark} {words}"
        if text == self.status.text():
            return
        self.status.setText(text)
        set_look(self.status, look)

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
        self._name_lines()

    def _name_lines(self) -> None:
        lines = self.document.project.lines
        named = ", ".join(_line_words(line) for line in lines) or self.tr("none in this project")
        self.where.setItemText(SIMULATED, self.tr("simulated devices"))
        self.where.setItemText(REAL, self.tr("the real line: {lines}").format(lines=named))

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
            self.readings.set_readings(self.live.readings(snapshot), now)
        if now - self._table_at >= TABLE_EVERY_S:
            self._table_at = now
            self.readings.set_readings(self.live.readings(snapshot), now)  # also where nothing came: it grows old
            self._say_how_it_is()
            statuses = self.live.statuses()
            self.cards.show_states(snapshot.followers, now, statuses)
            if statuses is not None:
                self.readings.set_not_good(statuses.not_good)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Keys are let go when the focus leaves."""
        self.live.release_all()
        super().focusOutEvent(event)


class _OneWidth(QPushButton):
    """A button with one of several texts, as wide with each as with the widest."""

    def __init__(self, *texts: str) -> None:
        super().__init__(texts[0])
        self._texts = texts

    def sizeHint(self) -> QSize:
        """As wide as the widest needs."""
        size = super().sizeHint()
        metrics = self.fontMetrics()
        widest = max(metrics.horizontalAdvance(text) for text in self._texts)
        return QSize(size.width() - metrics.horizontalAdvance(self.text()) + widest, size.height())

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()


def _line_words(line: Line) -> str:
    if isinstance(line, SerialLine):
        return f"{line.name}, {line.device} {line.baud} Bd"
    return f"{line.name}, {line.host}:{line.port}"
