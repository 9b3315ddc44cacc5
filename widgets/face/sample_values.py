"""What a screen shows while it is designed: marks, sample values or the widest values in its fields."""

from __future__ import annotations

import enum
import operator
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from app.panel.layout import PanelLayout
from app.panel.rendering import Attribute, Row, Rows
from app.project.binding import shown_text, value_span, whole_registers
from app.project.model import BitSignal, Field, HeldSignal, Project, RegisterSignal, Screen, by_number
from app.signals.text import hexadecimal_width, number_digits, number_width

_USUAL: Final = Fraction(1000)


class FieldContents(enum.StrEnum):
    """What stands in the fields."""

    MARKS = "marks"
    SAMPLE = "sample"
    WIDEST = "widest"
    LIVE = "live"
    """What a running project reads; dashes while nothing runs."""


def specimen_rows(project: Project, screen: Screen, shown: FieldContents) -> Rows:
    """The cells of a screen with something in every field. A later field covers an earlier one, as on the panel."""
    panel = project.panel
    rows = [list(text) for text in PanelLayout.of(project).screen(screen.name).rows]
    for field in screen.fields:
        row, column = field.at
        if 0 <= row < panel.rows and 0 <= column < panel.columns:
            text = field_text(project, field, shown)[: panel.columns - column]
            rows[row][column : column + len(text)] = text
    plain = (Attribute.NONE,) * panel.columns
    return tuple(Row("".join(cells), plain) for cells in rows)


class Specimens:
    """Sample rows of the screens of one document, made again only where something that they show has changed."""

    def __init__(self) -> None:
        self._of: tuple[object, object] = (None, None)
        self._grounds = object()
        self._kept: dict[str, _Kept] = {}

    def rows(self, project: Project, screen: Screen) -> Rows:
        """The cells of a screen with sample values."""
        rows = self.known_rows(project, screen)
        if rows is None:
            rows = specimen_rows(project, screen, FieldContents.SAMPLE)
            self._kept[screen.name] = _Kept(self._grounds, _glass(project), screen, _signals(project, screen), rows)
        return rows

    def known_rows(self, project: Project, screen: Screen) -> Rows | None:
        """The same as far as it is known already; None where something has changed since."""
        # Parts are shared between the values of a project, so what is the same object has not changed.
        if self._of[0] is not project.signals or self._of[1] is not project.panel:
            self._of = (project.signals, project.panel)
            self._grounds = object()
        kept = self._kept.get(screen.name)
        if kept is None or kept.screen is not screen:
            return None
        if kept.grounds is not self._grounds:
            if kept.glass != _glass(project) or not all(map(operator.is_, kept.signals, _signals(project, screen))):
                return None
            kept.grounds = self._grounds
        return kept.rows


@dataclass(slots=True)
class _Kept:
    """The rows of one screen, and all that they were made of."""

    grounds: object
    """The same for as long as neither the panel nor any signal changes."""
    glass: tuple[object, ...]
    screen: Screen
    signals: list[object]
    rows: Rows


def _glass(project: Project) -> tuple[object, ...]:
    return project.panel.rows, project.panel.columns, project.panel.repertoire


def _signals(project: Project, screen: Screen) -> list[object]:
    return [project.signal_named.get(field.signal) for field in screen.fields]


def field_text(project: Project, field: Field, shown: FieldContents) -> str:
    """What a field shows, exactly as wide as it is."""
    signal = project.signal_named.get(field.signal)
    if shown is FieldContents.MARKS:
        return _mark(project, field)
    if signal is None:
        return "?" * field.width
    if shown is FieldContents.LIVE:
        return shown_text(project, field.signal, None, field.width, field.kind)
    value = (
        sample_value(project, field.signal) if shown is FieldContents.SAMPLE else widest_value(project, field.signal)
    )
    span = None if field.range is None else (Fraction(field.range[0]), Fraction(field.range[1]))
    return shown_text(project, field.signal, value, field.width, field.kind, span)


