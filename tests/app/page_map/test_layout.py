"""The automatic layout of the page map: rings, chains, stars, and what nobody leads to."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given, strategies as st

from app import edits
from app.page_map.layout import STEP, MapPlace, arranged, free_place, places
from app.panel.paging import PagingGraph
from app.project.model import Condition, HeldSignal, Panel, Project, Screen, ScreenChange
from tests.big_project import big_project


def project(
    *screens: str, screen_changes: tuple[ScreenChange, ...] = (), keys: tuple[str, ...] = ("left", "right", "enter")
) -> Project:
    return Project(
        panel=Panel(start=screens[0], keys=keys),
        screens=tuple(Screen(name=name) for name in screens),
        signals=(HeldSignal(name="fault", held=0),),  # type: ignore[arg-type]
        screen_changes=screen_changes,
    )


def laid_out(of: Project) -> dict[str, MapPlace]:
    return arranged(PagingGraph(of))


def apart(one: MapPlace, other: MapPlace) -> int:
    """Steps from one to the other, the longer of across and down."""
    return max(abs(one[0] - other[0]), abs(one[1] - other[1])) // STEP


RING = (ScreenChange(key="right", to="next"), ScreenChange(key="left", to="previous"))


@pytest.mark.parametrize("count", [3, 4, 5, 6, 7, 8, 11, 12, 17, 30, 64, 200])
def test_in_a_ring_every_screen_is_beside_the_next(count: int) -> None:
    names = [f"s{number}" for number in range(count)]
    found = laid_out(project(*names, screen_changes=RING))
    far = [pair for pair in pairwise([*names, names[0]]) if apart(found[pair[0]], found[pair[1]]) > 1]
    # Where the cells of a closed way and the screens do not come out even, one arrow is longer.
    assert len(far) <= 1
    width, height = (max(place[axis] for place in found.values()) // STEP + 1 for axis in (0, 1))
    assert width * height <= count + height


def test_a_ring_of_turns_one_by_one_is_one_too() -> None:
    screen_changes = tuple(ScreenChange(from_=f"s{n}", key="enter", to=f"s{(n + 1) % 6}") for n in range(6))
    found = laid_out(project(*(f"s{n}" for n in range(6)), screen_changes=screen_changes))
    assert all(apart(found[f"s{n}"], found[f"s{(n + 1) % 6}"]) == 1 for n in range(6))


def test_what_a_screen_leads_to_stands_below_it() -> None:
    keys = ("f1", "f2", "f3", "escape")
    screen_changes = (
        *(ScreenChange(from_="menu", key=f"f{n}", to=f"page {n}") for n in (1, 2, 3)),
        *(ScreenChange(from_=f"page {n}", key="escape", to="menu") for n in (1, 2, 3)),
    )
    found = laid_out(project("menu", "page 1", "page 2", "page 3", screen_changes=screen_changes, keys=keys))
    assert {found[f"page {n}"][1] for n in (1, 2, 3)} == {STEP}
    assert found["menu"] == (STEP, 0), "in the middle above them"
    assert found["page 1"][0] < found["page 2"][0] < found["page 3"][0]


def test_each_detail_stands_below_its_screen_of_the_ring() -> None:
    ring = tuple(f"s{n}" for n in range(4))
    details = tuple(f"detail of {name}" for name in ring)
    screen_changes = (
        *(ScreenChange(from_=name, key="right", to=ring[(n + 1) % 4]) for n, name in enumerate(ring)),
        *(ScreenChange(from_=name, key="enter", to=f"detail of {name}") for name in ring),
        *(ScreenChange(from_=name, key="left", to=name.removeprefix("detail of ")) for name in details),
    )
    found = laid_out(project(*ring, *details, screen_changes=screen_changes))
    for name in ring:
        x, y = found[name]
        assert found[f"detail of {name}"] == (x, y + STEP)


def test_what_nothing_leads_to_and_overrides_stand_by_themselves() -> None:
    screen_changes = (
        *RING,
        ScreenChange(when=Condition(signal="fault"), to="alarm"),
        ScreenChange(when=Condition(signal="fault"), to="hot"),
    )
    found = laid_out(project("a", "b", "c", "d", "alarm", "hot", screen_changes=screen_changes))
    below = max(found[name][1] for name in "abcd")
    assert found["alarm"][1] > below
    assert found["hot"] == (found["alarm"][0] + STEP, found["alarm"][1])


@st.composite
def any_project(draw: st.DrawFn) -> Project:
    names = [f"s{number}" for number in range(draw(st.integers(1, 14)))]
    keys = ("left", "right", "enter", "escape")
    screen_changes = []
    for _ in range(draw(st.integers(0, 30))):
        target = st.sampled_from([*names, "next", "previous"])
        from_ = st.one_of(st.none(), st.sampled_from(names))
        screen_changes.append(ScreenChange(from_=draw(from_), key=draw(st.sampled_from(keys)), to=draw(target)))
    made = project(*names, screen_changes=tuple(screen_changes), keys=keys)
    place = st.one_of(st.none(), st.tuples(st.integers(-30, 30), st.integers(-30, 30)))
    return edits.place_screens(made, {name: draw(place) for name in names})


def covered(found: dict[str, MapPlace], among: list[str]) -> list[tuple[str, str]]:
    return [
        (one, other)
        for one in among
        for other in found
        if one < other and abs(found[one][0] - found[other][0]) < STEP and abs(found[one][1] - found[other][1]) < STEP
    ]


@given(any_project())
def test_every_screen_has_a_place_and_none_is_on_another(made: Project) -> None:
    found = laid_out(made)
    assert set(found) == set(made.screen_named)
    assert covered(found, list(found)) == []
    assert min(x for x, _ in found.values()) >= 0
    assert min(y for _, y in found.values()) >= 0


@given(any_project(), any_project())
def test_the_places_of_the_project_count_and_others_keep_clear_of_them(made: Project, shown: Project) -> None:
    seen: dict[str, Any] = {screen.name: screen.map for screen in shown.screens if screen.map is not None}
    found = places(made, PagingGraph(made), seen)
    assert list(found) == list(made.screen_named)
    fixed: dict[str, MapPlace] = {}
    for screen in made.screens:
        if screen.map is not None and screen.map not in fixed.values():
            fixed[screen.name] = screen.map
    assert {name: found[name] for name in fixed} == fixed
    assert covered(found, [name for name in found if name not in fixed]) == []


def test_of_two_screens_at_one_place_both_can_be_seen() -> None:
    made = edits.place_screens(project("a", "b"), {"a": (24, 8), "b": (24, 8)})
    assert places(made, PagingGraph(made), {}) == {"a": (24, 8), "b": (24 + STEP, 8)}


def test_what_is_shown_stays_when_something_is_added() -> None:
    before = project("a", "b", "c", "d", screen_changes=RING)
    shown = places(before, PagingGraph(before), {})
    after = edits.lead_key(edits.add_screen(before, "new", 2), "b", "enter", "new")
    found = places(after, PagingGraph(after), shown)
    assert {name: found[name] for name in shown} == shown
    assert apart(found["new"], found["b"]) <= 2


def test_a_free_place_is_the_nearest() -> None:
    assert free_place([(0, 0)], (40, 0)) == (40, 0)
    assert free_place([(0, 0)], (0, 0)) == (STEP, 0)


def test_two_hundred_screens_have_the_proportions_of_a_window() -> None:
    found = laid_out(big_project())
    width, height = (max(place[axis] for place in found.values()) // STEP + 1 for axis in (0, 1))
    assert len(found) == 200
    assert 1.2 < width * 1.7 / height < 2.4
