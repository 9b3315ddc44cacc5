"""The ring of the focus: around what has it and does not show it, wherever that goes, and cut off by nothing."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QApplication,
    QLineEdit,
    QListWidget,
    QPushButton,
    QScrollArea,
    QTreeWidget,
    QVBoxLayout,
    QWidget,
)
from pytestqt.qtbot import QtBot

from widgets.face.face import PanelFace
from widgets.kit import palette
from widgets.shell.focus_ring import WIDTH, FocusRing


@pytest.fixture
def ring(qapp: QApplication) -> Iterator[FocusRing]:
    made = FocusRing(qapp)
    yield made
    made.stop()


@pytest.fixture
def window(qtbot: QtBot) -> QWidget:
    made = QWidget()
    qtbot.addWidget(made)
    inner = QWidget()
    rows = QVBoxLayout(inner)
    rows.setContentsMargins(0, 0, 0, 0)
    for widget in (QListWidget(), QTreeWidget(), PanelFace()):
        rows.addWidget(widget)
    outer = QVBoxLayout(made)
    outer.setContentsMargins(30, 30, 30, 30)
    outer.addWidget(inner)
    made.resize(500, 400)
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    return made


def around(widget: QWidget) -> QRect:
    grown = 2 * WIDTH
    place = widget.mapTo(widget.window(), QPoint(0, 0))
    return QRect(place, widget.size()).adjusted(-grown, -grown, grown, grown)


def child(window: QWidget, kind: type[QWidget]) -> QWidget:
    found = window.findChild(kind)
    assert isinstance(found, QWidget)
    return found


def shown(ring: FocusRing) -> QRect:
    return ring.ring.geometry() if ring.ring is not None and ring.ring.isVisible() else QRect()


def test_goes_with_the_tab_key_and_is_cut_off_by_no_parent(ring: FocusRing, window: QWidget, qtbot: QtBot) -> None:
    edit, button = child(window, QListWidget), child(window, QTreeWidget)
    edit.setFocus()
    qtbot.waitUntil(lambda: shown(ring) == around(edit))
    QTest.keyClick(edit, Qt.Key.Key_Tab)
    assert ring.target is button
    qtbot.waitUntil(lambda: shown(ring) == around(button))


def test_goes_along_when_the_widget_or_its_parents_move(ring: FocusRing, window: QWidget, qtbot: QtBot) -> None:
    edit = child(window, QListWidget)
    edit.setFocus()
    window.resize(700, 500)
    parent = edit.parentWidget()
    assert parent is not None
    parent.move(20, 70)
    qtbot.waitUntil(lambda: shown(ring) == around(edit))


@pytest.mark.parametrize("kind", [PanelFace, QLineEdit, QPushButton])
def test_what_shows_its_focus_itself_has_no_second_frame(ring: FocusRing, window: QWidget, kind: type[QWidget]) -> None:
    layout = window.layout()
    assert layout is not None
    for widget in (QLineEdit(), QPushButton()):
        layout.addWidget(widget)
        widget.show()
    child(window, kind).setFocus()
    assert QApplication.focusWidget() is child(window, kind)
    assert ring.ring is None


def test_hides_with_its_widget_and_survives_its_end(ring: FocusRing, window: QWidget, qtbot: QtBot) -> None:
    edit = child(window, QListWidget)
    edit.setFocus()
    edit.hide()
    assert ring.target is not edit
    button = child(window, QTreeWidget)
    button.setFocus()
    button.deleteLater()
    qtbot.waitUntil(lambda: ring.target is not button)


def test_survives_the_end_of_the_whole_window(ring: FocusRing, qtbot: QtBot) -> None:
    window = QWidget()
    edit = QListWidget(window)
    window.show()
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    edit.setFocus()
    assert ring.target is edit
    with qtbot.waitSignal(window.destroyed):
        window.deleteLater()
    qtbot.waitUntil(lambda: ring.target is None)


def test_what_scrolls_out_of_sight_takes_its_ring_along(ring: FocusRing, qtbot: QtBot) -> None:
    area = QScrollArea()
    qtbot.addWidget(area)
    inner = QWidget()
    rows = QVBoxLayout(inner)
    edits = [QListWidget() for _ in range(40)]
    for edit in edits:
        rows.addWidget(edit)
    area.setWidget(inner)
    area.resize(300, 200)
    area.show()
    area.activateWindow()
    qtbot.waitUntil(area.isActiveWindow)
    edits[0].setFocus()
    view = QRect(area.viewport().mapTo(area, QPoint(0, 0)), area.viewport().size())
    qtbot.waitUntil(lambda: not shown(ring).isEmpty() and view.contains(shown(ring)))
    area.verticalScrollBar().setValue(area.verticalScrollBar().maximum())
    qtbot.waitUntil(lambda: shown(ring).isEmpty())
    area.verticalScrollBar().setValue(0)
    qtbot.waitUntil(lambda: shown(ring).intersects(around(edits[0])))


def test_it_is_drawn_in_the_window(ring: FocusRing, window: QWidget, qtbot: QtBot) -> None:
    button = child(window, QTreeWidget)
    child(window, PanelFace).setFocus()

    def edge() -> str:
        image = window.grab(around(button)).toImage()
        return image.pixelColor(image.width() // 2, 0).name()

    before = edge()
    button.setFocus()
    qtbot.waitUntil(lambda: edge() != before)
    assert edge() == palette.current().accent
