"""Rules about what the panel says of its own accord, each on a project that breaks only it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

from app.checks import Finding, check

if TYPE_CHECKING:
    from app.project.model import Project
    from tests.app.checks.conftest import Draft

RULES = {"translation-missing", "message-too-long", "message-character", "message-value"}


def found(project: Project) -> list[Finding]:
    return [finding for finding in check(project) if finding.rule in RULES and finding.place[0] == "panel"]


def test_a_panel_that_says_nothing_of_its_own_speaks_english_and_no_more_is_said(good: Draft) -> None:
    assert found(good.project) == []
    assert found(good.panel(languages=("English",)).project) == []


@pytest.mark.parametrize(
    ("panel", "place", "words"),
    [
        (
            {"languages": ("svenska",)},
            ("panel", "messages"),
            "the panel's own messages are not written in 'svenska'",
        ),
        (
            {"languages": ("English", "svenska")},
            ("panel", "messages_in", "svenska"),
            "the panel's own messages are not written in 'svenska'",
        ),
        (
            {"languages": ("English", "svenska"), "messages_in": {"svenska": {"at_most": "mest {limit}"}}},
            ("panel", "messages_in", "svenska"),
            "14 of the panel's own messages are not in 'svenska': 'at least {limit}'",
        ),
        (
            {"messages": {"at_most": "more than {limit} is certainly never allowed here"}},
            ("panel", "messages", "at_most"),
            "'more than 50.0 Hz is certainly never allowed here' needs 3 rows of 20 cells, but only 2 are guaranteed "
            "for a message",
        ),
        (
            {"messages": {"no_answer": "\u2192 keine Antwort"}},
            ("panel", "messages", "no_answer"),
            "'→ keine Antwort' contains '→' (U+2192), missing in the panel's character set 'ascii'; it shows '-> "
            "keine Antwort'",
        ),
        (
            {"messages": {"no_answer": "for {value} no answer"}},
            ("panel", "messages", "no_answer"),
            "{value} in 'for {value} no answer' is not replaced by a value",
        ),
        (
            {"messages": {"at_most": "{value} at most"}},
            ("panel", "messages", "at_most"),
            "{value} in '{value} at most' is not replaced by a value",
        ),
    ],
)
def test_one_thing_wrong_is_one_finding(
    good: Draft, panel: dict[str, Any], place: tuple[object, ...], words: str
) -> None:
    (finding,) = found(good.panel(**panel).project)
    assert (finding.severity, finding.place, finding.message) == ("warning", place, words)
    assert finding.hint


def test_the_longest_screen_that_covers_others_needs_room(good: Draft) -> None:
    named = good.panel(messages={"still_on": "still active: see {screen}"})
    assert found(named.project) == []
    long = named.change(named.place("screen", "fault"), name="a fault of the conveyor belt")
    screen_changes = tuple(
        screen_change.replace(to="a fault of the conveyor belt") if screen_change.to == "fault" else screen_change
        for screen_change in long.project.screen_changes
    )
    (finding,) = found(long.project.replace(screen_changes=screen_changes))
    assert finding.rule == "message-too-long"
    assert "a fault of the conveyor belt" in finding.message


def test_a_message_in_another_language_is_looked_at_there(good: Draft) -> None:
    project = good.panel(
        languages=("English", "Deutsch"),
        messages_in={"Deutsch": {"refused": "Das Ger\u00e4t nimmt diesen Wert nicht an"}},
    ).project
    places = {finding.place for finding in found(project)}
    assert ("panel", "messages_in", "Deutsch", "refused") in places


def test_every_message_that_is_filled_in_passes(good: Draft) -> None:
    project = good.panel(languages=("Deutsch", "English")).project
    filled = []
    while findings := found(project):
        filled.append(findings[0].message)
        project = findings[0].apply_fix(project)
    # English is shown where nothing is said, until the first language says something.
    assert len(filled) == 2
    assert project.panel.messages["refused"] == "nicht geschrieben: Geraet lehnt ab"
