"""What does each key do here? A small face with the chosen key ringed, and a line for all that each key does."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, QSize, Qt, Signal
from PySide6.QtGui import QFont, QFontInfo, QKeyEvent, QMouseEvent, QPainter, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QStyle, QStyleOptionViewItem, QTreeWidget, QVBoxLayout, QWidget

from app.panel.rendering import Rows
from widgets.design.behaviour.key_lines import KeyLine, key_lines
from widgets.design.behaviour.rule_edits import RuleEdits
from widgets.design.behaviour.sentence_painting import GAP, MARGIN
from widgets.design.behaviour.sentences import translate
from widgets.document.document import Document
from widgets.face.face import PanelFace
from widgets.face.key_cap import cap_legend, cap_width, paint_cap
from widgets.face.keypad import key_legend
from widgets.face.sample_values import Specimens
from widgets.kit import palette
from widgets.kit.row_list import RowDelegate, RowList
from widgets.kit.scaling import scaled

LINE: Final = 30
FACE: Final = 190
WIDEST_CAP: Final = 96
SMALLER: Final = (0.8, 0.7, 0.6, 0.5)
"""Pixels at 100 per cent: a line, the face, the widest key in the list; the largest keys of the face that fit, as parts
of the size of other texts."""


class KeysPane(QWidget):
    """Answers for the screen that is looked at; a line leads to its sentence, a free key is used from here."""

    rule_wanted = Signal(str, int)
    """The sentence of this rule is wanted."""
    key_wanted = Signal(str)
    """A free key is to be used on this screen."""

    def __init__(self, document: Document, edits: RuleEdits, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._edits = edits
        self._specimens = Specimens()
        self.lines: list[KeyLine] = []
        """What stands in the list."""
        self.face = PanelFace()
        self.face.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.face.setAccessibleName(self.tr("Keys of the panel"))
        self.face.setFixedHeight(scaled(FACE))
        self.face.key_pressed.connect(self._key_pressed)
        self.list = _Lines()
        self.list.setAccessibleName(self.tr("What each key does here"))
        self.list.wanted.connect(self._follow)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.face)
        layout.addWidget(self.list, 1)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Expanding)

    def show_screen(self, screen: str, key: str) -> None:
        """Show what the keys do on a screen; this key is the chosen one."""
        project = self._document.spoken
        uses = key_lines(self._edits, screen)
        if uses != self.lines:
            self.lines = uses
            self.list.show_uses(uses)
        if project.panel is not self.face.panel:
            self.face.set_panel(project.panel)
            self._fit_face()
        shown = project.screen_named.get(screen)
        rows: Rows = () if shown is None else self._specimens.rows(project, shown)
        self.face.set_rows(rows)
        self.face.keypad.mark_key(key)
        for name, button in self.face.keypad.buttons.items():
            button.setFocusPolicy(Qt.FocusPolicy.NoFocus)
            words = ", ".join(use.words for use in uses if use.key == name and use.words)
            button.setToolTip(words or translate("Keys", "free"))

    def _fit_face(self) -> None:
        """Draw the keys as large as all of them fit; very many are left to the list."""
        self.face.set_keys_shown(True)
        for factor in SMALLER:
            small = QFont(self.font())
            small.setPointSizeF(QFontInfo(small).pointSizeF() * factor)
            if self.face.font() != small:
                self.face.setFont(small)
            if self.face.minimumSizeHint().width() <= self.width():
                return
        self.face.set_keys_shown(False)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width() and self.face.panel is not None:
            self._fit_face()

    def _key_pressed(self, key: str) -> None:
        self.face.release_all()
        self.follow_key(key)

    def follow_key(self, key: str) -> None:
        """Go to the first that a key does here, or begin what it is to do."""
        self._follow(next((use for use in self.lines if use.key == key), None))

    def _follow(self, use: KeyLine | None) -> None:
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
            self._document.refused.emit(words.format(key=use.key))


class _Lines(RowList):
    """The lines: a key, what it does, and at the end whether everywhere, or that it can be used."""

    wanted = Signal(object)
    """The KeyLine of a line that was clicked, or on which Enter was pressed."""

    def __init__(self) -> None:
        super().__init__()
        self.setFrameShape(QTreeWidget.Shape.NoFrame)
        self.setItemDelegate(_LineDelegate(self))
        self.viewport().setAutoFillBackground(False)
        self.cap = 0
        """Pixels of each key."""

    def show_uses(self, uses: list[KeyLine]) -> None:
        """Show these."""
        at = self.row()
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
            self.wanted.emit(value[0])


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
        assert isinstance(view, _Lines)
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
