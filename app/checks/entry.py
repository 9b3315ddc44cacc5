"""Rules about entry: what the operator may change, how far, in which steps and with which keys."""

from __future__ import annotations

import math
from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction

from app.checks import fixes
from app.checks.context import CheckContext, fields_of
from app.checks.finding import Fix, Severity, Violation
from app.checks.rule import each, whole
from app.language import mark, translate
from app.project.binding import bindings, step_of
from app.project.model import AnySignal, BitSignal, Field, HeldSignal, RegisterSignal, Screen, by_number
from app.project.problems import quoted
from app.signals.encoding import OutOfRange
from app.signals.text import spoken_digits


@each("screen", name="entry-not-writable")
def entry_not_writable(context: CheckContext, screen: Screen) -> Iterator[Violation]:
    """Entry on a signal that may not be changed: the operator is invited and then refused."""
    for place, field in fields_of(screen):
        signal = context.signal(field.signal)
        if not field.entry or signal is None:
            continue
        if context.is_text(signal):
            yield Violation(
                "error",
                place,
                translate("checks", "{signal} is a text; texts cannot be entered").format(signal=quoted(signal.name)),
                translate("checks", "do not let the operator change it in this field (\u201cEntry\u201d)"),
                _without_entry(),
            )
        elif not isinstance(signal, HeldSignal) and not signal.write:
            word = context.word_of(signal) if isinstance(signal, BitSignal) else None
            let = Fix(
                translate("checks", "Make {signal} writable").format(signal=quoted(signal.name)),
                fixes.set_in_signal,
                (signal.name, "write", True),
            )
            yield Violation(
                "error",
                place,
                translate("checks", "the field allows entry, but {signal} is read-only").format(
                    signal=quoted(signal.name)
                ),
                translate("checks", "allow writing of the signal, or switch \u201cEntry\u201d off in the field"),
                let if fixes.writable(signal, word) else _without_entry(),
            )


def _without_entry() -> Fix:
    return Fix(translate("checks", "Remove value entry from this field"), fixes.set_at, (("entry",), False))


@each("screen", name="entry-without-limits")
def entry_without_limits(context: CheckContext, screen: Screen) -> Iterator[Violation]:
    """Entry without limits: one wrong digit goes to the machine. Bits and choices are limited by what they are."""
    for place, field in fields_of(screen):
        signal = context.signal(field.signal)
        if not field.entry or signal is None or signal.limits is not None or context.is_text(signal):
            continue
        if context.of_one_bit(signal) or (field.kind == "choice" and signal.texts):
            continue
        yield Violation(
            "error",
            place,
            translate("checks", "the field allows entry, but {signal} has no limits").format(
                signal=quoted(signal.name)
            ),
            translate("checks", "set limits that are safe for the machine"),
        )


@each("signal", name="limits-too-wide")
def limits_too_wide(context: CheckContext, signal: AnySignal) -> Iterator[Violation]:
    """Limits that go beyond what the encoding and the scale can hold: they promise values that cannot be."""
    if signal.limits is None or isinstance(signal, HeldSignal):
        return
    severity: Severity = "error" if signal.write else "warning"
    if context.is_float(signal):
        yield from _float_limits(context, signal, severity)
        return
    span = context.span(signal.name)
    if span is None:
        return
    low, high = (Fraction(limit) for limit in signal.limits)
    if span[0] <= low and high <= span[1]:
        return
    # A limit less than half a count beyond the end still rounds to the end, and is written without complaint.
    room = (context.count_size(signal) or Fraction(0)) / 2
    if max(span[0] - low, high - span[1]) >= room:
        ends = {
            "low": signal.limits[0],
            "high": signal.limits[1],
            "least": spoken_digits(span[0], signal.decimals),
            "most": spoken_digits(span[1], signal.decimals),
        }
        if not isinstance(signal, RegisterSignal) or signal.table not in ("holding", "input"):
            message = translate(
                "checks", "the limits are {low} to {high}, but a single bit can hold only {least} to {most}"
            ).format(**ends)
        elif signal.scale is None:
            message = translate(
                "checks", "the limits are {low} to {high}, but {encoding} can hold only {least} to {most}"
            ).format(encoding=signal.encoding, **ends)
        else:
            message = translate(
                "checks",
                "the limits are {low} to {high}, but {encoding} with this scale can hold only {least} to {most}",
            ).format(encoding=signal.encoding, **ends)
        yield Violation(
            severity,
            (),
            message,
            translate("checks", "narrow the limits, or use the data type and scale given in the device's manual"),
            _cut_limits(signal, span),
        )


