"""A real window in a process of its own that types a counter until it is killed, and recovers when it is told to.

Run as `python -m tests.widgets.typing_window SETTINGS STATE DEED [PROJECT]`, where DEED is one of

- type: it types one number after another over the first row of the first screen, by key events, and prints each with
  the time (`time.monotonic()`) after it was typed;
- draft: it types a step that is none for the third signal, and prints what the findings say of it;
- both: the numbers come after that;
- recover, keep: it answers the offer of unsaved work so, and prints the rows of the screen, whether they are unsaved,
  and what is not taken over yet;
- look: it prints them without an offer.
"""

from __future__ import annotations

import json
import sys
import time
from pathlib import Path
from typing import Final

from PySide6.QtCore import QObject, QSettings, Qt, QTimer
from PySide6.QtGui import QKeySequence
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from widgets.document.document import Selection
from widgets.shell import application
from widgets.shell.recovery_dialog import RecoveryDialog
from widgets.shell.window import MainWindow

EVERY_MS: Final = 40
STEP: Final = "fast, but not too fast"


class Typist(QObject):
    """Types numbers of six digits."""

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self._window = window
        self._number = 0
        self._timer = QTimer(self)
        self._timer.timeout.connect(self._type)
        self._timer.start(EVERY_MS)

    def _type(self) -> None:
        window = self._window
        self._number += 1
        window.document.select(Selection(window.document.selection.screen, (0, 0)))
        QTest.keyClicks(window.design.editor.face, f"{self._number:06d}")
        _print(number=self._number, at=time.monotonic())


def _type_a_draft(window: MainWindow) -> None:
    QTest.qWaitForWindowActive(window)
    QTest.keySequence(window, QKeySequence("Alt+4"))
    table = window.design.signals.first
    for _ in range(2):
        QTest.keyClick(table, Qt.Key.Key_Down)
    form = window.design.inspector.signal_form
    (editor,) = next(row for row in form.rows if row.label == "Step").editors()
    editor.setFocus()
    QTest.keySequence(editor, QKeySequence("Ctrl+A"))
    QTest.keyClicks(editor, STEP)
    _print(drafts=_drafts(window))
    QTest.keySequence(window, QKeySequence("Alt+1"))


def _drafts(window: MainWindow) -> list[str]:
    return [f"{row.where}: {row.what}" for row in window.design.findings.model.rows if row.finding is None]


def _print(**said: object) -> None:
    sys.stdout.write(json.dumps(said) + "\n")
    sys.stdout.flush()


def _answer(window: MainWindow, deed: str) -> None:
    """Wait for the offer, answer it, and tell what is in the window then."""
    dialog = QApplication.activeModalWidget()
    if deed != "look":
        if not isinstance(dialog, RecoveryDialog):
            QTimer.singleShot(20, window, lambda: _answer(window, deed))
            return
        _print(offered=dialog.list.count(), where=dialog.where.text(), differences=dialog.differences.toPlainText())
        QTest.keyClick(dialog, Qt.Key.Key_Return if deed == "recover" else Qt.Key.Key_Escape)
    QTimer.singleShot(0, window, lambda: _tell(window))


def _tell(window: MainWindow) -> None:
    screen = window.document.screen
    _print(
        text=[] if screen is None else list(screen.text),
        modified=window.document.modified,
        path=str(window.document.path),
        bar=window.notices.words if window.notices.about else "",
        drafts=_drafts(window),
        told=window.told,
    )


def main() -> None:
    """Run the window as the program does, but for the folders it keeps things in."""
    settings, state, deed, *rest = sys.argv[1:]
    QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, settings)
    begin = application.begin

    def begin_here(window: MainWindow, *, resume: bool, workspace: int | None = None) -> None:
        if deed in ("draft", "both"):
            _type_a_draft(window)
        if deed in ("type", "both"):
            Typist(window)
        elif deed != "draft":
            QTimer.singleShot(0, window, lambda: _answer(window, deed))
        begin(window, resume=resume, workspace=workspace)

    application.begin = begin_here
    sys.exit(application.run_window(Path(rest[0]) if rest else None, state=Path(state)))


if __name__ == "__main__":
    main()
