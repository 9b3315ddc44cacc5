"""A panel that is operated: keys and time go in, rows come out, and what it wants done goes to what lies behind it.

A line, the models of a rehearsal and a recording lie behind a panel in the same way. So a window or a terminal talks to
this one class, whichever it is.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from typing import Protocol

from app.panel.events import Effect, KeyDown, KeyUp, PanelEvent, ReleaseAll, Tick
from app.panel.machine import begin, step
from app.panel.rendering import Rows, render
from app.panel.state import State
from app.panel.view import View
from app.project.model import Project
from app.signals.reading import Reading


class BehindPanel(Protocol):
    """Where the readings of a panel come from and its writes go to. It is asked in the thread of the panel."""

    def registers(self) -> Mapping[str, Reading]:
        """The readings of the register signals as they are now."""
        ...

    def answers(self) -> Iterable[PanelEvent]:
        """What the panel must be told before time passes, oldest first: above all what became of its writes."""
        ...

    def carry_out(self, effects: tuple[Effect, ...], cause: PanelEvent) -> tuple[Effect, ...]:
        """Do what the panel wants done because of `cause`; gives what of it is done or on its way.

        It does not wait: what became of writes comes with a later tick.
        """
        ...


class PanelDriver:
    """One panel and what lies behind it. All methods belong to one thread; none waits."""

    def __init__(self, project: Project, behind: BehindPanel, clock: Callable[[], float]) -> None:
        """Begin as the panel wakes up. `clock` gives the seconds in which the panel lives, monotonic while it runs."""
        self.project = project
        self._behind = behind
        self._clock = clock
        self.at = clock()
        """When the panel was last told something, a key or that time passes: what it did, it did then."""
        self.state: State = begin(project, self.at)

    def begin(self, language: int = 0) -> None:
        """Begin anew, as the panel wakes up, in its language number `language`."""
        self.state = replace(begin(self.project, self._clock()), language=language)

    def key_down(self, key: str) -> tuple[Effect, ...]:
        """The operator presses `key`."""
        return self.take(KeyDown(key, self._clock()))

    def key_up(self, key: str) -> tuple[Effect, ...]:
        """The operator lets `key` go."""
        return self.take(KeyUp(key, self._clock()))

    def release_all(self) -> tuple[Effect, ...]:
        """No key can be held any longer: the window lost the focus, or the panel stops."""
        return self.take(ReleaseAll(self._clock()))

    def tick(self) -> tuple[Effect, ...]:
        """Let time pass: answers to writes, conditions, time-outs. Call it some ten to thirty times a second."""
        effects = [effect for answer in self._behind.answers() for effect in self.take(answer)]
        return (*effects, *self.take(Tick(self._clock())))

    def take(self, event: PanelEvent) -> tuple[Effect, ...]:
        """Let one event happen to the panel; gives what it does then."""
        self.at = event.at
        self.state, effects = step(self.project, self.state, event, self._behind.registers())
        return self._behind.carry_out(effects, event)

    def rows(self, registers: Mapping[str, Reading] | None = None) -> Rows:
        """What the panel shows now, of these readings of the registers; left out, of the newest."""
        return render(self.project, self.state, self._of(registers), self._clock())

    def readings(self, registers: Mapping[str, Reading] | None = None) -> Mapping[str, Reading]:
        """The readings of all signals, of bits and held values too, worked out as they are asked for.

        Of these readings of the registers; left out, of the newest.
        """
        return View(self.project, self.state.held, self._of(registers))

    def _of(self, registers: Mapping[str, Reading] | None) -> Mapping[str, Reading]:
        return self._behind.registers() if registers is None else registers
