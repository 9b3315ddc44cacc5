"""Numbers as people write them, typed into a row or found in a list: decimal marks, thousands, hexadecimal, pairs."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from typing import Final

from app.errors import FanlightError
from app.language import DecimalMark, translate

"""The decimal mark of a file."""


class NotANumber(FanlightError, ValueError):
    """The text is no number of the kind that was asked for. The message says why, in words for the user."""


BLANKS: Final = re.compile("[\u0020\u00a0\u2007\u2009\u202f_']")
_NUMBER: Final = re.compile(r"[+-]?(?:[0-9]+(?:[.,][0-9]+)*|[.,][0-9]+)(?:[eE][+-]?[0-9]{1,3})?")
_GROUPED: Final = re.compile(r"[+-]?[0-9]{1,3}(?:([.,])[0-9]{3})+")
_MOST_DIGITS: Final = 40


@dataclass(frozen=True, slots=True)
class MarkFound:
    """The decimal mark by which a file seems to be written."""

    mark: DecimalMark | None
    """None: nothing in the file tells."""
    example: str = ""
    """The number that tells it."""
    contrary: str = ""
    """A number that tells the other mark; the file then mixes both."""


def find_mark(texts: Iterable[str]) -> MarkFound:
    """The decimal mark by which these cells seem to be written.

    What can be read in both ways (1,234) tells nothing.
    """
    seen: dict[DecimalMark, str] = {}
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
def _told_mark(text: str) -> DecimalMark | None:
    """The decimal mark that one number tells by its form, if it does."""
    text = bare_number(text)
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


def bare_number(text: str) -> str:
    """A number without blanks, its minus sign a hyphen."""
    return BLANKS.sub("", text.strip()).replace("\u2212", "-").replace("\u2013", "-")


@lru_cache(maxsize=65_536)
def number(text: str, decimal_mark: DecimalMark | None) -> Decimal:
    """The number that a text is, exactly. Without a mark, what could be read in two ways is refused.

    Raises NotANumber.
    """
    bare = bare_number(text)
    if not _NUMBER.fullmatch(bare):
        raise NotANumber(translate("exchange", "'{text}' is not a number").format(text=short(text)))
    if sum(character.isdigit() for character in bare) > _MOST_DIGITS:
        raise NotANumber(translate("exchange", "'{text}' has too many digits").format(text=short(text)))
    mark = decimal_mark or _told_mark(text)
    if mark is None:
        if "." in bare or "," in bare:
            raise NotANumber(
                translate(
                    "exchange", "'{text}' can mean {small} or {large}: choose the decimal mark of the file above"
                ).format(text=short(text), small=re.sub("[.,]", ".", bare), large=re.sub("[.,]", "", bare))
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
        raise NotANumber(translate("exchange", "'{text}' has too many digits").format(text=short(text)))
    return exact


def _other_mark(text: str, mark: DecimalMark) -> str:
    if mark == ".":
        return translate("exchange", "'{text}' is not a number with a decimal point").format(text=short(text))
    return translate("exchange", "'{text}' is not a number with a decimal comma").format(text=short(text))


def whole_number(text: str, decimal_mark: DecimalMark | None) -> int:
    """The whole number that a text is: also with thousands grouped, hexadecimal (0x1F, 1Fh, 16#1F) or as "5.0".

    Raises NotANumber.
    """
    found = HEXADECIMAL.fullmatch(BLANKS.sub("", text.strip()))
    if found:
        return int(found[1] or found[2], 16)
    exact = number(text, decimal_mark)
    if exact != exact.to_integral_value():
        raise NotANumber(translate("exchange", "'{text}' is not a whole number").format(text=short(text)))
    return int(exact)


HEXADECIMAL: Final = re.compile(r"(?:0[xX]|16#|\$|&[hH])([0-9A-Fa-f]{1,8})|([0-9][0-9A-Fa-f]{0,7})[hH]")
"""The ways of C, IEC 61131-3, and of assemblers and Basic (common practice)."""


_SPAN: Final = re.compile(
    r"\s*[\[(]?\s*(?P<lower>[+\-\u2212]?[0-9.,]*[0-9](?:[eE][+-]?[0-9]{1,2})?)"
    r"\s*(?:\.\.\.?|\u2026|-|\u2013|\u2014|~|;|\||/|\bto\b|\bbis\b|\u2192)\s*"
    r"(?P<upper>[+\-\u2212]?[0-9.,]*[0-9](?:[eE][+-]?[0-9]{1,2})?)\s*[\])]?(?:\s*[^\W\d].{0,15}|\s*[%\u00b0].{0,15})?\s*",
    re.IGNORECASE,
)


def span(text: str, read: Callable[[str], Decimal]) -> tuple[Decimal, Decimal]:
    """The two numbers in a text, each as `read` reads it: "0..50", "-10 to 10", "0 - 100 %". Raises NotANumber."""
    text = re.sub(r"(?<=[0-9])\s*(\.\.\.?|\u2026)\s*(?=[+\-\u2212.,0-9])", " ; ", text)
    found = _SPAN.fullmatch(text)
    if found is None:
        raise NotANumber(
            translate("exchange", "'{text}' is not a range; enter two numbers: 0 to 50").format(text=short(text))
        )
    return read(found["lower"]), read(found["upper"])


def short(text: str) -> str:
    """The text in one line of at most 40 characters, for a message."""
    line = " ".join(text.split())
    return line if len(line) <= 40 else line[:37] + "..."
