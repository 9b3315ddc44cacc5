"""Devices whose registers nobody knows, drawn by chance: one of them is what the display shows.

Their registers are laid out as those of SunSpec's models (PyPI `pysunspec2`, an open standard), or as blocks of a
drive: many zeros, settings that never change, round numbers, and live values that move together. Beside the true
register stand those that a person would take for it: a set point, the value in percent, the speed of the shaft.
"""

from __future__ import annotations

import json
import random
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Final

import sunspec2

from app.matching.candidates import Candidate, DisplayReading, RegisterMeaning
from app.matching.reading_ways import ORDERS, Way
from app.matching.shown import shown
from app.signals.encoding import ENCODINGS, EncodingName, encode, is_float, is_text, raw_range, register_count
from app.signals.numbering import Table
from app.signals.scaling import round_half_away

SCALES: Final = tuple(
    Fraction(each)
    for each in ("1", "1/10", "1/100", "1/1000", "10", "1/2", "50/10000", "60/10000", "100/16384", "1/50")
)
_MODELS = Path(sunspec2.__file__).parent / "models" / "json"
_KINDS: Final[dict[str, EncodingName]] = {
    "int16": "int16",
    "uint16": "uint16",
    "int32": "int32",
    "uint32": "uint32",
    "acc32": "uint32",
    "float32": "float32",
    "int64": "int64",
    "uint64": "uint64",
    "acc64": "uint64",
}

Behaviour = Callable[[float, random.Random], float]
"""From how far the machine is turned up, 0 to 1 (or below 0: backwards), to a raw number."""


@dataclass
class HiddenDevice:
    """One of them. `show` is what its display shows at an operating point, from the true raw number."""

    table: Table
    address: int
    way: Way
    slope: Fraction
    full: float
    """The raw number of the true register at full."""
    step: Fraction
    """Of the display."""
    parts: list[tuple[int, Way, Behaviour]]
    signed: bool
    beside: set[int]
    """Where registers stand that move in step with the true one."""
    spoiled: float
    """How many readings of one are mistyped by one last digit."""
    present: bool = True
    """Whether its true register is among those that are read."""

    def reading(self, x: float, chance: random.Random) -> DisplayReading:
        """All registers, and what a person types, at an operating point."""
        words: dict[tuple[Table, int], int] = {}
        true = _held(self.way.encoding, self.full * x * (1 + chance.uniform(-0.002, 0.002)))
        for address, way, behave in self.parts:
            raw = _held(way.encoding, behave(x, chance))
            for at, word in enumerate(encode(*way[:1], raw, *way[1:])):
                words[self.table, address + at] = word
        if self.present:
            for at, word in enumerate(encode(self.way.encoding, true, self.way.word_order, self.way.byte_order)):
                words[self.table, self.address + at] = word
        value = self.slope * Fraction(repr(true)) if isinstance(true, float) else self.slope * true
        count = round_half_away(value / self.step)
        if chance.random() < self.spoiled:
            count += chance.choice((-1, 1))
        # Whoever sees a display move by halves says so; of tens 1450 tells by itself.
        own_step = self.step if self.step == Fraction(1, 2) else None
        return DisplayReading(words, shown(_text(count * self.step, self.step), own_step))

    def is_it(self, candidate: Candidate) -> bool:
        """Whether a candidate is the true register, read in the true way."""
        return self._is(candidate.best)

    def names_it(self, candidate: Candidate) -> bool:
        """Whether it is, or is named beside the candidate as what cannot be told apart yet."""
        return any(map(self._is, (candidate.best, *candidate.also, *candidate.twins)))

    def _is(self, explanation: RegisterMeaning) -> bool:
        return explanation[:4] == (self.table, self.address, self.way, self.slope)


def _text(value: Fraction, step: Fraction) -> str:
    decimals = next(places for places in range(9) if (step * 10**places).denominator == 1)
    return f"{float(value):.{decimals}f} Hz"


def _held(encoding: EncodingName, raw: float) -> int | float:
    if is_float(encoding):
        return float(f"{raw:.6g}")
    least, greatest = raw_range(encoding)
    return int(min(max(Fraction(round(raw)), least), greatest))


@cache
def _model_points() -> list[list[EncodingName]]:
    """The numbers of every model, in their order."""
    found = []
    for path in sorted(_MODELS.glob("model_*.json"), key=lambda path: path.name):
        if path.stem.startswith("model_64"):
            continue
        group = json.loads(path.read_text(encoding="utf-8"))["group"]
        groups = [group, *group.get("groups", [])]
        kinds: list[EncodingName] = []
        for each in groups:
            for point in each.get("points", []):
                kinds += [_KINDS.get(point["type"], "uint16")] * (1 if point["type"] in _KINDS else int(point["size"]))
        found.append(kinds)
    return found


def _layout(chance: random.Random, count: int) -> list[EncodingName]:
    if chance.random() < 0.5:
        kinds: list[EncodingName] = []
        while sum(map(register_count, kinds)) < count:
            kinds += chance.choice(_model_points())
        return kinds
    usual: tuple[EncodingName, ...] = ("uint16", "int16", "uint32", "int32", "float32")
    return chance.choices(usual, (12, 5, 1, 1, 1), k=count)


