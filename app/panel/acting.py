"""What actions do to signals: set, toggle, press and release them, choose the next language."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from types import MappingProxyType

from app.language import translate
from app.panel.events import Write
from app.panel.messages import Saying, of_refusal
from app.panel.work import StepInProgress
from app.project.capability import cannot_write
from app.project.model import Action, HeldSignal, HeldValue
from app.project.purpose import Purpose, purpose_of


def do(work: StepInProgress, action: Action, key: str) -> None:
    """Do one action, unless it begins an entry. `key` is the one that a momentary action lasts as long as."""
    signal = action.signal or ""
    if action.do == "next-language":
        _next_language(work)
    elif signal not in work.project.signal_named:
        words = translate("panel", "there is no signal '{signal}'").format(signal=signal)
        work.refuse(signal, words, Saying("not_possible"))
    elif action.do == "momentary":
        _press(work, key, signal)
    elif action.do == "toggle":
        _toggle(work, action, signal)
    elif action.do == "set":
        _write(work, signal, Fraction(1), purpose_of(action, Fraction(1)))
    elif action.do == "clear":
        _write(work, signal, Fraction(0), purpose_of(action, Fraction(0)))
    elif isinstance(action.value, HeldValue):
        held = work.state.held.get(action.value.from_)
        if held is None:
            words = translate("panel", "there is no held value '{name}'").format(name=action.value.from_)
            work.refuse(signal, words, Saying("not_possible"))
        else:
            _write(work, signal, held)
    elif action.value is not None:
        _write(work, signal, Fraction(action.value), purpose_of(action, Fraction(action.value)))


def _next_language(work: StepInProgress) -> None:
    panel = work.project.panel
    if len(panel.languages) < 2:
        work.refuse("", translate("panel", "the panel has only one language"), Saying("not_possible"))
        return
    if panel.language is None:
        work.change(language=(work.state.language + 1) % len(panel.languages))
        return
    # As with toggle, what is on its way counts.
    now = work.state.sent.get(panel.language, Fraction(work.state.language))
    _write(work, panel.language, (now + 1) % len(panel.languages))


def _toggle(work: StepInProgress, action: Action, signal: str) -> None:
    # What is on its way counts: a second press means the way back, though the line still reads the former value.
    value = work.state.sent.get(signal)
    if value is None:
        reading = work.view[signal]
        # One lost answer must not keep a key from stopping: what was on when it was last read is switched off.
        ends = bool(reading.value) and purpose_of(action, Fraction(0)) is Purpose.STOP
        if not (reading.good or ends) or not isinstance(reading.value, Fraction):
            why = reading.why or translate("panel", "not a number")
            work.refuse(signal, translate("panel", "cannot toggle: {why}").format(why=why), Saying("no_value"))
            return
        value = reading.value
    other = Fraction(0 if value else 1)
    _write(work, signal, other, purpose_of(action, other))


def _press(work: StepInProgress, key: str, signal: str) -> None:
    # What cannot be released again is not pressed.
    for value in (Fraction(1), Fraction(0)):
        reason = cannot_write(work.project, signal, value)
        if reason is not None:
            work.refuse(signal, reason, of_refusal(work.project, signal, value))
            return
    already = any(pressed == signal for _, pressed in work.state.pressing)
    work.change(pressing=(*work.state.pressing, (key, signal)))
    if not already:
        put(work, signal, Fraction(1))


def let_go(work: StepInProgress, pairs: Iterable[tuple[str, str]]) -> None:
    """End momentary actions. A signal that two keys press is released with the last of them."""
    ending = set(pairs)
    if not ending:
        return
    before = work.state.pressing
    left = tuple(pair for pair in before if pair not in ending)
    work.change(pressing=left)
    still = {signal for _, signal in left}
    for signal in dict.fromkeys(signal for key, signal in before if (key, signal) in ending):
        if signal not in still:
            release(work, signal)


def release(work: StepInProgress, signal: str) -> None:
    """Write the 0 that ends a momentary action."""
    purposes = {
        purpose_of(action, Fraction(0))
        for action in work.project.actions
        if action.do == "momentary" and action.signal == signal
    }
    put(work, signal, Fraction(0), Purpose.VALUE if purposes == {Purpose.VALUE} else Purpose.RELEASE)


def _write(work: StepInProgress, signal: str, value: Fraction, purpose: Purpose = Purpose.VALUE) -> None:
    reason = cannot_write(work.project, signal, value)
    if reason is not None:
        work.refuse(signal, reason, of_refusal(work.project, signal, value))
    else:
        put(work, signal, value, purpose)


def put(work: StepInProgress, signal: str, value: Fraction, purpose: Purpose = Purpose.VALUE) -> None:
    """Bring an allowed value to where the signal lives: the panel or the line."""
    known = work.project.signal_named.get(signal)
    if isinstance(known, HeldSignal):
        work.hold(signal, value)
    elif known is not None:
        work.change(sent=MappingProxyType({**work.state.sent, signal: value}))
        work.effects.append(Write(signal, value, purpose))
