"""New screen changes and actions begin empty, and nothing half-made gets into the project."""

from __future__ import annotations

from decimal import Decimal

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from app.project.model import HeldValue
from app.project_file.files import load
from projects import demo_path
from tests.widgets.design.sentences import choose, chosen, chosen_row, note, rows, type_word
from widgets.design.workspace import DesignWorkspace
from widgets.document.document import Document

Key = Qt.Key


def keys(design: DesignWorkspace, sequence: str) -> None:
    QTest.keySequence(design, sequence)


def show_all(design: DesignWorkspace) -> int:
    """Show all sentences; how many there are."""
    design.show_view("behaviour")
    design.behaviour.all.setChecked(True)
    return len(rows(design))


def test_a_new_override_does_nothing_until_every_word_is_chosen(design: DesignWorkspace, document: Document) -> None:
    before = document.project
    count = show_all(design)
    keys(design, "Ctrl+W, C")
    assert document.project is before, "an empty rule is no part of the project"
    assert len(rows(design)) == count + 1
    assert chosen_row(design) == "While which signal? is what? show screen which one?"
    assert "the signal of the condition, the comparison, the target screen" in note(design)
    choose(design, "to", "fault")
    choose(design, "signal", "remote")
    assert document.project is before
    assert note(design).endswith("the comparison")
    choose(design, "is", "is set")
    screen_change = document.project.screen_changes[-1]
    assert screen_change.when is not None
    assert (screen_change.when.signal, screen_change.when.is_, screen_change.to) == ("remote", "set", "fault")
    assert "not complete" not in note(design)
    assert len(rows(design)) == count + 1
    document.undo()
    assert document.project is before


def test_a_new_action_does_nothing_until_all_of_it_is_chosen(design: DesignWorkspace, document: Document) -> None:
    before = document.project
    keys(design, "Ctrl+W, W")
    choose(design, "do", "write")
    choose(design, "signal", "running")
    choose(design, "is", "becomes set")
    choose(design, "target", "speed set point")
    assert document.project is before
    assert note(design).endswith("the value")
    assert chosen(design, "number") == "which value?"
    type_word(design, "number", "30")
    action = document.project.actions[-1]
    assert action.when is not None
    assert (action.when.signal, action.do, action.signal, action.value) == (
        "running",
        "write",
        "speed set point",
        Decimal(30),
    )


def test_a_key_gets_no_screen_change_before_it_and_its_screen_are_chosen(
    design: DesignWorkspace, document: Document
) -> None:
    before = document.project
    keys(design, "Ctrl+W, G")
    choose(design, "to", "times")
    assert document.project is before
    choose(design, "key", "up")
    assert (document.project.screen_changes[-1].key, document.project.screen_changes[-1].to) == ("up", "times")
    keys(design, "Ctrl+W, I")
    choose(design, "to", "times")
    assert len(document.project.screen_changes) == len(before.screen_changes) + 1, "no time that nobody chose"
    type_word(design, "idle", "45")
    assert document.project.screen_changes[-1].idle_s == 45


def test_what_a_key_does_is_chosen_last_and_whatever_it_is(design: DesignWorkspace, document: Document) -> None:
    """A sentence is begun without saying whether it is a screen change or an action."""
    before = document.project
    design.show_view("behaviour")
    design.behaviour.add("key", "run", "up")
    assert chosen_row(design) == "Key UP does what?"
    choose(design, "do", "shows screen")
    assert chosen_row(design) == "Key UP shows screen which one?"
    choose(design, "to", "motor")
    assert document.project.screen_changes[-1].model_dump(exclude_none=True) == {
        "from_": "run",
        "key": "up",
        "to": "motor",
    }
    assert design.behaviour.current() == ("screen_change", len(before.screen_changes))
    choose(design, "do", "toggles")
    assert document.project.screen_changes[-1].to == "motor", "it acts as before until the signal is chosen"
    assert "acts as before" in note(design)
    choose(design, "target", "run command")
    assert document.project.screen_changes == before.screen_changes
    assert document.project.actions[-1].do == "toggle"
    assert design.behaviour.current() == ("action", len(before.actions))
    document.undo()
    assert document.project.screen_changes[-1].to == "motor"


def test_an_action_that_is_changed_acts_as_before_until_the_change_is_complete(
    design: DesignWorkspace, document: Document
) -> None:
    before = document.project
    at = next(n for n, each in enumerate(before.actions) if each.key == "start")
    design.navigator.show_action(at)
    choose(design, "cause", "by a condition")
    assert document.project is before
    assert "acts as before" in note(design)
    assert chosen(design, "signal") == "which signal?"
    choose(design, "signal", "remote")
    choose(design, "is", "becomes set")
    action = document.project.actions[at]
    assert action.when is not None
    assert (action.key, action.when.signal, action.signal) == (None, "remote", "run command")

    choose(design, "cause", "by a key")
    assert document.project.actions[at].key is None, "no key that nobody chose"
    document.undo()
    assert "not complete" not in note(design), "of another rule than this one was begun to be changed"
    document.redo()
    choose(design, "cause", "by a key")
    choose(design, "key", "start")
    assert document.project.actions[at].key == "start"

    writing = next(n for n, each in enumerate(before.actions) if each.do == "write")
    design.navigator.show_action(writing)
    choose(design, "do", "writes")
    assert document.project.actions[writing].value == HeldValue(from_="filling ramp"), "no 0 that nobody typed"


