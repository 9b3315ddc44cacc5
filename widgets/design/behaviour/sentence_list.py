"""The list of sentences: rows are painted, the chosen one has an editor over it."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QEvent, QItemSelectionModel, QModelIndex, QPersistentModelIndex, QPoint, QRect, Qt, Signal
from PySide6.QtGui import (
    QFocusEvent,
    QGuiApplication,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QResizeEvent,
)
from PySide6.QtWidgets import QAbstractItemView, QTreeView

from widgets.design.behaviour.rule_edits import RulePlace
from widgets.design.behaviour.sentence_editor import TEXT_LEFT, SentenceEditor
from widgets.design.behaviour.sentence_model import SentenceModel
from widgets.design.behaviour.sentence_painting import GRIP, ROW, WORDS, SentenceDelegate
from widgets.kit import palette
from widgets.kit.focus import stops_of
from widgets.kit.own_keys import TABLE
from widgets.kit.scaling import scaled

_OWN: Final[tuple[str | None, ...]] = (
    "move up",
    "move down",
    "duplicate",
    "delete rows",
    "duplicate rows",
    "copy",
    "narrow",
    "add",
    "delete",
)
_FLAG: Final = QItemSelectionModel.SelectionFlag


class SentenceList(QTreeView):
    """Arrows go from row to row, Tab into the words of the chosen one."""

    key = Signal(object)
    """A key went down that the list itself does not use (a QKeyEvent), to be accepted if it means something."""
    add_wanted = Signal(object, object)
    """The group, and where on the screen a menu may open."""
    moved = Signal(object, int)
    """A rule was dragged to a place among those that its order counts with: the place, and its number there."""
    chosen = Signal()
    """Another row is chosen."""
    gained_focus = Signal()

    def __init__(self, model: SentenceModel, editor: SentenceEditor) -> None:
        super().__init__()
        self.sentences = model
        self.editor = editor
        self._delegate = SentenceDelegate(self, model)
        self.setItemDelegate(self._delegate)
        self.setHeaderHidden(True)
        self.setRootIsDecorated(False)
        self.setIndentation(0)
        self.setExpandsOnDoubleClick(False)
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setTabKeyNavigation(False)
        self.setMouseTracking(True)
        self.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        self.setFrameShape(QTreeView.Shape.NoFrame)
        self._dragged: RulePlace | None = None
        self._drop_at: int | None = None
        self._word_pressed: tuple[QPersistentModelIndex, str] | None = None
        self._quiet = False
        self.setModel(model)
        editor.setParent(self.viewport())
        editor.hide()
        editor.ended.connect(lambda: self.setFocus(Qt.FocusReason.OtherFocusReason))
        editor.row_wanted.connect(self._go_on)
        editor.left.connect(self._leave)
        editor.resized.connect(self._fit_editor)
        self.verticalScrollBar().valueChanged.connect(lambda _value: self._put_editor())
        self.collapsed.connect(lambda _index: self.place_editor())
        self.expanded.connect(lambda _index: self.place_editor())
        model.modelReset.connect(self.expandAll)
        model.rowsInserted.connect(lambda parent, *_: self.expand(parent))

    # Which row is chosen

    def current_place(self) -> RulePlace | None:
        """Where the rule stands whose sentence is chosen."""
        row = self.sentences.row(self.currentIndex())
        return None if row is None else row.place

    def places(self) -> list[RulePlace]:
        """Those of all that are selected, from the top."""
        rows = [self.sentences.row(index) for index in sorted(self.selectedIndexes())]
        found = [row.place for row in rows if row is not None]
        place = self.current_place()
        return found or ([place] if place is not None else [])

    def choose(self, place: RulePlace) -> bool:
        """Choose a sentence, without telling. False if it is not shown."""
        index = self.sentences.index_of(place)
        if not index.isValid():
            return False
        self._quiet = True
        self.expand(index.parent())
        if index != self.currentIndex() or not self.selectionModel().isSelected(index):
            self.selectionModel().setCurrentIndex(index, _FLAG.ClearAndSelect)
        self._quiet = False
        self.place_editor()
        self.scrollTo(index)
        return True

    def currentChanged(self, now: QModelIndex, before: QModelIndex) -> None:  # type: ignore[override]
        super().currentChanged(now, before)
        self.place_editor()
        if not self._quiet:
            self.chosen.emit()

    def _go_on(self, way: int, slot: str) -> None:
        """To the next row or the one before, with the same word under edit if it has that."""
        index = self.currentIndex()
        while True:
            index = self.indexBelow(index) if way > 0 else self.indexAbove(index)
            if not index.isValid():
                return
            if self.sentences.row(index) is not None:
                break
        self.selectionModel().setCurrentIndex(index, _FLAG.ClearAndSelect)
        self.scrollTo(index)
        if slot in self.editor.words:
            self.editor.words[slot].box.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            self.editor.focus_first()

    # The editor over the chosen row

    def place_editor(self) -> None:
        """Put the editor over the row that is chosen, or away."""
        index = self.currentIndex()
        row = self.sentences.row(index)
        if row is None or not self.isExpanded(index.parent()):
            if self.editor.isAncestorOf(QGuiApplication.focusObject()):  # type: ignore[arg-type]
                self.setFocus(Qt.FocusReason.OtherFocusReason)
            self._edit_at(QModelIndex())
            self.editor.show_place(None)
            self.editor.hide()
            return
        self._edit_at(index)
        self.editor.show_place(row.place, self.sentences.note(row))
        self._fit_editor()
        self.editor.show()

    def _edit_at(self, index: QModelIndex) -> None:
        before = self._model_index(self._delegate.edited)
        if before == index:
            return
        self._delegate.edited = QPersistentModelIndex(index)
        # To change the height of one row takes a look at all of them, so it is only said where it changes.
        if self._delegate.edited_height > scaled(ROW):
            self._delegate.edited_height = scaled(ROW)
            self._delegate.sizeHintChanged.emit(before)

    def _fit_editor(self) -> None:
        """Give the chosen row the height that its words need."""
        index = self._delegate.edited
        if not index.isValid():
            return
        height = self.editor.height_at(self.viewport().width() - self._editor_left())
        if height != self._delegate.edited_height:
            self._delegate.edited_height = height
            self._delegate.sizeHintChanged.emit(self._model_index(index))
            self.executeDelayedItemsLayout()
            self.scrollTo(self._model_index(index))
        self._put_editor()

    def _model_index(self, index: QModelIndex | QPersistentModelIndex) -> QModelIndex:
        return self.sentences.index(index.row(), 0, index.parent()) if index.isValid() else QModelIndex()

    def _put_editor(self) -> None:
        index = self._delegate.edited
        if index.isValid():
            rect = self.visualRect(index)
            self.editor.setGeometry(rect.adjusted(self._editor_left(), 0, 0, -1))

    @staticmethod
    def _editor_left() -> int:
        """Where the editor begins, so that its words begin where those of other rows do."""
        return scaled(WORDS) - scaled(TEXT_LEFT)

    def updateGeometries(self) -> None:
        super().updateGeometries()
        self._put_editor()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit_editor()
        if self.editor.isVisible():
            self.scrollTo(self.currentIndex())

    def focusNextPrevChild(self, forward: bool) -> bool:
        """Tab goes into the chosen row, as one reads it."""
        if forward and self.hasFocus() and self.editor.isVisible():
            self.editor.enter()
            return True
        return super().focusNextPrevChild(forward)

    def _leave(self, forward: bool) -> None:
        if not forward:
            self.setFocus(Qt.FocusReason.BacktabFocusReason)
            return
        stops = list(stops_of(self.window()))
        inside = [place for place, stop in enumerate(stops) if stop is self or self.isAncestorOf(stop)]
        if inside:
            stops[(inside[-1] + 1) % len(stops)].setFocus(Qt.FocusReason.TabFocusReason)

    # Keys and mouse

    def keyPressEvent(self, event: QKeyEvent) -> None:
        index = self.currentIndex()
        if not event.modifiers() and event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_F2):
            if self.sentences.row(index) is not None:
                self.editor.focus_first()
            elif index.isValid():
                self.setExpanded(index, not self.isExpanded(index))
            return
        event.ignore()
        self.key.emit(event)
        if not event.isAccepted():
            super().keyPressEvent(event)

    def event(self, event: QEvent) -> bool:
        """Keep keys for the list that are shortcuts elsewhere in the window."""
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.ShortcutOverride and TABLE.deed(event) in _OWN:
            event.accept()
            return True
        return super().event(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        if not self.currentIndex().isValid():
            groups = [self.sentences.index(at, 0) for at in range(self.sentences.rowCount())]
            first = next((group for group in groups if self.sentences.rowCount(group)), QModelIndex())
            self.setCurrentIndex(self.sentences.index(0, 0, first))
        super().focusInEvent(event)
        self.gained_focus.emit()
        self.viewport().update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.viewport().update()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        point = event.position().toPoint()
        index = self.indexAt(point)
        self._word_pressed = None
        left = event.button() == Qt.MouseButton.LeftButton
        if index.isValid() and self.sentences.row(index) is None:
            if left:
                self.setFocus(Qt.FocusReason.MouseFocusReason)
                if self._delegate.add_rect(self.visualRect(index)).contains(point):
                    self._add_in(index)
                else:
                    self.setExpanded(index, not self.isExpanded(index))
            return
        if index.isValid() and left and not event.modifiers():
            if point.x() < scaled(GRIP) and self._may_drag(index):
                row = self.sentences.row(index)
                self._dragged = None if row is None else row.place
            word = self._delegate.word_at(index, point.x())
            if word and index != self.currentIndex():
                self._word_pressed = (QPersistentModelIndex(index), word)
        super().mousePressEvent(event)

    def _add_in(self, index: QModelIndex) -> None:
        rect = self._delegate.add_rect(self.visualRect(index))
        self.add_wanted.emit(self.sentences.group(index), self.viewport().mapToGlobal(rect.bottomLeft()))

    def add_here(self) -> None:
        """Add to the group in which the current row is."""
        index = self.currentIndex()
        group = index.parent() if index.parent().isValid() else index
        self._add_in(group if group.isValid() else self.sentences.index(self.sentences.rowCount() - 2, 0))

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        dragged, to, self._dragged, self._drop_at = self._dragged, self._drop_at, None, None
        if dragged is not None and to is not None:
            self.viewport().update()
            self.moved.emit(dragged, to)
            return
        super().mouseReleaseEvent(event)
        pressed, self._word_pressed = self._word_pressed, None
        if pressed is not None and pressed[0] == self.currentIndex():
            self.editor.open_word(pressed[1])

    # Order by the mouse

    def _may_drag(self, index: QModelIndex) -> bool:
        row = self.sentences.row(index)
        return row is not None and row.rule.when is not None and not self.sentences.edits.begun.keeps(row.rule)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._dragged is None or not event.buttons() & Qt.MouseButton.LeftButton:
            over = self.indexAt(event.position().toPoint())
            grip = event.position().x() < scaled(GRIP) and over.isValid() and self._may_drag(over)
            self.viewport().setCursor(Qt.CursorShape.OpenHandCursor if grip else Qt.CursorShape.ArrowCursor)
            if not event.buttons():
                super().mouseMoveEvent(event)
            return
        self._drop_at = self._slot_at(event.position().toPoint())
        self.viewport().update()

    def _slot_at(self, point: QPoint) -> int | None:
        """Before which of the rows among which the dragged one can move the pointer is."""
        if self._dragged is None:
            return None
        others = [place for place in self.sentences.counting(self._dragged) if place != self._dragged]
        rects = [self.visualRect(self.sentences.index_of(place)) for place in others]
        return next((at for at, rect in enumerate(rects) if point.y() < rect.center().y()), len(rects))

    def _drop_line(self) -> QRect | None:
        if self._dragged is None or self._drop_at is None:
            return None
        others = [place for place in self.sentences.counting(self._dragged) if place != self._dragged]
        if not others:
            return None
        last = self._drop_at >= len(others)
        rect = self.visualRect(self.sentences.index_of(others[-1 if last else self._drop_at]))
        return QRect(rect.left(), rect.bottom() if last else rect.top(), rect.width(), 0)

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        line = self._drop_line()
        if line is not None:
            painter = QPainter(self.viewport())
            painter.setPen(QPen(palette.current().colour("accent"), 3))
            painter.drawLine(line.left(), line.top(), line.left() + line.width(), line.top())
