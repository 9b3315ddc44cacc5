"""What is typed into a row, read as a value."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

import pytest
from hypothesis import given, strategies as st

from app import language
from app.signals.typed import number, optional_number, pair, plain, whole


@pytest.mark.parametrize(
    ("text", "value"), [("7", 7), (" -3 ", -3), ("\N{MINUS SIGN}3", -3), ("0x1F", 31), ("1Fh", 31)]
)
def test_whole_numbers(text: str, value: int) -> None:
    assert whole(text) == value


@pytest.mark.parametrize("text", ["", " ", "3.5", "31o", "0x", "--1", "1e3"])
def test_no_whole_numbers(text: str) -> None:
    with pytest.raises(ValueError, match="whole number"):
        whole(text)


@pytest.mark.parametrize(
    ("text", "value"),
    [("5.", "5"), ("2,5", "2.5"), ("-0.10", "-0.10"), ("1e3", "1E+3"), ("1,000.5", "1000.5"), ("47Fh", "1151")],
)
def test_numbers_are_kept_exactly(text: str, value: str) -> None:
    assert number(text) == Decimal(value)


@pytest.mark.parametrize("text", ["", "abc", "nan", "inf", "1_000", "1 0", "1..2"])
def test_no_numbers(text: str) -> None:
    with pytest.raises(ValueError, match="number"):
        number(text)


@given(st.decimals(allow_nan=False, allow_infinity=False, places=6, min_value=-(10**9), max_value=10**9))
def test_a_number_shown_is_read_back(value: Decimal) -> None:
    assert number(plain(value)) == value


def test_pairs_and_optional_numbers() -> None:
    assert pair(("", " ")) is None
    assert pair(("1", "2")) == (Decimal(1), Decimal(2))
    with pytest.raises(ValueError, match="both"):
        pair(("1", ""))
    assert optional_number(" ") is None


def test_plain_is_what_a_person_types() -> None:
    assert plain(None) == ""
    assert plain(Decimal("1E+3")) == "1000"
    assert plain(("left", "right")) == "left, right"


@pytest.fixture
def comma() -> Iterator[None]:
    language.speak(None, ",")
    yield
    language.speak(None)


@pytest.mark.usefixtures("comma")
def test_where_numbers_have_a_comma_they_are_shown_so_and_read_so() -> None:
    assert (plain(Decimal("41.65")), plain(7), plain(("a.b", "c"))) == ("41,65", "7", "a.b, c")
    for text, value in (("1,500", "1.500"), ("41,65", "41.65"), ("41.65", "41.65"), ("1.000,5", "1000.5")):
        assert number(text) == Decimal(value)
    with pytest.raises(ValueError, match="1,500 or 1500"):
        number("1.500")
