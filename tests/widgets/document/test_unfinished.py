"""New screen changes and actions begin empty, and nothing half-made gets into the project."""

from __future__ import annotations

from decimal import Decimal

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QComboBox, QLabel, QLineEdit, QWidget

from app.project.model import HeldValue
from app.project_file.files import load
from projects import demo_path
from widgets.design.forms.form import Form
from widgets.design.workspace import DesignWorkspace
from widgets.document.document import Document

Key = Qt.Key


def form_in_front(design: DesignWorkspace) -> Form:
    form = design.inspector.current_form()
    assert form is not None
    return form


def editors(design: DesignWorkspace, label: str) -> tuple[QWidget, ...]:
    form = form_in_front(design)
    row = next(row for row in form.rows if row.label == label and row.isVisibleTo(form))
    return row.editors()


def choose(design: DesignWorkspace, label: str, text: str, at: int = 0) -> None:
    """Choose in a box as the list of it does."""
    box = editors(design, label)[at]
    assert isinstance(box, QComboBox)
    index = box.findText(text)
    assert index >= 0, [box.itemText(each) for each in range(box.count())]
    box.setCurrentIndex(index)
    box.activated.emit(index)


def chosen(design: DesignWorkspace, label: str, at: int = 0) -> str:
    box = editors(design, label)[at]
    assert isinstance(box, QComboBox)
    return box.currentText()


def state(design: DesignWorkspace) -> str:
    form = form_in_front(design)
    row = next(row for row in form.rows if row.label == "State")
    return "" if row.isHidden() else " ".join(label.text() for label in row.findChildren(QLabel))


def keys(design: DesignWorkspace, sequence: str) -> None:
    QTest.keySequence(design, sequence)


def test_a_new_override_does_nothing_until_its_signal_and_its_screen_are_chosen(
    design: DesignWorkspace, document: Document
) -> None:
    before = document.project
    keys(design, "Ctrl+W, C")
    assert document.project is before, "an empty rule is no part of the project"
    table = design.behaviour.screen_changes
    assert table.model.rowCount() == len(before.screen_changes) + 1
    assert table.model.index(len(before.screen_changes), 0).data() == "when (choose) is set"
    assert chosen(design, "Condition") == chosen(design, "Goes to") == "(choose)"
    assert "the signal of the condition, the target screen" in state(design)
    choose(design, "Goes to", "fault")
    assert document.project is before
    assert state(design).endswith("the signal of the condition")
    choose(design, "Condition", "remote")
    screen_change = document.project.screen_changes[-1]
    assert screen_change.when is not None
    assert (screen_change.when.signal, screen_change.when.is_, screen_change.to) == ("remote", "set", "fault")
    assert state(design) == ""
    assert table.model.rowCount() == len(before.screen_changes) + 1
    document.undo()
    assert document.project is before


def test_a_new_action_does_nothing_until_all_of_it_is_chosen(design: DesignWorkspace, document: Document) -> None:
    before = document.project
    keys(design, "Ctrl+W, W")
    choose(design, "Effect", "writes a value to it")
    choose(design, "Condition", "running")
    choose(design, "Signal", "speed set point")
    assert document.project is before
    assert state(design).endswith("the value")
    number = editors(design, "Number")[0]
    assert isinstance(number, QLineEdit)
    assert number.text() == ""
    QTest.keyClicks(number, "30")
    action = document.project.actions[-1]
    assert action.when is not None
    assert (action.when.signal, action.do, action.signal, action.value) == (
        "running",
        "write",
        "speed set point",
        Decimal(30),
    )


def test_a_key_gets_no_turn_before_its_screen_is_chosen(design: DesignWorkspace, document: Document) -> None:
    before = document.project
    keys(design, "Ctrl+W, G")
    assert document.project is before
    choose(design, "Goes to", "times")
    assert document.project.screen_changes[-1].to == "times"
    keys(design, "Ctrl+W, I")
    assert len(document.project.screen_changes) == len(before.screen_changes) + 1
    choose(design, "Goes to", "times")
    assert document.project.screen_changes[-1].idle_s == 120


def test_an_action_that_is_changed_acts_as_before_until_the_change_is_complete(
    design: DesignWorkspace, document: Document
) -> None:
    before = document.project
    at = next(n for n, each in enumerate(before.actions) if each.key == "start")
    design.navigator.show_action(at)
    choose(design, "Cause", "a condition, when it becomes true")
    assert document.project is before
    assert "nothing is changed yet" in state(design)
    assert chosen(design, "Condition") == "(choose)"
    choose(design, "Condition", "remote")
    action = document.project.actions[at]
    assert action.when is not None
    assert (action.key, action.when.signal, action.signal) == (None, "remote", "run command")

    choose(design, "Cause", "a key")
    assert document.project.actions[at].key is None, "no key that nobody chose"
    document.undo()
    assert state(design) == "", "of another rule than this one was begun to be changed"
    document.redo()
    choose(design, "Cause", "a key")
    choose(design, "Key", "start")
    assert document.project.actions[at].key == "start"

    writing = next(n for n, each in enumerate(before.actions) if each.do == "write")
    design.navigator.show_action(writing)
    choose(design, "Value", "a number")
    assert document.project.actions[writing].value == HeldValue(from_="filling ramp"), "no 0 that nobody typed"


