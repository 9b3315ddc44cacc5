"""What a person types into a row of a form, read as a value; what cannot be read is said in words."""

from __future__ import annotations

import re
from collections.abc import Sequence
from decimal import Decimal, InvalidOperation
from typing import Final

from PySide6.QtCore import QCoreApplication

translate = QCoreApplication.translate
_EITHER: Final = re.compile(r"([-+]?[1-9]\d{0,2}),(\d{3})")
"""A comma that may stand for the point or between thousands."""


def whole(text: str) -> int:
    """A whole number. Raises ValueError in words."""
    text = text.strip().replace("\N{MINUS SIGN}", "-")
    if not text:
        raise ValueError(translate("typed", "enter a whole number"))
    try:
        return int(text, 16) if text.lower().startswith("0x") else int(text)
    except ValueError:
        raise ValueError(translate("typed", "'{text}' is not a whole number").format(text=text)) from None


def number(text: str) -> Decimal:
    """A number, kept exactly as typed; a comma is taken for the point. Raises ValueError in words.

    "1,500" is refused: who writes it may mean either of two numbers.
    """
    text = text.strip().replace("\N{MINUS SIGN}", "-")
    if not text:
        raise ValueError(translate("typed", "enter a number"))
    if (either := _EITHER.fullmatch(text)) is not None:
        raise ValueError(
            translate("typed", "'{text}' can mean {small} or {large}; write it so that only one is possible").format(
                text=text, small=f"{either[1]}.{either[2]}", large=f"{either[1]}{either[2]}"
            )
        )
    if text.count(",") == 1 and "." not in text:
        text = text.replace(",", ".")
    try:
        value = Decimal(text)
    except InvalidOperation:
        value = Decimal("nan")
    if not value.is_finite() or "_" in text:
        raise ValueError(translate("typed", "'{text}' is not a number").format(text=text))
    return value


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
    return format(value, "f") if isinstance(value, Decimal) else str(value)
