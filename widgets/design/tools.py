"""The row of tools of Design: its views at the left; undo, what the view in front needs and trying it at the right."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QToolButton

from widgets.design.views import DesignViews
from widgets.document.document import Document
from widgets.frame.tool_row import ToolRow
from widgets.kit.icons import icon
from widgets.kit.plain import plain_tip


class DesignTools(ToolRow):
    """Follows the steps of the document and the view in front."""

    def __init__(self, document: Document, views: DesignViews) -> None:
        super().__init__(views.tabs)
        self._document = document
        self._views = views
        self.undo = QAction(icon("undo"), self.tr("Undo"), self)
        self.undo.triggered.connect(lambda _checked=False: document.undo())
        self.redo = QAction(icon("redo"), self.tr("Redo"), self)
        self.redo.triggered.connect(lambda _checked=False: document.redo())
        for action in (self.undo, self.redo):
            self.add(action, icon_only=True)
        tools = views.editor.tools
        for action in tools.actions:
            button = self.add(action, icon_only=action in (tools.smaller, tools.larger))
            button.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        self.set_primary(tools.try_button)
        document.status_changed.connect(self._show_steps)
        views.currentChanged.connect(lambda _index: tools.set_shown(views.view == "screen"))
        self._show_steps()

    def _show_steps(self) -> None:
        for action, name, tip, none in (
            (self.undo, self._document.undo_name, self.tr("Undo: {step} (Ctrl+Z)"), self.tr("Nothing to undo")),
            (self.redo, self._document.redo_name, self.tr("Redo: {step} (Ctrl+Y)"), self.tr("Nothing to redo")),
        ):
            action.setEnabled(name is not None)
            action.setToolTip(plain_tip(none if name is None else tip.format(step=name)))

    def show_left(self, button: QToolButton) -> None:
        """Put the button that opens the left pane beside the views."""
        self.lead.addWidget(button, 0, Qt.AlignmentFlag.AlignVCenter)
