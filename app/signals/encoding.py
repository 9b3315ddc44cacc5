"""Registers to raw numbers and back.

A register is a 16-bit word, 0..65535. Integers are two's complement; floats are IEEE 754 binary32 and binary64; BCD
holds one decimal digit in each four bits and no sign; a string holds two characters in each word, the first one in the
high byte, from the first register on. Nothing saturates: what does not fit is refused, what cannot be meant is
`Implausible`.
"""

from __future__ import annotations

import math
import struct
from collections.abc import Sequence
from fractions import Fraction
from typing import Final, Literal, TypeAlias, get_args

from app.errors import FanlightError
from app.language import mark, translate
from app.signals.order import WordOrder, arranged
from app.signals.reading import Raw

EncodingName = Literal[
    "uint16", "int16", "uint32", "int32", "uint64", "int64", "float32", "float64", "bcd16", "bcd32", "string"
]

RawNumber: TypeAlias = int | float | Fraction

ENCODINGS: Final[tuple[EncodingName, ...]] = get_args(EncodingName)
"""All encodings, in the order in which a person would look for them."""


class Implausible(FanlightError, ValueError):
    """The registers hold something that the encoding cannot mean. The follower's fault."""


class OutOfRange(FanlightError, ValueError):
    """The raw value does not fit the encoding. The writer's fault."""


_COUNT: Final[dict[EncodingName, int]] = {
    "uint16": 1,
    "int16": 1,
    "bcd16": 1,
    "uint32": 2,
    "int32": 2,
    "bcd32": 2,
    "float32": 2,
    "uint64": 4,
    "int64": 4,
    "float64": 4,
}

_FLOAT_FORMAT: Final[dict[EncodingName, str]] = {"float32": ">f", "float64": ">d"}

_LARGEST_FLOAT32: Final = Fraction((2**24 - 1) * 2**104)
_LARGEST_FLOAT64: Final = Fraction((2**53 - 1) * 2**971)

_RANGE: Final[dict[EncodingName, tuple[Fraction, Fraction]]] = {
    "uint16": (Fraction(0), Fraction(2**16 - 1)),
    "int16": (Fraction(-(2**15)), Fraction(2**15 - 1)),
    "uint32": (Fraction(0), Fraction(2**32 - 1)),
    "int32": (Fraction(-(2**31)), Fraction(2**31 - 1)),
    "uint64": (Fraction(0), Fraction(2**64 - 1)),
    "int64": (Fraction(-(2**63)), Fraction(2**63 - 1)),
    "bcd16": (Fraction(0), Fraction(9_999)),
    "bcd32": (Fraction(0), Fraction(99_999_999)),
    "float32": (-_LARGEST_FLOAT32, _LARGEST_FLOAT32),
    "float64": (-_LARGEST_FLOAT64, _LARGEST_FLOAT64),
}

_SIGNED: Final = frozenset({"int16", "int32", "int64"})
_INTEGERS: Final = frozenset({"uint16", "int16", "uint32", "int32", "uint64", "int64"})


def is_integer(encoding: EncodingName) -> bool:
    """Whether it is a binary integer: the encodings whose single bits can be named."""
    return encoding in _INTEGERS


def is_float(encoding: EncodingName) -> bool:
    """Whether it is an IEEE 754 number."""
    return encoding in _FLOAT_FORMAT


def is_text(encoding: EncodingName) -> bool:
    """Whether it holds characters and no number."""
    return encoding == "string"


def has_word_order(encoding: EncodingName) -> bool:
    """Whether its words may come in one order or the other: numbers of two or more registers."""
    return _COUNT.get(encoding, 1) > 1


def register_count(encoding: EncodingName, length: int | None = None) -> int:
    """How many registers a value takes, 1 to 125.

    `length` is the number of registers of a string and is not looked at otherwise.
    Raises ValueError for a string whose length is missing or not in 1..125.
    """
    if encoding != "string":
        return _COUNT[encoding]
    if length is None:
        raise ValueError(translate("signals", "a string needs a length in registers ('length')"))
    if not 1 <= length <= 125:
        raise ValueError(
            translate("signals", "a string is 1 to 125 registers long, not {length}").format(length=length)
        )
    return length


