"""What a search found out, as a value: it is shown while it grows, kept to be resumed, and printed as JSON."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass, field
from typing import Any, Final, Literal, get_args

from app.probing.probe import PROBE_TIMEOUT_S, LineSettings
from app.signals.numbering import Table

StoppedBy = Literal["done", "budget", "person", "somebody else", "port gone"]

PATIENCE: Final = 3.0
"""How many times its usual response time a device is waited for."""
MOST_TIMEOUT_S: Final = 2.0


@dataclass(frozen=True, slots=True)
class FoundRange:
    """Registers that can be read, from the wire address `first` to `last`, both included."""

    table: Table
    first: int
    last: int

    @classmethod
    def from_json(cls, data: dict[str, Any]) -> FoundRange:
        """Raises KeyError, TypeError or ValueError."""
        table: Table = data["table"]
        if table not in get_args(Table):
            raise ValueError(table)
        return cls(table, int(data["first"]), int(data["last"]))


@dataclass(frozen=True, slots=True)
class FoundFollower:
    """One device that answered."""

    unit: int
    response_ms: float | None = None
    """Median, in milliseconds: from the end of a request to the first byte of its answer."""
    slow_response_ms: float | None = None
    """99 of 100 answers took no longer."""
    functions: tuple[int, ...] = ()
    """Of 1, 2, 3, 4, 8, 17 and 43 those that it has."""
    identification: Mapping[str, str] = field(default_factory=dict)
    """By the standard's own object names (VendorName, ProductCode, MajorMinorRevision ...) and 'ServerId'."""
    longest_read: int | None = None
    """Most registers that it returns in one read, 1 to 125."""
    in_flight: int | None = None
    """Requests that it takes at the same time, as far as tried; None: not tried."""
    gateway: Literal["", "no path", "no answer"] = ""
    """It is no device, but a gateway's word (exceptions 0A, 0B) for a unit behind it."""
    ranges: tuple[FoundRange, ...] = ()
    notes: tuple[str, ...] = ()
    """In words: 'answers to every address', 'refuses odd addresses' ..."""

    @property
    def patience_s(self) -> float:
        """How long its answers are waited for, in seconds."""
        return min(MOST_TIMEOUT_S, max(PROBE_TIMEOUT_S, PATIENCE * (self.response_ms or 0.0) / 1000))

    def as_json(self) -> dict[str, object]:
        """For scripts: the keys that they rely on."""
        return {
            "unit": self.unit,
            "response_ms": self.response_ms,
            "functions": list(self.functions),
            "identification": dict(self.identification),
            "longest_read": self.longest_read,
            "in_flight": self.in_flight,
            "ranges": [asdict(part) for part in self.ranges],
        }

    @classmethod
    def from_json(cls, data: dict[str, Any]) -> FoundFollower:
        """From what `dataclasses.asdict` gave a file. Raises KeyError, TypeError or ValueError."""
        parts = {
            "functions": tuple(map(int, data["functions"])),
            "identification": {str(name): str(text) for name, text in data["identification"].items()},
            "ranges": tuple(map(FoundRange.from_json, data["ranges"])),
            "notes": tuple(map(str, data["notes"])),
        }
        return cls(**{**data, **parts})


@dataclass(frozen=True, slots=True)
class Found:
    """All that is known of a line. `heard` is of `app.listening`, as JSON would have it; None if nobody spoke."""

    settings: LineSettings | None = None
    heard: Mapping[str, object] | None = None
    followers: tuple[FoundFollower, ...] = ()
    probes: int = 0
    seconds: float = 0.0
    stopped_by: StoppedBy = "done"

    def as_json(self) -> dict[str, object]:
        """For scripts. A gateway that answers for nobody is no device, and not among them."""
        settings = self.settings
        return {
            "settings": None
            if settings is None
            else {"baud": settings.baud, "parity": settings.parity, "stop_bits": settings.stop_bits},
            "heard": None if self.heard is None else dict(self.heard),
            "followers": [follower.as_json() for follower in self.followers if not follower.gateway],
            "probes": self.probes,
            "seconds": round(self.seconds, 3),
            "stopped_by": self.stopped_by,
        }
