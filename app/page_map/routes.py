"""The ways of the arrows of a page map: straight between neighbours, else at right angles through the gaps.

Lengths are in the units of the boxes, y goes down. Nothing here knows how anything is drawn.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from app.page_map.boxes import Box, Gaps, Point, Room
from app.page_map.labels import Pair, label_places

Shapes = dict[Pair, tuple[str, str, tuple[float, ...]]]
"""The shapes of ways by their pairs: the sides at which they begin and end, and their lines in between."""

_BEND: Final = 60.0
"""What a bend costs, as a length."""
_CROSSING: Final = 3000.0
"""What a box in the way costs, as a length."""
_DETOURS: Final = 3
"""How often a way is looked for that goes around what stood in the last one."""
_FEW: Final = 20
"""If more boxes than these have moved, all ways are looked for anew."""
_APART: Final = 9.0
"""Between arrows that go through one gap side by side."""


@dataclass(frozen=True, slots=True)
class Route:
    """The way of an arrow, corner by corner, and the middle of its label."""

    points: tuple[Point, ...]
    label: Point


class _Way:
    """An arrow on its way: lines that are upright and level by turns, each told by its x or y.

    The first and the last meet the boxes; all between them run through gaps.
    """

    __slots__ = ("at", "first", "last", "side_first", "side_last")

    def __init__(self, first: Box, side_first: str, last: Box, side_last: str, at: list[float]) -> None:
        self.first, self.side_first = first, side_first
        self.last, self.side_last = last, side_last
        self.at = at

    def points(self) -> list[Point]:
        at = self.at
        upright = self.side_first in "tb"
        start, end = _edge(self.first, self.side_first), _edge(self.last, self.side_last)
        found = [(at[0], start) if upright else (start, at[0])]
        for before, now in pairwise(at):
            found.append((before, now) if upright else (now, before))
            upright = not upright
        found.append((at[-1], end) if self.side_last in "tb" else (end, at[-1]))
        return found

    def upright(self, index: int) -> bool:
        return (self.side_first in "tb") == (index % 2 == 0)


def routes(
    boxes: Mapping[str, Box],
    labels: Mapping[Pair, tuple[float, float]],
    gaps: Gaps,
    hats: Mapping[str, float] | None = None,
    shapes: Shapes | None = None,
) -> dict[Pair, Route]:
    """A way for every pair of `labels`, which gives the width and height of each label.

    `hats` gives for boxes that have something standing on them the part of their width, from the left, that it takes;
    its height is that of `gaps.head`. `shapes` keeps what takes longest for the next call with the same boxes.
    """
    hats = hats or {}
    shapes = {} if shapes is None else shapes
    room = Room(boxes, gaps, hats)
    ways: dict[Pair, _Way] = {}
    for pair in labels:
        if pair[0] in boxes and pair[1] in boxes:
            shape = shapes.get(pair)
            if shape is None:
                way = _way(room, pair)
                shapes[pair] = way.side_first, way.side_last, tuple(way.at)
            else:
                way = _Way(boxes[pair[0]], shape[0], boxes[pair[1]], shape[1], list(shape[2]))
            ways[pair] = way
    _share_sides(ways, labels, hats, boxes)
    _share_gaps(ways.values(), gaps)
    lines = {pair: _without_repeats(way.points()) for pair, way in ways.items()}
    places = label_places(lines, labels, boxes)
    return {pair: Route(tuple(points), places[pair]) for pair, points in lines.items()}


def kept_shapes(shapes: Shapes, before: Mapping[str, Box], now: Mapping[str, Box], gaps: Gaps) -> Shapes:
    """The shapes that are as good with the boxes of `now` as they were with those of `before`.

    Those are the ways that neither begin nor end at a box that has moved, nor pass by where one was or is.
    """
    moved = {name for name in (*before, *now) if before.get(name) != now.get(name)}
    if len(moved) > _FEW:
        return {}
    spots = Room({}, gaps, {}, size_of=next(iter(now.values()), None))
    for boxes in (before, now):
        for name in moved & boxes.keys():
            box = boxes[name]
            across, down = gaps.across / 2 + 1, gaps.down / 2 + 1
            spots.add(Box(box.left - across, box.top - down - gaps.head, box.right + across, box.bottom + down))
    found: Shapes = {}
    for pair, shape in shapes.items():
        if moved.isdisjoint(pair):
            way = _Way(now[pair[0]], shape[0], now[pair[1]], shape[1], list(shape[2]))
            points = way.points()
            if not any(
                spots.in_the_way(Box(min(x, u), min(y, v), max(x, u) + 1, max(y, v) + 1))
                for (x, y), (u, v) in pairwise(points)
            ):
                found[pair] = shape
    return found


def _edge(box: Box, side: str) -> float:
    return {"l": box.left, "t": box.top, "r": box.right, "b": box.bottom}[side]


def _way(room: Room, pair: Pair) -> _Way:
    first, last = room.boxes[pair[0]], room.boxes[pair[1]]
    return _straight(room, first, last) or _bent(room, first, last)


def _straight(room: Room, first: Box, last: Box) -> _Way | None:
    """Straight across or straight down, if the boxes face one another and nothing stands between them."""
    top, bottom = max(first.top, last.top), min(first.bottom, last.bottom)
    if bottom - top >= 36 and (first.right <= last.left or last.right <= first.left):
        middle = (top + bottom) / 2
        reach = min(18, (bottom - top) / 2)
        between = Box(min(first.right, last.right), middle - reach, max(first.left, last.left), middle + reach)
        if not room.in_the_way(between):
            sides = "rl" if first.right <= last.left else "lr"
            return _Way(first, sides[0], last, sides[1], [middle])
    left, right = max(first.left, last.left), min(first.right, last.right)
    if right - left >= 60 and (first.bottom <= last.top or last.bottom <= first.top):
        # Only the boxes themselves count: whatever stands on one leaves room beside it.
        middle = (left + right) / 2
        reach = min(30, (right - left) / 2)
        between = Box(middle - reach, min(first.bottom, last.bottom), middle + reach, max(first.top, last.top))
        hat = room.gaps.head if between.bottom - between.top > room.gaps.head else 0
        if not room.in_the_way(between._replace(bottom=between.bottom - hat)):
            sides = "bt" if first.bottom <= last.top else "tb"
            return _Way(first, sides[0], last, sides[1], [middle])
    return None


def _bent(room: Room, first: Box, last: Box) -> _Way:
    """The shortest way with the fewest bends and boxes in the way, through the gaps next to boxes.

    Mostly one that leaves and arrives on the sides that face one another is free. Only else the other sides are looked
    at, and then the gaps next to what stands in the way.
    """
    best, crossed = _best(room, _bent_ways(first, last, room.gaps, _facing(first, last), _facing(last, first)))
    around: set[Box] = set()
    for _ in range(_DETOURS):
        if not crossed:
            break
        best, crossed = _best(room, _bent_ways(first, last, room.gaps, "tblr", "tblr", around))
        around.update(crossed)
    return best


def _facing(box: Box, other: Box) -> str:
    """The sides of a box that face another; both, where they are side by side or one above the other."""
    (ax, ay), (bx, by) = box.middle, other.middle
    upright = "tb" if abs(by - ay) < box.bottom - box.top else "b" if by > ay else "t"
    level = "lr" if abs(bx - ax) < box.right - box.left else "r" if bx > ax else "l"
    return upright + level


def _best(room: Room, ways: Iterable[_Way]) -> tuple[_Way, list[Box]]:
    """The cheapest way, and the boxes that stand in it."""
    ranked = []
    for number, way in enumerate(ways):
        points = way.points()
        length = sum(abs(x - u) + abs(y - v) for (x, y), (u, v) in pairwise(points))
        ranked.append((length + _BEND * len(way.at), number, way, points))
    ranked.sort(key=lambda each: each[:2])
    best, least, in_best = ranked[0][2], float("inf"), list[Box]()
    for cost, _, way, points in ranked:
        if cost >= least:
            break
        crossed = _boxes_crossed(room, way, points)
        if cost + _CROSSING * len(crossed) < least:
            best, least, in_best = way, cost + _CROSSING * len(crossed), crossed
    return best, in_best


def _boxes_crossed(room: Room, way: _Way, points: Sequence[Point]) -> list[Box]:
    """The boxes that a way goes through, each as often as it does."""
    if len(way.at) == 2:
        return _crossed_by_corner(room, way)
    return [
        box
        for (x, y), (u, v) in pairwise(points)
        if abs(x - u) + abs(y - v) > 2
        for box in room.in_the_way(Box(min(x, u) + 1, min(y, v) + 1, max(x, u) - 1, max(y, v) - 1))
    ]


def _crossed_by_corner(room: Room, way: _Way) -> list[Box]:
    """The same of a way with one corner, wherever on their sides it leaves and arrives."""
    first, last = way.first, way.last
    upright, level = (first, last) if way.side_first in "tb" else (last, first)
    (x, _), (_, y) = upright.middle, level.middle
    aside = Box(min(x, level.right), level.top, max(x, level.left), level.bottom)
    over = Box(upright.left, min(y, upright.bottom), upright.right, max(y, upright.top))
    return [*room.in_the_way(aside), *room.in_the_way(over)]


def _bent_ways(first: Box, last: Box, gaps: Gaps, outs: str, intos: str, around: Iterable[Box] = ()) -> Iterator[_Way]:
    """Ways from one of the sides `outs` to one of the sides `intos`, also through the gaps beside boxes `around`."""
    aside, over = gaps.across / 2, (gaps.down - gaps.head) / 2

    def channel(box: Box, side: str) -> float:
        if side in "lr":
            return box.left - aside if side == "l" else box.right + aside
        return box.top - gaps.head - over if side == "t" else box.bottom + over

    (ax, ay), (bx, by) = first.middle, last.middle
    yield _Way(first, "r" if bx > ax else "l", last, "t" if by > ay else "b", [ay, bx])
    yield _Way(first, "b" if by > ay else "t", last, "l" if bx > ax else "r", [ax, by])
    beside = (first, last, *around)
    upright = sorted({channel(box, side) for box in beside for side in "lr"})
    level = sorted({channel(box, side) for box in beside for side in "tb"})
    for out in outs:
        for into in intos:
            begin = [ax if out in "tb" else ay, channel(first, out)]
            end = [channel(last, into), bx if into in "tb" else by]
            if (out in "tb") != (into in "tb"):
                yield _Way(first, out, last, into, begin + end)
            elif abs(begin[1] - end[0]) < 1:
                yield _Way(first, out, last, into, [*begin, end[1]])
            else:
                for between in upright if out in "tb" else level:
                    yield _Way(first, out, last, into, [*begin, between, *end])


def _share_sides(
    ways: Mapping[Pair, _Way],
    labels: Mapping[Pair, tuple[float, float]],
    hats: Mapping[str, float],
    boxes: Mapping[str, Box],
) -> None:
    """Let no two arrows meet a box at the same point."""
    meeting: dict[tuple[str, str], list[tuple[float, _Way, int]]] = defaultdict(list)
    held: dict[tuple[str, str], tuple[float, float]] = {}
    for pair, way in ways.items():
        ends = ((pair[0], way.side_first), (pair[1], way.side_last))
        if len(way.at) > 1:
            for (name, side), index, beyond in zip(ends, (0, -1), (2, -3), strict=True):
                toward = way.at[beyond] if len(way.at) > 2 else way.at[-1 - index]
                meeting[name, side].append((toward, way, index))
            continue
        upright = way.side_first in "tb"
        one, other = boxes[pair[0]], boxes[pair[1]]
        low, high = (
            (max(one.left, other.left), min(one.right, other.right))
            if upright
            else (max(one.top, other.top), min(one.bottom, other.bottom))
        )
        for name, side in ends:
            if side == "t" and name in hats:
                low = max(low, boxes[name].left + hats[name] * (boxes[name].right - boxes[name].left) + 6)
        middle = (low + high) / 2
        if (pair[1], pair[0]) in ways:
            # Each keeps to its right, as one drives in most of the world: there and back do not lie on one another.
            axis = 0 if upright else 1
            widest = max(labels[pair][axis], labels[pair[1], pair[0]][axis]) / 2 + 5
            shift = min(widest, (high - low) / 2 - 8)
            way.at[0] = middle + (shift if way.side_first in "rt" else -shift)
        else:
            way.at[0] = middle
        for end in ends:
            near, far = held.get(end, (way.at[0], way.at[0]))
            held[end] = min(near, way.at[0]), max(far, way.at[0])
    for (name, side), uses in meeting.items():
        box = boxes[name]
        low, high = (box.left, box.right) if side in "tb" else (box.top, box.bottom)
        if side == "t" and name in hats:
            low += hats[name] * (high - low)
        room = held.get((name, side))
        uses.sort(key=lambda use: use[0])
        if room is None:
            _spread(uses, low, high)
        else:
            middle = (room[0] + room[1]) / 2
            _spread([use for use in uses if use[0] < middle], low, room[0])
            _spread([use for use in uses if use[0] >= middle], room[1], high)


def _spread(uses: Sequence[tuple[float, _Way, int]], low: float, high: float) -> None:
    for number, (_, way, index) in enumerate(uses, start=1):
        way.at[index] = low + (high - low) * number / (len(uses) + 1)


def _share_gaps(ways: Iterable[_Way], gaps: Gaps) -> None:
    """Put arrows that go along the same gap side by side."""
    along: dict[tuple[bool, int], list[tuple[float, float, _Way, int]]] = defaultdict(list)
    for way in ways:
        points = way.points()
        for index in range(1, len(way.at) - 1):
            upright = way.upright(index)
            (x, y), (u, v) = points[index], points[index + 1]
            low, high = sorted((y, v) if upright else (x, u))
            along[upright, round(way.at[index])].append((low, high, way, index))
    for (upright, _), pieces in along.items():
        pieces.sort(key=lambda piece: piece[:2])
        ends: list[float] = []
        lanes: list[int] = []
        for low, high, _, _ in pieces:
            lane = next((number for number, end in enumerate(ends) if end < low - 4), len(ends))
            if lane == len(ends):
                ends.append(high)
            else:
                ends[lane] = high
            lanes.append(lane)
        room = (gaps.across if upright else gaps.down - gaps.head) - 20
        apart = min(_APART, room / max(len(ends), 1))
        for (_, _, way, index), lane in zip(pieces, lanes, strict=True):
            way.at[index] += (lane - (len(ends) - 1) / 2) * apart


def _without_repeats(points: Sequence[Point]) -> list[Point]:
    """The corners, without those at which nothing turns."""
    found: list[Point] = []
    for point in points:
        if found and abs(found[-1][0] - point[0]) + abs(found[-1][1] - point[1]) < 0.5:
            continue
        if len(found) > 1 and (
            abs(found[-2][0] - found[-1][0]) + abs(found[-1][0] - point[0]) < 0.5
            or abs(found[-2][1] - found[-1][1]) + abs(found[-1][1] - point[1]) < 0.5
        ):
            found.pop()
        found.append(point)
    return found
