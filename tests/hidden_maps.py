"""Register maps of devices that nobody has seen: SunSpec models one after the other, apart, and with holes.

The models are those of pysunspec2 (an open register standard, Apache-2.0), without the models of the family 64.
"""

from __future__ import annotations

import json
import random
from functools import cache
from pathlib import Path
from typing import Any, Literal

import sunspec2

Kind = Literal["chain", "apart", "holes"]
KINDS: tuple[Kind, ...] = ("chain", "apart", "holes")
LONGEST = (125, 125, 64, 32, 16)
"""Most registers in one read, as devices have it."""


@cache
def model_sizes() -> dict[int, int]:
    """Registers of each model, its number and length included; repeated groups twice."""
    sizes = {}
    for file in sorted((Path(sunspec2.__file__).parent / "models" / "json").glob("model_*.json")):
        if not file.stem.startswith("model_64"):
            model = json.loads(file.read_text("utf-8"))
            sizes[int(model["id"])] = _size(model["group"])
    return sizes


def _size(group: dict[str, Any]) -> int:
    size: int = sum(point["size"] * _times(point, 1) for point in group["points"])
    return size + sum(_size(part) * _times(part, 2) for part in group.get("groups", []))


def _times(part: dict[str, Any], unknown: int) -> int:
    count = part.get("count", 1)
    return count if isinstance(count, int) and count > 0 else unknown


def hidden_map(chance: random.Random, kind: Kind) -> dict[int, int]:
    """Wire addresses and words. `chain` is SunSpec's own way, at its own bases; `apart` has each model at a round
    number of its own, `holes` lacks one register in twenty and has gaps between models."""
    sizes = model_sizes()
    chosen = chance.sample(sorted(sizes), chance.randint(2, 8))
    bank: dict[int, int] = {}
    if kind == "chain":
        at = chance.choice((40_000, 40_000, 40_000, 50_000, 0))
        bank |= {at: 0x5375, at + 1: 0x6E53}
        at += 2
        for number in (1, *chosen):
            bank |= {at: number, at + 1: sizes[number] - 2}
            bank |= {
                at + place: chance.choice((0, 0x8000, 0xFFFF, chance.randrange(65_536)))
                for place in range(2, sizes[number])
            }
            at += sizes[number]
        return bank | {at: 0xFFFF, at + 1: 0}
    at = chance.choice((0, 1, 100, 256, 1000, 0x1000, 30_000, 40_000))
    for number in chosen:
        for place in range(sizes[number]):
            if kind == "apart" or chance.random() > 0.05:
                bank[at + place] = chance.randrange(65_536)
        at += sizes[number]
        at = at // 100 * 100 + 100 * chance.randint(1, 5) if kind == "apart" else at + chance.choice((0, 1, 5, 20, 50))
    return {address: word for address, word in bank.items() if address < 65_536}
