"""The editor on the largest and the smallest panel there can be."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QRect

from app.project.model import Project
from app.project_file.files import parse
from tests.widgets.design.screen.driving import ALT, CTRL, Key, centre, drop, hold, move, notice_of, press, text_of
from widgets.design.screen.editor import ScreenEditor
from widgets.document.document import Document


def panel(rows: int, columns: int) -> Project:
    text = ", ".join(f'"{("word " * 27)[:columns]}"' for _ in range(rows // 2))
    return parse(
        f'format = 2\n[panel]\nrows = {rows}\ncolumns = {columns}\nstart = "s"\n'
        f'[[screen]]\nname = "s"\ntext = [{text}]\n'
    )


@pytest.fixture
def project() -> Project:
    return panel(64, 132)


def test_a_drag_brings_the_cells_beyond_the_edge_into_view(editor: ScreenEditor, document: Document) -> None:
    editor.commands.select_block(QRect(0, 0, 10, 1))
    hold(editor, centre(editor, 0, 2), centre(editor, 10, 2))
    assert editor.area.verticalScrollBar().value() == 0
    move(editor, centre(editor, 40, 2))
    assert editor.area.verticalScrollBar().value() > 0
    drop(editor, centre(editor, 40, 2))
    assert text_of(document, 40) == "word word"
    assert text_of(document, 0).startswith(" " * 10)


def test_half_a_large_panel_is_duplicated_into_the_other_half(editor: ScreenEditor, document: Document) -> None:
    editor.commands.select_block(QRect(0, 0, 132, 32))
    press(editor, Key.Key_D, modifiers=CTRL)
    assert text_of(document, 63) == text_of(document, 0)
    press(editor, Key.Key_D, modifiers=CTRL)
    assert "no room" in notice_of(editor)


@pytest.mark.parametrize("project", [panel(1, 1)])
def test_a_panel_of_one_cell_can_be_edited(editor: ScreenEditor, document: Document, project: Project) -> None:
    press(editor, Key.Key_A, modifiers=CTRL)
    press(editor, Key.Key_C, Key.Key_D, Key.Key_V, modifiers=CTRL)
    press(editor, Key.Key_X, Key.Key_Backspace, Key.Key_Y)
    assert text_of(document, 0) == "y"
    press(editor, Key.Key_End, Key.Key_Home, Key.Key_Right, modifiers=ALT)
    press(editor, Key.Key_E, Key.Key_B, Key.Key_G, modifiers=CTRL)
    press(editor, Key.Key_X, modifiers=CTRL)
    assert text_of(document, 0) == ""
    press(editor, Key.Key_V, modifiers=CTRL)
    assert text_of(document, 0) == "y"
    press(editor, Key.Key_Insert, Key.Key_Z)
    assert text_of(document, 0) == "z", "in the place of what is selected"
    press(editor, Key.Key_W)
    assert "The row is full" in notice_of(editor)
