"""Edits of parts from the cells of their table: one cell, a whole selection, what was pasted. One step each."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from contextlib import nullcontext
from dataclasses import dataclass
from typing import Any, Final

from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import QWidget

from app.edits.several import parts_of
from app.project.model import Project
from widgets.design.tables.bad_cells import take_the_rest
from widgets.design.values.cell_reading import BadCell, CellReader, Proposal, RowOfTexts
from widgets.document.document import Document
from widgets.document.drafts import Drafts
from widgets.kit.background import wait_pointer

translate = QCoreApplication.translate
SHORT: Final = 24
"""Characters of a text up to which the list of steps repeats it."""
MANY_ROWS: Final = 300
"""Reading more rows than this can be noticed."""


@dataclass(frozen=True, slots=True)
class Steps:
    """What the steps are called that a table makes: an edit of cells, pasting, another order."""

    change: str
    paste: str
    order: str


class PartEditing:
    """Takes texts of cells into the document."""

    def __init__(self, document: Document, drafts: Drafts, reader: CellReader, steps: Steps) -> None:
        self.document = document
        self.reader = reader
        self.steps = steps
        self._drafts = drafts

    @property
    def project(self) -> Project:
        """The project as it is now."""
        return self.document.project

    def part(self, place: int) -> Any:
        """The part at a place of the list."""
        return parts_of(self.project, self.reader.kind)[place]

    def refusal(self, place: int, column: int, text: str) -> str:
        """Why a text cannot stand in a cell; empty if it can. A `place` below 0 is that of a part yet to be made."""
        if place < 0:
            bad = self.reader.propose(self.project, [self._new_row(column, text)]).bad if text.strip() else ()
            return bad[0].reason if bad else ""
        return self.reader.refusal(self.project, place, self.reader.columns[column].key, text)

    def _blank(self, column: int) -> Any:
        """What a new part would be; None if there can be none yet."""
        return self.reader.read(self.project, None, self._new_row(column, "").texts)[0]

    def _new_row(self, column: int, text: str) -> RowOfTexts:
        """A part that is begun with any of its cells; its name can be given later."""
        name = {"name": self.reader.new_name(self.project)}
        return RowOfTexts(
            name | {self.reader.columns[column].key: text}, None, len(parts_of(self.project, self.reader.kind)) + 1
        )

    def completions(self, place: int, column: int) -> Sequence[str]:
        """What could stand in a cell."""
        found = self.reader.columns[column].completions
        part = self.part(place) if place >= 0 else self._blank(column)
        return () if found is None or part is None else found(self.project, part)

    def take(self, place: int, column: int, text: str) -> bool:
        """Accept the text of one cell. A wrong one is kept as a draft, or told where it cannot be kept.

        A `place` below 0 makes a new part, unless the text is empty.
        """
        if place < 0 and not text.strip():
            return True
        reason = self.refusal(place, column, text)
        if reason:
            self._keep(place, column, text, reason)
            return False
        key = self.reader.columns[column].key
        row = RowOfTexts({key: text}, place, place + 1) if place >= 0 else self._new_row(column, text)
        proposal = self.reader.propose(self.project, [row])
        return self._do(proposal, self.change_of([row]))

    def change_of(self, rows: Sequence[RowOfTexts]) -> str:
        """What an edit of these cells is called: of what which, and to what where that is one short text."""
        keys = {key for row in rows for key in row.texts}
        titles = [column.title for column in self.reader.columns if column.key in keys]
        if len(titles) != 1 or any(row.place is None for row in rows):
            return self.steps.change
        texts = {text for row in rows for text in row.texts.values()}
        value = next(iter(texts)) if len(texts) == 1 else ""
        if len(rows) == 1 and rows[0].place is not None:
            words = translate("PartEditing", "{change}: \u201c{column}\u201d of \u201c{name}\u201d")
            name = self.part(rows[0].place).name
        else:
            words, name = translate("PartEditing", "{change}: \u201c{column}\u201d of {count}"), ""
        said = words.format(change=self.steps.change, column=titles[0], name=name, count=len(rows))
        return f"{said} \N{RIGHTWARDS ARROW} {value}" if value and len(value) <= SHORT else said

    def _keep(self, place: int, column: int, text: str, reason: str) -> None:
        row = self.reader.columns[column].form_row
        if place < 0 or row is None:
            said = translate("PartEditing", "'{text}' was not accepted: {reason}")
            self.document.refused.emit(said.format(text=text, reason=reason))
            return
        part = self.part(place)
        texts = (text, "") if self.reader.columns[column].key in ("limits", "scale") else (text,)
        self._drafts.keep((self.reader.kind, part.name), row(part), texts, reason)
        self.document.refused.emit(
            translate("PartEditing", "'{text}' stays in the properties until it is corrected: {reason}").format(
                text=text, reason=reason
            )
        )

    def put(
        self,
        rows: Sequence[RowOfTexts],
        step: str,
        parent: QWidget,
        bad: Sequence[BadCell] = (),
        may: Callable[[Proposal], bool] = lambda _proposal: True,
    ) -> Proposal | None:
        """Accept the texts of several rows as one step; of bad cells it is asked whether the rest shall come in,
        which is without any new row that has one.

        `bad` are those that are known already; `may` has the last word. Returns what was done, None if nothing was.
        """
        with wait_pointer() if len(rows) > MANY_ROWS else nullcontext():
            proposal = self.reader.propose(self.project, rows, bad)
        proposal.bad = sorted(proposal.bad, key=lambda cell: cell.row)
        if proposal.bad and not take_the_rest(proposal, parent):
            return None
        if not may(proposal):
            return None
        return proposal if self._do(proposal, step) else None

    def _do(self, proposal: Proposal, step: str) -> bool:
        kind = self.reader.kind
        return self.document.do(step, lambda project: proposal.edit(kind, project)) is None

    def do(self, step: str, edit: Callable[[Project], Project]) -> bool:
        """Make an edit as one step. False if it was refused, which is then told."""
        return self.document.do(step, edit) is None
