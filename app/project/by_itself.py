"""What a project writes without a key, once its line is armed, in words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from app.language import translate
from app.project.model import Action, Condition, HeldSignal, HeldValue, Project, RegisterSignal
from app.project.purpose import stops
from app.signals.text import spoken_digits


@dataclass(frozen=True, slots=True)
class ByItself:
    """One thing that is written without a key: a sentence, and whether it may start or raise something."""

    words: str
    starts: bool


def written_by_itself(project: Project) -> tuple[ByItself, ...]:
    """What conditions write, and what is written again and again; what may start something comes first."""
    return tuple(sorted(_search(project), key=lambda each: not each.starts))


def starts_by_itself(project: Project, action: Action) -> bool:
    """Whether a condition, and no key, lets this action write what may start or raise something."""
    return _written_to_a_device(project, action) and not (action.stops or (action.do == "clear" and stops(action)))


def condition_in_words(condition: Condition) -> str:
    """Such as "'fault' is set", "'pressure' is above 4.5"."""
    words = {
        "set": translate("project", "'{signal}' is set"),
        "clear": translate("project", "'{signal}' is clear"),
        "above": translate("project", "'{signal}' is above {value}"),
        "below": translate("project", "'{signal}' is below {value}"),
        "equal": translate("project", "'{signal}' is {value}"),
    }
    return words[condition.is_].format(signal=condition.signal, value=condition.value)


def deed_in_words(project: Project, action: Action) -> str:
    """What an action that writes does, such as "'run' is set"."""
    if isinstance(action.value, HeldValue):
        words = translate("project", "the value of '{held}' is written to '{signal}'")
        return words.format(held=action.value.from_, signal=action.signal)
    if isinstance(action.value, Decimal):
        signal = project.signal_named.get(action.signal or "")
        value = spoken_digits(Fraction(action.value), signal.decimals) if signal is not None else str(action.value)
        unit = signal.unit if signal is not None else ""
        words = translate("project", "{value} is written to '{signal}'")
        return words.format(value=f"{value} {unit}".rstrip(), signal=action.signal)
    words = {
        "set": translate("project", "'{signal}' is set to 1"),
        "clear": translate("project", "'{signal}' is set to 0"),
        "toggle": translate("project", "'{signal}' is toggled between 0 and 1"),
    }.get(action.do, "")
    return words.format(signal=action.signal)


def _search(project: Project) -> Iterator[ByItself]:
    for action in project.actions:
        if action.when is not None and _written_to_a_device(project, action):
            words = translate("project", "when {condition}: {deed}").format(
                condition=condition_in_words(action.when), deed=deed_in_words(project, action)
            )
            yield ByItself(words, starts_by_itself(project, action))
    for signal in project.signals:
        if isinstance(signal, RegisterSignal) and signal.refresh_ms and signal.write:
            words = translate("project", "'{signal}', once written, is rewritten every {every} ms")
            yield ByItself(words.format(signal=signal.name, every=signal.refresh_ms), starts=False)


def _written_to_a_device(project: Project, action: Action) -> bool:
    signal = project.signal_named.get(action.signal or "")
    return action.when is not None and signal is not None and not isinstance(signal, HeldSignal)
