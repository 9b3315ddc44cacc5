"""Any signals, written as a list and read back; any bytes, taken for a list."""

from __future__ import annotations

import csv
import io
import json
import zipfile
from decimal import Decimal
from functools import cache
from typing import Any, get_args

from hypothesis import HealthCheck, given, settings, strategies as st

from app.exchange.column_mapping import Matching, guess
from app.exchange.import_plan import ImportPlan, ImportTarget, plan
from app.exchange.reading import ReadOptions, read, source
from app.exchange.row_parser import drafts_of
from app.exchange.sheet import CannotRead, Sheet
from app.exchange.sunspec import COLUMNS
from app.exchange.titles import TITLES
from app.exchange.writing import TextStyle, as_text, as_workbook
from app.project.drive_roles import DRIVE_VALUES
from app.project.model import Project
from app.project.references import problems_of_names
from app.project_file.files import load
from app.signals.encoding import ENCODINGS, has_word_order, is_integer, register_count
from app.signals.numbering import NotARegister, Table, documented_number
from projects import demo_path

NAMES = st.from_regex(r"[^\s\x00-\x1f\x7f](?:[^\x00-\x1f\x7f]{0,38}[^\s\x00-\x1f\x7f])?", fullmatch=True)
ODD_TEXTS = st.sampled_from(
    [
        "=1+1",
        "+x",
        "-5",
        "@a",
        '"',
        "a;b",
        "a,b",
        "0=x; 1=y",
        " x ",
        "\r\n",
        "a\nb",
        "_x0041_",
        "\x01",
        "\ufeff",
        "1.234",
    ]
)
TEXTS = st.one_of(st.text(st.characters(codec="utf-8"), max_size=20), ODD_TEXTS)
NUMBERS = st.one_of(
    st.integers(-(2**64), 2**64).map(Decimal),
    st.decimals(-10_000, 10_000, allow_nan=False, allow_infinity=False, places=3),
    st.sampled_from(
        [Decimal("0.1"), Decimal("1234567890.123456789"), Decimal("1E+20"), Decimal("-0"), Decimal("5.000")]
    ),
)
TABLES: tuple[Table, ...] = get_args(Table)
LANGUAGES = ("English", "Deutsch", "a: b")


DRIVE_ROLE = st.sampled_from([None, *DRIVE_VALUES])


def texts() -> st.SearchStrategy[dict[str, str]]:
    return st.dictionaries(st.integers(-100, 10**6).map(str) | st.sampled_from(["007", "otherwise"]), TEXTS, max_size=4)


@st.composite
def lists(draw: st.DrawFn) -> Project:
    """A project with signals of all kinds that can be found on the line."""
    numbering = draw(st.sampled_from(["from-0", "from-1", "prefixed"]))
    names = draw(st.lists(NAMES | ODD_TEXTS.filter(_is_name), unique=True, min_size=1, max_size=8))
    follower = draw(NAMES)
    signals: list[dict[str, Any]] = []
    words: list[tuple[str, int]] = []
    for name in names:
        shown: dict[str, Any] = {"name": name, **draw(_shown())}
        kind = draw(st.sampled_from(["register", "register", "bit", "held"]))
        if kind == "held":
            signals.append(shown | {"held": draw(NUMBERS)})
        elif kind == "bit" and words:
            of, bits = draw(st.sampled_from(words))
            write = draw(st.booleans())
            plays = draw(DRIVE_ROLE)
            bit = {"of": of, "number": draw(st.integers(0, bits - 1))}
            signals.append(shown | {"bit": bit, "write": write, "drive_role": plays})
        else:
            made = draw(_register(numbering))
            signals.append(shown | {"follower": follower, **made})
            if is_integer(made["encoding"]):
                words.append((name, 16 * register_count(made["encoding"])))
    return Project.model_validate(
        {
            "panel": {"start": "run", "languages": list(LANGUAGES)},
            "line": [{"name": "hall", "kind": "tcp", "host": "192.0.2.1"}],
            "follower": [{"name": follower, "line": "hall", "numbering": numbering}],
            "screen": [{"name": "run"}],
            "signal": signals,
        }
    )


def _is_name(text: str) -> bool:
    return text == text.strip() and text.isprintable()


