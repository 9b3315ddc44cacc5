"""Where the screens of a page map go that have no place of their own: rings as rings, and what they lead to below."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import ceil, sqrt
from typing import Final

from app.page_map.band import band_of, band_places
from app.page_map.blocks import STEP as STEP, MapPlace as MapPlace, ScreenGroup, blocks_of
from app.panel.paging import PagingGraph
from app.project.model import Project

ASPECT: Final = 1.7
"""Width by height that a map should have."""
_ONE_ROW: Final = 5 * STEP
"""So far screens that belong together stay in one row."""


@dataclass(frozen=True, slots=True)
class _Area:
    """Screens with places counted from the upper left corner of the smallest rectangle around them; its size."""

    places: dict[str, MapPlace]
    width: int
    height: int


def arranged(graph: PagingGraph, shape: float = 1.7) -> dict[str, MapPlace]:
    """A place for every screen, none on another.

    `shape` is the width of a step by its height, so that the whole gets the proportions ASPECT. A ring becomes a
    closed way in which every screen is beside the next. What is first reached from a screen stands below it; where
    several screens of a ring lead on, each stands above its own.
    """
    shown = {edge.target for edge in graph.edges if edge.kind == "override"}
    parts: tuple[list[_Area], ...] = ([], [], [])
    for number, block in enumerate(blocks_of(graph)):
        # Overrides stand together, and so does what nothing leads to.
        part = 0 if not number else 1 if shown.intersection(block.screens) else 2
        parts[part].append(_tree(block, shape))
    areas = [_pack(part, shape) for part in parts if part]
    return _pack(areas, shape, 0).places if areas else {}


def places(
    project: Project, graph: PagingGraph, shown: Mapping[str, MapPlace], shape: float = 1.7
) -> dict[str, MapPlace]:
    """Where every screen of a project stands: where the project says, else where it is `shown` already, else arranged.

    Screens that have to find a place take the free one nearest to where they would be arranged. Those that no key
    leads to stand in a band below the others.
    """
    band = frozenset(band_of(project, graph))
    fixed: dict[str, MapPlace] = {}
    held: set[MapPlace] = set()
    for screen in project.screens:
        # Of two screens at the very same place, one would hide the other.
        if screen.map is not None and screen.map not in held:
            fixed[screen.name] = screen.map
            held.add(screen.map)
    free = project.screen_named.keys() - fixed.keys() - band
    known = {name: place for name, place in shown.items() if name in free}
    found: dict[str, MapPlace] = {}
    taken = _Taken()
    for name, place in (*fixed.items(), *known.items()):
        if name in fixed or taken.free(place):
            found[name] = place
            taken.add(place)
    left = [name for name in project.screen_named if name not in found and name not in band]
    if left:
        wanted = {} if len(found) > len(left) else arranged(graph, shape)
        for name in left:
            # On a map that is there already it is more use beside its neighbour than where it would be arranged.
            near = project.screen_named[name].map or wanted.get(name) or _beside(project, graph, name, found)
            found[name] = taken.nearest(near)
            taken.add(found[name])
    found.update(band_places([name for name in project.screen_named if name in band], found))
    return {name: found[name] for name in project.screen_named}


def free_place(shown: Iterable[MapPlace], wanted: MapPlace) -> MapPlace:
    """The place nearest to `wanted` at which a screen covers none of those `shown`."""
    taken = _Taken()
    for place in shown:
        taken.add(place)
    return taken.nearest(wanted)


def _beside(project: Project, graph: PagingGraph, name: str, found: Mapping[str, MapPlace]) -> MapPlace:
    """Below the first screen that leads to this one, else beside the one before it in the file."""
    for edge in graph.edges:
        if edge.source is not None and edge.target == name and edge.source in found:
            x, y = found[edge.source]
            return x, y + STEP
    names = list(project.screen_named)
    before = [found[each] for each in names[: names.index(name)] if each in found]
    x, y = before[-1] if before else next(iter(found.values()), (-STEP, 0))
    return x + STEP, y


class _Taken:
    """The places that are occupied, found by the step that they are in."""

    def __init__(self) -> None:
        self._in: dict[MapPlace, list[MapPlace]] = {}

    def add(self, place: MapPlace) -> None:
        self._in.setdefault((place[0] // STEP, place[1] // STEP), []).append(place)

    def free(self, place: MapPlace) -> bool:
        column, row = place[0] // STEP, place[1] // STEP
        return not any(
            abs(x - place[0]) < STEP and abs(y - place[1]) < STEP
            for across in (column - 1, column, column + 1)
            for down in (row - 1, row, row + 1)
            for x, y in self._in.get((across, down), ())
        )

    def nearest(self, wanted: MapPlace) -> MapPlace:
        if self.free(wanted):
            return wanted
        reach = 1
        while True:
            # Rings of half steps around it; to the right and below first, as one reads.
            around = [
                (wanted[0] + x * STEP // 2, wanted[1] + y * STEP // 2)
                for y in range(-reach, reach + 1)
                for x in range(-reach, reach + 1)
                if max(abs(x), abs(y)) == reach
            ]
            around.sort(key=lambda at: (abs(at[0] - wanted[0]) + abs(at[1] - wanted[1]), -at[0], -at[1]))
            for place in around:
                if self.free(place):
                    return place
            reach += 1


def _tree(block: ScreenGroup, shape: float) -> _Area:
    """A block with all that hangs below it."""
    hanging = block.hanging
    if len(block.screens) > 1 and len(hanging) * 3 > len(block.screens):
        # Many screens lead on: each with its own below it, side by side.
        singles = [
            _tree(ScreenGroup((name,), below={name: block.below.get(name, [])}), shape) for name in block.screens
        ]
        return _pack(singles, shape)
    own = _run(block, shape)
    if not hanging:
        return own
    below = _pack([_tree(each, shape) for each in hanging], shape)
    width = max(own.width, below.width)
    return _join(
        [(own, (width - own.width) // 2, 0), (below, (width - below.width) // 2, own.height)],
        width,
        own.height + below.height,
    )


def _run(block: ScreenGroup, shape: float) -> _Area:
    """The screens of one block: a ring as a closed way, a chain to and fro in rows."""
    count = len(block.screens)
    cells = _ring(count, shape) if block.closed else _rows(count, shape)
    put = {name: (x * STEP, y * STEP) for name, (x, y) in zip(block.screens, cells, strict=True)}
    return _Area(put, (1 + max(x for x, _ in cells)) * STEP, (1 + max(y for _, y in cells)) * STEP)


def _rows(count: int, shape: float) -> list[MapPlace]:
    across = min(count, max(4, round(sqrt(count * ASPECT / shape))))
    cells = []
    for number in range(count):
        row, column = divmod(number, across)
        cells.append((column if row % 2 == 0 else across - 1 - column, row))
    return cells


def _ring(count: int, shape: float) -> list[MapPlace]:
    """Cells (column, row) of a closed way: along the first row, to and fro through the others, up the first column.

    The number of rows is even. Where the way has more cells than there are screens, some of the first column stay
    empty: there an arrow goes straight on to the next.
    """
    best: list[MapPlace] = []
    least = float("inf")
    for half in range(1, count + 1):
        rows = 2 * half
        across = max(2, ceil(count / rows))
        empty = rows * across - count
        if empty > max(rows - 1, 1) or across * shape < rows * 0.5:
            continue
        size = max(across * shape / ASPECT, rows)
        if size < least:
            least = size
            way = [(x, 0) for x in range(across)]
            for row in range(1, rows):
                inner = range(1, across)
                way += [(x, row) for x in (reversed(inner) if row % 2 else inner)]
            way += [(0, row) for row in range(rows - 1, 0, -1)][empty:]
            best = way[:count]
    return best or [(x, 0) for x in range(count)]


def _pack(areas: list[_Area], shape: float, least: int = _ONE_ROW) -> _Area:
    """The areas side by side, in rows where they are wider than `least` and that fits the proportions better."""
    whole = sum(area.width * area.height for area in areas)
    most = max(least, max(area.width for area in areas), int(sqrt(whole * ASPECT / shape)) + STEP // 2)
    rows: list[list[_Area]] = [[]]
    width = 0
    for area in areas:
        if rows[-1] and width + area.width > most:
            rows.append([])
            width = 0
        rows[-1].append(area)
        width += area.width
    widest = max(sum(area.width for area in row) for row in rows)
    put: list[tuple[_Area, int, int]] = []
    y = 0
    for row in rows:
        x = (widest - sum(area.width for area in row)) // 2 if len(rows) == 1 else 0
        for area in row:
            put.append((area, x, y))
            x += area.width
        y += max(area.height for area in row)
    return _join(put, widest, y)


def _join(parts: Iterable[tuple[_Area, int, int]], width: int, height: int) -> _Area:
    found: dict[str, MapPlace] = {}
    for area, right, down in parts:
        found.update({name: (x + right, y + down) for name, (x, y) in area.places.items()})
    return _Area(found, width, height)
