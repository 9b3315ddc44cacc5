"""The list of transactions: bounded, filtered, and drawn cheaply, since a fast line brings hundreds a second."""

from __future__ import annotations

import enum
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Any, Final

from PySide6.QtCore import (
    QAbstractTableModel,
    QItemSelectionModel,
    QModelIndex,
    QObject,
    Qt,
)
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QWidget,
)

from app.language import translate
from widgets.kit.plain import plain_tip
from widgets.kit.quick_cells import PADDING, Index, QuickCells, QuickTable
from widgets.kit.scaling import heading_width

if TYPE_CHECKING:  # the bus is imported only when a line is connected
    from app.client.transactions import Transaction
    from app.diagnosis.register_names import RegisterNames

_ROOT: Final = QModelIndex()
KEPT: Final = 5000
"""How many transactions are kept at least."""
SLACK: Final = 500
"""So many more before the oldest go: taking them out one by one would cost more."""


class Column(enum.IntEnum):
    """The columns, from the left."""

    TIME = 0
    FOLLOWER = 1
    WHAT = 2
    RESULT = 3
    MEASURED = 4
    PREDICTED = 5


@dataclass(frozen=True, slots=True)
class Row:
    """One transaction of the list: when it was sent, in seconds since 1970, and the names of its registers."""

    transaction: Transaction
    at: float
    names: RegisterNames


@dataclass(frozen=True, slots=True)
class Wanted:
    """Which transactions are shown: of one follower (empty: of all), only faults, and those with all of the words."""

    follower: str = ""
    faults_only: bool = False
    words: tuple[str, ...] = ()

    def takes(self, row: Row) -> bool:
        """Whether this transaction is shown."""
        transaction = row.transaction
        if self.faults_only and transaction.fault is None:
            return False
        if self.follower and transaction.follower != self.follower:
            return False
        if not self.words:
            return True
        text = _searched(row)
        return all(word in text for word in self.words)


def _searched(row: Row) -> str:
    """What the words of a filter are looked for in: also signals and bytes, in hexadecimal with and without blanks."""
    transaction = row.transaction
    request = transaction.request
    signals = row.names.at(transaction.follower, request.table, request.address, request.count)
    fault = transaction.fault
    frames = (transaction.sent, transaction.received)
    parts = [transaction.line, transaction.follower, transaction.kind, *signals]
    parts += [fault.short, fault.sentence] if fault else ["good"]
    parts += [data.hex(" ") for data in frames] + [data.hex() for data in frames]
    return "\n".join(parts).casefold()


class TransactionsModel(QAbstractTableModel):
    """Transactions as rows, oldest first."""

    def __init__(self, parent: QObject | None = None, *, keep: int = KEPT, slack: int = SLACK) -> None:
        super().__init__(parent)
        self._keep = keep
        self._slack = slack
        self._all: list[Row] = []
        self._shown: list[Row] = []
        self._wanted = Wanted()

    @property
    def wanted(self) -> Wanted:
        """Which transactions are shown."""
        return self._wanted

    @property
    def total(self) -> int:
        """How many are kept, shown or not."""
        return len(self._all)

    @property
    def shown(self) -> tuple[Row, ...]:
        """Those that are shown, oldest first."""
        return tuple(self._shown)

    def row(self, number: int) -> Row:
        """One of those that are shown."""
        return self._shown[number]

    def place(self, transaction: Transaction) -> int | None:
        """The row in which this very transaction is shown."""
        rows = range(len(self._shown) - 1, -1, -1)
        return next((row for row in rows if self._shown[row].transaction is transaction), None)

    def add(self, rows: Iterable[Row]) -> int:
        """Add the newest ones, oldest first. Gives how many rows went from the front."""
        new = list(rows)
        self._all += new
        taken = [row for row in new if self._wanted.takes(row)]
        if taken:
            first = len(self._shown)
            self.beginInsertRows(QModelIndex(), first, first + len(taken) - 1)
            self._shown += taken
            self.endInsertRows()
        return self._trim()

    def want(self, wanted: Wanted) -> None:
        """Show others."""
        if wanted != self._wanted:
            self.beginResetModel()
            self._wanted = wanted
            self._shown = [row for row in self._all if wanted.takes(row)]
            self.endResetModel()

    def clear(self) -> None:
        """Forget all of them."""
        self.beginResetModel()
        self._all, self._shown = [], []
        self.endResetModel()

    def _trim(self) -> int:
        if len(self._all) <= self._keep + self._slack:
            return 0
        dropped = self._all[: -self._keep]
        self._all = self._all[-self._keep :]
        gone = 0
        for row in dropped:
            if gone < len(self._shown) and self._shown[gone] is row:
                gone += 1
        if gone:
            self.beginRemoveRows(QModelIndex(), 0, gone - 1)
            del self._shown[:gone]
            self.endRemoveRows()
        return gone

    # what Qt asks

    def rowCount(self, parent: Index = _ROOT) -> int:
        """One row a transaction that is shown."""
        return 0 if parent.isValid() else len(self._shown)

    def columnCount(self, parent: Index = _ROOT) -> int:
        """See Column."""
        return 0 if parent.isValid() else len(Column)

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """The heads of the columns."""
        if orientation is not Qt.Orientation.Horizontal:
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return {
                Column.TIME: self.tr("Time"),
                Column.FOLLOWER: self.tr("Device"),
                Column.WHAT: self.tr("Request"),
                Column.MEASURED: self.tr("ms"),
                Column.PREDICTED: self.tr("Expected"),
                Column.RESULT: self.tr("Result"),
            }[Column(section)]
        if role == Qt.ItemDataRole.ToolTipRole:
            return {
                Column.MEASURED: self.tr("Time from the request to the complete answer, in milliseconds"),
                Column.PREDICTED: self.tr("Expected time in milliseconds"),
            }.get(Column(section))
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return _ALIGNMENT[Column(section)]
        return None

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """What stands in a cell."""
        column = Column(index.column())
        if role == Qt.ItemDataRole.DisplayRole:
            return self.cell(index.row(), column)[0]
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return _ALIGNMENT[column]
        if role == Qt.ItemDataRole.ToolTipRole:
            fault = self._shown[index.row()].transaction.fault
            return plain_tip(fault.sentence) if fault else None
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return f"{self.headerData(column, Qt.Orientation.Horizontal)}: {self.cell(index.row(), column)[0]}"
        return None

    def cell(self, row: int, column: Column) -> tuple[str, str]:
        """The text of a cell, and the name of its colour: all that is needed to draw it."""
        milliseconds, clock_text, result_text = _wording()
        shown = self._shown[row]
        transaction = shown.transaction
        match column:
            case Column.TIME:
                return clock_text(shown.at), "faint"
            case Column.FOLLOWER:
                return transaction.follower, "ink"
            case Column.WHAT:
                return transaction.kind, "ink"
            case Column.MEASURED:
                return milliseconds(transaction.ms), "ink"
            case Column.PREDICTED:
                predicted = transaction.predicted_ms
                return milliseconds(predicted) if predicted else "\u2013", "faint"
            case Column.RESULT:
                return result_text(transaction), "fault" if transaction.fault else "good"


