"""What a design check finds: the rule, its severity, the place, what is wrong there and how to put it right."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final, Literal

from app.project.model import Project
from app.project.problems import Place

Severity = Literal["error", "warning", "note"]
"""`error`: the panel cannot work as designed. `warning`: it works, but somebody will be misled, stuck or surprised.
`note`: worth knowing, and may well be meant so."""

SEVERITY_ORDER: Final[dict[Severity, int]] = {"error": 0, "warning": 1, "note": 2}
"""The most severe first, for sorting."""


@dataclass(frozen=True, slots=True)
class Fix:
    """An edit that takes a finding away, as a value: what it does in words, and a function from `app.checks.fixes`.

    The function is called with the project, the place of the finding and the arguments. It raises EditRefused where
    the fix is not possible or would make something worse.
    """

    words: str
    deed: Callable[..., Project]
    arguments: tuple[object, ...] = ()
    last_resort: bool = False
    """It takes away what may only wait to be used: offered in the list, but not as the one button of the finding."""


@dataclass(frozen=True, slots=True)
class Violation:
    """What a rule yields; a `Finding` adds the name of the rule and the words of the place.

    A rule about parts one by one gives the place within its part.
    """

    severity: Severity
    place: Place
    message: str
    hint: str
    fix: Fix | None = None


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that a rule found.

    `where` names the place in words, `message` says what is wrong there, `hint` its remedy. `place` leads an editor
    to the spot: keys of the file and indices from 0, such as `("screen", 3, "field", 1)`; empty for the whole project.
    """

    rule: str
    severity: Severity
    where: str
    message: str
    hint: str
    place: Place = ()
    fix: Fix | None = None
    """Left out where only a person can know what is meant."""
    accepted: str = ""
    """Why it is meant so, where somebody accepted it."""

    def __str__(self) -> str:
        return f"{self.severity}: {self.where}: {self.message}; {self.hint} [{self.rule}]"

    def apply_fix(self, project: Project) -> Project:
        """`project`, in which this was found, with the fix made; itself if there is none.

        Raises EditRefused, in words, where the fix is not possible.
        """
        return project if self.fix is None else self.fix.deed(project, self.place, *self.fix.arguments)
