"""A sheet as it was read: over each column what it is taken for, before each row whether it comes in."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final

from PySide6.QtCore import (
    QAbstractTableModel,
    QCoreApplication,
    QEvent,
    QRect,
    QSize,
    Qt,
    Signal,
)
from PySide6.QtGui import QFont, QKeyEvent, QPainter, QWheelEvent
from PySide6.QtWidgets import QAbstractItemView, QComboBox, QHeaderView, QTableView, QWidget

from app.exchange.column_mapping import Matching
from app.exchange.import_plan import ImportPlan
from app.exchange.row_parser import Note
from app.exchange.sheet import Sheet, cell_text, column_letter
from app.exchange.titles import HINTS, TITLES, Key
from app.project.attributes import attribute_text
from widgets.kit import palette
from widgets.kit.controls import Choice
from widgets.kit.plain import plain_tip
from widgets.kit.scaling import scaled
from widgets.kit.tables import Index, row_height

translate = QCoreApplication.translate
Role = Qt.ItemDataRole

_SAMPLE: Final = 60
"""Rows by whose texts the width of a column is chosen."""
_NARROWEST: Final = 118
_WIDEST: Final = 260


def key_title(key: Key) -> str:
    """What a person reads for a key."""
    return attribute_text(TITLES[key])


class SheetModel(QAbstractTableModel):
    """All rows of a sheet; faults are marked where they are."""

    def __init__(self) -> None:
        super().__init__()
        self._sheet = Sheet((), 0)
        self._matching = Matching(())
        self._notes: dict[int, list[Note]] = {}
        self._out: frozenset[int] = frozenset()

    def show(self, sheet: Sheet, matching: Matching, plan: ImportPlan) -> None:
        """Show this sheet with what became of its rows."""
        same = sheet is self._sheet
        if not same:
            self.beginResetModel()
        self._sheet, self._matching = sheet, matching
        self._out = plan.left_out()
        self._notes = {}
        for note in plan.notes:
            self._notes.setdefault(note.row, []).append(note)
        if not same:
            self.endResetModel()
        elif sheet.rows:
            self.dataChanged.emit(self.index(0, 0), self.index(len(sheet.rows) - 1, max(0, sheet.columns - 1)))
            self.headerDataChanged.emit(Qt.Orientation.Vertical, 0, len(sheet.rows) - 1)

    def clear(self) -> None:
        """Show nothing."""
        self.beginResetModel()
        self._sheet, self._matching, self._notes, self._out = Sheet((), 0), Matching(()), {}, frozenset()
        self.endResetModel()

    def place_of(self, row: int) -> int:
        """Where a row of the file stands here; -1 if it does not."""
        return next((at for at, other in enumerate(self._sheet.rows) if other.number == row), -1)

    def number_of(self, place: int) -> int:
        """The number that the file has for a row; 0 if there is none."""
        return self._sheet.rows[place].number if 0 <= place < len(self._sheet.rows) else 0

    def rowCount(self, parent: Index | None = None) -> int:
        """Rows of the file that are not blank."""
        return 0 if parent is not None and parent.isValid() else len(self._sheet.rows)

    def columnCount(self, parent: Index | None = None) -> int:
        return 0 if parent is not None and parent.isValid() else self._sheet.columns

    def data(self, index: Index, role: int = Role.DisplayRole) -> Any:
        if not 0 <= index.row() < len(self._sheet.rows):
            return None
        row = self._sheet.rows[index.row()]
        column = index.column()
        if role == Role.DisplayRole:
            text = cell_text(row.cell(column))
            return f"\N{WARNING SIGN} {text}" if self._faults(row.number, column) else text
        if role == Role.ToolTipRole:
            said = "\n".join(note.message for note in self._at(row.number, column))
            return plain_tip(said or cell_text(row.cell(column)))
        if role == Role.FontRole and row.number == self._matching.heading:
            font = QFont()
            font.setBold(True)
            return font
        if role == Role.ForegroundRole:
            return self._colour(row.number, column)
        return None

    def _at(self, row: int, column: int) -> list[Note]:
        return [note for note in self._notes.get(row, ()) if note.column in (column, -1)]

    def _faults(self, row: int, column: int) -> bool:
        return any(note.level == "fault" and note.column == column for note in self._notes.get(row, ()))

    def _colour(self, row: int, column: int) -> object:
        colours = palette.current()
        if self._faults(row, column):
            return colours.colour("fault")
        aside = self._matching.columns[column] is None if column < len(self._matching.columns) else True
        if row < self._matching.heading or row in self._out or (aside and row != self._matching.heading):
            return colours.colour("faint")
        return None

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Role.DisplayRole) -> Any:
        """Rows as the file's own program counts them; columns by their letters."""
        if orientation == Qt.Orientation.Horizontal:
            if role == Role.DisplayRole:
                return column_letter(section)
            return None
        if not 0 <= section < len(self._sheet.rows):
            return None
        number = self._sheet.rows[section].number
        if role == Role.DisplayRole:
            return f"{self._sign(number)} {number}"
        if role == Role.ToolTipRole:
            return plain_tip("\n".join(note.message for note in self._notes.get(number, ()))) or None
        if role == Role.TextAlignmentRole:
            return Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        return None

    def _sign(self, row: int) -> str:
        if row <= self._matching.heading:
            return "T" if row == self._matching.heading else ""
        levels = {note.level for note in self._notes.get(row, ())}
        if "fault" in levels:
            return "\N{WARNING SIGN}"
        return "\N{EN DASH}" if "aside" in levels else ""


