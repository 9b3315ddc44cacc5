"""The way of register lists in and out of the project that a window edits."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import QWidget

from app.exchange.reading import ENDINGS
from app.project.model import AnySignal
from widgets.document.document import Document
from widgets.document.settings import Settings

translate = QCoreApplication.translate


class SignalLists:
    """Opens the dialogs of import and export, and tells what came of them."""

    def __init__(self, document: Document, settings: Settings, window: QWidget, tell: Callable[[str], None]) -> None:
        self._document = document
        self._settings = settings
        self._window = window
        self._tell = tell

    def bring_in(self, path: Path | None = None) -> tuple[str, ...]:
        """Import a list, of this file or of one that is chosen. The names of the signals that came or were updated."""
        # Made, and so imported, when it is first wanted.
        from widgets.design.exchange.import_list import ImportDialog, choose_list

        path = path or choose_list(self._window, self._settings.list_folder)
        if path is None:
            return ()
        before = self._document.project
        dialog = ImportDialog(self._document, self._settings, path, self._window)
        dialog.exec()
        dialog.deleteLater()
        after = self._document.project
        if after is before:
            return ()
        new = tuple(signal.name for signal in after.signals if before.signal_named.get(signal.name) is not signal)
        self._tell(
            translate("SignalLists", "Imported signals: {count}. Undo once to remove them.").format(count=len(new))
        )
        return new

    def write_out(self, selected: tuple[AnySignal, ...] = ()) -> None:
        """Export the signals of the project, or some of them."""
        from widgets.design.exchange.export_list import ExportDialog

        project = self._document.project
        if not project.signals:
            self._tell(translate("SignalLists", "There are no signals to export yet."))
            return
        path = self._document.path
        stem = path.stem if path is not None else translate("SignalLists", "signals")
        dialog = ExportDialog(project, self._settings, stem, selected, self._window)
        dialog.exec()
        dialog.deleteLater()
        if dialog.written is not None:
            self._tell(translate("SignalLists", "Signals exported to {file}").format(file=dialog.written.name))


def is_list(path: Path) -> bool:
    """Whether a file is one that may hold a register list, by its name."""
    return path.suffix.lower() in ENDINGS
