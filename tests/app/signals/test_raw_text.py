"""Raw numbers in decimal, in hexadecimal and bit by bit."""

from __future__ import annotations

import math
import struct

import pytest
from hypothesis import given, strategies as st

from app.signals.raw_text import RawForm, raw_text, widest
from app.signals.reading import Raw

DECIMAL, HEX, BITS = RawForm.DECIMAL, RawForm.HEXADECIMAL, RawForm.BITS


@pytest.mark.parametrize(
    ("raw", "registers", "form", "text"),
    [
        (36864, 1, DECIMAL, "36864"),
        (36864, 1, HEX, "9000h"),
        (1591, 1, BITS, "0000 0110 0011 0111"),
        (-1, 1, HEX, "FFFFh"),
        (-2, 2, HEX, "FFFF FFFEh"),
        (4_294_967_295, 2, DECIMAL, "4294967295"),
        (0x40DB3333, 2, HEX, "40DB 3333h"),
        (2**63, 4, HEX, "8000 0000 0000 0000h"),
        (1.0, 2, HEX, "3F80 0000h"),  # IEEE 754: sign 0, exponent 127, fraction 0
        (-2.0, 4, HEX, "C000 0000 0000 0000h"),
        (0.1 + 0.2, 4, DECIMAL, "0.3"),
        (1, 0, HEX, "1"),
        (1, 0, BITS, "1"),
        ("PUMP", 2, HEX, "PUMP"),
        (None, 1, HEX, ""),
    ],
)
def test_examples(raw: Raw | None, registers: int, form: RawForm, text: str) -> None:
    assert raw_text(raw, registers, form) == text


@given(
    st.sampled_from([1, 2, 4]).flatmap(lambda count: st.tuples(st.integers(0, 2 ** (16 * count) - 1), st.just(count)))
)
def test_hexadecimal_and_bits_tell_the_same_number(case: tuple[int, int]) -> None:
    raw, registers = case
    assert int(raw_text(raw, registers, HEX)[:-1].replace(" ", ""), 16) == raw
    assert int(raw_text(raw, registers, BITS).replace(" ", ""), 2) == raw
    for form in RawForm:
        assert len(raw_text(raw, registers, form)) <= len(widest(registers, form))


@given(st.floats(width=32, allow_nan=False))
def test_a_float_is_shown_as_the_standard_stores_it(raw: float) -> None:
    told = bytes.fromhex(raw_text(raw, 2, HEX)[:-1].replace(" ", ""))
    (back,) = struct.unpack(">f", told)
    assert back == raw or (math.isinf(raw) and math.isinf(back))
