"""The cheapest reads of bits, and of registers that overlap in any way."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from app.bus.spans import Chosen, Wanted
from app.bus.timing import Pace

FEW_STATES: Final = 6
"""Up to so many alternatives are carried on without comparing each with each."""
MOST_STATES: Final = 24
"""Of bits of several periods, and of registers that overlap, the cheapest alternatives that are carried on. Where more
could still win, the plan is a good one but not proved to be the cheapest."""

_Places = tuple[tuple[int, int] | None, ...]
"""Of each period, fastest first, the newest read that more can be added to: first address and end."""
_Trail = tuple["_Trail", int, int, int] | None
"""How a state came about, newest first: which period's read was begun or made longer, its first address and end."""


def overlapping(wanted: Sequence[Wanted], rate: list[float], pace: Pace, most: int, *, word: bool) -> list[Chosen]:
    """The cheapest reads of bits, or of registers however they overlap.

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
