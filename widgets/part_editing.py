"""Edits of parts from the cells of their table: one cell, a whole selection, what was pasted. One step each."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any, Final

from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QWidget

from app.project.edits.several import parts_of
from app.project.model import Project
from widgets.bad_cells import take_the_rest
from widgets.cell_reading import BadCell, CellReader, Proposal, Row
from widgets.document import Document
from widgets.drafts import Drafts

translate = QCoreApplication.translate
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
        """Why a text cannot stand in a cell; empty if it can."""
        return self.reader.refusal(self.project, place, self.reader.columns[column].key, text)

    def completions(self, place: int, column: int) -> Sequence[str]:
        """What could stand in a cell."""
        found = self.reader.columns[column].completions
        return () if found is None else found(self.project, self.part(place))

    def take(self, place: int, column: int, text: str) -> bool:
        """Take over the text of one cell. A wrong one is kept as a draft, or told where it cannot be kept."""
        reason = self.refusal(place, column, text)
        if reason:
            self._keep(place, column, text, reason)
            return False
        key = self.reader.columns[column].key
        proposal = self.reader.propose(self.project, [Row({key: text}, place, place + 1)])
        return self._do(proposal, self.steps.change)

    def _keep(self, place: int, column: int, text: str, reason: str) -> None:
        part = self.part(place)
        row = self.reader.columns[column].form_row
        if row is None:
            said = translate("PartEditing", "'{text}' is not taken over: {reason}")
            self.document.refused.emit(said.format(text=text, reason=reason))
            return
        texts = (text, "") if self.reader.columns[column].key in ("limits", "scale") else (text,)
        self._drafts.keep((self.reader.kind, part.name), row(part), texts, reason)
        self.document.refused.emit(
            translate("PartEditing", "'{text}' is kept in the properties until it is right: {reason}").format(
                text=text, reason=reason
            )
        )

    def put(self, rows: Sequence[Row], step: str, parent: QWidget, bad: Sequence[BadCell] = ()) -> Proposal | None:
        """Take over the texts of several rows as one step; of bad cells it is asked whether the rest shall come in.

        `bad` are those that are known already. Returns what was done, None if nothing was.
        """
        if len(rows) > MANY_ROWS:
            QGuiApplication.setOverrideCursor(Qt.CursorShape.WaitCursor)
        try:
            proposal = self.reader.propose(self.project, rows)
        finally:
            if len(rows) > MANY_ROWS:
                QGuiApplication.restoreOverrideCursor()
        proposal.bad = sorted([*bad, *proposal.bad], key=lambda cell: cell.row)
        if proposal.bad and not take_the_rest(proposal, parent):
            return None
        return proposal if self._do(proposal, step) else None

    def _do(self, proposal: Proposal, step: str) -> bool:
        kind = self.reader.kind
        return self.document.do(step, lambda project: proposal.edit(kind, project)) is None

    def do(self, step: str, edit: Callable[[Project], Project]) -> bool:
        """Make an edit as one step. False if it was refused, which is then told."""
        return self.document.do(step, edit) is None