def _shown() -> st.SearchStrategy[dict[str, Any]]:
    return st.fixed_dictionaries(
        {},
        optional={
            "unit": TEXTS.map(lambda text: text[:16]),
            "decimals": st.integers(0, 9),
            "limits": st.tuples(NUMBERS, NUMBERS).map(sorted),
            "step": NUMBERS.filter(lambda number: number > 0),
            "texts": texts(),
            "texts_in": st.dictionaries(st.sampled_from(LANGUAGES[1:]), texts(), max_size=2),
            "notes": TEXTS,
        },
    )


@st.composite
def _register(draw: st.DrawFn, numbering: Any) -> dict[str, Any]:
    table = draw(st.sampled_from(TABLES))
    encoding = draw(st.sampled_from(ENCODINGS)) if table in ("holding", "input") else "uint16"
    length = draw(st.integers(1, 125)) if encoding == "string" else None
    address = draw(st.integers(0, 65_536 - register_count(encoding, length)))
    try:
        number = documented_number(numbering, table, address)
    except NotARegister:
        number = documented_number(numbering, table, address % 9_000)
    pair = st.lists(NUMBERS, min_size=2, max_size=2, unique=True)
    more = st.fixed_dictionaries(
        {},
        optional={
            "scale": st.fixed_dictionaries({"raw": pair, "value": pair}),
            "write": st.booleans(),
            "every_ms": st.integers(10, 3_600_000),
            "refresh_ms": st.integers(0, 600_000),
            "hex": st.booleans(),
            "start_value": TEXTS if encoding == "string" else st.one_of(NUMBERS, TEXTS),
            "drive_role": DRIVE_ROLE,
        }
        | ({"word_order": st.sampled_from(["high-first", "low-first"])} if has_word_order(encoding) else {}),
    )
    return {"table": table, "register": number, "encoding": encoding, "length": length, **draw(more)}


def brought_in(project: Project, name: str, data: bytes) -> ImportPlan:
    sheet, _ = read(source(name, data), ReadOptions())
    matching = guess(sheet).matching
    return plan(project, drafts_of(sheet, matching), matching, ImportTarget(None, None))


def without_signals(project: Project) -> Project:
    return project.replace(signals=())


STYLES = st.sampled_from([(",", "."), (";", ","), (";", "."), ("\t", ","), ("\t", ".")])
SLOW = settings(max_examples=120, deadline=None, suppress_health_check=[HealthCheck.too_slow])


@SLOW
@given(lists(), STYLES, st.booleans())
def test_csv_comes_back_unchanged(project: Project, style: tuple[Any, Any], mark: bool) -> None:
    data = as_text(project.signals, TextStyle(*style, byte_order_mark=mark))
    comes = brought_in(without_signals(project), "list.csv", data)
    assert comes.notes == ()
    assert comes.edit(without_signals(project)).signals == project.signals


@SLOW
@given(lists())
def test_a_workbook_comes_back_unchanged(project: Project) -> None:
    comes = brought_in(without_signals(project), "list.xlsx", as_workbook(project.signals))
    assert comes.notes == ()
    assert comes.edit(without_signals(project)).signals == project.signals


# Bad files

EMPTY = Project.model_validate(
    {
        "panel": {"start": "run"},
        "line": [{"name": "hall", "kind": "tcp", "host": "192.0.2.1"}],
        "follower": [{"name": "kiln", "line": "hall"}],
        "screen": [{"name": "run"}],
    }
)
TARGET = ImportTarget(EMPTY.followers[0], EMPTY.lines[0], "rename")


def _sheet(name: str, data: bytes) -> Sheet | None:
    """The table in a file; None if it is refused, in words."""
    try:
        return read(source(name, data), ReadOptions())[0]
    except CannotRead:
        return None


def _taken_or_refused(name: str, data: bytes) -> None:
    """Whatever a file holds: it is refused in words, or each of its rows comes in or is noted."""
    sheet = _sheet(name, data)
    if sheet is None:
        return
    matching = guess(sheet).matching
    made = plan(EMPTY, drafts_of(sheet, matching), matching, TARGET)
    after = made.edit(EMPTY)
    assert problems_of_names(after) == []
    accounted = {incoming.row for incoming in made.incoming} | {note.row for note in made.notes}
    assert accounted == {row.number for row in matching.rows(sheet)}
    assert all(note.message for note in made.notes)


