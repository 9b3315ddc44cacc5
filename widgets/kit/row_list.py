"""Lists of rows that are chosen as a whole."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from typing import Final, Protocol, cast

from PySide6.QtCore import QObject, QRect, QSize, Qt
from PySide6.QtGui import QFontMetrics
from PySide6.QtWidgets import (
    QHeaderView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTreeWidget,
    QTreeWidgetItem,
)

from widgets.kit.plain import plain_tip
from widgets.kit.scaling import heading_width, line_height
from widgets.kit.tables import ROW, Index

_BESIDE_TEXT: Final = (
    Qt.ItemDataRole.DecorationRole,
    Qt.ItemDataRole.CheckStateRole,
    Qt.ItemDataRole.SizeHintRole,
)
"""What else there may be that the size of a cell follows from."""
_MOST_SIZES: Final = 2_000


class _Asked(Protocol):
    """What the stubs of Qt do not say of QStyleOptionViewItem."""

    rect: QRect
    fontMetrics: QFontMetrics  # noqa: N815


class RowDelegate(QStyledItemDelegate):
    """Draws whole rows as selected, without a second frame around the current cell."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._sizes: dict[tuple[object, ...], QSize] = {}

    def initStyleOption(self, option: QStyleOptionViewItem, index: Index) -> None:
        """Leave out the frame of the current cell."""
        super().initStyleOption(option, index)
        option.state &= ~QStyle.StateFlag.State_HasFocus

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        # A list asks for each of its cells again and again while it is filled and shown: most of the time of a dialog.
        if any(index.data(role) is not None for role in _BESIDE_TEXT):
            return self._measured(option, index)
        view = cast("_Asked", option)
        key = index.data(), index.data(Qt.ItemDataRole.FontRole), view.fontMetrics.height(), view.rect.width()
        size = self._sizes.get(key)
        if size is None:
            if len(self._sizes) > _MOST_SIZES:
                self._sizes.clear()
            size = self._sizes[key] = self._measured(option, index)
        return QSize(size)

    def _measured(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        size = super().sizeHint(option, index)
        return QSize(size.width(), max(size.height(), line_height(ROW)))


def list_row(*texts: str, data: object = None) -> QTreeWidgetItem:
    """A row that stands for `data`; the tool tips are the whole texts."""
    row = QTreeWidgetItem(list(texts))
    row.setData(0, Qt.ItemDataRole.UserRole, data)
    for column, text in enumerate(texts):
        row.setToolTip(column, plain_tip(text))
    return row


def group_row(tree: QTreeWidget, title: str, rows: Iterable[QTreeWidgetItem] = ()) -> QTreeWidgetItem:
    """Put a title in bold, as wide as the list, with its rows at the end of a list."""
    group = QTreeWidgetItem(tree, [title])
    font = group.font(0)
    font.setBold(True)
    group.setFont(0, font)
    group.setFirstColumnSpanned(True)
    group.addChildren(list(rows))
    return group


def set_up_list(tree: QTreeWidget, titles: Sequence[str], stretch: Collection[int] = (0,)) -> None:
    """Set a tree up as a list of whole rows under titles. The columns in `stretch` share what the others leave.

    All others are as wide as their texts, which takes a look at each row: lists of some hundred rows at the most.
    """
    tree.setHeaderLabels(list(titles))
    tree.setRootIsDecorated(False)
    tree.setEditTriggers(QTreeWidget.EditTrigger.NoEditTriggers)
    tree.setItemDelegate(RowDelegate(tree))
    header = tree.header()
    header.setStretchLastSection(not stretch)
    for column in range(len(titles)):
        mode = header.ResizeMode.Stretch if column in stretch else header.ResizeMode.ResizeToContents
        header.setSectionResizeMode(column, mode)
    header.setMinimumSectionSize(max(heading_width(header, title) for title in titles))


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
        self.addTopLevelItem(list_row(*texts, data=data))

    def current_value(self) -> object:
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
