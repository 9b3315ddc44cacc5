"""What `--keys` asks for: keys of the panel, waits, and orders to simulated followers."""

from __future__ import annotations

import argparse
import re
import shlex
from typing import TYPE_CHECKING, TypeGuard

from app.cli.options import seconds
from app.cli.outcome import CouldNotRun
from app.project.model import Project

if TYPE_CHECKING:
    from app.follower.simulation import Simulation


Press = str | float
"""The name of a key or an order, NAME.WHAT=VALUE; or a wait, in seconds."""


def presses(project: Project, keys: str) -> list[Press]:
    """What `keys` says, word by word. Raises CouldNotRun."""
    found: list[Press] = []
    try:
        words = shlex.split(keys)  # so that a follower's name may have blanks
    except ValueError as why:
        raise CouldNotRun(f"cannot read the keys: {why}") from None
    for word in words:
        if is_order(word) or word in project.panel.keys:
            found.append(word)
        elif re.fullmatch(r"\d+(\.\d+)?s", word):
            try:
                found.append(seconds(word[:-1]))
            except argparse.ArgumentTypeError as why:
                raise CouldNotRun(f"wait between keys: {why}") from None
        else:
            keys_there = ", ".join(project.panel.keys)
            raise CouldNotRun(
                f"there is no key '{word}' on the panel; its keys are: {keys_there}{_blanks(project, word)}"
            )
    return found


def _blanks(project: Project, word: str) -> str:
    """How to give an order to a follower of which `word` is the first in its name; empty if it is of none."""
    for follower in project.followers:
        if follower.name.startswith(f"{word} "):
            return f"; put a name with spaces in quotes, such as \"'{follower.name}'.jammed=on\""
    return ""


def is_order(press: Press) -> TypeGuard[str]:
    """Whether it operates a simulated follower rather than a key."""
    return isinstance(press, str) and "=" in press


def give_order(simulation: Simulation | None, order: str) -> None:
    """Operate a simulated follower. Raises FanlightError, also if there is no simulation."""
    from app.follower.operate import operate

    operate({} if simulation is None else simulation.models, order)
