"""The texts per value of a signal in one cell: "0=stopped; 1=running", in the panel's other languages a line each."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from functools import lru_cache
from typing import Final

from app.exchange.words import NotKnown
from app.language import translate

_VALUE: Final = r"(?:0[xX][0-9A-Fa-f]{1,8}|-?[0-9]{1,20}|otherwise\b)"
_SIGN: Final = r"(?:=|:|\u2192|->|\u2013|-(?=\s|[^\W\d]))"
_ENTRY: Final = re.compile(
    rf"\s*({_VALUE})\s*{_SIGN}\s*"
    r'(?:("(?:[^"\\]|\\.)*")|(.*?))'
    rf"\s*(?:[;,|\n/]+(?=\s*{_VALUE}\s*{_SIGN})|[;,]?\s*$)",
    re.DOTALL,
)
_PLAIN: Final = re.compile(r"[^\s;,|=:/\"\\]+(?: [^\s;,|=:/\"\\]+)*")
"""A text that needs no quotation marks in the list."""


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
                translate("exchange", "'{text}' is not a list of texts such as 0=stopped; 1=running").format(
                    text=" ".join(text.split())[:40]
                )
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
                translate("exchange", "'{text}' is not a line such as Deutsch: 0=steht; 1=läuft").format(
                    text=" ".join(line.split())[:40]
                )
            )
        found[_words(named[1], named[2])] = dict(texts_in(named[3]))
    return found


def written_texts(texts: Mapping[str, str]) -> str:
    """Values and texts as `texts_in` reads them."""
    return "; ".join(f"{value}={_written(words)}" for value, words in texts.items())


def written_languages(texts: Mapping[str, Mapping[str, str]]) -> str:
    """The texts of other languages as `texts_in_languages` reads them."""
    return "\n".join(f"{_written(language)}: {written_texts(words)}" for language, words in texts.items())


def _written(text: str) -> str:
    return text if _PLAIN.fullmatch(text) else json.dumps(text)


def _words(quoted: str | None, plain: str | None) -> str:
    if quoted is None:
        return plain or ""
    try:
        return str(json.loads(quoted, strict=False))
    except ValueError:
        return quoted