def raw_range(encoding: EncodingName) -> tuple[Fraction, Fraction]:
    """The least and the greatest raw number that the encoding holds, both included; of floats the finite ones.

    Raises ValueError for strings, which hold no number.
    """
    try:
        return _RANGE[encoding]
    except KeyError:
        raise ValueError(translate("signals", "a string has no range of numbers")) from None


def decode(
    encoding: EncodingName,
    words: Sequence[int],
    word_order: WordOrder = "high-first",
    byte_order: WordOrder = "high-first",
) -> Raw:
    """The raw value that stands in the registers.

    `words` are as they came, lowest address first, each 0..65535; as many as `register_count` says (any number of a
    string). `word_order` does not apply to strings: they read from the first register on.
    A string ends at its first NUL; blanks at its end are dropped; every byte is one Latin-1 character.
    Raises Implausible for a BCD digit above 9, not-a-number and infinity; ValueError for a wrong number of words.
    """
    if encoding == "string":
        text = _bytes(arranged(words, "high-first", byte_order)).partition(b"\0")[0]
        return text.decode("latin-1").rstrip(" ")
    if len(words) != _COUNT[encoding]:
        raise ValueError(
            translate("signals", "{encoding} takes {due} registers, not {count}").format(
                encoding=encoding, due=_COUNT[encoding], count=len(words)
            )
        )
    if word_order != "high-first" or byte_order != "high-first":
        words = arranged(words, word_order, byte_order)
    if encoding in _FLOAT_FORMAT:
        number: float = struct.unpack(_FLOAT_FORMAT[encoding], _bytes(words))[0]
        if not math.isfinite(number):
            raise Implausible(
                mark("signals", "the registers contain {name} ({hex}), not a {encoding} value that can be shown"),
                name=_not_finite(number),
                hex=_hex(words),
                encoding=encoding,
            )
        return number
    count = 0
    for word in words:
        count = count << 16 | word
    if encoding in _SIGNED:
        sign = 1 << (16 * len(words) - 1)
        return (count ^ sign) - sign
    if encoding in ("bcd16", "bcd32"):
        digits = f"{count:0{4 * len(words)}X}"
        if not digits.isdecimal():
            raise Implausible(
                mark("signals", "the registers contain {hex}, which has a digit above 9 and is not a {encoding} value"),
                hex=_hex(words),
                encoding=encoding,
            )
        return int(digits)
    return count


def encode(
    encoding: EncodingName,
    raw: RawNumber | str,
    word_order: WordOrder = "high-first",
    byte_order: WordOrder = "high-first",
    length: int | None = None,
) -> tuple[int, ...]:
    """The registers that hold the raw value, lowest address first.

    Integers and BCD take whole numbers only; floats take any finite number and hold the nearest one that they can.
    `length` is the number of registers of a string, filled up with NUL; left out, the text takes what it needs.
    Raises OutOfRange for what does not fit, is not whole, is not finite or has no character in Latin-1.
    """
    words: Sequence[int]
    if encoding == "string":
        return tuple(arranged(_string_words(raw, length), "high-first", byte_order))
    if isinstance(raw, str):
        raise OutOfRange(mark("signals", "{raw!r} is a text, but {encoding} is a number"), raw=raw, encoding=encoding)
    if encoding in _FLOAT_FORMAT:
        words = _float_words(encoding, raw)
    else:
        count = _whole(encoding, raw)
        least, greatest = _RANGE[encoding]
        if not least <= count <= greatest:
            raise OutOfRange(
                mark("signals", "{count} does not fit {encoding}; its range is {least} to {greatest}"),
                count=count,
                encoding=encoding,
                least=least,
                greatest=greatest,
            )
        if encoding in ("bcd16", "bcd32"):
            count = int(str(count), 16)
        words = [count >> shift & 0xFFFF for shift in range(16 * (_COUNT[encoding] - 1), -1, -16)]
    return tuple(arranged(words, word_order, byte_order))


