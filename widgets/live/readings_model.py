"""The rows of the table of readings. Only rows that are in sight are worked out, whatever number there is."""

from __future__ import annotations

import enum
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Final

from PySide6.QtCore import QCoreApplication, QObject, Qt

from app.project.binding import bindings, plain_text
from app.project.model import BitSignal, HeldSignal, Project
from app.signals.raw_text import RawForm, raw_text
from app.signals.reading import NEVER_READ, Quality, Reading
from widgets.kit.tables import TableModel, Trim, to_the_right

translate = QCoreApplication.translate

MANY: Final = 4000
"""Rows above which they are sorted and filtered anew less often."""


class ReadingColumn(enum.IntEnum):
    """The columns, from the left."""

    SIGNAL = 0
    VALUE = 1
    QUALITY = 2
    RAW = 3
    AGE = 4
    REASON = 5


@dataclass(frozen=True, slots=True)
class _Shown:
    """One row as it stands in the table."""

    texts: tuple[str, ...]
    """By column."""
    kind: str
    """Its quality; or else `doubtful` or `held`."""
    fresh: bool = False
    """It was written a moment ago."""

    def ink(self, column: int) -> str:
        """The name of the colour of a cell's text."""
        if column == ReadingColumn.QUALITY:
            return STATES[self.kind][1]
        if column in (ReadingColumn.RAW, ReadingColumn.AGE):
            old = column == ReadingColumn.AGE and self.kind == Quality.STALE
            return "caution" if old else "faint"
        return "faint" if column == ReadingColumn.VALUE and self.kind in _OLD else "ink"


DOUBTFUL: Final = "doubtful"
"""A good value which hardly can be what its signal says."""
HELD: Final = "held"
"""A value that lives in the panel and is read from no line."""
STATES: Final = {
    str(Quality.GOOD): ("state-good", "good"),
    str(Quality.STALE): ("state-caution", "caution"),
    str(Quality.NONE): ("state-unread", "faint"),
    str(Quality.REFUSED): ("state-alarm", "fault"),
    str(Quality.IMPLAUSIBLE): ("state-alarm", "fault"),
    DOUBTFUL: ("state-caution", "caution"),
    HELD: ("panel", "faint"),
}
"""The icon and the colour of each quality, so that colour is never the only sign. Nobody is warned of what was never
read."""
_OLD: Final = (Quality.STALE, Quality.REFUSED, Quality.IMPLAUSIBLE, Quality.NONE)


def quality_words(quality: Quality) -> str:
    """The quality in words for people."""
    words = {
        Quality.GOOD: translate("Quality", "good"),
        Quality.STALE: translate("Quality", "old"),
        Quality.NONE: translate("Quality", "never read"),
        Quality.REFUSED: translate("Quality", "refused"),
        Quality.IMPLAUSIBLE: translate("Quality", "implausible"),
    }
    return words[quality]


def doubtful_words() -> str:
    """In words, of a value that is good and hardly can be."""
    return translate("Quality", "doubtful")


def held_words() -> str:
    """In words, of a value that lives in the panel."""
    return translate("Quality", "panel value")


def age_text(seconds: float | None) -> str:
    """An age, coarse enough not to flicker: below one second it is only said to be that."""
    if seconds is None:
        return "\u2013"
    if seconds < 1:
        return "< 1 s"
    if seconds < 120:
        return f"{int(seconds)} s"
    if seconds < 7200:
        return f"{int(seconds // 60)} min"
    return f"{int(seconds // 3600)} h"


