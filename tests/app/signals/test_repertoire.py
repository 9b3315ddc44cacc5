"""The repertoires: whole, without contradiction, and helpful about what they lack."""

from __future__ import annotations

import tomllib
from importlib import resources
from typing import get_args

import pytest

from app.project import model
from app.signals.repertoire import REPERTOIRES, characters, missing, repertoire, shown, spelled


def test_every_repertoire_of_a_project_is_there() -> None:
    assert get_args(model.RepertoireName) == REPERTOIRES


@pytest.mark.parametrize("name", REPERTOIRES)
def test_a_repertoire_says_what_it_is_and_holds_single_characters(name: str) -> None:
    whole = repertoire(name)
    assert whole.title
    assert whole.notes
    assert all(len(character) == 1 and character.isprintable() for character in whole.codes)
    assert all(0 <= code <= 0xFF for code in whole.codes.values())
    assert characters(name) == set(whole.codes)


@pytest.mark.parametrize("name", REPERTOIRES)
def test_a_panel_can_show_numbers_bars_and_what_stands_for_the_rest(name: str) -> None:
    assert missing(name, "0123456789-.#=<>? ABCXYZabcxyz") == ""


def test_missing_characters_are_named_once_in_their_order() -> None:
    assert missing("ascii", "20 °C, 5 µm, 30 °C") == "°µ"
    assert missing("latin-1", "20 °C, 5 µm") == ""
    assert missing("lcd-kana", "~20 \\ °C") == "~\\"


def test_a_missing_character_is_shown_as_a_question_mark() -> None:
    assert shown("ascii", "20 °C") == "20 ?C"
    assert shown("lcd-kana", "20 °C") == "20 °C"
    assert shown("ascii", "a\tb\n") == "a?b?"


def test_characters_have_the_codes_of_the_display_controller() -> None:
    assert repertoire("ascii").codes["A"] == 0x41
    assert repertoire("latin-1").codes["°"] == 0xB0
    assert [repertoire("lcd-kana").codes[each] for each in "°Ω"] == [0xDF, 0xF4]
    assert "~" not in repertoire("lcd-kana").codes


def test_messages_are_spelled_with_the_letters_that_a_panel_has() -> None:
    assert spelled("ascii", "„Größe“ – ändern… →") == '"Groesse" - aendern... ->'
    assert spelled("latin-1", "„Größe“") == '"Größe"'
    assert spelled("lcd-kana", "größer") == "größer"
    assert spelled("ascii", "5 Ω") == "5 ?"


def test_an_unknown_repertoire_is_an_error_that_lists_the_known() -> None:
    with pytest.raises(ValueError, match="no repertoire 'utf-8'; there are ascii, latin-1"):
        characters("utf-8")


@pytest.mark.parametrize("name", REPERTOIRES)
def test_no_character_stands_twice_in_the_file(name: str) -> None:
    file = resources.files("resources") / "repertoires" / f"{name}.toml"
    data = tomllib.loads(file.read_text(encoding="utf-8"))
    rows = [(row["first"] + place, shape) for row in data["row"] for place, shape in enumerate(row["characters"])]
    assert len({code for code, _ in rows}) == len(rows)
    listed = [character for _, character in rows] + list(data.get("also", {}))
    assert len(set(listed)) == len(listed)
    assert set(data.get("also", {}).values()) <= {code for code, _ in rows}
