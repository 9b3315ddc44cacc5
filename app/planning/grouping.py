"""Which signals of one table are read together, so that the line is busy with them for the least share of its time.

A read costs a fixed time and a time per byte, as often as its most impatient signal demands: fixed + bytes, divided by
its period. A slow signal that lies inside a fast read rides along for nothing; one beside it may join the fast read, or
be read on its own, or in a slow read that reaches across the fast one.

With one period the grouping is the cheapest that there is. With several the signals, in order of address, are first cut
into stretches as if each were one read, at the period of its most impatient signal; that says how often each signal is
read. Then those of each period are grouped by themselves, across the others. Of all cuts this finds the cheapest, in
near linear time; a grouping that fits signals together in another way may cost less, which the tests measure.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import deque
from collections.abc import Iterable, Sequence
from typing import Final

from app.client.timing import Pace
from app.planning.spans import AddressRange, ReadGroup, Span
from app.signals.numbering import Table

_ROUNDING: Final = 1e-12
"""What costs the same to within so little is equal."""


def group_spans(
    spans: Iterable[Span],
    pace: Pace,
    table: Table,
    most: int,
    *,
    gaps: bool = True,
    never: Sequence[AddressRange] = (),
) -> list[ReadGroup]:
    """The grouping of `spans` into reads that costs the least share of the line's time.

    No read brings more than `most` registers or bits, but for a span that is longer itself. Without `gaps` a read never
    brings an address that no span has, and never one of the ranges `never`; no span may reach into these.
    """
    ordered = sorted(spans, key=lambda span: (span.address, -span.count, span.every_ms, span.signal))
    groups: list[ReadGroup] = []
    for run in _runs(ordered, gaps, never):
        groups += _group_run(run, pace, table, most)
    return groups


def _runs(ordered: list[Span], gaps: bool, never: Sequence[AddressRange]) -> Iterable[list[Span]]:
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


def _group_run(run: list[Span], pace: Pace, table: Table, most: int) -> list[ReadGroup]:
    by_period: dict[int, list[Span]] = {}
    if all(span.every_ms == run[0].every_ms for span in run):
        by_period[run[0].every_ms] = run
    else:
        for stretch in _cheapest_cut(_without_covered(run), pace, table, most):
            by_period.setdefault(min(span.every_ms for span in stretch), []).extend(stretch)
    reads = [
        (every_ms, first, end)
        for every_ms, spans in by_period.items()
        for first, end in _one_period(spans, pace, table, most)
    ]
    return _with_members(run, reads)


def _with_members(run: list[Span], reads: list[tuple[int, int, int]]) -> list[ReadGroup]:
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
    return [ReadGroup(read[0], tuple(inside)) for read, inside in members.items() if inside]


def _one_period(spans: list[Span], pace: Pace, table: Table, most: int) -> list[AddressRange]:
    """The cheapest reads of spans that are all to be read equally often."""
    reaching: list[Span] = []
    last = -1
    for span in spans:  # only those that reach further than all before them: starts and ends both increase
        if span.end > last:
            reaching.append(span)
            last = span.end
    if table in ("holding", "input"):
        return _cheapest_registers(reaching, pace, most)
    equally = [Span(span.signal, span.address, span.count) for span in reaching]
    return [(cut[0].address, cut[-1].end) for cut in _cheapest_cut(equally, pace, table, most)]


def _cheapest_registers(spans: list[Span], pace: Pace, most: int) -> list[AddressRange]:
    """The cheapest reads of registers of one period, in linear time; starts and ends of `spans` increase.

    The cheapest way to the end of each span costs fixed + word * end + min over the begins that `most` allows of
    (cheapest way to the begin - word * start): the minimum of a window that only moves forward, kept in a queue of
    candidates that can still win.
    """
    word, fixed = 2 * pace.byte_ms, pace.fixed_ms
    best = 0.0
    begins: list[int] = []
    candidates: deque[tuple[float, int, int]] = deque()
    for i, span in enumerate(spans):
        start, end = span.address, span.address + span.count
        value = best - word * start
        while candidates and candidates[-1][0] >= value:
            candidates.pop()
        candidates.append((value, i, start))
        while candidates[0][1] < i and end - candidates[0][2] > most:
            candidates.popleft()
        least, begin, _ = candidates[0]
        best = fixed + word * end + least
        begins.append(begin)
    return [(cut[0].address, cut[-1].end) for cut in _stretches(spans, begins)]


def _cheapest_cut(spans: list[Span], pace: Pace, table: Table, most: int) -> list[list[Span]]:
    """The cheapest way to cut spans, in order of address, into stretches that are each read at their fastest period.

    Of the begins of a stretch only those are kept that can still win: one that begins earlier costs at least the data
    of the difference more, as often as what it has is read.
    """
    unit, each = (2 * pace.byte_ms, 1) if table in ("holding", "input") else (pace.byte_ms, 8)
    fixed = pace.fixed_ms
    best = 0.0
    begins: list[int] = []
    candidates: list[tuple[float, int, int, float, int]] = []
    for i, span in enumerate(spans):
        start, end, rate = span.address, span.address + span.count, 1 / span.every_ms
        beaten = best * (1 - _ROUNDING)
        candidates = [
            (value, j, first, rate if rate > fastest else fastest, end if end > reached else reached)
            for value, j, first, fastest, reached in candidates
            if value + fastest * unit * ((start - first) // each) < beaten and (end - first <= most or end <= reached)
        ]
        candidates.append((best, i, start, rate, end))
        best, begin = min(
            [
                (value + fastest * (fixed + unit * ((reached - first + each - 1) // each)), j)
                for value, j, first, fastest, reached in candidates
            ]
        )
        begins.append(begin)
    return _stretches(spans, begins)


def _stretches(spans: list[Span], begins: list[int]) -> list[list[Span]]:
    """The spans cut as the best way to the last of them has it: `begins` has where its stretch begins, for each."""
    stretches: list[list[Span]] = []
    end = len(spans)
    while end > 0:
        begin = begins[end - 1]
        stretches.append(spans[begin:end])
        end = begin
    return stretches[::-1]


def _without_covered(run: list[Span]) -> list[Span]:
    """The spans without those that any read of another one brings anyway: inside it, and no more impatient."""
    needed: list[Span] = []
    furthest: dict[int, int] = {}
    far = -1
    for span in run:
        end = span.address + span.count
        if end > far or all(end > reached for every_ms, reached in furthest.items() if every_ms <= span.every_ms):
            needed.append(span)
            furthest[span.every_ms] = end
            far = max(far, end)
    return needed
