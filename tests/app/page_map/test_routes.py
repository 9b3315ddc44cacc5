"""The ways of arrows on the page map."""

from __future__ import annotations

from itertools import combinations, pairwise

import pytest
from hypothesis import given, settings, strategies as st

from app.page_map.boxes import Box, Gaps, Point
from app.page_map.labels import Pair
from app.page_map.layout import STEP, arranged
from app.page_map.routes import Route, Shapes, kept_shapes, routes
from app.panel.paging import PagingGraph
from app.project.model import Panel, Project, Screen, ScreenChange
from tests.big_project import big_project

GAPS = Gaps(100, 100, 40)
WIDE, HIGH = 150, 90
LABEL = (40.0, 16.0)


def box(column: float, row: float) -> Box:
    left, top = column * (WIDE + GAPS.across), row * (HIGH + GAPS.down)
    return Box(left, top, left + WIDE, top + HIGH)


def went(boxes: dict[str, Box], *pairs: Pair, hats: dict[str, float] | None = None) -> dict[Pair, Route]:
    return routes(boxes, dict.fromkeys(pairs, LABEL), GAPS, hats)


def inside(boxes: dict[str, Box], points: tuple[Point, ...]) -> list[str]:
    """The boxes that a way goes through."""
    found = []
    for name, each in boxes.items():
        for (x, y), (u, v) in pairwise(points):
            if (
                min(x, u) < each.right - 1
                and max(x, u) > each.left + 1
                and min(y, v) < each.bottom - 1
                and max(y, v) > each.top + 1
            ):
                found.append(name)
    return found


def on_edge(point: Point, of: Box) -> bool:
    x, y = point
    level = x in (of.left, of.right) and of.top <= y <= of.bottom
    return level or (y in (of.top, of.bottom) and of.left <= x <= of.right)


def test_neighbours_are_joined_by_a_straight_line() -> None:
    boxes = {"a": box(0, 0), "b": box(1, 0), "c": box(0, 1)}
    found = went(boxes, ("a", "b"), ("a", "c"))
    assert found["a", "b"].points == ((150, 45), (250, 45))
    assert found["a", "b"].label == (200, 45)
    assert found["a", "c"].points == ((75, 90), (75, 190))


def test_there_and_back_do_not_lie_on_one_another() -> None:
    boxes = {"a": box(0, 0), "b": box(1, 0), "c": box(0, 1)}
    found = went(boxes, ("a", "b"), ("b", "a"), ("a", "c"), ("c", "a"))
    assert abs(found["a", "b"].points[0][1] - found["b", "a"].points[0][1]) >= LABEL[1]
    assert abs(found["a", "c"].points[0][0] - found["c", "a"].points[0][0]) >= LABEL[0]
    assert found["a", "b"].points[0][1] > found["b", "a"].points[0][1], "each keeps to its right"


def test_a_screen_in_the_way_is_gone_around() -> None:
    boxes = {name: box(number, 0) for number, name in enumerate("abc")}
    way = went(boxes, ("a", "c"))["a", "c"].points
    assert len(way) > 2
    assert inside(boxes, way) == []


def test_an_arrow_keeps_clear_of_what_stands_on_a_screen() -> None:
    boxes = {"a": box(0, 0), "b": box(0, 1)}
    way = went(boxes, ("a", "b"), hats={"b": 0.7})["a", "b"].points
    assert all(x > boxes["b"].left + 0.7 * WIDE for x, _ in way)


def test_arrows_that_share_a_gap_go_side_by_side() -> None:
    boxes = {f"{x}{y}": box(x, y) for x in range(4) for y in range(3)}
    pairs: list[Pair] = [("00", "20"), ("00", "30"), ("10", "30"), ("30", "00")]
    found = went(boxes, *pairs)
    level = [
        (y, min(x, u), max(x, u))
        for route in found.values()
        for (x, y), (u, v) in pairwise(route.points)
        if y == v and abs(x - u) > WIDE
    ]
    for (y, left, right), (v, start, end) in combinations(level, 2):
        assert abs(y - v) > 3 or right <= start or end <= left


@given(st.sets(st.tuples(st.integers(0, 4), st.integers(0, 4)), min_size=2, max_size=12), st.data())
def test_on_a_grid_no_arrow_goes_through_a_screen(cells: set[tuple[int, int]], data: st.DataObject) -> None:
    boxes = {f"{x},{y}": box(x, y) for x, y in cells}
    names = sorted(boxes)
    pair = st.tuples(st.sampled_from(names), st.sampled_from(names)).filter(lambda each: each[0] != each[1])
    pairs = data.draw(st.sets(pair, min_size=1, max_size=10))
    hats = dict.fromkeys(data.draw(st.sets(st.sampled_from(names))), 0.7)
    for (first, last), route in went(boxes, *sorted(pairs), hats=hats).items():
        assert inside(boxes, route.points) == []
        assert on_edge(route.points[0], boxes[first])
        assert on_edge(route.points[-1], boxes[last])
        assert all(x == u or y == v for (x, y), (u, v) in pairwise(route.points))


