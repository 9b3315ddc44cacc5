"""The page map in the Design workplace: what is drawn, dragged and chosen there becomes steps of the document."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings, strategies as st
from PySide6.QtCore import QPoint, QPointF, Qt, QTimer
from PySide6.QtGui import QContextMenuEvent, QPalette
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMenu
from pytestqt.qtbot import QtBot

from app import edits
from app.project.model import ScreenChange
from app.project_file.files import dump, load, parse
from projects import demo_path
from widgets.design.page_map.add_screen_change import ScreenChangeDialog
from widgets.design.page_map.items import PageMap
from widgets.design.workspace import DesignWorkspace
from widgets.document.document import Document
from widgets.kit import scaling
from widgets.kit.palette import DARK, LIGHT, Appearance, Theme

Key = Qt.Key
LEFT = Qt.MouseButton.LeftButton
NO = Qt.KeyboardModifier.NoModifier
ALT = Qt.KeyboardModifier.AltModifier
CTRL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def document() -> Document:
    return Document(load(demo_path("drying-hall")))


@pytest.fixture
def design(qtbot: QtBot, document: Document) -> DesignWorkspace:
    made = DesignWorkspace(document)
    qtbot.addWidget(made)
    made.resize(1366, 700)
    with qtbot.waitExposed(made):
        made.show()
    made.show_view("map")
    made.map.setFocus()
    return made


def ground(page_map: PageMap) -> str:
    return page_map.viewport().grab().toImage().pixelColor(2, 2).name()


def test_it_takes_another_palette_also_behind_another_view(
    design: DesignWorkspace, qapp: QApplication, qtbot: QtBot
) -> None:
    theme = Theme(qapp)
    theme.choose(Appearance.LIGHT)
    qtbot.waitUntil(lambda: ground(design.map) == LIGHT.canvas)
    design.show_view("signals")
    design.document.open(load(demo_path("booster-pump")), None)
    theme.choose(Appearance.DARK)
    qtbot.waitUntil(lambda: design.map.palette().color(QPalette.ColorRole.Base).name() == DARK.base)
    design.show_view("map")
    assert ground(design.map) == DARK.canvas
    theme.choose(Appearance.LIGHT)
    theme.deleteLater()


def middle(page_map: PageMap, name: str) -> QPoint:
    node = page_map.nodes[name]
    return page_map.mapFromScene(node.mapToScene(node.face_rect().center()))


def drag(page_map: PageMap, start: QPoint, end: QPoint) -> None:
    port = page_map.viewport()
    QTest.mouseMove(port, start)
    QTest.mousePress(port, LEFT, NO, start)
    for part in (0.3, 0.8, 1.0):
        QTest.mouseMove(port, (QPointF(start) + QPointF(end - start) * part).toPoint())
    QTest.mouseRelease(port, LEFT, NO, end)


def cap(design: DesignWorkspace, qtbot: QtBot, screen: str, key: str) -> QPoint:
    page_map = design.map
    QTest.mouseMove(page_map.viewport(), QPoint(1, 1))
    QTest.mouseMove(page_map.viewport(), middle(page_map, screen))
    qtbot.waitUntil(lambda: page_map.strip.isVisible() and page_map.strip.node is page_map.nodes[screen])
    return page_map.strip.cap_point(key, page_map)


def ring(document: Document) -> list[str]:
    return [screen.name for screen in document.project.screens][:4]


# Screen changes


def test_a_turn_that_is_drawn_is_one_step(design: DesignWorkspace, document: Document, qtbot: QtBot) -> None:
    before = document.project
    drag(design.map, cap(design, qtbot, "hall", "up"), middle(design.map, "recipe"))
    assert document.project.screen_changes[-1] == ScreenChange(from_="hall", key="up", to="recipe")
    assert document.undo_name == "Draw screen change"
    assert design.map.accessibleDescription() == "Screen change from hall to recipe: UP"
    assert design.navigator.sentence.isVisible()
    document.undo()
    assert document.project is before


def test_a_key_that_leads_somewhere_already_is_led_elsewhere(
    design: DesignWorkspace, document: Document, qtbot: QtBot
) -> None:
    document.do("Draw screen change", lambda project: edits.lead_key(project, "hall", "up", "recipe"))
    count = len(document.project.screen_changes)
    drag(design.map, cap(design, qtbot, "hall", "up"), middle(design.map, "fan"))
    assert len(document.project.screen_changes) == count
    assert document.project.screen_changes[-1] == ScreenChange(from_="hall", key="up", to="fan")


def test_the_head_of_a_shared_arrow_makes_a_turn_for_its_screen_only(
    design: DesignWorkspace, document: Document
) -> None:
    shared = document.project.screen_changes
    edge = next(e for e in design.map.edges if (e.arrow.from_, e.arrow.to) == ("climate", "recipe"))
    drag(design.map, design.map.mapFromScene(edge.tip) - QPoint(0, 4), middle(design.map, "too hot"))
    assert document.project.screen_changes == (*shared, ScreenChange(from_="climate", key="right", to="too hot"))


def test_a_turn_drawn_to_an_empty_place_may_make_a_screen_there(
    design: DesignWorkspace, document: Document, qtbot: QtBot
) -> None:
    drag(design.map, cap(design, qtbot, "hall", "up"), QPoint(20, 20))
    menu = QApplication.activePopupWidget()
    assert isinstance(menu, QMenu)
    QTest.keyClick(menu, Key.Key_Down)
    QTest.keyClick(menu, Key.Key_Return)
    assert document.undo_name == "Draw screen change to a new screen"
    assert document.project.screen_changes[-1] == ScreenChange(from_="hall", key="up", to="screen")
    assert document.project.screen_named["screen"].map == design.map.map_scene.places["screen"]
    assert document.selection.screen == "screen"
    document.undo()
    assert "screen" not in document.project.screen_named
    assert document.undo_name is None


def test_a_turn_is_added_by_keyboard(design: DesignWorkspace, document: Document, qtbot: QtBot) -> None:
    design.map.select_screen("hall")
    told: list[str] = []

    def fill() -> None:
        dialog = QApplication.activeModalWidget()
        assert isinstance(dialog, ScreenChangeDialog)
        assert dialog.windowTitle() == "Add screen change from 'hall'"
        told.append(dialog.told.text())
        QTest.keyClick(dialog.keys, Key.Key_Home)
        told.append(dialog.told.text())
        dialog.search.setFocus()
        QTest.keyClicks(dialog.search, "rec")
        QTest.keyClick(dialog.search, Key.Key_Return)

    QTimer.singleShot(0, fill)
    design.map_pane.screen_change_action.trigger()
    assert told == [
        "The key UP is free on this screen.",
        "On the other screens the key LEFT stays as it is.",
    ]
    assert document.project.screen_changes[-1] == ScreenChange(from_="hall", key="left", to="recipe")


def test_the_delete_key_takes_the_selected_turn(design: DesignWorkspace, document: Document) -> None:
    document.do("Draw screen change", lambda project: edits.lead_key(project, "too hot", "up", "recipe"))
    before = document.project.screen_changes
    design.map.select_screen_change(len(before) - 1)
    QTest.keyClick(design.map, Key.Key_Delete)
    assert document.project.screen_changes == before[:-1]
    assert document.undo_name == "Delete screen change"
    assert design.map.selected_screen() == "too hot"


def test_a_turn_for_every_screen_goes_only_after_a_question(design: DesignWorkspace, document: Document) -> None:
    before = document.project.screen_changes
    design.map.select_screen_change(0, "climate")
    QTest.keyClick(design.map, Key.Key_Delete)
    assert document.project.screen_changes == before
    assert "every screen" in design.notice.text.text()
    QTest.mouseClick(design.notice.button, LEFT)
    assert document.project.screen_changes == before[1:]


# Screens


def test_a_screen_is_deleted_like_in_the_list(design: DesignWorkspace, document: Document) -> None:
    design.map.select_screen("recipe")
    QTest.keyClick(design.map, Key.Key_Delete)
    assert "recipe" not in document.project.screen_named
    design.map.select_screen("too hot")
    QTest.keyClick(design.map, Key.Key_Delete)
    assert "too hot" in document.project.screen_named
    assert "cannot be deleted" in design.notice.text.text()


def test_moves_of_one_drag_and_of_keys_in_a_row_are_one_step_each(design: DesignWorkspace, document: Document) -> None:
    start = middle(design.map, "too hot")
    drag(design.map, start, QPoint(design.map.width() // 2, 20))
    dragged = document.project.screen_named["too hot"].map
    assert dragged == design.map.map_scene.places["too hot"]
    assert document.undo_name == "Move on the map"
    document.undo()
    assert document.project.screen_named["too hot"].map is None
    design.map.select_screen("too hot")
    x, y = design.map.map_scene.places["too hot"]
    for _ in range(3):
        QTest.keyClick(design.map, Key.Key_Right, CTRL)
    assert document.project.screen_named["too hot"].map == (x + 3, y)
    document.undo()
    assert document.project.screen_named["too hot"].map is None


def test_the_ring_is_reordered_by_dragging_and_keeps_its_picture(design: DesignWorkspace, document: Document) -> None:
    places = [design.map.map_scene.places[name] for name in ring(document)]
    edge = next(e for e in design.map.edges if (e.arrow.from_, e.arrow.to) == ("hall", "climate"))
    drag(design.map, middle(design.map, "recipe"), design.map.mapFromScene(edge.label_rect().center()))
    assert ring(document) == ["hall", "recipe", "climate", "fan"]
    assert document.undo_name == "Move in the ring"
    assert [design.map.map_scene.places[name] for name in ring(document)] == places
    document.undo()
    assert [design.map.map_scene.places[name] for name in ring(document)] == places


def test_the_ring_is_reordered_by_keys(design: DesignWorkspace, document: Document) -> None:
    design.map.select_screen("climate")
    QTest.keyClick(design.map, Key.Key_Right, ALT)
    assert ring(document) == ["hall", "recipe", "climate", "fan"]
    QTest.keyClick(design.map, Key.Key_Left, ALT)
    QTest.keyClick(design.map, Key.Key_Left, ALT)
    assert ring(document) == ["climate", "hall", "recipe", "fan"]
    document.undo()
    assert ring(document) == ["hall", "climate", "recipe", "fan"], "in a row they are one step"


def test_a_ring_of_turns_one_by_one_is_reordered_too(design: DesignWorkspace, document: Document) -> None:
    document.open(load(demo_path("booster-pump")), None)
    names = ["run", "measured", "motor", "times", "filling"]
    places = [design.map.map_scene.places[name] for name in names]
    assert design.map.nodes["times"].facts.ring == (4, 5)
    edge = next(e for e in design.map.edges if (e.arrow.from_, e.arrow.to) == ("run", "measured"))
    drag(design.map, middle(design.map, "times"), design.map.mapFromScene(edge.label_rect().center()))
    leads = {
        (screen_change.from_, screen_change.key): screen_change.to for screen_change in document.project.screen_changes
    }
    assert [leads[name, "right"] for name in ("run", "times", "measured", "motor", "filling")] == [
        "times",
        "measured",
        "motor",
        "filling",
        "run",
    ]
    assert leads["measured", "left"] == "times"
    assert [design.map.map_scene.places[name] for name in ("run", "times", "measured", "motor", "filling")] == places
    assert document.undo_name == "Move in the ring"
    document.undo()
    assert [design.map.map_scene.places[name] for name in names] == places


def test_arranging_is_one_step(design: DesignWorkspace, document: Document) -> None:
    arranged = dict(design.map.map_scene.places)
    band = design.map.map_scene.band
    document.do("Out of the band", lambda project: edits.place_screens(project, {"too hot": (30, 90)}))
    document.do("Move", lambda project: edits.place_screens(project, {"fan": (90, 90), "hall": (60, 3)}))
    before = document.project
    design.map_pane.arrange_action.trigger()
    own = {name: None if name in band else place for name, place in arranged.items()}
    assert {screen.name: screen.map for screen in document.project.screens} == own
    assert design.map.map_scene.places == arranged
    document.undo()
    assert document.project is before
    assert design.map.map_scene.places["fan"] == (90, 90)


def test_drawing_moves_no_other_screen(design: DesignWorkspace, document: Document, qtbot: QtBot) -> None:
    before = dict(design.map.map_scene.places)
    drag(design.map, cap(design, qtbot, "hall", "up"), middle(design.map, "too hot"))
    now = design.map.map_scene.places
    assert {name: now[name] for name in ring(document)} == {name: before[name] for name in ring(document)}


def test_another_project_is_laid_out_anew(design: DesignWorkspace, document: Document) -> None:
    document.do("Move", lambda project: edits.place_screens(project, {"hall": (80, 80)}))
    document.open(load(demo_path("booster-pump")), None)
    assert set(design.map.nodes) == set(document.project.screen_named)
    assert design.map.map_scene.places["run"] == (0, 0)


# Finding and showing


def test_typing_a_name_goes_to_the_screen(design: DesignWorkspace, document: Document) -> None:
    QTest.keyClicks(design.map, "t")
    search = design.map_pane.search
    assert search.hasFocus()
    QTest.keyClicks(search, "oo")
    assert search.text() == "too"
    assert design.map.nodes["hall"].faded
    assert design.map.nodes["too hot"].lit
    QTest.keyClick(search, Key.Key_Return)
    assert document.selection.screen == "too hot"
    assert design.map.hasFocus()
    assert not design.map.nodes["hall"].faded


def test_the_screens_found_are_gone_through(design: DesignWorkspace, document: Document) -> None:
    QTest.keyClicks(design.map, "f")
    search = design.map_pane.search
    QTest.keyClicks(search, "an")
    QTest.keyClick(search, Key.Key_Down)
    assert document.selection.screen == "fan"
    QTest.keyClick(search, Key.Key_Down)
    assert document.selection.screen == "fan fault"
    QTest.keyClick(search, Key.Key_Down)
    assert document.selection.screen == "fan"
    QTest.keyClick(search, Key.Key_Escape)
    assert search.text() == ""
    assert design.map.hasFocus()


def test_overrides_are_hidden_by_their_command(design: DesignWorkspace) -> None:
    assert {inlet.inlet.lead.kind for inlet in design.map.inlets} == {"override", "idle"}
    design.map_pane.override_action.trigger()
    assert {inlet.inlet.lead.kind for inlet in design.map.inlets} == {"idle"}
    design.map_pane.override_action.trigger()
    assert {inlet.inlet.lead.kind for inlet in design.map.inlets} == {"override", "idle"}


def test_findings_reach_the_map(design: DesignWorkspace, document: Document) -> None:
    document.open(load(demo_path("booster-pump")), None)
    document.do("Add screen", lambda project: edits.add_screen(project, "lost"))
    design.checks.finish()
    facts = design.map.nodes["lost"].facts
    assert facts.unreachable
    assert facts.findings_words != ""


def test_commands_of_the_map_bring_it_into_view(design: DesignWorkspace) -> None:
    design.show_view("signals")
    design.map_pane.find_action.trigger()
    assert design.view == "map"
    assert design.map_pane.search.hasFocus()


def test_enter_on_a_turn_goes_to_its_properties(design: DesignWorkspace) -> None:
    design.map.select_screen("hall")
    QTest.keyClick(design.map, Key.Key_PageDown)
    QTest.keyClick(design.map, Key.Key_Return)
    focus = QApplication.focusWidget()
    assert focus is not None
    assert design.inspector.isAncestorOf(focus)
    assert design.navigator.sentence.isVisible()


def context(design: DesignWorkspace, at: QPoint, letter: Key) -> None:
    """Choose from the menu at a point of the map by its access key."""
    port = design.map.viewport()
    QApplication.sendEvent(port, QContextMenuEvent(QContextMenuEvent.Reason.Mouse, at, port.mapToGlobal(at)))
    menu = QApplication.activePopupWidget()
    assert isinstance(menu, QMenu)
    QTest.keyClick(menu, letter)


def test_an_override_and_an_idle_return_are_added_from_the_menu_of_a_screen(
    design: DesignWorkspace, document: Document
) -> None:
    first = document.project.signals[0].name
    context(design, middle(design.map, "recipe"), Key.Key_C)
    assert document.project.screen_changes[-1].to == "recipe"
    assert document.project.screen_changes[-1].when is not None
    assert document.project.screen_changes[-1].when.signal == first
    assert design.navigator.sentence.isVisible()
    context(design, middle(design.map, "climate"), Key.Key_I)
    assert (document.project.screen_changes[-1].to, document.project.screen_changes[-1].idle_s) == ("climate", 120)


def test_a_screen_is_added_where_the_menu_was_asked_for(design: DesignWorkspace, document: Document) -> None:
    context(design, QPoint(30, 30), Key.Key_A)
    assert document.project.screen_named["screen"].map is not None
    node = design.map.nodes["screen"]
    assert (design.map.mapFromScene(node.pos()) - QPoint(30, 30)).manhattanLength() < 260


def test_a_turn_for_every_screen_is_added_by_keyboard(design: DesignWorkspace, document: Document) -> None:
    design.map.select_screen("recipe")

    def fill() -> None:
        dialog = QApplication.activeModalWidget()
        assert isinstance(dialog, ScreenChangeDialog)
        QTest.keyClick(dialog.everywhere, Key.Key_Space)
        assert "keep it" in dialog.told.text()
        QTest.keyClicks(dialog.search, "hall")
        QTest.keyClick(dialog.search, Key.Key_Return)

    QTimer.singleShot(0, fill)
    QTest.keyClick(design.map, Key.Key_T, CTRL)
    assert document.project.screen_changes[-1] == ScreenChange(key="up", to="hall")
    assert design.map.accessibleDescription() == "Screen change from every screen to hall: UP, any screen"


SHIFT = Qt.KeyboardModifier.ShiftModifier
KEYS = [
    *((key, NO) for key in (Key.Key_Left, Key.Key_Right, Key.Key_Up, Key.Key_Down, Key.Key_Home)),
    *((key, CTRL) for key in (Key.Key_Left, Key.Key_Down)),
    *((key, ALT) for key in (Key.Key_Left, Key.Key_Right)),
    *((key, SHIFT) for key in (Key.Key_Right, Key.Key_Down)),
    *((key, NO) for key in (Key.Key_PageDown, Key.Key_PageUp, Key.Key_Delete, Key.Key_Insert)),
    (Key.Key_M, CTRL | SHIFT),
]
POINTS = st.tuples(st.integers(0, 779), st.integers(0, 420))
DEEDS = st.one_of(st.sampled_from(KEYS), st.tuples(POINTS, POINTS))


@settings(max_examples=8, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(DEEDS, max_size=30))
def test_whatever_is_done_on_the_map_can_be_taken_back(design: DesignWorkspace, deeds: list[Any]) -> None:
    document = design.document
    first = load(demo_path("booster-pump"))
    document.open(first, None)
    for one, other in deeds:
        if isinstance(one, tuple):
            drag(design.map, QPoint(*one), QPoint(*other))
            if (menu := QApplication.activePopupWidget()) is not None:
                QTest.keyClick(menu, Key.Key_S)
        else:
            design.map.setFocus()
            QTest.keyClick(design.map, one, other)
        assert parse(dump(document.project)) == document.project
        assert set(design.map.nodes) == set(document.project.screen_named)
        drawn = {lead.screen_change for edge in design.map.edges for lead in edge.arrow.leads}
        assert all(screen_change < len(document.project.screen_changes) for screen_change in drawn)
    while document.undo_name is not None:
        document.undo()
    assert document.project is first


def chosen(design: DesignWorkspace, *names: str) -> None:
    design.map.choose([design.map.nodes[name] for name in names])


def test_selected_screens_become_a_ring_in_one_step(design: DesignWorkspace, document: Document, qtbot: QtBot) -> None:
    names = list(document.project.screen_named)[:3]
    before = document.project
    said: list[str] = []
    document.refused.connect(said.append)
    chosen(design, names[0])
    design.map_pane.ring_action.trigger()
    assert len(said) == 1
    chosen(design, *names)
    design.map_pane.ring_action.trigger()
    menu = QApplication.activePopupWidget()
    assert isinstance(menu, QMenu)
    QTest.keyClick(menu, Key.Key_Return)
    onward = {(each.from_, each.to) for each in document.project.screen_changes if each.from_ in names}
    assert {(names[0], names[1]), (names[1], names[2]), (names[2], names[0])} <= onward
    assert document.undo_name == "Make a ring of 3 screens"
    document.undo()
    assert document.project == before


def test_selected_screens_lead_back_by_a_free_key_and_stand_in_line(
    design: DesignWorkspace, document: Document
) -> None:
    start, *names = list(document.project.screen_named)[:3]
    assert document.project.panel.start == start
    document.do("Without keys", lambda project: project.replace(screen_changes=(), actions=(), accepted=()))
    chosen(design, start, *names)
    design.map_pane.back_action.trigger()
    led = [(each.from_, each.key, each.to) for each in document.project.screen_changes]
    assert led == [(name, "escape", start) for name in names]
    places = [(0, 0), (9, 30), (20, 5)]
    document.do("Place", lambda project: edits.place_screens(project, dict(zip((start, *names), places, strict=True))))
    design.map_pane.row_action.trigger()
    assert [document.project.screen_named[name].map for name in (start, *names)] == [(0, 0), (9, 0), (20, 0)]
    design.map_pane.spread_row_action.trigger()
    assert [document.project.screen_named[name].map for name in (start, *names)] == [(0, 0), (10, 0), (20, 0)]


def test_its_tools_stand_in_the_row_of_tools_while_it_is_in_front(design: DesignWorkspace) -> None:
    tools, pane = design.tools, design.map_pane
    assert pane.search.isVisibleTo(tools)
    assert tools.isAncestorOf(pane.search)
    assert set(pane.more_tools) <= set(tools.in_more)
    assert pane.view.y() == 0, "no bar of its own"
    design.show_view("signals")
    assert not pane.search.isVisible()
    assert tools.in_more == []
    pane.override_action.trigger()
    assert design.view == "signals", "showing or hiding them is no reason to come into view"
    pane.find_action.trigger()
    assert pane.search.hasFocus()


def test_strong_arrows_lead_from_the_chosen_screen(design: DesignWorkspace) -> None:
    design.map.select_screen("climate")
    strong = {(edge.arrow.from_, edge.arrow.to) for edge in design.map.edges if edge.near}
    assert strong == {("climate", "recipe"), ("climate", "hall")}


def test_at_large_sizes_the_line_to_look_for_a_screen_comes_with_its_command(
    qapp: QApplication, qtbot: QtBot, document: Document
) -> None:
    usual = qapp.font()
    scaling.use(qapp, usual, 200)
    try:
        made = DesignWorkspace(document)
        qtbot.addWidget(made)
        made.resize(1366, 700)
        with qtbot.waitExposed(made):
            made.show()
        made.show_view("map")
        pane = made.map_pane
        assert made.tools.minimumSizeHint().width() <= 1366
        assert not pane.search.isVisible()
        assert pane.find_action in made.tools.in_more
        pane.find_action.trigger()
        assert pane.search.hasFocus()
        QTest.keyClicks(pane.search, "too")
        QTest.keyClick(pane.search, Key.Key_Return)
        assert document.selection.screen == "too hot"
        assert not pane.search.isVisible()
    finally:
        scaling.use(qapp, usual, 100)
