"""Bringing many signals in at once, from a list outside the project."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from app.edits.lines import AnyLine
from app.edits.refused import changed, made, must_be_free, with_names_in_order
from app.project.model import AnySignal, Follower, Project


def bring_in_signals(
    project: Project,
    signals: Sequence[AnySignal],
    *,
    followers: Sequence[Follower] = (),
    lines: Sequence[AnyLine] = (),
) -> Project:
    """With these signals: one whose name exists takes that signal's place, the others come at the end.

    `lines` and `followers` are new and come first. Refused as a whole where a name is taken or leads nowhere.
    """
    for line in lines:
        must_be_free("line", line.name, project.line_named)
    for newcomer in followers:
        must_be_free("follower", newcomer.name, project.follower_named)
    by_name: dict[str, AnySignal] = {}
    for signal in signals:
        must_be_free("signal", signal.name, by_name)
        by_name[signal.name] = signal
    kept = tuple(by_name.pop(signal.name, signal) for signal in project.signals)
    parts: dict[str, Any] = {}
    if by_name or kept != project.signals:
        parts["signals"] = (*kept, *by_name.values())
    if followers:
        parts["followers"] = (*project.followers, *followers)
    if lines:
        parts["lines"] = (*project.lines, *lines)
    return with_names_in_order(changed(project, **parts), project) if parts else project


def follower(**attributes: Any) -> Follower:
    """A new follower. Raises EditRefused, in words, if the attributes do not fit."""
    return made(Follower, **attributes)
