"""What is wrong with a project, in words: a place, a message and a hint."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from app.language import translate

Place = tuple[str | int, ...]
"""The keys of the file and the indices (from 0) that lead to a thing: `("screen", 3, "field", 1, "signal")`."""

MOST_PROBLEMS: Final = 1000
"""Of one kind; a file with more mistakes than this is told the first ones."""

_LONGEST_QUOTE: Final = 60


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing that is wrong. As text: "screen 'run', field 2: signal 'sped' does not exist; did you mean 'speed'?".

    `where` and `message` are words for the user, `hint` says what to do and may be empty. `place` leads a program to
    the same spot; it is empty where the problem is the file itself.
    """

    where: str
    message: str
    hint: str = ""
    place: Place = ()

    def __str__(self) -> str:
        place = f"{self.where}: " if self.where else ""
        hint = f"; {self.hint}" if self.hint else ""
        return f"{place}{self.message}{hint}"


def quoted(text: str) -> str:
    """`text` between quotation marks, fit for a message of one line: long texts cut, control characters as '?'."""
    shown = text if len(text) <= _LONGEST_QUOTE else text[: _LONGEST_QUOTE - 3] + "..."
    marks = translate("project", "''")
    return marks[0] + "".join(character if character.isprintable() else "?" for character in shown) + marks[1]


def nearest(name: str, names: Iterable[str]) -> str | None:
    """The one of `names` that is spelled most like `name`, capitals aside; None if none is near."""
    if len(name) > _LONGEST_QUOTE:
        return None
    spelled = {other.casefold(): other for other in names}
    import difflib  # wanted by mistakes only

    found = difflib.get_close_matches(name.casefold(), spelled, n=1, cutoff=0.65)
    return spelled[found[0]] if found else None


def did_you_mean(name: str, names: Iterable[str]) -> str:
    """A hint that names the nearest of `names`, capitals aside, or an empty text if none is near."""
    near = nearest(name, names)
    return _perhaps(near) if near is not None else ""


def one_of(names: Iterable[str]) -> str:
    """A list of names for a sentence: "'a', 'b' or 'c'"."""
    *most, last = (quoted(name) for name in names)
    if not most:
        return last
    return translate("project", "{names} or {last}").format(names=", ".join(most), last=last)


def _perhaps(name: str) -> str:
    return translate("project", "did you mean {name}?").format(name=quoted(name))
