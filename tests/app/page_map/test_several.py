"""Several screens of the map at once."""

from __future__ import annotations

from itertools import pairwise

from hypothesis import given, strategies as st

from app import edits
from app.page_map.several import in_line, ring_keys, spread
from app.project.model import Action, Panel, Project, Screen, ScreenChange

PLACES = st.dictionaries(st.sampled_from("abcdefgh"), st.tuples(st.integers(-50, 50), st.integers(-50, 50)), min_size=2)


def panel(*keys: str, **more: object) -> Project:
    screens = tuple(Screen(name=name) for name in "abc")
    return Project.model_validate({"panel": Panel(start="a", keys=keys), "screens": screens} | more)


def test_pairs_that_do_nothing_yet_come_first_and_taken_ones_last() -> None:
    project = panel("up", "down", "left", "right", "f1")
    assert ring_keys(project, "abc")[:3] == (("right", "left"), ("down", "up"), ("up",))
    taken = project.replace(
        screen_changes=(ScreenChange(from_="b", key="right", to="c"),), actions=(Action(key="f1", do="begin-entry"),)
    )
    assert ring_keys(taken, "abc") == (("down", "up"), ("up",), ("down",), ("left",), ("right", "left"))
    assert ring_keys(taken, "ac")[0] == ("right", "left")
    assert ring_keys(panel("one", "two"), "abc") == (("one", "two"), ("one",), ("two",))
    assert ring_keys(panel(), "abc") == ()


@given(PLACES)
def test_in_line_keeps_the_order_along_it(places: dict[str, tuple[int, int]]) -> None:
    row, column = in_line(places, "row"), in_line(places, "column")
    assert {place[1] for place in row.values()} == {min(place[1] for place in places.values())}
    assert {place[0] for place in column.values()} == {min(place[0] for place in places.values())}
    assert {name: place[0] for name, place in row.items()} == {name: place[0] for name, place in places.items()}


@given(PLACES)
def test_spread_screens_are_equally_far_apart_between_the_outermost(places: dict[str, tuple[int, int]]) -> None:
    after = spread(places, "row")
    before = sorted(place[0] for place in places.values())
    across = sorted(place[0] for place in after.values())
    assert (across[0], across[-1]) == (before[0], before[-1])
    gaps = [two - one for one, two in pairwise(across)]
    assert max(gaps) - min(gaps) <= 1
    assert {name: place[1] for name, place in after.items()} == {name: place[1] for name, place in places.items()}


def test_a_ring_and_the_way_back_are_screen_changes_of_their_own() -> None:
    project = edits.make_ring(panel("left", "right", "escape"), "abc", ("right", "left"))
    made = {(each.from_, each.key, each.to) for each in project.screen_changes}
    assert made == {(a, "right", b) for a, b in ("ab", "bc", "ca")} | {(b, "left", a) for a, b in ("ab", "bc", "ca")}
    assert edits.make_ring(project, "abc", ("right", "left")) is project
    back = edits.lead_back(project, "abc", "a", "escape").screen_changes[len(made) :]
    assert [(each.from_, each.key, each.to) for each in back] == [("b", "escape", "a"), ("c", "escape", "a")]
