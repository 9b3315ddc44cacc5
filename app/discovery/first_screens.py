"""The screens that a new project shows its first signals on: a row each, with its label, its value and its unit."""

from __future__ import annotations

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
_FLOAT_CELLS: Final = 10
"""Of a float, which has no greatest value: six digits, a sign and some decimals."""


def with_first_screens(project: Project, heading: str) -> Project:
    """With the first signals on the start screen and, if that is too small, on screens that keys lead to.

    A signal whose longest value does not fit the panel is left out.
    """
    panel = project.panel
    rows = panel.rows - 1
    placed = [laid for signal in project.signals if (laid := _row(project, signal)) is not None]
    pages = [placed[at : at + rows] for at in range(0, min(len(placed), rows * MOST_SCREENS), rows)] or [[]]
    names = [panel.start]
    for _ in pages[1:]:
        project = add_screen(project)
        names.append(project.screens[-1].name)
    for name, page in zip(names, pages, strict=True):
        text = [spelled(panel.repertoire, heading)[: panel.columns], *(label for label, _ in page)]
        fields = tuple(field.replace(at=(row, field.at[1])) for row, (_, field) in enumerate(page, start=1))
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


def _row(project: Project, signal: AnySignal) -> tuple[str, Field] | None:
    """The label of a signal with its unit behind the cells of the field, and the field; None without room for it."""
    panel = project.panel
    width, kind = _cells(project, signal)
    unit = spelled(panel.repertoire, signal.unit)
    behind = len(unit) + 1 if unit else 0
    left = panel.columns - width - behind
    if left < 0:
        return None
    label = spelled(panel.repertoire, signal.name)[: max(left - 1, 0)]
    text = f"{label:<{left + width + 1}}{unit}" if unit else label
    return text, Field(at=(0, left), width=width, signal=signal.name, kind=kind)


def _cells(project: Project, signal: AnySignal) -> tuple[int, FieldKind]:
    if signal.texts:
        return max(map(len, signal.texts.values())), "choice"
    if isinstance(signal, RegisterSignal) and is_text(signal.encoding):
        return min(2 * (signal.length or 1), project.panel.columns), "number"
    span = value_span(project, signal.name)
    if span is None:
        return _FLOAT_CELLS, "number"
    return max(number_width(value, signal.decimals) for value in span), "number"
