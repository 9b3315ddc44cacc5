"""Whether cells that blink do so on this computer. Who cannot bear it can turn it off: they stay lit then."""

from __future__ import annotations

from typing import Final

BLINK_MS: Final = 500
"""From lit to dark, and from dark to lit: once a second.

Between 0.8 and 5 Hz, as signal lights do (common practice, no source). WCAG 2.2, success criterion 2.3.1, forbids more
than three flashes in a second.
"""

_allowed = True


def blinks() -> bool:
    """Whether they do."""
    return _allowed


def let_blink(allowed: bool) -> None:
    """Let them, or do not, from their next turn on."""
    global _allowed
    _allowed = allowed
