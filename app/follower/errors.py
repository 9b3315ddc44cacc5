"""What can keep a simulated follower from being simulated."""

from __future__ import annotations

from app.errors import FanlightError


class FollowerError(FanlightError):
    """A simulated follower cannot be simulated. The message is one sentence: what, where, what to do."""
