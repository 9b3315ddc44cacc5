"""Any signals, written as a list and read back; any bytes, taken for a list."""

from __future__ import annotations

from decimal import Decimal
from typing import Any, get_args

from hypothesis import HealthCheck, given, settings, strategies as st

from app.exchange.joining import Plan, Target, plan
from app.exchange.matching import guess
from app.exchange.reading import Way, read, source
from app.exchange.rows import drafts_of
from app.exchange.writing import TextStyle, as_text, as_workbook
from app.project.model import Project
from app.signals.encoding import ENCODINGS, is_integer, register_count
from app.signals.numbering import NotARegister, Table, documented_number

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


def texts() -> st.SearchStrategy[dict[str, str]]:
    return st.dictionaries(st.integers(-100, 10**6).map(str) | st.just("007"), TEXTS, max_size=4)


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
            signals.append(shown | {"bit": {"of": of, "number": draw(st.integers(0, bits - 1))}, "write": write})
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
            "start_value": TEXTS if encoding == "string" else st.one_of(NUMBERS, TEXTS),
        },
    )
    return {"table": table, "register": number, "encoding": encoding, "length": length, **draw(more)}


def brought_in(project: Project, name: str, data: bytes) -> Plan:
    sheet, _ = read(source(name, data), Way())
    matching = guess(sheet).matching
    return plan(project, drafts_of(sheet, matching), matching, Target(None, None))


def without_signals(project: Project) -> Project:
    return project.but(signals=())


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
