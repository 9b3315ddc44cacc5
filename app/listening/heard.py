"""What was understood of other masters' bytes, as a value: units, functions, registers with their values over time.

Times are seconds since the beginning of listening.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from app.modbus.serial_port import LineSettings
from app.signals.numbering import Table


class HeardValues(NamedTuple):
    """From a time on, registers held these words, or coils these bits (0 or 1)."""

    time_s: float
    words: tuple[int, ...]


class HeardRange(NamedTuple):
    """Registers from the wire address `first` to `last`, both included."""

    table: Table
    first: int
    last: int


@dataclass(frozen=True, slots=True)
class HeardRequest:
    """What another master asks for again and again: registers read, or written."""

    function: int
    table: Table
    first: int
    count: int
    writes: bool
    asked: int
    answered: int
    """How often its answer followed; never for unit 0, whom nobody answers."""
    refused: Mapping[int, int] = field(default_factory=dict)
    """How often, by exception code."""
    last_s: float = 0.0
    """When it was answered last."""
    samples: tuple[HeardValues, ...] = ()
    """Each change of what it holds, oldest first; at most the newest `MOST_SAMPLES` of `app.listening.listener`."""

    @property
    def last(self) -> int:
        """The last address on the wire."""
        return self.first + self.count - 1

    def as_json(self) -> dict[str, object]:
        """For scripts: without the samples but the newest."""
        return {
            "function": self.function,
            "table": self.table,
            "first": self.first,
            "last": self.last,
            "writes": self.writes,
            "asked": self.asked,
            "answered": self.answered,
            "refused": {str(code): count for code, count in sorted(self.refused.items())},
            "values": list(self.samples[-1].words) if self.samples else None,
        }


@dataclass(frozen=True, slots=True)
class HeardUnit:
    """One device that another master talks to, or would like to: `answers` says whether it ever did answer."""

    unit: int
    functions: tuple[int, ...]
    """Function codes that it was asked for, rising."""
    requests: tuple[HeardRequest, ...]
    """By table and address."""

    @property
    def answers(self) -> bool:
        """Whether it was heard itself."""
        return any(request.answered or request.refused for request in self.requests)

    @property
    def ranges(self) -> tuple[HeardRange, ...]:
        """The registers that it has for certain, since it answered, neighbours joined."""
        joined: list[HeardRange] = []
        for request in sorted(self.requests, key=lambda one: (one.table, one.first)):
            if not request.answered:
                continue
            if joined and joined[-1].table == request.table and request.first <= joined[-1].last + 1:
                joined[-1] = joined[-1]._replace(last=max(joined[-1].last, request.last))
            else:
                joined.append(HeardRange(request.table, request.first, request.last))
        return tuple(joined)

    def words(self, at_s: float | None = None) -> dict[tuple[Table, int], int]:
        """What each register held at a time, by table and wire address, as far as it had been heard by then; now if
        None. What was written counts as held until it is read."""
        newest: dict[tuple[Table, int], tuple[float, int]] = {}
        for request in self.requests:
            past = [sample for sample in request.samples if at_s is None or sample.time_s <= at_s]
            if not past:
                continue
            # A value that was read again later is as new as that reading, so an older write does not outdo it.
            fresh = request.last_s if at_s is None or at_s >= request.last_s else past[-1].time_s
            for address, word in enumerate(past[-1].words, request.first):
                known = newest.get((request.table, address))
                if known is None or fresh >= known[0]:
                    newest[request.table, address] = (fresh, word)
        return {place: word for place, (_, word) in newest.items()}

    def history(self, table: Table, address: int) -> Iterator[tuple[float, int]]:
        """Each change of one register, with its time, oldest first."""
        changes = sorted(
            (sample.time_s, sample.words[address - request.first])
            for request in self.requests
            if request.table == table and request.first <= address <= request.last
            for sample in request.samples
        )
        before = None
        for time_s, word in changes:
            if word != before:
                yield time_s, word
            before = word

    def as_json(self) -> dict[str, object]:
        """For scripts."""
        return {
            "unit": self.unit,
            "answers": self.answers,
            "functions": list(self.functions),
            "ranges": [part._asdict() for part in self.ranges],
            "requests": [request.as_json() for request in self.requests],
        }


@dataclass(frozen=True, slots=True)
class Heard:
    """All that was understood of a line without one byte sent; only what was confirmed at least twice."""

    settings: LineSettings | None
    """At which somebody was understood; None on a connection that has none, or if nobody was."""
    seconds: float
    characters: int
    frames: int
    """Frames with a good CRC, of whomever."""
    pairs: int
    """Requests whose answer followed."""
    stray: int
    """Characters that belong to no frame."""
    units: tuple[HeardUnit, ...] = ()
    parity_known: bool = False
    """Whether the port's counts of damaged characters prove the parity; else it may be another one at that speed."""

    @property
    def understood(self) -> bool:
        """Whether somebody else is surely master on this line."""
        return bool(self.units)

    def unit(self, number: int) -> HeardUnit | None:
        """What is known of one unit."""
        return next((one for one in self.units if one.unit == number), None)

    def as_json(self) -> dict[str, object]:
        """For scripts, and for `app.probing.found.Found.heard`."""
        return {
            "settings": None if self.settings is None else str(self.settings),
            "parity_known": self.parity_known,
            "seconds": round(self.seconds, 3),
            "characters": self.characters,
            "frames": self.frames,
            "pairs": self.pairs,
            "stray": self.stray,
            "units": [unit.as_json() for unit in self.units],
        }
