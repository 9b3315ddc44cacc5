"""What 1 500 sentences over 200 screens cost: opening their view, an edit in it, and the same rules in a plain table.

Wanted: opened in 300 ms, an edit and what it redraws within a frame (16 ms).
"""

from __future__ import annotations

from collections.abc import Callable

import pytest
from PySide6.QtGui import QGuiApplication
from pytest_benchmark.fixture import BenchmarkFixture
from pytestqt.qtbot import QtBot

from app import edits
from app.checks.by_part import FindingsByPart
from app.project.model import Action, Condition, Project
from tests.big_project import big_project
from widgets.design.behaviour.behaviour_view import BehaviourView
from widgets.design.forms.part_texts import cause_text, deed_text, from_text
from widgets.design.tables.part_table import PartTable
from widgets.design.values.column import Column
from widgets.document.document import Document
from widgets.document.drafts import Drafts
from widgets.document.unfinished import Unfinished

SIZE = (786, 430)


@pytest.fixture
def project(measured: bool) -> Project:
    """200 screen changes, and actions on every screen and on conditions: 1 500 in all."""
    screens = 200 if measured else 20
    whole = big_project(screens=screens, signals=10 * screens)
    bits = [signal.name for signal in whole.signals if hasattr(signal, "bit")]
    keys = ("enter", "escape", "left", "right")
    count = 15 * screens // 2 - len(whole.screen_changes)
    actions = [
        Action(when=Condition.model_validate({"signal": bit, "is": "set"}), do="clear", signal=bit)
        if number % 6 == 5
        else Action(key=keys[number % 4], from_=whole.screens[number % screens].name, do="toggle", signal=bit)
        for number in range(count)
        for bit in (bits[number % len(bits)],)
    ]
    return whole.replace(actions=tuple(actions))


def made(document: Document, qtbot: QtBot) -> BehaviourView:
    view = BehaviourView(document, Drafts(), Unfinished())
    qtbot.addWidget(view)
    view.resize(*SIZE)
    document.changed.connect(lambda: view.show_project(FindingsByPart()))
    return view


def opened(view: BehaviourView, *, everything: bool) -> Callable[[], None]:
    def show() -> None:
        view.hide()
        view.model.beginResetModel()
        view.model.groups = []
        view.model.endResetModel()
        view.show_project(FindingsByPart())
        view.show()
        QGuiApplication.processEvents()

    view.all.setChecked(everything)
    return show


@pytest.mark.parametrize("everything", [False, True], ids=["one screen and everywhere", "all"])
def test_the_view_is_opened(benchmark: BenchmarkFixture, project: Project, qtbot: QtBot, *, everything: bool) -> None:
    view = made(Document(project), qtbot)
    benchmark(opened(view, everything=everything))
    assert view.model.count == len(project.screen_changes) + len(project.actions)


@pytest.mark.parametrize("everything", [False, True], ids=["one screen and everywhere", "all"])
def test_an_edit_is_shown(benchmark: BenchmarkFixture, project: Project, qtbot: QtBot, *, everything: bool) -> None:
    document = Document(project)
    view = made(document, qtbot)
    opened(view, everything=everything)()
    view.select("action", 0)
    names = ("signal 7", "signal 8")
    times = 0

    def edit() -> None:
        nonlocal times
        times += 1
        view.edits.put(("action", 0), "target", names[times % 2])
        QGuiApplication.processEvents()

    benchmark(edit)
    assert document.project.actions[0].signal in names


def test_another_row_is_chosen(benchmark: BenchmarkFixture, project: Project, qtbot: QtBot) -> None:
    view = made(Document(project), qtbot)
    opened(view, everything=True)()
    at = 0

    def go() -> None:
        nonlocal at
        at = (at + 1) % 20
        view.select("action", at)
        QGuiApplication.processEvents()

    benchmark(go)
    assert view.editor.place == ("action", at)


@pytest.fixture
def table(qtbot: QtBot) -> PartTable:
    """The same rules as rows of a table with a form beside it, which is what this view was."""
    columns = [
        Column("Cause", lambda _project, part: cause_text(part)),
        Column("On screen", lambda _project, part: from_text(part), 150),
        Column("Effect", lambda _project, part: deed_text(part), 270),
    ]
    found = PartTable("Actions", columns, [("key", "By a key")])
    qtbot.addWidget(found)
    found.resize(*SIZE)
    return found


def test_a_table_of_the_same_is_opened(benchmark: BenchmarkFixture, project: Project, table: PartTable) -> None:
    def show() -> None:
        table.hide()
        table.show_parts(project, ())
        table.show_parts(project, project.actions)
        table.show()
        QGuiApplication.processEvents()

    benchmark(show)
    assert table.model.shown == len(project.actions)


def test_an_edit_is_shown_in_a_table_of_the_same(
    benchmark: BenchmarkFixture, project: Project, table: PartTable
) -> None:
    table.show_parts(project, project.actions)
    table.show()
    document = Document(project)
    names = ("signal 7", "signal 8")
    times = 0

    def edit() -> None:
        nonlocal times
        times += 1
        document.do("Change", lambda project: edits.change_action(project, 0, signal=names[times % 2]))
        table.show_parts(document.project, document.project.actions)
        QGuiApplication.processEvents()

    benchmark(edit)
    assert document.project.actions[0].signal in names