class MatchBox(Choice):
    """What one column is taken for. Keys open the list first: stepping through it would take keys of other columns."""

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Open the list, and go on in it."""
        steps = (
            Qt.Key.Key_Up,
            Qt.Key.Key_Down,
            Qt.Key.Key_PageUp,
            Qt.Key.Key_PageDown,
            Qt.Key.Key_Home,
            Qt.Key.Key_End,
        )
        plain = not event.modifiers() & ~Qt.KeyboardModifier.ShiftModifier
        if plain and (event.key() in steps or event.text().strip()):
            self.showPopup()
            if event.text().strip():
                self.view().keyboardSearch(event.text())
            event.accept()
            return
        super().keyPressEvent(event)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """The wheel is for scrolling the table, whatever has the focus."""
        event.ignore()


class MatchHeader(QHeaderView):
    """The letters of the columns, and over each a box with what the column is taken for."""

    matched = Signal(int, object)
    """A column was assigned to a key; None: it is ignored."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(Qt.Orientation.Horizontal, parent)
        self._boxes: list[MatchBox] = []
        self.setSectionsClickable(False)
        self.setDefaultAlignment(Qt.AlignmentFlag.AlignCenter)
        self.sectionResized.connect(lambda *_: self._place())

    @property
    def boxes(self) -> Sequence[MatchBox]:
        """One a column."""
        return self._boxes

    def show_columns(self, keys: Sequence[Key | None], titles: Sequence[str]) -> None:
        """Show what the columns are taken for."""
        while len(self._boxes) > len(keys):
            self._boxes.pop().deleteLater()
        while len(self._boxes) < len(keys):
            self._boxes.append(self._make_box(len(self._boxes)))
        for column, (box, key) in enumerate(zip(self._boxes, keys, strict=True)):
            box.setCurrentIndex(0 if key is None else box.findData(key))
            name = translate("MatchHeader", "Column {letter}, {title}: assigned to").format(
                letter=column_letter(column), title=titles[column] if column < len(titles) else ""
            )
            box.setAccessibleName(name)
            box.setToolTip(
                attribute_text(HINTS[key]) if key is not None else translate("MatchHeader", "This column is ignored")
            )
        self._place()

    def _make_box(self, column: int) -> MatchBox:
        box = MatchBox(self.viewport())
        box.addItem(translate("MatchHeader", "(ignore)"), None)
        for key in TITLES:
            box.addItem(key_title(key), key)
            box.setItemData(box.count() - 1, attribute_text(HINTS[key]), Role.ToolTipRole)
        box.setMaxVisibleItems(len(TITLES) + 1)
        box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        box.setMinimumContentsLength(6)
        box.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        box.activated.connect(lambda _index: self.matched.emit(column, box.currentData()))
        box.installEventFilter(self)
        box.show()
        return box

    def eventFilter(self, watched: Any, event: QEvent) -> bool:
        """A box that gets the focus is brought into sight."""
        if event.type() == QEvent.Type.FocusIn and watched in self._boxes:
            view = self.parentWidget()
            if isinstance(view, QAbstractItemView) and view.model().rowCount():
                row = max(0, view.indexAt(view.viewport().rect().topLeft()).row())
                view.scrollTo(view.model().index(row, self._boxes.index(watched)))
        return super().eventFilter(watched, event)

    def sizeHint(self) -> QSize:
        """Room for a row of boxes above the letters."""
        return QSize(super().sizeHint().width(), self._box_height() + self.fontMetrics().height() + 12)

    def _box_height(self) -> int:
        return self._boxes[0].sizeHint().height() + 2 if self._boxes else self.fontMetrics().height() + 10

    def paintSection(self, painter: QPainter, rect: QRect, section: int) -> None:
        painter.fillRect(rect, palette.current().colour("pane"))
        super().paintSection(painter, rect.adjusted(0, self._box_height() + 2, 0, 0), section)

    def updateGeometries(self) -> None:
        super().updateGeometries()
        self._place()

    def _place(self) -> None:
        for column, box in enumerate(self._boxes):
            if column < self.count():
                left = self.sectionViewportPosition(column)
                box.setGeometry(left + 2, 2, self.sectionSize(column) - 4, self._box_height() - 2)


