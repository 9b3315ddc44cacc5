"""Which end comes first, of the words of a long value and of the bytes of a word."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

WordOrder = Literal["high-first", "low-first"]


def swapped(word: int) -> int:
    """The 16-bit word with its two bytes exchanged."""
    return (word & 0xFF) << 8 | word >> 8


def arranged(words: Sequence[int], word_order: WordOrder, byte_order: WordOrder) -> Sequence[int]:
    """The words in the other arrangement: most significant first from the follower's order, or back.

    The exchange is its own inverse, so the same call serves both directions.
    """
    if byte_order == "low-first":
        words = [swapped(word) for word in words]
    if word_order == "low-first":
        words = words[::-1]
    return words
