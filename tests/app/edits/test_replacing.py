"""Finding and replacing on the screens."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from app.edits import EditRefused, replace_all, replace_match, type_text
from app.edits.search import Match, Sought, find
from app.project.model import Field, Project
from app.project_file.files import parse
from tests.big_project import big_project


def row(project: Project, number: int, screen: str = "status") -> str:
    return project.screen_named[screen].text[number]


def lettered(project: Project, text: str) -> Project:
    """The project with this text on the screen "status" and none on the others."""
    bare = project.replace(screens=tuple(screen.replace(text=()) for screen in project.screens))
    return type_text(bare, "status", 0, 0, text)


def test_text_is_found_on_all_screens_in_order(project: Project) -> None:
    assert find(project, Sought("stat")) == (Match("run", 2, 0, 4), Match("status", 0, 0, 4))
    assert find(project, Sought("stat", case=True)) == ()
    assert find(project, Sought("")) == ()


def test_whole_words_are_found_apart(project: Project) -> None:
    text = lettered(project, "set RESET set. 1")
    assert [match.column for match in find(text, Sought("set", words=True))] == [0, 10]
    assert row(replace_all(text, Sought("set", words=True), "put").project, 0) == "put RESET put. 1"
    assert find(lettered(project, "a 2*b"), Sought("*", words=True)) == ()


def test_text_under_a_field_is_not_found(project: Project) -> None:
    hidden = type_text(project, "status", 1, 0, "hidden")
    screens = tuple(
        screen.replace(fields=(Field(at=(1, 2), width=3, signal="speed"),)) if screen.name == "status" else screen
        for screen in hidden.screens
    )
    assert find(hidden.replace(screens=screens), Sought("hidden")) == ()
    assert find(hidden.replace(screens=screens), Sought("n")) == (Match("status", 1, 5, 1),)


def test_fields_are_found_by_their_signals(project: Project) -> None:
    found = find(project, Sought("run", texts=False, signals=True))
    assert found == (Match("run", 2, 6, 7, field=1),), "shown and blinked by, but one field"


@pytest.mark.parametrize(
    ("text", "sought", "put", "after"),
    [
        ("Speed   Hz", "Speed", "Revs", "Revs    Hz"),
        ("Speed   Hz", "Speed", "Speeds", "Speeds  Hz"),
        ("Speed   Hz", "Speed", "Speedos", "Speedos Hz"),
        ("Speed", "Speed", "Sixteen letters.", "Sixteen letters."),
        ("rpms of it", "rpm", "turn", None),
        ("rpms  of it", "rpm", "turn", "turns of it"),
        ("rpms of it", "rpm", "t", "ts   of it"),
        ("a a a", "a", "b", "b b b"),
        ("aaaa", "aa", "b", "bb"),
        ("ab ab", "ab", "", "   "),
        ("Pump 1 pump", "pump", "PUMP", "PUMP 1 PUMP"),
        ("a+b", "a+", "x", "xb"),
    ],
)
def test_a_row_keeps_its_columns(project: Project, text: str, sought: str, put: str, after: str | None) -> None:
    result = replace_all(lettered(project, text), Sought(sought), put)
    assert row(result.project, 0) == (text if after is None else after.rstrip())
    assert bool(result.refused) == (after is None)


def test_a_longer_text_never_reaches_text_a_field_or_the_edge(project: Project) -> None:
    result = replace_all(project, Sought("Speed"), "Velocity")
    assert result.project is project
    assert result.count == 0
    assert [(refusal.match, refusal.reason) for refusal in result.refused] == [
        (Match("run", 0, 0, 5), "'Velocity' needs 8 cells, but only 6 are free there")
    ]
    assert row(replace_all(project, Sought("Speed"), "Speeds").project, 0, "run") == "Speeds     Hz"
    with pytest.raises(EditRefused, match="needs 17 cells, but only 16 are free"):
        replace_match(project, Match("status", 0, 0, 6), Sought("Status"), "x" * 17)


def test_one_place_at_a_time(project: Project) -> None:
    two = lettered(project, "one one")
    after = replace_match(two, find(two, Sought("one"))[1], Sought("one"), "two")
    assert row(after, 0) == "one two"


def test_what_is_put_in_is_not_replaced_again(project: Project) -> None:
    result = replace_all(lettered(project, "a  a"), Sought("a"), "aa")
    assert (row(result.project, 0), result.count) == ("aa aa", 2)


def test_fields_get_the_signals_of_the_new_names(project: Project) -> None:
    named = parse(
        """
        format = 2
        [panel]
        start = "s"
        [[signal]]
        name = "pump 1 speed"
        held = 0
        [[signal]]
        name = "pump 2 speed"
        held = 0
        [[signal]]
        name = "pump 1 load"
        held = 0
        [[screen]]
        name = "s"
        text = ["pump 1"]
        [[screen.field]]
        at = [1, 0]
        width = 4
        signal = "pump 1 speed"
        blink = { signal = "pump 1 speed" }
        [[screen.field]]
        at = [2, 0]
        width = 4
        signal = "pump 1 load"
        """
    )
    result = replace_all(named, Sought("pump 1", signals=True), "pump 2")
    speed, load = result.project.screen_named["s"].fields
    assert speed.signal == "pump 2 speed"
    assert speed.blink is not None
    assert speed.blink.signal == "pump 2 speed"
    assert load.signal == "pump 1 load"
    assert result.project.screen_named["s"].text[0] == "pump 2"
    assert result.count == 2
    assert "signal 'pump 2 load' does not exist" in result.refused[0].reason
    alone = find(named, Sought("pump 1", texts=False, signals=True))[0]
    assert replace_match(named, alone, Sought("pump 1"), "pump 2").screen_named["s"].fields[0].signal == "pump 2 speed"


def test_a_control_character_is_refused(project: Project) -> None:
    with pytest.raises(EditRefused, match="control character"):
        replace_all(project, Sought("Speed"), "a\nb")
    with pytest.raises(EditRefused, match="more than a row"):
        replace_all(project, Sought("Speed"), "x" * 133)


def test_a_large_project_shares_what_was_left_alone() -> None:
    project = big_project()
    result = replace_all(project, Sought("no such text anywhere"), "x")
    assert result.project is project
    first = project.screens[0]
    word = first.text[0].split()[0]
    result = replace_all(project, Sought(word, case=True), word[:-1])
    assert result.count >= 1
    assert result.project.signals is project.signals


@given(st.text("ab .", max_size=16), st.text("ab", min_size=1, max_size=3), st.text("abc ", max_size=4), st.booleans())
def test_nothing_behind_a_replaced_word_ever_moves(text: str, sought: str, put: str, case: bool) -> None:
    project = parse('format = 2\n[panel]\nrows = 1\ncolumns = 16\nstart = "s"\n[[screen]]\nname = "s"\n')
    project = type_text(project, "s", 0, 0, text) if text else project
    before = project.screen_named["s"].text[0] if project.screen_named["s"].text else ""
    result = replace_all(project, Sought(sought, case), put)
    after = result.project.screen_named["s"].text[0] if project.screen_named["s"].text else ""
    assert len(after) <= 16
    starts = [
        place for place in range(len(before)) if before[place] != " " and (place == 0 or before[place - 1] == " ")
    ]
    for start in starts:
        word = before[start:].split(" ")[0]
        if sought not in word:
            assert after[start : start + len(word)] == word, "a word without it stays in its columns"
