"""Rules about entry: what the operator may change, how far, in which steps and with which keys."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from app.checks.finding import Fault, Severity
from app.checks.rule import rule
from app.checks.survey import AnySignal, Survey
from app.project.binding import bindings, step_of
from app.project.model import Field, HeldSignal, RegisterSignal
from app.project.problems import Place
from app.signals.encoding import OutOfRange
from app.signals.text import number_digits


@rule("entry-not-writable")
def entry_not_writable(survey: Survey) -> Iterator[Fault]:
    """Entry on a signal that may not be changed: the operator is invited and then refused."""
    for place, _, field in survey.fields():
        signal = survey.signal(field.signal)
        if not field.entry or signal is None:
            continue
        if survey.is_text(signal):
            yield Fault(
                "error", place, f"'{signal.name}' is a text, and a text cannot be entered", "take 'entry' off the field"
            )
        elif not isinstance(signal, HeldSignal) and not signal.write:
            yield Fault(
                "error",
                place,
                f"the field allows entry, but '{signal.name}' may not be written",
                "let the signal be written ('write'), or take entry off the field",
            )


@rule("entry-without-limits")
def entry_without_limits(survey: Survey) -> Iterator[Fault]:
    """Entry without limits: one wrong digit goes to the machine. Bits and choices are limited by what they are."""
    for place, _, field in survey.fields():
        signal = survey.signal(field.signal)
        if not field.entry or signal is None or signal.limits is not None or survey.is_text(signal):
            continue
        if survey.of_one_bit(signal) or (field.kind == "choice" and signal.texts):
            continue
        yield Fault(
            "error",
            place,
            f"the field allows entry, but '{signal.name}' has no limits",
            "give the signal limits, lowest and highest, that the machine can stand",
        )


@rule("limits-too-wide")
def limits_too_wide(survey: Survey) -> Iterator[Fault]:
    """Limits that go beyond what the encoding and the scale can hold: they promise values that cannot be."""
    for index, signal in enumerate(survey.project.signals):
        if signal.limits is None or isinstance(signal, HeldSignal):
            continue
        place: Place = ("signal", index)
        severity: Severity = "error" if signal.write else "warning"
        if survey.is_float(signal):
            yield from _float_limits(survey, place, signal, severity)
            continue
        span = survey.span(signal.name)
        if span is None:
            continue
        low, high = (Fraction(limit) for limit in signal.limits)
        if span[0] <= low and high <= span[1]:
            continue
        # A limit half a count beyond the end still rounds to the end, and is written without complaint.
        room = (survey.count_size(signal) or Fraction(0)) / 2
        if low < span[0] - room or high > span[1] + room:
            yield Fault(
                severity,
                place,
                f"the limits are {signal.limits[0]} to {signal.limits[1]}, but {_held_by(signal)} can hold only "
                f"{_said(span[0], signal)} to {_said(span[1], signal)}",
                "narrow the limits, or choose the encoding and the scale that the follower's manual gives",
            )


def _float_limits(survey: Survey, place: Place, signal: AnySignal, severity: Severity) -> Iterator[Fault]:
    binding = bindings(survey.project).get(signal.name)
    if binding is None or signal.limits is None or not isinstance(signal, RegisterSignal):
        return
    for limit in signal.limits:
        try:
            binding.encode(Fraction(limit))
        except OutOfRange:
            yield Fault(severity, place, f"{signal.encoding} cannot hold the limit {limit}", "narrow the limits")


def _held_by(signal: AnySignal) -> str:
    if isinstance(signal, RegisterSignal) and signal.table in ("holding", "input"):
        return f"{signal.encoding} with this scale" if signal.scale is not None else signal.encoding
    return "a single bit"


def _said(value: Fraction, signal: AnySignal) -> str:
    return number_digits(value, signal.decimals)


@rule("step-too-fine")
def step_too_fine(survey: Survey) -> Iterator[Fault]:
    """A step finer than one raw count: the operator changes the value and the follower does not."""
    for index, signal in enumerate(survey.project.signals):
        count = survey.count_size(signal)
        if signal.step is not None and count is not None and Fraction(signal.step) < count:
            yield Fault(
                "warning",
                ("signal", index),
                f"the step {signal.step} is finer than one raw count, which is {_short(count)}"
                + (f" {signal.unit}" if signal.unit else ""),
                f"make the step {_short(count)} or more",
            )


@rule("step-not-shown")
def step_not_shown(survey: Survey) -> Iterator[Fault]:
    """A step finer than the last decimal shown: a key is pressed and the number does not move."""
    entered = {field.signal for _, _, field in survey.fields() if field.entry}
    for index, signal in enumerate(survey.project.signals):
        if signal.step is None or signal.name not in entered:
            continue
        if Fraction(signal.step) < Fraction(1, 10**signal.decimals):
            yield Fault(
                "warning",
                ("signal", index),
                f"a step of {signal.step} cannot be seen with {signal.decimals} decimals",
                "show more decimals or make the step coarser",
            )


@rule("step-too-wide")
def step_too_wide(survey: Survey) -> Iterator[Fault]:
    """A step wider than the limits are apart: there is nothing between the lowest value and the highest."""
    for place, _, field in survey.fields():
        signal = survey.signal(field.signal)
        if not field.entry or signal is None or signal.limits is None or _by_choice(survey, field, signal):
            continue
        low, high = (Fraction(limit) for limit in signal.limits)
        step = step_of(survey.project, signal.name)
        if low < high and step > high - low:
            yield Fault(
                "warning",
                place,
                f"the step of '{signal.name}' is {_short(step)}, and its limits are only {_short(high - low)} apart",
                "make the step smaller",
            )
        elif low == high:
            yield Fault(
                "warning",
                place,
                f"the field allows entry, but both limits of '{signal.name}' are {signal.limits[0]}",
                "widen the limits, or take 'entry' off the field",
            )


def _by_choice(survey: Survey, field: Field, signal: AnySignal) -> bool:
    return survey.of_one_bit(signal) or (field.kind == "choice" and bool(signal.texts))


def _short(value: Fraction) -> str:
    return format(float(value), ".4g")


@rule("choice-outside-limits")
def choice_outside_limits(survey: Survey) -> Iterator[Fault]:
    """A choice offered in entry whose value the limits forbid: it is left out, and nobody knows why."""
    for place, _, field in survey.fields():
        signal = survey.signal(field.signal)
        if not field.entry or field.kind != "choice" or signal is None or signal.limits is None:
            continue
        for value, text in signal.texts.items():
            if not signal.limits[0] <= int(value) <= signal.limits[1]:
                yield Fault(
                    "warning",
                    place,
                    f"'{text}' ({value}) is outside the limits of '{signal.name}' and cannot be chosen",
                    "widen the limits, or remove the text if the value must not be entered",
                )


@rule("first-value-refused")
def first_value_refused(survey: Survey) -> Iterator[Fault]:
    """A first content that is not allowed: a held value outside its limits, a start value that does not fit."""
    for index, signal in enumerate(survey.project.signals):
        place: Place = ("signal", index)
        if isinstance(signal, HeldSignal):
            if signal.limits is not None and not signal.limits[0] <= signal.held <= signal.limits[1]:
                yield Fault(
                    "error",
                    place,
                    f"it begins as {signal.held}, outside its limits {signal.limits[0]} to {signal.limits[1]}",
                    "begin within the limits",
                )
        elif isinstance(signal, RegisterSignal) and signal.start_value is not None:
            reason = _start_value_reason(survey, signal)
            if reason is not None:
                yield Fault(
                    "error",
                    place,
                    f"its start value {signal.start_value} does not fit: {reason}",
                    "give a value that its registers can hold",
                )


def _start_value_reason(survey: Survey, signal: RegisterSignal) -> str | None:
    binding = bindings(survey.project).get(signal.name)
    value = signal.start_value
    if binding is None or value is None:
        return None
    try:
        binding.encode(value if isinstance(value, str) else Fraction(value))
    except OutOfRange as error:
        return str(error)
    return None


@rule("entry-without-keys")
def entry_without_keys(survey: Survey) -> Iterator[Fault]:
    """Entry on a panel without the keys for it: it cannot be begun, adjusted, confirmed or left."""
    panel = survey.project.panel
    if not any(field.entry for _, _, field in survey.fields()):
        return
    begins = any(action.do == "begin-entry" and action.key in panel.keys for _, action in survey.actions())
    wanted: tuple[tuple[str, str, bool, Severity], ...] = (
        ("begin", panel.entry.begin, begins, "error"),
        ("confirm", panel.entry.confirm, False, "error"),
        ("up", panel.entry.up, panel.entry.down in panel.keys, "error"),
        ("down", panel.entry.down, panel.entry.up in panel.keys, "error"),
        ("abandon", panel.entry.abandon, False, "note"),
    )
    for purpose, key, otherwise, severity in wanted:
        if key in panel.keys:
            continue
        milder: Severity = "warning" if otherwise and purpose != "begin" else severity
        if purpose == "begin" and otherwise:
            continue
        yield Fault(
            milder,
            ("panel",),
            f"there are fields with entry, but no key '{key}' to {_PURPOSE[purpose]}",
            f"add the key '{key}' to the panel, or name another as '{purpose}' in its entry keys",
        )
    if panel.entry.up == panel.entry.down:
        yield Fault(
            "error",
            ("panel",),
            f"the key '{panel.entry.up}' is to raise and to lower a value",
            "name two different keys as 'up' and 'down' in the panel's entry keys",
        )
    if panel.entry.abandon in (panel.entry.confirm, panel.entry.up, panel.entry.down):
        yield Fault(
            "error",
            ("panel",),
            f"the key '{panel.entry.abandon}' is to abandon an entry and does something else in it too",
            "name another key as 'abandon' in the panel's entry keys",
        )


_PURPOSE = {
    "begin": "begin an entry",
    "confirm": "confirm it",
    "up": "raise the value",
    "down": "lower the value",
    "abandon": "abandon it without a change",
}
