"""The tables of lines and followers, by keys: cells, kinds, order, the clipboard."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app import edits
from app.modbus.ports_here import PortHere
from app.planning.plan import make_plan
from app.project.model import SerialLine, TcpLine
from app.project.references import dangling
from tests.widgets.driving import designed, press, shown, type_in
from widgets.design.lines.lines_view import LinesView
from widgets.design.tables.cell_editor import CellEditor
from widgets.design.tables.part_table import PartTable
from widgets.design.workspace import DesignWorkspace
from widgets.document.document import Document
from widgets.document.drafts import Drafts
from widgets.welcome.serial_choice import SerialChoice

Key = Qt.Key
CTRL = Qt.KeyboardModifier.ControlModifier
ALT = Qt.KeyboardModifier.AltModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier


@pytest.fixture
def design(document: Document, qtbot: QtBot) -> DesignWorkspace:
    made = designed(document, qtbot)
    made.show_view("lines")
    return made


def go(table: PartTable, row: int, key: str) -> None:
    table.table.setFocus()
    table.table.go(row, [column.key for column in table.model.columns].index(key))


def test_a_line_is_renamed_in_its_cell_and_its_followers_go_along(design: DesignWorkspace, document: Document) -> None:
    before = document.project
    go(design.lines.lines, 0, "name")
    type_in("hall")
    press(Key.Key_Return)
    assert document.project.lines[0].name == "hall"
    assert {part.line for part in document.project.followers} == {"hall"}
    assert not dangling(document.project)
    document.undo()
    assert document.project is before


def test_where_a_line_goes_is_typed_in_one_cell(design: DesignWorkspace, document: Document) -> None:
    go(design.lines.lines, 0, "where")
    type_in("COM7 9600 8N2")
    press(Key.Key_Return)
    line = document.project.lines[0]
    assert isinstance(line, SerialLine)
    assert (line.device, line.baud, line.parity, line.stop_bits) == ("COM7", 9600, "none", 2)
    go(design.lines.lines, 0, "kind")
    type_in("Modbus")
    press(Key.Key_Return)
    line = document.project.lines[0]
    assert isinstance(line, TcpLine)
    go(design.lines.lines, 0, "where")
    type_in("pump.local:15020")
    press(Key.Key_Return)
    line = document.project.lines[0]
    assert isinstance(line, TcpLine)
    assert (line.host, line.port) == ("pump.local", 15020)


def test_a_wrong_unit_is_said_and_not_taken(design: DesignWorkspace, document: Document) -> None:
    before = document.project
    go(design.lines.followers, 0, "unit")
    type_in("300")
    editor = QApplication.focusWidget()
    assert isinstance(editor, CellEditor)
    assert "300 is not a unit address; use 1 to 247, on Modbus TCP also 255 or 0" in editor.words.text.text()
    press(Key.Key_Return)
    assert QApplication.focusWidget() is editor
    press(Key.Key_Escape)
    assert document.project is before


def test_lines_are_copied_pasted_and_moved(design: DesignWorkspace, document: Document) -> None:
    table = design.lines.lines
    go(table, 0, "name")
    press(Key.Key_Space, SHIFT)
    press(Key.Key_C, CTRL)
    press(Key.Key_V, CTRL)
    first, second = document.project.lines
    assert second.name == f"{first.name} 2"
    assert second.replace(name=first.name) == first
    press(Key.Key_Up, ALT)
    assert [line.name for line in document.project.lines] == [second.name, first.name]
    assert table.current() == 0
    press(Key.Key_Delete)
    assert [line.name for line in document.project.lines] == [first.name]
    press(Key.Key_Delete)
    assert "is used by" in design.notice.text.text()


def test_followers_come_from_a_spreadsheet(design: DesignWorkspace, document: Document) -> None:
    go(design.lines.followers, 0, "name")
    QApplication.clipboard().setText("Name\tUnit\tLine\nfan\t12\tpump room\nmixer\t13\t\n")
    press(Key.Key_V, CTRL)
    fan, mixer = document.project.followers[1:]
    assert (fan.name, fan.unit, fan.line) == ("fan", 12, "pump room")
    assert (mixer.name, mixer.unit, mixer.line) == ("mixer", 13, "pump room")
    assert document.undo_name == "Paste devices"


def test_the_lines_say_how_long_a_pass_takes_and_how_the_registers_are_read(
    design: DesignWorkspace, document: Document
) -> None:
    view = design.lines
    plan = make_plan(document.project).lines[0]
    keys = [column.key for column in view.lines.model.columns]
    assert view.lines.model.cell(0, keys.index("cycle"))[0] == f"{plan.cycle_ms:.0f} ms"
    assert view.lines.model.cell(0, keys.index("load"))[0] == f"{100 * plan.load:.0f} %"
    assert view.reads.model.count() == len(plan.reads)
    texts = [view.reads.model.cell(0, at)[0] for at in range(6)]
    assert texts[0] == plan.reads[0].follower
    assert texts[2] == str(plan.reads[0].count)
    document.do("t", lambda project: edits.change_signal(project, "status", number=480))
    assert view.reads.model.count() == len(make_plan(document.project).lines[0].reads)


def test_each_table_is_as_high_as_its_rows_and_all_are_in_sight(document: Document, qtbot: QtBot) -> None:
    view = LinesView(document, Drafts())
    shown(view, qtbot, 1022, 580)  # of 1366 x 768
    view.show_project(document.project, frozenset(), frozenset())
    QApplication.processEvents()
    for table in (view.lines.table, view.followers.table, view.reads.table):
        assert table.horizontalScrollBar().maximum() == 0, table.accessibleName()
        assert table.height() < view.height() / 3
        if table.model().rowCount() < 4:
            assert table.verticalScrollBar().maximum() == 0, table.accessibleName()
    assert view.reads.geometry().bottom() < view.height()


def test_the_ports_of_this_computer_are_offered_in_the_table(
    design: DesignWorkspace, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("widgets.design.lines.cells.ports_here", lambda: (PortHere("COM3"), PortHere("COM8")))
    go(design.lines.lines, 0, "where")
    press(Key.Key_F2)
    editor = QApplication.focusWidget()
    assert isinstance(editor, CellEditor)
    press(Key.Key_Down)
    model = editor.completer().completionModel()
    assert [model.index(row, 0).data() for row in range(model.rowCount())] == [
        "COM3  19200 8E1",
        "COM8  19200 8E1",
    ]


def test_the_port_of_a_line_is_chosen_from_those_of_this_computer_or_typed(
    ports: list[PortHere], design: DesignWorkspace, document: Document, qtbot: QtBot
) -> None:
    def device() -> str:
        line = document.project.lines[0]
        assert isinstance(line, SerialLine)
        return line.device

    ports += [PortHere("COM3", "USB serial", trouble="in use"), PortHere("COM8")]
    before = device()
    go(design.lines.lines, 0, "where")
    row = next(row for row in design.inspector.line_form.rows if row.label == "Port")
    port = row.editors()[0]
    assert isinstance(port, SerialChoice)
    qtbot.waitUntil(lambda: port.count() == 2)
    assert (port.port, device()) == (before, before), "none is put there by itself"
    port.setFocus()
    press(Key.Key_Down)
    assert device() == "COM8", "the free one comes first"
    press(Key.Key_Down)
    assert device() == "COM3"
    assert "close it there" in port.toolTip()
    assert row.hint in port.toolTip()
    QTest.keyClick(port, Key.Key_Down, ALT)
    assert port.view().isVisible()
    port.hidePopup()
    port.line.selectAll()
    QTest.keyClicks(port, "COM12")
    assert device() == "COM12"
    document.undo()
    assert (device(), port.port) == (before, before), "one step, as long as one stays there"
