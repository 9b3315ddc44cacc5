"""A project rehearsed: its panel operated against the models of its followers, with no line between them.

What goes over a line here goes from hand to hand in one step: the models' registers are decoded as if they had just
been read, and writes go into them as if the line had taken them. So an idea can be tried while a screen is being drawn.
It proves nothing about timing or about the line; that is what the bench is for.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from typing import Final

from app.client.faults import exception_text
from app.follower.errors import FollowerError
from app.follower.register_bank import RegisterBank
from app.follower.simulation import Simulation
from app.language import translate
from app.line.write_queue import WriteReport
from app.panel.driver import PanelDriver
from app.panel.events import Effect, PanelEvent, Write, WriteDone, WriteFailed
from app.project.binding import Binding, bindings
from app.project.model import BitSignal, PanelMessage, Project
from app.project.purpose import Purpose
from app.signals.reading import Quality, Reading

__all__ = ["FollowerError", "Rehearsal"]

STANDS_STILL_S: Final = 1.0
"""A longer pause between two ticks, in seconds, has not happened for the models: the window was busy or hidden."""

_NO_SUCH_ADDRESS: Final = 2
"""The exception code of a device without that register (MODBUS Application Protocol V1.1b3, 7)."""


class Rehearsal:
    """One panel and the models of its followers. All methods belong to one thread; none waits, none opens anything."""

    def __init__(
        self,
        project: Project,
        screen: str | None = None,
        clock: Callable[[], float] = time.monotonic,
        *,
        language: int = 0,
        machine: Project | None = None,
    ) -> None:
        """Begin `project` on `screen`, on its first one if left out. `clock` gives monotonic seconds.

        The panel begins in its language number `language`, until something of the project chooses another. The
        followers are those of another project, `machine`, if there is one: each is found by its line and its unit.

        Raises FollowerError if a follower cannot be simulated: a start value does not fit its signal.
        """
        self.project = project
        self._clock = clock
        self._models: Mapping[str, RegisterBank] = Simulation(machine or project, clock=clock).models
        self._answering = self._models if machine is None else _at_their_places(project, self._models)
        now = self._at = clock()
        for model in self._models.values():
            model.advance_to(now)
        self.panel = PanelDriver(project, self, clock)
        """What is operated; its ticks let time pass in the models, too."""
        self.panel.begin(language)
        if screen in project.screen_named:
            self.panel.state = replace(self.panel.state, screen=screen)
        self._answers: list[PanelEvent] = []
        self._owed: dict[str, Write] = {}
        """Stops that a silent follower has not got, by signal: they are written when it answers again, as on a line."""
        self._reports: list[WriteReport] = []

    def show(self, screen: str) -> tuple[Effect, ...]:
        """Let go of all keys and stand on this screen; one with a condition that holds goes on covering it."""
        effects = self.panel.release_all()
        self.panel.state = replace(self.panel.state, screen=screen, entry=None, since=self._clock())
        return effects

    @property
    def models(self) -> Mapping[str, RegisterBank]:
        """The models of the followers, by follower; a person may set what stands in them, or make them silent."""
        return self._models

    def registers(self) -> Mapping[str, Reading]:
        """The readings of the models' registers, for the panel."""
        return _Registers(self.project, self._answering, self._clock())

    def take_reports(self) -> list[WriteReport]:
        """What became of the panel's writes since the last call, as a session tells it."""
        reports, self._reports = self._reports, []
        return reports

    def answers(self) -> list[PanelEvent]:
        """Let time pass in the models; gives what became of the panel's writes."""
        now = self._clock()
        for model in self._models.values():
            if now - self._at > STANDS_STILL_S:
                model.pause()
            if not model.absent:
                model.on_request()  # here nobody ever stops asking
            model.advance_to(now)
        self._at = now
        owed, self._owed = self._owed, {}
        for write in owed.values():
            self._write(write)
        answers, self._answers = self._answers, []
        return answers

    def carry_out(self, effects: tuple[Effect, ...], _cause: PanelEvent) -> tuple[Effect, ...]:
        """Write into the models what the panel wants written."""
        # The answers come with the next tick, as a line's come later: two conditions that write in turn go on for ever.
        self._answers += [self._write(effect) for effect in effects if isinstance(effect, Write)]
        return effects

    def _write(self, write: Write) -> PanelEvent:
        binding = bindings(self.project)[write.signal]
        model = self._answering.get(binding.follower.name)
        now = self._clock()
        if model is None or model.silent:
            if write.purpose is not Purpose.VALUE:
                self._owed[write.signal] = write
            return self._failed(write, _silence(binding), "no_answer")
        refused: int | None = _NO_SUCH_ADDRESS
        if model.has(binding.table, binding.address, binding.count):
            words = model.read(binding.table, binding.address, binding.count)
            encoded = binding.encode(write.value, words)
            values = [int(encoded)] if isinstance(encoded, bool) else encoded
            refused = model.write(binding.table, binding.address, values)
        if refused is not None:
            words_for_it = translate("rehearsal", "device '{follower}' refuses: {exception}")
            reason = words_for_it.format(follower=binding.follower.name, exception=exception_text(int(refused))[0])
            return self._failed(write, reason, "refused")
        kept = binding.reading(model.read(binding.table, binding.address, binding.count), now).value
        self._reports.append(WriteReport(write.signal, write.value, kept, ok=True, at=now))
        return WriteDone(write.signal, now, write.value)

    def _failed(self, write: Write, reason: str, message: PanelMessage) -> PanelEvent:
        now = self._clock()
        self._reports.append(WriteReport(write.signal, write.value, None, ok=False, reason=reason, at=now))
        return WriteFailed(write.signal, reason, now, write.value, message)


def _at_their_places(project: Project, models: Mapping[str, RegisterBank]) -> Mapping[str, RegisterBank]:
    """The models that answer where a project has its followers: on the same line, at the same unit."""
    places = {(model.follower.line, model.follower.unit): model for model in models.values()}
    found = {follower.name: places.get((follower.line, follower.unit)) for follower in project.followers}
    return {name: model for name, model in found.items() if model is not None}


class _Registers(Mapping[str, Reading]):
    """The readings of all register signals at one moment; only those that are asked for are decoded."""

    def __init__(self, project: Project, models: Mapping[str, RegisterBank], at: float) -> None:
        self._bindings = bindings(project)
        self._models = models
        self._at = at
        self._read: dict[str, Reading] = {}

    def __getitem__(self, name: str) -> Reading:
        found = self._read.get(name)
        if found is None:
            binding = self._bindings[name]
            if isinstance(binding.signal, BitSignal):
                raise KeyError(name)  # worked out from its word, as on a line
            model = self._models.get(binding.follower.name)
            if model is None or model.silent:
                found = Reading(reason=_silence(binding))
            elif not model.has(binding.table, binding.address, binding.count):
                found = Reading(None, None, Quality.REFUSED, exception_text(_NO_SUCH_ADDRESS)[0], self._at)
            else:
                words = model.read(binding.table, binding.address, binding.count)
                found = binding.reading(words, self._at)
            self._read[name] = found
        return found

    def __iter__(self) -> Iterator[str]:
        return (name for name, binding in self._bindings.items() if not isinstance(binding.signal, BitSignal))

    def __len__(self) -> int:
        return sum(1 for _ in self)


def _silence(binding: Binding) -> str:
    return translate("rehearsal", "device '{follower}' does not answer").format(follower=binding.follower.name)
