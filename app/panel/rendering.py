"""What the panel shows: rows of cells, each a character with its look."""

from __future__ import annotations

import enum
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Final

from app.panel.conditions import holds
from app.panel.entry import Editing, cursor_cell
from app.panel.layout import PanelLayout
from app.panel.state import State
from app.panel.view import View
from app.project.binding import UNKNOWN, shown_text
from app.project.languages import in_language
from app.project.messages import in_rows
from app.project.model import Field, Panel, Project
from app.signals.reading import Quality, Reading, Value
from app.signals.repertoire import spelled
from app.signals.text import OVERFLOW


class Attribute(enum.IntFlag):
    """The look of a cell."""

    NONE = 0
    INVERSE = 1
    """Under the operator's hand: the chosen field, the value under change, a message."""
    BLINK = 2
    STALE = 4
    """The last value of a signal that has not been read for too long."""


@dataclass(frozen=True, slots=True)
class Row:
    """One row of cells: as many characters and as many attributes as the panel has columns."""

    text: str
    attributes: tuple[Attribute, ...]


Rows = tuple[Row, ...]
"""The rows of the panel from the top: as many as it has."""


def render(project: Project, state: State, readings: Mapping[str, Reading], at: float) -> Rows:
    """What the panel shows at `at` (`time.monotonic()`, seconds), when messages end; in the language of the state.

    A field shows its value only if the reading is good, or stale (then with the STALE look). A signal that was never
    read, whose follower refused, or whose registers are implausible shows a full run of dashes. A field that reaches
    beyond the panel shows a full run of '#' in the cells that are there, since a cut number is a wrong number.
    """
    project = in_language(project, state.language)
    layout = PanelLayout.of(project)
    screen = layout.screen(state.shown)
    seen = View(project, state.held, readings)
    canvas = _Canvas(screen.rows, layout.panel.columns)
    entry = state.entry
    chosen = entry.field if entry is not None else None
    for index, field in enumerate(screen.fields):
        look = 0
        if field.blink is not None and holds(field.blink, seen):
            look = _BLINK
        if index == chosen and entry is not None:
            look |= _INVERSE
            if entry.editing is not None:
                _draw_editing(canvas, project, field, entry.editing)
                continue
        text, stale = _field_text(project, field, seen)
        canvas.draw(field.at[0], field.at[1], text, look | stale)
    for blinking in screen.screen.blinking:
        if holds(blinking.when, seen):
            canvas.blink(blinking.cells(layout.panel))
    if state.message is not None and at < state.message.until:
        rows, columns = layout.panel.rows, layout.panel.columns
        kept_row = screen.fields[chosen].at[0] if chosen is not None else None
        for row, text in _message_rows(layout.spell(state.message.text), rows, columns, kept_row):
            canvas.draw(row, 0, text, _INVERSE)
    return canvas.rows()


def _field_text(project: Project, field: Field, seen: View) -> tuple[str, int]:
    """The characters of a field and the STALE look, if it has that."""
    if field.signal not in project.signal_named:
        return UNKNOWN * field.width, 0
    reading = seen[field.signal]
    if reading.value is None or reading.quality not in (Quality.GOOD, Quality.STALE):
        return UNKNOWN * field.width, 0
    return _text(project, field, reading.value), _STALE if reading.quality is Quality.STALE else 0


def _text(project: Project, field: Field, value: Value) -> str:
    ends = None
    if field.kind == "bar" and field.range is not None:
        ends = Fraction(field.range[0]), Fraction(field.range[1])
    return shown_text(project, field.signal, value, field.width, field.kind, ends)


