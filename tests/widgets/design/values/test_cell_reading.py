"""Texts in cells made into signals, lines and followers; what cannot be taken is told by cell."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given, strategies as st
from PySide6.QtWidgets import QApplication

from app.project.model import Bit, BitSignal, HeldSignal, Project, RegisterSignal, Scale
from app.project.value_texts import read_scale, read_span, read_texts, scale_text, span_text, written_texts
from app.project_file.files import load
from projects import demo_path
from widgets.design.lines.cells import follower_columns, follower_reader, line_columns, line_reader
from widgets.design.signals.cells import signal_reader
from widgets.design.signals.columns import signal_columns
from widgets.design.values.cell_reading import BadCell, CellReader, RowOfTexts
from widgets.design.values.pasted_tables import cells_of, table_of, text_of

COLUMNS = signal_columns()
READER = signal_reader(COLUMNS)
PROJECT = load(demo_path("booster-pump"))
NAMES = [part.name for part in PROJECT.signals]


def place(name: str) -> int:
    return NAMES.index(name)


def put(name: str, key: str, text: str) -> Any:
    proposal = READER.propose(PROJECT, [RowOfTexts({key: text}, place(name), 1)])
    assert proposal.bad == []
    return proposal.edit("signal", PROJECT).signals[place(name)]


@pytest.mark.parametrize(
    ("name", "key", "text", "attribute", "value"),
    [
        ("command", "name", " control ", "name", "control"),
        ("command", "register", "0x10", "number", 16),
        ("command", "table", "in", "table", "input"),
        ("command", "encoding", "int16", "encoding", "int16"),
        ("command", "encoding", "float32", "encoding", "float32"),
        ("run time", "word_order", "low", "word_order", "low-first"),
        ("run time", "word_order", "high-first", "word_order", "high-first"),
        ("run time", "word_order", "", "word_order", None),
        ("command", "unit", "1/min", "unit", "1/min"),
        ("command", "decimals", "2", "decimals", 2),
        ("command", "limits", "0 to 50,5", "limits", (Decimal(0), Decimal("50.5"))),
        ("command", "limits", "", "limits", None),
        ("command", "write", "n", "write", False),
        ("command", "write", "X", "write", True),
        ("command", "step", "0,5", "step", Decimal("0.5")),
        ("command", "every_ms", "250", "every_ms", 250),
        ("command", "hex", "yes", "hex", True),
        ("command", "texts", '0 = off; 1 = "a;b"', "texts", {"0": "off", "1": "a;b"}),
        ("command", "drive_role", "output freq", "drive_role", "output-frequency"),
        ("command", "drive_role", "", "drive_role", None),
        ("running", "drive_role", "running", "drive_role", "running"),
        ("running", "register", "bit 7", "bit", Bit(of="status", number=7)),
        ("running", "from", "command", "bit", Bit(of="command", number=4)),
    ],
)
def test_a_text_in_a_cell(name: str, key: str, text: str, attribute: str, value: object) -> None:
    assert getattr(put(name, key, text), attribute) == value


@pytest.mark.parametrize(
    ("name", "key", "text", "words"),
    [
        ("command", "register", "31o", "'31o' is not a whole number"),
        ("command", "register", "", "enter a whole number"),
        ("command", "name", "status", "'status' already exists"),
        ("command", "name", "", "is empty"),
        ("command", "from", "punp", "'punp' is not one of these: pump"),
        ("command", "table", "coyl", "'coyl' is not one of these: holding, input, coil, discrete, bit, held"),
        ("command", "encoding", "int", "is ambiguous: int16, int32, int64"),
        ("command", "encoding", "string", "needs its length"),
        ("command", "encoding", "int16 3", "only a string has a length"),
        ("run time", "word_order", "sideways", "'sideways' is not one of these: high first"),
        ("command", "limits", "50 to 0", "the lower limit 50 is above the upper limit 0"),
        ("command", "limits", "50", "enter two numbers"),
        ("command", "limits", "0 to 1,500", "can mean 1.500 or 1500"),
        ("command", "decimals", "12", "must be at most 9, not 12"),
        ("command", "scale", "0 to 0 = 0 to 5", "the two raw numbers are equal"),
        ("command", "scale", "often", "enter two points"),
        ("command", "write", "perhaps", "enter yes or no"),
        ("command", "texts", "off, on", "enter a text per value"),
        ("command", "texts", "1 = a; 1 = b", "the value 1 already has a text"),
        ("command", "table", "bit", "a bit needs the signal that contains it"),
        ("command", "drive_role", "spead", "there is no 'spead'"),
        ("running", "drive_role", "current", "is not one of these: command: run, "),
        ("running", "from", "fault", "has no bits"),
        ("running", "from", "nobody", "signal 'nobody' does not exist"),
        ("running", "register", "64", "must be at most 63, not 64"),
    ],
)
def test_a_text_that_cannot_stand_in_a_cell(name: str, key: str, text: str, words: str) -> None:
    assert words in READER.refusal(PROJECT, place(name), key, text)


def test_a_row_of_another_kind_is_made_into_it() -> None:
    row = {"table": "bit", "from": "status", "register": "11"}
    proposal = READER.propose(PROJECT, [RowOfTexts(row, place("line lost after"), 1)])
    assert proposal.bad == []
    part = proposal.parts[place("line lost after")]
    assert part.bit == Bit(of="status", number=11)
    assert part.unit == "s", "what both kinds have is kept"


def test_new_rows_go_on_where_the_one_above_ends() -> None:
    proposal = READER.propose(
        PROJECT,
        [
            RowOfTexts({"name": "a", "register": "500", "encoding": "uint32"}, None, 1),
            RowOfTexts({"name": "b"}, None, 2),
            RowOfTexts({"name": "c", "table": "held"}, None, 3),
            RowOfTexts({"name": "d", "table": "bit", "from": "a", "register": "3"}, None, 4),
        ],
    )
    assert proposal.bad == []
    a, b, c, d = proposal.added
    assert (a.number, b.number, b.follower) == (500, 502, "pump")
    assert isinstance(c, HeldSignal)
    assert isinstance(d, BitSignal)
    after = proposal.edit("signal", PROJECT)
    assert [part.name for part in after.signals[-4:]] == ["a", "b", "c", "d"]


def test_bad_cells_are_told_and_the_rest_comes_in() -> None:
    proposal = READER.propose(
        PROJECT,
        [
            RowOfTexts({"register": "x", "unit": "Hz"}, place("command"), 1),
            RowOfTexts({"name": "command"}, place("status"), 2),
            RowOfTexts({"unit": "new", "register": "9"}, None, 3),
            RowOfTexts({"name": "status", "register": "9"}, None, 4),
            RowOfTexts({"name": "half", "register": "9", "decimals": "many"}, None, 5),
            RowOfTexts({"name": "fresh", "register": "9"}, None, 6),
        ],
    )
    assert [(cell.row, cell.column) for cell in proposal.bad] == [
        (1, "Register"),
        (3, "Name"),
        (5, "Dec."),
        (2, "Name"),
        (4, "Name"),
    ]
    assert [part.name for part in proposal.added] == ["fresh"]
    assert proposal.left_out == {3, 4, 5}
    assert list(proposal.parts) == [place("command")], "what stays as it was is no change"
    after = proposal.edit("signal", PROJECT)
    assert after.signals[place("command")].unit == "Hz"
    assert after.signals[place("status")].name == "status"
    assert isinstance(proposal.bad[0], BadCell)


@pytest.mark.parametrize(
    ("key", "text"),
    [("register", "abc"), ("encoding", "uint17"), ("table", "coyl"), ("from", "punp"), ("scale", "often")],
)
def test_nothing_is_made_up_for_a_new_row_with_a_bad_cell(key: str, text: str) -> None:
    row = {"name": "temp", "register": "500", "encoding": "int16", key: text}
    proposal = READER.propose(
        PROJECT, [RowOfTexts(row, None, 1), RowOfTexts({"name": "flow", "register": "7"}, None, 2)]
    )
    assert [(cell.row, cell.text) for cell in proposal.bad] == [(1, text)]
    assert [(part.name, part.number) for part in proposal.added] == [("flow", 7)]
    assert proposal.left_out == {1}


def test_a_bit_of_a_row_that_stays_out_stays_out_too() -> None:
    rows = [
        RowOfTexts({"name": "word", "register": "abc"}, None, 1),
        RowOfTexts({"name": "bit", "table": "bit", "from": "word", "register": "3"}, None, 2),
    ]
    proposal = READER.propose(PROJECT, rows)
    assert (proposal.added, proposal.left_out) == ([], {1, 2})


@pytest.mark.parametrize(
    ("reader", "texts"),
    [
        (line_reader(line_columns({})), {"name": "hall 9", "kind": "Modbus TCP", "where": "10.0.0.9:many"}),
        (follower_reader(follower_columns()), {"name": "fan 9", "unit": "many"}),
        (follower_reader(follower_columns()), {"name": "fan 9", "unit": "9", "line": "nowhere"}),
    ],
)
def test_no_line_or_follower_is_made_of_a_row_with_a_bad_cell(reader: CellReader, texts: dict[str, str]) -> None:
    proposal = reader.propose(PROJECT, [RowOfTexts(texts, None, 1)])
    assert len(proposal.bad) == 1
    assert (proposal.added, proposal.left_out) == ([], {1})


def test_a_row_whose_kind_cannot_be_is_left_as_it_is_and_says_so() -> None:
    proposal = READER.propose(
        PROJECT,
        [
            RowOfTexts({"table": "bit", "register": "3", "unit": "x"}, place("status"), 1),
            RowOfTexts({"register": "3"}, None, 2),
            RowOfTexts({"register": "3", "unit": "x"}, None, 3),
        ],
    )
    assert (proposal.parts, proposal.added) == ({}, [])
    assert [cell.reason for cell in proposal.bad] == [
        "a bit needs the signal that contains it; the row is not changed",
        "a new signal needs a name",
        "a new signal needs a name; the row is skipped",
    ]


def test_a_bit_of_nothing_is_told_by_its_cell() -> None:
    proposal = READER.propose(
        PROJECT,
        [
            RowOfTexts({"from": "statu", "unit": "x"}, place("running"), 1),
            RowOfTexts({"name": "a", "table": "bit", "from": "nobody at all"}, None, 2),
            RowOfTexts({"name": "b", "table": "bit", "from": "c"}, None, 3),
            RowOfTexts({"name": "c", "register": "7"}, None, 4),
        ],
    )
    assert [(cell.row, cell.column, cell.reason) for cell in proposal.bad] == [
        (1, "Device", "signal 'statu' does not exist; did you mean 'status'?"),
        (2, "Device", "signal 'nobody at all' does not exist"),
    ]
    after = proposal.edit("signal", PROJECT)
    assert after.signals[place("running")].unit == "x", "the rest of the row comes in"
    assert [part.name for part in after.signals[-2:]] == ["b", "c"]


NUMBERS = st.decimals(-(10**6), 10**6, allow_nan=False, allow_infinity=False, places=3)
PAIRS = st.tuples(NUMBERS, NUMBERS).filter(lambda pair: pair[0] != pair[1])
WORDS = st.text(st.characters(codec="utf-8", categories=("L", "N", "P", "S", "Zs")), max_size=10)


@given(PAIRS, PAIRS)
def test_scales_and_spans_are_read_as_they_are_shown(raw: Any, value: Any) -> None:
    scale = Scale(raw=raw, value=value)
    assert read_scale(scale_text(scale)) == scale
    factor = Scale(raw=(Decimal(0), Decimal(1)), value=value)
    assert read_scale(scale_text(factor)) == factor
    assert read_span(span_text(raw)) == raw


def test_scales_in_words() -> None:
    for text, raw, value in (
        ("x 0.1", (0, 1), (0, "0.1")),
        ("0,1", (0, 1), (0, "0.1")),
        ("* 2 - 40", (0, 1), (-40, -38)),
        ("/ 10", (0, 10), (0, 1)),
        ("0..4095 = 4..20", (0, 4095), (4, 20)),
    ):
        scale = read_scale(text)
        assert scale is not None
        assert scale.raw == tuple(Decimal(each) for each in raw)
        assert scale.value == tuple(Decimal(each) for each in value)


@given(st.dictionaries(st.integers(-99, 99).map(str) | st.just("otherwise"), WORDS, max_size=4))
def test_texts_are_read_as_they_are_shown(texts: dict[str, str]) -> None:
    assert read_texts(written_texts(texts)) == texts


SHOWN = {
    "unit": st.sampled_from(["", "Hz", "m/s"]),
    "decimals": st.integers(0, 4),
    "limits": st.none() | PAIRS.map(lambda pair: (min(pair), max(pair))),
    "step": st.none() | NUMBERS.filter(lambda number: number > 0),
    "texts": st.dictionaries(st.integers(-9, 9).map(str) | st.just("otherwise"), WORDS, max_size=3),
    "notes": WORDS,
}
SCALES = st.none() | st.tuples(PAIRS, PAIRS).map(lambda both: Scale(raw=both[0], value=both[1]))
KINDS = st.one_of(
    st.fixed_dictionaries(
        {
            **SHOWN,
            "follower": st.just("pump"),
            "table": st.sampled_from(["holding", "input"]),
            "number": st.integers(0, 65_535),
            "encoding": st.sampled_from(["uint16", "int32", "float32", "bcd16"]),
            "scale": SCALES,
            "write": st.booleans(),
            "every_ms": st.integers(10, 9999),
            "refresh_ms": st.integers(0, 999),
            "start_value": st.none() | NUMBERS,
        }
    ).map(lambda given: RegisterSignal.model_validate({"name": "x", **given})),
    st.fixed_dictionaries(
        {**SHOWN, "bit": st.integers(0, 15).map(lambda number: Bit(of="status", number=number)), "write": st.booleans()}
    ).map(lambda given: BitSignal.model_validate({"name": "x", **given})),
    st.fixed_dictionaries({**SHOWN, "held": NUMBERS}).map(
        lambda given: HeldSignal.model_validate({"name": "x", **given})
    ),
)


def with_signals(parts: list[Any]) -> Project:
    named = [part.replace(name=f"new {number}") for number, part in enumerate(parts)]
    return PROJECT.replace(signals=(*PROJECT.signals, *named))


@given(st.lists(KINDS, min_size=1, max_size=5), st.booleans())
def test_copied_and_pasted_it_is_the_same_table(parts: list[Any], headed: bool) -> None:
    project = with_signals(parts)
    new = project.signals[len(PROJECT.signals) :]
    columns = [column for column in COLUMNS if column.read is not None]
    rows = [[column.edit_text(project, part) for column in columns] for part in new]
    if headed:
        rows.insert(0, [column.title for column in columns])
    table = table_of(cells_of(text_of(rows)), COLUMNS)
    assert table.headed is headed
    # As new rows into a project without them, and over themselves.
    proposal = READER.propose(PROJECT, [RowOfTexts(row, None, 1) for row in table.rows])
    assert proposal.bad == []
    assert tuple(proposal.added) == new
    start = len(PROJECT.signals)
    again = READER.propose(project, [RowOfTexts(row, start + n, 1) for n, row in enumerate(table.rows)])
    assert (again.bad, again.parts, again.added) == ([], {}, [])


def test_lines_and_followers_in_cells(qapp: QApplication) -> None:
    del qapp
    project = load(demo_path("drying-hall"))
    lines = line_reader(line_columns({}))
    for line_place, line in enumerate(project.lines):
        new = {"where": "COM7 9600 8N2" if hasattr(line, "device") else "10.0.0.9:1502", "timeout_ms": "250 ms"}
        proposal = lines.propose(project, [RowOfTexts(new, line_place, 1)])
        assert proposal.bad == []
        part = proposal.parts[line_place]
        assert part.timeout_ms == 250
        if hasattr(part, "device"):
            assert (part.device, part.baud, part.parity, part.stop_bits) == ("COM7", 9600, "none", 2)
        else:
            assert (part.host, part.port) == ("10.0.0.9", 1502)
    other = lines.propose(project, [RowOfTexts({"name": "second", "kind": "serial", "where": "COM1"}, None, 1)])
    assert other.bad == []
    assert other.added[0].device == "COM1"
    followers = follower_reader(follower_columns())
    assert "is not a unit address; use 1 to 247" in followers.refusal(project, 0, "unit", "248")
    assert "not one of these" in followers.refusal(project, 0, "line", "nowhere")
    proposal = followers.propose(project, [RowOfTexts({"name": "spare", "unit": "77", "simulate": "drive"}, None, 1)])
    assert (proposal.added[0].unit, proposal.added[0].simulate) == (77, "drive")
