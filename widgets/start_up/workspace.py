"""The Start-up workspace: the panel in one corner, what is measured beside it, what happened below; and recordings."""

from __future__ import annotations

import time
from collections.abc import Iterable
from pathlib import Path
from typing import Final

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QHideEvent, QShowEvent
from PySide6.QtWidgets import (
    QFileDialog,
    QHBoxLayout,
    QMenu,
    QSplitter,
    QStackedWidget,
    QTabWidget,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from app.curves.source import CurveSource, Recorded, Unread, plottable
from app.events.alarms import AlarmBook, AlarmState
from app.events.events import Event, EventKind
from app.panel.driver import PanelDriver
from app.panel.rendering import Rows
from app.project.model import Project
from app.recording.reader import Recording, RecordingUnreadable
from app.recording.replay import Replay
from widgets.document.document import Document
from widgets.document.settings import Settings
from widgets.face.column import FaceColumn, in_scroll_area
from widgets.face.face import PanelFace
from widgets.frame.tool_row import ToolRow
from widgets.kit.commands import allow, command
from widgets.kit.controls import push_button
from widgets.kit.icons import icon, tool
from widgets.kit.scaling import percent, scaled
from widgets.live.live_session import LiveSession
from widgets.live.live_source import Observation
from widgets.live.panel_reason import PanelReason
from widgets.live.recording import RecordingControl
from widgets.start_up.alarm_box import AlarmBox
from widgets.start_up.events_view import EventsView
from widgets.start_up.replay_bar import ReplayBar
from widgets.start_up.response_view import ResponseView
from widgets.start_up.trend_plot import Flag
from widgets.start_up.trend_view import TrendView, usual_curves

TREND_EVERY_S: Final = (0.25, 1.0)
"""How often the trend is drawn, at most and at least: in between, as often as time moves on by a pixel."""
BLINK_S: Final = 0.1
RIGHT: Final = 344
"""Width of the face and what stands below it, in pixels at 100 per cent."""
LEAST_STATE: Final = 120
"""Pixels at 100 per cent that the words about a recording have at least where there is little room."""
LARGE: Final = 150
"""The size in per cent from which on there is no room for all at once."""


class StartUpWorkspace(QWidget):
    """Watches the machine live, or plays a recording of it."""

    said = Signal(str, bool)
    """Something to tell the user, and whether it is trouble."""
    withheld = Signal(str)
    """Why no recording takes the place of the live panel now; empty once one may."""

    def __init__(
        self,
        document: Document,
        live: LiveSession,
        observation: Observation,
        settings: Settings,
    ) -> None:
        super().__init__()
        self._document = document
        self._live = live
        self.observation = observation
        self._settings = settings
        self._recording: Recording | None = None
        self._told_to = 0.0
        self._drawn = 0.0
        self._seen: tuple[object, ...] = ()
        self._unread: Project | None = None
        self._restoring = False
        """Whether curves change because others are shown, and not because somebody chose them."""
        self._rows: Rows = ()
        self._alarms_then: AlarmBook | None = None
        """Of a recording: its alarms where the replay stands."""
        self.face = PanelFace()
        self.why = PanelReason()
        self.large = percent() >= LARGE
        """Whether the legend, the events and the figures are tabs: so large, the curves and the face need the room."""
        self.trend = TrendView(settings, beside=not self.large)
        self.events = EventsView(settings, low=self.large)
        self.alarm = AlarmBox(low=self.large)
        self.replay_bar = ReplayBar()
        self.response = ResponseView()
        self.recording_control = RecordingControl(self, live, observation, settings)
        self._make_actions()
        self._lay_out()
        self.setFocusProxy(self.face)
        self._connect()
        self._begin()
        self._connection_changed()

    def _make_actions(self) -> None:
        self.registers_action = command(
            self, self.tr("Registers as &found and as left\u2026"), self.show_registers, "Alt+Shift+D"
        )
        self.open_action = command(self, self.tr("&Open a recording\u2026"), self.open_recording, "Ctrl+Alt+O")
        self.open_action.setIconText(self.tr("Open recording\u2026"))
        self.open_action.setIcon(icon("open"))
        self.play_last_action = command(self, self.tr("Play the la&st recording"), self._play_last, "Alt+Shift+O")

    def fill_menu(self, menu: QMenu) -> None:
        """Put the commands of this workspace into a menu of the window."""
        menu.addActions(
            [
                *self.recording_control.actions,
                self.play_last_action,
                self.open_action,
                self.recording_control.limits_action,
            ]
        )
        menu.addSeparator()
        self.replay_bar.fill_menu(menu)
        menu.addSeparator()
        self.trend.fill_menu(menu.addMenu(self.tr("&Trend")))
        events = menu.addMenu(self.tr("E&vents"))
        events.addAction(self.alarm.acknowledge_action)
        self.events.fill_menu(events)
        menu.addAction(self.response.copy_action)
        menu.addSeparator()
        menu.addAction(self.registers_action)

    def _lay_out(self) -> None:
        self.record = push_button(self.tr("Stop recording"), self._record_or_end, "primary")
        self.record.setIcon(icon("stop", "on_accent"))
        self.record.setMinimumWidth(self.record.sizeHint().width())  # of the longer of its two words
        self._left = QStackedWidget()
        making = QWidget()
        row = QHBoxLayout(making)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(scaled(8))
        row.addWidget(self.record)
        row.addWidget(self._record_menu())
        row.addWidget(self.recording_control.state, 1)
        self._left.addWidget(making)
        self._left.addWidget(self.replay_bar)
        if self.large:
            self.recording_control.state.setMinimumWidth(scaled(LEAST_STATE))
        tools = ToolRow()
        tools.lead.addWidget(self._left, 1)
        self.trend.opener = tools.add(self.trend.add_action)
        tools.add_widget(self.trend.spans)
        for action in (self.trend.follow_action, self.trend.cursors_action, self.open_action):
            tools.add(action)
        slot = QWidget()
        under = QVBoxLayout(slot)
        under.setContentsMargins(0, 0, 0, 0)
        under.setSpacing(0)
        under.addWidget(self.why)
        under.addWidget(self.alarm)
        if self.large:
            corner = FaceColumn(self.face, slot)
        else:
            corner = FaceColumn(self.face, slot, self.response, self.response.sizeHint().height(), fills=True)
        measured = QSplitter(Qt.Orientation.Vertical)
        measured.setObjectName("trend and tabs" if self.large else "trend and events")
        measured.addWidget(self.trend)
        measured.addWidget(self._tabs() if self.large else self.events)
        measured.setStretchFactor(0, 1)
        measured.setSizes([400, 220])
        measured.setCollapsible(0, False)
        across = QSplitter(Qt.Orientation.Horizontal)
        across.setObjectName("measurements and panel")
        across.addWidget(measured)
        across.addWidget(corner)
        across.setStretchFactor(0, 1)
        across.setChildrenCollapsible(False)
        across.setSizes([1022, RIGHT])
        for split in (measured, across):
            split.setHandleWidth(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(tools)
        layout.addWidget(across, 1)

    def _tabs(self) -> QTabWidget:
        tabs = QTabWidget()
        tabs.setDocumentMode(True)
        tabs.addTab(self.trend.legend, self.tr("Curves"))
        tabs.addTab(in_scroll_area(self.events), self.tr("Events"))
        tabs.addTab(in_scroll_area(self.response), self.tr("Response"))
        return tabs

    def _record_menu(self) -> QToolButton:
        """What else is done with recordings, beside the button that makes one."""
        button = tool("more", self.tr("More about recordings"), self)
        button.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        self.record_menu = QMenu(button)
        """Further commands about recordings can be put into it."""
        control = self.recording_control
        self.record_menu.addActions([control.record_as_action, self.play_last_action, control.rename_action])
        self.record_menu.addActions([self.open_action, control.limits_action])
        button.setMenu(self.record_menu)
        return button

    def _play_last(self) -> None:
        kept = self.recording_control.kept
        if kept is not None:
            self.play(kept)

    def _record_or_end(self) -> None:
        control = self.recording_control
        (control.end_action if self.observation.recording else control.record_action).trigger()

    def _recording_changed(self) -> None:
        recording = self.observation.recording
        self.record.setText(self.tr("Stop recording") if recording else self.tr("Record"))
        self.record.setIcon(icon("stop" if recording else "record", "on_accent"))
        kept = self.recording_control.kept is not None
        allow(self.play_last_action, kept and not recording, self.tr("nothing was recorded yet"))

    def _connect(self) -> None:
        observation, live = self.observation, self._live
        self.face.key_pressed.connect(lambda key: self._key(key, down=True))
        self.face.key_released.connect(lambda key: self._key(key, down=False))
        live.frame.connect(self._frame)
        live.connection_changed.connect(self._connection_changed)
        self._document.changed.connect(self._connection_changed)
        observation.begun.connect(self._begin)
        observation.happened.connect(self._note_events)
        self.recording_control.said.connect(self.said)
        self.alarm.acknowledge_wanted.connect(observation.acknowledge)
        observation.recording_changed.connect(self._recording_changed)
        self._recording_changed()
        self.events.note_wanted.connect(observation.note)
        self.events.moment_chosen.connect(self._go_to)
        self.events.said.connect(lambda words: self.said.emit(words, True))
        self.trend.said.connect(lambda words: self.said.emit(words, True))
        self.trend.moment_chosen.connect(self._go_to)
        self.trend.span_chosen.connect(self.response.show_span)
        self.trend.signals_changed.connect(self._curves_changed)
        self.response.span_found.connect(self._mark)
        self.replay_bar.moved.connect(self._move_to)
        self.replay_bar.closed.connect(self.close_recording)

    def take_over(self, former: StartUpWorkspace) -> None:
        """Go on where another one stands, which is about to go: with its curves and the recording it plays."""
        self.trend.show_signals(former.trend.signals)
        self.recording_control.kept = former.recording_control.kept
        played = former._recording
        if played is not None:
            at = former.replay_bar.replay.at if former.replay_bar.replay is not None else 0.0
            former.close_recording()
            if self.play(played.path):
                self.replay_bar.seek(at)
        self.recording_control.look()
        self._recording_changed()

    def show_registers(self) -> None:
        """Open the registers as found and as left, beside the window: disarming stays in reach."""
        from widgets.snapshots.dialog import SnapshotsDialog

        SnapshotsDialog(self._document, self._live, self._settings, self.window()).show()

    # Playing a recording

    def open_recording(self) -> None:
        """Ask for a recording and play it."""
        if not self._may_play():
            return
        folder = str(self._settings.recordings_folder)
        name, _ = QFileDialog.getOpenFileName(
            self, self.tr("Open a recording"), folder, self.tr("Recordings (*.fanrec)")
        )
        if name and self.play(Path(name)):
            self._settings.start_up_folder = Path(name).parent

    def play(self, path: Path) -> bool:
        """Play this recording. False if it cannot be read, or the panel operates a machine; that has been said."""
        if not self._may_play():
            return False
        try:
            recording = Recording.open(path)
        except RecordingUnreadable as why:
            self.said.emit(str(why), True)
            return False
        self.close_recording()
        self._live.release_all()
        self._recording = recording
        replay = Replay(recording)
        self.face.release_all()
        self.face.set_panel(recording.project.panel)
        self.face.set_mark(self.tr("Recording: nothing here is live"))
        self.why.clear()
        self.replay_bar.set_replay(replay)
        self._left.setCurrentWidget(self.replay_bar)
        source = Recorded(recording)
        self.trend.set_source(source, moment=replay.at, title=path.name)
        if recording.curves:
            self.trend.show_signals(recording.curves)
        self.response.show_source(source, self.trend.signals)
        self.events.set_source_clock(recording.civil)
        self.events.set_events([])
        self._alarms_then = AlarmBook(recording.project)
        self.trend.set_flags(_flags(recording.events(replay.begin, replay.end)))
        self.events.set_notes_allowed(False)
        self._told_to = replay.begin - 1.0
        self._move_to(replay.at)
        if recording.damage:
            self.said.emit(
                self.tr("{name} is damaged; the readable part is shown: {reason}").format(
                    name=path.name, reason="; ".join(recording.damage[:3])
                ),
                True,
            )
        elif recording.remark:
            self.said.emit(recording.remark, True)
        elif self._live.connected and recording.project != self._live_project():
            self.said.emit(
                self.tr("This recording was made with another version of the project than the one connected."), False
            )
        else:
            self.said.emit("", False)
        return True

    def _may_play(self) -> bool:
        """Whether a recording may take the place of the live panel: a STOP that only looks like one stops nothing."""
        writing = self._live.writing
        if not writing.in_charge:
            return True
        if writing.armed:
            why = self.tr(
                "Writing is armed: the panel here operates the machine. Disarm first, then open the recording."
            )
        else:
            why = self.tr(
                "Writing was disarmed automatically, but keys that stop still write: the panel here operates "
                "the machine. Disarm first, then open the recording."
            )
        self.withheld.emit(why)
        return False

    def close_recording(self) -> None:
        """Show what is live again."""
        recording, self._recording = self._recording, None
        if recording is None:
            return
        self.replay_bar.set_replay(None)
        self._left.setCurrentIndex(0)
        self.face.set_mark("")
        self.why.clear()
        self.events.set_notes_allowed(True)
        self._begin()
        self._connection_changed()
        recording.close()  # last: until then some pane could still ask it for values

    def _live_project(self) -> object:
        session = self._live.session
        return None if session is None else session.project

    def _move_to(self, at: float) -> None:
        replay = self.replay_bar.replay
        if replay is None:
            return
        self._show_panel(replay.panel)
        self.trend.set_moment(at)
        recording = replay.recording
        if at < self._told_to:
            news = list(recording.events(replay.begin, at))
            self.events.set_events(news)
            self._alarms_then = AlarmBook(recording.project)
        else:
            news = [event for event in recording.events(self._told_to, at) if event.at > self._told_to]
            if news:
                self.events.add_events(tuple(news))
        self._told_to = at
        if self._alarms_then is not None:
            for event in news:
                self._alarms_then.follow(event)
            self.alarm.show_alarms(self._alarms_then.alarms, may_acknowledge=False)

    # Live

    def _begin(self) -> None:
        """Another session is observed."""
        if self._recording is not None:
            return
        source = self.observation.source
        self._unread = None
        self._show_source(source)
        if source is not None:
            self.events.set_source_clock(source.civil)
        self.events.set_events(self.observation.events)
        self._show_alarms()
        self._show_unread()

    def _show_unread(self) -> None:
        """Before the first connection: the lanes that the project will have."""
        project = self._document.project
        if self._recording is not None or self.observation.history is not None or not self.isVisible():
            return
        if project is not self._unread:
            self._unread = project
            self._show_source(Unread(project))

    def _show_source(self, source: CurveSource | None) -> None:
        """Show what is live or may be, with the curves that were chosen: in this session, or in this project before."""
        self._restoring = True
        self.trend.set_source(source)
        known = () if source is None else plottable(source.project)
        for curves in (self.observation.curves, self._settings.curves(self._document.path)):
            if chosen := [name for name in curves if name in known]:
                self.trend.show_signals(chosen)
                break
        self._restoring = False
        self._curves_changed()
        self.response.show_source(source, self.trend.signals)

    def _connection_changed(self) -> None:
        if not self._live.writing.in_charge:
            self.withheld.emit("")
        elif self._recording is not None:
            self.close_recording()
            self.withheld.emit(
                self.tr("The recording was closed: writing is armed, and the panel here operates the machine.")
            )
        if self._recording is not None:
            return
        session = self._live.session
        self.trend.receive(session is not None)
        project = self._document.project if session is None else session.project
        self.face.set_panel(project.panel)
        self._rows, self._seen = (), ()
        if session is None:
            self.face.set_rows(())  # what was live, or was played, is so no longer
            self.trend.stand_still()
            self._show_unread()

    def _note_events(self, events: tuple[Event, ...]) -> None:
        if self._recording is None:
            self.events.add_events(events)
            if any(event.kind is EventKind.ALARM for event in events):
                self._show_alarms()

    def _show_alarms(self) -> None:
        watch = self.observation.watch
        self.alarm.show_alarms({} if watch is None else watch.alarms.alarms)
        self.trend.set_flags(_flags(self.observation.events))

    def _frame(self) -> None:
        session = self._live.session
        if session is None or not self.isVisible():
            return
        now = time.monotonic()
        if self._recording is None:
            seen = (session.panel.state, session.snapshot().number, int(now / BLINK_S))
            if seen != self._seen:
                self._seen = seen
                self._show_panel(session.panel)
        often, seldom = TREND_EVERY_S
        if now - self._drawn >= min(seldom, max(often, self.trend.plot.pixel_s)):
            self._drawn = now
            self.recording_control.say()
            if self._recording is None:
                self.trend.refresh()

    def _show_panel(self, panel: PanelDriver) -> None:
        self.why.follow(panel.state.said)
        self._show_rows(panel.rows())

    def _show_rows(self, rows: Rows) -> None:
        if rows != self._rows:
            self._rows = rows
            self.face.set_rows(rows)

    def _key(self, key: str, *, down: bool) -> None:
        replay = self.replay_bar.replay
        if replay is not None:
            (replay.panel.key_down if down else replay.panel.key_up)(key)
            self._show_panel(replay.panel)
        elif down:
            self._live.key_down(key)
        else:
            self._live.key_up(key)

    # Measuring

    def _curves_changed(self) -> None:
        source: CurveSource | None = None if self._recording is None else Recorded(self._recording)
        if self._recording is None:
            source = self.trend.source
            if not self._restoring and source is not None:
                names = self.trend.signals
                self.observation.curves = names
                # What would be shown anyway is not pinned: the project may gain signals that are looked at first.
                self._settings.keep_curves(self._document.path, names if names != usual_curves(source) else ())
        self.response.show_signals(source, self.trend.signals)

    def _mark(self, begin: float, end: float) -> None:
        length = end - begin
        self.trend.look_at(begin - length * 0.1, end + length * 0.1)
        self.trend.plot.set_cursor(0, begin)
        self.trend.plot.set_cursor(1, end)

    def _go_to(self, at: float) -> None:
        if self._recording is not None:
            self.replay_bar.seek(at)
        else:
            begin, end = self.trend.plot.span
            self.trend.look_at(at - (end - begin) / 2, at + (end - begin) / 2)

    # Events of Qt

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._seen = ()
        self._show_unread()
        self._frame()  # at once: what is live must not be seen empty
        self.trend.refresh()

    def hideEvent(self, event: QHideEvent) -> None:
        """Let go of every key."""
        super().hideEvent(event)
        self._live.release_all()

    def changeEvent(self, event: QEvent) -> None:
        """A window that is not in front holds no key."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.ActivationChange and not self.isActiveWindow():
            self.face.release_all()


def _flags(events: Iterable[Event]) -> list[Flag]:
    """The alarms that came, to be marked in the trend."""
    return [
        Flag(event.at, event.subject)
        for event in events
        if event.kind is EventKind.ALARM and event.data.get("state") == AlarmState.UNACKNOWLEDGED
    ]
