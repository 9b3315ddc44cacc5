"""The table of all readings: name, value, quality in words, reason, raw count and age."""

from __future__ import annotations

import enum
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Final

from PySide6.QtCore import (
    QAbstractTableModel,
    QCoreApplication,
    QModelIndex,
    QSortFilterProxyModel,
    Qt,
)
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import (
    QAbstractItemView,
    QApplication,
    QCheckBox,
    QHeaderView,
    QLabel,
    QLineEdit,
    QSizePolicy,
    QTableView,
    QVBoxLayout,
    QWidget,
)

from app.project.binding import plain_text
from app.project.model import Project
from app.signals.reading import NEVER_READ, NOT_YET, Quality, Raw, Reading
from widgets import palette
from widgets.flow import FlowLayout
from widgets.look import set_look
from widgets.plain import plain_label, plain_tip
from widgets.quick_cells import Index, QuickCells
from widgets.shortening import shorten_placeholder
from widgets.size import heading_width, scaled

translate = QCoreApplication.translate

_ROOT: Final = QModelIndex()
SORT_ROLE: Final = Qt.ItemDataRole.UserRole + 1


class Column(enum.IntEnum):
    """The columns, from the left."""

    SIGNAL = 0
    VALUE = 1
    QUALITY = 2
    RAW = 3
    AGE = 4
    REASON = 5


@dataclass(frozen=True, slots=True)
class _Shown:
    """One row as it stands in the table."""

    value: str = ""
    raw: str = ""
    quality: Quality = Quality.NONE
    age: str = ""
    reason: str = ""
    value_order: float | str = ""
    raw_order: float | str = ""
    age_order: float = float("inf")


MARKS: Final = {
    Quality.GOOD: "\u2713",
    Quality.STALE: "\u25f7",
    Quality.NONE: "\u2026",
    Quality.REFUSED: "\u2298",
    Quality.IMPLAUSIBLE: "\u26a0",
}
"""A mark for each quality, so that colour is never the only sign."""


def quality_words(quality: Quality) -> str:
    """The quality in words for people."""
    words = {
        Quality.GOOD: translate("Quality", "good"),
        Quality.STALE: translate("Quality", "stale"),
        Quality.NONE: translate("Quality", "never read"),
        Quality.REFUSED: translate("Quality", "refused"),
        Quality.IMPLAUSIBLE: translate("Quality", "implausible"),
    }
    return words[quality]


def age_text(seconds: float | None) -> str:
    """An age, coarse enough not to flicker: below one second it is only said to be that."""
    if seconds is None:
        return "\u2013"
    if seconds < 1:
        return "< 1 s"
    if seconds < 120:
        return f"{int(seconds)} s"
    if seconds < 7200:
        return f"{int(seconds // 60)} min"
    return f"{int(seconds // 3600)} h"


