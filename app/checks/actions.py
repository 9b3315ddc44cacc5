"""Rules about what keys and conditions do: what is refused, what starts and cannot be stopped, what never happens."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from app.checks import mends
from app.checks.finding import Fault, Mend
from app.checks.rule import each, whole
from app.checks.survey import Survey, conditions_of
from app.language import translate
from app.project.binding import refusal, unbound
from app.project.model import Action, BitSignal, Condition, HeldSignal, HeldValue, Screen, Turn
from app.project.problems import quoted
from app.signals.text import number_digits


@each("action", name="action-refused")
def action_refused(survey: Survey, action: Action) -> Iterator[Fault]:
    """An action that writes what its signal does not allow: it is refused every time."""
    project = survey.project
    signal = survey.signal(action.signal)
    if signal is None or action.do == "begin-entry" or signal.name in unbound(project):
        return
    if not isinstance(signal, HeldSignal) and not signal.write:
        mend = Mend(
            translate("checks", "Let {signal} be written").format(signal=quoted(signal.name)),
            mends.set_in_signal,
            (signal.name, "write", True),
        )
        word = survey.word_of(signal) if isinstance(signal, BitSignal) else None
        yield Fault(
            "error",
            (),
            translate("checks", "it does '{deed}' on {signal}, which may not be written").format(
                deed=action.do, signal=quoted(signal.name)
            ),
            translate("checks", "let the signal be written ('write'), or act on another one"),
            mend if mends.writable(signal, word) else None,
        )
        return
    reasons = (refusal(project, signal.name, value) for value in _written(survey, action))
    reason = next((reason for reason in reasons if reason is not None), None)
    if reason is not None:
        hint = translate("checks", "mend the value, the limits or the signal that it acts on")
        yield Fault("error", (), translate("checks", "it is refused: {reason}").format(reason=reason), hint)


@each("action", name="held-value-refused")
def held_value_refused(survey: Survey, action: Action) -> Iterator[Fault]:
    """A held value that may be set to what its target refuses: it is entered in good faith and never sent."""
    project = survey.project
    held = survey.signal(action.value.from_) if isinstance(action.value, HeldValue) else None
    if not isinstance(held, HeldSignal) or survey.signal(action.signal) is None or action.signal is None:
        return
    if refusal(project, action.signal, Fraction(held.held)) is not None:
        return  # that it is refused at all is told by another rule
    for limit in held.limits or ():
        reason = refusal(project, action.signal, Fraction(limit))
        if reason is not None:
            yield Fault(
                "warning",
                (),
                translate("checks", "{held} may be set to {limit}, which {signal} refuses: {reason}").format(
                    held=quoted(held.name), limit=limit, signal=quoted(action.signal), reason=reason
                ),
                translate("checks", "keep the limits of {held} within those of {signal}").format(
                    held=quoted(held.name), signal=quoted(action.signal)
                ),
                _narrower(survey, held, action.signal),
            )
            break


def _narrower(survey: Survey, held: HeldSignal, target: str) -> Mend | None:
    """The limits of a held value cut to what its target takes, if its own ends are all that is wrong."""
    bounds = survey.signal(target)
    if held.limits is None or bounds is None or bounds.limits is None:
        return None
    low, high = max(held.limits[0], bounds.limits[0]), min(held.limits[1], bounds.limits[1])
    takes = all(refusal(survey.project, target, Fraction(limit)) is None for limit in (low, high))
    if not (takes and low <= held.held <= high):
        return None
    words = translate("checks", "Narrow the limits of {signal} to {low} and {high}").format(
        signal=quoted(held.name), low=low, high=high
    )
    return Mend(words, mends.set_in_signal, (held.name, "limits", (low, high)))


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


@whole("actions", "signals", "panel", name="start-without-stop")
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
                translate("checks", "the key {key} switches on {signal}, and no key switches it off again").format(
                    key=quoted(action.key or ""), signal=quoted(action.signal or "")
                ),
                translate("checks", "add an action of a stop key that clears {signal}").format(
                    signal=quoted(action.signal or "")
                ),
            )


@whole("actions", "signals", "panel", "screen_names", "entered", name="stop-out-of-reach")
def stop_out_of_reach(survey: Survey) -> Iterator[Fault]:
    """A stop that works on some screens only: on the others the operator has to look for it.

    A warning where the start works and the stop does not, a note where both are on some screens only.
    """
    screens = set(survey.screen_names)
    hint = translate("checks", "let the stop act on every screen: leave out its 'from'")
    for index, action in enumerate(survey.project.actions):
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
                translate("checks", "{signal} can be switched on from {screens}, where no key switches it off").format(
                    signal=quoted(action.signal or ""), screens=_listed(sorted(starts - covered))
                ),
                hint,
                _everywhere(survey, stops),
            )
        elif lacking:
            yield Fault(
                "note",
                ("action", index),
                translate("checks", "{signal} cannot be switched off from {screens}").format(
                    signal=quoted(action.signal or ""), screens=_listed(lacking)
                ),
                hint,
                _everywhere(survey, stops),
            )


def _everywhere(survey: Survey, stops: list[Action]) -> Mend | None:
    """The first stop that can act on every screen without a quarrel with anything else its key does."""
    actions = survey.project.actions
    serving = _serving(survey) if survey.entered else {survey.panel.entry.begin}
    for stop in stops:
        alone = all(other is stop or other.key != stop.key for other in actions)
        if alone and stop.key is not None and stop.key not in serving:
            at = next(index for index, action in enumerate(actions) if action is stop)
            words = translate("checks", "Let the key {key} switch it off on every screen").format(key=quoted(stop.key))
            return Mend(words, mends.set_elsewhere, (("action", at, "from"), None))
    return None


def _serving(survey: Survey) -> set[str]:
    """The keys that serve in entry, the one that begins it among them."""
    roles = survey.panel.entry
    return {roles.begin, roles.up, roles.down, roles.left, roles.right, roles.confirm, roles.abandon}


@whole("actions", "signals", "panel", "entered", name="stop-lost-in-entry")
def stop_lost_in_entry(survey: Survey) -> Iterator[Fault]:
    """A stop key that serves in entry too: while a value is being changed it does not stop."""
    roles = survey.panel.entry
    serving = {roles.up, roles.down, roles.left, roles.right, roles.confirm, roles.abandon}
    entered = survey.entered
    for index, action in enumerate(survey.project.actions):
        stops = _stops(survey, action) if _starts(survey, action) else []
        here = [stop for stop in stops if stop.from_ is None or stop.from_ in entered]
        if entered and here and all(stop.key in serving for stop in here):
            yield Fault(
                "warning",
                ("action", index),
                translate(
                    "checks",
                    "{signal} is switched off by {key}, which does not do so while a value is being changed, because "
                    "it serves in entry",
                ).format(signal=quoted(action.signal or ""), key=quoted(here[0].key or "")),
                translate("checks", "stop by a key that the panel's entry keys do not name"),
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
    if len(names) > 3:
        return translate("checks", "screen {screens} and {count} more").format(screens=shown, count=len(names) - 3)
    return translate("checks", "screen {screens}").format(screens=shown)


@each("action", name="momentary-without-time-out")
def momentary_without_time_out(survey: Survey, action: Action) -> Iterator[Fault]:
    """A momentary action on a follower that does not watch the line: if the line breaks while the key is held, what it
    switched on stays on.
    """
    follower = survey.follower_of(action.signal) if action.do == "momentary" else None
    if follower is not None and follower.communication_timeout_ms == 0:
        yield Fault(
            "warning",
            (),
            translate(
                "checks",
                "while {key} is held, {signal} is on; if the line breaks then, follower {follower} keeps it on, since "
                "it has no communication time-out",
            ).format(key=quoted(action.key or ""), signal=quoted(action.signal or ""), follower=quoted(follower.name)),
            translate(
                "checks",
                "set the follower's own time-out and give it here as 'communication_timeout_ms'; if it has none, use "
                "no momentary action",
            ),
        )


@each("screen", "turn", "action", name="condition-without-number")
def condition_without_number(survey: Survey, part: Screen | Turn | Action) -> Iterator[Fault]:
    """A condition on a text: it is never judged."""
    for place, condition in conditions_of(part):
        signal = survey.signal(condition.signal)
        if signal is not None and survey.is_text(signal):
            yield Fault(
                "error",
                place,
                translate(
                    "checks", "its condition is on {signal}, which is a text and can be neither set nor compared"
                ).format(signal=quoted(signal.name)),
                translate("checks", "name a signal that is a number"),
            )


@each("screen", "turn", "action", name="condition-settled")
def condition_settled(survey: Survey, part: Screen | Turn | Action) -> Iterator[Fault]:
    """A condition that never or always holds, whatever stands in the registers."""
    for place, condition in conditions_of(part):
        signal = survey.signal(condition.signal)
        if signal is None or survey.is_float(signal):
            continue  # of a float the limits are known, and they bind nobody
        span = survey.span(signal.name)
        settled = None if span is None else _settled(condition, *span)
        if span is None or settled is None:
            continue
        low, high = (number_digits(end, signal.decimals) for end in span)
        said = f"{quoted(signal.name)} {condition.is_}" + ("" if condition.value is None else f" {condition.value}")
        if settled:
            message = translate("checks", "its condition, {condition}, always holds: the signal is {low} to {high}")
        else:
            message = translate("checks", "its condition, {condition}, never holds: the signal is {low} to {high}")
        yield Fault(
            "warning",
            place,
            message.format(condition=said, low=low, high=high),
            translate("checks", "mend the value of the condition or the scale of the signal"),
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
