"""What differs between two snapshots: value by value where a signal covers the registers, else word by word."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from app.project.raw_register import number_of
from app.signals.numbering import Table
from app.snapshots.snapshot import TABLES, RegisterSnapshot, Said


@dataclass(frozen=True, slots=True)
class RegisterDifference:
    """One value, or one register that belongs to no signal. None: not read on that side.

    `address` is on the wire, `number` in the follower's own numbering. The texts are values with units, if a signal
    covers the registers.
    """

    table: Table
    address: int
    count: int
    number: int
    before: tuple[int, ...] | None
    after: tuple[int, ...] | None
    signal: str = ""
    text_before: str = ""
    text_after: str = ""
    measured: bool = False
    """It changes by itself: an input, or a signal that is not to be written."""

    @property
    def differs(self) -> bool:
        """Whether the two sides differ."""
        return self.before != self.after

    @property
    def said_before(self) -> str:
        """The former value, or its words."""
        return self._text(self.text_before, self.before)

    @property
    def said_after(self) -> str:
        """The later value, or its words."""
        return self._text(self.text_after, self.after)

    def _text(self, text: str, words: tuple[int, ...] | None) -> str:
        # Values that differ by less than their last decimal would read the same.
        alike = self.differs and self.text_before == self.text_after
        return f"{text} ({_words(words)})" if text and alike else text or _words(words)


def compare(before: RegisterSnapshot, after: RegisterSnapshot) -> tuple[RegisterDifference, ...]:
    """A row for each value of either, equal ones too, by table and address."""
    return tuple(sorted(_rows(before, after), key=lambda row: (TABLES.index(row.table), row.address)))


def _rows(before: RegisterSnapshot, after: RegisterSnapshot) -> Iterator[RegisterDifference]:
    texts = [{_span(said): said.text for said in each.signals} for each in (before, after)]
    claimed: set[tuple[Table, int]] = set()
    known = {_span(said): said for each in (before, after) for said in each.signals}
    # A value of several registers is whole before any signal that sees only a part of it.
    for span, said in sorted(known.items(), key=lambda item: (-item[1].count, item[1].measured)):
        places = {(said.table, said.address + at) for at in range(said.count)}
        if claimed & places:
            continue
        claimed |= places
        number = number_of(after.numbering, said.table, said.address)
        was, now = (each.words(said.table, said.address, said.count) for each in (before, after))
        said_was, said_now = (text.get(span, "") for text in texts)
        yield RegisterDifference(
            said.table, said.address, said.count, number, was, now, said.name, said_was, said_now, said.measured
        )
    for table, at in {*before.registers, *after.registers} - claimed:
        was, now = before.words(table, at, 1), after.words(table, at, 1)
        measured = table in ("discrete", "input")
        yield RegisterDifference(table, at, 1, number_of(after.numbering, table, at), was, now, measured=measured)


def _span(said: Said) -> tuple[Table, int, int, str]:
    return said.table, said.address, said.count, said.name


def _words(words: tuple[int, ...] | None) -> str:
    return "" if words is None else " ".join(map(str, words))
