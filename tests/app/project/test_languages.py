"""The texts of a project in several languages: in the file, as they are shown, and edited."""

from __future__ import annotations

import pytest

from app import edits
from app.project.languages import edited_in, in_language
from app.project.messages import MESSAGES, chosen_form, ready_words, unsaid
from app.project.model import PanelMessage, Project
from app.project.references import dangling
from app.project_file.files import ProjectFileError, dump, parse

TEXT = """\
format = 2

[panel]
rows = 2
columns = 16
keys = ["f1"]
languages = ["english", "deutsch", "français"]
language = "tongue"
start = "run"

[[signal]]
name = "tongue"
held = 0

[[signal]]
name = "state"
held = 1
texts = { 0 = "halted", 1 = "running" }
texts_in = { deutsch = { 1 = "läuft" } }

[[screen]]
name = "run"
text = ["Speed", ""]

[screen.text_in]
deutsch = ["Drehzahl", ""]

[[screen.field]]
at = [1, 0]
width = 8
signal = "state"
kind = "choice"

[[screen]]
name = "unit"
text = ["Hz", ""]

[[action]]
key = "f1"
do = "next-language"
"""


@pytest.fixture
def project() -> Project:
    return parse(TEXT)


def test_the_file_keeps_the_texts_of_every_language(project: Project) -> None:
    assert parse(dump(project)) == project
    assert '[screen.text_in]\ndeutsch = [\n  "Drehzahl",\n  "",\n]\n' in dump(project)
    assert 'texts_in = { deutsch = { 1 = "läuft" } }' in dump(project)


def test_a_language_shows_its_own_texts_and_the_first_ones_where_it_has_none(project: Project) -> None:
    german = in_language(project, 1)
    assert german.screen_named["run"].text == ("Drehzahl", "")
    assert german.screen_named["unit"].text == ("Hz", "")
    assert german.signal_named["state"].texts == {"0": "halted", "1": "läuft"}
    french = in_language(project, 2)
    assert french.screen_named["run"].text == ("Speed", "")


def test_the_text_for_all_other_values_has_languages_too() -> None:
    text = TEXT.replace('texts = { 0 = "halted"', 'texts = { otherwise = "odd", 0 = "halted"')
    project = parse(text.replace('deutsch = { 1 = "läuft" }', 'deutsch = { 1 = "läuft", otherwise = "anders" }'))
    assert ', otherwise = "odd" }' in dump(project), "behind the numbers"
    assert in_language(project, 1).signal_named["state"].texts["otherwise"] == "anders"
    assert in_language(project, 2).signal_named["state"].texts["otherwise"] == "odd"


def test_a_project_in_a_language_is_made_once(project: Project) -> None:
    assert in_language(project, 1) is in_language(project, 1)
    assert in_language(project, 0) is project
    assert in_language(project, 9) is project


def test_a_text_for_one_value_written_two_ways_is_one_text() -> None:
    project = parse(TEXT.replace('texts = { 0 = "halted", 1 =', 'texts = { 0 = "halted", 01 ='))
    assert in_language(project, 1).signal_named["state"].texts == {"0": "halted", "1": "läuft"}


@pytest.mark.parametrize(
    ("wrong", "right", "words"),
    [
        ("deutsch = [", "dutch = [", "language 'dutch' does not exist"),
        ("deutsch = [", "english = [", "'english' is the first language"),
        ("{ deutsch = {", "{ german = {", "language 'german' does not exist"),
        ('"deutsch", "français"', '"deutsch", "deutsch"', "'deutsch' is listed twice"),
        ('language = "tongue"', 'language = "tung"', "signal 'tung' does not exist"),
        ('do = "next-language"', 'do = "next-language"\nsignal = "state"', "has no signal"),
        ('deutsch = ["Drehzahl", ""]', 'deutsch = ["Drehzahl", 5]', "text, deutsch, row 2"),
        ('key = "f1"\ndo', 'when = { signal = "state" }\ndo', "is only possible with a key"),
    ],
)
def test_what_is_wrong_with_languages_is_told_with_its_place(wrong: str, right: str, words: str) -> None:
    with pytest.raises(ProjectFileError) as caught:
        parse(TEXT.replace(wrong, right))
    assert words in str(caught.value)


