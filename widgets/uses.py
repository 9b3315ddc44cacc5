"""How often each signal is used."""

from __future__ import annotations

import weakref
from collections import Counter
from collections.abc import Iterator
from typing import Final

from app.project.model import BitSignal, HeldValue, Project

_KEPT: Final[dict[int, tuple[weakref.ref[Project], Counter[str]]]] = {}


def use_counts(project: Project) -> Counter[str]:
    """Of each signal, how many fields, conditions, actions and bits name it. Counted once for each project value."""
    kept = _KEPT.get(id(project))
    if kept is not None and kept[0]() is project:
        return kept[1]
    counts = Counter(_named(project))
    _KEPT.clear()
    _KEPT[id(project)] = (weakref.ref(project), counts)
    return counts


def _named(project: Project) -> Iterator[str]:
    for screen in project.screens:
        for field in screen.fields:
            yield field.signal
            if field.blink is not None:
                yield field.blink.signal
    for turn in project.turns:
        if turn.when is not None:
            yield turn.when.signal
    for action in project.actions:
        if action.when is not None:
            yield action.when.signal
        if action.signal is not None:
            yield action.signal
        if isinstance(action.value, HeldValue):
            yield action.value.from_
    for signal in project.signals:
        if isinstance(signal, BitSignal):
            yield signal.bit.of
