"""How often the register that a display shows is found in hidden devices, and what certainty is worth; and how fast.

    .venv/bin/python -m tests.bench.matching [--devices 1000] [--seed 1]

Half of these devices are laid out as SunSpec's models; data types, scales and orders of words are drawn alike, swapped
bytes for one of four: far more often than in the field. 3 % of readings are mistyped by one last digit.
"""

from __future__ import annotations

import argparse
import random
import time
from collections import Counter
from dataclasses import dataclass, field

from app.matching.candidates import DisplayReading
from app.matching.match import match
from app.matching.reading_ways import RegisterWords
from app.matching.shown import shown
from tests.hidden_banks import draw, operating_points

CERTAIN = 0.001


@dataclass
class Tally:
    """What came true. "Named": also as what cannot be told apart yet, the same number in a wider type, or a twin."""

    devices: int = 0
    counts: Counter[str] = field(default_factory=Counter)
    claimed_wrong: float = 0.0


def tally(devices: int, seed: int, readings: int, *, present: bool = True) -> Tally:
    """Over so many hidden devices; without `present` the true register is not among those that were read."""
    found = Tally(devices)
    for number in range(devices):
        chance = random.Random(seed * 1_000_003 + number)
        device = draw(chance, present=present)
        candidates = match([device.reading(x, chance) for x in operating_points(chance, device, readings)]).candidates
        found.counts["first itself"] += any(map(device.is_it, candidates[:1]))
        found.counts["first"] += any(map(device.names_it, candidates[:1]))
        found.counts["in the first three"] += any(map(device.names_it, candidates[:3]))
        if not candidates:
            continue
        first, right = candidates[0], device.names_it(candidates[0])
        moves_along = bool(set(first.best.places) & device.beside)
        found.claimed_wrong += first.chance
        found.counts["wrong"] += not right
        found.counts["wrong, but moves along with the true one"] += not right and moves_along
        if first.chance <= CERTAIN:
            found.counts["certain"] += 1
            found.counts["certain and wrong"] += not right
            found.counts["certain and wrong, and does not move along"] += not right and not moves_along
    return found


def seconds_for_all_registers(seed: int) -> float:
    """Two readings of 65 536 registers that all changed: the least of five."""
    chance = random.Random(seed)
    moments: list[dict[tuple[str, int], int]] = [
        {("holding", at): chance.randrange(65_536) for at in range(65_536)} for _ in range(2)
    ]
    readings: list[DisplayReading] = []
    for moment, raw in zip(moments, (4165, 1212), strict=True):
        moment["holding", 777] = raw
        words: RegisterWords = moment  # type: ignore[assignment]
        readings.append(DisplayReading(words, shown(f"{raw / 100:.2f} Hz")))
    took = []
    for _ in range(5):
        began = time.perf_counter()
        found = match(readings)
        took.append(time.perf_counter() - began)
        assert found.candidates[0].best.address == 777
    return min(took)


def main() -> None:
    """Print the figures."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--devices", type=int, default=1000)
    parser.add_argument("--seed", type=int, default=1)
    args = parser.parse_args()
    for readings, present in ((1, True), (2, True), (3, True), (2, False), (3, False)):
        found = tally(args.devices, args.seed, readings, present=present)
        print(f"{readings} readings of {args.devices} devices{'' if present else ' whose register was not read'}:")
        for what, count in sorted(found.counts.items()):
            if count:
                print(f"  {what}: {count}")
        print(f"  wrong, by what was claimed: {found.claimed_wrong:.1f}")
    print(f"65 536 registers, two readings: {seconds_for_all_registers(args.seed):.3f} s")


if __name__ == "__main__":
    main()
