"""What a design check finds: the rule, how grave it is, the place, what is wrong there and how to mend it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from app.project.problems import Place

Severity = Literal["error", "warning", "note"]
"""`error`: the panel cannot work as designed. `warning`: it works, but somebody will be misled, stuck or surprised.
`note`: worth knowing, and may well be meant so."""

GRAVITY: Final[dict[Severity, int]] = {"error": 0, "warning": 1, "note": 2}
"""The gravest first, for sorting."""


@dataclass(frozen=True, slots=True)
class Fault:
    """What a rule yields; a `Finding` adds the name of the rule and the words of the place."""

    severity: Severity
    place: Place
    message: str
    hint: str


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that a rule found.

    `where` names the place in words, `message` says what is wrong there, `hint` how to mend it. `place` leads an editor
    to the spot: keys of the file and indices from 0, such as `("screen", 3, "field", 1)`; empty for the whole project.
    """

    rule: str
    severity: Severity
    where: str
    message: str
    hint: str
    place: Place = ()

    def __str__(self) -> str:
        return f"{self.severity}: {self.where}: {self.message}; {self.hint} [{self.rule}]"