def menus() -> Project:
    """A ring of six screens, three of which lead on to chains, and four more that keys of the first one lead to."""
    ring = ["home", "motor", "pump", "alarms", "trends", "setup"]
    screen_changes = [ScreenChange(from_=a, key="right", to=b) for a, b in pairwise([*ring, ring[0]])]
    screen_changes += [ScreenChange(from_=b, key="left", to=a) for a, b in pairwise([*ring, ring[0]])]
    names = list(ring)
    for head, count in (("motor", 4), ("pump", 3), ("setup", 6)):
        chain = [f"{head} {number}" for number in range(count)]
        names += chain
        screen_changes.append(ScreenChange(from_=head, key="enter", to=chain[0]))
        screen_changes += [ScreenChange(from_=a, key="down", to=b) for a, b in pairwise(chain)]
        screen_changes += [ScreenChange(from_=b, key="up", to=a) for a, b in pairwise(chain)]
        screen_changes += [ScreenChange(from_=each, key="escape", to=head) for each in chain]
    for number in range(4):
        names.append(f"page {number}")
        screen_changes += [
            ScreenChange(from_="home", key=f"f{number}", to=names[-1]),
            ScreenChange(from_=names[-1], key="escape", to="home"),
        ]
    keys = ("left", "right", "up", "down", "enter", "escape", "f0", "f1", "f2", "f3")
    return Project(
        panel=Panel(start="home", keys=keys),
        screens=tuple(Screen(name=name) for name in names),
        screen_changes=tuple(screen_changes),
    )


@pytest.mark.parametrize("project", [menus(), big_project(30, 40, 1)])
def test_on_an_arranged_map_no_arrow_goes_through_a_screen(project: Project) -> None:
    graph = PagingGraph(project)
    boxes = {name: box(x / STEP, y / STEP) for name, (x, y) in arranged(graph).items()}
    pairs = {(edge.source, edge.target) for edge in graph.edges if edge.source is not None}
    for pair, route in went(boxes, *sorted(pairs)).items():
        assert inside(boxes, route.points) == [], pair


place = st.tuples(st.integers(-20, 40), st.integers(-20, 40))


@given(st.lists(place, min_size=2, max_size=6, unique=True))
def test_wherever_screens_are_put_every_arrow_finds_a_way(put: list[tuple[int, int]]) -> None:
    boxes = {str(number): box(x / STEP, y / STEP) for number, (x, y) in enumerate(put)}
    pairs = [(one, other) for one in boxes for other in boxes if one != other]
    found = went(boxes, *pairs)
    assert set(found) == set(pairs)
    assert all(len(route.points) >= 2 for route in found.values())


def test_shapes_that_are_kept_give_the_same_ways() -> None:
    project = big_project(40, 40, 1)
    graph = PagingGraph(project)
    boxes = {name: box(x / STEP, y / STEP) for name, (x, y) in arranged(graph).items()}
    labels = {
        (edge.source, edge.target): LABEL for edge in graph.edges if edge.kind == "key" and edge.source is not None
    }
    shapes: Shapes = {}
    first = routes(boxes, labels, GAPS, None, shapes)
    assert set(shapes) == set(labels)
    assert routes(boxes, labels, GAPS, None, shapes) == first == routes(boxes, labels, GAPS)


@settings(deadline=None)
@given(st.integers(0, 29), st.integers(-3, 12), st.integers(-3, 9))
def test_after_a_move_every_kept_shape_still_fits(number: int, column: int, row: int) -> None:
    project = big_project(30, 40, 1)
    graph = PagingGraph(project)
    before = {name: box(x / STEP, y / STEP) for name, (x, y) in arranged(graph).items()}
    name = f"screen {number + 1}"
    now = before | {name: box(column + 0.5, row + 0.5)}
    labels = {
        (edge.source, edge.target): LABEL for edge in graph.edges if edge.kind == "key" and edge.source is not None
    }
    shapes: Shapes = {}
    routes(before, labels, GAPS, None, shapes)
    kept = kept_shapes(shapes, before, now, GAPS)
    assert kept.items() <= shapes.items()
    assert not any(name in pair for pair in kept)
    fresh = routes(now, labels, GAPS)
    mended = routes(now, labels, GAPS, None, dict(kept))
    for pair in labels:
        assert len(inside(now, mended[pair].points)) <= len(inside(now, fresh[pair].points))


@pytest.mark.parametrize("screens", [20, 80])
def test_labels_lie_on_no_screen(screens: int) -> None:
    project = big_project(screens, 40, 1)
    graph = PagingGraph(project)
    boxes = {name: box(x / STEP, y / STEP) for name, (x, y) in arranged(graph).items()}
    labels = {
        (edge.source, edge.target): LABEL for edge in graph.edges if edge.kind == "key" and edge.source is not None
    }
    for route in routes(boxes, labels, GAPS).values():
        x, y = route.label
        plate = Box(x - 20, y - 8, x + 20, y + 8)
        assert not any(plate.touches(each) for each in boxes.values())
