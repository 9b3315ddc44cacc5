"""Encodings and tables as people write them in register lists.

The names of types are those of IEC 61131-3 (INT, UDINT, REAL, WORD ...) and of C (short, unsigned long, float ...);
short forms such as u16 and S32 and what a bare INT means are common practice, no source.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from typing import Final, Literal, TypeAlias

from app.language import DecimalMark, mark, translate
from app.project.value_texts import NotKnown
from app.signals.encoding import ENCODINGS, EncodingName, register_count
from app.signals.functions import TABLE_OF_FUNCTION
from app.signals.numbering import Table
from app.signals.numbers import NotANumber, whole_number
from app.signals.order import WordOrder

EncodingKind: TypeAlias = Literal["unsigned", "signed", "float", "bcd", "string", "bit"]


@dataclass(frozen=True, slots=True)
class EncodingWord:
    """What a type says by itself; its length may still come from another column."""

    kind: EncodingKind
    bits: int | None = None
    characters: int | None = None
    """Of a string whose type names them: STRING(20)."""
    order: WordOrder | None = None
    """Which of its words comes first, if it says so."""


_TYPES: Final[dict[str, tuple[EncodingKind, int | None]]] = {
    # IEC 61131-3
    "sint": ("signed", 8),
    "int": ("signed", None),
    "dint": ("signed", 32),
    "lint": ("signed", 64),
    "usint": ("unsigned", 8),
    "uint": ("unsigned", None),
    "udint": ("unsigned", 32),
    "ulint": ("unsigned", 64),
    "byte": ("unsigned", 8),
    "word": ("unsigned", 16),
    "dword": ("unsigned", 32),
    "lword": ("unsigned", 64),
    "qword": ("unsigned", 64),
    "real": ("float", None),
    "lreal": ("float", 64),
    "bool": ("bit", 1),
    # C
    "char": ("string", None),
    "uchar": ("unsigned", 8),
    "short": ("signed", 16),
    "shortint": ("signed", 16),
    "ushort": ("unsigned", 16),
    "unsignedshort": ("unsigned", 16),
    "unsignedshortint": ("unsigned", 16),
    "long": ("signed", 32),
    "longint": ("signed", 32),
    "ulong": ("unsigned", 32),
    "unsignedlong": ("unsigned", 32),
    "unsignedlongint": ("unsigned", 32),
    "longlong": ("signed", 64),
    "unsignedlonglong": ("unsigned", 64),
    "float": ("float", None),
    "single": ("float", 32),
    "double": ("float", 64),
    # common practice
    "unsigned": ("unsigned", None),
    "unsignedint": ("unsigned", None),
    "unsignedinteger": ("unsigned", None),
    "uinteger": ("unsigned", None),
    "u": ("unsigned", None),
    "ui": ("unsigned", None),
    "i": ("signed", None),
    "s": ("signed", None),
    "si": ("signed", None),
    "signed": ("signed", None),
    "signedint": ("signed", None),
    "signedinteger": ("signed", None),
    "integer": ("signed", None),
    "f": ("float", None),
    "fp": ("float", None),
    "floatingpoint": ("float", None),
    "ieee": ("float", None),
    "ieee754": ("float", None),
    "enum": ("unsigned", None),
    "enumeration": ("unsigned", None),
    "bitfield": ("unsigned", None),
    "bitmap": ("unsigned", None),
    "bitmask": ("unsigned", None),
    "flags": ("unsigned", None),
    "acc": ("unsigned", None),
    "counter": ("unsigned", None),
    "hex": ("unsigned", None),
    "bcd": ("bcd", None),
    "string": ("string", None),
    "str": ("string", None),
    "ascii": ("string", None),
    "text": ("string", None),
    "bit": ("bit", 1),
    "boolean": ("bit", 1),
    "coil": ("bit", 1),
    # German lists
    "wort": ("unsigned", 16),
    "doppelwort": ("unsigned", 32),
    "ganzzahl": ("signed", None),
    "gleitkomma": ("float", None),
    "flie\u00dfkomma": ("float", None),
    "fliesskomma": ("float", None),
    "zeichen": ("string", None),
    "vorzeichenlos": ("unsigned", None),
    "vorzeichenbehaftet": ("signed", None),
}

_SWAPPED: Final = re.compile(
    r"\b(?:swapped|swap|wordswap|word swap|cdab|low[ -]?first|little[ -]?endian|le|lsw first)\b", re.IGNORECASE
)
_STRAIGHT: Final = re.compile(r"\b(?:abcd|big[ -]?endian|be|high[ -]?first|msw first)\b", re.IGNORECASE)
_ORDERS: Final[dict[WordOrder, str]] = {
    "high-first": (
        "high first, high word first, high, msw first, msw, msb first, hi lo, big endian, big, be, abcd, abcdefgh, "
        "höherwertiges zuerst, höherwertiges wort zuerst, hohes wort zuerst"
    ),
    "low-first": (
        "low first, low word first, low, lsw first, lsw, lo hi, little endian, little, le, swapped, swap, word swap, "
        "wordswap, words swapped, cdab, ghefcdab, niederwertiges zuerst, niederwertiges wort zuerst, "
        "niedriges wort zuerst"
    ),
}
"""Common practice, no source."""
_VAGUE: Final = re.compile(r"\b(?:little|le)\b", re.IGNORECASE)
_OF_BYTES: Final = ("badc", "dcba", "byte swap", "bytes swapped", "lsb first")
_OF_ENCODING: Final[dict[tuple[EncodingKind, int], EncodingName]] = {
    ("unsigned", 16): "uint16",
    ("unsigned", 32): "uint32",
    ("unsigned", 64): "uint64",
    ("signed", 16): "int16",
    ("signed", 32): "int32",
    ("signed", 64): "int64",
    ("float", 32): "float32",
    ("float", 64): "float64",
    ("bcd", 16): "bcd16",
    ("bcd", 32): "bcd32",
}


@lru_cache(maxsize=4096)
def encoding_word(text: str) -> EncodingWord:
    """What the name of a type says: u16, INT, float, DWORD, "unsigned int 16", STRING(20). Raises NotKnown."""
    order: WordOrder | None = "low-first" if _SWAPPED.search(text) else "high-first" if _STRAIGHT.search(text) else None
    word = _STRAIGHT.sub(" ", _SWAPPED.sub(" ", text)).casefold()
    word = re.sub(r"_t\b", "", word)
    if found := re.fullmatch(r"\s*(w?string|str|ascii|char|text)\s*[\[(]\s*([0-9]{1,3})\s*[\])]\s*", word):
        return EncodingWord("string", characters=int(found[2]))
    word = re.sub(r"(?<=[0-9])\s*-?\s*bits?\b", " ", word)
    word = re.sub(r"[^0-9a-z\u00e4\u00f6\u00fc\u00df]", "", word)
    found = re.fullmatch(r"([0-9]*)([a-z\u00e4\u00f6\u00fc\u00df]+(?:754)?)(?:([0-9]+)([a-z]?))?", word)
    if found is None:
        raise _unknown_encoding(text)
    front, name, behind, sign = found[1], found[2], found[3] or "", found[4] or ""
    if sign and sign not in "usi":
        raise _unknown_encoding(text)
    bits = int(front or behind) if (front or behind) and not (front and behind) else None
    known = _TYPES.get(name)
    if known is None or (front and behind):
        raise _unknown_encoding(text)
    kind, own = known
    if sign:
        kind = "unsigned" if sign == "u" else "signed"
    if bits is not None and kind != "string":
        if own not in (None, bits) or (bits not in (1, 8, 16, 32, 48, 64)):
            raise _unknown_encoding(text)
        own = bits
    if kind == "string":
        # "string8" may count characters or registers: left to the column with the length.
        return EncodingWord("string")
    return EncodingWord(kind, own, order=order)


def _unknown_encoding(text: str) -> NotKnown:
    shown = " ".join(text.split())[:40]
    return NotKnown(
        translate("exchange", "'{text}' is not a known data type; use one of {encodings}").format(
            text=shown, encodings=", ".join(ENCODINGS)
        )
    )


def encoding_of(word: EncodingWord, registers: int | None) -> tuple[EncodingName, int | None]:
    """The encoding, and the registers of a string, that a type means together with the registers it takes.

    A type that names no size has 16 bits, a float 32, unless `registers` says otherwise. Raises NotKnown.
    """
    if word.kind == "string":
        length = registers if registers is not None else None
        if word.characters is not None:
            length = max(1, (word.characters + 1) // 2)
        if length is None:
            raise NotKnown(mark("exchange", "a string needs a length in registers; assign a column to the length"))
        if not 1 <= length <= 125:
            raise NotKnown(mark("exchange", "a string is 1 to 125 registers long, not {length}"), length=length)
        return "string", length
    kind: EncodingKind = "unsigned" if word.kind == "bit" else word.kind
    bits = word.bits
    if bits is None:
        bits = 16 * registers if registers is not None else 32 if kind == "float" else 16
    bits = max(bits, 16)
    encoding = _OF_ENCODING.get((kind, bits))
    if encoding is None:
        raise NotKnown(mark("exchange", "there is no data type of this kind with {bits} bits"), bits=bits)
    if registers is not None and registers != register_count(encoding):
        raise NotKnown(
            mark("exchange", "{encoding} takes {own} registers, but the row has {given}"),
            encoding=encoding,
            own=register_count(encoding),
            given=registers,
        )
    return encoding, None


def order_word(text: str) -> WordOrder:
    """Which of the words of a value comes first: "low first", CDAB, "big endian". Raises NotKnown."""
    word = " ".join(re.sub(r"[^\w]|_", " ", text.casefold()).split())
    for order, words in _ORDERS.items():
        if {word, word.replace(" ", "")} & set(words.split(", ")):
            return order
    if word in _OF_BYTES:
        raise NotKnown(
            mark(
                "exchange",
                "'{text}' also swaps the bytes of each word: set the byte order of the device, and ignore this column",
            ),
            text=text.strip(),
        )
    raise NotKnown(
        mark("exchange", "'{text}' is not a word order; write high-first or low-first"),
        text=" ".join(text.split())[:40],
    )


def may_mean_bytes(text: str) -> bool:
    """Whether a word order may be one of the bytes as well: "little endian" means the words to some, both to others."""
    return _VAGUE.search(text) is not None


def registers_of(text: str, unit: str, decimal_mark: DecimalMark | None) -> tuple[int, str]:
    """A length and what it counts: "registers", "bits" or "bytes". `unit` is what the title of the column says.

    Raises NotANumber.
    """
    found = re.fullmatch(r"\s*([0-9.,]+)\s*([^\W\d_]*)\.?\s*", text)
    if found is None:
        raise NotANumber(mark("exchange", "'{text}' is not a length"), text=" ".join(text.split())[:40])
    count = whole_number(found[1], decimal_mark)
    said = found[2].casefold() or unit
    counts = "bits" if said.startswith("bit") else "bytes" if said.startswith(("byte", "char", "zeichen")) else ""
    if counts == "bits":
        return max(1, -(-count // 16)), counts
    if counts == "bytes":
        return max(1, -(-count // 2)), counts
    if said and not said.startswith(("reg", "word", "wort", "w\u00f6rt")):
        raise NotANumber(mark("exchange", "'{text}' is not a length"), text=" ".join(text.split())[:40])
    return count, "registers"


_TABLES: Final[dict[str, Table]] = {
    **dict.fromkeys(("holding", "holdingregister", "holdingregisters", "hr", "hold", "4x", "halteregister"), "holding"),
    **dict.fromkeys(("ausgangsregister", "outputregister", "rwregister", "holdingreg"), "holding"),
    **dict.fromkeys(("input", "inputregister", "inputregisters", "ir", "3x", "eingangsregister", "inputreg"), "input"),
    **dict.fromkeys(("coil", "coils", "0x", "co", "do", "digitaloutput", "spule", "spulen", "outputcoil"), "coil"),
    **dict.fromkeys(
        ("discrete", "discreteinput", "discreteinputs", "1x", "di", "digitalinput", "inputbit"), "discrete"
    ),
    **dict.fromkeys(("inputstatus", "diskretereingang", "digitaleingang", "discretes"), "discrete"),
}


@lru_cache(maxsize=4096)
def table_word(text: str) -> Table:
    """The table that a text names, by its name or by the function codes that act on it: FC03, "03/06". Raises NotKnown.

    A bare digit is a function code.
    """
    word = re.sub(r"[^0-9a-z\u00e4\u00f6\u00fc]", "", text.casefold())
    if found := _TABLES.get(word):
        return found
    codes = [int(code) for code in re.findall("[0-9]+", text)]
    rest = re.sub(r"fc|fkt|function|funktion|code|read|write|only|r|w|0x|[^a-z]", "", text.casefold())
    tables = {TABLE_OF_FUNCTION.get(code) for code in codes}
    if codes and not rest and len(tables) == 1 and (table := tables.pop()) is not None:
        return table
    raise NotKnown(
        mark("exchange", "'{text}' is not a table; write holding, input, coil or discrete, or the function code"),
        text=" ".join(text.split())[:40],
    )
