"""The line in which registers are named that must not be touched, as some are cleared by reading."""

from __future__ import annotations

from PySide6.QtWidgets import QLineEdit, QWidget

from app.probing.requests import Untouched
from app.probing.untouched import all_of, parse_untouched, untouched_text
from widgets.kit.elided import shorten_placeholder


class NeverTouch(QLineEdit):
    """Tables and wire addresses: holding:100-119, input:7."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(self.tr("Never touch"))
        shorten_placeholder(self, self.tr("e.g. holding:100-119, input:7"))

    def untouched(self) -> Untouched:
        """What is named. Raises ValueError in words."""
        try:
            return parse_untouched(self.text())
        except ValueError as part:
            text = self.tr("\u201c{part}\u201d names no registers; write holding:100-119, with the wire addresses")
            raise ValueError(text.format(part=part)) from None

    def name_too(self, never: Untouched) -> None:
        """Name these beside what is named already, which stays as it is if it cannot be read."""
        try:
            self.setText(untouched_text(all_of(self.untouched(), never)))
        except ValueError:
            self.setText(", ".join((self.text().strip().rstrip(","), untouched_text(never))))
