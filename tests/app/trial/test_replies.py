"""Answers that are known beforehand: the right one to each question, and none to what was not thought of."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest

from app.trial.outcome import Instrument, PersonAsked, Reply
from app.trial.replies import KnownReplies, load_replies
from app.trial.script_file import TrialFileError
from tests.app.trial.trials import PUMP, trial_in

FILE = """
[[answer]]
question = "Does the shaft stand still?"
yes = true
remark = "seen"
by = "M. Tester"

[[answer]]
question = "Does the shaft stand still?"
case = "after a trip"
yes = false

[[answer]]
question = "mains voltage"
value = 402.5
instrument = { name = "multimeter", serial = "1234", due = 2099-03-01 }

[[answer]]
may_move = true
"""


@pytest.fixture
def known(tmp_path: Path) -> KnownReplies:
    (tmp_path / "answers.toml").write_text(FILE, encoding="utf-8")
    return load_replies(tmp_path / "answers.toml")


@pytest.mark.parametrize(
    ("asked", "reply"),
    [
        (PersonAsked("ask", "it runs", "Does the shaft stand still?"), Reply(True, "seen", "M. Tester")),
        (PersonAsked("ask", "after a trip", "Does the shaft stand still?"), Reply(False)),
        (
            PersonAsked("measure", "it runs", "mains voltage"),
            Reply(None, value=Fraction("402.5"), instrument=Instrument("multimeter", "1234", date(2099, 3, 1))),
        ),
        (PersonAsked("may move", "it runs", "Is everybody clear?"), Reply(True)),
        (PersonAsked("ask", "it runs", "mains voltage"), None),
        (PersonAsked("by hand", "it runs", "Pull the plug"), None),
    ],
)
def test_each_question_gets_its_own_answer(known: KnownReplies, asked: PersonAsked, reply: Reply | None) -> None:
    assert known.known(asked) == reply
    known.ask(asked)
    told = known.answer()
    assert told is not None
    assert told == reply or (reply is None and told.yes is None and "no answer to this" in told.remark)


def test_all_mistakes_of_the_file_are_told(tmp_path: Path) -> None:
    (tmp_path / "answers.toml").write_text('[[answer]]\nyes = "maybe"\n[[answer]]\nvalue = "much"\nwhy = 1\n')
    with pytest.raises(TrialFileError) as told:
        load_replies(tmp_path / "answers.toml")
    assert len(told.value.problems) == 3
    (tmp_path / "answers.toml").write_text("[[answer]\n")
    with pytest.raises(TrialFileError, match="not TOML"):
        load_replies(tmp_path / "answers.toml")


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            'question = "a"\nanswer = "yes"',
            "answer 1: 'answer' does not belong here; possible keys: question, case, yes",
        ),
        ('question = "a"\nvalu = 1', "answer 1: 'valu' does not belong here; did you mean 'value'?"),
        ('question = "a"', "answer 1: an answer needs one of 'yes' or 'value'"),
        ("yes = true", "answer 1: 'question' is missing; write the text of the step that asks"),
        (
            'question = "a"\nvalue = 1\ninstrument = "meter"',
            "answer 1, instrument: must be a table, not a text; instru",
        ),
        (
            'question = "a"\nvalue = 1\ninstrument = { name = "meter", serial_no = "1" }',
            "answer 1, instrument: 'serial_no' does not belong here; did you mean 'serial'?",
        ),
        (
            'question = "a"\nvalue = 1\ninstrument = { name = "meter", due = "2027-03-01" }',
            "answer 1, instrument, due: is not a date; such as 2027-03-01, without quotes",
        ),
    ],
)
def test_who_guesses_the_form_of_an_answer_is_told_it(tmp_path: Path, text: str, told: str) -> None:
    (tmp_path / "answers.toml").write_text(f"[[answer]]\n{text}\n", encoding="utf-8")
    with pytest.raises(TrialFileError) as caught:
        load_replies(tmp_path / "answers.toml")
    assert len(caught.value.problems) == 1
    assert told in str(caught.value)


def test_an_answer_that_nobody_asks_for_is_told(tmp_path: Path) -> None:
    text = """
[[answer]]
question = "mains voltag"
value = 400
[[answer]]
case = "what only a person sees"
question = "Does the shaft stand still?"
yes = true
[[answer]]
case = "it runs"
may_move = true
[[answer]]
case = "a trip is shown"
question = "Does the shaft stand still?"
yes = true
"""
    (tmp_path / "answers.toml").write_text(text, encoding="utf-8")
    found = [str(problem) for problem in load_replies(tmp_path / "answers.toml").never_asked(trial_in(PUMP))]
    assert found == [
        "answer 1: no step asks 'mains voltag'; did you mean 'mains voltage'?",
        "answer 3: there is no case 'it runs' in the trial",
        "answer 4: no step of 'a trip is shown' asks 'Does the shaft stand still?'",
    ]


def test_the_machine_may_not_move_unless_the_file_says_so(tmp_path: Path) -> None:
    (tmp_path / "answers.toml").write_text('[[answer]]\nquestion = "a"\nyes = true\n', encoding="utf-8")
    known = load_replies(tmp_path / "answers.toml")
    known.ask(PersonAsked("may move", "it runs", "Is everybody clear?"))
    assert known.answer() == Reply(None, "the file of answers does not say may_move = true")
