"""Watching the file of a project: does it still hold what was read or saved here last?"""

from __future__ import annotations

import contextlib
import os
from pathlib import Path
from typing import Final

from PySide6.QtCore import QObject, QTimer, Signal

from app.project_file.files import digest_of
from widgets.kit.background import Background

LOOK_EVERY_MS: Final = 1500

_Stamp = tuple[int, int, int]


class FileWatch(QObject):
    """Looks at one file every one or two seconds, and reads it only when its time, size or number has changed.

    Asking again and again sees what notices of the system miss: files replaced by renaming, and network drives. It is
    done in a thread of its own, because a disk that is gone lets nobody go for minutes.
    """

    found = Signal(object, object)
    """Another content: the file, and its digest (None if the file is gone or cannot be read)."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._path: Path | None = None
        self._watched: Path | None = None
        self._last_report: str | None = None
        self._stamp: _Stamp | None = None
        self._aside = Background("file watch")
        self._timer = QTimer(self)
        self._timer.setInterval(LOOK_EVERY_MS)
        self._timer.timeout.connect(self.look)
        aside = self._aside
        self.destroyed.connect(lambda: aside.stop(1.0))

    def follow(self, path: Path | None, known: str | None) -> None:
        """Watch this file from now on, which held the content `known`; None watches nothing."""
        self._aside.post("follow", lambda: self._begin(path, known))
        self._path = path
        if path is None:
            self._timer.stop()
        else:
            self._timer.start()

    def look(self) -> None:
        """Look now."""
        if self._path is not None:
            self._aside.post("look", self._look)

    def stop(self) -> None:
        """Watch nothing more, and end the thread."""
        self._timer.stop()
        self._path = None
        self._aside.stop(1.0)

    # In the thread

    def _begin(self, path: Path | None, known: str | None) -> None:
        self._watched, self._last_report, self._stamp = path, known, None

    def _look(self) -> None:
        path = self._watched
        if path is None:
            return
        stamp = _stamp(path)
        if stamp is not None and stamp == self._stamp:
            return
        now = digest_of(path) if stamp is not None else None
        self._stamp = stamp
        if now != self._last_report:
            self._last_report = now
            with contextlib.suppress(RuntimeError):  # the window may be gone
                self.found.emit(path, now)


def _stamp(path: Path) -> _Stamp | None:
    try:
        found = os.stat(path)  # noqa: PTH116
    except (OSError, ValueError):
        return None
    return found.st_mtime_ns, found.st_size, found.st_ino
