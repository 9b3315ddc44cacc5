"""How a condition is made to hold and made to end: by values that can be set, or by what a drive does."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from app.panel.conditions import holds
from app.project.binding import bindings
from app.project.model import BitSignal, Condition, Project
from app.proposing.machine import Machine
from app.signals.encoding import is_float, is_text
from app.signals.reading import Quality, Reading, Value
from app.trial.script import TrialStep

_COUNTS: Final = 3


@dataclass(frozen=True, slots=True)
class ConditionWay:
    """Steps after which a condition does not hold, only just not, does hold, and holds no more.

    `known` are the values of signals while it holds, as far as the steps determine them.
    """

    calm: tuple[TrialStep, ...]
    just_not: tuple[TrialStep, ...]
    raising: tuple[TrialStep, ...]
    clearing: tuple[TrialStep, ...]
    known: Mapping[str, Value]


class Ways:
    """The ways to the conditions of a project."""

    def __init__(self, project: Project, machine: Machine) -> None:
        self._project = project
        self._machine = machine

    def to(self, condition: Condition) -> ConditionWay | None:
        """How to make it hold; None if nobody can."""
        name = condition.signal
        if self._machine.settable(name):
            return self._by_value(condition)
        return self._by_drive(condition)

    def _by_value(self, condition: Condition) -> ConditionWay | None:
        order, name = self._machine.order, condition.signal
        pair = beside(self._project, condition)
        if pair is None:
            return None
        off, on = pair
        near = (order(name, off),) if condition.is_ not in ("set", "clear") else ()
        return ConditionWay((order(name, off),), near, (order(name, on),), (order(name, off),), {name: on})

    def _by_drive(self, condition: Condition) -> ConditionWay | None:
        for situation in self._machine.situations:
            truths = [judge(condition, stage.values.get(condition.signal)) for stage in situation.stages]
            for number in range(1, len(truths)):
                if truths[number - 1] is False and truths[number] is True:
                    stage = situation.stages[number]
                    ends = next((n for n in range(number + 1, len(truths)) if truths[n] is False), None)
                    clearing = [
                        step for later in situation.stages[number + 1 : (ends or 0) + 1] for step in later.steps
                    ]
                    known = {name: value for name, value in stage.values.items() if name in stage.steady}
                    return ConditionWay(situation.until(number - 1), (), stage.steps, tuple(clearing), known)
        return None


def judge(condition: Condition, value: Value | None) -> bool | None:
    """Whether a condition holds at a value of its signal."""
    reading = Reading(value=value, quality=Quality.GOOD if value is not None else Quality.NONE)
    return holds(condition, {condition.signal: reading})


def judge_by(project: Project, condition: Condition, name: str, value: Value) -> bool | None:
    """Whether a condition holds when a signal, of which its own may be a bit, has a value; None: not about it."""
    if condition.signal == name:
        return judge(condition, value)
    signal = project.signal_named.get(condition.signal)
    if isinstance(signal, BitSignal) and signal.bit.of == name and isinstance(value, Fraction):
        raw = bindings(project)[name].scale.raw(value)
        return judge(condition, Fraction(int(raw) >> signal.bit.number & 1))
    return None


def beside(project: Project, condition: Condition) -> tuple[Value, Value] | None:
    """Two values of its signal right beside the limit of a condition: it does not hold at one, and does at the other.

    None if there are no such values.
    """
    binding = bindings(project)[condition.signal]
    if is_text(binding.base.encoding) and not binding.single:
        return None
    zero, one = Fraction(0), Fraction(1)
    if condition.is_ in ("set", "clear"):
        on = one if binding.single or binding.bit is not None else binding.scale.value(1)
        off = zero if binding.single or binding.bit is not None else binding.scale.value(0)
        if judge(condition, off) is judge(condition, on):
            return None
        return (off, on) if condition.is_ == "set" else (on, off)
    if condition.value is None:
        return None
    limit = Fraction(condition.value)
    found = _near(limit, binding.scale.raw, binding.scale.value, floating=is_float(binding.base.encoding))
    if binding.single or binding.bit is not None:
        found = [zero, one]
    fitting = [value for value in found if _fits(project, condition.signal, value)]
    on_side = [value for value in fitting if judge(condition, value)]
    off_side = [value for value in fitting if not judge(condition, value)]
    if not on_side or not off_side:
        return None

    def far(value: Fraction) -> Fraction:
        return abs(value - limit)

    return min(off_side, key=far), min(on_side, key=far)


def _near(
    limit: Fraction, raw: Callable[[Fraction], Fraction], value: Callable[[int], Fraction], *, floating: bool
) -> list[Fraction]:
    if floating:
        return [limit + Fraction(count, 1000) for count in range(-_COUNTS, _COUNTS + 1)]
    middle = math.floor(raw(limit))
    return [value(count) for count in range(middle - _COUNTS, middle + _COUNTS + 1)]


def _fits(project: Project, name: str, value: Fraction) -> bool:
    binding = bindings(project)[name]
    try:
        binding.encode(value, [0] * binding.count)
    except ValueError:
        return False
    return True