def test_what_is_not_complete_can_be_deleted_and_is_left_alone_by_the_rest(
    design: DesignWorkspace, document: Document
) -> None:
    before = document.project
    keys(design, "Ctrl+W, A")
    table = design.behaviour.actions_table.table
    table.setFocus()
    for key, held in ((Key.Key_Up, Qt.KeyboardModifier.AltModifier), (Key.Key_D, Qt.KeyboardModifier.ControlModifier)):
        QTest.keyClick(table, key, held)
    assert document.project is before
    document.do("Rename", lambda project: project.replace(title="other"))
    assert design.behaviour.actions_table.model.rowCount() == len(before.actions) + 1
    QTest.keyClick(table, Key.Key_Delete)
    assert design.behaviour.actions_table.model.rowCount() == len(before.actions)
    assert document.project.actions == before.actions
    keys(design, "Ctrl+W, A")
    document.open(load(demo_path("drying-hall")), None)
    assert design.behaviour.actions_table.model.rowCount() == len(document.project.actions)


def test_what_is_not_complete_is_kept_when_something_else_is_begun(design: DesignWorkspace, document: Document) -> None:
    before = document.project
    count = len(before.actions)
    keys(design, "Ctrl+W, W")
    choose(design, "Condition", "running")
    keys(design, "Ctrl+W, A")
    choose(design, "Effect", "toggles the signal")
    choose(design, "Signal", "run command")
    table = design.behaviour.actions_table
    assert document.project.actions[:-1] == before.actions
    assert design.behaviour.current() == ("action", count), "the complete one is listed before the other, and current"
    assert state(design) == ""
    assert chosen(design, "Effect") == "toggles the signal"
    assert table.model.index(count + 1, 0).data() == "when running is set"
    keys(design, "Ctrl+W, C")
    assert design.behaviour.screen_changes.model.rowCount() == len(before.screen_changes) + 1
    assert [row.where for row in design.findings.model.rows if row.kind == "draft"] == ["an action", "a screen change"]
    design.findings.tree.setFocus()
    design.findings.select(0)
    QTest.keyClick(design.findings.tree, Key.Key_Return)
    assert design.behaviour.current() == ("action", count + 1)
    choose(design, "Effect", "sets the signal")
    choose(design, "Signal", "run command")
    action = document.project.actions[-1]
    assert action.when is not None
    assert (action.when.signal, action.do, action.signal) == ("running", "set", "run command")
    assert [row.where for row in design.findings.model.rows if row.kind == "draft"] == ["a screen change"]


def test_of_several_that_are_not_complete_the_chosen_one_is_deleted(
    design: DesignWorkspace, document: Document
) -> None:
    count = len(document.project.actions)
    for signal in ("running", "remote", "fault"):
        keys(design, "Ctrl+W, W")
        choose(design, "Condition", signal)
    table = design.behaviour.actions_table
    design.navigator.show_action(count + 1)
    QTest.keyClick(table.table, Key.Key_Delete)
    assert [table.model.index(row, 0).data() for row in range(count, table.model.rowCount())] == [
        "when running is set",
        "when fault is set",
    ]


def test_changes_of_two_rules_that_are_not_complete_are_both_kept(design: DesignWorkspace, document: Document) -> None:
    design.navigator.show_action(0)
    choose(design, "Cause", "a condition, when it becomes true")
    design.navigator.show_action(1)
    choose(design, "Cause", "a condition, when it becomes true")
    design.navigator.show_action(0)
    assert "nothing is changed yet" in state(design)
    choose(design, "Condition", "remote")
    assert document.project.actions[0].when is not None
    design.navigator.show_action(1)
    assert "nothing is changed yet" in state(design)


def test_no_value_is_taken_that_nobody_chose(design: DesignWorkspace, document: Document) -> None:
    """Every cause and every deed, from a new action: what comes into the project was chosen."""
    before = document.project
    for deed in ("sets the signal", "clears the signal", "toggles the signal", "writes a value to it"):
        for cause in ("A", "W"):
            keys(design, f"Ctrl+W, {cause}")
            choose(design, "Effect", deed)
            assert document.project is before, (deed, cause)
            QTest.keyClick(design.behaviour.actions_table.table, Key.Key_Delete)


def test_what_is_not_complete_is_listed_with_the_findings_and_found_from_anywhere(
    design: DesignWorkspace, document: Document
) -> None:
    keys(design, "Ctrl+W, W")
    design.show_view("signals")
    rows = design.findings.model.rows
    assert rows[0].kind == "draft"
    assert "the signal of the condition, what it does, the signal" in rows[0].what
    design.findings.tree.setFocus()
    design.findings.select(0)
    QTest.keyClick(design.findings.tree, Key.Key_Return)
    assert design.view == "behaviour"
    assert design.behaviour.current() == ("action", len(document.project.actions))
    choose(design, "Condition", "running")
    choose(design, "Effect", "sets the signal")
    choose(design, "Signal", "run command")
    assert all(row.kind != "draft" for row in design.findings.model.rows)
