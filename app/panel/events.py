"""What happens to a panel, and what the panel wants done: events in, effects out."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from app.project.model import PanelMessage
from app.project.purpose import Purpose
from app.signals.reading import Value


@dataclass(frozen=True, slots=True)
class KeyDown:
    """The operator presses a key. `at` is `time.monotonic()` in seconds, here and in every event."""

    key: str
    at: float


@dataclass(frozen=True, slots=True)
class KeyUp:
    """The operator lets a key go."""

    key: str
    at: float


@dataclass(frozen=True, slots=True)
class Tick:
    """Time passes. Wanted some ten to fifty times a second."""

    at: float


@dataclass(frozen=True, slots=True)
class WriteDone:
    """The line has written a signal. `value` is what it wrote, or None for whatever was sent last."""

    signal: str
    at: float
    value: Fraction | None = None


@dataclass(frozen=True, slots=True)
class WriteFailed:
    """The line could not write a signal; `reason` says why, in words. `value` as in `WriteDone`.

    The operator is shown `message`; or, where `kept` is known, that the follower holds this value instead.
    """

    signal: str
    reason: str
    at: float
    value: Fraction | None = None
    message: PanelMessage = "not_written"
    kept: Value | None = None


@dataclass(frozen=True, slots=True)
class ReleaseAll:
    """No key can be held any longer: the window lost the focus, or the panel stops."""

    at: float


PanelEvent = KeyDown | KeyUp | Tick | WriteDone | WriteFailed | ReleaseAll


@dataclass(frozen=True, slots=True)
class Write:
    """Write this engineering value to this signal of a follower. A bit: 0 or 1; the line merges it into its word."""

    signal: str
    value: Fraction
    purpose: Purpose = Purpose.VALUE


@dataclass(frozen=True, slots=True)
class ScreenChanged:
    """Another screen is shown now. For event logs; `cause` says in words why."""

    screen: str
    cause: str


@dataclass(frozen=True, slots=True)
class Entered:
    """The operator confirmed a value. For event logs; a `Write` follows unless the signal is a held value."""

    signal: str
    old: Fraction
    new: Fraction


@dataclass(frozen=True, slots=True)
class Refused:
    """A key or a condition asked for something that may not be done; nothing was written."""

    signal: str
    reason: str


Effect = Write | ScreenChanged | Entered | Refused
