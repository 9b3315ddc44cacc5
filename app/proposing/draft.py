"""A trial in the making: its cases so far, and what could not be proposed and why."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import cached_property
from typing import Any, Final

from app.panel.layout import PanelLayout
from app.project.model import Action, Condition, HeldSignal, Project, Screen
from app.project.purpose import stops
from app.proposing.machine import Machine
from app.proposing.routes import Routes
from app.proposing.ways import ConditionWay, Ways, judge, judge_by
from app.signals.reading import Value
from app.trial.script import (
    AnyStep,
    Case,
    EnterStep,
    Expectation,
    ExpectStep,
    KeysStep,
    KeyStep,
    OrderStep,
    TrialStep,
    WaitStep,
)

_LONGEST_NAME: Final = 120


@dataclass(frozen=True, slots=True)
class Reached:
    """How a screen is come to from where the panel wakes up, and what the values are then."""

    steps: tuple[TrialStep, ...]
    known: Mapping[str, Value]
    override: int | None = None
    """The override that shows it, if one has to."""


class TrialDraft:
    """The trial of a project in the making."""

    def __init__(self, project: Project) -> None:
        self.project = project
        self.behaviour = PanelLayout.of(project).behaviour
        self.routes = Routes(project)
        self.machine = Machine(project, self.routes)
        self.ways = Ways(project, self.machine)
        self.cases: list[Case] = []
        self.gaps: list[str] = []
        self._names: set[str] = set()
        self._reached: dict[str, Reached | None] = {}
        self.setup = tuple(self._calming())
        """Orders without which an override would cover the first screen from the beginning."""

    def add(
        self,
        name: str,
        steps: Sequence[TrialStep],
        *,
        each: Sequence[Mapping[str, Any]] = (),
        notes: str = "",
        simulated: bool = False,
    ) -> None:
        """Add a case. It is for simulated devices only if it needs orders to them, or how they are in the beginning."""
        operated = simulated or bool(self.setup) or any(isinstance(step, OrderStep) for step in steps)
        moves = operated or any(map(self._may_move, steps))
        given: dict[str, Any] = {"name": self._named(name), "on": "simulated" if operated else "both"}
        if not moves:
            given["moves"] = False
        if notes:
            given["notes"] = notes
        if each:
            given["each"] = tuple(dict(row) for row in each)
        if self.setup:
            given["setup"] = self.setup
        given["steps"] = tuple(_joined(steps))
        if moves and not operated and self.stop_keys:
            given["clean_up"] = tuple(KeyStep(key=key) for key in self.stop_keys)
        self.cases.append(Case(**given))

    def _may_move(self, step: TrialStep) -> bool:
        """Whether a step may write something to a device, as far as its keys can be told."""
        if isinstance(step, EnterStep):
            return not isinstance(self.project.signal_named.get(step.enter), HeldSignal)
        keys = (step.key,) if isinstance(step, KeyStep) else step.keys if isinstance(step, KeysStep) else ()
        return any(action.key in keys and action.do != "next-language" for action in self.project.actions)

    def lacks(self, sentence: str) -> None:
        """Something cannot be proposed."""
        if sentence not in self.gaps:
            self.gaps.append(sentence)

    def go(self, screen: str) -> Reached | None:
        """How to come to a screen, by keys or by the override that shows it; None if nothing leads there."""
        if screen not in self._reached:
            self._reached[screen] = self._way_to(screen)
        return self._reached[screen]

    def override_ways(self) -> Iterable[tuple[int, ConditionWay | None]]:
        """The overrides by their index, each with how it is raised."""
        return [(one.index, self._override_ways[one.index]) for one in self.behaviour.overrides]

    @cached_property
    def stop_keys(self) -> tuple[str, ...]:
        """The keys that stop something on every screen."""
        found = [action.key for action in self.stop_actions if action.from_ is None and action.key is not None]
        return tuple(dict.fromkeys(found))

    @cached_property
    def stop_actions(self) -> tuple[Action, ...]:
        """The actions by which keys stop something at once; those held by a key are none of them."""
        keys = self.project.panel.keys
        return tuple(
            action
            for action in self.project.actions
            if action.key in keys and action.do in ("clear", "write") and stops(action) and self.is_there(action.signal)
        )

    @property
    def screens(self) -> tuple[Screen, ...]:
        """The screens in the order of the project; of two with one name the first, as the panel takes them."""
        return tuple(self.project.screen_named.values())

    @property
    def held(self) -> dict[str, Value]:
        """The values that the panel holds when it wakes up."""
        signals = self.project.signal_named.values()
        return {signal.name: Fraction(signal.held) for signal in signals if isinstance(signal, HeldSignal)}

    @property
    def shown_screens(self) -> list[str]:
        """The screens that can be come to, in the order of the project."""
        return [screen.name for screen in self.screens if self.go(screen.name) is not None]

    def language_key(self, screen: str) -> str | None:
        """The key that chooses the next language on a screen and does nothing else."""
        for key in self.project.panel.keys:
            deeds = self.behaviour.key_actions(screen, key)
            if [action.do for action in deeds] == ["next-language"] and not self.behaviour.key_screen_change(
                screen, key
            ):
                return key
        return None

    def languages(self, screen: str) -> list[tuple[int, list[TrialStep]]]:
        """The languages of a screen's texts that can be seen there, each with the steps from the one before."""
        found: list[tuple[int, list[TrialStep]]] = [(0, [])]
        key = self.language_key(screen)
        if key is not None and self.project.panel.language is None:
            found += [(number, [KeyStep(key=key)]) for number in range(1, len(self.project.panel.languages))]
        return found

    def is_there(self, signal: str | None) -> bool:
        """Whether the project has a signal, on the line or in the panel."""
        if signal is None or signal not in self.project.signal_named:
            return False
        return isinstance(self.project.signal_named[signal], HeldSignal) or signal in self.machine.start_values

    def raises_nothing(self, name: str, value: Value) -> bool:
        """Whether a value of a signal makes no override hold, and sets off no action."""
        conditions = [one.condition for one in self.behaviour.overrides]
        conditions += [one.condition for one in self.behaviour.conditionals]
        return not any(self.holds_with(condition, name, value) for condition in conditions)

    def holds_with(self, condition: Condition, name: str, value: Value) -> bool:
        """Whether a condition is about this signal, or a bit of it, and holds at this value."""
        return bool(judge_by(self.project, condition, name, value))

    # How

    @cached_property
    def _override_ways(self) -> dict[int, ConditionWay | None]:
        return {one.index: self.ways.to(one.condition) for one in self.behaviour.overrides}

    def _way_to(self, screen: str) -> Reached | None:
        steps = self.routes.steps(self.routes.start, screen)
        if steps is not None:
            return Reached(tuple(steps), {})
        for one in self.behaviour.overrides:
            way = self._override_ways[one.index]
            if one.to == screen and way is not None:
                there = WaitStep(wait=Expectation(screen=screen))
                return Reached((*way.calm, *way.raising, there), way.known, one.index)
        return None

    def _calming(self) -> Iterable[str]:
        for one in self.behaviour.overrides:
            name = one.condition.signal
            if judge(one.condition, self.machine.start_values.get(name)) and self.machine.settable(name):
                way = self.ways.to(one.condition)
                if way is not None:
                    yield from (step.order for step in way.calm if isinstance(step, OrderStep))

    def _named(self, name: str) -> str:
        wanted, number = name[:_LONGEST_NAME], 2
        while wanted in self._names:
            more = f" ({number})"
            wanted, number = name[: _LONGEST_NAME - len(more)] + more, number + 1
        self._names.add(wanted)
        return wanted


def expect(seen: Expectation, hold_s: Decimal | None = None) -> ExpectStep:
    """An expectation as a step."""
    return ExpectStep(expect=seen) if hold_s is None else ExpectStep(expect=seen, hold_s=hold_s)


def signal_is(name: str, value: Decimal) -> ExpectStep:
    """A signal reads a value."""
    return ExpectStep(expect=Expectation(signal=name, value=value))


def screen_is(name: str, within_s: int | None = None) -> ExpectStep:
    """A screen is shown."""
    seen = Expectation(screen=name)
    return ExpectStep(expect=seen) if within_s is None else ExpectStep(expect=seen, within_s=Decimal(within_s))


def _joined(steps: Sequence[TrialStep]) -> list[AnyStep]:
    """The steps, without time that passes twice in a row."""
    found: list[Any] = []
    for step in steps:
        before = found[-1] if found else None
        if (
            isinstance(step, WaitStep)
            and isinstance(before, WaitStep)
            and isinstance(step.wait, Decimal)
            and isinstance(before.wait, Decimal)
        ):
            found[-1] = WaitStep(wait=before.wait + step.wait)
        else:
            found.append(step)
    return found
