"""Requests on Modbus TCP that were given up: their answers may still come, and tell how long a gateway takes.

A gateway has a line behind it that carries one request at a time, so what it is asked while it waits for a unit that is
silent stands in its queue. Each answer names its request, so none that comes late is lost; and when one has come, the
gateway's own time is known, and from then on no more is asked than it can keep up with.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import takewhile
from math import inf
from typing import Final

from app.probing.probe import NO_ANSWER, NO_PATH, Probe

MARGIN: Final = 1.25
"""How many times its own time a gateway is waited for."""
MOST_PATIENCE_S: Final = 5.0
"""What takes longer is not waited for, but still known when it comes."""
MOST_OPEN: Final = 300
"""More than a whole search of unit addresses leaves unanswered."""


@dataclass(slots=True)
class GivenUp:
    """Times are seconds on one clock that only goes forward; `label` is the transaction identifier as it is sent."""

    own_s: float = 0.0
    """How long the gateway was seen to take for one request; 0 as long as nothing came late or from it."""
    _asked: dict[bytes, tuple[Probe, float]] = field(default_factory=dict)
    _queue: dict[bytes, float] = field(default_factory=dict)
    """Of those the ones that may still stand before others, and since when."""
    _spoke: float = -inf
    _free: float = -inf

    @property
    def patience_s(self) -> float:
        """How long the answer to one request may take; 0: not known."""
        return MARGIN * self.own_s

    @property
    def free(self) -> float:
        """When all that was asked has been seen to; -inf as long as nothing is known."""
        return self._free

    def __bool__(self) -> bool:
        return bool(self._asked)

    def forget(self) -> None:
        """The connection is another one: nothing comes any more of what was asked on the former."""
        self._asked.clear()
        self._queue.clear()
        self._free = self._spoke = -inf

    def sent(self, label: bytes, probe: Probe, now: float) -> None:
        """It is asked now."""
        if now >= self._free > -inf:
            self._queue.clear()
        self._asked[label] = probe, now
        self._queue[label] = now
        for book in (self._asked, self._queue):
            if len(book) > MOST_OPEN:
                del book[next(iter(book))]
        if self.own_s:
            self._free = max(self._free, now) + self.patience_s

    def asked_as(self, label: bytes) -> Probe | None:
        """What an answer with that label would be the answer to."""
        return self._asked[label][0] if label in self._asked else None

    def answered(self, label: bytes, code: int, late: bool, now: float) -> float:
        """The answer came; `late`: after it was given up. `code` is its exception code, 0 of none. Gives back how long
        it took, with all that it had to wait for."""
        _, sent = self._asked.pop(label)
        spent = took = now - sent
        if label in self._queue:
            # Those that were asked before and got no answer took the time, if there are any.
            before = list(takewhile(lambda one: one != label, self._queue))
            begun = max(self._queue[before[0] if before else label], self._spoke)
            spent = (now - begun) / max(1, len(before))
            for one in (*before, label):
                del self._queue[one]
        if late or code in (NO_PATH, NO_ANSWER):
            self.own_s = min(max(self.own_s, spent), MOST_PATIENCE_S)
        self._spoke = now
        if self.own_s:
            self._free = now + len(self._queue) * self.patience_s
        return took