class SheetView(QTableView):
    """The table of a sheet with its header of boxes."""

    row_chosen = Signal(int)
    """Another row became current, by the number that the file has for it."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.sheet = SheetModel()
        self.setModel(self.sheet)
        self.header = MatchHeader(self)
        self.setHorizontalHeader(self.header)
        self.setAccessibleName(self.tr("Rows of the file"))
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setWordWrap(False)
        self.setTabKeyNavigation(False)
        self.verticalHeader().setDefaultSectionSize(row_height(self))
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.horizontalScrollBar().valueChanged.connect(lambda _value: self.header._place())

        self.selectionModel().currentRowChanged.connect(lambda *_: self.row_chosen.emit(self.current_row()))

    def minimumSizeHint(self) -> QSize:
        """The boxes, and one row below them."""
        return QSize(super().minimumSizeHint().width(), self.header.sizeHint().height() + row_height(self) + 4)

    def current_row(self) -> int:
        """The current row by the number that the file has for it; 0 if there is none."""
        return self.sheet.number_of(self.currentIndex().row())

    def show_sheet(self, sheet: Sheet, matching: Matching, plan: ImportPlan) -> None:
        """Show a sheet with its matching and what becomes of its rows."""
        same = sheet is self.sheet._sheet
        self.sheet.show(sheet, matching, plan)
        self.header.show_columns(matching.columns, matching.titles(sheet))
        if not same:
            self._fit(sheet, matching)
            self.header.updateGeometries()
            self.updateGeometries()

    def clear(self) -> None:
        """Show nothing."""
        self.sheet.clear()
        self.header.show_columns((), ())

    def go_to(self, row: int, column: int) -> None:
        """Show a cell by the row of the file and its column, -1 for the first."""
        at = self.sheet.place_of(row)
        if at >= 0:
            index = self.sheet.index(at, max(0, column))
            self.setCurrentIndex(index)
            self.scrollTo(index, QAbstractItemView.ScrollHint.PositionAtCenter)

    def _fit(self, sheet: Sheet, matching: Matching) -> None:
        metrics = self.fontMetrics()
        for column in range(sheet.columns):
            texts = (cell_text(row.cell(column))[:60] for row in sheet.rows[:_SAMPLE])
            width = max(map(metrics.horizontalAdvance, texts), default=0) + 26
            key = matching.columns[column]
            name = 0 if key is None else metrics.horizontalAdvance(key_title(key)) + scaled(46)
            self.setColumnWidth(column, max(min(max(width, _NARROWEST), _WIDEST), name))
