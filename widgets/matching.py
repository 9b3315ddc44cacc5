"""How well a few typed words or letters fit a name."""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence
from functools import lru_cache

START, WORD_START, INSIDE, BESIDE, INITIALS = 0, 1, 3, 4, 6
"""What a typed word costs by where it was found: at the start of the name, of a word in it, elsewhere in the name, in
what stands beside the name, or as the beginnings of several words ("plfi" for "Place a field")."""


@lru_cache(maxsize=8192)
def folded(text: str) -> str:
    """The text as it is compared: without case and without accents."""
    parts = unicodedata.normalize("NFKD", text.casefold())
    return "".join(character for character in parts if not unicodedata.combining(character))


def cost(typed: str, name: str, beside: str = "") -> int | None:
    """How far `name` is from what was typed, 0 and up; None if it does not fit.

    Every typed word must be found, in any order, in the name or in `beside` (a menu, a key).
    """
    total = 0
    name, beside = folded(name), folded(beside)
    for word in folded(typed).split():
        found = _word_cost(word, name, beside)
        if found is None:
            return None
        total += found
    return total


def _word_cost(word: str, name: str, beside: str) -> int | None:
    at = name.find(word)
    if at == 0:
        return START
    if at > 0:
        words = _words(name)
        return WORD_START if any(each.startswith(word) for each in words) else INSIDE
    if word in beside:
        return BESIDE
    if len(word) > 1 and _begins(word, _words(name)):
        return INITIALS
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
