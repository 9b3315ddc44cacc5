"""The signals beside the face: found by name, dragged onto the glass or placed at the cursor by Enter."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final

from PySide6.QtCore import (
    QAbstractListModel,
    QEvent,
    QItemSelection,
    QItemSelectionModel,
    QMimeData,
    QModelIndex,
    QObject,
    QPoint,
    QRect,
    QRectF,
    QSize,
    Qt,
    Signal,
)
from PySide6.QtGui import QAction, QDrag, QFont, QKeyEvent, QPainter, QPixmap
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHBoxLayout,
    QListView,
    QMenu,
    QSizePolicy,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QVBoxLayout,
    QWidget,
)

from app.project.model import Project
from widgets.design.forms.signal_picker import signal_origin
from widgets.design.tray.dropping import dragged
from widgets.kit import palette
from widgets.kit.elided import ShortLabel, search_box
from widgets.kit.fuzzy_match import best_first
from widgets.kit.icons import paint_icon, tool
from widgets.kit.own_keys import TRAY
from widgets.kit.plain import plain_label, plain_tip
from widgets.kit.scaling import scaled
from widgets.kit.tables import Index

ROW: Final = 26
GRIP: Final = 24
"""Pixels at 100 per cent: the height of a row, the room for the dots by which it is taken hold of."""
_NAME: Final = Qt.ItemDataRole.UserRole
_UNIT: Final = Qt.ItemDataRole.UserRole + 1


class SignalTray(QWidget):
    """Asks for what is to be done with the selected signals; it knows nothing of the screen under edit."""

    place_wanted = Signal(object, bool)
    """Names of signals to be placed at the cursor; True: the value only."""
    screens_wanted = Signal(object)
    """Names of signals of which screens are to be made."""
    signal_wanted = Signal(str)
    """This one in its table."""
    new_wanted = Signal(str)
    """A signal of this name, perhaps empty, that there is not yet."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._signals: object = None
        self.search = search_box(self.tr("Find a signal"), self.tr("Filter the signals beside the panel"))
        self._project: Project | None = None
        heading = plain_label(self.tr("Signals"), "heading")
        self.count = plain_label("", "faint")
        hint = ShortLabel(self.tr("drag onto the panel"))
        hint.setProperty("look", "faint")
        self.add_button = tool("plus", self.tr("Add a signal"), self, self.tr("Add a signal and define it"))
        self.add_button.clicked.connect(lambda: self.new_wanted.emit(self.search.text().strip()))
        self.search.textChanged.connect(lambda _text: self._narrow())
        self.search.installEventFilter(self)
        self.model = _Signals(self)
        self.list = _List()
        self.list.setModel(self.model)
        self.list.setAccessibleName(self.tr("Signals to place"))
        self.list.setAccessibleDescription(self.tr("Enter places them at the cursor, Ctrl+Enter the value only."))
        self.list.deed.connect(self._do)
        self.list.customContextMenuRequested.connect(self._menu)
        self.none = plain_label("", "faint", wrap=True)
        self.none.setAlignment(Qt.AlignmentFlag.AlignTop)
        head = QHBoxLayout()
        head.setContentsMargins(scaled(12), 0, scaled(8), 0)
        for part in (heading, self.count, hint):
            head.addWidget(part)
        head.setStretch(2, 1)
        head.addWidget(self.add_button)
        beneath = QVBoxLayout()
        beneath.setContentsMargins(scaled(12), 0, scaled(12), scaled(4))
        beneath.addWidget(self.search)
        beneath.addWidget(self.none)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, scaled(2), 0, 0)
        layout.setSpacing(scaled(4))
        layout.addLayout(head)
        layout.addLayout(beneath)
        layout.addWidget(self.list, 1)
        self._narrow()

    def show_project(self, project: Project) -> None:
        """List the signals of this project. Cheap where they are the same."""
        if self._signals is not project.signals:
            self._signals, self._project = project.signals, project
            self._narrow()

    def chosen(self) -> list[str]:
        """The selected signals in the order of the list, or the current one."""
        rows = sorted(index.row() for index in self.list.selectionModel().selectedIndexes())
        names = [self.model.names[row] for row in rows]
        current = self.list.currentIndex().row()
        return names or ([self.model.names[current]] if 0 <= current < len(self.model.names) else [])

    def choose(self, names: Sequence[str]) -> None:
        """Select these signals, as far as they are listed."""
        selection = QItemSelection()
        first = QModelIndex()
        for row, name in enumerate(self.model.names):
            if name in names:
                index = self.model.index(row)
                first = first if first.isValid() else index
                selection.select(index, index)
        self.list.setCurrentIndex(first)
        self.list.selectionModel().select(selection, QItemSelectionModel.SelectionFlag.ClearAndSelect)

    def _narrow(self) -> None:
        chosen, project, typed = self.chosen(), self._project, self.search.text()
        signals = () if project is None else project.signals
        if typed.strip() and project is not None:
            found = best_first(typed, signals, lambda each: each.name, lambda each: signal_origin(project, each.name))
        else:
            found = list(signals)
        self.model.show(project, [(each.name, each.unit) for each in found])
        self.choose([name for name in chosen if not typed] or self.model.names[:1])
        self.count.setText(str(len(signals)))
        self.none.setText(
            self.tr("No signals yet. Add one with +, or import a register list.")
            if not signals
            else self.tr("No signal of this name. + adds it.")
        )
        self.none.setVisible(not found)
        self.list.setVisible(bool(found))

    def _do(self, deed: str) -> None:
        names = self.chosen()
        if not names:
            return
        if deed in ("place", "value"):
            self.place_wanted.emit(names, deed == "value")
        elif deed == "screens":
            self.screens_wanted.emit(names)
        elif deed == "find":
            self.search.setFocus(Qt.FocusReason.ShortcutFocusReason)
            self.search.selectAll()

    def _menu(self, at: QPoint) -> None:
        names = self.chosen()
        if not names:
            return
        menu = QMenu(self)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        for text, deed, key in (
            (self.tr("Place at the cursor"), "place", "Return"),
            (self.tr("Place the value only"), "value", "Ctrl+Return"),
            (self.tr("A screen of these\u2026"), "screens", ""),
        ):
            action = QAction(text, menu)
            action.setShortcut(key)
            action.setShortcutContext(Qt.ShortcutContext.WidgetShortcut)
            action.setShortcutVisibleInContextMenu(True)
            action.triggered.connect(lambda _on=False, deed=deed: self._do(deed))
            menu.addAction(action)
        menu.addSeparator()
        menu.addAction(self.tr("Show in the table of signals"), lambda: self.signal_wanted.emit(names[0]))
        menu.popup(self.list.viewport().mapToGlobal(at))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """From the search, arrows lead through the list, and Enter places what is current there."""
        if watched is self.search and isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            ways = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1}
            way, count = ways.get(Qt.Key(event.key())), self.model.rowCount()
            if way is not None and count:
                at = min(max(self.list.currentIndex().row() + way, 0), count - 1)
                self.choose([self.model.names[at]])
                self.list.scrollTo(self.model.index(at))
                return True
            deed = TRAY.deed(event)
            if deed in ("place", "value"):
                self._do(deed)
                return True
            if event.key() == Qt.Key.Key_Escape and self.search.text():
                self.search.clear()
                return True
        elif (
            watched is self.search
            and isinstance(event, QKeyEvent)
            and event.type() == QEvent.Type.ShortcutOverride
            and TRAY.deed(event) == "value"
        ):
            event.accept()
            return True
        return super().eventFilter(watched, event)


