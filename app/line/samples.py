"""Every reading as it arrives, for those who keep them all: recorders and trends."""

from __future__ import annotations

import threading
from collections import deque
from collections.abc import Iterable
from typing import Final, NamedTuple

from app.signals.reading import Reading

KEPT_SAMPLES: Final = 2_000_000
"""How many wait at most for somebody who does not fetch them: more than a minute on the busiest line."""


class Sample(NamedTuple):
    """One reading of one register signal.

    `at` is `time.monotonic()` in seconds: when the answer arrived, or when it was known that none would come. `words`
    are the registers as they were read (of a coil or a discrete input 0 or 1), none if nothing was read.
    """

    signal: str
    at: float
    words: tuple[int, ...]
    reading: Reading


class Subscription:
    """The samples that came since they were last fetched. May be used from any one thread."""

    def __init__(self, bus: SampleBus, keep: int) -> None:
        self._bus = bus
        self._waiting: deque[Sample] = deque(maxlen=keep)
        self.lost = 0
        """Samples that nobody fetched in time, and that are gone."""

    def take(self) -> list[Sample]:
        """All that waits, oldest first."""
        waiting = self._waiting
        return [waiting.popleft() for _ in range(len(waiting))]

    def close(self) -> None:
        """Want no more samples. May be called twice."""
        self._bus.drop(self)

    def put(self, sample: Sample) -> None:
        """Keep a sample until it is fetched; the oldest one goes when there is no room."""
        if len(self._waiting) == self._waiting.maxlen:
            self.lost += 1
        self._waiting.append(sample)


class SampleBus:
    """Hands each sample to all who subscribed. `put` belongs to the engine's thread, the rest to any thread."""

    def __init__(self) -> None:
        self._subscribed: tuple[Subscription, ...] = ()
        self._lock = threading.Lock()

    def subscribe(self, keep: int = KEPT_SAMPLES) -> Subscription:
        """Want all samples from now on."""
        subscription = Subscription(self, keep)
        with self._lock:
            self._subscribed = (*self._subscribed, subscription)
        return subscription

    def drop(self, subscription: Subscription) -> None:
        """Hand nothing to this one any more."""
        with self._lock:
            self._subscribed = tuple(one for one in self._subscribed if one is not subscription)

    @property
    def wanted(self) -> bool:
        """Whether anybody wants samples: making them costs something."""
        return bool(self._subscribed)

    def put(self, signal: str, at: float, words: Iterable[int], reading: Reading) -> None:
        """A reading arrived."""
        sample = Sample(signal, at, tuple(int(word) for word in words), reading)
        for subscription in self._subscribed:
            subscription.put(sample)
