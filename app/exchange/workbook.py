"""Sheets of an XLSX workbook read as tables, with formulas, merged cells and hostile files looked at first."""

from __future__ import annotations

import datetime
import io
import struct
import zipfile
import zlib
from collections.abc import Sequence
from decimal import Decimal
from pathlib import PurePosixPath
from typing import Final
from xml.etree import ElementTree

from app.exchange.sheet import (
    CannotRead,
    Progress,
    Sheet,
    SheetCell,
    SheetRow,
    UnusableCell,
    column_letter,
    no_progress,
)
from app.exchange.sheet_xml import Oddities, look_through
from app.language import mark, translate

LARGEST_PART: Final = 192 * 1024 * 1024
"""Bytes of one part of a workbook when unpacked; a list of 100 000 rows has about half of this."""

_DAMAGED: Final = (
    zipfile.BadZipFile,
    zlib.error,
    struct.error,
    EOFError,
    NotImplementedError,
    RuntimeError,
    OSError,
    ValueError,
)
"""What the library of packed files raises for damaged ones."""
_MOST_NAMED: Final = 5
"""Places that a remark names."""


def sheet_names(data: bytes) -> tuple[str, ...]:
    """The sheets of a workbook that a person sees, in its order. Raises CannotRead if it is none or has none."""
    return tuple(_parts(_open_archive(data)))


def read_sheet(data: bytes, name: str | None = None, progress: Progress = no_progress) -> Sheet:
    """One sheet of a workbook, the first if not named.

    Formulas count by the result that was saved with them; one without a result is told where it stands. The content of
    cells merged downwards counts for each row they cover. Raises CannotRead for what is no workbook, is locked, or is
    of a size that no register list has; Stopped if `progress` does.
    """
    archive = _open_archive(data)
    parts = _parts(archive)
    if name is None:
        name = next(iter(parts))
    if name not in parts:
        raise CannotRead(mark("exchange", "There is no sheet {name} in the workbook."), name=name)
    progress(0.05)
    for member in archive.infolist():
        if member.filename.lower().endswith("sharedstrings.xml"):
            _unpack(archive, member.filename)
    progress(0.15)
    try:
        content = _unpack(archive, parts[name])
    except KeyError:
        raise CannotRead(
            mark("exchange", "The workbook is damaged: sheet {name} is missing. Save it again and import it."),
            name=name,
        ) from None
    oddities = look_through(content, progress, 0.15, 0.4)
    del content
    grid, merged = _grid(data, name)
    progress(0.6)
    return _sheet(name, grid, merged, oddities, progress)


def _sheet(
    name: str,
    grid: list[list[object]],
    merged: Sequence[tuple[tuple[int, int], tuple[int, int]]],
    oddities: Oddities,
    progress: Progress,
) -> Sheet:
    remarks: list[str] = []
    filled = _fill_merged(grid, merged)
    rows: list[SheetRow] = []
    known: dict[object, SheetCell] = {}
    odd: dict[int, dict[int, UnusableCell]] = {}
    for row_index, column in sorted(oddities.without_result):
        odd.setdefault(row_index, {})[column] = _no_result(_place(row_index, column))
    for (row_index, column), text in oddities.errors.items():
        odd.setdefault(row_index, {})[column] = _error(text)
    for at, values in enumerate(grid):
        if at % 1000 == 0:
            progress(0.6 + 0.4 * at / len(grid))
        # Most cells are texts: a call for each would take a good part of the whole time.
        cells = [value if type(value) is str and value[:1] != "#" else _cell(value, known) for value in values]
        for column, cell in odd.get(at, {}).items():
            cells += [""] * (column + 1 - len(cells))
            cells[column] = cell
        while cells and cells[-1] == "":
            cells.pop()
        row = SheetRow(at + 1, tuple(cells))
        if not row.blank:
            rows.append(row)
    if oddities.without_result:
        remarks.append(
            translate(
                "exchange",
                "Formulas without a saved result: {places}. Open the workbook in a spreadsheet program, save it there, "
                "and import it again.",
            ).format(places=_place_list([_place(row, column) for row, column in sorted(oddities.without_result)]))
        )
    if filled:
        remarks.append(
            translate("exchange", "Merged cells are used for each row they cover: {places}.").format(
                places=_place_list(filled)
            )
        )
    return Sheet(tuple(rows), max((len(row.cells) for row in rows), default=0), tuple(remarks), name)


def _no_result(place: str) -> UnusableCell:
    return UnusableCell(
        "=?",
        translate("exchange", "the formula in {place} was saved without its result; type the value instead").format(
            place=place
        ),
    )


def _cell(value: object, known: dict[object, SheetCell]) -> SheetCell:
    if isinstance(value, str):
        return value if not value.startswith("#") or value not in _ERRORS else _error(value)
    if isinstance(value, bool):
        return value
    if isinstance(value, int | float):
        found = known.get(value)
        if found is None:
            number = Decimal(repr(value)) if value == value and abs(value) != float("inf") else None
            found = _error(str(value)) if number is None else number.quantize(Decimal(1)) if _whole(value) else number
            if len(known) < 10_000:
                known[value] = found
        return found
    if isinstance(value, datetime.date | datetime.time | datetime.timedelta):
        return UnusableCell(
            str(value),
            translate(
                "exchange",
                "the cell contains a date or time ({value}); spreadsheets also convert texts such as 1-10 to dates; "
                "format the column as text and type it again",
            ).format(value=value),
        )
    return ""


