"""Trial files: read with all problems told at once, written whole in one way."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Final

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from app.errors import FanlightError
from app.language import translate
from app.project.model import Part, Project
from app.project.paths import at_key, attributes, in_words
from app.project.problems import MOST_PROBLEMS, Place, Problem, did_you_mean, one_of, quoted
from app.project_file.canonical import canonical, canonical_text
from app.project_file.files import ProjectFileError, digest, read_tables
from app.project_file.replace_file import write_whole
from app.project_file.validation_messages import at_key_path, message_of
from app.trial.script import (
    FORMAT,
    KINDS,
    Case,
    EnterStep,
    Expectation,
    KeysStep,
    KeyStep,
    OrderStep,
    Trial,
    fill,
    kind_of_step,
)

ENDING: Final = ".trial.toml"
"""How the name of a trial file ends."""

_STEPS: Final = ("step", "clean_up")
_LISTS: Final = ("case", *_STEPS)
_MOST_SHOWN: Final = 30


class TrialFileError(FanlightError):
    """A trial file cannot be used. As text: the file, and every problem in it."""

    def __init__(self, problems: tuple[Problem, ...], path: str | os.PathLike[str] | None = None) -> None:
        super().__init__()
        self.problems = problems
        self.path = None if path is None else Path(path)

    def __str__(self) -> str:
        file = str(self.path) if self.path else translate("trial", "the trial")
        if len(self.problems) == 1:
            return f"{file}: {self.problems[0]}"
        shown = [f"  {problem}" for problem in self.problems[:_MOST_SHOWN]]
        if len(self.problems) > _MOST_SHOWN:
            shown.append("  " + translate("trial", "and {count} more").format(count=len(self.problems) - _MOST_SHOWN))
        head = translate("trial", "{file}: {count} problems").format(file=file, count=len(self.problems))
        return "\n".join([head, *shown])


def project_digest(project: Project) -> str:
    """SHA-256 of the canonical text of a project: the same however its file is laid out."""
    return digest(canonical(project).encode())


def load_trial(path: str | os.PathLike[str]) -> Trial:
    """The trial in a file. Raises TrialFileError with all that is wrong with it."""
    try:
        tables = read_tables(path)
    except ProjectFileError as error:
        raise TrialFileError(error.problems, path) from None
    return trial_of(tables, path)


def trial_of(tables: dict[str, Any], path: str | os.PathLike[str] | None = None) -> Trial:
    """The trial in the plain tables of a file. Raises TrialFileError with all that is wrong with them."""
    number = tables.get("format")
    if isinstance(number, int) and not isinstance(number, bool) and number > FORMAT:
        message = translate("trial", "it is of format {number}; this program knows {format} at most")
        hint = translate("trial", "use a newer version of this program")
        raise TrialFileError((Problem("", message.format(number=number, format=FORMAT), hint, ("format",)),), path)
    problems: list[Problem] = []
    if "format" not in tables:
        hint = translate("trial", "write 'format = {format}' at the top").format(format=FORMAT)
        problems.append(Problem("", translate("trial", "'format' is missing"), hint, ("format",)))
    try:
        trial = Trial.model_validate(tables, by_alias=True, by_name=False)
    except ValidationError as error:
        problems += _problems(error, tables)
    else:
        problems += _of_rows(trial)
        problems += _of_names(trial)
        if not problems:
            return trial
    raise TrialFileError(tuple(problems), path)


def save_trial(trial: Trial, path: str | os.PathLike[str]) -> None:
    """Write a trial to a file, all of it or nothing. Raises OSError."""
    write_whole(Path(path), canonical_text(trial).encode())


def usual_place(project: Path) -> Path:
    """Where the trial of a project file is looked for: NAME.trial.toml beside it."""
    return project.with_name(project.stem + ENDING)


def add_case(path: Path, case: Case, project: Project, project_name: str) -> None:
    """Append a case to a trial file; made for this project if there is none yet.

    Raises TrialFileError if the file cannot be read or has a case of this name, OSError if it cannot be written.
    """
    if path.exists():
        trial = load_trial(path)
        if case.name in {known.name for known in trial.expanded}:
            words = translate("trial", "the name {name} is taken by another case").format(name=quoted(case.name))
            raise TrialFileError((Problem("", words, "", ("case",)),), path)
    else:
        trial = trial_of({"format": FORMAT, "project": project_name, "digest": project_digest(project)}, path)
    save_trial(trial.model_copy(update={"cases": (*trial.cases, case)}), path)


def problems_with(trial: Trial, project: Project) -> tuple[Problem, ...]:
    """What in a trial points to nothing in the project that it is to be run on."""
    return tuple(dict.fromkeys(_names_gone(trial, project)))


# What is wrong, in words ---------------------------------------------------------------------------------------------


def _problems(error: ValidationError, tables: dict[str, Any]) -> list[Problem]:
    found: dict[Place, Problem] = {}
    for details in error.errors(include_url=False)[:MOST_PROBLEMS]:
        place = _place(tables, details)
        found.setdefault(place, _problem(details, tables, place))
    deeper = {place[:length] for place in found for length in range(len(place))}
    # A table where a number could stand as well: what is wrong inside of it says more.
    return [problem for place, problem in found.items() if place not in deeper]


def _place(tables: object, details: ErrorDetails) -> Place:
    """The place in the file: the steps of pydantic without the names of the branches of unions."""
    place: list[str | int] = []
    node = tables
    loc = details["loc"]
    # After the number of a step comes the name of its branch, which is that of a key as well.
    branch = {at for at in range(4, len(loc)) if loc[at - 2] in _STEPS and isinstance(loc[at - 1], int)}
    steps = [step for at, step in enumerate(loc) if step != "[key]" and at not in branch]
    for step in steps:
        below = at_key(node, step)
        if below is not None:
            place.append(step)
            node = below
    if details["type"] == "missing" and isinstance(node, dict):
        place.append(steps[-1])
    return tuple(place)


def _problem(details: ErrorDetails, tables: object, place: Place) -> Problem:
    if details["type"] == "extra_forbidden":
        model, holder = _model_at(tables, place[:-1]), in_words(tables, place[:-1])
        keys = tuple(attributes(model))
        hint = did_you_mean(str(place[-1]), keys) or translate("trial", "possible keys: {keys}").format(
            keys=", ".join(keys)
        )
        message = translate("trial", "{key} does not belong here").format(key=quoted(str(place[-1])))
        return Problem(holder if place[:-1] else "", message, hint, place)
    where = in_words(tables, place) if place else ""
    if details["type"] == "missing":
        message = translate("trial", "{key} is missing").format(key=quoted(str(place[-1])))
        return Problem(in_words(tables, place[:-1]) if place[:-1] else "", message, "", place)
    if details["type"] in ("union_tag_invalid", "union_tag_not_found"):
        message = translate("trial", "a step needs one of {kinds}").format(kinds=one_of(KINDS))
        return Problem(where, message, "", place)
    if place and place[-1] in _LISTS and isinstance(at_key_path(tables, place), dict):
        table = ".".join(step for step in place if isinstance(step, str))
        hint = translate("trial", "write [[{keys}]] instead of [{keys}]").format(keys=table)
        return Problem(where, translate("trial", "needs a list of tables"), hint, place)
    message, hint = message_of(details)
    if place and isinstance(at_key_path(tables, place), str):
        hint = hint or _number_hint(place)
    return Problem(where, message, hint, place)


def _number_hint(place: Place) -> str:
    """What may be meant by a text where a number stands."""
    if place[-1] == "tolerance":
        return translate("trial", "or such as '1%', without blanks")
    if place[-1] == "value" and place[-2:-1] == ("expect",):
        return translate("trial", "write 'text' instead, if it is what the panel says for the value")
    if place[-1] in ("value", "above", "below", "at_least", "at_most"):
        return translate("trial", "or such as '{name}', which 'each' has a value for")
    return ""


def _model_at(tables: object, place: Place) -> type[Part]:
    keys = [step for step in place if isinstance(step, str)]
    if not keys:
        return Trial
    if keys == ["case"]:
        return Case
    if keys[-1] in ("expect", "wait"):
        return Expectation
    return KINDS.get(kind_of_step(at_key_path(tables, place)), Case)


def _of_rows(trial: Trial) -> Iterator[Problem]:
    """Rows that do not fit their case: a value that is not there, or that does not fit where it is put."""
    for number, case in enumerate(trial.cases):
        place: Place = ("case", number)
        where = in_words(trial, place)
        for index, row in enumerate(case.each or ({},)):
            if gone := sorted(case.holes - row.keys()):
                message = translate("trial", "{hole} stands for a value that row {row} of 'each' does not have")
                words = message.format(hole=quoted("{" + gone[0] + "}"), row=index + 1)
                if not case.each:
                    words = translate("trial", "{hole} stands for a value, but there is no 'each'").format(
                        hole=quoted("{" + gone[0] + "}")
                    )
                yield Problem(where, words, "", (*place, "each", index))
                break
        else:
            try:
                list(case.rows())
            except ValidationError as error:
                message, hint = message_of(error.errors(include_url=False)[0])
                words = translate("trial", "a row of 'each' does not fit: {why}").format(why=message)
                yield Problem(where, words, hint, (*place, "each"))


def _of_names(trial: Trial) -> Iterator[Problem]:
    """Cases that have the same name: a record could not tell them apart."""
    seen: set[str] = set()
    for number, case in enumerate(trial.cases):
        names = {case.name}
        if case.each:
            filled = [str(fill(case.name, row)) for row in case.each]
            names = set(filled)
            if len(names) < len(filled):
                words = translate("trial", "its rows need names of their own: put a value such as {hole} into the name")
                yield Problem(
                    in_words(trial, ("case", number)),
                    words.format(hole="{" + next(iter(case.each[0]), "value") + "}"),
                    "",
                    ("case", number, "name"),
                )
        for name in sorted(names & seen):
            words = translate("trial", "the name {name} is taken by another case").format(name=quoted(name))
            yield Problem(in_words(trial, ("case", number)), words, "", ("case", number, "name"))
        seen |= names


def _names_gone(trial: Trial, project: Project) -> Iterator[Problem]:
    keys, signals, screens = project.panel.keys, project.signal_named, project.screen_named
    for index, case in ((index, row) for index, written in enumerate(trial.cases) for row in written.rows()):
        for number, order in enumerate(case.setup):
            yield from _order_gone(trial, ("case", index, "setup", number), order, project)
        for listed, steps in (("step", case.steps), ("clean_up", case.clean_up)):
            for number, step in enumerate(steps):
                place: Place = ("case", index, listed, number)
                if isinstance(step, KeyStep):
                    yield from _gone(trial, (*place, "key"), step.key, keys, "key")
                elif isinstance(step, KeysStep):
                    for key in step.keys:
                        yield from _gone(trial, (*place, "keys"), key, keys, "key")
                elif isinstance(step, EnterStep):
                    yield from _gone(trial, (*place, "enter"), step.enter, signals, "signal")
                    fields = (field for screen in project.screens for field in screen.fields if field.entry)
                    if (
                        step.enter in signals
                        and not step.refused
                        and step.enter not in {each.signal for each in fields}
                    ):
                        words = translate("trial", "no screen has an entry field of {name}")
                        at = in_words(trial, (*place, "enter"))
                        yield Problem(at, words.format(name=quoted(step.enter)), "", (*place, "enter"))
                elif isinstance(step, OrderStep):
                    yield from _order_gone(trial, (*place, "order"), step.order, project)
                else:
                    seen = getattr(step, "expect", None) or getattr(step, "wait", None)
                    if isinstance(seen, Expectation):
                        yield from _gone(trial, place, seen.screen, screens, "screen")
                        yield from _gone(trial, place, seen.signal, signals, "signal")
                        yield from _gone(trial, place, seen.alarm, screens, "screen")
                        if seen.row is not None and seen.row > project.panel.rows:
                            message = translate("trial", "the panel has {rows} rows, not {row}")
                            words = message.format(rows=project.panel.rows, row=seen.row)
                            yield Problem(in_words(trial, place), words, "", place)


def _order_gone(trial: Trial, place: Place, order: str, project: Project) -> Iterator[Problem]:
    name, dot, _ = order.partition(".")
    if not dot or "=" not in order:
        words = translate("trial", "{order} is not DEVICE.WHAT=VALUE, such as pump.jammed=on").format(
            order=quoted(order)
        )
        yield Problem(in_words(trial, place), words, "", place)
    else:
        yield from _gone(trial, place, name.strip(), project.follower_named, "device")


def _gone(trial: Trial, place: Place, name: str | None, known: Any, kind: str) -> Iterator[Problem]:
    if name is None or name in known:
        return
    kinds = {
        "key": translate("trial", "there is no key {name} on the panel"),
        "signal": translate("trial", "there is no signal {name} in the project"),
        "screen": translate("trial", "there is no screen {name} in the project"),
        "device": translate("trial", "there is no device {name} in the project"),
    }
    yield Problem(in_words(trial, place), kinds[kind].format(name=quoted(name)), did_you_mean(name, known), place)
