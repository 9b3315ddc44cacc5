"""Editing the page map: where screens stand on it, and what is drawn there."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise

from app.edits.refused import EditRefused, changed, must_exist
from app.edits.screen_changes import add_screen_change, edit_screen_change, screen_change
from app.edits.screens import move_screen
from app.language import translate
from app.project.model import Project


def place_screens(project: Project, places: Mapping[str, tuple[int, int] | None]) -> Project:
    """With these screens at these places on the map (see Screen.map); None: the screen finds its place by itself."""
    for name in places:
        must_exist("screen", name, project.screen_named)
    moved = {name for name, place in places.items() if project.screen_named[name].map != place}
    if not moved:
        return project
    return changed(
        project,
        screens=tuple(
            changed(screen, map=places[screen.name]) if screen.name in moved else screen for screen in project.screens
        ),
    )


def reorder_ring(project: Project, name: str, to: int, ring: Sequence[str]) -> Project:
    """With screen `name` as number `to`, from 0, of the screens `ring`, which are in the order of the list.

    On the map the screens of the ring change places among one another: its picture stays, and the screen changes to
    "next" and "previous" stay short. Screens outside the ring keep their order.
    """
    for each in (name, *ring):
        must_exist("screen", each, project.screen_named)
    order = _with_at(ring, name, to)
    if tuple(order) == tuple(ring):
        return project
    # Behind the one that is before it now; the first of the ring goes where the ring begins.
    names = [screen.name for screen in project.screens if screen.name != name]
    at = order.index(name)
    after = move_screen(project, name, names.index(order[at - 1]) + 1 if at else names.index(order[1]))
    return _with_places_of(after, project, ring, order)


def relink_ring(project: Project, name: str, to: int, ring: Sequence[str], keys: Sequence[str]) -> Project:
    """With screen `name` as number `to`, from 0, of a ring that screen changes from each of them make.

    `keys` go round the ring: onward, and back if there are two. The screen changes of all its screens by these keys
    lead to their new neighbours; on the map the screens change places as in `reorder_ring`.
    """
    for each in (name, *ring):
        must_exist("screen", each, project.screen_named)
    order = _with_at(ring, name, to)
    if tuple(order) == tuple(ring):
        return project
    after = project
    for key, direction in zip(keys, (order, order[::-1]), strict=False):
        for screen, following in pairwise((*direction, direction[0])):
            after = lead_key(after, screen, key, following)
    return _with_places_of(after, project, ring, order)


def _with_at(ring: Sequence[str], name: str, to: int) -> list[str]:
    order = [each for each in ring if each != name]
    order.insert(max(0, min(to, len(order))), name)
    return order


def _with_places_of(project: Project, before: Project, ring: Sequence[str], order: Sequence[str]) -> Project:
    """With the screens of a ring, now in this order, on the places that it had before."""
    places = [before.screen_named[each].map for each in ring]
    return place_screens(project, dict(zip(order, places, strict=True)))


def lead_key(project: Project, screen: str | None, key: str, to: str) -> Project:
    """With a screen change by `key` from `screen` (None: every screen) to the screen `to`, "next" or "previous".

    A screen change that this key has there of its own leads elsewhere; what it does from every screen stays for the
    others.
    """
    if screen is not None:
        must_exist("screen", screen, project.screen_named)
    for index, other in enumerate(project.screen_changes):
        if other.from_ == screen and other.key == key:
            return edit_screen_change(project, index, to=to)
    return add_screen_change(project, screen_change(from_=screen, key=key, to=to))


def make_ring(project: Project, ring: Sequence[str], keys: Sequence[str]) -> Project:
    """With screens in a ring: the first of `keys` leads from each to the next, the second, if there is one, back."""
    for name in ring:
        must_exist("screen", name, project.screen_named)
    if len(ring) < 2:
        raise EditRefused(translate("edits", "a ring needs two screens or more; select them together"))
    for key, direction in zip(keys, (tuple(ring), tuple(ring)[::-1]), strict=False):
        for screen, following in pairwise((*direction, direction[0])):
            project = lead_key(project, screen, key, following)
    return project


def lead_back(project: Project, names: Sequence[str], to: str, key: str) -> Project:
    """With screen changes by `key` from some screens to one; where it is among them, it gets none."""
    must_exist("screen", to, project.screen_named)
    for name in names:
        if name != to:
            project = lead_key(project, name, key, to)
    return project
