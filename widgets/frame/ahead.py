"""What takes long to open, got ready while nothing else is to be done: modules imported aside, workspaces made."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from importlib import import_module
from threading import Thread
from typing import Final

from PySide6.QtCore import QObject, QTimer
from PySide6.QtGui import QCursor
from PySide6.QtWidgets import QApplication, QWidget

from widgets.document.document import Document
from widgets.live.live_session import LiveSession

IMPORT_AFTER_MS: Final = 1_000
"""From the first values until it begins."""
LOOK_EVERY_MS: Final = 700
STILL_FOR: Final = 3
"""So many looks in a row nobody has done anything before a workspace is made."""
MANY: Final = 500
"""Signals from which on no workspace is made ahead: the window would stand still for longer than anybody overlooks."""


class GettingReady(QObject):
    """Imports `modules` once the first values are there; then calls `makes`, one at a time, where nobody waits.

    Nothing is made but beside simulated devices: on a real line no key of the panel may come late for it.
    """

    def __init__(
        self,
        window: QWidget,
        document: Document,
        live: LiveSession,
        modules: Sequence[str],
        makes: Sequence[Callable[[], object]],
    ) -> None:
        super().__init__(window)
        self._window, self._document, self._live = window, document, live
        self._modules, self._makes = modules, list(makes)
        self._thread: Thread | None = None
        self._closed = False
        self._seen: object = None
        self._still = 0
        self._timer = QTimer(self)
        self._timer.setInterval(LOOK_EVERY_MS)
        self._timer.timeout.connect(self._look)
        live.frame.connect(self._await_values)

    def begin(self) -> None:
        """Import now, aside."""
        if self._thread is None and self._window.isVisible():  # else no thread may begin any more
            self._thread = Thread(target=self._import, name="fanlight-ahead")
            self._thread.start()
            self._timer.start()

    def close(self) -> None:
        """The window closes: leave the rest, and wait for the module that is being imported."""
        self._closed = True
        self._timer.stop()
        if self._thread is not None:
            self._thread.join()

    def _await_values(self) -> None:
        if any(reading.good for reading in self._live.readings().values()):
            self._live.frame.disconnect(self._await_values)
            QTimer.singleShot(IMPORT_AFTER_MS, self, self.begin)

    def _import(self) -> None:
        for name in self._modules:
            if not self._closed:
                import_module(name)

    def _look(self) -> None:
        if not self._makes or not self._window.isVisible():
            self._timer.stop()
            return
        seen, before = self._situation(), self._seen
        self._still = self._still + 1 if seen == before else 0
        self._seen = seen
        if self._still >= STILL_FOR and self._may_make():
            self._still = 0
            self._makes.pop(0)()

    def _situation(self) -> object:
        """Another one as soon as anybody does anything."""
        session = self._live.session
        state = None if session is None else session.panel.state
        return QCursor.pos(), QApplication.focusWidget(), QApplication.mouseButtons(), state, self._document.project

    def _may_make(self) -> bool:
        return (
            self._thread is not None
            and not self._thread.is_alive()
            and self._live.writing.simulated
            and len(self._document.project.signals) < MANY
            and QApplication.activePopupWidget() is None
            and QApplication.activeModalWidget() is None
        )
