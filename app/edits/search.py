"""Finding text on the screens of a project, and fields by the names of their signals."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from app.edits.rows import full_rows
from app.project.model import Field, Project, Screen

COVERED = "\0"
"""Stands in the searched rows for a cell under a field, so that nothing is found there."""


@dataclass(frozen=True)
class Sought:
    """What is looked for: `text` as it is written; small and capital letters differ only with `case`."""

    text: str
    case: bool = False
    words: bool = False
    """Only whole words: not where a letter or a digit stands right before or behind."""
    texts: bool = True
    """In the static text of the screens."""
    signals: bool = False
    """In the names of the signals that fields show or blink by."""

    @cached_property
    def pattern(self) -> re.Pattern[str]:
        """What matches."""
        expression = re.escape(self.text)
        if self.words:
            expression = rf"(?<!\w){expression}(?!\w)"
        return re.compile(expression, re.NOFLAG if self.case else re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Match:
    """A place where it is: `width` cells from `column` on, or with `field` (an index) that field."""

    screen: str
    row: int
    column: int
    width: int
    field: int | None = None


def find(project: Project, sought: Sought) -> tuple[Match, ...]:
    """All matches, by screens in the order of the project, on each in reading order. Nothing matches an empty text."""
    if not sought.text:
        return ()
    return tuple(match for screen in project.screens for match in _on_screen(project, screen, sought))


def visible_rows(project: Project, screen: Screen) -> list[str]:
    """The rows of a screen that the panel has, with `COVERED` under fields."""
    panel = project.panel
    rows = [row[: panel.columns] for row in full_rows(project, screen.text)[: panel.rows]]
    for field in screen.fields:
        row, column = field.at
        if 0 <= row < len(rows) and 0 <= column < panel.columns:
            width = min(field.width, panel.columns - column)
            rows[row] = rows[row][:column] + COVERED * width + rows[row][column + width :]
    return rows


def names_signal(field: Field, sought: Sought) -> bool:
    """Whether the signal that a field shows or blinks by has a name that matches."""
    return any(sought.pattern.search(name) for name in signals_of(field))


def signals_of(field: Field) -> tuple[str, ...]:
    """The signals that a field names: the one it shows, and the one it blinks by."""
    return (field.signal,) if field.blink is None else (field.signal, field.blink.signal)


def _on_screen(project: Project, screen: Screen, sought: Sought) -> list[Match]:
    found: list[Match] = []
    if sought.texts:
        found += _in_text(project, screen, sought)
    if sought.signals:
        found += (
            Match(screen.name, *field.at, field.width, index)
            for index, field in enumerate(screen.fields)
            if names_signal(field, sought)
        )
    return sorted(found, key=lambda match: (match.row, match.column))


def _in_text(project: Project, screen: Screen, sought: Sought) -> Iterator[Match]:
    for number, row in enumerate(visible_rows(project, screen)):
        for match in sought.pattern.finditer(row):
            yield Match(screen.name, number, match.start(), len(match[0]))
