"""Where fields and blocks lie on a screen, and where there is room for more of them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from PySide6.QtCore import QRect

from app.edits import Block
from app.edits.rows import BLANK, full_rows
from app.project.model import Field, Project, Screen

Cell = tuple[int, int]
"""Row and column, counted from 0."""


def field_at(screen: Screen, row: int, column: int) -> int | None:
    """The index of the field on a cell; the later of two, which is the one that shows."""
    for index in range(len(screen.fields) - 1, -1, -1):
        field = screen.fields[index]
        if field.at[0] == row and field.at[1] <= column < field.at[1] + field.width:
            return index
    return None


def block_of(rect: QRect) -> Block:
    """A block as the edits have it; in `rect` x and width count columns, y and height rows."""
    return Block(rect.top(), rect.left(), rect.height(), rect.width())


def rect_of(block: Block) -> QRect:
    """The other way around."""
    return QRect(block.left, block.top, block.columns, block.rows)


def block_between(one: Cell, other: Cell) -> QRect:
    """The smallest block that holds two cells."""
    top, bottom = sorted((one[0], other[0]))
    left, right = sorted((one[1], other[1]))
    return QRect(left, top, right - left + 1, bottom - top + 1)


def around(screen: Screen, fields: Iterable[int]) -> QRect:
    """The smallest block that holds some fields, by their indexes."""
    area = QRect()
    for field in (screen.fields[index] for index in fields):
        area = area.united(QRect(field.at[1], field.at[0], field.width, 1))
    return area


def fields_inside(screen: Screen, block: QRect) -> tuple[int, ...]:
    """The fields that lie wholly in a block."""
    return tuple(
        index
        for index, field in enumerate(screen.fields)
        if block.contains(QRect(field.at[1], field.at[0], field.width, 1))
    )


def word_around(text: str, column: int) -> tuple[int, int]:
    """Where the word at a column begins and ends; an empty stretch between blanks."""
    start = text.rfind(BLANK, 0, column) + 1
    end = text.find(BLANK, column)
    return start, len(text) if end < 0 else end


def free_offset(project: Project, screen: Screen, block: QRect | None, fields: Iterable[int]) -> Cell | None:
    """By how many rows and columns a copy of a block, or of some fields, has to be moved to cover nothing.

    The rows below come first, then the other cells in reading order. None if there is no room.
    """
    chosen = tuple(fields)
    area = around(screen, chosen) if block is None else block
    if area.isEmpty():
        return None
    text = set(_text_cells(project, screen))
    taken = text.union(*(set(_cells(field)) for field in screen.fields))
    moving = {cell for index in chosen for cell in _cells(screen.fields[index])}
    if block is not None:
        moving |= {cell for cell in text if block.contains(cell[1], cell[0])}
    rows, columns = project.panel.rows, project.panel.columns
    below = [(down, 0) for down in range(1, rows)]
    anywhere = [
        (row - area.top(), column - area.left())
        for row in range(rows - area.height() + 1)
        for column in range(columns - area.width() + 1)
    ]
    for down, right in (*below, *anywhere):
        if area.bottom() + down >= rows or (down, right) == (0, 0):
            continue
        if taken.isdisjoint((row + down, column + right) for row, column in moving):
            return down, right
    return None


def _cells(field: Field) -> Iterator[Cell]:
    return ((field.at[0], column) for column in range(field.at[1], field.at[1] + field.width))


def _text_cells(project: Project, screen: Screen) -> Iterator[Cell]:
    for row, text in enumerate(full_rows(project, screen.text)[: project.panel.rows]):
        for column, character in enumerate(text[: project.panel.columns]):
            if character != BLANK:
                yield row, column
