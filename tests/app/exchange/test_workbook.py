"""Workbooks as another library writes them: formulas, merged cells, dates, errors, sheets; and hostile ones."""

from __future__ import annotations

import contextlib
import datetime
import io
import zipfile
from collections.abc import Callable
from decimal import Decimal
from typing import Any

import openpyxl
import pytest

from app.exchange.column_mapping import guess
from app.exchange.import_plan import ImportTarget, plan
from app.exchange.row_parser import drafts_of
from app.exchange.sheet import CannotRead, Sheet, UnusableCell
from app.exchange.workbook import read_sheet, sheet_names
from app.project.model import Follower, Project, TcpLine

KILN = Follower(name="kiln", line="hall")
PROJECT = Project.model_validate(
    {"panel": {"start": "run"}, "screen": [{"name": "run"}], "line": [{"name": "hall", "kind": "tcp", "host": "h"}]}
)


def book(fill: Callable[[Any], None]) -> bytes:
    made = openpyxl.Workbook()
    fill(made.active)
    buffer = io.BytesIO()
    made.save(buffer)
    return buffer.getvalue()


def changed(data: bytes, part: str, change: Callable[[bytes], bytes]) -> bytes:
    """The workbook with one of its parts changed."""
    buffer = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(buffer, "w", zipfile.ZIP_DEFLATED) as new:
        for name in old.namelist():
            content = old.read(name)
            new.writestr(name, change(content) if name == part else content)
    return buffer.getvalue()


def rows(sheet: Sheet) -> list[tuple[Any, ...]]:
    return [row.cells for row in sheet.rows]


def notes(sheet: Sheet) -> list[tuple[int, int, str]]:
    matching = guess(sheet).matching
    made = plan(PROJECT, drafts_of(sheet, matching), matching, ImportTarget(KILN, TcpLine(name="hall", host="h")))
    return [(note.row, note.column, note.message) for note in made.notes]


def test_numbers_are_exact_and_texts_stay_texts() -> None:
    def fill(sheet: Any) -> None:
        sheet.append(["Name", "Register", "Factor", "Min", "Write"])
        sheet.append(["A", 40001, 0.1, -273.15, True])
        sheet.append(["B", "40002", "0,01", 1e21, False])

    assert rows(read_sheet(book(fill)))[1:] == [
        ("A", Decimal(40001), Decimal("0.1"), Decimal("-273.15"), True),
        ("B", "40002", "0,01", Decimal("1e21"), False),
    ]


def test_a_formula_counts_by_its_saved_result() -> None:
    def fill(sheet: Any) -> None:
        sheet.append(["Name", "Register"])
        sheet.append(["A", "=40000+1"])
        sheet.append(["B", "=40000+2"])

    def with_result(content: bytes) -> bytes:
        return content.replace(b"<f>40000+1</f><v />", b"<f>40000+1</f><v>40001</v>")

    data = changed(book(fill), "xl/worksheets/sheet1.xml", with_result)
    sheet = read_sheet(data)
    assert sheet.rows[1].cells[1] == Decimal(40001)
    assert isinstance(sheet.rows[2].cells[1], UnusableCell)
    assert "B3" in sheet.remarks[0]
    assert "without a saved result" in sheet.remarks[0]
    assert [(row, column) for row, column, _ in notes(sheet)] == [(3, 1)]


def test_cells_merged_downwards_count_for_each_row() -> None:
    def fill(sheet: Any) -> None:
        sheet.append(["Register list of the kiln"])
        sheet.append(["Device", "Name", "Register"])
        sheet.append(["kiln", "A", 1])
        sheet.append([None, "B", 2])
        sheet.append([None, "C", 3])
        sheet.merge_cells("A1:C1")
        sheet.merge_cells("A3:A5")

    sheet = read_sheet(book(fill))
    assert [row.cells[0] for row in sheet.rows[2:]] == ["kiln"] * 3
    assert sheet.remarks == ("Merged cells are used for each row they cover: A3:A5.",)


