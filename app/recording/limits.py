"""When a recording goes on in another file."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

LEAST_SIZE: Final = 1_000_000
"""Bytes of one file that make sense at least: a large project alone, which every file holds, takes nearly as many."""
MOST_SIZE: Final = 10**12
LEAST_S: Final = 1.0
"""Seconds of one file that make sense at least: what came is written twice a second."""
MOST_S: Final = 10_000 * 3600.0
MOST_FILES: Final = 100_000


@dataclass(frozen=True, slots=True)
class Limits:
    """Bytes and seconds of one file, and how many files are kept.

    0 means no limit. With `files` the oldest of this recording is deleted once there are more.
    """

    size: int = 0
    seconds: float = 0.0
    files: int = 0

    @property
    def parted(self) -> bool:
        """Whether a recording can go on in another file at all."""
        return bool(self.size or self.seconds)

    def due(self, size: int, seconds: float) -> bool:
        """Whether a file of this size and length is full."""
        return bool((self.size and size >= self.size) or (self.seconds and seconds >= self.seconds))
