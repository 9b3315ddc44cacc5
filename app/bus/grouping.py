"""Which signals of one table are read together, so that the line is busy with them for the least share of its time.

A read costs a fixed time and a time per byte, as often as its most impatient signal demands: fixed + bytes, divided by
its period. A slow signal that lies inside a fast read rides along for nothing; one beside it may join the fast read, or
be read on its own, or in a slow read that reaches across the fast one, whatever costs least.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import deque
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise
from typing import Final

from app.bus.timing import Pace
from app.signals.numbering import Table

MOST_NESTED: Final = 5
"""Up to so many different periods in one table are weighed the fast way."""
FORGET_EVERY: Final = 8
"""After so many signals, ways that have lost are looked for."""
GRAIN: Final = 10**11
"""Costs are whole numbers, in this part of the dearest read's fixed cost: so equal ways cost just the same."""
NEVER: Final = 1 << 62
"""The cost of what cannot be."""
FEW_STATES: Final = 6
"""Up to so many alternatives are carried on without comparing each with each."""
EXACT_BITS: Final = 100
"""Up to so many bits of several periods are weighed by whole bytes, more of them by the bit."""
MOST_STATES: Final = 24
"""Of bits of several periods, and of registers that overlap, the cheapest alternatives that are carried on. Where more
could still win, the plan is a good one but not proved to be the cheapest."""

