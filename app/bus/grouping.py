"""Which signals of one table are read together, so that the line is busy with them for the least share of its time.

A read costs a fixed time and a time per byte, as often as its most impatient signal demands: fixed + bytes, divided by
its period. A slow signal that lies inside a fast read rides along for nothing; one beside it may join the fast read, or
be read on its own, or in a slow read that reaches across the fast one, whatever costs least.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import deque
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from operator import le
from typing import Final

from app.bus.timing import Pace
from app.signals.numbering import Table

MOST_NESTED: Final = 5
"""Up to so many different periods in one table are weighed the fast way."""
GRAIN: Final = 10**11
"""Costs are whole numbers, in this part of the dearest read's fixed cost: so equal ways cost just the same."""
NEVER: Final = 1 << 62
"""The cost of what cannot be."""
FEW_STATES: Final = 6
"""Up to so many alternatives are carried on without comparing each with each."""

Range = tuple[int, int]
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
class Group:
    """Signals that are read together every `every_ms` milliseconds, in order of address."""

    every_ms: int
    spans: tuple[Span, ...]


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
        reads = _several_periods(run, periods, pace, table, most)
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


# several periods -----------------------------------------------------------------------------------------------------


def _several_periods(
    run: list[Span], periods: list[int], pace: Pace, table: Table, most: int
) -> list[tuple[int, int, int]]:
    """The cheapest reads for signals of several periods."""
    class_of = {period: k for k, period in enumerate(periods)}
    wanted = [(span.address, span.address + span.count, class_of[span.every_ms]) for span in _needed(run)]
    in_order = all(former[1] < latter[1] for former, latter in pairwise(wanted))
    if table in ("holding", "input") and in_order and len(periods) <= MOST_NESTED:
        found = _nested(wanted, [1 / period for period in periods], pace, most)
    else:
        found = _any_overlap(wanted, [1 / period for period in periods], pace, most, word=table in ("holding", "input"))
    return [(periods[k], first, end) for k, first, end in found]


_Ends = tuple["_Ends", int, int, int] | None
"""How a state came about, newest first: the read of which class was begun (1) or ended (0), and where."""


@dataclass(slots=True)
class _Outer:
    """A read that is being made longer, with those inside it.

    `cost` and `trail` have an entry for every set of faster classes (bit b: class b) whose read reaches to here.
    """

    start: int
    cost: list[int]
    trail: list[_Ends]


def _nested(wanted: list[tuple[int, int, int]], rate: list[float], pace: Pace, most: int) -> list[tuple[int, int, int]]:
    """The cheapest reads of registers, if starts and ends both increase: class, first address and end of each.

    Then the reads of a cheapest plan lie behind one another, or faster ones inside a slower one, in gaps between what
    that one brings. `most` binds only the outermost; what lies inside is short enough by itself, and it is enough to
    know of the faster classes whether their read reaches to here. A state is the class and the start of the outermost
    read and that set; of two outermost reads the one that begins later wins if it costs no more, whatever the set.
    """
    classes = range(len(rate))
    grain = GRAIN / (pace.fixed_ms * rate[0])
    word = [round(grain * 2 * pace.byte_ms * each) for each in rate]
    fixed = [round(grain * pace.fixed_ms * each) for each in rate]
    inside = [[[b for b in range(k) if mask >> b & 1] for mask in range(1 << k)] for k in classes]
    again = [[fixed[k] + sum(fixed[b] for b in bits) for bits in inside[k]] for k in classes]
    fronts: list[list[_Outer]] = [[] for _ in classes]
    """By class of the outermost read, those that can still win, by start."""
    best = 0
    best_trail: _Ends = None
    former_end = 0
    for i, (start, end, own) in enumerate(wanted):
        size, onward = end - start, end - former_end
        needs = (2 << own) - 1
        """The classes of which one must reach here."""
        before, before_trail = best, best_trail
        best = NEVER
        apart = i + 1 == len(wanted) or wanted[i + 1][0] >= end
        for k in classes:
            front = fronts[k]
            while front and end - front[0].start > most:
                del front[0]
            for outer in front:
                _lengthen(outer, k, size, onward, former_end, start, word, fixed)
            if k <= own:
                begun: _Ends = (before_trail, 1, k, start)
                cost = before + fixed[k] + word[k] * size
                costs, trails = [cost], [begun]
                for b in range(k):
                    more = fixed[b] + word[b] * size
                    trails += [(trail, 1, b, start) for trail in trails]
                    costs += [cost + more for cost in costs]
                front.append(_Outer(start, costs, trails))
            else:
                for outer in front:
                    outer.cost = [cost if mask & needs else NEVER for mask, cost in enumerate(outer.cost)]
            for outer in front:
                cost = min(outer.cost)
                if cost < best:
                    best = cost
                    mask = outer.cost.index(cost)
                    best_trail = (outer.trail[mask], 0, k, end)
                    for b in inside[k][mask]:
                        best_trail = (best_trail, 0, b, end)
        for k in classes:
            if fronts[k]:
                fronts[k] = _winners(fronts[k], [best + each for each in again[k]] if apart else None)
        former_end = end
    return _reads_of(best_trail)


