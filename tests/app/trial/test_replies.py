"""Answers that are known beforehand: the right one to each question, and none to what was not thought of."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest

from app.trial.outcome import Instrument, PersonAsked, Reply
from app.trial.replies import KnownReplies, load_replies
from app.trial.script_file import TrialFileError

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
