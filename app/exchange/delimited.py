"""Text with separators (CSV) read as a table: which characters its bytes are, and what separates its cells."""

from __future__ import annotations

import csv
import io
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice
from typing import Final, Literal

from app.exchange.sheet import MOST_COLUMNS, MOST_ROWS, CannotRead, Progress, Sheet, SheetRow, no_progress
from app.exchange.titles import key_of_title
from app.language import mark, translate

SEPARATORS: Final = (",", ";", "\t", "|")
"""What may stand between cells."""

CODINGS: Final[dict[str, str]] = {
    "utf-8": mark("exchange", "UTF-8"),
    "utf-16": mark("exchange", "UTF-16"),
    "cp1252": mark("exchange", "Windows, Western Europe"),
    "latin-1": mark("exchange", "Latin-1"),
    "cp1250": mark("exchange", "Windows, Central Europe"),
    "cp850": mark("exchange", "DOS, Western Europe"),
}
"""The ways to take bytes for characters that are offered: Python's names, and what a person reads."""

_LOOKED_AT: Final = 200
"""Records at the head of a file by which the separator is found."""

_UNDEFINED_IN_CP1252: Final = bytes((0x81, 0x8D, 0x8F, 0x90, 0x9D))


@dataclass(frozen=True, slots=True)
class TextWay:
    """How a text was or is to be read. None: to be found out."""

    coding: str | None = None
    """One of CODINGS."""
    separator: str | None = None
    """One of SEPARATORS."""


def read_text(data: bytes, way: TextWay = TextWay(), progress: Progress = no_progress) -> tuple[Sheet, TextWay]:
    """The table in a text, and the way in which it was read.

    A wrong `separator` or `coding` is obeyed. Raises CannotRead if this is no text, or no table of a usual size;
    Stopped if `progress` does.
    """
    coding = way.coding or _coding(data)
    text, remarks = _decode(data, coding, chosen=way.coding is not None)
    separator = way.separator or _declared_separator(text) or _separator(text)
    if _declared_separator(text):
        text = "\n" + text.split("\n", 1)[1] if "\n" in text else ""  # rows keep their numbers
    rows: list[SheetRow] = []
    for number, record in enumerate(_records(text, separator, remarks), start=1):
        if number % 1000 == 0:
            progress(min(number / MOST_ROWS, 0.99))
        if len(record) > MOST_COLUMNS:
            raise CannotRead(
                mark("exchange", "Row {row} has {count} cells; at most {most} are read. Is the separator right?"),
                row=number,
                count=len(record),
                most=MOST_COLUMNS,
            )
        if not any(record) or not any(cell.strip() for cell in record):
            continue
        rows.append(SheetRow(number, tuple(record)))
        if len(rows) > MOST_ROWS:
            raise CannotRead(mark("exchange", "The table has more than {most} rows; split the file."), most=MOST_ROWS)
    columns = max((len(row.cells) for row in rows), default=0)
    if columns == 1:
        remarks.append(translate("exchange", "There is only one column: is the separator right?"))
    return Sheet(tuple(rows), columns, tuple(remarks)), TextWay(coding, separator)


def _coding(data: bytes) -> str:
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return "utf-16"
    head = data[:4096]
    if len(head) >= 4 and b"\0" in head:
        even, odd = head[0::2].count(0), head[1::2].count(0)
        if max(even, odd) > len(head) // 5 and min(even, odd) <= max(even, odd) // 10:
            return "utf-16"
        raise _no_text()
    try:
        data.decode("utf-8")
    except UnicodeDecodeError:
        return "latin-1" if any(byte in data for byte in _UNDEFINED_IN_CP1252) else "cp1252"
    return "utf-8"


def _no_text() -> CannotRead:
    return CannotRead(
        translate("exchange", "This is neither a text nor a workbook. Save the list as CSV or XLSX and import it.")
    )


