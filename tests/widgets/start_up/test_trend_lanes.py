"""Which lanes a trend has and how high they are."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal

from app.project.model import Follower, Panel, Project, RegisterSignal, Screen, TcpLine
from widgets.start_up.trend_lanes import Lane, heights, lanes


def register(name: str, number: int, unit: str = "", table: Literal["coil", "holding"] = "holding") -> RegisterSignal:
    return RegisterSignal(name=name, follower="f", number=number, unit=unit, table=table, start_value=Decimal(0))


PROJECT = Project(
    panel=Panel(start="s"),
    lines=(TcpLine(name="l", host="h", port=1),),
    followers=(Follower(name="f", line="l"),),
    signals=(
        register("speed", 1, "Hz"),
        register("count", 2),
        register("total", 3),
        register("set", 4, "Hz"),
        register("run", 5, table="coil"),
        register("trip", 6, table="coil"),
    ),
    screens=(Screen(name="s", text=("",) * 4),),
)


def test_a_lane_has_one_unit_and_a_value_without_one_has_its_own() -> None:
    assert lanes(PROJECT, ("run", "total", "speed", "trip", "count", "set", "gone")) == (
        Lane("", ("total",)),
        Lane("Hz", ("speed", "set")),
        Lane("", ("count",)),
        Lane("", ("run", "trip"), band=True),
    )


def test_lanes_share_what_the_band_leaves_and_none_is_too_low() -> None:
    one, many, band = Lane("A", ("a",)), Lane("V", tuple("bcdefg")), Lane("", ("x", "y"), band=True)
    assert heights((one, one, band), 440, 20, 64) == [198, 198, 44]
    assert sum(heights((one, one, one, band), 441, 20, 64)) == 441, "no pixel is left over"
    assert heights((one, many, band), 240, 20, 64) == [76, 120, 44], "a line of the legend for each curve"
    assert heights((one, one, one, band), 100, 20, 64) == [64, 64, 64, 44]
    assert heights((), 100, 20, 64) == []
