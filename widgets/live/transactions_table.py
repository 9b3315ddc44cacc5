"""The list of transactions: bounded, filtered, and drawn cheaply, since a fast line brings hundreds a second."""

from __future__ import annotations

import enum
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QItemSelectionModel, QModelIndex, QObject
from PySide6.QtWidgets import QAbstractItemView, QWidget

from app.language import translate
from widgets.kit.quick_cells import QuickTable
from widgets.kit.scaling import heading_margin
from widgets.kit.tables import LOG_ROW, LogModel, Trim, selected_rows, set_widths, to_the_right

if TYPE_CHECKING:  # the bus is imported only when a line is connected
    from app.client.transactions import Transaction
    from app.diagnosis.register_names import RegisterNames

KEPT: Final = 5000
"""How many transactions are kept at least."""
SLACK: Final = 500
"""So many more before the oldest go: taking them out one by one would cost more."""


class TransactionColumn(enum.IntEnum):
    """The columns, from the left."""

    TIME = 0
    FOLLOWER = 1
    WHAT = 2
    RESULT = 3
    MEASURED = 4
    PREDICTED = 5


@dataclass(frozen=True, slots=True)
class TransactionRow:
    """One transaction of the list: when it was sent, in seconds since 1970, and the names of its registers."""

    transaction: Transaction
    at: float
    names: RegisterNames


@dataclass(frozen=True, slots=True)
class TransactionFilter:
    """Which transactions are shown: of one follower (empty: of all), only faults, and those with all of the words."""

    follower: str = ""
    faults_only: bool = False
    words: tuple[str, ...] = ()

    def takes(self, row: TransactionRow) -> bool:
        """Whether this transaction is shown."""
        transaction = row.transaction
        if self.faults_only and transaction.fault is None:
            return False
        if self.follower and transaction.follower != self.follower:
            return False
        if not self.words:
            return True
        text = _search_text(row)
        return all(word in text for word in self.words)


def _search_text(row: TransactionRow) -> str:
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


_GOOD: Final = Trim("state-good", "good")
_BAD: Final = Trim("state-alarm", "fault")


class TransactionsModel(LogModel[TransactionRow]):
    """Transactions as rows, oldest first."""

    alignment = to_the_right(TransactionColumn.MEASURED, TransactionColumn.PREDICTED)

    def __init__(self, parent: QObject | None = None, *, keep: int = KEPT, slack: int = SLACK) -> None:
        super().__init__(TransactionFilter(), parent, keep=keep, slack=slack)
        self.titles = (
            self.tr("Time"),
            self.tr("Device"),
            self.tr("Request"),
            self.tr("Result"),
            self.tr("ms"),
            self.tr("Expected"),
        )
        self.explained = {
            TransactionColumn.MEASURED: self.tr("Time from the request to the complete answer, in milliseconds"),
            TransactionColumn.PREDICTED: self.tr("Expected time in milliseconds"),
        }

    def place(self, transaction: Transaction) -> int | None:
        """The row in which this very transaction is shown."""
        rows = range(len(self._shown) - 1, -1, -1)
        return next((row for row in rows if self._shown[row].transaction is transaction), None)

    def add(self, rows: Iterable[TransactionRow]) -> int:
        """Add the newest ones, oldest first. Gives how many rows went from the front."""
        new = list(rows)
        self._all += new
        self._insert(len(self._shown), [row for row in new if self._wanted.takes(row)])
        return self._trim()

    def clear(self) -> None:
        """Forget all of them."""
        self._reset([])

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

    def tip(self, row: int, column: int) -> str:  # noqa: ARG002 - the same all along the row
        """What went wrong, in a sentence."""
        fault = self._shown[row].transaction.fault
        return fault.sentence if fault else ""

    def spoken(self, row: int, column: int) -> str:
        """The text with its heading."""
        return f"{self.titles[column]}: {self.cell(row, column)[0]}"

    def cell(self, row: int, column: int) -> tuple[str, str]:
        """The text of a cell, and the name of its colour: all that is needed to draw it."""
        milliseconds, clock_text, result_text = _wording()
        shown = self._shown[row]
        transaction = shown.transaction
        match column:
            case TransactionColumn.TIME:
                return clock_text(shown.at), "faint"
            case TransactionColumn.FOLLOWER:
                return transaction.follower, "ink"
            case TransactionColumn.WHAT:
                return transaction.kind, "ink"
            case TransactionColumn.MEASURED:
                return milliseconds(transaction.ms), "ink"
            case TransactionColumn.PREDICTED:
                predicted = transaction.predicted_ms
                return milliseconds(predicted) if predicted else "\u2013", "faint"
            case _:
                return result_text(transaction)[2:], "fault" if transaction.fault else "good"

    def trim(self, row: int, column: int) -> Trim | None:
        """The icon of the result, in place of the mark that it has as text."""
        if column != TransactionColumn.RESULT:
            return None
        return _BAD if self._shown[row].transaction.fault else _GOOD


@cache
def _wording() -> tuple[Callable[[float], str], Callable[[float], str], Callable[[Transaction], str]]:
    """What puts a transaction into words; imported when the first one is drawn."""
    from app.diagnosis.explain import milliseconds
    from app.diagnosis.transcript import clock_text, result_text

    return milliseconds, clock_text, result_text


class TransactionsTable(QuickTable):
    """The list itself; it follows the newest row until somebody scrolls back or selects one."""

    def __init__(self, model: TransactionsModel, parent: QWidget | None = None) -> None:
        super().__init__(model, parent, LOG_ROW)
        self.setAccessibleName(self.tr("Transactions"))
        self._model = model
        self._following = True
        self._own = False
        self.setFrameShape(self.Shape.NoFrame)
        self._fit_columns()
        self.verticalScrollBar().valueChanged.connect(self._follow_scroll)
        self.selectionModel().selectionChanged.connect(self._tell_chosen)

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

    def add(self, rows: Iterable[TransactionRow]) -> None:
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

    def selected_rows(self) -> tuple[TransactionRow, ...]:
        """The selected transactions, oldest first."""
        return tuple(self._model.row(row) for row in selected_rows(self))

    def _follow_scroll(self, value: int) -> None:
        if not self._own:
            at_the_end = value >= self.verticalScrollBar().maximum()
            self._following = at_the_end and not self.selectionModel().hasSelection()

    def _tell_chosen(self) -> None:
        if self.selectionModel().hasSelection():
            self._following = False

    def whole_width(self) -> int:
        """Pixels in which no column is cut."""
        return self.horizontalHeader().length() + self.verticalScrollBar().sizeHint().width() + 2

    def _fit_columns(self) -> None:
        samples = {
            TransactionColumn.TIME: "00:00:00.000",
            TransactionColumn.FOLLOWER: "a name of it",
            TransactionColumn.WHAT: translate("bus", "read {table} {span}").format(table="holding", span="400..409"),
            TransactionColumn.RESULT: translate("bus", "answer too late") + "\u2003\u2003",  # and its icon
            TransactionColumn.MEASURED: "000.0",
            TransactionColumn.PREDICTED: "000.0",
        }
        measure = self.fontMetrics().horizontalAdvance
        set_widths(self, {column: measure(sample) + 2 * heading_margin() + 2 for column, sample in samples.items()})
