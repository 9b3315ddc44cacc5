"""Cases about entries: to both limits, beyond each of them, to a value between, and abandoned."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from app.language import translate
from app.panel.messages import bounds
from app.project.binding import UNKNOWN, shown_text, step_of, unwritable
from app.project.model import BitSignal, Field, HeldSignal, RegisterSignal, by_number
from app.proposing.draft import Reached, TrialDraft, expect, screen_is, signal_is
from app.proposing.face import row_expected
from app.proposing.machine import decimal
from app.signals.encoding import is_float, is_text
from app.signals.reading import Value
from app.signals.text import OVERFLOW
from app.trial.script import EnterStep, Expectation, KeyStep, TrialStep

_MOST_STEPS: Final = 200_000
"""Steps between two limits; more are not gone by anybody who holds a key."""


def entry_cases(draft: TrialDraft) -> None:
    """Every entry field of every screen."""
    for screen in draft.screens:
        reached = draft.go(screen.name)
        for field in screen.fields:
            if not field.entry or not draft.is_there(field.signal):
                continue
            said = {"signal": field.signal, "screen": screen.name, "why": ""}
            if reached is None:
                said["why"] = translate("trial", "the screen is not reached")
            elif (why := unwritable(draft.project, field.signal)) is not None:
                said["why"] = why
            else:
                _entry(draft, reached, screen.name, field)
                continue
            words = translate("trial", "The entry of '{signal}' on '{screen}' is not tried: {why}.")
            draft.lacks(words.format(**said))


def held_cases(draft: TrialDraft) -> None:
    """What the panel's own values are when it wakes up."""
    steps: list[TrialStep] = [
        signal_is(name, decimal(value)) for name, value in draft.held.items() if isinstance(value, Fraction)
    ]
    if steps:
        draft.add(translate("trial", "Values that the panel holds, when it wakes up"), steps)


def _entry(draft: TrialDraft, reached: Reached, screen: str, field: Field) -> None:
    name = field.signal
    steps: list[TrialStep] = [*reached.steps]
    last_value = draft.machine.start_values.get(name)
    for value, refused in _tried(draft, field):
        last_value = last_value if refused else value
        steps.append(
            EnterStep(enter=name, value=decimal(value), refused=True)
            if refused
            else EnterStep(enter=name, value=decimal(value))
        )
        if not refused:
            steps.append(
                signal_is(name, decimal(draft.machine.nearest(name, value) if _on_line(draft, name) else value))
            )
            raised = _raised(draft, name, _stored(draft, name, value))
            if raised is not None:
                # What was entered covers the screen; it has to be put back before the next entry.
                steps.append(screen_is(raised))
                if draft.machine.settable(name) and not reached.override:
                    steps += [draft.machine.order(name, draft.machine.start_values[name]), screen_is(screen)]
                    continue
                break
            seen = row_expected(
                draft.project, screen, field.at[0], {**reached.known, name: _stored(draft, name, value)}
            )
            if seen is not None:
                steps.append(expect(seen))
    abandoned = list(_abandoned(draft, screen, field, last_value))
    last = next((step for step in reversed(steps) if isinstance(step, EnterStep) and not step.refused), None)
    if abandoned and last is not None:
        steps += [*abandoned, expect(Expectation(signal=name, value=last.value))]
    words = translate("trial", "Entry of '{signal}' on '{screen}'").format(signal=name, screen=screen)
    if last is None:
        draft.lacks(
            translate("trial", "The entry of '{signal}' on '{screen}' is not tried: it has no limits.").format(
                signal=name, screen=screen
            )
        )
        return
    draft.add(words, steps)


def _raised(draft: TrialDraft, name: str, value: Value) -> str | None:
    """The screen of the override that a value of a signal raises."""
    return next((one.to for one in draft.behaviour.overrides if draft.holds_with(one.condition, name, value)), None)


def _on_line(draft: TrialDraft, name: str) -> bool:
    return not isinstance(draft.project.signal_named[name], HeldSignal)


def _stored(draft: TrialDraft, name: str, value: Fraction) -> Value:
    return draft.machine.nearest(name, value) if _on_line(draft, name) else value


