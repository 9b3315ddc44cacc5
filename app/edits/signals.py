"""Editing the signals."""

from __future__ import annotations

from typing import Any

from app.edits.refused import changed, free_name, made
from app.edits.several import change_part, index_of, put_parts
from app.project.model import AnySignal, BitSignal, HeldSignal, Project, RegisterSignal


def add_signal(project: Project, signal: AnySignal, at: int | None = None) -> Project:
    """With one more signal, at index `at` or at the end."""
    after = put_parts(project, "signal", {}, [signal])
    at = len(project.signals) if at is None else max(0, min(at, len(project.signals)))
    if at == len(project.signals):
        return after
    return changed(after, signals=(*project.signals[:at], signal, *project.signals[at:]))


def change_signal(project: Project, name: str, /, **changes: Any) -> Project:
    """With other attributes of a signal; `name` among them renames it, and its uses follow."""
    return change_part(project, "signal", index_of(project, "signal", name), **changes)


def rename_signal(project: Project, name: str, new_name: str) -> Project:
    """With another name for a signal; all its uses follow."""
    return change_signal(project, name, name=new_name)


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
