"""Numbers in registers against other implementations: the standard library, a Modbus client and a second one.

Sources: `struct` of the Python standard library (IEEE 754, two's complement); PyPI `pymodbus`,
`convert_from_registers` and `convert_to_registers` (word order); PyPI `minimalmodbus`, its byte orders ABCD, DCBA,
BADC and CDAB (word and byte order).
"""

from __future__ import annotations

import random
import struct
from typing import Any

import minimalmodbus
import pytest
from pymodbus.client.mixin import ModbusClientMixin

from app.signals.encoding import EncodingName, decode, encode, exact, register_count
from app.signals.order import WordOrder

FORMATS: dict[EncodingName, str] = {
    "uint16": "H",
    "int16": "h",
    "uint32": "I",
    "int32": "i",
    "uint64": "Q",
    "int64": "q",
    "float32": "f",
    "float64": "d",
}

SEED = 19_850_301


def samples(encoding: EncodingName, count: int = 200) -> list[int | float]:
    """Random register contents, read by `struct`; floats without not-a-number and infinity."""
    chance = random.Random(SEED)
    form = FORMATS[encoding]
    found: list[int | float] = []
    while len(found) < count:
        number = struct.unpack(f">{form}", chance.randbytes(struct.calcsize(form)))[0]
        if number - number == 0:
            found.append(number)
    return found


def struct_words(encoding: EncodingName, number: float) -> tuple[int, ...]:
    data = struct.pack(f">{FORMATS[encoding]}", number)
    return struct.unpack(f">{len(data) // 2}H", data)


@pytest.mark.parametrize("encoding", FORMATS)
def test_registers_hold_what_struct_packs(encoding: EncodingName) -> None:
    for number in samples(encoding):
        words = struct_words(encoding, number)
        assert encode(encoding, number) == words
        raw = decode(encoding, words)
        assert not isinstance(raw, str)
        assert raw == number
        assert encode(encoding, exact(encoding, raw)) == words


@pytest.mark.parametrize("number", [2.0**-149, 2.0**-126, 1.17549421e-38, 3.4028234663852886e38, 16_777_217.0])
def test_the_edges_of_binary32(number: float) -> None:
    words = struct_words("float32", number)
    assert encode("float32", number) == words
    assert decode("float32", words) == struct.unpack(">f", struct.pack(">f", number))[0]


@pytest.mark.parametrize("encoding", FORMATS)
@pytest.mark.parametrize(("word_order", "theirs"), [("high-first", "big"), ("low-first", "little")])
def test_word_orders_are_those_of_pymodbus(encoding: EncodingName, word_order: WordOrder, theirs: Any) -> None:
    kind = ModbusClientMixin.DATATYPE[encoding.upper()]
    for number in samples(encoding):
        words = ModbusClientMixin.convert_to_registers(number, kind, word_order=theirs)
        assert list(encode(encoding, number, word_order)) == words
        assert decode(encoding, words, word_order) == ModbusClientMixin.convert_from_registers(
            words, kind, word_order=theirs
        )


ORDERS: list[tuple[WordOrder, WordOrder, int]] = [
    ("high-first", "high-first", minimalmodbus.BYTEORDER_BIG),
    ("low-first", "low-first", minimalmodbus.BYTEORDER_LITTLE),
    ("high-first", "low-first", minimalmodbus.BYTEORDER_BIG_SWAP),
    ("low-first", "high-first", minimalmodbus.BYTEORDER_LITTLE_SWAP),
]


@pytest.mark.parametrize("encoding", ["uint32", "int32", "uint64", "int64", "float32", "float64"])
@pytest.mark.parametrize(("word_order", "byte_order", "theirs"), ORDERS)
def test_byte_orders_are_those_of_minimalmodbus(
    encoding: EncodingName, word_order: WordOrder, byte_order: WordOrder, theirs: int
) -> None:
    count = register_count(encoding)
    for number in samples(encoding):
        words = encode(encoding, number, word_order, byte_order)
        data = struct.pack(f">{count}H", *words)
        if encoding.startswith("float"):
            assert minimalmodbus._bytes_to_float(data, count, theirs) == number
        else:
            signed = encoding.startswith("int")
            assert minimalmodbus._bytes_to_long(data, signed, count, theirs) == number
        assert decode(encoding, words, word_order, byte_order) == number


def test_strings_are_those_of_minimalmodbus() -> None:
    for text in ("A", "Pump 7", "0123456789abcdef"):
        words = encode("string", text, length=8)
        # it fills up with blanks where we fill up with NUL; both read as the same text
        theirs = minimalmodbus._textstring_to_bytes(text, 8)
        assert struct.pack(">8H", *words).rstrip(b"\0") == theirs.rstrip(b" ")
        assert decode("string", struct.unpack(">8H", theirs)) == text
