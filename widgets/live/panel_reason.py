"""Why the panel said what it said: a slot below the face, for whoever builds the panel."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QWidget

from app.project.problems import quoted
from widgets.kit.elided import ShortLines
from widgets.kit.notice_slot import lines_here

if TYPE_CHECKING:
    from app.panel.state import Message


class PanelReason(ShortLines):
    """The reason in full of the panel's last message, which has room for a few words only, as long as it is true."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(lines_here(), parent=parent)
        self.setProperty("look", "faint")
        self.setContentsMargins(10, 2, 10, 2)
        self._message: Message | None = None
        self.clear()

    def follow(self, message: Message | None) -> None:
        """This is what the panel said last (`State.said`), or nothing that still matters."""
        if message is self._message:
            return
        self._message = message
        if message is None or not message.reason:
            self.setText("")
            return
        words = self.tr("\u201c{text}\u201d: {reason}").format(text=message.text, reason=message.reason)
        self.setText(f"{quoted(message.signal)}: {words}" if message.signal else words)

    def setText(self, text: str) -> None:
        """Show this; read out, it is told what it is."""
        super().setText(text)
        self.setAccessibleName(self.tr("Reason for this panel message: {words}").format(words=text) if text else "")

    def clear(self) -> None:
        """Show nothing, also of the message that the panel shows now."""
        super().clear()
