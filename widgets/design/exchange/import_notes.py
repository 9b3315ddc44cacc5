"""The rows of an import that are skipped, and what else is to be said about rows: a list that leads to them."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHeaderView, QTableView, QWidget

from app.exchange.column_mapping import Matching
from app.exchange.import_plan import ImportPlan
from app.exchange.row_parser import Note
from app.exchange.sheet import Sheet, cell_text, column_letter
from widgets.design.exchange.import_table import key_title
from widgets.kit.tables import TableModel, add_copying, selected_rows, set_up

_ORDER: Final = {"fault": 0, "aside": 1, "remark": 2}


class NotesModel(TableModel):
    """Notes on rows: what keeps a row out first."""

    def __init__(self) -> None:
        super().__init__()
        self.titles = (self.tr("Row"), self.tr("Column"), self.tr("Cell"), self.tr("Note"))
        self.notes: tuple[Note, ...] = ()
        self._sheet = Sheet((), 0)
        self._matching = Matching(())

    def show(self, sheet: Sheet, matching: Matching, plan: ImportPlan) -> None:
        """Show the notes of a plan."""
        self.beginResetModel()
        self._sheet, self._matching = sheet, matching
        self.notes = tuple(sorted(plan.notes, key=lambda note: (_ORDER[note.level], note.row, note.column)))
        self.endResetModel()

    def count(self) -> int:
        """How many notes there are."""
        return len(self.notes)

    def cell(self, row: int, column: int) -> tuple[str, str]:
        """What stands in a cell, and the name of its colour."""
        note = self.notes[row]
        return self.texts(note)[column], "fault" if column == 0 and note.level == "fault" else "ink"

    def texts(self, note: Note) -> tuple[str, str, str, str]:
        """The four texts of a note."""
        sign = {"fault": "\N{WARNING SIGN} ", "aside": "\N{EN DASH} ", "remark": ""}[note.level]
        column = cell = ""
        if note.column >= 0:
            key = self._matching.columns[note.column] if note.column < len(self._matching.columns) else None
            column = column_letter(note.column) + (f", {key_title(key)}" if key else "")
            row = next((row for row in self._sheet.rows if row.number == note.row), None)
            cell = cell_text(row.cell(note.column)) if row is not None else ""
        return f"{sign}{note.row}", column, cell, note.message[:1].upper() + note.message[1:]


class NotesList(QTableView):
    """The notes; the current one says where it belongs."""

    chosen = Signal(int, int)
    """Row of the file and column, -1 for the row as a whole."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.notes = NotesModel()
        self.setModel(self.notes)
        self.setAccessibleName(self.tr("Notes on rows"))
        set_up(self)
        add_copying(self, self.tr("Copy the selected notes"), lambda: self.notes.as_lines(selected_rows(self)))
        header = self.horizontalHeader()
        header.setSectionResizeMode(3, QHeaderView.ResizeMode.Stretch)
        for column, width in enumerate((76, 150, 150)):
            self.setColumnWidth(column, width)
        self.selectionModel().currentRowChanged.connect(lambda now, _before: self._go(now.row()))
        self.clicked.connect(lambda index: self._go(index.row()))

    def show_notes(self, sheet: Sheet, matching: Matching, plan: ImportPlan) -> None:
        """Show the notes of a plan."""
        self.notes.show(sheet, matching, plan)

    def _go(self, at: int) -> None:
        if 0 <= at < len(self.notes.notes):
            note = self.notes.notes[at]
            self.chosen.emit(note.row, note.column)
