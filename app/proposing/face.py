"""What a row of the panel must show, where the values in it are known: as text, or with * for what is not known."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from fractions import Fraction
from types import MappingProxyType
from typing import Final

from app.panel.layout import PanelLayout
from app.project.binding import shown_text
from app.project.languages import in_language
from app.project.model import Field, Project
from app.signals.reading import Value
from app.trial.script import Expectation

_ANY: Final = "\N{NULL}"
"""A cell of which nothing is known."""
_NOTHING: Final[Mapping[str, Value]] = MappingProxyType({})


_NEAR: Final = Fraction(1, 50)
"""How far a value that is only roughly known may be from what it is said to be."""


def row_expected(
    project: Project,
    screen: str,
    row: int,
    known: Mapping[str, Value],
    language: int = 0,
    roughly: Mapping[str, Value] = _NOTHING,
) -> Expectation | None:
    """What a row shows with these values of signals, in a language; None if nothing of it is known.

    `row` counts from 0. Values that are known only `roughly` count for bars that are the same a little above and below.
    A row of which all is known is expected as it is, else what is unknown may be anything.
    """
    if not 0 <= row < project.panel.rows:
        return None
    cells = _cells(project, screen, row, known, language, roughly)
    if not cells.replace(_ANY, "").strip():
        return None
    if _ANY not in cells:
        return Expectation(screen=screen, row=row + 1, text=cells.strip())
    # Blanks beside an unknown value at the ends of a row are gone when it is empty.
    pattern = cells.strip()
    if pattern.startswith(_ANY):
        pattern = _ANY + pattern.lstrip(f"{_ANY} ")
    if pattern.endswith(_ANY):
        pattern = pattern.rstrip(f"{_ANY} ") + _ANY
    pattern = re.sub(f"{_ANY}+", "*", pattern)
    return Expectation(screen=screen, row=row + 1, like=pattern)


def rows_expected(
    project: Project, screen: str, known: Mapping[str, Value], language: int = 0, about: frozenset[str] | None = None
) -> Iterator[Expectation]:
    """What the rows of a screen show with these values; only rows with a field of `about`, if that is given."""
    for row in range(project.panel.rows):
        fields = [field for field in project.screen_named[screen].fields if field.at[0] == row]
        if about is not None and not any(field.signal in about for field in fields):
            continue
        expected = row_expected(project, screen, row, known, language)
        if expected is not None:
            yield expected


def shape(text: str) -> str:
    """A pattern for numbers of the same shape: as many decimals, any digits."""
    return re.sub(r"^\s*-?\d+", "*?", re.sub(r"\d(?=\d*$)", "?", text)) if "." in text else "*"


def fields_of(project: Project, screen: str, *kinds: str) -> Iterator[Field]:
    """The fields of a screen of these kinds that show a signal there is."""
    for field in project.screen_named[screen].fields:
        if field.kind in kinds and field.signal in project.signal_named:
            yield field


def _cells(
    project: Project,
    screen: str,
    row: int,
    known: Mapping[str, Value],
    language: int,
    roughly: Mapping[str, Value],
) -> str:
    project = in_language(project, language)
    layout = PanelLayout.of(project).screen(screen)
    cells = layout.rows[row]
    for field in layout.fields:
        if field.at[0] != row:
            continue
        text = _ANY * field.width
        if field.signal in known:
            text = _shown(project, field, known[field.signal])
        elif field.kind == "bar" and isinstance(about := roughly.get(field.signal), Fraction):
            bars = {_shown(project, field, about * part) for part in (1 - _NEAR, Fraction(1), 1 + _NEAR)}
            text = bars.pop() if len(bars) == 1 else text
        column = field.at[1]
        cells = (cells[:column] + text + cells[column + field.width :])[: len(cells)]
    return cells


def _shown(project: Project, field: Field, value: Value) -> str:
    ends = None
    if field.kind == "bar" and field.range is not None:
        ends = Fraction(field.range[0]), Fraction(field.range[1])
    return shown_text(project, field.signal, value, field.width, field.kind, ends)
