"""Editing the fields of a screen. No edit puts a field outside the panel or over another field."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from typing import Any

from app.edits.refused import EditRefused, changed, must_be_index, with_names_in_order
from app.edits.screens import screen_called, with_screen
from app.language import translate
from app.project.model import Field, Panel, Project, Screen
from app.project.problems import quoted


def add_field(project: Project, screen_name: str, field: Field) -> Project:
    """With one more field, the last of its screen."""
    screen = screen_called(project, screen_name)
    return with_fields(project, screen, (*screen.fields, field), {len(screen.fields)})


def change_field(project: Project, screen_name: str, index: int, **changes: Any) -> Project:
    """With other attributes of a field: `signal`, `kind`, `entry`, `range`, `blink`, `at`, `width`."""
    screen = screen_called(project, screen_name)
    must_be_index("field", index, len(screen.fields))
    field = changed(screen.fields[index], **changes)
    if field == screen.fields[index]:
        return project
    return with_fields(project, screen, (*screen.fields[:index], field, *screen.fields[index + 1 :]), {index})


def move_fields(project: Project, screen_name: str, indices: Iterable[int], down: int, right: int) -> Project:
    """With several fields moved together by some rows and columns; they may take each other's places."""
    screen = screen_called(project, screen_name)
    moving = set(indices)
    for index in moving:
        must_be_index("field", index, len(screen.fields))
    if not moving or (down, right) == (0, 0):
        return project
    fields = tuple(
        changed(field, at=(field.at[0] + down, field.at[1] + right)) if index in moving else field
        for index, field in enumerate(screen.fields)
    )
    return with_fields(project, screen, fields, moving)


def delete_fields(project: Project, screen_name: str, indices: Iterable[int]) -> Project:
    """Without some fields."""
    screen = screen_called(project, screen_name)
    going = set(indices)
    for index in going:
        must_be_index("field", index, len(screen.fields))
    kept = tuple(field for index, field in enumerate(screen.fields) if index not in going)
    return with_screen(project, changed(screen, fields=kept)) if going else project


def room_at(project: Project, screen_name: str, row: int, column: int, without: Collection[int] = ()) -> int:
    """How many cells a field beginning at this cell may have; 0 where none can. `without` are fields ignored."""
    screen = screen_called(project, screen_name)
    panel = project.panel
    if not (0 <= row < panel.rows and 0 <= column < panel.columns):
        return 0
    end = panel.columns
    for index, field in enumerate(screen.fields):
        if index in without or field.at[0] != row or field.at[1] + field.width <= column:
            continue
        end = min(end, max(field.at[1], column))
    return end - column


def with_fields(project: Project, screen: Screen, fields: tuple[Field, ...], touched: Collection[int]) -> Project:
    """With these fields, if those `touched` (indices) lie no worse than before: a file may hold some that lie badly.

    Refused where one would lie outside the panel or over another one, and where one names a signal that does not exist.
    """
    before = dict(enumerate(screen.fields))
    for index in sorted(touched):
        field, old = fields[index], before.get(index)
        if _cells_outside(project.panel, field) > (_cells_outside(project.panel, old) if old else 0):
            raise EditRefused(_why_outside(project.panel, field))
        for other, neighbour in enumerate(fields):
            if other == index or not _overlap(field, neighbour):
                continue
            if not (old and other in before and _overlap(old, before[other])):
                why = translate("edits", "the field would overlap field {number} (signal {signal})")
                raise EditRefused(why.format(number=other + 1, signal=quoted(neighbour.signal)))
    after = with_screen(project, changed(screen, fields=fields))
    if all(index in before and _names(fields[index]) == _names(before[index]) for index in touched):
        return after  # dragging names nothing new
    return with_names_in_order(after, project)


def _names(field: Field) -> tuple[str, str | None]:
    return field.signal, field.blink.signal if field.blink else None


def _cells_outside(panel: Panel, field: Field) -> int:
    row, column = field.at
    if not 0 <= row < panel.rows:
        return field.width
    return field.width - max(0, min(column + field.width, panel.columns) - max(column, 0))


def _why_outside(panel: Panel, field: Field) -> str:
    row, column = field.at
    past = column + field.width - panel.columns
    if not 0 <= row < panel.rows or column < 0 or past >= field.width:
        return translate("edits", "the field would start outside the panel")
    if past == 1:
        return translate("edits", "the field would reach 1 cell past the right edge of the panel")
    return translate("edits", "the field would reach {count} cells past the right edge of the panel").format(count=past)


def _overlap(one: Field, other: Field) -> bool:
    (row, column), (other_row, other_column) = one.at, other.at
    return row == other_row and column < other_column + other.width and other_column < column + one.width
