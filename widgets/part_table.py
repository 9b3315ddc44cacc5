"""A table of parts of one kind, with buttons to add, duplicate, reorder and delete."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import (
    QAbstractTableModel,
    QEvent,
    QModelIndex,
    QPersistentModelIndex,
    QSize,
    QSortFilterProxyModel,
    Qt,
    Signal,
)
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHBoxLayout,
    QHeaderView,
    QLabel,
    QLineEdit,
    QMenu,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QToolButton,
    QTreeWidget,
    QTreeWidgetItem,
    QVBoxLayout,
    QWidget,
)

from app.project.model import Project
from widgets import palette
from widgets.icons import copies_icon, cross_icon, down_icon, plus_icon, tool, up_icon

Index = QModelIndex | QPersistentModelIndex


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its heading, the text of a part, its width in pixels (0: what is left)."""

    title: str
    text: Callable[[Project, Any], str]
    width: int = 0
    right: bool = False


class PartModel(QAbstractTableModel):
    """Parts as rows, in the order of the project."""

    def __init__(self, columns: Sequence[Column]) -> None:
        super().__init__()
        self._columns = tuple(columns)
        self._project: Project | None = None
        self._parts: tuple[Any, ...] = ()
        self._wrong: frozenset[int] = frozenset()

    def show(self, project: Project, parts: tuple[Any, ...], wrong: frozenset[int]) -> None:
        """Show these parts; `wrong` are the rows that an error is about."""
        old = self._parts
        self._project, self._parts, self._wrong = project, parts, wrong
        if len(old) != len(parts):
            # A whole reset would lose the selection and the scroll position.
            self._parts = old
            first = next(
                (n for n, (a, b) in enumerate(zip(old, parts, strict=False)) if a is not b), min(len(old), len(parts))
            )
            if len(parts) > len(old):
                count = len(parts) - len(old)
                self.beginInsertRows(QModelIndex(), first, first + count - 1)
                self._parts = parts
                self.endInsertRows()
            else:
                count = len(old) - len(parts)
                self.beginRemoveRows(QModelIndex(), first, first + count - 1)
                self._parts = parts
                self.endRemoveRows()
        if parts:
            self.dataChanged.emit(self.index(0, 0), self.index(len(parts) - 1, len(self._columns) - 1))

    @property
    def parts(self) -> tuple[Any, ...]:
        """What is shown."""
        return self._parts

    def rowCount(self, parent: Index | None = None) -> int:  # noqa: ARG002
        """One row a part."""
        return len(self._parts)

    def columnCount(self, parent: Index | None = None) -> int:  # noqa: ARG002
        """The columns that were asked for."""
        return len(self._columns)

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """The headings."""
        if orientation == Qt.Orientation.Horizontal and role == Qt.ItemDataRole.DisplayRole:
            return self._columns[section].title
        if orientation == Qt.Orientation.Horizontal and role == Qt.ItemDataRole.TextAlignmentRole:
            return Qt.AlignmentFlag.AlignRight if self._columns[section].right else Qt.AlignmentFlag.AlignLeft
        return None

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """Text and look of a cell."""
        if self._project is None or not 0 <= index.row() < len(self._parts):
            return None
        column = self._columns[index.column()]
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.ToolTipRole):
            text = column.text(self._project, self._parts[index.row()])
            wrong = index.column() == 0 and index.row() in self._wrong and role == Qt.ItemDataRole.DisplayRole
            return f"\N{WARNING SIGN} {text}" if wrong else text
        if role == Qt.ItemDataRole.TextAlignmentRole and column.right:
            return Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        if role == Qt.ItemDataRole.ForegroundRole and index.column() == 0 and index.row() in self._wrong:
            return palette.current().colour("fault")
        return None


