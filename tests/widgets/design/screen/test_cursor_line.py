"""The line under the face: always there and as high, and true after every key, undo and redo."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import HealthCheck, given, settings, strategies as st
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QDialog, QWidget
from pytestqt.qtbot import QtBot

from app import edits
from app.project.model import Field, Project
from app.project_file.files import load
from projects import demo_path
from tests.widgets.design.screen.driving import ALT, CTRL, NO, SHIFT, Key, click, field, press, text_of
from tests.widgets.driving import when_asked
from widgets.design.forms.blinking import BlinkDialog
from widgets.design.screen.cursor_line import CursorLine
from widgets.design.screen.editor import ScreenEditor
from widgets.design.screen.field_places import field_at
from widgets.document.document import Document, Selection
from widgets.kit.notice import Notice

LONG = "a name as long as the name of a signal i"
WIDTH = 700
"""Pixels that the middle of the window has beside lists and properties on a screen of 1366 x 768."""


def test_cell_signal_range_and_widest_text_are_said(editor: ScreenEditor) -> None:
    click(editor, 0, 8)
    assert editor.status.where.text() == "Row 1, column 9"
    assert editor.status.what.text() == (
        "frequency: number, 5 wide   ·   widest “-163.8”: ⚠ needs 6, has 5   ·   range -163.8 to 163.8 Hz"
        "   ·   field 1, cell 3 of 5"
    )
    click(editor, 2, 12)
    assert "running: text per value, 8 wide" in editor.status.what.text()
    assert "texts: 2" in editor.status.what.text()
    assert "widest" in editor.status.what.text()
    click(editor, 0, 1)
    assert editor.status.text().startswith("Row 1, column 2   ·   text “p”   ·   No field here")
    click(editor, 3, 1)
    assert editor.status.text().startswith("Row 4, column 2   ·   blank   ·   No field here")


def test_selected_cells_and_fields_are_counted_and_the_field_stays_said(editor: ScreenEditor) -> None:
    click(editor, 0, 7)
    click(editor, 2, 11, CTRL)
    assert "fields selected: 2" in editor.status.what.text()
    assert "running" in editor.status.what.text(), "the field under the cursor"
    click(editor, 0, 0)
    press(editor, Key.Key_Down, Key.Key_Right, modifiers=SHIFT)
    assert "2 x 2 cells selected" in editor.status.what.text()


def test_a_character_that_the_panel_lacks_is_said(editor: ScreenEditor, document: Document) -> None:
    document.do("Type", lambda project: edits.type_text(project, "bench", 3, 0, "\N{SNOWMAN}"))
    click(editor, 3, 0)
    assert "cannot show ☃" in editor.status.what.text()


def with_long_signal(project: Project) -> Project:
    signals = tuple(
        signal.replace(name=LONG, unit="sixteen letters.", decimals=4) if signal.name == "frequency" else signal
        for signal in project.signals
    )
    longest = Field(at=(0, 0), width=20, signal=LONG, entry=True)
    screens = tuple(
        screen.replace(fields=(longest,)) if screen.name == "bench" else screen.replace(fields=())
        for screen in project.screens
    )
    return project.replace(signals=signals, screens=screens, actions=(), screen_changes=())


def test_nothing_is_cut_off_at_the_smallest_window(project: Project, qtbot: QtBot) -> None:
    window = QWidget()
    qtbot.addWidget(window)
    document = Document(with_long_signal(project))
    editor = ScreenEditor(document, Notice(window), window)
    window.resize(WIDTH, 420)
    editor.resize(WIDTH, 420)
    window.show()
    document.select(Selection("bench", (0, 5), (0,)))
    what, where = editor.status.what, editor.status.where
    assert LONG in what.text()
    qtbot.waitUntil(lambda: where.width() >= where.fontMetrics().horizontalAdvance(where.text()))
    verdict = what.text()[: what.text().index("fits") + 4]
    assert what.fontMetrics().horizontalAdvance(verdict) < what.width(), "whether it fits is said before the rest"
    assert all(part in what.toolTip() for part in ("fits", "sixteen letters.", "cell 6 of 20"))


def test_it_keeps_its_height_while_the_cursor_moves(editor: ScreenEditor, qtbot: QtBot) -> None:
    click(editor, 3, 3)
    height = editor.status.height()
    click(editor, 0, 8)
    qtbot.wait(20)
    assert editor.status.height() == height


KEYS: tuple[tuple[Qt.Key, Qt.KeyboardModifier], ...] = (
    (Key.Key_Right, NO),
    (Key.Key_Left, NO),
    (Key.Key_Down, NO),
    (Key.Key_Up, NO),
    (Key.Key_Right, SHIFT),
    (Key.Key_Down, SHIFT),
    (Key.Key_Right, CTRL),
    (Key.Key_Right, ALT),
    (Key.Key_Down, ALT),
    (Key.Key_Right, ALT | SHIFT),
    (Key.Key_X, NO),
    (Key.Key_Delete, NO),
    (Key.Key_Backspace, NO),
    (Key.Key_D, CTRL),
    (Key.Key_C, CTRL),
    (Key.Key_X, CTRL),
    (Key.Key_V, CTRL),
    (Key.Key_E, CTRL),
    (Key.Key_B, CTRL),
    (Key.Key_Escape, NO),
)
STEPS = st.lists(st.one_of(st.sampled_from(KEYS), st.sampled_from(["undo", "redo"])), max_size=40)


@pytest.fixture
def restart(editor: ScreenEditor, document: Document, project: Project) -> Callable[[], None]:
    def back() -> None:
        document.open(project, None)
        document.select(Selection("bench"))

    return back


@settings(max_examples=12, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(steps=STEPS)
def test_the_lines_agree_with_the_cursor_whatever_was_done(
    editor: ScreenEditor, document: Document, restart: Callable[[], None], steps: list[object]
) -> None:
    restart()
    first = document.project
    for step in steps:
        if step == "undo":
            document.undo()
        elif step == "redo":
            document.redo()
        else:
            assert isinstance(step, tuple)
            press(editor, step[0], modifiers=step[1])
        assert agrees(editor.status, document)
    while document.undo_name is not None:
        document.undo()
        assert agrees(editor.status, document)
    assert document.project is first


def agrees(status: CursorLine, document: Document) -> bool:
    """Whether the lines name the cell of the cursor, and the field on it and no other."""
    screen, (row, column) = document.screen, document.selection.cell
    assert screen is not None
    index = field_at(screen, row, column)
    if status.where.text() != f"Row {row + 1}, column {column + 1}":
        return False
    if index is None:
        return "No field here" in status.what.text()
    return status.what.text().startswith(f"{screen.fields[index].signal}: ")


def test_a_demo_says_something_of_every_field(editor: ScreenEditor, document: Document) -> None:
    document.open(load(demo_path("drying-hall")), None)
    for screen in document.project.screens:
        for index, each in enumerate(screen.fields):
            document.select(Selection(screen.name, each.at, (index,)))
            assert each.signal in editor.status.what.text()
            assert f"{field(document, index).width} wide" in editor.status.what.text()
    assert text_of(document, 0) is not None


def test_the_question_when_cells_blink_and_what_is_said_of_them(editor: ScreenEditor, document: Document) -> None:
    def answer(dialog: QDialog) -> None:
        assert isinstance(dialog, BlinkDialog)
        box = dialog.when.editors()[0]
        assert isinstance(box, QComboBox)
        box.setCurrentIndex(box.findData("running"))
        box.activated.emit(box.currentIndex())
        dialog.deed.click()

    click(editor, 0, 1)
    when_asked(answer)
    press(editor, Key.Key_K, modifiers=CTRL | ALT)
    assert "blinks when running is set" in editor.status.what.text()
    document.undo()
    assert "blinks" not in editor.status.what.text()
