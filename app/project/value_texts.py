"""Values of attributes as texts, and the texts read back: choices, yes or no, spans, scales, texts per value."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from decimal import Decimal, localcontext
from functools import lru_cache
from typing import Final

from app.errors import FanlightError
from app.language import mark, translate
from app.project.model import OTHERWISE, Scale
from app.project.problems import did_you_mean
from app.signals.numbers import span
from app.signals.typed import number, plain


class NotKnown(FanlightError, ValueError):
    """The text is not understood here. The message says so, and what would be, in words for the user."""


def choice_of(text: str, options: Mapping[str, str]) -> str:
    """The stored word of a choice: `options` are stored word -> what a person reads. The beginning of one is enough.

    Raises ValueError in words, with the choices.
    """
    wanted = text.strip().casefold()
    joined = re.sub(r"[\s_]+", "-", wanted)
    for word, shown in options.items():
        if wanted == shown.casefold() or joined == word.casefold():
            return word
    found = [
        word
        for word, shown in options.items()
        if wanted and (word.casefold().startswith(wanted) or shown.casefold().startswith(wanted))
    ]
    if len(found) == 1:
        return found[0]
    choices = ", ".join(dict.fromkeys(options.values()))
    if not options:
        raise ValueError(translate("cells", "there is nothing to choose from yet"))
    if not wanted:
        raise ValueError(translate("cells", "choose one of these: {choices}").format(choices=choices))
    if len(found) > 1:
        raise ValueError(
            translate("cells", "'{text}' is ambiguous: {choices}").format(
                text=text.strip(), choices=", ".join(options[word] for word in found[:8])
            )
        )
    if len(options) > 12:
        hint = did_you_mean(joined, options) or did_you_mean(wanted, options.values())
        why = translate("cells", "there is no '{text}'").format(text=text.strip())
        raise ValueError(f"{why}; {hint}" if hint else why)
    raise ValueError(
        translate("cells", "'{text}' is not one of these: {choices}").format(text=text.strip(), choices=choices)
    )


_YES: Final = frozenset(
    re.split(
        " ",
        "w rw r/w wr wo w/o write readwrite read/write read-write r/we rwe x 1 yes y true on ja j wahr s ls l/s "
        "schreiben lesen/schreiben lesenschreiben schreibbar \u2713 \u2714",
    )
)
_NO: Final = frozenset(
    re.split(
        " ", "r ro r/o read readonly read-only 0 no n false off const - \u2013 nein l lo l/o lesen nurlesen falsch"
    )
)


def yes_no() -> dict[bool, str]:
    """What a person reads for a yes or no."""
    return {True: translate("SignalCells", "yes"), False: translate("SignalCells", "no")}


@lru_cache(maxsize=4096)
def read_yes(text: str) -> bool:
    """Yes or no, also as lists say whether something may be written: R/W, RO, L/S. Nothing is no. Raises NotKnown."""
    word = re.sub(r"[\s_.]|-?only", "", text.casefold()).strip("()[]")
    if word in _YES:
        return True
    if word in _NO or not word:
        return False
    raise NotKnown(
        mark("exchange", "'{text}' is neither yes nor no; enter yes or no, or R/W or RO"),
        text=" ".join(text.split())[:40],
    )


# Two numbers, two points: in one text


def span_text(span: tuple[Decimal, Decimal]) -> str:
    """Two numbers: "0 to 50"."""
    word = translate("SignalCells", "to")
    return f"{plain(span[0])} {word} {plain(span[1])}"


def read_span(text: str) -> tuple[Decimal, Decimal] | None:
    """What `span_text` gives, or None for an empty text. Raises ValueError in words."""
    return span(text, number) if text.strip() else None


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


_NUMBER: Final = r"[-+\u2212]?[\d.,]+(?:[eE][-+]?\d+)?"
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


# A text per value

_VALUE: Final = r"(?:0[xX][0-9A-Fa-f]{1,8}|-?[0-9]{1,20}|otherwise\b)"
_SIGN: Final = r"(?:=|:|\u2192|->|\u2013|-(?=\s|[^\W\d]))"
_ENTRY: Final = re.compile(
    rf"\s*({_VALUE})\s*{_SIGN}\s*"
    r'(?:("(?:[^"\\]|\\.)*")|(.*?))'
    rf"\s*(?:[;,|\n/]+(?=\s*{_VALUE}\s*{_SIGN})|[;,]?\s*$)",
    re.DOTALL,
)
_PLAIN_NAME: Final = re.compile(r"[^\s;,|=:/\"\\]+(?: [^\s;,|=:/\"\\]+)*")
"""The name of a language that needs no quotation marks in a list."""


@lru_cache(maxsize=4096)
def texts_in(text: str) -> tuple[tuple[str, str], ...]:
    """The values and their texts in a cell: "0=stopped; 1=running", one a line, "0: off, 1: on". Raises NotKnown.

    A text may stand in quotation marks, as JSON writes it.
    """
    found: list[tuple[str, str]] = []
    at, end = 0, len(text.rstrip())
    while at < end:
        entry = _ENTRY.match(text, at)
        if entry is None:
            raise NotKnown(
                mark("exchange", "'{text}' is not a list of texts; enter a text per value: 0 = stopped; 1 = running"),
                text=" ".join(text.split())[:40],
            )
        value = entry[1]
        found.append((str(int(value, 16)) if value[:2].lower() == "0x" else value, _words(entry[2], entry[3])))
        at = entry.end()
    return tuple(found)


def texts_in_languages(text: str) -> dict[str, dict[str, str]]:
    """The texts of other languages, a line each: "Deutsch: 0=steht; 1=läuft". Raises NotKnown."""
    found: dict[str, dict[str, str]] = {}
    for line in text.split("\n"):
        if not line.strip():
            continue
        named = re.fullmatch(r'\s*(?:("(?:[^"\\]|\\.)*")|([^:"]+?))\s*:\s*(.*)', line)
        if named is None:
            raise NotKnown(
                mark("exchange", "'{text}' is not a line such as Deutsch: 0=steht; 1=läuft"),
                text=" ".join(line.split())[:40],
            )
        found[_words(named[1], named[2])] = dict(texts_in(named[3]))
    return found


def read_texts(text: str) -> dict[str, str]:
    """The texts per value that a person types into one cell, see `texts_in`. Raises NotKnown."""
    found: dict[str, str] = {}
    for value, words in texts_in(text):
        key = value if value == OTHERWISE else str(int(value))
        if key in found:
            raise NotKnown(mark("SignalCells", "the value {key} already has a text"), key=key)
        found[key] = words
    return found


def written_texts(texts: Mapping[str, str]) -> str:
    """Values and texts as `texts_in` reads them: "0 = stopped; 1 = running"."""
    return "; ".join(f"{value} = {_write(words)}" for value, words in texts.items())


def written_languages(texts: Mapping[str, Mapping[str, str]]) -> str:
    """The texts of other languages as `texts_in_languages` reads them."""
    return "\n".join(
        f"{language if _PLAIN_NAME.fullmatch(language) else _quote(language)}: {written_texts(words)}"
        for language, words in texts.items()
    )


@lru_cache(maxsize=4096)
def _write(text: str) -> str:
    """The text itself where it is read back as it is, with another one behind it or at the end; else in quotation
    marks."""
    if not text.isprintable() or '"' in text:
        return _quote(text)
    last, first = (("0", text),), (("0", text), ("1", "x"))
    return text if (texts_in(f"0 = {text}"), texts_in(f"0 = {text}; 1 = x")) == (last, first) else _quote(text)


def _quote(text: str) -> str:
    return json.dumps(text, ensure_ascii=not text.isprintable())


def _words(quoted: str | None, plain: str | None) -> str:
    if quoted is None:
        return plain or ""
    try:
        return str(json.loads(quoted, strict=False))
    except ValueError:
        return quoted
