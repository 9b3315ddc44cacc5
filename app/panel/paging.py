"""Which screens lead where: what can be reached, from where there is no way back, how many keys it takes."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from types import MappingProxyType
from typing import Literal

from app.panel.conditions import in_words
from app.panel.layout import PanelLayout
from app.project.model import Project


@dataclass(frozen=True, slots=True)
class PagingArrow:
    """One arrow of the page map.

    `source` is None for an arrow that comes from every screen: an override, or an idle screen change without `from`
    (which does not hold on screens that have an idle screen change of their own). A key screen change without `from`
    has one arrow for each screen on which it holds. `screen_change` is the index in `project.screen_changes`.
    """

    source: str | None
    target: str
    label: str
    """The key; "120 s"; the condition in words."""
    kind: Literal["key", "idle", "override"]
    screen_change: int


class PagingGraph:
    """The screens of a project and the screen changes between them, exactly as the panel makes them.

    Screen changes that cannot come about (a key that the panel has not, a screen that does not exist, a screen change
    that another one goes before) are not in it. What is asked is worked out once.
    """

    def __init__(self, project: Project) -> None:
        self._layout = PanelLayout.of(project)
        self.screens: tuple[str, ...] = self._layout.names
        """In the order of the file."""
        self.start: str = self._layout.start
        """The first screen; empty if the project has no screen."""

    @cached_property
    def edges(self) -> tuple[PagingArrow, ...]:
        """All arrows: the screen changes by keys, screen by screen, then the idle ones, then the overrides."""
        layout = self._layout
        keys = [
            PagingArrow(screen, to, key, "key", index)
            for screen in self.screens
            for key, (to, index) in self._by_key[screen].items()
        ]
        idle: dict[int, PagingArrow] = {}
        for screen in self.screens:
            found = layout.behaviour.idle_screen_change(screen)
            if found is not None:
                index, screen_change = found
                idle[index] = PagingArrow(
                    screen_change.from_, screen_change.to, f"{screen_change.idle_s} s", "idle", index
                )
        overrides = [
            PagingArrow(None, one.to, in_words(one.condition), "override", one.index)
            for one in layout.behaviour.overrides
        ]
        return (*keys, *(idle[index] for index in sorted(idle)), *overrides)

    @cached_property
    def reachable(self) -> frozenset[str]:
        """The screens that the panel can ever show: by keys, by idle time, or as overrides."""
        return frozenset(self._places | self._override_screens)

    @property
    def unreachable(self) -> tuple[str, ...]:
        """The screens that nothing leads to, in the order of the file."""
        return tuple(screen for screen in self.screens if screen not in self.reachable)

    @cached_property
    def no_way_back(self) -> tuple[str, ...]:
        """The screens on which the operator can come to be but from which neither keys nor time lead back to start.

        A screen that is only ever shown as an override is none of them: it goes when its condition clears.
        """
        back = self._closure([self.start], self._sources)
        return tuple(screen for screen in self.screens if screen in self._places and screen not in back)

    @cached_property
    def presses_from_start(self) -> Mapping[str, int]:
        """The least number of key presses from the first screen to each that keys lead to.

        A breadth-first search, with the sets of screens as the bits of whole numbers.
        """
        names, ahead = self.screens, self._ahead
        if self.start not in names:
            return MappingProxyType({})
        index = names.index(self.start)
        row = {names[index]: 0}
        seen = 1 << index
        front = ahead[index] & ~seen
        distance = 1
        while front:
            seen |= front
            following = 0
            while front:
                lowest = front & -front
                place = lowest.bit_length() - 1
                row[names[place]] = distance
                following |= ahead[place]
                front ^= lowest
            front = following & ~seen
            distance += 1
        return MappingProxyType(row)

    @cached_property
    def _ahead(self) -> list[int]:
        """Where the keys of each screen lead: a bit for each screen."""
        number = {name: index for index, name in enumerate(self.screens)}
        return [sum(1 << number[to] for to in self._neighbours(name)) for name in self.screens]

    @cached_property
    def _by_key(self) -> dict[str, dict[str, tuple[str, int]]]:
        """For each screen and key that changes it: the screen it leads to, and the index of the screen change."""
        turning = {key for _, key in self._layout.behaviour.key_screen_changes}
        keys = [key for key in self._layout.panel.keys if key in turning]
        found: dict[str, dict[str, tuple[str, int]]] = {}
        for screen in self.screens:
            row = found[screen] = {}
            for key in keys:
                screen_change = self._layout.behaviour.key_screen_change(screen, key)
                if screen_change is not None:
                    row[key] = screen_change[2], screen_change[0]
        return found

    def _neighbours(self, screen: str) -> set[str]:
        return {to for to, _ in self._by_key[screen].values()}

    @cached_property
    def _targets(self) -> dict[str, set[str]]:
        """Where keys and idle time lead, by screen."""
        found = {screen: self._neighbours(screen) for screen in self.screens}
        for screen in self.screens:
            idle = self._layout.behaviour.idle_screen_change(screen)
            if idle is not None:
                found[screen].add(idle[1].to)
        return found

    @cached_property
    def _sources(self) -> dict[str, set[str]]:
        found: dict[str, set[str]] = {screen: set() for screen in self.screens}
        for screen, targets in self._targets.items():
            for target in targets:
                found[target].add(screen)
        return found

    @cached_property
    def _override_screens(self) -> set[str]:
        return {one.to for one in self._layout.behaviour.overrides}

    @cached_property
    def _places(self) -> set[str]:
        """The screens on which the operator can come to be: from start, or led away from an override by a key."""
        left = [to for screen in self._override_screens for to in self._neighbours(screen)]
        return self._closure([self.start, *left], self._targets)

    def _closure(self, begin: Iterable[str], leads: Mapping[str, set[str]]) -> set[str]:
        seen = {screen for screen in begin if screen in leads}
        waiting = list(seen)
        while waiting:
            new = leads[waiting.pop()] - seen
            seen |= new
            waiting += new
        return seen
