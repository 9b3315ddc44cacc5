"""The rings of a page map: screens that keys go round."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from app.panel.layout import PanelLayout
from app.panel.paging import PagingGraph
from app.project.model import Project, ScreenChange

LEAST: Final = 3
"""Screens of the shortest run that is drawn as a ring or a chain."""


@dataclass(frozen=True, slots=True)
class Ring:
    """Screens in the order in which they follow one another; the first follows the last.

    `keys` go round it by screen changes from each screen: onward, and back if there is such a key. Where `keys` is
    empty the order of the file makes the ring, by screen changes to "next" and "previous".
    """

    screens: tuple[str, ...]
    keys: tuple[str, ...] = ()

    def number_between(self, name: str, from_: str, to: str, onward: bool) -> int:
        """The number, from 0, that screen `name` gets where an arrow of two others goes, `onward` or back."""
        rest = [screen for screen in self.screens if screen != name]
        return rest.index(from_ if onward else to) + 1

    def goes_onward(self, screen_change: ScreenChange) -> bool:
        """Whether a screen change goes from a screen to the one that follows."""
        return screen_change.key == self.keys[0] if self.keys else screen_change.to == "next"

    def goes_round(self, screen_change: ScreenChange) -> bool:
        """Whether a screen change goes from a screen to the one that follows, or to the one before."""
        return screen_change.key in self.keys if self.keys else screen_change.to in ("next", "previous")


def rings_of(project: Project, graph: PagingGraph) -> tuple[Ring, ...]:
    """All rings, none sharing a screen with another: the one by the order of the file first, then the longer ones."""
    layout = PanelLayout.of(project)
    turned = any(
        screen_change.to in ("next", "previous") for _, screen_change in layout.behaviour.key_screen_changes.values()
    )
    found = [Ring(layout.behaviour.ring)] if turned and len(layout.behaviour.ring) > 1 else []
    taken = {screen for ring in found for screen in ring.screens}
    leads: dict[str, dict[str, str]] = {}
    for edge in graph.edges:
        # Screen changes that count on every screen cannot be led elsewhere for one ring alone.
        if (
            edge.kind == "key"
            and edge.source is not None
            and project.screen_changes[edge.screen_change].from_ is not None
        ):
            leads.setdefault(edge.label, {})[edge.source] = edge.target
    every = [(screens, key) for key, by_key in leads.items() for screens in cycles(by_key, graph.screens)]
    every.sort(key=lambda each: (-len(each[0]), against_file(each[0], graph.screens)))
    for screens, key in every:
        if len(screens) >= LEAST and not taken.intersection(screens):
            taken.update(screens)
            back = (other for other in leads if other != key and _goes_round(leads[other], screens[::-1]))
            found.append(Ring(screens, (key, *list(back)[:1])))
    return tuple(found)


def cycles(by_key: Mapping[str, str], order: Iterable[str]) -> Iterator[tuple[str, ...]]:
    """The rings that one key goes round, each from its first screen in `order`."""
    number = {screen: index for index, screen in enumerate(order)}
    seen: set[str] = set()
    for first in number:
        walk: list[str] = []
        screen = first
        while screen in by_key and screen not in seen:
            seen.add(screen)
            walk.append(screen)
            screen = by_key[screen]
        if screen in walk:
            ring = walk[walk.index(screen) :]
            start = min(range(len(ring)), key=lambda at: number[ring[at]])
            yield tuple(ring[start:] + ring[:start])


def against_file(run: tuple[str, ...], order: tuple[str, ...]) -> tuple[int, list[int]]:
    """How far a run goes against the order of the file: of two directions, the one with less is the way onward."""
    number = {screen: index for index, screen in enumerate(order)}
    return sum(number[after] < number[before] for before, after in pairwise(run)), [number[screen] for screen in run]


def _goes_round(by_key: Mapping[str, str], ring: tuple[str, ...]) -> bool:
    return all(by_key.get(before) == after for before, after in pairwise((*ring, ring[0])))
