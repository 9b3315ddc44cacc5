"""What the simulated devices behind a panel can be brought to: values that can be set, situations of a drive.

A drive works out what its registers hold; so it is tried out here, in models and in a time of their own, what it shows
after it was started, tripped, jammed or put into local.
"""

from __future__ import annotations

import contextlib
import math
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import cached_property
from typing import Final

from app.errors import FanlightError
from app.follower.drive import FaultCode
from app.follower.drive_bank import DriveBank
from app.follower.register_bank import RegisterBank
from app.follower.simulation import Simulation
from app.project.binding import bindings, bindings_of
from app.project.model import Action, Project, RegisterSignal
from app.project.purpose import stops
from app.proposing.routes import Routes
from app.signals.encoding import is_text
from app.signals.reading import Value
from app.trial.script import KeysStep, KeyStep, OrderStep, TrialStep, WaitStep
from app.trial.stand import TICK_S, RehearsedStand

_SETTLED_S: Final = 6
"""How long a drive that has come to its set point is given until its shaft, its current and its DC link rest."""
_LONGEST_RUN_UP_S: Final = 400
_RUN_S: Final = 123_456
"""More seconds than one register holds, so that the order of two is seen."""
_PLACES: Final = 9
"""Decimals of an ordered value; registers round it to their next count."""


@dataclass(frozen=True, slots=True)
class Stage:
    """Something that is done to a machine, and what its signals read afterwards."""

    steps: tuple[TrialStep, ...]
    values: Mapping[str, Value]
    steady: frozenset[str]
    """The signals that did not change any more in the end."""
    screen: str
    """The screen that the panel shows then."""


@dataclass(frozen=True, slots=True)
class Situation:
    """Stages one after the other, from a machine that was just switched on."""

    stages: tuple[Stage, ...]

    def until(self, number: int) -> tuple[TrialStep, ...]:
        """All that is done up to a stage, that stage included."""
        return tuple(step for stage in self.stages[: number + 1] for step in stage.steps)


