"""Who turns where, and what keys and conditions do, arranged for looking up."""

from __future__ import annotations

import operator
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from types import MappingProxyType

from app.project.model import Action, Condition, Panel, Turn
from app.project.references import RELATIVE_SCREENS


@dataclass(frozen=True, slots=True)
class Override:
    """A screen shown while a condition holds. `index` is the turn's in `project.screen_changes`."""

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
    """The turns and actions of a project by who asks for them.

    Turns and actions that name a screen or a key that does not exist are left out: they cannot come about. Which of
    several turns of one cause counts: one with `from` goes before one without, then the order of the file.
    """

    def __init__(
        self, panel: Panel, names: tuple[str, ...], turns: tuple[Turn, ...], actions: tuple[Action, ...]
    ) -> None:
        """Arrange it. `names` are those of the screens, in the order of the file."""
        self._made_of = (panel, turns, actions)
        self._names = names
        known, keys = frozenset(names), frozenset(panel.keys)
        self.overrides: tuple[Override, ...] = tuple(
            Override(index, turn.when, turn.to)
            for index, turn in enumerate(turns)
            if turn.when is not None and turn.to in known
        )
        covered = {override.to for override in self.overrides} - {start_of(panel, names)}
        self.ring: tuple[str, ...] = tuple(name for name in names if name not in covered)
        """The screens that 'next' and 'previous' go through: all in the order of the file but the overrides' screens.

        The first screen stays even if an override shows it too: the way home must not depend on a condition.
        """

        self.key_turns: dict[tuple[str | None, str], tuple[int, Turn]] = {}
        self._idle: dict[str | None, list[tuple[int, Turn]]] = {}
        for index, turn in enumerate(turns):
            if turn.from_ is not None and turn.from_ not in known:
                continue
            if turn.key is not None and turn.key in keys and (turn.to in known or turn.to in RELATIVE_SCREENS):
                self.key_turns.setdefault((turn.from_, turn.key), (index, turn))
            elif turn.idle_s is not None and turn.to in known:
                self._idle.setdefault(turn.from_, []).append((index, turn))

        self._key_actions: dict[str, list[Action]] = {}
        for action in actions:
            if action.key is not None:
                self._key_actions.setdefault(action.key, []).append(action)
        self.conditionals: tuple[Conditional, ...] = tuple(
            Conditional(index, action.when, action) for index, action in enumerate(actions) if action.when is not None
        )

    def is_of(self, panel: Panel, names: tuple[str, ...], turns: tuple[Turn, ...], actions: tuple[Action, ...]) -> bool:
        """Whether one made of these would be the same, as far as can be told without looking at them one by one."""
        return self._names == names and all(map(operator.is_, self._made_of, (panel, turns, actions)))

    def key_turn(self, screen: str, key: str) -> tuple[int, Turn, str] | None:
        """The turn that `key` makes on `screen`: its index in `project.screen_changes`, the turn, and where it leads.

        None if the key turns nothing there, or leads to that same screen.
        """
        found = self.key_turns.get((screen, key)) or self.key_turns.get((None, key))
        if found is None:
            return None
        index, turn = found
        to = self.neighbour(screen, 1 if turn.to == "next" else -1) if turn.to in RELATIVE_SCREENS else turn.to
        return None if to is None or to == screen else (index, turn, to)

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

    def idle_turn(self, screen: str) -> tuple[int, Turn] | None:
        """The idle turn that leads away from `screen`, with its index in `project.screen_changes`, or None.

        The screen's own go before those of every screen; of several, the one with the shortest time.
        """
        turns = self._idle.get(screen) or self._idle.get(None) or []
        leading_away = [pair for pair in turns if pair[1].to != screen]
        return min(leading_away, key=lambda pair: pair[1].idle_s or 0, default=None)
