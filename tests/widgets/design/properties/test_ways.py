"""The properties of a screen beside the map: where it leads and what leads to it, chosen where it is read."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from app import edits
from app.panel.paging import PagingGraph
from app.project.model import ScreenChange
from app.project_file.files import load
from projects import demo_path
from widgets.design.properties.ways import FromHere, opened_by, ways_in, ways_out
from widgets.design.workspace import DesignWorkspace
from widgets.document.document import Document
from widgets.kit.elided import ShortChoice
from widgets.kit.section import Section


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
    return made


def test_the_ways_are_those_of_the_map(document: Document) -> None:
    project = document.project
    graph = PagingGraph(project)
    for name in project.screen_named:
        keys = {(edge.screen_change, edge.target) for edge in graph.edges if edge.kind == "key" and edge.source == name}
        out = [way for way in ways_out(project, name) if project.screen_changes[way.screen_change].key is not None]
        assert {way.screen_change for way in out} == {index for index, _ in keys}
        inward = {edge.screen_change for edge in graph.edges if edge.target == name}
        assert {way.screen_change for way in ways_in(project, name)} == inward


def test_what_leads_here_from_everywhere_is_one_line(document: Document) -> None:
    project = edits.add_screen_change(document.project, ScreenChange(key="escape", to="hall"))
    lines = [way for way in ways_in(project, "hall") if way.screen_change == len(project.screen_changes) - 1]
    assert [(way.from_, way.words) for way in lines] == [(None, "From every screen: key ESC")]
    assert opened_by(project, "hall").startswith("start, ")
    alone = edits.add_screen(project.replace(screen_changes=(), actions=()), "lost")
    assert opened_by(alone, "lost") == "nothing yet"


def chosen(choice: ShortChoice, value: str) -> None:
    choice.setCurrentIndex(choice.place_of(value))
    choice.activated.emit(choice.currentIndex())


def test_another_choice_leads_the_key_elsewhere_on_this_screen_alone(qtbot: QtBot, document: Document) -> None:
    document.do("Lead", lambda project: edits.lead_key(project, "climate", "up", "fan"))
    form = FromHere(document)
    qtbot.addWidget(form)
    form.show_screen(document.project, "climate")
    shared = document.project.screen_changes
    own = next(number for number, way in enumerate(form.ways) if way.own)
    assert form.choices[own].currentText() == "fan"
    chosen(form.choices[own], "recipe")
    assert document.project.screen_changes[-1] == ScreenChange(from_="climate", key="up", to="recipe")
    form.show_screen(document.project, "climate")
    everywhere = next(number for number, way in enumerate(form.ways) if not way.own and "right" in way.spoken)
    assert "this screen alone" in form.choices[everywhere].accessibleDescription()
    chosen(form.choices[everywhere], "too hot")
    assert document.project.screen_changes[: len(shared) - 1] == shared[:-1], "the others keep it"
    assert document.project.screen_changes[-1] == ScreenChange(from_="climate", key="right", to="too hot")
    form.show_screen(document.project, "climate")
    count = len(document.project.screen_changes)
    own = next(number for number, way in enumerate(form.ways) if way.own and way.to == "recipe")
    chosen(form.choices[own], "")
    assert len(document.project.screen_changes) == count - 1
    assert all(each.to != "recipe" for each in document.project.screen_changes)


def test_a_line_of_what_leads_here_goes_to_its_sentence(design: DesignWorkspace) -> None:
    design.map.go_to("climate")
    design.document.select_screen("climate")
    form = design.inspector.screen_form
    assert form.from_here.isVisible()
    assert form.to_here.isVisible()
    assert not form.keys.isVisible(), "the keys stand beside the screen"
    form.to_here.list.choose_row(0)
    form.to_here.list.setFocus()
    QTest.keyClick(form.to_here.list, Qt.Key.Key_Return)
    assert design.map.selected_screen_change() == ways_in(design.document.project, "climate")[0].screen_change
    assert design.navigator.sentence.isVisible()


def test_beside_the_screen_each_key_is_a_line_that_leads_to_its_sentence(design: DesignWorkspace) -> None:
    design.show_view("screen")
    form = design.inspector.screen_form
    assert not form.from_here.isVisible()
    lines = form.keys.lines
    assert all(line.words for line in lines)
    keys = {line.key for line in lines}
    count = len(design.document.project.panel.keys)
    heads = [section.head.accessibleDescription() for section in form.findChildren(Section)]
    assert any(f"{len(keys)} of {count} used" in head for head in heads)
    number = next(number for number, line in enumerate(lines) if line.place is not None and line.place[0] == "action")
    form.keys.choose_row(number)
    form.keys.setFocus()
    QTest.keyClick(form.keys, Qt.Key.Key_Return)
    assert design.view == "behaviour"
    assert design.behaviour.current() == lines[number].place
