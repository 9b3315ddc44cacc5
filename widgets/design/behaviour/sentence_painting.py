"""Painting of sentences: fixed words plain, words that can be changed dotted, keys as caps; and which word is where."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetrics, QPainter, QPen
from PySide6.QtWidgets import QApplication, QStyle, QStyledItemDelegate, QStyleOptionViewItem, QTreeView

from widgets.design.behaviour.sentence_model import SentenceGroup, SentenceModel, SentenceRow
from widgets.design.behaviour.sentences import SentencePart, Word, cause_of
from widgets.face.key_cap import cap_width, paint_cap
from widgets.kit import palette
from widgets.kit.icons import STATES, paint_icon
from widgets.kit.scaling import scaled

ROW: Final = 40
HEAD: Final = 36
"""Pixels at 100 per cent: the height of a sentence and of a heading."""
GRIP: Final = 18
"""At the left of each row, where those whose order counts are taken hold of."""
ICON: Final = 16
GAP: Final = 6
MARGIN: Final = 8
WORDS: Final = GRIP + ICON + MARGIN
"""Pixels to the first word."""
_STRONG: Final = ("to", "target", "signal", "held", "number", "value", "idle")
"""Words that stand out: what a sentence is about."""
CAUSES: Final = {"key": "keyboard", "when": "condition", "idle": "time"}
"""The icon of what brings a rule about."""
PlacedPieces = list[tuple[SentencePart, QRect]]


class SentenceDelegate(QStyledItemDelegate):
    """Paints headings and sentences. The row that is edited is left to its editors; `edited_height` is theirs."""

    def __init__(self, view: QTreeView, model: SentenceModel) -> None:
        super().__init__(view)
        self._view = view
        self._model = model
        self.edited: QModelIndex | QPersistentModelIndex = QModelIndex()
        self.edited_height = scaled(ROW)

    def sizeHint(self, _option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> QSize:
        if not index.parent().isValid():
            return QSize(0, scaled(HEAD))
        height = scaled(ROW)
        return QSize(0, max(height, self.edited_height) if index == self.edited else height)

    def placed(self, row: SentenceRow, rect: QRect, font: QFont) -> PlacedPieces:
        """The pieces of a sentence with their places in a row."""
        strong = QFont(font)
        strong.setWeight(QFont.Weight.DemiBold)
        plain, bold = QFontMetrics(font), QFontMetrics(strong)
        left = rect.left() + scaled(WORDS)
        right = rect.right() - scaled(MARGIN)
        found: PlacedPieces = []
        high = plain.height() + 4
        top = rect.top() + (rect.height() - high) // 2
        for piece in self._model.pieces(row):
            if isinstance(piece, str):
                if piece[0] in ",:" and found:
                    left -= scaled(GAP)
                width = plain.horizontalAdvance(piece)
            elif piece.slot == "key" and not piece.empty:
                width = cap_width(piece.shown, font)
            else:
                width = (bold if piece.slot in _STRONG else plain).horizontalAdvance(piece.shown)
            width = min(width, right - left)
            if width <= 0:
                break
            found.append((piece, QRect(left, top, width, high)))
            left += width + scaled(GAP)
        return found

    def word_at(self, index: QModelIndex, x: int) -> str:
        """The word that can be changed at a place of a row; empty: none."""
        row = self._model.row(index)
        if row is None:
            return ""
        for piece, rect in self.placed(row, self._view.visualRect(index), self._view.font()):
            if isinstance(piece, Word) and rect.left() - 2 <= x <= rect.right() + 2:
                return piece.slot
        return ""

    def add_rect(self, rect: QRect) -> QRect:
        """Where a heading offers to add."""
        width = QFontMetrics(self._view.font()).horizontalAdvance(self.tr("Add")) + scaled(ICON + GAP + 2 * MARGIN)
        return QRect(rect.right() - width - scaled(MARGIN), rect.top() + scaled(4), width, rect.height() - scaled(8))

    # Painting

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        row = self._model.row(index)
        painter.save()
        painter.setFont(self._view.font())
        if row is None:
            self._paint_heading(painter, option, index, self._model.group(index))
        else:
            self._paint_row(painter, option, index, row)
        painter.restore()

    def _paint_heading(
        self,
        painter: QPainter,
        option: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
        group: SentenceGroup,
    ) -> None:
        colours, rect = palette.current(), option.rect
        painter.fillRect(rect, colours.colour("pane"))
        _hairline(painter, rect, colours.colour("line"))
        if index == self._view.currentIndex() and self._view.hasFocus():
            painter.setPen(QPen(colours.colour("accent"), 2))
            painter.drawRect(rect.adjusted(1, 1, -1, -1))
        if group.rows:
            name = "chevron-down" if self._view.isExpanded(index) else "chevron-right"
            paint_icon(painter, name, "ink", _square(rect, rect.left() + scaled(GRIP - 6)))
        strong = QFont(self._view.font())
        strong.setWeight(QFont.Weight.DemiBold)
        painter.setFont(strong)
        painter.setPen(colours.colour("ink"))
        left = rect.left() + scaled(GRIP + MARGIN + 6)
        add = self.add_rect(rect)
        title = self._model.title(group)
        metrics = QFontMetrics(strong)
        title = metrics.elidedText(title, Qt.TextElideMode.ElideRight, add.left() - left - scaled(40))
        room = QRect(left, rect.top(), add.left() - left, rect.height())
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, title)
        painter.setFont(self._view.font())
        painter.setPen(colours.colour("faint"))
        room.setLeft(left + metrics.horizontalAdvance(title) + scaled(GAP))
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, str(len(group.rows)))
        if option.state & QStyle.StateFlag.State_MouseOver:
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(colours.colour("hover"))
            painter.drawRoundedRect(add, 4, 4)
        paint_icon(painter, "plus", "ink", _square(add, add.left() + scaled(MARGIN)))
        painter.setPen(colours.colour("ink"))
        painter.drawText(
            add.adjusted(scaled(MARGIN + ICON + GAP), 0, 0, 0), Qt.AlignmentFlag.AlignVCenter, self.tr("Add")
        )

    def _paint_row(
        self,
        painter: QPainter,
        option: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
        row: SentenceRow,
    ) -> None:
        colours, rect = palette.current(), option.rect
        selected = bool(option.state & QStyle.StateFlag.State_Selected)
        painter.fillRect(rect, colours.colour("soft" if selected else "base"))
        _hairline(painter, rect, colours.colour("line"))
        if selected:
            bar = "accent" if self._has_focus() else "edge"
            painter.fillRect(QRect(rect.left(), rect.top(), scaled(3), rect.height()), colours.colour(bar))
        if row.rule.when is not None:
            paint_icon(painter, "grip", "off", _square(rect, rect.left() + scaled(3)))
        if index == self.edited:
            return
        faint = colours.colour("faint")
        paint_icon(painter, CAUSES[cause_of(row.rule)], "faint", _square(rect, rect.left() + scaled(GRIP)))
        words, state = self._model.note(row)
        room = rect
        if words:
            room = rect.adjusted(0, 0, -self._paint_note(painter, rect, words, state), 0)
        self._paint_words(painter, self.placed(row, room, self._view.font()), faint)

    def _has_focus(self) -> bool:
        focus = QApplication.focusWidget()
        return focus is not None and (focus is self._view or self._view.isAncestorOf(focus))

    def _paint_words(self, painter: QPainter, placed: Sequence[tuple[SentencePart, QRect]], faint: QColor) -> None:
        colours, font = palette.current(), self._view.font()
        strong = QFont(font)
        strong.setWeight(QFont.Weight.DemiBold)
        elide = Qt.TextElideMode.ElideRight
        for piece, rect in placed:
            if isinstance(piece, Word) and piece.slot == "key" and not piece.empty:
                paint_cap(painter, rect.adjusted(0, -1, 0, 1), piece.shown, font)
                continue
            bold = isinstance(piece, Word) and piece.slot in _STRONG and not piece.empty
            painter.setFont(strong if bold else font)
            empty = isinstance(piece, Word) and piece.empty
            painter.setPen(colours.colour("caution" if empty else "ink"))
            text = piece if isinstance(piece, str) else piece.shown
            metrics = painter.fontMetrics()
            painter.drawText(rect, Qt.AlignmentFlag.AlignVCenter, metrics.elidedText(text, elide, rect.width() + 1))
            if isinstance(piece, Word):
                painter.setPen(QPen(faint, 1, Qt.PenStyle.DotLine))
                painter.drawLine(rect.left(), rect.bottom(), rect.right(), rect.bottom())

    def _paint_note(self, painter: QPainter, rect: QRect, words: str, state: str) -> int:
        """Say it at the end of the row. Returns the pixels that it takes."""
        colours = palette.current()
        colour = colours.colour("faint" if state == "note" else state)
        metrics = QFontMetrics(self._view.font())
        most = rect.width() * 2 // 5
        text = metrics.elidedText(words, Qt.TextElideMode.ElideRight, most)
        width = metrics.horizontalAdvance(text)
        room = QRect(rect.right() - scaled(MARGIN) - width, rect.top(), width + 1, rect.height())
        painter.setPen(colour)
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, text)
        square = _square(rect, room.left() - scaled(ICON + GAP))
        sign = {"fault": "alarm"}.get(state, state)
        paint_icon(painter, f"state-{sign}", STATES[sign], square)
        return rect.right() - square.left() + scaled(MARGIN)


def _hairline(painter: QPainter, rect: QRect, colour: QColor) -> None:
    painter.fillRect(rect.left(), rect.bottom(), rect.width(), 1, colour)


def _square(rect: QRect, left: int) -> QRect:
    """The place of an icon in a row."""
    side = scaled(ICON)
    return QRect(left, rect.top() + (rect.height() - side) // 2, side, side)
