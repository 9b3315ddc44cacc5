"""Texts in one cell that stand for more than one value: limits, scales, texts per value; and words for choices."""

from __future__ import annotations

import re
from decimal import Decimal, localcontext
from typing import Final

from PySide6.QtCore import QCoreApplication

from app.project.model import OTHERWISE, Scale
from widgets.kit.parse import number, plain

translate = QCoreApplication.translate
_NUMBER: Final = r"[-+\u2212]?[\d.,]+(?:[eE][-+]?\d+)?"
_TEXT: Final = re.compile(r'\s*(-?\d+|otherwise)\s*=\s*(?:"((?:[^"]|"")*)"|([^;]*?))\s*(?:;|$)')


def table_words() -> dict[str, str]:
    """The tables, and what stands there for signals that are in none: stored word and what a person reads."""
    return {
        "holding": translate("SignalCells", "holding"),
        "input": translate("SignalCells", "input"),
        "coil": translate("SignalCells", "coil"),
        "discrete": translate("SignalCells", "discrete"),
        "bit": translate("SignalCells", "bit"),
        "held": translate("SignalCells", "held"),
    }


def orders() -> list[tuple[str, str]]:
    """The two orders of words or bytes: stored word and what a person reads."""
    return [
        ("high-first", translate("FollowerForm", "high first (standard)")),
        ("low-first", translate("FollowerForm", "low first")),
    ]


def yes_no() -> dict[bool, str]:
    """What a person reads for a yes or no."""
    return {True: translate("SignalCells", "yes"), False: translate("SignalCells", "no")}


def uses_text(count: int) -> str:
    """How often something is used, with a word where it is not."""
    return str(count) if count else translate("SignalCells", "unused")


# Two numbers, two points, texts: in one cell


def span_text(span: tuple[Decimal, Decimal]) -> str:
    """Two numbers: "0 to 50"."""
    word = translate("SignalCells", "to")
    return f"{plain(span[0])} {word} {plain(span[1])}"


def read_span(text: str) -> tuple[Decimal, Decimal] | None:
    """What `span_text` gives, or None for an empty text. Raises ValueError in words."""
    if not text.strip():
        return None
    word = re.escape(translate("SignalCells", "to"))
    parts = re.split(rf"\s*(?:\b(?:to|{word})\b|\.\.+|\u2026|;)\s*", text.strip())
    if len(parts) != 2:
        raise ValueError(translate("SignalCells", "enter two numbers: 0 to 50"))
    return number(parts[0]), number(parts[1])


def scale_text(scale: Scale | None) -> str:
    """A scale in one line: "0 to 10000 = 0 to 50", or "x 0.1 + 5" where its points say just that."""
    if scale is None:
        return ""
    if scale.raw == (Decimal(0), Decimal(1)):
        with localcontext(prec=90):
            slope = scale.value[1] - scale.value[0]
        offset = scale.value[0]
        if not offset:
            return f"x {plain(slope)}"
        return f"x {plain(slope)} {'-' if offset < 0 else '+'} {plain(abs(offset))}"
    return f"{span_text(scale.raw)} = {span_text(scale.value)}"


_FACTOR: Final = re.compile(rf"(?:[x*\u00d7]\s*)?({_NUMBER})(?:\s*([-+])\s*({_NUMBER}))?", re.I)
_DIVISOR: Final = re.compile(rf"(?:/|:|\u00f7)\s*({_NUMBER})")


def read_scale(text: str) -> Scale | None:
    """What `scale_text` gives; also "/ 10", and a number alone as a factor. Raises ValueError in words."""
    text = text.strip()
    if not text:
        return None
    if "=" in text:
        left, _, right = text.partition("=")
        raw, value = read_span(left), read_span(right)
        if raw is None or value is None:
            raise ValueError(translate("SignalCells", "enter two points: 0 to 10000 = 0 to 50"))
        return Scale(raw=raw, value=value)
    if (divisor := _DIVISOR.fullmatch(text)) is not None:
        return Scale(raw=(Decimal(0), number(divisor[1])), value=(Decimal(0), Decimal(1)))
    factor = _FACTOR.fullmatch(text)
    if factor is None:
        raise ValueError(translate("SignalCells", "enter two points: 0 to 10000 = 0 to 50; or a factor: x 0.1"))
    slope = number(factor[1])
    offset = number(f"{factor[2]}{factor[3]}") if factor[3] else Decimal(0)
    with localcontext(prec=90):
        return Scale(raw=(Decimal(0), Decimal(1)), value=(offset, offset + slope))


def texts_line(texts: dict[str, str]) -> str:
    """A text per value in one line: "0 = stopped; 1 = running"."""
    return "; ".join(f"{key} = {_guarded(text)}" for key, text in texts.items())


def _guarded(text: str) -> str:
    plain_enough = text == text.strip() and ";" not in text and not text.startswith('"')
    return text if plain_enough else '"' + text.replace('"', '""') + '"'


def read_texts_line(text: str) -> dict[str, str]:
    """What `texts_line` gives. Raises ValueError in words."""
    found: dict[str, str] = {}
    at = 0
    end = len(text.rstrip())
    while at < end:
        match = _TEXT.match(text, at)
        if match is None or match.end() == at:
            raise ValueError(translate("SignalCells", "enter a text per value: 0 = stopped; 1 = running"))
        key = match[1] if match[1] == OTHERWISE else str(int(match[1]))
        if key in found:
            raise ValueError(translate("SignalCells", "the value {key} already has a text").format(key=key))
        found[key] = match[3] if match[2] is None else match[2].replace('""', '"')
        at = match.end()
    return found
