"""The pane at the left of Design: the screens, and under them the signals to be placed on the one under edit."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QSplitter, QVBoxLayout, QWidget

from widgets.design.screen.editor import ScreenEditor
from widgets.design.screens_pane import ScreensPane
from widgets.design.tray.dropping import Dropping
from widgets.design.tray.screens_of import ScreensOfDialog
from widgets.design.tray.tray import SignalTray
from widgets.document.document import Document


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
        """Put something at the foot of the pane."""
        self._column.addWidget(widget)

    def make_screens(self, names: list[str]) -> None:
        """Ask for the title of new screens of these signals, and make them."""
        if not names:
            self._editor.say(self.tr("Select signals first, beside the face or in their table."))
            return
        dialog = ScreensOfDialog(self._document, names, self.window())
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.open()
