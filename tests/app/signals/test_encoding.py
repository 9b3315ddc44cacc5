"""Every encoding in every arrangement: what it reads, what it writes, what it refuses."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Any

import pytest

from app.signals.encoding import (
    ENCODINGS,
    EncodingName,
    Implausible,
    OutOfRange,
    bit_place,
    decode,
    encode,
    exact,
    is_float,
    is_integer,
    is_text,
    raw_range,
    register_count,
)
from app.signals.order import WordOrder
from app.signals.reading import Raw

PLAIN: list[tuple[EncodingName, tuple[int, ...], Raw]] = [
    ("uint16", (0xFFFF,), 65_535),
    ("int16", (0xFFFF,), -1),
    ("int16", (0x8000,), -32_768),
    ("uint32", (0x0001, 0x0002), 65_538),
    ("int32", (0xFFFF, 0xFFFE), -2),
    ("int32", (0x8000, 0x0000), -(2**31)),
    ("uint64", (0x0001, 0, 0, 0x0002), 2**48 + 2),
    ("int64", (0xFFFF, 0xFFFF, 0xFFFF, 0xFFFD), -3),
    ("bcd16", (0x0976,), 976),
    ("bcd32", (0x1234, 0x5678), 12_345_678),
    ("float32", (0x41C8, 0x0000), 25.0),  # 25 = 1.5625 x 2^4: sign 0, exponent 131, fraction 0x480000
    ("float64", (0xC000, 0, 0, 0), -2.0),
    ("string", (0x5055, 0x4D50, 0x2031), "PUMP 1"),
]


@pytest.mark.parametrize(("encoding", "words", "raw"), PLAIN)
def test_registers_read_as_their_value_and_the_value_writes_the_registers(
    encoding: EncodingName, words: tuple[int, ...], raw: Raw
) -> None:
    assert decode(encoding, words) == raw
    assert type(decode(encoding, words)) is type(raw)
    assert encode(encoding, raw) == words


@pytest.mark.parametrize(("encoding", "words", "raw"), PLAIN)
@pytest.mark.parametrize("word_order", ["high-first", "low-first"])
@pytest.mark.parametrize("byte_order", ["high-first", "low-first"])
def test_every_arrangement_holds_the_same_value(
    encoding: EncodingName, words: tuple[int, ...], raw: Raw, word_order: WordOrder, byte_order: WordOrder
) -> None:
    wire = list(words)
    if word_order == "low-first" and encoding != "string":
        wire.reverse()
    if byte_order == "low-first":
        wire = [int.from_bytes(word.to_bytes(2, "big"), "little") for word in wire]
    assert decode(encoding, wire, word_order, byte_order) == raw
    assert encode(encoding, raw, word_order, byte_order) == tuple(wire)


@pytest.mark.parametrize("encoding", [name for name in ENCODINGS if name != "string"])
def test_the_ends_of_the_range_fit_and_one_more_does_not(encoding: EncodingName) -> None:
    least, greatest = raw_range(encoding)
    for end, beyond in ((least, least - 1), (greatest, greatest + 1)):
        raw = decode(encoding, encode(encoding, end))
        assert not isinstance(raw, str)
        assert Fraction(raw) == end
        if not is_float(encoding):
            with pytest.raises(OutOfRange, match=f"does not fit {encoding}; its range is {least} to {greatest}"):
                encode(encoding, beyond)


@pytest.mark.parametrize(("encoding", "beyond"), [("float32", Fraction(10) ** 39), ("float64", Fraction(10) ** 309)])
def test_a_number_too_large_for_a_float_is_refused(encoding: EncodingName, beyond: Fraction) -> None:
    for number in (beyond, -beyond):
        with pytest.raises(OutOfRange, match=f"too large for {encoding}"):
            encode(encoding, number)


@pytest.mark.parametrize("raw", [math.nan, math.inf, -math.inf])
@pytest.mark.parametrize("encoding", [name for name in ENCODINGS if name != "string"])
def test_what_is_no_number_is_never_written(encoding: EncodingName, raw: float) -> None:
    with pytest.raises(OutOfRange):
        encode(encoding, raw)


@pytest.mark.parametrize(
    ("encoding", "words", "name"),
    [
        ("float32", (0x7FC0, 0x0000), "not a number"),
        ("float32", (0x7F80, 0x0000), "infinity"),
        ("float32", (0xFF80, 0x0000), "minus infinity"),
        ("float64", (0x7FF8, 0, 0, 0), "not a number"),
        ("float64", (0xFFF0, 0, 0, 0), "minus infinity"),
        ("bcd16", (0x1A23,), "1A23, which has a digit above 9"),
        ("bcd32", (0x0000, 0x000F), "0000 000F, which has a digit above 9"),
    ],
)
def test_what_cannot_be_meant_is_implausible(encoding: EncodingName, words: tuple[int, ...], name: str) -> None:
    with pytest.raises(Implausible, match=name):
        decode(encoding, words)


@pytest.mark.parametrize("encoding", [name for name in ENCODINGS if not is_float(name) and not is_text(name)])
def test_a_broken_number_is_not_rounded_in_silence(encoding: EncodingName) -> None:
    with pytest.raises(OutOfRange, match="not a whole number"):
        encode(encoding, Fraction(1, 2))
    assert encode(encoding, 7.0) == encode(encoding, 7)


@pytest.mark.parametrize("encoding", [name for name in ENCODINGS if name != "string"])
def test_a_wrong_number_of_registers_is_an_error(encoding: EncodingName) -> None:
    count = register_count(encoding)
    for wrong in (count - 1, count + 1):
        with pytest.raises(ValueError, match=f"takes {count} registers, not {wrong}"):
            decode(encoding, [0] * wrong)


def test_a_string_loses_what_stands_behind_it() -> None:
    assert decode("string", (0x4142, 0x4320, 0x2000)) == "ABC"
    assert decode("string", (0x4142, 0x0043, 0x4445)) == "AB"  # what stands behind the first NUL is left over
    assert decode("string", (0, 0)) == ""
    assert decode("string", ()) == ""
    assert decode("string", (0x2041, 0x0000)) == " A"


def test_a_string_is_latin_1() -> None:
    assert encode("string", "20 °C", length=4) == (0x3230, 0x20B0, 0x4300, 0)
    assert decode("string", (0x3230, 0x20B0, 0x4300, 0)) == "20 °C"


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("LONGER", "6 characters, but its registers hold only 4"),
        ("5 Ω", "the character 'Ω' is not in Latin-1"),
        ("A\0B", "a NUL character"),
        (7, "7 is a number, but a string contains characters"),
    ],
)
def test_a_text_that_does_not_fit_is_refused(text: Any, reason: str) -> None:
    with pytest.raises(OutOfRange, match=reason):
        encode("string", text, length=2)


def test_a_text_is_no_number() -> None:
    with pytest.raises(OutOfRange, match="'12' is a text, but uint16 is a number"):
        encode("uint16", "12")


def test_a_string_needs_a_length() -> None:
    with pytest.raises(ValueError, match="needs a length"):
        register_count("string")
    for length in (0, 126):
        with pytest.raises(ValueError, match="1 to 125 registers"):
            register_count("string", length)
    assert register_count("string", 125) == 125
    assert register_count("uint32", 9) == 2
    with pytest.raises(ValueError, match="no range"):
        raw_range("string")


def test_a_zero_below_zero_reads_as_zero() -> None:
    raw = decode("float32", (0x8000, 0))
    assert isinstance(raw, float)
    assert exact("float32", raw) == 0
    assert encode("float32", -0.0) == (0x8000, 0)


@pytest.mark.parametrize("text", ["0.1", "41.65", "-273.15", "0.05", "16777216", "1e-7", "999999.9"])
@pytest.mark.parametrize("encoding", ["float32", "float64"])
def test_a_float_stands_for_the_decimal_that_was_written(encoding: EncodingName, text: str) -> None:
    raw = decode(encoding, encode(encoding, Fraction(text)))
    assert isinstance(raw, float)
    assert exact(encoding, raw) == Fraction(text)


def test_the_greatest_float_still_has_a_decimal() -> None:
    greatest = decode("float32", (0x7F7F, 0xFFFF))
    assert isinstance(greatest, float)
    assert encode("float32", exact("float32", greatest)) == (0x7F7F, 0xFFFF)


def test_whole_numbers_are_exact_however_long() -> None:
    assert exact("uint64", 2**64 - 1) == 2**64 - 1


@pytest.mark.parametrize("encoding", [name for name in ENCODINGS if is_integer(name)])
@pytest.mark.parametrize("word_order", ["high-first", "low-first"])
@pytest.mark.parametrize("byte_order", ["high-first", "low-first"])
def test_every_bit_is_where_it_is_said_to_be(
    encoding: EncodingName, word_order: WordOrder, byte_order: WordOrder
) -> None:
    count = register_count(encoding)
    for number in range(16 * count):
        index, bit = bit_place(encoding, number, word_order, byte_order)
        words = [0] * count
        words[index] = 1 << bit
        raw = decode(encoding, words, word_order, byte_order)
        assert isinstance(raw, int)
        assert raw & (2 ** (16 * count) - 1) == 1 << number


def test_there_is_no_bit_beyond_the_last() -> None:
    with pytest.raises(ValueError, match="bits 0 to 15; there is no bit 16"):
        bit_place("int16", 16)
    with pytest.raises(ValueError, match="float32 has no single bits"):
        bit_place("float32", 0)
    with pytest.raises(ValueError, match="bcd16 has no single bits"):
        bit_place("bcd16", 0)
