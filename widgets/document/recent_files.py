"""The menu of project files that were opened or saved last."""

from __future__ import annotations

import contextlib
import threading
from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu, QWidget

from widgets.document.settings import Settings
from widgets.kit.commands import mark_entry


class RecentFiles(QMenu):
    """Lists them with a digit each. Those that are gone say so, and stay: their drive may only be away."""

    _looked = Signal(object)

    def __init__(self, settings: Settings, open_file: Callable[[Path], object], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setTitle(self.tr("Open &recent"))
        self._settings = settings
        self._open_file = open_file
        self._files: list[tuple[Path, QAction]] = []
        self._missing: frozenset[Path] = frozenset()
        self.aboutToShow.connect(self._look)
        self._looked.connect(self._show_missing)
        self.refresh()

    def refresh(self) -> None:
        """List what the settings say now."""
        self.clear()
        self._files = []
        recent = self._settings.recent
        for number, path in enumerate(recent, start=1):
            action = mark_entry(self.addAction(self._entry(number, path)))
            if number == 1:
                action.setShortcut("Ctrl+Shift+O")
            action.triggered.connect(lambda _checked=False, path=path: self._open_file(path))
            self._files.append((path, action))
        self.setEnabled(bool(recent))
        if not recent:
            return
        self.addSeparator()
        self._tidy = mark_entry(self.addAction(self.tr("&Remove missing files")))
        self._tidy.setEnabled(bool(self._missing))
        self._tidy.triggered.connect(self._take_off_missing)
        empty = self.addAction(self.tr("&Clear this list"))
        empty.setShortcut("Ctrl+Shift+Del")
        empty.triggered.connect(self._empty)

    def _entry(self, number: int, path: Path) -> str:
        words = self.tr("{file}  \u2013  {folder} (not found)") if path in self._missing else "{file}  \u2013  {folder}"
        return f"&{number}  " + words.format(file=path.name, folder=path.parent).replace("&", "&&")

    def _look(self) -> None:
        """Find out which are there; aside, because a drive that is away may take its time to say so."""
        paths = [path for path, _ in self._files]

        def look() -> None:
            missing = frozenset(path for path in paths if not _is_there(path))
            with contextlib.suppress(RuntimeError):  # the window may be gone
                self._looked.emit(missing)

        threading.Thread(target=look, name="recent files", daemon=True).start()

    def _show_missing(self, missing: frozenset[Path]) -> None:
        self._missing = missing
        for number, (path, action) in enumerate(self._files, start=1):
            action.setText(self._entry(number, path))
        if self._files:
            self._tidy.setEnabled(bool(missing))

    def _take_off_missing(self) -> None:
        for path in self._missing:
            self._settings.forget(path)
        self.refresh()

    def _empty(self) -> None:
        self._settings.forget_all()
        self.refresh()


def _is_there(path: Path) -> bool:
    try:
        return path.exists()
    except OSError:
        return False
