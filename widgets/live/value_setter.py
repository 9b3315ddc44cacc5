"""A row that gives one signal of a follower a value: at once where it is simulated, else by a write to the line."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from app.project.binding import bindings_of, unwritable
from app.project.model import Follower, Project, RegisterSignal
from app.signals.encoding import is_text
from widgets.kit.controls import UnitLine, push_button
from widgets.kit.elided import ShortChoice
from widgets.kit.flow import FlowLayout
from widgets.kit.scaling import scaled

if TYPE_CHECKING:  # followers are simulated only when a project is connected
    from app.follower.register_bank import RegisterBank

NUMBER: Final = re.compile(r"[+-]?\d{1,20}(?:[.,]\d{1,20})?")
"""What can be typed as a value. No exponents: 1e999999999 would keep the window busy for minutes."""
VALUE_WIDTH: Final = (130, 70)
"""Pixels at 100 per cent, on a card and in a narrow column."""


class ValueSetter(QWidget):
    """Chooses a signal and takes a value for it, with its unit inside the editor.

    Without a register bank it only tells what is `wanted`: a real device takes values by writes, of which somebody
    else knows whether they may be.
    """

    refused = Signal(str)
    """Why what was typed cannot be set; empty: that is no longer so."""
    was_set = Signal(str)
    """A simulated device was given a value: DEVICE.SIGNAL=VALUE."""
    wanted = Signal(str, str)
    """This signal is to be written with what was typed."""

    def __init__(
        self,
        project: Project,
        bank: RegisterBank | None,
        names: Sequence[str],
        parent: QWidget | None = None,
        *,
        narrow: bool = False,
    ) -> None:
        super().__init__(parent)
        self._project = project
        self._bank = bank
        self._of = ""
        self.signal = ShortChoice()
        self.signal.setSizeAdjustPolicy(ShortChoice.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.signal.setMinimumContentsLength(10)
        self.signal.setAccessibleName(self.tr("Signal to set"))
        self.signal.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.value = UnitLine()
        self.value.setFixedWidth(scaled(VALUE_WIDTH[narrow]))
        self.value.setAccessibleName(self.tr("Value to set"))
        self._words = {True: self.tr("Set"), False: self.tr("Write")}
        """What its button says, with a bank and without one; it is as wide with both."""
        self.button = push_button("", self._set)
        self.button.setMinimumWidth(max(map(self._width_with, self._words.values())))
        row = FlowLayout(spacing=scaled(6)) if narrow else QHBoxLayout()
        row.setSpacing(scaled(6))
        for widget in (self.signal, self.value, self.button):
            row.addWidget(widget)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addLayout(row)
        self.value.returnPressed.connect(self._set)
        self.value.textEdited.connect(lambda _text: self.refused.emit(""))
        self.signal.currentTextChanged.connect(self._show_unit)
        self.serve(bank, names)

    def _width_with(self, words: str) -> int:
        self.button.setText(words)
        return self.button.sizeHint().width()

    def serve(self, bank: RegisterBank | None, names: Sequence[str]) -> None:
        """Set signals of this bank from now on, or only tell what is wanted; among these."""
        self._bank = bank
        self.button.setText(self._words[bank is not None])
        self.signal.offer([(name, name) for name in names])
        if self.signal.currentIndex() < 0:
            self.signal.setCurrentIndex(0)
        self._show_unit(self.signal.currentText())

    def _show_unit(self, name: str) -> None:
        if name != self._of:  # a number that was meant for another signal must not go to this one
            self.value.clear()
        self._of = name
        signal = self._project.signal_named.get(name)
        self.value.set_unit("" if signal is None else signal.unit)
        self.refused.emit("")

    def _set(self) -> None:
        from app.follower.errors import FollowerError

        name, text = self.signal.currentText(), self.value.text().strip()
        if name not in self._project.signal_named:
            return
        if self._bank is None:
            self.wanted.emit(name, text)
            return
        signal = self._project.signal_named[name]
        value: Fraction | str
        if isinstance(signal, RegisterSignal) and is_text(signal.encoding):
            value = text
        else:
            if not NUMBER.fullmatch(text):
                self.refused.emit(self.tr("\u201c{text}\u201d is not a number").format(text=text))
                return
            value = Fraction(text.replace(",", "."))
        try:
            self._bank.set(name, value)
        except FollowerError as why:
            self.refused.emit(str(why))
            return
        self.refused.emit("")
        self.was_set.emit(f"{self._bank.name}.{name}={text.replace(',', '.') if isinstance(value, Fraction) else text}")
        self.value.selectAll()


def settable(project: Project, bank: RegisterBank) -> list[str]:
    """The signals that one can set by hand: not those that a drive's model works out itself.

    What the operator enters at the panel comes first, then those that the line cannot write.
    """
    own = [binding.signal for binding in bindings_of(project, bank.name).values() if not bank.works_out(binding)]
    place = _place_at_the_panel(project)
    return [signal.name for signal in sorted(own, key=lambda signal: (place(signal.name), signal.write))]


def writable(project: Project, follower: Follower) -> list[str]:
    """The signals of a follower that the line can write; what the operator enters at the panel comes first."""
    names = (binding.signal.name for binding in bindings_of(project, follower.name).values())
    return sorted((name for name in names if unwritable(project, name) is None), key=_place_at_the_panel(project))


def _place_at_the_panel(project: Project) -> Callable[[str], int]:
    """Where in the order of the screens a signal is entered; behind all of these what is not."""
    fields = (field for screen in project.screens for field in screen.fields)
    entered = list(dict.fromkeys(field.signal for field in fields if field.entry))
    return lambda name: entered.index(name) if name in entered else len(entered)
