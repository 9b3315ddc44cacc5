"""The room on a page map: boxes, found by where they are."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import NamedTuple

Point = tuple[float, float]


class Box(NamedTuple):
    """A rectangle."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def middle(self) -> Point:
        """Its centre."""
        return (self.left + self.right) / 2, (self.top + self.bottom) / 2

    def touches(self, other: Box) -> bool:
        """Whether they share more than an edge."""
        return (
            self.left < other.right and other.left < self.right and self.top < other.bottom and other.top < self.bottom
        )


@dataclass(frozen=True, slots=True)
class Gaps:
    """The room between the boxes: from side to side, from bottom to top, and how much of that lies above a box."""

    across: float
    down: float
    head: float = 0.0
    """Height of what may stand on a box (see `routes`, `hats`)."""


class Room:
    """The boxes, found by where they are."""

    def __init__(
        self, boxes: Mapping[str, Box], gaps: Gaps, hats: Mapping[str, float], size_of: Box | None = None
    ) -> None:
        """Made for boxes of the size of `size_of`; if it is left out, of the first one."""
        self.boxes, self.gaps, self.hats = boxes, gaps, hats
        some = size_of or next(iter(boxes.values()), Box(0, 0, 1, 1))
        self._wide = max(some.right - some.left + gaps.across, 1.0)
        self._high = max(some.bottom - some.top + gaps.down, 1.0)
        self._in: dict[tuple[int, int], list[Box]] = defaultdict(list)
        for name, box in boxes.items():
            self.add(box)
            if name in hats:
                self.add(Box(box.left, box.top - gaps.head, box.left + hats[name] * (box.right - box.left), box.top))

    def add(self, box: Box) -> None:
        """One more."""
        for cell in self._cells(box):
            self._in[cell].append(box)

    def _cells(self, area: Box) -> Iterator[tuple[int, int]]:
        for x in range(int(area.left // self._wide), int(area.right // self._wide) + 1):
            for y in range(int(area.top // self._high), int(area.bottom // self._high) + 1):
                yield x, y

    def in_the_way(self, area: Box) -> set[Box]:
        """The boxes that lie in an area."""
        return {box for cell in self._cells(area) for box in self._in.get(cell, ()) if box.touches(area)}