def _mark(project: Project, field: Field) -> str:
    signal = project.signal_named.get(field.signal)
    if field.kind == "bar":
        return "=" * field.width
    if field.kind == "hexadecimal":
        return f"{'0' * (field.width - 1)}h"
    if field.kind == "number":
        decimals = signal.decimals if signal is not None else 0
        if decimals and field.width > decimals + 1:
            return "0" * (field.width - decimals - 1) + "." + "0" * decimals
        return "0" * field.width
    return field.signal[: field.width].ljust(field.width, ".")


def sample_value(project: Project, name: str) -> Fraction | str | None:
    """A likely value of a signal: one of its texts, its first content, or three quarters of its limits."""
    signal = project.signal_named.get(name)
    if signal is None:
        return None
    if isinstance(signal, RegisterSignal) and signal.encoding == "string":
        return signal.start_value if isinstance(signal.start_value, str) else "TEXT"
    if worded := by_number(signal.texts):
        return Fraction(list(worded)[:2][-1])  # the first says mostly that there is nothing
    if isinstance(signal, BitSignal):
        return Fraction(1)
    if isinstance(signal, HeldSignal):
        return Fraction(signal.held)
    if signal.limits is not None:
        low, high = Fraction(signal.limits[0]), Fraction(signal.limits[1])
    else:
        # Three quarters of a raw range seldom look like the machine; a round number of usual size reads better.
        low, high = value_span(project, name) or (Fraction(0), _USUAL)
        low, high = max(low, Fraction(0)), min(high, _USUAL)
    return low + (high - low) * Fraction(3, 4)


def widest_value(project: Project, name: str) -> Fraction | str | None:
    """The value that needs the most cells; None if that cannot be said."""
    signal = project.signal_named.get(name)
    if signal is None:
        return None
    if isinstance(signal, RegisterSignal) and signal.encoding == "string":
        return "W" * (2 * (signal.length or 1))
    if worded := by_number(signal.texts):
        return Fraction(max(worded, key=lambda value: len(worded[value])))
    span = value_span(project, name)
    if span is None:
        return None
    return max(span, key=lambda value: number_width(value, signal.decimals))


def widest_text(project: Project, field: Field) -> str | None:
    """The longest that a field could have to show, however wide it is; None if that cannot be said, or for a bar."""
    signal = project.signal_named.get(field.signal)
    if signal is None or field.kind == "bar":
        return None
    if field.kind == "choice" and signal.texts:
        return max(signal.texts.values(), key=len)
    if field.kind == "hexadecimal" and whole_registers(signal):
        return "F" * (hexadecimal_width(whole_registers(signal)) - 1) + "h"
    value = widest_value(project, field.signal)
    if field.kind in ("number", "hexadecimal") and signal.texts and not isinstance(value, str):
        span = value_span(project, field.signal)
        value = value if span is None else max(span, key=lambda end: number_width(end, signal.decimals))
    return value if isinstance(value, str) or value is None else number_digits(value, signal.decimals)


def width_needed(project: Project, name: str, kind: str) -> int:
    """How many cells a new field for a signal should have: enough for its widest value, 10 for a bar."""
    signal = project.signal_named.get(name)
    if kind == "bar" or signal is None:
        return 10
    if kind == "choice" and signal.texts:
        every = (signal.texts, *signal.texts_in.values())
        return max(1, *(len(text) for texts in every for text in texts.values()))
    if kind == "hexadecimal" and whole_registers(signal):
        return hexadecimal_width(whole_registers(signal))
    value = widest_value(project, name)
    if isinstance(value, str):
        return max(1, len(value))
    return 6 if value is None else number_width(value, signal.decimals)


def likely_kind(project: Project, name: str) -> str:
    """How a new field for a signal should show it."""
    signal = project.signal_named.get(name)
    if signal is not None and (signal.texts or _is_string(signal)):
        return "choice"
    return "hexadecimal" if isinstance(signal, RegisterSignal) and signal.hex and whole_registers(signal) else "number"


def _is_string(signal: object) -> bool:
    return isinstance(signal, RegisterSignal) and signal.encoding == "string"
