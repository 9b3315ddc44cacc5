"""Editing a cell in place: checked as one types, completed from what there is, told in words what is wrong."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final

from PySide6.QtCore import QEvent, QObject, QPoint, QRect, Qt, QTimer, Signal
from PySide6.QtGui import QFontMetrics, QKeyEvent, QPainter, QPen
from PySide6.QtWidgets import (
    QAbstractItemView,
    QApplication,
    QCompleter,
    QFrame,
    QHBoxLayout,
    QLineEdit,
    QStyle,
    QStyleOptionViewItem,
    QWidget,
)

from widgets.design.tables.part_grid import PartGrid
from widgets.design.tables.part_model import PartModel
from widgets.kit import palette
from widgets.kit.controls import completions_list
from widgets.kit.icons import STATES, paint_icon
from widgets.kit.look import set_look
from widgets.kit.own_keys import CELL
from widgets.kit.plain import plain_label
from widgets.kit.quick_cells import QuickCells
from widgets.kit.scaling import heading_margin, scaled
from widgets.kit.tables import Index

WORDS_WIDTH: Final = 340
FEW_CHOICES: Final = 12
"""Up to so many choices are found by their beginnings, more of them by any part."""
LEAST_WIDTH: Final = 90
SIGN: Final = 14
"""Of the sign before a row, in pixels at 100 per cent."""
LIST_WIDTH: Final = 300
"""The most that the list of choices is made wider than its cell for."""
LIST_EDGES: Final = 34
"""What it needs beside its texts: frame, padding and scroll bar."""


@dataclass(frozen=True, slots=True)
class CellWays:
    """What the editor of a cell asks for: why a text cannot stand there (empty: it can), what could stand there, and
    taking a text over."""

    refusal: Callable[[int, int, str], str]
    completions: Callable[[int, int], Sequence[str]]
    take: Callable[[int, int, str], object]


class CellEditor(QLineEdit):
    """The text of one cell. Enter and Tab are kept back while it is wrong; the words under it say why."""

    done = Signal(str)
    """`enter`, `enter up`, `tab`, `back tab`, `all` (Ctrl+Enter) or `escape`."""

    def __init__(self, parent: QWidget, refusal: Callable[[str], str], completions: Sequence[str], name: str) -> None:
        super().__init__(parent)
        self.refusal = refusal
        self.setFrame(False)
        self.setAccessibleName(name)
        self.setTextMargins(3, 0, 3, 0)
        self.words = _Words(parent)
        self.destroyed.connect(self.words.deleteLater)
        self._name = name
        self._first_text = ""
        self._choices: QAbstractItemView | None = None
        if completions:
            completer = QCompleter(list(dict.fromkeys(completions)), self)
            completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
            many = len(completions) > FEW_CHOICES
            completer.setFilterMode(Qt.MatchFlag.MatchContains if many else Qt.MatchFlag.MatchStartsWith)
            completer.setMaxVisibleItems(FEW_CHOICES)
            widest = self.fontMetrics().horizontalAdvance(max(completions, key=len)) + scaled(LIST_EDGES)
            self._choices = completions_list(completer)
            self._choices.setMinimumWidth(min(widest, scaled(LIST_WIDTH)))
            self.setCompleter(completer)
        self.textChanged.connect(lambda _text: self.judge())

    def give(self, text: str) -> None:
        """Begin with this text, unless somebody has changed what stood there."""
        if not self.changed:
            self._first_text = text
            self.setText(text)

    @property
    def changed(self) -> bool:
        """Whether another text stands there than was given: typed, or taken from the list of choices."""
        return self.text() != self._first_text

    def judge(self) -> bool:
        """Say what is wrong with what stands there. True if nothing is."""
        reason = self.refusal(self.text())
        set_look(self, "wrong" if reason else "cell")
        self.setAccessibleDescription(reason)
        self.words.say(reason, self.geometry())
        return not reason

    def leaves_by(self, event: QKeyEvent) -> bool:
        """Whether a key leaves the cell, or asks for what could stand there; then it is done."""
        deed = CELL.deed(event)
        if deed == "choose":
            self.offer_all()
        elif deed is not None and deed != "begin":
            self.done.emit(deed)
        else:
            return False
        return True

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Leave the cell also by a key that the open list of choices hands on; by itself it would only close."""
        if self._choices is not None and self._choices.isVisible() and event.key() in _LEAVING:
            self._choices.hide()
            if self.leaves_by(event):
                return
        super().keyPressEvent(event)

    def offer_all(self) -> None:
        """Open the list of what can stand there, if there is one."""
        completer = self.completer()
        if completer is not None:
            completer.setCompletionPrefix("" if self.hasSelectedText() else self.text())
            completer.complete()


