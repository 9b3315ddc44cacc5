"""The table of all readings: name, value, quality in words, reason, raw number and age."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from PySide6.QtCore import QItemSelectionModel, Qt, Signal
from PySide6.QtGui import QAccessible, QActionGroup, QFont, QFontMetrics, QResizeEvent
from PySide6.QtWidgets import (
    QFrame,
    QHeaderView,
    QMenu,
    QSizePolicy,
    QStackedWidget,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from app.project.model import Project
from app.signals.raw_text import RawForm, widest
from app.signals.reading import Quality, Reading
from widgets.kit.commands import mark_entry
from widgets.kit.controls import push_button
from widgets.kit.elided import StateLabel, search_box
from widgets.kit.empty_state import EmptyState
from widgets.kit.flow import FlowLayout
from widgets.kit.icons import SIDE, icon
from widgets.kit.plain import plain_label
from widgets.kit.quick_cells import INDENT, QuickTable
from widgets.kit.scaling import heading_margin, scaled
from widgets.kit.tables import add_copying, keep_headings_whole, selected_rows
from widgets.live.readings_model import ReadingColumn, ReadingsModel, doubtful_words, held_words, quality_words

REASON: Final = 380
"""Pixels at 100 per cent that have to be left over for a column of the reasons."""
FRESH_S: Final = 1.0
"""How long a value that was written stands out."""
FEW: Final = 500
"""Signals up to which the table itself counts those that are not good, whenever readings come."""
REST_A_CELL_S: Final = 0.004
"""Nothing is drawn for so long after each cell that was: a few values follow at once, fifty five times a second."""
LONGEST_REST_S: Final = 0.2
MEASURED: Final = 50
"""So many of the longest names, and of the words that values have, are measured for the widths of their columns."""
WIDEST_VALUE: Final = 200
"""Pixels at 100 per cent that the words of a value may take."""


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
        self.not_good = push_button(self.tr("Only not good"), lambda: None)
        self.not_good.setCheckable(True)
        self.not_good.setToolTip(self.tr("Only readings that are not good (Ctrl+Shift+N)"))
        self.summary = StateLabel()
        self.summary.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self._live = False
        """Whether readings have come since the project was set; before that nothing is wrong with them."""
        self._rest_until = 0.0
        self._counted = 0
        self._longest = 0
        """Pixels of the longest name."""
        self._kept: tuple[list[str], str] = ([], "")
        """The signals of the selected rows and of the current one, while the rows are arranged anew."""
        self._worst = ""
        """What is wrong with a whole device."""
        self._make_raw_forms()
        self.view = QuickTable(self.model)
        self._build_view()
        self.empty = EmptyState()
        self._pages = QStackedWidget()
        self._pages.addWidget(self.empty)
        self._pages.addWidget(self.view)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self._head())
        layout.addWidget(self._pages, 1)
        self.filter.textChanged.connect(self._search)
        self.not_good.toggled.connect(self._search)
        self._summarise()

    def _head(self) -> QFrame:
        head = QFrame()
        head.setProperty("look", "bar")
        self.filter.setMinimumWidth(scaled(110))
        self.filter.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        row = FlowLayout(head, spacing=scaled(8))
        row.setContentsMargins(scaled(12), scaled(7), scaled(12), scaled(8))
        heading = plain_label(self.tr("Readings"), "heading")
        for widget in (heading, self.filter, self.not_good, self.raw_button, self.summary):
            row.addWidget(widget)
        return head

    def _make_raw_forms(self) -> None:
        """The menu of the ways to write raw numbers."""
        self.raw_button = QToolButton()
        self.raw_button.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        self.raw_button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.raw_button.setToolTip(self.tr("Format of raw numbers (Ctrl+Alt+X: next)"))
        menu, group = QMenu(self.raw_button), QActionGroup(self)
        self._forms = {
            RawForm.DECIMAL: self.tr("Raw: decimal"),
            RawForm.HEXADECIMAL: self.tr("Raw: hexadecimal"),
            RawForm.BITS: self.tr("Raw: binary"),
        }
        for form, words in self._forms.items():
            action = mark_entry(menu.addAction(words))
            action.setCheckable(True)
            action.setChecked(form is RawForm.DECIMAL)
            action.triggered.connect(lambda _on=False, form=form: self.choose_raw_form(form))
            group.addAction(action)
        self.raw_button.setMenu(menu)
        widest = max(map(self.raw_button.fontMetrics().horizontalAdvance, self._forms.values()))
        self.raw_button.setMinimumWidth(widest + scaled(36))
        self._name_raw_form()

    def _name_raw_form(self) -> None:
        self.raw_button.setText(self._forms[self.model.form])
        self.raw_button.setAccessibleName(self._forms[self.model.form])

    def set_project(self, project: Project) -> None:
        """Show this project's signals, all still unread."""
        self.model.set_project(project)
        self._fit_columns()
        self._fit_summary()
        self._live = False
        self._worst = ""
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
        if not self._live:
            self._live = True
            self._summarise()
        self.model.set_readings(readings, now)
        if not 0 < self._rest_until - now <= LONGEST_REST_S:
            self._rest_until = now + min(LONGEST_REST_S, REST_A_CELL_S * self._draw_changes())
        if self.model.signals <= FEW:
            self._summarise(self.model.not_good())

    def set_not_good(self, count: int) -> None:
        """So many readings are not good, or doubtful: where there are many, whoever has counted them says so."""
        if self._live and self.model.signals > FEW:
            self._summarise(count)

    def set_worst(self, words: str) -> None:
        """This is wrong with a whole device, and said once instead of many times; empty: nothing is."""
        if words != self._worst:
            self._worst = words
            self._summarise(self._counted)

    def set_written(self, name: str, now: float) -> None:
        """The value of this signal was written and read back: it stands out for a moment. `now` as above."""
        self.model.freshen(name, now + FRESH_S)

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
        if form is self.model.form:
            return
        self.model.set_form(form)
        self._fit_raw()
        self._name_raw_form()
        menu = self.raw_button.menu()
        assert menu is not None
        menu.actions()[list(self._forms).index(form)].setChecked(True)
        self.raw_form_chosen.emit(form)

    def next_raw_form(self) -> None:
        """Write raw numbers in the next way: in decimal, in hexadecimal, bit by bit."""
        forms = list(self._forms)
        self.choose_raw_form(forms[(forms.index(self.model.form) + 1) % len(forms)])

    def _build_view(self) -> None:
        view = self.view
        self.model.modelAboutToBeReset.connect(self._keep_selection)
        self.model.modelReset.connect(self._select_again)
        view.setAccessibleName(self.tr("Readings"))
        view.setFrameShape(QFrame.Shape.NoFrame)
        # -1: the order of the project, until a head is clicked.
        view.horizontalHeader().setSortIndicator(-1, Qt.SortOrder.AscendingOrder)
        view.setSortingEnabled(True)
        view.horizontalHeader().setSortIndicatorClearable(True)
        keep_headings_whole(view.horizontalHeader())
        self.copy_action = add_copying(
            view, self.tr("Copy the selected readings"), lambda: self.model.as_lines(selected_rows(view))
        )
        self.copy_action.setIcon(icon("copy"))

    def _fit_columns(self) -> None:
        """Widths from the text that can be expected: fitting to the content again and again would make them jump."""
        metrics = self.view.fontMetrics()
        names = sorted((self.model.name(row) for row in range(self.model.rowCount())), key=len)[-MEASURED:]
        longest = max((metrics.horizontalAdvance(name) for name in names), default=80)
        words = [quality_words(quality) for quality in Quality] + [doubtful_words(), held_words()]
        quality = max(map(metrics.horizontalAdvance, words)) + scaled(SIDE + 6)
        self._longest = min(scaled(260), max(scaled(90), longest + 2 * heading_margin() + scaled(INDENT)))
        for column, width in (
            (ReadingColumn.SIGNAL, self._longest),
            (ReadingColumn.VALUE, self._value_width()),
            (ReadingColumn.QUALITY, quality + 2 * heading_margin() + 2),
            (ReadingColumn.AGE, metrics.horizontalAdvance("000 min") + 2 * heading_margin()),
        ):
            self.view.setColumnWidth(column, width)
        self._fit_raw()

    def _value_width(self) -> int:
        """Room for numbers with their unit, and for the longest words that values of the project have."""
        font = QFont(self.view.font())
        font.setWeight(QFont.Weight.DemiBold)
        measure = QFontMetrics(font).horizontalAdvance
        longest = max(map(measure, ("0" * 11, *self.model.value_words()[-MEASURED:])))
        return min(longest, scaled(WIDEST_VALUE)) + 2 * heading_margin() + 2

    def _fit_summary(self) -> None:
        """Room for the longest count, so that nothing beside it moves; what is wrong with a device may be shortened."""
        total = self.model.signals
        font = QFont(self.summary.font())
        font.setWeight(QFont.Weight.DemiBold)
        counts = (
            self.tr("{count} of {total} not good").format(count=total, total=total),
            self.tr("all {total} good").format(total=total),
        )
        wide = max(map(QFontMetrics(font).horizontalAdvance, counts))
        self.summary.setMinimumWidth(wide + scaled(SIDE + 6) + 4)

    def _fit_raw(self) -> None:
        """Room for the widest raw number that the project has, as it is written now."""
        metrics = self.view.fontMetrics()
        text = widest(self.model.most_registers, self.model.form)
        self.view.setColumnWidth(ReadingColumn.RAW, metrics.horizontalAdvance(text) + 2 * heading_margin() + 2)
        self._fit_reason()

    def _fit_reason(self) -> None:
        """Tell the reason in a column of its own where there is room; else the names get what is left over."""
        view = self.view
        others = (ReadingColumn.VALUE, ReadingColumn.QUALITY, ReadingColumn.RAW, ReadingColumn.AGE)
        left = self.width() - self._longest - sum(map(view.columnWidth, others))
        told, header = left >= scaled(REASON), view.horizontalHeader()
        view.setColumnHidden(ReadingColumn.REASON, not told)
        mode = QHeaderView.ResizeMode.Interactive if told else QHeaderView.ResizeMode.Stretch
        if header.sectionResizeMode(ReadingColumn.SIGNAL) is not mode:
            header.setStretchLastSection(told)
            header.setSectionResizeMode(ReadingColumn.SIGNAL, mode)
            if told:
                view.setColumnWidth(ReadingColumn.SIGNAL, self._longest)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit_reason()

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
        self._counted = not_good
        total = self.model.signals
        if not total:
            state, words = "unread", self.tr("no signals")
        elif not self._live:
            state, words = "unread", self.tr("{total} signals").format(total=total)
        elif self._worst:
            state, words = "alarm", self._worst
        elif not_good:
            state, words = "caution", self.tr("{count} of {total} not good").format(count=not_good, total=total)
        else:
            state, words = "good", self.tr("all {total} good").format(total=total)
        self.summary.show_state(state, words)
        self._pages.setCurrentIndex(int(self._live and total > 0))
        if not self._live or not total:
            self._say_empty(total)

    def _say_empty(self, total: int) -> None:
        if total:
            self.empty.say(
                self.tr("Not connected yet"),
                self.tr(
                    "The panel is live and the {total} signals are read here once it is connected. With simulated "
                    "devices nothing real can move."
                ).format(total=total),
            )
        else:
            self.empty.say(
                self.tr("No signals yet"),
                self.tr("What the panel reads and writes is listed in Design, under Signals."),
            )