Range = tuple[int, int]
"""Wire addresses from the first to behind the last."""
Wanted = tuple[int, int, int]
"""First address, end, and class: the number of a period, counted from the fastest."""


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
    if len(periods) > MOST_NESTED and len(run) > EXACT_BITS:
        # Some signals are then read more often than they ask for, and the plan is not proved to be the cheapest.
        periods = [periods[i * len(periods) // MOST_NESTED] for i in range(MOST_NESTED)]
    needed = _needed(run)
    origin = needed[0].address
    wanted = tuple(
        [
            (
                span.address - origin,
                span.address - origin + span.count,
                bisect_right(periods, span.every_ms) - 1,
            )
            for span in needed
        ]
    )
    found = _cheapest(wanted, tuple(periods), pace, most, table in ("holding", "input"))
    return [(periods[k], origin + first, origin + end) for k, first, end in found]


@lru_cache(maxsize=128)
def _cheapest(
    wanted: tuple[Wanted, ...], periods: tuple[int, ...], pace: Pace, most: int, word: bool
) -> tuple[Wanted, ...]:
    """The cheapest reads. Kept, since many a plant has many followers of one kind, and plans are made again."""
    rate = [1 / period for period in periods]
    in_order = all(former[1] < latter[1] for former, latter in pairwise(wanted))
    if in_order and len(periods) <= MOST_NESTED:
        if word:
            return tuple(_nested(wanted, rate, pace, most))
        if len(wanted) > EXACT_BITS:
            # An eighth of a byte a bit: right to within one byte of each read.
            return tuple(_nested(wanted, rate, replace(pace, byte_ms=pace.byte_ms / 16), most))
    return tuple(_any_overlap(wanted, rate, pace, most, word=word))


@dataclass(slots=True)
class _Alike:
    """Outermost reads whose costs differ by the same amount whatever lies inside them: from now on for ever.

    `cost` has an entry for every set of faster classes (bit b: class b) whose read reaches to here. `members` are the
    start, the number of the first signal, and what to add to `cost`; of two, the one that begins later costs more, else
    it would have won. So the first one costs least.
    """

    cost: list[int]
    members: deque[tuple[int, int, int]]


def _nested(wanted: Sequence[Wanted], rate: list[float], pace: Pace, most: int) -> list[tuple[int, int, int]]:
    """The cheapest reads of registers, if starts and ends both increase: class, first address and end of each.

    Then the reads of a cheapest plan lie behind one another, or faster ones inside a slower one, in gaps between what
    that one brings. `most` binds only the outermost; what lies inside is short enough by itself, and it is enough to
    know of the faster classes whether their read reaches to here. A state is the class and the start of the outermost
    read and that set; of two outermost reads the one that begins later wins if it costs no more, whatever the set, and
    one that costs no less than to begin anew here has lost.
    """
    tariff = _Tariff(rate, pace)
    word, fixed = tariff.word, tariff.fixed
    classes = range(len(rate))
    again = [[fixed[k] + sum(fixed[b] for b in range(k) if mask >> b & 1) for mask in range(1 << k)] for k in classes]
    slower = range(1, len(rate))
    fastest: deque[tuple[int, int, int]] = deque()
    """Outermost reads of the fastest class: start, first signal, and cost but for what grows with the end."""
    fronts: list[list[_Alike]] = [[] for _ in classes]
    word0, fixed0 = word[0], fixed[0]
    best, former_end = 0, 0
    chosen: list[tuple[int, int]] = []
    """Of the cheapest plan up to each signal: class and first signal of its last outermost read."""
    last = len(wanted) - 1
    for i, (start, end, own) in enumerate(wanted):
        size, onward, before = end - start, end - former_end, best
        value = before + fixed0 - word0 * start
        while fastest and fastest[-1][2] >= value:
            fastest.pop()
        fastest.append((start, i, value))
        while end - fastest[0][0] > most and fastest[0][1] < i:
            fastest.popleft()
        best, choice = fastest[0][2] + word0 * end, (0, fastest[0][1])
        for k in slower:
            front = fronts[k]
            if k > own and not front:
                continue
            for alike in front:
                members = alike.members
                while members and end - members[0][0] > most:
                    members.popleft()
                tariff.lengthen(alike.cost, k, size, onward)
            if k <= own:
                costs = [before + fixed[k] + word[k] * size]
                for b in range(k):
                    more = fixed[b] + word[b] * size
                    costs += [cost + more for cost in costs]
                front.append(_Alike(costs, deque([(start, i, 0)])))
            else:
                needs = (2 << own) - 1  # one of these classes must reach here
                for alike in front:
                    cost = alike.cost
                    for mask in range(1 << k):
                        if not mask & needs:
                            cost[mask] = NEVER
            if len(front) > 1:
                fronts[k] = front = _joined(front)
            elif not front[0].members:
                front.clear()
            for alike in front:
                _, first, extra = alike.members[0]
                least = min(alike.cost) + extra
                if least < best:
                    best, choice = least, (k, first)
        chosen.append(choice)
        former_end = end
        if i % FORGET_EVERY == 0 and i < last and wanted[i + 1][0] >= end:
            for k in slower:
                for alike in fronts[k]:
                    members = alike.members
                    # What to begin anew costs beyond the first member, whatever the set, has lost.
                    spare = max([best + more - cost for more, cost in zip(again[k], alike.cost, strict=True)])
                    while members and members[-1][2] >= spare:
                        members.pop()
                fronts[k] = [alike for alike in fronts[k] if alike.members]
    found: list[tuple[int, int, int]] = []
    i = last
    while i >= 0:
        k, first = chosen[i]
        found.append((k, wanted[first][0], wanted[i][1]))
        if k:
            found += _inside(wanted[first : i + 1], k, tariff)
        i = first - 1
    return found


class _Tariff:
    """What reads cost, by class, as often as they are made: in whole numbers, so that equal ways cost just the same."""

    def __init__(self, rate: list[float], pace: Pace) -> None:
        grain = GRAIN / (pace.fixed_ms * rate[0])
        self.word = [round(grain * 2 * pace.byte_ms * each) for each in rate]
        self.fixed = [round(grain * pace.fixed_ms * each) for each in rate]

    def lengthen(self, cost: list[int], k: int, size: int, onward: int) -> None:
        """Let a read of class `k` reach `onward` further, to a signal of `size`; those inside it too, end, or begin."""
        word, fixed = self.word, self.fixed
        on = word[k] * onward
        if k == 1:
            without, within = cost
            if within < without:
                without = within
            within += word[0] * onward
            anew = without + fixed[0] + word[0] * size
            cost[0] = without + on
            cost[1] = (within if within < anew else anew) + on
            return
        for b in range(k):
            bit, stay, anew = 1 << b, word[b] * onward, fixed[b] + word[b] * size
            for mask in range(1 << k):
                if not mask & bit:
                    without, within = cost[mask], cost[mask | bit]
                    if within < without:
                        cost[mask] = without = within
                    within += stay
                    cost[mask | bit] = within if within < without + anew else without + anew
        for mask in range(1 << k):
            cost[mask] += on


def _joined(front: list[_Alike]) -> list[_Alike]:
    """Those of one shape put together."""
    shapes: dict[tuple[int, ...], tuple[_Alike, int]] = {}
    for alike in front:
        if not alike.members:
            continue
        least = min(alike.cost)
        shape = tuple([cost - least if cost < NEVER else -1 for cost in alike.cost])
        known = shapes.get(shape)
        if known is None:
            shapes[shape] = alike, least
            continue
        other, its_least = known
        more = least - its_least
        members = other.members
        if alike.members[0][0] <= members[-1][0]:
            both = sorted([*members, *((start, first, extra + more) for start, first, extra in alike.members)])
            members.clear()
            for member in both:
                while members and members[-1][2] >= member[2]:
                    members.pop()
                members.append(member)
            continue
        for start, first, extra in alike.members:
            while members and members[-1][2] >= extra + more:
                members.pop()
            members.append((start, first, extra + more))
    return [alike for alike, _ in shapes.values()]


_Ends = tuple["_Ends", int, int, int] | None
"""How a state came about, newest first: whether a read was begun (1) or ended (0), its class, and where."""


def _inside(wanted: Sequence[Wanted], k: int, tariff: _Tariff) -> list[tuple[int, int, int]]:
    """The cheapest reads of classes faster than `k` inside one of class `k` that brings all the rest of `wanted`."""
    word, fixed = tariff.word, tariff.fixed
    sets = range(1 << k)
    cost = [0] + [NEVER] * (len(sets) - 1)
    trail: list[_Ends] = [None] * len(sets)
    former_end = wanted[0][0]
    for start, end, own in wanted:
        size, onward = end - start, end - former_end
        for b in range(k):
            bit, stay, anew = 1 << b, word[b] * onward, fixed[b] + word[b] * size
            for mask in sets:
                if mask & bit:
                    continue
                if cost[mask | bit] < cost[mask]:
                    cost[mask], trail[mask] = cost[mask | bit], (trail[mask | bit], 0, b, former_end)
                cost[mask | bit] += stay
                if cost[mask] + anew < cost[mask | bit]:
                    cost[mask | bit], trail[mask | bit] = cost[mask] + anew, (trail[mask], 1, b, start)
        if own < k:
            needs = (2 << own) - 1
            cost = [each if mask & needs else NEVER for mask, each in enumerate(cost)]
        former_end = end
    mask = cost.index(min(cost))
    found: list[tuple[int, int, int]] = []
    ends = {b: former_end for b in range(k) if mask >> b & 1}
    newest = trail[mask]
    while newest is not None:
        newest, begun, b, at = newest
        if begun:
            found.append((b, at, ends[b]))
        else:
            ends[b] = at
    return found


_Places = tuple[tuple[int, int] | None, ...]
"""Of each period, fastest first, the newest read that more can be added to: first address and end."""
_Trail = tuple["_Trail", int, int, int] | None
"""How a state came about, newest first: which period's read was begun or made longer, its first address and end."""


def _any_overlap(
    wanted: Sequence[Wanted], rate: list[float], pace: Pace, most: int, *, word: bool
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
    far = -1
    for span in run:
        end = span.address + span.count
        if end > far or all(end > reached for every_ms, reached in furthest.items() if every_ms <= span.every_ms):
            needed.append(span)
            furthest[span.every_ms] = end
            far = max(far, end)
    return needed


def _later(wanted: Sequence[Wanted], classes: int) -> list[tuple[tuple[int, ...], tuple[int, ...]]]:
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
            if len(winners) == MOST_STATES:
                break
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