def _whole(value: float) -> bool:
    return value == int(value) and abs(value) < 1e15


_ERRORS: Final = frozenset({"#DIV/0!", "#N/A", "#NAME?", "#NULL!", "#NUM!", "#REF!", "#VALUE!", "#GETTING_DATA"})


def _error(text: str) -> UnusableCell:
    return UnusableCell(
        text, translate("exchange", "the cell contains the error {error}; correct its formula").format(error=text)
    )


def _fill_merged(grid: list[list[object]], merged: Sequence[tuple[tuple[int, int], tuple[int, int]]]) -> list[str]:
    """Let the content of cells merged downwards stand in each row they cover; the places where that was done."""
    places: list[str] = []
    for (top, left), (bottom, right) in merged:
        if bottom == top or top >= len(grid) or left >= len(grid[top]) or grid[top][left] in ("", None):
            continue
        for row in range(top + 1, min(bottom + 1, len(grid))):
            if left < len(grid[row]):
                grid[row][left] = grid[top][left]
        places.append(f"{column_letter(left)}{top + 1}:{column_letter(right)}{bottom + 1}")
    return places


def _place(row: int, column: int) -> str:
    return f"{column_letter(column)}{row + 1}"


def _place_list(places: Sequence[str]) -> str:
    more = len(places) - _MOST_NAMED
    shown = ", ".join(places[:_MOST_NAMED])
    if more <= 0:
        return shown
    return translate("exchange", "{places} and {count} more").format(places=shown, count=more)


# Before the library sees it ------------------------------------------------------------------------------------------


def _open_archive(data: bytes) -> zipfile.ZipFile:
    try:
        return zipfile.ZipFile(io.BytesIO(data))
    except _DAMAGED:
        raise CannotRead(
            mark("exchange", "The workbook is damaged or incomplete. Save it again and import it.")
        ) from None


def _parts(archive: zipfile.ZipFile) -> dict[str, str]:
    """The visible sheets by name, each with the part of the workbook that holds it."""
    try:
        book = ElementTree.fromstring(_unpack(archive, "xl/workbook.xml"))
        links = ElementTree.fromstring(_unpack(archive, "xl/_rels/workbook.xml.rels"))
    except (KeyError, ElementTree.ParseError, ValueError, LookupError):
        raise CannotRead(
            mark("exchange", "This is a ZIP file but not an XLSX workbook. Save the list as XLSX and import it.")
        ) from None
    targets = {link.get("Id"): link.get("Target", "") for link in links}
    found: dict[str, str] = {}
    for sheet in book.iter():
        if sheet.tag.rpartition("}")[2] != "sheet" or sheet.get("state", "visible") != "visible":
            continue
        link = next((value for key, value in sheet.items() if key.rpartition("}")[2] == "id"), None)
        target = targets.get(link, "")
        path = PurePosixPath("/", target if target.startswith("/") else f"/xl/{target}").relative_to("/")
        if "worksheets" in target:
            found[sheet.get("name", "")] = str(path)
    if not found:
        raise CannotRead(mark("exchange", "There is no sheet with cells in the workbook."))
    return found


def _unpack(archive: zipfile.ZipFile, name: str) -> bytes:
    """A part of the archive, unpacked here first: what an archive says of its sizes may be a lie. Raises KeyError."""
    try:
        with archive.open(name) as part:
            content = part.read(LARGEST_PART + 1)
    except _DAMAGED:
        raise CannotRead(
            mark("exchange", "The workbook is damaged or password-protected. Save it again without a password.")
        ) from None
    if len(content) > LARGEST_PART or archive.getinfo(name).file_size > LARGEST_PART:
        raise CannotRead(
            mark("exchange", "The unpacked workbook has more than {size} MB, too large for a register list."),
            size=LARGEST_PART // 1024**2,
        )
    return content


def _grid(data: bytes, name: str) -> tuple[list[list[object]], Sequence[tuple[tuple[int, int], tuple[int, int]]]]:
    import python_calamine  # here, since most sessions import no workbook

    try:
        workbook = python_calamine.load_workbook(io.BytesIO(data))
        sheet = workbook.get_sheet_by_name(name)
        rows: list[list[object]] = [list(row) for row in sheet.to_python(skip_empty_area=False)]
        return rows, tuple(sheet.merged_cell_ranges or ())
    except python_calamine.PasswordError:
        raise CannotRead(
            mark("exchange", "The workbook is password-protected. Save it without a password and import it.")
        ) from None
    except (python_calamine.CalamineError, OSError, ValueError) as error:
        raise CannotRead(mark("exchange", "The workbook cannot be read: {reason}."), reason=error) from None
