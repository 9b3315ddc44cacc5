"""What a write is for: most bring a value, some stop something, and those must not be lost."""

from __future__ import annotations

import enum
from fractions import Fraction
from typing import Final

from app.project.model import Action

CLEARING: Final = ("clear", "toggle", "momentary")
"""Deeds whose 0 stops something, unless the action says `stops = false`."""


class Purpose(enum.StrEnum):
    """What a write is for."""

    VALUE = "value"
    """It may start or raise something: it is sent once, and only while the line is sure."""
    STOP = "stop"
    """It is owed: sent ahead of everything else, and again until it is proved."""
    RELEASE = "release"
    """The end of a momentary action: owed as a stop is, but never ahead of its own press."""


def stops(action: Action) -> bool:
    """Whether the action stops something: the 0 that it writes, if its deed is a clearing one, else its value."""
    return action.stops is not False if action.do in CLEARING else action.stops is True


def purpose_of(action: Action, value: Fraction) -> Purpose:
    """What it is for that `action` writes `value`."""
    if not stops(action) or (value and action.do in CLEARING):
        return Purpose.VALUE
    return Purpose.RELEASE if action.do == "momentary" else Purpose.STOP
