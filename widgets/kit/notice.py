"""A sentence that says why something was not done, over the lower edge of what it is about."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from PySide6.QtCore import QEvent, QObject, Qt, QTimer
from PySide6.QtWidgets import QFrame, QHBoxLayout, QPushButton, QWidget

from widgets.kit.icons import tool
from widgets.kit.plain import plain_label

NOTICE_MS: Final = 9000
ABOVE: Final = 12
"""Pixels between it and what must stay visible below it."""


class Notice(QFrame):
    """Lies over its parent's lower edge, moves nothing, takes no focus, and goes by itself or by its button."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("look", "notice")
        self.setAutoFillBackground(True)
        if parent is not None:
            parent.installEventFilter(self)
        self.text = plain_label(wrap=True)
        self.text.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self._close = tool("cross", self.tr("Close the message"), self)
        self._close.clicked.connect(self.hide)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(10, 4, 4, 4)
        layout.addWidget(self.text, 1)
        self.button = QPushButton()
        self.button.clicked.connect(self._take)
        self._deed: Callable[[], object] | None = None
        layout.addWidget(self.button)
        layout.addWidget(self._close)
        self._free = 0
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(NOTICE_MS)
        self._timer.timeout.connect(self.hide)
        self.hide()

    def say(self, text: str, button: str = "", deed: Callable[[], object] | None = None) -> None:
        """Show a sentence; with a button for a way out of it."""
        self._deed = deed
        self.button.setText(button)
        self.button.setVisible(bool(button))
        text = text[:1].upper() + text[1:]
        self.text.setText(text)
        self.setAccessibleName(text)
        self.show()
        self.raise_()
        self._place()
        if deed is None:
            self._timer.start()
        else:
            self._timer.stop()

    def keep_free(self, pixels: int) -> None:
        """Stay so far above the lower edge: something is said there that must not be covered."""
        if pixels != self._free:
            self._free = pixels
            self._place()

    def _place(self) -> None:
        parent = self.parentWidget()
        if parent is None:
            return
        width = min(parent.width() - 24, 640)
        height = self.heightForWidth(width) if self.hasHeightForWidth() else self.sizeHint().height()
        self.setGeometry((parent.width() - width) // 2, parent.height() - height - self._free - ABOVE, width, height)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Resize and self.isVisible():
            self._place()
        return super().eventFilter(watched, event)

    def _take(self) -> None:
        self.hide()
        if self._deed is not None:
            self._deed()
