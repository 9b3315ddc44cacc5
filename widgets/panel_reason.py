"""Why the panel said what it said: a slot below the face, for whoever builds the panel."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QWidget

from widgets.notice_slot import lines_here
from widgets.shortening import ShortLines

if TYPE_CHECKING:
    from app.panel.state import Message

READ_MS: Final = 12000
"""The panel's own message is gone sooner; this is longer, and is read after it."""


class PanelReason(ShortLines):
    """The reason in full of the panel's last message, which has room for a few words only; for a while."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(lines_here(), parent=parent)
        self.setProperty("look", "faint")
        self.setContentsMargins(10, 2, 10, 2)
        self._message: Message | None = None
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(READ_MS)
        self._timer.timeout.connect(self.clear)
        self.clear()

    def follow(self, message: Message | None) -> None:
        """The panel shows this message now, or none."""
        if message is self._message:
            return
        self._message = message
        if message is None:
            return  # what it was about can still be read
        self._timer.start()
        self.setText(
            self.tr("\u201c{text}\u201d: {reason}").format(text=message.text, reason=message.reason)
            if message.reason
            else ""
        )

    def setText(self, text: str) -> None:
        """Show this; read out, it is told what it is."""
        super().setText(text)
        self.setAccessibleName(self.tr("Why the panel said so: {words}").format(words=text) if text else "")

    def clear(self) -> None:
        """Show nothing, also of the message that the panel shows now."""
        self._timer.stop()
        super().clear()