class _Words(QFrame):
    """Why the text of a cell cannot be taken, under the cell or over it. Takes no focus and no clicks."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setProperty("look", "notice")
        self.setAutoFillBackground(True)
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.text = plain_label(wrap=True)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(8, 3, 8, 3)
        layout.addWidget(self.text)
        self.hide()

    def say(self, reason: str, cell: QRect) -> None:
        if not reason:
            self.hide()
            return
        self.text.setText(reason)
        parent = self.parentWidget()
        room = parent.size() if parent is not None else self.size()
        wanted = self.text.fontMetrics().horizontalAdvance(reason) + 34
        width = min(wanted, scaled(WORDS_WIDTH), room.width() - 8)
        height = max(self.heightForWidth(width), self.sizeHint().height() if wanted <= width else 0)
        place = QPoint(max(4, min(cell.left(), room.width() - width - 4)), cell.bottom() + 3)
        if place.y() + height > room.height() and cell.top() - height - 3 >= 0:
            place.setY(cell.top() - height - 3)
        self.setGeometry(place.x(), place.y(), width, height)
        self.show()
        self.raise_()


class CellDelegate(QuickCells):
    """Draws the cells of a table of parts, and edits them."""

    done = Signal(int, int, str, str)
    """The row and column of a cell that was edited, its text, and how it was left; see CellEditor.done."""

    def __init__(self, view: PartGrid, model: PartModel, ways: CellWays | None) -> None:
        super().__init__(view, model.cell)
        self._view = view
        self._model = model
        self._ways = ways
        self._left = False

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """One cell, with a frame if it is the current one; the row of a cell that is selected alone is marked whole."""
        view = self._view
        if self._ways is not None and index.row() == view.currentIndex().row() and view.one_cell():
            option.state |= QStyle.StateFlag.State_Selected
        super().paint(painter, option, index)
        if self._ways is None or index != self._view.currentIndex() or not self._view.hasFocus():
            return
        painter.setPen(QPen(palette.current().colour("accent"), 2))
        painter.drawRect(option.rect.adjusted(1, 1, -1, -1))

    def draw(
        self, painter: QPainter, rect: QRect, metrics: QFontMetrics, row: int, column: int, *, selected: bool = False
    ) -> None:
        """The text of a cell; the first one has the sign of its row before it, and stands further in where the part
        belongs to another.
        """
        if column == 0:
            side, left = scaled(SIGN), rect.left() + heading_margin()
            if sign := self._model.sign(row):
                name, colour = ("plus", "faint") if sign == "add" else (f"state-{sign}", STATES[sign])
                paint_icon(painter, name, colour, QRect(left, rect.top(), side, rect.height()))
            if sign or self._model.inset(row):
                rect = rect.adjusted(side + scaled(6), 0, 0, 0)
            if sign == "add":
                rect.setRight(self._view.viewport().width())  # the other cells of its row are empty
        super().draw(painter, rect, metrics, row, column, selected=selected)

    def createEditor(self, parent: QWidget, option: QStyleOptionViewItem, index: Index) -> QWidget:  # noqa: ARG002
        ways, row, column = self._ways, index.row(), index.column()
        assert ways is not None  # no cell is editable without
        editor = CellEditor(
            parent,
            lambda text: ways.refusal(row, column, text),
            ways.completions(row, column),
            self._model.columns[column].title,
        )
        self._left = False
        editor.done.connect(lambda way: self._leave(editor, row, column, way))
        return editor

    def _leave(self, editor: CellEditor, row: int, column: int, way: str) -> None:
        if way != "escape" and not editor.judge():
            return
        self._left = True
        text = editor.text()
        editor.words.hide()
        self.closeEditor.emit(editor)
        self._view.setFocus(Qt.FocusReason.OtherFocusReason)
        self.done.emit(row, column, text, way)

    def setEditorData(self, editor: QWidget, index: Index) -> None:
        """The text as it is edited, ready to be typed over."""
        if isinstance(editor, CellEditor):
            editor.give(str(index.data(Qt.ItemDataRole.EditRole) or ""))
            if QApplication.mouseButtons() & Qt.MouseButton.LeftButton:
                # Whoever clicks has the mouse in the hand; who types is offered what fits what is typed.
                QTimer.singleShot(0, editor, editor.offer_all)

    def setModelData(self, editor: QWidget, _model: object, index: Index) -> None:
        """The editor was left for something else: take the text over as it is, right or wrong."""
        if self._ways is not None and not self._left and isinstance(editor, CellEditor):
            self._left = True
            editor.words.hide()
            if editor.changed:
                self._ways.take(index.row(), index.column(), editor.text())

    def updateEditorGeometry(self, editor: QWidget, option: QStyleOptionViewItem, index: Index) -> None:  # noqa: ARG002
        """As wide as the cell, and wide enough to type in."""
        rect: QRect = option.rect
        width = max(rect.width(), scaled(LEAST_WIDTH))
        viewport = self._view.viewport().width()
        left = max(0, min(rect.left(), viewport - width))
        editor.setGeometry(left, rect.top(), width, rect.height())

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Leave the keys to the editor, which knows more about them than Qt's own filter."""
        if event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            return isinstance(watched, CellEditor) and watched.leaves_by(event)
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent) and event.key() in _OURS:
            event.accept()
            return True
        return super().eventFilter(watched, event)


_LEAVING: Final = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Tab, Qt.Key.Key_Backtab)
"""Keys that accept what stands in a cell."""
_OURS: Final = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Escape, Qt.Key.Key_Down, Qt.Key.Key_Delete)
"""Keys that belong to a cell that is edited, and not to the shortcuts of the window."""
