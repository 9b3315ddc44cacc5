"""What a project says about its panel, arranged for looking up: which fields a screen has, and how it behaves."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Final

from app.panel.behaviour import Behaviour, start_of
from app.project.model import Field, Panel, Project, Screen
from app.project.project_cache import ProjectCache
from app.signals import repertoire


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


class PanelLayout:
    """The screens of a project, and how it behaves, by who asks for them."""

    def __init__(self, project: Project, former: Behaviour | None = None) -> None:
        """Arrange it. A `former` behaviour is taken over if it is the same: a letter was typed, a signal changed."""
        panel = project.panel
        screens = project.screen_named
        self.panel: Panel = panel
        self.names: tuple[str, ...] = tuple(screens)
        self.start: str = start_of(panel, self.names)
        self.keys: frozenset[str] = frozenset(panel.keys)
        self._signals = project.signal_named.keys()
        self._screens: Mapping[str, Screen] = screens
        self._made: dict[str, ScreenLayout] = {}
        said = (panel, self.names, project.screen_changes, project.actions)
        self.behaviour = former if former is not None and former.is_of(*said) else Behaviour(*said)

    @classmethod
    def of(cls, project: Project) -> PanelLayout:
        """The layout of `project`; made once for each project value."""
        found = _LAYOUTS.get(project)
        if found is None:
            found = _LAYOUTS.keep(project, cls(project, _newest[0]))
            _newest[0] = found.behaviour
        return found

    @cached_property
    def characters(self) -> frozenset[str]:
        """What the panel can show in a cell."""
        return repertoire.characters(self.panel.repertoire)

    def showable(self, text: str) -> str:
        """`text` with `?` for every character that the panel cannot show."""
        return text if self.characters.issuperset(text) else repertoire.shown(self.panel.repertoire, text)

    def spell(self, text: str) -> str:
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


_LAYOUTS: Final = ProjectCache[PanelLayout]()
_newest: Final[list[Behaviour | None]] = [None]
"""That of the layout made last: the next project is mostly the same but for one edit."""
