"""Work that takes longer than a blink, done in a thread beside the window: with progress, and with a way to stop it."""

from __future__ import annotations

import sys
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from threading import Event
from typing import Final

from PySide6.QtCore import QCoreApplication, QObject, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QProgressBar, QWidget

from app.exchange.sheet import Progress, Stopped
from widgets.kit.dialogs.dialog import FORM, Dialog

Work = Callable[[Progress], object]

SWITCH_S: Final = 0.001
"""How long a thread that computes keeps the interpreter, in seconds. Python's own 5 ms are paid at each of the many
calls from Qt into Python that a single painting takes: the window stood still for most of a second."""
PROGRESS_AFTER_MS: Final = 250
"""Work that is done sooner shows no progress."""
_STEP: Final = 0.01
"""Progress is told in steps of this, so that a quick piece of work does not flood the window."""


class LongWork(QObject):
    """Does one piece of work at a time. A new one stops the one before, of which nothing more is heard."""

    progressed = Signal(float)
    """The part that is done, 0 to 1."""
    ended = Signal(object)
    """The `Future` of the work; its `result()` is what came of it, or raises what went wrong, Stopped among it."""
    _moved = Signal(object, float)
    _done = Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._pool = ThreadPoolExecutor(1, "fanlight-long-work")
        self._stop: Event | None = None
        self._future: Future[object] | None = None
        self._moved.connect(self._tell)
        self._done.connect(self._end)

    @property
    def busy(self) -> bool:
        """Whether work is going on whose end was not told yet."""
        return self._future is not None

    def start(self, work: Work) -> None:
        """Do this from now on; `work` runs in the thread and is handed a function that it tells its progress."""
        sys.setswitchinterval(SWITCH_S)
        self._abandon()
        stop = self._stop = Event()
        told = 0.0

        def progress(part: float) -> None:
            nonlocal told
            if stop.is_set():
                raise Stopped
            if part - told >= _STEP:
                told = part
                self._moved.emit(stop, part)

        self._future = self._pool.submit(work, progress)
        self._future.add_done_callback(self._done.emit)

    def stop(self) -> None:
        """Ask the work to stop; its end is told as Stopped."""
        if self._stop is not None:
            self._stop.set()

    def close(self) -> None:
        """Stop the work and hear no more of it. Waits for the thread, which looks up at its next step."""
        self._abandon()
        self._pool.shutdown(cancel_futures=True)

    def _abandon(self) -> None:
        self.stop()
        self._future = None

    def _tell(self, stop: Event, part: float) -> None:
        if stop is self._stop and not stop.is_set():
            self.progressed.emit(part)

    def _end(self, future: Future[object]) -> None:
        if future is self._future:
            self._future = None
            self.ended.emit(future)


class WorkDialog(Dialog):
    """A dialog with long work, whose `progress` it shows. Escape stops the work first, and then closes the dialog."""

    def __init__(self, parent: QWidget | None = None, *, width: int = FORM, height: int = 0) -> None:
        super().__init__(parent, width=width, height=height)
        self.work = LongWork(self)
        self.progress = QProgressBar()
        self.progress.setAccessibleName(QCoreApplication.translate("WorkDialog", "Progress"))
        self.work.progressed.connect(lambda part: self.progress.setValue(round(100 * part)))
        self._late = QTimer(self)
        self._late.setSingleShot(True)
        self._late.setInterval(PROGRESS_AFTER_MS)
        self._late.timeout.connect(lambda: self.show_progress(True))
        self.work.ended.connect(lambda _future: self._late.stop())

    def begin(self, work: Work) -> None:
        """Do this from now on; its progress is shown if it takes long."""
        self.progress.setValue(0)
        self._late.start()
        self.work.start(work)

    def show_progress(self, on: bool) -> None:
        """Show how far the work is, or no longer."""
        self.progress.setVisible(on)

    def done(self, result: int) -> None:
        """Closed in any way: the work is stopped."""
        self.work.close()
        super().done(result)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape and self.work.busy:
            self.work.stop()
            return
        super().keyPressEvent(event)
