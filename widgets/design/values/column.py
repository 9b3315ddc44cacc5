"""A column of a table of parts: what its cells show, and what a text typed or pasted there means."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from app.project.model import Project


def _any_part(_part: Any) -> bool:
    return True


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its heading, the text of a part, its width in pixels (0: what is left).

    `read` makes a column one that is edited: from the project, the part and a typed text to the attributes that the
    part gets, or ValueError in words. `content` is what is edited and copied, where that is not the text; `key` is
    what the column is called in pasted tables whatever the language, `also` what else it may be called there.
    """

    title: str
    text: Callable[[Project, Any], str]
    width: int = 0
    right: bool = False
    key: str = ""
    read: Callable[[Project, Any, str], dict[str, Any]] | None = None
    content: Callable[[Project, Any], str] | None = None
    applies: Callable[[Any], bool] = _any_part
    completions: Callable[[Project, Any], Sequence[str]] | None = None
    order: Callable[[Project, Any], Any] | None = None
    """What the rows are sorted by; left out, the text."""
    tip: Callable[[Project, Any], str] | None = None
    hint: str = ""
    form_row: Callable[[Any], str] | None = None
    """The row of the part's form in which a wrong text is kept until it is right."""
    leads: bool = False
    """Whether it names another part, or decides what may name this one."""
    numbers: bool = False
    """Whether a comma in it is a question of how numbers are written."""
    also: tuple[str, ...] = ()
    seldom: bool = False
    """Whether it is hidden until it is asked for."""
    ink: Callable[[Project, Any], str] | None = None
    """The name of the colour of its text; left out, that of any text."""
    sign: Callable[[Project, Any], str] | None = None
    """Of the first column: the state whose sign stands before a part that has no error; empty for none."""
    inset: Callable[[Any], bool] | None = None
    """Of the first column: whether a part belongs to another and stands further in."""

    def cell_text(self, project: Project, part: Any) -> str:
        """The text of a cell, in one line."""
        return self.text(project, part).replace("\n", " / ") if self.applies(part) else ""

    def edit_text(self, project: Project, part: Any) -> str:
        """What is edited and copied of a cell."""
        if not self.applies(part):
            return ""
        return (self.content or self.text)(project, part)
