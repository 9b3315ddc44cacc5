"""Cases about what keys and conditions do: values that they write, stops from every screen, languages."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction
from typing import Final

from app.language import translate
from app.panel.conditions import in_words
from app.project.binding import bindings, refusal
from app.project.model import Action, BitSignal, HeldSignal, HeldValue, RegisterSignal
from app.proposing.draft import TrialDraft, expect, screen_is, signal_is
from app.proposing.face import rows_expected
from app.proposing.machine import decimal, wait
from app.trial.script import EnterStep, Expectation, KeyStep, TrialStep, WaitStep

_HELD_S: Final = Decimal("0.5")
"""How long a key that works while it is held is held."""


def action_cases(draft: TrialDraft) -> None:
    """Every action of a key: what it writes is what the device then holds."""
    for index, action in enumerate(draft.project.actions):
        if action.key is None or action.do == "next-language":
            continue
        screen = action.from_ or draft.routes.start
        reached = draft.go(screen)
        said = {"number": index + 1, "key": action.key, "deed": _deed(action)}
        if reached is None or action.key not in draft.project.panel.keys:
            words = translate("trial", "Action {number} (key {key}) is not tried: its screen or key is not there.")
            draft.lacks(words.format(**said))
            continue
        steps = list(_pressed(draft, action, screen))
        if not steps:
            words = translate(
                "trial", "Action {number} (key {key}: {deed}) is not tried: its value is not known before."
            )
            draft.lacks(words.format(**said))
            continue
        draft.add(translate("trial", "Key {key}: {deed}").format(**said), [*reached.steps, *steps])


def condition_cases(draft: TrialDraft) -> None:
    """Every action of a condition: what is written when it begins to hold."""
    for index, action in enumerate(draft.project.actions):
        if action.when is None or not draft.is_there(action.signal):
            continue
        said = {"number": index + 1, "condition": in_words(action.when), "deed": _deed(action)}
        way = draft.ways.to(action.when)
        written = written_by(draft, action)
        if way is None or written is None or action.signal is None:
            words = translate("trial", "Action {number} is not tried: nobody can bring it about that {condition}.")
            draft.lacks(words.format(**said))
            continue
        steps: list[TrialStep] = [*way.calm, wait(1)]
        if way.just_not:
            steps += [*way.just_not, wait(1)]
        other = other_value(draft, action.signal, written)
        if other is not None and draft.machine.settable(action.signal):
            steps += [draft.machine.order(action.signal, other), until(action.signal, other)]
        steps += [*way.raising, signal_is(action.signal, decimal(written))]
        if way.clearing:
            # Once more, now that it is so already: it must stay so.
            steps += [*way.clearing, *way.calm, *way.raising, wait(1), signal_is(action.signal, decimal(written))]
        name = translate("trial", "When {condition}: {deed}").format(**said)
        draft.add(name, steps)


def language_cases(draft: TrialDraft) -> None:
    """The key that chooses the next language, round to the first one."""
    for action in draft.project.actions:
        screen = action.from_ or draft.routes.start
        reached = draft.go(screen)
        if action.do != "next-language" or action.key is None or reached is None:
            continue
        steps: list[TrialStep] = [*reached.steps]
        count = len(draft.project.panel.languages)
        for number in [*range(1, count), 0]:
            steps.append(KeyStep(key=action.key))
            steps += [expect(seen) for seen in rows_expected(draft.project, screen, {}, number)]
        name = translate("trial", "Key {key}: the next language, round to the first")
        draft.add(name.format(key=action.key), steps)


def _pressed(draft: TrialDraft, action: Action, screen: str) -> Iterator[TrialStep]:
    """What is done and expected for one action of a key, on its screen; nothing if that is not known."""
    key, name = str(action.key), action.signal
    if action.do == "begin-entry":
        yield KeyStep(key=key)
        abandon = draft.project.panel.entry.abandon
        if abandon in draft.project.panel.keys:
            yield KeyStep(key=abandon, times=2)
        yield screen_is(screen)
    elif name is None or not draft.is_there(name):
        return
    elif action.do == "toggle":
        start = draft.machine.start_values.get(name)
        if isinstance(start, Fraction):
            on = Fraction(int(bool(start)))
            if draft.machine.settable(name):  # at a machine nobody knows what it is
                yield draft.machine.order(name, on)
                yield until(name, on)
            for value in (1 - on, on):
                yield KeyStep(key=key)
                yield signal_is(name, decimal(value))
    elif action.do == "momentary":
        yield from _held_down(draft, key, name)
    else:
        yield from _writing(draft, action, screen, name)


def _held_down(draft: TrialDraft, key: str, name: str) -> Iterator[TrialStep]:
    """A key that is held long enough for the device to be read meanwhile, and let go."""
    signal = draft.project.signal_named[name]
    base = signal if isinstance(signal, HeldSignal) else bindings(draft.project)[name].base
    every_s = Decimal(base.every_ms) / 1000 if isinstance(base, RegisterSignal) else Decimal(0)
    yield KeyStep(key=key, hold_s=_HELD_S + 2 * every_s)
    event = "rise" if isinstance(signal, BitSignal) else "written"
    if isinstance(signal, RegisterSignal) and signal.table == "coil":
        event = "changed"
    yield expect(Expectation(event=event, about=name))
    yield signal_is(name, Decimal(0))


def _writing(draft: TrialDraft, action: Action, screen: str, name: str) -> Iterator[TrialStep]:
    """A key that writes one value, pressed while the signal has another."""
    written = written_by(draft, action)
    if written is None or refusal(draft.project, name, written) is not None:
        return
    if draft.machine.start_values.get(name) == written:
        other = other_value(draft, name, written)
        if other is None:
            if isinstance(draft.project.signal_named[name], HeldSignal):
                return
        else:
            yield draft.machine.order(name, other)
            yield until(name, other)
    for _ in range(1 if action.do == "write" else 2):  # a second press must not undo it
        yield KeyStep(key=str(action.key))
        yield signal_is(name, decimal(written))
    if isinstance(action.value, HeldValue):
        yield from _from_held(draft, action, screen, written)


def _from_held(draft: TrialDraft, action: Action, screen: str, written: Fraction) -> Iterator[TrialStep]:
    """The held value entered anew: the key writes what is held now, not what was."""
    assert isinstance(action.value, HeldValue)
    held = draft.project.signal_named.get(action.value.from_)
    if not isinstance(held, HeldSignal) or held.limits is None or action.signal is None:
        return
    at = next((one.name for one in draft.screens if any(f.entry and f.signal == held.name for f in one.fields)), None)
    there = None if at is None else draft.routes.steps(screen, at)
    back = None if at is None else draft.routes.steps(at, screen)
    value = next((Fraction(limit) for limit in held.limits if limit != written), None)
    if there is None or back is None or value is None or refusal(draft.project, action.signal, value) is not None:
        return
    yield from there
    yield EnterStep(enter=held.name, value=decimal(value))
    yield from back
    yield KeyStep(key=str(action.key))
    yield signal_is(action.signal, decimal(draft.machine.nearest(action.signal, value)))


def written_by(draft: TrialDraft, action: Action) -> Fraction | None:
    """What an action writes, as its signal reads afterwards; None if that depends on what it is before."""
    if action.do == "set":
        return Fraction(1)
    if action.do in ("clear", "momentary"):
        return Fraction(0)
    if action.do != "write" or action.value is None or not draft.is_there(action.signal):
        return None
    assert action.signal is not None
    value = action.value
    if isinstance(value, HeldValue):
        held = draft.project.signal_named.get(value.from_)
        if not isinstance(held, HeldSignal):
            return None
        value = held.held
    on_line = not isinstance(draft.project.signal_named[action.signal], HeldSignal)
    return draft.machine.nearest(action.signal, Fraction(value)) if on_line else Fraction(value)


def other_value(draft: TrialDraft, name: str, written: Fraction) -> Fraction | None:
    """Another value of a signal: what other actions write, else a limit, else what lies beside it."""
    signal = draft.project.signal_named[name]
    others = (written_by(draft, action) for action in draft.project.actions if action.signal == name)
    found = [value for value in others if value is not None]
    if isinstance(signal, BitSignal) or (isinstance(signal, RegisterSignal) and signal.table in ("coil", "discrete")):
        found = [1 - written]
    if signal.limits is not None:
        found += [Fraction(limit) for limit in signal.limits]
    found += [written + 1, written - 1]
    for value in found:
        if value == written or not draft.machine.settable(name):
            continue
        if draft.machine.takes(name, value) and draft.raises_nothing(name, value):
            return value
    return None


def until(name: str, value: Fraction) -> TrialStep:
    """Wait until a signal reads a value."""
    return WaitStep(wait=Expectation(signal=name, value=decimal(value)))


def _deed(action: Action) -> str:
    if action.do == "write":
        value = action.value
        if isinstance(value, HeldValue):
            return translate("trial", "write '{held}' to '{signal}'").format(held=value.from_, signal=action.signal)
        return translate("trial", "write {value} to '{signal}'").format(value=value, signal=action.signal)
    words_for = {
        "set": translate("trial", "set '{signal}'"),
        "clear": translate("trial", "clear '{signal}'"),
        "toggle": translate("trial", "toggle '{signal}'"),
        "momentary": translate("trial", "'{signal}' while it is held"),
        "begin-entry": translate("trial", "begin the entry of '{signal}'"),
        "next-language": translate("trial", "next language"),
    }
    return words_for[action.do].format(signal=action.signal or "-")
