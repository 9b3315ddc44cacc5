"""The one place of the window that says what stays so until something is done about it, with what can be done."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Final

from PySide6.QtCore import QSize
from PySide6.QtWidgets import QFrame, QHBoxLayout, QPushButton, QSizePolicy, QWidget

from widgets.kit.elided import ShortLines
from widgets.kit.icons import tool
from widgets.kit.scaling import percent, scaled

NoticeAction = tuple[str, Callable[[], object]]
"""What a button says, and what it does."""
HEIGHT: Final = 34
"""Pixels at 100 per cent, also while it says nothing: what comes and goes here moves nothing."""
BRIEF_ABOVE: Final = 125
"""Per cent of size above which it has one line only, and is as much lower."""


def lines_here() -> int:
    """How many lines of text a slot for words has at the size in use."""
    return 2 if percent() <= BRIEF_ABOVE else 1


def slot_height() -> int:
    """Pixels that the slot takes at the size in use."""
    return scaled(HEIGHT if percent() <= BRIEF_ABOVE else HEIGHT - 6)


class NoticeSlot(QFrame):
    """Says the newest of what is so; closed or no longer so, it gives way to the one before. It takes no focus."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("look", "notice")
        self._notices: dict[str, tuple[str, tuple[NoticeAction, ...]]] = {}
        self.text = ShortLines(lines_here())
        self.text.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.buttons: list[QPushButton] = []
        self._row = QHBoxLayout()
        self._row.setSpacing(6)
        self._close = tool("cross", self.tr("Close the message"), self)
        self._close.clicked.connect(lambda: self.retract(self.about))
        layout = QHBoxLayout(self)
        layout.setContentsMargins(10, 0, 6, 0)
        layout.addWidget(self.text, 1)
        layout.addLayout(self._row)
        layout.addWidget(self._close)
        self.setFixedHeight(slot_height())
        self.hide()

    @property
    def about(self) -> str:
        """What it is about; empty if it says nothing."""
        return next(reversed(self._notices), "")

    def say(self, about: str, text: str, deeds: Sequence[NoticeAction] = ()) -> None:
        """Show a sentence and a button for each deed. A press on any closes the sentence first."""
        self._notices.pop(about, None)
        self._notices[about] = (text, tuple(deeds))
        self._show()

    def retract(self, about: str) -> None:
        """It is no longer so."""
        if self._notices.pop(about, None) is not None:
            self._show()

    def clear(self) -> None:
        """Nothing is so any more."""
        self._notices.clear()
        self._show()

    def _show(self) -> None:
        for button in self.buttons:
            self._row.removeWidget(button)
            button.hide()
            button.deleteLater()
        self.buttons = []
        if not self._notices:
            self.hide()
            return
        about = self.about
        text, deeds = self._notices[about]
        self.text.setText(f"\u26a0 {text}")
        self.setAccessibleName(text)
        for words, deed in deeds:
            button = QPushButton(words, self)
            button.setAutoDefault(False)
            button.clicked.connect(lambda _checked=False, deed=deed: self._take(about, deed))
            self._row.addWidget(button)
            self.buttons.append(button)
        self.show()

    def _take(self, about: str, deed: Callable[[], object]) -> None:
        self.retract(about)
        deed()

    def minimumSizeHint(self) -> QSize:
        """Its buttons, and a few words."""
        return QSize(super().minimumSizeHint().width(), self.height())
