"""What a screen shows while it is designed: marks, sample values or the widest values in its fields."""

from __future__ import annotations

import enum
from fractions import Fraction

from app.panel.layout import Layout
from app.panel.rendering import Attribute, Row, Rows
from app.project.binding import shown_text, value_span
from app.project.model import BitSignal, Field, HeldSignal, Project, RegisterSignal, Screen
from app.signals.text import number_width


class Shown(enum.StrEnum):
    """What stands in the fields."""

    MARKS = "marks"
    SAMPLE = "sample"
    WIDEST = "widest"


def specimen_rows(project: Project, screen: Screen, shown: Shown) -> Rows:
    """The cells of a screen with something in every field. A later field covers an earlier one, as on the panel."""
    panel = project.panel
    rows = [list(text) for text in Layout.of(project).screen(screen.name).rows]
    for field in screen.fields:
        row, column = field.at
        if 0 <= row < panel.rows and 0 <= column < panel.columns:
            text = field_text(project, field, shown)[: panel.columns - column]
            rows[row][column : column + len(text)] = text
    plain = (Attribute.NONE,) * panel.columns
    return tuple(Row("".join(cells), plain) for cells in rows)


def field_text(project: Project, field: Field, shown: Shown) -> str:
    """What a field shows, exactly as wide as it is."""
    signal = project.signal_named.get(field.signal)
    if shown is Shown.MARKS:
        return _mark(project, field)
    if signal is None:
        return "?" * field.width
    value = sample_value(project, field.signal) if shown is Shown.SAMPLE else widest_value(project, field.signal)
    span = None if field.range is None else (Fraction(field.range[0]), Fraction(field.range[1]))
    return shown_text(project, field.signal, value, field.width, field.kind, span)


def _mark(project: Project, field: Field) -> str:
    signal = project.signal_named.get(field.signal)
    if field.kind == "bar":
        return "=" * field.width
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
    if signal.texts:
        return Fraction(int(list(signal.texts)[-1]))
    if isinstance(signal, BitSignal):
        return Fraction(1)
    if isinstance(signal, HeldSignal):
        return Fraction(signal.held)
    span = (Fraction(signal.limits[0]), Fraction(signal.limits[1])) if signal.limits else value_span(project, name)
    if span is None:
        return Fraction(0)
    return span[0] + (span[1] - span[0]) * Fraction(3, 4)


def widest_value(project: Project, name: str) -> Fraction | str | None:
    """The value that needs the most cells; None if that cannot be said."""
    signal = project.signal_named.get(name)
    if signal is None:
        return None
    if isinstance(signal, RegisterSignal) and signal.encoding == "string":
        return "W" * (2 * (signal.length or 1))
    if signal.texts:
        return Fraction(int(max(signal.texts, key=lambda key: len(signal.texts[key]))))
    span = value_span(project, name)
    if span is None:
        return None
    return max(span, key=lambda value: number_width(value, signal.decimals))


def width_needed(project: Project, name: str, kind: str) -> int:
    """How many cells a new field for a signal should have: enough for its widest value, 10 for a bar."""
    signal = project.signal_named.get(name)
    if kind == "bar" or signal is None:
        return 10
    if kind == "choice" and signal.texts:
        return max(1, *(len(text) for text in signal.texts.values()))
    value = widest_value(project, name)
    if isinstance(value, str):
        return max(1, len(value))
    return 6 if value is None else number_width(value, signal.decimals)


def likely_kind(project: Project, name: str) -> str:
    """How a new field for a signal should show it."""
    signal = project.signal_named.get(name)
    return "choice" if signal is not None and (signal.texts or _is_string(signal)) else "number"


def _is_string(signal: object) -> bool:
    return isinstance(signal, RegisterSignal) and signal.encoding == "string"
