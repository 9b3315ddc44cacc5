"""Whatever the registers, the scales and the widths are: there and back leads home, and nothing is cut."""

from __future__ import annotations

import struct
from fractions import Fraction

import pytest
from hypothesis import assume, example, given, strategies as st

from app.signals.encoding import (
    ENCODINGS,
    EncodingName,
    Implausible,
    OutOfRange,
    decode,
    encode,
    exact,
    is_float,
    raw_range,
    register_count,
)
from app.signals.numbering import NotARegister, documented_number, wire_address
from app.signals.order import WordOrder
from app.signals.scaling import StraightLine, round_half_away
from app.signals.text import bar_text, choice_text, number_text, number_width

NUMERIC: list[EncodingName] = [name for name in ENCODINGS if name != "string"]

orders = st.sampled_from(["high-first", "low-first"])
numeric = st.sampled_from(NUMERIC)
words = st.lists(st.integers(0, 0xFFFF), min_size=4, max_size=4)
fractions = st.fractions(min_value=-(10**12), max_value=10**12, max_denominator=10**6)


@given(numeric, words, orders, orders)
def test_registers_survive_decoding_and_encoding(
    encoding: EncodingName, registers: list[int], word_order: WordOrder, byte_order: WordOrder
) -> None:
    registers = registers[: register_count(encoding)]
    try:
        raw = decode(encoding, registers, word_order, byte_order)
    except Implausible:
        assert is_float(encoding) or encoding.startswith("bcd")
        return
    assert not isinstance(raw, str)
    assert encode(encoding, raw, word_order, byte_order) == tuple(registers)
    through_decimal = encode(encoding, exact(encoding, raw), word_order, byte_order)
    if raw != 0:  # minus zero has no decimal of its own
        assert through_decimal == tuple(registers)


@given(numeric, st.integers() | fractions, orders, orders)
def test_what_is_encoded_reads_the_same_and_what_does_not_fit_is_refused(
    encoding: EncodingName, number: int | Fraction, word_order: WordOrder, byte_order: WordOrder
) -> None:
    least, greatest = raw_range(encoding)
    try:
        registers = encode(encoding, number, word_order, byte_order)
    except OutOfRange:
        assert not least <= number <= greatest or (not is_float(encoding) and number != int(number))
        return
    raw = decode(encoding, registers, word_order, byte_order)
    assert not isinstance(raw, str)
    if is_float(encoding):
        assert abs(Fraction(raw) - number) <= abs(Fraction(number)) / 2**23
    else:
        assert raw == number


@given(st.text(st.characters(codec="latin-1", exclude_characters="\0"), max_size=40), orders, st.integers(0, 5))
def test_texts_survive_but_for_blanks_behind_them(text: str, byte_order: WordOrder, spare: int) -> None:
    length = max(1, (len(text) + 1) // 2) + spare
    registers = encode("string", text, "low-first", byte_order, length)
    assert len(registers) == length
    assert decode("string", registers, "low-first", byte_order) == text.rstrip(" ")


@given(st.binary(max_size=250).filter(lambda data: len(data) % 2 == 0))
def test_any_bytes_read_as_some_text_without_nul(data: bytes) -> None:
    text = decode("string", struct.unpack(f">{len(data) // 2}H", data))
    assert isinstance(text, str)
    assert "\0" not in text
    assert not text.endswith(" ")


@given(fractions, fractions, fractions, fractions, st.integers(-(2**63), 2**64) | fractions)
def test_a_line_leads_home(
    raw0: Fraction, raw1: Fraction, value0: Fraction, value1: Fraction, raw: int | Fraction
) -> None:
    assume(raw0 != raw1)
    assume(value0 != value1)
    line = StraightLine(raw0, raw1, value0, value1)
    assert line.raw(line.value(raw)) == raw
    assert line.value(raw0) == value0
    assert line.value(raw1) == value1
    assert (line.value(raw0 + 1) - line.value(raw0)) == line.slope


@given(fractions, st.integers(0, 9))
@example(Fraction("41.65"), 1)
def test_rounding_is_symmetric_and_within_half_a_unit(number: Fraction, decimals: int) -> None:
    rounded = round_half_away(number, decimals)
    unit = Fraction(1, 10**decimals)
    assert (rounded / unit).denominator == 1
    assert abs(rounded - number) <= unit / 2
    assert round_half_away(-number, decimals) == -rounded
    if abs(rounded - number) == unit / 2:
        assert abs(rounded) > abs(number)


@given(fractions, st.integers(1, 20), st.integers(0, 9))
def test_a_shown_number_is_whole_or_not_there(number: Fraction, width: int, decimals: int) -> None:
    text = number_text(number, width, decimals)
    assert len(text) == width
    if number_width(number, decimals) > width:
        assert text == "#" * width
        return
    assert Fraction(text.strip()) == round_half_away(number, decimals)
    assert ("-" in text) == (round_half_away(number, decimals) < 0)


@given(fractions, fractions, fractions, st.integers(0, 9))
def test_no_value_between_two_others_needs_more_room(a: Fraction, b: Fraction, c: Fraction, decimals: int) -> None:
    least, between, greatest = sorted((a, b, c))
    assert number_width(between, decimals) <= max(number_width(least, decimals), number_width(greatest, decimals))


@given(fractions, fractions, fractions, st.integers(1, 40))
def test_bars_and_texts_keep_their_width(value: Fraction, low: Fraction, high: Fraction, width: int) -> None:
    bar = bar_text(value, low, high, width)
    assert len(bar) == width
    if low != high:
        assert (">" in bar) == ((value - low) / (high - low) > 1)
        assert ("<" in bar) == ((value - low) / (high - low) < 0)
    assert len(choice_text(str(value), width)) == width


@given(
    st.sampled_from(["from-0", "from-1", "prefixed"]),
    st.sampled_from(["coil", "discrete", "holding", "input"]),
    st.integers(-10, 1_000_000),
)
def test_a_number_is_an_address_or_refused_and_leads_back(numbering: str, table: str, number: int) -> None:
    try:
        address = wire_address(numbering, table, number)  # type: ignore[arg-type]
    except NotARegister:
        assert number <= 0 or number > 65_535 or numbering == "prefixed"
        return
    assert 0 <= address <= 65_535
    six = number >= 100_000
    assert documented_number(numbering, table, address, 6 if six else 5) == number  # type: ignore[arg-type]


def test_the_strategies_reach_every_encoding() -> None:
    assert set(NUMERIC) | {"string"} == set(ENCODINGS)
    with pytest.raises(ValueError):
        register_count("string")
