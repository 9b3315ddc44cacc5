"""Rules about names: those that point to nothing, and those given twice."""

from __future__ import annotations

from collections.abc import Iterator

from app.checks.finding import Fault
from app.checks.rule import rule
from app.checks.survey import Survey
from app.project.references import dangling, name_clashes


@rule("dangling-name")
def dangling_name(survey: Survey) -> Iterator[Fault]:
    """A name that points to nothing, or to what cannot serve there: whatever hangs on it does not work."""
    for problem in dangling(survey.project):
        yield Fault("error", problem.place, problem.message, problem.hint or "add it, or name one that exists")


@rule("name-clash")
def name_clash(survey: Survey) -> Iterator[Fault]:
    """A name that two parts of a kind have, or that has a meaning of its own: only one of them can be meant."""
    for problem in name_clashes(survey.project):
        yield Fault("error", problem.place, problem.message, problem.hint)