def _decode(data: bytes, coding: str, *, chosen: bool) -> tuple[str, list[str]]:
    remarks: list[str] = []
    name = coding
    if coding == "utf-16" and not data.startswith((b"\xff\xfe", b"\xfe\xff")):
        name = "utf-16-le" if data[1:4096:2].count(0) >= data[0:4096:2].count(0) else "utf-16-be"
    try:
        text = data.decode("utf-8-sig" if name == "utf-8" else name)
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        # Read on all the same: the table then shows where it went wrong, and the choice is still open.
        text = data.decode("utf-8-sig" if name == "utf-8" else name, errors="replace")
        remarks.append(
            translate(
                "exchange",
                "Line {line} contains bytes that are not {coding}; they are shown as �. "
                "Choose another character encoding.",
            ).format(line=line, coding=translate("exchange", CODINGS[coding]))
        )
    head = text[:4096]
    if sum(character < " " and character not in "\t\n\r\f\v" for character in head) * 20 > len(head):
        raise _no_text()
    if coding in ("cp1252", "latin-1") and not chosen:
        shown = "".join(dict.fromkeys(c for c in text if not c.isascii()))[:12]
        remarks.append(
            translate(
                "exchange", "The text is not UTF-8 and was read as {coding}. Check that these are right: {shown}"
            ).format(coding=translate("exchange", CODINGS[coding]), shown=" ".join(shown))
        )
    return text, remarks


def _declared_separator(text: str) -> str | None:
    """The separator that a first line "sep=;" names, as some spreadsheets write it."""
    head = text[:7].split("\n", 1)[0].strip("\r")
    return head[4] if len(head) == 5 and head.startswith("sep=") and head[4] in SEPARATORS else None


def _separator(text: str) -> str:
    """The separator that gives the most even table, known titles of columns counting most."""
    head = text[:200_000]

    def score(separator: str) -> tuple[int, float, int]:
        try:
            records = list(islice(csv.reader(io.StringIO(head, ""), delimiter=separator), _LOOKED_AT))
        except csv.Error:
            records = [line.split(separator) for line in head.splitlines()[:_LOOKED_AT]]
        lengths = Counter(len(record) for record in records if len(record) > 1)
        if not lengths:
            return 0, 0.0, 0
        known = max(sum(key_of_title(cell) is not None for cell in record) for record in records[:20])
        length, count = max(lengths.items(), key=lambda item: (item[1] * min(item[0], 8), item[0]))
        return known if known > 1 else 0, count / max(1, sum(map(bool, records))) * min(length, 8), length

    return max(SEPARATORS, key=score)


def _records(text: str, separator: str, remarks: list[str]) -> Iterator[list[str]]:
    """The records, blank ones included; marks of quotation that do not pair up are told and taken as they stand."""
    quoting: Literal[0, 3] = csv.QUOTE_MINIMAL
    strict = True
    try:
        for _ in csv.reader(io.StringIO(text, ""), delimiter=separator, strict=True):
            pass
    except csv.Error as error:
        row = _records_before(text, separator) + 1
        strict = False
        if "unexpected end" in str(error) or "field larger" in str(error):
            quoting = csv.QUOTE_NONE
            remarks.append(
                translate(
                    "exchange",
                    'A quotation mark (") in row {row} or before is never closed. All quotation marks were read as '
                    "text.",
                ).format(row=row)
            )
        else:
            remarks.append(
                translate("exchange", 'The quotation marks (") in row {row} do not match. Check its cells.').format(
                    row=row
                )
            )
    try:
        yield from csv.reader(io.StringIO(text, ""), delimiter=separator, strict=strict, quoting=quoting)
    except csv.Error as error:
        raise CannotRead(mark("exchange", "The text cannot be split into cells: {reason}."), reason=error) from None


def _records_before(text: str, separator: str) -> int:
    """How many records come before the one that trips a strict reader."""
    count = 0
    try:
        for _ in csv.reader(io.StringIO(text, ""), delimiter=separator, strict=True):
            count += 1
    except csv.Error:
        pass
    return count
