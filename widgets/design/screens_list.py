"""The list of screens: order, names, and marks for what stands out."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from PySide6.QtCore import (
    QItemSelectionModel,
    QPersistentModelIndex,
    QPoint,
    QRect,
    QSize,
    Qt,
    Signal,
    SignalInstance,
)
from PySide6.QtGui import QAction, QColor, QDropEvent, QFont, QKeyEvent, QPainter
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHBoxLayout,
    QListWidget,
    QListWidgetItem,
    QMenu,
    QSizePolicy,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from widgets.face.colours import face_colours
from widgets.face.thumbnails import Thumbnails, ThumbnailStyle
from widgets.kit import palette
from widgets.kit.commands import Keys, command
from widgets.kit.icons import tool
from widgets.kit.own_keys import SCREENS
from widgets.kit.plain import plain_label, plain_tip
from widgets.kit.scaling import percent, scaled
from widgets.kit.tables import Index

_NAME: Final = Qt.ItemDataRole.UserRole
_MARKS: Final = Qt.ItemDataRole.UserRole + 1
_CAUTION: Final = Qt.ItemDataRole.UserRole + 2
ListedScreen = tuple[str, tuple[str, ...], bool]
"""Name, marks in words, whether a mark is a caution."""
THUMB_ROOM: Final = QSize(96, 44)
ROW: Final = 54
"""Pixels of a screen in the list, at 100 per cent."""


class ScreensList(QWidget):
    """All screens in the order of the file. Asks for edits by signals; shows what it is given."""

    chosen = Signal(str)
    opened = Signal(str)
    """Enter or double click: go on to its face."""
    add_wanted = Signal()
    duplicate_wanted = Signal(str)
    delete_wanted = Signal(str)
    delete_several_wanted = Signal(object)
    """A list of names."""
    copy_wanted = Signal(object)
    """A list of names: onto the clipboard."""
    paste_wanted = Signal()
    """The screens on the clipboard, behind the current one."""
    move_wanted = Signal(str, int)
    """To this place, counted from 0."""
    rename_wanted = Signal(str, str)
    start_wanted = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        heading = plain_label(self.tr("Screens"), "heading")
        self.count = plain_label("", "faint")
        self.add_button = tool("plus", self.tr("Add a screen"), self, self.tr("Add a screen (Insert)"))
        self.copy_button = tool("copy", self.tr("Duplicate the screen"), self, self.tr("Duplicate the screen (Ctrl+D)"))
        self.more_button = tool("more", self.tr("More that can be done with screens"), self)
        self.more_button.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        self.more_button.setMenu(QMenu(self.more_button))
        bar = QHBoxLayout()
        bar.setContentsMargins(scaled(12), scaled(4), scaled(8), scaled(4))
        bar.setSpacing(scaled(8))
        bar.addWidget(heading)
        bar.addWidget(self.count)
        bar.addStretch(1)
        for button in (self.add_button, self.copy_button, self.more_button):
            bar.addWidget(button)
        # Where the pane is at its narrowest beside large texts; the command stands in the list of the others too.
        self.copy_button.setHidden(100 < percent() < 150)
        self.list = _List()
        self.list.setAccessibleName(self.tr("Screens"))
        self.thumbs = Thumbnails(self._in_view, self)
        self.thumbs.painted.connect(self._repaint)
        self.list.setItemDelegate(_Delegate(self.list, self.thumbs))
        self.list.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.list.setDragDropMode(QAbstractItemView.DragDropMode.InternalMove)
        self.list.setEditTriggers(QAbstractItemView.EditTrigger.EditKeyPressed)
        self.list.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Expanding)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addLayout(bar)
        layout.addWidget(self.list, 1)
        self._filling = False
        self._listed: list[ListedScreen] = []
        self._full_size = QSize()
        self.add_button.clicked.connect(self.add_wanted)
        self.copy_button.clicked.connect(lambda: self._of_current(self.duplicate_wanted))
        self.list.currentItemChanged.connect(self._choose)
        self.list.itemChanged.connect(self._rename)
        self.list.itemActivated.connect(lambda item: self.opened.emit(item.data(_NAME)))
        self.list.dropped.connect(self.move_wanted)
        self.list.customContextMenuRequested.connect(self._menu)
        self.list.key.connect(self._key)
        self._make_commands()
        menu = self.more_button.menu()
        if menu is not None:
            self.fill_menu(menu)

    def _make_commands(self) -> None:
        """The keys of the list, which hold while it has the focus."""

        def within(text: str, run: Callable[[], object], keys: Keys) -> QAction:
            return command(self.list, text, run, keys, within=True)

        self.commands = [
            within(self.tr("&Copy"), lambda: self.copy_wanted.emit(self.chosen_names()), ["Ctrl+C", "Ctrl+Ins"]),
            within(self.tr("&Paste"), self.paste_wanted.emit, ["Ctrl+V", "Shift+Ins"]),
            within(self.tr("Dupl&icate"), lambda: self._of_current(self.duplicate_wanted), "Ctrl+D"),
            within(self.tr("Move &up in the list"), lambda: self._move(-1), "Alt+Up"),
            within(self.tr("Move &down in the list"), lambda: self._move(1), "Alt+Down"),
            within(self.tr("&Make it the start screen"), lambda: self._of_current(self.start_wanted), "Alt+Home"),
            within(self.tr("De&lete"), self._delete, "Del"),
        ]

    def fill_menu(self, menu: QMenu) -> None:
        """Put the commands about whole screens into a menu."""
        menu.addActions(self.commands)

    def show_screens(self, screens: list[ListedScreen], current: str) -> None:
        """List these, in this order; `thumbs` has their small faces."""
        before, self._listed = self._listed, screens
        if self.thumbs.full_size != self._full_size:
            self._full_size = self.thumbs.full_size
            self.list.doItemsLayout()
        if screens is not before and screens != before:
            self._fill(screens, before)
        self._show_current(current)

    def _fill(self, screens: list[ListedScreen], before: list[ListedScreen]) -> None:
        self._filling = True
        try:
            while self.list.count() > len(screens):
                self.list.takeItem(self.list.count() - 1)
            while self.list.count() < len(screens):
                item = QListWidgetItem()
                item.setFlags(item.flags() | Qt.ItemFlag.ItemIsEditable)
                self.list.addItem(item)
            for number, (name, marks, caution) in enumerate(screens):
                if number < len(before) and before[number] == screens[number]:
                    continue
                item = self.list.item(number)
                for role, value in ((_NAME, name), (_MARKS, marks), (_CAUTION, caution)):
                    if item.data(role) != value:
                        item.setData(role, value)
                if item.text() != name:
                    item.setText(name)
                said = ", ".join((name, *marks))
                item.setToolTip(plain_tip(said))
                item.setData(Qt.ItemDataRole.AccessibleTextRole, said)
        finally:
            self._filling = False

    def _in_view(self) -> list[str]:
        """The names of the screens that can be seen."""
        area = self.list.viewport().rect()
        first = self.list.indexAt(QPoint(area.center().x(), 0)).row()
        names = []
        for number in range(first if self.list.isVisible() and first >= 0 else len(self._listed), len(self._listed)):
            if self.list.visualItemRect(self.list.item(number)).top() > area.bottom():
                break
            names.append(self._listed[number][0])
        return names

    def _repaint(self, name: str) -> None:
        for number, listed in enumerate(self._listed):
            if listed[0] == name:
                self.list.update(self.list.indexFromItem(self.list.item(number)))

    def _show_current(self, name: str) -> None:
        names = [screen[0] for screen in self._listed]
        at = names.index(name) if name in names else -1
        if at != self.list.currentRow():
            self._filling = True
            # Several may be selected; another current one is selected alone.
            self.list.setCurrentRow(at, QItemSelectionModel.SelectionFlag.ClearAndSelect)
            self._filling = False
        self.copy_button.setEnabled(at >= 0)
        self.more_button.setEnabled(at >= 0)
        self.count.setText(str(len(names)))

    def current(self) -> str:
        """The name of the current screen; empty if there is none."""
        item = self.list.currentItem()
        return "" if item is None else str(item.data(_NAME))

    def chosen_names(self) -> list[str]:
        """The selected screens, in the order of the list; the current one if none is selected."""
        names = [
            str(item.data(_NAME))
            for item in map(self.list.item, range(self.list.count()))
            if item is not None and item.isSelected()
        ]
        return names or [name for name in [self.current()] if name]

    def _delete(self) -> None:
        names = self.chosen_names()
        if len(names) > 1:
            self.delete_several_wanted.emit(names)
        else:
            self._of_current(self.delete_wanted)

    def rename_current(self) -> None:
        """Begin to type a new name in place."""
        item = self.list.currentItem()
        if item is not None:
            self.list.setFocus()
            self.list.editItem(item)

    def _of_current(self, signal: SignalInstance) -> None:
        name = self.current()
        if name:
            signal.emit(name)

    def _move(self, way: int) -> None:
        to = self.list.currentRow() + way
        if self.current() and 0 <= to < self.list.count():
            self.move_wanted.emit(self.current(), to)

    def _choose(self, item: QListWidgetItem | None) -> None:
        if not self._filling and item is not None:
            self.chosen.emit(item.data(_NAME))

    def _rename(self, item: QListWidgetItem) -> None:
        if self._filling:
            return
        old, new = str(item.data(_NAME)), item.text()
        if new != old:
            self._filling = True
            item.setText(old)
            self._filling = False
            self.rename_wanted.emit(old, new)

    def _key(self, event: QKeyEvent) -> None:
        deed = SCREENS.deed(event)
        if deed == "add":
            self.add_wanted.emit()
        elif deed == "delete":
            self._delete()
        else:
            return
        event.accept()

    def _menu(self, at: QPoint) -> None:
        name = self.current()
        menu = QMenu(self)
        menu.addAction(self.tr("Add a screen"), self.add_wanted.emit)
        if name:
            menu.addAction(self.tr("Rename"), self.rename_current)
        menu.addSeparator()
        self.fill_menu(menu)
        menu.exec(self.list.mapToGlobal(at))


class _List(QListWidget):
    dropped = Signal(str, int)
    key = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self.setUniformItemSizes(True)

    def dropEvent(self, event: QDropEvent) -> None:
        item = self.currentItem()
        if event.source() is not self or item is None:
            event.ignore()
            return
        target = self.itemAt(event.position().toPoint())
        to = self.count() if target is None else self.row(target)
        where = self.dropIndicatorPosition()
        if target is not None and where == QAbstractItemView.DropIndicatorPosition.BelowItem:
            to += 1
        if to > self.row(item):
            to -= 1
        # The document moves it; the list only shows what the document holds.
        event.setDropAction(Qt.DropAction.IgnoreAction)
        event.accept()
        if to != self.row(item):
            self.dropped.emit(item.data(_NAME), to)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        event.ignore()
        self.key.emit(event)
        if not event.isAccepted():
            super().keyPressEvent(event)


class _Delegate(QStyledItemDelegate):
    """A small face, the name, and the marks beneath it."""

    def __init__(self, view: _List, thumbs: Thumbnails) -> None:
        super().__init__(view)
        self._view = view
        self._thumbs = thumbs
        self._edited = QPersistentModelIndex()
        self.closeEditor.connect(self._edit_ended)

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:  # noqa: ARG002
        lines = 2 * option.fontMetrics.lineSpacing() + 12
        return QSize(120, max(scaled(ROW), self._thumb_size().height() + 10, lines))

    def _thumb_size(self) -> QSize:
        full = self._thumbs.full_size
        return full.scaled(full.boundedTo(THUMB_ROOM), Qt.AspectRatioMode.KeepAspectRatio)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        colours = palette.current()
        selected = bool(option.state & QStyle.StateFlag.State_Selected)
        area = option.rect
        painter.save()
        if selected:
            wash = QColor(colours.accent)
            wash.setAlpha(40)
            painter.fillRect(area, wash)
            painter.fillRect(area.left(), area.top(), 4, area.height(), colours.colour("accent"))
        face = face_colours(option.palette)
        small = self._thumb_size()
        at = QRect(area.left() + 12, area.center().y() - small.height() // 2, small.width(), small.height())
        painter.fillRect(at.adjusted(-3, -3, 3, 3), face.rim)
        painter.fillRect(at.adjusted(-2, -2, 2, 2), face.glass)
        look = ThumbnailStyle(small, face, painter.device().devicePixelRatioF())
        picture = self._thumbs.picture(str(index.data(_NAME)), look)
        if picture is not None:
            painter.drawPixmap(at.topLeft(), picture)
        if index == self._edited:
            painter.restore()
            return  # the words would look out from behind the name that is being typed
        left = at.right() + 12
        words = QRect(left, area.top() + 5, area.right() - left - 4, area.height() - 10)
        ink = colours.colour("ink")
        metrics = option.fontMetrics
        painter.setPen(ink)
        font = QFont(option.font)
        font.setBold(True)
        painter.setFont(font)
        marks = ", ".join(index.data(_MARKS) or ())
        name = str(index.data(_NAME))
        upper = QRect(words.left(), words.top(), words.width(), metrics.lineSpacing() + 1)
        if not marks:
            upper.moveTop(area.center().y() - upper.height() // 2)
        painter.drawText(
            upper, Qt.AlignmentFlag.AlignLeft, metrics.elidedText(name, Qt.TextElideMode.ElideRight, words.width() - 6)
        )
        if marks:
            caution = bool(index.data(_CAUTION))
            painter.setFont(option.font)
            painter.setPen(colours.colour("caution" if caution else "faint"))
            lower = upper.translated(0, metrics.lineSpacing() + 1)
            painter.drawText(
                lower,
                Qt.AlignmentFlag.AlignLeft,
                metrics.elidedText(marks, Qt.TextElideMode.ElideRight, words.width()),
            )
        painter.restore()

    def updateEditorGeometry(self, editor: QWidget, option: QStyleOptionViewItem, index: Index) -> None:  # noqa: ARG002
        left = option.rect.left() + self._thumb_size().width() + 14
        height = editor.sizeHint().height()
        top = option.rect.center().y() - height // 2
        editor.setGeometry(left, top, option.rect.right() - left - 2, height)

    def createEditor(self, parent: QWidget, option: QStyleOptionViewItem, index: Index) -> QWidget:
        editor = super().createEditor(parent, option, index)
        self._edited = QPersistentModelIndex(index)
        return editor

    def _edit_ended(self) -> None:
        self._edited = QPersistentModelIndex()
        self._view.viewport().update()
