"""The line view of the window: below the strip, or as a window of its own on another screen."""

from __future__ import annotations

from collections import deque
from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QCloseEvent
from PySide6.QtWidgets import QDockWidget, QMainWindow, QWidget

from widgets.document.settings import Settings
from widgets.kit.focus import next_stop
from widgets.kit.scaling import scaled
from widgets.live.activity_strip import StripMark
from widgets.live.live_session import LiveSession
from widgets.shell import window_state
from widgets.shell.menus import WindowMenus

if TYPE_CHECKING:  # made, and so imported, when it is first wanted
    from app.client.transactions import Transaction
    from widgets.live.line_view import LineView

LINE_VIEW_AFTER_MS: Final = 300
"""From a window being there until its line view is made, which nobody asked for yet: behind the first values."""
UNLISTED: Final = 5_000
"""Transactions that are kept at most for a line view that is not made yet: of the first moments of a line."""
LINE_VIEW_HEIGHT: Final = 250
"""Of the line view when it is opened first: a list of some seven transactions."""


class LineDock(QDockWidget):
    """Holds the line view, which it makes when it is wanted, or soon."""

    said = Signal(str, bool)
    """Something to tell the user, and whether it is trouble."""
    put_away = Signal()
    """It was closed from the menu: the focus belongs to the workspace again."""

    def __init__(self, window: QMainWindow, live: LiveSession, settings: Settings, menus: WindowMenus) -> None:
        super().__init__(window)
        self._window = window
        self._live = live
        self._settings = settings
        self._menus = menus
        self._view: LineView | None = None
        self._unlisted: deque[Transaction] = deque(maxlen=UNLISTED)
        self.setObjectName("line view")
        self.setWindowTitle(self.tr("Line view"))
        self.setAllowedAreas(Qt.DockWidgetArea.BottomDockWidgetArea | Qt.DockWidgetArea.TopDockWidgetArea)
        self.topLevelChanged.connect(self._title)
        self.topLevelChanged.connect(menus.line_window.setChecked)
        self._title(floating=False)
        menus.line_view_toggled.connect(self.show_view)
        menus.line_window_toggled.connect(self.float_view)
        menus.line.aboutToShow.connect(lambda: self.view)
        live.transactions.connect(self._keep_unlisted)
        window.addDockWidget(Qt.DockWidgetArea.BottomDockWidgetArea, self)
        self.hide()
        QTimer.singleShot(LINE_VIEW_AFTER_MS, self, lambda: self.view)

    @property
    def view(self) -> LineView:
        """The list of transactions, with all of them since the connection. Made when it is wanted, or soon."""
        if self._view is None:
            from widgets.live.line_view import LineView

            self._view = LineView(self._live, self._settings)
            self._view.add(self._unlisted)
            self._unlisted.clear()
            self.setWidget(self._view)
            self._view.away.clicked.connect(self.close)
            self._view.fill_menu(self._menus.line.addMenu(self.tr("List of &transactions")))
            window_state.arrange_parts(self._view, self._settings)
        return self._view

    def _keep_unlisted(self, news: Sequence[Transaction]) -> None:
        if self._view is None:
            self._unlisted.extend(news)

    def show_view(self, on: bool) -> None:
        """Show the list of transactions, or put it away."""
        if on == self.isVisible():
            return
        if on and not self._has_room():
            self.setFloating(True)
            self.resize(self._window.width(), scaled(LINE_VIEW_HEIGHT))
        self.setVisible(on)
        if not on:
            self.put_away.emit()
            return
        height = min(scaled(LINE_VIEW_HEIGHT), self._window.height() // 2)
        if not self.isFloating() and self.height() < height:
            self._window.resizeDocks([self], [height], Qt.Orientation.Vertical)
        self.view.setFocus()

    def _has_room(self) -> bool:
        """Whether the window is high enough for both; it does not grow for it, since keys would move."""
        parts = (self._window.menuBar(), self._window.centralWidget(), self.view)
        return sum(part.minimumSizeHint().height() for part in parts if part is not None) <= self._window.height()

    def float_view(self, on: bool) -> None:
        """Make the line view a window of its own, or put it back below the strip."""
        if not on and not self._has_room():
            self.said.emit(self.tr("At this size the line view does not fit in this window"), True)
            self._menus.line_window.setChecked(True)
        elif on != self.isFloating():
            self.setFloating(on)
        self._menus.line_view.setChecked(True)

    def open_on(self, strip_mark: StripMark | None) -> None:
        """Open the line view, on one transaction if the strip names it."""
        self._menus.line_view.setChecked(True)
        transaction = strip_mark.transaction if strip_mark is not None else None
        if transaction is not None and not self.view.show_transaction(transaction):
            self.said.emit(self.tr("This transaction is no longer in the list"), True)

    def _title(self, floating: bool) -> None:
        """A title to take hold of as a window of its own; below the strip the view's own heading is enough."""
        former = self.titleBarWidget()
        self.setTitleBarWidget(None if floating else QWidget())  # type: ignore[arg-type]  # None: Qt's own title
        if former is not None:
            former.deleteLater()

    def focusNextPrevChild(self, forward: bool) -> bool:
        return next_stop(self, forward=forward) if self.isFloating() else super().focusNextPrevChild(forward)

    def closeEvent(self, event: QCloseEvent) -> None:
        super().closeEvent(event)
        self._menus.line_view.setChecked(False)