def _cut_limits(signal: AnySignal, span: tuple[Fraction, Fraction]) -> Fix | None:
    """The limits cut to what the registers hold, in the decimals that are shown; None if nothing is left."""
    if signal.limits is None:
        return None
    unit = 10**signal.decimals
    least, most = Decimal(math.ceil(span[0] * unit)) / unit, Decimal(math.floor(span[1] * unit)) / unit
    low, high = max(signal.limits[0], least), min(signal.limits[1], most)
    if low > high:
        return None
    words = translate("checks", "Narrow the limits to {low} and {high}").format(low=low, high=high)
    return Fix(words, fixes.set_at, (("limits",), (low, high)))


def _float_limits(context: CheckContext, signal: AnySignal, severity: Severity) -> Iterator[Violation]:
    binding = bindings(context.project).get(signal.name)
    if binding is None or signal.limits is None or not isinstance(signal, RegisterSignal):
        return
    for limit in signal.limits:
        try:
            binding.encode(Fraction(limit))
        except OutOfRange:
            yield Violation(
                severity,
                (),
                translate("checks", "{encoding} cannot hold the limit {limit}").format(
                    encoding=signal.encoding, limit=limit
                ),
                translate("checks", "narrow the limits"),
            )


@each("signal", name="step-too-fine")
def step_too_fine(context: CheckContext, signal: AnySignal) -> Iterator[Violation]:
    """A step finer than one raw count: the operator changes the value and the follower does not."""
    count = context.count_size(signal)
    if signal.step is None or count is None or Fraction(signal.step) >= count:
        return
    size = f"{_short(count)} {signal.unit}".rstrip()
    coarse = _decimal_above(count)
    yield Violation(
        "warning",
        (),
        translate("checks", "the step {step} is finer than one raw count, which is {size}").format(
            step=signal.step, size=size
        ),
        translate("checks", "set the step to {size} or more").format(size=_short(count)),
        Fix(translate("checks", "Set the step to {step}").format(step=coarse), fixes.set_at, (("step",), coarse)),
    )


def _decimal_above(value: Fraction) -> Decimal:
    """The value itself if it has at most nine decimals, else the next number of nine decimals above it."""
    scaled = value * 10**9
    return (Decimal(math.ceil(scaled)) / 10**9).normalize() + Decimal(0)


@each("signal", name="step-not-shown", depends_on=("entered_names",))
def step_not_shown(context: CheckContext, signal: AnySignal) -> Iterator[Violation]:
    """A step finer than the last decimal shown: a key is pressed and the number does not move."""
    if signal.step is None or signal.name not in context.entered_names:
        return
    if Fraction(signal.step) < Fraction(1, 10**signal.decimals):
        coarse = Decimal(1).scaleb(-signal.decimals)
        yield Violation(
            "warning",
            (),
            translate("checks", "a step of {step} is not visible with {decimals} decimals").format(
                step=signal.step, decimals=signal.decimals
            ),
            translate("checks", "show more decimals, or use a coarser step"),
            Fix(translate("checks", "Set the step to {step}").format(step=coarse), fixes.set_at, (("step",), coarse)),
        )


@each("screen", name="step-too-wide")
def step_too_wide(context: CheckContext, screen: Screen) -> Iterator[Violation]:
    """A step wider than the limits are apart: there is nothing between the lowest value and the highest."""
    for place, field in fields_of(screen):
        signal = context.signal(field.signal)
        if not field.entry or signal is None or signal.limits is None or _by_choice(context, field, signal):
            continue
        low, high = (Fraction(limit) for limit in signal.limits)
        step = step_of(context.project, signal.name)
        if low < high and step > high - low:
            yield Violation(
                "warning",
                place,
                translate("checks", "the step of {signal} is {step}, but its limits are only {apart} apart").format(
                    signal=quoted(signal.name), step=_short(step), apart=_short(high - low)
                ),
                translate("checks", "use a smaller step"),
                _smaller_step(context, signal, high - low),
            )
        elif low == high:
            yield Violation(
                "warning",
                place,
                translate("checks", "the field allows entry, but both limits of {signal} are {limit}").format(
                    signal=quoted(signal.name), limit=signal.limits[0]
                ),
                translate("checks", "widen the limits, or switch \u201cEntry\u201d off in the field"),
                _without_entry(),
            )


def _smaller_step(context: CheckContext, signal: AnySignal, apart: Fraction) -> Fix | None:
    """A step of one unit of the last decimal, or of one raw count if that is more; None if it is too wide as well."""
    step = max(Fraction(1, 10**signal.decimals), context.count_size(signal) or Fraction(0))
    if step > apart or signal.step is None:
        return None
    words = translate("checks", "Set the step of {signal} to {step}").format(
        signal=quoted(signal.name), step=_decimal_above(step)
    )
    return Fix(words, fixes.set_in_signal, (signal.name, "step", _decimal_above(step)))


def _by_choice(context: CheckContext, field: Field, signal: AnySignal) -> bool:
    return context.of_one_bit(signal) or (field.kind == "choice" and bool(signal.texts))


def _short(value: Fraction) -> str:
    return format(float(value), ".4g")


