"""Rules about what keys and conditions do: what is refused, what never happens."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from app.checks import fixes
from app.checks.context import CheckContext, conditions_of
from app.checks.finding import Fix, Violation
from app.checks.rule import each
from app.language import translate
from app.project.binding import refusal, unbound
from app.project.by_itself import condition_in_words
from app.project.model import Action, BitSignal, Condition, HeldSignal, HeldValue, Screen, ScreenChange
from app.project.problems import quoted
from app.signals.text import spoken_digits


@each("action", name="action-refused")
def action_refused(context: CheckContext, action: Action) -> Iterator[Violation]:
    """An action that writes what its signal does not allow: it is refused every time."""
    project = context.project
    signal = context.signal(action.signal)
    if signal is None or action.do == "begin-entry" or signal.name in unbound(project):
        return
    if not isinstance(signal, HeldSignal) and not signal.write:
        fix = Fix(
            translate("checks", "Make {signal} writable").format(signal=quoted(signal.name)),
            fixes.set_in_signal,
            (signal.name, "write", True),
        )
        word = context.word_of(signal) if isinstance(signal, BitSignal) else None
        yield Violation(
            "error",
            (),
            translate("checks", "it does '{deed}' on {signal}, which is read-only").format(
                deed=action.do, signal=quoted(signal.name)
            ),
            translate("checks", "allow writing of the signal, or use another one"),
            fix if fixes.writable(signal, word) else None,
        )
        return
    reasons = (refusal(project, signal.name, value) for value in _possible_values(context, action))
    reason = next((reason for reason in reasons if reason is not None), None)
    if reason is not None:
        hint = translate("checks", "correct the value, the limits or the signal of the action")
        yield Violation("error", (), translate("checks", "it is refused: {reason}").format(reason=reason), hint)


@each("action", name="held-value-refused")
def held_value_refused(context: CheckContext, action: Action) -> Iterator[Violation]:
    """A held value that may be set to what its target refuses: it is entered in good faith and never sent."""
    project = context.project
    held = context.signal(action.value.from_) if isinstance(action.value, HeldValue) else None
    if not isinstance(held, HeldSignal) or context.signal(action.signal) is None or action.signal is None:
        return
    if refusal(project, action.signal, Fraction(held.held)) is not None:
        return  # that it is refused at all is told by another rule
    for limit in held.limits or ():
        reason = refusal(project, action.signal, Fraction(limit))
        if reason is not None:
            yield Violation(
                "warning",
                (),
                translate("checks", "{held} can be set to {limit}, which {signal} does not accept: {reason}").format(
                    held=quoted(held.name), limit=limit, signal=quoted(action.signal), reason=reason
                ),
                translate("checks", "keep the limits of {held} within those of {signal}").format(
                    held=quoted(held.name), signal=quoted(action.signal)
                ),
                _narrower(context, held, action.signal),
            )
            break


def _narrower(context: CheckContext, held: HeldSignal, target: str) -> Fix | None:
    """The limits of a held value cut to what its target takes, if its own ends are all that is wrong."""
    bounds = context.signal(target)
    if held.limits is None or bounds is None or bounds.limits is None:
        return None
    low, high = max(held.limits[0], bounds.limits[0]), min(held.limits[1], bounds.limits[1])
    takes = all(refusal(context.project, target, Fraction(limit)) is None for limit in (low, high))
    if not (takes and low <= held.held <= high):
        return None
    words = translate("checks", "Narrow the limits of {signal} to {low} and {high}").format(
        signal=quoted(held.name), low=low, high=high
    )
    return Fix(words, fixes.set_in_signal, (held.name, "limits", (low, high)))


def _possible_values(context: CheckContext, action: Action) -> tuple[Fraction, ...]:
    """All values that the action may write, of a held value the first content."""
    if action.do == "set":
        return (Fraction(1),)
    if action.do == "clear":
        return (Fraction(0),)
    if action.do in ("toggle", "momentary"):
        return Fraction(1), Fraction(0)
    if isinstance(action.value, HeldValue):
        held = context.signal(action.value.from_)
        return (Fraction(held.held),) if isinstance(held, HeldSignal) else ()
    return () if action.value is None else (Fraction(action.value),)


@each("screen", "screen_change", "action", name="condition-without-number")
def condition_without_number(context: CheckContext, part: Screen | ScreenChange | Action) -> Iterator[Violation]:
    """A condition on a text: it is never judged."""
    for place, condition in conditions_of(part):
        signal = context.signal(condition.signal)
        if signal is not None and context.is_text(signal):
            yield Violation(
                "error",
                place,
                translate(
                    "checks", "its condition uses {signal}, a text, which can be neither set nor compared"
                ).format(signal=quoted(signal.name)),
                translate("checks", "choose a signal that is a number"),
            )


@each("screen", "screen_change", "action", name="condition-settled")
def condition_settled(context: CheckContext, part: Screen | ScreenChange | Action) -> Iterator[Violation]:
    """A condition that never or always holds, whatever stands in the registers."""
    for place, condition in conditions_of(part):
        signal = context.signal(condition.signal)
        if signal is None or context.is_float(signal):
            continue  # of a float the limits are known, and they bind nobody
        span = context.span(signal.name)
        settled = None if span is None else _verdict(condition, *span)
        if span is None or settled is None:
            continue
        low, high = (spoken_digits(end, signal.decimals) for end in span)
        if settled:
            message = translate("checks", "its condition, {condition}, is always true: the signal is {low} to {high}")
        else:
            message = translate("checks", "its condition, {condition}, is never true: the signal is {low} to {high}")
        yield Violation(
            "warning",
            place,
            message.format(condition=condition_in_words(condition), low=low, high=high),
            translate("checks", "correct the value of the condition or the scale of the signal"),
        )


def _verdict(condition: Condition, low: Fraction, high: Fraction) -> bool | None:
    """Whether the condition always (True) or never (False) holds between low and high; None if that depends."""
    if condition.value is None:
        if low > 0 or high < 0:
            return condition.is_ == "set"
        return condition.is_ == "clear" if low == high == 0 else None
    value = Fraction(condition.value)
    if condition.is_ == "above":
        return True if low > value else False if high <= value else None
    if condition.is_ == "below":
        return True if high < value else False if low >= value else None
    if not low <= value <= high:
        return False
    return True if low == high == value else None