def _lengthen(
    outer: _Outer, k: int, size: int, onward: int, former_end: int, start: int, word: list[int], fixed: list[int]
) -> None:
    """Let a read of class `k` reach `onward` further, to a signal of `size` at `start`; those inside it, or not."""
    cost, trail = outer.cost, outer.trail
    for b in range(k):
        bit, stay, anew = 1 << b, word[b] * onward, fixed[b] + word[b] * size
        for mask in range(1 << k):
            if mask & bit:
                continue
            without, within = cost[mask], cost[mask | bit]
            if within < without:
                without = cost[mask] = within
                trail[mask] = (trail[mask | bit], 0, b, former_end)
            if within + stay <= without + anew:
                cost[mask | bit] = within + stay
            else:
                cost[mask | bit] = without + anew
                trail[mask | bit] = (trail[mask], 1, b, start)
    on = word[k] * onward
    outer.cost = [each + on for each in cost]


def _winners(front: list[_Outer], afresh: list[int] | None) -> list[_Outer]:
    """Those outermost reads that may still win.

    Dropped are those that cost no less than one that begins later, and those that cost no less than to begin `afresh`.
    """
    kept: list[_Outer] = []
    for outer in reversed(front):
        if kept and all(map(le, kept[-1].cost, outer.cost)):
            continue
        if afresh is not None and all(map(le, afresh, outer.cost)):
            continue
        kept.append(outer)
    kept.reverse()
    return kept


def _reads_of(trail: _Ends) -> list[tuple[int, int, int]]:
    """Class, first address and end of each read of a trail."""
    found: list[tuple[int, int, int]] = []
    ends: dict[int, int] = {}
    while trail is not None:
        trail, begun, k, at = trail
        if begun:
            found.append((k, at, ends[k]))
        else:
            ends[k] = at
    return found


_Places = tuple[tuple[int, int] | None, ...]
"""Of each period, fastest first, the newest read that more can be added to: first address and end."""
_Trail = tuple["_Trail", int, int, int] | None
"""How a state came about, newest first: which period's read was begun or made longer, its first address and end."""


def _any_overlap(
    wanted: list[tuple[int, int, int]], rate: list[float], pace: Pace, most: int, *, word: bool
) -> list[tuple[int, int, int]]:
    """The cheapest reads of bits, or of registers however they overlap: class, first address and end of each.

    The signals are gone through by address. A state is what may still be added to: of each period the newest read (in a
    cheapest plan no older one is ever worth adding to, since the newer one then ends behind it). Each signal is brought
    by a read that reaches it, or by one made longer, or by a new one. Dropped are states that cannot win: the cheapest
    state can do whatever another one can by beginning new reads, and that costs at most what is said of it.
    """
    fixed = [pace.fixed_ms * each for each in rate]
    byte = [pace.byte_ms * each for each in rate]
    widest = max(end - start for start, end, _ in wanted)
    later = _later(wanted, len(rate))
    nobody: _Places = (None,) * len(rate)
    states: dict[_Places, tuple[float, _Trail]] = {nobody: (0.0, None)}

    def size(count: int) -> int:
        return 2 * count if word else (count + 7) // 8

    for i, (start, end, own) in enumerate(wanted):
        grown: dict[_Places, tuple[float, _Trail]] = {}
        soonest, reach = later[i]
        for places, (cost, trail) in states.items():
            if any(place is not None and place[1] >= end for place in places[: own + 1]):
                if places not in grown or cost < grown[places][0]:
                    grown[places] = cost, trail
                continue
            for k in range(own + 1):
                place = places[k]
                if place is not None and end - place[0] <= most:
                    first, last = place
                    longer = (*places[:k], (first, end), *places[k + 1 :])
                    more = cost + byte[k] * (size(end - first) - size(last - first))
                    if longer not in grown or more < grown[longer][0]:
                        grown[longer] = more, (trail, k, first, end)
                if k < own:
                    # Begun faster than this signal asks for: of use only if a signal that asks for it comes soon, and
                    # never if the way there costs more than a read of the next period for all that lies on it.
                    soon = soonest[k]
                    if soon < 0 or soon - start >= most:
                        continue
                    ahead = soon - start
                    if word and byte[k] * 2 * ahead >= fixed[k + 1] + byte[k + 1] * 2 * (ahead + widest):
                        continue
                fresh = (*places[:k], (start, end), *places[k + 1 :])
                more = cost + fixed[k] + byte[k] * size(end - start)
                if fresh not in grown or more < grown[fresh][0]:
                    grown[fresh] = more, (trail, k, start, end)
        states = _that_can_win(grown, reach, fixed, byte, most, word=word)
    _, trail = min(states.values(), key=lambda state: state[0])
    found: dict[tuple[int, int], int] = {}
    while trail is not None:
        trail, k, first, end = trail
        found.setdefault((k, first), end)
    return [(k, first, end) for (k, first), end in found.items()]


