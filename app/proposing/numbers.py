"""Cases about numbers and bars whose registers can be set, and about signals that nothing shows as a number."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from typing import Final

from app.language import translate
from app.project.binding import bindings, shown_text, value_span
from app.project.model import Condition, RegisterSignal
from app.proposing.draft import Reached, TrialDraft, expect, signal_is
from app.proposing.face import fields_of, rows_expected
from app.proposing.machine import decimal
from app.signals.encoding import is_float, is_text
from app.signals.reading import Value
from app.signals.text import OVERFLOW
from app.trial.script import Expectation, TrialStep

_PLACES: Final = (Fraction(7, 8), Fraction(1, 2), Fraction(1, 8))
"""Where in its range a number is tried: a wrong scale, sign or order of words cannot be right at all three."""
_TRIES: Final = 64
_NUMBERS: Final = ("number", "hexadecimal", "bar")


def number_cases(draft: TrialDraft) -> None:
    """Every number, bar and hexadecimal number whose registers can be set, at three values on each of its screens."""
    for screen in draft.screens:
        reached = draft.go(screen.name)
        if reached is None:
            continue
        fields = list(fields_of(draft.project, screen.name, *_NUMBERS))
        names = [field.signal for field in fields if draft.machine.settable(field.signal)]
        names = list(dict.fromkeys(names))
        if not names:
            continue
        steps: list[TrialStep] = [*reached.steps]
        known: dict[str, Value] = {**draft.held, **reached.known}
        for number, place in enumerate(_PLACES):
            for index, name in enumerate(names):
                value = _sample(draft, screen.name, reached, name, place, 3 * index + number)
                if value is not None:
                    known[name] = value
                    steps.append(draft.machine.order(name, value))
            rows = rows_expected(draft.project, screen.name, known, about=frozenset(names))
            steps += [expect(seen) for seen in rows]
        draft.add(translate("trial", "Numbers on '{screen}'").format(screen=screen.name), steps)


def hidden_cases(draft: TrialDraft) -> None:
    """The signals that can be set and that no field shows as a number: what the devices hold is what is read."""
    shown = {field.signal for screen in draft.screens for field in screen.fields if field.kind in _NUMBERS}
    steps: list[TrialStep] = []
    for name in draft.project.signal_named:
        if name in shown or not draft.machine.settable(name):
            continue
        for value in _plain_samples(draft, name):
            steps.append(draft.machine.order(name, value))
            if isinstance(value, Fraction):
                steps.append(signal_is(name, decimal(value)))
            else:
                steps.append(expect(Expectation(signal=name, text=value)))
    if steps:
        draft.add(translate("trial", "Signals that no screen shows as numbers"), steps)


def _plain_samples(draft: TrialDraft, name: str) -> Iterator[Value]:
    binding = bindings(draft.project)[name]
    if is_text(binding.base.encoding) and not binding.single:
        yield "AB"
        return
    start = draft.machine.start_values.get(name)
    if binding.single or binding.bit is not None:
        both = [Fraction(1), Fraction(0)]
        values: Iterable[Fraction] = both if start != 1 else reversed(both)
    else:
        found = (_sample(draft, "", None, name, place, 1) for place in _PLACES)
        values = [value for value in found if isinstance(value, Fraction)]
    for value in values:
        if draft.raises_nothing(name, value) and draft.machine.takes(name, value):
            yield value


def _sample(
    draft: TrialDraft, screen: str, reached: Reached | None, name: str, place: Fraction, salt: int
) -> Value | None:
    """A value that the fields of a signal can show, that leaves the screen where it is, and that the device takes."""
    project = draft.project
    binding = bindings(project)[name]
    if is_text(binding.base.encoding) and not binding.single:
        return "AB"
    ends = _range(draft, name)
    if ends is None:
        return None
    widths = [field for field in project.screen_named[screen].fields if field.signal == name] if screen else []
    wanted = project.screen_changes[reached.override].when if reached and reached.override is not None else None
    low, high = _within_conditions(draft, name, wanted, *ends)
    for nth in range(_TRIES):
        # Away from the wanted place by more and more, first to one side, then to the other.
        share = place + Fraction((nth + 1) // 2 * (1 if nth % 2 else -1), _TRIES) + Fraction(salt, 997)
        if not 0 <= share <= 1:
            continue
        value = _held_by_registers(draft, name, low + (high - low) * share)
        if value is None or not low <= value <= high:
            continue
        if wanted is not None and wanted.signal == name:
            if not draft.holds_with(wanted, name, value):
                continue
        elif not draft.raises_nothing(name, value):
            continue
        texts = [shown_text(project, name, value, field.width, field.kind) for field in widths if field.kind != "bar"]
        if any(text.startswith(OVERFLOW) for text in texts) or not draft.machine.takes(name, value):
            continue
        return value
    return None


def _within_conditions(
    draft: TrialDraft, name: str, wanted: Condition | None, low: Fraction, high: Fraction
) -> tuple[Fraction, Fraction]:
    """The part of a range in which no condition on the signal holds, or else the wanted one does."""
    conditions = [one.condition for one in draft.behaviour.overrides]
    conditions += [one.condition for one in draft.behaviour.conditionals]
    if wanted is not None and wanted.signal == name:
        conditions = [wanted]
    for condition in conditions:
        if condition.signal != name or condition.value is None or condition.is_ == "equal":
            continue
        limit = Fraction(condition.value)
        if (condition.is_ == "above") is (condition is wanted):
            low = max(low, limit)
        else:
            high = min(high, limit)
    return low, high


def _held_by_registers(draft: TrialDraft, name: str, value: Fraction) -> Fraction | None:
    """The value next to it that its registers hold, rounded to what is shown where that is exact."""
    binding = bindings(draft.project)[name]
    decimals = binding.signal.decimals
    rounded = Fraction(round(value * 10**decimals), 10**decimals)
    if is_float(binding.base.encoding) and not binding.single:
        return rounded
    try:
        return draft.machine.nearest(name, rounded)
    except ValueError:
        return None


def _range(draft: TrialDraft, name: str) -> tuple[Fraction, Fraction] | None:
    signal = draft.project.signal_named[name]
    if signal.limits is not None:
        return Fraction(signal.limits[0]), Fraction(signal.limits[1])
    span = value_span(draft.project, name)
    if span is not None or not isinstance(signal, RegisterSignal):
        return span
    return Fraction(-1000), Fraction(1000)  # a float without limits
