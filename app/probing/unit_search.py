"""Which unit addresses answer on a line whose settings are known, or on a network connection.

The likeliest first. A converter may answer in the name of every unit: where the first ones all do, a few drawn by
chance decide, and it is told as one. A gateway says of a unit behind it that there is no way (0A) or no answer (0B):
that unit is not there, the gateway is. What it says late counts as well (app.probing.given_up), and what it was asked
before it was known to be slow is asked again: not every gateway keeps what comes while it waits.

On a serial line whoever was silent is asked again at the end, twice in a row. A follower of libmodbus takes the frame
behind a request to another one for that one's answer, so it may have missed its turn (tried with libmodbus 3.1.6). What
it is asked there is as long as such an answer would be, or it would take half of it and lose its place in what follows.
"""

from __future__ import annotations

import random
from collections import deque
from collections.abc import Callable, Container, Iterable, Sequence
from dataclasses import dataclass, field
from typing import Any, Final, NamedTuple

from app.probing import requests
from app.probing.priors import EXPECTED, Priors
from app.probing.probe import MOST_UNIT, NO_ANSWER, NO_PATH, PROBE_TIMEOUT_S, Probe, ProbedLine, ProbeResult
from app.probing.settings_search import LATE_TIMEOUT_S, confirm, first_question

NETWORK_TIMEOUT_S: Final = 0.3
"""Of a device on a network; a gateway has a line behind it, and says so itself when it waited in vain."""
GATEWAY_S: Final = 3.0
"""So long is waited once for what a gateway says of a silent unit (common practice is 0.5 to 3 s, no source)."""
PATIENT_AT: Final = 3
"""Behind so many that are silent: a device without a gateway is one of the first, and need not wait for that."""
AGAIN_S: Final = 0.06
"""Libmodbus runs on a computer, which is quick; adapters take up to 16 ms each way (common practice, no source)."""
QUIET_S: Final = 0.6
"""After so long libmodbus gives up half a frame: 0.5 s between characters is its own setting (from memory)."""
AS_LONG_AS_AN_ANSWER: Final = range(0x0300, 0x0400)
"""Registers whose read, taken for an answer, carries three bytes: it is as long as it is."""
ALL_IN_A_ROW: Final = 6
"""So many of the first units answering raises the suspicion that all do."""
DRAWN: Final = 6
"""So many units drawn by chance decide it; a line with so many real devices at just these addresses is no line."""
FIRST_ON_NETWORK: Final = (255, 0, 1)
"""A device that has no line behind it is to be asked as 255, some as 0 (V1.1b3's guide for TCP, from memory)."""


@dataclass(slots=True)
class UnitState:
    """What was asked; it goes into a file and comes back."""

    asked: set[int] = field(default_factory=set)
    late: set[int] = field(default_factory=set)
    """Asked with the long time-out."""
    again: set[int] = field(default_factory=set)
    """Asked once more, on a serial line."""
    answering: list[int] = field(default_factory=list)
    behind_gateway: dict[int, int] = field(default_factory=dict)
    """Units of which a gateway says that they are not there, and by which code."""
    every_unit: bool = False

    @property
    def apart(self) -> bool:
        """Whether it is clear that not one device answers in the name of all: only then is each one of its own."""
        return len(self.answering) < len(self.asked) or len(self.asked) >= ALL_IN_A_ROW

    def as_json(self) -> dict[str, object]:
        """For a file."""
        return {
            "asked": sorted(self.asked),
            "late": sorted(self.late),
            "again": sorted(self.again),
            "answering": self.answering,
            "behind_gateway": sorted(self.behind_gateway.items()),
            "every_unit": self.every_unit,
        }

    @classmethod
    def from_json(cls, data: dict[str, Any]) -> UnitState:
        """Raises KeyError, TypeError or ValueError for what `as_json` did not make."""
        asked, late, answering = (list(map(int, data[key])) for key in ("asked", "late", "answering"))
        gateway = {int(unit): int(code) for unit, code in data["behind_gateway"]}
        again = set(map(int, data.get("again", ())))
        return cls(set(asked), set(late), again, answering, gateway, bool(data["every_unit"]))


class NextUnit(NamedTuple):
    """What is asked now."""

    unit: int
    left: int
    """Units to be asked, with this one."""
    seconds: float
    """Until all are, if nobody answers."""
    again: bool = False
    """It was silent before."""


OnUnit = Callable[[NextUnit], object]
"""Told before a unit is asked. It may ask other things first."""


def units_in_order(priors: Priors, network: bool, wanted: Iterable[int] = ()) -> list[int]:
    """All units to ask, the likeliest first; `wanted` alone if it names some."""
    order = priors.likeliest_units()
    if network:
        said = [unit for unit in order[:1] if priors.units[unit] > EXPECTED]
        order = list(dict.fromkeys((*said, *FIRST_ON_NETWORK, *order)))
    only = set(wanted)
    return [unit for unit in order if unit in only] if only else order