def test_typing_in_a_language_changes_its_text_only(project: Project) -> None:
    after = edited_in(project, 1, lambda seen: edits.type_text(seen, "run", 1, 10, "1/min"))
    run = after.screen_named["run"]
    assert run.text == ("Speed", "")
    assert run.text_in == {"deutsch": ("Drehzahl", "          1/min")}
    assert after.screens[1] is project.screens[1]


def test_typing_over_a_text_that_is_left_out_begins_with_the_first_one(project: Project) -> None:
    after = edited_in(project, 2, lambda seen: edits.type_text(seen, "unit", 0, 3, "(!)"), only="unit")
    assert after.screen_named["unit"].text_in == {"français": ("Hz (!)", "")}
    assert after.screen_named["run"] is project.screen_named["run"]


def test_an_edit_of_fields_in_a_language_makes_no_text_of_its_own(project: Project) -> None:
    after = edited_in(project, 2, lambda seen: edits.change_field(seen, "run", 0, at=(1, 4)))
    run = after.screen_named["run"]
    assert run.fields[0].at == (1, 4)
    assert run.text_in == project.screen_named["run"].text_in


def test_an_edit_that_changes_nothing_gives_the_same_project(project: Project) -> None:
    assert edited_in(project, 1, lambda seen: seen) is project


def test_another_first_language_leaves_what_each_language_shows(project: Project) -> None:
    after = edits.set_languages(project, ["deutsch", "english"])
    assert after.screen_named["run"].text == ("Drehzahl", "")
    assert after.screen_named["run"].text_in == {"english": ("Speed", "")}
    for number, name in enumerate(after.panel.languages):
        was = in_language(project, project.panel.languages.index(name))
        now = in_language(after, number)
        assert [screen.text for screen in now.screens] == [screen.text for screen in was.screens]
        assert [signal.texts for signal in now.signals] == [signal.texts for signal in was.signals]
    assert not dangling(after)


def test_a_language_that_goes_takes_its_texts_along(project: Project) -> None:
    after = edits.set_languages(project, ["english"])
    assert after.screen_named["run"].text_in == {}
    assert after.signal_named["state"].texts_in == {}


def test_an_unwritten_language_cannot_be_put_first(project: Project) -> None:
    with pytest.raises(edits.EditRefused, match="'italiano' has no texts yet"):
        edits.set_languages(project, ["italiano", "english"])


def test_a_renamed_language_keeps_its_texts(project: Project) -> None:
    after = edits.rename_language(project, "deutsch", "German")
    assert after.panel.languages == ("english", "German", "français")
    assert after.screen_named["run"].text_in == {"German": ("Drehzahl", "")}
    assert after.signal_named["state"].texts_in == {"German": {"1": "läuft"}}


def test_another_size_is_one_for_the_texts_of_all_languages(project: Project) -> None:
    after = edits.set_size(project, 3, 16)
    assert after.screen_named["run"].text_in == {"deutsch": ("Drehzahl", "", "")}
    with pytest.raises(edits.EditRefused, match="text, deutsch, row 1"):
        edits.set_size(project, 2, 6)


def test_a_renamed_signal_still_chooses_the_language(project: Project) -> None:
    assert edits.rename_signal(project, "tongue", "speaks").panel.language == "speaks"
    with pytest.raises(edits.EditRefused, match="panel"):
        edits.delete_parts(project, "signal", [0])


def said(project: Project) -> dict[str, dict[PanelMessage, str]]:
    """What each language of the panel says, by its name."""
    found = {}
    for number, name in enumerate(project.panel.languages):
        panel = in_language(project, number).panel
        found[name] = {each: panel.messages.get(each) or chosen_form(panel, "en", each) for each in MESSAGES}
    return found


