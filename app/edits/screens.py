"""Editing the list of screens."""

from __future__ import annotations

from app.edits.refused import (
    EditRefused,
    changed,
    free_name,
    made,
    moved,
    must_be_free,
    must_be_index,
    must_exist,
    name_uses,
)
from app.language import translate
from app.project.model import Project, Screen
from app.project.problems import quoted
from app.project.references import RELATIVE_SCREENS, Use, renamed, uses


def add_screen(project: Project, name: str | None = None, at: int | None = None) -> Project:
    """With an empty screen, at index `at` or at the end; a free name is found if none is given."""
    name = free_name("screen", project.screen_named) if name is None else name
    _must_be_usable(project, name)
    return _insert(project, made(Screen, name=name, text=("",) * project.panel.rows), at)


def duplicate_screen(project: Project, name: str, new_name: str | None = None) -> Project:
    """With a copy of a screen right behind it: text, fields, notes, but no screen changes and no place on the map."""
    screen = screen_called(project, name)
    new_name = free_name(name, project.screen_named) if new_name is None else new_name
    _must_be_usable(project, new_name)
    return _insert(project, changed(screen, name=new_name, map=None), index_of_screen(project, name) + 1)


def rename_screen(project: Project, name: str, new_name: str) -> Project:
    """With another name for a screen; screen changes, actions and the start follow."""
    screen = screen_called(project, name)
    if new_name == name:
        return project
    _must_be_usable(project, new_name)
    return renamed(with_screen(project, changed(screen, name=new_name), name), "screen", name, new_name)


def delete_screen(project: Project, name: str, *, with_screen_changes: bool = False) -> Project:
    """Without a screen and without the screen changes and actions that begin on it.

    Refused while screen changes lead to it, unless they go too (`with_screen_changes`), and while the panel starts with
    it.
    """
    screen_called(project, name)
    in_the_way = uses_of_screen(project, name)
    if with_screen_changes:
        in_the_way = tuple(use for use in in_the_way if use.place[0] != "screen_change")
    if in_the_way:
        starts = any(use.place[0] == "panel" for use in in_the_way)
        screen_changes = tuple(use for use in in_the_way if use.place[0] == "screen_change")
        if starts and screen_changes:
            why = translate(
                "project",
                "screen {name} cannot be deleted: it is the start screen, and screen changes go to it: {changes}",
            )
        elif starts:
            why = translate("edits", "screen {name} cannot be deleted: it is the start screen")
        else:
            why = translate("edits", "screen {name} cannot be deleted: screen changes go to it: {changes}")
        raise EditRefused(why.format(name=quoted(name), changes=name_uses(screen_changes)), in_the_way)
    return changed(
        project,
        screens=tuple(screen for screen in project.screens if screen.name != name),
        screen_changes=tuple(
            screen_change
            for screen_change in project.screen_changes
            if screen_change.from_ != name and screen_change.to != name
        ),
        actions=tuple(action for action in project.actions if action.from_ != name),
    )


def move_screen(project: Project, name: str, to: int) -> Project:
    """With a screen at index `to` of the list; screen changes to "next" and "previous" go by this order."""
    index = index_of_screen(project, name)
    must_be_index("screen", to, len(project.screens))
    return project if to == index else changed(project, screens=moved(project.screens, index, to))


def set_screen_notes(project: Project, name: str, notes: str) -> Project:
    """With other notes for a screen."""
    return with_screen(project, changed(screen_called(project, name), notes=notes))


def uses_of_screen(project: Project, name: str) -> tuple[Use, ...]:
    """What leads to a screen: the start of the panel, and screen changes."""
    return tuple(use for use in uses(project, "screen", name) if use.place[-1] != "from")


def screen_called(project: Project, name: str) -> Screen:
    """The screen with this name. Raises EditRefused if there is none."""
    must_exist("screen", name, project.screen_named)
    return project.screen_named[name]


def index_of_screen(project: Project, name: str) -> int:
    """The index, from 0, of the screen with this name. Raises EditRefused if there is none."""
    screen = screen_called(project, name)
    return next(index for index, other in enumerate(project.screens) if other is screen)


def with_screen(project: Project, screen: Screen, name: str | None = None) -> Project:
    """With `screen` in the place of the one called `name`, its own name if left out. All else is shared."""
    index = index_of_screen(project, screen.name if name is None else name)
    return changed(project, screens=(*project.screens[:index], screen, *project.screens[index + 1 :]))


def _insert(project: Project, screen: Screen, at: int | None) -> Project:
    at = len(project.screens) if at is None else max(0, min(at, len(project.screens)))
    return changed(project, screens=(*project.screens[:at], screen, *project.screens[at:]))


def _must_be_usable(project: Project, name: str) -> None:
    must_be_free("screen", name, project.screen_named)
    if name in RELATIVE_SCREENS:
        why = translate("edits", "a screen cannot be called {name}: screen changes use this word; choose another name")
        raise EditRefused(why.format(name=quoted(name)))
