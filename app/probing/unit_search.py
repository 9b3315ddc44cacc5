"""Which unit addresses answer on a line whose settings are known, or on a network connection.

The likeliest first. A converter may answer in the name of every unit: where the first ones all do, a few drawn by
chance decide, and it is told as one. A gateway says of a unit behind it that there is no way (0A) or no answer (0B):
that unit is not there, the gateway is.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from typing import Any, Final

from app.probing.priors import EXPECTED, Priors
from app.probing.probe import MOST_UNIT, NO_ANSWER, NO_PATH, PROBE_TIMEOUT_S, ProbedLine, ProbeResult
from app.probing.settings_search import LATE_TIMEOUT_S, confirm, first_question

NETWORK_TIMEOUT_S: Final = 0.3
"""Of a device on a network; a gateway has a line behind it, and says so itself when it waited in vain."""
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
            "answering": self.answering,
            "behind_gateway": sorted(self.behind_gateway.items()),
            "every_unit": self.every_unit,
        }

    @classmethod
    def from_json(cls, data: dict[str, Any]) -> UnitState:
        """Raises KeyError, TypeError or ValueError for what `as_json` did not make."""
        asked, late, answering = (list(map(int, data[key])) for key in ("asked", "late", "answering"))
        gateway = {int(unit): int(code) for unit, code in data["behind_gateway"]}
        return cls(set(asked), set(late), answering, gateway, bool(data["every_unit"]))


OnUnit = Callable[[int, int], object]
"""Told which unit is asked now, and how many are left. It may ask other things first."""


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
    told: OnUnit = lambda _unit, _left: None,
    evidence: Callable[[ProbeResult], object] = lambda _result: None,
    never: Iterable[range] = (),
) -> None:
    """Ask each of `units` in that order; what answers stands in `state`, and stays there whatever `ask` raises.

    If nobody answered at all, the first units are asked once more with a long time-out. `never` are wire addresses of
    holding registers that are not touched.
    """
    never = tuple(never)
    for late in (False, True):
        done = state.late if late else state.asked
        left = [unit for unit in units if unit not in done]
        if late:
            if state.answering or timeout_s >= LATE_TIMEOUT_S:
                return
            left = left[: 2 * ALL_IN_A_ROW]
        for place, unit in enumerate(left):
            told(unit, len(left) - place)
            _ask(line, unit, state, LATE_TIMEOUT_S if late else timeout_s, evidence, never)
            done.add(unit)
            all_yet = len(state.answering) == ALL_IN_A_ROW == len(state.asked)
            if all_yet and _answers_for_all(line, units, timeout_s, never):
                state.every_unit = True
                del state.answering[1:]
                return


def _ask(
    line: ProbedLine,
    unit: int,
    state: UnitState,
    timeout_s: float,
    evidence: Callable[[ProbeResult], object],
    never: Sequence[range],
) -> None:
    result = line.ask(first_question(unit, never), timeout_s)
    evidence(result)
    if result.code in (NO_PATH, NO_ANSWER):
        state.behind_gateway[unit] = result.code
    elif result.alive and confirm(line, unit, timeout_s, never) is not None and unit not in state.answering:
        state.answering.append(unit)


def _answers_for_all(line: ProbedLine, units: Sequence[int], timeout_s: float, never: Sequence[range]) -> bool:
    chance = random.Random(len(units))
    others = [unit for unit in units[ALL_IN_A_ROW:] if 20 < unit <= MOST_UNIT]
    drawn = chance.sample(others, min(DRAWN, len(others)))
    return len(drawn) == DRAWN and all(_there(line.ask(first_question(unit, never), timeout_s)) for unit in drawn)


def _there(result: ProbeResult) -> bool:
    return result.alive and not result.in_vain
