"""The views in the middle of Design: the screen, the page map, the tables and the panel, one in front of the others."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QSizePolicy, QStackedWidget, QTabBar, QWidget

from widgets.design.behaviour.behaviour_view import BehaviourView
from widgets.design.forms.panel_view import PanelView
from widgets.design.lines.lines_view import LinesView
from widgets.design.page_map.pane import PageMapPane
from widgets.design.screen.editor import ScreenEditor
from widgets.design.signals.signals_view import SignalsView
from widgets.design.tables.part_table import PartTable
from widgets.document.document import Document
from widgets.document.drafts import Drafts
from widgets.document.unfinished import Unfinished
from widgets.kit.elided import shorten_tabs
from widgets.kit.notice import Notice
from widgets.kit.scaling import percent

BRIEF_ABOVE: Final = 125
"""Per cent of size above which the views have brief titles; their tool tips say the rest."""
VIEWS: Final = ("screen", "map", "behaviour", "signals", "lines", "panel")


class DesignViews(QStackedWidget):
    """Each view shows the project or a part of it; `view` is the one in front, by its name in VIEWS.

    `tabs` chooses among them; it stands wherever the workspace puts it.
    """

    def __init__(
        self, document: Document, drafts: Drafts, begun: Unfinished, panel: PanelView, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.notice = Notice(self)
        self.editor = ScreenEditor(document, self.notice)
        self.map_pane = PageMapPane(document)
        self.map = self.map_pane.view
        self.behaviour = BehaviourView(document, drafts, begun)
        self.signals = SignalsView(document, drafts)
        self.lines = LinesView(document, drafts)
        self.panel = panel
        self.titles = [
            self.tr("Screen"),
            self.tr("Page map"),
            self.tr("Keys and screen changes"),
            self.tr("Signals"),
            self.tr("Lines and devices"),
            self.tr("Panel"),
        ]
        brief = [
            self.tr("Screen"),
            self.tr("Map"),
            self.tr("Keys"),
            self.tr("Signals"),
            self.tr("Lines"),
            self.tr("Panel"),
        ]
        self.tabs = QTabBar()
        self.tabs.setDrawBase(False)
        self.tabs.setExpanding(False)
        self.tabs.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Expanding)
        widgets = (self.editor, self.map_pane, self.behaviour, self.signals, self.lines, self.panel)
        for widget, title in zip(widgets, self.titles if percent() <= BRIEF_ABOVE else brief, strict=True):
            self.addWidget(widget)
            self.tabs.addTab(title)
        shorten_tabs(self.tabs)
        self.tabs.setAccessibleName(self.tr("Views"))
        for number, title in enumerate(self.titles):
            self.tabs.setTabToolTip(number, f"{title} (Alt+{number + 1})")
        self.tabs.tabBarClicked.connect(lambda index: self.show_view(VIEWS[index]) if index >= 0 else None)
        self.tabs.currentChanged.connect(self.setCurrentIndex)
        self.currentChanged.connect(self.tabs.setCurrentIndex)

    @property
    def view(self) -> str:
        """Which view is in front; one of VIEWS."""
        return VIEWS[self.currentIndex()]

    def show_view(self, name: str) -> None:
        """Bring a view to the front and give it the focus."""
        if self.view != name:
            # What has the focus may go with the former view, and Qt would give it to whatever is next.
            self.tabs.setFocus(Qt.FocusReason.OtherFocusReason)
        self.bring_up(name)
        self.first.setFocus(Qt.FocusReason.ShortcutFocusReason)

    @property
    def first(self) -> QWidget:
        """What has the focus first in the view in front."""
        return {
            "screen": self.editor.face,
            "map": self.map,
            "behaviour": self.behaviour.first,
            "signals": self.signals.first,
            "lines": self.lines.first,
            "panel": self.panel.first,
        }[self.view]

    def bring_up(self, name: str) -> None:
        """Bring a view to the front and leave the focus where it is."""
        self.setCurrentIndex(VIEWS.index(name))

    def table(self) -> PartTable | BehaviourView | None:
        """The rows in front, of two tables the one used last; None in front of the screen, the map and the panel."""
        match self.view:
            case "signals":
                return self.signals.table
            case "lines":
                return self.lines.table
            case "behaviour":
                return self.behaviour
        return None
