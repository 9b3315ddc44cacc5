"""Refusing an edit, in words for the user."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import Any, Final, TypeVar

from pydantic import ValidationError

from app.errors import FanlightError
from app.language import translate
from app.project.model import Part, Project
from app.project.paths import kind_name
from app.project.problems import did_you_mean, quoted
from app.project.references import NamedKind, Use, dangling, uses
from app.project_file.validation_messages import refusal_of

_MOST_SHOWN: Final = 12


class EditRefused(FanlightError):
    """The edit cannot be done, and the project is as it was.

    `message` says why; `uses` what stands in the way; `attribute` which one of the part does not fit, if one does not.
    """

    def __init__(self, message: str, uses: Sequence[Use] = (), attribute: str = "") -> None:
        super().__init__(message)
        self.message = message
        self.uses = tuple(uses)
        self.attribute = attribute


_P = TypeVar("_P", bound=Part)
_M = TypeVar("_M", bound=Part)


def changed(part: _P, **changes: Any) -> _P:
    """`part` with some attributes changed. Raises EditRefused if they do not fit."""
    try:
        return part.replace(**changes)
    except ValidationError as error:
        raise _unfit(error) from None


def made(model: type[_M], **attributes: Any) -> _M:
    """A new part of `model`. Raises EditRefused if the attributes do not fit."""
    try:
        return model(**attributes)
    except ValidationError as error:
        raise _unfit(error) from None


def _unfit(error: ValidationError) -> EditRefused:
    place = error.errors(include_url=False)[0]["loc"]
    return EditRefused(refusal_of(error), attribute=str(place[0]) if place else "")


def must_be_unused(project: Project, kind: NamedKind, name: str) -> None:
    """Raises EditRefused with the list of uses if the `kind` called `name` is used."""
    found = uses(project, kind, name)
    if found:
        why = translate("edits", "{kind} {name} cannot be removed: it is used by {uses}")
        raise EditRefused(why.format(kind=kind_name(kind), name=quoted(name), uses=name_uses(found)), found)


def must_exist(kind: NamedKind, name: str, names: Collection[str]) -> None:
    """Raises EditRefused if `name` is not among `names`."""
    if name not in names:
        hint = did_you_mean(name, names)
        why = translate("edits", "{kind} {name} does not exist").format(kind=kind_name(kind), name=quoted(name))
        raise EditRefused(f"{why}; {hint}" if hint else why)


def must_be_free(kind: NamedKind, name: str, names: Collection[str]) -> None:
    """Raises EditRefused if `name` is among `names`."""
    if name in names:
        why = translate("edits", "there is already a {kind} {name}; choose another name")
        raise EditRefused(why.format(kind=kind_name(kind), name=quoted(name)))


def with_names_in_order(after: Project, before: Project) -> Project:
    """`after`. Raises EditRefused if a name in it points to nothing and did not do so `before`."""
    problems = dangling(after)
    if problems:
        known = {(problem.message, problem.place) for problem in dangling(before)}
        for problem in problems:
            if (problem.message, problem.place) not in known:
                hint = f"; {problem.hint}" if problem.hint else ""
                raise EditRefused(f"{problem.message}{hint}")
    return after


def free_name(wanted: str, names: Collection[str]) -> str:
    """`wanted`, or with the first number behind it that is free: "run", "run 2", "run 3"."""
    if wanted not in names:
        return wanted
    number = 2
    while (name := f"{wanted[:34].rstrip()} {number}") in names:
        number += 1
    return name


def must_be_index(kind: str, index: int, count: int) -> None:
    """Raises EditRefused unless `index`, from 0, is one of `count` things."""
    if not 0 <= index < count:
        why = translate("edits", "there is no {kind} {number}; there are {count}")
        raise EditRefused(why.format(kind=kind_name(kind), number=index + 1, count=count))


def moved(items: tuple[_P, ...], index: int, to: int) -> tuple[_P, ...]:
    """`items` with the one at `index` taken out and put in before the one that is then at `to`."""
    rest = list(items)
    item = rest.pop(index)
    rest.insert(max(0, min(to, len(rest))), item)
    return tuple(rest)


def name_uses(found: Sequence[Use]) -> str:
    """The uses in a sentence, each place once, the first dozen."""
    places = list(dict.fromkeys(use.where for use in found))
    more = len(places) - _MOST_SHOWN
    shown = ", ".join(places[:_MOST_SHOWN])
    return translate("edits", "{places} and {count} more").format(places=shown, count=more) if more > 0 else shown
