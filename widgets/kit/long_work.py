"""Work that takes longer than a blink, done in a thread beside the window: with progress, and with a way to stop it."""

from __future__ import annotations

import sys
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from threading import Event
from typing import Final

from PySide6.QtCore import QObject, Signal

from app.exchange.sheet import Progress, Stopped

Work = Callable[[Progress], object]

SWITCH_S: Final = 0.001
"""How long a thread that computes keeps the interpreter, in seconds. Python's own 5 ms are paid at each of the many
calls from Qt into Python that a single painting takes: the window stood still for most of a second."""
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
