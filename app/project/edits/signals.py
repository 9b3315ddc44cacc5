"""Editing the signals."""

from __future__ import annotations

from typing import Any

from app.project.edits.refused import changed, free_name, made, moved, must_be_index, must_exist
from app.project.edits.several import delete_parts, put_parts
from app.project.model import BitSignal, HeldSignal, Project, RegisterSignal

AnySignal = RegisterSignal | BitSignal | HeldSignal


def add_signal(project: Project, signal: AnySignal, at: int | None = None) -> Project:
    """With one more signal, at index `at` or at the end."""
    after = put_parts(project, "signal", {}, [signal])
    at = len(project.signals) if at is None else max(0, min(at, len(project.signals)))
    if at == len(project.signals):
        return after
    return changed(after, signals=(*project.signals[:at], signal, *project.signals[at:]))


def duplicate_signal(project: Project, name: str, new_name: str | None = None) -> Project:
    """With a copy of a signal right behind it."""
    index = _index(project, name)
    new_name = free_name(name, project.signal_named) if new_name is None else new_name
    return add_signal(project, changed(project.signals[index], name=new_name), index + 1)


def change_signal(project: Project, name: str, /, **changes: Any) -> Project:
    """With other attributes of a signal; `name` among them renames it, and its uses follow."""
    index = _index(project, name)
    return put_parts(project, "signal", {index: changed(project.signals[index], **changes)})


def replace_signal(project: Project, name: str, signal: AnySignal) -> Project:
    """With `signal` in the place of the one called `name`, whose name it takes: of another form, say.

    Refused where a use of it would break: a bit of what is now a bit itself, a value from what is no held value.
    """
    index = _index(project, name)
    return put_parts(project, "signal", {index: changed(signal, name=name) if signal.name != name else signal})


def rename_signal(project: Project, name: str, new_name: str) -> Project:
    """With another name for a signal; all its uses follow."""
    return change_signal(project, name, name=new_name)


def delete_signal(project: Project, name: str) -> Project:
    """Without a signal. Refused while it is used, with the list of uses."""
    return delete_parts(project, "signal", [_index(project, name)])


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
