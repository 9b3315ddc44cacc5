"""Numbers as people write them in lists: which decimal mark a file uses, registers, factors, ranges."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache
from typing import Final, Literal, TypeAlias

from app.language import translate

Mark: TypeAlias = Literal[".", ","]
"""The decimal mark of a file."""


class NotANumber(ValueError):
    """The text is no number of the kind that was asked for. The message says why, in words for the user."""


_BLANKS: Final = re.compile("[\u0020\u00a0\u2007\u2009\u202f_']")
_NUMBER: Final = re.compile(r"[+-]?(?:[0-9]+(?:[.,][0-9]+)*|[.,][0-9]+)(?:[eE][+-]?[0-9]{1,3})?")
_GROUPED: Final = re.compile(r"[+-]?[0-9]{1,3}(?:([.,])[0-9]{3})+")
_MOST_DIGITS: Final = 40


@dataclass(frozen=True, slots=True)
class MarkFound:
    """The decimal mark by which a file seems to be written."""

    mark: Mark | None
    """None: nothing in the file tells."""
    example: str = ""
    """The number that tells it."""
    contrary: str = ""
    """A number that tells the other mark; the file then mixes both."""


def find_mark(texts: Iterable[str]) -> MarkFound:
    """The decimal mark by which these cells seem to be written.

    What can be read in both ways (1,234) tells nothing.
    """
    seen: dict[Mark, str] = {}
    for text in texts:
        found = _told_mark(text)
        if found is not None:
            seen.setdefault(found, text)
            if len(seen) == 2:
                break
    if not seen:
        return MarkFound(None)
    (mark, example), *other = seen.items()
    return MarkFound(mark, example, other[0][1] if other else "")


@lru_cache(maxsize=65_536)
def _told_mark(text: str) -> Mark | None:
    """The decimal mark that one number tells by its form, if it does."""
    text = _bare(text)
    if ("." not in text and "," not in text) or not _NUMBER.fullmatch(text):
        return None
    marks = [character for character in text if character in ".,"]
    if len(set(marks)) == 2:
        last = marks[-1]
        return last if marks.count(last) == 1 else None  # type: ignore[return-value]
    if len(marks) > 1:
        return "," if marks[0] == "." else "."  # it groups thousands, so the other is the decimal mark
    whole, _, rest = text.lstrip("+-").partition(marks[0])
    rest = re.split("[eE]", rest)[0]
    ambiguous = len(rest) == 3 and 1 <= len(whole) <= 3 and not whole.startswith("0") and "e" not in text.lower()
    return None if ambiguous else marks[0]  # type: ignore[return-value]


def _bare(text: str) -> str:
    return _BLANKS.sub("", text.strip()).replace("\u2212", "-").replace("\u2013", "-")


@lru_cache(maxsize=65_536)
def number(text: str, decimal_mark: Mark | None) -> Decimal:
    """The number that a text is, exactly. Without a mark, what could be read in two ways is refused.

    Raises NotANumber.
    """
    bare = _bare(text)
    if not _NUMBER.fullmatch(bare):
        raise NotANumber(translate("exchange", "'{text}' is not a number").format(text=_short(text)))
    if sum(character.isdigit() for character in bare) > _MOST_DIGITS:
        raise NotANumber(translate("exchange", "'{text}' has too many digits").format(text=_short(text)))
    mark = decimal_mark or _told_mark(text)
    if mark is None:
        if "." in bare or "," in bare:
            raise NotANumber(
                translate(
                    "exchange", "'{text}' can mean {small} or {large}: choose the decimal mark of the file above"
                ).format(text=_short(text), small=re.sub("[.,]", ".", bare), large=re.sub("[.,]", "", bare))
            )
        mark = "."
    other = "," if mark == "." else "."
    whole, _, rest = bare.partition(mark)
    if mark in rest or other in rest:
        raise NotANumber(_other_mark(text, mark))
    if other in whole:
        if not _GROUPED.fullmatch(whole):
            raise NotANumber(_other_mark(text, mark))
        whole = whole.replace(other, "")
    exact = Decimal(f"{whole}.{rest}" if rest else whole)
    if exact.adjusted() > _MOST_DIGITS or (exact and exact.adjusted() < -_MOST_DIGITS):
        raise NotANumber(translate("exchange", "'{text}' has too many digits").format(text=_short(text)))
    return exact


def _other_mark(text: str, mark: Mark) -> str:
    if mark == ".":
        return translate("exchange", "'{text}' is not a number with a decimal point").format(text=_short(text))
    return translate("exchange", "'{text}' is not a number with a decimal comma").format(text=_short(text))


def whole_number(text: str, decimal_mark: Mark | None) -> int:
    """The whole number that a text is: also with thousands grouped, hexadecimal (0x1F, 1Fh, 16#1F) or as "5.0".

    Raises NotANumber.
    """
    found = _HEXADECIMAL.fullmatch(_BLANKS.sub("", text.strip()))
    if found:
        return int(found[1] or found[2], 16)
    exact = number(text, decimal_mark)
    if exact != exact.to_integral_value():
        raise NotANumber(translate("exchange", "'{text}' is not a whole number").format(text=_short(text)))
    return int(exact)


_HEXADECIMAL: Final = re.compile(r"(?:0[xX]|16#|\$|&[hH])([0-9A-Fa-f]{1,8})|([0-9][0-9A-Fa-f]{0,7})[hH]")
"""The ways of C, IEC 61131-3, and of assemblers and Basic (common practice)."""


@dataclass(frozen=True, slots=True)
class RegisterText:
    """A register as a list names it."""

    number: int
    last: int | None = None
    """Of a range: the last register, which belongs to it."""
    bit: int | None = None


_IEC_PLACE: Final = re.compile(r"%?[MIQ]W\s*([0-9]+)", re.IGNORECASE)
"""A directly represented variable of words as in IEC 61131-3: %MW100."""
_TABLE_X: Final = re.compile(r"([0134])[xX]\s*([0-9]{1,5})")
"""4x0001: the digit of the table, then the number in it (common practice)."""
_RANGE: Final = re.compile(r"\s*(?:-|\u2013|\u2212|\.\.\.?|\u2026|/|:|~|\bto\b|\bbis\b|;|\+|,|&|\n)\s*")
_BIT: Final = re.compile(r"(?P<register>[0-9]+|0[xX][0-9A-Fa-f]+)\s*[.:/]\s*(?:[bB](?:it)?\s*)?(?P<bit>[0-9]{1,2})")


@lru_cache(maxsize=65_536)
def register_text(text: str, *, hexadecimal: bool = False) -> RegisterText:
    """The register that a text names: 310, 40001, 4x0001, 0x136, 136h, 16#136, %MW310, 40001-40002, 40001.3 (bit 3).

    `hexadecimal`: plain digits are hexadecimal too. Raises NotANumber.
    """
    bare = text.strip()
    plain = _BLANKS.sub("", bare)
    if found := _TABLE_X.fullmatch(plain):
        digits = found[2]
        # 4x0001 has the digits of 40001, 4x00001 those of 400001; a number written shorter is filled up.
        return RegisterText(int(found[1] + digits.rjust(4, "0")))
    if (single := _register(plain, hexadecimal=hexadecimal)) is not None:
        return RegisterText(single)
    if found := _BIT.fullmatch(bare):
        first = _register(found["register"], hexadecimal=hexadecimal)
        bit = int(found["bit"])
        if first is not None and bit <= 63:
            return RegisterText(first, bit=bit)
    ends = [_register(_BLANKS.sub("", end), hexadecimal=hexadecimal) for end in _RANGE.split(bare)]
    if len(ends) >= 2 and all(end is not None for end in ends):
        first, last = ends[0], ends[-1]
        assert first is not None
        assert last is not None
        if first < last <= first + 125 and (len(ends) == 2 or ends == list(range(first, last + 1))):
            return RegisterText(first, last)
    raise NotANumber(_no_register(bare))


def _register(plain: str, *, hexadecimal: bool) -> int | None:
    if found := _HEXADECIMAL.fullmatch(plain):
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
        ).format(text=_short(bare))
    if re.fullmatch(r"(?=.*[A-Fa-f])[0-9A-Fa-f]{2,6}", bare):
        return translate(
            "exchange", "'{text}' is a register only if registers are hexadecimal: set this above, or write 0x{text}"
        ).format(text=_short(bare))
    return translate("exchange", "'{text}' is not a register number").format(text=_short(bare))


@lru_cache(maxsize=4096)
def factor(text: str, decimal_mark: Mark | None) -> tuple[Fraction, str]:
    """The factor that a text names, and a unit if one stands behind it: 0.1, x0.1, /10, 1/100, 10^-2, "0.1 Hz".

    Raises NotANumber; also for 0, which gives no scale.
    """
    bare = " ".join(text.split())
    found = _FACTOR.fullmatch(bare)
    if found is None:
        raise NotANumber(translate("exchange", "'{text}' is not a factor").format(text=_short(text)))
    if found["power"]:
        exponent = int(_bare(found["power"]))
        if abs(exponent) > 30:
            raise NotANumber(translate("exchange", "'{text}' is not a factor").format(text=_short(text)))
        result = Fraction(10) ** exponent
    elif found["under"]:
        top = Fraction(number(found["top"], decimal_mark)) if found["top"] else Fraction(1)
        under = Fraction(number(found["under"], decimal_mark))
        if not under:
            raise NotANumber(translate("exchange", "a factor cannot be divided by 0"))
        result = top / under
    else:
        result = Fraction(number(found["factor"], decimal_mark))
    if not result:
        raise NotANumber(translate("exchange", "a factor of 0 makes every value 0"))
    if max(abs(result.numerator), result.denominator) >= 10**30:
        raise NotANumber(translate("exchange", "'{text}' has too many digits").format(text=_short(text)))
    return result, found["unit"] or ""


_DIGITS: Final = r"[+\-\u2212]?[0-9.,]*[0-9](?:[eE][+-]?[0-9]{1,2})?"
_FACTOR: Final = re.compile(
    rf"(?:[xX\u00d7*\u00b7]\s*)?"
    rf"(?:10\s*(?:\^|\*\*)\s*\(?(?P<power>[+\-\u2212]?[0-9]{{1,2}})\)?"
    rf"|(?P<top>{_DIGITS})?\s*[/:\u00f7]\s*(?P<under>{_DIGITS})"
    rf"|(?P<factor>{_DIGITS}))"
    r"\s*(?P<unit>[^\W\d_][^,;]{0,15}|[%\u2030\u00b0\u00b5\u03a9][^,;]{0,15})?"
)


_LIMITS: Final = re.compile(
    r"\s*[\[(]?\s*(?P<lower>[+\-\u2212]?[0-9.,]*[0-9](?:[eE][+-]?[0-9]{1,2})?)"
    r"\s*(?:\.\.\.?|\u2026|-|\u2013|\u2014|~|;|\||/|\bto\b|\bbis\b|\u2192)\s*"
    r"(?P<upper>[+\-\u2212]?[0-9.,]*[0-9](?:[eE][+-]?[0-9]{1,2})?)\s*[\])]?(?:\s*[^\W\d].{0,15}|\s*[%\u00b0].{0,15})?\s*",
    re.IGNORECASE,
)


def limits(text: str, decimal_mark: Mark | None) -> tuple[Decimal, Decimal]:
    """The two limits in a text: "0..50", "-10 to 10", "0 - 100 %". Raises NotANumber."""
    text = re.sub(r"(?<=[0-9])\s*(\.\.\.?|\u2026)\s*(?=[+\-\u2212.,0-9])", " ; ", text)
    found = _LIMITS.fullmatch(text)
    if found is None:
        raise NotANumber(translate("exchange", "'{text}' is not a range such as 0..50").format(text=_short(text)))
    return number(found["lower"], decimal_mark), number(found["upper"], decimal_mark)


def _short(text: str) -> str:
    line = " ".join(text.split())
    return line if len(line) <= 40 else line[:37] + "..."