@cache
def _wording() -> tuple[Callable[[float], str], Callable[[float], str], Callable[[Transaction], str]]:
    """What puts a transaction into words; imported when the first one is drawn."""
    from app.diagnosis.explain import milliseconds
    from app.diagnosis.transcript import clock_text, result_text

    return milliseconds, clock_text, result_text


_ALIGNMENT: Final = {
    column: Qt.AlignmentFlag.AlignVCenter
    | (Qt.AlignmentFlag.AlignRight if column in (Column.MEASURED, Column.PREDICTED) else Qt.AlignmentFlag.AlignLeft)
    for column in Column
}


class TransactionsTable(QuickTable):
    """The list itself; it follows the newest row until somebody scrolls back or selects one."""

    def __init__(self, model: TransactionsModel, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._model = model
        self._following = True
        self._own = False
        self.setModel(model)
        self.setItemDelegate(QuickCells(model, self._cell))
        self.setAccessibleName(self.tr("Transactions"))
        self.setAlternatingRowColors(True)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.setTabKeyNavigation(False)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.verticalHeader().hide()
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.verticalHeader().setDefaultSectionSize(self.fontMetrics().height() + 6)
        self.horizontalHeader().setStretchLastSection(True)
        self.horizontalHeader().setHighlightSections(False)
        self._fit_columns()
        self.verticalScrollBar().valueChanged.connect(self._scrolled)
        self.selectionModel().selectionChanged.connect(self._chosen)

    @property
    def following(self) -> bool:
        """Whether the newest row is kept in sight."""
        return self._following

    def follow(self) -> None:
        """Let the selection go and keep the newest row in sight."""
        self.clearSelection()
        self.setCurrentIndex(QModelIndex())
        self._following = True
        self.scrollToBottom()

    def add(self, rows: Iterable[Row]) -> None:
        """Add the newest ones; what is in sight stays where it is, unless the newest row is followed."""
        bar = self.verticalScrollBar()
        before = bar.value()
        self._own = True
        gone = self._model.add(rows)
        if self._following:
            self.scrollToBottom()
        elif gone:
            bar.setValue(before - gone * self.verticalHeader().defaultSectionSize())
        self._own = False

    def choose(self, row: int) -> None:
        """Select a row and bring it into sight."""
        self._following = False
        # Not selectRow: it heeds the modifiers that are pressed, and those of a shortcut may still be.
        flag = QItemSelectionModel.SelectionFlag
        self.selectionModel().setCurrentIndex(self._model.index(row, 0), flag.ClearAndSelect | flag.Rows)
        self.scrollTo(self._model.index(row, 0), QAbstractItemView.ScrollHint.PositionAtCenter)

    def selected_rows(self) -> tuple[Row, ...]:
        """The selected transactions, oldest first."""
        rows = sorted(index.row() for index in self.selectionModel().selectedRows())
        return tuple(self._model.row(row) for row in rows)

    def _scrolled(self, value: int) -> None:
        if not self._own:
            at_the_end = value >= self.verticalScrollBar().maximum()
            self._following = at_the_end and not self.selectionModel().hasSelection()

    def _chosen(self) -> None:
        if self.selectionModel().hasSelection():
            self._following = False

    def _cell(self, row: int, column: int) -> tuple[str, str, Qt.AlignmentFlag]:
        return *self._model.cell(row, Column(column)), _ALIGNMENT[Column(column)]

    def _fit_columns(self) -> None:
        metrics = self.fontMetrics()
        for column, sample in (
            (Column.TIME, "00:00:00.000"),
            (Column.FOLLOWER, ""),
            (Column.WHAT, translate("bus", "read {table} {span}").format(table="holding", span="400..409")),
            (Column.RESULT, "\u26a0 " + translate("bus", "answer too late")),
            (Column.MEASURED, "000.0"),
            (Column.PREDICTED, "000.0"),
        ):
            heading = str(self.model().headerData(column, Qt.Orientation.Horizontal))
            widest = max(
                metrics.horizontalAdvance(sample) + 2 * PADDING, heading_width(self.horizontalHeader(), heading)
            )
            self.setColumnWidth(column, widest + 4)
