"""Editing the signals."""

from __future__ import annotations

from typing import Any

from app.project.edits.refused import (
    changed,
    free_name,
    made,
    moved,
    must_be_free,
    must_be_index,
    must_be_unused,
    must_exist,
    with_names_in_order,
)
from app.project.model import BitSignal, HeldSignal, Project, RegisterSignal
from app.project.references import renamed

AnySignal = RegisterSignal | BitSignal | HeldSignal


def add_signal(project: Project, signal: AnySignal, at: int | None = None) -> Project:
    """With one more signal, at index `at` or at the end."""
    must_be_free("signal", signal.name, project.signal_named)
    at = len(project.signals) if at is None else max(0, min(at, len(project.signals)))
    signals = (*project.signals[:at], signal, *project.signals[at:])
    return with_names_in_order(changed(project, signals=signals), project)


def duplicate_signal(project: Project, name: str, new_name: str | None = None) -> Project:
    """With a copy of a signal right behind it."""
    index = _index(project, name)
    new_name = free_name(name, project.signal_named) if new_name is None else new_name
    return add_signal(project, changed(project.signals[index], name=new_name), index + 1)


def change_signal(project: Project, name: str, /, **changes: Any) -> Project:
    """With other attributes of a signal; `name` among them renames it, and its uses follow."""
    new_name = changes.pop("name", name)
    if changes:
        project = replace_signal(project, name, changed(project.signals[_index(project, name)], **changes))
    return rename_signal(project, name, new_name)


def replace_signal(project: Project, name: str, signal: AnySignal) -> Project:
    """With `signal` in the place of the one called `name`, whose name it takes: of another form, say.

    Refused where a use of it would break: a bit of what is now a bit itself, a value from what is no held value.
    """
    index = _index(project, name)
    signal = changed(signal, name=name) if signal.name != name else signal
    if signal == project.signals[index]:
        return project
    return with_names_in_order(_with_signal(project, index, signal), project)


def rename_signal(project: Project, name: str, new_name: str) -> Project:
    """With another name for a signal; all its uses follow."""
    index = _index(project, name)
    if new_name == name:
        return project
    must_be_free("signal", new_name, project.signal_named)
    after = _with_signal(project, index, changed(project.signals[index], name=new_name))
    return renamed(after, "signal", name, new_name)


def delete_signal(project: Project, name: str) -> Project:
    """Without a signal. Refused while it is used, with the list of uses."""
    index = _index(project, name)
    must_be_unused(project, "signal", name)
    return changed(project, signals=(*project.signals[:index], *project.signals[index + 1 :]))


def move_signal(project: Project, name: str, to: int) -> Project:
    """With a signal at index `to` of the list."""
    index = _index(project, name)
    must_be_index("signal", to, len(project.signals))
    return project if to == index else changed(project, signals=moved(project.signals, index, to))


def new_signal_name(project: Project, wanted: str = "signal") -> str:
    """`wanted`, or the like, that no signal has."""
    return free_name(wanted, project.signal_named)


def register_signal(**attributes: Any) -> RegisterSignal:
    """A new signal of a follower. Raises EditRefused, in words, if the attributes do not fit."""
    return made(RegisterSignal, **attributes)


def bit_signal(**attributes: Any) -> BitSignal:
    """A new bit of another signal. Raises EditRefused, in words, if the attributes do not fit."""
    return made(BitSignal, **attributes)


def held_signal(**attributes: Any) -> HeldSignal:
    """A new held value. Raises EditRefused, in words, if the attributes do not fit."""
    return made(HeldSignal, **attributes)


def _index(project: Project, name: str) -> int:
    must_exist("signal", name, project.signal_named)
    signal = project.signal_named[name]
    return next(index for index, other in enumerate(project.signals) if other is signal)


def _with_signal(project: Project, index: int, signal: AnySignal) -> Project:
    return changed(project, signals=(*project.signals[:index], signal, *project.signals[index + 1 :]))
