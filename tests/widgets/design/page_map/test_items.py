"""The page map by itself: what it shows, how it is walked, zoomed and drawn on with keys and mouse."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from PySide6.QtCore import QCoreApplication, QPoint, QPointF, Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from app import edits
from app.checks.finding import Finding
from app.panel.paging import PagingGraph
from app.project.model import Project, ScreenChange
from app.project_file.files import load
from projects import demo_path
from widgets.design.page_map.items import PageMap
from widgets.design.page_map.keys import free_keys, key_uses
from widgets.design.page_map.spoken import screen_in_words
from widgets.design.page_map.view import READABLE
from widgets.kit import palette

Key = Qt.Key
LEFT = Qt.MouseButton.LeftButton
NO = Qt.KeyboardModifier.NoModifier


@pytest.fixture
def project() -> Project:
    return load(demo_path("drying-hall"))


@pytest.fixture
def page_map(qtbot: QtBot, project: Project) -> PageMap:
    made = PageMap()
    qtbot.addWidget(made)
    made.resize(780, 560)
    show(made, project)
    with qtbot.waitExposed(made):
        made.show()
    return made


def show(page_map: PageMap, project: Project) -> None:
    page_map.set_project(project, PagingGraph(project))


def middle(page_map: PageMap, name: str) -> QPoint:
    node = page_map.nodes[name]
    return page_map.mapFromScene(node.mapToScene(node.face_rect().center()))


def label(page_map: PageMap, from_: str, to: str) -> QPoint:
    edge = next(edge for edge in page_map.edges if (edge.arrow.from_, edge.arrow.to) == (from_, to))
    return page_map.mapFromScene(edge.label_rect().center())


def tip(page_map: PageMap, from_: str, to: str) -> QPoint:
    edge = next(edge for edge in page_map.edges if (edge.arrow.from_, edge.arrow.to) == (from_, to))
    return page_map.mapFromScene(edge.tip)


def drag(page_map: PageMap, start: QPoint, end: QPoint, release: bool = True) -> None:
    port = page_map.viewport()
    QTest.mouseMove(port, start)
    QTest.mousePress(port, LEFT, NO, start)
    for part in (0.2, 0.6, 0.9, 1.0):
        at = QPointF(start) + QPointF(end - start) * part
        QTest.mouseMove(port, at.toPoint())
    if release:
        QTest.mouseRelease(port, LEFT, NO, end)


def keys_shown(page_map: PageMap, qtbot: QtBot, name: str) -> Callable[[str], QPoint]:
    """Rest the mouse on a screen; returns where the cap of each key is."""
    QTest.mouseMove(page_map.viewport(), QPoint(1, 1))
    QTest.mouseMove(page_map.viewport(), middle(page_map, name))
    qtbot.waitUntil(lambda: page_map.strip.isVisible() and page_map.strip.node is page_map.nodes[name])
    return lambda key: page_map.strip.cap_point(key, page_map)


def finding(severity: Any, *place: str | int) -> Finding:
    return Finding("a-rule", severity, "there", "wrong", "mend it", place)


# What is shown


def test_what_is_said_of_screens(page_map: PageMap) -> None:
    words = {name: node.facts.words for name, node in page_map.nodes.items()}
    assert words == {
        "hall": ("start",),
        "climate": ("1 press",),
        "recipe": ("2 presses",),
        "fan": ("1 press",),
        "fan fault": ("by condition only",),
        "too hot": ("by condition only",),
    }
    assert page_map.nodes["recipe"].facts.ring == (3, 4)
    assert page_map.nodes["too hot"].facts.ring is None


def test_a_screen_without_a_way_to_it_or_from_it_stands_out(page_map: PageMap, project: Project) -> None:
    more = edits.add_screen(edits.add_screen(project, "lost"), "stuck")
    more = more.replace(screen_changes=(ScreenChange(from_="hall", key="up", to="stuck"), *project.screen_changes[2:]))
    show(page_map, more)
    assert page_map.nodes["lost"].facts.words == ("unreachable",)
    assert "no way back" not in page_map.nodes["stuck"].facts.words, "the idle turn leads back"
    show(page_map, more.replace(screen_changes=(ScreenChange(from_="hall", key="up", to="stuck"),)))
    assert page_map.nodes["stuck"].facts.words == ("no way back", "1 press")


def test_what_leads_from_every_screen_is_an_inlet_and_no_arrow(page_map: PageMap, project: Project) -> None:
    before = len(page_map.edges)
    show(page_map, edits.add_screen_change(project, ScreenChange(key="escape", to="climate")))
    assert len(page_map.edges) == before
    assert {(inlet.inlet.to, inlet.label) for inlet in page_map.inlets} == {
        ("climate", "ESC, any screen"),
        ("hall", "after 180 s without a key"),
        ("fan fault", "when fan fault \N{NOT EQUAL TO} 0"),
        ("too hot", "when upper racks > 60"),
    }


def test_many_inlets_of_one_screen_are_told_by_their_number(page_map: PageMap, project: Project) -> None:
    for key in ("up", "down", "escape"):
        project = edits.add_screen_change(project, ScreenChange(key=key, to="hall"))
    show(page_map, project)
    labels = [inlet.label for inlet in page_map.inlets if inlet.inlet.to == "hall"]
    assert labels == ["UP, any screen", "DOWN, any screen and 2 more"]


def test_overrides_and_idle_returns_can_be_hidden(page_map: PageMap) -> None:
    page_map.set_kinds(["key", "idle"])
    assert [inlet.label for inlet in page_map.inlets] == ["after 180 s without a key"]
    page_map.set_kinds(["key", "override"])
    assert "after 180 s without a key" not in [inlet.label for inlet in page_map.inlets]


def test_findings_are_marked_on_screens_and_turns(page_map: PageMap) -> None:
    page_map.set_findings(
        [
            finding("error", "screen", 1, "field", 0),
            finding("warning", "screen", 1),
            finding("warning", "screen_change", 0),
            finding("note", "screen", 2),
        ]
    )
    assert page_map.nodes["climate"].facts.findings_words == "Errors: 1, Warnings: 1"
    assert page_map.nodes["recipe"].facts.findings_words == ""
    faulty = {edge.arrow.to for edge in page_map.edges if any(label.faulty for label in edge.labels)}
    assert faulty == {"climate", "recipe", "fan", "hall"}, "the screen change to the next screen"


def test_a_letter_on_a_screen_repaints_that_screen_alone(
    page_map: PageMap, project: Project, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    painted: list[str] = []
    of_node = type(page_map.nodes["hall"])
    paint = of_node.paint

    def watched(self: Any, *arguments: Any) -> None:
        painted.append(self.name)
        paint(self, *arguments)

    graph = PagingGraph(project)
    page_map.set_project(project, graph)
    page_map.grab()
    monkeypatch.setattr(of_node, "paint", watched)
    page_map.set_project(edits.type_text(project, "recipe", 0, 0, "Soup"), graph)
    qtbot.waitUntil(lambda: "recipe" in painted)
    assert set(painted) == {"recipe"}


def test_a_signal_that_no_screen_shows_repaints_no_screen(page_map: PageMap, project: Project) -> None:
    graph = PagingGraph(project)
    page_map.set_project(project, graph)
    page_map.grab()
    QCoreApplication.processEvents()
    updated: list[Any] = []
    page_map.map_scene.changed.connect(updated.append)
    page_map.set_project(edits.add_signal(project, edits.held_signal(name="spare", held=0)), graph)
    QCoreApplication.processEvents()
    assert updated == []
    page_map.set_project(edits.type_text(project, "recipe", 0, 0, "Soup"), graph)
    QCoreApplication.processEvents()
    assert updated != []


def test_places_of_the_project_are_kept_to(page_map: PageMap, project: Project) -> None:
    before = dict(page_map.map_scene.places)
    show(page_map, edits.place_screens(project, {"recipe": (40, 3)}))
    assert page_map.map_scene.places == before | {"recipe": (40, 3)}
    across, down = page_map.map_scene.step()
    assert page_map.nodes["recipe"].pos() == QPointF(5 * across, 3 * down / 8)


def test_a_renamed_screen_stands_where_it_stood(page_map: PageMap, project: Project) -> None:
    before = dict(page_map.map_scene.places)
    show(page_map, edits.rename_screen(project, "recipe", "dish"))
    assert page_map.map_scene.places["dish"] == before["recipe"]


def test_a_map_without_screens_is_empty(page_map: PageMap, project: Project) -> None:
    show(page_map, project.replace(screens=(), screen_changes=(), actions=()))
    assert page_map.nodes == {}
    QTest.keyClick(page_map, Key.Key_Right)
    assert page_map.selected_screen() is None
    page_map.grab()


# Walking and looking


def test_keys_walk_from_screen_to_screen(page_map: PageMap, qtbot: QtBot) -> None:
    page_map.select_screen("hall")
    with qtbot.waitSignal(page_map.screen_chosen) as chosen:
        QTest.keyClick(page_map, Key.Key_Right)
    assert chosen.args == ["climate"]
    assert "climate; 1 press; number 2 of 4 in the ring" in page_map.accessibleDescription()
    assert "RIGHT \N{RIGHTWARDS ARROW} recipe" in page_map.accessibleDescription()
    with qtbot.waitSignal(page_map.screen_opened) as opened:
        QTest.keyClick(page_map, Key.Key_Return)
    assert opened.args == ["climate"]
    QTest.keyClick(page_map, Key.Key_Right)
    assert page_map.selected_screen() == "climate", "nothing lies further that way"
    QTest.keyClick(page_map, Key.Key_Home)
    assert page_map.selected_screen() == "hall"


def test_keys_walk_through_the_turns_of_a_screen(page_map: PageMap, project: Project) -> None:
    page_map.select_screen("hall")
    QTest.keyClick(page_map, Key.Key_PageDown)
    assert page_map.accessibleDescription() == "Screen change from hall to fan: LEFT"
    QTest.keyClick(page_map, Key.Key_PageDown)
    assert page_map.accessibleDescription() == "Screen change from hall to climate: RIGHT"
    QTest.keyClick(page_map, Key.Key_PageDown)
    assert page_map.accessibleDescription() == "Screen change from every screen to hall: after 180 s without a key"
    assert project.screen_changes[page_map.selected_screen_change() or 0].idle_s == 180
    QTest.keyClick(page_map, Key.Key_PageDown)
    assert page_map.accessibleDescription() == "Screen change from hall to fan: LEFT"
    QTest.keyClick(page_map, Key.Key_Left)
    assert page_map.selected_screen() == "hall", "back to the screen"


def test_the_turns_of_one_arrow_are_gone_through(page_map: PageMap, project: Project) -> None:
    show(page_map, edits.lead_key(project, "hall", "up", "climate"))
    page_map.select_screen("hall")
    QTest.keyClick(page_map, Key.Key_PageDown)
    QTest.keyClick(page_map, Key.Key_PageDown)
    assert page_map.accessibleDescription() == "Screen change from hall to climate: RIGHT; 1 of 2 here"
    QTest.keyClick(page_map, Key.Key_PageDown)
    assert page_map.accessibleDescription() == "Screen change from hall to climate: UP; 2 of 2 here"
    QTest.mouseClick(page_map.viewport(), LEFT, NO, label(page_map, "hall", "climate"))
    assert "RIGHT; 1 of 2" in page_map.accessibleDescription(), "a click on it goes to the next"


def test_several_screens_are_selected_and_moved_with_keys(page_map: PageMap, qtbot: QtBot) -> None:
    page_map.select_screen("hall")
    QTest.keyClick(page_map, Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    assert set(page_map.selected_screens()) == {"hall", "climate"}
    before = page_map.map_scene.places
    with qtbot.waitSignal(page_map.screens_placed) as moved:
        QTest.keyClick(page_map, Key.Key_Down, Qt.KeyboardModifier.ControlModifier)
    assert moved.args == [{name: (before[name][0], before[name][1] + 1) for name in ("hall", "climate")}]


def test_an_arrow_is_chosen_by_its_label(page_map: PageMap, project: Project, qtbot: QtBot) -> None:
    with qtbot.waitSignal(page_map.screen_change_chosen) as chosen:
        QTest.mouseClick(page_map.viewport(), LEFT, NO, label(page_map, "hall", "climate"))
    assert project.screen_changes[chosen.args[0]].to == "next"
    with qtbot.waitSignal(page_map.screen_change_chosen) as left:
        QTest.mouseClick(page_map.viewport(), LEFT, NO, QPoint(2, 2))
    assert left.args == [-1]


def test_zoom_by_keys(page_map: PageMap) -> None:
    before = page_map.transform().m11()
    QTest.keyClicks(page_map, "-")
    assert page_map.transform().m11() < before
    QTest.keyClicks(page_map, "+")
    assert page_map.transform().m11() == pytest.approx(before)


def test_a_big_map_stays_readable_and_can_be_seen_whole(page_map: PageMap, big_project: Project) -> None:
    page_map.forget()
    show(page_map, big_project)
    assert page_map.transform().m11() == pytest.approx(READABLE)
    QTest.keyClicks(page_map, "0")
    assert page_map.transform().m11() < READABLE
    whole = page_map.mapFromScene(page_map.map_scene.content_rect()).boundingRect()
    assert page_map.viewport().rect().adjusted(-2, -2, 2, 2).contains(whole)
    page_map.select_screen("screen 150")
    page_map.fit_selection()
    assert page_map.viewport().rect().contains(middle(page_map, "screen 150"))
    assert page_map.transform().m11() > READABLE


def test_arrows_are_seen_from_afar(page_map: PageMap, big_project: Project) -> None:
    page_map.forget()
    show(page_map, big_project)
    page_map.fit()
    with_arrows = page_map.grab().toImage()
    page_map.set_kinds(["idle"])
    assert page_map.grab().toImage() != with_arrows
    page_map.set_kinds(["key", "idle", "override"])
    assert page_map.grab().toImage() == with_arrows


def test_a_letter_begins_a_search(page_map: PageMap, qtbot: QtBot) -> None:
    with qtbot.waitSignal(page_map.search_begun) as begun:
        QTest.keyClick(page_map, Key.Key_F)
    assert begun.args == ["f"]


# Drawing and dragging


def test_a_turn_is_drawn_from_a_key_to_a_screen(page_map: PageMap, qtbot: QtBot) -> None:
    cap = keys_shown(page_map, qtbot, "hall")
    with qtbot.waitSignal(page_map.screen_change_drawn) as drawn:
        drag(page_map, cap("up"), middle(page_map, "too hot"))
    assert drawn.args == ["hall", "up", "too hot"]


def test_a_turn_is_dropped_on_an_empty_place(page_map: PageMap, qtbot: QtBot) -> None:
    cap = keys_shown(page_map, qtbot, "hall")
    with qtbot.waitSignal(page_map.screen_change_dropped) as dropped:
        drag(page_map, cap("down"), QPoint(30, 540))
    assert dropped.args[:2] == ["hall", "down"]
    x, y = dropped.args[2]
    assert x < page_map.map_scene.places["hall"][0]
    assert y > page_map.map_scene.places["hall"][1]


def test_escape_and_the_own_screen_give_a_turn_up(page_map: PageMap, qtbot: QtBot) -> None:
    cap = keys_shown(page_map, qtbot, "hall")
    drawn: list[object] = []
    page_map.screen_change_drawn.connect(lambda *arguments: drawn.append(arguments))
    page_map.screen_change_dropped.connect(lambda *arguments: drawn.append(arguments))
    count = len(page_map.scene().items())
    drag(page_map, cap("up"), middle(page_map, "too hot"), release=False)
    assert page_map.nodes["too hot"].lit
    QTest.keyClick(page_map, Key.Key_Escape)
    assert not page_map.nodes["too hot"].lit
    assert len(page_map.scene().items()) == count, "the rubber is gone"
    QTest.mouseRelease(page_map.viewport(), LEFT, NO, middle(page_map, "too hot"))
    cap = keys_shown(page_map, qtbot, "hall")
    drag(page_map, cap("up"), middle(page_map, "hall"))
    assert drawn == []


def test_the_head_of_an_arrow_is_led_to_another_screen(page_map: PageMap, project: Project, qtbot: QtBot) -> None:
    own = edits.lead_key(project, "too hot", "up", "recipe")
    show(page_map, own)
    with qtbot.waitSignal(page_map.screen_change_redirected) as led:
        drag(page_map, tip(page_map, "too hot", "recipe") + QPoint(3, 0), middle(page_map, "climate"))
    assert own.screen_changes[led.args[0]].key == "up"
    assert led.args[1:] == ["too hot", "climate"]


def test_an_inlet_is_led_to_another_screen(page_map: PageMap, project: Project, qtbot: QtBot) -> None:
    inlet = next(inlet for inlet in page_map.inlets if inlet.inlet.to == "hall")
    start = page_map.mapFromScene(inlet.label_rect().center())
    with qtbot.waitSignal(page_map.screen_change_redirected) as led:
        drag(page_map, start, middle(page_map, "climate"))
    assert project.screen_changes[led.args[0]].idle_s == 180
    assert led.args[1:] == [None, "climate"]


def test_a_dragged_screen_is_placed(page_map: PageMap, qtbot: QtBot) -> None:
    across, down = (step * page_map.transform().m11() for step in page_map.map_scene.step())
    x, y = page_map.map_scene.places["fan"]
    start = middle(page_map, "fan")
    before = {edge: edge.tip for edge in page_map.edges if edge.arrow.from_ == "fan"}
    with qtbot.waitSignal(page_map.screens_placed) as placed:
        drag(page_map, start, start + QPoint(round(across / 4), round(down / 8)))
    assert placed.args == [{"fan": (x + 2, y + 1)}]
    assert before


def test_a_screen_dragged_onto_an_arrow_of_the_ring_takes_its_place_there(page_map: PageMap, qtbot: QtBot) -> None:
    # From between climate and fan to between hall and climate.
    edge = next(edge for edge in page_map.edges if (edge.arrow.from_, edge.arrow.to) == ("hall", "climate"))
    between = page_map.mapFromScene(edge.label_rect().center())
    with qtbot.waitSignal(page_map.ring_moved) as moved:
        drag(page_map, middle(page_map, "recipe"), between)
    assert moved.args == ["recipe", 1]
    assert page_map.map_scene.places["recipe"] == page_map.map_scene.place_of(page_map.nodes["recipe"].pos())


def test_escape_puts_dragged_screens_back(page_map: PageMap) -> None:
    before = page_map.nodes["recipe"].pos()
    placed: list[object] = []
    page_map.screens_placed.connect(placed.append)
    start = middle(page_map, "recipe")
    drag(page_map, start, start + QPoint(60, 60), release=False)
    assert page_map.nodes["recipe"].pos() != before
    QTest.keyClick(page_map, Key.Key_Escape)
    assert page_map.nodes["recipe"].pos() == before
    QTest.mouseRelease(page_map.viewport(), LEFT, NO, start)
    assert placed == []


def test_a_double_click_opens(page_map: PageMap, qtbot: QtBot) -> None:
    with qtbot.waitSignal(page_map.screen_opened) as opened:
        QTest.mouseDClick(page_map.viewport(), LEFT, NO, middle(page_map, "recipe"))
    assert opened.args == ["recipe"]
    QTest.mouseRelease(page_map.viewport(), LEFT, NO, middle(page_map, "recipe"))
    with qtbot.waitSignal(page_map.screen_change_opened):
        QTest.mouseDClick(page_map.viewport(), LEFT, NO, label(page_map, "hall", "climate"))
    QTest.mouseRelease(page_map.viewport(), LEFT, NO, label(page_map, "hall", "climate"))


def test_the_keys_of_a_screen_tell_what_they_do(page_map: PageMap, qtbot: QtBot) -> None:
    cap = keys_shown(page_map, qtbot, "hall")
    QTest.mouseMove(page_map.viewport(), cap("right"))
    assert page_map.strip.toolTip() == (
        "right: goes to climate, from every screen. Drag it to the screen that it should go to."
    )
    QTest.mouseMove(page_map.viewport(), cap("start"))
    assert "fan control" in page_map.strip.toolTip()
    QTest.mouseMove(page_map.viewport(), cap("up"))
    assert page_map.strip.toolTip() == "up: free. Drag it to the screen that it should go to."


# The band of what no key leads to


def test_what_no_key_leads_to_stands_in_a_band_below_with_its_condition(page_map: PageMap, project: Project) -> None:
    scene = page_map.map_scene
    assert scene.band == {"fan fault", "too hot"}
    top = scene.band_top()
    assert top is not None
    for name, node in page_map.nodes.items():
        assert (page_map.rect_of(node).top() > top) == (name in scene.band)
    for inlet in page_map.inlets:
        if inlet.inlet.to in scene.band:
            card = page_map.rect_of(page_map.nodes[inlet.inlet.to])
            assert inlet.label_rect().right() < card.left(), "beside it"
            assert card.top() < inlet.label_rect().center().y() < card.bottom()
    image = page_map.grab().toImage()
    below = page_map.mapFromScene(QPointF(0, top)).y() + 3
    assert image.pixelColor(2, below).name() == palette.current().pane
    assert image.pixelColor(2, below - 8).name() == palette.current().canvas
    page_map.select_screen("climate")
    show(page_map, edits.lead_key(project, "climate", "up", "too hot"))
    assert scene.band == {"fan fault"}
    assert page_map.rect_of(page_map.nodes["too hot"]).bottom() < (scene.band_top() or 0)
    show(page_map, edits.place_screens(project, {"fan fault": (90, 3)}))
    assert scene.band == {"too hot"}, "one with a place of its own stands there"


def test_a_screen_is_dragged_out_of_the_band_and_back(page_map: PageMap, project: Project, qtbot: QtBot) -> None:
    placed: list[dict[str, object]] = []
    page_map.screens_placed.connect(placed.append)
    start = middle(page_map, "too hot")
    drag(page_map, start, start + QPoint(30, 5))
    assert placed == [], "within the band it has no place of its own"
    with qtbot.waitSignal(page_map.screens_placed) as moved:
        drag(page_map, start, QPoint(page_map.viewport().width() // 2, 30))
    place = moved.args[0]["too hot"]
    show(page_map, edits.place_screens(project, {"too hot": place}))
    assert page_map.map_scene.places["too hot"] == place
    with qtbot.waitSignal(page_map.screens_placed) as back:
        drag(page_map, middle(page_map, "too hot"), middle(page_map, "fan fault"))
    assert back.args == [{"too hot": None}]


def test_a_screen_of_the_band_says_what_leads_back(page_map: PageMap, project: Project) -> None:
    assert page_map.nodes["fan fault"].facts.back == ("left", "right")
    show(page_map, edits.lead_key(project, "fan fault", "escape", "hall"))
    assert list(page_map.nodes["fan fault"].facts.back) == ["left", "right", "escape"]
    assert "ESC \N{RIGHTWARDS ARROW} hall" in screen_in_words(
        page_map.nodes["fan fault"], page_map.map_scene.screen_change_items()
    )


def test_the_chosen_screen_shows_its_free_keys_to_drag(page_map: PageMap, project: Project, qtbot: QtBot) -> None:
    page_map.select_screen("recipe")
    page_map.fit_selection()
    qtbot.waitUntil(lambda: page_map.free.isVisible())
    free = page_map.free.cap_point("up", page_map)
    card = page_map.mapFromScene(page_map.rect_of(page_map.nodes["recipe"])).boundingRect()
    assert card.right() < free.x()
    assert card.top() < free.y() < card.center().y(), "beside its name"
    with pytest.raises(KeyError):
        page_map.free.cap_point("right", page_map)
    page_map.fit()
    qtbot.waitUntil(lambda: page_map.free.isVisible())
    page_map.select_screen("hall")
    page_map.choose((page_map.nodes["hall"],))
    with qtbot.waitSignal(page_map.screen_change_drawn) as drawn:
        drag(page_map, page_map.free.cap_point("up", page_map), middle(page_map, "too hot"))
    assert drawn.args == ["hall", "up", "too hot"]
    page_map.choose((page_map.nodes["hall"], page_map.nodes["fan"]))
    assert not page_map.free.isVisible()
    page_map.choose((page_map.nodes["hall"],))
    begins = project.panel.entry.begin
    for name, enters in (("hall", False), ("recipe", True)):
        assert any(field.entry for field in project.screen_named[name].fields) == enters
        idle = [use.key for use in key_uses(project, name) if use.words == "free"]
        assert begins in idle
        assert [use.key for use in free_keys(project, name)] == [key for key in idle if key != begins or not enters]
    page_map.zoom(0.3)
    qtbot.waitUntil(lambda: not page_map.free.isVisible())
