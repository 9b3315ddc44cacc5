"""How Design is divided: the measures of its panes, the way round them, and what becomes of them at large sizes."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit, QWidget
from pytestqt.qtbot import QtBot

from tests.builders import demo
from tests.pictures.stage import Setting, settle, staged
from tests.widgets.design.screen.driving import click
from tests.widgets.driving import designed
from widgets.design.workspace import DesignWorkspace
from widgets.document.document import Document, Selection
from widgets.kit.language import Language
from widgets.kit.scaling import SIZES

Key = Qt.Key
SHIFT = Qt.KeyboardModifier.ShiftModifier


@pytest.fixture
def design(qapp: object, qtbot: QtBot) -> DesignWorkspace:
    return designed(Document(demo("booster-pump")), qtbot)


def focused() -> QWidget:
    widget = QApplication.focusWidget()
    assert widget is not None
    return widget


def test_the_panes_stand_on_the_lines_of_the_window(design: DesignWorkspace, qtbot: QtBot) -> None:
    assert design.panes.left.width() == 236
    assert design.panes.right.width() == 344
    assert design.tools.height() == 41, "40 and a hairline"
    assert design.inspector.path.height() == 36
    assert design.editor.status.height() == 28
    assert design.canvas.strip.height() == 37, "36 and a hairline"
    design.show_view("signals")
    qtbot.waitUntil(lambda: design.canvas.width() >= 1016)  # the table has the room of the list of screens
    assert design.panes.right.width() == 344


def test_f4_leads_to_the_properties_and_back(design: DesignWorkspace) -> None:
    face = design.editor.face
    for back in (Key.Key_F4, Key.Key_Escape):
        face.setFocus()
        QTest.keyClick(face, Key.Key_F4)
        assert design.inspector.isAncestorOf(focused())
        QTest.keyClick(focused(), back)
        assert focused() is face


def test_the_path_says_where_one_is_and_each_part_leads_there(design: DesignWorkspace) -> None:
    path, document = design.inspector.path, design.document
    screen = document.project.screens[1]
    document.select(Selection(screen.name, screen.fields[0].at, (0,)))
    assert path.words() == ("Panel", screen.name, screen.fields[0].signal)
    QTest.mouseClick(path.steps[1], Qt.MouseButton.LeftButton)
    assert path.words() == ("Panel", screen.name)
    assert design.inspector.current_form() is design.inspector.screen_form
    assert design.inspector.isAncestorOf(focused())
    QTest.mouseClick(path.steps[0], Qt.MouseButton.LeftButton)
    assert design.view == "panel"


def test_the_path_is_as_high_in_every_view(design: DesignWorkspace) -> None:
    seen = set()
    for view in ("screen", "map", "behaviour", "signals", "lines"):
        design.show_view(view)
        path = design.inspector.path
        seen.add((path.mapTo(design, QPoint(0, 0)).y(), path.height()))
        assert path.words()[-1], view
    assert len(seen) == 1


def test_f6_goes_round_the_panes_both_ways(design: DesignWorkspace) -> None:
    design.editor.face.setFocus()
    stops = []
    for _ in range(5):
        QTest.keyClick(focused(), Key.Key_F6)
        stops.append(focused())
    right, strip, tabs, left, face = stops
    assert design.inspector.isAncestorOf(right)
    assert strip is design.canvas.strip.opener
    assert tabs is design.views.tabs
    assert left is design.screens.list.list
    assert face is design.editor.face
    for stop in (left, tabs, strip):
        QTest.keyClick(focused(), Key.Key_F6, SHIFT)
        assert focused() is stop
    QTest.keyClick(focused(), Key.Key_F6, SHIFT)
    assert design.inspector.isAncestorOf(focused())


def test_the_letters_of_the_panel_are_never_smaller_where_all_else_is_larger() -> None:
    pixels = {}
    for percent in SIZES:
        with staged(Setting(percent=percent, language=Language.GERMAN)) as window:
            pixels[percent] = window.design.editor.face.grid.pixels
    assert min(pixels.values()) == pixels[100], pixels


@pytest.mark.parametrize("percent", [150, 200])
def test_at_large_sizes_the_panes_are_drawers(percent: int) -> None:
    with staged(Setting(percent=percent)) as window:
        design = window.design
        face = design.editor.face
        face.setFocus()
        settle()
        assert not design.panes.left.isVisible()
        assert not design.panes.right.isVisible()
        before = face.grid.pixels, face.grid.mapTo(design, QPoint(0, 0))
        button = design.panes.left_button
        assert button.isVisible()
        assert button.text() == f"Screens ({len(design.document.project.screens)})"
        QTest.mouseClick(button, Qt.MouseButton.LeftButton)
        assert design.screens.isVisible()
        assert focused() is design.screens.list.list
        QTest.keyClick(design.screens.list.list, Key.Key_Escape)
        assert not design.panes.left.isVisible()
        face.setFocus()
        QTest.keyClick(face, Key.Key_F4)
        assert design.panes.right.isVisible()
        assert isinstance(focused(), QLineEdit)
        assert design.panes.right.x() <= design.width() // 2
        QTest.keyClick(focused(), Key.Key_Escape)
        assert focused() is face
        assert not design.panes.right.isVisible()
        settle()
        assert (face.grid.pixels, face.grid.mapTo(design, QPoint(0, 0))) == before, "the face did not move"


@pytest.mark.parametrize("view", ["screen", "signals"])
def test_the_button_tries_the_panel_and_ends_that_by_the_mouse(document: Document, qtbot: QtBot, view: str) -> None:
    design = designed(document, qtbot)
    design.show_view(view)
    for running in (True, False):
        QTest.mouseClick(design.editor.tools.try_button, Qt.MouseButton.LeftButton)
        assert (design.view, design.editor.tryout.running) == ("screen", running)


def test_the_properties_are_those_of_what_is_marked(document: Document, qtbot: QtBot) -> None:
    design = designed(document, qtbot)
    field = document.project.screen_named["run"].fields[0]
    click(design.editor, *field.at)
    assert design.inspector.path.words()[-1] == field.signal
    design.show_view("map")
    assert design.inspector.path.words()[-1] == "run"
    design.show_view("screen")
    assert design.inspector.path.words()[-1] == field.signal
    design.inspector.path.steps[-1].click()  # to its screen
    assert design.inspector.path.words()[-1] == "run"
    click(design.editor, *field.at)  # which is marked already
    assert design.inspector.path.words()[-1] == field.signal
