"""Answers to a trial's questions that are known beforehand, from a file: for runs where nobody sits.

```toml
[[answer]]
question = "Does the shaft stand still?"   # the text of the step; with `case` too, if it is asked in several
yes = true
remark = "seen by the shift leader"
by = "M. Tester"

[[answer]]
question = "mains voltage"
value = 402
instrument = { name = "multimeter", serial = "1234", due = 2027-03-01 }

[[answer]]
case = "the set point is reached"          # that the machine may move in this case; without `case`: in all
may_move = true
```
"""

from __future__ import annotations

import os
from datetime import date
from fractions import Fraction
from typing import Annotated

from pydantic import Field as Key, StringConstraints, ValidationError

from app.language import translate
from app.project.model import Number, Part
from app.project.problems import Problem
from app.project_file.files import ProjectFileError, read_tables
from app.project_file.validation_messages import message_of
from app.trial.outcome import Instrument, PersonAsked, Reply
from app.trial.script_file import TrialFileError

_Words = Annotated[str, StringConstraints(max_length=400)]


class InstrumentKnown(Part):
    """What somebody measured with."""

    name: Annotated[str, StringConstraints(min_length=1, max_length=80)]
    serial: Annotated[str, StringConstraints(max_length=80)] = ""
    due: date | None = None


class ReplyKnown(Part):
    """One answer."""

    question: _Words = ""
    case: _Words = ""
    yes: bool | None = None
    may_move: bool | None = None
    value: Number | None = None
    remark: _Words = ""
    by: _Words = ""
    instrument: InstrumentKnown | None = None


class _Known(Part):
    answers: tuple[ReplyKnown, ...] = Key((), alias="answer", max_length=10_000)


class KnownReplies:
    """A person whose answers are known. What is not among them is not tested."""

    def __init__(self, answers: tuple[ReplyKnown, ...]) -> None:
        self._answers = answers
        self._asked: PersonAsked | None = None

    def ask(self, question: PersonAsked) -> None:
        """Take a question."""
        self._asked = question

    def answer(self) -> Reply | None:
        """What is known of it."""
        asked = self._asked
        assert asked is not None, "nothing was asked"
        return self.known(asked) or Reply(None, translate("trial", "no answer to this is in the file of answers"))

    def known(self, asked: PersonAsked) -> Reply | None:
        """The answer to this question, or None."""
        fitting = [each for each in self._answers if each.case in ("", asked.case) and _is_of(each, asked)]
        best = max(fitting, key=lambda each: bool(each.case), default=None)
        if best is None:
            return None
        yes = best.may_move if asked.kind == "may move" else best.yes
        value = None if best.value is None else Fraction(best.value)
        tool = best.instrument
        instrument = None if tool is None else Instrument(tool.name, tool.serial, tool.due)
        return Reply(yes, best.remark, best.by, value, instrument)


def load_replies(path: str | os.PathLike[str]) -> KnownReplies:
    """The answers in a file. Raises TrialFileError with all that is wrong with it."""
    try:
        known = _Known.model_validate(read_tables(path), by_alias=True, by_name=False)
    except ProjectFileError as error:
        raise TrialFileError(error.problems, path) from None
    except ValidationError as error:
        problems = []
        for details in error.errors(include_url=False):
            where = ", ".join(str(step + 1) if isinstance(step, int) else step for step in details["loc"])
            problems.append(Problem(where, *message_of(details)))
        raise TrialFileError(tuple(problems), path) from None
    return KnownReplies(known.answers)


def _is_of(known: ReplyKnown, asked: PersonAsked) -> bool:
    if asked.kind == "may move":
        return known.may_move is not None
    if known.may_move is not None or known.question.strip() != asked.text.strip():
        return False
    return known.value is not None if asked.kind == "measure" else known.yes is not None
