"""What a page map draws of screen changes: arrows between two screens, and inlets for those from every screen."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from itertools import pairwise
from typing import Final, Literal

from app.page_map.rings import Ring, rings_of
from app.panel.paging import PagingGraph
from app.project.model import Project, ScreenChange

ArrowKind = Literal["key", "idle", "override"]
KINDS: Final[tuple[ArrowKind, ...]] = ("key", "idle", "override")


@dataclass(frozen=True, slots=True)
class Lead:
    """One screen change as part of an arrow. `screen_change` is its index in `project.screen_changes`."""

    screen_change: int
    kind: ArrowKind


@dataclass(frozen=True, slots=True)
class Arrow:
    """All screen changes from one screen to another."""

    from_: str
    to: str
    leads: tuple[Lead, ...]
    ring: bool = False
    """Whether it goes from one screen of the ring to the next or the previous one."""

    @property
    def kind(self) -> ArrowKind:
        """How the arrow is drawn: as a key's, if there is any among its screen changes."""
        return "key" if any(lead.kind == "key" for lead in self.leads) else "idle"


@dataclass(frozen=True, slots=True)
class Inlet:
    """A screen change that leads here from wherever the panel is. Arrows from every screen would hide the map."""

    to: str
    lead: Lead


def arrows_of(project: Project, graph: PagingGraph, shown: Collection[ArrowKind] = KINDS) -> tuple[Arrow, ...]:
    """An arrow for every two screens between which keys or idle time lead, as far as these kinds are `shown`."""
    found: dict[tuple[str, str], list[Lead]] = {}
    for edge in graph.edges:
        screen_change = project.screen_changes[edge.screen_change]
        if edge.source is None or edge.kind not in shown or _from_everywhere(screen_change):
            continue
        lead = Lead(edge.screen_change, edge.kind)
        found.setdefault((edge.source, edge.target), []).append(lead)
    beside: dict[frozenset[str], Ring] = {}
    for ring in rings_of(project, graph):
        beside.update({frozenset(pair): ring for pair in pairwise((*ring.screens, ring.screens[0]))})
    return tuple(
        Arrow(a, b, tuple(leads), _goes_round(project, beside.get(frozenset((a, b))), leads))
        for (a, b), leads in found.items()
    )


def inlets_of(project: Project, graph: PagingGraph, shown: Collection[ArrowKind] = KINDS) -> tuple[Inlet, ...]:
    """The screen changes to one screen that count on every screen, as far as these kinds are `shown`; keys first."""
    found: dict[int, Inlet] = {}
    for edge in graph.edges:
        screen_change = project.screen_changes[edge.screen_change]
        if edge.kind in shown and _from_everywhere(screen_change):
            found.setdefault(edge.screen_change, Inlet(edge.target, Lead(edge.screen_change, edge.kind)))
    return tuple(found.values())


def _from_everywhere(screen_change: ScreenChange) -> bool:
    return screen_change.from_ is None and screen_change.to not in ("next", "previous")


def _goes_round(project: Project, ring: Ring | None, leads: Collection[Lead]) -> bool:
    return ring is not None and any(ring.goes_round(project.screen_changes[lead.screen_change]) for lead in leads)