def find_units(
    line: ProbedLine,
    units: Sequence[int],
    state: UnitState,
    timeout_s: float = PROBE_TIMEOUT_S,
    told: OnUnit = lambda _next: None,
    never: Iterable[range] = (),
) -> None:
    """Ask each of `units` in that order; what answers stands in `state`, and stays there whatever `ask` raises.

    If nobody answered at all, the first units are asked once more with a long time-out. `never` are wire addresses of
    holding registers that are not touched.
    """
    search = _UnitSearch(line, units, state, timeout_s, told, tuple(never))
    search.first_look()
    if state.every_unit:
        return
    if line.framing == "rtu":
        search.again()
    if not state.answering and timeout_s < LATE_TIMEOUT_S:
        search.late()


@dataclass(slots=True)
class _UnitSearch:
    line: ProbedLine
    units: Sequence[int]
    state: UnitState
    timeout_s: float
    told: OnUnit
    never: Sequence[range]

    def first_look(self) -> None:
        state = self.state
        left = deque(unit for unit in self.units if unit not in state.asked)
        hurried: list[int] = []
        while left:
            self._tell_first(left)
            unit = left.popleft()
            result = self._ask(first_question(unit, self.never), self.timeout_s)
            state.asked.add(unit)
            if result.kind == "silence" and not self.line.patience_s:
                hurried.append(unit)
            wait_s = 0.0
            if hurried and (not left or hurried[PATIENT_AT - 1 :] == [unit]):
                wait_s = LATE_TIMEOUT_S if len(hurried) > PATIENT_AT else GATEWAY_S
            self._take_late(wait_s)
            if hurried and self.line.patience_s:
                again = [one for one in hurried if one not in state.answering and one not in state.behind_gateway]
                state.asked.difference_update(again)
                left.extend(again)
                hurried = []
            all_yet = len(state.answering) == ALL_IN_A_ROW == len(state.asked)
            if all_yet and _answers_for_all(self.line, self.units, self.timeout_s, self.never):
                state.every_unit = True
                del state.answering[1:]
                return

    def again(self) -> None:
        address = next((one for one in requests.touchable(self.never) if one in AS_LONG_AS_AN_ANSWER), None)
        left = self._silent(self.state.again)
        disturbed = True
        for place, unit in enumerate(left):
            remaining = len(left) - place
            self.told(NextUnit(unit, remaining, remaining * self._again_s, again=True))
            if disturbed:
                self.line.listen(QUIET_S)
            probe = first_question(unit, self.never) if address is None else requests.read(unit, "holding", address)
            timeout_s = AGAIN_S if self.timeout_s <= PROBE_TIMEOUT_S else self.timeout_s
            disturbed = any(self._ask(probe, timeout_s).alive for _ in range(2))
            self.state.again.add(unit)

    def late(self) -> None:
        left = self._silent(self.state.late)[: 2 * ALL_IN_A_ROW]
        for place, unit in enumerate(left):
            remaining = len(left) - place
            self.told(NextUnit(unit, remaining, remaining * LATE_TIMEOUT_S, again=True))
            self._ask(first_question(unit, self.never), LATE_TIMEOUT_S)
            self.state.late.add(unit)

    def _silent(self, done: Container[int]) -> list[int]:
        known = {*self.state.answering, *self.state.behind_gateway}
        return [unit for unit in self.units if unit not in known and unit not in done]

    @property
    def _again_s(self) -> float:
        return 3 * AGAIN_S + 0.02

    def _tell_first(self, left: Sequence[int]) -> None:
        seconds = len(left) * (max(self.timeout_s, self.line.patience_s) + 0.01)
        if self.line.framing == "rtu":
            seconds += len(self._silent(self.state.again)) * self._again_s
        self.told(NextUnit(left[0], len(left), seconds))

    def _ask(self, probe: Probe, timeout_s: float) -> ProbeResult:
        result = self.line.ask(probe, timeout_s)
        self._take(result, timeout_s)
        return result

    def _take_late(self, wait_s: float) -> None:
        while late := self.line.late_answers(wait_s):
            for result in late:
                self._take(result, self.timeout_s)
            wait_s = 0.0

    def _take(self, result: ProbeResult, timeout_s: float) -> None:
        unit, state = result.probe.unit, self.state
        if unit in state.answering:
            return
        if result.code in (NO_PATH, NO_ANSWER):
            state.behind_gateway[unit] = result.code
        elif result.alive and confirm(self.line, unit, max(timeout_s, self.timeout_s), self.never) is not None:
            state.behind_gateway.pop(unit, None)
            state.answering.append(unit)


def _answers_for_all(line: ProbedLine, units: Sequence[int], timeout_s: float, never: Sequence[range]) -> bool:
    chance = random.Random(len(units))
    others = [unit for unit in units[ALL_IN_A_ROW:] if 20 < unit <= MOST_UNIT]
    drawn = chance.sample(others, min(DRAWN, len(others)))
    return len(drawn) == DRAWN and all(_there(line.ask(first_question(unit, never), timeout_s)) for unit in drawn)


def _there(result: ProbeResult) -> bool:
    return result.alive and not result.in_vain
