"""Cases about devices that do not answer: the panel says so, and shows live values when they are back."""

from __future__ import annotations

from decimal import Decimal
from typing import Final

from app.language import translate
from app.project.binding import bindings_of
from app.project.model import RegisterSignal
from app.proposing.deeds import other_value, until, written_by
from app.proposing.draft import TrialDraft
from app.proposing.machine import decimal, order
from app.trial.script import Expectation, ExpectStep, KeyStep, TrialStep, WaitStep

_PATIENCE_S: Final = Decimal(20)
"""How long a lost device may take to be noticed, and to be asked again once it is back."""


def outage_cases(draft: TrialDraft) -> None:
    """Every device that answers is lost and comes back."""
    for follower in draft.project.followers:
        names = [
            name
            for name, binding in bindings_of(draft.project, follower.name).items()
            if isinstance(binding.signal, RegisterSignal) and name in draft.machine.start_values
        ]
        if not names:
            continue
        shown = {field.signal for screen in draft.screens for field in screen.fields}
        name = next((one for one in names if one in shown), names[0])
        good = ExpectStep(expect=Expectation(signal=name, quality="good"))
        steps: list[TrialStep] = [
            good,
            order(follower.name, "silent", "on"),
            ExpectStep(expect=Expectation(signal=name, quality=("stale", "none")), within_s=_PATIENCE_S),
            order(follower.name, "silent", "off"),
            ExpectStep(expect=Expectation(signal=name, quality="good"), within_s=_PATIENCE_S),
        ]
        words = translate("trial", "Device '{device}' is lost and comes back")
        draft.add(words.format(device=follower.name), steps)
        for action in draft.stop_actions:
            written = written_by(draft, action)
            if (
                action.signal is None
                or action.signal not in bindings_of(draft.project, follower.name)
                or written is None
                or action.from_
            ):
                continue
            on = other_value(draft, action.signal, written)
            if on is None:
                continue
            steps = [
                draft.machine.order(action.signal, on),
                until(action.signal, on),
                order(follower.name, "silent", "on"),
                WaitStep(wait=Expectation(signal=action.signal, quality=("stale", "none")), within_s=_PATIENCE_S),
                KeyStep(key=str(action.key)),
                order(follower.name, "silent", "off"),
                ExpectStep(expect=Expectation(signal=action.signal, value=decimal(written)), within_s=_PATIENCE_S),
            ]
            words = translate("trial", "Key {key} while '{device}' is lost: it is stopped as soon as it is back")
            draft.add(words.format(key=action.key, device=follower.name), steps)
