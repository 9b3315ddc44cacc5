"""The list of events: filtered by words and kinds, the newest below, and copied or written out as text."""

from __future__ import annotations

import bisect
import csv
import datetime
import enum
import io
from collections import Counter
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from operator import attrgetter
from typing import Final

from PySide6.QtCore import QCoreApplication, QObject, QRect
from PySide6.QtGui import QFontMetrics, QPainter
from PySide6.QtWidgets import QHeaderView, QWidget

from app.events.alarms import WORDS, AlarmState
from app.events.events import Event, EventKind
from app.exchange.quoting import quoted
from app.language import translate as app_text
from widgets.kit.icons import SIDE, paint_icon
from widgets.kit.quick_cells import QuickCells, QuickTable
from widgets.kit.scaling import heading_margin, scaled
from widgets.kit.tables import LOG_ROW, LogModel, selected_rows, set_widths

translate = QCoreApplication.translate

KEPT: Final = 50_000
SLACK: Final = 5_000
"""Events that are kept at least, and how many more before the oldest go."""
BESIDE: Final = 6
"""Pixels at 100 per cent between the icon of a kind and its word."""
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
    STATE = 4


class EventGroup(enum.Enum):
    """Kinds of events that are looked at together."""

    ALARMS = enum.auto()
    WRITTEN = enum.auto()
    SIGNALS = enum.auto()
    LINE = enum.auto()