def exact(encoding: EncodingName, raw: int | float) -> Fraction:
    """The number that a raw value stands for, exactly.

    A float stands for the shortest decimal that names it among all floats of its length (what Python's repr gives for
    a binary64): a register that was given 0.1 reads as 1/10 and not as 13421773/134217728, so it equals 0.1 and
    rounds as 0.1. `encode` leads from there back to the same registers.
    """
    if isinstance(raw, int):
        return Fraction(raw)
    if encoding == "float32":
        for digits in range(6, 9):
            text = f"{raw:.{digits}g}"
            try:
                if struct.unpack(">f", struct.pack(">f", float(text)))[0] == raw:
                    return Fraction(text)
            except OverflowError:  # rounding up at the very top of the range left it
                continue
        return Fraction(f"{raw:.9g}")  # nine digits name every binary32
    return Fraction(repr(raw))


def bit_place(
    encoding: EncodingName, number: int, word_order: WordOrder = "high-first", byte_order: WordOrder = "high-first"
) -> tuple[int, int]:
    """Where bit `number` (0 = least significant) of an integer stands: the word's index, and the bit in that word.

    Both are as seen on the wire, so a follower with swapped words or bytes is told the right bit of the right register.
    Raises ValueError if the encoding is no integer or has no such bit.
    """
    if encoding not in _INTEGERS:
        raise ValueError(
            translate("signals", "{encoding} has no single bits; only integers do").format(encoding=encoding)
        )
    width = 16 * _COUNT[encoding]
    if not 0 <= number < width:
        raise ValueError(
            translate("signals", "{encoding} has bits 0 to {last}; there is no bit {number}").format(
                encoding=encoding, last=width - 1, number=number
            )
        )
    index, bit = number // 16, number % 16
    if word_order == "high-first":
        index = _COUNT[encoding] - 1 - index
    return index, bit ^ 8 if byte_order == "low-first" else bit


def _bytes(words: Sequence[int]) -> bytes:
    return struct.pack(f">{len(words)}H", *words)


def _not_finite(number: float) -> str:
    if math.isnan(number):
        return translate("signals", "not a number")
    return translate("signals", "infinity") if number > 0 else translate("signals", "minus infinity")


def _hex(words: Sequence[int]) -> str:
    return " ".join(f"{word:04X}" for word in words)


def _words(data: bytes) -> tuple[int, ...]:
    return struct.unpack(f">{len(data) // 2}H", data)


def _whole(encoding: EncodingName, raw: RawNumber) -> int:
    if isinstance(raw, float) and not math.isfinite(raw):
        raise OutOfRange(mark("signals", "{raw} does not fit {encoding}"), raw=raw, encoding=encoding)
    if raw != (count := int(raw)):
        raise OutOfRange(
            mark("signals", "{raw} is not a whole number; {encoding} has whole numbers only"),
            raw=raw,
            encoding=encoding,
        )
    return count


def _float_words(encoding: EncodingName, raw: RawNumber) -> tuple[int, ...]:
    try:
        number = float(raw)
        data = struct.pack(_FLOAT_FORMAT[encoding], number)
    except OverflowError:
        raise OutOfRange(mark("signals", "the number is too large for {encoding}"), encoding=encoding) from None
    if not math.isfinite(number):
        raise OutOfRange(
            mark("signals", "{raw} is not a finite number; {encoding} set points must be finite"),
            raw=raw,
            encoding=encoding,
        )
    return _words(data)


def _string_words(raw: RawNumber | str, length: int | None) -> tuple[int, ...]:
    if not isinstance(raw, str):
        raise OutOfRange(mark("signals", "{raw} is a number, but a string contains characters"), raw=raw)
    if "\0" in raw:
        raise OutOfRange(mark("signals", "a string cannot contain a NUL character"))
    try:
        data = raw.encode("latin-1")
    except UnicodeEncodeError as error:
        raise OutOfRange(
            mark("signals", "the character {character!r} is not in Latin-1 and cannot be stored in a register"),
            character=raw[error.start],
        ) from None
    room = (len(data) + 1) // 2 if length is None else register_count("string", length)
    if len(data) > 2 * room:
        raise OutOfRange(
            mark("signals", "the text has {count} characters, but its registers hold only {most}"),
            count=len(data),
            most=2 * room,
        )
    return _words(data.ljust(2 * room, b"\0"))
