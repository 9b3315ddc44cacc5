"""What can keep a simulated follower from being played."""

from __future__ import annotations

from app.errors import FanlightError


class FollowerError(FanlightError):
    """A simulated follower cannot be played. The message is one sentence: what, where, what to do."""
