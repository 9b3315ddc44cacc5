"""Exports: a column for each key that a signal has, and nothing that a spreadsheet would calculate."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import openpyxl
import pytest

from app.exchange.listing import COLUMNS, titles
from app.exchange.writing import CannotWrite, TextStyle, as_text, as_workbook, write_file
from app.project.model import BitSignal, HeldSignal, RegisterSignal
from app.project_file.layout import LAYOUTS

FORMULAS = ("=1+1", "+x", "-y", "@a")
SIGNALS = tuple(
    RegisterSignal(name=text, follower="kiln", number=at, unit=text, notes=text) for at, text in enumerate(FORMULAS)
)


def test_every_key_of_a_signal_has_its_column() -> None:
    keys = {key for model in (RegisterSignal, BitSignal, HeldSignal) for key in LAYOUTS[model].keys}
    several = {
        "scale": {"raw_1", "raw_2", "value_1", "value_2"},
        "limits": {"lower", "upper"},
        "bit": {"bit", "bit_of"},
    }
    assert set().union(*(several.get(key, {key}) for key in keys)) == set(COLUMNS)


def test_no_cell_of_a_text_begins_as_a_formula() -> None:
    rows = list(csv.reader(io.StringIO(as_text(SIGNALS).decode("utf-8-sig"))))
    for row in rows[1:]:
        assert not any(cell.startswith(("=", "+", "-", "@")) for cell in row)


def test_no_cell_of_a_workbook_is_a_formula() -> None:
    sheet = openpyxl.load_workbook(io.BytesIO(as_workbook(SIGNALS))).active
    assert sheet is not None
    rows = list(sheet.iter_rows())
    assert [cell.value for cell in rows[0]] == list(titles())
    assert [row[0].value for row in rows[1:]] == list(FORMULAS)
    assert not any(cell.data_type == "f" for row in rows for cell in row)
    assert sheet.freeze_panes == "B2"
    assert {row[3].data_type for row in rows[1:]} == {"n"}


def test_a_text_too_long_for_a_cell_is_refused_by_name() -> None:
    long = HeldSignal.model_validate({"name": "long", "held": 0, "notes": "x" * 40_000})
    with pytest.raises(CannotWrite, match="'long' has a text of more than 32767"):
        as_workbook([long])
    assert b"x" * 40_000 in as_text([long])


def test_the_byte_order_mark_is_a_choice() -> None:
    assert as_text(SIGNALS).startswith(b"\xef\xbb\xbf")
    assert not as_text(SIGNALS, TextStyle(byte_order_mark=False)).startswith(b"\xef\xbb\xbf")


def test_a_file_is_replaced_in_one_step(tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    write_file(path, b"first")
    write_file(path, b"second")
    assert path.read_bytes() == b"second"
    with pytest.raises(CannotWrite, match="there is no folder"):
        write_file(tmp_path / "none" / "list.csv", b"x")
    assert [each.name for each in tmp_path.iterdir()] == ["list.csv"]