GROUPS: Final[dict[EventGroup, frozenset[EventKind]]] = {
    EventGroup.ALARMS: frozenset({EventKind.ALARM, EventKind.STOP, EventKind.LINE_FAULT, EventKind.NOT_WRITTEN}),
    EventGroup.WRITTEN: frozenset(
        {EventKind.ENTERED, EventKind.WRITTEN, EventKind.NOT_WRITTEN, EventKind.STOP, EventKind.REFUSED}
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


_ICONS: Final = {
    EventKind.RISE: "up",
    EventKind.FALL: "down",
    EventKind.CHANGED: "signal",
    EventKind.ENTERED: "edit",
    EventKind.WRITTEN: "edit",
    EventKind.NOT_WRITTEN: "state-caution",
    EventKind.STOP: "state-alarm",
    EventKind.REFUSED: "state-caution",
    EventKind.SCREEN_CHANGED: "screen",
    EventKind.ARMED: "unlock",
    EventKind.DISARMED: "lock",
    EventKind.LINE_FAULT: "state-alarm",
    EventKind.LINE_BACK: "line",
    EventKind.ALARM: "state-alarm",
    EventKind.RECORDING: "record",
    EventKind.NOTE: "state-note",
}


def group_text(group: EventGroup, count: int) -> str:
    """A group for a person, with the number of its events."""
    words = {
        EventGroup.ALARMS: translate("Events", "Alarms {count}"),
        EventGroup.WRITTEN: translate("Events", "Written {count}"),
        EventGroup.SIGNALS: translate("Events", "Signals {count}"),
        EventGroup.LINE: translate("Events", "Line {count}"),
    }
    return words[group].format(count=count)


def kind_text(kind: EventKind) -> str:
    """A kind of event for a person."""
    return {
        EventKind.RISE: translate("Events", "rose"),
        EventKind.FALL: translate("Events", "fell"),
        EventKind.CHANGED: translate("Events", "changed"),
        EventKind.ENTERED: translate("Events", "entered"),
        EventKind.WRITTEN: translate("Events", "written"),
        EventKind.NOT_WRITTEN: translate("Events", "not written"),
        EventKind.STOP: translate("Events", "stop"),
        EventKind.REFUSED: translate("Events", "refused"),
        EventKind.SCREEN_CHANGED: translate("Events", "screen"),
        EventKind.ARMED: translate("Events", "armed"),
        EventKind.DISARMED: translate("Events", "disarmed"),
        EventKind.LINE_FAULT: translate("Events", "line fault"),
        EventKind.LINE_BACK: translate("Events", "line restored"),
        EventKind.ALARM: translate("Events", "alarm"),
        EventKind.RECORDING: translate("Events", "recording"),
        EventKind.NOTE: translate("Events", "remark"),
    }[kind]


def state_of(event: Event) -> tuple[str, str]:
    """What became of an event, and the name of its colour: of an alarm its state, of a write its proof."""
    if event.kind is EventKind.WRITTEN:
        return translate("Events", "confirmed"), "good"
    if event.kind is EventKind.NOT_WRITTEN:
        return translate("Events", "not confirmed"), "caution"
    if event.kind is not EventKind.ALARM:
        return "", "ink"
    try:
        state = AlarmState(event.data.get("state", ""))
    except ValueError:
        return "", "ink"
    waits = state in (AlarmState.UNACKNOWLEDGED, AlarmState.RETURNED)
    return app_text("record", WORDS[state]), "fault" if waits else "faint"


@dataclass(frozen=True, slots=True)
class EventFilter:
    """Which events are shown: those of any of the groups, or of all if none is named, that have all of the words."""

    groups: frozenset[EventGroup] = frozenset()
    words: tuple[str, ...] = ()

    def takes(self, event: Event) -> bool:
        """Whether this event is shown."""
        if self.groups and not any(event.kind in GROUPS[group] for group in self.groups):
            return False
        if not self.words:
            return True
        text = f"{kind_text(event.kind)}\n{event.subject}\n{event.text}".casefold()
        return all(word in text for word in self.words)


class EventsModel(LogModel[Event]):
    """Events as rows, oldest first."""

    def __init__(self, parent: QObject | None = None, *, keep: int = KEPT, slack: int = SLACK) -> None:
        super().__init__(EventFilter(), parent, keep=keep, slack=slack)
        self.titles = (
            *(self.tr("Time"), self.tr("What"), self.tr("Where"), self.tr("In words")),
            self.tr("State"),
        )
        self._kinds: Counter[EventKind] = Counter()
        self._civil: Civil = lambda at: datetime.datetime.fromtimestamp(at, datetime.UTC)

    def number(self, group: EventGroup) -> int:
        """How many events of a group are kept, shown or not."""
        return sum(self._kinds[kind] for kind in GROUPS[group])

    def _reset(self, rows: list[Event]) -> None:
        self._kinds = Counter(event.kind for event in rows)
        super()._reset(rows)

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
        self._kinds.update(event.kind for event in new)
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
        if column == EventColumn.STATE:
            return state_of(event)
        return event.subject if column == EventColumn.SUBJECT else event.text.replace(" -> ", ARROW), "ink"

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
            words = quoted(event.subject), quoted(event.text), state_of(event)[0]
            writer.writerow([when, kind_text(event.kind), *words])
        return text.getvalue()


ARROW: Final = " \N{RIGHTWARDS ARROW} "
"""Stands between two values, where files have an arrow of plain letters."""
_STATES: Final = {EventKind.WRITTEN: ("state-good", "good"), EventKind.NOT_WRITTEN: ("state-caution", "caution")}
"""The icon of what became of a write, and its colour."""


class _Cells(QuickCells):
    """Cells of events: kinds, and what became of a write, have an icon before the word."""

    def __init__(self, table: EventsTable, model: EventsModel) -> None:
        super().__init__(table, model.drawn)
        self._model = model

    def draw(
        self, painter: QPainter, rect: QRect, metrics: QFontMetrics, row: int, column: int, *, selected: bool = False
    ) -> None:
        """Draw one cell into a rectangle."""
        if column == EventColumn.KIND:
            event, side = self._model.row(row), scaled(SIDE)
            ink = _INKS.get(event.kind, "faint")
            place = QRect(rect.left() + heading_margin(), rect.top() + (rect.height() - side) // 2, side, side)
            paint_icon(painter, _ICONS[event.kind], ink, place)
            rect = rect.adjusted(side + scaled(BESIDE), 0, 0, 0)
        elif column == EventColumn.STATE and (state := _STATES.get(self._model.row(row).kind)) is not None:
            side = scaled(SIDE)
            place = QRect(rect.left() + heading_margin(), rect.top() + (rect.height() - side) // 2, side, side)
            paint_icon(painter, *state, place)
            rect = rect.adjusted(side + scaled(BESIDE), 0, 0, 0)
        super().draw(painter, rect, metrics, row, column, selected=selected)


class EventsTable(QuickTable):
    """The table; it follows the newest event while its last row is in sight."""

    def __init__(self, model: EventsModel, parent: QWidget | None = None) -> None:
        super().__init__(model, parent, LOG_ROW)
        self.setItemDelegate(_Cells(self, model))
        self._events = model
        self.setAccessibleName(self.tr("Events"))
        measure = self.fontMetrics().horizontalAdvance
        widths = {
            EventColumn.TIME: measure("00:00:00.000"),
            EventColumn.KIND: max(measure(kind_text(kind)) for kind in EventKind) + scaled(SIDE + BESIDE),
            EventColumn.SUBJECT: measure("n" * 16),
            EventColumn.STATE: measure(app_text("record", WORDS[AlarmState.UNACKNOWLEDGED])),
        }
        set_widths(self, {column: width + 2 * heading_margin() + ROUNDING for column, width in widths.items()})
        header = self.horizontalHeader()
        header.setStretchLastSection(False)
        header.setSectionResizeMode(EventColumn.TEXT, QHeaderView.ResizeMode.Stretch)
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
