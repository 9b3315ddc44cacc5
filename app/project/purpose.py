"""What a write is for: most bring a value, some stop something, and those must not be lost."""

from __future__ import annotations

import enum
from fractions import Fraction

from app.project.model import Action

CLEARING = ("clear", "toggle", "momentary")
"""Deeds whose 0 stops something, unless the action says `stops = false`."""


class Purpose(enum.StrEnum):
    """What a write is for."""

    VALUE = "value"
    """It may start or raise something: it is sent once, and only while the line is sure."""
    STOP = "stop"
    """It is owed: sent ahead of everything else, and again until it is proved."""
    RELEASE = "release"
    """The end of a momentary action: owed as a stop is, but never ahead of its own press."""


def purpose_of(action: Action, value: Fraction) -> Purpose:
    """What it is for that `action` writes `value`."""
    by_itself = action.do in CLEARING
    if (by_itself and (value or action.stops is False)) or (not by_itself and not action.stops):
        return Purpose.VALUE
    return Purpose.RELEASE if action.do == "momentary" else Purpose.STOP
