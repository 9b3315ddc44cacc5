"""Registers and factors as people write them in lists."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Final

from app.language import DecimalMark, mark, translate
from app.signals.numbers import BLANKS, HEXADECIMAL, NotANumber, bare_number, number, short


@dataclass(frozen=True, slots=True)
class RegisterText:
    """A register as a list names it."""

    number: int
    last: int | None = None
    """Of a range: the last register, which belongs to it."""
    bit: int | None = None


_IEC_PLACE: Final = re.compile(r"%?[MIQ]W\s*([0-9]+)", re.IGNORECASE)
"""A directly represented variable of words as in IEC 61131-3: %MW100."""
_TABLE_X: Final = re.compile(r"([134])[xX]\s*([0-9]{1,5})")
"""4x0001: the digit of the table, then the number in it (common practice)."""
_COIL_X: Final = re.compile(r"0[xX]([0-9]{4,5})")
"""0x0017: the coil 17 by the same practice, and 17h by that of C."""
_RANGE: Final = re.compile(r"\s*(?:-|\u2013|\u2212|\.\.\.?|\u2026|/|:|~|\bto\b|\bbis\b|;|\+|,|&|\n)\s*")
_BIT: Final = re.compile(r"(?P<register>[0-9]+|0[xX][0-9A-Fa-f]+)\s*[.:/]\s*(?:[bB](?:it)?\s*)?(?P<bit>[0-9]{1,2})")


@lru_cache(maxsize=65_536)
def register_text(text: str, *, hexadecimal: bool = False, coil: bool = False) -> RegisterText:
    """The register that a text names: 310, 40001, 4x0001, 0x136, 136h, 16#136, %MW310, 40001-40002, 40001.3 (bit 3).

    `hexadecimal`: plain digits are hexadecimal too. `coil`: it is said to be a coil, so that 0x0017 is number 17 in the
    table 0x; everywhere else 0x is hexadecimal. Raises NotANumber.
    """
    bare = text.strip()
    plain = BLANKS.sub("", bare)
    if found := _TABLE_X.fullmatch(plain):
        digits = found[2]
        # 4x0001 has the digits of 40001, 4x00001 those of 400001; a number written shorter is filled up.
        return RegisterText(int(found[1] + digits.rjust(4, "0")))
    if coil and not hexadecimal and (found := _COIL_X.fullmatch(plain)):
        return RegisterText(int(found[1]))
    if (single := _register(plain, hexadecimal=hexadecimal)) is not None:
        return RegisterText(single)
    if found := _BIT.fullmatch(bare):
        first = _register(found["register"], hexadecimal=hexadecimal)
        bit = int(found["bit"])
        if first is not None and bit <= 63:
            return RegisterText(first, bit=bit)
    ends = [_register(BLANKS.sub("", end), hexadecimal=hexadecimal) for end in _RANGE.split(bare)]
    if len(ends) >= 2 and all(end is not None for end in ends):
        first, last = ends[0], ends[-1]
        assert first is not None
        assert last is not None
        if first < last <= first + 125 and (len(ends) == 2 or ends == list(range(first, last + 1))):
            return RegisterText(first, last)
    raise NotANumber(_no_register(bare))


def _register(plain: str, *, hexadecimal: bool) -> int | None:
    if found := HEXADECIMAL.fullmatch(plain):
        return int(found[1] or found[2], 16)
    if hexadecimal and re.fullmatch("[0-9A-Fa-f]{1,6}", plain):
        return int(plain, 16)
    if re.fullmatch("[0-9]{1,7}", plain):
        return int(plain)
    if found := _IEC_PLACE.fullmatch(plain):
        return int(found[1])
    return None


def _no_register(bare: str) -> str:
    if re.fullmatch(r"[0-9]{1,3}[.,][0-9]{3}", bare):
        return translate(
            "exchange", "'{text}' can be a register with a thousands separator, or a part of one; write plain digits"
        ).format(text=short(bare))
    if re.fullmatch(r"(?=.*[A-Fa-f])[0-9A-Fa-f]{2,6}", bare):
        return translate(
            "exchange", "'{text}' is a register only if registers are hexadecimal: set this above, or write 0x{text}"
        ).format(text=short(bare))
    return translate("exchange", "'{text}' is not a register number").format(text=short(bare))


@lru_cache(maxsize=4096)
def factor(text: str, decimal_mark: DecimalMark | None) -> tuple[Fraction, str]:
    """The factor that a text names, and a unit if one stands behind it: 0.1, x0.1, /10, 1/100, 10^-2, "0.1 Hz".

    Raises NotANumber; also for 0, which gives no scale.
    """
    bare = " ".join(text.split())
    found = _FACTOR.fullmatch(bare)
    if found is None:
        raise NotANumber(mark("exchange", "'{text}' is not a factor"), text=short(text))
    if found["power"]:
        exponent = int(bare_number(found["power"]))
        if abs(exponent) > 30:
            raise NotANumber(mark("exchange", "'{text}' is not a factor"), text=short(text))
        result = Fraction(10) ** exponent
    elif found["under"]:
        top = Fraction(number(found["top"], decimal_mark)) if found["top"] else Fraction(1)
        under = Fraction(number(found["under"], decimal_mark))
        if not under:
            raise NotANumber(mark("exchange", "a factor cannot be divided by 0"))
        result = top / under
    else:
        result = Fraction(number(found["factor"], decimal_mark))
    if not result:
        raise NotANumber(mark("exchange", "a factor of 0 makes every value 0"))
    if max(abs(result.numerator), result.denominator) >= 10**30:
        raise NotANumber(mark("exchange", "'{text}' has too many digits"), text=short(text))
    return result, found["unit"] or ""


_DIGITS: Final = r"[+\-\u2212]?[0-9.,]*[0-9](?:[eE][+-]?[0-9]{1,2})?"
_FACTOR: Final = re.compile(
    rf"(?:[xX\u00d7*\u00b7]\s*)?"
    rf"(?:10\s*(?:\^|\*\*)\s*\(?(?P<power>[+\-\u2212]?[0-9]{{1,2}})\)?"
    rf"|(?P<top>{_DIGITS})?\s*[/:\u00f7]\s*(?P<under>{_DIGITS})"
    rf"|(?P<factor>{_DIGITS}))"
    r"\s*(?P<unit>[^\W\d_][^,;]{0,15}|[%\u2030\u00b0\u00b5\u03a9][^,;]{0,15})?"
)