class PartTable(QWidget):
    """A heading, buttons, and the table. Indexes in signals are those of the project."""

    chosen = Signal(int)
    """A row became current; -1: none."""
    opened = Signal(int)
    """Enter or a double click."""
    add_wanted = Signal(str)
    """One of the kinds that were offered."""
    duplicate_wanted = Signal(int)
    delete_wanted = Signal(int)
    move_wanted = Signal(int, int)

    def __init__(
        self,
        title: str,
        columns: Sequence[Column],
        kinds: Sequence[tuple[str, str]],
        *,
        narrowing: bool = False,
        ordered: bool = True,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.model = PartModel(columns)
        self._proxy = QSortFilterProxyModel(self)
        self._proxy.setSourceModel(self.model)
        self._proxy.setFilterCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        self._proxy.setFilterKeyColumn(-1)
        self.heading = QLabel(title)
        self.heading.setProperty("look", "heading")
        self.table = _Table()
        self.table.setModel(self._proxy)
        self.table.setAccessibleName(title)
        header = self.table.horizontalHeader()
        for number, column in enumerate(columns):
            if column.width:
                self.table.setColumnWidth(number, column.width)
            else:
                header.setSectionResizeMode(number, QHeaderView.ResizeMode.Stretch)
        self.add_button = tool(plus_icon(), self.tr("Add"), self, self.tr("Add (Insert)"))
        if len(kinds) > 1:
            menu = QMenu(self)
            for value, text in kinds:
                menu.addAction(text, lambda value=value: self.add_wanted.emit(value))  # type: ignore[misc]
            self.add_button.setMenu(menu)
            self.add_button.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        else:
            self.add_button.clicked.connect(lambda: self.add_wanted.emit(kinds[0][0]))
        self._first_kind = kinds[0][0]
        self.copy_button = tool(copies_icon(), self.tr("Duplicate"), self, self.tr("Duplicate (Ctrl+D)"))
        self.up_button = tool(up_icon(), self.tr("Move up"), self, self.tr("Move up (Alt+Up)"))
        self.down_button = tool(down_icon(), self.tr("Move down"), self, self.tr("Move down (Alt+Down)"))
        self.delete_button = tool(cross_icon(), self.tr("Delete"), self, self.tr("Delete (Delete)"))
        self.up_button.setVisible(ordered)
        self.down_button.setVisible(ordered)
        self._ordered = ordered
        bar = QHBoxLayout()
        bar.setContentsMargins(8, 2, 4, 0)
        bar.setSpacing(0)
        bar.addWidget(self.heading, 0 if narrowing else 1)
        self.narrow = QLineEdit()
        self.narrow.setPlaceholderText(self.tr("Narrow the list"))
        self.narrow.setAccessibleName(self.tr("Narrow the list"))
        self.narrow.setClearButtonEnabled(True)
        self.narrow.setMaximumWidth(220)
        self.narrow.setVisible(narrowing)
        self.narrow.textChanged.connect(self._proxy.setFilterFixedString)
        if narrowing:
            bar.addSpacing(12)
            bar.addWidget(self.narrow, 1)
            bar.addStretch(1)
        for button in (self.add_button, self.copy_button, self.up_button, self.down_button, self.delete_button):
            bar.addWidget(button)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        layout.addLayout(bar)
        layout.addWidget(self.table, 1)
        self.copy_button.clicked.connect(lambda: self._of_current(self.duplicate_wanted.emit))
        self.delete_button.clicked.connect(lambda: self._of_current(self.delete_wanted.emit))
        self.up_button.clicked.connect(lambda: self._move(-1))
        self.down_button.clicked.connect(lambda: self._move(1))
        self.table.selectionModel().currentRowChanged.connect(lambda _now, _before: self._chosen())
        self.table.doubleClicked.connect(lambda _index: self._of_current(self.opened.emit))
        self.table.key.connect(self._key)
        self._quiet = False
        self._faded = False
        self._enable()

    def show_parts(self, project: Project, parts: tuple[Any, ...], wrong: frozenset[int] = frozenset()) -> None:
        """Show these parts, keeping the current row where it can be kept."""
        current = self.current()
        self._quiet = True
        self.model.show(project, parts, wrong)
        self._quiet = False
        self.select(min(current, len(parts) - 1))
        self._enable()

    def current(self) -> int:
        """The index of the current part; -1 if there is none."""
        index = self.table.currentIndex()
        return self._proxy.mapToSource(index).row() if index.isValid() else -1

    def select(self, index: int) -> None:
        """Make a part current without telling."""
        marked = self._faded or self.table.selectionModel().hasSelection()
        if index == self.current() and (index < 0 or marked):
            return
        self._faded = False
        self._quiet = True
        if index < 0:
            self.table.setCurrentIndex(QModelIndex())
        else:
            shown = self._proxy.mapFromSource(self.model.index(index, 0))
            if not shown.isValid():
                self.narrow.clear()
                shown = self._proxy.mapFromSource(self.model.index(index, 0))
            self.table.selectRow(shown.row())
            self.table.scrollTo(shown)
        self._quiet = False
        self._enable()

    def fade(self) -> None:
        """Show no row as selected, since something else is. The current row is kept for the return."""
        self._faded = True
        self.table.clearSelection()

    def light_up(self) -> None:
        """Show the current row as selected again."""
        self._faded = False
        index = self.table.currentIndex()
        if index.isValid() and not self.table.selectionModel().hasSelection():
            self.table.selectRow(index.row())

    def _chosen(self) -> None:
        self._enable()
        if not self._quiet:
            self.chosen.emit(self.current())

    def _enable(self) -> None:
        at = self.current()
        self.copy_button.setEnabled(at >= 0)
        self.delete_button.setEnabled(at >= 0)
        self.up_button.setEnabled(at > 0)
        self.down_button.setEnabled(0 <= at < len(self.model.parts) - 1)

    def _of_current(self, emit: Callable[[int], None]) -> None:
        if self.current() >= 0:
            emit(self.current())

    def _move(self, way: int) -> None:
        at = self.current()
        if self._ordered and at >= 0 and 0 <= at + way < len(self.model.parts):
            self.move_wanted.emit(at, at + way)

    def _key(self, event: QKeyEvent) -> None:
        plain = event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
        key = event.key()
        if key == Qt.Key.Key_Insert and not plain:
            if self.add_button.menu() is not None:
                self.add_button.showMenu()
            else:
                self.add_wanted.emit(self._first_kind)
        elif key in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace) and not plain:
            self._of_current(self.delete_wanted.emit)
        elif key == Qt.Key.Key_D and plain == Qt.KeyboardModifier.ControlModifier:
            self._of_current(self.duplicate_wanted.emit)
        elif key in (Qt.Key.Key_Up, Qt.Key.Key_Down) and plain == Qt.KeyboardModifier.AltModifier:
            self._move(-1 if key == Qt.Key.Key_Up else 1)
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and not plain:
            self._of_current(self.opened.emit)
        else:
            return
        event.accept()

    def changeEvent(self, event: QEvent) -> None:
        """Follow a change of the palette or the font."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange and hasattr(self, "delete_button"):
            self.add_button.setIcon(plus_icon())
            self.copy_button.setIcon(copies_icon())
            self.up_button.setIcon(up_icon())
            self.down_button.setIcon(down_icon())
            self.delete_button.setIcon(cross_icon())


class RowDelegate(QStyledItemDelegate):
    """Draws whole rows as selected, without a second frame around the current cell."""

    def initStyleOption(self, option: QStyleOptionViewItem, index: Index) -> None:
        """Leave out the frame of the current cell."""
        super().initStyleOption(option, index)
        option.state &= ~QStyle.StateFlag.State_HasFocus

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        """The size that suits it best."""
        size = super().sizeHint(option, index)
        return QSize(size.width(), max(size.height(), option.fontMetrics.height() + 6))


class RowList(QTreeWidget):
    """A list of rows whose texts are cut with dots where there is no room; the whole text is the tool tip."""

    def __init__(self, columns: int = 1) -> None:
        super().__init__()
        self.setColumnCount(columns)
        self.setHeaderHidden(True)
        self.setRootIsDecorated(False)
        self.setUniformRowHeights(True)
        self.setItemDelegate(RowDelegate(self))
        self.header().setSectionResizeMode(QHeaderView.ResizeMode.Stretch)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)

    def add_row(self, data: object, *texts: str) -> None:
        """One more row, standing for `data`."""
        item = QTreeWidgetItem(list(texts))
        item.setData(0, Qt.ItemDataRole.UserRole, data)
        for column, text in enumerate(texts):
            item.setToolTip(column, text)
        self.addTopLevelItem(item)

    def chosen(self) -> object:
        """What the current row stands for; None if there is none."""
        item = self.currentItem()
        return None if item is None else item.data(0, Qt.ItemDataRole.UserRole)

    def choose_row(self, row: int) -> None:
        """Make a row current, counted from 0."""
        item = self.topLevelItem(row)
        if item is not None:
            self.setCurrentItem(item)

    def row(self) -> int:
        """The current row; -1 if there is none."""
        return self.currentIndex().row()


class _Table(QTableView):
    key = Signal(object)
    gained_focus = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setAlternatingRowColors(True)
        self.setShowGrid(False)
        self.setItemDelegate(RowDelegate(self))
        self.setWordWrap(False)
        self.setTabKeyNavigation(False)
        self.verticalHeader().hide()
        self.verticalHeader().setDefaultSectionSize(self.fontMetrics().height() + 8)
        self.horizontalHeader().setHighlightSections(False)
        self.horizontalHeader().setProperty("look", "narrow")

    def keyPressEvent(self, event: QKeyEvent) -> None:
        event.ignore()
        self.key.emit(event)
        if not event.isAccepted():
            super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        if self.currentIndex().isValid() and not self.selectionModel().hasSelection():
            self.selectRow(self.currentIndex().row())
        self.gained_focus.emit()