def _draw_editing(canvas: _Canvas, project: Project, field: Field, editing: Editing) -> None:
    """The value under change, with a cell that blinks: the digit under the cursor, in front of which leading zeros
    stand where it needs them, or by step the last character. A field that is only chosen has none, so that an operator
    sees whether a key will change the value or choose another field.
    """
    text = _text(project, field, editing.value)
    row, column = field.at
    cell = cursor_cell(project, field, editing) if field.kind == "number" else None
    if cell is None or text.startswith(OVERFLOW):
        last = max(0, len(text.rstrip()) - 1)
        canvas.draw(row, column, text, _INVERSE)
        canvas.draw(row, column + last, text[last], _INVERSE | _BLINK, clip=True)
        return
    first = len(text) - len(text.lstrip())
    sign = text[first : first + 1] if text[first : first + 1] == "-" else ""
    number = text[first + len(sign) :]
    if cell < field.width - len(number):
        padded = sign + number.rjust(field.width - cell, "0")
        # Where the sign has no cell left beside the zeros, the zeros give way.
        text = padded.rjust(field.width) if len(padded) <= field.width else text
    canvas.draw(row, column, text, _INVERSE)
    canvas.draw(row, column + cell, text[cell], _INVERSE | _BLINK, clip=True)


def _message_rows(text: str, rows: int, columns: int, kept_row: int | None) -> list[tuple[int, str]]:
    """Where a message lies: over the last rows, as many as its words need, but one row of the panel stays free.

    The row under the operator's hand (`kept_row`) is never covered: where the message would reach it, it lies over the
    first rows instead, and takes fewer of them if it must. What has no room is cut off.
    """
    lines, room = in_rows(text, columns), max(1, rows - 1)
    if kept_row is not None and kept_row >= rows - min(len(lines), room):
        room, first = max(1, kept_row), 0
    else:
        first = rows - min(len(lines), room)
    if len(lines) > room:
        lines[room - 1 :] = [" ".join(lines[room - 1 :])[:columns]]
    return [(first + place, line.ljust(columns)) for place, line in enumerate(lines)]


def message_alone(panel: Panel, text: str) -> Rows:
    """The rows of a message on a panel where no value is under change; of an empty one a row without words."""
    lines = _message_rows(spelled(panel.repertoire, text), panel.rows, panel.columns, None)
    looks = (Attribute.INVERSE,) * panel.columns
    return tuple([Row(line, looks) for _, line in lines or [(0, " " * panel.columns)]])


class _Canvas:
    """The cells in the making. A row keeps its text as it is until something is drawn on it."""

    __slots__ = ("_columns", "_looks", "_rows")

    def __init__(self, rows: tuple[str, ...], columns: int) -> None:
        self._rows = list(rows)
        self._columns = columns
        self._looks: list[list[int] | None] = [None] * len(rows)

    def draw(self, row: int, column: int, text: str, look: int, clip: bool = False) -> None:
        """Lay `text` over the cells from `column` on. Beyond the panel it becomes a run of '#', or is cut (`clip`)."""
        if not 0 <= row < len(self._rows):
            return
        end = column + len(text)
        if column < 0 or end > self._columns:
            start, stop = max(column, 0), min(end, self._columns)
            if start >= stop:
                return
            text = text[start - column : stop - column] if clip else OVERFLOW * (stop - start)
            column, end = start, stop
        line = self._rows[row]
        self._rows[row] = line[:column] + text + line[end:]
        looks = self._looks[row]
        if looks is None:
            if look == 0:
                return
            looks = self._looks[row] = [0] * self._columns
        looks[column:end] = [look] * (end - column)

    def blink(self, cells: Iterable[tuple[int, int]]) -> None:
        """Let cells blink, but for those under the operator's hand, where blinking means the cursor."""
        for row, column in cells:
            looks = self._looks[row]
            if looks is None:
                looks = self._looks[row] = [0] * self._columns
            if not looks[column] & _INVERSE:
                looks[column] |= _BLINK

    def rows(self) -> Rows:
        """The rows as they are shown."""
        return tuple(
            Row(text, _plain(self._columns) if looks is None else tuple([_ATTRIBUTES[look] for look in looks]))
            for text, looks in zip(self._rows, self._looks, strict=True)
        )


# Flags are combined as plain numbers while drawing: adding two members of a flag costs as much as drawing a field.
_INVERSE: Final = int(Attribute.INVERSE)
_BLINK: Final = int(Attribute.BLINK)
_STALE: Final = int(Attribute.STALE)
_ATTRIBUTES: Final = tuple(Attribute(look) for look in range(8))


@lru_cache(maxsize=8)
def _plain(columns: int) -> tuple[Attribute, ...]:
    return (Attribute.NONE,) * columns
