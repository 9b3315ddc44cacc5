"""How the screens of a page map belong together: rings and chains of screens, and which of them leads to which."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Final

from app.page_map.rings import LEAST, against_file, cycles
from app.panel.paging import PagingGraph

STEP: Final = 8
"""The unit of places (see Screen.map): so many make the step from a screen to the next one."""
MapPlace = tuple[int, int]
"""Right and down, in units of which STEP make a step from screen to screen."""


@dataclass(slots=True)
class ScreenGroup:
    """Screens that are drawn together, in their order: a ring, a chain, or one screen by itself.

    `below` holds the blocks that are first reached from this one, by the screen that leads to them.
    """

    screens: tuple[str, ...]
    closed: bool = False
    """Whether the last screen leads to the first."""
    below: dict[str, list[ScreenGroup]] = field(default_factory=dict)

    @property
    def hanging(self) -> list[ScreenGroup]:
        """All blocks below, in the order of the screens that lead to them."""
        return [block for screen in self.screens for block in self.below.get(screen, ())]


def blocks_of(graph: PagingGraph) -> list[ScreenGroup]:
    """The blocks at the top: first the one with the start, then what keys do not lead to, in the order of the file.

    Every screen stands in exactly one block, there or further below.
    """
    leads: dict[str, dict[str, str]] = {screen: {} for screen in graph.screens}
    for edge in graph.edges:
        if edge.kind == "key" and edge.source is not None:
            leads[edge.source][edge.label] = edge.target
    of: dict[str, ScreenGroup] = {}
    for screens, closed in _runs(graph, leads):
        block = ScreenGroup(_rotate(screens, graph.start) if closed else screens, closed)
        of.update(dict.fromkeys(block.screens, block))
    for screen in graph.screens:
        of.setdefault(screen, ScreenGroup((screen,)))
    top: list[ScreenGroup] = []
    seen: set[int] = set()
    overrides = [edge.target for edge in graph.edges if edge.kind == "override"]
    # What is shown by a condition comes last but one, what nothing leads to last; both may lead on by keys.
    later = set(overrides) | set(graph.unreachable)
    plain = [screen for screen in graph.screens if screen not in later]
    for screen in (graph.start, *plain, *overrides, *graph.screens):
        if screen in of and id(of[screen]) not in seen:
            top.append(of[screen])
            seen.add(id(of[screen]))
            _hang(of[screen], of, leads, seen)
    return top


def _hang(
    first: ScreenGroup, of: Mapping[str, ScreenGroup], leads: Mapping[str, Mapping[str, str]], seen: set[int]
) -> None:
    """Put below `first`, level by level, what keys lead to from there."""
    waiting = deque([first])
    while waiting:
        block = waiting.popleft()
        for screen in block.screens:
            for target in leads[screen].values():
                reached = of[target]
                if id(reached) not in seen:
                    seen.add(id(reached))
                    block.below.setdefault(screen, []).append(reached)
                    waiting.append(reached)


def _runs(graph: PagingGraph, leads: Mapping[str, Mapping[str, str]]) -> list[tuple[tuple[str, ...], bool]]:
    """The rings and chains, none sharing a screen with another: rings before chains, long ones first.

    A ring is what one key goes round. A chain is what one key goes along, further from the start at every step, where
    some key also leads back.
    """
    keys = sorted({key for row in leads.values() for key in row})
    presses = graph.presses_from_start
    found: list[tuple[tuple[str, ...], bool]] = []
    for key in keys:
        by_key = {screen: row[key] for screen, row in leads.items() if key in row}
        found += [(ring, True) for ring in cycles(by_key, graph.screens)]
        onward = {
            screen: to
            for screen, to in by_key.items()
            if presses.get(to, 0) == presses.get(screen, -2) + 1 and screen in leads[to].values()
        }
        found += [(chain, False) for chain in _chains(graph.screens, onward)]
    found.sort(key=lambda each: (not each[1], -len(each[0]), against_file(each[0], graph.screens)))
    taken: set[str] = set()
    chosen = []
    for run, closed in found:
        if len(run) >= LEAST and not taken.intersection(run):
            taken.update(run)
            chosen.append((run, closed))
    return chosen


def _chains(screens: Iterable[str], onward: Mapping[str, str]) -> Iterable[tuple[str, ...]]:
    entered = set(onward.values())
    taken: set[str] = set()
    for first in screens:
        if first in onward and first not in entered:
            chain = [first]
            # Two chains that run together: the rest belongs to the first.
            while chain[-1] in onward and onward[chain[-1]] not in taken:
                chain.append(onward[chain[-1]])
            taken.update(chain)
            yield tuple(chain)


def _rotate(ring: tuple[str, ...], start: str) -> tuple[str, ...]:
    """The ring from `start` on, if it is in it."""
    if start not in ring:
        return ring
    at = ring.index(start)
    return ring[at:] + ring[:at]
