"""What a line, or a follower on it, has done so far: requests, good answers, faults by kind."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from app.bus.faults import FaultKind
from app.bus.transactions import Transaction


@dataclass(slots=True)
class Counts:
    """Counts since the engine started. Belongs to the engine's thread; `faults_now` gives a value."""

    requests: int = 0
    good: int = 0
    faults: Counter[FaultKind] = field(default_factory=Counter)

    def fault(self, kind: FaultKind) -> None:
        """Count one trouble."""
        self.faults[kind] += 1

    def count(self, transaction: Transaction) -> None:
        """Count one request and what came of it."""
        self.requests += 1
        fault = transaction.fault
        if fault is None:
            self.good += 1
        elif not fault.of_connection:
            self.fault(fault.kind)

    def faults_now(self) -> Mapping[FaultKind, int]:
        """The faults so far, as a value."""
        return MappingProxyType(dict(self.faults))
