"""Figures of a run of transactions: the time of a cycle, bus load, response times."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Self

from app.client.timing import Pace, quantile
from app.client.transactions import Transaction


@dataclass(frozen=True, slots=True)
class Spread:
    """How some times are spread, in milliseconds: the middle one, the one that 95 % do not exceed, and the longest."""

    median: float
    most: float
    worst: float

    @classmethod
    def of(cls, times: Sequence[float]) -> Self | None:
        """The spread of some times, by `timing.quantile`; None if there are none."""
        if not times:
            return None
        ordered = sorted(times)
        return cls(quantile(ordered, 0.5), quantile(ordered, 0.95), ordered[-1])


@dataclass(frozen=True, slots=True)
class Figures:
    """What a run of transactions of one line shows.

    `seconds` is the time from its first request to its last answer; `used` the share of it, 0..1, in which the line
    was busy with a transaction or kept the silence before one; `cycle_ms` the time that one pass over all different
    reads takes, from the middle one of each read's times. `response_time` is the time from the end of a request to its
    complete answer without the answer's own characters, by follower; good answers only.
    """

    transactions: int
    seconds: float
    used: float
    cycle_ms: float
    response_time: Mapping[str, Spread]


def figures(transactions: Sequence[Transaction], pace: Pace) -> Figures:
    """The figures of transactions of one line, in the order of their ends; `pace` is what the line charges."""
    times: defaultdict[str, list[float]] = defaultdict(list)
    reads: defaultdict[tuple[int, bytes], list[float]] = defaultdict(list)
    for transaction in transactions:
        request = transaction.request
        if transaction.fault is not None:
            continue
        characters = len(transaction.sent) + len(transaction.received)
        response_time = max(0.0, transaction.ms - characters * pace.character_ms)
        times[transaction.follower].append(response_time)
        if request.function < 5 and request.count:
            reads[request.unit, request.pdu].append(transaction.ms)
    cycle = sum(quantile(sorted(of_read), 0.5) + pace.silence_ms for of_read in reads.values())
    spreads = {name: spread for name, found in times.items() if (spread := Spread.of(found))}
    seconds, busy = _busy(transactions, pace)
    return Figures(
        len(transactions),
        seconds,
        min(1.0, busy / seconds) if seconds > 0 else 0.0,
        cycle,
        MappingProxyType(spreads),
    )


def _busy(transactions: Sequence[Transaction], pace: Pace) -> tuple[float, float]:
    """How long the run took, and for how much of that the line was busy, in seconds.

    Several requests may be on their way at once: the time that they share counts once.
    """
    spans = sorted((each.at - pace.silence_ms / 1000, each.at + each.ms / 1000) for each in transactions)
    if not spans:
        return 0.0, 0.0
    busy, reached = 0.0, spans[0][0]
    for start, end in spans:
        if end > reached:
            busy += end - max(start, reached)
            reached = end
    return reached - spans[0][0], busy
