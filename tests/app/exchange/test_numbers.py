"""Numbers as people write them."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given, strategies as st

from app.exchange.numbers import RegisterText, factor, register_text
from app.language import DecimalMark
from app.signals.numbers import MarkFound, NotANumber, find_mark, number, span, whole_number


@pytest.mark.parametrize(
    ("texts", "mark"),
    [
        (["1", "20"], None),
        (["0.1"], "."),
        (["0,1"], ","),
        (["1,234"], None),
        (["1.234"], None),
        (["1.234", "0,5"], ","),
        (["1,234.5"], "."),
        (["1.234,5"], ","),
        (["1.234.567"], ","),
        (["1,234,567"], "."),
        (["12.3456"], "."),
        (["0.125"], "."),
        (["x0,1", "-"], None),
    ],
)
def test_the_decimal_mark_is_told_by_what_cannot_be_read_otherwise(texts: list[str], mark: DecimalMark | None) -> None:
    assert find_mark(texts).mark == mark


def test_a_file_that_mixes_marks_is_told() -> None:
    assert find_mark(["0.5", "7", "0,5"]) == MarkFound(".", "0.5", "0,5")


@pytest.mark.parametrize(
    ("text", "mark", "value"),
    [
        ("1,500", ".", "1500"),
        ("1,500", ",", "1.500"),
        ("1.234.567,5", ",", "1234567.5"),
        ("1 234,5", ",", "1234.5"),
        ("1'234.5", ".", "1234.5"),
        ("\u22125", ".", "-5"),
        ("+.5", ".", "0.5"),
        ("1e-3", ".", "0.001"),
        ("007", None, "7"),
        ("2.5", None, "2.5"),
    ],
)
def test_numbers(text: str, mark: DecimalMark | None, value: str) -> None:
    assert number(text, mark) == Decimal(value)


@pytest.mark.parametrize(
    ("text", "mark", "words"),
    [
        ("abc", ".", "not a number"),
        ("1,23", ".", "not a number with a decimal point"),
        ("1.23", ",", "not a number with a decimal comma"),
        ("1,500", None, "can mean 1.500 or 1500"),
        ("9" * 60, None, "too many digits"),
        ("1e999", None, "too many digits"),
        ("nan", None, "not a number"),
        ("", None, "not a number"),
    ],
)
def test_what_is_no_number_is_said(text: str, mark: DecimalMark | None, words: str) -> None:
    with pytest.raises(NotANumber, match=words):
        number(text, mark)


@given(st.decimals(-(10**9), 10**9, allow_nan=False, allow_infinity=False, places=4), st.sampled_from([".", ","]))
def test_what_is_written_with_a_mark_is_read_with_it(value: Decimal, mark: DecimalMark) -> None:
    assert number(f"{value:f}".replace(".", mark), mark) == value


@pytest.mark.parametrize(("text", "value"), [("0x1F", 31), ("1Fh", 31), ("16#1F", 31), ("1,000", 1000), ("5.0", 5)])
def test_whole_numbers(text: str, value: int) -> None:
    assert whole_number(text, ".") == value


@pytest.mark.parametrize(
    ("text", "register"),
    [
        ("310", RegisterText(310)),
        ("40 001", RegisterText(40_001)),
        ("4x0001", RegisterText(40_001)),
        ("4x00001", RegisterText(400_001)),
        ("3x17", RegisterText(30_017)),
        ("0x9C41", RegisterText(0x9C41)),
        ("0x11", RegisterText(17)),  # as in C, also where all digits could be decimal
        ("0x0136", RegisterText(310)),
        ("9C41h", RegisterText(0x9C41)),
        ("16#136", RegisterText(310)),
        ("%MW310", RegisterText(310)),
        ("40003-40004", RegisterText(40_003, 40_004)),
        ("40003 \u2013 40006", RegisterText(40_003, 40_006)),
        ("100...101", RegisterText(100, 101)),
        ("100/101", RegisterText(100, 101)),
        ("100, 101, 102", RegisterText(100, 102)),
        ("40001.3", RegisterText(40_001, bit=3)),
        ("40001:15", RegisterText(40_001, bit=15)),
        ("40001.bit 2", RegisterText(40_001, bit=2)),
    ],
)
def test_registers(text: str, register: RegisterText) -> None:
    assert register_text(text) == register


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("4000x", "not a register number"),
        ("9C41", "set this above, or write 0x9C41"),
        ("40.001", "thousands separator"),
        ("200-100", "not a register number"),
        ("-5", "not a register number"),
        ("", "not a register number"),
    ],
)
def test_what_is_no_register_is_said(text: str, words: str) -> None:
    with pytest.raises(NotANumber, match=words):
        register_text(text)


def test_a_coil_may_be_written_with_its_table() -> None:
    # Common practice, no source: 0x00017 is coil 17 in a list of coils, as 4x00017 is a holding register.
    assert register_text("0x0017", coil=True) == RegisterText(17)
    assert register_text("0x17", coil=True) == RegisterText(0x17)
    assert register_text("0x0017", coil=True, hexadecimal=True) == RegisterText(0x17)


def test_hexadecimal_columns() -> None:
    assert register_text("9C41", hexadecimal=True) == RegisterText(0x9C41)
    assert register_text("10", hexadecimal=True) == RegisterText(16)


@pytest.mark.parametrize(
    ("text", "value", "unit"),
    [
        ("0.1", Fraction(1, 10), ""),
        ("x0.1", Fraction(1, 10), ""),
        ("\u00d7 0.1", Fraction(1, 10), ""),
        ("*10", Fraction(10), ""),
        ("/10", Fraction(1, 10), ""),
        ("1/3", Fraction(1, 3), ""),
        (":100", Fraction(1, 100), ""),
        ("10^-2", Fraction(1, 100), ""),
        ("x10^(2)", Fraction(100), ""),
        ("1E-1", Fraction(1, 10), ""),
        ("0.1 Hz", Fraction(1, 10), "Hz"),
        ("0.5 \u00b0C", Fraction(1, 2), "\u00b0C"),
        ("-1", Fraction(-1), ""),
    ],
)
def test_factors(text: str, value: Fraction, unit: str) -> None:
    assert factor(text, ".") == (value, unit)


@pytest.mark.parametrize("text", ["0", "/0", "abc", "1/0", "10^99", "", "1..2"])
def test_what_is_no_factor_is_said(text: str) -> None:
    with pytest.raises(NotANumber):
        factor(text, ".")


@pytest.mark.parametrize(
    ("text", "ends"),
    [
        ("0..50", ("0", "50")),
        ("0 ... 50", ("0", "50")),
        ("-10 to +10", ("-10", "10")),
        ("-10--5", ("-10", "-5")),
        ("0 - 100 %", ("0", "100")),
        ("[0; 100]", ("0", "100")),
        ("0,5 bis 1,5", ("0.5", "1.5")),
    ],
)
def test_limits(text: str, ends: tuple[str, str]) -> None:
    assert span(text, lambda part: number(part, "," if "," in text else ".")) == tuple(map(Decimal, ends))


@pytest.mark.parametrize("text", ["50", "", "a..b", "0=off"])
def test_what_are_no_limits_is_said(text: str) -> None:
    with pytest.raises(NotANumber):
        span(text, lambda part: number(part, "."))
