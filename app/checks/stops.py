"""Rules about starting and stopping: what no key stops, what stops too seldom, what starts or writes by itself."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from app.checks import fixes
from app.checks.context import CheckContext
from app.checks.finding import Fix, Violation
from app.checks.rule import each, whole
from app.language import translate
from app.project.by_itself import condition_in_words, deed_in_words, starts_by_itself
from app.project.model import Action, BitSignal, HeldSignal, HeldValue, RegisterSignal, Signal
from app.project.problems import quoted
from app.project.purpose import CLEARING, stops

_ENABLED: Final = 0x0F
"""Bits 0 to 3 of the control word of IEC 61800-7-201: the motor runs with all of them, and with no other number."""


@whole("actions", "signals", "panel", name="start-without-stop")
def start_without_stop(context: CheckContext) -> Iterator[Violation]:
    """A key that starts something which no key stops.

    A start is a key that does `set` on a signal of a follower, or writes a number other than 0 to a command signal:
    a bit, a coil, a register whose bits are signals that may be written, or one that has a text per value. A stop of
    it is a key that does `clear` or `toggle` on the same signal, writes 0 to it, or writes its whole word with that bit
    clear; for a word of bits, also one that clears a bit that the start sets, and for a register with texts, one that
    writes another number. What stops something, or is said to ('stops'), is no start, whatever else it switches on. A
    condition is no stop: the operator cannot make it come true. Toggle and momentary actions bring their own stop.
    Common practice, no source: a start by key needs a stop by key.
    """
    for index, action in enumerate(context.project.actions):
        if not _starts(context, action):
            continue
        stops = _stops(context, action)
        if not stops:
            yield Violation(
                "warning",
                ("action", index),
                translate("checks", "key {key} switches {signal} on, but no key switches it off again").format(
                    key=quoted(action.key or ""), signal=quoted(action.signal or "")
                ),
                translate("checks", "add an action that clears {signal} by a stop key").format(
                    signal=quoted(action.signal or "")
                ),
            )


@whole("actions", "signals", "panel", "screen_names", "entered", name="stop-out-of-reach")
def stop_out_of_reach(context: CheckContext) -> Iterator[Violation]:
    """A stop that works on some screens only: on the others the operator has to look for it.

    A warning where the start works and the stop does not, a note where both are on some screens only.
    """
    screens = set(context.screen_names)
    hint = translate("checks", "make the stop act on every screen")
    for index, action in enumerate(context.project.actions):
        stops = _stops(context, action) if _starts(context, action) else []
        if not stops or any(stop.from_ is None for stop in stops):
            continue
        covered = {stop.from_ for stop in stops}
        starts = screens if action.from_ is None else {action.from_}
        lacking = sorted(screens - covered)
        if starts - covered:
            yield Violation(
                "warning",
                ("action", index),
                translate(
                    "checks", "{signal} can be switched on from {screens}, but no key there switches it off"
                ).format(signal=quoted(action.signal or ""), screens=_name_list(sorted(starts - covered))),
                hint,
                _everywhere(context, stops),
            )
        elif lacking:
            yield Violation(
                "note",
                ("action", index),
                translate("checks", "{signal} cannot be switched off from {screens}").format(
                    signal=quoted(action.signal or ""), screens=_name_list(lacking)
                ),
                hint,
                _everywhere(context, stops),
            )


def _everywhere(context: CheckContext, stops: list[Action]) -> Fix | None:
    """The first stop that can act on every screen without a quarrel with anything else its key does."""
    actions = context.project.actions
    serving = _serving(context) if context.entered else {context.panel.entry.begin}
    for stop in stops:
        alone = all(other is stop or other.key != stop.key for other in actions)
        if alone and stop.key is not None and stop.key not in serving:
            at = next(index for index, action in enumerate(actions) if action is stop)
            words = translate("checks", "Make key {key} switch it off on every screen").format(key=quoted(stop.key))
            return Fix(words, fixes.set_elsewhere, (("action", at, "from"), None))
    return None


def _serving(context: CheckContext) -> set[str]:
    """The keys that serve in entry, the one that begins it among them."""
    roles = context.panel.entry
    return {roles.begin, roles.up, roles.down, roles.left, roles.right, roles.confirm, roles.abandon}


@whole("actions", "signals", "panel", "entered", name="stop-lost-in-entry")
def stop_lost_in_entry(context: CheckContext) -> Iterator[Violation]:
    """A stop key that serves in entry too: while a value is being changed it does not stop."""
    roles = context.panel.entry
    serving = {roles.up, roles.down, roles.left, roles.right, roles.confirm, roles.abandon}
    entered = context.entered
    for index, action in enumerate(context.project.actions):
        stops = _stops(context, action) if _starts(context, action) else []
        here = [stop for stop in stops if stop.from_ is None or stop.from_ in entered]
        if entered and here and all(stop.key in serving for stop in here):
            yield Violation(
                "warning",
                ("action", index),
                translate(
                    "checks",
                    "{signal} is switched off by {key}, but not during value entry, because it is an entry key",
                ).format(signal=quoted(action.signal or ""), key=quoted(here[0].key or "")),
                translate("checks", "use a stop key that is not an entry key of the panel"),
            )


@whole("actions", "signals", "panel", name="stop-sent-once")
def stop_sent_once(context: CheckContext) -> Iterator[Violation]:
    """A start whose stops are all sent like any other value: once, and not at all while the follower does not answer.

    One stop for each start is to be owed: sent again until it is proved. 'clear' and 'toggle' are; what writes or sets
    is if it says 'stops'.
    """
    for index, action in enumerate(context.project.actions):
        found = _stops(context, action) if _starts(context, action) else []
        if not found or any(stops(stop) for stop in found):
            continue
        stop = found[0]
        at = next(index for index, other in enumerate(context.project.actions) if other is stop)
        yield Violation(
            "warning",
            ("action", at),
            translate(
                "checks",
                "key {key} stops {signal}, but the command is sent only once: if it is lost, nothing stops",
            ).format(key=quoted(stop.key or ""), signal=quoted(action.signal or "")),
            translate("checks", "mark it as a stop: it is then repeated until confirmed"),
            Fix(
                translate("checks", "Repeat the stop of key {key} until it is confirmed").format(
                    key=quoted(stop.key or "")
                ),
                fixes.set_elsewhere,
                (("action", at, "stops"), None if stop.do in CLEARING else True),
            ),
        )


@each("action", name="stop-that-starts")
def stop_that_starts(context: CheckContext, action: Action) -> Iterator[Violation]:
    """A write that is called a stop and brings a value: it is sent again and again, and would raise it each time.

    A command may have a number that stops, such as the control word of a drive; a set point that stops is 0. Which
    numbers stop is known of the control word of IEC 61800-7-201.
    """
    signal = context.signal(action.signal)
    if not action.stops or action.do != "write" or not action.value or signal is None:
        return
    if isinstance(signal, HeldSignal) or (context.commands(signal.name) and _lets_run(signal, action) is not True):
        return
    yield Violation(
        "warning",
        (),
        translate("checks", "it is marked as a stop, but sets {signal} to {value}").format(
            signal=quoted(signal.name), value=action.value
        ),
        translate(
            "checks", "write 0, or do not mark it as a stop: what is not a stop must not be repeated automatically"
        ),
        Fix(translate("checks", "Do not treat it as a stop"), fixes.set_at, (("stops",), None)),
    )


@whole("actions", "signals", "panel", name="set-and-cleared-to-stop")
def set_and_cleared_to_stop(context: CheckContext) -> Iterator[Violation]:
    """A bit that is both set and cleared to stop: one of the two starts, and is sent again by itself."""
    for index, action in enumerate(context.project.actions):
        if action.do != "set" or not action.stops:
            continue
        clearing = (other for other in context.acting_on(action.signal) if other.signal == action.signal)
        if any(other.do == "clear" and stops(other) for other in clearing):
            yield Violation(
                "warning",
                ("action", index),
                translate(
                    "checks", "{signal} is set as a stop here, and cleared as a stop elsewhere: one of them starts"
                ).format(signal=quoted(action.signal or "")),
                translate("checks", "do not mark the one that starts as a stop"),
            )


@each("action", name="starts-by-itself")
def starts_without_a_key(context: CheckContext, action: Action) -> Iterator[Violation]:
    """An action on a condition that may start something: once the line is armed, it moves the machine without a key."""
    if action.when is not None and starts_by_itself(context.project, action):
        yield Violation(
            "warning",
            (),
            translate("checks", "when {condition}: {deed}, automatically and without a key").format(
                condition=condition_in_words(action.when), deed=deed_in_words(context.project, action)
            ),
            translate("checks", "use a key instead, or accept this if nobody can be hurt by it"),
        )


@each("signal", name="written-by-itself")
def written_again_and_again(_context: CheckContext, signal: Signal) -> Iterator[Violation]:
    """A signal that is written again and again once it was written, also while nobody is at the panel."""
    if isinstance(signal, RegisterSignal) and signal.refresh_ms and signal.write:
        yield Violation(
            "note",
            (),
            translate(
                "checks", "once written, it is rewritten automatically every {every} ms (\u201cWrite interval\u201d)"
            ).format(every=signal.refresh_ms),
            translate("checks", "accept this if the device needs it"),
        )


@each("action", name="momentary-without-time-out")
def momentary_without_time_out(context: CheckContext, action: Action) -> Iterator[Violation]:
    """A momentary action on a follower that does not watch the line: if the line breaks while the key is held, what it
    switched on stays on.
    """
    follower = context.follower_of(action.signal) if action.do == "momentary" else None
    if follower is not None and follower.communication_timeout_ms == 0:
        yield Violation(
            "warning",
            (),
            translate(
                "checks",
                "while {key} is held, {signal} is on; if the line fails then, device {follower} keeps it on, because "
                "it has no communication time-out",
            ).format(key=quoted(action.key or ""), signal=quoted(action.signal or ""), follower=quoted(follower.name)),
            translate(
                "checks",
                "set the device's own \u201cCommunication time-out\u201d and enter it here; "
                "if it has none, do not use a momentary action",
            ),
        )


def _starts(context: CheckContext, action: Action) -> bool:
    if action.stops or not _switches_on(context, action):
        return False
    # A number that stops what another key has started may well set a bit of its own, such as a quick stop.
    others = context.acting_on(action.signal) if action.do == "write" else ()
    return not any(_switches_on(context, other) and _stopped_by(context, other, action) for other in others)


def _switches_on(context: CheckContext, action: Action) -> bool:
    signal = context.signal(action.signal)
    if action.key not in context.project.panel.keys or signal is None or isinstance(signal, HeldSignal):
        return False
    if action.do == "set":
        return True
    if action.do != "write" or isinstance(action.value, HeldValue) or not action.value:
        return False
    return context.commands(signal.name) and _lets_run(signal, action) is not False


def _lets_run(signal: RegisterSignal | BitSignal, action: Action) -> bool | None:
    """Whether a number written to a control word of IEC 61800-7-201 lets the motor run; None for any other signal."""
    if signal.drive_role != "control-word" or isinstance(action.value, HeldValue):
        return None
    return _bits(action) & _ENABLED == _ENABLED


def _stops(context: CheckContext, start: Action) -> list[Action]:
    return [action for action in context.acting_on(start.signal) if _stopped_by(context, start, action)]


def _stopped_by(context: CheckContext, start: Action, action: Action) -> bool:
    signal = context.signal(start.signal)
    if action is start or signal is None:
        return False
    number = None if isinstance(action.value, HeldValue) or action.value is None else Fraction(action.value)
    if action.signal == signal.name:
        if action.do in ("clear", "toggle"):
            return True
        if action.do != "write" or number is None:
            return False
        if number == 0 or context.of_one_bit(signal):
            return number == 0
        by_number = bool(signal.texts) and start.do == "write" and action.value != start.value
        return by_number or bool(_bits(start) & ~_bits(action))
    if not isinstance(signal, BitSignal):
        bit = context.signal(action.signal)
        inside = isinstance(bit, BitSignal) and bit.bit.of == signal.name and _bits(start) >> bit.bit.number & 1
        return bool(inside) and action.do in ("clear", "toggle")
    if action.signal == signal.bit.of:
        if action.do == "clear":
            return True
        return action.do == "write" and number is not None and not _bits(action) >> signal.bit.number & 1
    twin = context.signal(action.signal)  # the same bit under another name
    return isinstance(twin, BitSignal) and twin.bit == signal.bit and action.do in ("clear", "toggle")


def _bits(action: Action) -> int:
    """The bits that an action sets in the word that it writes to."""
    if isinstance(action.value, HeldValue) or action.value is None:
        return 1 if action.do == "set" else 0
    return int(action.value)


def _name_list(names: list[str]) -> str:
    shown = ", ".join(quoted(name) for name in names[:3])
    if len(names) > 3:
        return translate("checks", "screen {screens} and {count} more").format(screens=shown, count=len(names) - 3)
    return translate("checks", "screen {screens}").format(screens=shown)
