"""Tables on the clipboard: text with tabs between the cells, as every spreadsheet gives and takes it."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from PySide6.QtCore import QCoreApplication

from app.exchange.titles import key_of_title
from app.language import DecimalMark
from app.signals.numbers import find_mark
from widgets.design.values.column import Column

translate = QCoreApplication.translate

MOST_ROWS: Final = 20_000
"""More rows than this are not taken from the clipboard at once."""

_NUMBERS: Final = re.compile(r"\d[\d.,' \u00a0\u202f]*[.,]\d+|\d{1,3}(?:[' \u00a0\u202f]\d{3})+")
"""Numbers with a point, a comma or gaps in them."""
_GAPS: Final = re.compile(r"['\u00a0\u202f ]")


def cells_of(text: str) -> list[list[str]]:
    """The rows and cells of a text; cells in quotes may hold tabs and ends of lines. An empty line is an empty cell
    where there is one column, and no row at the end where there are more.

    Raises ValueError in words if it is no table at all.
    """
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    try:
        rows = [list(row) for row in csv.reader(io.StringIO(text, newline=""), delimiter="\t")]
    except csv.Error:
        raise ValueError(translate("Pasted", "the clipboard cannot be read as a table")) from None
    if len(rows) > MOST_ROWS:
        text = translate("Pasted", "the clipboard has {count} rows; at most {most} can be pasted")
        raise ValueError(text.format(count=len(rows), most=MOST_ROWS))
    if all(len(row) < 2 for row in rows):
        return [row or [""] for row in rows]
    while not rows[-1]:
        rows.pop()
    return rows


def text_of(rows: Iterable[Sequence[str]]) -> str:
    """What `cells_of` reads back."""
    out = io.StringIO()
    writer = csv.writer(out, delimiter="\t", lineterminator="\n")
    for row in rows:
        if len(row) == 1 and not row[0]:
            out.write("\n")  # csv would write quotes for it
        else:
            writer.writerow(row)
    return out.getvalue()


@dataclass(frozen=True, slots=True)
class PastedTable:
    """What was on the clipboard: rows of texts, each by the key of its column.

    `headed`: the first row named the columns. `unknown` are headings that name none. `first` is the number that the
    first of `rows` has on the clipboard, counted from 1.
    """

    rows: tuple[Mapping[str, str], ...]
    headed: bool = False
    unknown: tuple[str, ...] = ()
    first: int = 1


def table_of(
    cells: Sequence[Sequence[str]], columns: Sequence[Column], at: int = 0, hidden: Collection[int] = ()
) -> PastedTable:
    """Which cell belongs to which column: by the headings if there are any, else by their order from column `at` on.

    Columns that are not edited or `hidden` take no cell where there are no headings.
    """
    if not cells:
        return PastedTable(())
    given = [bool(cell.strip()) for cell in cells[0]]
    # One word alone may be a value: only our own headings count then.
    named = [_column_named(cell, columns, wide=sum(given) > 1) for cell in cells[0]]
    known = sum(column is not None for column in named)
    if len(cells) > 1 and known and (known == sum(given) or (known >= 2 and 2 * known >= sum(given))):
        unknown = tuple(
            cell.strip() for cell, column, some in zip(cells[0], named, given, strict=True) if some and column is None
        )
        rows = tuple(
            {
                column.key: cell
                for column, cell in zip(named, row, strict=False)
                if column is not None and column.read is not None
            }
            for row in cells[1:]
        )
        return PastedTable(rows, True, unknown, 2)
    editable = [
        column
        for number, column in enumerate(columns)
        if number >= at and number not in hidden and column.read is not None
    ]
    over = max(len(row) for row in cells) - len(editable)
    unknown = (translate("Pasted", "columns beyond the last one: {count}").format(count=over),) if over > 0 else ()
    rows = tuple({column.key: cell for column, cell in zip(editable, row, strict=False)} for row in cells)
    return PastedTable(rows, unknown=unknown)


def _column_named(heading: str, columns: Sequence[Column], *, wide: bool = False) -> Column | None:
    """The column that a heading names: by our own word for it, or (`wide`) by what lists usually call it."""
    wanted = heading.strip().casefold()
    if not wanted:
        return None
    for column in columns:
        if wanted in (column.title.casefold(), column.title.casefold().rstrip("."), column.key, *column.also):
            return column
    usual = key_of_title(heading) if wide else None
    return next((column for column in columns if usual is not None and usual in (column.key, *column.also)), None)


def decimal_mark(texts: Iterable[str]) -> DecimalMark | None:
    """What stands for the decimal point in these texts, judged by those that leave no doubt; None if none does or they
    differ."""
    found = find_mark(match[0] for text in texts for match in _NUMBERS.finditer(text))
    return None if found.contrary else found.mark


def plain_numbers(text: str, mark: DecimalMark | None) -> str:
    """The text with its numbers as we write them: a point, and nothing between thousands. Raises ValueError in words
    if a number can be read in two ways. `mark` is what `decimal_mark` found for the whole table."""

    def plain(match: re.Match[str]) -> str:
        token = _GAPS.sub("", match[0])
        own = find_mark((token,)).mark
        if own is None and ("." in token or "," in token):
            own = mark if mark is not None else "." if "." in token else None
            if own is None or (own == "," and "." in token):
                small, large = token.replace(",", "."), token.replace(",", "").replace(".", "")
                raise ValueError(
                    translate(
                        "Pasted", "'{text}' can mean {small} or {large}; write it so that only one is possible"
                    ).format(text=match[0], small=small, large=large)
                )
        elif own is not None and mark is not None and own != mark:
            raise ValueError(
                translate("Pasted", "'{text}' is written differently from the other numbers").format(text=match[0])
            )
        if own == ",":
            return token.replace(".", "").replace(",", ".")
        return token.replace(",", "")

    return _NUMBERS.sub(plain, text)
