"""The ways in which registers can hold a number: data type, order of the words, order of the bytes."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final, NamedTuple, TypeAlias

from app.signals.encoding import ENCODINGS, EncodingName, Implausible, decode, is_text, register_count
from app.signals.numbering import Table
from app.signals.order import WordOrder

RegisterWords: TypeAlias = Mapping[tuple[Table, int], int]
"""Words 0..65535 by table and wire address, all of one moment."""

ORDERS: Final[tuple[WordOrder, ...]] = ("high-first", "low-first")


class Way(NamedTuple):
    """One of them."""

    encoding: EncodingName
    word_order: WordOrder = "high-first"
    byte_order: WordOrder = "high-first"

    @property
    def width(self) -> int:
        """How many registers it takes: 1, 2 or 4."""
        return register_count(self.encoding)

    def raw(self, registers: RegisterWords, table: Table, address: int) -> int | float | None:
        """The number in the registers from an address on; None if one is missing, or they hold none of this kind."""
        words = [registers.get((table, address + step)) for step in range(self.width)]
        found = [word for word in words if word is not None]
        if len(found) < self.width:
            return None
        try:
            raw = decode(self.encoding, found, self.word_order, self.byte_order)
        except Implausible:
            return None
        return None if isinstance(raw, str) else raw


WAYS: Final[tuple[Way, ...]] = tuple(
    Way(encoding, word_order, byte_order)
    for encoding in ENCODINGS
    if not is_text(encoding)
    for word_order in (ORDERS if register_count(encoding) > 1 else ORDERS[:1])
    for byte_order in ORDERS
)
"""All that `app.signals.encoding` knows for numbers, the most usual order first."""
