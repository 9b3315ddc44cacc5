"""A project running behind the window: one session, looked at once a frame."""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from PySide6.QtCore import QObject, Qt, QTimer, Signal

from app.errors import FanlightError
from app.project.model import Project
from widgets.live.arming import WritePermission

if TYPE_CHECKING:  # the line's libraries are imported only when a project is connected
    from app.client.endpoint import Endpoint
    from app.line.states import Snapshot
    from app.line.status import Statuses
    from app.noting.case_notes import CaseNotes
    from app.session.session import Session, Via
    from app.signals.reading import Reading

MANY: Final = 4000
SELDOM_S: Final = 2.0
"""How often it is told how things stand where there are more readings than so many."""
FIRST_FRAME_MS: Final = 5
FIRST_WITHIN_S: Final = 0.5
"""From one look to the next until the first good reading, which so waits for no frame; for no longer than this."""
FRAME_MS: Final = 50
"""Time between two looks at the session."""
IDLE_S: Final = 1.9 * FRAME_MS / 1000
"""A look without news is a frame where the last one is so long ago: time passes, too. Every other look that is."""


class NotConnectedError(Exception):
    """The project cannot be connected; the message says why and what to do."""


@dataclass(frozen=True, slots=True)
class LentLines:
    """The lines of the project are operated by another part of the window, which says so here."""

    endpoints: Mapping[str, Endpoint]
    armed: tuple[str, ...]
    disarm: Callable[[], object]
    """Lets it write no more, at once."""


