"""Rules about the project as a whole: what is still missing, and what nobody uses."""

from __future__ import annotations

from collections.abc import Iterator

from app.checks.finding import Fault
from app.checks.rule import rule
from app.checks.survey import Survey
from app.project.model import RegisterSignal
from app.project.problems import Place


@rule("nothing-yet")
def nothing_yet(survey: Survey) -> Iterator[Fault]:
    """A project that has no screen, no signal, or no screen that shows one: it is still to be made."""
    project = survey.project
    if not project.screens:
        yield Fault("note", (), "it has no screen yet", "add a screen")
    if not project.signals:
        yield Fault("note", (), "it has no signal yet", "add a line, a follower and its signals")
    elif project.screens and not any(screen.fields for screen in project.screens):
        yield Fault("note", (), "no screen shows a signal yet", "place a field on a screen")


@rule("unused")
def unused(survey: Survey) -> Iterator[Fault]:
    """A signal that is nowhere used, a follower without signals, a line without followers.

    An unused signal is read from the line all the same.
    """
    project = survey.project
    for index, signal in enumerate(project.signals):
        if signal.name not in survey.used:
            read = ", but read from the line" if isinstance(signal, RegisterSignal) else ""
            place: Place = ("signal", index)
            yield Fault("note", place, f"it is used nowhere{read}", "show it on a screen, or remove it")
    with_signals = {signal.follower for signal in project.signals if isinstance(signal, RegisterSignal)}
    for index, follower in enumerate(project.followers):
        if follower.name not in with_signals:
            yield Fault("note", ("follower", index), "it has no signals", "add its signals, or remove it")
    with_followers = {follower.line for follower in project.followers}
    for index, line in enumerate(project.lines):
        if line.name not in with_followers:
            yield Fault("note", ("line", index), "it has no followers", "add its followers, or remove it")
