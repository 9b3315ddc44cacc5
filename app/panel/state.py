"""What a panel remembers between two events."""

from __future__ import annotations

import enum
from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from types import MappingProxyType

from app.panel.entry import Entry
from app.project.binding import shown_text
from app.project.model import Project


class Mode(enum.StrEnum):
    """What the operator is doing."""

    WATCH = "watch"
    """Looking at a screen."""
    CHOOSE = "choose"
    """Choosing one of several entry fields."""
    ADJUST = "adjust"
    """Changing the value of one entry field."""


@dataclass(frozen=True, slots=True)
class Message:
    """A short text over a row or a few, for a time. `until` is `time.monotonic()` in seconds.

    `reason` says in full, to who builds the panel, what the operator is told in a few words; empty if there is no more.
    `signal` is what could not be entered or written, and `value` what could not be written to it, where that is known.
    """

    text: str
    until: float
    reason: str = ""
    signal: str = ""
    value: Fraction | None = None


@dataclass(frozen=True, slots=True)
class State:
    """A panel at one moment. Only `app.panel.machine` makes new ones.

    `screen` is where the operator is. `override` is the index in `project.screen_changes` of the override that covers
    it, and `cover` is that override's screen; both None while nothing covers it. Times are `time.monotonic()`
    in seconds.
    """

    screen: str
    last_key: float
    """When a key last moved."""
    since: float
    """When a key last moved or the screen last changed: idle time counts from here."""
    override: int | None = None
    cover: str | None = None
    holding: frozenset[int] = frozenset()
    """Overrides whose condition holds (indexes in `project.screen_changes`), shown or not."""
    aside: frozenset[int] = frozenset()
    """Those of them that the operator has left by a key, for now."""
    judged: Mapping[int, bool] = field(default_factory=lambda: MappingProxyType({}))
    """What the condition of an action (index in `project.actions`) last was on a good reading."""
    entry: Entry | None = None
    held: Mapping[str, Fraction] = field(default_factory=lambda: MappingProxyType({}))
    """The held values, by signal."""
    sent: Mapping[str, Fraction] = field(default_factory=lambda: MappingProxyType({}))
    """Values on their way to the line, by signal, until it says that they are written or not."""
    down: frozenset[str] = frozenset()
    """Keys that are down."""
    pressing: tuple[tuple[str, str], ...] = ()
    """Momentary actions in force: key and signal."""
    message: Message | None = None
    """What lies over the rows."""
    said: Message | None = None
    """The last message, of which the reason can be read for `REASON_S`. A key ends it, and its signal being written."""
    language: int = 0
    """The language of the texts: its index in the panel's `languages`, 0 where there are none."""

    @property
    def shown(self) -> str:
        """The screen that the panel shows: an override's, or where the operator is."""
        return self.screen if self.cover is None else self.cover

    @property
    def mode(self) -> Mode:
        """What the operator is doing."""
        if self.entry is None:
            return Mode.WATCH
        return Mode.CHOOSE if self.entry.editing is None else Mode.ADJUST


def entry_report(project: Project, state: State) -> dict[str, object] | None:
    """The entry of `state` as plain data for a program to read, or None.

    `mode` choose or adjust, `signal`, and while adjusting `value` (a number) and `text` (as the field shows it).
    """
    entry = state.entry
    screen = project.screen_named.get(state.shown)
    if entry is None or screen is None:
        return None
    field = screen.fields[entry.field]
    report: dict[str, object] = {"mode": str(state.mode), "signal": field.signal}
    if entry.editing is not None:
        value = entry.editing.value
        report["value"] = int(value) if value.denominator == 1 else float(value)
        report["text"] = shown_text(project, field.signal, value, field.width, field.kind).strip()
    return report