@settings(max_examples=200, deadline=None)
@given(st.binary(max_size=300))
def test_any_bytes_are_taken_or_refused(data: bytes) -> None:
    _taken_or_refused("list.csv", data)


# fmt: off
CELLS = st.one_of(
    st.sampled_from([
        "40001", "40001.3", "0x10", "1,5", "1.500", "-1", "1e9", "UINT", "float", "BOOL", "string(9)", "R/W", "no",
        "x0.1", "/10", "1/3", "0=off;1=on", "0..5", "holding", "FC03", "3", "kiln", "fan", "a", "b", "99", "65536", "-",
    ]),
    st.text(max_size=8),
)
# fmt: on
HEADINGS = st.sampled_from([*TITLES.values(), "Foo", "", "Adresse (hex)", "Typ", "Zugriff"])


@settings(max_examples=400, deadline=None)
@given(st.lists(HEADINGS, min_size=2, max_size=9), st.lists(st.lists(CELLS, max_size=9), max_size=8), st.booleans())
def test_any_table_is_taken_row_by_row(headings: list[str], rows: list[list[str]], titled: bool) -> None:
    buffer = io.StringIO(newline="")
    csv.writer(buffer).writerows([headings, *rows] if titled else rows)
    _taken_or_refused("list.csv", buffer.getvalue().encode("utf-8", "replace"))


@cache
def _workbook() -> bytes:
    return as_workbook(load(demo_path("booster-pump")).signals)


@settings(max_examples=150, deadline=None)
@given(st.data())
def test_a_damaged_workbook_is_taken_or_refused(data: st.DataObject) -> None:
    content = bytearray(_workbook())
    for _ in range(data.draw(st.integers(1, 5))):
        at = data.draw(st.integers(0, len(content) - 1))
        content[at] ^= data.draw(st.integers(1, 255))
    _taken_or_refused("list.xlsx", bytes(content))


# fmt: off
XML = st.sampled_from([
    b"<row", b"<c", b"</c>", b' r="B2"', b' r="ZZ9"', b' t="e"', b' t="s"', b' t="str"', b"<f>1</f>", b"<v>9</v>",
    b"<v/>", b"<mergeCell", b' s="99"', b"&amp;", b"&x;", b"<!--", b"]]>", b"\x00", b"\xff", b">", b"<", b'"',
])
PARTS = st.sampled_from(
    ["id", "group", "groups", "points", "name", "type", "size", "sf", "count", "symbols", "value"]
)
# fmt: on


@settings(max_examples=150, deadline=None)
@given(st.data())
def test_a_workbook_with_damaged_xml_is_taken_or_refused(data: st.DataObject) -> None:
    buffer = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(_workbook())) as old, zipfile.ZipFile(buffer, "w") as new:
        names = [name for name in old.namelist() if name.endswith(".xml") or name.endswith(".rels")]
        hit = data.draw(st.sampled_from(names))
        for name in old.namelist():
            content = old.read(name)
            if name == hit:
                at = data.draw(st.integers(0, len(content)))
                content = content[:at] + data.draw(XML) + content[at + data.draw(st.integers(0, 30)) :]
            new.writestr(name, content)
    _taken_or_refused("list.xlsx", buffer.getvalue())


JSON = st.recursive(
    st.one_of(st.none(), st.booleans(), st.integers(-5, 70_000), st.text(max_size=4)),
    lambda inside: st.one_of(
        st.lists(inside, max_size=3),
        st.dictionaries(
            PARTS,
            inside,
            max_size=5,
        ),
    ),
    max_leaves=15,
)


@settings(max_examples=300, deadline=None)
@given(JSON, JSON, st.lists(JSON, max_size=3))
def test_any_json_is_taken_or_refused(group: object, inner: object, points: list[object]) -> None:
    for root in (
        {"id": 1, "group": group},
        {"id": 1, "group": {"name": "m", "points": points, "groups": [inner]}},
        {"id": 1, "group": {"name": "m", "points": [{"name": "p", "type": "int16", "size": 1}, *points]}},
    ):
        data = json.dumps(root).encode()
        sheet = _sheet("model.json", data)
        if sheet is None:
            continue
        matching = Matching(COLUMNS, heading=1, mark=".", numbering="from-0")
        plan(EMPTY, drafts_of(sheet, matching), matching, TARGET).edit(EMPTY)
