"""Choosing curves: a list that stays open while one after another is ticked, narrowed by words as they are typed."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, Final

from PySide6.QtCore import QAbstractListModel, QEvent, QModelIndex, QObject, QPoint, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QListView, QVBoxLayout, QWidget

from widgets.kit.elided import search_box
from widgets.kit.plain import plain_label
from widgets.kit.scaling import scaled
from widgets.kit.tables import Index

SIZE: Final = (300, 380)
"""Pixels at 100 per cent."""
_ROOT: Final = QModelIndex()
_Role = Qt.ItemDataRole


class CurvePicker(QFrame):
    """Pops up below what opened it. Each tick is told at once; Esc, or a click elsewhere, ends it."""

    chosen = Signal(object)
    """The curves that are ticked, a tuple of names: those that were, in their order, and the new one behind them."""

    def __init__(self, most: int, parent: QWidget | None = None) -> None:
        """Not more than `most` curves can be ticked."""
        super().__init__(parent, Qt.WindowType.Popup)
        self.setFrameShape(QFrame.Shape.StyledPanel)
        self.model = _Names(self._toggle)
        self._most = most
        self.filter = search_box(self.tr("Search"), self.tr("Search for a curve"))
        self.list = QListView()
        self.list.setModel(self.model)
        self.list.setUniformItemSizes(True)
        self.list.setAccessibleName(self.tr("Curves that can be shown"))
        self._count = plain_label("", "faint")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(scaled(8), scaled(8), scaled(8), scaled(8))
        for widget in (self.filter, self.list, self._count):
            layout.addWidget(widget)
        self.filter.textChanged.connect(self._narrow)
        self.filter.installEventFilter(self)
        self.list.installEventFilter(self)

    def open_below(self, widget: QWidget, names: Sequence[str], shown: Sequence[str]) -> None:
        """Offer these names; those that are `shown` are ticked."""
        self.model.offer(names, shown)
        self.filter.clear()
        self._say()
        room = self.screen().availableGeometry() if widget.screen() is None else widget.screen().availableGeometry()
        self.resize(min(scaled(SIZE[0]), room.width()), min(scaled(SIZE[1]), room.height()))
        at = widget.mapToGlobal(QPoint(0, widget.height()))
        self.move(min(at.x(), room.right() - self.width()), min(at.y(), room.bottom() - self.height()))
        self.show()
        self.filter.setFocus()

    def _narrow(self, text: str) -> None:
        self.model.narrow(tuple(text.casefold().split()))
        self.list.setCurrentIndex(self.model.index(0, 0))

    def _toggle(self, name: str) -> None:
        shown = self.model.ticked
        if name not in shown and len(shown) >= self._most:
            self._say(full=True)
            return
        self.model.tick(tuple(each for each in shown if each != name) if name in shown else (*shown, name))
        self._say()
        self.chosen.emit(self.model.ticked)

    def _say(self, *, full: bool = False) -> None:
        words = self.tr("{count} of {most} curves: remove one first") if full else self.tr("{count} of {most} curves")
        self._count.setText(words.format(count=len(self.model.ticked), most=self._most))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Arrows lead from the words into the list; Enter ticks, as Space does in the list."""
        if not isinstance(event, QKeyEvent) or event.type() != QEvent.Type.KeyPress:
            return False
        key = event.key()
        if key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            index = self.list.currentIndex()
            if index.isValid():
                self._toggle(self.model.name(index.row()))
            return True
        if watched is self.filter and key in (Qt.Key.Key_Down, Qt.Key.Key_Up):
            self.list.setFocus()
            if not self.list.currentIndex().isValid():
                self.list.setCurrentIndex(self.model.index(0, 0))
            return True
        return False


class _Names(QAbstractListModel):
    """Names with ticks, those that have all words of a search."""

    def __init__(self, toggle: Callable[[str], None]) -> None:
        super().__init__()
        self._toggle = toggle
        self._all: tuple[str, ...] = ()
        self._within: tuple[str, ...] = ()
        self.ticked: tuple[str, ...] = ()

    def offer(self, names: Sequence[str], ticked: Sequence[str]) -> None:
        """Offer these."""
        self.beginResetModel()
        self._all = self._within = tuple(names)
        self.ticked = tuple(ticked)
        self.endResetModel()

    def narrow(self, words: Sequence[str]) -> None:
        """Offer those with all of these words, in small letters."""
        self.beginResetModel()
        self._within = tuple(name for name in self._all if all(word in name.casefold() for word in words))
        self.endResetModel()

    def tick(self, names: tuple[str, ...]) -> None:
        """Tick these and no others."""
        self.ticked = names
        self.dataChanged.emit(self.index(0, 0), self.index(max(0, len(self._within) - 1), 0))

    def name(self, row: int) -> str:
        """The name in a row."""
        return self._within[row]

    def rowCount(self, parent: Index = _ROOT) -> int:
        return 0 if parent.isValid() else len(self._within)

    def flags(self, index: Index) -> Qt.ItemFlag:
        return super().flags(index) | Qt.ItemFlag.ItemIsUserCheckable

    def data(self, index: Index, role: int = _Role.DisplayRole) -> Any:
        name = self._within[index.row()]
        if role == _Role.DisplayRole:
            return name
        if role == _Role.CheckStateRole:
            return Qt.CheckState.Checked if name in self.ticked else Qt.CheckState.Unchecked
        return None

    def setData(self, index: Index, _value: Any, role: int = _Role.EditRole) -> bool:
        if role != _Role.CheckStateRole:
            return False
        self._toggle(self._within[index.row()])
        return True
