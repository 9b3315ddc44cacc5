"""The row of a form for a serial port: chosen from those of this computer, or typed."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from widgets.design.forms.form import FormRow, Get, Put
from widgets.document.drafts import DraftTexts
from widgets.welcome.serial_choice import SerialChoice


class PortRow(FormRow):
    """Holds the port of the project, which need not be one of this computer; none is put there by itself."""

    def __init__(self, label: str, get: Get, put: Put, hint: str = "") -> None:
        super().__init__(label, get, put, hint)
        self._choice = SerialChoice("", hint=hint)
        self._choice.line.textEdited.connect(lambda _text: self.commit())
        self._choice.activated.connect(lambda _index: self.commit())
        self._layout.addWidget(self._choice, 1)

    def editors(self) -> tuple[QWidget, ...]:
        """The choice."""
        return (self._choice,)

    def texts(self) -> DraftTexts:
        """The port."""
        return (self._choice.port,)

    def set_texts(self, texts: DraftTexts) -> None:
        """Show this port."""
        self._choice.choose(texts[0])

    def show_differing(self, differing: bool) -> None:
        """Say so in the empty line."""
        self._choice.line.setPlaceholderText(self.tr("different") if differing else "")

    def summary(self) -> str:
        """The port."""
        return self._choice.port