def _tried(draft: TrialDraft, field: Field) -> Iterator[tuple[Fraction, bool]]:
    """The values that are entered, and whether each must be refused; no two the same in a row."""
    project, name = draft.project, field.signal
    signal = project.signal_named[name]
    if isinstance(signal, RegisterSignal) and is_text(signal.encoding) and signal.table not in ("coil", "discrete"):
        return
    single = isinstance(signal, BitSignal) or (isinstance(signal, RegisterSignal) and signal.table == "coil")
    if single or (field.kind == "choice" and signal.texts):
        start = draft.machine.start_values.get(name)
        choices = (
            [Fraction(0), Fraction(1)] if single else [Fraction(value) for value in sorted(by_number(signal.texts))]
        )
        limits = bounds(project, name)
        allowed = [one for one in choices if limits is None or limits[0] <= one <= limits[1]]
        for choice in (*(one for one in allowed if one != start), *(one for one in allowed if one == start)):
            yield choice, False
        return
    ends = bounds(project, name)
    if ends is None or (isinstance(signal, RegisterSignal) and is_float(signal.encoding) and signal.limits is None):
        start = draft.machine.start_values.get(name)
        if isinstance(start, Fraction):
            yield start + 2 * step_of(project, name), False
        return
    low, high = ends
    step = step_of(project, name)
    if (high - low) / step > _MOST_STEPS:
        words = translate("trial", "The limits of '{signal}' are not entered: they are too many steps apart.")
        draft.lacks(words.format(signal=name))
        start = draft.machine.start_values.get(name)
        if isinstance(start, Fraction) and low <= start + 2 * step <= high:
            yield start + 2 * step, False
        return
    room = [_has_room(draft, field, value) for value in (low, high)]
    if room[0]:
        yield low, False
        yield low - step, True
    inside = low + step * ((high - low) / step // 3)
    if inside not in (low, high):
        yield inside, False
    if room[1]:
        yield high, False
        yield high + step, True
    if not all(room):
        words = translate("trial", "A limit of '{signal}' is not entered on a field of {width} cells: it has no room.")
        draft.lacks(words.format(signal=name, width=field.width))
    if inside not in (low, high):
        yield inside, False


def _has_room(draft: TrialDraft, field: Field, value: Fraction) -> bool:
    text = shown_text(draft.project, field.signal, value, field.width, field.kind)
    return field.kind == "bar" or not text.startswith((OVERFLOW, UNKNOWN * field.width))


def _abandoned(draft: TrialDraft, screen: str, field: Field, value: Value | None) -> Iterator[TrialStep]:
    """The keys by which the entry is begun, changes the value, which is seen, and is abandoned."""
    name = field.signal
    roles, keys = draft.project.panel.entry, draft.project.panel.keys
    if not {roles.begin, roles.up, roles.down, roles.abandon, roles.confirm} <= set(keys):
        return
    if draft.behaviour.key_actions(screen, roles.begin) or draft.behaviour.key_screen_change(screen, roles.begin):
        return
    fields = [field for field in draft.project.screen_named[screen].fields if field.entry]
    ordered = sorted(fields, key=lambda field: field.at)
    place = next(number for number, field in enumerate(ordered) if field.signal == name)
    yield KeyStep(key=roles.begin)
    if len(ordered) > 1:
        if place:
            yield KeyStep(key=roles.down, times=place)
        yield KeyStep(key=roles.confirm)
    yield KeyStep(key=roles.up, times=2)
    signal = draft.project.signal_named[name]
    once = Fraction(1, 10**signal.decimals) if roles.by == "digit" else step_of(draft.project, name)
    ends = bounds(draft.project, name)
    if isinstance(value, Fraction) and ends is not None and field.kind != "choice" and ends[0] + once < ends[1]:
        shown = row_expected(draft.project, screen, field.at[0], {name: min(value + 2 * once, ends[1])})
        if shown is not None:
            yield expect(shown)
    yield KeyStep(key=roles.abandon, times=2 if len(ordered) > 1 else 1)
