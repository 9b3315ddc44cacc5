"""Which characters a panel can show, and the code of each in its display controller.

The repertoires are data files in resources/repertoires; each says in its own notes where it comes from.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from types import MappingProxyType
from typing import Final

REPERTOIRES: Final = ("ascii", "latin-1", "lcd-kana", "lcd-european")
"""The names of all repertoires."""

REPLACEMENT: Final = "?"
"""Stands for a character that the panel cannot show. Every repertoire has it."""


_SPELLED: Final[Mapping[str, str]] = MappingProxyType(
    {"ä": "ae", "ö": "oe", "ü": "ue", "Ä": "Ae", "Ö": "Oe", "Ü": "Ue", "ß": "ss"}
    | dict.fromkeys("\u201c\u201d\u201e", '"')
    | dict.fromkeys("\u2018\u2019\u201a", "'")
    | {"\u2013": "-", "\u2026": "...", "\u2192": "->", "\u00a0": " "}
)
"""What one writes where a letter is missing: the usual German spelling, and plain signs for those of printers."""


@dataclass(frozen=True, slots=True)
class Repertoire:
    """The characters of one panel.

    `codes` gives the code, 0..255, of each character that can be shown.
    """

    name: str
    title: str
    notes: str
    codes: Mapping[str, int]


@cache
def repertoire(name: str) -> Repertoire:
    """The repertoire of that name. Raises ValueError if there is none."""
    if name not in REPERTOIRES:
        raise ValueError(f"there is no repertoire {name!r}; there are {', '.join(REPERTOIRES)}")
    file = resources.files("resources") / "repertoires" / f"{name}.toml"
    data = tomllib.loads(file.read_text(encoding="utf-8"))
    codes: dict[str, int] = {}
    for row in data["row"]:
        codes.update((character, row["first"] + offset) for offset, character in enumerate(row["characters"]))
    codes.update(data.get("also", {}))
    return Repertoire(name, data["title"], data["notes"], MappingProxyType(codes))


@cache
def characters(name: str) -> frozenset[str]:
    """All characters that a panel with that repertoire can show. Raises ValueError if there is none of that name."""
    return frozenset(repertoire(name).codes)


def missing(name: str, text: str) -> str:
    """The characters of the text that the panel cannot show, each once, in the order of the text."""
    known = characters(name)
    return "".join(dict.fromkeys(character for character in text if character not in known))


def shown(name: str, text: str) -> str:
    """The text with '?' for every character that the panel cannot show, so its length stays the same."""
    known = characters(name)
    return "".join(character if character in known else REPLACEMENT for character in text)


def spelled(name: str, text: str) -> str:
    """The text with other letters for those that the panel cannot show ("ae" for "ä"), and '?' for the rest.

    For messages, whose length may change. The program may speak another language than the panel has letters for.
    """
    known = characters(name)
    return shown(name, "".join(each if each in known else _SPELLED.get(each, each) for each in text))
