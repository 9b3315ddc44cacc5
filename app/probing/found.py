"""What a search found out, as a value: it is shown while it grows, kept to be resumed, and printed as JSON."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from app.probing.probe import LineSettings
from app.signals.numbering import Table

StoppedBy = Literal["done", "budget", "person", "somebody else", "port gone"]


@dataclass(frozen=True, slots=True)
class FoundRange:
    """Registers that can be read, from the wire address `first` to `last`, both included."""

    table: Table
    first: int
    last: int


@dataclass(frozen=True, slots=True)
class FoundFollower:
    """One device that answered."""

    unit: int
    response_ms: float | None = None
    """Median, in milliseconds: from the end of a request to the first byte of its answer."""
    slow_response_ms: float | None = None
    """99 of 100 answers took no longer."""
    functions: tuple[int, ...] = ()
    """Of 1, 2, 3, 4, 8, 17 and 43 those that it has."""
    identification: Mapping[str, str] = field(default_factory=dict)
    """By the standard's own object names (VendorName, ProductCode, MajorMinorRevision ...) and 'ServerId'."""
    longest_read: int | None = None
    """Most registers that it returns in one read, 1 to 125."""
    in_flight: int | None = None
    """Requests that it takes at the same time, as far as tried; None: not tried."""
    gateway: Literal["", "no path", "no answer"] = ""
    """It is no device, but a gateway's word (exceptions 0A, 0B) for a unit behind it."""
    ranges: tuple[FoundRange, ...] = ()
    notes: tuple[str, ...] = ()
    """In words: 'answers to every address', 'refuses odd addresses' ..."""


@dataclass(frozen=True, slots=True)
class Found:
    """All that is known of a line. `heard` is of `app.listening`, as JSON would have it; None if nobody spoke."""

    settings: LineSettings | None = None
    heard: Mapping[str, object] | None = None
    followers: tuple[FoundFollower, ...] = ()
    probes: int = 0
    seconds: float = 0.0
    stopped_by: StoppedBy = "done"
