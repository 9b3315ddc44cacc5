"""Rules about the project as a whole: what is still missing, and what nobody uses."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from typing import Protocol

from app.checks import fixes
from app.checks.context import CheckContext
from app.checks.finding import Fix, Violation
from app.checks.rule import whole
from app.language import translate
from app.project.model import RegisterSignal


@whole("signals", "screen_names", "shown", name="nothing-yet")
def nothing_yet(context: CheckContext) -> Iterator[Violation]:
    """A project that has no screen, no signal, or no screen that shows one: it is still to be made."""
    project = context.project
    if not project.screens:
        yield Violation(
            "note",
            ("screen",),
            translate("checks", "it has no screen yet"),
            translate("checks", "add a screen"),
            Fix(translate("checks", "Add a screen"), fixes.add_screen),
        )
    if not project.signals:
        yield Violation(
            "note",
            ("signal",),
            translate("checks", "it has no signal yet"),
            translate("checks", "add a line, a device and its signals"),
        )
    elif project.screens and not context.shown:
        yield Violation(
            "note",
            ("screen",),
            translate("checks", "no screen shows a signal yet"),
            translate("checks", "place a field on a screen"),
        )


@whole("lines", "followers", "signals", "used", name="unused")
def unused(context: CheckContext) -> Iterator[Violation]:
    """A signal that is nowhere used, a follower without signals, a line without followers.

    An unused signal is read from the line all the same.
    """
    project = context.project
    message = translate("checks", "it is not used")
    message_if_read = translate("checks", "it is read from the line, but not used")
    hint = translate("checks", "show it on a screen, or remove it")
    fix = Fix(translate("checks", "Delete this signal"), fixes.remove, last_resort=True)
    twice = _names_given_twice(project.signals)
    for index, signal in enumerate(project.signals):
        if signal.name not in context.used:
            said = message_if_read if isinstance(signal, RegisterSignal) else message
            yield Violation("note", ("signal", index), said, hint, None if signal.name in twice else fix)
    with_signals = {signal.follower for signal in project.signals if isinstance(signal, RegisterSignal)}
    twice = _names_given_twice(project.followers)
    for index, follower in enumerate(project.followers):
        if follower.name not in with_signals:
            fix = Fix(translate("checks", "Delete this device"), fixes.remove, last_resort=True)
            yield Violation(
                "note",
                ("follower", index),
                translate("checks", "it has no signals"),
                translate("checks", "add its signals, or remove it"),
                None if follower.name in twice else fix,
            )
    with_followers = {follower.line for follower in project.followers}
    twice = _names_given_twice(project.lines)
    for index, line in enumerate(project.lines):
        if line.name not in with_followers:
            fix = Fix(translate("checks", "Delete this line"), fixes.remove, last_resort=True)
            yield Violation(
                "note",
                ("line", index),
                translate("checks", "it has no devices"),
                translate("checks", "add its devices, or remove it"),
                None if line.name in twice else fix,
            )


def _names_given_twice(parts: Iterable[_Named]) -> set[str]:
    """Without one of two parts of a name, the name would mean the other: that is another edit."""
    return {name for name, count in Counter(part.name for part in parts).items() if count > 1}


class _Named(Protocol):
    @property
    def name(self) -> str: ...
