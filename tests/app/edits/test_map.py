"""The page map: places of screens, the order of the ring, screen changes that are drawn."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, strategies as st

from app import edits
from app.edits import EditRefused
from app.project.model import Panel, Project, Screen, ScreenChange
from app.project_file.files import dump, parse


def names(project: Project) -> list[str]:
    return [screen.name for screen in project.screens]


def plain(*screens: str) -> Project:
    return Project(panel=Panel(start=screens[0]), screens=tuple(Screen(name=name) for name in screens))


def test_places_are_kept_in_the_file(project: Project) -> None:
    after = edits.place_screens(project, {"run": (8, -4), "fault": (0, 16)})
    assert parse(dump(after)).screen_named["run"].map == (8, -4)
    assert "map = [8, -4]\n" in dump(after)
    assert after.screen_named["status"] is project.screen_named["status"]
    assert edits.place_screens(after, {"run": None, "fault": None}) == project


def test_what_stands_there_already_is_no_edit(project: Project) -> None:
    after = edits.place_screens(project, {"run": (8, -4)})
    assert edits.place_screens(after, {"run": (8, -4)}) is after


@pytest.mark.parametrize(
    ("places", "words"),
    [({"nowhere": (0, 0)}, "screen 'nowhere' does not exist"), ({"run": (0, 20_000)}, "map")],
)
def test_places_that_cannot_be(project: Project, places: dict[str, tuple[int, int]], words: str) -> None:
    with pytest.raises(EditRefused, match=words):
        edits.place_screens(project, places)


def test_a_copy_of_a_screen_does_not_lie_on_it(project: Project) -> None:
    placed = edits.place_screens(project, {"run": (8, -4)})
    assert edits.duplicate_screen(placed, "run", "copy").screen_named["copy"].map is None


@given(st.data())
def test_the_ring_is_reordered_and_its_places_stay(data: st.DataObject) -> None:
    ring = [f"s{number}" for number in range(data.draw(st.integers(2, 6)))]
    outside = [f"o{number}" for number in range(data.draw(st.integers(0, 3)))]
    order = data.draw(st.permutations([*ring, *outside]))
    ring = [name for name in order if name in ring]
    before = edits.place_screens(plain(*order), {name: (8 * number, 0) for number, name in enumerate(ring)})
    name = data.draw(st.sampled_from(ring))
    to = data.draw(st.integers(0, len(ring) - 1))
    after = edits.reorder_ring(before, name, to, ring)
    wanted = [each for each in ring if each != name]
    wanted.insert(to, name)
    assert [each for each in names(after) if each in ring] == wanted
    assert [each for each in names(after) if each in outside] == [each for each in order if each in outside]
    assert [after.screen_named[each].map for each in wanted] == [before.screen_named[each].map for each in ring]


def test_a_screen_of_the_ring_that_stays_is_no_edit() -> None:
    project = plain("a", "b", "c")
    assert edits.reorder_ring(project, "b", 1, ("a", "b", "c")) is project


@given(st.data())
def test_a_ring_of_turns_is_linked_anew(data: st.DataObject) -> None:
    ring = [f"s{number}" for number in range(data.draw(st.integers(3, 6)))]
    before = plain(*ring, "other")
    for a, b in pairwise([*ring, ring[0]]):
        before = edits.lead_key(edits.lead_key(before, a, "right", b), b, "left", a)
    before = edits.add_screen_change(before, ScreenChange(from_=ring[0], key="up", to="other"))
    before = edits.place_screens(before, {name: (8 * number, 0) for number, name in enumerate(ring)})
    name = data.draw(st.sampled_from(ring))
    to = data.draw(st.integers(0, len(ring) - 1))
    after = edits.relink_ring(before, name, to, ring, ("right", "left"))
    wanted = [each for each in ring if each != name]
    wanted.insert(to, name)
    leads = {(screen_change.from_, screen_change.key): screen_change.to for screen_change in after.screen_changes}
    assert all(leads[a, "right"] == b and leads[b, "left"] == a for a, b in pairwise([*wanted, wanted[0]]))
    assert len(after.screen_changes) == len(before.screen_changes)
    assert leads[ring[0], "up"] == "other"
    assert names(after) == names(before), "the order of the file is not what makes this ring"
    assert [after.screen_named[each].map for each in wanted] == [before.screen_named[each].map for each in ring]


def test_a_key_leads_to_another_screen() -> None:
    project = plain("a", "b", "c")
    once = edits.lead_key(project, "a", "right", "b")
    assert once.screen_changes == (ScreenChange(from_="a", key="right", to="b"),)
    assert edits.lead_key(once, "a", "right", "c").screen_changes == (ScreenChange(from_="a", key="right", to="c"),)
    assert edits.lead_key(once, "b", "right", "c").screen_changes == (
        *once.screen_changes,
        ScreenChange(from_="b", key="right", to="c"),
    )


def test_what_a_key_does_from_every_screen_stays_for_the_others() -> None:
    project = plain("a", "b", "c")
    shared = edits.add_screen_change(project, ScreenChange(key="right", to="next"))
    after = edits.lead_key(shared, "a", "right", "c")
    assert after.screen_changes == (ScreenChange(key="right", to="next"), ScreenChange(from_="a", key="right", to="c"))


def test_a_key_leads_there_from_every_screen() -> None:
    own = edits.lead_key(plain("a", "b", "c"), "a", "right", "c")
    shared = edits.lead_key(own, None, "right", "b")
    assert shared.screen_changes == (*own.screen_changes, ScreenChange(key="right", to="b"))
    assert edits.lead_key(shared, None, "right", "next").screen_changes == (
        *own.screen_changes,
        ScreenChange(key="right", to="next"),
    )


def test_a_key_cannot_lead_nowhere() -> None:
    with pytest.raises(EditRefused, match="nowhere"):
        edits.lead_key(plain("a", "b"), "a", "right", "nowhere")
