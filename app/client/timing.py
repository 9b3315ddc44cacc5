"""How long things take on a line: characters, silent intervals, and the predicted time of one transaction.

Serial times follow MODBUS over Serial Line V1.02 (from memory): frames are kept apart by 3.5 character times; above
19 200 Bd the intervals are fixed at 0.750 ms (t1.5) and 1.750 ms (t3.5).
"""

from __future__ import annotations

import asyncio
import select
import selectors
import time
from bisect import bisect_left, insort
from collections import deque
from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil
from typing import Any, Final

from app.client.endpoint import Endpoint
from app.modbus.requests import data_bytes
from app.signals.numbering import Table

FASTEST_WITH_SCALED_SILENCE: Final = 19_200
"""Baud rate above which the silent intervals no longer shrink with the character time."""
BROADCAST_TURNAROUND_S: Final = 0.1
"""After a broadcast, which nobody answers, the followers get so long to do it (V1.02: usually 100 to 200 ms)."""
RESPONSE_TIMES_KEPT: Final = 64
"""Of the latest answers of a unit, for the median and the other quantiles."""

_RTU_REQUEST: Final = 8
"""Characters of a read request: unit, function, address (2), count (2), CRC (2)."""
_RTU_ANSWER: Final = 5
"""Characters of a read answer beside its data: unit, function, byte count, CRC (2)."""
_NETWORK_MS: Final = 1.0
"""Assumed round trip of one transaction over a local network with a follower that is not busy."""
_NETWORK_BYTE_MS: Final = 0.001
"""Assumed cost of one more byte in an answer over a network."""
_COARSE_S: Final = 0.05
"""Waits that are longer need not be exact to less than a millisecond."""
MOST_AWAKE_S: Final = 0.000_4
"""The longest that a wait is spent awake at its end, so that it is punctual."""
_LEARNING: Final = 0.1
"""Weight of the newest wake-up among all before it."""
_MARGIN: Final = 1.3
"""A sleeper is woken so many times earlier than it is late on average, as not every wake-up is alike."""


@dataclass(frozen=True, slots=True)
class Pace:
    """What a line charges.

    `fixed_ms` is spent on every read whatever it brings, `byte_ms` on every byte of data in the answer, `silence_ms`
    (t3.5) is kept before a request, `character_ms` is the time of one character (0 where the line hides it).
    """

    fixed_ms: float
    byte_ms: float
    silence_ms: float
    character_ms: float

    def read_ms(self, table: Table, count: int, response_time_ms: float = 0.0) -> float:
        """Predicted time of one read of `count` registers or bits, in milliseconds.

        `response_time_ms` is the follower's own time between the end of the request and the start of its answer, beyond
        the silent interval that it has to keep.
        """
        return self.fixed_ms + self.byte_ms * data_bytes(table, count) + response_time_ms

    def exchange_ms(self, sent: int, received: int, response_time_ms: float | None = None) -> float:
        """Predicted time from the first character of a request to the last one of its answer, in milliseconds.

        `sent` and `received` are characters, or bytes on a network. `response_time_ms` is the time between the two
        frames as `ResponseTimes` measures it; None for a follower that has not answered yet: then t3.5, or the assumed
        round trip of a network.
        """
        if response_time_ms is None:
            response_time_ms = self.silence_ms if self.character_ms else _NETWORK_MS + received * _NETWORK_BYTE_MS
        return (sent + received) * self.character_ms + response_time_ms


class ResponseTimes:
    """How long one unit takes between the end of a request and the start of its answer: the latest answers.

    Where the characters take no known time (on a network), it is the whole time from request to answer. All times in
    milliseconds.
    """

    def __init__(self, keep: int = RESPONSE_TIMES_KEPT) -> None:
        self._latest: deque[float] = deque(maxlen=keep)
        self._sorted: list[float] = []
        self.count = 0
        """All that there ever were."""

    def add(self, ms: float) -> None:
        """One more answer. What a coarse clock shows as less than nothing counts as nothing."""
        ms = max(0.0, ms)
        if len(self._latest) == self._latest.maxlen:
            del self._sorted[bisect_left(self._sorted, self._latest[0])]
        self._latest.append(ms)
        insort(self._sorted, ms)
        self.count += 1

    def quantile(self, share: float) -> float | None:
        """The time that `share` (0..1) of the latest answers did not exceed; None before the first one."""
        return quantile(self._sorted, share) if self._sorted else None

    @property
    def median_ms(self) -> float | None:
        """Half of the latest answers took no longer; None before the first one."""
        return self.quantile(0.5)


