"""Editing the static text of a screen, cell by cell.

An edited screen has exactly as many rows of text as the panel, without blanks at their ends. Text behind a field stays
where it is when text before the field is inserted or deleted: a unit stays beside its number.
"""

from __future__ import annotations

import unicodedata

from app.edits.refused import EditRefused
from app.edits.rows import full_rows, with_text
from app.edits.screens import screen_called
from app.language import translate
from app.project.model import Field, Project, Screen
from app.project.problems import quoted


def type_text(project: Project, screen_name: str, row: int, column: int, text: str, *, insert: bool = False) -> Project:
    """With `text` written from this cell on: over what stands there, or put in between (`insert`).

    Each line of a text of several goes one row down. What is put in moves the text behind it, up to the next field or
    the edge, to the right. Refused where text would leave the panel, or where a field would cover a character of it.
    """
    screen = screen_called(project, screen_name)
    rows = full_rows(project, screen.text)
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    if len(lines) > 1 and not lines[-1]:
        lines.pop()  # a copied line often ends in a line break
    for down, line in enumerate(lines):
        _must_be_cell(project, row + down, column)
        must_be_printable(line)
        write = _put_in if insert else _written_over
        rows[row + down] = write(project, screen, row + down, column, line, rows[row + down])
    return with_text(project, screen, rows)


def erase_text(
    project: Project, screen_name: str, row: int, column: int, count: int = 1, *, close_up: bool = False
) -> Project:
    """With `count` cells from this one on blank; or without them (`close_up`).

    Then what follows, up to the next field or the edge, moves left.
    """
    screen = screen_called(project, screen_name)
    rows = full_rows(project, screen.text)
    _must_be_cell(project, row, column)
    end = _end_of_run(project, screen, row, column) if close_up else len(rows[row])
    run = rows[row][column:end]
    rest = run[max(0, count) :]
    rows[row] = rows[row][:column] + (rest.ljust(len(run)) if close_up else rest.rjust(len(run))) + rows[row][end:]
    return with_text(project, screen, rows)


def field_at(screen: Screen, row: int, column: int) -> Field | None:
    """The field that covers a cell, or None."""
    for field in screen.fields:
        if field.at[0] == row and field.at[1] <= column < field.at[1] + field.width:
            return field
    return None


def _written_over(project: Project, screen: Screen, row: int, column: int, text: str, old: str) -> str:
    past = column + len(text) - project.panel.columns
    if past > 0:
        if past == 1:
            raise EditRefused(translate("edits", "the text reaches 1 cell past the right edge of the panel"))
        why = translate("edits", "the text reaches {count} cells past the right edge of the panel")
        raise EditRefused(why.format(count=past))
    for over, character in enumerate(text):
        field = field_at(screen, row, column + over)
        if field is not None and character != " ":
            raise EditRefused(
                translate("edits", "the field of signal {signal} would cover the text").format(
                    signal=quoted(field.signal)
                )
            )
    return old[:column] + text + old[column + len(text) :]


def _put_in(project: Project, screen: Screen, row: int, column: int, text: str, old: str) -> str:
    end = _end_of_run(project, screen, row, column)
    run = old[column:end]
    longer = (text + run).rstrip(" ")
    if len(longer) > len(run):
        raise EditRefused(translate("edits", "no space: text would be pushed under a field or off the panel"))
    return old[:column] + longer.ljust(len(run)) + old[end:]


def _end_of_run(project: Project, screen: Screen, row: int, column: int) -> int:
    """The first column behind the cells that move together with this one."""
    _must_be_cell(project, row, column)
    field = field_at(screen, row, column)
    if field is not None:
        raise EditRefused(
            translate("edits", "the field of signal {signal} is there").format(signal=quoted(field.signal))
        )
    starts = [field.at[1] for field in screen.fields if field.at[0] == row and field.at[1] > column]
    return min([*starts, project.panel.columns])


def _must_be_cell(project: Project, row: int, column: int) -> None:
    if not (0 <= row < project.panel.rows and 0 <= column < project.panel.columns):
        raise EditRefused(translate("edits", "this cell is outside the panel"))


def must_be_printable(text: str) -> None:
    """Raises EditRefused if a character is none that a cell could ever show."""
    for character in text:
        if unicodedata.category(character) in ("Cc", "Cs", "Zl", "Zp"):
            raise EditRefused(
                translate("edits", "the text contains a control character (code {code}), which no panel shows").format(
                    code=ord(character)
                )
            )
