"""The pane at the left of Design: the screens, and under them the signals to be placed on the one under edit."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QEvent, QObject, QSize, Qt
from PySide6.QtWidgets import QFrame, QScrollArea, QSizePolicy, QSplitter, QVBoxLayout, QWidget

from widgets.design.screen.editor import ScreenEditor
from widgets.design.screens_pane import ScreensPane
from widgets.design.tray.dropping import Dropping
from widgets.design.tray.screens_of import ScreensOfDialog
from widgets.design.tray.tray import SignalTray
from widgets.document.document import Document
from widgets.kit.scaling import line_height


class _Foot(QScrollArea):
    """As high as what is in it, where there is the room, and there while that is."""

    LEAST: Final = 36

    def __init__(self, content: QWidget, parent: QWidget) -> None:
        self._content = content
        super().__init__(parent)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Maximum)
        away = content.isHidden() and content.testAttribute(Qt.WidgetAttribute.WA_WState_ExplicitShowHide)
        self.setWidget(content)  # which shows it
        if away:
            content.hide()

    def sizeHint(self) -> QSize:
        return self._content.sizeHint()

    def minimumSizeHint(self) -> QSize:
        hint = self._content.minimumSizeHint()
        return QSize(hint.width(), min(hint.height(), line_height(self.LEAST)))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is self._content:
            if event.type() == QEvent.Type.LayoutRequest:
                self.updateGeometry()
            elif event.type() in (QEvent.Type.ShowToParent, QEvent.Type.HideToParent):
                self.setHidden(self._content.isHidden())
        return super().eventFilter(watched, event)


class LeftPane(QWidget):
    """Divides its height between screens and signals, and lets the signals be placed by the editor."""

    def __init__(self, document: Document, screens: ScreensPane, editor: ScreenEditor) -> None:
        super().__init__()
        self._document = document
        self._editor = editor
        self.screens = screens
        self.tray = SignalTray()
        self.dropping = Dropping(editor.face.grid, document, editor.commands, self)
        self.upright = QSplitter(Qt.Orientation.Vertical)
        self.upright.setObjectName("design left")
        self.upright.setChildrenCollapsible(False)
        self.upright.addWidget(screens)
        self.upright.addWidget(self.tray)
        self.upright.setSizes([310, 310])
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(0)
        self._column.addWidget(self.upright, 1)
        self.dropping.said.connect(editor.say_drag)
        self.dropping.placed.connect(editor.notice.hide)
        self.tray.place_wanted.connect(lambda names, only: self.dropping.place(names, value_only=only))
        self.tray.screens_wanted.connect(self.make_screens)
        editor.trying_changed.connect(self.tray.setDisabled)
        document.changed.connect(self._follow)
        self._follow()

    def _follow(self) -> None:
        self.tray.show_project(self._document.project)

    def add_below(self, widget: QWidget) -> None:
        """Put something at the foot of the pane; where it has no room, it scrolls."""
        self._column.addWidget(_Foot(widget, self))

    def make_screens(self, names: list[str]) -> None:
        """Ask for the title of new screens of these signals, and make them."""
        if not names:
            self._editor.say(self.tr("Select signals first, beside the panel or in their table."))
            return
        dialog = ScreensOfDialog(self._document, names, self.window())
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.open()
