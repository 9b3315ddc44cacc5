"""Signals of a project that look wrong, at hidden devices: off by one, in another order, by another scale, all drawn.

The devices hold points of the SunSpec information models as the reference library encodes them (PyPI `pysunspec2`,
`sunspec2.device.Point`; a scale factor f means value = raw x 10^f). What the display shows is worked out from the point
alone. A repair is right if the repaired project reads the true value at a time that nobody looked at the display.
"""

from __future__ import annotations

import random
import struct
from decimal import Decimal
from fractions import Fraction
from typing import Any

from sunspec2 import device

from app.discovery.repairs import Moment, ShownValue, WayToRead, explanations, repairs
from app.project.binding import bind
from app.project.model import Follower, Project, RegisterSignal, Scale
from app.signals.order import WordOrder
from tests.builders import pump_project
from tests.outside.test_sunspec_points import OURS, models

SEED = 20_261_130
HIDDEN = 500
AT = 500
KINDS = {"int16", "uint16", "acc16", "int32", "uint32", "acc32", "uint64", "acc64", "int64", "float32"}


def test_the_true_register_order_and_scale_are_proposed() -> None:
    chance = random.Random(SEED)
    points = [point for model in models().values() for point in model if point["type"] in KINDS]
    first = in_three = 0
    for _ in range(HIDDEN):
        place = _place_of_truth(chance, chance.choice(points))
        first += place == 0
        in_three += place < 3
    assert first >= 0.95 * HIDDEN, first
    assert in_three >= 0.99 * HIDDEN, in_three


def _place_of_truth(chance: random.Random, point: dict[str, Any]) -> int:
    """At which place of the list the way stands whose repairs read the true value; 99 if none of the first does."""
    kind = point["type"]
    factor = 0 if kind == "float32" else chance.choice((-3, -2, -1, -1, 0, 0))
    numbers = _numbers(chance, kind)
    order: WordOrder = chance.choice(("high-first", "high-first", "low-first"))
    truth = [Fraction(number) * Fraction(10) ** factor for number in numbers]
    around = [[chance.choice((0, chance.randrange(1000), chance.randrange(65_536))) for _ in range(12)]] * 3
    history = []
    for number, value, others in zip(numbers, truth, around, strict=True):
        reference = device.Point(point)
        reference.set_value(number)
        data = reference.get_mb()
        words = struct.unpack(f">{len(data) // 2}H", data)
        held = {AT - 4 + at: word for at, word in enumerate(others)}
        held |= {AT + at: word for at, word in enumerate(words if order == "high-first" else reversed(words))}
        decimals = 2 if kind == "float32" else min(-factor, 2)
        shown = ShownValue(_rounded(value, decimals), Fraction(1, 2 * 10**decimals))
        history.append(Moment({("holding", at): word for at, word in held.items()}, shown))
    project = _project(chance, point, factor)
    found = explanations(project, "it", history[:2])
    for place, explanation in enumerate(found[:3]):
        if _reads(project, explanation, history[2], truth[2]):
            return place
    return 99


def _numbers(chance: random.Random, kind: str) -> list[Any]:
    if kind == "float32":
        # Of 24 bits: halves to eighths are held exactly.
        return [Fraction(chance.randrange(800, 40_000), 8) for _ in range(3)]
    if kind.endswith("16"):
        return [chance.randrange(300, 32_000) for _ in range(3)]
    begin = chance.randrange(70_000, 40_000_000)
    return [begin + step * chance.randrange(200, 5000) for step in range(3)]


def _rounded(value: Fraction, decimals: int) -> Fraction:
    return Fraction(round(value * 10**decimals), 10**decimals)


def _project(chance: random.Random, point: dict[str, Any], factor: int) -> Project:
    """The project of somebody who read the manual wrongly."""
    off = chance.choice((-1, 0, 0, 1))
    wrong = chance.choice((factor, factor, factor - 1, factor + 1))
    scale = None if not wrong else Scale(raw=(Decimal(0), Decimal(1)), value=(Decimal(0), Decimal(10) ** wrong))
    follower = Follower(
        name="pump", line="bus", unit=3, numbering="from-1" if off > 0 else "from-0", word_order=chance.choice(ORDERS)
    )
    it = RegisterSignal(name="it", follower="pump", number=AT + (off < 0), encoding=OURS[point["type"]], scale=scale)
    return pump_project(it, followers=(follower,))


ORDERS: tuple[WordOrder, ...] = ("high-first", "low-first")


def _reads(project: Project, explanation: WayToRead, later: Moment, truth: Fraction) -> bool:
    """Whether the project reads the truth once every repair that is offered was made, one after the other."""
    for _ in range(6):
        offered = repairs(project, "it", explanation)
        if not offered:
            break
        project = offered[0].edit(project)
    binding = bind(project, "it")
    words = [later.registers[binding.table, binding.address + at] for at in range(binding.count)]
    return binding.decode(words)[1] == truth
