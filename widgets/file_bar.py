"""A bar below the switcher that says something about the file of the project, with what can be done about it."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QWidget

from widgets.icons import cross_icon, tool

Deed = tuple[str, Callable[[], object]]
"""What a button says, and what it does."""


class FileBar(QFrame):
    """Stays until it is answered or closed, or until what it says is no longer so. It takes no focus by itself."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("look", "notice")
        self.text = QLabel()
        self.text.setTextFormat(Qt.TextFormat.PlainText)
        self.text.setWordWrap(True)
        self.text.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.buttons: list[QPushButton] = []
        self._about = ""
        self._row = QHBoxLayout()
        self._row.setSpacing(6)
        self._close = tool(cross_icon(), self.tr("Close the message about the file"), self)
        self._close.clicked.connect(self.hide)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(10, 4, 6, 4)
        layout.addWidget(self.text, 1)
        layout.addLayout(self._row)
        layout.addWidget(self._close)
        self.hide()

    @property
    def about(self) -> str:
        """What the bar is about; empty if it is closed."""
        return "" if self.isHidden() else self._about

    def say(self, about: str, text: str, deeds: Sequence[Deed] = ()) -> None:
        """Show a sentence and a button for each deed. A press on any closes the bar first."""
        self._about = about
        self.text.setText(text)
        self.setAccessibleName(text)
        self._close.setIcon(cross_icon())
        for button in self.buttons:
            self._row.removeWidget(button)
            button.deleteLater()
        self.buttons = []
        for words, deed in deeds:
            button = QPushButton(words)
            button.clicked.connect(lambda _checked=False, deed=deed: self._take(deed))
            self._row.addWidget(button)
            self.buttons.append(button)
        self.show()

    def retract(self, about: str) -> None:
        """Close the bar if it is about this: it is no longer so."""
        if self._about == about:
            self.hide()

    def _take(self, deed: Callable[[], object]) -> None:
        self.hide()
        deed()
