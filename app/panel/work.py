"""One step of the panel in the making: what the handlers of events read, change and bring about."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from types import MappingProxyType
from typing import Any, Final

from app.panel.entry import Editing, Entry
from app.panel.events import Effect, Refused
from app.panel.layout import PanelLayout
from app.panel.messages import Saying, message_text
from app.panel.state import Message, State
from app.panel.view import View
from app.project.languages import in_language
from app.project.model import Field, Project
from app.signals.reading import Reading

MESSAGE_S: Final = 3.0
"""How long a message stays on the panel, in seconds; the next key takes it away sooner."""
REASON_S: Final = 12.0
"""How long its reason can be read beside the panel, in seconds: longer, since it is read after the message."""


class StepInProgress:
    """One step in the making: the state so far and the effects so far."""

    __slots__ = ("_view", "at", "effects", "layout", "project", "readings", "state")

    def __init__(self, project: Project, state: State, at: float, readings: Mapping[str, Reading]) -> None:
        self.project = project
        self.layout = PanelLayout.of(project)
        self.state = state
        self.at = at
        self.readings = readings
        self.effects: list[Effect] = []
        self._view: View | None = None

    @property
    def view(self) -> View:
        """The readings as the panel sees them now."""
        if self._view is None:
            self._view = View(self.project, self.state.held, self.readings)
        return self._view

    def change(self, **changes: Any) -> None:
        """Change attributes of the state."""
        self.state = replace(self.state, **changes)

    def hold(self, signal: str, value: Fraction) -> None:
        """Give a held value other contents."""
        self.change(held=MappingProxyType({**self.state.held, signal: value}))
        self._view = None

    @property
    def spoken(self) -> Project:
        """The project in the language that the panel shows."""
        return in_language(self.project, self.state.language)

    def tell(self, saying: Saying, reason: str = "", signal: str = "", value: Fraction | None = None) -> None:
        """Show a message on the panel for `MESSAGE_S`, in its language; `reason` says more to people.

        `signal` and `value`: what could not be entered or written.
        """
        message = Message(message_text(self.spoken, saying), self.at + MESSAGE_S, reason, signal, value)
        self.change(message=message, said=message)

    def refuse(self, signal: str, reason: str, saying: Saying) -> None:
        """Refuse something: `reason` for the records, `saying` on the panel."""
        self.effects.append(Refused(signal, reason))
        self.tell(saying, reason, signal)

    @property
    def fields(self) -> tuple[Field, ...]:
        """The fields of the screen that is shown."""
        return self.layout.screen(self.state.shown).fields

    @property
    def editing(self) -> tuple[Entry, Editing]:
        """The entry under change. Only in the mode that adjusts."""
        entry = self.state.entry
        assert entry is not None
        assert entry.editing is not None
        return entry, entry.editing
