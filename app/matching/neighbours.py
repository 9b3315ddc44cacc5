"""A register that looks wrong: what it and its neighbours hold in every way, and which order of words is likely."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final, NamedTuple

from app.language import translate
from app.matching.reading_ways import ORDERS, WAYS, RegisterWords, Way
from app.signals.encoding import EncodingName, has_word_order, is_float
from app.signals.numbering import LAST_ADDRESS, Table
from app.signals.order import WordOrder

_LEAST, _GREATEST = 1e-4, 1e7
"""Between these a float of a machine lies, if it is not 0 (common practice, no source)."""

_CLEARLY: Final = 16
"""So many times as much must any other order move for one to be clear. A byte in the wrong place moves 256 times as
much, or a 256th."""


class Neighbour(NamedTuple):
    """What stands at an address in one way, at each moment; None where that cannot be said."""

    address: int
    way: Way
    raws: tuple[int | float | None, ...]


def neighbours(history: Sequence[RegisterWords], table: Table, address: int) -> tuple[Neighbour, ...]:
    """The register before, the register itself and the one after, in all ways, way by way: what is at none is left out.

    `history` are the registers at one or more moments.
    """
    found = []
    for way in WAYS:
        for at in range(max(address - 1, 0), min(address + 1, LAST_ADDRESS) + 1):
            raws = tuple(way.raw(registers, table, at) for registers in history)
            if any(raw is not None for raw in raws):
                found.append(Neighbour(at, way, raws))
    return tuple(found)


class _Tried(NamedTuple):
    implausible: bool
    moved: float
    usual: int
    word_order: WordOrder
    byte_order: WordOrder
    raws: tuple[int | float | None, ...]


@dataclass(frozen=True, slots=True)
class LikelyOrder:
    """One order of words and bytes, and what speaks for it."""

    word_order: WordOrder
    byte_order: WordOrder
    raws: tuple[int | float | None, ...]
    clear: bool
    """Whether it alone makes sense. At most one order is clear."""
    evidence: str
    """In a sentence."""


def likely_orders(
    history: Sequence[RegisterWords], table: Table, address: int, encoding: EncodingName
) -> tuple[LikelyOrder, ...]:
    """The orders in which numbers of this kind can stand from an address on, the likeliest first; none of one word.

    The right order is the one in which the number changes least: the fast word of a counter is its low word, and a
    float's exponent keeps still. Of floats only those count whose size is plausible.
    """
    if not has_word_order(encoding):
        return ()
    tried = []
    for at, (word_order, byte_order) in enumerate((word, byte) for byte in ORDERS for word in ORDERS):
        raws = tuple(Way(encoding, word_order, byte_order).raw(registers, table, address) for registers in history)
        numbers = [raw for raw in raws if raw is not None]
        if not numbers:
            continue
        plausible = len(numbers) == len(raws) and (not is_float(encoding) or all(map(_is_plausible, numbers)))
        moved = _moved(numbers, encoding) if plausible else math.inf
        tried.append(_Tried(not plausible, moved, at, word_order, byte_order, raws))
    tried.sort(key=lambda each: each[:3])
    return tuple(
        LikelyOrder(each.word_order, each.byte_order, each.raws, *_evidence(encoding, tried, number))
        for number, each in enumerate(tried)
    )


def _is_plausible(number: float) -> bool:
    return not number or _LEAST <= abs(number) <= _GREATEST


def _moved(numbers: Sequence[int | float], encoding: EncodingName) -> float:
    """How much a number changed; of one that did not change, how large it is."""
    moved = [abs(after - before) for before, after in pairwise(numbers) if after != before]
    if moved and is_float(encoding):
        # Relative to its size: a float that changes by itself is not one that jumps across decades.
        return math.fsum(moved) / (math.fsum(map(abs, numbers)) or 1)
    return math.fsum(moved) if moved else float(abs(numbers[0]))


def _evidence(encoding: EncodingName, tried: Sequence[_Tried], number: int) -> tuple[bool, str]:
    this = tried[number]
    if this.implausible:
        return False, translate("matching", "not likely: the number would be very large, very small or none")
    changes = len(set(this.raws)) > 1
    plausible = [each for each in tried if not each.implausible]
    if number == 0 and is_float(encoding) and len(plausible) == 1 and any(this.raws):
        return True, translate("matching", "only in this order is it a number of a usual size")
    if number == 0 and changes and all(each.moved >= _CLEARLY * this.moved for each in plausible[1:]):
        return True, translate("matching", "in this order it changes little by little, in any other by leaps")
    if number == 0 and not changes:
        return False, translate("matching", "it did not change; read it again after a while, or at another value")
    return False, translate("matching", "possible")
