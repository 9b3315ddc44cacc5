"""The row of tools of Design: its views at the left; undo, what the view in front needs and trying it at the right."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QToolButton

from widgets.design.views import DesignViews
from widgets.document.document import Document
from widgets.frame.tool_row import ToolRow
from widgets.kit.commands import mark_entry
from widgets.kit.icons import icon
from widgets.kit.plain import plain_tip


class DesignTools(ToolRow):
    """Follows the steps of the document and the view in front."""

    def __init__(self, document: Document, views: DesignViews) -> None:
        super().__init__(views.tabs)
        self._document = document
        self._views = views
        self.undo = mark_entry(QAction(icon("undo"), self.tr("Undo"), self))  # commands of Edit, once more
        self.undo.triggered.connect(lambda _checked=False: document.undo())
        self.redo = mark_entry(QAction(icon("redo"), self.tr("Redo"), self))
        self.redo.triggered.connect(lambda _checked=False: document.redo())
        if not views.map_pane.search_comes:
            self.add_widget(views.map_pane.search)
        for action in (self.undo, self.redo):
            self.add(action, icon_only=True)
        tools = views.editor.tools
        for action in tools.actions:
            button = self.add(action, icon_only=action in (tools.smaller, tools.larger))
            button.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        of_map = views.map_pane
        zoom = of_map.further_action, of_map.fit_action, of_map.closer_action
        for action in of_map.tools:
            button = self.add(action, icon_only=action in zoom)
            if action not in zoom:
                button.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextOnly)
        for action in of_map.more_tools:
            self.add_to_more(action)
        self.set_primary(tools.try_button)
        document.status_changed.connect(self._show_steps)
        views.currentChanged.connect(lambda _index: self._show_tools())
        self._show_tools()
        self._show_steps()

    def _show_tools(self) -> None:
        """Those of the view in front."""
        self._views.editor.tools.set_shown(self._views.view == "screen")
        of_map, away = self._views.map_pane, self._views.view != "map"
        of_map.search.setVisible(not away and not of_map.search_comes)
        self.put_away((*of_map.tools, *of_map.more_tools), away=away)

    def _show_steps(self) -> None:
        for action, name, tip, none in (
            (self.undo, self._document.undo_name, self.tr("Undo: {step} (Ctrl+Z)"), self.tr("Nothing to undo")),
            (self.redo, self._document.redo_name, self.tr("Redo: {step} (Ctrl+Y)"), self.tr("Nothing to redo")),
        ):
            action.setEnabled(name is not None)
            action.setToolTip(plain_tip(none if name is None else tip.format(step=name)))

    def show_left(self, button: QToolButton) -> None:
        """Put the button that opens the left pane beside the views."""
        self.add_lead(button)
