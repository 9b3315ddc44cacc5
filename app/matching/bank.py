"""Registers of several moments as arrays, decoded in every way at once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final, NamedTuple

import numpy as np
from numpy.typing import NDArray

from app.matching.reading_ways import ORDERS, WAYS, RegisterWords, Way
from app.signals.numbering import Table

_TABLES: Final[tuple[Table, ...]] = ("holding", "input")


class Bank(NamedTuple):
    """Those registers of a table that were read at every moment."""

    table: Table
    addresses: NDArray[np.int64]
    """On the wire, rising."""
    words: NDArray[np.uint16]
    """A row a moment, a column an address."""

    def starts(self, width: int) -> NDArray[np.int64]:
        """The columns from which on so many registers follow without a gap."""
        count = len(self.addresses) - width + 1
        if count <= 0:
            return np.zeros(0, np.int64)
        return np.flatnonzero(self.addresses[width - 1 :] - self.addresses[:count] == width - 1)

    def moved(self, width: int) -> NDArray[np.bool_]:
        """For each of these columns, whether one of its words changed at all."""
        changes = (self.words != self.words[0]).any(axis=0)
        starts = self.starts(width)
        moved = np.zeros(len(starts), bool)
        for step in range(width):
            moved |= changes[starts + step]
        return moved


def banks(moments: Sequence[RegisterWords]) -> Iterator[Bank]:
    """Holding and input registers. An input register that is a holding register seen twice is left out: many devices
    answer both reads with the same registers."""
    holding: Bank | None = None
    if not moments:
        return
    for table in _TABLES:
        common = sorted(at for its, at in moments[0] if its == table)
        for moment in moments[1:]:
            common = [at for at in common if (table, at) in moment]
        words = np.array([[moment[table, at] for at in common] for moment in moments], np.uint16)
        bank = Bank(table, np.array(common, np.int64), words)
        if holding is not None:
            bank = _without_mirrored(bank, holding)
        else:
            holding = bank
        if len(bank.addresses):
            yield bank


def _without_mirrored(bank: Bank, other: Bank) -> Bank:
    """Left out is the whole mirror or nothing: single equal registers are a coincidence, mostly of zeros."""
    _, mine, its = np.intersect1d(bank.addresses, other.addresses, assume_unique=True, return_indices=True)
    same = (bank.words[:, mine] == other.words[:, its]).all(axis=0) & (bank.words[:, mine] != 0).any(axis=0)
    alive = (bank.words[:, mine] != 0).any(axis=0) | (other.words[:, its] != 0).any(axis=0)
    if not same.any() or same.sum() < 0.95 * alive.sum():
        return bank
    keep = np.ones(len(bank.addresses), bool)
    keep[mine] = False
    return Bank(bank.table, bank.addresses[keep], bank.words[:, keep])


class Decoded(NamedTuple):
    """All numbers of one way, as far as anything in their registers changed."""

    way: Way
    columns: NDArray[np.int64]
    raws: NDArray[np.float64]
    """A row a moment, a column a number; not-a-number where the registers hold none. Exact up to 2^53."""


def decoded(bank: Bank, *, moved: bool) -> Iterator[Decoded]:
    """Every way; with `moved` only numbers of which some register changed."""
    for width in (1, 2, 4):
        columns = bank.starts(width)
        if not len(columns):
            continue
        if moved:
            columns = columns[bank.moved(width)]
        for byte_order in ORDERS:
            words = [bank.words[:, columns + step] for step in range(width)]
            if byte_order == "low-first":
                words = [each.byteswap() for each in words]
            for word_order in ORDERS if width > 1 else ORDERS[:1]:
                bits = _joined(words if word_order == "high-first" else words[::-1])
                for way in WAYS:
                    if (way.width, way.word_order, way.byte_order) == (width, word_order, byte_order):
                        yield Decoded(way, columns, _numbers(way, bits))


def _joined(words: Sequence[NDArray[np.uint16]]) -> NDArray[np.uint64]:
    bits = np.zeros(words[0].shape, np.uint64)
    for word in words:
        bits = bits << np.uint64(16) | word
    return bits


def _numbers(way: Way, bits: NDArray[np.uint64]) -> NDArray[np.float64]:
    size = 2 * way.width
    if way.encoding.startswith("bcd"):
        return _bcd(bits, 4 * way.width)
    with np.errstate(invalid="ignore"):  # of floats that are not a number
        raws = bits.astype(f"u{size}").view(f"{way.encoding[0]}{size}").astype(np.float64)  # u2, i4, f8 ...
    raws[~np.isfinite(raws)] = np.nan
    return raws


def _bcd(bits: NDArray[np.uint64], digits: int) -> NDArray[np.float64]:
    total = np.zeros(bits.shape)
    for place in range(digits):
        digit = (bits >> np.uint64(4 * place) & np.uint64(15)).astype(np.float64)
        digit[digit > 9] = np.nan
        total += digit * 10**place
    return total
