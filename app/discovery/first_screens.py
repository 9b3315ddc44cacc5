"""The screens that a new project shows its first signals on: its label, its value and its unit in a row each, or its
label above them where both do not fit."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from app.edits.screens import add_screen, with_screen
from app.edits.several import put_parts
from app.language import translate
from app.project.binding import value_span
from app.project.model import AnySignal, Field, FieldKind, Panel, Project, RegisterSignal, Screen, ScreenChange
from app.signals.encoding import is_text
from app.signals.repertoire import spelled
from app.signals.text import number_width

MOST_SCREENS: Final = 8
"""More signals than these have room for stay in the table of signals, to be placed by hand."""
_ROWS_FOR_BOTH: Final = 2
"""Of a panel with so few, one is the heading."""
_FLOAT_CELLS: Final = 10
"""Of a float, which has no greatest value: six digits, a sign and some decimals."""


def with_first_screens(project: Project, heading: str) -> Project:
    """With the first signals on the start screen and, if that is too small, on screens that keys lead to.

    A signal whose longest value does not fit the panel is left out.
    """
    panel = project.panel
    pages = _pages([laid for signal in project.signals if (laid := _laid(project, signal))], panel.rows - 1)
    names = [panel.start]
    for _ in pages[1:]:
        project = add_screen(project)
        names.append(project.screens[-1].name)
    for name, page in zip(names, pages, strict=True):
        text = [spelled(panel.repertoire, heading)[: panel.columns], *(row for row, _ in page)]
        fields = tuple(field.replace(at=(row, field.at[1])) for row, (_, field) in enumerate(page, start=1) if field)
        screen = Screen(name=name, text=(*text, *("",) * (panel.rows - len(text))), fields=fields)
        project = with_screen(project, screen, name)
    if len(pages) == 1:
        return project
    return put_parts(
        project,
        "screen_change",
        {},
        [ScreenChange(key="right", to="next"), ScreenChange(key="left", to="previous")],
    )


def first_panel() -> tuple[Panel, Screen]:
    """The panel of a project that is made from what was found, with its first screen."""
    name = translate("starters", "main")
    panel = Panel(repertoire="latin-1", start=name)
    return panel, Screen(name=name, text=("",) * panel.rows)


_Row = tuple[str, Field | None]


def _pages(placed: Sequence[Sequence[_Row]], rows: int) -> list[list[_Row]]:
    """What stands on each screen: the rows of one signal stay together."""
    pages: list[list[_Row]] = [[]]
    for signal in placed:
        if len(pages[-1]) + len(signal) > rows:
            if len(pages) == MOST_SCREENS:
                break
            pages.append([])
        pages[-1] += signal
    return pages


def _laid(project: Project, signal: AnySignal) -> Sequence[_Row]:
    """The label of a signal, its field at the right and its unit behind that; nothing without room for them.

    A name that does not fit beside them has the row above, unless the panel has no more than one for both.
    """
    panel = project.panel
    width, kind = _cells(project, signal)
    unit = spelled(panel.repertoire, signal.unit)
    behind = len(unit) + 1 if unit else 0
    left = panel.columns - width - behind
    if left < 0:
        return ()
    field = Field(at=(0, left), width=width, signal=signal.name, kind=kind)
    label, beside = spelled(panel.repertoire, signal.name), max(left - 1, 0)
    above = len(label) > beside and panel.rows > _ROWS_FOR_BOTH
    rest = "" if above else label[:beside]
    row = f"{rest:<{left + width + 1}}{unit}" if unit else rest
    return ((label[: panel.columns], None), (row, field)) if above else ((row, field),)


def _cells(project: Project, signal: AnySignal) -> tuple[int, FieldKind]:
    if signal.texts:
        return max(map(len, signal.texts.values())), "choice"
    if isinstance(signal, RegisterSignal) and is_text(signal.encoding):
        return min(2 * (signal.length or 1), project.panel.columns), "number"
    span = value_span(project, signal.name)
    if span is None:
        return _FLOAT_CELLS, "number"
    return max(number_width(value, signal.decimals) for value in span), "number"
