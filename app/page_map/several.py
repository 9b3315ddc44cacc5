"""Several screens of the map at once: by which keys they can become a ring, and where they stand in line."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final, Literal

from app.panel.layout import PanelLayout
from app.project.model import Project

MapLine = Literal["row", "column"]
"""Side by side, or one below the other."""
_OPPOSITE: Final = (("right", "left"), ("down", "up"))
"""Keys that lead onward and back."""


def ring_keys(project: Project, ring: Sequence[str]) -> tuple[tuple[str, ...], ...]:
    """The keys by which some screens can become a ring, the best first: pairs that do nothing on any of them yet.

    Keys called right and left, or down and up, go before others; then single keys; then pairs that lead elsewhere now.
    """
    keys = project.panel.keys
    behaviour = PanelLayout.of(project).behaviour
    free = [
        key
        for key in keys
        if not any(behaviour.key_screen_change(name, key) or behaviour.key_actions(name, key) for name in ring)
    ]
    pairs = [pair for pair in _OPPOSITE if set(pair) <= set(keys)]
    own = [pair for pair in pairs if set(pair) <= set(free)]
    rest = [key for key in free if not any(key in pair for pair in own)]
    others = [(rest[0], rest[1])] if len(rest) > 1 else []
    return (*own, *others, *((key,) for key in free), *(pair for pair in pairs if pair not in own))


def in_line(places: Mapping[str, tuple[int, int]], line: MapLine) -> dict[str, tuple[int, int]]:
    """Places in one row or column: that of the first screen from the upper left. Their order and distances stay."""
    across = 1 if line == "row" else 0
    first = min(places.values(), key=lambda place: (place[across], place[1 - across]))[across]
    return {name: (place[0], first) if line == "row" else (first, place[1]) for name, place in places.items()}


def spread(places: Mapping[str, tuple[int, int]], line: MapLine) -> dict[str, tuple[int, int]]:
    """Places at equal distances, side by side or one below the other, between the outermost, which stay."""
    along = 0 if line == "row" else 1
    order = sorted(places, key=lambda name: (places[name][along], places[name][1 - along]))
    ends = places[order[0]][along], places[order[-1]][along]
    found = {}
    for number, name in enumerate(order):
        at = round(ends[0] + (ends[1] - ends[0]) * number / max(1, len(order) - 1))
        found[name] = (at, places[name][1]) if along == 0 else (places[name][0], at)
    return found
