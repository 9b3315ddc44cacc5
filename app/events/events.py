"""What happens besides readings, as one kind of record: for the list of events, for recordings, for exports."""

from __future__ import annotations

import enum
from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from app.project.model import Project


class EventKind(enum.StrEnum):
    """What happened."""

    RISE = "rise"
    """A bit became 1."""
    FALL = "fall"
    """A bit became 0."""
    CHANGED = "changed"
    """A signal with a text per value took another one."""
    ENTERED = "entered"
    """The operator confirmed another value."""
    WRITTEN = "written"
    """The line has written a value and read it back."""
    NOT_WRITTEN = "not written"
    STOP = "stop"
    """A stop is not confirmed, failed, or was confirmed after all; or somebody has looked at the machine."""
    REFUSED = "refused"
    """A key or a condition asked for something that may not be done."""
    SCREEN_CHANGED = "screen changed"
    """Another screen is shown."""
    ARMED = "armed"
    DISARMED = "disarmed"
    LINE_FAULT = "line fault"
    """A line went down, or a follower stopped answering."""
    LINE_BACK = "line back"
    ALARM = "alarm"
    """The state of an alarm changed, in the terms of IEC 62682."""
    RECORDING = "recording"
    """The recording itself: begun, ended, samples lost, a clock that was set."""
    NOTE = "note"
    """Somebody wrote a remark."""


@dataclass(frozen=True, slots=True)
class Event:
    """One thing that happened.

    `at` is `time.monotonic()` in seconds; `subject` is the signal, screen, line or follower that it is about; `text`
    says it to a person; `data` holds its particulars as texts, such as `old`, `new` and `cause`.
    """

    at: float
    kind: EventKind
    subject: str
    text: str
    data: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))


def screen_after(project: Project, screen: str, event: Event) -> str:
    """The screen where the operator is after an event, who was on `screen` before.

    A screen that an override shows is none: it covers the operator's for as long as its condition holds.
    """
    if event.kind is not EventKind.SCREEN_CHANGED or event.subject not in project.screen_named:
        return screen
    covers = any(
        screen_change.when is not None and screen_change.to == event.subject for screen_change in project.screen_changes
    )
    return screen if covers else event.subject
