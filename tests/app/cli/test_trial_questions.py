"""Questions of a trial in the terminal: typed answers, mistakes in them, and nobody there."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from fractions import Fraction

import pytest

from app.cli.trial_questions import TerminalPerson
from app.trial.outcome import Instrument, PersonAsked, Reply
from app.trial.replies import KnownReplies, ReplyKnown
from tests.waiting import wait_for

ASK = PersonAsked("ask", "it runs", "Does the shaft stand still?")
MEASURE = PersonAsked("measure", "it runs", "mains voltage", "V", True)


def typed(*lines: str) -> TerminalPerson:
    coming: Iterator[str] = iter(lines)

    def read(_prompt: str) -> str:
        try:
            return next(coming)
        except StopIteration:
            raise EOFError from None

    return TerminalPerson(read=read)


def answered(person: TerminalPerson, question: PersonAsked) -> Reply:
    person.ask(question)
    found: list[Reply] = []

    def look() -> bool:
        reply = person.answer()
        if reply is not None:
            found.append(reply)
        return bool(found)

    wait_for(look)
    return found[0]


@pytest.mark.parametrize(
    ("line", "reply"),
    [
        ("y", Reply(True)),
        ("yes, at once", Reply(True, "at once")),
        ("n it creeps", Reply(False, "it creeps")),
        ("u too dark", Reply(None, "too dark")),
    ],
)
def test_an_answer_may_have_a_remark(line: str, reply: Reply) -> None:
    assert answered(typed(line), ASK) == reply


def test_what_is_no_answer_is_asked_again(capsys: pytest.CaptureFixture[str]) -> None:
    assert answered(typed("perhaps", "", "y"), ASK) == Reply(True)
    told = capsys.readouterr()
    assert "Does the shaft stand still?" in told.out
    assert "'perhaps' is none of y, n and u" in told.err


def test_nobody_there_is_not_tested() -> None:
    reply = answered(typed(), ASK)
    assert reply.yes is None
    assert "the input ended" in reply.remark


def test_a_measurement_names_its_instrument_once() -> None:
    person = typed("402,5", "multimeter", "1234", "soon", "2099-03-01", "0.5", "", "many", "u", "no probe")
    tool = Instrument("multimeter", "1234", date(2099, 3, 1))
    assert answered(person, MEASURE) == Reply(True, value=Fraction("402.5"), instrument=tool)
    assert answered(person, MEASURE) == Reply(True, value=Fraction("0.5"), instrument=tool)
    assert answered(person, MEASURE) == Reply(None, "no probe")


def test_what_a_file_answers_is_not_asked() -> None:
    known = KnownReplies((ReplyKnown(question=ASK.text, yes=True, by="M. Tester"),))
    person = TerminalPerson(known, read=lambda _: pytest.fail("asked"))
    assert answered(person, ASK) == Reply(True, by="M. Tester")


def test_an_answer_to_another_question_is_not_taken() -> None:
    person = typed("y", "n")
    person.ask(ASK)
    assert answered(person, PersonAsked("ask", "it runs", "Is it warm?")).yes in (True, False)
    assert person.answer() is None
