"""The list of what was done to the project, to go back or forward in by any number of steps."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QAbstractListModel, QModelIndex, QObject, QSignalBlocker, Qt
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QAbstractItemView, QListView, QWidget

from widgets.document.document import Document
from widgets.kit import palette
from widgets.kit.dialogs.dialog import Dialog
from widgets.kit.plain import plain_tip
from widgets.kit.row_list import RowDelegate
from widgets.kit.tables import Index

_ROOT = QModelIndex()


class StepsModel(QAbstractListModel):
    """The state in which the project was opened, and a row for each step since."""

    def __init__(self, document: Document, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._steps = document.steps

    def refresh(self) -> None:
        """Show what the document holds now."""
        self.beginResetModel()
        self._steps = self._document.steps
        self.endResetModel()

    def rowCount(self, parent: Index = _ROOT) -> int:
        return 0 if parent.isValid() else len(self._steps) + 1

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if not index.isValid():
            return None
        row = index.row()
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole):
            return self._words(row, spoken=role == Qt.ItemDataRole.AccessibleTextRole)
        if role == Qt.ItemDataRole.ToolTipRole:
            return plain_tip(self._words(row))
        if role == Qt.ItemDataRole.ForegroundRole and row > self._document.position:
            return palette.current().colour("faint")
        if role == Qt.ItemDataRole.FontRole and row == self._document.position:
            font = QFont()
            font.setWeight(QFont.Weight.DemiBold)
            return font
        return None

    def _words(self, row: int, *, spoken: bool = False) -> str:
        words = self._steps[row - 1] if row else self.tr("As it was opened")
        if row == self._document.saved_at:
            words = self.tr("{step} \u2013 saved").format(step=words)
        if spoken and row > self._document.position:
            words = self.tr("{step}, taken back").format(step=words)
        return words


class StepsDialog(Dialog):
    """Stays beside the window: a click or Enter on a row goes to the project as it was after that step."""

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent, width=360, height=480)
        self._document = document
        self.tell(
            self.tr("Steps"),
            self.tr("Click a step to go back to it. What is below it is kept until you change something else."),
        )
        self.list = QListView()
        self.list.setAccessibleName(self.tr("Steps"))
        self.list.setModel(StepsModel(document, self))
        self.list.setItemDelegate(RowDelegate(self.list))
        self.list.setUniformItemSizes(True)
        self.list.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.list.clicked.connect(self._go)
        self.list.activated.connect(self._go)
        self.body.addWidget(self.list, 1)
        self.add_close()
        document.status_changed.connect(self.refresh)
        self.refresh()
        self.list.setFocus()

    def refresh(self) -> None:
        """Show the steps as they are now, the present one chosen."""
        model = self.list.model()
        assert isinstance(model, StepsModel)
        model.refresh()
        present = model.index(self._document.position, 0)
        with QSignalBlocker(self.list.selectionModel()):
            self.list.setCurrentIndex(present)
        self.list.scrollTo(present)

    def _go(self, index: QModelIndex) -> None:
        self._document.go_to_step(index.row())
