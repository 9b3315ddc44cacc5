"""The words ready for the panel's messages: whole, known by the names of languages, and short enough."""

from __future__ import annotations

import re
from typing import get_args

import pytest

from app.project.messages import (
    MESSAGES,
    PLACEHOLDERS,
    READY,
    Known,
    chosen_form,
    fill_in,
    fits,
    known_language,
    message_rows,
    ready_words,
    unsaid,
)
from app.project.model import Panel, PanelMessage, RepertoireName
from app.signals.repertoire import missing

KNOWN: tuple[Known, ...] = get_args(Known)
SMALLEST = Panel(rows=2, columns=16, start="run")
WIDEST: dict[PanelMessage, str] = {"at_most": "-327.68 m3/h", "at_least": "-327.68 m3/h", "kept": "-32.8 Hz"}


def test_there_are_words_for_every_message_in_every_known_language() -> None:
    assert set(READY) == set(KNOWN)
    for forms in READY.values():
        assert tuple(forms) == MESSAGES
        for message, texts in forms.items():
            assert list(texts) == sorted(texts, key=len, reverse=True)
            for text in texts:
                places = re.findall(r"\{\w*\}", text)
                assert places in ([], [PLACEHOLDERS.get(message)])


@pytest.mark.parametrize("known", KNOWN)
@pytest.mark.parametrize("repertoire", get_args(RepertoireName))
def test_the_smallest_usual_panel_shows_them_whole(known: Known, repertoire: RepertoireName) -> None:
    panel = SMALLEST.replace(repertoire=repertoire)
    for message, words in ready_words(panel, known, WIDEST).items():
        assert fits(panel, fill_in(message, words, WIDEST.get(message, ""))), words
        assert missing(repertoire, words) == ""


def test_a_larger_panel_says_more() -> None:
    large = Panel(rows=4, columns=20, repertoire="latin-1", start="run")
    assert ready_words(large, "en", WIDEST)["no_answer"] == "not written: no answer"
    assert ready_words(SMALLEST, "en", WIDEST)["no_answer"] == "no answer"
    assert ready_words(large, "de", WIDEST)["refused"] == "nicht geschrieben: Gerät lehnt ab"
    assert ready_words(SMALLEST, "de", WIDEST)["refused"] == "Geraet lehnt ab"


def test_the_words_are_chosen_by_what_stands_in_them() -> None:
    assert chosen_form(SMALLEST, "en", "still_on", "F1") == "still active: {screen}"
    assert chosen_form(SMALLEST, "en", "still_on", "motor overload") == "still active"
    assert chosen_form(SMALLEST, "en", "at_most", "50.0 Hz") == "at most {limit}"
    assert chosen_form(SMALLEST, "en", "at_most", "12000 m3/h") == "max {limit}"


@pytest.mark.parametrize(
    ("name", "known"),
    [("English", "en"), ("englisch", "en"), ("Deutsch", "de"), (" DE ", "de"), ("svenska", None), ("", None)],
)
def test_languages_are_known_by_their_names(name: str, known: Known | None) -> None:
    assert known_language(name) == known


def test_braces_that_are_no_place_stay() -> None:
    assert fill_in("at_most", "{a} {limit} {", "5") == "{a} 5 {"
    assert fill_in("no_answer", "{limit}", "5") == "{limit}"


@pytest.mark.parametrize(("rows", "room"), [(1, 1), (2, 1), (3, 1), (4, 2), (8, 4), (9, 4)])
def test_a_message_has_room_on_one_side_of_any_row(rows: int, room: int) -> None:
    assert message_rows(Panel(rows=rows, start="run")) == room


@pytest.mark.parametrize(
    ("languages", "messages", "messages_in", "lacking"),
    [
        ((), {}, {}, []),
        (("Deutsch",), {}, {}, [len(MESSAGES)]),
        (("English",), {}, {}, [0]),
        (("English", "Deutsch"), {}, {}, [0, len(MESSAGES)]),
        (("English", "Deutsch"), {}, {"Deutsch": {"refused": "nein"}}, [0, len(MESSAGES) - 1]),
        (("Deutsch", "English"), {"refused": "nein"}, {}, [len(MESSAGES) - 1, 1]),
    ],
)
def test_what_is_left_out_is_missing_where_it_is_shown_in_another_language(
    languages: tuple[str, ...],
    messages: dict[PanelMessage, str],
    messages_in: dict[str, dict[PanelMessage, str]],
    lacking: list[int],
) -> None:
    panel = Panel(languages=languages, messages=messages, messages_in=messages_in, start="run")
    assert [len(list(unsaid(panel, number))) for number in range(len(languages) or 1)] == (lacking or [0])
