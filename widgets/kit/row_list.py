"""Lists of rows that are chosen as a whole."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QSize, Qt
from PySide6.QtWidgets import (
    QHeaderView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTreeWidget,
    QTreeWidgetItem,
)

from widgets.kit.plain import plain_tip

Index = QModelIndex | QPersistentModelIndex


class RowDelegate(QStyledItemDelegate):
    """Draws whole rows as selected, without a second frame around the current cell."""

    def initStyleOption(self, option: QStyleOptionViewItem, index: Index) -> None:
        """Leave out the frame of the current cell."""
        super().initStyleOption(option, index)
        option.state &= ~QStyle.StateFlag.State_HasFocus

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
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
            item.setToolTip(column, plain_tip(text))
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
