"""Typing by real keys against a model of a row as a list of characters: what is typed stays in its row."""

from __future__ import annotations

from dataclasses import dataclass, field

from hypothesis import HealthCheck, given, settings, strategies as st

from app.project.model import Project, Screen
from tests.widgets.design.screen.driving import Key, press, type_in
from widgets.design.screen.editor import ScreenEditor
from widgets.document.document import Document

ROWS, COLUMNS = 4, 20
FULL = tuple(letter * COLUMNS for letter in "abcd")
MOVES = {
    "Left": Key.Key_Left,
    "Right": Key.Key_Right,
    "Up": Key.Key_Up,
    "Down": Key.Key_Down,
    "Home": Key.Key_Home,
    "End": Key.Key_End,
    "Enter": Key.Key_Return,
}


@dataclass
class Model:
    """Four rows of cells; `behind`: the row was just typed to its end."""

    rows: list[list[str]] = field(default_factory=lambda: [list(row) for row in FULL])
    row: int = 0
    column: int = 0
    insert: bool = False
    behind: bool = False

    def move(self, name: str) -> None:
        before = self.row, self.column
        self._move(name)
        self.behind = self.behind and before == (self.row, self.column)

    def _move(self, name: str) -> None:
        if name in ("Left", "Right"):
            self.column = min(max(self.column + (1 if name == "Right" else -1), 0), COLUMNS - 1)
        elif name in ("Home", "End"):
            self.column = 0 if name == "Home" else COLUMNS - 1
        else:
            self.row = min(max(self.row + (-1 if name == "Up" else 1), 0), ROWS - 1)
            self.column = 0 if name == "Enter" else self.column

    def type(self, letter: str) -> None:
        row = self.rows[self.row]
        if self.behind:
            return
        if self.insert:
            if row[-1] != " ":
                return
            row.pop()
            row.insert(self.column, letter)
        else:
            row[self.column] = letter
        self.behind = self.column == COLUMNS - 1
        self.column = min(self.column + 1, COLUMNS - 1)

    def backspace(self) -> None:
        if not self.behind:
            if self.column == 0:
                return
            self.column -= 1
        self.behind = False
        row = self.rows[self.row]
        if self.insert:
            row.pop(self.column)
            row.append(" ")
        else:
            row[self.column] = " "

    def delete(self) -> None:
        self.behind = False
        row = self.rows[self.row]
        row[self.column] = " "
        if self.insert:
            row.append(row.pop(self.column))


STEPS = st.lists(
    st.one_of(
        st.text("xyz", min_size=1, max_size=25).map(lambda text: f"type {text}"),
        st.sampled_from([*MOVES, "Backspace", "Delete", "Insert", "End"]),
    ),
    max_size=25,
)


@settings(max_examples=20, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(STEPS)
def test_keys_do_to_a_screen_what_they_do_to_rows_of_cells(
    editor: ScreenEditor, document: Document, project: Project, steps: list[str]
) -> None:
    screen = Screen(name="full", text=FULL)
    document.open(project.replace(screens=(screen, *project.screens)), None)
    document.select_screen("full")
    editor.set_insert(False)
    model = Model()
    for step in steps:
        if step.startswith("type "):
            type_in(editor, step[5:])
            for letter in step[5:]:
                model.type(letter)
        elif step == "Insert":
            press(editor, Key.Key_Insert)
            model.insert = not model.insert
        elif step == "Backspace":
            press(editor, Key.Key_Backspace)
            model.backspace()
        elif step == "Delete":
            press(editor, Key.Key_Delete)
            model.delete()
        else:
            press(editor, MOVES[step])
            model.move(step)
        assert document.selection.cell == (model.row, model.column), step
        shown = [text.ljust(COLUMNS) for text in document.project.screen_named["full"].text]
        assert [*shown, *[" " * COLUMNS] * (ROWS - len(shown))] == ["".join(row) for row in model.rows], step
