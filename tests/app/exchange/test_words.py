"""Encodings, tables, access and texts as people write them."""

from __future__ import annotations

import pytest

from app.exchange.words import encoding_of, encoding_word, order_word, registers_of, table_word
from app.project.value_texts import NotKnown, read_yes, texts_in, texts_in_languages, written_languages, written_texts
from app.signals.encoding import ENCODINGS, EncodingName


@pytest.mark.parametrize(
    ("text", "registers", "encoding"),
    [
        *((name, None, name) for name in ENCODINGS if name != "string"),
        ("UINT", None, "uint16"),
        ("INT", None, "int16"),
        ("INT", 2, "int32"),
        ("DINT", None, "int32"),
        ("UDINT", 2, "uint32"),
        ("LINT", None, "int64"),
        ("ULINT", None, "uint64"),
        ("WORD", None, "uint16"),
        ("DWORD", None, "uint32"),
        ("REAL", None, "float32"),
        ("LREAL", None, "float64"),
        ("u16", None, "uint16"),
        ("U32", None, "uint32"),
        ("s16", None, "int16"),
        ("i32", None, "int32"),
        ("f32", None, "float32"),
        ("32u", None, "uint32"),
        ("16s", None, "int16"),
        ("uint16_t", None, "uint16"),
        ("unsigned int", None, "uint16"),
        ("unsigned int 16", None, "uint16"),
        ("Unsigned 32 bit", None, "uint32"),
        ("32-bit unsigned", None, "uint32"),
        ("unsigned short", None, "uint16"),
        ("signed", 2, "int32"),
        ("float", None, "float32"),
        ("Float", 4, "float64"),
        ("double", None, "float64"),
        ("IEEE754", None, "float32"),
        ("BCD", 2, "bcd32"),
        ("enum16", None, "uint16"),
        ("bitfield32", None, "uint32"),
        ("acc32", None, "uint32"),
        ("BOOL", None, "uint16"),
        ("Float CDAB", None, "float32"),
        ("uint32 (big endian)", None, "uint32"),
        ("Byte", None, "uint16"),
    ],
)
def test_encodings(text: str, registers: int | None, encoding: EncodingName) -> None:
    assert encoding_of(encoding_word(text), registers) == (encoding, None)


@pytest.mark.parametrize(
    ("text", "registers", "length"), [("string", 8, 8), ("STRING(20)", None, 10), ("char[5]", None, 3), ("ASCII", 4, 4)]
)
def test_strings(text: str, registers: int | None, length: int) -> None:
    assert encoding_of(encoding_word(text), registers) == ("string", length)


@pytest.mark.parametrize(
    ("text", "registers"),
    [("string", None), ("string", 200), ("uint24", None), ("int", 3), ("uint32", 1), ("nonsense", None), ("", None)],
)
def test_what_is_no_encoding_is_said(text: str, registers: int | None) -> None:
    with pytest.raises(NotKnown):
        encoding_of(encoding_word(text), registers)


@pytest.mark.parametrize(
    ("text", "order"),
    [
        ("float32", None),
        ("float32 swapped", "low-first"),
        ("FLOAT32 CDAB", "low-first"),
        ("uint32 LE", "low-first"),
        ("REAL (ABCD)", "high-first"),
        ("int32 big-endian", "high-first"),
    ],
)
def test_a_type_may_say_the_order_of_its_words(text: str, order: str | None) -> None:
    assert encoding_word(text).order == order


@pytest.mark.parametrize(
    ("text", "order"),
    [
        ("high-first", "high-first"),
        ("low-first", "low-first"),
        ("High word first", "high-first"),
        (" LSW first ", "low-first"),
        ("AB CD", "high-first"),
        ("cdab", "low-first"),
        ("Big-Endian", "high-first"),
        ("little_endian", "low-first"),
        ("word swap", "low-first"),
        ("Niederwertiges Wort zuerst", "low-first"),
    ],
)
def test_orders_of_words(text: str, order: str) -> None:
    assert order_word(text) == order


@pytest.mark.parametrize(("text", "words"), [("DCBA", "byte order of the device"), ("sideways", "not a word order")])
def test_what_is_no_order_of_words_is_said(text: str, words: str) -> None:
    with pytest.raises(NotKnown, match=words):
        order_word(text)


@pytest.mark.parametrize(
    ("text", "unit", "registers"),
    [("2", "", 2), ("32 bit", "", 2), ("32", "bits", 2), ("4", "bytes", 2), ("3 words", "", 3), ("1", "", 1)],
)
def test_lengths(text: str, unit: str, registers: int) -> None:
    assert registers_of(text, unit, None)[0] == registers


@pytest.mark.parametrize(
    ("text", "table"),
    [
        ("holding", "holding"),
        ("Holding Register", "holding"),
        ("HR", "holding"),
        ("4x", "holding"),
        ("FC03", "holding"),
        ("03/06/16", "holding"),
        ("FC 3, 16", "holding"),
        ("3", "holding"),
        ("4", "input"),
        ("Input Register", "input"),
        ("Eingangsregister", "input"),
        ("coil", "coil"),
        ("FC01", "coil"),
        ("Discrete Input", "discrete"),
        ("02", "discrete"),
    ],
)
def test_tables(text: str, table: str) -> None:
    assert table_word(text) == table


@pytest.mark.parametrize("text", ["03/04", "7", "register", "", "FC99"])
def test_what_is_no_table_is_said(text: str) -> None:
    with pytest.raises(NotKnown):
        table_word(text)


@pytest.mark.parametrize("text", ["R/W", "rw", "RW", "read/write", "Read / Write", "W", "yes", "ja", "x", "L/S", "1"])
def test_what_may_be_written(text: str) -> None:
    assert read_yes(text)


@pytest.mark.parametrize("text", ["R", "RO", "r/o", "read only", "Read-only", "no", "nein", "L", "-", "0"])
def test_what_may_not_be_written(text: str) -> None:
    assert not read_yes(text)


def test_access_that_says_nothing() -> None:
    with pytest.raises(NotKnown):
        read_yes("sometimes")


@pytest.mark.parametrize(
    ("text", "texts"),
    [
        ("0=stopped; 1=running", {"0": "stopped", "1": "running"}),
        ("0: off, 1: on", {"0": "off", "1": "on"}),
        ("0 = off\n1 = on, slowly\n2 = fault", {"0": "off", "1": "on, slowly", "2": "fault"}),
        ("0 - off\n1 - on", {"0": "off", "1": "on"}),
        ("0x10=hex", {"16": "hex"}),
        ("0=stopped; otherwise=not known", {"0": "stopped", "otherwise": "not known"}),
        ("0: off, otherwise: not known", {"0": "off", "otherwise": "not known"}),
        ("-1=under; 1=over", {"-1": "under", "1": "over"}),
        ('0="a;b"; 1="c\\"d"', {"0": "a;b", "1": 'c"d'}),
        ("0=", {"0": ""}),
    ],
)
def test_texts(text: str, texts: dict[str, str]) -> None:
    assert dict(texts_in(text)) == texts


@pytest.mark.parametrize("text", ["on or off", "a=b", ";"])
def test_what_are_no_texts_is_said(text: str) -> None:
    with pytest.raises(NotKnown):
        texts_in(text)


def test_texts_come_back() -> None:
    texts = {"0": "a=b; 1=c", "007": " ", "-1": "", "2": 'say "no"', "3": "new\nline", "otherwise": "else"}
    assert dict(texts_in(written_texts(texts))) == texts
    languages = {"Deutsch": texts, "a: b": {"0": "x"}}
    assert texts_in_languages(written_languages(languages)) == languages