class ReadingsModel(TableModel):
    """The readings of a project's signals, sorted and filtered.

    Readings are only kept when they come; a row is worked out when it is drawn or asked for. Whoever shows the rows
    asks by `changes` which of the cells that are in sight say something else than before.
    """

    alignment = to_the_right(ReadingColumn.VALUE, ReadingColumn.RAW, ReadingColumn.AGE)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.titles = (
            self.tr("Signal"),
            self.tr("Value"),
            self.tr("Quality"),
            self.tr("Raw"),
            self.tr("Age"),
            self.tr("Reason"),
        )
        self._project: Project | None = None
        self._names: tuple[str, ...] = ()
        self._bits: Mapping[str, str] = {}
        self._held: Collection[str] = ()
        self._fresh: dict[str, float] = {}
        """Until when a value that was written stands out, `time.monotonic()` in seconds, by signal."""
        self._registers: Mapping[str, int] = {}
        self._readings: Mapping[str, Reading] = {}
        self._now = 0.0
        self._form = RawForm.DECIMAL
        self._order: list[str] = []
        self._made: dict[str, tuple[Reading, _Shown]] = {}
        self._drawn: dict[str, _Shown] = {}
        self._words: tuple[str, ...] = ()
        self._not_good_only = False
        self._column = -1
        self._falling = False
        self._arranged_at = 0.0

    def set_project(self, project: Project) -> None:
        """Show this project's signals, all still unread."""
        self.beginResetModel()
        self._project = project
        self._bits = {signal.name: signal.bit.of for signal in project.signals if isinstance(signal, BitSignal)}
        self._held = {signal.name for signal in project.signals if isinstance(signal, HeldSignal)}
        self._names = _words_with_bits(project, self._bits)
        self._registers = {
            name: 0 if binding.single or binding.bit is not None else binding.count
            for name, binding in bindings(project).items()
        }
        self._readings = {}
        self._made, self._drawn, self._fresh = {}, {}, {}
        self._order = self._order_names()
        self.endResetModel()

    @property
    def most_registers(self) -> int:
        """The most registers that a number of the project has, 0 to 4."""
        return max((count for count in self._registers.values() if count <= 4), default=0)

    def set_readings(self, readings: Mapping[str, Reading], now: float) -> None:
        """Show these readings. `now` is `time.monotonic()` in seconds."""
        self._readings = readings
        self._now = now
        moving = self._not_good_only or self._words or self._column > ReadingColumn.SIGNAL
        if moving and (len(self._names) <= MANY or now - self._arranged_at >= 2.0 or now < self._arranged_at):
            self._arrange()

    def set_form(self, form: RawForm) -> None:
        """Write raw numbers so from now on."""
        self._form = form
        self._made, self._drawn = {}, {}
        if self._order:
            self.dataChanged.emit(self.index(0, ReadingColumn.RAW), self.index(len(self._order) - 1, ReadingColumn.RAW))

    @property
    def form(self) -> RawForm:
        """How raw numbers are written."""
        return self._form

    def value_words(self) -> list[str]:
        """The words that values of the project have, by their length."""
        texts = () if self._project is None else (signal.texts for signal in self._project.signals)
        return sorted({words for each in texts if each for words in each.values()}, key=len)

    @property
    def signals(self) -> int:
        """How many signals there are, shown or not."""
        return len(self._names)

    def not_good(self) -> int:
        """How many of them are not good, or doubtful."""
        return sum(not self._sound(name) for name in self._names)

    def freshen(self, name: str, until: float) -> None:
        """The value of this signal was written: it stands out until then, `time.monotonic()` in seconds."""
        self._fresh[name] = until

    # Rows

    def name(self, row: int) -> str:
        """The signal in this row."""
        return self._order[row]

    def changes(self, first: int, last: int) -> list[tuple[int, ReadingColumn]]:
        """The cells of these rows that say something else than when they were drawn."""
        found: list[tuple[int, ReadingColumn]] = []
        for row in range(max(0, first), min(last + 1, len(self._order))):
            name = self._order[row]
            former, now = self._drawn.get(name), self._compose(name)
            if former is not None and former is not now:
                recoloured = (former.kind, former.fresh) != (now.kind, now.fresh)
                found += [
                    (row, column) for column in _DIFFER if recoloured or former.texts[column] != now.texts[column]
                ]
        return found

    def count(self) -> int:
        """How many signals are shown."""
        return len(self._order)

    def cell(self, row: int, column: int) -> tuple[str, str]:
        """What stands in a cell, and the name of its colour."""
        shown = self._compose(self._order[row])
        return shown.texts[column], shown.ink(column)

    def drawn(self, row: int, column: int) -> tuple[str, str, Qt.AlignmentFlag]:
        """The same to draw it: `changes` tells from now on what is not so any more."""
        name = self._order[row]
        shown = self._drawn[name] = self._compose(name)
        return shown.texts[column], shown.ink(column), self.alignment[column]

    def tip(self, row: int, column: int) -> str:  # noqa: ARG002 - the same all along the row
        """Why the reading is not good."""
        return self._compose(self._order[row]).texts[ReadingColumn.REASON]

    def trim(self, row: int, column: int) -> Trim | None:
        """The icon of the quality, the weight of the value, and bits under their word."""
        name = self._order[row]
        if column == ReadingColumn.SIGNAL:
            return _UNDER if self._column < 0 and name in self._bits else None
        shown = self._compose(name)
        if column == ReadingColumn.VALUE:
            return _FRESH if shown.fresh else _STRONG
        return _QUALITY[shown.kind] if column == ReadingColumn.QUALITY else None

    def spoken(self, row: int, column: int) -> str:
        """The text with its heading."""
        return f"{self.titles[column]}: {self.cell(row, column)[0]}"

    def _reading(self, name: str) -> Reading:
        return self._readings.get(name, NEVER_READ)

    def _compose(self, name: str) -> _Shown:
        reading = self._reading(name)
        former = self._made.get(name)
        age = "" if reading.value is None and reading.time is None else age_text(reading.age(self._now))
        fresh = bool(self._fresh) and self._is_fresh(name)
        if former is not None and former[0] is reading:
            shown = former[1]
            if shown.fresh is fresh and (shown.kind == HELD or shown.texts[ReadingColumn.AGE] == age):
                return shown
        shown = self._worked_out(name, reading, age, fresh=fresh)
        if former is not None and former[1] == shown:
            shown = former[1]
        self._made[name] = reading, shown
        return shown

    def _is_fresh(self, name: str) -> bool:
        if self._fresh.get(name, self._now) > self._now:
            return True
        self._fresh.pop(name, None)
        return False

    def _worked_out(self, name: str, reading: Reading, age: str, *, fresh: bool) -> _Shown:
        project = self._project
        assert project is not None, "there are no rows without a project"
        unit = project.signal_named[name].unit
        value = "" if reading.value is None else plain_text(project, name, reading.value)
        raw = raw_text(reading.raw, self._registers.get(name, 0), self._form)
        reason = reading.doubt or reading.why
        if name in self._held:
            kind, quality, raw, age, reason = HELD, held_words(), NOTHING, NOTHING, ""
        elif reading.good and reading.doubt:
            kind, quality = DOUBTFUL, doubtful_words()
        else:
            kind, quality = str(reading.quality), quality_words(reading.quality)
        texts = (name, f"{value} {unit}" if unit and value else value, quality, raw, age, reason)
        return _Shown(texts, kind, fresh)

    # Order

    def search(self, text: str, *, not_good_only: bool) -> None:
        """Show only rows that have all these words in name, value, quality or reason, or only those not good."""
        self._words = tuple(text.casefold().split())
        self._not_good_only = not_good_only
        self._arrange()

    @property
    def sort_column(self) -> int:
        """The column that the rows are sorted by; -1: as in the project."""
        return self._column

    def sort(self, column: int, order: Qt.SortOrder = Qt.SortOrder.AscendingOrder) -> None:
        """Sort the rows: numbers by size and before texts. Column -1: as in the project."""
        self._column = column
        self._falling = order is Qt.SortOrder.DescendingOrder
        self._arrange()

    def _arrange(self) -> None:
        """Sort and filter anew; what is selected stays so."""
        self._arranged_at = self._now
        order = self._order_names()
        if order == self._order:
            return
        if len(order) != len(self._order) or set(order) != set(self._order):
            self.beginResetModel()
            self._order = order
            self.endResetModel()
            return
        self.layoutAboutToBeChanged.emit()
        kept = self.persistentIndexList()
        place = {name: row for row, name in enumerate(order)}
        moved = [self.index(place[self._order[index.row()]], index.column()) for index in kept]
        self._order = order
        self.changePersistentIndexList(kept, moved)
        self.layoutChanged.emit()

    def _order_names(self) -> list[str]:
        order: Iterable[str] = self._names
        if self._not_good_only:
            order = [name for name in order if not self._sound(name)]
        if self._words:
            order = [name for name in order if self._matches(name)]
        if self._column >= 0:
            return sorted(order, key=self._key, reverse=self._falling)
        return list(order)

    def _sound(self, name: str) -> bool:
        reading = self._reading(name)
        return name in self._held or (reading.quality is Quality.GOOD and not reading.doubt)

    def _matches(self, name: str) -> bool:
        missing = [word for word in self._words if word not in name.casefold()]
        if not missing:
            return True
        texts = self._compose(name).texts
        looked_at = (ReadingColumn.SIGNAL, ReadingColumn.VALUE, ReadingColumn.QUALITY, ReadingColumn.REASON)
        text = " ".join(texts[column] for column in looked_at).casefold()
        return all(word in text for word in self._words)

    def _key(self, name: str) -> tuple[bool, Any]:
        """Numbers before texts."""
        reading = self._reading(name)
        if self._column == ReadingColumn.VALUE:
            key: Any = float(reading.value) if isinstance(reading.value, Fraction) else reading.value or ""
        elif self._column == ReadingColumn.QUALITY:
            key = list(Quality).index(reading.quality) + (0.5 if reading.doubt else 0.0)
        elif self._column == ReadingColumn.RAW:
            key = "" if reading.raw is None else reading.raw
        elif self._column == ReadingColumn.AGE:
            age = reading.age(self._now)
            key = float("inf") if age is None else float(int(age))
        else:
            key = name.casefold() if self._column == ReadingColumn.SIGNAL else reading.reason
        return isinstance(key, str), key


def _words_with_bits(project: Project, bits: Mapping[str, str]) -> tuple[str, ...]:
    """The signals in the order of the project, but bits right behind their word."""
    under: dict[str, list[str]] = {}
    for name, word in bits.items():
        under.setdefault(word, []).append(name)
    words = (name for name in project.signal_named if name not in bits)
    return tuple(each for word in words for each in (word, *under.pop(word, ()))) + tuple(
        name for names in under.values() for name in names
    )


NOTHING: Final = "\u2013"
_UNDER: Final = Trim(indent=1)
_STRONG: Final = Trim(strong=True)
_FRESH: Final = Trim(strong=True, ground="soft")
_QUALITY: Final = {kind: Trim(*drawn) for kind, drawn in STATES.items()}
_DIFFER: Final = tuple(column for column in ReadingColumn if column is not ReadingColumn.SIGNAL)
