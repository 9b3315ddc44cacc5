"""When a recording goes on in another file."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Limits:
    """Bytes and seconds of one file, and how many files are kept.

    0 means no limit. With `files` the oldest of this recording is deleted once there are more.
    """

    size: int = 0
    seconds: float = 0.0
    files: int = 0

    def due(self, size: int, seconds: float) -> bool:
        """Whether a file of this size and length is full."""
        return bool((self.size and size >= self.size) or (self.seconds and seconds >= self.seconds))