class Machine:
    """The simulated devices of a project, tried out."""

    def __init__(self, project: Project, routes: Routes) -> None:
        self._project = project
        self._routes = routes
        stand = self._fresh()
        self._models = stand.models
        self._references: dict[str, str | None] = {}
        self.start_values: Mapping[str, Value] = {
            name: reading.value
            for name, reading in stand.readings().items()
            if reading.good and reading.value is not None
        }
        """What every signal reads just after everything was switched on."""
        self.first_screen = stand.panel.state.shown
        """What the panel shows then: an override may cover its first screen at once."""
        self.drives = tuple(name for name, model in self._models.items() if isinstance(model, DriveBank))

    # Values that a person can set

    def settable(self, name: str) -> bool:
        """Whether a signal can be set from outside, and stays so."""
        binding = bindings(self._project).get(name)
        if binding is None or not _orderable(binding.follower.name, name):
            return False
        model = self._models[binding.follower.name]
        own = bindings_of(self._project, binding.follower.name)
        parts = [own[binding.base.name], binding]
        if binding.bit is None:
            parts += [other for other in own.values() if other.base is binding.base]
        return not any(map(model.works_out, parts))

    def order(self, name: str, value: Value) -> OrderStep:
        """The order that sets a signal which is settable."""
        return OrderStep(order=f"{bindings(self._project)[name].follower.name}.{name}={order_text(value)}")

    # Situations

    @cached_property
    def situations(self) -> tuple[Situation, ...]:
        """What each drive can be brought to, the simplest first."""
        return tuple(found for drive in self.drives for found in self._situations_of(drive))

    @cached_property
    def running(self) -> Mapping[str, Situation]:
        """By drive: it was started and has come to its set point. Left out if no key starts it."""
        return {drive: self._play(drive, [run]) for drive in self.drives if (run := self._run_up(drive)) is not None}

    def at_references(self, drive: str) -> Iterator[Situation]:
        """The drive runs, once at each of three set points."""
        name, run = self._reference_signal(drive), self._run_up(drive)
        signal = self._project.signal_named.get(name or "")
        if name is None or run is None or signal is None or signal.limits is None:
            return
        low, high = (Fraction(limit) for limit in signal.limits)
        for part in (Fraction(0), Fraction(1, 2), Fraction(1)):
            value = self.nearest(name, low + (high - low) * part)
            steps = [self.order(name, value), *self._starts[drive]]
            if value:
                yield self._play(drive, [[*steps, wait(self._run_up_s(drive, steps))]])

    def nearest(self, name: str, value: Fraction) -> Fraction:
        """The value next to this one that the registers of a signal can hold."""
        binding = bindings(self._project)[name]
        if binding.single or binding.bit is not None:
            return value
        words = binding.encode(value)
        assert isinstance(words, tuple)
        held = binding.decode(words)[1]
        return held if isinstance(held, Fraction) else value

    def aged(self, drive: str) -> Iterator[Situation]:
        """The drive stands and has a past: it has run for a day and a half, and its motor is warm."""
        yield self._play(drive, [[order(drive, "run-time", _RUN_S), order(drive, "motor-heat", 87), wait(8)]])

    def takes(self, name: str, value: Value) -> bool:
        """Whether a device lets a signal be set to a value: a drive has limits of its own."""
        try:
            self._tried_on[bindings(self._project)[name].follower.name].set(name, value)
        except FanlightError:
            return False
        return True

    @cached_property
    def _tried_on(self) -> Mapping[str, RegisterBank]:
        """Devices on which nothing but the limits of what they take is tried."""
        return Simulation(self._project).models

    @cached_property
    def resets(self) -> Mapping[str, tuple[TrialStep, ...]]:
        """By drive: the keys that reset a fault whose cause is gone."""
        found = {}
        for drive in self.drives:
            trip = [order(drive, "trip", int(FaultCode.EXTERNAL)), wait(1)]

            def cleared(model: DriveBank) -> bool:
                return not model.drive.faulted

            keys = self._keys_that(drive, trip, cleared, self._key_actions)
            if keys is not None:
                found[drive] = keys
        return found

    @cached_property
    def stopping(self) -> Mapping[str, tuple[TrialStep, ...]]:
        """By drive: the keys that stop it."""
        found = {}
        for drive, start in self._starts.items():

            def halted(model: DriveBank) -> bool:
                return not model.drive.running or model.drive.target == 0

            keys = self._keys_that(drive, [*start, wait(2)], halted, self._stop_actions)
            if keys is not None:
                found[drive] = keys
        return found

    def _situations_of(self, drive: str) -> Iterator[Situation]:
        reset = [*self.resets.get(drive, ()), wait(1)]
        calm = [wait(1)]
        for code in FaultCode:
            if code:
                yield self._play(drive, [calm, [order(drive, "trip", int(code)), wait(1)], reset])
        yield self._play(drive, [calm, [order(drive, "local", "on"), wait(1)], [order(drive, "local", "off"), wait(1)]])
        for percent in (68, 138):
            low = [order(drive, "supply", percent), wait(1)]
            yield self._play(drive, [calm, low, [order(drive, "supply", 100), wait(1)]])
        hot = [order(drive, "motor-heat", 95), wait(Decimal("0.5"))]
        yield self._play(drive, [calm, hot])
        start = self._starts.get(drive)
        if start is None:
            return
        run, stop = [*start, wait(2)], [*self.stopping.get(drive, ()), wait(2)]
        yield self._play(drive, [calm, run, stop])
        yield self._play(drive, [run, [order(drive, "safe-torque-off", "on"), wait(1)]])
        yield self._play(drive, [run, [order(drive, "trip", int(FaultCode.EXTERNAL)), wait(1)], reset])
        for keys in self._presses:
            yield self._play(drive, [calm, [*keys, *start, wait(2)]])
        jammed = [order(drive, "jammed", "on"), *start, wait(4)]
        low = [order(drive, "supply", 68), wait(1)]
        yield self._play(drive, [calm, jammed, low])
        up = self._run_up(drive)
        if up is not None:
            down = [*self.stopping.get(drive, ()), wait(self._run_up_s(drive, start))]
            yield self._play(drive, [calm, up, down])

    def _play(self, drive: str, stages: Iterable[Sequence[TrialStep]]) -> Situation:
        stand = self._fresh()
        names = [name for name in bindings_of(self._project, drive) if not self.settable(name)]
        played = []
        for steps in stages:
            last = steps[-1]
            assert isinstance(last, WaitStep)
            assert isinstance(last.wait, Decimal)
            watched = min(float(last.wait) / 2, 4.0)
            play(stand, [*steps[:-1], wait(last.wait - Decimal(watched))])
            texts = {name: self._shown(stand, name) for name in names}
            moved: set[str] = set()
            for _ in range(round(watched / TICK_S)):
                stand.tick()
                moved |= {name for name in names if name not in moved and self._shown(stand, name) != texts[name]}
            readings = stand.readings()
            values = {
                name: reading.value for name in names if (reading := readings[name]).good and reading.value is not None
            }
            played.append(Stage(tuple(steps), values, frozenset(values) - moved, stand.panel.state.shown))
        return Situation(tuple(played))

    def _shown(self, stand: RehearsedStand, name: str) -> Value | None:
        """The value as finely as it is shown."""
        value = stand.readings()[name].value
        decimals = self._project.signal_named[name].decimals
        return round(value, decimals) if isinstance(value, Fraction) else value

    # Keys that bring a drive somewhere, found by trying them

    @cached_property
    def _starts(self) -> dict[str, tuple[TrialStep, ...]]:
        found = {}
        for drive in self.drives:

            def runs(model: DriveBank) -> bool:
                return model.drive.running and not model.drive.faulted

            keys = self._keys_that(drive, [wait(1)], runs, self._key_actions)
            if keys is None:
                continue
            stand = self._fresh()
            play(stand, [*keys, wait(1)])
            reference = self._reference_signal(drive)
            if self._model(stand, drive).drive.target == 0 and reference is not None:
                limits = self._project.signal_named[reference].limits
                if limits is not None:
                    keys = (self.order(reference, self.nearest(reference, Fraction(limits[1]))), *keys)
            found[drive] = keys
        return found

    def starts(self, drive: str) -> tuple[TrialStep, ...] | None:
        """The keys that start a drive; None if none do."""
        return self._starts.get(drive)

    def _run_up(self, drive: str) -> list[TrialStep] | None:
        start = self._starts.get(drive)
        return None if start is None else [*start, wait(self._run_up_s(drive, start))]

    def _run_up_s(self, drive: str, start: Sequence[TrialStep]) -> int:
        """Whole seconds after which a drive that was started has come to rest at its set point."""
        stand = self._fresh()
        play(stand, start)
        began = stand.now()
        while not self._model(stand, drive).drive.at_reference and stand.now() - began < _LONGEST_RUN_UP_S:
            stand.tick()
        return math.ceil(stand.now() - began) + _SETTLED_S

    def _keys_that(
        self,
        drive: str,
        before: Sequence[TrialStep],
        brings: Callable[[DriveBank], bool],
        actions: Sequence[Action],
    ) -> tuple[TrialStep, ...] | None:
        """One key, or two, by whose action a drive comes to where it is wanted."""
        presses = [keys for action in actions if (keys := self._press(action)) is not None]
        for keys in (*presses, *([*one, *other] for one in presses for other in presses if one != other)):
            stand = self._fresh()
            play(stand, before)
            if brings(self._model(stand, drive)):
                return None  # it is there already
            play(stand, [*keys, wait(1)])
            if brings(self._model(stand, drive)):
                return tuple(keys)
        return None

    @property
    def _presses(self) -> list[list[TrialStep]]:
        """All that keys do, each from the first screen."""
        return [keys for action in self._key_actions if (keys := self._press(action)) is not None]

    def _press(self, action: Action) -> list[TrialStep] | None:
        """The steps from the first screen that bring a key's action about; None if nothing leads to its screen."""
        if action.key not in self._project.panel.keys:
            return None
        to = action.from_ or self._routes.start
        steps = self._routes.steps(self._routes.start, to)
        return None if steps is None else [*steps, KeyStep(key=action.key)]

    @property
    def _key_actions(self) -> list[Action]:
        keyed = [action for action in self._project.actions if action.key is not None and action.signal is not None]
        return [action for action in keyed if action.do != "begin-entry"]

    @property
    def _stop_actions(self) -> list[Action]:
        return [action for action in self._key_actions if stops(action) and action.do != "momentary"]

    def _reference_signal(self, drive: str) -> str | None:
        """The signal that is the speed reference of a drive."""
        if drive not in self._references:
            self._references[drive] = next(self._moving_reference(drive), None)
        return self._references[drive]

    def _moving_reference(self, drive: str) -> Iterator[str]:
        for name, binding in bindings_of(self._project, drive).items():
            if not isinstance(binding.signal, RegisterSignal) or not binding.signal.write or not self.settable(name):
                continue
            if binding.signal.limits is None or is_text(binding.base.encoding):
                continue
            model = self._model(self._fresh(), drive)
            before = model.drive.reference
            for limit in binding.signal.limits:
                with contextlib.suppress(FanlightError):
                    model.set(name, Fraction(limit))
                if model.drive.reference != before:
                    yield name

    def _fresh(self) -> RehearsedStand:
        stand = RehearsedStand(self._project)
        stand.begin()
        for _ in range(5):
            stand.tick()
        return stand

    @staticmethod
    def _model(stand: RehearsedStand, drive: str) -> DriveBank:
        model = stand.models[drive]
        assert isinstance(model, DriveBank)
        return model


