"""What was worked out of a project, kept as long as the project lives."""

from __future__ import annotations

import weakref
from collections.abc import Callable
from typing import Generic, TypeVar

from app.project.model import Project

V = TypeVar("V")


class ProjectCache(Generic[V]):
    """One thing a project, for whoever asks again. A project that is gone takes its own along.

    Projects are told apart by identity: comparing two of them takes longer than most of what is worked out of one.
    """

    def __init__(self) -> None:
        self._of: dict[int, tuple[weakref.ref[Project], V]] = {}

    def __len__(self) -> int:
        return len(self._of)

    def get(self, project: Project) -> V | None:
        """What is kept of this very project; None if nothing is."""
        kept = self._of.get(id(project))
        # Another project may have been given the id of one that is gone.
        return kept[1] if kept is not None and kept[0]() is project else None

    def keep(self, project: Project, made: V) -> V:
        """Keep what was made of a project, in place of what was kept of it before. Returns it."""
        key = id(project)
        self._of[key] = (weakref.ref(project, lambda ref: self._forget(key, ref)), made)
        return made

    def of(self, project: Project, make: Callable[[Project], V]) -> V:
        """What is kept of this very project; made now if nothing is."""
        kept = self.get(project)
        return self.keep(project, make(project)) if kept is None else kept

    def _forget(self, key: int, ref: weakref.ref[Project]) -> None:
        kept = self._of.get(key)
        if kept is not None and kept[0] is ref:
            del self._of[key]