class LiveSession(QObject):
    """Owns the session of the window.

    All of it happens in the window's thread, and nothing here waits for the line: the line and the simulated followers
    have their own threads, and every frame takes only what they have published.
    """

    about_to_start = Signal(object)
    """This app.session.session.Session is made and nothing has been read yet; it may still be that it cannot start."""
    connection_changed = Signal()
    """Connected, disconnected, armed or disarmed."""
    frame = Signal()
    """The session was looked at; `rows`, `snapshot` and `readings` are new. Twenty times a second;
    ten times while nothing is new."""
    happened = Signal(object)
    """The panel did something: an app.panel.events effect (Write, ScreenChanged, Entered, Refused)."""
    transactions = Signal(object)
    """What went over the line since the last frame, oldest first: a tuple of app.client.transactions.Transaction."""

    disarmed = Signal(str)
    """A line disarmed itself, since it was lost for too long: why, in words."""
    left_on = Signal(object)
    """Disconnected before the line confirmed that these signals, a tuple of names, are let go: they may still be on."""

    def __init__(
        self, parent: QObject | None = None, *, make_session: Callable[[Project, Via], Session] | None = None
    ) -> None:
        super().__init__(parent)
        self._make = make_session or _session
        self._session: Session | None = None
        self._seen = 0
        self._known: tuple[object, object] = (None, None)
        """The state of the panel and the snapshot at the last frame."""
        self._framed_at = 0.0
        self._began_at = 0.0
        self._statuses: tuple[Snapshot, Statuses] | None = None
        self._lent: LentLines | None = None
        self.notes: CaseNotes | None = None
        """Who notes what is done at the panel, if anybody does."""
        self._disarmed = ""
        """Why lines had disarmed themselves at the last look."""
        self._timer = QTimer(self)
        self._timer.setInterval(FRAME_MS)
        self._timer.setTimerType(Qt.TimerType.PreciseTimer)
        self._timer.timeout.connect(self._look)

    def take_over(self, former: LiveSession) -> None:
        """Go on with the session of another one, which is disconnected then without being stopped."""
        former.release_all()
        former._timer.stop()
        self._session, former._session = former._session, None
        self._lent, former._lent = former._lent, None
        if self._session is not None:
            self._timer.start()

    # The connection

    @property
    def lent(self) -> LentLines | None:
        """Who operates real lines in the place of this session, if anybody does."""
        return self._lent

    def lend(self, lent: LentLines | None) -> None:
        """From now on somebody else operates the lines, or no longer. Only while no real line is connected here."""
        if lent != self._lent:
            self._lent = lent
            self.connection_changed.emit()

    @property
    def session(self) -> Session | None:
        """The running session, or None."""
        return self._session

    @property
    def connected(self) -> bool:
        """Whether a project is running."""
        return self._session is not None

    @property
    def writing(self) -> WritePermission:
        """What may be written to now."""
        session = self._session
        if self._lent is not None:
            return WritePermission(live=True, armed=self._lent.armed)
        if session is None:
            return WritePermission()
        armed = tuple(line.name for line in session.project.lines if session.engine.is_armed(line.name))
        return WritePermission(
            live=True, simulated=session.simulation is not None, armed=armed, disarmed=session.disarmed
        )

    def connect_to(self, project: Project, via: Via) -> None:
        """Run `project`; what ran before is stopped first. A real line starts disarmed.

        Raises NotConnectedError.
        """
        self.disconnect_from_line()
        if not project.lines:
            raise NotConnectedError(
                self.tr("The project has no line, so there is nothing to connect to. Add a line first.")
            )
        session: Session | None = None
        try:
            session = self._make(project, via)
            self.about_to_start.emit(session)
            session.start()
        except FanlightError as why:
            if session is not None:
                session.stop()
            raise NotConnectedError(str(why)) from None
        self._session = session
        self._seen = 0
        self._began_at = time.monotonic()
        self._timer.start(FIRST_FRAME_MS)
        self.connection_changed.emit()
        self._look()

    def disconnect_from_line(self) -> None:
        """Let go of every key and stop; nothing is armed any more. No thread is left when this returns."""
        session, self._session = self._session, None
        if session is None:
            return
        self._timer.stop()
        # It lets go of the keys itself and waits, for a moment only, until the line has taken that.
        unreleased = session.stop()
        self.connection_changed.emit()
        if unreleased:
            self.left_on.emit(unreleased)

    def arm(self) -> None:
        """Let keys write to every line of the project. Only after the user has taken the cautions."""
        session = self._session
        if session is None or session.simulation is not None:
            return
        for line in session.project.lines:
            session.engine.arm(line.name, True)
        self.connection_changed.emit()

    def disarm(self) -> None:
        """Write to no real line any more, at once; only what lets go of held keys still goes out."""
        if self._lent is not None:
            self._lent.disarm()
            return
        session = self._session
        if session is None or session.simulation is not None:
            return
        self._pass_on(session.disarm())
        self.connection_changed.emit()

    # The panel

    def key_down(self, key: str) -> None:
        """The operator presses `key` of the panel."""
        session = self._session
        if session is not None:
            self._tell(lambda: session.panel.key_down(key), lambda notes, tell: notes.key_down(key, tell))
            self.frame.emit()

    def key_up(self, key: str) -> None:
        """The operator lets `key` go."""
        session = self._session
        if session is not None:
            self._tell(lambda: session.panel.key_up(key), lambda notes, tell: notes.key_up(key, tell))
            self.frame.emit()

    def release_all(self) -> None:
        """No key can be held any longer: the window lost the focus."""
        session = self._session
        if session is not None:
            self._tell(session.panel.release_all, lambda notes, tell: notes.release_all(tell))

    def _tell(
        self,
        deed: Callable[[], tuple[Any, ...]],
        noting: Callable[[CaseNotes, Callable[[], object]], None],
    ) -> None:
        """Have the panel told something, by way of whoever notes it."""
        if self.notes is None:
            self._pass_on(deed())
        else:
            noting(self.notes, lambda: self._pass_on(deed()))

    def readings(self, snapshot: Snapshot | None = None) -> Mapping[str, Reading]:
        """The readings of all signals: what the line brought, the bits in it, and the held values.

        Of this snapshot; left out, of the newest.
        """
        if self._session is None:
            return {}
        return self._session.panel.readings(None if snapshot is None else snapshot.readings)

    def statuses(self) -> Statuses | None:
        """How lines, devices and data stand; None while nothing is connected. Worked out once a snapshot."""
        from app.line.status import Statuses

        session = self._session
        if session is None:
            return None
        snapshot = session.snapshot()
        former = self._statuses
        if former is not None and former[0] is not snapshot and session.project is former[1].project:
            # Counting takes long where there is much to count.
            soon = len(snapshot.readings) > MANY and 0 <= snapshot.at - former[0].at < SELDOM_S
            former = former if soon else None
        if former is None or former[1].project is not session.project:
            former = snapshot, Statuses(session.project, snapshot)
        self._statuses = former
        return former[1]

    # A frame

    def _look(self) -> None:
        session = self._session
        if session is None:
            return
        effects = session.panel.tick()
        self._pass_on(effects)
        before, self._disarmed = self._disarmed, session.disarmed
        if self._disarmed != before:
            self.connection_changed.emit()
            if self._disarmed:
                self.disarmed.emit(self._disarmed)
        self._seen, news = session.engine.transactions.since(self._seen)
        if news:
            self.transactions.emit(news)
        state, snapshot, now = session.panel.state, session.snapshot(), time.monotonic()
        known, self._known = self._known, (state, snapshot)
        other = news or effects or state is not known[0] or snapshot is not known[1]
        if other or not 0 <= now - self._framed_at < IDLE_S:
            self._framed_at = now
            self.frame.emit()
        if self._timer.interval() != FRAME_MS and (
            now - self._began_at > FIRST_WITHIN_S or any(each.good for each in snapshot.readings.values())
        ):
            self._timer.setInterval(FRAME_MS)

    def _pass_on(self, effects: tuple[Any, ...]) -> None:
        for effect in effects:
            self.happened.emit(effect)


def _session(project: Project, via: Via) -> Session:
    from app.session.session import Session

    return Session(project, via)
