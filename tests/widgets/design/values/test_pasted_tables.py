"""Tables on the clipboard: cells, headings, and numbers with commas that must not become others."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from widgets.design.signals.columns import signal_columns
from widgets.design.values.pasted_tables import cells_of, decimal_mark, plain_numbers, table_of, text_of

CELL = st.text(st.characters(codec="utf-8", exclude_characters="\r\x00"), max_size=12)


@given(st.integers(1, 5).flatmap(lambda width: st.lists(st.lists(CELL, min_size=width, max_size=width), max_size=6)))
def test_what_is_copied_is_read_back(rows: list[list[str]]) -> None:
    assert cells_of(text_of(rows)) == rows


def test_empty_cells_at_the_end_of_a_column_are_cells() -> None:
    assert cells_of("s\n\n\n") == [["s"], [""], [""]]
    assert cells_of("a\tb\n\n") == [["a", "b"]]
    assert cells_of("") == []


def test_cells_with_tabs_and_ends_of_lines_in_quotes() -> None:
    assert cells_of('a\t"b\nc"\r\n"say ""x"""\td\r\n\r\n') == [["a", "b\nc"], ['say "x"', "d"]]


@pytest.mark.parametrize(
    ("text", "others", "plain"),
    [
        ("1,5", [], "1.5"),
        ("-0,25 to 3,5", [], "-0.25 to 3.5"),
        ("1.5", [], "1.5"),
        ("1,500", ["2,25"], "1.500"),
        ("1,500", ["2.25"], "1500"),
        ("1.234,5", [], "1234.5"),
        ("1,234.5", [], "1234.5"),
        ("1'234.5", [], "1234.5"),
        ("1 234,5", [], "1234.5"),
        ("0,500", [], "0.500"),
        ("1.500", [], "1.500"),
        ("0 to 10000 = 0 to 50,0", [], "0 to 10000 = 0 to 50.0"),
        ("310", ["1,5"], "310"),
        ("x 0,1 + 5", [], "x 0.1 + 5"),
    ],
)
def test_numbers_as_they_are_meant(text: str, others: list[str], plain: str) -> None:
    assert plain_numbers(text, decimal_mark([text, *others])) == plain


@pytest.mark.parametrize(("text", "others"), [("1,500", []), ("1.500", ["2,25"]), ("12,000", ["1.5", "2,5"])])
def test_numbers_that_can_mean_two_are_told(text: str, others: list[str]) -> None:
    with pytest.raises(ValueError, match="can mean"):
        plain_numbers(text, decimal_mark([text, *others]))


@given(st.decimals(-(10**9), 10**9, allow_nan=False, allow_infinity=False, places=2), st.sampled_from([",", "."]))
def test_no_number_ever_becomes_another(value: object, mark: str) -> None:
    text = f"{value:f}".replace(".", mark)
    assert plain_numbers(text, decimal_mark([text])) == f"{value:f}"


def test_columns_by_their_headings() -> None:
    columns = signal_columns()
    table = table_of([["Unit", "NAME", "colour", "Address"], ["Hz", "speed", "red", "310"]], columns, at=3)
    assert table.headed
    assert table.rows == ({"unit": "Hz", "name": "speed", "register": "310"},)
    assert table.unknown == ("colour",)
    assert table.first == 2


def test_columns_by_their_order_leave_out_what_is_not_edited() -> None:
    columns = signal_columns()
    at = [column.key for column in columns].index("write")
    table = table_of([["yes", "run", "high first"], ["no"]], columns, at)
    assert not table.headed
    assert table.rows == ({"write": "yes", "drive_role": "run", "word_order": "high first"}, {"write": "no"})
    hidden = [number for number, column in enumerate(columns) if column.seldom]
    few = table_of([["yes", "run", "high first"]], columns, at, hidden)
    assert few.rows == ({"write": "yes", "drive_role": "run"},), "what is not in sight takes nothing unseen"
    assert few.unknown == ("columns beyond the last one: 1",)
    wide = table_of([["x"] * 30], columns, 0)
    assert wide.unknown == ("columns beyond the last one: 11",)


def test_columns_by_what_lists_usually_call_them() -> None:
    table = table_of(
        [["Bezeichnung", "Adresse", "Datentyp", "Einheit"], ["Drehzahl", "310", "int16", "Hz"]], signal_columns()
    )
    assert table.rows == ({"name": "Drehzahl", "register": "310", "encoding": "int16", "unit": "Hz"},)
    assert not table_of([["Mode"], ["Speed"]], signal_columns()).headed, "one word alone may be a name"
    assert not table_of([["Name", "Unit"]], signal_columns()).headed, "headings over nothing are no headings"


def test_a_value_that_is_also_a_heading_is_no_heading() -> None:
    table = table_of([["unit", "holding", "310"], ["b", "input", "3"]], signal_columns(), 0)
    assert not table.headed
    assert len(table.rows) == 2
