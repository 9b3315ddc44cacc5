"""The registers of a signal and their neighbours, read again and again through the session that runs. Never writes."""

from __future__ import annotations

from concurrent.futures import Future
from typing import Final

from PySide6.QtCore import QObject, QTimer, Signal

from app.discovery.repairs import registers_to_read
from app.errors import FanlightError
from app.project.binding import bind
from app.project.model import Project
from app.signals.numbering import Table
from widgets.live.live_session import LiveSession

PAUSE_MS: Final = 1000
"""From one read of all to the next."""


class ReadsAround(QObject):
    """Reads while it lives and a session runs; `read` tells of all registers that were read at one time."""

    read = Signal(object)
    """The registers by table and wire address: an app.matching.reading_ways.RegisterWords."""
    failed = Signal(str)
    """Nothing could be read: why, in words."""

    def __init__(self, live: LiveSession, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._live = live
        self._wanted: tuple[str, Table, tuple[tuple[int, int], ...]] | None = None
        self._waiting: dict[tuple[int, int], Future[tuple[int, ...]]] = {}
        self._words: dict[tuple[Table, int], int] = {}
        self._why = ""
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(PAUSE_MS)
        self._pause.timeout.connect(self._begin)
        live.frame.connect(self._look)
        live.connection_changed.connect(self._begin)

    def read_for(self, project: Project, name: str) -> None:
        """Read what the ways of this signal need from now on. It can be found on the line."""
        binding = bind(project, name)
        wanted = binding.follower.name, binding.table, registers_to_read(project, name)
        if wanted != self._wanted:
            self._wanted = wanted
            self._begin()

    def stop(self) -> None:
        """Read nothing more."""
        self._wanted = None
        self._forget()

    def _begin(self) -> None:
        self._forget()
        session = self._live.session
        if session is None or self._wanted is None:
            return
        follower, table, runs = self._wanted
        if follower not in session.project.follower_named:
            self.failed.emit(self.tr("The connection does not know this device yet: connect again."))
            return
        self._waiting = {run: session.engine.read(follower, table, *run) for run in runs}

    def _forget(self) -> None:
        self._pause.stop()
        for future in self._waiting.values():
            future.cancel()
        self._waiting, self._words, self._why = {}, {}, ""

    def _look(self) -> None:
        """Take what has come; a run that was refused is read once more, register by register."""
        session = self._live.session
        if session is None or self._wanted is None or not self._waiting:
            return
        follower, table, _ = self._wanted
        for (first, count), future in [each for each in self._waiting.items() if each[1].done()]:
            del self._waiting[first, count]
            try:
                self._words |= {(table, first + at): word for at, word in enumerate(future.result())}
            except FanlightError as why:
                self._why = str(why)
                if count > 1:
                    singles = [(at, 1) for at in range(first, first + count)]
                    self._waiting |= {each: session.engine.read(follower, table, *each) for each in singles}
        if self._waiting:
            return
        if self._words:
            self.read.emit(self._words)
        else:
            self.failed.emit(self._why)
        self._words, self._why = {}, ""
        self._pause.start()
