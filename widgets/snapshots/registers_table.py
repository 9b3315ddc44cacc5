"""The table of registers as found and as left: what differs, what can be written back, and what became of it."""

from __future__ import annotations

import enum
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from PySide6.QtCore import QObject, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QTreeView, QWidget

from app.snapshots.differences import RegisterDifference
from app.snapshots.restoring import Offer, Restored, place_text
from app.snapshots.snapshot import RegisterPlace
from widgets.kit.row_list import RowDelegate
from widgets.kit.scaling import scaled
from widgets.kit.tables import Index, TableModel, selected_rows, set_widths

_ROLE: Final = Qt.ItemDataRole


class RegisterColumn(enum.IntEnum):
    """The columns, from the left."""

    REGISTER = 0
    WIRE = 1
    BEFORE = 2
    AFTER = 3
    REMARK = 4


class Sides(enum.Enum):
    """What is shown."""

    ONE = enum.auto()
    """One snapshot."""
    TWO = enum.auto()
    """Two snapshots."""
    LIVE = enum.auto()
    """A snapshot, and the follower as it is now."""


@dataclass(slots=True)
class RegisterLine:
    """A line of the table: a value on both sides, or registers that were not readable (without a `row`)."""

    register: str
    row: RegisterDifference | None = None
    remark: str = ""
    ticked: bool | None = None
    """Whether it is to be written back; None if it cannot be."""

    @classmethod
    def of(cls, row: RegisterDifference, remark: str = "", offer: Offer | None = None) -> RegisterLine:
        """The line of a row, with the offer to write it back if there is one."""
        possible = offer is not None and offer.possible
        return cls(place_text(row), row, remark, offer.chosen if possible and offer is not None else None)


class RegistersModel(TableModel):
    """Lines as rows."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._lines: Sequence[RegisterLine] = ()
        self.show((), Sides.ONE)

    def show(self, lines: Sequence[RegisterLine], sides: Sides) -> None:
        """Show these instead."""
        self.beginResetModel()
        self._lines = lines
        self.titles = (
            self.tr("Register"),
            self.tr("Address (0-based)"),
            self.tr("Value") if sides is Sides.ONE else self.tr("Before"),
            self.tr("Now") if sides is Sides.LIVE else self.tr("After"),
            self.tr("Remark"),
        )
        self.endResetModel()

    @property
    def lines(self) -> Sequence[RegisterLine]:
        """What is shown, from the top."""
        return self._lines

    @property
    def ticked(self) -> list[RegisterDifference]:
        """What is to be written back."""
        return [line.row for line in self._lines if line.ticked and line.row is not None]

    def report(self, done: Mapping[RegisterPlace, Restored]) -> None:
        """Say beside each value what became of it; nothing of it is ticked any longer."""
        for line in self._lines:
            each = done.get((line.row.table, line.row.address)) if line.row is not None else None
            if each is not None:
                line.remark = ("\N{CHECK MARK} " if each.ok else "\N{WARNING SIGN} ") + each.words
                line.ticked = False
        self._tell_changed(range(len(self._lines)))

    def tick(self, rows: Iterable[int]) -> None:
        """Tick those of these lines that can be written back; take the ticks away if all of them have one."""
        can = [row for row in rows if self._lines[row].ticked is not None]
        on = not all(self._lines[row].ticked for row in can)
        for row in can:
            self._lines[row].ticked = on
        self._tell_changed(can)

    def _tell_changed(self, rows: Sequence[int]) -> None:
        if rows:
            last = len(RegisterColumn) - 1
            self.dataChanged.emit(self.index(min(rows), 0), self.index(max(rows), last))

    # Qt

    def flags(self, index: Index) -> Qt.ItemFlag:
        flags = super().flags(index)
        if (
            index.isValid()
            and index.column() == RegisterColumn.REGISTER
            and self._lines[index.row()].ticked is not None
        ):
            flags |= Qt.ItemFlag.ItemIsUserCheckable
        return flags

    def count(self) -> int:
        """How many lines are shown."""
        return len(self._lines)

    def cell(self, row: int, column: int) -> tuple[str, str]:
        """What stands in a cell."""
        return self._text(row, column), "ink"

    def _text(self, row: int, column: int) -> str:
        line = self._lines[row]
        if column == RegisterColumn.REGISTER:
            return line.register
        if column == RegisterColumn.REMARK:
            return line.remark
        if line.row is None:
            return ""
        if column == RegisterColumn.WIRE:
            return str(line.row.address)
        return line.row.said_before if column == RegisterColumn.BEFORE else line.row.said_after

    def data(self, index: Index, role: int = _ROLE.DisplayRole) -> object:
        """What stands in a cell, and the tick of what can be written back."""
        if role != _ROLE.CheckStateRole or index.column() != RegisterColumn.REGISTER:
            return super().data(index, role)
        ticked = self._lines[index.row()].ticked
        return None if ticked is None else Qt.CheckState.Checked if ticked else Qt.CheckState.Unchecked

    def setData(self, index: Index, value: object, role: int = _ROLE.EditRole) -> bool:
        if role != _ROLE.CheckStateRole or self._lines[index.row()].ticked is None:
            return False
        self._lines[index.row()].ticked = Qt.CheckState(value) == Qt.CheckState.Checked
        self._tell_changed([index.row()])
        return True


class RegistersTable(QTreeView):
    """The table; the space bar ticks every selected line."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.registers = RegistersModel(self)
        self.setModel(self.registers)
        self.setItemDelegate(RowDelegate(self))
        self.setAccessibleName(self.tr("Registers"))
        self.setRootIsDecorated(False)
        self.setUniformRowHeights(True)
        self.setAllColumnsShowFocus(True)
        self.setSelectionMode(QTreeView.SelectionMode.ExtendedSelection)
        widths = {
            RegisterColumn.REGISTER: 260,
            RegisterColumn.WIRE: 56,
            RegisterColumn.BEFORE: 110,
            RegisterColumn.AFTER: 110,
        }
        set_widths(self, {column: scaled(width) for column, width in widths.items()})

    def show_lines(self, lines: Sequence[RegisterLine], sides: Sides) -> None:
        """Show these instead; one snapshot has one column of values."""
        self.registers.show(lines, sides)
        self.setColumnHidden(RegisterColumn.AFTER, sides is Sides.ONE)
        if lines:
            self.setCurrentIndex(self.registers.index(0, 0))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """The space bar ticks what is selected, not the current line alone."""
        if event.key() == Qt.Key.Key_Space:
            self.registers.tick(selected_rows(self))
            return
        super().keyPressEvent(event)
