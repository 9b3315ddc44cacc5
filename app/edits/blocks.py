"""Editing blocks of cells: their text in every language and the fields that lie wholly in them, moved as one.

What is moved, copied or aligned never covers other text or another field, and never leaves the panel: then the edit is
refused. Typing and pasting write over text; moving does not.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import Literal, NamedTuple

from app.edits.fields import change_field, delete_fields, move_fields, with_fields
from app.edits.refused import EditRefused, changed, must_be_index, with_names_in_order
from app.edits.rows import BLANK, RowTexts, full_rows, texts_of, with_text, with_texts
from app.edits.screens import screen_called, with_screen
from app.language import translate
from app.project.model import Blinking, Condition, Field, Project, Screen
from app.project.problems import quoted

Alignment = Literal["left", "centre", "right"]


class Block(NamedTuple):
    """A rectangle of cells; rows and columns count from 0."""

    top: int
    left: int
    rows: int
    columns: int

    def moved(self, down: int, right: int) -> Block:
        """The block of the same size so many rows and columns further."""
        return Block(self.top + down, self.left + right, self.rows, self.columns)

    def holds(self, run: Field | Blinking) -> bool:
        """Whether a field, or a run of cells that blinks, lies wholly in it."""
        if run.at is None or run.width is None:
            return False
        (row, column), end = run.at, run.at[1] + run.width
        return self.top <= row < self.top + self.rows and self.left <= column and end <= self.left + self.columns

    def touches(self, field: Field) -> bool:
        """Whether a field has a cell in it."""
        (row, column), end = field.at, field.at[1] + field.width
        return self.top <= row < self.top + self.rows and column < self.left + self.columns and end > self.left


def fields_in(screen: Screen, block: Block) -> tuple[int, ...]:
    """The indices of the fields that lie wholly in a block."""
    return tuple(index for index, field in enumerate(screen.fields) if block.holds(field))


def blinking_at(screen: Screen, row: int, column: int) -> Blinking | None:
    """What lets a cell blink, besides its field: the run that it lies in, else what is said of the whole screen."""
    whole = None
    for blinking in screen.blinking:
        if blinking.at is None or blinking.width is None:
            whole = blinking
        elif blinking.at[0] == row and blinking.at[1] <= column < blinking.at[1] + blinking.width:
            return blinking
    return whole


def set_blinking(project: Project, screen_name: str, block: Block | None, when: Condition | None) -> Project:
    """With the cells of a block blinking while a condition holds, or never (None); without a block the whole screen.

    What was said before of cells in the block goes. Refused where the block leaves the panel.
    """
    places: list[tuple[tuple[int, int] | None, int | None]] = [(None, None)]
    if block is not None:
        _must_lie_inside(project, block)
        places = [((row, block.left), block.columns) for row in range(block.top, block.top + block.rows)]
    new = () if when is None else tuple(Blinking(at=at, width=width, when=when) for at, width in places)
    screen = screen_called(project, screen_name)
    kept = tuple(each for each in screen.blinking if not (each.at is None if block is None else block.holds(each)))
    if kept + new == screen.blinking:
        return project
    return with_names_in_order(with_screen(project, changed(screen, blinking=kept + new)), project)


def with_runs(
    project: Project, screen_name: str, block: Block, change: Callable[[Blinking], tuple[Blinking, ...]]
) -> Project:
    """With `change` made to the runs of cells that blink and lie wholly in a block; each may become several or none."""
    screen = screen_called(project, screen_name)
    blinking = tuple(new for run in screen.blinking for new in (change(run) if block.holds(run) else (run,)))
    return project if blinking == screen.blinking else with_screen(project, changed(screen, blinking=blinking))


def shifted(run: Blinking, down: int, right: int) -> Blinking:
    """A run of cells that blinks, so many rows and columns further."""
    return run if run.at is None else changed(run, at=(run.at[0] + down, run.at[1] + right))


def clear_block(project: Project, screen_name: str, block: Block, *, in_all_languages: bool = False) -> Project:
    """With the cells of a block blank and without the fields that lie wholly in it."""
    screen = screen_called(project, screen_name)
    project = delete_fields(project, screen_name, fields_in(screen, block))
    project = with_runs(project, screen_name, block, lambda _run: ())
    screen = screen_called(project, screen_name)
    if in_all_languages:
        return with_texts(project, screen, lambda rows, _: _lift(rows, block)[0])
    return with_text(project, screen, _lift(full_rows(project, screen.text), block)[0])


def move_block(project: Project, screen_name: str, block: Block, down: int, right: int) -> Project:
    """With a block of cells moved by some rows and columns; blank cells of it cover nothing."""
    if (down, right) == (0, 0):
        return project
    screen = screen_called(project, screen_name)
    _must_lie_inside(project, block.moved(down, right))
    moving = fields_in(screen, block)
    staying = [field for index, field in enumerate(screen.fields) if index not in moving]
    project = move_fields(project, screen_name, moving, down, right)
    project = with_runs(project, screen_name, block, lambda run: (shifted(run, down, right),))
    after = screen_called(project, screen_name)

    def move(rows: RowTexts, _language: str) -> RowTexts:
        rows, lifted = _lift(rows, block)
        _must_leave_text(rows, [after.fields[index] for index in moving])
        return _laid_down(rows, lifted, block.moved(down, right), staying)

    return with_texts(project, after, move)


def copy_block(project: Project, screen_name: str, block: Block, down: int, right: int) -> Project:
    """With a second block of cells like this one, so many rows and columns away from it."""
    screen = screen_called(project, screen_name)
    _must_lie_inside(project, block.moved(down, right))
    copies = tuple(
        changed(field, at=(field.at[0] + down, field.at[1] + right)) for field in screen.fields if block.holds(field)
    )
    first = len(screen.fields)
    project = with_fields(project, screen, (*screen.fields, *copies), range(first, first + len(copies)))
    project = with_runs(project, screen_name, block, lambda run: (run, shifted(run, down, right)))

    def copy(rows: RowTexts, _language: str) -> RowTexts:
        _must_leave_text(rows, copies)
        return _laid_down(rows, _lift(rows, block)[1], block.moved(down, right), screen.fields)

    return with_texts(project, screen_called(project, screen_name), copy)


def copy_fields(project: Project, screen_name: str, indices: Iterable[int], down: int, right: int) -> Project:
    """With copies of some fields, so many rows and columns away from them; they become the last of the screen."""
    screen = screen_called(project, screen_name)
    chosen = sorted(set(indices))
    for index in chosen:
        must_be_index("field", index, len(screen.fields))
    copies = tuple(
        changed(field, at=(field.at[0] + down, field.at[1] + right))
        for field in (screen.fields[index] for index in chosen)
    )
    first = len(screen.fields)
    return with_fields(project, screen, (*screen.fields, *copies), range(first, first + len(copies)))


def align_block(project: Project, screen_name: str, block: Block, side: Alignment) -> Project:
    """With the content of every row of a block at its left, in its middle or at its right: text and fields as one.

    Refused where a field lies across the edge of the block.
    """
    screen = screen_called(project, screen_name)
    for index, field in enumerate(screen.fields):
        if block.touches(field) and not block.holds(field):
            raise EditRefused(
                translate("edits", "field {number} (signal {signal}) is only partly selected").format(
                    number=index + 1, signal=quoted(field.signal)
                )
            )
    for row in range(block.top, block.top + block.rows):
        project = _align_row(project, screen_name, Block(row, block.left, 1, block.columns), side)
    return project


def align_fields(project: Project, screen_name: str, indices: Iterable[int], side: Alignment) -> Project:
    """With fields in one column: their left edges, middles or right edges.

    The leftmost of the left edges counts, the rightmost of the right ones, and the middle between the outermost.
    """
    screen = screen_called(project, screen_name)
    chosen = sorted(set(indices))
    for index in chosen:
        must_be_index("field", index, len(screen.fields))
    if not chosen:
        return project
    left = min(screen.fields[index].at[1] for index in chosen)
    right = max(screen.fields[index].at[1] + screen.fields[index].width for index in chosen)
    fields = list(screen.fields)
    for index in chosen:
        field = fields[index]
        spare = right - left - field.width
        column = left + {"left": 0, "centre": spare // 2, "right": spare}[side]
        fields[index] = field if field.at[1] == column else changed(field, at=(field.at[0], column))
    return with_fields(project, screen, tuple(fields), chosen)


def same_width(project: Project, screen_name: str, indices: Iterable[int]) -> Project:
    """With fields as wide as the widest of them; numbers keep their right edge, where their digits stand."""
    screen = screen_called(project, screen_name)
    chosen = sorted(set(indices))
    for index in chosen:
        must_be_index("field", index, len(screen.fields))
    if not chosen:
        return project
    width = max(screen.fields[index].width for index in chosen)
    fields = list(screen.fields)
    for index in chosen:
        field = fields[index]
        wider = width - field.width
        column = field.at[1] - min(wider, field.at[1]) if field.kind in ("number", "hexadecimal") else field.at[1]
        if wider:
            fields[index] = changed(field, at=(field.at[0], column), width=width)
    return with_fields(project, screen, tuple(fields), chosen)


def stretch_field(project: Project, screen_name: str, index: int, left_edge: int) -> Project:
    """With the left edge of a field at another column, its right edge where it is."""
    screen = screen_called(project, screen_name)
    must_be_index("field", index, len(screen.fields))
    field = screen.fields[index]
    width = max(1, field.at[1] + field.width - left_edge)
    return change_field(project, screen_name, index, at=(field.at[0], field.at[1] + field.width - width), width=width)


def _lift(rows: RowTexts, block: Block) -> tuple[RowTexts, RowTexts]:
    """The rows with the block blank, and what stood in the block."""
    left, end = block.left, block.left + block.columns
    lifted: RowTexts = []
    rows = list(rows)
    for row in range(block.top, block.top + block.rows):
        lifted.append(rows[row][left:end])
        rows[row] = rows[row][:left] + BLANK * block.columns + rows[row][end:]
    return rows, lifted


def _laid_down(rows: RowTexts, lifted: RowTexts, block: Block, fields: Iterable[Field]) -> RowTexts:
    """The rows with the lifted text in a block. Refused where it would come over text or under one of `fields`."""
    rows = list(rows)
    covered = {(field.at[0], column): field for field in fields for column in _columns(field)}
    for down, text in enumerate(lifted):
        row = block.top + down
        cells = list(rows[row])
        for over, character in enumerate(text):
            column = block.left + over
            if character == BLANK:
                continue
            field = covered.get((row, column))
            if field is not None:
                raise EditRefused(
                    translate("edits", "the field of signal {signal} would cover the text").format(
                        signal=quoted(field.signal)
                    )
                )
            if cells[column] != BLANK:
                raise EditRefused(
                    translate("edits", "the text {text} in row {row} is there").format(
                        text=quoted(_word_at(rows[row], column)), row=row + 1
                    )
                )
            cells[column] = character
        rows[row] = "".join(cells)
    return rows


def _must_leave_text(rows: RowTexts, fields: Iterable[Field]) -> None:
    """Raises EditRefused if one of the fields would cover text."""
    for field in fields:
        row = field.at[0]
        for column in _columns(field):
            if rows[row][column] != BLANK:
                raise EditRefused(
                    translate("edits", "the field of signal {signal} would cover the text {text} in row {row}").format(
                        signal=quoted(field.signal), text=quoted(_word_at(rows[row], column)), row=row + 1
                    )
                )


def _align_row(project: Project, screen_name: str, block: Block, side: Alignment) -> Project:
    screen = screen_called(project, screen_name)
    left, end = block.left, block.left + block.columns
    filled = {column for text in texts_of(project, screen) for column in _nonblank_columns(text[block.top], left, end)}
    filled.update(column for index in fields_in(screen, block) for column in _columns(screen.fields[index]))
    if not filled:
        return project
    first, width = min(filled), max(filled) - min(filled) + 1
    spare = block.columns - width
    wanted = left + {"left": 0, "centre": spare // 2, "right": spare}[side]
    return move_block(project, screen_name, Block(block.top, first, 1, width), 0, wanted - first)


def _nonblank_columns(text: str, left: int, end: int) -> Iterator[int]:
    return (column for column in range(left, min(end, len(text))) if text[column] != BLANK)


def _columns(field: Field) -> range:
    return range(field.at[1], field.at[1] + field.width)


def _word_at(text: str, column: int) -> str:
    """The word, as far as blanks on both sides, that a column lies in."""
    start = text.rfind(BLANK, 0, column) + 1
    end = text.find(BLANK, column)
    return text[start : end if end >= 0 else len(text)]


def _must_lie_inside(project: Project, block: Block) -> None:
    panel = project.panel
    if (
        block.top < 0
        or block.left < 0
        or block.top + block.rows > panel.rows
        or block.left + block.columns > panel.columns
    ):
        raise EditRefused(translate("edits", "the cells would be outside the panel"))
