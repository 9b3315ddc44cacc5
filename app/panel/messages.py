"""What the panel says on its glass: which message, in the words of the project, with its value put in."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from itertools import chain

from app.project.binding import plain_text, unwritable, value_span
from app.project.messages import Known, chosen_form, fill_in, ready_words
from app.project.model import AnySignal, HeldSignal, PanelMessage, Project, by_number
from app.signals.reading import Value
from app.signals.scaling import round_half_away
from app.signals.text import number_digits, number_text, number_width

Bounds = tuple[Fraction, Fraction]


@dataclass(frozen=True, slots=True)
class Saying:
    """A message of the panel, and what stands in its words for a limit, a value or a screen."""

    message: PanelMessage
    value: str = ""


def message_text(project: Project, saying: Saying) -> str:
    """The text of a message; `project` is in the language of the panel.

    What the project does not say itself is said in English, in the longest words that the panel has room for.
    """
    own = project.panel.messages.get(saying.message)
    words = chosen_form(project.panel, "en", saying.message, saying.value) if own is None else own
    return fill_in(saying.message, words, saying.value)


def bounds(project: Project, name: str) -> Bounds | None:
    """What may be entered for a signal: within its limits and what its registers can hold. None: anything.

    The lower one is above the upper one if nothing is allowed by both.
    """
    signal = project.signal_named[name]
    pairs = [] if signal.limits is None else [(Fraction(signal.limits[0]), Fraction(signal.limits[1]))]
    span = value_span(project, name)
    if span is not None:
        pairs.append(span)
    return (max(low for low, _ in pairs), min(high for _, high in pairs)) if pairs else None


def with_unit(signal: AnySignal, value: Fraction) -> str:
    """A limit with its unit, in as many decimals as it needs: rounded, it would name a value that is not allowed."""
    decimals = next(
        (n for n in range(signal.decimals, 10) if round_half_away(value, n) == value),
        signal.decimals,
    )
    return f"{number_text(value, number_width(value, decimals), decimals)} {signal.unit}".rstrip()


def above(signal: AnySignal, limit: Fraction) -> Saying:
    """The value may be `limit` at most."""
    return Saying("at_most", with_unit(signal, limit))


def below(signal: AnySignal, limit: Fraction) -> Saying:
    """The value may be `limit` at least."""
    return Saying("at_least", with_unit(signal, limit))


def of_refusal(project: Project, name: str, value: Fraction | None = None) -> Saying:
    """What the panel says where the signal, or this value of it, may not be written."""
    signal = project.signal_named.get(name)
    if signal is None:
        return Saying("not_possible")
    if unwritable(project, name) is not None:
        return Saying("read_only")
    if value is not None and signal.limits is not None:
        low, high = (Fraction(limit) for limit in signal.limits)
        if value > high:
            return above(signal, high)
        if value < low:
            return below(signal, low)
    return Saying("not_possible")


def of_kept(project: Project, name: str, value: Value) -> Saying:
    """The device holds another value than was written."""
    signal = project.signal_named.get(name)
    unit = "" if signal is None or _has_text(signal, value) else signal.unit
    return Saying("kept", f"{plain_text(project, name, value, number_digits)} {unit}".rstrip())


def _has_text(signal: AnySignal, value: Value) -> bool:
    return not isinstance(value, str) and value in by_number(signal.texts)


def widest(project: Project, entered: Iterable[str]) -> dict[PanelMessage, str]:
    """The longest of the values that can stand in each message that has a place for one.

    `entered` names the signals that fields with entry show; what keys write comes to them.
    """
    found: dict[PanelMessage, str] = {"at_most": "", "at_least": "", "kept": ""}

    def note(message: PanelMessage, value: str) -> None:
        found[message] = max(found[message], value, key=len)

    written = {*entered, *(action.signal for action in project.actions)}
    for name, signal in project.signal_named.items():
        if name not in written:
            continue
        allowed = bounds(project, name)
        if allowed is not None:
            note("at_least", with_unit(signal, allowed[0]))
            note("at_most", with_unit(signal, allowed[1]))
        if isinstance(signal, HeldSignal):
            continue
        for value in value_span(project, name) or ():
            note("kept", of_kept(project, name, value).value)
        for text in chain(signal.texts.values(), *(texts.values() for texts in signal.texts_in.values())):
            note("kept", text)
    found["still_on"] = max(
        (screen_change.to for screen_change in project.screen_changes if screen_change.when is not None),
        key=len,
        default="",
    )
    return found


def entered_in(project: Project) -> frozenset[str]:
    """The names of the signals that fields with entry show."""
    return frozenset([field.signal for screen in project.screens for field in screen.fields if field.entry])


def ready_for(project: Project, known: Known) -> dict[PanelMessage, str]:
    """Words ready in a language, as long as this panel has room for with every value that can stand in them."""
    return ready_words(project.panel, known, widest(project, entered_in(project)))