@each("screen", name="choice-outside-limits")
def choice_outside_limits(context: CheckContext, screen: Screen) -> Iterator[Violation]:
    """A choice offered in entry whose value the limits forbid: it is left out, and nobody knows why."""
    for place, field in fields_of(screen):
        signal = context.signal(field.signal)
        if not field.entry or field.kind != "choice" or signal is None or signal.limits is None:
            continue
        for value, text in by_number(signal.texts).items():
            if not signal.limits[0] <= value <= signal.limits[1]:
                yield Violation(
                    "warning",
                    place,
                    translate(
                        "checks", "{text} ({value}) is outside the limits of {signal} and cannot be chosen"
                    ).format(text=quoted(text), value=value, signal=quoted(signal.name)),
                    translate("checks", "widen the limits, or remove the text if the value must not be entered"),
                )


@each("signal", name="first-value-refused")
def first_value_refused(context: CheckContext, signal: AnySignal) -> Iterator[Violation]:
    """A first content that is not allowed: a held value outside its limits, a start value that does not fit."""
    if isinstance(signal, HeldSignal):
        if signal.limits is not None and not signal.limits[0] <= signal.held <= signal.limits[1]:
            nearest = min(max(signal.held, signal.limits[0]), signal.limits[1])
            yield Violation(
                "error",
                (),
                translate("checks", "its start value {first} is outside its limits {low} to {high}").format(
                    first=signal.held, low=signal.limits[0], high=signal.limits[1]
                ),
                translate("checks", "set a start value within the limits"),
                Fix(
                    translate("checks", "Set the start value to {value}").format(value=nearest),
                    fixes.set_at,
                    (("held",), nearest),
                ),
            )
    elif isinstance(signal, RegisterSignal) and signal.start_value is not None:
        reason = _start_value_reason(context, signal)
        if reason is not None:
            yield Violation(
                "error",
                (),
                translate("checks", "its start value {value} does not fit: {reason}").format(
                    value=signal.start_value, reason=reason
                ),
                translate("checks", "use a value that its registers can hold"),
                Fix(translate("checks", "Remove the start value"), fixes.set_at, (("start_value",), None)),
            )


def _start_value_reason(context: CheckContext, signal: RegisterSignal) -> str | None:
    binding = bindings(context.project).get(signal.name)
    value = signal.start_value
    if binding is None or value is None:
        return None
    try:
        binding.encode(value if isinstance(value, str) else Fraction(value))
    except OutOfRange as error:
        return str(error)
    return None


@whole("panel", "screen_changes", "actions", "entered", name="entry-without-keys")
def entry_without_keys(context: CheckContext) -> Iterator[Violation]:
    """Entry on a panel without the keys for it: it cannot be begun, adjusted, confirmed or left."""
    panel = context.panel
    if not context.entered:
        return
    begins = any(action.do == "begin-entry" and action.key in panel.keys for _, action in context.actions())
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
        yield Violation(
            milder,
            ("panel",),
            translate("checks", _NO_KEY[purpose]).format(key=quoted(key)),
            translate(
                "checks", "add key {key} to the panel, or set another key as '{purpose}' in its entry keys"
            ).format(key=quoted(key), purpose=purpose),
            _with_key(context, key),
        )
    if panel.entry.up == panel.entry.down:
        yield Violation(
            "error",
            ("panel",),
            translate("checks", "key {key} is set both to increase and to decrease a value").format(
                key=quoted(panel.entry.up)
            ),
            translate(
                "checks",
                "choose two different keys as \u201cIncrease key\u201d and \u201cDecrease key\u201d of the panel",
            ),
        )
    if panel.entry.abandon in (panel.entry.confirm, panel.entry.up, panel.entry.down):
        yield Violation(
            "error",
            ("panel",),
            translate("checks", "key {key} cancels an entry, but also does something else during entry").format(
                key=quoted(panel.entry.abandon)
            ),
            translate("checks", "choose another \u201cCancel key\u201d of the panel"),
        )


def _with_key(context: CheckContext, key: str) -> Fix | None:
    """The key put on the panel; None if something else waits for it, which would come to life with it."""
    project = context.project
    waiting = {screen_change.key for screen_change in project.screen_changes} | {
        action.key for action in project.actions
    }
    if key in waiting:
        return None
    return Fix(translate("checks", "Add key {key} to the panel").format(key=quoted(key)), fixes.add_key, (key,))


_NO_KEY = {
    "begin": mark("checks", "there are fields with entry, but there is no key {key} to start an entry"),
    "confirm": mark("checks", "there are fields with entry, but there is no key {key} to confirm an entry"),
    "up": mark("checks", "there are fields with entry, but there is no key {key} to increase the value"),
    "down": mark("checks", "there are fields with entry, but there is no key {key} to decrease the value"),
    "abandon": mark("checks", "there are fields with entry, but there is no key {key} to cancel an entry"),
}
