"""Planning 10 000 signals, against going through them once to find where they stand."""

from __future__ import annotations

import random
import time
from collections.abc import Callable

import pytest

from app.bus.plan import make_plan
from app.bus.several_periods import cheapest
from app.project.binding import bindings
from app.project.model import Follower, Panel, Project, RegisterSignal, TcpLine

SIGNALS = 10_000
FOLLOWERS = 10
MOST_OF_BINDING = 3.0
"""The plan may take so many times the time of binding the same signals; 100 ms are some two times of it."""


def plant(periods: tuple[int, ...], *, alike: bool) -> Project:
    """Ten followers of a thousand signals, with gaps; all of one kind, or each of its own."""
    signals = []
    for follower in range(FOLLOWERS):
        chance = random.Random(0 if alike else follower)
        address = 0
        for number in range(SIGNALS // FOLLOWERS):
            address += chance.choice((1, 1, 1, 2, 5))
            every_ms = chance.choice(periods)
            name = f"{follower} {number}"
            signals.append(RegisterSignal(name=name, follower=f"f{follower}", number=address, every_ms=every_ms))
    return Project(
        panel=Panel(start="a"),
        lines=(TcpLine(name="hall", host="192.0.2.1"),),
        followers=tuple(Follower(name=f"f{n}", line="hall", unit=n + 1) for n in range(FOLLOWERS)),
        signals=tuple(signals),
    )


@pytest.mark.parametrize(
    ("periods", "alike"),
    [((500,), False), ((100, 1000), True), ((100, 500, 2000), True)],
    ids=["one period", "two periods, followers of one kind", "three periods, followers of one kind"],
)
def test_planning_10_000_signals(
    periods: tuple[int, ...], alike: bool, record_property: Callable[[str, object], None]
) -> None:
    ratios, took = [], []
    for _ in range(5):
        project = plant(periods, alike=alike)
        cheapest.cache_clear()
        started = time.process_time()
        bindings(project)
        bound = time.process_time()
        plan = make_plan(project)
        planned = time.process_time()
        assert sum(len(read.signals) for read in plan.of_line("hall").reads) == SIGNALS
        ratios.append((planned - bound) / (bound - started))
        took.append(1000 * (planned - bound))
    assert min(ratios) <= MOST_OF_BINDING, [round(ratio, 2) for ratio in ratios]
    record_property("plan of 10 000 signals, ms", round(min(took)))


@pytest.mark.parametrize("periods", [(500,), (100, 1000), (100, 500, 2000)])
def test_one_plan_of_followers_each_of_its_own_kind(periods: tuple[int, ...], benchmark: Callable[..., object]) -> None:
    project = plant(periods, alike=False)
    bindings(project)

    def plan() -> None:
        cheapest.cache_clear()
        make_plan(project)

    benchmark(plan)
