"""Samples of one signal as they come, in the bytes that they take and no more; numpy looks at them when it is wanted.

No numpy here: samples are gathered from the first one on, and it would be a tenth of a second before the first value
of a window.
"""

from __future__ import annotations

from array import array
from collections.abc import Iterable
from typing import Final

OVERHEAD: Final = 500
"""Bytes about that an empty one takes, of this and of its three arrays."""


class Gathering:
    """Times in whole microseconds, qualities by number (see QUALITIES), and `width` registers of each sample."""

    __slots__ = ("_blank", "qualities", "times", "width", "words")

    def __init__(self, width: int) -> None:
        self.width = width
        self._blank = (0,) * width
        self.empty()

    def __len__(self) -> int:
        return len(self.times)

    def add(self, time: int, quality: int, words: Iterable[int]) -> None:
        """One more sample: its registers as they were read, none if nothing was."""
        self.times.append(time)
        self.qualities.append(quality)
        before = len(self.words)
        self.words.extend(words)
        if len(self.words) - before != self.width:
            del self.words[before:]
            self.words.extend(self._blank)

    def empty(self) -> None:
        """Begin anew; arrays that somebody took are left to them."""
        self.times, self.qualities, self.words = array("q"), array("B"), array("H")

    def copy(self) -> Gathering:
        """The same samples, which no more come to."""
        made = Gathering(self.width)
        made.times, made.qualities, made.words = self.times[:], self.qualities[:], self.words[:]
        return made

    @property
    def sample_size(self) -> int:
        """Bytes of one sample."""
        return 9 + 2 * self.width
