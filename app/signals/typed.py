"""Numbers as a person types them into a row, a cell or a bar. Stricter than in lists: blanks stand in no number."""

from __future__ import annotations

import re
from collections.abc import Sequence
from decimal import Decimal
from typing import Final

from app.language import decimal_mark, mark, translate, with_mark
from app.signals.numbers import BLANKS, HEXADECIMAL, NotANumber, number as number_with, short

_EITHER: Final = {
    ".": re.compile(r"([-+]?[1-9]\d{0,2}),(\d{3})"),
    ",": re.compile(r"([-+]?[1-9]\d{0,2})\.(\d{3})"),
}
"""The mark that is not the one of the language may stand for it, or between thousands."""


def whole(text: str) -> int:
    """A whole number, also in hexadecimal: 0x1F, 1Fh. Raises ValueError in words."""
    text = text.strip().replace("\N{MINUS SIGN}", "-")
    if not text:
        raise ValueError(translate("typed", "enter a whole number"))
    if (found := HEXADECIMAL.fullmatch(text)) is not None:
        return int(found[1] or found[2], 16)
    if not re.fullmatch(r"[-+]?[0-9]{1,40}", text):
        raise ValueError(translate("typed", "'{text}' is not a whole number").format(text=text))
    return int(text)


def number(text: str) -> Decimal:
    """A number, kept exactly as typed, with a point or a comma; 47Fh and 0x47F are whole numbers in hexadecimal.
    Raises ValueError in words.

    "1,500" is refused where numbers are written with a point, and "1.500" where they are written with a comma: who
    writes it may mean either of two numbers.
    """
    text = text.strip()
    if not text:
        raise ValueError(translate("typed", "enter a number"))
    if HEXADECIMAL.fullmatch(text) is not None:
        return Decimal(whole(text))
    if (either := _EITHER[decimal_mark()].fullmatch(text)) is not None:
        raise ValueError(
            translate("typed", "'{text}' can mean {small} or {large}; write it so that only one is possible").format(
                text=text, small=with_mark(f"{either[1]}.{either[2]}"), large=f"{either[1]}{either[2]}"
            )
        )
    if BLANKS.search(text):
        raise NotANumber(mark("exchange", "'{text}' is not a number"), text=short(text))
    # A number that is not typed to its end yet, "5.", is one already.
    told = "." if "," not in text else decimal_mark() if "." not in text and decimal_mark() == "," else None
    return number_with(re.sub(r"(?<=[0-9])[.,]$", "", text), told)


def optional_number(text: str) -> Decimal | None:
    """A number, or None for an empty text."""
    return number(text) if text.strip() else None


def pair(texts: Sequence[str]) -> tuple[Decimal, Decimal] | None:
    """Two numbers, or None if both texts are empty. Raises ValueError in words if one is missing."""
    if not any(text.strip() for text in texts):
        return None
    if not all(text.strip() for text in texts):
        raise ValueError(translate("typed", "enter both numbers, or neither"))
    return number(texts[0]), number(texts[1])


def plain(value: object) -> str:
    """A value as a person types it; None is empty, names have commas between."""
    if value is None:
        return ""
    if isinstance(value, tuple):
        return ", ".join(plain(each) for each in value)
    return with_mark(format(value, "f")) if isinstance(value, Decimal) else str(value)
