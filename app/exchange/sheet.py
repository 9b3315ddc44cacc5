"""A table as it was read from a file: cells, with the row numbers that the file's own program shows."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal
from typing import Final, TypeAlias

from app.errors import FanlightError

LARGEST_FILE: Final = 32 * 1024 * 1024
"""Bytes of a file that is imported. A list of 20 000 rows has about a twentieth of this."""

MOST_ROWS: Final = 99_999
MOST_COLUMNS: Final = 256
"""Of a sheet. Beyond these it is no register list, and showing it would take too much memory."""


NOTHING: Final = frozenset({"-", "--", "\u2013", "\u2014", "n/a", "na", "n.a."})
"""What lists write where there is nothing to say, in small letters: common practice, no source."""


class CannotRead(FanlightError):
    """The file as such gives no table. As text: what is wrong with it and what to do, for the user."""


class Stopped(FanlightError):
    """Somebody stopped the work; nothing was changed."""


Progress: TypeAlias = Callable[[float], None]
"""Told the part that is done, 0 to 1, now and then. Raises Stopped to end the work."""


def no_progress(_part: float) -> None:
    """Nobody watches and nobody stops."""


@dataclass(frozen=True, slots=True)
class UnusableCell:
    """A cell that holds something that no key of a signal can take: a date, an error, a formula without a result."""

    text: str
    """As it is shown."""
    why: str
    """What it is and what to do, in words for the user."""


SheetCell: TypeAlias = str | Decimal | bool | UnusableCell
"""What stands in a cell; an empty one holds an empty text. Texts are as in the file, blanks at the ends included."""


@dataclass(frozen=True, slots=True)
class SheetRow:
    """One row; `number` counts from 1 as the file's own program shows it, blank rows included."""

    number: int
    cells: tuple[SheetCell, ...]

    def cell(self, column: int) -> SheetCell:
        """The cell of a column, from 0; an empty text beyond the end of the row."""
        return self.cells[column] if 0 <= column < len(self.cells) else ""

    @property
    def blank(self) -> bool:
        """Whether nothing stands in it."""
        return not any(cell if not isinstance(cell, str) else cell.strip() for cell in self.cells)


@dataclass(frozen=True, slots=True)
class Sheet:
    """A table with what is to be said about how it was read."""

    rows: tuple[SheetRow, ...]
    """All rows that are not blank, the heading among them."""
    columns: int
    """Cells of the longest row."""
    remarks: tuple[str, ...] = ()
    """What the user should know: how the text was decoded, merged cells, formulas."""
    name: str = ""
    """Of the sheet in its workbook; empty elsewhere."""


def cell_text(cell: SheetCell) -> str:
    """A cell as it is shown, in one line."""
    if isinstance(cell, str):
        return " ".join(cell.split())
    if isinstance(cell, bool):
        return "true" if cell else "false"
    return cell.text if isinstance(cell, UnusableCell) else f"{cell:f}" if abs(cell.adjusted()) < 40 else str(cell)


def column_letter(column: int) -> str:
    """The name of a column, from 0, as spreadsheets give it: A, B, ... Z, AA."""
    letters = ""
    column += 1
    while column:
        column, rest = divmod(column - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters
