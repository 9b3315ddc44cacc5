"""Text with separators: which characters, which separator, and what is said where that is not plain."""

from __future__ import annotations

import pytest

from app.exchange.delimited import TextWay, read_text
from app.exchange.sheet import MOST_COLUMNS, MOST_ROWS, CannotRead, Progress, Stopped

ROWS = [["Name", "Register", "Einheit"], ["Temperatur außen", "1", "°C"], ["Größe", "2", "m³"]]


def joined(separator: str) -> str:
    return "\r\n".join(separator.join(row) for row in ROWS) + "\r\n"


def cells(data: bytes, way: TextWay | None = None) -> list[list[object]]:
    sheet, _ = read_text(data, way or TextWay())
    return [list(row.cells) for row in sheet.rows]


@pytest.mark.parametrize("separator", [",", ";", "\t", "|"])
@pytest.mark.parametrize("coding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "latin-1", "cp1252"])
def test_separator_and_characters_are_found(separator: str, coding: str) -> None:
    assert cells(joined(separator).encode(coding)) == ROWS


def test_what_is_not_utf_8_is_said() -> None:
    sheet, way = read_text(joined(",").encode("cp1252"))
    assert way.coding == "cp1252"
    assert "not UTF-8" in sheet.remarks[0]
    assert "ß" in sheet.remarks[0]
    assert read_text(joined(",").encode())[0].remarks == ()


def test_another_coding_is_obeyed_and_holes_are_shown() -> None:
    assert cells(joined(",").encode("cp850"), TextWay(coding="cp850")) == ROWS
    sheet, _ = read_text(joined(",").encode("cp850"), TextWay(coding="utf-8"))
    assert "Line 2" in sheet.remarks[0]
    assert "\ufffd" in str(sheet.rows[1].cells[0])


def test_rows_are_counted_as_a_spreadsheet_counts_them() -> None:
    sheet, _ = read_text(b'Name,Register\n\n"two\nlines",1\nA,2\n,\n')
    assert [(row.number, row.cells[0]) for row in sheet.rows] == [(1, "Name"), (3, "two\nlines"), (4, "A")]


def test_a_declared_separator_counts_as_a_row() -> None:
    sheet, way = read_text(b"sep=|\nName|Register\nA,B|2\n")
    assert way.separator == "|"
    assert [(row.number, row.cells) for row in sheet.rows] == [(2, ("Name", "Register")), (3, ("A,B", "2"))]


def test_titles_decide_between_separators() -> None:
    # More commas than semicolons, but the titles are known by the semicolons.
    assert cells(b"Name;Register;Min\nA, B, C;1;0,5\nD, E, F;2;1,5\n")[1] == ["A, B, C", "1", "0,5"]


def test_a_quotation_mark_that_is_never_closed_loses_nothing() -> None:
    sheet, _ = read_text(b'Name,Register\nA,1\n"B,2\nC,3\n')
    assert [row.cells for row in sheet.rows] == [("Name", "Register"), ("A", "1"), ('"B', "2"), ("C", "3")]
    assert "never closed" in sheet.remarks[0]


def test_quotation_marks_within_a_text_are_told() -> None:
    sheet, _ = read_text(b'Name,Register\n"A" x,1\n')
    assert sheet.rows[1].cells[1] == "1"
    assert "row 2" in sheet.remarks[0]


@pytest.mark.parametrize("data", [bytes(range(256)) * 4, b"\x00\x01" * 500, b"ELF\x00\x00\x00\x01\x02\x03\x04\x05"])
def test_what_is_no_text_is_refused(data: bytes) -> None:
    with pytest.raises(CannotRead, match="neither a text"):
        read_text(data)


def test_sizes_are_bounded() -> None:
    with pytest.raises(CannotRead, match="split the file"):
        read_text(b"1,2\n" * (MOST_ROWS + 1))
    with pytest.raises(CannotRead, match="Is the separator right"):
        read_text(b"," * (MOST_COLUMNS + 1))


def test_reading_is_stopped() -> None:
    def stop(_part: float) -> None:
        raise Stopped

    progress: Progress = stop
    with pytest.raises(Stopped):
        read_text(b"1,2\n" * 5_000, TextWay(), progress)
