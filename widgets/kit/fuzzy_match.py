"""How well a few typed words or letters fit a name: the one order of every list that is narrowed by typing."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Iterable, Sequence
from enum import IntEnum
from functools import lru_cache
from typing import TypeVar

_T = TypeVar("_T")


class Fit(IntEnum):
    """How well what was typed fits, the best first."""

    EXACT = 0
    """It is the name."""
    START = 1
    """The name begins so."""
    WORD_START = 2
    """Each typed word begins a word of the name."""
    INSIDE = 3
    """Each is somewhere in the name."""
    BESIDE = 4
    """Some are only in what stands beside the name, such as its place, its menu or its key."""
    INITIALS = 5
    """Some are the beginnings of several words: "plfi" for "Place a field"."""


@lru_cache(maxsize=8192)
def folded(text: str) -> str:
    """The text as it is compared: without case and without accents."""
    parts = unicodedata.normalize("NFKD", text.casefold())
    return "".join(character for character in parts if not unicodedata.combining(character))


def fit(typed: str, name: str, beside: str = "") -> Fit | None:
    """How well a name fits what was typed; None if it does not.

    Every typed word must be found, in any order, in the name or in `beside` (a place, a menu, a key). The word that
    fits worst decides.
    """
    name, beside = folded(name), folded(beside)
    words = folded(typed).split()
    whole = " ".join(words)
    if whole == " ".join(name.split()):
        return Fit.EXACT
    if name.startswith(whole):
        return Fit.START
    found = [_word_fit(word, name, beside) for word in words]
    return max((each for each in found if each is not None), default=Fit.START) if None not in found else None


def best_first(typed: str, items: Iterable[_T], name: Callable[[_T], str], beside: Callable[[_T], str]) -> list[_T]:
    """Those of the items that fit what was typed, in the order of `Fit`; of equal ones the order is kept."""
    fitting = [(found, item) for item in items if (found := fit(typed, name(item), beside(item))) is not None]
    fitting.sort(key=lambda each: each[0])
    return [item for _, item in fitting]


def _word_fit(word: str, name: str, beside: str) -> Fit | None:
    words = _words(name)
    if name.startswith(word) or any(each.startswith(word) for each in words):
        return Fit.WORD_START
    if word in name:
        return Fit.INSIDE
    if word in beside:
        return Fit.BESIDE
    if len(word) > 1 and _begins(word, words):
        return Fit.INITIALS
    return None


@lru_cache(maxsize=8192)
def _words(name: str) -> tuple[str, ...]:
    return tuple("".join(character if character.isalnum() else " " for character in name).split())


def _begins(letters: str, words: Sequence[str]) -> bool:
    """Whether the letters are beginnings of some of the words, in their order."""
    if not letters:
        return True
    for place, word in enumerate(words):
        for length in range(min(len(letters), len(word)), 0, -1):
            if word.startswith(letters[:length]) and _begins(letters[length:], words[place + 1 :]):
                return True
    return False
