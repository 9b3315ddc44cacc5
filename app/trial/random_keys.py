"""Keys drawn at random, within limits: which keys, on which screens, how many; and a sequence made shorter.

Nothing is drawn that may start something unless that is said: see `starting_keys`.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from random import Random
from typing import Final

from app.panel.layout import PanelLayout
from app.panel.state import Mode, State
from app.project.model import HeldSignal, Project
from app.project.purpose import stops
from app.trial.stand import TICK_S, RehearsedStand

MOST_PRESSES: Final = 10_000
HOLD_S: Final = 0.1
"""How long each key is held, in seconds."""
BETWEEN_S: Final = 1.0
"""How much time passes between two presses while keys are drawn and a sequence is made shorter."""


@dataclass(frozen=True, slots=True)
class KeyLimits:
    """What may be pressed: these keys, on these screens (empty: on all), at most so many; at the end the stop key."""

    keys: tuple[str, ...]
    screens: tuple[str, ...] = ()
    presses: int = 100
    stop: str | None = None


def starting_keys(project: Project) -> frozenset[str]:
    """The keys that write to a device what may start or raise something: all that have an action but one that stops."""
    return frozenset(
        action.key
        for action in project.actions
        if action.key is not None
        and action.do in ("set", "toggle", "write", "momentary")
        and not (action.do in ("set", "write") and stops(action))
        and not isinstance(project.signal_named.get(action.signal or ""), HeldSignal)
    )


def stop_key(project: Project) -> str | None:
    """The key that stops on every screen, the first of several; None if there is none."""
    return next(
        (
            action.key
            for action in project.actions
            if action.key is not None
            and action.from_ is None
            and action.do in ("clear", "set", "write")
            and stops(action)
        ),
        None,
    )


def draw(stand: RehearsedStand, limits: KeyLimits, seed: int) -> tuple[str, ...]:
    """Keys drawn while they are pressed on the simulation, which has begun; fewer where none may be pressed any more.

    The same seed gives the same keys on the same beginning.
    """
    chance, drawn = Random(seed), list[str]()
    while len(drawn) < limits.presses:
        allowed = _allowed(stand.project, stand.panel.state, limits)
        if not allowed:
            break
        drawn.append(chance.choice(allowed))
        press(stand, drawn[-1])
    return tuple(drawn)


def press(stand: RehearsedStand, key: str) -> None:
    """Press a key on the simulation, and let time pass until the next."""
    stand.key_down(key)
    for _ in range(round(HOLD_S / TICK_S)):
        stand.tick()
    stand.key_up(key)
    for _ in range(round(BETWEEN_S / TICK_S)):
        stand.tick()


def shortened(keys: Sequence[str], shows: Callable[[Sequence[str]], bool], tries: int) -> tuple[str, ...]:
    """The keys without those that `shows` does not need: pieces are left out, ever smaller ones, in so many tries.

    The last key stays: what it did is what is to be shown.
    """
    found, size = tuple(keys), max(1, len(keys) // 2)
    while size:
        at = 0
        while at < len(found) - 1 and tries:
            left = found[:at] + found[min(at + size, len(found) - 1) :]
            tries -= 1
            if shows(left):
                found = left
            else:
                at += size
        size = min(size // 2, len(found) // 2) if size > 1 else 0
    return found


def _allowed(project: Project, state: State, limits: KeyLimits) -> list[str]:
    """The keys that may be pressed now: none that leads to another screen than those allowed."""
    behaviour = PanelLayout.of(project).behaviour
    roles = project.panel.entry
    entering = (roles.up, roles.down, roles.left, roles.right, roles.confirm, roles.abandon)
    found = []
    for key in limits.keys:
        change = behaviour.key_screen_change(state.shown, key)
        leads_to = state.shown if change is None or (state.mode is not Mode.WATCH and key in entering) else change[2]
        if not limits.screens or leads_to in limits.screens:
            found.append(key)
    return found
