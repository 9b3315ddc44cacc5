"""How a rule is written: a function to faults, entered in the list with what it looks at.

A rule says what it looks at, so that a project that changed in one place is not looked at all over again:

- `@each("signal", name=...)` is for rules about parts of one kind, one by one. The function gets the context and one
  part, and yields faults whose places are relative to that part. It may look at the part, at the panel, and at the
  signals that the part names with all that these stand on (see `CheckContext.dependencies`); at more only if it is
  named in `depends_on`.
- `@whole(depends_on, name=...)` is for rules about how parts go together. The function gets the context only, and may
  look at what `depends_on` names.

`tests/app/checks/test_incremental.py` hides from every rule what it has not named.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Final, Literal, TypeVar

from app.checks.finding import Violation

PartKind = Literal["line", "follower", "signal", "screen", "screen_change", "action"]
"""The kinds of parts that a project has many of, as the file calls them."""

Fact = Literal[
    "panel",
    "lines",
    "followers",
    "signals",
    "screen_changes",
    "actions",
    "screen_names",
    "entered",
    "entered_names",
    "chosen",
    "shown",
    "used",
    "known_names",
]
"""What a rule may look at besides one part: an attribute of the project, or one of the context that sums up others."""

Function = TypeVar("Function", bound=Callable[..., Iterator[Violation]])


@dataclass(frozen=True, slots=True)
class Rule:
    """A rule, or a share of one: `kind` is None for a rule about the whole."""

    name: str
    kind: PartKind | None
    depends_on: tuple[Fact, ...]
    function: Callable[..., Iterator[Violation]]


RULES: Final[list[Rule]] = []
"""Every rule in the order in which findings are told. Filled as the modules of rules are imported."""


def whole(*depends_on: Fact, name: str) -> Callable[[Function], Function]:
    """Enter the decorated function as the rule `name`; its docstring says what it looks for and why it matters."""

    def enter(function: Function) -> Function:
        _enter(Rule(name, None, depends_on, function))
        return function

    return enter


def each(*kinds: PartKind, name: str, depends_on: tuple[Fact, ...] = ()) -> Callable[[Function], Function]:
    """Enter the decorated function as the rule `name` about every part of these kinds."""

    def enter(function: Function) -> Function:
        for kind in kinds:
            _enter(Rule(name, kind, depends_on, function))
        return function

    return enter


def _enter(new: Rule) -> None:
    """Raises ValueError if another function has the name for the same kind of parts."""
    if any((old.name, old.kind) == (new.name, new.kind) for old in RULES):
        raise ValueError(f"there is a rule '{new.name}' already")
    RULES.append(new)
