"""The table of signals, by keys and mouse: cells, bulk edits, the clipboard, sorting, narrowing, uses."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings, strategies as st
from PySide6.QtCore import QMetaObject, QPoint, Qt
from PySide6.QtGui import QFont, QFontMetrics
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractItemView,
    QApplication,
    QDialog,
    QLineEdit,
    QMenu,
    QPushButton,
    QTreeWidget,
)
from pytestqt.qtbot import QtBot

from app import edits
from app.project.model import BitSignal, Project, RegisterSignal, Scale
from app.project.references import dangling
from app.project_file.files import load
from projects import demo_path
from tests.big_project import big_project
from tests.builders import fresh_project
from tests.widgets.driving import button_of, focused, press, type_in, when_asked
from widgets.design.signals.signals_view import SignalsView
from widgets.design.tables.bad_cells import BadCellsDialog
from widgets.design.tables.cell_editor import CellEditor
from widgets.design.tables.fill_series import CopiesDialog, NumberingDialog
from widgets.design.tables.part_grid import PartGrid
from widgets.design.workspace import DesignWorkspace
from widgets.document.document import Document
from widgets.document.drafts import Drafts
from widgets.document.settings import Settings
from widgets.kit.dialogs.questions import Question

Key = Qt.Key
NO = Qt.KeyboardModifier.NoModifier
CTRL = Qt.KeyboardModifier.ControlModifier
ALT = Qt.KeyboardModifier.AltModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier
LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def design(document: Document, qtbot: QtBot) -> DesignWorkspace:
    return shown(document, qtbot)


def shown(document: Document, qtbot: QtBot, *, kept: bool = True) -> DesignWorkspace:
    design = DesignWorkspace(document)
    if kept:
        qtbot.addWidget(design)
    design.resize(1366, 640)
    with qtbot.waitActive(design):
        design.show()
        design.activateWindow()
    design.show_view("signals")
    return design


def grid_of(design: DesignWorkspace) -> PartGrid:
    return design.signals.table.table


def place(project: Project, name: str) -> int:
    return [part.name for part in project.signals].index(name)


def column(grid: PartGrid, key: str) -> int:
    return [each.key for each in grid.parts.columns].index(key)


def go(design: DesignWorkspace, name: str, key: str) -> None:
    """Click on a cell."""
    grid = grid_of(design)
    index = grid.parts.index(place(design.document.project, name), column(grid, key))
    grid.scrollTo(index)
    QTest.mouseClick(grid.viewport(), LEFT, NO, grid.visualRect(index).center())
    assert grid.currentIndex() == index


def editor() -> CellEditor:
    focus = QApplication.focusWidget()
    assert isinstance(focus, CellEditor)
    return focus


def signal(document: Document, name: str) -> RegisterSignal:
    part = document.project.signal_named[name]
    assert isinstance(part, RegisterSignal)
    return part


# Cells


def test_typing_edits_a_cell_and_enter_goes_down(design: DesignWorkspace, document: Document) -> None:
    go(design, "speed set point", "register")
    type_in("350")
    assert signal(document, "speed set point").number == 310, "not before Enter"
    press(Key.Key_Return)
    assert signal(document, "speed set point").number == 350
    assert (
        document.undo_name
        == "Change signals: \u201cRegister\u201d of \u201cspeed set point\u201d \N{RIGHTWARDS ARROW} 350"
    )
    assert grid_of(design).currentIndex().row() == place(document.project, "speed set point") + 1
    type_in("351")
    press(Key.Key_Return, SHIFT)
    assert signal(document, "ramp up").number == 351
    document.undo()
    document.undo()
    assert signal(document, "speed set point").number == 310


def test_tab_goes_on_to_the_next_cell_that_can_be_edited(design: DesignWorkspace, document: Document) -> None:
    grid = grid_of(design)
    go(design, "command", "name")
    press(Key.Key_F2)
    assert editor().text() == "command"
    press(Key.Key_Tab)
    assert grid.currentIndex().column() == column(grid, "from")
    press(Key.Key_Tab, times=2)
    assert editor().text() == "300"
    type_in("301")
    press(Key.Key_Backtab, SHIFT)
    assert signal(document, "command").number == 301
    assert editor().text() == "holding"
    press(Key.Key_Escape)
    assert QApplication.focusWidget() is grid


def test_tab_walks_the_cells_that_can_be_edited_and_goes_on_in_the_next_row(
    design: DesignWorkspace, document: Document
) -> None:
    grid = grid_of(design)
    editable = [
        at for at in range(grid.parts.columnCount()) if grid.parts.editable(0, at) and not grid.isColumnHidden(at)
    ]
    go(design, document.project.signals[0].name, "name")
    walked = [(grid.currentIndex().row(), grid.currentIndex().column())]
    for _ in editable:
        press(Key.Key_Tab)
        walked.append((grid.currentIndex().row(), grid.currentIndex().column()))
    assert walked == [*((0, at) for at in editable), (1, 0)]
    press(Key.Key_Backtab, SHIFT)
    assert (grid.currentIndex().row(), grid.currentIndex().column()) == (0, editable[-1])
    assert grid.state() != QAbstractItemView.State.EditingState, "walking opens nothing"


@pytest.mark.parametrize(("key", "held"), [(Key.Key_Tab, CTRL), (Key.Key_Backtab, CTRL | SHIFT), (Key.Key_Escape, NO)])
def test_there_is_a_way_out_of_the_table(
    design: DesignWorkspace, document: Document, key: Qt.Key, held: Qt.KeyboardModifier
) -> None:
    go(design, document.project.signals[0].name, "name")
    press(key, held)
    assert QApplication.focusWidget() not in (None, grid_of(design))


def test_tab_leaves_behind_the_last_cell_and_before_the_first(design: DesignWorkspace) -> None:
    grid = grid_of(design)
    last = grid.next_editable(grid.parts.rowCount(), 0, -1)
    assert last is not None
    grid.go(*last)
    press(Key.Key_Tab)
    assert QApplication.focusWidget() is not grid
    grid.setFocus()
    grid.go(0, 0)
    press(Key.Key_Backtab, SHIFT)
    assert QApplication.focusWidget() is not grid


def test_escape_lets_go_of_what_is_selected_first(design: DesignWorkspace, document: Document) -> None:
    grid = grid_of(design)
    go(design, "command", "register")
    press(Key.Key_Down, SHIFT, 2)
    press(Key.Key_Escape)
    assert QApplication.focusWidget() is grid
    assert len(grid.area().rows) == 1


def test_the_edit_menu_works_on_the_cells(design: DesignWorkspace, document: Document) -> None:
    grid = grid_of(design)
    go(design, "speed set point", "unit")
    unit = signal(document, "speed set point").unit
    QMetaObject.invokeMethod(grid, "cut")
    assert QApplication.clipboard().text() == unit
    assert signal(document, "speed set point").unit == ""
    QMetaObject.invokeMethod(grid, "paste")
    assert signal(document, "speed set point").unit == unit
    QMetaObject.invokeMethod(grid, "delete")
    assert signal(document, "speed set point").unit == ""
    go(design, "command", "name")
    QMetaObject.invokeMethod(grid, "copy")
    assert QApplication.clipboard().text() == "command"


def test_a_double_click_opens_a_cell(design: DesignWorkspace, document: Document) -> None:
    grid = grid_of(design)
    index = grid.parts.index(place(document.project, "command"), column(grid, "unit"))
    QTest.mouseClick(grid.viewport(), LEFT, NO, grid.visualRect(index).center())
    QTest.mouseDClick(grid.viewport(), LEFT, NO, grid.visualRect(index).center())
    type_in("rpm")
    press(Key.Key_Return)
    assert signal(document, "command").unit == "rpm"


def test_what_is_wrong_is_said_in_words_and_keeps_the_cell_open(design: DesignWorkspace, document: Document) -> None:
    before = document.project
    go(design, "speed set point", "register")
    type_in("31o")
    assert editor().words.isVisible()
    assert editor().words.text.text() == "'31o' is not a whole number"
    assert "whole number" in editor().accessibleDescription()
    press(Key.Key_Return)
    assert editor().text() == "31o"
    press(Key.Key_Backspace)
    assert not editor().words.isVisible()
    press(Key.Key_Escape)
    assert document.project is before


def test_what_is_wrong_when_the_cell_is_left_is_kept_in_the_properties(
    design: DesignWorkspace, document: Document
) -> None:
    before = document.project
    go(design, "speed set point", "register")
    type_in("31o")
    go(design, "speed set point", "unit")
    assert document.project is before
    assert "31o" in design.notice.text.text()
    assert [(subject, texts) for subject, _, texts, _ in design.drafts.all()] == [
        (("signal", "speed set point"), ("31o",))
    ]
    form = design.inspector.signal_form
    row = next(row for row in form.rows if row.label == "Register")
    assert row.texts() == ("31o",)


def test_a_choice_is_completed_from_its_beginning(design: DesignWorkspace, document: Document) -> None:
    go(design, "command", "table")
    type_in("in")
    completer = editor().completer()
    assert completer is not None
    assert completer.popup() is not None
    assert completer.completionModel().rowCount() == 1
    press(Key.Key_Return)
    assert signal(document, "command").table == "input"
    go(design, "command", "unit")
    type_in("H")
    completer = editor().completer()
    assert completer is not None
    found = [completer.completionModel().index(row, 0).data() for row in range(completer.completionModel().rowCount())]
    assert "Hz" in found


def offered(qtbot: QtBot) -> QAbstractItemView:
    """The list of choices, once it is open: the system gives all keys to it."""
    completer = editor().completer()
    assert completer is not None
    choices = completer.popup()
    assert choices is not None
    qtbot.waitUntil(choices.isVisible)
    return choices


def test_one_enter_takes_what_is_typed_or_chosen_while_the_list_of_choices_is_open(
    design: DesignWorkspace, document: Document, qtbot: QtBot
) -> None:
    grid = grid_of(design)
    go(design, "command", "table")
    type_in("input")
    QTest.keyClick(offered(qtbot), Key.Key_Return)
    assert signal(document, "command").table == "input"
    assert grid.currentIndex().row() == place(document.project, "command") + 1
    go(design, "command", "encoding")
    type_in("in")
    QTest.keyClick(offered(qtbot), Key.Key_Down)
    chosen = editor().text()
    assert chosen.startswith("int")
    QTest.keyClick(offered(qtbot), Key.Key_Tab)
    assert signal(document, "command").encoding == chosen
    press(Key.Key_Escape)
    go(design, "command", "unit")
    type_in("H")
    QTest.keyClick(offered(qtbot), Key.Key_Escape)
    assert editor().text() == "H", "the first Escape closes the list only"


def test_a_choice_from_the_list_is_taken_when_the_cell_is_left_by_the_mouse(
    design: DesignWorkspace, document: Document, qtbot: QtBot
) -> None:
    go(design, "command", "table")
    press(Key.Key_F2)
    press(Key.Key_Down)
    choices = offered(qtbot)
    row = next(row for row in range(choices.model().rowCount()) if choices.model().index(row, 0).data() == "input")
    QTest.mouseClick(choices.viewport(), LEFT, NO, choices.visualRect(choices.model().index(row, 0)).center())
    assert editor().text() == "input"
    go(design, "speed set point", "unit")
    assert signal(document, "command").table == "input"


def test_the_list_of_choices_is_as_wide_as_its_texts(design: DesignWorkspace, qtbot: QtBot) -> None:
    go(design, "command", "drive_role")
    type_in("spe")
    choices = offered(qtbot)
    assert choices.sizeHintForColumn(0) <= choices.viewport().width()


def test_renaming_in_a_cell_changes_every_use_in_one_step(design: DesignWorkspace, document: Document) -> None:
    before = document.project
    go(design, "speed set point", "name")
    type_in("reference")
    press(Key.Key_Return)
    assert not dangling(document.project)
    assert "reference" in {field.signal for screen in document.project.screens for field in screen.fields}
    document.undo()
    assert document.project is before


def test_keys_of_the_screens_mean_nothing_in_the_table(design: DesignWorkspace, document: Document) -> None:
    go(design, "command", "unit")
    before = document.project
    press(Key.Key_Return, CTRL)
    assert QApplication.activeModalWidget() is None
    assert not [w for w in QApplication.topLevelWidgets() if w.objectName() == "signal picker" and w.isVisible()]
    assert document.project is before


# Many at once


def test_ctrl_enter_puts_a_text_into_all_selected_rows_in_one_step(design: DesignWorkspace, document: Document) -> None:
    before = document.project
    go(design, "speed set point", "unit")
    press(Key.Key_Down, SHIFT, times=2)
    names = [part.name for part in before.signals[4:7]]
    press(Key.Key_F2)
    press(Key.Key_A, CTRL)
    type_in("kHz")
    press(Key.Key_Return, CTRL)
    assert [document.project.signal_named[name].unit for name in names] == ["kHz"] * 3
    assert grid_of(design).area().rows == (4, 5, 6), "the selection stays"
    document.undo()
    assert document.project is before


def test_ctrl_d_fills_cells_down_and_duplicates_whole_rows(design: DesignWorkspace, document: Document) -> None:
    before = document.project
    go(design, "speed set point", "unit")
    press(Key.Key_Right, SHIFT)
    press(Key.Key_Down, SHIFT, times=2)
    press(Key.Key_D, CTRL)
    first, *others = document.project.signals[4:7]
    assert len(document.project.signals) == len(before.signals)
    assert {(part.unit, part.decimals) for part in others} == {(first.unit, first.decimals)}
    document.undo()
    assert document.project is before
    press(Key.Key_Space, SHIFT)
    assert grid_of(design).area().whole
    asked = when_asked(lambda dialog: QTest.keyClick(dialog, Key.Key_Escape))
    press(Key.Key_D, CTRL)
    assert isinstance(asked[0], CopiesDialog), "of several rows it is asked how many copies"


def test_a_series_goes_on(design: DesignWorkspace, document: Document) -> None:
    go(design, "speed set point", "register")
    type_in("500")
    press(Key.Key_Return)
    type_in("502")
    press(Key.Key_Return)
    go(design, "speed set point", "register")
    press(Key.Key_Down, SHIFT, times=3)
    QTest.keySequence(grid_of(design), "Ctrl+F9")
    numbers = [part.number for part in document.project.signals[4:8] if isinstance(part, RegisterSignal)]
    assert numbers == [500, 502, 504, 506]


def test_names_are_numbered(design: DesignWorkspace, document: Document) -> None:
    before = document.project
    go(design, "speed set point", "name")
    press(Key.Key_Down, SHIFT, times=2)

    def answer(dialog: QDialog) -> None:
        assert isinstance(dialog, NumberingDialog)
        QTest.keyClick(dialog.pattern, Key.Key_A, CTRL)
        QTest.keyClicks(dialog.pattern, "set")
        ok = dialog.deed
        assert not ok.isEnabled()
        assert "write '#' once" in dialog.reason.text()
        QTest.keyClicks(dialog.pattern, " ##")
        assert ok.isEnabled()
        QTest.keyClick(dialog.pattern, Key.Key_Return)

    when_asked(answer)
    QTest.keySequence(grid_of(design), "Ctrl+F2")
    assert [part.name for part in document.project.signals[4:7]] == ["set 01", "set 02", "set 03"]
    assert not dangling(document.project)
    document.undo()
    assert document.project is before


def test_copies_count_up(design: DesignWorkspace, document: Document) -> None:
    before = document.project
    go(design, "ramp up", "name")

    def answer(dialog: QDialog) -> None:
        assert isinstance(dialog, CopiesDialog)
        QTest.keyClick(dialog.copies, Key.Key_A, CTRL)
        QTest.keyClicks(dialog.copies, "3")
        assert dialog.preview.topLevelItemCount() == 3
        QTest.keyClick(dialog.copies, Key.Key_Return)

    when_asked(answer)
    QTest.keySequence(grid_of(design), "Ctrl+F3")
    at = place(before, "ramp up")
    new = document.project.signals[at + 1 : at + 4]
    assert [part.name for part in new] == ["ramp up 2", "ramp up 3", "ramp up 4"]
    assert [part.number for part in new if isinstance(part, RegisterSignal)] == [312, 313, 314]
    assert grid_of(design).places() == tuple(range(at + 1, at + 4)), "the copies are selected"
    document.undo()
    assert document.project is before


def test_copies_by_an_offset_tell_their_clashes_before_they_are_made(
    design: DesignWorkspace, document: Document
) -> None:
    before = document.project
    go(design, "command", "name")
    told: list[str] = []

    def answer(dialog: QDialog) -> None:
        assert isinstance(dialog, CopiesDialog)
        dialog.step.setValue(70_000)
        assert dialog.step.value() == 65_535
        ok = dialog.deed
        assert not ok.isEnabled()
        assert "65" in dialog.reason.text(), "beyond the last register"
        dialog.step.setValue(1)
        row = dialog.preview.topLevelItem(0)
        assert row is not None
        told.extend(row.text(column) for column in range(5))
        dialog.device.setCurrentIndex(dialog.device.count() - 1)
        assert dialog.step.value() == 0, "the registers of another device are the same"
        assert dialog.unit.isVisible()
        QTest.mouseClick(ok, LEFT)

    when_asked(answer)
    QTest.keySequence(grid_of(design), "Ctrl+F3")
    number = signal(document, "command").number
    assert told[:3] == ["command 2", "pump", f"holding {number + 1}"]
    assert "is in the same register" in told[4]
    assert len(document.project.followers) == len(before.followers) + 1
    copy = signal(document, "command 2")
    assert (copy.follower, copy.number) == (document.project.followers[-1].name, number)
    document.undo()
    assert document.project is before


def test_several_are_deleted_and_moved(design: DesignWorkspace, document: Document) -> None:
    grid = grid_of(design)
    before = document.project
    names = [part.name for part in before.signals]
    go(design, "speed set point", "name")
    press(Key.Key_Down, SHIFT)
    press(Key.Key_Up, ALT)
    moved = [part.name for part in document.project.signals]
    assert moved[3:6] == [names[4], names[5], names[3]]
    assert grid.places() == (3, 4)
    document.undo()
    press(Key.Key_Delete)
    assert "cannot be deleted" in design.notice.text.text()
    assert document.project is before


def test_of_several_those_that_nothing_uses_can_be_deleted(design: DesignWorkspace, document: Document) -> None:
    grid = grid_of(design)
    go(design, "status", "name")
    press(Key.Key_D, CTRL)  # a copy that nothing uses, behind the original and its bits
    at = place(document.project, "status")
    grid.setFocus()
    grid.select_rows([at, place(document.project, "status 2")])
    count = len(document.project.signals)
    press(Key.Key_Delete, CTRL)
    assert design.notice.button.text() == "Delete the others (1)"
    QTest.mouseClick(design.notice.button, LEFT)
    assert len(document.project.signals) == count - 1
    assert "status" in document.project.signal_named


def test_delete_empties_cells_and_tells_where_it_cannot(design: DesignWorkspace, document: Document) -> None:
    go(design, "speed set point", "unit")
    press(Key.Key_Down, SHIFT)
    press(Key.Key_Delete)
    assert [part.unit for part in document.project.signals[4:6]] == ["", ""]
    go(design, "speed set point", "register")
    asked = when_asked(lambda dialog: QTest.keyClick(dialog, Key.Key_Escape))
    press(Key.Key_Delete)
    assert isinstance(asked[0], BadCellsDialog)
    assert signal(document, "speed set point").number == 310


# The clipboard


def press_button(words: str) -> Callable[[QDialog], None]:
    """An answer to a question: the button with these words."""

    def answer(dialog: QDialog) -> None:
        button = next(each for each in dialog.findChildren(QPushButton) if each.text().replace("&", "") == words)
        QTest.mouseClick(button, LEFT)

    return answer


def go_to_empty_row(design: DesignWorkspace) -> None:
    """Click into the empty area below the last row."""
    grid = grid_of(design)
    grid.scrollToBottom()
    below = grid.visualRect(grid.parts.index(grid.parts.rowCount() - 1, 0)).bottom() + 30
    assert below < grid.viewport().height(), "there has to be room below the rows"
    QTest.mouseClick(grid.viewport(), LEFT, NO, QPoint(300, below))


def test_rows_pasted_in_the_empty_area_are_new_ones(qtbot: QtBot) -> None:
    whole = load(demo_path("booster-pump"))
    few = whole.replace(signals=whole.signals[:4], screens=(), screen_changes=(), actions=())
    design = shown(Document(few), qtbot)
    design.resize(1366, 768)
    go(design, few.signals[1].name, "name")
    go_to_empty_row(design)
    rows = [f"new {number}\tpump\tholding\t{500 + number}" for number in range(13)]
    QApplication.clipboard().setText("\n".join(rows))
    press(Key.Key_V, CTRL)
    signals = design.document.project.signals
    assert signals[:4] == few.signals
    assert [(part.name, part.number) for part in signals[4:] if isinstance(part, RegisterSignal)] == [
        (f"new {number}", 500 + number) for number in range(13)
    ]


def test_a_signal_is_begun_by_typing_into_the_empty_row(design: DesignWorkspace, document: Document) -> None:
    before = document.project
    grid = grid_of(design)
    press(Key.Key_End, CTRL)
    grid.go(len(before.signals), 0)
    type_in("level")
    press(Key.Key_Tab)
    assert document.project.signals[:-1] == before.signals
    assert document.project.signals[-1].name == "level"
    assert grid.currentIndex().row() == len(before.signals), "Tab goes on in the row that was begun"
    press(Key.Key_Escape)
    press(Key.Key_Down)
    assert grid.currentIndex().row() == grid.parts.rowCount() - 1, "another empty row is under it"
    grid.go(grid.parts.shown, column(grid, "unit"))
    type_in("bar")
    press(Key.Key_Return)
    assert document.project.signals[-1].unit == "bar"
    assert document.project.signals[-1].name == "signal", "a name that is free, until one is given"
    document.undo()
    document.undo()
    assert document.project is before


def test_nothing_comes_of_an_empty_row_by_itself(design: DesignWorkspace, document: Document) -> None:
    before = document.project
    grid = grid_of(design)
    grid.go(len(before.signals), 0)
    for key in (Key.Key_Return, Key.Key_Delete, Key.Key_F2, Key.Key_Return, Key.Key_F2, Key.Key_Tab, Key.Key_Escape):
        press(key)
    grid.go(len(before.signals), 0)
    for key, held in ((Key.Key_C, CTRL), (Key.Key_D, CTRL), (Key.Key_Return, CTRL), (Key.Key_Delete, CTRL)):
        press(key, held)
    assert document.project is before
    assert design.signals.current() == -1


def test_a_name_typed_into_the_empty_row_must_be_free(design: DesignWorkspace, document: Document) -> None:
    before = document.project
    grid_of(design).go(len(before.signals), 0)
    type_in("status")
    press(Key.Key_Return)
    assert "'status' already exists" in editor().words.text.text()
    assert document.project is before


def test_a_sorted_and_narrowed_table_shows_what_was_begun_in_it(design: DesignWorkspace, document: Document) -> None:
    click_on_heading(grid_of(design), "name")
    QTest.keyClicks(design.signals.table.narrow, "speed")
    grid = grid_of(design)
    grid.setFocus()
    grid.go(grid.parts.shown, 0)
    type_in("alone")
    press(Key.Key_Tab)
    place_of_new = len(document.project.signals) - 1
    assert document.project.signals[place_of_new].name == "alone"
    assert grid.parts.place(grid.currentIndex().row()) == place_of_new
    press(Key.Key_Escape)


def test_what_would_be_overwritten_unselected_is_said_first(design: DesignWorkspace, document: Document) -> None:
    before = document.project
    QApplication.clipboard().setText("500\n501\n502\n")
    told: list[str] = []

    def leave(dialog: QDialog) -> None:
        assert isinstance(dialog, Question)
        told.extend([dialog.headline.text(), dialog.sentence.text()])
        assert button_of(dialog, "Cancel").isDefault()
        QTest.keyClick(dialog, Key.Key_Return)

    go(design, "speed set point", "register")
    when_asked(leave)
    press(Key.Key_V, CTRL)
    assert document.project is before
    third = before.signals[5]
    assert isinstance(third, RegisterSignal)
    assert told[0] == "Replace rows: 3, or insert rows: 3?"
    assert "Cells that are not selected would get other contents: 2" in told[1]
    assert f"{third.name}, Register: {third.number} \N{RIGHTWARDS ARROW} 501" in told[1].splitlines()


def test_what_is_selected_is_overwritten_without_a_question(design: DesignWorkspace, document: Document) -> None:
    QApplication.clipboard().setText("500\n501\n502\n")
    go(design, "speed set point", "register")
    press(Key.Key_Down, SHIFT, 2)
    press(Key.Key_V, CTRL)
    assert [getattr(part, "number", 0) for part in document.project.signals[4:7]] == [500, 501, 502]


def test_instead_of_overwriting_rows_can_be_pasted_as_new_ones(design: DesignWorkspace, document: Document) -> None:
    before = document.project
    go(design, "speed set point", "name")
    QApplication.clipboard().setText("level\tpump\nflow\tpump\n")
    when_asked(press_button("Insert 2"))
    press(Key.Key_V, CTRL)
    assert document.project.signals[:-2] == before.signals
    assert [part.name for part in document.project.signals[-2:]] == ["level", "flow"]


def test_rows_from_a_spreadsheet_go_over_the_cells_and_on_behind_the_last(
    design: DesignWorkspace, document: Document
) -> None:
    before = document.project
    last = before.signals[-1].name
    go(design, last, "name")
    when_asked(press_button("Replace 1"))
    table = f"{last}\t\theld\t\t\tl\nnew a\tpump\tinput\t701\tuint32\nnew b\t\t\t\t\n"
    QApplication.clipboard().setText(table)
    press(Key.Key_V, CTRL)
    assert len(document.project.signals) == len(before.signals) + 2
    a, b = document.project.signals[-2:]
    assert isinstance(a, RegisterSignal)
    assert (a.name, a.table, a.number, a.encoding) == ("new a", "input", 701, "uint32")
    assert isinstance(b, RegisterSignal)
    assert (b.follower, b.number) == ("pump", 313), "behind the last register of the table"
    assert document.undo_name == "Paste signals"
    assert "Changed rows: 1. New rows: 2." in design.notice.text.text()
    document.undo()
    assert document.project is before


def test_under_headings_rows_find_their_signals_by_name(design: DesignWorkspace, document: Document) -> None:
    go(design, "status", "unit")
    QApplication.clipboard().setText("Unit\tName\tColour\nkHz\tspeed set point\tred\nV\tbrand new\tblue\n")
    when_asked(press_button("Replace 1"))
    press(Key.Key_V, CTRL)
    assert signal(document, "speed set point").unit == "kHz"
    assert document.project.signals[-1].name == "brand new"
    assert document.project.signal_named["status"].unit == ""
    assert "Not accepted: Colour." in design.notice.text.text()


def test_numbers_with_commas_stay_what_they_are(design: DesignWorkspace, document: Document) -> None:
    design.signals.table.show_column("step", on=True)
    go(design, "speed set point", "step")
    press(Key.Key_Down, SHIFT)
    QApplication.clipboard().setText("1,5\n0,25\n")
    press(Key.Key_V, CTRL)
    assert [part.step for part in document.project.signals[4:6]] == [Decimal("1.5"), Decimal("0.25")]
    document.undo()
    before = document.project
    QApplication.clipboard().setText("1,500\n")
    go(design, "speed set point", "step")
    asked = when_asked(lambda dialog: QTest.keyClick(dialog, Key.Key_Escape))
    press(Key.Key_V, CTRL)
    found = asked[0].findChild(QTreeWidget)
    assert found is not None
    item = found.topLevelItem(0)
    assert item is not None
    assert "can mean 1.500 or 1500" in item.text(3)
    assert document.project is before


def test_bad_cells_are_listed_and_the_rest_comes_in_when_asked(design: DesignWorkspace, document: Document) -> None:
    before = document.project
    go(design, "speed set point", "register")
    press(Key.Key_Down, SHIFT, 2)
    press(Key.Key_Right, SHIFT)
    QApplication.clipboard().setText("500\tint16\nmany\tint16\n502\tfloat\n")
    listed: list[tuple[str, str, str]] = []

    def take(dialog: QDialog) -> None:
        assert isinstance(dialog, BadCellsDialog)
        for row in range(dialog.list.topLevelItemCount()):
            item = dialog.list.topLevelItem(row)
            assert item is not None
            listed.append((item.text(0), item.text(1), item.text(2)))
        QTest.mouseClick(dialog.take, LEFT)

    when_asked(take)
    press(Key.Key_V, CTRL)
    assert listed == [("2", "Register", "many"), ("3", "Data type", "float")]
    parts = [part for part in document.project.signals[4:7] if isinstance(part, RegisterSignal)]
    assert [(part.number, part.encoding) for part in parts] == [(500, "int16"), (311, "int16"), (502, "uint16")]
    document.undo()
    assert document.project is before


def test_of_new_rows_those_with_bad_cells_stay_out_and_it_is_said(design: DesignWorkspace, document: Document) -> None:
    QApplication.clipboard().setText(
        "Name\tRegister\tEncoding\tScale\n"
        "temp\tabc\tint16\t\nflow 2\t601\tuint17\t\nload\t602\tint16\t\nlevel\t603\tint16\tx 1,500\n"
    )
    go(design, "speed set point", "register")
    said: list[str] = []

    def take(dialog: QDialog) -> None:
        assert isinstance(dialog, BadCellsDialog)
        assert not dialog.left_out.isHidden()
        said.extend([dialog.left_out.text(), dialog.sentence.text()])
        QTest.mouseClick(dialog.take, LEFT)

    count = len(document.project.signals)
    when_asked(take)
    press(Key.Key_V, CTRL)
    assert [part.name for part in document.project.signals[count:]] == ["load"]
    assert said[0].startswith("New rows skipped: 3. ")
    assert said[1].endswith("changed rows: 0, new rows: 1")
    assert "New rows skipped: 3." in design.notice.text.text()


def test_one_cell_is_pasted_into_all_that_are_selected(design: DesignWorkspace, document: Document) -> None:
    go(design, "speed set point", "unit")
    press(Key.Key_C, CTRL)
    assert QApplication.clipboard().text() == "Hz"
    press(Key.Key_Down)
    press(Key.Key_Down, SHIFT)
    press(Key.Key_V, CTRL)
    assert [part.unit for part in document.project.signals[5:7]] == ["Hz", "Hz"]


def test_copied_with_headings_it_says_what_is_what(design: DesignWorkspace, document: Document) -> None:
    go(design, "speed set point", "drive_role")
    press(Key.Key_Right, SHIFT)
    press(Key.Key_Insert, CTRL | SHIFT)
    assert QApplication.clipboard().text() == "Role in simulation\tUsed\n\t1\n"


@settings(max_examples=10, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.data())
def test_what_is_copied_and_pasted_over_itself_changes_nothing(design: DesignWorkspace, data: st.DataObject) -> None:
    document = design.document
    grid = grid_of(design)
    before = document.project
    rows = grid.parts.shown
    top = data.draw(st.integers(0, rows - 1))
    bottom = data.draw(st.integers(top, rows - 1))
    left = data.draw(st.integers(0, 9))
    right = data.draw(st.integers(left, len(grid.parts.columns) - 1))
    grid.setFocus()
    grid.select_cells(top, left, bottom, right)
    press(Key.Key_C, CTRL)
    grid.select_cells(top, left, bottom, right)
    if left != column(grid, "uses"):
        press(Key.Key_V, CTRL)
    if left > 0 or right < len(grid.parts.columns) - 1:
        assert document.project is before
        return
    # Whole rows are copies.
    new = document.project.signals[len(before.signals) :]
    assert [part.replace(name="x") for part in new] == [
        part.replace(name="x") for part in before.signals[top : bottom + 1]
    ]
    assert "Names already in use" in design.notice.text.text()
    document.undo()
    assert document.project is before


# Sorting and narrowing


def click_on_heading(grid: PartGrid, key: str) -> None:
    header = grid.horizontalHeader()
    number = column(grid, key)
    grid.scrollTo(grid.parts.index(0, number))
    point = QPoint(header.sectionViewportPosition(number) + 12, header.height() // 2)
    QTest.mouseClick(header.viewport(), LEFT, NO, point)


def names_shown(grid: PartGrid) -> list[str]:
    return [grid.parts.part(row).name for row in range(grid.parts.shown)]


def test_sorting_is_of_the_view_only_and_there_is_a_way_back(design: DesignWorkspace, document: Document) -> None:
    grid, table = grid_of(design), design.signals.table
    before = document.project
    in_file = [part.name for part in before.signals]
    assert not table.file_order.isVisible()
    click_on_heading(grid, "name")
    assert names_shown(grid) == sorted(in_file, key=str.casefold)
    assert document.project is before
    go_to = names_shown(grid)[0]
    assert not table.row_actions["up"].isEnabled()
    click_on_heading(grid, "name")
    assert names_shown(grid)[-1] == go_to
    QTest.mouseClick(table.file_order, LEFT)
    assert names_shown(grid) == in_file
    assert not table.file_order.isVisible()


def test_a_cell_edited_in_a_sorted_view_stays_where_it_is(design: DesignWorkspace, document: Document) -> None:
    grid = grid_of(design)
    click_on_heading(grid, "register")
    shown_before = names_shown(grid)
    row = shown_before.index("speed set point")
    index = grid.parts.index(row, column(grid, "register"))
    grid.scrollTo(index)
    QTest.mouseClick(grid.viewport(), LEFT, NO, grid.visualRect(index).center())
    type_in("9000")
    press(Key.Key_Return)
    assert signal(document, "speed set point").number == 9000
    assert names_shown(grid) == shown_before


def test_the_order_of_the_view_is_kept_when_asked(design: DesignWorkspace, document: Document) -> None:
    grid = grid_of(design)
    before = document.project
    go(design, "speed set point", "name")
    QTest.keySequence(grid, "Ctrl+F6")
    wanted = names_shown(grid)
    QTest.keySequence(grid, "Ctrl+Shift+F6")
    assert [part.name for part in document.project.signals] == wanted
    assert not dangling(document.project)
    assert not design.signals.table.file_order.isVisible()
    document.undo()
    assert document.project is before


def test_only_unused_ones_are_shown_and_marked_in_words(design: DesignWorkspace, document: Document) -> None:
    grid, table = grid_of(design), design.signals.table
    go(design, "status", "name")
    press(Key.Key_D, CTRL)
    copy = "status 2"
    after = document.project.signals[place(document.project, copy) - 1]
    assert isinstance(after, BitSignal), "the copy stands behind the bits of the first, not between"
    grid.setFocus()
    unused = table.toggles.button(2)
    assert unused.text() == "Not used 1"
    QTest.mouseClick(unused, LEFT)
    assert names_shown(grid) == [copy]
    at = column(grid, "uses")
    assert grid.parts.cell(0, at)[:2] == ("0", "caution")
    assert grid.parts.sign(0) == "caution", "and a sign before its name, for whom the colour says nothing"
    QTest.keyClick(unused, Key.Key_Left)
    QTest.keyClick(focused(), Key.Key_Left)
    assert grid.parts.shown == len(document.project.signals)


def test_the_filter_has_a_key_and_looks_for_words(design: DesignWorkspace) -> None:
    grid, table = grid_of(design), design.signals.table
    go(design, "status", "name")
    press(Key.Key_F, CTRL)
    assert table.narrow.hasFocus()
    QTest.keyClicks(table.narrow, "pump hz")
    assert "speed set point" in names_shown(grid)
    assert all("pump" in str(grid.parts.index(row, 1).data()) for row in range(grid.parts.shown))


# Where a signal is used


def test_the_places_where_a_signal_is_used_lead_there(design: DesignWorkspace, document: Document) -> None:
    go(design, "speed set point", "name")
    row = design.inspector.signal_form.used_row
    assert row.texts()
    assert row.texts()[0].startswith("screen 'run', field")
    QTest.keySequence(grid_of(design), "Ctrl+F11")
    places = row.editors()[0]
    assert places.hasFocus()
    QTest.keyClick(places, Key.Key_Home)
    QTest.keyClick(places, Key.Key_Return)
    assert design.view == "screen"
    field = document.project.screen_named[document.selection.screen].fields[document.selection.fields[0]]
    assert field.signal == "speed set point"


def test_a_double_click_on_the_count_goes_to_the_places(design: DesignWorkspace, document: Document) -> None:
    grid = grid_of(design)
    go(design, "speed set point", "uses")
    QTest.mouseDClick(grid.viewport(), LEFT, NO, grid.visualRect(grid.currentIndex()).center())
    assert design.inspector.signal_form.used_row.editors()[0].hasFocus()


def test_only_those_with_findings_are_shown(design: DesignWorkspace, document: Document) -> None:
    grid, table = grid_of(design), design.signals.table
    go(design, "status", "name")
    press(Key.Key_D, CTRL)  # a copy that nothing uses is worth a note
    design.checks.finish()
    found = {place[1] for finding in design.checks.findings if (place := finding.place)[:1] == ("signal",)}
    assert found
    QTest.mouseClick(table.toggles.button(3), LEFT)
    assert {grid.parts.place(row) for row in range(grid.parts.shown)} == found


def test_a_bit_is_a_use_that_leads_to_the_bit(design: DesignWorkspace, document: Document) -> None:
    go(design, "status", "name")
    row = design.inspector.signal_form.used_row
    bits = [part.name for part in document.project.signals if isinstance(part, BitSignal) and part.bit.of == "status"]
    assert [text for text in row.texts() if text.startswith("signal")] == [f"signal '{name}', bit" for name in bits]
    places = row.editors()[0]
    assert isinstance(places, QTreeWidget)
    item = places.topLevelItem(0)
    assert item is not None
    QTest.mouseClick(places.viewport(), LEFT, NO, places.visualItemRect(item).center())
    assert document.project.signals[design.signals.current()].name == bits[0]


# Large ones


def test_twenty_thousand_signals_are_sorted_filtered_and_edited(qtbot: QtBot) -> None:
    document = Document(big_project(screens=2, signals=20_000))
    design = shown(document, qtbot)
    grid = grid_of(design)
    click_on_heading(grid, "register")
    assert grid.parts.shown == 20_000
    design.signals.table.to_file_order()
    go(design, "signal 3", "unit")
    type_in("km/h")
    press(Key.Key_Return)
    assert document.project.signal_named["signal 3"].unit == "km/h"


def test_scale_cells_take_a_factor(design: DesignWorkspace, document: Document) -> None:
    design.signals.table.show_column("scale", on=True)
    go(design, "status", "scale")
    type_in("x 0,1")
    press(Key.Key_Return)
    assert signal(document, "status").scale == Scale(raw=(Decimal(0), Decimal(1)), value=(Decimal(0), Decimal("0.1")))


def test_a_line_edit_takes_no_part_of_a_key(design: DesignWorkspace) -> None:
    """The filter keeps its own keys: Delete there deletes a letter, not a signal."""
    table = design.signals.table
    count = len(design.document.project.signals)
    table.narrow.setFocus()
    QTest.keyClicks(table.narrow, "ab")
    QTest.keyClick(table.narrow, Key.Key_Backspace)
    assert isinstance(QApplication.focusWidget(), QLineEdit)
    assert table.narrow.text() == "a"
    assert len(design.document.project.signals) == count


def test_a_window_closed_over_an_open_cell_ends_in_order(document: Document, qtbot: QtBot) -> None:
    """Nothing is taken over, and nothing is left of the editor."""
    before = document.project
    design = shown(document, qtbot, kept=False)
    go(design, "speed set point", "register")
    type_in("31o")
    gone: list[bool] = []
    editor().destroyed.connect(lambda: gone.append(True))
    design.close()
    design.deleteLater()
    qtbot.waitUntil(lambda: bool(gone))
    assert document.project is before


def test_names_stay_in_sight_and_the_sorted_heading_says_so(design: DesignWorkspace) -> None:
    grid = grid_of(design)
    rows = Qt.Orientation.Vertical
    assert grid.parts.headerData(4, rows) == "5"
    design.signals.table.show_column("notes", on=True)
    go(design, "speed set point", "notes")
    assert grid.parts.headerData(4, rows) == "5  speed set point"
    press(Key.Key_Home)
    assert grid.parts.headerData(4, rows) == "5"
    click_on_heading(grid, "unit")
    number = column(grid, "unit")
    assert grid.parts.headerData(number, Qt.Orientation.Horizontal) == "\u25b2 Unit"
    click_on_heading(grid, "unit")
    assert grid.parts.headerData(number, Qt.Orientation.Horizontal) == "\u25bc Unit"
    click_on_heading(grid, "unit")
    assert grid.parts.headerData(number, Qt.Orientation.Horizontal) == "Unit"


def test_all_columns_of_a_signal_fit_where_the_list_of_screens_is_hidden(document: Document, qtbot: QtBot) -> None:
    view = SignalsView(document, Drafts())
    qtbot.addWidget(view)
    view.resize(1022, 500)  # of 1366, beside the properties
    view.show()
    view.show_project(document.project, frozenset())
    grid = view.table.table
    assert grid.horizontalScrollBar().maximum() == 0
    assert grid.verticalHeader().isHidden(), "nothing has to keep the names in sight"
    keys = [each.key for at, each in enumerate(grid.parts.columns) if not grid.isColumnHidden(at)]
    assert keys == [
        "name",
        "from",
        "table",
        "register",
        "encoding",
        "unit",
        "decimals",
        "limits",
        "write",
        "drive_role",
        "uses",
    ]


def test_columns_are_shown_when_asked_for_and_stay_so_for_the_project(
    document: Document, qtbot: QtBot, tmp_path: Path
) -> None:
    settings = Settings(keep=False)
    document.mark_saved(tmp_path / "one.toml")
    first = DesignWorkspace(document, settings)
    qtbot.addWidget(first)
    table = first.signals.table
    assert table.columns_menu is not None
    entry = next(each for each in table.columns_menu.actions() if each.text() == "Scale")
    entry.trigger()
    grid = table.table
    assert not grid.isColumnHidden(column(grid, "scale"))
    grid.setColumnWidth(column(grid, "from"), 177)
    qtbot.waitUntil(lambda: "177" in settings.columns(document.path))
    again = DesignWorkspace(document, settings)
    qtbot.addWidget(again)
    grid = grid_of(again)
    assert grid.columnWidth(column(grid, "from")) == 177
    assert not grid.isColumnHidden(column(grid, "scale"))
    document.open(document.project, tmp_path / "another.toml")
    assert grid.columnWidth(column(grid, "from")) == 116
    assert grid.isColumnHidden(column(grid, "scale"))


def test_the_line_below_says_what_the_cell_means(design: DesignWorkspace) -> None:
    line = design.signals.about_cell
    go(design, "speed set point", "limits")
    assert line.where.text() == "Limits of speed set point"
    assert line.meaning.text()
    go(design, "speed set point", "uses")
    assert line.meaning.text().endswith("cannot be edited")
    go(design, "running", "encoding")
    assert line.meaning.text() == "This one has none"
    press(Key.Key_Down, SHIFT, 2)
    assert line.where.text() == "Data type of 3 rows"


def test_a_long_name_beside_the_rows_ends_with_dots(design: DesignWorkspace, document: Document, qtbot: QtBot) -> None:
    long = "temperature of the far pump bearing"
    design.signals.table.show_column("notes", on=True)
    document.do("t", lambda project: edits.rename_signal(project, "command", long))
    grid = grid_of(design)
    grid.horizontalScrollBar().setValue(grid.horizontalScrollBar().maximum())
    row = place(document.project, long)
    name = str(grid.parts.headerData(row, Qt.Orientation.Vertical))
    assert name.startswith(f"{row + 1}  temperature of")
    assert name.endswith("\N{HORIZONTAL ELLIPSIS}")
    letters = QFont(grid.verticalHeader().font())
    letters.setWeight(QFont.Weight.DemiBold)
    qtbot.waitUntil(lambda: QFontMetrics(letters).horizontalAdvance(name) <= grid.verticalHeader().width())


def test_whole_rows_pasted_are_copies(design: DesignWorkspace, document: Document) -> None:
    before = document.project
    go(design, "running", "name")
    press(Key.Key_Down, SHIFT)
    press(Key.Key_Space, SHIFT)
    press(Key.Key_C, CTRL)
    press(Key.Key_V, CTRL)
    assert [part.name for part in document.project.signals[len(before.signals) :]] == ["running 2", "fault 2"]
    assert grid_of(design).places() == (len(before.signals), len(before.signals) + 1)
    press(Key.Key_X, CTRL)
    assert document.project.signals == before.signals, "whole rows are cut as a whole"


def test_an_empty_table_says_how_to_begin_and_keeps_the_clipboard(qtbot: QtBot) -> None:
    design = shown(Document(fresh_project()), qtbot)
    table = design.signals.table
    assert table.nothing.isVisible()
    assert table.nothing.text().startswith("No signals yet. Insert adds one")
    QApplication.clipboard().setText("kept")
    press(Key.Key_C, CTRL)
    assert QApplication.clipboard().text() == "kept"
    for key in (Key.Key_Return, Key.Key_Delete, Key.Key_F2):
        press(key)
    press(Key.Key_D, CTRL)
    press(Key.Key_X, CTRL)
    QTest.keySequence(grid_of(design), "Ctrl+F3")
    assert design.notice.text.text() == "Select the signals to copy first."


def test_a_filter_that_leaves_all_out_says_so(design: DesignWorkspace) -> None:
    table = design.signals.table
    assert not table.nothing.isVisible()
    QTest.keyClicks(table.narrow, "nowhere")
    assert table.nothing.text() == "The filter hides all rows."
    assert table.nothing.isVisible()


def test_the_menu_of_the_cells_has_their_commands_with_their_keys(
    design: DesignWorkspace, document: Document, qtbot: QtBot
) -> None:
    go(design, "speed set point", "unit")
    press(Key.Key_Down, SHIFT)
    grid = grid_of(design)
    grid.customContextMenuRequested.emit(QPoint(40, 40))
    qtbot.waitUntil(lambda: isinstance(QApplication.activePopupWidget(), QMenu))
    menu = QApplication.activePopupWidget()
    assert isinstance(menu, QMenu)
    entries = {action.text().replace("&", ""): action for action in menu.actions() if not action.isSeparator()}
    assert all(not action.shortcut().isEmpty() for action in entries.values())
    QTest.keyClick(menu, Key.Key_F)
    assert [part.unit for part in document.project.signals[4:6]] == ["Hz", "Hz"], "F fills down"


def test_what_was_typed_into_a_cell_does_not_get_into_another_project(
    design: DesignWorkspace, document: Document
) -> None:
    go(design, "speed set point", "register")
    type_in("999")
    other = load(demo_path("booster-pump"))
    document.open(other, None)
    design.signals.table.narrow.setFocus()
    QApplication.processEvents()
    assert document.project is other
    assert not isinstance(QApplication.focusWidget(), CellEditor)
    go(design, "speed set point", "register")
    type_in("311")
    press(Key.Key_Return)
    assert signal(document, "speed set point").number == 311
