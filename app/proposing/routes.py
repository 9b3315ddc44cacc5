"""Which keys an operator presses to come from one screen to another."""

from __future__ import annotations

import heapq
from collections.abc import Sequence
from decimal import Decimal
from typing import Final

from app.panel.layout import PanelLayout
from app.panel.paging import PagingArrow, PagingGraph
from app.project.model import Project
from app.trial.script import Expectation, KeysStep, KeyStep, TrialStep, WaitStep

_DEED_COSTS: Final = 100
"""A key that does something besides is pressed only where no other way is shorter by so many keys."""


class Routes:
    """The ways by keys through the screens of a project."""

    def __init__(self, project: Project) -> None:
        self._behaviour = PanelLayout.of(project).behaviour
        graph = PagingGraph(project)
        self.start = graph.start
        self.unreachable = graph.unreachable
        self._from: dict[str, list[PagingArrow]] = {screen: [] for screen in graph.screens}
        for arrow in graph.edges:
            if arrow.kind == "key" and arrow.source is not None:
                self._from[arrow.source].append(arrow)

    def leaving(self, screen: str) -> Sequence[PagingArrow]:
        """The screen changes by keys that lead away from a screen."""
        return self._from.get(screen, ())

    def keys(self, source: str, target: str) -> tuple[str, ...] | None:
        """The keys from one screen to another, by as few deeds and presses as can be; None if none lead there."""
        waiting: list[tuple[int, int, str, tuple[str, ...]]] = [(0, 0, source, ())]
        seen: set[str] = set()
        order = 0
        while waiting:
            cost, _, screen, keys = heapq.heappop(waiting)
            if screen == target:
                return keys
            if screen in seen:
                continue
            seen.add(screen)
            for arrow in self.leaving(screen):
                order += 1
                deeds = len(self._behaviour.key_actions(screen, arrow.label))
                heapq.heappush(waiting, (cost + 1 + _DEED_COSTS * deeds, order, arrow.target, (*keys, arrow.label)))
        return None

    def steps(self, source: str, target: str) -> list[TrialStep] | None:
        """The same as steps, with the screen that must be there in the end."""
        keys = self.keys(source, target)
        if keys is None:
            return None
        if not keys:
            return []
        return [press(keys), WaitStep(wait=Expectation(screen=target), within_s=Decimal(2))]


def press(keys: Sequence[str]) -> TrialStep:
    """Keys, one after the other."""
    if len(keys) == 1:
        return KeyStep(key=keys[0])
    return KeysStep(keys=tuple(keys)) if len(set(keys)) > 1 else KeyStep(key=keys[0], times=len(keys))
