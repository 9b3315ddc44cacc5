"""The page map: which arrows are drawn, where nodes go, how it is walked and zoomed."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, QRectF, QSizeF, Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from app.panel.paging import PagingGraph
from app.project.files import load
from app.project.model import Project, Turn
from projects import demo_path
from widgets.page_map import READABLE, PageMap, arrows_of, node_size, places_of


@pytest.fixture
def project() -> Project:
    return load(demo_path("booster-pump"))


@pytest.fixture
def page_map(qtbot: QtBot, project: Project) -> PageMap:
    made = PageMap()
    qtbot.addWidget(made)
    made.resize(780, 460)
    made.set_project(project, PagingGraph.of(project))
    with qtbot.waitExposed(made):
        made.show()
    return made


def test_turns_between_the_same_two_screens_share_an_arrow(project: Project) -> None:
    more = project.but(turns=(*project.turns, Turn(from_="run", key="up", to="measured")))
    arrows = {(arrow.from_, arrow.to): arrow for arrow in arrows_of(more, PagingGraph.of(more))}
    assert set(arrows["run", "measured"].label.split(", ")) == {"right", "up"}
    assert len(arrows["run", "measured"].turns) == 2


def test_what_leads_from_every_screen_is_a_mark_and_no_arrow(project: Project, page_map: PageMap) -> None:
    home = project.but(turns=(*project.turns, Turn(key="escape", to="run")))
    assert len(arrows_of(home, PagingGraph.of(home))) == len(arrows_of(project, PagingGraph.of(project)))
    page_map.set_project(home, PagingGraph.of(home))
    assert "key escape from every screen" in page_map.nodes["run"].marks.words


def test_no_two_nodes_lie_on_one_another(project: Project, big_project: Project) -> None:
    for each in (project, big_project):
        size = node_size(each.panel.columns, each.panel.rows)
        areas = [QRectF(place, QSizeF(*size)) for place in places_of(each, *size).values()]
        assert len(areas) == len(each.screens)
        assert not any(one.intersects(other) for n, one in enumerate(areas) for other in areas[:n])


def test_a_big_map_stays_readable_and_can_be_seen_whole(page_map: PageMap, big_project: Project) -> None:
    page_map.set_project(big_project, PagingGraph.of(big_project))
    assert page_map.transform().m11() == pytest.approx(READABLE)
    QTest.keyClicks(page_map, "0")
    assert page_map.transform().m11() < READABLE
    whole = page_map.mapFromScene(page_map.sceneRect()).boundingRect()
    assert page_map.viewport().rect().adjusted(-2, -2, 2, 2).contains(whole)


def test_keys_walk_from_node_to_node(page_map: PageMap, qtbot: QtBot) -> None:
    page_map.select_screen("run")
    with qtbot.waitSignal(page_map.screen_chosen) as chosen:
        QTest.keyClick(page_map, Qt.Key.Key_Right)
    assert chosen.args == ["measured"]
    assert "measured" in page_map.accessibleDescription()
    assert "right \N{RIGHTWARDS ARROW} times" in page_map.accessibleDescription()
    with qtbot.waitSignal(page_map.screen_opened) as opened:
        QTest.keyClick(page_map, Qt.Key.Key_Return)
    assert opened.args == ["measured"]
    QTest.keyClick(page_map, Qt.Key.Key_Right)
    assert page_map.selected_screen() == "measured", "nothing lies further that way"


def test_zoom_by_keys(page_map: PageMap) -> None:
    before = page_map.transform().m11()
    QTest.keyClicks(page_map, "-")
    assert page_map.transform().m11() < before
    QTest.keyClicks(page_map, "+")
    assert page_map.transform().m11() == pytest.approx(before)


def test_an_arrow_is_chosen_by_its_label(page_map: PageMap, project: Project, qtbot: QtBot) -> None:
    edge = next(edge for edge in page_map.edges if (edge.arrow.from_, edge.arrow.to) == ("run", "measured"))
    point: QPoint = page_map.mapFromScene(edge.label_rect().center())
    with qtbot.waitSignal(page_map.turn_chosen) as chosen:
        QTest.mouseClick(page_map.viewport(), Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, point)
    assert project.turns[chosen.args[0]].to == "measured"
    with qtbot.waitSignal(page_map.turn_chosen) as left:
        QTest.mouseClick(page_map.viewport(), Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, QPoint(2, 2))
    assert left.args == [-1]


def test_a_map_without_screens_is_empty(page_map: PageMap, project: Project) -> None:
    bare = project.but(screens=(), turns=(), actions=())
    page_map.set_project(bare, PagingGraph.of(bare))
    assert page_map.nodes == {}
    QTest.keyClick(page_map, Qt.Key.Key_Right)
    assert page_map.selected_screen() is None
