"""Cases about keys that stop something: on every screen, in an entry, under an override."""

from __future__ import annotations

from fractions import Fraction

from app.language import translate
from app.project.model import Action
from app.proposing.deeds import other_value, until, written_by
from app.proposing.draft import TrialDraft, screen_is, signal_is
from app.proposing.machine import decimal
from app.trial.script import KeyStep, TrialStep


def stop_cases(draft: TrialDraft) -> None:
    """Every key that stops something, on every screen and in an entry."""
    for action in draft.stop_actions:
        signal, written = action.signal, written_by(draft, action)
        assert signal is not None
        if written is None:
            continue
        on = other_value(draft, signal, written)
        covered = [one.to for one in draft.behaviour.overrides]
        orders = [] if on is None else [draft.machine.order(signal, on), until(signal, on)]
        starts = _starting_key(draft, action, written) or orders
        stop = [KeyStep(key=str(action.key)), signal_is(signal, decimal(written))]
        steps: list[TrialStep] = []
        at = draft.routes.start
        for screen in draft.screens:
            if action.from_ not in (None, screen.name):
                continue
            there = draft.routes.steps(at, screen.name)
            if there is not None:
                steps += [*there, *starts, *stop, *_in_an_entry(draft, screen.name, starts, stop)]
                at = screen.name
            elif screen.name in covered:
                _stop_under(draft, action, screen.name, orders, stop)
        if steps:
            words = translate("trial", "Key {key} stops '{signal}' on every screen")
            count = sum(step == stop[0] for step in steps)
            notes = translate("trial", "It starts and stops {count} times, one right after the other.")
            draft.add(words.format(key=action.key, signal=signal), steps, notes=notes.format(count=count))


def _stop_under(draft: TrialDraft, action: Action, screen: str, orders: list[TrialStep], stop: list[TrialStep]) -> None:
    """The same on the screen of an override."""
    reached = draft.go(screen)
    if reached is None:
        return
    words = translate("trial", "Key {key} stops '{signal}' on '{screen}'")
    steps = [*reached.steps, *orders, screen_is(screen), *stop]
    draft.add(words.format(key=action.key, signal=action.signal, screen=screen), steps)


def _in_an_entry(draft: TrialDraft, screen: str, starts: list[TrialStep], stop: list[TrialStep]) -> list[TrialStep]:
    """The same while the operator changes a value: the key must stop all the same."""
    roles = draft.project.panel.entry
    fields = [field for field in draft.project.screen_named[screen].fields if field.entry]
    press = next(step for step in stop if isinstance(step, KeyStep))
    begins = not draft.behaviour.key_actions(screen, roles.begin) and not draft.behaviour.key_screen_change(
        screen, roles.begin
    )
    own = {roles.begin, roles.confirm, roles.up, roles.down, roles.left, roles.right, roles.abandon}
    if not fields or not begins or roles.begin not in draft.project.panel.keys or press.key in own:
        return []
    if roles.abandon not in draft.project.panel.keys:
        return []
    return [*starts, KeyStep(key=roles.begin), *stop, KeyStep(key=roles.abandon)]


def _starting_key(draft: TrialDraft, action: Action, written: Fraction) -> list[TrialStep]:
    """The press of a key that brings the signal of a stop to another value on every screen, and that it is there."""
    for other in draft.project.actions:
        if other.key is None or other.signal != action.signal or other.from_ is not None:
            continue
        value = written_by(draft, other)
        alone = len([one for one in draft.project.actions if one.key == other.key]) == 1
        turning = any(change.key == other.key for change in draft.project.screen_changes)
        if alone and not turning and other.do in ("set", "write") and value is not None and value != written:
            return [KeyStep(key=other.key), until(str(other.signal), value)]
    return []
