"""How a line has done so far: requests, good answers, faults by kind, and how long followers take to answer."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from app.bus.faults import FaultKind


@dataclass(slots=True)
class LineStatistics:
    """Counts of one line since the engine started. Belongs to the engine's thread; `faults_now` gives a copy."""

    requests: int = 0
    good: int = 0
    faults: Counter[FaultKind] = field(default_factory=Counter)

    def fault(self, kind: FaultKind) -> None:
        """Count one trouble."""
        self.faults[kind] += 1

    def faults_now(self) -> Mapping[FaultKind, int]:
        """The faults so far, as a value."""
        return MappingProxyType(dict(self.faults))
