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
from pydantic_core import ErrorDetails

from app.language import translate
from app.project.model import Number, Part
from app.project.paths import attributes
from app.project.problems import Problem, did_you_mean, one_of, quoted
from app.project_file.files import ProjectFileError, read_tables
from app.project_file.validation_messages import message_of
from app.trial.outcome import Instrument, PersonAsked, Reply
from app.trial.script import AskStep, MeasureStep, OrderStep, Trial, TrialStep
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
        if asked.kind == "may move":
            words = translate("trial", "the file of answers does not say may_move = true")
        else:
            words = translate("trial", "no answer to this is in the file of answers")
        return self.known(asked) or Reply(None, words)

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

    def never_asked(self, trial: Trial) -> list[Problem]:
        """The answers to what no step of a trial asks: a misspelt question would only count as not tested."""
        names = [case.name for case in trial.expanded]
        asked: dict[str, set[str]] = {}
        for case in trial.expanded:
            for text in filter(None, map(_question_of, (*case.steps, *case.clean_up))):
                asked.setdefault(text.strip(), set()).add(case.name)
        found = []
        for number, answer in enumerate(self._answers):
            question, name = answer.question.strip(), answer.case
            said, words, near = {"case": quoted(name), "question": quoted(question)}, "", ""
            if name and name not in names:
                words, near = translate("trial", "there is no case {case} in the trial"), did_you_mean(name, names)
            elif question and question not in asked:
                words, near = translate("trial", "no step asks {question}"), did_you_mean(question, asked)
            elif question and name and name not in asked[question]:
                words = translate("trial", "no step of {case} asks {question}")
            if words:
                found.append(Problem(_where(("answer", number)), words.format(**said), near))
        return found


def load_replies(path: str | os.PathLike[str]) -> KnownReplies:
    """The answers in a file. Raises TrialFileError with all that is wrong with it."""
    try:
        tables = read_tables(path)
        known = _Known.model_validate(tables, by_alias=True, by_name=False)
    except ProjectFileError as error:
        raise TrialFileError(error.problems, path) from None
    except ValidationError as error:
        raise TrialFileError(tuple(map(_problem, error.errors(include_url=False))), path) from None
    problems = []
    for number, answer in enumerate(known.answers):
        if answer.may_move is None and not answer.question:
            words = translate("trial", "{key} is missing").format(key=quoted("question"))
            hint = translate("trial", "write the text of the step that asks")
            problems.append(Problem(_where(("answer", number)), words, hint))
        elif answer.may_move is None and answer.yes is None and answer.value is None:
            words = translate("trial", "an answer needs one of {kinds}").format(kinds=one_of(("yes", "value")))
            problems.append(Problem(_where(("answer", number)), words, ""))
    if problems:
        raise TrialFileError(tuple(problems), path)
    return KnownReplies(known.answers)


def _problem(details: ErrorDetails) -> Problem:
    loc = details["loc"]
    message, hint = message_of(details)
    if details["type"] == "extra_forbidden":
        model: type[Part] = _Known if len(loc) == 1 else InstrumentKnown if "instrument" in loc[:-1] else ReplyKnown
        keys = attributes(model)
        message = translate("trial", "{key} does not belong here").format(key=quoted(str(loc[-1])))
        hint = did_you_mean(str(loc[-1]), keys) or translate("trial", "possible keys: {keys}").format(
            keys=", ".join(keys)
        )
        loc = loc[:-1]
    elif loc[-1:] == ("instrument",):
        hint = 'instrument = { name = "multimeter", serial = "1234", due = 2027-03-01 }'
    elif details["type"].startswith("date"):
        message, hint = translate("trial", "is not a date"), translate("trial", "such as 2027-03-01, without quotes")
    return Problem(_where(loc), message, hint)


def _where(loc: tuple[int | str, ...]) -> str:
    """The place of an answer in words, counted from 1: "answer 2, instrument"."""
    words = ""
    for step in loc:
        words += f" {step + 1}" if isinstance(step, int) else f"{', ' if words else ''}{step}"
    return words


def _question_of(step: TrialStep) -> str | None:
    if isinstance(step, AskStep):
        return step.ask
    if isinstance(step, MeasureStep):
        return step.measure
    return step.by_hand if isinstance(step, OrderStep) else None


def _is_of(known: ReplyKnown, asked: PersonAsked) -> bool:
    if asked.kind == "may move":
        return known.may_move is not None
    if known.may_move is not None or known.question.strip() != asked.text.strip():
        return False
    return known.value is not None if asked.kind == "measure" else known.yes is not None
