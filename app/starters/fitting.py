"""Screens made for one panel, laid out for another one: labels at the left, values and units at the right.

A row is what stands before its last field, and that field with what stands behind it. The first of both stays where it
is, the other goes to the right end; so values end and units begin in one column on every screen. What has no room goes
from the bottom, on a small panel the heading first.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from app.project.model import Field, Panel, Project, Screen
from app.project.references import use_counts

WIDEST: Final = 28
"""Cells from a label's first to a unit's last: on a wider panel the eye would lose the row."""
ROWS_WITH_HEADING: Final = 4
"""On a panel of fewer rows a heading gives its row away to a value."""


@dataclass(frozen=True, slots=True)
class _RowParts:
    """A row of a screen: a text at the left, fields, and the text behind the last of them."""

    head: str
    fields: tuple[Field, ...]
    tail: str = ""

    @property
    def bare(self) -> bool:
        """Whether it is nothing but text."""
        return not self.fields


def fitted(project: Project, rows: int, columns: int) -> Project:
    """The project for a panel of that size, without the signals that no screen has room for and nothing else needs."""
    panel = Panel.model_validate(project.panel.model_dump(by_alias=True) | {"rows": rows, "columns": columns})
    screens = tuple(_fitted(screen, rows, columns) for screen in project.screens)
    return without_unused(project.replace(panel=panel, screens=screens))


def without_unused(project: Project) -> Project:
    """Without the signals that nothing shows, reads or writes."""
    while True:
        used = use_counts(project, "signal")
        kept = tuple(signal for signal in project.signals if used[signal.name])
        if len(kept) == len(project.signals):
            return project
        project = project.replace(signals=kept)


def _fitted(screen: Screen, rows: int, columns: int) -> Screen:
    parts = [_parts(screen, row) for row in range(len(screen.text))]
    if len(parts) > rows and rows < ROWS_WITH_HEADING and parts[0].bare:
        parts = parts[1:]
    elif rows >= len(parts) + 2 and parts[0].bare:
        parts.insert(1, _RowParts("", ()))
    parts = parts[:rows]
    width = min(columns, WIDEST)
    unit = max((len(part.tail) for part in parts if part.fields), default=0)
    gap = int(all(_least(part, unit) + 1 <= width for part in parts if part.tail))
    texts, fields = [], []
    for row, part in enumerate(parts):
        text, laid = _laid_out(part, row, width, unit + gap if unit else 0, gap)
        texts.append(text)
        fields += laid
    return screen.replace(text=tuple(texts + [""] * (rows - len(texts))), fields=tuple(fields))


def _parts(screen: Screen, row: int) -> _RowParts:
    fields = tuple(sorted((field for field in screen.fields if field.at[0] == row), key=lambda field: field.at[1]))
    text = screen.text[row]
    if not fields:
        return _RowParts(text, ())
    end = fields[-1].at[1] + fields[-1].width
    return _RowParts(text[: fields[0].at[1]].rstrip(), fields, text[end:].strip())


def _least(part: _RowParts, unit: int) -> int:
    return len(part.head) + sum(field.width for field in part.fields) + unit


def _laid_out(part: _RowParts, row: int, width: int, behind: int, gap: int) -> tuple[str, list[Field]]:
    """The text of a row and its fields; `behind` cells behind a value are for its unit, `gap` of them between both."""
    if part.bare:
        return part.head, []
    *first, last = part.fields
    if last.kind == "bar" and not first and not part.head:
        return "", [last.replace(at=(row, 0), width=width)]
    moved = [field.replace(at=(row, field.at[1])) for field in first]
    if not first and not part.head:
        return "", [last.replace(at=(row, 0))]
    # Words end where the units end, numbers where the numbers end.
    end = width - behind if last.kind in ("number", "hexadecimal") else width
    at = end - last.width
    text = part.head
    if part.tail:
        text = text.ljust(end + gap) + part.tail
    return text, [*moved, last.replace(at=(row, at))]
