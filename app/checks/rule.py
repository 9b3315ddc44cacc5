"""How a rule is written: a function from a survey of the project to faults, entered in the list by `@rule`."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Final

from app.checks.finding import Fault
from app.checks.survey import Survey

Rule = Callable[[Survey], Iterator[Fault]]

RULES: Final[dict[str, Rule]] = {}
"""Every rule by its name, in the order in which they run. Filled as the modules of rules are imported."""


def rule(name: str) -> Callable[[Rule], Rule]:
    """Enter the decorated function as the rule `name`; its docstring says what it looks for and why it matters.

    Raises ValueError if there is such a rule already.
    """

    def enter(function: Rule) -> Rule:
        if name in RULES:
            raise ValueError(f"there is a rule '{name}' already")
        RULES[name] = function
        return function

    return enter