def play(stand: RehearsedStand, steps: Iterable[TrialStep]) -> None:
    """Do what steps say, without looking at what comes of it."""
    for step in steps:
        keys: Sequence[str] = ()
        if isinstance(step, OrderStep):
            stand.order(step.order)
        elif isinstance(step, KeyStep):
            keys = [step.key] * step.times
        elif isinstance(step, KeysStep):
            keys = step.keys
        elif isinstance(step, WaitStep) and isinstance(step.wait, Decimal):
            for _ in range(round(float(step.wait) / TICK_S)):
                stand.tick()
        for key in keys:
            stand.key_down(key)
            stand.tick()
            stand.key_up(key)
            stand.tick()


def wait(seconds: int | Decimal) -> WaitStep:
    """Time passes."""
    return WaitStep(wait=Decimal(seconds))


def order(follower: str, what: str, value: object) -> OrderStep:
    """An order to a simulated device."""
    return OrderStep(order=f"{follower}.{what}={value}")


def order_text(value: Value) -> str:
    """A value as an order has it."""
    return value if isinstance(value, str) else f"{decimal(value):f}"


def decimal(value: Fraction) -> Decimal:
    """A value as it is written, with as many decimals as it needs, up to nine."""
    places = next((n for n in range(_PLACES) if value * 10**n == int(value * 10**n)), _PLACES)
    return Decimal(round(value * 10**places)).scaleb(-places)


def _orderable(follower: str, name: str) -> bool:
    return not set(follower) & set(".=") and "=" not in name and name == name.strip()
