"""How often and where each signal is used."""

from __future__ import annotations

import weakref
from collections import Counter
from typing import Final, NamedTuple

from PySide6.QtCore import QCoreApplication

from app.project import references
from app.project.model import BitSignal, Project
from app.project.project_cache import ProjectCache
from app.project.references import Use

MOST_NAMED: Final = 12
_PLACES: Final = ProjectCache[dict[str, tuple[Use, ...]]]()


class _Counted(NamedTuple):
    """What was counted last; of no more than one project, since each has thousands of counts."""

    project: weakref.ref[Project]
    users: tuple[object, ...]
    counts: Counter[str]


_latest: _Counted | None = None


def use_counts(project: Project) -> Counter[str]:
    """Of each signal, how many places name it: the same object as before as long as these are as many.

    Counted once for each project value, and anew only where a part that can name a signal has changed.
    """
    global _latest
    former = _latest
    if former is not None and former.project() is project:
        return former.counts
    bits = tuple(part.bit.of for part in project.signals if isinstance(part, BitSignal))
    users = (project.screens, project.screen_changes, project.actions, project.panel, bits)
    if former is not None and _same(users, former.users):
        counts = former.counts
    else:
        counts = references.use_counts(project, "signal")
        if former is not None and counts.items() == former.counts.items():
            counts = former.counts  # or tables are told that there is something to draw
    _latest = _Counted(weakref.ref(project), users, counts)
    return counts


def places_of(project: Project, name: str) -> tuple[Use, ...]:
    """Where one signal is used; looked up once for each project value."""
    kept = _PLACES.of(project, lambda _project: {})
    if name not in kept:
        kept[name] = references.uses(project, "signal", name)
    return kept[name]


def places_text(project: Project, name: str) -> str:
    """Where one signal is used, a line each; the first dozen."""
    places = [use.where for use in places_of(project, name)]
    if not places:
        return QCoreApplication.translate("SignalCells", "Not used yet")
    if len(places) > MOST_NAMED:
        more = QCoreApplication.translate("SignalCells", "and more: {count}").format(count=len(places) - MOST_NAMED)
        places = [*places[:MOST_NAMED], more]
    return "\n".join(places)


def _same(users: tuple[object, ...], former: tuple[object, ...]) -> bool:
    return len(users) == len(former) and all(
        now is then or (isinstance(now, tuple) and index == len(users) - 1 and now == then)
        for index, (now, then) in enumerate(zip(users, former, strict=True))
    )