def _still(raw: float) -> Behaviour:
    return lambda x, chance: raw


def _moving(chance: random.Random, most: float) -> Behaviour:
    """Current, torque, power, voltage, temperature: with the machine, but not in step with it."""
    full = 10 ** chance.uniform(1, 4.7)
    full, idle, power = min(full, most), chance.choice((0, 0, 0.2, 0.7)), chance.choice((0.5, 1, 1, 2, 3))
    noise = chance.choice((0.001, 0.01, 0.05))
    return lambda x, its: full * (idle + (1 - idle) * abs(x) ** power) * (1 + its.uniform(-noise, noise))


def _any(chance: random.Random, kind: EncodingName) -> Behaviour:
    most = min(float(raw_range(kind)[1]), 1e7)
    draw = chance.random()
    if draw < 0.40:
        return _still(0)
    if draw < 0.50:
        return _still(chance.randint(0, 20))
    if draw < 0.60:
        return _still(
            min(most, chance.choice((50, 60, 100, 500, 1000, 1450, 1500, 2500, 3000, 5000, 6000, 10_000, 16_384)))
        )
    if draw < 0.66:
        return _still(chance.choice((0x8000, 0xFFFF, 0x7FFF)) if kind == "uint16" else 0)
    if draw < 0.78:
        return _still(chance.uniform(0, most))
    return _moving(chance, most)


def _beside(chance: random.Random, device: HiddenDevice, kind: EncodingName) -> Behaviour | None:
    """What moves in step with the true value, or nearly so."""
    span = float(device.slope) * device.full
    most = float(raw_range(kind)[1])
    found: list[tuple[float, float, float]] = [  # full scale of the raw number, how far off, noise
        (device.full, 0.03, 0.002),  # a set point that the value follows with some slip
        (10_000, 0.0, 0.003),
        (1000, 0.0, 0.003),
        (16_384, 0.01, 0.003),
        (span * 29.3, 0.02, 0.004),
        (span * 30, 0.03, 0.004),
        (device.full * 10, 0.01, 0.003),
        (span * chance.uniform(0.5, 20), 0.0, 0.003),
    ]
    full, off, noise = chance.choice(found)
    if full > most or full < 5:
        return None
    shift = chance.uniform(-off, off)
    low = min(0.0, float(raw_range(kind)[0]))
    return lambda x, its: max(low, full * (x + shift) * (1 + its.uniform(-noise, noise)))


def draw(
    chance: random.Random, *, spoiled: float = 0.03, registers: int | None = None, present: bool = True
) -> HiddenDevice:
    """A hidden device. Without `present` its true register is not among those that are read."""
    while True:
        encoding = chance.choice([each for each in ENCODINGS if not is_text(each)])
        way = Way(
            encoding,
            chance.choice(ORDERS) if register_count(encoding) > 1 else "high-first",
            chance.choices(ORDERS, (3, 1))[0],
        )
        slope = Fraction(1) if is_float(encoding) else chance.choice(SCALES)
        span = chance.choice((10, 16, 50, 60, 100, 100, 400, 690, 1500, 3000, 10 ** chance.uniform(1, 4)))
        full = span / float(slope)
        if 300 <= full <= float(raw_range(encoding)[1]) or is_float(encoding):
            break
    step = Fraction(1, 1000)
    while step < slope:
        step *= 10
    if slope == Fraction(1, 2):
        step = chance.choice((Fraction(1), Fraction(1, 2)))
    if is_float(encoding):
        step = chance.choice((Fraction(1), Fraction(1, 10), Fraction(1, 100)))
    while step < Fraction(1, 10) and chance.random() < 0.3 and span / float(step) > 2000:
        step *= 10
    while span / float(step) < 300 and is_float(encoding):
        step /= 10
    signed = raw_range(encoding)[0] < 0 and chance.random() < 0.25
    device = HiddenDevice("holding", 0, way, slope, full, step, [], signed, set(), spoiled, present)
    count = registers or chance.choice((125, 250, 500, 1000))
    base = chance.choice((0, 0, 100, 1000, 40_000))
    kinds = _layout(chance, count)
    true_at = chance.randrange(len(kinds))
    address = base
    beside = chance.randint(0, 4)
    for at, kind in enumerate(kinds):
        if at == true_at:
            device.address = address
            address += way.width
        behave = _any(chance, kind)
        if beside and chance.random() < 8 / len(kinds):
            behave, beside = _beside(chance, device, kind) or behave, beside - 1
            device.beside |= set(range(address, address + register_count(kind)))
        device.parts.append((address, Way(kind), behave))
        address += register_count(kind)
    return device


def operating_points(chance: random.Random, device: HiddenDevice, count: int) -> list[float]:
    """Different ones, some of them round, as people choose them."""
    found: list[float] = []
    while len(found) < count:
        x = chance.choice((0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.8, 1.0)) if chance.random() < 0.3 else chance.uniform(0.1, 1)
        if device.signed and chance.random() < 0.5:
            x = -x
        if all(abs(x - other) > 0.06 for other in found):
            found.append(x)
    return found
