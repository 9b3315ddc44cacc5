"""Texts of table cells made into parts of a project: each bad cell is told in words, the rest can still come in."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from pydantic import ValidationError
from PySide6.QtCore import QCoreApplication

from app.edits.refused import EditRefused
from app.edits.several import ListedKind, parts_of, put_parts
from app.project.model import Project
from app.project.problems import quoted
from app.project_file.validation_messages import refusal_of
from widgets.design.values.column import Column

translate = QCoreApplication.translate
ColumnTexts = Mapping[str, str]
"""What is to stand in the cells of one row, by the keys of the columns."""


class CellRefused(ValueError):
    """The text of one cell cannot be taken, said in words; `key` is its column."""

    def __init__(self, key: str, reason: str) -> None:
        super().__init__(reason)
        self.key = key


Prepare = Callable[[Project, Any, ColumnTexts, Any], tuple[Any, ColumnTexts]]
"""From the project, a part (None: a new one is wanted), the texts of its row and the part in the row above: the part to
write into and what is to be written, or CellRefused."""


Leads = Callable[[Mapping[str, Any], Any, Any], "tuple[str, str, Any] | None"]
"""From the parts of the kind by name as they will be, the part before (None: it is new) and after: None if its names
lead somewhere; else the key of the cell that does not, why not, and the part without that (None: there is none)."""


def _leads_always(_known: Mapping[str, Any], _before: Any, _after: Any) -> None:
    return None


@dataclass(frozen=True, slots=True)
class BadCell:
    """A cell that could not be taken: the number of its row, counted from 1, its column, what stood there and why."""

    row: int
    column: str
    text: str
    reason: str


@dataclass(slots=True)
class Proposal:
    """What became of the texts: parts to put at their places, new ones, and the cells that could not be taken.

    `left_out` are the numbers of the rows for new parts that have such a cell: none of them comes in, since a new part
    would get something there that nobody chose.
    """

    parts: dict[int, Any] = field(default_factory=dict)
    added: list[Any] = field(default_factory=list)
    bad: list[BadCell] = field(default_factory=list)
    left_out: set[int] = field(default_factory=set)

    def edit(self, kind: ListedKind, project: Project) -> Project:
        """The project with all of it."""
        return put_parts(project, kind, self.parts, self.added)


@dataclass(frozen=True, slots=True)
class RowOfTexts:
    """The texts for one row. `place` is the index of the part that they are for, None for a new one; `number` is what
    the row is called in what is told of it, counted from 1."""

    texts: ColumnTexts
    place: int | None
    number: int


@dataclass(frozen=True, slots=True)
class CellReader:
    """How the rows of one kind of parts are read."""

    kind: ListedKind
    columns: Sequence[Column]
    prepare: Prepare
    new_name: Callable[[Project], str]
    """A free name for a new part."""
    leads: Leads = _leads_always

    def column(self, key: str) -> Column:
        """The column of that key."""
        return next(column for column in self.columns if column.key == key)

    def read(self, project: Project, part: Any, texts: ColumnTexts, above: Any = None) -> tuple[Any, dict[str, str]]:
        """The part with these texts in its cells, as far as they can be taken, and why the others cannot, by key.

        `part` None makes a new one; the part that comes back is None if there can be none.
        """
        bad: dict[str, str] = {}
        same: set[str] = set()
        if part is not None:
            same = {key for key, text in texts.items() if text == self.column(key).edit_text(project, part)}
            if len(same) == len(texts):
                return part, bad
        before = part
        try:
            part, texts = self.prepare(project, part, texts, above)
        except CellRefused as refused:
            return part, {refused.key: _with_the_row(str(refused), part) if len(texts) > 1 else str(refused)}
        if part is not before:
            same.clear()
        for column in self.columns:
            key = column.key
            if column.read is None or key not in texts or key in same:
                continue
            text = texts[key]
            if not column.applies(part):
                if text.strip():
                    bad[key] = translate("cells", "does not apply to this part; leave the cell empty")
                continue
            try:
                part = part.replace(**column.read(project, part, text))
            except ValidationError as error:
                bad[key] = refusal_of(error)
            except ValueError as error:
                bad[key] = str(error)
        return part, bad

    def propose(self, project: Project, rows: Iterable[RowOfTexts], bad: Sequence[BadCell] = ()) -> Proposal:
        """What is to become of the texts of several rows. Names must differ afterwards; of two that do not, the one
        that was given later is bad. `bad` are cells of these rows that are known to be bad already."""
        proposal = Proposal(bad=list(bad))
        known = {cell.row for cell in bad}
        old = parts_of(project, self.kind)
        named: list[tuple[RowOfTexts, Any, bool]] = []
        above = old[-1] if old else None
        for row in rows:
            part = None if row.place is None else old[row.place]
            new, wrong = self.read(project, part, row.texts, above if part is None else None)
            proposal.bad += [
                BadCell(row.number, self.column(key).title, row.texts.get(key, ""), why) for key, why in wrong.items()
            ]
            if part is None and (wrong or row.number in known):
                proposal.left_out.add(row.number)
                continue
            if part is None:
                above = new
            named.append((row, new, part is None))
        self._settle(project, proposal, named)
        return proposal

    def _settle(self, project: Project, proposal: Proposal, named: Sequence[tuple[RowOfTexts, Any, bool]]) -> None:
        """Put in the parts whose names are free and whose references lead somewhere once all of them are in."""
        old = parts_of(project, self.kind)
        changing = {row.place for row, part, new in named if not new and part.name != old[row.place or 0].name}
        taken = {part.name for place, part in enumerate(old) if place not in changing} if named else set()
        title = self.columns[0].title
        settled: list[tuple[RowOfTexts, Any, bool]] = []
        for row, part, new in named:
            name = part.name
            keeps = not new and row.place not in changing
            if not keeps and name in taken:
                why = translate("cells", "{name} already exists; choose another name").format(name=quoted(name))
                proposal.bad.append(BadCell(row.number, title, row.texts.get(self.columns[0].key, name), why))
                if new:
                    proposal.left_out.add(row.number)
                    continue
                part = part.replace(name=old[row.place or 0].name)
            taken.add(part.name)
            if new or part != old[row.place or 0]:
                settled.append((row, part, new))
        known = {part.name: part for part in old} | {part.name: part for _, part, _ in settled} if settled else {}
        for row, part, new in settled:
            wrong = self.leads(known, None if new else old[row.place or 0], part)
            if wrong is not None:
                key, why, part = wrong
                proposal.bad.append(BadCell(row.number, self.column(key).title, row.texts.get(key, ""), why))
            if part is None:
                if new:
                    proposal.left_out.add(row.number)
                continue
            if new:
                proposal.added.append(part)
            elif part != old[row.place or 0]:
                proposal.parts[row.place or 0] = part

    def refusal(self, project: Project, place: int, key: str, text: str) -> str:
        """Why this text cannot stand in one cell; empty if it can."""
        proposal = self.propose(project, [RowOfTexts({key: text}, place, 1)])
        if proposal.bad:
            return proposal.bad[0].reason
        if self.column(key).leads:
            try:
                proposal.edit(self.kind, project)
            except EditRefused as refused:
                return refused.message
        return ""


def _with_the_row(reason: str, part: Any) -> str:
    """What a row is made into decides what its other cells mean: without that none of them is taken."""
    if part is None:
        return translate("cells", "{reason}; the row is skipped").format(reason=reason)
    return translate("cells", "{reason}; the row is not changed").format(reason=reason)