def _needed(run: list[Span]) -> list[Span]:
    """The spans without those that any read of another one brings anyway: inside it, and no more impatient."""
    needed: list[Span] = []
    furthest: dict[int, int] = {}
    for span in run:
        end = span.address + span.count
        if all(end > reached for every_ms, reached in furthest.items() if every_ms <= span.every_ms):
            needed.append(span)
            furthest[span.every_ms] = end
    return needed


def _later(wanted: list[tuple[int, int, int]], classes: int) -> list[tuple[tuple[int, ...], tuple[int, ...]]]:
    """For each signal, by class: where the next one behind it of just this class starts, and of this class or slower.

    -1 if there is none.
    """
    just, slower = [-1] * classes, [-1] * classes
    found: list[tuple[tuple[int, ...], tuple[int, ...]]] = []
    for start, _, own in reversed(wanted):
        found.append((tuple(just), tuple(slower)))
        just[own] = start
        slower[: own + 1] = [start] * (own + 1)
    return found[::-1]


def _that_can_win(
    grown: dict[_Places, tuple[float, _Trail]],
    reach: tuple[int, ...],
    fixed: list[float],
    byte: list[float],
    most: int,
    *,
    word: bool,
) -> dict[_Places, tuple[float, _Trail]]:
    """The states that may lead to the cheapest plan. `reach`: where the next signal that a read may bring starts."""
    cheapest = min(state[0] for state in grown.values())
    states: dict[_Places, tuple[float, _Trail]] = {}
    worths: dict[_Places, list[float]] = {}
    for places, state in grown.items():
        worth = []
        kept: list[tuple[int, int] | None] = []
        for k, place in enumerate(places):
            value = 0.0
            if place is not None and (at := reach[k]) >= 0 and (at < place[0] + most or at < place[1]):
                gap = at - place[1]
                value = fixed[k] - byte[k] * (2 * gap if word else gap // 8 - 1)
            kept.append(place if value > 0 else None)
            worth.append(max(0.0, value))
        if state[0] >= cheapest + sum(worth) and state[0] > cheapest:
            continue
        left = tuple(kept)
        if left not in states or state[0] < states[left][0]:
            states[left] = state
            worths[left] = worth
    if len(states) <= FEW_STATES:
        return states
    winners: list[tuple[_Places, float]] = []
    for places, (cost, _) in sorted(states.items(), key=lambda item: item[1][0]):
        worth = worths[places]
        if not any(better + _to_catch_up(rival, places, worth, byte, word=word) <= cost for rival, better in winners):
            winners.append((places, cost))
    return {places: states[places] for places, _ in winners}


def _to_catch_up(rival: _Places, places: _Places, worth: list[float], byte: list[float], *, word: bool) -> float:
    """At most what `rival` must spend beyond `places` to bring whatever that will still bring."""
    spent = 0.0
    for k, place in enumerate(places):
        if place is None:
            continue
        most = worth[k]
        own = rival[k]
        if own is not None and own[0] >= place[0]:
            behind = max(0, place[1] - own[1])
            most = min(most, byte[k] * (2 * behind if word else behind // 8 + 2))
        spent += most
    return spent
