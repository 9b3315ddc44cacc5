"""Replacing what was found on the screens of a project.

A row keeps its columns: what stands behind a replaced text stays where it is. A shorter text leaves blanks; a longer
one takes the blanks behind it, all but the last before other text. Where there are too few, the place is refused. In
the name of a signal the result must be the name of a signal of the project.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from app.edits.refused import EditRefused, changed, must_exist
from app.edits.rows import BLANK, full_rows, stripped, with_text
from app.edits.screens import screen_called, with_screen
from app.edits.search import COVERED, Match, Sought, names_signal, visible_rows
from app.edits.text import must_be_printable
from app.language import translate
from app.project.model import Field, Project, Screen
from app.project.problems import quoted

LONGEST: Final = 132
"""Characters of a replacement; no row of any panel has more."""


@dataclass(frozen=True, slots=True)
class Refusal:
    """A place that was left as it is, and why."""

    match: Match
    reason: str


@dataclass(frozen=True, slots=True)
class Replaced:
    """What came of replacing everything: the project, how many places changed, and which did not."""

    project: Project
    count: int
    refused: tuple[Refusal, ...]


def replace_match(project: Project, match: Match, sought: Sought, put: str) -> Project:
    """With `put` in the place of one match. Refused where it does not fit, or names no signal."""
    screen = screen_called(project, match.screen)
    if match.field is not None:
        field = _rename_signals(project, screen.fields[match.field], sought, put)
        fields = (*screen.fields[: match.field], field, *screen.fields[match.field + 1 :])
        return with_screen(project, changed(screen, fields=fields))
    _must_fit_a_row(put)
    rows = full_rows(project, screen.text)
    seen = visible_rows(project, screen)[match.row]
    rows[match.row] = _put_in(rows[match.row], seen, match.column, match.column + match.width, put)
    return with_text(project, screen, rows)


def replace_all(project: Project, sought: Sought, put: str) -> Replaced:
    """With `put` in the place of every match that it fits; what `put` brings in is not searched again."""
    if not sought.text:
        return Replaced(project, 0, ())
    if sought.texts:
        _must_fit_a_row(put)
    work = _Work(project, sought, put)
    screens = tuple(work.replaced(screen) for screen in project.screens)
    if work.count:
        project = changed(project, screens=screens)
    return Replaced(project, work.count, tuple(work.refused))


class _Work:
    """Replacing everything, a screen at a time."""

    def __init__(self, project: Project, sought: Sought, put: str) -> None:
        self._project = project
        self._sought = sought
        self._replacement = put
        self.count = 0
        self.refused: list[Refusal] = []

    def replaced(self, screen: Screen) -> Screen:
        """The screen with everything replaced that can be; itself where nothing was."""
        before = self.count
        text, fields = screen.text, screen.fields
        if self._sought.texts:
            rows = full_rows(self._project, screen.text)
            for number, seen in enumerate(visible_rows(self._project, screen)):
                rows[number] = self._in_row(screen.name, number, rows[number], seen)
            text = stripped(rows)
        if self._sought.signals:
            fields = tuple(self._in_field(screen.name, index, field) for index, field in enumerate(screen.fields))
        return changed(screen, text=text, fields=fields) if self.count > before else screen

    def _in_row(self, screen: str, number: int, row: str, seen: str) -> str:
        start = 0
        while (found := self._sought.pattern.search(seen, start)) is not None:
            try:
                row = _put_in(row, seen, *found.span(), self._replacement)
            except EditRefused as why:
                match = Match(screen, number, found.start(), len(found[0]))
                self.refused.append(Refusal(match, why.message))
                start = found.end()
                continue
            self.count += 1
            start = found.start() + len(self._replacement)
            seen = "".join(COVERED if was == COVERED else now for was, now in zip(seen, row, strict=False))
        return row

    def _in_field(self, screen: str, index: int, field: Field) -> Field:
        if not names_signal(field, self._sought):
            return field
        try:
            new = _rename_signals(self._project, field, self._sought, self._replacement)
        except EditRefused as why:
            self.refused.append(Refusal(Match(screen, *field.at, field.width, index), why.message))
            return field
        self.count += 1
        return new


def _put_in(row: str, seen: str, start: int, end: int, put: str) -> str:
    """The row with `put` for its cells from `start` to `end`; `seen` is the row with its fields marked."""
    word_end = end
    while word_end < len(seen) and seen[word_end] not in (BLANK, COVERED):
        word_end += 1
    free_end = word_end
    while free_end < len(seen) and seen[free_end] == BLANK:
        free_end += 1
    room = free_end - start
    if word_end < free_end < len(seen) and seen[free_end] != COVERED:
        room -= 1  # one blank stays before other text
    new = put + seen[end:word_end]
    if len(new) > room:
        raise EditRefused(
            translate("edits", "{text} needs {needed} cells, but only {room} are free there").format(
                text=quoted(put), needed=len(new), room=room
            )
        )
    taken = max(len(new), word_end - start)
    return row[:start] + new.ljust(taken) + row[start + taken :]


def _rename_signals(project: Project, field: Field, sought: Sought, put: str) -> Field:
    """The field with the signals that the replaced names call."""

    def called(name: str) -> str:
        new = sought.pattern.sub(lambda _: put, name)
        must_exist("signal", new, project.signal_named)
        return new

    blink = None if field.blink is None else changed(field.blink, signal=called(field.blink.signal))
    return changed(field, signal=called(field.signal), blink=blink)


def _must_fit_a_row(put: str) -> None:
    must_be_printable(put)
    if len(put) > LONGEST:
        raise EditRefused(
            translate("edits", "the new text has {count} characters, more than a row of a panel can have").format(
                count=len(put)
            )
        )