class _Signals(QAbstractListModel):
    """Names and units, dragged as what the glass takes."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._project: Project | None = None
        self._listed: list[tuple[str, str]] = []
        self.names: list[str] = []

    def show(self, project: Project | None, listed: list[tuple[str, str]]) -> None:
        self.beginResetModel()
        self._project, self._listed = project, listed
        self.names = [name for name, _ in listed]
        self.endResetModel()

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008 - Qt's own default
        return 0 if parent.isValid() else len(self._listed)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if not index.isValid() or self._project is None:
            return None
        name, unit = self._listed[index.row()]
        if role in (Qt.ItemDataRole.DisplayRole, _NAME):
            return name
        if role == _UNIT:
            return unit
        if role in (Qt.ItemDataRole.ToolTipRole, Qt.ItemDataRole.AccessibleTextRole):
            told = ", ".join(part for part in (name, unit, signal_origin(self._project, name)) if part)
            return plain_tip(told) if role == Qt.ItemDataRole.ToolTipRole else told
        return None

    def flags(self, index: Index) -> Qt.ItemFlag:
        return super().flags(index) | Qt.ItemFlag.ItemIsDragEnabled | Qt.ItemFlag.ItemNeverHasChildren

    def mimeData(self, indexes: Sequence[QModelIndex]) -> QMimeData:
        return dragged([self.names[row] for row in sorted(index.row() for index in indexes)])


class _List(QListView):
    deed = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.setItemDelegate(_Delegate(self))
        self.setUniformItemSizes(True)
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.setDragEnabled(True)
        self.setDragDropMode(QAbstractItemView.DragDropMode.DragOnly)
        self.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Expanding)
        self.doubleClicked.connect(lambda _index: self.deed.emit("place"))

    def event(self, event: QEvent) -> bool:
        """Claim its keys before shortcuts of the window do."""
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent) and TRAY.deed(event):
            event.accept()
            return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        deed = TRAY.deed(event)
        if deed is None:
            super().keyPressEvent(event)
            return
        event.accept()
        self.deed.emit(deed)

    def startDrag(self, supported: Qt.DropAction) -> None:  # noqa: ARG002 - dragging here only ever copies
        rows = sorted(index.row() for index in self.selectedIndexes())
        if not rows:
            return
        drag = QDrag(self)
        drag.setMimeData(self.model().mimeData(self.selectedIndexes()))
        first = str(self.model().index(rows[0], 0).data(_NAME))
        chip = _chip(first if len(rows) == 1 else f"{first} +{len(rows) - 1}", self)
        drag.setPixmap(chip)
        drag.setHotSpot(QPoint(-scaled(10), -scaled(10)))  # what is under the pointer stays in sight
        drag.exec(Qt.DropAction.CopyAction)


def _chip(text: str, view: QWidget) -> QPixmap:
    """What hangs on the pointer while signals are dragged."""
    colours, metrics = palette.current(), view.fontMetrics()
    size = QSize(metrics.horizontalAdvance(text) + scaled(40), scaled(28))
    ratio = view.devicePixelRatioF()
    pixmap = QPixmap(size * ratio)
    pixmap.setDevicePixelRatio(ratio)
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(colours.colour("accent"))
    painter.setBrush(colours.colour("base"))
    painter.drawRoundedRect(QRectF(0.5, 0.5, size.width() - 1, size.height() - 1), 4, 4)
    paint_icon(painter, "grip", "faint", QRect(scaled(6), 0, scaled(14), size.height()))
    painter.setFont(view.font())
    painter.setPen(colours.colour("ink"))
    painter.drawText(
        QRect(scaled(GRIP), 0, size.width(), size.height()),
        Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft,
        text,
    )
    painter.end()
    return pixmap


class _Delegate(QStyledItemDelegate):
    """The grip, the name, and faintly the unit at the right."""

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:  # noqa: ARG002
        return QSize(scaled(80), max(scaled(ROW), option.fontMetrics.height() + 6))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        colours = palette.current()
        area = option.rect
        painter.save()
        option.widget.style().drawPrimitive(
            QStyle.PrimitiveElement.PE_PanelItemViewItem, option, painter, option.widget
        )
        paint_icon(painter, "grip", "faint", QRect(area.left() + scaled(8), area.top(), scaled(14), area.height()))
        unit = str(index.data(_UNIT) or "")
        metrics = option.fontMetrics
        words = area.adjusted(scaled(GRIP + 4), 0, -scaled(12), 0)
        painter.setFont(QFont(option.font))
        painter.setPen(colours.colour("faint"))
        painter.drawText(words, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, unit)
        room = words.width() - (metrics.horizontalAdvance(unit) + scaled(8) if unit else 0)
        painter.setPen(colours.colour("ink"))
        name = metrics.elidedText(str(index.data(_NAME)), Qt.TextElideMode.ElideRight, room)
        painter.drawText(words, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, name)
        painter.restore()
