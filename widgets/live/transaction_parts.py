"""One transaction taken apart: its frames, the bytes of each part, and what they mean."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, QSize, Qt
from PySide6.QtGui import QFontMetrics
from PySide6.QtWidgets import (
    QAbstractItemView,
    QLabel,
    QSizePolicy,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTreeWidget,
    QTreeWidgetItem,
    QVBoxLayout,
    QWidget,
)

from app.language import translate
from widgets.kit import palette
from widgets.kit.fonts import for_cells
from widgets.kit.plain import plain_tip
from widgets.kit.row_list import group_row
from widgets.kit.scaling import scaled
from widgets.kit.tables import add_copying, keep_headings_whole

if TYPE_CHECKING:  # the bus is imported only when a line is connected
    from app.diagnosis.explain import Explanation
    from app.diagnosis.frames import Frame, FramePart
    from widgets.live.transactions_table import TransactionRow

BYTES, PART, MEANING = range(3)
BYTES_A_ROW: Final = 4
"""More bytes of one part are broken into lines."""


class _Wrapped(QStyledItemDelegate):
    """Rows as high as their words need: Qt breaks lines in a tree, but makes no room for them."""

    def __init__(self, tree: QTreeWidget) -> None:
        super().__init__(tree)
        self._tree = tree

    def sizeHint(self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> QSize:
        hint = super().sizeHint(option, index)
        if index.column() == MEANING:
            width = max(60, self._tree.columnWidth(MEANING) - 10)
            room = QRect(0, 0, width, 10_000)
            flags = Qt.TextFlag.TextWordWrap.value | Qt.AlignmentFlag.AlignLeft.value
            needed = self._tree.fontMetrics().boundingRect(room, flags, str(index.data()))
            hint.setHeight(max(hint.height(), needed.height() + 4))
        return hint


LEAST_WIDTH: Final = 120
"""Pixels at 100 per cent: the longest of its words in a line, with its margins."""


class TransactionParts(QWidget):
    """What was chosen in the list, byte by byte."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._row: TransactionRow | None = None
        self._explanation: Explanation | None = None
        self.head = QLabel()
        self.fault = QLabel()
        for label in (self.head, self.fault):
            label.setTextFormat(Qt.TextFormat.PlainText)
            label.setWordWrap(True)
            label.setContentsMargins(scaled(12), scaled(6), scaled(12), scaled(6))
            label.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self.fault.setProperty("look", "fault")
        self.fault.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.tree = QTreeWidget()
        self.tree.setAccessibleName(self.tr("Bytes of the transaction"))
        self.tree.setHeaderLabels([self.tr("Bytes"), self.tr("Part"), self.tr("Meaning")])
        header = self.tree.header()
        keep_headings_whole(header)
        self.tree.setRootIsDecorated(False)
        self.tree.setItemsExpandable(False)
        self.tree.setIndentation(10)
        self.tree.setWordWrap(True)
        self.tree.setFrameShape(self.tree.Shape.NoFrame)
        self.tree.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.tree.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.tree.header().setStretchLastSection(True)
        self.tree.header().sectionResized.connect(lambda *_: self.tree.scheduleDelayedItemsLayout())
        self.tree.setItemDelegate(_Wrapped(self.tree))
        self._fixed = for_cells(self.font())
        fixed = QFontMetrics(self._fixed)
        self.tree.setColumnWidth(BYTES, fixed.horizontalAdvance("00 ") * BYTES_A_ROW + 34)
        longest = translate("bus", "registers {first} to {last}").format(first=400, last=407)
        self.tree.setColumnWidth(PART, self.fontMetrics().horizontalAdvance(longest) + 12)
        self.copy_action = add_copying(self.tree, self.tr("Copy this transaction as text"), self.text)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        self.setMinimumWidth(scaled(LEAST_WIDTH))
        layout.addWidget(self.head)
        layout.addWidget(self.fault)
        layout.addWidget(self.tree, 1)
        self.show_row(None)

    @property
    def explanation(self) -> Explanation | None:
        """What is shown."""
        return self._explanation

    def text(self) -> str:
        """The same as text; empty if nothing is shown."""
        from app.diagnosis.transcript import clock_text, many_lines

        if self._row is None or self._explanation is None:
            return ""
        return many_lines(self._explanation, clock_text(self._row.at))

    def show_row(self, row: TransactionRow | None) -> None:
        """Take this transaction apart; None: nothing was chosen."""
        self.tree.clear()
        self._row, self._explanation = row, None
        self.fault.setVisible(row is not None and row.transaction.fault is not None)
        if row is None:
            self.head.setText(self.tr("Choose a transaction to see its bytes explained."))
            return
        from app.diagnosis.explain import explain
        from app.diagnosis.transcript import clock_text

        told = self._explanation = explain(row.transaction, row.names)
        self.head.setText(f"{clock_text(row.at)}  {row.transaction.follower}: {row.transaction.kind}; {told.timing}")
        self.fault.setText(f"\u26a0 {told.fault}")
        if told.sent.parts:
            self._add(self.tr("Sent"), told.sent)
        else:
            group_row(self.tree, self.tr("Sent: nothing"))
        for frame in told.received:
            self._add(self.tr("Received"), frame)
        if not told.received:
            group_row(self.tree, self.tr("Received: nothing"))
        self.tree.expandAll()

    def refresh_look(self) -> None:
        """The colours changed."""
        self.show_row(self._row)

    def _add(self, way: str, frame: Frame) -> None:
        words = self.tr("{way}: {what}, {count} bytes").format(way=way, what=frame.words, count=len(frame.data))
        group_row(self.tree, words, map(self._part_row, frame.parts))

    def _part_row(self, part: FramePart) -> QTreeWidgetItem:
        data = part.data
        pieces = [data[at : at + BYTES_A_ROW].hex(" ").upper() for at in range(0, len(data), BYTES_A_ROW)]
        words = f"\u26a0 {part.words}" if part.wrong else part.words
        item = QTreeWidgetItem(["\n".join(pieces), part.name, words])
        item.setFont(BYTES, self._fixed)
        item.setToolTip(MEANING, plain_tip(part.words))
        if part.wrong:
            for column in (BYTES, PART, MEANING):
                item.setForeground(column, palette.current().colour("fault"))
        return item
