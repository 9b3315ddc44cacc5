"""Planning 10 000 signals, against going through them once to find where they stand."""

from __future__ import annotations

import random
import time
from collections.abc import Callable

import pytest

from app.planning.plan import ReadPlan, make_plan
from app.project.binding import bindings
from app.project.model import Follower, Panel, Project, RegisterSignal, TcpLine

FOLLOWERS = 10
FIVE = (100, 250, 500, 1000, 5000)


@pytest.fixture
def signals(measured: bool) -> int:
    return 10_000 if measured else 2_000


def plant(count: int, periods: tuple[int, ...], *, overlapping: bool = False) -> Project:
    """Ten followers of so many signals, each of its own kind, with gaps; of one register each, or of up to four."""
    signals = []
    for follower in range(FOLLOWERS):
        chance = random.Random(follower)
        address = 0
        for number in range(count // FOLLOWERS):
            address += chance.choice((1, 1, 1, 2, 5))
            signals.append(
                RegisterSignal(
                    name=f"{follower} {number}",
                    follower=f"f{follower}",
                    number=address,
                    every_ms=chance.choice(periods),
                    encoding=chance.choice(("uint16", "uint32", "uint64")) if overlapping else "uint16",
                )
            )
    return Project(
        panel=Panel(start="a"),
        lines=(TcpLine(name="hall", host="192.0.2.1"),),
        followers=tuple(Follower(name=f"f{n}", line="hall", unit=n + 1) for n in range(FOLLOWERS)),
        signals=tuple(signals),
    )


@pytest.mark.parametrize(
    ("periods", "overlapping", "most"),
    [((500,), False, 1.0), ((100, 1000), False, 3.0), ((100, 500, 2000), False, 3.0), (FIVE, True, 5.0)],
    ids=["one period", "two periods", "three periods", "five periods, signals that overlap"],
)
def test_planning(
    signals: int,
    periods: tuple[int, ...],
    overlapping: bool,
    most: float,
    record_property: Callable[[str, object], None],
) -> None:
    """The plan takes at most so many times the time of binding the same signals."""
    ratios, took = [], []
    for _ in range(5):
        project = plant(signals, periods, overlapping=overlapping)
        started = time.process_time()
        bindings(project)
        bound = time.process_time()
        plan = make_plan(project)
        planned = time.process_time()
        assert sum(len(read.signals) for read in plan.lines[0].reads) == signals
        ratios.append((planned - bound) / (bound - started))
        took.append(1000 * (planned - bound))
    assert min(ratios) <= most, [round(ratio, 2) for ratio in ratios]
    record_property("plan, ms", round(min(took)))


@pytest.mark.parametrize("periods", [(500,), (100, 1000), FIVE])
def test_one_plan(signals: int, periods: tuple[int, ...], benchmark: Callable[..., ReadPlan]) -> None:
    project = plant(signals, periods)
    bindings(project)
    plan = benchmark(lambda: make_plan(project))
    assert sorted(name for read in plan.lines[0].reads for name in read.signals) == sorted(project.signal_named)
