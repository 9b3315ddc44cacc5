"""What went over a line, request by request: a bounded log that any thread may read."""

from __future__ import annotations

import threading
from collections import deque
from itertools import islice
from typing import Final, NamedTuple

from app.client.faults import Fault
from app.modbus.requests import Request

KEPT_TRANSACTIONS: Final = 2000


class Transaction(NamedTuple):
    """One request and what came of it.

    `at` is `time.monotonic()` when the request was sent; `sent` and `received` are the bytes on the wire, whole frames
    and noise included; `ms` is the time until the answer was complete, or until it was given up; `fault` is None if a
    verified answer came. `predicted_ms` is the time that a good answer was predicted to take, from the line's speed,
    the sizes of both frames and what the follower's response time has been so far; 0 if nothing was predicted.
    """

    at: float
    line: str
    follower: str
    request: Request
    sent: bytes
    received: bytes
    ms: float
    fault: Fault | None = None
    predicted_ms: float = 0.0

    @property
    def kind(self) -> str:
        """What was done, in a few words: 'read holding 300..311'."""
        return self.request.deed


class TransactionLog:
    """The newest transactions of all lines, oldest first. Every method may be called from any thread."""

    def __init__(self, keep: int = KEPT_TRANSACTIONS) -> None:
        self._kept: deque[Transaction] = deque(maxlen=keep)
        self._count = 0
        self._lock = threading.Lock()

    def append(self, transaction: Transaction) -> None:
        """Add the newest one; the oldest one goes when the log is full."""
        with self._lock:
            self._kept.append(transaction)
            self._count += 1

    @property
    def count(self) -> int:
        """How many there ever were. Only grows."""
        return self._count

    def since(self, count: int) -> tuple[int, tuple[Transaction, ...]]:
        """The present count, and what came after it was `count`, as far as it is still kept, oldest first."""
        with self._lock:
            new = min(max(0, self._count - count), len(self._kept))
            return self._count, tuple(islice(self._kept, len(self._kept) - new, None))
