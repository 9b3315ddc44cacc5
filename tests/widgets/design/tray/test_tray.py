"""The signals beside the face, operated as somebody in front of them does it."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QMimeData, QPointF, Qt
from PySide6.QtGui import QDragEnterEvent, QDragLeaveEvent, QDragMoveEvent, QDropEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app import edits
from tests.builders import demo
from tests.widgets.driving import designed
from widgets.design.tray.dropping import dragged, names_in
from widgets.design.workspace import DesignWorkspace
from widgets.document.document import Document, Selection
from widgets.kit.scaling import scaled

Key = Qt.Key
NO = Qt.KeyboardModifier.NoModifier
CTRL = Qt.KeyboardModifier.ControlModifier
COPY = Qt.DropAction.CopyAction
LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def document(qapp: object) -> Document:
    document = Document(edits.add_screen(demo("booster-pump"), "empty"))
    document.select(Selection("empty"))
    return document


@pytest.fixture
def design(document: Document, qtbot: QtBot) -> DesignWorkspace:
    return designed(document, qtbot)


class Drag:
    """A drag over the glass, as the window system reports it."""

    def __init__(self, design: DesignWorkspace, *names: str) -> None:
        self.grid = design.editor.face.grid
        self.data: QMimeData = dragged(names)

    def over(self, row: int, column: int, modifiers: Qt.KeyboardModifier = NO) -> bool:
        """Move to a cell. Returns whether a drop would be taken."""
        point = self.grid.cell_rect(row, column).center()
        QApplication.sendEvent(self.grid, QDragEnterEvent(point, COPY, self.data, LEFT, modifiers))
        event = QDragMoveEvent(point, COPY, self.data, LEFT, modifiers)
        QApplication.sendEvent(self.grid, event)
        return event.isAccepted()

    def drop(self, row: int, column: int, modifiers: Qt.KeyboardModifier = NO) -> bool:
        point = self.grid.cell_rect(row, column).center()
        event = QDropEvent(QPointF(point), COPY, self.data, LEFT, modifiers)
        QApplication.sendEvent(self.grid, event)
        return event.isAccepted()


def test_what_is_dragged_is_shown_on_the_glass_before_it_is_there(design: DesignWorkspace, document: Document) -> None:
    drag = Drag(design, "frequency")
    before = document.project
    assert drag.over(1, 3)
    ghost = design.editor.face.grid.ghost
    assert ghost is not None
    assert ghost.fits
    assert {piece.text for piece in ghost.pieces} >= {"Frequency", "Hz"}
    assert design.editor.status.text().startswith("Drop here: Row 2")
    assert document.project is before
    QApplication.sendEvent(design.editor.face.grid, QDragLeaveEvent())
    assert design.editor.face.grid.ghost is None
    assert "Drop here" not in design.editor.status.text()


def test_a_drop_is_one_step_with_a_name_and_the_cursor_goes_on_behind_it(
    design: DesignWorkspace, document: Document
) -> None:
    first = document.project
    drag = Drag(design, "speed set point")
    drag.over(0, 0)
    assert drag.drop(0, 0)
    screen = document.project.screen_named["empty"]
    assert [each.signal for each in screen.fields] == ["speed set point"]
    assert screen.fields[0].entry
    assert document.undo_name == "Place \u201cspeed set point\u201d"
    assert document.selection.cell == (1, 0)
    assert design.editor.face.hasFocus(), "typing goes on there"
    document.undo()
    assert document.project is first


def test_too_narrow_is_said_before_and_nothing_is_dropped(design: DesignWorkspace, document: Document) -> None:
    document.do("t", lambda project: edits.type_text(project, "empty", 0, 5, "here"))
    before = document.project
    drag = Drag(design, "frequency")
    assert not drag.over(0, 1)
    ghost = design.editor.face.grid.ghost
    assert ghost is not None
    assert not ghost.fits
    assert "needs 6 cells, and there is room for 4" in design.editor.status.text()
    assert not drag.drop(0, 1)
    assert document.project is before


def test_ctrl_places_the_value_only(design: DesignWorkspace, document: Document) -> None:
    drag = Drag(design, "frequency")
    assert drag.over(2, 4, CTRL)
    assert drag.drop(2, 4, CTRL)
    screen = document.project.screen_named["empty"]
    assert (screen.fields[0].at, "".join(screen.text).strip()) == ((2, 4), "")


def test_several_take_the_empty_rows_below_one_another_or_none(design: DesignWorkspace, document: Document) -> None:
    drag = Drag(design, "frequency", "current", "power")
    assert not drag.over(2, 0)
    assert "3 signals need as many empty rows" in design.editor.status.text()
    assert drag.over(1, 0)
    assert drag.drop(1, 0)
    assert [each.at[0] for each in document.project.screen_named["empty"].fields] == [1, 2, 3]
    assert document.undo_name == "Place 3 signals"


def test_anything_else_that_is_dragged_is_left_alone(design: DesignWorkspace, document: Document) -> None:
    data = QMimeData()
    data.setText("frequency")
    assert names_in(data) == []
    point = design.editor.face.grid.cell_rect(0, 0).center()
    event = QDragEnterEvent(point, COPY, data, LEFT, NO)
    event.ignore()
    QApplication.sendEvent(design.editor.face.grid, event)
    assert not event.isAccepted()
    assert document.undo_name is None


def test_enter_places_at_the_cursor_again_and_again(design: DesignWorkspace, document: Document) -> None:
    tray = design.left.tray
    tray.list.setFocus()
    tray.choose(["frequency"])
    QTest.keyClick(tray.list, Key.Key_Return)
    QTest.keyClick(tray.list, Key.Key_Down)
    QTest.keyClick(tray.list, Key.Key_Return)
    assert [each.signal for each in document.project.screen_named["empty"].fields] == ["frequency", "current"]
    assert tray.list.hasFocus()
    QTest.keyClick(tray.list, Key.Key_Return, CTRL)
    assert document.project.screen_named["empty"].text[2] == "", "the value only"
    assert len(document.project.screen_named["empty"].fields) == 3


def test_what_does_not_fit_at_the_cursor_goes_to_an_empty_row(design: DesignWorkspace, document: Document) -> None:
    document.do("t", lambda project: edits.type_text(project, "empty", 0, 0, "here"))
    document.select(Selection("empty", (0, 0)))
    design.left.tray.list.setFocus()
    design.left.tray.choose(["frequency"])
    QTest.keyClick(design.left.tray.list, Key.Key_Return)
    (field,) = document.project.screen_named["empty"].fields
    assert (field.signal, field.at[0]) == ("frequency", 1)


def test_where_no_row_is_empty_it_is_said(design: DesignWorkspace, document: Document, qtbot: QtBot) -> None:
    for row in range(document.project.panel.rows):
        document.do("t", lambda project, row=row: edits.type_text(project, "empty", row, 0, "here"))  # type: ignore[misc]
    document.select(Selection("empty", (0, 0)))
    design.left.tray.list.setFocus()
    design.left.tray.choose(["frequency"])
    QTest.keyClick(design.left.tray.list, Key.Key_Return)
    qtbot.waitUntil(design.notice.isVisible)
    assert "something else already" in design.notice.text.text()
    assert document.project.screen_named["empty"].fields == ()


def test_the_search_ranks_and_enter_places_the_first(design: DesignWorkspace, document: Document) -> None:
    tray = design.left.tray
    tray.search.setFocus()
    QTest.keyClicks(tray.search, "fault")
    assert tray.model.names[0] == "fault", "the exact name before those that only begin so"
    assert set(tray.model.names) >= {"fault", "fault reset", "fault code"}
    QTest.keyClick(tray.search, Key.Key_Down)
    QTest.keyClick(tray.search, Key.Key_Up)
    QTest.keyClick(tray.search, Key.Key_Return)
    assert [each.signal for each in document.project.screen_named["empty"].fields] == ["fault"]
    QTest.keyClick(tray.search, Key.Key_Escape)
    assert len(tray.model.names) == len(document.project.signals)


def test_a_register_finds_its_signal(design: DesignWorkspace) -> None:
    design.left.tray.search.setText("310")
    assert design.left.tray.model.names == ["speed set point"]


def test_the_tray_follows_the_project_and_keeps_what_is_selected(design: DesignWorkspace, document: Document) -> None:
    tray = design.left.tray
    tray.choose(["current", "power"])
    document.do("t", lambda project: edits.rename_signal(project, "frequency", "speed"))
    assert "speed" in tray.model.names
    assert tray.chosen() == ["current", "power"]


def test_rows_are_told_with_unit_and_origin_and_are_high_enough_to_hit(design: DesignWorkspace) -> None:
    tray = design.left.tray
    index = tray.model.index(tray.model.names.index("frequency"))
    told = index.data(Qt.ItemDataRole.AccessibleTextRole)
    assert told.startswith("frequency, Hz, pump")
    assert tray.list.visualRect(index).height() >= scaled(24)


def test_dragging_begins_with_the_data_that_the_glass_takes(design: DesignWorkspace) -> None:
    tray = design.left.tray
    tray.choose(["current", "power"])
    data = tray.model.mimeData(tray.list.selectionModel().selectedIndexes())
    assert names_in(data) == ["current", "power"]
    assert data.text() == "current\npower", "other programs get the names"


def test_only_the_screen_has_the_tray_beside_it(design: DesignWorkspace) -> None:
    seen = {}
    for view in ("screen", "map", "behaviour", "signals", "lines", "panel"):
        design.show_view(view)
        seen[view] = (design.screens.isVisible(), design.left.tray.isVisible(), design.inspector.isVisible())
    assert seen == {
        "screen": (True, True, True),
        "map": (True, False, True),
        "behaviour": (True, False, True),
        "signals": (False, False, True),
        "lines": (False, False, True),
        "panel": (False, False, False),
    }


def test_nothing_is_placed_on_a_screen_that_is_tried(design: DesignWorkspace, document: Document) -> None:
    tray = design.left.tray
    tray.choose(["frequency"])
    design.try_it()
    assert not tray.isEnabled()
    design.try_it()
    assert tray.isEnabled()
    assert document.project.screen_named["empty"].fields == ()


def test_a_drag_ends_with_the_glass_as_it_was(design: DesignWorkspace) -> None:
    drag = Drag(design, "frequency")
    drag.over(0, 0)
    assert drag.drop(0, 0)
    assert design.editor.face.grid.ghost is None
