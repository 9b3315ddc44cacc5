"""How long a unit that misses its time-out is listened for before anything else is asked.

Most devices do one thing after the other. One that is slower than the time-out, and is asked again at every time-out,
gets requests faster than it answers them: they pile up in it, each answer comes later than the one before, and what is
said about the time-out is wrong. So no request leaves while such a device owes an answer, and how late it is is counted
from when it could begin: from the request, or from its answer before, if that came later.

Whether a silent unit is slow or dead nobody can know at once. So at first it is listened for LINGERING time-outs
longer, and then asked again: until its first late answer comes a slow device may owe answers while requests go out.
From then on it is known to be slow, for KNOWN_S: a request is listened for PATIENCE times the longest time that the
unit has taken, counted from when it could begin, and at most MOST time-outs in all. After that it counts as lost, and
what may still come of it is told apart as settling does. After SILENT such waits in a row that brought nothing the unit
is no longer held for slow, but for dead, which costs others on the line less.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Final

LINGERING: Final = 0.6
"""How long, in time-outs, an answer is listened for after the time-out: so short that the line is back soon."""
PATIENCE: Final = 2.0
"""A slow unit is given so many times the longest time that it has taken."""
MOST: Final = 10.0
"""No request is listened for longer than so many time-outs."""
KNOWN_S: Final = 60.0
"""A unit is held for slow so many seconds after its last late answer."""
SILENT: Final = 2


@dataclass(slots=True)
class _Slow:
    longest_s: float
    until: float
    silent: int = 0


@dataclass(slots=True)
class Lateness:
    """What is known of the slow units of one line. All times in seconds; those at which something was are monotonic."""

    timeout_s: float
    _slow: dict[int, _Slow] = field(default_factory=dict)
    _last: dict[int, float] = field(default_factory=dict)

    def note_answer(self, unit: int, at: float) -> None:
        """An answer of `unit` came, whichever."""
        self._last[unit] = at
        slow = self._slow.get(unit)
        if slow is not None:
            slow.silent = 0

    def late(self, unit: int, sent: float, at: float) -> float:
        """The answer to a request that was `sent` came `at`, too late. Gives by how much the unit is too slow."""
        took = at - max(sent, self._last.get(unit, 0.0))
        slow = self._slow.get(unit)
        longest = took if slow is None or at > slow.until else max(took, slow.longest_s)
        self._slow[unit] = _Slow(longest, at + KNOWN_S)
        self._last[unit] = at
        return max(0.0, took - self.timeout_s)

    def slow(self, unit: int, now: float) -> bool:
        """Whether `unit` is known to be slow."""
        slow = self._slow.get(unit)
        return slow is not None and now < slow.until

    def until(self, unit: int, sent: float, now: float) -> float:
        """Until when an answer to a request that was `sent` is listened for beyond its time-out."""
        least = sent + (1 + LINGERING) * self.timeout_s
        if not self.slow(unit, now):
            return least
        begun = max(sent, self._last.get(unit, 0.0))
        return max(least, min(begun + PATIENCE * self._slow[unit].longest_s, sent + MOST * self.timeout_s))

    def gave_up(self, unit: int) -> None:
        """It was listened for so long, and nothing came."""
        slow = self._slow.get(unit)
        if slow is not None:
            slow.silent += 1
            if slow.silent >= SILENT:
                del self._slow[unit]
