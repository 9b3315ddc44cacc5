"""How followers and lines are doing, as values that any thread may keep."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import NamedTuple

from app.client.faults import FaultKind
from app.client.statistics import Outages
from app.signals.reading import Reading, Value


class FollowerState(NamedTuple):
    """One follower.

    `answering` is None until it was first asked; `since` is `time.monotonic()` from when on it is as it is. `reason`
    says in words why it does not answer; `short` says it in 20 characters; both are empty while all is well.
    `last_answer` is `time.monotonic()` of the newest answer, or None; `answer_ms` the smoothed time from request to
    complete answer, in milliseconds, or None. `requests`, `good` and `faults` count since the engine started.
    """

    name: str
    line: str
    unit: int
    answering: bool | None = None
    reason: str = ""
    short: str = ""
    fault: FaultKind | None = None
    last_answer: float | None = None
    answer_ms: float | None = None
    requests: int = 0
    good: int = 0
    faults: Mapping[FaultKind, int] = MappingProxyType({})
    since: float = 0.0

    @property
    def two_devices(self) -> bool:
        """Whether two devices answer in its name, so that neither is believed."""
        return self.answering is False and self.fault is FaultKind.UNASKED


@dataclass(frozen=True, slots=True)
class Owed:
    """A stop that is not proved yet: it is sent again until it is, or until the time `until`.

    `value` is what `signal` is to become; `since` says when it was asked for. Both times are `time.monotonic()`.
    `tries` counts how often it was sent, `reason` says in words why it is not proved; empty while the first try is
    under way or could not be made.
    """

    signal: str
    value: Value
    since: float
    until: float
    tries: int = 0
    reason: str = ""


@dataclass(frozen=True, slots=True)
class LineState:
    """One line.

    `since` is `time.monotonic()` from when on it is connected or not. `reason` says in words why it is not;
    `connecting` tells that nothing is wrong yet: it is being opened, for the first time or afresh;
    `requests`, `good` and `faults` count since the engine started; `owed` are the stops that are not proved yet;
    `disarmed` says in words why the line disarmed itself, empty unless it did. `outages` are the times of
    a second or more in which no answer came, as far as they are over.
    """

    name: str
    where: str
    connected: bool = False
    armed: bool = False
    reason: str = ""
    short: str = ""
    requests: int = 0
    good: int = 0
    faults: Mapping[FaultKind, int] = field(default_factory=dict)
    since: float = 0.0
    owed: tuple[Owed, ...] = ()
    disarmed: str = ""
    outages: Outages = field(default_factory=Outages)
    connecting: bool = False


@dataclass(frozen=True, slots=True)
class Snapshot:
    """Everything that is known at one moment; `at` is `time.monotonic()`, `number` grows with every snapshot.

    `readings` has the signals on the lines and their bits; held values are the panel's business and not in it.
    """

    at: float
    number: int
    readings: Mapping[str, Reading]
    followers: Mapping[str, FollowerState]
    lines: Mapping[str, LineState]