class ReadingsModel(QAbstractTableModel):
    """The readings of a project's signals. Only cells whose text changed are reported as changed."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._project: Project | None = None
        self._names: tuple[str, ...] = ()
        self._rows: list[_Shown] = []
        self._seen: list[Reading | None] = []

    def set_project(self, project: Project) -> None:
        """Show this project's signals, all still unread."""
        self.beginResetModel()
        self._project = project
        self._names = tuple(project.signal_named)
        self._rows = [_Shown() for _ in self._names]
        self._seen = [None for _ in self._names]
        self.endResetModel()

    def set_readings(self, readings: Mapping[str, Reading], now: float) -> bool:
        """Show these readings. `now` is `time.monotonic()` in seconds. True if anything but an age changed."""
        if self._project is None:
            return False
        news = False
        for row, name in enumerate(self._names):
            reading = readings.get(name, NEVER_READ)
            before = self._rows[row]
            after = _shown(self._project, name, reading, now, before if self._seen[row] is reading else None)
            self._seen[row] = reading
            if after == before:
                continue
            self._rows[row] = after
            news = news or self._seen_anew(before, after)
            # Cell by cell: views repaint one cell for one index, but everything for a range.
            for column in _changed(before, after):
                place = self.index(row, column)
                self.dataChanged.emit(place, place)
        return news

    @staticmethod
    def _seen_anew(before: _Shown, after: _Shown) -> bool:
        return before.value_order != after.value_order or before.quality is not after.quality

    def counts(self) -> tuple[int, int]:
        """How many rows there are, and how many of them are not good."""
        return len(self._rows), sum(row.quality is not Quality.GOOD for row in self._rows)

    def cell(self, row: int, column: Column) -> tuple[str, Quality]:
        """What stands in a cell, and the quality of its row: all that is needed to draw it."""
        return self._text(row, column), self._rows[row].quality

    def quality_of(self, row: int) -> Quality:
        """The quality in this row."""
        return self._rows[row].quality

    def rowCount(self, parent: Index = _ROOT) -> int:
        """One row a signal."""
        return 0 if parent.isValid() else len(self._names)

    def columnCount(self, parent: Index = _ROOT) -> int:
        """See Column."""
        return 0 if parent.isValid() else len(Column)

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """The heads of the columns."""
        if orientation is not Qt.Orientation.Horizontal:
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return {
                Column.SIGNAL: self.tr("Signal"),
                Column.VALUE: self.tr("Value"),
                Column.QUALITY: self.tr("Quality"),
                Column.RAW: self.tr("Raw"),
                Column.AGE: self.tr("Age"),
                Column.REASON: self.tr("Reason"),
            }[Column(section)]
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return _ALIGNMENT[Column(section)]
        return None

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """What stands in a cell."""
        row, column = self._rows[index.row()], Column(index.column())
        if role == Qt.ItemDataRole.DisplayRole:
            return self._text(index.row(), column)
        if role == SORT_ROLE:
            return self._order(index.row(), column)
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return _ALIGNMENT[column]
        if role == Qt.ItemDataRole.ForegroundRole:
            return palette.current().colour(_ink(row.quality, column))
        if role == Qt.ItemDataRole.ToolTipRole:
            return plain_tip(row.reason) or None
        if role == Qt.ItemDataRole.AccessibleTextRole:
            head = self.headerData(column, Qt.Orientation.Horizontal)
            return f"{head}: {self._text(index.row(), column)}"
        return None

    def _text(self, row: int, column: Column) -> str:
        shown = self._rows[row]
        if column is Column.QUALITY:
            return f"{MARKS[shown.quality]} {quality_words(shown.quality)}"
        return {
            Column.SIGNAL: self._names[row],
            Column.VALUE: shown.value,
            Column.RAW: shown.raw,
            Column.AGE: shown.age,
            Column.REASON: shown.reason,
        }[column]

    def _order(self, row: int, column: Column) -> Any:
        shown = self._rows[row]
        return {
            Column.SIGNAL: self._names[row].casefold(),
            Column.VALUE: shown.value_order,
            Column.QUALITY: list(Quality).index(shown.quality),
            Column.RAW: shown.raw_order,
            Column.AGE: shown.age_order,
            Column.REASON: shown.reason,
        }[column]


def _shown(project: Project, name: str, reading: Reading, now: float, before: _Shown | None) -> _Shown:
    """The row of a reading. `before` is the row of the same reading a while ago: only its age can have changed."""
    age = reading.age(now)
    text = "" if reading.value is None and reading.time is None else age_text(age)
    if before is not None:
        if before.age == text:
            return before
        return _Shown(
            before.value,
            before.raw,
            before.quality,
            text,
            before.reason,
            before.value_order,
            before.raw_order,
            _age_order(age),
        )
    value = reading.value
    unit = project.signal_named[name].unit
    shown = "" if value is None else plain_text(project, name, value)
    return _Shown(
        value=f"{shown} {unit}" if unit and shown else shown,
        raw=_raw_text(reading.raw),
        quality=reading.quality,
        age=text,
        reason=translate("signals", NOT_YET) if reading.reason == NOT_YET else reading.reason,
        value_order=float(value) if isinstance(value, Fraction) else value or "",
        raw_order=float(reading.raw) if isinstance(reading.raw, int | float) else reading.raw or "",
        age_order=_age_order(age),
    )


def _raw_text(raw: Raw | None) -> str:
    """Counts and texts as they are; a float to the six figures that all of them have."""
    return "" if raw is None else f"{raw:.6g}" if isinstance(raw, float) else str(raw)


def _age_order(age: float | None) -> float:
    return float("inf") if age is None else float(int(age))


