"""Editing the page map: where screens stand on it, and what is drawn there."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from app.project.edits.refused import changed, must_exist
from app.project.edits.screens import move_screen
from app.project.edits.turns import add_turn, change_turn, turn
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

    On the map the screens of the ring change places among one another: its picture stays, and the turns to "next" and
    "previous" stay short. Screens outside the ring keep their order.
    """
    for each in (name, *ring):
        must_exist("screen", each, project.screen_named)
    order = [each for each in ring if each != name]
    order.insert(max(0, min(to, len(order))), name)
    after = project
    if tuple(order) != tuple(ring):
        # Behind the one that is before it now; the first of the ring goes where the ring begins.
        names = [screen.name for screen in project.screens if screen.name != name]
        at = order.index(name)
        after = move_screen(project, name, names.index(order[at - 1]) + 1 if at else names.index(order[1]))
        before = [project.screen_named[each].map for each in ring]
        after = place_screens(after, dict(zip(order, before, strict=True)))
    return after


def lead_key(project: Project, screen: str | None, key: str, to: str) -> Project:
    """With a turn by `key` from `screen` (None: from every screen) to the screen `to`, or to "next" or "previous".

    A turn that this key has there of its own leads elsewhere; what it does from every screen stays for the others.
    """
    if screen is not None:
        must_exist("screen", screen, project.screen_named)
    for index, other in enumerate(project.turns):
        if other.from_ == screen and other.key == key:
            return change_turn(project, index, to=to)
    return add_turn(project, turn(from_=screen, key=key, to=to))
