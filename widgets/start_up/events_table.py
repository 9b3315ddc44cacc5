"""The list of events: filtered by words and kinds, the newest below, and copied or written out as text."""

from __future__ import annotations

import bisect
import csv
import datetime
import enum
import io
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from operator import attrgetter
from typing import Final

from PySide6.QtCore import QCoreApplication, QObject
from PySide6.QtWidgets import QWidget

from app.events.events import Event, EventKind
from app.exchange.quoting import quoted
from widgets.kit.quick_cells import QuickTable
from widgets.kit.scaling import heading_margin
from widgets.kit.tables import LOG_ROW, LogModel, selected_rows, set_widths

translate = QCoreApplication.translate

KEPT: Final = 50_000
SLACK: Final = 5_000
"""Events that are kept at least, and how many more before the oldest go."""
ROUNDING: Final = 2
"""What a text may be wider, in pixels, than it is measured: signs of another font have broken widths."""

_TIME: Final = attrgetter("at")

Civil = Callable[[float], datetime.datetime]
"""From the time of an event to the civil time."""


class EventColumn(enum.IntEnum):
    """The columns, from the left."""

    TIME = 0
    KIND = 1
    SUBJECT = 2
    TEXT = 3


class EventGroup(enum.Enum):
    """Kinds of events that are looked at together."""

    ALL = enum.auto()
    ALARMS = enum.auto()
    OPERATOR = enum.auto()
    SIGNALS = enum.auto()
    LINE = enum.auto()


_GROUPS: Final[dict[EventGroup, frozenset[EventKind]]] = {
    EventGroup.ALL: frozenset(EventKind),
    EventGroup.ALARMS: frozenset({EventKind.ALARM, EventKind.STOP, EventKind.LINE_FAULT, EventKind.NOT_WRITTEN}),
    EventGroup.OPERATOR: frozenset(
        {
            EventKind.ENTERED,
            EventKind.WRITTEN,
            EventKind.NOT_WRITTEN,
            EventKind.STOP,
            EventKind.REFUSED,
            EventKind.SCREEN_CHANGED,
            EventKind.ARMED,
            EventKind.DISARMED,
            EventKind.NOTE,
        }
    ),
    EventGroup.SIGNALS: frozenset({EventKind.RISE, EventKind.FALL, EventKind.CHANGED}),
    EventGroup.LINE: frozenset(
        {EventKind.LINE_FAULT, EventKind.LINE_BACK, EventKind.ARMED, EventKind.DISARMED, EventKind.RECORDING}
    ),
}

_INKS: Final = {
    EventKind.ALARM: "fault",
    EventKind.STOP: "fault",
    EventKind.LINE_FAULT: "fault",
    EventKind.NOT_WRITTEN: "caution",
    EventKind.REFUSED: "caution",
    EventKind.ARMED: "caution",
}
"""Colours beside the words; all other kinds are plain."""


def group_names() -> list[tuple[EventGroup, str]]:
    """The groups for a person, in the order of a choice."""
    return [
        (EventGroup.ALL, translate("Events", "all events")),
        (EventGroup.ALARMS, translate("Events", "alarms and faults")),
        (EventGroup.OPERATOR, translate("Events", "operation")),
        (EventGroup.SIGNALS, translate("Events", "signals")),
        (EventGroup.LINE, translate("Events", "lines and recording")),
    ]


def kind_text(kind: EventKind) -> str:
    """A kind of event for a person."""
    return {
        EventKind.RISE: translate("Events", "\u2191 rose"),
        EventKind.FALL: translate("Events", "\u2193 fell"),
        EventKind.CHANGED: translate("Events", "changed"),
        EventKind.ENTERED: translate("Events", "entered"),
        EventKind.WRITTEN: translate("Events", "written"),
        EventKind.NOT_WRITTEN: translate("Events", "\u26a0 not written"),
        EventKind.STOP: translate("Events", "\u26a0 stop"),
        EventKind.REFUSED: translate("Events", "\u26a0 refused"),
        EventKind.SCREEN_CHANGED: translate("Events", "screen"),
        EventKind.ARMED: translate("Events", "\u26a0 armed"),
        EventKind.DISARMED: translate("Events", "disarmed"),
        EventKind.LINE_FAULT: translate("Events", "\u26a0 line fault"),
        EventKind.LINE_BACK: translate("Events", "line restored"),
        EventKind.ALARM: translate("Events", "\u26a0 alarm"),
        EventKind.RECORDING: translate("Events", "recording"),
        EventKind.NOTE: translate("Events", "remark"),
    }[kind]


