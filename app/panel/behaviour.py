"""Who goes where, and what keys and conditions do, arranged for looking up."""

from __future__ import annotations

import operator
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from types import MappingProxyType

from app.project.model import Action, Condition, Panel, ScreenChange
from app.project.references import RELATIVE_SCREENS


@dataclass(frozen=True, slots=True)
class Override:
    """A screen shown while a condition holds. `index` is its own in `project.screen_changes`."""

    index: int
    condition: Condition
    to: str


@dataclass(frozen=True, slots=True)
class Conditional:
    """An action on a condition. `index` is the action's in `project.actions`."""

    index: int
    condition: Condition
    action: Action


def start_of(panel: Panel, names: Sequence[str]) -> str:
    """The screen that is shown first: the one that the panel names, else the first; empty if there is none."""
    return panel.start if panel.start in names else next(iter(names), "")


class Behaviour:
    """The screen changes and actions of a project by who asks for them.

    Screen changes and actions that name a screen or a key that does not exist are left out: they cannot come about.
    Which of several screen changes of one cause counts: one with `from` goes before one without, then the order of the
    file.
    """

    def __init__(
        self,
        panel: Panel,
        names: tuple[str, ...],
        screen_changes: tuple[ScreenChange, ...],
        actions: tuple[Action, ...],
    ) -> None:
        """Arrange it. `names` are those of the screens, in the order of the file."""
        self._made_of = (panel, screen_changes, actions)
        self._names = names
        known, keys = frozenset(names), frozenset(panel.keys)
        self.overrides: tuple[Override, ...] = tuple(
            Override(index, screen_change.when, screen_change.to)
            for index, screen_change in enumerate(screen_changes)
            if screen_change.when is not None and screen_change.to in known
        )
        covered = {override.to for override in self.overrides} - {start_of(panel, names)}
        self.ring: tuple[str, ...] = tuple(name for name in names if name not in covered)
        """The screens that 'next' and 'previous' go through: all in the order of the file but the overrides' screens.

        The first screen stays even if an override shows it too: the way home must not depend on a condition.
        """

        self.key_screen_changes: dict[tuple[str | None, str], tuple[int, ScreenChange]] = {}
        self._idle: dict[str | None, list[tuple[int, ScreenChange]]] = {}
        for index, screen_change in enumerate(screen_changes):
            if screen_change.from_ is not None and screen_change.from_ not in known:
                continue
            if (
                screen_change.key is not None
                and screen_change.key in keys
                and (screen_change.to in known or screen_change.to in RELATIVE_SCREENS)
            ):
                self.key_screen_changes.setdefault((screen_change.from_, screen_change.key), (index, screen_change))
            elif screen_change.idle_s is not None and screen_change.to in known:
                self._idle.setdefault(screen_change.from_, []).append((index, screen_change))

        self._key_actions: dict[str, list[Action]] = {}
        for action in actions:
            if action.key is not None:
                self._key_actions.setdefault(action.key, []).append(action)
        self.conditionals: tuple[Conditional, ...] = tuple(
            Conditional(index, action.when, action) for index, action in enumerate(actions) if action.when is not None
        )

    def is_of(
        self,
        panel: Panel,
        names: tuple[str, ...],
        screen_changes: tuple[ScreenChange, ...],
        actions: tuple[Action, ...],
    ) -> bool:
        """Whether one made of these would be the same, as far as can be told without looking at them one by one."""
        return self._names == names and all(map(operator.is_, self._made_of, (panel, screen_changes, actions)))

    def key_screen_change(self, screen: str, key: str) -> tuple[int, ScreenChange, str] | None:
        """The screen change by `key` on `screen`: its index in `project.screen_changes`, itself, and where it leads.

        None if the key changes no screen there, or leads to that same screen.
        """
        found = self.key_screen_changes.get((screen, key)) or self.key_screen_changes.get((None, key))
        if found is None:
            return None
        index, screen_change = found
        to = (
            self.neighbour(screen, 1 if screen_change.to == "next" else -1)
            if screen_change.to in RELATIVE_SCREENS
            else screen_change.to
        )
        return None if to is None or to == screen else (index, screen_change, to)

    def neighbour(self, screen: str, way: int) -> str | None:
        """The screen after (`way` 1) or before (-1) `screen` in the ring; None if there is no other.

        From a screen outside the ring it is the nearest one of the ring in that direction in the order of the file.
        """
        return self._neighbours[way].get(screen)

    @cached_property
    def _neighbours(self) -> Mapping[int, Mapping[str, str]]:
        ring = frozenset(self.ring)
        found: dict[int, dict[str, str]] = {1: {}, -1: {}}
        for way in (1, -1):
            # Twice around, so that the last screen finds the first.
            around = (self._names * 2)[::-way]
            ahead: str | None = None
            for name in around:
                if ahead is not None and ahead != name:
                    found[way][name] = ahead
                if name in ring:
                    ahead = name
        return MappingProxyType(found)

    def key_actions(self, screen: str, key: str) -> list[Action]:
        """The actions of `key` on `screen`, in the order of the file: those for it and those for every screen."""
        actions = self._key_actions.get(key)
        return [action for action in actions if action.from_ is None or action.from_ == screen] if actions else []

    def idle_screen_change(self, screen: str) -> tuple[int, ScreenChange] | None:
        """The idle screen change that leads away from `screen`, with its index in `project.screen_changes`, or None.

        The screen's own go before those of every screen; of several, the one with the shortest time.
        """
        screen_changes = self._idle.get(screen) or self._idle.get(None) or []
        leading_away = [pair for pair in screen_changes if pair[1].to != screen]
        return min(leading_away, key=lambda pair: pair[1].idle_s or 0, default=None)
