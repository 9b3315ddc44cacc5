"""The panel itself."""

from __future__ import annotations

import pytest

from app import edits
from app.edits import EditRefused
from app.project.model import Field, Project, Screen


def test_a_larger_panel(project: Project) -> None:
    after = edits.set_size(project, 4, 20)
    assert (after.panel.rows, after.panel.columns) == (4, 20)
    assert after.screens[0].text == ("Speed      Hz", "", "State", "")
    assert after.screens[2] is project.screens[2]
    assert edits.set_size(project, 3, 16) is project


def test_a_smaller_panel_drops_empty_rows_only(project: Project) -> None:
    empty = edits.erase_text(edits.delete_fields(project, "run", [1]), "run", 2, 0, 16)
    after = edits.set_size(empty, 1, 13)
    assert after.screens[0].text == ("Speed      Hz",)
    assert after.screens[1].text == ("Status",)


def test_nothing_is_cut_off(project: Project) -> None:
    with pytest.raises(EditRefused, match="12 columns and 2 rows are not enough for") as caught:
        edits.set_size(project, 2, 12)
    assert [use.where for use in caught.value.uses] == [
        "screen 'run', text, row 1",
        "screen 'run', text, row 3",
        "screen 'run', field 2",
    ]
    with pytest.raises(EditRefused, match="rows: must be at least 1, not 0"):
        edits.set_size(project, 0, 12)


def test_what_lay_outside_before_does_not_keep_the_panel_from_growing(project: Project) -> None:
    outside = Screen(
        name="run", text=("x" * 40, "", "", "", "below"), fields=(Field(at=(9, 0), width=40, signal="speed"),)
    )
    bad = project.replace(screens=(outside, *project.screens[1:]))
    assert edits.set_size(bad, 4, 20).screens[0].text == outside.text
    assert edits.set_size(bad, 2, 16).screens[0].text == outside.text


def test_keys(project: Project) -> None:
    assert edits.set_keys(project, ["left", "right", "up", "down", "f1"]).panel.keys[-1] == "f1"
    with pytest.raises(EditRefused, match="key 'up' cannot be removed: it is used by action 1"):
        edits.set_keys(project, ["left", "right", "down"])
    with pytest.raises(EditRefused, match="there are two keys 'left'"):
        edits.set_keys(project, [*project.panel.keys, "left"])
    with pytest.raises(EditRefused, match="is empty"):
        edits.set_keys(project, [*project.panel.keys, ""])
    assert edits.set_keys(project, project.panel.keys) is project


def test_uses_follow_a_renamed_key(project: Project) -> None:
    after = edits.rename_key(project, "right", "page")
    assert after.panel.keys[1] == "page"
    assert after.screen_changes[0].key == "page"
    assert after.panel.entry.right == "page"
    with pytest.raises(EditRefused, match="there is already a key 'up'"):
        edits.rename_key(project, "down", "up")
    with pytest.raises(EditRefused, match="key 'f1' does not exist"):
        edits.rename_key(project, "f1", "f2")


def test_start_entry_and_repertoire(project: Project) -> None:
    assert edits.set_start(project, "status").panel.start == "status"
    with pytest.raises(EditRefused, match="screen 'x' does not exist"):
        edits.set_start(project, "x")
    assert edits.change_entry(project, by="digit", timeout_s=5).panel.entry.timeout_s == 5
    with pytest.raises(EditRefused, match="timeout_s: must be at least 0, not -1"):
        edits.change_entry(project, timeout_s=-1)
    assert edits.set_repertoire(project, "latin-1").panel.repertoire == "latin-1"


def test_title_and_notes(project: Project) -> None:
    after = edits.set_notes(edits.set_title(project, "Roof fan"), "why")
    assert (after.title, after.notes) == ("Roof fan", "why")
    assert edits.set_title(project, "") is project
    assert edits.set_notes(project, "") is project
