"""Files that are dragged onto the window: what will become of them is said while they are dragged."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Final

from PySide6.QtCore import QEvent, QObject, QTimer
from PySide6.QtGui import QDropEvent
from PySide6.QtWidgets import QWidget

from widgets.kit.notice_slot import Gravity, NoticeSlot

DRAG: Final = "drag"
"""What the notice is about."""
PROJECT, RECORDING, SNAPSHOT = ".toml", ".fanrec", ".registers.toml"


class FileDrops(QObject):
    """Takes one project, recording or register list; says of anything else that it does not, and why."""

    def __init__(self, window: QWidget, notices: NoticeSlot, open_file: Callable[[Path], object]) -> None:
        super().__init__(window)
        self._window = window
        self._notices = notices
        self._open = open_file
        window.setAcceptDrops(True)
        window.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        match event.type():
            case QEvent.Type.DragEnter if isinstance(event, QDropEvent) and event.mimeData().hasUrls():
                taken, words = self._judge(_files(event))
                self._notices.say(DRAG, words, gravity=Gravity.GOOD if taken else Gravity.CAUTION, leads=True)
                event.acceptProposedAction()  # also what is refused: else nobody would say when it leaves
                return True
            case QEvent.Type.DragLeave:
                self._notices.retract(DRAG)
            case QEvent.Type.Drop if isinstance(event, QDropEvent):
                self._drop(event)
                return True
            case _:
                pass
        return super().eventFilter(watched, event)

    def _drop(self, event: QDropEvent) -> None:
        files = _files(event)
        taken, words = self._judge(files)
        self._notices.retract(DRAG)
        event.acceptProposedAction()
        if taken:
            # A dialog inside the drop would hold the program that the file was dragged from.
            QTimer.singleShot(0, self._window, lambda: self._open(files[0]))
        else:
            self._notices.tell(words, Gravity.CAUTION)

    def _judge(self, files: list[Path]) -> tuple[bool, str]:
        """Whether these files are taken, and what will be done with them, or why nothing."""
        from app.exchange.reading import ENDINGS  # not needed for the window to come up

        if len(files) != 1:
            return False, self.tr("Only one file of this computer can be opened at a time.")
        file = files[0]
        name = file.name.lower()
        if name.endswith(RECORDING):
            words = self.tr("Drop it to play the recording {file}.")
        elif name.endswith(PROJECT) and not name.endswith(SNAPSHOT):
            words = self.tr("Drop it to open the project {file}.")
        elif file.suffix.lower() in ENDINGS:
            words = self.tr("Drop it to import signals from {file}.")
        else:
            words = self.tr("{file} is no project (.toml), no recording (.fanrec) and no register list ({endings}).")
            return False, words.format(file=file.name, endings=", ".join(sorted(ENDINGS)))
        return True, words.format(file=file.name)


def _files(event: QDropEvent) -> list[Path]:
    """The dragged files of this computer; none if there is anything else among them."""
    urls = event.mimeData().urls()
    return [Path(url.toLocalFile()) for url in urls] if all(url.isLocalFile() for url in urls) else []
