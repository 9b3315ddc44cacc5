"""The document of a window: named steps, merging, refusals, selection."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QRect
from pytestqt.qtbot import QtBot

from app import edits
from app.project.model import Project
from app.project_file.files import load, parse
from projects import demo_path
from widgets.document.document import Document, Selection


def type_in(document: Document, text: str, at: tuple[int, int] = (3, 0), screen: str = "measured") -> str | None:
    return document.do(
        "Type", lambda project: edits.type_text(project, screen, *at, text), merge=("type", screen, at[0]), aloud=False
    )


def set_title(document: Document, title: str) -> None:
    document.do(f"Title {title}", lambda project: edits.set_title(project, title))


def test_an_edit_is_a_named_step(document: Document, project: Project, qtbot: QtBot) -> None:
    with qtbot.waitSignals([document.changed, document.status_changed]):
        set_title(document, "other")
    assert document.project.title == "other"
    assert (document.undo_name, document.redo_name, document.modified) == ("Title other", None, True)
    document.undo()
    assert document.project is project
    assert (document.undo_name, document.redo_name, document.modified) == (None, "Title other", False)
    document.redo()
    assert document.project.title == "other"


def test_an_edit_that_changes_nothing_is_no_step(document: Document, project: Project, qtbot: QtBot) -> None:
    with qtbot.assertNotEmitted(document.changed):
        set_title(document, project.title)
    assert document.undo_name is None


def test_a_refused_edit_changes_nothing_and_says_why(document: Document, project: Project, qtbot: QtBot) -> None:
    with qtbot.waitSignal(document.refused) as refused:
        reason = document.do("Rename", lambda project: edits.rename_screen(project, "run", "fault"))
    assert refused.args == [reason]
    assert reason is not None
    assert "'fault'" in reason
    assert document.project is project


def test_a_quiet_refusal_is_only_returned(document: Document, qtbot: QtBot) -> None:
    with qtbot.assertNotEmitted(document.refused):
        assert type_in(document, "x" * 100)


def test_typing_merges_until_something_else_is_selected(document: Document, project: Project) -> None:
    document.select(Selection("measured", (3, 0)))
    for column, character in enumerate("abc"):
        assert type_in(document, character, (3, column)) is None
    document.select(Selection("measured", (3, 5)))
    assert type_in(document, "d", (3, 5)) is None
    document.undo()
    assert document.project.screen_named["measured"].text[3].startswith("abc")
    document.undo()
    assert document.project is project


def test_saving_is_a_mark_that_undo_can_leave(document: Document, tmp_path: Path) -> None:
    set_title(document, "one")
    document.mark_saved(tmp_path / "x.toml")
    assert not document.modified
    assert document.path == tmp_path / "x.toml"
    document.undo()
    assert document.modified
    document.redo()
    assert not document.modified


def test_opening_another_project_forgets_the_steps(document: Document, qtbot: QtBot) -> None:
    set_title(document, "one")
    other = load(demo_path("drying-hall"))
    with qtbot.waitSignals([document.replaced, document.changed]):
        document.open(other, None)
    assert document.project is other
    assert document.undo_name is None
    assert document.selection.screen == other.panel.start


def test_the_selection_never_names_what_does_not_exist(document: Document, project: Project) -> None:
    fields = project.screen_named["run"].fields
    document.select(Selection("run", (99, 99), (0, len(fields), -1), QRect(-2, -2, 100, 100)))
    found = document.selection
    assert found.cell == (project.panel.rows - 1, project.panel.columns - 1)
    assert found.fields == (0,)
    assert found.block == QRect(0, 0, project.panel.columns, project.panel.rows)
    document.do("Delete field", lambda p: edits.delete_fields(p, "run", range(len(fields))))
    assert document.selection.fields == ()


def test_a_renamed_screen_stays_selected(document: Document) -> None:
    document.select_screen("times")
    document.do("Rename", lambda project: edits.rename_screen(project, "times", "ramps"))
    assert document.selection.screen == "ramps"
    document.undo()
    assert document.selection.screen == "times"


def test_undo_goes_to_the_screen_that_it_changes(document: Document) -> None:
    type_in(document, "x")
    document.select_screen("run")
    document.undo()
    assert document.selection.screen == "measured"


def test_a_project_without_screens_can_be_held(qapp: object, project: Project) -> None:
    bare = Document(project.replace(screens=(), screen_changes=(), actions=()))
    assert bare.screen is None
    assert bare.selection == Selection()
    bare.do("Add", lambda p: edits.add_screen(p, "first"), select=Selection("first"))
    assert bare.screen is not None
    bare.undo()
    assert bare.screen is None


LANGUAGES = """
format = 2

[panel]
rows = 1
columns = 8
languages = ["english", "deutsch"]
start = "run"

[[screen]]
name = "run"
text = ["Pump"]
"""


def test_texts_are_shown_and_typed_in_the_chosen_language(qtbot: QtBot) -> None:
    document = Document(parse(LANGUAGES))
    with qtbot.waitSignal(document.language_changed):
        document.choose_language(1)
    document.do("Type", document.in_spoken(lambda project: edits.type_text(project, "run", 0, 4, "e"), "run"))
    assert document.project.screens[0].text == ("Pump",)
    assert document.spoken.screens[0].text == ("Pumpe",)
    document.undo()
    assert document.project == parse(LANGUAGES)


def test_a_language_that_is_gone_is_the_first_one_again() -> None:
    document = Document(parse(LANGUAGES))
    document.choose_language(1)
    document.do("Fewer", lambda project: edits.set_languages(project, ["english"]))
    assert document.language == 0
    assert document.spoken is document.project
    document.undo()
    assert document.language == 1


def test_undo_and_redo_bring_back_where_the_cursor_was(document: Document) -> None:
    def typing(letter: str, column: int) -> Callable[[Project], Project]:
        return lambda project: edits.type_text(project, "times", 3, column, letter)

    for letter, column in (("a", 3), ("b", 4)):
        document.do(
            "Type",
            typing(letter, column),
            merge="type",
            select=Selection("times", (3, column + 1)),
        )
    document.select(Selection("times", (0, 0)))
    document.do(
        "Delete field",
        lambda project: edits.delete_fields(project, "times", [0]),
        select=lambda project: Selection("times", (0, len(project.screen_named["times"].fields))),
    )
    fields = len(document.project.screen_named["times"].fields)
    document.select(Selection("times", (2, 2)))
    document.undo()
    assert document.selection.cell == (0, 0)
    document.undo()
    assert document.selection == Selection("times")
    document.select(Selection("run", (1, 1)))
    document.redo()
    assert document.selection == Selection("times", (3, 5))
    document.redo()
    assert document.selection == Selection("times", (0, fields))
