"""Where the labels of arrows go on a page map."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

from app.page_map.boxes import Box, Gaps, Point, Room

Pair = tuple[str, str]
"""The screens that an arrow leads from and to."""


def label_places(
    lines: Mapping[Pair, Sequence[Point]], labels: Mapping[Pair, tuple[float, float]], boxes: Mapping[str, Box]
) -> dict[Pair, Point]:
    """Where the labels go: near the beginning, where the key is pressed, on no box and no other label if possible."""
    taken = Room(boxes, Gaps(0, 0), {})
    found: dict[Pair, Point] = {}
    for pair in sorted(lines, key=lambda pair: len(lines[pair])):
        width, height = labels[pair]
        first: Point | None = None
        for x, y in _along(lines[pair], width):
            first = first or (x, y)
            area = Box(x - width / 2, y - height / 2, x + width / 2, y + height / 2)
            if not taken.in_the_way(area):
                found[pair] = x, y
                break
        else:
            found[pair] = first or lines[pair][0]
        x, y = found[pair]
        taken.add(Box(x - width / 2, y - height / 2, x + width / 2, y + height / 2))
    return found


def _along(points: Sequence[Point], width: float) -> Iterator[Point]:
    """Points for the middle of a label: the middle of a straight way, else one after the other from the beginning."""
    pieces = list(pairwise(points))
    if len(pieces) == 1:
        (x, y), (u, v) = pieces[0]
        for part in (0.5, 0.35, 0.65):
            yield x + (u - x) * part, y + (v - y) * part
        return
    for (x, y), (u, v) in pieces:
        length = abs(u - x) + abs(v - y)
        need = width + 28 if y == v else 40
        if length < need:
            continue
        steps = min(int((length - need) // need) + 1, 8)
        for number in range(steps):
            part = (need / 2 + number * need) / length
            yield x + (u - x) * part, y + (v - y) * part
    (x, y), (u, v) = max(pieces, key=lambda piece: abs(piece[0][0] - piece[1][0]) + abs(piece[0][1] - piece[1][1]))
    yield (x + u) / 2, (y + v) / 2
