"""Parts of one kind as the rows of a table: which are shown, in which order, and what stands in their cells."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from typing import Any, Final

from PySide6.QtCore import QAbstractTableModel, QCoreApplication, QModelIndex, Qt

from app.project.model import Project
from widgets.design.values.column import Column
from widgets.kit import palette
from widgets.kit.plain import plain_tip
from widgets.kit.tables import Index

FEW_ROWS: Final = 4
"""Up to so many changed rows are told cell by cell."""
_ROOT: Final = QModelIndex()
# Made once: joining flags takes longer than everything else that is asked of a cell.
_LEFT: Final = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft
_RIGHT: Final = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignRight
_UP: Final = "\N{BLACK UP-POINTING TRIANGLE}"
_DOWN: Final = "\N{BLACK DOWN-POINTING TRIANGLE}"
_NO_FLAGS: Final = Qt.ItemFlag.NoItemFlags
_SHOWN: Final = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable | Qt.ItemFlag.ItemNeverHasChildren
_EDITED: Final = _SHOWN | Qt.ItemFlag.ItemIsEditable
_RUNS: Final = re.compile(r"\d+|\D+")


class PartModel(QAbstractTableModel):
    """Parts as rows. Rows are counted as they are shown, `places` are indices in the project.

    `spare`: behind the last part there is an empty row, whatever is left out, in which a new part is begun.
    """

    def __init__(self, columns: Sequence[Column], *, spare: bool = False) -> None:
        super().__init__()
        self._spare = spare
        self.columns = tuple(columns)
        self._project: Project | None = None
        self._parts: tuple[Any, ...] = ()
        self._rows: Sequence[int] = range(0)
        self._row_of: dict[int, int] | None = None
        self._wrong: frozenset[int] = frozenset()
        self._sorted_by: tuple[int, Qt.SortOrder] | None = None
        self._keep: Callable[[Project, Any, int], bool] | None = None
        self._named = False
        self._shorten: Callable[[str], str] = str

    # What is shown

    def show(self, project: Project, parts: tuple[Any, ...], wrong: frozenset[int]) -> None:
        """Show these parts; `wrong` are the places that an error is about.

        Rows stay where they are as long as none is added or deleted, also where a changed one would be sorted
        elsewhere: nothing jumps away while it is edited.
        """
        old = self._parts
        same = parts is old
        self._project = project
        if len(old) == len(parts) or not self.in_file_order:
            marked = self._wrong ^ wrong
            self._wrong = wrong
            if len(old) == len(parts):
                self._parts = parts
                if not same or marked:
                    self._tell_changed(old, parts, marked)
            else:
                self._arrange(parts)
            return
        self._wrong = wrong
        first = next(
            (n for n, (a, b) in enumerate(zip(old, parts, strict=False)) if a is not b), min(len(old), len(parts))
        )
        count = abs(len(parts) - len(old))
        # A whole reset would lose the selection and the scroll position.
        if len(parts) > len(old):
            self.beginInsertRows(_ROOT, first, first + count - 1)
            self._parts, self._rows = parts, range(len(parts))
            self.endInsertRows()
        else:
            self.beginRemoveRows(_ROOT, first, first + count - 1)
            self._parts, self._rows = parts, range(len(parts))
            self.endRemoveRows()
        if parts:
            self.dataChanged.emit(self.index(0, 0), self.index(len(parts) - 1, len(self.columns) - 1))

    def _tell_changed(self, old: Sequence[Any], new: Sequence[Any], marked: frozenset[int]) -> None:
        places = [place for place, (a, b) in enumerate(zip(old, new, strict=True)) if a is not b]
        rows = [row for place in {*places, *marked} if (row := self.row_of(place)) >= 0]
        if len(rows) > FEW_ROWS:
            self.dataChanged.emit(self.index(min(rows), 0), self.index(max(rows), len(self.columns) - 1))
            return
        for row in rows:
            # Cell by cell: views repaint one cell for one index, but everything for a range.
            for column in range(len(self.columns)):
                place = self.index(row, column)
                self.dataChanged.emit(place, place)

    @property
    def parts(self) -> tuple[Any, ...]:
        """All parts, in the order of the project."""
        return self._parts

    @property
    def project(self) -> Project | None:
        """The project that they are parts of."""
        return self._project

    @property
    def in_file_order(self) -> bool:
        """Whether every part is shown, in the order of the project."""
        return self._sorted_by is None and self._keep is None

    @property
    def sorted_by(self) -> tuple[int, Qt.SortOrder] | None:
        """The column that the rows are sorted by, and which way; None: as in the project."""
        return self._sorted_by

    @property
    def filtered(self) -> bool:
        """Whether some parts may be left out."""
        return self._keep is not None

    @property
    def shown(self) -> int:
        """How many parts are shown; the empty row is none."""
        return len(self._rows)

    def place(self, row: int) -> int:
        """The index in the project of what is shown in a row; -1 for the empty row."""
        return -1 if self._is_spare(row) else self._rows[row]

    def _is_spare(self, row: int) -> bool:
        return self._spare and row == len(self._rows)

    def row_of(self, place: int) -> int:
        """The row in which a part is shown; -1: in none."""
        if self.in_file_order:
            return place if 0 <= place < len(self._parts) else -1
        if self._row_of is None:
            self._row_of = {each: row for row, each in enumerate(self._rows)}
        return self._row_of.get(place, -1)

    def part(self, row: int) -> Any:
        """The part in a row."""
        return self._parts[self._rows[row]]

    def order(self) -> tuple[int, ...]:
        """The places of all parts in the order of the view; what is left out of it keeps to the end."""
        left_out = sorted(set(range(len(self._parts))) - set(self._rows))
        return (*self._rows, *left_out)

    # Sorting and leaving out: of the view only, the project keeps its order

    def sort(self, column: int, order: Qt.SortOrder = Qt.SortOrder.AscendingOrder) -> None:
        self._sorted_by = (column, order) if 0 <= column < len(self.columns) else None
        self._arrange(self._parts)

    def leave_out(self, keep: Callable[[Project, Any, int], bool] | None) -> None:
        """Show only parts that `keep` holds for, given the project, the part and its place; None: all."""
        if keep is not None or self._keep is not None:
            self._keep = keep
            self._arrange(self._parts)

    def _arrange(self, parts: tuple[Any, ...]) -> None:
        project = self._project
        if project is None:
            return
        self.layoutAboutToBeChanged.emit()
        held = [
            (index, None if self._is_spare(index.row()) else id(self._parts[self._rows[index.row()]]))
            for index in self.persistentIndexList()
        ]
        self._parts = parts
        rows: Sequence[int] = range(len(parts))
        keep = self._keep
        if keep is not None:
            rows = [place for place in rows if keep(project, parts[place], place)]
        if self._sorted_by is not None:
            column, order = self._sorted_by
            key = self.columns[column].order or self.columns[column].cell_text
            rows = sorted(
                rows,
                key=lambda place: _sort_key(key(project, parts[place])),
                reverse=order == Qt.SortOrder.DescendingOrder,
            )
        self._rows, self._row_of = rows, None
        if held:
            now: dict[int | None, int] = {id(parts[place]): row for row, place in enumerate(rows)}
            now[None] = len(rows)
            for index, part in held:
                row = now.get(part, -1)
                self.changePersistentIndex(index, self.index(row, index.column()) if row >= 0 else QModelIndex())
        self.layoutChanged.emit()

    # For the view

    def rowCount(self, parent: Index = _ROOT) -> int:
        """One row a part that is shown, and the empty one."""
        return 0 if parent.isValid() else len(self._rows) + self._spare

    def columnCount(self, parent: Index = _ROOT) -> int:
        return 0 if parent.isValid() else len(self.columns)

    def flags(self, index: Index) -> Qt.ItemFlag:
        if not index.isValid():
            return _NO_FLAGS
        return _EDITED if self.editable(index.row(), index.column()) else _SHOWN

    def editable(self, row: int, column: int) -> bool:
        """Whether a cell can be edited."""
        each = self.columns[column]
        return each.read is not None and (self._is_spare(row) or each.applies(self.part(row)))

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """The headings, and the number of each part in the project at the left."""
        if orientation == Qt.Orientation.Vertical:
            if role == Qt.ItemDataRole.DisplayRole and self._is_spare(section):
                return "+"
            if role == Qt.ItemDataRole.DisplayRole and 0 <= section < len(self._rows):
                number = str(self._rows[section] + 1)
                return self._shorten(f"{number}  {self._first(section)}") if self._named else number
            if role == Qt.ItemDataRole.TextAlignmentRole:
                return _LEFT if self._named else _RIGHT
            return None
        column = self.columns[section]
        if role == Qt.ItemDataRole.DisplayRole:
            if self._sorted_by is None or self._sorted_by[0] != section:
                return column.title
            # Before the title, which may be cut at its end.
            return f"{_UP if self._sorted_by[1] == Qt.SortOrder.AscendingOrder else _DOWN} {column.title}"
        if role == Qt.ItemDataRole.ToolTipRole:
            return column.hint or column.title
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return _RIGHT if column.right else _LEFT
        return None

    def _first(self, row: int) -> str:
        return "" if self._project is None else self.columns[0].cell_text(self._project, self.part(row))

    def name_rows(self, named: bool, cut: Callable[[str], str]) -> None:
        """Say at the left of each row also what stands in its first column, as far as there is room (`cut`)."""
        if named != self._named:
            self._named, self._shorten = named, cut
            if self._rows:
                self.headerDataChanged.emit(Qt.Orientation.Vertical, 0, len(self._rows) - 1)

    def cell(self, row: int, at: int) -> tuple[str, str, Qt.AlignmentFlag]:
        """The text of a cell, the name of its colour and where it stands: all that is needed to draw it."""
        column = self.columns[at]
        side = _RIGHT if column.right else _LEFT
        project = self._project
        if project is None:
            return "", "ink", side
        if self._is_spare(row):
            return "" if at else QCoreApplication.translate("PartModel", "Type or paste here: new rows"), "faint", side
        place = self._rows[row]
        part = self._parts[place]
        return column.cell_text(project, part), column.ink(project, part) if column.ink is not None else "ink", side

    def sign(self, row: int) -> str:
        """The state whose sign stands before a row, `add` before the empty one; empty for none."""
        project, first = self._project, self.columns[0]
        if self._is_spare(row):
            return "add"
        if project is None:
            return ""
        place = self._rows[row]
        if place in self._wrong:
            return "alarm"
        return first.sign(project, self._parts[place]) if first.sign is not None else ""

    def inset(self, row: int) -> bool:
        """Whether the part in a row belongs to another and stands further in."""
        belongs = self.columns[0].inset
        return belongs is not None and not self._is_spare(row) and belongs(self.part(row))

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        project = self._project
        column = self.columns[index.column()]
        if project is not None and self._is_spare(index.row()):
            return self._spare_data(index, role)
        if project is None or not 0 <= index.row() < len(self._rows):
            return None
        part = self.part(index.row())
        if role == Qt.ItemDataRole.DisplayRole:
            return self.cell(index.row(), index.column())[0]
        if role == Qt.ItemDataRole.EditRole:
            return column.edit_text(project, part)
        if role == Qt.ItemDataRole.ToolTipRole:
            return plain_tip((column.tip or column.text)(project, part)) if column.applies(part) else None
        if role == Qt.ItemDataRole.AccessibleTextRole:
            wrong = self._rows[index.row()] in self._wrong and index.column() == 0
            said = f"{column.title}: {column.cell_text(project, part)}"
            words = QCoreApplication.translate("PartModel", "with an error")
            return f"{said}, {words}" if wrong else said
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return self.cell(index.row(), index.column())[2]
        if role == Qt.ItemDataRole.ForegroundRole:
            return palette.current().colour(self.cell(index.row(), index.column())[1])
        return None

    def _spare_data(self, index: Index, role: int) -> object:
        if role == Qt.ItemDataRole.DisplayRole:
            return self.cell(index.row(), index.column())[0]
        if role == Qt.ItemDataRole.AccessibleTextRole:
            words = QCoreApplication.translate("PartModel", "{column}: empty row, type or paste here")
            return words.format(column=self.columns[index.column()].title)
        if role == Qt.ItemDataRole.ForegroundRole:
            return palette.current().colour("faint")
        return None


def _sort_key(value: Any) -> tuple[int, Any]:
    """Numbers before texts, nothing last: so that any two can be compared."""
    if value is None or value == "":
        return 2, ""
    if isinstance(value, str):
        return 1, natural(value)
    return 0, value


def natural(text: str) -> tuple[tuple[int, int, str], ...]:
    """For sorting: numbers in a text count as numbers, so that "belt 9" is before "belt 10"."""
    runs = _RUNS.findall(text.casefold())
    return tuple((0, int(run), "") if run[0].isdecimal() else (1, 0, run) for run in runs)
