"""What the window says to who listens: trips, lines, arming, writes, entry and notices, whatever has the focus."""

from __future__ import annotations

import re
import time
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QObject

from app.project.binding import plain_text
from app.project.model import HeldSignal, Project
from widgets.face.spoken_changes import ENTRY
from widgets.frame.badge import ArmingBadge, WriteState, state_of
from widgets.kit.notice_slot import Gravity, NoticeSlot, SaidNotice
from widgets.live.live_session import LiveSession
from widgets.live.live_source import Observation
from widgets.speech.voice import Urgency, voice

if TYPE_CHECKING:  # imported with the line, when something is connected
    from fractions import Fraction

    from app.events.events import Event
    from app.panel.entry import Editing
    from app.panel.state import State

STILL_ON_S: Final = 1.2
"""So long after a key wrote something under an alarm it is told that the alarm is still there, if it is."""
_NUMBERS: Final = re.compile(r"\d+(?:[.,]\d+)?")


class SpokenNews(QObject):
    """Follows the session and the notices of a window, and says what whoever cannot see it must know."""

    def __init__(
        self, parent: QObject, live: LiveSession, observation: Observation, notices: NoticeSlot, badge: ArmingBadge
    ) -> None:
        """`badge` has been told already when the connection changes."""
        super().__init__(parent)
        self._live = live
        self._badge = badge
        self._voice = voice()
        self._write_state = state_of(live.writing)
        self._state: State | None = None
        self._notices: dict[str, str] = {}
        """The last words about each matter, without their numbers."""
        self._tried: tuple[str, float] | None = None
        """The alarm under which a key wrote something, and when."""
        live.connection_changed.connect(self._say_writing)
        live.frame.connect(self._follow)
        live.happened.connect(self._note_effect)
        observation.happened.connect(self._say_events)
        notices.said.connect(self._say_notice)

    # Writing

    def _say_writing(self) -> None:
        before, self._write_state = self._write_state, state_of(self._live.writing)
        if self._write_state not in (before, WriteState.DISARMED):  # why it disarmed itself is told by a notice
            grave = {WriteState.ARMED, WriteState.DISARMED} & {before, self._write_state}
            self._voice.say(self._badge.words, Urgency.URGENT if grave else Urgency.NEWS, "writing")
        if self._live.session is None:
            self._state = self._tried = None

    # Notices

    def _say_notice(self, notice: SaidNotice) -> None:
        """Not again where only a number in it has changed."""
        words = f"{notice.number} {_NUMBERS.sub('', notice.text)}"
        if words == self._notices.get(notice.about):
            return
        self._notices[notice.about] = words
        grave = notice.gravity >= Gravity.FAULT
        self._voice.say(notice.text, Urgency.URGENT if grave else Urgency.NEWS, f"notice {notice.about}")

    # Events

    def _say_events(self, events: tuple[Event, ...]) -> None:
        from app.events.alarms import AlarmState
        from app.events.events import EventKind

        for event in events:
            words = f"{event.subject}: {event.text}"
            match event.kind:
                case EventKind.ALARM:
                    trips = event.data["state"] == AlarmState.UNACKNOWLEDGED
                    words = self.tr("Alarm: {words}").format(words=event.text)
                    self._voice.say(words, Urgency.URGENT if trips else Urgency.NEWS, f"alarm {event.data['alarm']}")
                case EventKind.STOP:
                    self._voice.say(words, Urgency.URGENT, f"stop {event.subject}")
                case EventKind.WRITTEN if event.data["kept"] in ("", event.data["wanted"]):
                    words = self.tr("{signal}: {value} written").format(
                        signal=event.subject, value=event.data["wanted"]
                    )
                    self._voice.say(words, Urgency.RESULT, f"written {event.subject}")
                case EventKind.WRITTEN:
                    self._voice.say(words, Urgency.RESULT, f"written {event.subject}")
                case EventKind.ENTERED if self._is_held(event.subject):
                    self._voice.say(words, Urgency.RESULT, f"written {event.subject}")
                case EventKind.NOT_WRITTEN:
                    self._voice.say(words, about=f"written {event.subject}")
                case EventKind.REFUSED:
                    self._voice.say(words, about=f"refused {event.subject}")
                case EventKind.LINE_BACK:
                    self._voice.say(words, Urgency.RESULT, f"line {event.subject}")
                case _:  # a line that is lost is told by a notice, arming by the badge, the rest by the panel
                    pass

    def _is_held(self, signal: str) -> bool:
        session = self._live.session
        return session is not None and isinstance(session.project.signal_named.get(signal), HeldSignal)

    # The panel

    def _note_effect(self, effect: object) -> None:
        from app.panel.events import Write

        session = self._live.session
        if session is None or not isinstance(effect, Write):
            return
        state = session.panel.state
        if state.cover is not None and state.down:  # not what an alarm writes by itself
            self._tried = state.cover, time.monotonic()

    def _follow(self) -> None:
        session = self._live.session
        if session is None:
            return
        before, self._state = self._state, session.panel.state
        if self._tried is not None and time.monotonic() - self._tried[1] >= STILL_ON_S:
            (cover, _), self._tried = self._tried, None
            if self._state.cover == cover:
                self._voice.say(self.tr("Not acknowledged: \u201c{screen}\u201d is still on").format(screen=cover))
        if before is not None and before.entry is not self._state.entry:
            self._say_entry(session.project, before, self._state)

    def _say_entry(self, project: Project, before: State, now: State) -> None:
        was, entry = before.entry, now.entry
        if entry is None:
            if was is not None and was.editing is not None and not now.sent.keys() - before.sent.keys():
                self._voice.say(self.tr("End of entry"), about=ENTRY)
            return
        told = None if was is None else (was.field, was.editing is None)
        if told == (entry.field, entry.editing is None):
            return  # the panel itself tells the value as it changes
        fields = project.screen_named[now.shown].fields
        signal = fields[entry.field].signal
        if entry.editing is None:
            self._voice.say(self.tr("Choose a field: {signal}").format(signal=signal), about=ENTRY)
        else:
            self._voice.say(self._entry_words(project, signal, entry.editing), about=ENTRY)

    def _entry_words(self, project: Project, signal: str, editing: Editing) -> str:
        def told(value: Fraction) -> str:
            return f"{plain_text(project, signal, value)} {project.signal_named[signal].unit}".rstrip()

        if editing.choices:
            choices = ", ".join(told(choice) for choice in editing.choices)
            return self.tr("Change {signal}: {value}; one of {choices}").format(
                signal=signal, value=told(editing.value), choices=choices
            )
        if editing.low is None or editing.high is None:
            return self.tr("Change {signal}: {value}").format(signal=signal, value=told(editing.value))
        return self.tr("Change {signal}: {value}; from {low} to {high}").format(
            signal=signal, value=told(editing.value), low=told(editing.low), high=told(editing.high)
        )
