"""Where the line view is: a view of the Bench, or a window of its own on another screen."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QByteArray, QObject, QSignalBlocker, Qt, QTimer, Signal
from PySide6.QtGui import QCloseEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from widgets.bench.workspace import BenchWorkspace
from widgets.document.settings import Settings
from widgets.kit.focus import next_stop
from widgets.kit.scaling import comfortable
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
WINDOW: Final = (1340, 460)
"""Width and height of its own window in pixels at 100 per cent, when it is opened first."""
_PLACE: Final = "line window"
_APART: Final = "line apart"
_IN_SIGHT: Final = b"in sight"
_AWAY: Final = b"away"
"""Under which names it is kept where the own window stood, and whether there was one."""


class LinePlace(QObject):
    """Holds the line view, which it makes when it is wanted, or soon."""

    said = Signal(str, bool)
    """Something to tell the user, and whether it is trouble."""

    def __init__(
        self,
        parent: QWidget,
        bench: BenchWorkspace,
        live: LiveSession,
        settings: Settings,
        menus: WindowMenus,
        go_to_bench: Callable[[], object],
    ) -> None:
        super().__init__(parent)
        self._bench = bench
        self._live = live
        self._settings = settings
        self._menus = menus
        self._go_to_bench = go_to_bench
        self._view: LineView | None = None
        self._unlisted: deque[Transaction] = deque(maxlen=UNLISTED)
        self.window = _LineWindow(parent)
        self.window.closed.connect(self._closed)
        menus.line_view_toggled.connect(self.show_view)
        menus.line_window_toggled.connect(self.move_out)
        menus.line.aboutToShow.connect(lambda: self.view)
        bench.line_wanted.connect(lambda: self.view)
        bench.view_changed.connect(self.look)
        live.transactions.connect(self._keep_unlisted)
        QTimer.singleShot(LINE_VIEW_AFTER_MS, self, lambda: self.view)

    @property
    def view(self) -> LineView:
        """The list of transactions, with all of them since the connection. Made when it is wanted, or soon."""
        if self._view is None:
            from widgets.live.line_view import LineView

            self._view = LineView(self._live, self._settings)
            self._view.add(self._unlisted)
            self._unlisted.clear()
            self._view.offer(self._menus.line_window, self.tr("Own window"))
            self._view.fill_menu(self._menus.line.addMenu(self.tr("List of &transactions")))
            window_state.arrange_parts(self._view, self._settings)
            self._put()
        return self._view

    @property
    def apart(self) -> bool:
        """Whether it has a window of its own."""
        return self._menus.line_window.isChecked()

    @property
    def in_sight(self) -> bool:
        """Whether it can be seen."""
        return self.window.isVisible() if self.apart else self._bench.isVisible() and self._bench.shows_line

    def _keep_unlisted(self, news: Sequence[Transaction]) -> None:
        if self._view is None:
            self._unlisted.extend(news)

    def _put(self) -> None:
        """Put the view where it belongs now."""
        if self._view is not None:
            (self.window.hold if self.apart else self._bench.hold_line)(self._view)

    def look(self) -> None:
        """Say in the menu whether it is in sight: another view or workspace may have come to the front."""
        with QSignalBlocker(self._menus.line_view):
            self._menus.line_view.setChecked(self.in_sight)

    def show_view(self, on: bool) -> None:
        """Show the list of transactions, or put it away."""
        if on == self.in_sight:
            return
        if self.apart:
            self.window.setVisible(on)
            if on:
                self.window.activateWindow()
        elif on:
            self._go_to_bench()
            self._bench.show_line()
        else:
            self._bench.operate()
        if on:
            self.view.setFocus()
        self.look()

    def move_out(self, on: bool) -> None:
        """Make the line view a window of its own, or put it back into the Bench; it is shown there."""
        _ = self.view
        if on:
            self._place_window()
        else:
            self._keep_place()
            self.window.hide()
        self._put()
        self.show_view(True)

    def _closed(self) -> None:
        """Its own window was closed: it is in the Bench again, where nobody has to go now."""
        self._keep_place()
        with QSignalBlocker(self._menus.line_window):
            self._menus.line_window.setChecked(False)
        self._put()
        self.look()

    def _place_window(self) -> None:
        self._bench.release_line()
        geometry = self._settings.arrangement(_PLACE)
        if geometry.isEmpty() or not self.window.restoreGeometry(geometry):
            self.window.resize(comfortable(self.window, *WINDOW))

    def _keep_place(self) -> None:
        self._settings.keep_arrangement(_PLACE, self.window.saveGeometry())

    def take_up(self) -> None:
        """Have a window of its own, if the last one had, and show it if that was shown."""
        kept = self._settings.arrangement(_APART).data()
        if kept not in (_IN_SIGHT, _AWAY):
            return
        with QSignalBlocker(self._menus.line_window):
            self._menus.line_window.setChecked(True)
        self._place_window()
        if kept == _IN_SIGHT:
            _ = self.view
            self.window.show()
        self.look()

    def leave(self) -> None:
        """Go with the window, and keep how it was."""
        kept = b"" if not self.apart else _IN_SIGHT if self.window.isVisible() else _AWAY
        self._settings.keep_arrangement(_APART, QByteArray(kept))
        if self.apart:
            self._keep_place()
        self.window.hide()

    def open_on(self, strip_mark: StripMark | None) -> None:
        """Open the line view, on one transaction if the strip names it."""
        self.show_view(True)
        transaction = strip_mark.transaction if strip_mark is not None else None
        if transaction is not None and not self.view.show_transaction(transaction):
            self.said.emit(self.tr("This transaction is no longer in the list"), True)


class _LineWindow(QWidget):
    """The window of its own."""

    closed = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent, Qt.WindowType.Window)
        self.setWindowTitle(self.tr("Line view"))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)

    def hold(self, view: QWidget) -> None:
        layout = self.layout()
        assert layout is not None
        layout.addWidget(view)
        view.show()

    def focusNextPrevChild(self, forward: bool) -> bool:
        return next_stop(self, forward=forward)

    def closeEvent(self, event: QCloseEvent) -> None:
        """Closed, it goes back into the Bench."""
        super().closeEvent(event)
        self.closed.emit()
