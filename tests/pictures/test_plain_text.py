"""Names, units and texts of a project are shown as they are: none of them is taken for the tags of a rich text.

The project of this test says `<b>` before every name, unit and text. Where a label or a tool tip would take that for a
tag, it would also load the picture, or reach for the server, that a hostile project names in an `<img>`.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QAbstractItemModel, QModelIndex, Qt
from PySide6.QtGui import Qt as GuiQt
from PySide6.QtWidgets import (
    QAbstractItemView,
    QApplication,
    QGraphicsView,
    QHeaderView,
    QLabel,
    QMenu,
    QTableView,
    QTreeView,
    QWidget,
)

from app.project.model import Project
from app.project_file.files import dump, load, parse
from projects import demo_path
from tests.pictures.panes import panes
from tests.pictures.stage import DEMO, Setting, settle, staged
from widgets.document import file_questions
from widgets.kit.dialogs.questions import Question
from widgets.kit.plain import plain_tip

TAG = "<b>"
USED_BY_PANES = {"speed set point", "ramp up", "run"}


def hostile() -> Project:
    """The demo, with a tag before all that its author has written."""
    text = dump(load(demo_path(DEMO)))
    names = {part[1] for part in re.finditer(r'^name = "(.*)"$', text, re.M)} - USED_BY_PANES
    for name in names:
        text = text.replace(f'"{name}"', f'"{TAG}{name}"')
    text = re.sub(r'^(title|unit|notes|hint) = "(?!<b>)', rf'\1 = "{TAG}', text, flags=re.M)
    text = re.sub(r'^("?-?\d+"?) = "', rf'\1 = "{TAG}', text, flags=re.M)
    project = parse(text)
    assert project.followers[0].name.startswith(TAG)
    assert all(signal.name.startswith(TAG) or signal.name in USED_BY_PANES for signal in project.signals)
    return project


def rich(text: str) -> bool:
    """Whether what the project says in it would be taken for a tag."""
    return TAG in text and GuiQt.mightBeRichText(text)


def tips_of_model(model: QAbstractItemModel, parent: QModelIndex, columns: int) -> Iterator[str]:
    for row in range(min(model.rowCount(parent), 200)):
        for column in range(columns):
            index = model.index(row, column, parent)
            yield str(index.data(Qt.ItemDataRole.ToolTipRole) or "")
        yield from tips_of_model(model, model.index(row, 0, parent), columns)


def taken_for_rich(top: QWidget) -> Iterator[str]:
    """Everything below `top` that takes a text of the project for rich text."""
    for widget in [top, *top.findChildren(QWidget)]:
        where = f"{type(widget).__name__} in {type(widget.parentWidget()).__name__}"
        if rich(widget.toolTip()):
            yield f"tool tip of {where}: {widget.toolTip()}"
        for action in widget.actions() if not isinstance(widget, QMenu) or widget.toolTipsVisible() else ():
            if rich(action.toolTip()):
                yield f"tool tip of an action of {where}: {action.toolTip()}"
        if isinstance(widget, QLabel) and TAG in widget.text():
            shape = widget.textFormat()
            if shape not in (Qt.TextFormat.PlainText, Qt.TextFormat.AutoText) or (
                shape == Qt.TextFormat.AutoText and rich(widget.text())
            ):
                yield f"text of {where}: {widget.text()}"
        if isinstance(widget, QGraphicsView) and widget.scene() is not None:
            yield from (
                f"tool tip in {where}: {item.toolTip()}" for item in widget.scene().items() if rich(item.toolTip())
            )
        if isinstance(widget, QAbstractItemView) and not isinstance(widget, QHeaderView) and widget.model() is not None:
            model = widget.model()
            columns = model.columnCount() if isinstance(widget, QTableView | QTreeView) else 1
            yield from (
                f"tool tip of a cell in {where}: {each}"
                for each in tips_of_model(model, QModelIndex(), columns)
                if rich(each)
            )
            for column in range(columns):
                head = str(model.headerData(column, Qt.Orientation.Horizontal, Qt.ItemDataRole.ToolTipRole) or "")
                if rich(head):
                    yield f"tool tip of a heading in {where}: {head}"


def test_no_pane_takes_a_text_of_the_project_for_rich_text() -> None:
    found: dict[str, set[str]] = {}
    project = hostile()
    seen = 0
    with staged(Setting()) as window:
        window.take(project, Path("<b>file.toml"))
        for pane in panes():
            with pane.open(window) as shown:
                settle()
                seen += sum(TAG in label.text() for label in shown.findChildren(QLabel))
                if told := set(taken_for_rich(shown)):
                    found[pane.name] = told
    words = "\n".join(f"{name}:\n  " + "\n  ".join(sorted(told)) for name, told in found.items())
    assert not found, f"shown as rich text (a label: setTextFormat; a tool tip: widgets.kit.plain.plain_tip):\n{words}"
    assert seen > 20


def test_questions_are_plain(qtbot: object, monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[list[str]] = []

    def look(box: Question) -> int:
        box.show()
        settle()
        asked.append([label.text() for label in box.findChildren(QLabel) if TAG in label.text()])
        assert not list(taken_for_rich(box))
        return 0

    monkeypatch.setattr(Question, "exec", look)
    parent = QWidget()
    path = Path(f"{TAG}pump.toml")
    file_questions.what_of_changes(parent, path.name)
    file_questions.may_let_go(parent, [f"{TAG}line"])
    file_questions.may_replace(parent, path, "Title")
    file_questions.may_drop_remarks(parent, path)
    file_questions.wants_another_place(parent, f"{path} was not saved")
    file_questions.what_of_conflict(parent, path)
    assert len(asked) == 6
    assert all(asked)
    QApplication.sendPostedEvents()
    parent.deleteLater()


def test_a_tip_is_left_alone_unless_it_looks_like_tags() -> None:
    assert plain_tip("2 < 3 and\nanother line") == "2 < 3 and\nanother line"
    shown = plain_tip('<img src="file:///nowhere.png"> & co')
    assert GuiQt.mightBeRichText(shown)
    assert "<img" not in shown
    assert "&lt;img src=" in shown
