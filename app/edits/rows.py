"""The static text of a screen as rows of cells: full rows to edit, rows without blanks at their ends to keep."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import Final

from app.edits.refused import changed
from app.edits.screens import with_screen
from app.project.model import Project, Screen

BLANK: Final = " "
RowTexts = list[str]
"""The rows of one language at full width."""


def full_rows(project: Project, text: Iterable[str]) -> RowTexts:
    """Text as rows at full width, as many as the panel has. Text outside the panel, which a file may hold, is kept."""
    rows = [row.ljust(project.panel.columns) for row in text]
    return rows + [BLANK * project.panel.columns] * (project.panel.rows - len(rows))


def texts_of(project: Project, screen: Screen) -> Iterator[RowTexts]:
    """The full rows of a screen in each of its languages, the first one first."""
    yield full_rows(project, screen.text)
    for rows in screen.text_in.values():
        yield full_rows(project, rows)


def with_text(project: Project, screen: Screen, rows: Iterable[str]) -> Project:
    """With these rows as the text of a screen in the first language."""
    text = stripped(rows)
    if _same(text, screen.text):
        return project  # at most blanks at the ends differ
    return with_screen(project, changed(screen, text=text))


def with_texts(project: Project, screen: Screen, change: Callable[[RowTexts, str], RowTexts]) -> Project:
    """With `change` made to the text of a screen in every language.

    It is given full rows and the language, which is empty for the first one.
    """
    text = stripped(change(full_rows(project, screen.text), ""))
    text_in = {
        language: stripped(change(full_rows(project, rows), language)) for language, rows in screen.text_in.items()
    }
    if _same(text, screen.text) and all(_same(text_in[language], rows) for language, rows in screen.text_in.items()):
        return project
    return with_screen(project, changed(screen, text=text, text_in=text_in))


def stripped(rows: Iterable[str]) -> tuple[str, ...]:
    """The rows without blanks at their ends, as an edited screen keeps them."""
    return tuple(row.rstrip(BLANK) for row in rows)


def _same(one: Sequence[str], other: Sequence[str]) -> bool:
    return _join(one) == _join(other)


def _join(rows: Sequence[str]) -> str:
    return "\n".join(row.rstrip(BLANK) for row in rows).rstrip("\n")