def _changed(before: _Shown, after: _Shown) -> Sequence[Column]:
    """The columns that must be drawn again."""
    if before.quality is not after.quality:
        return list(Column)
    pairs = (
        (Column.VALUE, before.value, after.value),
        (Column.RAW, before.raw, after.raw),
        (Column.AGE, before.age, after.age),
        (Column.REASON, before.reason, after.reason),
    )
    return [column for column, was, is_ in pairs if was != is_]


_NUMBERS: Final = (Column.VALUE, Column.RAW, Column.AGE)
_ALIGNMENT: Final = {
    column: Qt.AlignmentFlag.AlignVCenter
    | (Qt.AlignmentFlag.AlignRight if column in _NUMBERS else Qt.AlignmentFlag.AlignLeft)
    for column in Column
}


def _ink(quality: Quality, column: Column) -> str:
    """The name of the colour of a cell's text."""
    if quality is Quality.GOOD:
        return "good" if column is Column.QUALITY else "ink"
    if column is Column.QUALITY:
        return "caution" if quality in (Quality.STALE, Quality.NONE) else "fault"
    return "faint" if column in (Column.VALUE, Column.RAW) else "ink"


class _Sorted(QSortFilterProxyModel):
    """Numbers before texts; a text in the filter may stand in the name, the value, the quality or the reason."""

    def __init__(self, source: ReadingsModel) -> None:
        super().__init__(source)
        self._source = source
        self._words: tuple[str, ...] = ()
        self._not_good_only = False
        self.setSourceModel(source)
        self.setSortRole(SORT_ROLE)
        # Done by hand once a refresh: Qt would filter and sort anew for every cell that changes.
        self.setDynamicSortFilter(False)

    def refresh(self) -> None:
        """Filter and sort anew, where the values can have changed what is shown or its order."""
        if self._words or self._not_good_only or self.sortColumn() >= 0:
            self.invalidate()

    def search(self, text: str, *, not_good_only: bool) -> None:
        self._words = tuple(text.casefold().split())
        self._not_good_only = not_good_only
        self.invalidate()

    def filterAcceptsRow(self, row: int, parent: Index) -> bool:
        if self._not_good_only and self._source.quality_of(row) is Quality.GOOD:
            return False
        if not self._words:
            return True
        columns = (Column.SIGNAL, Column.VALUE, Column.QUALITY, Column.REASON)
        text = " ".join(
            str(self._source.data(self._source.index(row, column, parent))) for column in columns
        ).casefold()
        return all(word in text for word in self._words)

    def lessThan(self, left: Index, right: Index) -> bool:
        a, b = self._source.data(left, SORT_ROLE), self._source.data(right, SORT_ROLE)
        if isinstance(a, str) != isinstance(b, str):
            return not isinstance(a, str)
        return bool(a < b)


