"""The alarms of a panel: its overrides, each with the state that IEC 62682 gives an alarm (from memory).

An override is shown because something needs the operator, so its condition is the alarm's. Normal; active and not yet
acknowledged; active and acknowledged; back to normal, but never acknowledged while it was active. The last one stays
until somebody acknowledges it, so that a fault that came and went is not missed.
"""

from __future__ import annotations

import enum
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Final

from app.events.events import Event, EventKind
from app.language import mark, translate
from app.panel.conditions import in_words
from app.project.model import Project


class AlarmState(enum.StrEnum):
    """Where an alarm stands. The values are the standard's abbreviations."""

    NORMAL = "NORM"
    UNACKNOWLEDGED = "UNACK"
    ACKNOWLEDGED = "ACKED"
    RETURNED = "RTNUN"
    """Returned to normal, unacknowledged."""


WORDS: Final[Mapping[AlarmState, str]] = MappingProxyType(
    {
        AlarmState.NORMAL: mark("record", "normal"),
        AlarmState.UNACKNOWLEDGED: mark("record", "active, not acknowledged"),
        AlarmState.ACKNOWLEDGED: mark("record", "active, acknowledged"),
        AlarmState.RETURNED: mark("record", "returned to normal, not acknowledged"),
    }
)
"""Each state for a person; to be translated where it is shown."""


@dataclass(frozen=True, slots=True)
class Alarm:
    """One alarm: the screen that its override shows, its condition in words, its state and when it got there.

    `since` is `time.monotonic()` in seconds; None while it has been normal ever since.
    """

    screen: str
    condition: str
    state: AlarmState = AlarmState.NORMAL
    since: float | None = None


class AlarmBook:
    """The alarms of one project, by the index of their override in its screen changes. Belongs to one thread."""

    def __init__(self, project: Project) -> None:
        self._alarms: dict[int, Alarm] = {
            index: Alarm(screen_change.to, in_words(screen_change.when))
            for index, screen_change in enumerate(project.screen_changes)
            if screen_change.when is not None
        }

    @property
    def alarms(self) -> Mapping[int, Alarm]:
        """All alarms, in the order of the overrides."""
        return MappingProxyType(self._alarms)

    @property
    def waiting(self) -> tuple[int, ...]:
        """Those that nobody has acknowledged yet."""
        unseen = (AlarmState.UNACKNOWLEDGED, AlarmState.RETURNED)
        return tuple(index for index, alarm in self._alarms.items() if alarm.state in unseen)

    def look(self, holding: Iterable[int], at: float) -> list[Event]:
        """Follow the conditions that hold now (indexes in the screen changes); gives what changed."""
        active = frozenset(holding)
        events = []
        for index, alarm in self._alarms.items():
            if index in active:
                after = {
                    AlarmState.NORMAL: AlarmState.UNACKNOWLEDGED,
                    AlarmState.RETURNED: AlarmState.UNACKNOWLEDGED,
                }.get(alarm.state, alarm.state)
            else:
                after = {
                    AlarmState.UNACKNOWLEDGED: AlarmState.RETURNED,
                    AlarmState.ACKNOWLEDGED: AlarmState.NORMAL,
                }.get(alarm.state, alarm.state)
            if after is not alarm.state:
                events.append(self._become(index, after, at))
        return events

    def acknowledge(self, indexes: Iterable[int], at: float) -> list[Event]:
        """Somebody has seen these. Those that wait for nobody are passed over. Gives what changed."""
        events = []
        for index in indexes:
            after = {
                AlarmState.UNACKNOWLEDGED: AlarmState.ACKNOWLEDGED,
                AlarmState.RETURNED: AlarmState.NORMAL,
            }.get(self._alarms[index].state)
            if after is not None:
                events.append(self._become(index, after, at))
        return events

    def follow(self, event: Event) -> None:
        """Take over what a recorded event says of an alarm; other events are passed over."""
        try:
            index, state = int(event.data["alarm"]), AlarmState(event.data["state"])
        except (KeyError, ValueError):
            return
        if event.kind is EventKind.ALARM and index in self._alarms:
            self._alarms[index] = replace(self._alarms[index], state=state, since=event.at)

    def _become(self, index: int, state: AlarmState, at: float) -> Event:
        alarm = self._alarms[index] = Alarm(self._alarms[index].screen, self._alarms[index].condition, state, at)
        words = translate("record", "{condition}: {state}").format(
            condition=alarm.condition, state=translate("record", WORDS[state])
        )
        return Event(at, EventKind.ALARM, alarm.screen, words, {"state": str(state), "alarm": str(index)})