def test_a_date_is_no_range() -> None:
    def fill(sheet: Any) -> None:
        sheet.append(["Name", "Register", "Range"])
        sheet.append(["A", 1, datetime.date(2026, 10, 1)])
        sheet.append(["B", 2, datetime.time(10, 30)])
        sheet.append(["C", 3, "1-10"])

    found = notes(read_sheet(book(fill)))
    assert [(row, column) for row, column, _ in found] == [(2, 2), (3, 2)]
    assert "1-10 to dates; format the column as text" in found[0][2]


def test_an_error_is_named() -> None:
    def fill(sheet: Any) -> None:
        sheet.append(["Name", "Register"])
        sheet.append(["A", "#REF!"])

    found = notes(read_sheet(book(fill)))
    assert "#REF!" in found[0][2]


def test_a_bit_as_a_number_with_decimals_is_not_guessed() -> None:
    def fill(sheet: Any) -> None:
        sheet.append(["Name", "Register"])
        sheet.append(["A", 40001.1])

    assert "write a bit of a register as text" in notes(read_sheet(book(fill)))[0][2]


def test_rows_are_counted_as_the_sheet_counts_them() -> None:
    def fill(sheet: Any) -> None:
        sheet["B3"], sheet["C3"] = "Name", "Register"
        sheet["B7"], sheet["C7"] = "A", "bad"

    sheet = read_sheet(book(fill))
    assert [row.number for row in sheet.rows] == [3, 7]
    assert [(row, column) for row, column, _ in notes(sheet)] == [(7, 2)]


def test_visible_sheets_are_offered() -> None:
    made = openpyxl.Workbook()
    made.create_sheet("Register & Werte")
    made.create_sheet("hidden").sheet_state = "hidden"
    buffer = io.BytesIO()
    made.save(buffer)
    assert sheet_names(buffer.getvalue()) == ("Sheet", "Register & Werte")
    assert read_sheet(buffer.getvalue(), "Register & Werte").rows == ()
    with pytest.raises(CannotRead, match="no sheet Other"):
        read_sheet(buffer.getvalue(), "Other")


def simple(sheet: Any) -> None:
    sheet.append(["Name", "Register"])
    sheet.append(["A", 1])


@pytest.mark.parametrize("place", [b"XFD1048576", b"B1048576", b"XFD2", b"A4294967295", b"ZZZZ1"])
@pytest.mark.parametrize("quote", [b'"', b"'"])
def test_a_cell_far_outside_takes_no_memory(place: bytes, quote: bytes) -> None:
    def far(content: bytes) -> bytes:
        return content.replace(b'r="B2"', b"r=" + quote + place + quote)

    with pytest.raises(CannotRead, match="Delete cells far outside"):
        read_sheet(changed(book(simple), "xl/worksheets/sheet1.xml", far))


def test_a_packed_bomb_is_not_unpacked() -> None:
    def bomb(content: bytes) -> bytes:
        return content.replace(b"</sheetData>", b" " * (200 * 1024 * 1024) + b"</sheetData>")

    with pytest.raises(CannotRead, match="too large for a register list"):
        read_sheet(changed(book(simple), "xl/worksheets/sheet1.xml", bomb))


def test_damage_is_refused_in_words() -> None:
    data = book(simple)
    for cut in range(20, len(data), 397):
        with pytest.raises(CannotRead):
            read_sheet(data[:cut])
    for at in range(0, len(data), 211):
        damaged = data[:at] + bytes([data[at] ^ 0x55]) + data[at + 1 :]
        with contextlib.suppress(CannotRead):
            read_sheet(damaged)
    with pytest.raises(CannotRead, match="not an XLSX workbook"):
        read_sheet(changed(data, "xl/workbook.xml", lambda content: content[: len(content) // 2]))


def test_a_workbook_without_the_part_of_its_sheet_is_said_to_be_damaged() -> None:
    whole = book(lambda sheet: sheet.append(["Name", "Register"]))
    buffer = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(whole)) as old, zipfile.ZipFile(buffer, "w") as new:
        for name in old.namelist():
            if not name.startswith("xl/worksheets/"):
                new.writestr(name, old.read(name))
    with pytest.raises(CannotRead, match="sheet Sheet is missing"):
        read_sheet(buffer.getvalue())