class ReadingsTable(QWidget):
    """The table with its filter."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.model = ReadingsModel(self)
        self.sorted = _Sorted(self.model)
        self.filter = QLineEdit()
        shorten_placeholder(self.filter, self.tr("Filter: part of a name, value, quality or reason"))
        self.filter.setClearButtonEnabled(True)
        self.filter.setAccessibleName(self.tr("Filter of the readings"))
        self.not_good = QCheckBox(self.tr("Only those that are &not good"))
        self.summary = plain_label()
        self._live = False
        """Whether readings have come since the project was set; before that nothing is wrong with them."""
        self.view = QTableView()
        self._build_view()
        heading = QLabel(self.tr("Readings"))
        heading.setProperty("look", "heading")
        self.filter.setMinimumWidth(scaled(160))
        self.filter.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        top = FlowLayout(spacing=6)
        top.addWidget(heading)
        top.addWidget(self.filter)
        top.addWidget(self.not_good)
        top.addWidget(self.summary)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addLayout(top)
        layout.addWidget(self.view)
        self.filter.textChanged.connect(self._search)
        self.not_good.toggled.connect(self._search)
        self._summarise()

    def set_project(self, project: Project) -> None:
        """Show this project's signals, all still unread."""
        self.model.set_project(project)
        self._fit_columns()
        self._live = False
        self._summarise()

    def put_below(self, widget: QWidget) -> None:
        """Put a widget below the rows."""
        layout = self.layout()
        assert layout is not None
        layout.addWidget(widget)

    def selected(self) -> str:
        """The signal of the row where the cursor is; empty if there is none."""
        index = self.view.currentIndex()
        return str(self.sorted.index(index.row(), Column.SIGNAL).data() or "") if index.isValid() else ""

    def _cell(self, index: Index) -> tuple[str, str, Qt.AlignmentFlag]:
        column = Column(index.column())
        text, quality = self.model.cell(self.sorted.mapToSource(index).row(), column)
        return text, _ink(quality, column), _ALIGNMENT[column]

    def set_readings(self, readings: Mapping[str, Reading], now: float) -> None:
        """Show these readings. `now` is `time.monotonic()` in seconds."""
        self._live = True
        if self.model.set_readings(readings, now):
            self.sorted.refresh()
        self._summarise()

    def _build_view(self) -> None:
        view = self.view
        view.setModel(self.sorted)
        view.setItemDelegate(QuickCells(self.sorted, self._cell))
        view.setAccessibleName(self.tr("Readings"))
        view.setSortingEnabled(True)
        # -1: the order of the project, until a head is clicked.
        self.sorted.sort(-1)
        view.horizontalHeader().setSortIndicator(-1, Qt.SortOrder.AscendingOrder)
        view.horizontalHeader().setSortIndicatorClearable(True)
        view.setAlternatingRowColors(True)
        view.setShowGrid(False)
        view.setWordWrap(False)
        view.setTabKeyNavigation(False)
        view.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        view.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        view.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        view.verticalHeader().hide()
        view.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        view.verticalHeader().setDefaultSectionSize(view.fontMetrics().height() + 8)
        view.horizontalHeader().setStretchLastSection(True)
        view.horizontalHeader().setMinimumSectionSize(
            max(
                heading_width(view.horizontalHeader(), str(self.model.headerData(column, Qt.Orientation.Horizontal)))
                for column in Column
            )
        )
        view.horizontalHeader().setHighlightSections(False)
        self.copy_action = copy = QAction(self.tr("Copy the selected readings"), view)
        copy.setShortcut(QKeySequence.StandardKey.Copy)
        copy.setShortcutContext(Qt.ShortcutContext.WidgetShortcut)
        copy.triggered.connect(self._copy)
        view.addAction(copy)
        view.setContextMenuPolicy(Qt.ContextMenuPolicy.ActionsContextMenu)

    def _fit_columns(self) -> None:
        """Widths from the text that can be expected: fitting to the content again and again would make them jump."""
        metrics = self.view.fontMetrics()
        names = [self.model.data(self.model.index(row, Column.SIGNAL)) for row in range(self.model.rowCount())]
        longest = max((metrics.horizontalAdvance(name) for name in names), default=80)
        for column, width in (
            (Column.SIGNAL, min(scaled(220), max(scaled(90), longest + 18))),
            (Column.VALUE, metrics.horizontalAdvance("0") * 15),
            (
                Column.QUALITY,
                metrics.horizontalAdvance(f"{MARKS[Quality.IMPLAUSIBLE]} {quality_words(Quality.IMPLAUSIBLE)}") + 20,
            ),
            (Column.RAW, metrics.horizontalAdvance("0") * 9),
            (Column.AGE, metrics.horizontalAdvance("000 min") + 16),
        ):
            self.view.setColumnWidth(column, width)

    def _search(self) -> None:
        self.sorted.search(self.filter.text(), not_good_only=self.not_good.isChecked())

    def _summarise(self) -> None:
        total, not_good = self.model.counts()
        if not total:
            words, look = self.tr("no signals"), "faint"
        elif not self._live:
            words, look = self.tr("not read yet"), "faint"
        elif not_good:
            words, look = self.tr("{count} of {total} not good").format(count=not_good, total=total), "caution"
        else:
            words, look = self.tr("all {total} good").format(total=total), "good"
        if words != self.summary.text():
            self.summary.setText(words)
            set_look(self.summary, look)

    def _copy(self) -> None:
        rows = sorted({index.row() for index in self.view.selectionModel().selectedRows()})
        lines = ["\t".join(str(self.sorted.index(row, column).data()) for column in Column) for row in rows]
        if lines:
            QApplication.clipboard().setText("\n".join(lines))
