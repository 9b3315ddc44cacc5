"""The grid of a table of parts: its cells and rows, what is selected of them, and the keys that work on them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from PySide6.QtCore import QEvent, QItemSelection, QItemSelectionModel, Qt, Signal, Slot
from PySide6.QtGui import QFocusEvent, QFont, QFontMetrics, QKeyEvent, QMouseEvent, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QTableView

from widgets.design.tables.part_model import PartModel
from widgets.kit.fonts import for_figures
from widgets.kit.own_keys import TABLE
from widgets.kit.scaling import scaled
from widgets.kit.tables import Index, row_height

WIDEST_NAMES: Final = 190
"""Pixels at 100 per cent for the names at the left of the rows."""
NAME_EDGES: Final = 10
"""What is left free beside them, in pixels."""
_FLAG: Final = QItemSelectionModel.SelectionFlag


@dataclass(frozen=True, slots=True)
class Area:
    """What is selected: rows as they are shown, columns, and whether whole rows are."""

    rows: tuple[int, ...]
    columns: tuple[int, ...]
    whole: bool


class PartGrid(QTableView):
    """Cells that can be selected one by one where they can be edited, else whole rows."""

    key = Signal(object)
    """A key was pressed; whoever uses it accepts the event."""
    gained_focus = Signal()
    wanted = Signal(str)
    """The Edit menu wants a deed of TABLE done."""

    def __init__(self, model: PartModel, *, cells: bool) -> None:
        super().__init__()
        self.parts = model
        self._cells = cells
        self._one_cell: bool | None = None
        self.setModel(model)
        behaviour = QAbstractItemView.SelectionBehavior
        self.setSelectionBehavior(behaviour.SelectItems if cells else behaviour.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        trigger = QAbstractItemView.EditTrigger
        self.setEditTriggers(
            trigger.DoubleClicked | trigger.EditKeyPressed | trigger.AnyKeyPressed if cells else trigger.NoEditTriggers
        )
        self.setShowGrid(False)
        self.setFont(for_figures(self.font()))
        self.setWordWrap(False)
        self.setTabKeyNavigation(False)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.horizontalHeader().setHighlightSections(False)
        self.verticalHeader().setHighlightSections(False)
        self.verticalHeader().hide()
        self.setCornerButtonEnabled(cells)
        self.verticalHeader().setMaximumWidth(scaled(WIDEST_NAMES))
        if cells:
            self.horizontalScrollBar().valueChanged.connect(self._follow_scroll)
            self.horizontalHeader().sectionResized.connect(lambda *_: self.name_where_needed())
        self._fit_rows()
        self.selectionModel().selectionChanged.connect(lambda *_: self._forget_selection())

    def name_where_needed(self) -> None:
        """Keep room for the names at the left of the rows where the columns do not all fit."""
        # By the room that there is without those names: with them there is less, which must not bring them by itself.
        bar = self.verticalScrollBar()
        room = self.width() - 2 * self.frameWidth() - (bar.width() if bar.isVisible() else 0)
        wanted = self._cells and self.horizontalHeader().length() > room
        if wanted == self.verticalHeader().isHidden():
            self.verticalHeader().setVisible(wanted)

    def _follow_scroll(self, to: int) -> None:
        """Keep the names in sight where their column has gone out of it."""
        self.parts.name_rows(to > self.columnWidth(0) // 2, self._elide)

    def _elide(self, name: str) -> str:
        """A name with dots where it is too wide. Qt would measure it in another weight than the look draws it in."""
        letters = QFont(self.verticalHeader().font())
        letters.setWeight(QFont.Weight.DemiBold)
        room = self.verticalHeader().maximumWidth() - NAME_EDGES
        return QFontMetrics(letters).elidedText(name, Qt.TextElideMode.ElideRight, room)

    def _fit_rows(self) -> None:
        header = self.verticalHeader()
        header.setMinimumSectionSize(10)
        header.setDefaultSectionSize(row_height(self))
        header.setSectionResizeMode(header.ResizeMode.Fixed)

    # What is selected

    def area(self) -> Area:
        """The rows and columns in which anything is selected; the empty row at the end holds nothing to work on."""
        last = self.parts.columnCount() - 1
        rows: set[int] = set()
        columns: set[int] = set()
        whole = True
        selection = self.selectionModel().selection()
        for number in range(selection.size()):
            block = selection.at(number)
            rows.update(range(block.top(), block.bottom() + 1))
            columns.update(range(block.left(), block.right() + 1))
            whole = whole and block.left() == 0 and block.right() == last
        if not rows and self.currentIndex().isValid():
            rows, columns, whole = {self.currentIndex().row()}, {self.currentIndex().column()}, False
        rows.discard(self.parts.shown)
        whole = whole and bool(rows)
        shown = sorted(columns) if whole else [each for each in sorted(columns) if not self.isColumnHidden(each)]
        return Area(tuple(sorted(rows)), tuple(shown), whole)

    def places(self) -> tuple[int, ...]:
        """The indices in the project of the parts that are selected, in their order there."""
        return tuple(sorted(self.parts.place(row) for row in self.area().rows))

    def select_rows(self, rows: list[int], *, current: int | None = None) -> None:
        """Select these whole rows. `current` is the one that has the focus, left out the first."""
        selection = QItemSelection()
        last = self.parts.columnCount() - 1
        start = None
        for row, following in zip(rows, [*rows[1:], None], strict=True):
            start = row if start is None else start
            if following != row + 1:
                selection.select(self.parts.index(start, 0), self.parts.index(row, last))
                start = None
        if not rows:
            return
        column = max(self.currentIndex().column(), 0) if self._cells else 0
        at = self.parts.index(rows[0] if current is None else current, column)
        self.selectionModel().setCurrentIndex(at, _FLAG.NoUpdate)
        self.selectionModel().select(selection, _FLAG.ClearAndSelect)

    def select_cells(self, top: int, left: int, bottom: int, right: int) -> None:
        """Select a block of cells."""
        selection = QItemSelection(self.parts.index(top, left), self.parts.index(bottom, right))
        self.selectionModel().setCurrentIndex(self.parts.index(top, left), _FLAG.NoUpdate)
        self.selectionModel().select(selection, _FLAG.ClearAndSelect)

    def go(self, row: int, column: int) -> None:
        """Make one cell current, and nothing else selected."""
        index = self.parts.index(row, column)
        if index.isValid():
            self.selectionModel().setCurrentIndex(index, _FLAG.ClearAndSelect)
            self.scrollTo(index)

    def next_editable(self, row: int, column: int, way: int) -> tuple[int, int] | None:
        """The next cell that can be edited, in reading order or (-1) against it; None if there is none."""
        columns = self.parts.columnCount()
        count = self.parts.rowCount() * columns
        at = row * columns + column + way
        while 0 <= at < count:
            row, column = divmod(at, columns)
            if not self.isColumnHidden(column) and self.parts.editable(row, column):
                return row, column
            at += way
        return None

    def edit_cell(self, row: int, column: int) -> bool:
        """Open the editor of a cell. False if it has none."""
        self.go(row, column)
        if not self.parts.editable(row, column):
            return False
        self.edit(self.parts.index(row, column))
        return True

    def tab(self, way: int) -> None:
        """To the next cell that can be edited (1), or the one before (-1), also in another row; out of the table where
        there is none."""
        index = self.currentIndex()
        there = self.next_editable(index.row(), index.column(), way) if index.isValid() else None
        if there is not None:
            self.go(*there)
        else:
            self.leave(way)

    def leave(self, way: int) -> None:
        """To what comes behind the table (1) or before it (-1)."""
        self.focusNextPrevChild(way > 0)

    def escape(self) -> None:
        """Select the current cell only; where that is so already, leave the table."""
        index, area = self.currentIndex(), self.area()
        if len(area.rows) > 1 or len(area.columns) > 1:
            self.go(index.row(), index.column())
        else:
            self.leave(1)

    # What the Edit menu calls in whatever has the focus

    @Slot()
    def cut(self) -> None:
        """Copy the selected cells, then delete what they hold."""
        self.wanted.emit("cut")

    @Slot()
    def copy(self) -> None:
        """Copy the selected cells."""
        self.wanted.emit("copy")

    @Slot()
    def paste(self) -> None:
        """Paste over the cells, or as new rows."""
        self.wanted.emit("paste")

    @Slot()
    def delete(self) -> None:
        """Delete whole rows, or empty the selected cells."""
        self.wanted.emit("delete")

    def one_cell(self) -> bool:
        """Whether no more than one cell is selected."""
        if self._one_cell is None:
            blocks = self.selectionModel().selection()
            first = blocks.at(0) if blocks.size() else None
            one = first is None or (first.top() == first.bottom() and first.left() == first.right())
            self._one_cell = one and blocks.size() < 2
        return self._one_cell

    def _forget_selection(self) -> None:
        self._one_cell = None

    # Events

    def currentChanged(self, current: Index, previous: Index) -> None:
        """Draw the rows anew that are marked as a whole."""
        super().currentChanged(current, previous)
        if current.row() != previous.row():
            for row in (current.row(), previous.row()):
                top, high = self.rowViewportPosition(row), self.rowHeight(row)
                self.viewport().update(0, top, self.viewport().width(), high)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.name_where_needed()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Under the last row is the empty one: what is pasted there shall not go over the cell that was left."""
        super().mousePressEvent(event)
        place = event.position().toPoint()
        if self.rowAt(place.y()) < 0 and self.parts.rowCount() > self.parts.shown:
            self.go(self.parts.shown, 0)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if self.state() != QAbstractItemView.State.EditingState:
            event.ignore()
            self.key.emit(event)
            if event.isAccepted():
                return
        super().keyPressEvent(event)

    def event(self, event: QEvent) -> bool:
        """Keep keys for the table that are shortcuts elsewhere in the window."""
        if (
            event.type() == QEvent.Type.ShortcutOverride
            and isinstance(event, QKeyEvent)
            and self._cells
            and TABLE.deed(event) is not None
        ):
            event.accept()
            return True
        if event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent) and self._cells:
            # Qt would leave by Tab before it asks what the key means here.
            self.keyPressEvent(event)
            return event.isAccepted()
        return super().event(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Show what is current as selected."""
        super().focusInEvent(event)
        if self.currentIndex().isValid() and not self.selectionModel().hasSelection():
            self.selectRow(self.currentIndex().row())
        self.gained_focus.emit()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.FontChange, QEvent.Type.StyleChange):
            self._fit_rows()