def test_what_is_not_complete_can_be_deleted_and_is_left_alone_by_the_rest(
    design: DesignWorkspace, document: Document
) -> None:
    before = document.project
    count = show_all(design)
    keys(design, "Ctrl+W, A")
    table = design.behaviour.table
    table.setFocus()
    for key, held in ((Key.Key_Up, Qt.KeyboardModifier.AltModifier), (Key.Key_D, Qt.KeyboardModifier.ControlModifier)):
        QTest.keyClick(table, key, held)
    assert document.project is before
    document.do("Rename", lambda project: project.replace(title="other"))
    assert len(rows(design)) == count + 1
    QTest.keyClick(table, Key.Key_Delete)
    assert len(rows(design)) == count
    assert document.project.actions == before.actions
    keys(design, "Ctrl+W, A")
    document.open(load(demo_path("drying-hall")), None)
    assert len(rows(design)) == len(document.project.actions) + len(document.project.screen_changes)


def test_what_is_not_complete_is_kept_when_something_else_is_begun(design: DesignWorkspace, document: Document) -> None:
    before = document.project
    count = len(before.actions)
    keys(design, "Ctrl+W, W")
    choose(design, "signal", "running")
    keys(design, "Ctrl+W, A")
    choose(design, "key", "up")
    choose(design, "do", "toggles")
    choose(design, "target", "run command")
    assert document.project.actions[:-1] == before.actions
    assert design.behaviour.current() == ("action", count), "the complete one is listed before the other, and current"
    assert "not complete" not in note(design)
    assert chosen_row(design) == "Key UP toggles run command"
    assert "When running is what? do what?" in rows(design)
    keys(design, "Ctrl+W, C")
    assert [row.where for row in design.findings.model.rows if row.kind == "draft"] == ["an action", "a screen change"]
    design.findings.tree.setFocus()
    design.findings.select(0)
    QTest.keyClick(design.findings.tree, Key.Key_Return)
    assert design.behaviour.current() == ("action", count + 1)
    choose(design, "is", "becomes set")
    choose(design, "do", "set")
    choose(design, "target", "run command")
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
        choose(design, "signal", signal)
    design.navigator.show_action(count + 1)
    QTest.keyClick(design.behaviour.table, Key.Key_Delete)
    assert [row for row in rows(design) if "is what?" in row] == [
        "When running is what? do what?",
        "When fault is what? do what?",
    ]


def test_changes_of_two_rules_that_are_not_complete_are_both_kept(design: DesignWorkspace, document: Document) -> None:
    design.navigator.show_action(0)
    choose(design, "cause", "by a condition")
    design.navigator.show_action(1)
    choose(design, "cause", "by a condition")
    design.navigator.show_action(0)
    assert "acts as before" in note(design)
    choose(design, "signal", "remote")
    choose(design, "is", "becomes set")
    assert document.project.actions[0].when is not None
    design.navigator.show_action(1)
    assert "acts as before" in note(design)


def test_no_value_is_taken_that_nobody_chose(design: DesignWorkspace, document: Document) -> None:
    """Every cause and every deed, from a new action: what comes into the project was chosen."""
    before = document.project
    for cause, deeds in (
        ("A", ("sets", "clears", "toggles", "writes", "writes the value of", "sets while it is held", "edits")),
        ("W", ("set", "clear", "toggle", "write", "write the value of", "show screen")),
    ):
        for deed in deeds:
            keys(design, f"Ctrl+W, {cause}")
            choose(design, "do", deed)
            assert document.project is before, (deed, cause)
            design.behaviour.delete_rows()


def test_what_is_not_complete_is_listed_with_the_findings_and_found_from_anywhere(
    design: DesignWorkspace, document: Document
) -> None:
    keys(design, "Ctrl+W, W")
    design.show_view("signals")
    first = design.findings.model.rows[0]
    assert first.kind == "draft"
    assert "the signal of the condition, the comparison, what it does, the signal" in first.what
    design.findings.tree.setFocus()
    design.findings.select(0)
    QTest.keyClick(design.findings.tree, Key.Key_Return)
    assert design.view == "behaviour"
    assert design.behaviour.current() == ("action", len(document.project.actions))
    choose(design, "signal", "running")
    choose(design, "is", "becomes set")
    choose(design, "do", "set")
    choose(design, "target", "run command")
    assert all(row.kind != "draft" for row in design.findings.model.rows)
