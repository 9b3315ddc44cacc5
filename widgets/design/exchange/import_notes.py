"""The rows of an import that are skipped, and what else is to be said about rows: a list that leads to them."""

from __future__ import annotations

from typing import Any, Final

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence
from PySide6.QtWidgets import QAbstractItemView, QApplication, QHeaderView, QTableView, QWidget

from app.exchange.column_mapping import Matching
from app.exchange.import_plan import Plan
from app.exchange.row_parser import Note
from app.exchange.sheet import Sheet, cell_text, column_letter
from widgets.design.exchange.import_table import key_title
from widgets.kit import palette
from widgets.kit.plain import plain_tip

Index = QModelIndex | QPersistentModelIndex
Role = Qt.ItemDataRole
_ORDER: Final = {"fault": 0, "aside": 1, "remark": 2}


class NotesModel(QAbstractTableModel):
    """Notes on rows: what keeps a row out first."""

    def __init__(self) -> None:
        super().__init__()
        self.notes: tuple[Note, ...] = ()
        self._sheet = Sheet((), 0)
        self._matching = Matching(())

    def show(self, sheet: Sheet, matching: Matching, plan: Plan) -> None:
        """Show the notes of a plan."""
        self.beginResetModel()
        self._sheet, self._matching = sheet, matching
        self.notes = tuple(sorted(plan.notes, key=lambda note: (_ORDER[note.level], note.row, note.column)))
        self.endResetModel()

    def rowCount(self, parent: Index | None = None) -> int:
        """One row a note."""
        return 0 if parent is not None and parent.isValid() else len(self.notes)

    def columnCount(self, parent: Index | None = None) -> int:  # noqa: ARG002
        """Row, column, cell, what."""
        return 4

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Role.DisplayRole) -> Any:
        """The headings."""
        if orientation == Qt.Orientation.Horizontal and role == Role.DisplayRole:
            return (self.tr("Row"), self.tr("Column"), self.tr("Cell"), self.tr("Note"))[section]
        if orientation == Qt.Orientation.Horizontal and role == Role.TextAlignmentRole:
            return Qt.AlignmentFlag.AlignLeft
        return None

    def data(self, index: Index, role: int = Role.DisplayRole) -> Any:
        """Text and look of a cell."""
        if not 0 <= index.row() < len(self.notes):
            return None
        note = self.notes[index.row()]
        if role in (Role.DisplayRole, Role.ToolTipRole):
            text = self.texts(note)[index.column()]
            return plain_tip(text) if role == Role.ToolTipRole else text
        if role == Role.ForegroundRole and index.column() == 0 and note.level == "fault":
            return palette.current().colour("fault")
        return None

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
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.setTabKeyNavigation(False)
        self.setAlternatingRowColors(True)
        self.verticalHeader().hide()
        self.verticalHeader().setDefaultSectionSize(self.fontMetrics().height() + 6)
        header = self.horizontalHeader()
        header.setProperty("look", "narrow")
        header.setHighlightSections(False)
        header.setSectionResizeMode(3, QHeaderView.ResizeMode.Stretch)
        for column, width in enumerate((76, 150, 150)):
            self.setColumnWidth(column, width)
        self.selectionModel().currentRowChanged.connect(lambda now, _before: self._go(now.row()))
        self.clicked.connect(lambda index: self._go(index.row()))

    def show_notes(self, sheet: Sheet, matching: Matching, plan: Plan) -> None:
        """Show the notes of a plan."""
        self.notes.show(sheet, matching, plan)

    def _go(self, at: int) -> None:
        if 0 <= at < len(self.notes.notes):
            note = self.notes.notes[at]
            self.chosen.emit(note.row, note.column)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Copy the selected notes as text, to send them to who made the list."""
        if event.matches(QKeySequence.StandardKey.Copy):
            rows = sorted({index.row() for index in self.selectionModel().selectedRows()})
            QApplication.clipboard().setText(
                "\n".join("\t".join(self.notes.texts(self.notes.notes[at])) for at in rows)
            )
            return
        super().keyPressEvent(event)