@dataclass(frozen=True, slots=True)
class EventFilter:
    """Which events are shown: those of a group that have all of the words."""

    group: EventGroup = EventGroup.ALL
    words: tuple[str, ...] = ()

    def takes(self, event: Event) -> bool:
        """Whether this event is shown."""
        if event.kind not in _GROUPS[self.group]:
            return False
        if not self.words:
            return True
        text = f"{kind_text(event.kind)}\n{event.subject}\n{event.text}".casefold()
        return all(word in text for word in self.words)


class EventsModel(LogModel[Event]):
    """Events as rows, oldest first."""

    def __init__(self, parent: QObject | None = None, *, keep: int = KEPT, slack: int = SLACK) -> None:
        super().__init__(EventFilter(), parent, keep=keep, slack=slack)
        self.titles = (self.tr("Time"), self.tr("Event"), self.tr("Location"), self.tr("Description"))
        self._civil: Civil = lambda at: datetime.datetime.fromtimestamp(at, datetime.UTC)

    def set_civil(self, civil: Civil) -> None:
        """Show times by this clock."""
        self._civil = civil
        self._reset(self._all)

    def set_events(self, events: Iterable[Event]) -> None:
        """Show these instead."""
        self._reset(sorted(events, key=_TIME)[-self._keep :])

    def add(self, events: Iterable[Event]) -> None:
        """Add some, oldest first, each at the place that its time has: news of the line come later than they happen."""
        new = list(events)
        for event in new:
            bisect.insort(self._all, event, key=_TIME)
        taken = [event for event in new if self._wanted.takes(event)]
        if taken and self._shown and taken[0].at < self._shown[-1].at:
            for event in taken:
                self._insert(bisect.bisect_right(self._shown, event.at, key=_TIME), [event])
        else:
            self._insert(len(self._shown), taken)
        if len(self._all) > self._keep + self._slack:
            self._reset(self._all[-self._keep :])

    def cell(self, row: int, column: int) -> tuple[str, str]:
        """The text of a cell, and the name of its colour."""
        event = self._shown[row]
        if column == EventColumn.TIME:
            return self._civil(event.at).strftime("%H:%M:%S.%f")[:-3], "faint"
        if column == EventColumn.KIND:
            return kind_text(event.kind), _INKS.get(event.kind, "ink")
        return event.subject if column == EventColumn.SUBJECT else event.text, "ink"

    def tip(self, row: int, column: int) -> str:  # noqa: ARG002 - the same all along the row
        """When it was, with the date, and all of the description."""
        event = self._shown[row]
        return f"{self._civil(event.at).isoformat(sep=' ', timespec='milliseconds')}\n{event.text}"

    def as_text(self, rows: Iterable[int], delimiter: str = "\t") -> str:
        """Rows with a heading, to paste into a spreadsheet: civil times in ISO 8601."""
        text = io.StringIO()
        writer = csv.writer(text, delimiter=delimiter, lineterminator="\n")
        writer.writerow(self.titles)
        for row in rows:
            event = self._shown[row]
            when = self._civil(event.at).isoformat(timespec="milliseconds")
            writer.writerow([when, kind_text(event.kind), quoted(event.subject), quoted(event.text)])
        return text.getvalue()


class EventsTable(QuickTable):
    """The table; it follows the newest event while its last row is in sight."""

    def __init__(self, model: EventsModel, parent: QWidget | None = None) -> None:
        super().__init__(model, parent, LOG_ROW)
        self._events = model
        self.setAccessibleName(self.tr("Events"))
        measure = self.fontMetrics().horizontalAdvance
        widths = {
            EventColumn.TIME: measure("00:00:00.000"),
            EventColumn.KIND: max(measure(kind_text(kind)) for kind in EventKind),
            EventColumn.SUBJECT: measure("n" * 16),
        }
        set_widths(self, {column: width + 2 * heading_margin() + ROUNDING for column, width in widths.items()})
        self._following = True
        model.rowsInserted.connect(self._follow_growth)
        model.modelReset.connect(self.scrollToBottom)
        self.verticalScrollBar().valueChanged.connect(self._follow_scroll)
        # What came while it was hidden has a place only now.
        self.verticalScrollBar().rangeChanged.connect(lambda _least, _most: self._follow_growth())

    def chosen_rows(self) -> list[int]:
        """The selected rows, from the top; all if none is selected."""
        return selected_rows(self) or list(range(self._events.rowCount()))

    def current_event(self) -> Event | None:
        """The event of the current row."""
        index = self.currentIndex()
        return self._events.shown[index.row()] if index.isValid() else None

    def _follow_scroll(self, value: int) -> None:
        self._following = value >= self.verticalScrollBar().maximum()

    def _follow_growth(self) -> None:
        if self._following:
            self.scrollToBottom()
