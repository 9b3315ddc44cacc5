"""The rings of screens that keys go round."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest

from app.page_map.rings import Ring, rings_of
from app.panel.paging import PagingGraph
from app.project.model import Project, ScreenChange
from tests.app.panel.operating import project

NEXT, PREVIOUS = {"key": "right", "to": "next"}, {"key": "left", "to": "previous"}


def made(screens: str, *screen_changes: dict[str, Any]) -> Project:
    names = screens.split()
    return project(
        panel={"start": names[0], "keys": ["left", "right", "up", "down"]},
        signal=[{"name": "fault", "held": 0}],
        screen=[{"name": name} for name in names],
        screen_change=list(screen_changes),
    )


def round_by(key: str, screens: str) -> list[dict[str, Any]]:
    names = screens.split()
    return [{"from": a, "key": key, "to": b} for a, b in pairwise([*names, names[0]])]


def rings(of: Project) -> tuple[Ring, ...]:
    return rings_of(of, PagingGraph(of))


def test_the_order_of_the_file_makes_a_ring() -> None:
    alarm = {"when": {"signal": "fault"}, "to": "b"}
    assert rings(made("a b c d", NEXT, alarm)) == (Ring(("a", "c", "d")),), "without the screen of an override"


def test_turns_from_each_screen_make_a_ring() -> None:
    of = made("a b c d", *round_by("right", "a b c"), *round_by("left", "c b a"))
    assert rings(of) == (Ring(("a", "b", "c"), ("right", "left")),)


def test_a_ring_may_go_one_way_only() -> None:
    assert rings(made("a b c", *round_by("up", "a b c"))) == (Ring(("a", "b", "c"), ("up",)),)


def test_of_two_directions_that_of_the_file_is_onward() -> None:
    of = made("a b c d", *round_by("left", "d c b a"), *round_by("right", "a b c d"))
    assert rings(of) == (Ring(("a", "b", "c", "d"), ("right", "left")),)
    as_much = made("a b c d", *round_by("left", "d b c a"), *round_by("right", "a c b d"))
    assert rings(as_much) == (Ring(("a", "c", "b", "d"), ("right", "left")),)


def test_rings_share_no_screen() -> None:
    of = made("a b c d e f", *round_by("right", "a b c"), *round_by("up", "c d e f"))
    assert [ring.screens for ring in rings(of)] == [("c", "d", "e", "f")], "the longer one"


@pytest.mark.parametrize(
    "screen_changes",
    [
        [],
        round_by("right", "a b"),
        [{"from": "a", "key": "right", "to": "b"}, {"from": "b", "key": "right", "to": "c"}],
        [{"key": "right", "to": "b"}],
    ],
)
def test_what_is_no_ring(screen_changes: list[dict[str, Any]]) -> None:
    assert rings(made("a b c", *screen_changes)) == ()


@pytest.mark.parametrize(
    ("from_", "to", "onward", "number"),
    [("a", "b", True, 1), ("b", "a", False, 1), ("b", "d", True, 2), ("d", "a", True, 3), ("a", "d", False, 3)],
)
def test_the_number_where_an_arrow_goes(from_: str, to: str, onward: bool, number: int) -> None:
    assert Ring(("a", "b", "c", "d")).number_between("c", from_, to, onward) == number


def test_which_turns_go_round() -> None:
    ring = Ring(("a", "b", "c"), ("up", "down"))
    assert ring.goes_onward(ScreenChange(from_="a", key="up", to="b"))
    assert ring.goes_round(ScreenChange(from_="a", key="down", to="c"))
    assert not ring.goes_onward(ScreenChange(from_="a", key="down", to="c"))
    assert Ring(("a", "b", "c")).goes_onward(ScreenChange(key="left", to="next"))
