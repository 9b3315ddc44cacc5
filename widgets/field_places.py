"""Where fields lie on a screen, and what can be said of one in a line."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication

from app.project.binding import value_span
from app.project.model import Field, Project, Screen
from app.signals.text import number_digits
from widgets.specimen import width_needed

translate = QCoreApplication.translate


def field_at(screen: Screen, row: int, column: int) -> int | None:
    """The index of the field on a cell; the later of two, which is the one that shows."""
    for index in range(len(screen.fields) - 1, -1, -1):
        field = screen.fields[index]
        if field.at[0] == row and field.at[1] <= column < field.at[1] + field.width:
            return index
    return None


def free_place(project: Project, screen: Screen, field: Field) -> tuple[int, int] | None:
    """The nearest cells for a copy of a field: the same columns of the rows below, then anywhere in reading order."""
    panel = project.panel
    spots = [(row, field.at[1]) for row in range(field.at[0] + 1, panel.rows)]
    spots += [(row, column) for row in range(panel.rows) for column in range(panel.columns - field.width + 1)]
    for row, column in spots:
        if column + field.width <= panel.columns and all(
            other.at[0] != row or other.at[1] + other.width <= column or column + field.width <= other.at[1]
            for other in screen.fields
        ):
            return row, column
    return None


def describe_field(project: Project, field: Field) -> str:
    """Signal, kind, width and what the signal can be, in one line."""
    signal = project.signal_named.get(field.signal)
    if signal is None:
        return translate("ScreenEditor", "'{name}', a signal that does not exist").format(name=field.signal)
    text = translate("ScreenEditor", "{signal}, {width} wide").format(signal=field.signal, width=field.width)
    needed = width_needed(project, field.signal, field.kind)
    if field.kind != "bar" and needed > field.width:
        text += translate("ScreenEditor", " (needs {needed})").format(needed=needed)
    span = value_span(project, field.signal)
    if span is not None and not signal.texts:
        low, high = (number_digits(value, signal.decimals) for value in span)
        text += (
            translate("ScreenEditor", "; can be {low} to {high} {unit}")
            .format(low=low, high=high, unit=signal.unit)
            .rstrip()
        )
    if field.entry:
        text += translate("ScreenEditor", "; entry")
    return text
