"""What a project says about its panel, arranged for looking up: who turns where, which fields a screen has."""

from __future__ import annotations

import weakref
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from types import MappingProxyType
from typing import Final

from app.project.model import Action, Condition, Field, Panel, Project, Screen, Turn
from app.signals import repertoire


@dataclass(frozen=True, slots=True)
class Override:
    """A screen shown while a condition holds. `index` is the turn's in `project.turns`."""

    index: int
    condition: Condition
    to: str


@dataclass(frozen=True, slots=True)
class Conditional:
    """An action on a condition. `index` is the action's in `project.actions`."""

    index: int
    condition: Condition
    action: Action


@dataclass(frozen=True, slots=True)
class ScreenLayout:
    """One screen: its static text as full rows, its fields, and which of them allow entry."""

    screen: Screen
    rows: tuple[str, ...]
    entry_fields: tuple[int, ...]
    """Indexes in `screen.fields` of the fields with entry, in reading order."""

    @property
    def fields(self) -> tuple[Field, ...]:
        """The fields, in the order of the file; a later one covers an earlier one."""
        return self.screen.fields


class Layout:
    """The turns, actions and screens of a project by who asks for them.

    Turns and actions that name a screen or a key that does not exist are left out: they cannot come about. Which of
    several turns of one cause counts: one with `from` goes before one without, then the order of the file.
    """

    def __init__(self, project: Project) -> None:
        panel = project.panel
        screens = project.screen_named
        self.panel: Panel = panel
        self.names: tuple[str, ...] = tuple(screens)
        self.keys: frozenset[str] = frozenset(panel.keys)
        self.start: str = panel.start if panel.start in screens else next(iter(screens), "")
        self._signals = frozenset(project.signal_named)
        self._screens: Mapping[str, Screen] = screens
        self._made: dict[str, ScreenLayout] = {}

        self.overrides: tuple[Override, ...] = tuple(
            Override(index, turn.when, turn.to)
            for index, turn in enumerate(project.turns)
            if turn.when is not None and turn.to in screens
        )
        covered = {override.to for override in self.overrides} - {self.start}
        self.ring: tuple[str, ...] = tuple(name for name in self.names if name not in covered)
        """The screens that 'next' and 'previous' go through: all in the order of the file but the overrides' screens.

        The first screen stays even if an override shows it too: the way home must not depend on a condition.
        """

        self.key_turns: dict[tuple[str | None, str], tuple[int, Turn]] = {}
        self._idle: dict[str | None, list[tuple[int, Turn]]] = {}
        for index, turn in enumerate(project.turns):
            if turn.from_ is not None and turn.from_ not in screens:
                continue
            if turn.key is not None and turn.key in self.keys and (turn.to in screens or turn.to in _RING_WORDS):
                self.key_turns.setdefault((turn.from_, turn.key), (index, turn))
            elif turn.idle_s is not None and turn.to in screens:
                self._idle.setdefault(turn.from_, []).append((index, turn))

        self._key_actions: dict[str, list[Action]] = {}
        for action in project.actions:
            if action.key is not None:
                self._key_actions.setdefault(action.key, []).append(action)
        self.conditionals: tuple[Conditional, ...] = tuple(
            Conditional(index, action.when, action)
            for index, action in enumerate(project.actions)
            if action.when is not None
        )

    @classmethod
    def of(cls, project: Project) -> Layout:
        """The layout of `project`; made once for each project value."""
        key = id(project)
        found = _LAYOUTS.get(key)
        # The identity is checked too: the id of a project that is gone may have been given to a new one.
        if found is not None and found[0]() is project:
            return found[1]
        layout = cls(project)
        _LAYOUTS[key] = (weakref.ref(project, lambda ref: _forget(key, ref)), layout)
        return layout

    @cached_property
    def characters(self) -> frozenset[str]:
        """What the panel can show in a cell."""
        return repertoire.characters(self.panel.repertoire)

    def showable(self, text: str) -> str:
        """`text` with `?` for every character that the panel cannot show."""
        return text if self.characters.issuperset(text) else repertoire.shown(self.panel.repertoire, text)

    def spelled(self, text: str) -> str:
        """`text`, as long as it becomes, in letters that the panel can show: "ae" for "ä" where that is missing."""
        return text if self.characters.issuperset(text) else repertoire.spelled(self.panel.repertoire, text)

    def screen(self, name: str) -> ScreenLayout:
        """The screen called `name`; an empty one if there is none."""
        made = self._made.get(name)
        if made is None:
            made = self._made[name] = self._lay_out(self._screens.get(name) or Screen(name=name or "-"))
        return made

    def _lay_out(self, screen: Screen) -> ScreenLayout:
        columns, rows = self.panel.columns, self.panel.rows
        texts = [self.showable(text[:columns]).ljust(columns) for text in screen.text[:rows]]
        texts += [" " * columns] * (rows - len(texts))
        entry = [index for index, field in enumerate(screen.fields) if field.entry and field.signal in self._signals]
        entry.sort(key=lambda index: screen.fields[index].at)
        return ScreenLayout(screen, tuple(texts), tuple(entry))

    def key_turn(self, screen: str, key: str) -> tuple[int, Turn, str] | None:
        """The turn that `key` makes on `screen`: its index in `project.turns`, the turn, and the screen it leads to.

        None if the key turns nothing there, or leads to that same screen.
        """
        found = self.key_turns.get((screen, key)) or self.key_turns.get((None, key))
        if found is None:
            return None
        index, turn = found
        to = self.neighbour(screen, 1 if turn.to == "next" else -1) if turn.to in _RING_WORDS else turn.to
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
            around = (self.names * 2)[::-way]
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
        """The idle turn that leads away from `screen`, with its index in `project.turns`, or None.

        The screen's own go before those of every screen; of several, the one with the shortest time.
        """
        turns = self._idle.get(screen) or self._idle.get(None) or []
        leading_away = [pair for pair in turns if pair[1].to != screen]
        return min(leading_away, key=lambda pair: pair[1].idle_s or 0, default=None)


_RING_WORDS: Final = ("next", "previous")
_LAYOUTS: Final[dict[int, tuple[weakref.ref[Project], Layout]]] = {}


def _forget(key: int, ref: weakref.ref[Project]) -> None:
    found = _LAYOUTS.get(key)
    if found is not None and found[0] is ref:
        del _LAYOUTS[key]
