"""The table of all readings: name, value, quality in words, reason, raw number and age."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from PySide6.QtCore import QItemSelectionModel, Qt, Signal
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import (
    QCheckBox,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from app.project.model import Project
from app.signals.raw_text import RawForm, widest
from app.signals.reading import Quality, Reading
from widgets.kit.controls import Choice
from widgets.kit.elided import search_box
from widgets.kit.flow import FlowLayout
from widgets.kit.look import set_look
from widgets.kit.plain import plain_label
from widgets.kit.quick_cells import QuickTable
from widgets.kit.scaling import heading_margin, scaled
from widgets.kit.tables import add_copying, keep_headings_whole, selected_rows
from widgets.live.readings_model import MARKS, ReadingColumn, ReadingsModel, quality_words

FEW: Final = 500
"""Signals up to which the table itself counts those that are not good, whenever readings come."""
REST_A_CELL_S: Final = 0.004
"""Nothing is drawn for so long after each cell that was: a few values follow at once, fifty five times a second."""
LONGEST_REST_S: Final = 0.2
MEASURED: Final = 50
"""So many of the longest names are measured for the width of their column."""


class ReadingsTable(QWidget):
    """The table with its filter. It works out and draws what is in sight, and of that only what has changed."""

    raw_form_chosen = Signal(object)
    """Raw numbers are written in this app.signals.raw_text.RawForm from now on."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.model = ReadingsModel(self)
        self.filter = search_box(
            self.tr("Filter: part of a name, value, quality or reason"), self.tr("Filter of the readings")
        )
        self.not_good = QCheckBox(self.tr("Only readings that are &not good"))
        self.summary = plain_label()
        self._live = False
        """Whether readings have come since the project was set; before that nothing is wrong with them."""
        self._rest_until = 0.0
        self._kept: tuple[list[str], str] = ([], "")
        """The signals of the selected rows and of the current one, while the rows are arranged anew."""
        self.raw_form = Choice()
        self.raw_form.setAccessibleName(self.tr("Raw numbers"))
        self.raw_form.setToolTip(self.tr("Format of raw numbers (Ctrl+Alt+X: next)"))
        for form, words in (
            (RawForm.DECIMAL, self.tr("raw in decimal")),
            (RawForm.HEXADECIMAL, self.tr("raw in hexadecimal")),
            (RawForm.BITS, self.tr("raw binary")),
        ):
            self.raw_form.addItem(words, form)
        self.raw_form.currentIndexChanged.connect(lambda _index: self._form_chosen())
        self.view = QuickTable(self.model)
        self._build_view()
        heading = plain_label(self.tr("Readings"), "heading")
        self.filter.setMinimumWidth(scaled(160))
        self.filter.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        top = FlowLayout(spacing=6)
        top.addWidget(heading)
        top.addWidget(self.filter)
        top.addWidget(self.not_good)
        top.addWidget(self.raw_form)
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

    def current_signal(self) -> str:
        """The signal of the row where the cursor is; empty if there is none."""
        index = self.view.currentIndex()
        return self.model.name(index.row()) if index.isValid() else ""

    def set_readings(self, readings: Mapping[str, Reading], now: float) -> None:
        """Show these readings. `now` is `time.monotonic()` in seconds."""
        self._live = True
        self.model.set_readings(readings, now)
        if not 0 < self._rest_until - now <= LONGEST_REST_S:
            self._rest_until = now + min(LONGEST_REST_S, REST_A_CELL_S * self._draw_changes())
        if self.model.signals <= FEW:
            self._summarise(self.model.not_good())

    def set_not_good(self, count: int) -> None:
        """So many readings are not good, or doubtful: where there are many, whoever has counted them says so."""
        if self._live and self.model.signals > FEW:
            self._summarise(count)

    def _draw_changes(self) -> int:
        """Draw the cells in sight that say something else; gives how many they are."""
        view = self.view
        if not view.isVisible():
            return 0
        height = view.viewport().height()
        first, last = view.rowAt(0), view.rowAt(height - 1)
        changed = self.model.changes(first, last if last >= 0 else self.model.rowCount() - 1) if first >= 0 else []
        if not changed:
            return 0
        if QAccessible.isActive():
            rows, columns = {row for row, _ in changed}, {column for _, column in changed}
            self.model.dataChanged.emit(
                self.model.index(min(rows), min(columns)), self.model.index(max(rows), max(columns))
            )
            return len(changed)
        # Column by column, neighbours together: a range of Qt's would draw all that lies between.
        by_column: dict[ReadingColumn, list[int]] = {}
        for row, column in changed:
            by_column.setdefault(column, []).append(row)
        for column, among in by_column.items():
            left, width, first = view.columnViewportPosition(column), view.columnWidth(column), among[0]
            for row, following in zip(among, (*among[1:], -1), strict=True):
                if following != row + 1:
                    top, below = view.rowViewportPosition(first), view.rowViewportPosition(row) + view.rowHeight(row)
                    view.viewport().update(left, top, width, below - top)
                    first = following
        return len(changed)

    def choose_raw_form(self, form: RawForm) -> None:
        """Write raw numbers so from now on."""
        self.raw_form.setCurrentIndex(self.raw_form.findData(form))

    def next_raw_form(self) -> None:
        """Write raw numbers in the next way: in decimal, in hexadecimal, bit by bit."""
        self.raw_form.setCurrentIndex((self.raw_form.currentIndex() + 1) % self.raw_form.count())

    def _form_chosen(self) -> None:
        self.model.set_form(RawForm(self.raw_form.currentData()))
        self._fit_raw()
        self.raw_form_chosen.emit(self.model.form)

    def _build_view(self) -> None:
        view = self.view
        self.model.modelAboutToBeReset.connect(self._keep_selection)
        self.model.modelReset.connect(self._select_again)
        view.setAccessibleName(self.tr("Readings"))
        # -1: the order of the project, until a head is clicked.
        view.horizontalHeader().setSortIndicator(-1, Qt.SortOrder.AscendingOrder)
        view.setSortingEnabled(True)
        view.horizontalHeader().setSortIndicatorClearable(True)
        keep_headings_whole(view.horizontalHeader())
        self.copy_action = add_copying(
            view, self.tr("Copy the selected readings"), lambda: self.model.as_lines(selected_rows(view))
        )

    def _fit_columns(self) -> None:
        """Widths from the text that can be expected: fitting to the content again and again would make them jump."""
        metrics = self.view.fontMetrics()
        names = sorted((self.model.name(row) for row in range(self.model.rowCount())), key=len)[-MEASURED:]
        longest = max((metrics.horizontalAdvance(name) for name in names), default=80)
        for column, width in (
            (ReadingColumn.SIGNAL, min(scaled(220), max(scaled(90), longest + 18))),
            (ReadingColumn.VALUE, metrics.horizontalAdvance("0") * 15),
            (
                ReadingColumn.QUALITY,
                metrics.horizontalAdvance(f"{MARKS[Quality.IMPLAUSIBLE]} {quality_words(Quality.IMPLAUSIBLE)}") + 20,
            ),
            (ReadingColumn.AGE, metrics.horizontalAdvance("000 min") + 16),
        ):
            self.view.setColumnWidth(column, width)
        self._fit_raw()

    def _fit_raw(self) -> None:
        """Room for the widest raw number that the project has, as it is written now."""
        metrics = self.view.fontMetrics()
        text = widest(self.model.most_registers, self.model.form)
        self.view.setColumnWidth(ReadingColumn.RAW, metrics.horizontalAdvance(text) + 2 * heading_margin() + 2)

    def _keep_selection(self) -> None:
        self._kept = [self.model.name(row) for row in selected_rows(self.view)], self.current_signal()

    def _select_again(self) -> None:
        names, current = set(self._kept[0]), self._kept[1]
        if not names and not current:
            return
        selection = self.view.selectionModel()
        for row in range(self.model.rowCount()):
            name, index = self.model.name(row), self.model.index(row, ReadingColumn.SIGNAL)
            if name == current:
                selection.setCurrentIndex(index, QItemSelectionModel.SelectionFlag.NoUpdate)
            if name in names:
                flags = QItemSelectionModel.SelectionFlag.Select | QItemSelectionModel.SelectionFlag.Rows
                selection.select(index, flags)

    def _search(self) -> None:
        self.model.search(self.filter.text(), not_good_only=self.not_good.isChecked())

    def _summarise(self, not_good: int = 0) -> None:
        total = self.model.signals
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