def test_messages_stand_in_tables_of_their_own(project: Project) -> None:
    there = edits.set_message(project, 0, "no_answer", "it is silent")
    there = edits.set_message(there, 1, "no_answer", "keine Antwort")
    there = edits.set_message(there, 2, "at_most", "au plus {limit}")
    text = dump(there)
    assert '[panel.messages]\nno_answer = "it is silent"\n' in text
    assert '[panel.messages_in.deutsch]\nno_answer = "keine Antwort"\n' in text
    assert '[panel.messages_in."français"]\nat_most = "au plus {limit}"\n' in text
    assert parse(text) == there


def test_a_message_that_a_language_leaves_out_is_the_first_one_s(project: Project) -> None:
    there = edits.set_message(project, 0, "no_answer", "it is silent")
    there = edits.set_message(there, 1, "refused", "abgelehnt")
    assert in_language(there, 1).panel.messages == {"no_answer": "it is silent", "refused": "abgelehnt"}
    assert in_language(there, 2).panel.messages == {"no_answer": "it is silent"}


def test_messages_are_filled_in_without_touching_what_is_said(project: Project) -> None:
    there = edits.set_message(project, 1, "refused", "abgelehnt")
    ready = ready_words(there.panel, "de", {})
    there = edits.fill_messages(there, 1, ready)
    assert there.panel.messages_in["deutsch"] == {**ready, "refused": "abgelehnt"}
    assert edits.fill_messages(there, 1, ready) is there
    assert list(unsaid(there.panel, 1)) == []


def test_a_message_taken_out_leaves_nothing_behind(project: Project) -> None:
    there = edits.set_message(project, 1, "refused", "abgelehnt")
    assert edits.set_message(there, 1, "refused", "") == project
    assert edits.set_message(project, 1, "refused", "") is project


def test_messages_follow_their_languages(project: Project) -> None:
    there = edits.set_message(project, 0, "no_answer", "it is silent")
    there = edits.fill_messages(there, 1, {"no_answer": "keine Antwort", "refused": "abgelehnt"})
    before = said(there)
    renamed = edits.rename_language(there, "deutsch", "German")
    assert said(renamed)["German"] == before["deutsch"]
    swapped = edits.set_languages(there, ["deutsch", "english", "français"])
    assert said(swapped)["deutsch"] == before["deutsch"]
    assert said(swapped)["english"] == before["english"]
    assert edits.set_languages(there, ["english", "français"]).panel.messages_in == {}
    assert not dangling(swapped)


def test_a_piece_takes_no_messages_along(project: Project) -> None:
    there = edits.fill_messages(project, 1, {"no_answer": "keine Antwort"})
    there = edits.fill_messages(there, 0, {"no_answer": "it is silent"})
    piece = edits.screens_of(there, ["run"])
    assert (piece.panel.messages, piece.panel.messages_in) == ({}, {})


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ('[panel.messages]\nno_anser = "x"', "not 'no_anser'; did you mean 'no_answer'?"),
        ('[panel.messages]\nno_answer = ""', "is empty"),
        ("[panel.messages]\nno_answer = 5", "must be a text, not a whole number"),
        ('[panel.messages_in.dutch]\nno_answer = "x"', "language 'dutch' does not exist"),
        ('[panel.messages_in.english]\nno_answer = "x"', "its texts belong in 'messages'"),
    ],
)
def test_what_is_wrong_with_messages_is_told_with_its_place(more: str, words: str) -> None:
    with pytest.raises(ProjectFileError) as caught:
        parse(TEXT.replace("[[signal]]", f"{more}\n\n[[signal]]", 1))
    assert words in str(caught.value)
    assert "panel, messages" in str(caught.value)


def test_translating_a_screen_and_leaving_it_out_again(project: Project) -> None:
    there = edits.translate_screen(project, "unit", "français", ["Hz", "-"])
    assert in_language(there, 2).screen_named["unit"].text == ("Hz", "-")
    assert edits.translate_screen(there, "unit", "français", None) == project
