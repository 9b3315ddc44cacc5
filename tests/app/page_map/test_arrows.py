"""What is drawn on the page map of the screen changes of a project."""

from __future__ import annotations

from typing import Any

from app.page_map.arrows import Arrow, arrows_of, inlets_of
from app.panel.paging import PagingGraph
from app.project.model import Project
from tests.app.panel.operating import project


def made(screens: str, *screen_changes: dict[str, Any]) -> Project:
    names = screens.split()
    return project(
        panel={"start": names[0], "keys": ["left", "right", "up", "escape"]},
        signal=[{"name": "fault", "held": 0}],
        screen=[{"name": name} for name in names],
        screen_change=list(screen_changes),
    )


def arrows(of: Project, *kinds: Any) -> dict[tuple[str, str], Arrow]:
    graph = PagingGraph(of)
    found = arrows_of(of, graph, kinds) if kinds else arrows_of(of, graph)
    return {(arrow.from_, arrow.to): arrow for arrow in found}


NEXT, PREVIOUS = {"key": "right", "to": "next"}, {"key": "left", "to": "previous"}


def test_turns_between_the_same_two_screens_share_an_arrow() -> None:
    of = made("a b", {"from": "a", "key": "right", "to": "b"}, {"from": "a", "key": "up", "to": "b"})
    assert [lead.screen_change for lead in arrows(of)["a", "b"].leads] == [0, 1]


def test_a_ring_is_told_from_other_arrows() -> None:
    of = made("a b c d", NEXT, PREVIOUS, {"from": "a", "key": "up", "to": "c"})
    found = arrows(of)
    assert {pair for pair, arrow in found.items() if not arrow.ring} == {("a", "c")}


def test_what_counts_on_every_screen_is_an_inlet() -> None:
    home, idle = {"key": "escape", "to": "a"}, {"idle_s": 60, "to": "a"}
    alarm = {"when": {"signal": "fault"}, "to": "c"}
    of = made("a b c", home, alarm, idle, {"from": "a", "key": "right", "to": "b"})
    assert set(arrows(of)) == {("a", "b")}
    found = inlets_of(of, PagingGraph(of))
    assert [(inlet.to, inlet.lead.kind, inlet.lead.screen_change) for inlet in found] == [
        ("a", "key", 0),
        ("a", "idle", 2),
        ("c", "override", 1),
    ]
    assert [inlet.to for inlet in inlets_of(of, PagingGraph(of), frozenset({"override"}))] == ["c"]


def test_kinds_that_are_not_shown_are_left_out() -> None:
    of = made("a b", {"from": "b", "idle_s": 60, "to": "a"}, {"from": "b", "key": "up", "to": "a"})
    assert arrows(of)["b", "a"].kind == "key"
    assert arrows(of, "idle")["b", "a"].kind == "idle"
    assert arrows(of, "override") == {}


def test_a_turn_that_cannot_come_about_is_not_drawn() -> None:
    of = made("a b", {"from": "a", "key": "nowhere", "to": "b"}, {"from": "a", "key": "up", "to": "a"})
    assert arrows(of) == {}
