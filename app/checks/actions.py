"""Rules about what keys and conditions do: what is refused, what starts and cannot be stopped, what never happens."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from app.checks.finding import Fault
from app.checks.rule import rule
from app.checks.survey import Survey
from app.project.binding import refusal, unbound
from app.project.model import Action, BitSignal, Condition, HeldSignal, HeldValue
from app.project.problems import quoted
from app.signals.text import number_digits


@rule("action-refused")
def action_refused(survey: Survey) -> Iterator[Fault]:
    """An action that writes what its signal does not allow: it is refused every time."""
    project = survey.project
    for place, action in survey.actions():
        signal = survey.signal(action.signal)
        if signal is None or action.do == "begin-entry" or signal.name in unbound(project):
            continue
        if not isinstance(signal, HeldSignal) and not signal.write:
            yield Fault(
                "error",
                place,
                f"it does '{action.do}' on {quoted(signal.name)}, which may not be written",
                "let the signal be written ('write'), or act on another one",
            )
            continue
        reasons = (refusal(project, signal.name, value) for value in _written(survey, action))
        reason = next((reason for reason in reasons if reason is not None), None)
        if reason is not None:
            hint = "mend the value, the limits or the signal that it acts on"
            yield Fault("error", place, f"it is refused: {reason}", hint)


@rule("held-value-refused")
def held_value_refused(survey: Survey) -> Iterator[Fault]:
    """A held value that may be set to what its target refuses: it is entered in good faith and never sent."""
    project = survey.project
    for place, action in survey.actions():
        held = survey.signal(action.value.from_) if isinstance(action.value, HeldValue) else None
        if not isinstance(held, HeldSignal) or survey.signal(action.signal) is None or action.signal is None:
            continue
        if refusal(project, action.signal, Fraction(held.held)) is not None:
            continue  # that it is refused at all is told by another rule
        for limit in held.limits or ():
            reason = refusal(project, action.signal, Fraction(limit))
            if reason is not None:
                yield Fault(
                    "warning",
                    place,
                    f"{quoted(held.name)} may be set to {limit}, which {quoted(action.signal)} refuses: {reason}",
                    f"keep the limits of {quoted(held.name)} within those of {quoted(action.signal)}",
                )
                break


def _written(survey: Survey, action: Action) -> tuple[Fraction, ...]:
    """All values that the action may write, of a held value the first content."""
    if action.do == "set":
        return (Fraction(1),)
    if action.do == "clear":
        return (Fraction(0),)
    if action.do in ("toggle", "momentary"):
        return Fraction(1), Fraction(0)
    if isinstance(action.value, HeldValue):
        held = survey.signal(action.value.from_)
        return (Fraction(held.held),) if isinstance(held, HeldSignal) else ()
    return () if action.value is None else (Fraction(action.value),)


@rule("start-without-stop")
def start_without_stop(survey: Survey) -> Iterator[Fault]:
    """A key that starts something which no key stops.

    A start is a key that does `set` on a signal of a follower, or writes a number other than 0 to a command signal:
    a bit, a coil, a register whose bits are signals that may be written, or one that has a text per value. A stop of
    it is a key that does `clear` or `toggle` on the same signal, writes 0 to it, or writes its whole word with that bit
    clear; for a word of bits, also one that clears a bit that the start sets, and for a register with texts, one that
    writes another number. What stops something is no start, whatever else it switches on. A condition
    is no stop: the operator cannot make it come true. Toggle and momentary actions bring their own stop.
    Common practice, no source: a start by key needs a stop by key.
    """
    for index, action in enumerate(survey.project.actions):
        if not _starts(survey, action):
            continue
        stops = _stops(survey, action)
        if not stops:
            yield Fault(
                "warning",
                ("action", index),
                f"the key {quoted(action.key or '')} switches on {quoted(action.signal or '')}, and no key switches it "
                "off again",
                f"add an action of a stop key that clears {quoted(action.signal or '')}",
            )


@rule("stop-out-of-reach")
def stop_out_of_reach(survey: Survey) -> Iterator[Fault]:
    """A stop that works on some screens only: on the others the operator has to look for it.

    A warning where the start works and the stop does not, a note where both are on some screens only.
    """
    project = survey.project
    screens = set(project.screen_named)
    for index, action in enumerate(project.actions):
        stops = _stops(survey, action) if _starts(survey, action) else []
        if not stops or any(stop.from_ is None for stop in stops):
            continue
        covered = {stop.from_ for stop in stops}
        starts = screens if action.from_ is None else {action.from_}
        lacking = sorted(screens - covered)
        if starts - covered:
            yield Fault(
                "warning",
                ("action", index),
                f"{quoted(action.signal or '')} can be switched on from {_listed(sorted(starts - covered))}, where no "
                "key switches it off",
                "let the stop act on every screen: leave out its 'from'",
            )
        elif lacking:
            yield Fault(
                "note",
                ("action", index),
                f"{quoted(action.signal or '')} cannot be switched off from {_listed(lacking)}",
                "let the stop act on every screen: leave out its 'from'",
            )


@rule("stop-lost-in-entry")
def stop_lost_in_entry(survey: Survey) -> Iterator[Fault]:
    """A stop key that serves in entry too: while a value is being changed it does not stop."""
    project = survey.project
    roles = project.panel.entry
    serving = {roles.up, roles.down, roles.left, roles.right, roles.confirm, roles.abandon}
    entered = {screen.name for screen in project.screens if any(field.entry for field in screen.fields)}
    for index, action in enumerate(project.actions):
        stops = _stops(survey, action) if _starts(survey, action) else []
        here = [stop for stop in stops if stop.from_ is None or stop.from_ in entered]
        if entered and here and all(stop.key in serving for stop in here):
            yield Fault(
                "warning",
                ("action", index),
                f"{quoted(action.signal or '')} is switched off by {quoted(here[0].key or '')}, which does not do so "
                "while a value is being changed, because it serves in entry",
                "stop by a key that the panel's entry keys do not name",
            )


def _starts(survey: Survey, action: Action) -> bool:
    if not _switches_on(survey, action):
        return False
    # A number that stops what another key has started may well set a bit of its own, such as a quick stop.
    others = survey.acting_on(action.signal) if action.do == "write" else ()
    return not any(_switches_on(survey, other) and _stopped_by(survey, other, action) for other in others)


def _switches_on(survey: Survey, action: Action) -> bool:
    signal = survey.signal(action.signal)
    if action.key not in survey.project.panel.keys or signal is None or isinstance(signal, HeldSignal):
        return False
    if action.do == "set":
        return True
    if action.do != "write" or isinstance(action.value, HeldValue) or not action.value:
        return False
    return survey.commands(signal.name)


def _stops(survey: Survey, start: Action) -> list[Action]:
    return [action for action in survey.acting_on(start.signal) if _stopped_by(survey, start, action)]


def _stopped_by(survey: Survey, start: Action, action: Action) -> bool:
    signal = survey.signal(start.signal)
    if action is start or signal is None:
        return False
    number = None if isinstance(action.value, HeldValue) or action.value is None else Fraction(action.value)
    if action.signal == signal.name:
        if action.do in ("clear", "toggle"):
            return True
        if action.do != "write" or number is None:
            return False
        if number == 0 or survey.of_one_bit(signal):
            return number == 0
        by_number = bool(signal.texts) and start.do == "write" and action.value != start.value
        return by_number or bool(_bits(start) & ~_bits(action))
    if not isinstance(signal, BitSignal):
        bit = survey.signal(action.signal)
        inside = isinstance(bit, BitSignal) and bit.bit.of == signal.name and _bits(start) >> bit.bit.number & 1
        return bool(inside) and action.do in ("clear", "toggle")
    if action.signal == signal.bit.of:
        if action.do == "clear":
            return True
        return action.do == "write" and number is not None and not _bits(action) >> signal.bit.number & 1
    twin = survey.signal(action.signal)  # the same bit under another name
    return isinstance(twin, BitSignal) and twin.bit == signal.bit and action.do in ("clear", "toggle")


def _bits(action: Action) -> int:
    """The bits that an action sets in the word that it writes to."""
    if isinstance(action.value, HeldValue) or action.value is None:
        return 1 if action.do == "set" else 0
    return int(action.value)


def _listed(names: list[str]) -> str:
    shown = ", ".join(quoted(name) for name in names[:3])
    return f"screen {shown}" + (f" and {len(names) - 3} more" if len(names) > 3 else "")


@rule("momentary-without-time-out")
def momentary_without_time_out(survey: Survey) -> Iterator[Fault]:
    """A momentary action on a follower that does not watch the line: if the line breaks while the key is held, what it
    switched on stays on.
    """
    for place, action in survey.actions():
        follower = survey.follower_of(action.signal) if action.do == "momentary" else None
        if follower is not None and follower.communication_timeout_ms == 0:
            yield Fault(
                "warning",
                place,
                f"while {quoted(action.key or '')} is held, {quoted(action.signal or '')} is on; if the line breaks "
                f"then, follower {quoted(follower.name)} keeps it on, since it has no communication time-out",
                "set the follower's own time-out and give it here as 'communication_timeout_ms'; if it has none, use "
                "no momentary action",
            )


@rule("condition-without-number")
def condition_without_number(survey: Survey) -> Iterator[Fault]:
    """A condition on a text: it is never judged."""
    for place, condition in survey.conditions():
        signal = survey.signal(condition.signal)
        if signal is not None and survey.is_text(signal):
            yield Fault(
                "error",
                place,
                f"its condition is on {quoted(signal.name)}, which is a text and can be neither set nor compared",
                "name a signal that is a number",
            )


@rule("condition-settled")
def condition_settled(survey: Survey) -> Iterator[Fault]:
    """A condition that never or always holds, whatever stands in the registers."""
    for place, condition in survey.conditions():
        signal = survey.signal(condition.signal)
        if signal is None or survey.is_float(signal):
            continue  # of a float the limits are known, and they bind nobody
        span = survey.span(signal.name)
        settled = None if span is None else _settled(condition, *span)
        if span is None or settled is None:
            continue
        value = "" if condition.value is None else f" {condition.value}"
        low, high = (number_digits(end, signal.decimals) for end in span)
        yield Fault(
            "warning",
            place,
            f"its condition, {quoted(signal.name)} {condition.is_}{value}, {'always' if settled else 'never'} holds: "
            f"the signal is {low} to {high}",
            "mend the value of the condition or the scale of the signal",
        )


def _settled(condition: Condition, low: Fraction, high: Fraction) -> bool | None:
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