def quantile(ordered: Sequence[float], share: float) -> float:
    """The least of some times in order that `share` (0..1) of them do not exceed: nearest rank, nothing in between."""
    return ordered[max(0, ceil(share * len(ordered)) - 1)]


def character_bits(parity: str, stop_bits: int) -> int:
    """Bits of one character on the wire: a start bit, eight data bits, parity if any, stop bits."""
    return 1 + 8 + (parity != "none") + stop_bits


def silent_intervals_ms(baud: int, bits: int = 11) -> tuple[float, float]:
    """t1.5 and t3.5 in milliseconds at `baud` bits a second with `bits` bits a character."""
    if baud > FASTEST_WITH_SCALED_SILENCE:
        return 0.750, 1.750
    character = 1000 * bits / baud
    return 1.5 * character, 3.5 * character


def pace_of(endpoint: Endpoint) -> Pace:
    """What the line at `endpoint` charges.

    A serial line: 8 characters out, 5 and the data back, two silent intervals. For RTU frames in a TCP stream the
    speed behind the converter is not known; the usual 19 200 Bd are assumed, with the network's round trip on top.
    """
    if endpoint.kind == "tcp":
        return Pace(_NETWORK_MS, _NETWORK_BYTE_MS, 0.0, 0.0)
    bits = character_bits(endpoint.parity, endpoint.stop_bits)
    character = 1000 * bits / endpoint.baud
    silence = silent_intervals_ms(endpoint.baud, bits)[1]
    fixed = (_RTU_REQUEST + _RTU_ANSWER) * character + 2 * silence
    if endpoint.kind == "serial-over-tcp":
        # The converter keeps the bus's silence itself; ours only keeps the frames apart in the stream.
        return Pace(fixed + _NETWORK_MS, character, 1.750, 0.0)
    return Pace(fixed, character, silence, character)


class PunctualSleep:
    """Sleeps until a moment to some hundredths of a millisecond, on a loop of `exact_loop`.

    It learns by how much this system wakes a sleeper too late, sleeps that much less, and waits out the rest awake: as
    a rule a twentieth of a millisecond, never more than MOST_AWAKE_S. Up to there other work goes on and the processor
    rests.
    """

    def __init__(self) -> None:
        self._early_s = MOST_AWAKE_S / 2

    async def until(self, due: float) -> None:
        """Return when `time.perf_counter()` is `due`, or at once if that is past."""
        wake = due - self._early_s
        wait = wake - time.perf_counter()
        if wait > 0:
            await asyncio.sleep(wait)
            late = time.perf_counter() - wake
            self._early_s = min(MOST_AWAKE_S, self._early_s + _LEARNING * (_MARGIN * late - self._early_s))
        while 0 < due - time.perf_counter() <= MOST_AWAKE_S:
            pass


def exact_loop() -> asyncio.AbstractEventLoop:
    """An event loop whose short waits are exact to some hundredths of a millisecond, where the system offers that.

    Linux's epoll, as Python uses it, counts in whole milliseconds and rounds up: more than half of a silent interval
    at 115 200 Bd. macOS (kqueue) counts in nanoseconds by itself, Windows in steps of its own.
    """
    if _ExactSelector is None:
        return asyncio.new_event_loop()
    return asyncio.SelectorEventLoop(_ExactSelector())


_ExactSelector: type[selectors.BaseSelector] | None = None

if hasattr(selectors, "EpollSelector"):

    class _ExactEpollSelector(selectors.EpollSelector):
        """epoll, waited for by select: that counts in microseconds."""

        def select(self, timeout: float | None = None) -> list[tuple[selectors.SelectorKey, Any]]:
            # With a descriptor that is too high for select it is as exact as epoll is.
            if timeout is not None and 0 < timeout < _COARSE_S and self.fileno() < _HIGHEST_FOR_SELECT:
                select.select((self.fileno(),), (), (), timeout)
                timeout = 0
            return super().select(timeout)

    _HIGHEST_FOR_SELECT: Final = 1024
    _ExactSelector = _ExactEpollSelector
