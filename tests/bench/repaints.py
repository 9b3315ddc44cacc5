"""Letting a window live, and noticing when one of its widgets is painted anew."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QEventLoop, QObject, QTimer


def run_for(seconds: float) -> None:
    """Let the window live."""
    loop = QEventLoop()
    QTimer.singleShot(int(seconds * 1000), loop.quit)
    loop.exec()


class Painted(QObject):
    """Notices the repaint of a widget whose events it filters."""

    def __init__(self) -> None:
        super().__init__()
        self.done = False

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """See it."""
        if event.type() == QEvent.Type.Paint:
            self.done = True
        return False
