"""Which signals of one table are read together, so that the line is busy with them for the least share of its time.

A read costs a fixed time and a time per byte, as often as its most impatient signal demands: fixed + bytes, divided by
its period. A slow signal that lies inside a fast read rides along for nothing; one beside it may join the fast read, or
be read on its own, or in a slow read that reaches across the fast one, whatever costs least.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import deque
from collections.abc import Iterable, Sequence

from app.bus.several_periods import several_periods
from app.bus.spans import Group, Range, Span
from app.bus.timing import Pace
from app.signals.numbering import Table


def group_spans(
    spans: Iterable[Span],
    pace: Pace,
    table: Table,
    most: int,
    *,
    gaps: bool = True,
    never: Sequence[Range] = (),
) -> list[Group]:
    """The grouping of `spans` into reads that costs the least share of the line's time.

    No read brings more than `most` registers or bits, but for a span that is longer itself. Without `gaps` a read never
    brings an address that no span has, and never one of the ranges `never`; no span may reach into these.
    """
    ordered = sorted(spans, key=lambda span: (span.address, -span.count, span.every_ms, span.signal))
    groups: list[Group] = []
    for run in _runs(ordered, gaps, never):
        groups += _group_run(run, pace, table, most)
    return groups


def _runs(ordered: list[Span], gaps: bool, never: Sequence[Range]) -> Iterable[list[Span]]:
    """The spans parted where no read may reach across."""
    if gaps and not never:
        return [ordered] if ordered else []
    barriers = sorted(never)
    begins = [first for first, _ in barriers]
    runs: list[list[Span]] = []
    end = -1
    for span in ordered:
        address = span.address
        together = bool(runs) and (
            address <= end or (gaps and bisect_left(begins, end) == bisect_left(begins, address))
        )
        if together:
            runs[-1].append(span)
        else:
            runs.append([span])
        end = max(end, address + span.count)
    return runs


def _group_run(run: list[Span], pace: Pace, table: Table, most: int) -> list[Group]:
    periods = sorted({span.every_ms for span in run})
    if len(periods) == 1:
        reads = _one_period(run, pace, table, most)
    else:
        reads = several_periods(run, periods, pace, table, most)
    return _with_members(run, reads)


def _with_members(run: list[Span], reads: list[tuple[int, int, int]]) -> list[Group]:
    """Every span with the fastest read that brings it. `reads` are period, first address and end."""
    members: dict[tuple[int, int, int], list[Span]] = {read: [] for read in reads}
    by_period: dict[int, list[tuple[int, int, int]]] = {}
    for read in sorted(reads, key=lambda read: read[1]):
        by_period.setdefault(read[0], []).append(read)
    lookups = [(found, [read[1] for read in found]) for _, found in sorted(by_period.items())]
    for span in run:
        address, end = span.address, span.address + span.count
        for found, begins in lookups:
            at = bisect_right(begins, address) - 1
            if at >= 0 and found[at][2] >= end:
                members[found[at]].append(span)
                break
    return [Group(read[0], tuple(inside)) for read, inside in members.items() if inside]


# one period ----------------------------------------------------------------------------------------------------------


def _one_period(run: list[Span], pace: Pace, table: Table, most: int) -> list[tuple[int, int, int]]:
    """The cheapest reads if all signals want the same period."""
    starts: list[int] = []
    ends: list[int] = []
    last = -1
    for span in run:  # only those that reach further than all before them: starts and ends both increase
        end = span.address + span.count
        if end > last:
            starts.append(span.address)
            ends.append(end)
            last = end
    find = _cheapest_registers if table in ("holding", "input") else _cheapest_bits
    begins = find(starts, ends, pace, most)
    period = run[0].every_ms
    reads = []
    i = len(starts)
    while i > 0:
        begin = begins[i - 1]
        reads.append((period, starts[begin], ends[i - 1]))
        i = begin
    return reads[::-1]


def _cheapest_registers(starts: list[int], ends: list[int], pace: Pace, most: int) -> list[int]:
    """For each i the begin of the last read in the cheapest grouping of the first i + 1 spans, in linear time.

    best[i + 1] = fixed + word * ends[i] + min over the begins j that `most` allows of (best[j] - word * starts[j]): the
    minimum of a window that only moves forward, kept in a queue of candidates that can still win.
    """
    word, fixed = 2 * pace.byte_ms, pace.fixed_ms
    best = 0.0
    begins: list[int] = []
    candidates: deque[tuple[float, int]] = deque()
    for i, end in enumerate(ends):
        value = best - word * starts[i]
        while candidates and candidates[-1][0] >= value:
            candidates.pop()
        candidates.append((value, i))
        while candidates[0][1] < i and end - starts[candidates[0][1]] > most:
            candidates.popleft()
        least, begin = candidates[0]
        best = fixed + word * end + least
        begins.append(begin)
    return begins


def _cheapest_bits(starts: list[int], ends: list[int], pace: Pace, most: int) -> list[int]:
    """As for registers; eight bits cost as much as one, so of the begins only those that can still win are kept.

    An earlier begin costs at least floor(difference / 8) bytes more than a later one, whatever the end.
    """
    best = 0.0
    begins: list[int] = []
    candidates: list[tuple[float, int]] = []
    for i, end in enumerate(ends):
        start = starts[i]
        candidates = [
            (value, j)
            for value, j in candidates
            if end - starts[j] <= most and value + pace.byte_ms * ((start - starts[j]) // 8) < best
        ]
        candidates.append((best, i))
        least, begin = min((value + pace.byte_ms * ((end - starts[j] + 7) // 8), j) for value, j in candidates)
        best = pace.fixed_ms + least
        begins.append(begin)
    return begins
