"""The cheapest reads of signals that stand behind one another: slow reads with faster ones inside them."""

from __future__ import annotations

from collections import deque
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from app.bus.spans import Chosen, Wanted
from app.bus.timing import Pace

FORGET_EVERY: Final = 8
"""After so many signals, ways that have lost are looked for."""
GRAIN: Final = 10**11
"""Costs are whole numbers, in this part of the dearest read's fixed cost: so equal ways cost just the same."""
NEVER: Final = 1 << 62
"""The cost of what cannot be."""


@dataclass(slots=True)
class _Alike:
    """Outermost reads whose costs differ by the same amount whatever lies inside them: from now on for ever.

    `cost` has an entry for every set of faster classes (bit b: class b) whose read reaches to here. `members` are the
    start, the number of the first signal, and what to add to `cost`; of two, the one that begins later costs more, else
    it would have won. So the first one costs least.
    """

    cost: list[int]
    members: deque[tuple[int, int, int]]


def nested(wanted: Sequence[Wanted], rate: list[float], pace: Pace, most: int) -> list[Chosen]:
    """The cheapest reads of registers, if starts and ends both increase.

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
    found: list[Chosen] = []
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


def _inside(wanted: Sequence[Wanted], k: int, tariff: _Tariff) -> list[Chosen]:
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
    found: list[Chosen] = []
    ends = {b: former_end for b in range(k) if mask >> b & 1}
    newest = trail[mask]
    while newest is not None:
        newest, begun, b, at = newest
        if begun:
            found.append((b, at, ends[b]))
        else:
            ends[b] = at
    return found
