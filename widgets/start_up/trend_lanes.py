"""Which lanes a trend has, one above the other, and how high each of them is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from app.project.model import Project
from widgets.start_up.trend_curves import is_lane

LEAST: Final = 64
"""Pixels at 100 per cent below which no lane with a value axis is drawn; it is scrolled instead."""
BELOW_BAND: Final = 4
"""Pixels below the last name of a band, which else touched the words below it."""


@dataclass(frozen=True, slots=True)
class Lane:
    """A lane of curves with one unit and one value axis; or the band of bits, one below the other."""

    unit: str
    names: tuple[str, ...]
    band: bool = False


def lanes(project: Project, names: Sequence[str]) -> tuple[Lane, ...]:
    """The lanes of these signals: one for each unit in their order, the band last.

    A value without a unit has a lane for itself: what it counts, no other one need count.
    """
    known = [name for name in names if name in project.signal_named]
    units: dict[tuple[str, str], list[str]] = {}
    for name in known:
        if not is_lane(project, name):
            unit = project.signal_named[name].unit
            units.setdefault((unit, "" if unit else name), []).append(name)
    found = [Lane(unit, tuple(within)) for (unit, _), within in units.items()]
    bits = tuple(name for name in known if is_lane(project, name))
    return (*found, *((Lane("", bits, band=True),) if bits else ()))


def heights(shown: Sequence[Lane], room: int, row: int, least: int) -> list[int]:
    """How high the lanes are in so many pixels. Where these do not suffice their sum is greater, and they are scrolled.

    `row` is the height of a line of the legend, each of which has its place beside its lane; `least` that of a lane.
    """
    wanted = [row * len(lane.names) + BELOW_BAND if lane.band else max(least, row * len(lane.names)) for lane in shown]
    # Those that need most first: they leave less for the others.
    growing = sorted((at for at, lane in enumerate(shown) if not lane.band), key=lambda at: -wanted[at])
    left = room - sum(wanted[at] for at, lane in enumerate(shown) if lane.band)
    for number, at in enumerate(growing):
        wanted[at] = max(wanted[at], left // (len(growing) - number))
        left -= wanted[at]
    return wanted
