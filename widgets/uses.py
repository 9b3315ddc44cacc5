"""How often and where each signal is used."""

from __future__ import annotations

import weakref
from collections import Counter
from typing import Final

from PySide6.QtCore import QCoreApplication

from app.project import references
from app.project.model import BitSignal, Project
from app.project.references import Use

MOST_NAMED: Final = 12
_KEPT: Final[dict[int, tuple[weakref.ref[Project], Counter[str]]]] = {}
_PLACES: Final[dict[tuple[int, str], tuple[weakref.ref[Project], tuple[Use, ...]]]] = {}
_latest: tuple[object, ...] = ()


def use_counts(project: Project) -> Counter[str]:
    """Of each signal, how many places name it: the same object as before as long as these are as many.

    Counted once for each project value, and anew only where a part that can name a signal has changed.
    """
    global _latest
    kept = _KEPT.get(id(project))
    if kept is not None and kept[0]() is project:
        return kept[1]
    bits = tuple(part.bit.of for part in project.signals if isinstance(part, BitSignal))
    users = (project.screens, project.turns, project.actions, project.panel, bits)
    former = next(iter(_KEPT.values()), None)
    counts = None if former is None else former[1]
    if counts is None or not _same(users, _latest):
        now = references.use_counts(project, "signal")
        if counts is None or now.items() != counts.items():  # else tables are told that there is nothing to draw
            counts = now
    _latest = users
    _KEPT.clear()
    _KEPT[id(project)] = (weakref.ref(project), counts)
    return counts


def places_of(project: Project, name: str) -> tuple[Use, ...]:
    """Where one signal is used; looked up once for each project value as long as no other is asked for."""
    key = (id(project), name)
    kept = _PLACES.get(key)
    if kept is None or kept[0]() is not project:
        _PLACES.clear()
        kept = _PLACES[key] = (weakref.ref(project), references.uses(project, "signal", name))
    return kept[1]


def places_text(project: Project, name: str) -> str:
    """Where one signal is used, a line each; the first dozen."""
    places = [use.where for use in places_of(project, name)]
    if not places:
        return QCoreApplication.translate("SignalCells", "Nothing uses it yet")
    if len(places) > MOST_NAMED:
        more = QCoreApplication.translate("SignalCells", "and more: {count}").format(count=len(places) - MOST_NAMED)
        places = [*places[:MOST_NAMED], more]
    return "\n".join(places)


def _same(users: tuple[object, ...], former: tuple[object, ...]) -> bool:
    return len(users) == len(former) and all(
        now is then or (isinstance(now, tuple) and index == len(users) - 1 and now == then)
        for index, (now, then) in enumerate(zip(users, former, strict=True))
    )
