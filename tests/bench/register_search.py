"""How many of a hidden device's registers are found within so many requests: counted, on modelled lines.

python -m tests.bench.register_search
"""

from __future__ import annotations

import random
from contextlib import suppress

from app.probing.registers import RegisterSearch, RegisterState
from tests.hidden_maps import KINDS, LONGEST, Kind, hidden_map
from tests.modelled_line import HiddenDevice, ModelledLine

MARKS = (1000, 4000)
DEVICES = 200


class _Enough(Exception):
    """So many requests were counted."""


def shares(kind: Kind, devices: int) -> list[float]:
    """The share of all registers of so many devices that was found at each of MARKS, 0..1."""
    there = 0
    found = [0] * len(MARKS)
    for seed in range(devices):
        chance = random.Random(seed)
        bank = hidden_map(chance, kind)
        there += len(bank)
        state = RegisterState()
        marked: dict[int, int] = {}

        def told(state: RegisterState, marked: dict[int, int] = marked) -> None:
            if state.probes in MARKS:
                marked[state.probes] = len(state.words)
            if state.probes >= MARKS[-1]:
                raise _Enough

        line = ModelledLine([HiddenDevice(1, holding=bank, longest=chance.choice(LONGEST))])
        with suppress(_Enough):
            RegisterSearch(line, 1, "holding", state, told=told).run("tens")
        assert state.words.items() <= bank.items()
        for place, mark in enumerate(MARKS):
            found[place] += marked.get(mark, len(state.words))
    return [each / there for each in found]


def main() -> None:
    """Print all kinds."""
    for kind in KINDS:
        print(kind, *(f"{share:.2%} in {mark}" for share, mark in zip(shares(kind, DEVICES), MARKS, strict=True)))


if __name__ == "__main__":
    main()
