"""Which screens lead where."""

from __future__ import annotations

from collections import deque
from typing import Any

import pytest

from app.panel.machine import KeyDown, KeyUp, begin, step
from app.panel.paging import PagingArrow, PagingGraph
from app.project.model import Project
from app.project_file.files import load
from projects import demo_path
from tests.app.panel.operating import project


def graph(screens: str, *screen_changes: dict[str, Any]) -> PagingGraph:
    names = screens.split()
    return PagingGraph(
        project(
            panel={"start": names[0]}, screen=[{"name": name} for name in names], screen_change=list(screen_changes)
        )
    )


def key(source: str | None, key: str, to: str) -> dict[str, Any]:
    return {"key": key, "to": to} | ({} if source is None else {"from": source})


def keys_between(paging: PagingGraph, source: str, target: str) -> tuple[str, ...] | None:
    """The keys of a shortest way along the arrows from one screen to another; None if there is none."""
    ways: dict[str, tuple[str, ...]] = {source: ()}
    waiting = deque([source])
    while waiting:
        screen = waiting.popleft()
        for edge in paging.edges:
            if edge.kind == "key" and edge.source == screen and edge.target not in ways:
                ways[edge.target] = (*ways[screen], edge.label)
                waiting.append(edge.target)
    return ways.get(target)


def test_the_least_presses_in_a_ring_go_the_shorter_way() -> None:
    ring = graph("a b c d e", key(None, "right", "next"), key(None, "left", "previous"))
    assert ring.presses_from_start == {"a": 0, "b": 1, "c": 2, "d": 2, "e": 1}
    assert keys_between(ring, "a", "d") == ("left", "left")
    assert ring.unreachable == ()
    assert ring.no_way_back == ()


def test_screens_that_nothing_leads_to_are_unreachable() -> None:
    paging = graph("a b c d", key("a", "up", "b"), key("c", "up", "d"))
    assert paging.unreachable == ("c", "d")
    assert keys_between(paging, "a", "d") is None
    assert "d" not in paging.presses_from_start


def test_a_dead_end_has_no_way_back() -> None:
    paging = graph("a b c", key("a", "up", "b"), key("b", "up", "c"), key("b", "down", "a"))
    assert paging.no_way_back == ("c",)


def test_a_pair_of_screens_that_only_lead_to_each_other_has_no_way_back() -> None:
    paging = graph("a b c", key("a", "up", "b"), key("b", "up", "c"), key("c", "up", "b"))
    assert paging.no_way_back == ("b", "c")


def test_idle_time_is_a_way_back_but_no_key_press() -> None:
    paging = graph("a b", key("a", "up", "b"), {"idle_s": 60, "to": "a"})
    assert paging.no_way_back == ()
    assert keys_between(paging, "b", "a") is None
    assert PagingArrow(None, "a", "60 s", "idle", 1) in paging.edges


def test_an_override_is_reached_by_its_condition_and_is_no_dead_end() -> None:
    paging = graph("a fault more", {"when": {"signal": "x"}, "to": "fault"}, key("fault", "up", "more"))
    assert paging.reachable == {"a", "fault", "more"}
    # Whoever pages on from the override is somewhere else when it clears, and stays there.
    assert paging.no_way_back == ("more",)
    assert PagingArrow(None, "fault", "x is set", "override", 0) in paging.edges


def test_edges_name_the_turn_that_makes_them() -> None:
    paging = graph("a b c", key(None, "up", "c"), key("a", "up", "b"), key(None, "down", "next"))
    assert paging.edges == (
        PagingArrow("a", "b", "up", "key", 1),
        PagingArrow("a", "b", "down", "key", 2),
        PagingArrow("b", "c", "up", "key", 0),
        PagingArrow("b", "c", "down", "key", 2),
        PagingArrow("c", "a", "down", "key", 2),
    )


def test_a_project_without_screens_has_an_empty_graph() -> None:
    paging = PagingGraph(Project.model_validate({"panel": {"start": "gone"}}))
    assert (paging.screens, paging.edges, paging.unreachable, paging.no_way_back) == ((), (), (), ())
    assert paging.presses_from_start == {}


@pytest.mark.parametrize("name", ["booster-pump", "drying-hall"])
def test_the_ways_of_the_demo_projects_are_those_that_the_panel_goes(name: str) -> None:
    demo = load(demo_path(name))
    paging = PagingGraph(demo)
    assert paging.unreachable == ()
    assert paging.no_way_back == ()
    for target, presses in paging.presses_from_start.items():
        keys = keys_between(paging, paging.start, target)
        assert keys is not None
        assert len(keys) == presses
        state = begin(demo, 0.0)
        for at, pressed in enumerate(keys):
            state, _ = step(demo, state, KeyDown(pressed, at), {})
            state, _ = step(demo, state, KeyUp(pressed, at + 0.5), {})
        assert state.shown == target
