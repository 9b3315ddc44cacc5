"""The screens of a page map that no key leads to: they stand in a band below the others, beside what shows them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

from app.page_map.blocks import STEP, MapPlace
from app.panel.paging import PagingGraph
from app.project.model import Project

BESIDE: Final = 7
"""Left of each screen of the band, for what shows it; in units of places, like the others here."""
ACROSS: Final = 14
"""From one screen of the band to the next one beside it."""
LEAST: Final = 2
"""So many stand side by side, however narrow the map is."""


def band_of(project: Project, graph: PagingGraph) -> tuple[str, ...]:
    """The screens that the operator does not come to by keys from the first one, in the order of the file.

    One that was given a place of its own (see Screen.map) stands there.
    """
    presses = graph.presses_from_start
    return tuple(screen.name for screen in project.screens if screen.map is None and screen.name not in presses)


def band_places(band: Sequence[str], others: Mapping[str, MapPlace]) -> dict[str, MapPlace]:
    """The places of the screens of the band, in rows as wide as the others are, below all of those."""
    left = min((x for x, _ in others.values()), default=0)
    width = max((x for x, _ in others.values()), default=0) + STEP - left
    top = max((y for _, y in others.values()), default=-STEP) + STEP
    in_row = max(LEAST, round(width / ACROSS))
    return {
        name: (left + BESIDE + number % in_row * ACROSS, top + number // in_row * STEP)
        for number, name in enumerate(band)
    }
