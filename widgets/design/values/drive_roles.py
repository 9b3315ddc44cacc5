"""What a signal can be to the simulated drive behind it, for choices and cells."""

from __future__ import annotations

from typing import Any

from app.language import translate as said
from app.project.binding import bindings
from app.project.drive_roles import DRIVE_BITS, DRIVE_VALUES
from app.project.model import BitSignal, Project, RegisterSignal
from app.project.value_texts import choice_of
from app.signals.encoding import is_text


def drive_values(part: Any) -> dict[str, str]:
    """What the signal may be, stored word -> what a person reads: single bits only what is on or off."""
    bits = isinstance(part, BitSignal) or part.table in ("coil", "discrete")
    return {value: said("project", words) for value, words in DRIVE_VALUES.items() if not bits or value in DRIVE_BITS}


def can_have_role(project: Project, part: Any) -> bool:
    """Whether a drive can stand behind the signal: its follower is simulated as one, or it says already what it is."""
    if not isinstance(part, RegisterSignal | BitSignal):
        return False
    if part.drive_role is not None:
        return True
    binding = bindings(project).get(part.name)
    if binding is None or (is_text(binding.base.encoding) and not binding.single):
        return False
    return binding.follower.played.model == "drive"


def role_text(part: Any) -> str:
    """What a person reads of what the signal is; empty if it is nothing of a drive."""
    return "" if part.drive_role is None else said("project", DRIVE_VALUES[part.drive_role])


def read_role(part: Any, text: str) -> str | None:
    """What the signal is, from a text such as "output frequency". Raises ValueError in words, with the choices."""
    return choice_of(text, drive_values(part)) if text.strip() else None
