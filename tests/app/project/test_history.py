"""Undo and redo."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from app import edits
from app.checks import check
from app.project.history import MERGE_WITHIN_S, EditHistory
from app.project.model import Project
from tests.builders import fresh_project


def titled(title: str) -> Project:
    return edits.set_title(fresh_project(), title)


@pytest.fixture
def history() -> EditHistory:
    return EditHistory(titled(""))


def test_at_the_start_there_is_nothing_to_undo(history: EditHistory) -> None:
    start = history.project
    assert not history.can_undo
    assert not history.can_redo
    assert history.undo_name is None
    assert history.redo_name is None
    assert history.undo() is start
    assert history.redo() is start
    assert not history.dirty


def test_steps_are_taken_back_and_done_again(history: EditHistory) -> None:
    start, one, two = history.project, titled("1"), titled("2")
    history.record(one, "First")
    history.record(two, "Second")
    assert (history.undo_name, history.redo_name) == ("Second", None)
    assert history.undo() is one
    assert (history.undo_name, history.redo_name) == ("First", "Second")
    assert history.undo() is start
    assert history.redo() is one
    assert history.redo() is two
    assert history.names == ("First", "Second")
    assert history.position == 2


def test_a_new_step_forgets_what_could_be_redone(history: EditHistory) -> None:
    history.record(titled("1"), "First")
    history.undo()
    history.record(titled("2"), "Other")
    assert history.names == ("Other",)
    assert not history.can_redo


def test_a_long_session_returns_to_the_very_start(history: EditHistory) -> None:
    start = history.project
    for number in range(10_000):
        history.record(edits.set_title(history.project, f"{number}"), "Change title")
    assert len(history.names) == 10_000
    while history.can_undo:
        history.undo()
    assert history.project is start
    while history.can_redo:
        history.redo()
    assert history.project.title == "9999"


def test_steps_of_one_kind_merge(history: EditHistory) -> None:
    start = history.project
    for number, letter in enumerate(("p", "pu", "pum", "pump")):
        history.record(titled(letter), "Type", merge_key=("type", 0), at=float(number))
    assert history.names == ("Type",)
    assert history.project.title == "pump"
    assert history.undo() is start


@pytest.mark.parametrize(
    ("key", "at"),
    [(None, 0.1), (("type", 1), 0.1), (("type", 0), MERGE_WITHIN_S + 0.1)],
    ids=["no key", "another key", "too late"],
)
def test_other_steps_do_not_merge(history: EditHistory, key: object, at: float) -> None:
    history.record(titled("1"), "Type", merge_key=("type", 0), at=0.0)
    history.record(titled("2"), "Type", merge_key=key, at=at)
    assert history.names == ("Type", "Type")


def test_steps_without_a_key_do_not_merge(history: EditHistory) -> None:
    history.record(titled("1"), "Add", at=0.0)
    history.record(titled("2"), "Add", at=0.0)
    assert len(history.names) == 2


def test_nothing_merges_across_undo_saving_or_a_seal(history: EditHistory) -> None:
    history.record(titled("1"), "Type", merge_key="k", at=0.0)
    history.record(titled("12"), "Other", at=0.0)
    history.undo()
    history.record(titled("13"), "Type", merge_key="k", at=0.0)
    assert len(history.names) == 2
    history.mark_saved()
    history.record(titled("134"), "Type", merge_key="k", at=0.0)
    assert len(history.names) == 3
    history.seal()
    history.record(titled("1345"), "Type", merge_key="k", at=0.0)
    assert len(history.names) == 4


def test_the_same_document_makes_no_step(history: EditHistory) -> None:
    history.record(history.project, "Nothing")
    assert history.names == ()


def test_the_mark_of_the_saved_document(history: EditHistory) -> None:
    history.record(titled("1"), "First")
    assert history.dirty
    history.mark_saved()
    assert not history.dirty
    history.undo()
    assert history.dirty
    history.redo()
    assert not history.dirty
    history.record(titled("2"), "Second")
    assert history.dirty
    history.record(titled("1"), "Back by hand")
    assert not history.dirty


def test_a_new_project_is_not_saved() -> None:
    history = EditHistory(fresh_project(), saved=False)
    assert history.dirty
    history.mark_saved()
    assert not history.dirty


@pytest.mark.parametrize("whole", [1, 3, 50])
def test_far_documents_come_back_from_what_changed(
    big_project: Project, whole: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("app.project.history.KEPT_WHOLE", whole)
    edit: list[Callable[[Project], Project]] = [
        lambda project: edits.type_text(project, "screen 7", 0, 0, "x"),
        lambda project: edits.add_screen(project, "more", 3),
        lambda project: edits.set_title(project, "Other"),
        lambda project: edits.change_signal(project, "signal 5", notes="Other."),
        lambda project: edits.delete_screen(project, "more"),
        lambda project: edits.order_parts(
            project, "signal", [*range(3), 9, *range(3, 9), *range(10, len(project.signals))]
        ),
        lambda project: edits.set_repertoire(project, "latin-1"),
        lambda project: edits.duplicate_signal(project, "signal 4"),
        lambda project: edits.add_screen_change(project, edits.screen_change(key="enter", to="screen 5"), 0),
        lambda project: edits.delete_screen_change(project, 0),
    ]
    history, documents = EditHistory(big_project), [big_project]
    for each in edit:
        history.record(each(history.project), "Edit")
        documents.append(history.project)
    for _ in range(2):
        for before in documents[-2::-1]:
            after = history.undo()
            assert after == before
            assert after.model_fields_set == before.model_fields_set
            assert after.signal_named == before.signal_named
            assert after.screen_named == before.screen_named
        for then in documents[1:]:
            assert history.redo() == then
    assert check(history.project) == check(documents[-1])


def test_steps_merge_behind_a_document_that_is_put_together_again(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("app.project.history.KEPT_WHOLE", 1)
    history = EditHistory(titled(""))
    for number in range(4):
        history.record(titled(f"{number}"), "Other", at=0.0)
    for number, letters in enumerate(("p", "pu", "pum")):
        history.record(titled(letters), "Type", merge_key="k", at=float(number))
    assert history.position == 5
    assert history.undo() == titled("3")
    assert history.undo() == titled("2")
    assert history.redo() == titled("3")
    assert history.redo() == titled("pum")


def test_any_step_is_gone_to_and_the_saved_one_is_known(history: EditHistory) -> None:
    documents = [history.project, *(titled(str(number)) for number in range(1, 200))]
    for number, document in enumerate(documents[1:], start=1):
        history.record(document, f"Step {number}")
        if number == 50:
            history.mark_saved()
    for position in (0, 199, 50, 120, 3):
        assert history.go_to(position) == documents[position]
        assert (history.position, history.dirty) == (position, position != 50)
    saved_at = history.saved_at
    assert saved_at == 50
    history.record(titled("another"), "Another")
    assert history.dirty
    assert history.saved_at is None  # the saved document is among the steps no longer
    assert history.go_to(-1) is documents[0]
    assert history.go_to(5).title == "another"
