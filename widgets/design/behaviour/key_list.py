"""The keys of a panel as a list of lines: a cap, what the key does, and at the end whether everywhere."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent, QPainter
from PySide6.QtWidgets import QStyle, QStyleOptionViewItem, QTreeWidget

from widgets.design.behaviour.key_lines import KeyLine
from widgets.design.behaviour.sentence_painting import GAP, MARGIN
from widgets.design.behaviour.sentences import translate
from widgets.face.key_cap import cap_legend, cap_width, paint_cap
from widgets.face.keypad import key_legend
from widgets.kit import palette
from widgets.kit.row_list import RowDelegate, RowList
from widgets.kit.scaling import scaled

LINE: Final = 30
WIDEST_CAP: Final = 96
"""Pixels at 100 per cent: a line, the widest key."""


class KeyList(RowList):
    """The lines: a key, what it does, and at the end whether everywhere, or that it can be used."""

    rule_wanted = Signal(str, int)
    """The sentence of this rule is wanted: its line was clicked, or Enter pressed on it."""
    key_wanted = Signal(str)
    """A free key is to be used."""
    told = Signal(str)
    """Why a key does something that no rule says."""

    def __init__(self) -> None:
        super().__init__()
        self.setFrameShape(QTreeWidget.Shape.NoFrame)
        self.setItemDelegate(_LineDelegate(self))
        self.viewport().setAutoFillBackground(False)
        self.cap = 0
        """Pixels of each key."""
        self.lines: list[KeyLine] = []
        """What is shown."""

    def show_uses(self, uses: list[KeyLine]) -> None:
        """Show these."""
        at = self.row()
        self.lines = uses
        self.clear()
        self.cap = min(
            max((cap_width(cap_legend(use.key), self.font()) for use in uses), default=0), scaled(WIDEST_CAP)
        )
        before = ""
        for use in uses:
            words = use.words or translate("Keys", "free")
            spoken = self.tr("Key {key}: {words}").format(key=key_legend(use.key), words=words)
            if use.everywhere:
                spoken = self.tr("{line}, everywhere").format(line=spoken)
            elif not use.words:
                spoken = self.tr("{line}. Enter uses it").format(line=spoken)
            self.add_row((use, use.key != before), spoken)
            before = use.key
        self.choose_row(min(max(at, 0), len(uses) - 1))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._want()
        else:
            super().keyPressEvent(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        super().mouseReleaseEvent(event)
        if self.itemAt(event.position().toPoint()) is not None:
            self._want()

    def _want(self) -> None:
        value = self.current_value()
        if isinstance(value, tuple):
            self.follow(value[0])

    def follow(self, use: KeyLine | None) -> None:
        """Ask for the sentence that says what a key does, or for one for a free key."""
        if use is None:
            return
        if use.place is not None:
            self.rule_wanted.emit(*use.place)
        elif not use.words:
            self.key_wanted.emit(use.key)
        else:
            words = self.tr(
                "The key '{key}' is the \u201cBegin key\u201d of the panel: it starts entry where a field allows it."
            )
            self.told.emit(words.format(key=use.key))


class _LineDelegate(RowDelegate):
    def sizeHint(self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> QSize:
        return QSize(super().sizeHint(option, index).width(), scaled(LINE))

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        value = index.data(Qt.ItemDataRole.UserRole)
        if not isinstance(value, tuple):
            return
        use, first = value
        view = self.parent()
        assert isinstance(view, KeyList)
        colours, font, rect = palette.current(), view.font(), option.rect
        painter.save()
        painter.setFont(font)
        metrics = painter.fontMetrics()
        if option.state & QStyle.StateFlag.State_Selected and view.hasFocus():
            painter.fillRect(rect, colours.colour("soft"))
        cap = QRect(rect.left() + scaled(MARGIN), rect.top() + scaled(4), view.cap, rect.height() - scaled(8))
        if first:
            paint_cap(
                painter, cap, metrics.elidedText(cap_legend(use.key), Qt.TextElideMode.ElideRight, cap.width()), font
            )
        end = translate("Keys", "everywhere") if use.everywhere else "" if use.words else translate("Keys", "+ Use it")
        right = rect.right() - scaled(MARGIN)
        if end:
            width = metrics.horizontalAdvance(end)
            painter.setPen(colours.colour("faint" if use.words else "accent"))
            room = QRect(right - width, rect.top(), width + 1, rect.height())
            painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, end)
            right = room.left() - scaled(GAP)
        left = cap.right() + scaled(10)
        painter.setPen(colours.colour("faint" if not use.words else "ink" if use.complete else "caution"))
        text = metrics.elidedText(use.words or translate("Keys", "free"), Qt.TextElideMode.ElideRight, right - left)
        painter.drawText(QRect(left, rect.top(), right - left, rect.height()), Qt.AlignmentFlag.AlignVCenter, text)
        painter.restore()
