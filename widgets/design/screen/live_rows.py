"""A screen of the project under edit with the values that a running project reads. It only ever looks."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication, QObject, Signal

from app.panel.conditions import holds
from app.panel.layout import PanelLayout
from app.panel.rendering import Attribute, Row, Rows
from app.project.binding import Unbound, bind, plain_text, shown_text
from app.project.model import HeldSignal, Project, Screen
from app.signals.reading import NEVER_READ, Quality, Reading

if TYPE_CHECKING:
    from widgets.live.live_session import LiveSession

translate = QCoreApplication.translate


class LiveReadings(QObject):
    """The readings of what runs behind the window, for a project that may have been edited since it was connected."""

    changed = Signal()
    """New readings, or a project was connected or disconnected."""

    def __init__(self, live: LiveSession, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._live = live
        live.frame.connect(self.changed)
        live.connection_changed.connect(self.changed)

    @property
    def connected(self) -> bool:
        """Whether anything runs."""
        return self._live.connected

    def of(self, project: Project, names: frozenset[str]) -> dict[str, Reading]:
        """The readings of some signals of `project`. A signal that is another one now than in what runs has none."""
        session = self._live.session
        if session is None:
            return dict.fromkeys(names, NEVER_READ)
        running, readings = session.project, self._live.readings()
        return {
            name: readings[name] if same_signal(project, running, name) else _changed_since()
            for name in names
            if name in project.signal_named
        }


def same_signal(one: Project, other: Project, name: str) -> bool:
    """Whether a name means the same in both projects: the same value from the same registers of the same follower."""
    if one is other:
        return name in one.signal_named
    here, there = one.signal_named.get(name), other.signal_named.get(name)
    if here is None or here != there:
        return False
    if isinstance(here, HeldSignal):
        return True
    try:
        mine, others = bind(one, name), bind(other, name)
    except Unbound:
        return False
    return mine.base == others.base and mine.follower == others.follower


def live_rows(project: Project, screen: Screen, readings: Mapping[str, Reading]) -> Rows:
    """The cells of a screen as its panel would show them with these readings; nothing on it is under change.

    Unlike on the panel, a held value without a reading has none: while nothing runs, it holds nothing.
    """
    columns = project.panel.columns
    rows = [list(text) for text in PanelLayout.of(project).screen(screen.name).rows]
    looks = [[Attribute.NONE] * columns for _ in rows]
    for field in screen.fields:
        row, column = field.at
        if not (0 <= row < len(rows) and 0 <= column < columns):
            continue
        reading = readings.get(field.signal, NEVER_READ)
        known = reading.quality in (Quality.GOOD, Quality.STALE)
        ends = None if field.range is None else (Fraction(field.range[0]), Fraction(field.range[1]))
        value = reading.value if known else None
        text = shown_text(project, field.signal, value, field.width, field.kind, ends)[: columns - column]
        look = Attribute.STALE if value is not None and reading.quality is Quality.STALE else Attribute.NONE
        if field.blink is not None and holds(field.blink, readings):
            look |= Attribute.BLINK
        rows[row][column : column + len(text)] = text
        looks[row][column : column + len(text)] = [look] * len(text)
    for blinking in screen.blinking:
        if holds(blinking.when, readings):
            for row, column in blinking.cells(project.panel):
                looks[row][column] |= Attribute.BLINK
    return tuple(Row("".join(cells), tuple(look)) for cells, look in zip(rows, looks, strict=True))


def reading_in_words(project: Project, name: str, reading: Reading) -> str:
    """A reading for the line under the face: its value and unit, or why there is none."""
    signal = project.signal_named.get(name)
    if signal is None:
        return ""
    text = f"{plain_text(project, name, reading.value)} {signal.unit}".strip()
    if reading.good and reading.doubt:
        return translate("ScreenEditor", "reads {value}, doubtful: {reason}").format(value=text, reason=reading.doubt)
    if reading.good:
        return translate("ScreenEditor", "reads {value}").format(value=text)
    if reading.quality is Quality.STALE:
        return translate("ScreenEditor", "last value {value}; {reason}").format(value=text, reason=reading.why)
    return translate("ScreenEditor", "no value: {reason}").format(reason=reading.why)


def _changed_since() -> Reading:
    reason = translate("ScreenEditor", "the signal was changed after connecting; connect again")
    return Reading(None, None, Quality.NONE, reason, None)
