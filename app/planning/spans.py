"""What is read: where signals stand in their table, and how often each should be fresh."""

from __future__ import annotations

from dataclasses import dataclass

AddressRange = tuple[int, int]
"""Wire addresses from the first to behind the last."""


@dataclass(frozen=True, slots=True)
class Span:
    """Where one signal stands in its table: `count` registers or bits from wire address `address` on.

    `every_ms` is how fresh it should be, in milliseconds.
    """

    signal: str
    address: int
    count: int
    every_ms: int = 1000

    @property
    def end(self) -> int:
        """The first address behind it."""
        return self.address + self.count


@dataclass(frozen=True, slots=True)
class ReadGroup:
    """Signals that are read together every `every_ms` milliseconds, in order of address."""

    every_ms: int
    spans: tuple[Span, ...]
