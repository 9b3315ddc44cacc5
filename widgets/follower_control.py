"""A follower on the bench: how it is in words and, while it is simulated, its own switches and values."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QCoreApplication, QEvent, QObject, QSize, Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QFrame,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from app.project.binding import bindings
from app.project.model import Follower, Project, RegisterSignal
from app.signals.encoding import is_text
from app.signals.text import number_digits
from widgets.commands import mark_entry
from widgets.flow import FlowLayout
from widgets.palette import set_look
from widgets.readings_table import age_text
from widgets.size import scaled

if TYPE_CHECKING:  # followers are simulated only when a project is connected
    from app.bus.states import FollowerState
    from app.follower.bank import Bank, Quantity

translate = QCoreApplication.translate

SHOWN: Final = ("state", "output frequency", "shaft speed", "current")
"""Which of a drive's own values stand on its card; there is no room for all."""

NUMBER: Final = re.compile(r"[+-]?\d{1,20}(?:[.,]\d{1,20})?")
"""What can be typed as a value. No exponents: 1e999999999 would keep the window busy for minutes."""


class SimulatedSwitches:
    """What a person can do at a simulated follower, as actions for a menu and for check boxes alike."""

    def __init__(self, bank: Bank, parent: QWidget) -> None:
        self.bank = bank
        self.silent = self._switch(
            parent,
            translate("SimulatedSwitches", "Does not &answer"),
            translate("SimulatedSwitches", "As if unplugged from the line: it neither hears nor answers."),
            lambda on: setattr(bank, "silent", on),
        )
        self.actions = [self.silent]
        inputs = getattr(bank, "inputs", None)
        if inputs is not None:
            self.external_fault = self._switch(
                parent,
                translate("SimulatedSwitches", "&External fault"),
                translate(
                    "SimulatedSwitches",
                    "The drive's external fault input is tripped, and it stops with a fault until that is reset.",
                ),
                lambda on: setattr(inputs, "external_fault", on),
            )
            self.local = self._switch(
                parent,
                translate("SimulatedSwitches", "&Local"),
                translate("SimulatedSwitches", "Somebody switched the drive to local: the line commands it no longer."),
                lambda on: setattr(inputs, "remote", not on),
            )
            self.actions = [self.external_fault, self.local, self.silent]
        self.more = mark_entry(QAction(translate("SimulatedSwitches", "&Inputs and line\u2026"), parent))
        self.more.triggered.connect(lambda: self._show_more(parent))

    def _show_more(self, parent: QWidget) -> None:
        from widgets.follower_trouble import TroubleDialog

        dialog = TroubleDialog(self.bank, parent.window())
        parent.destroyed.connect(dialog.close)  # with its card the follower is gone
        dialog.show()

    @staticmethod
    def _switch(parent: QWidget, text: str, tip: str, turn: Callable[[bool], None]) -> QAction:
        action = QAction(text, parent)
        action.setCheckable(True)
        action.setToolTip(tip)
        action.toggled.connect(turn)
        return mark_entry(action)


class FollowerCard(QFrame):
    """One follower: its name, how it is, and its switches while it is simulated."""

    def __init__(
        self, project: Project, follower: Follower, parent: QWidget | None = None, *, narrow: bool = False
    ) -> None:
        """`narrow`: for a column where the switches have no room side by side, and where no line is spoken of."""
        super().__init__(parent)
        self._narrow = narrow
        self._project = project
        self.follower = follower
        self.switches: SimulatedSwitches | None = None
        self.setProperty("look", "card")
        self._name = QLabel(self.tr("{name}, unit {unit}").format(name=follower.name, unit=follower.unit))
        self._name.setTextFormat(Qt.TextFormat.PlainText)
        self._name.setProperty("look", "heading")
        self.state = QLabel()
        self.state.setTextFormat(Qt.TextFormat.PlainText)
        self.state.setWordWrap(True)
        self.state.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self.reason = QLabel()
        self.reason.setTextFormat(Qt.TextFormat.PlainText)
        self.reason.setWordWrap(True)
        self.reason.hide()
        head = QHBoxLayout()
        head.addWidget(self._name)
        head.addWidget(self.state, 1)
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(10, 6, 10, 6)
        self._layout.setSpacing(4)
        self._layout.addLayout(head)
        self.state.setHidden(narrow)  # it has a parent only now: shown before, it would be a window of its own
        self._layout.addWidget(self.reason)
        self._values: QLabel | None = None
        self.show_state(None, 0.0)

    def show_state(self, state: FollowerState | None, now: float) -> None:
        """Say how the follower is; None while nothing is connected. `now` is `time.monotonic()` in seconds."""
        if state is None:
            self._say(self.tr("not connected"), "faint")
        elif state.answering is None:
            self._say(self.tr("\u2026 not asked yet"), "faint")
        elif state.answering:
            words = self.tr("\u2713 answering")
            if state.answer_ms is not None:
                words += self.tr(", {ms} ms").format(ms=_coarse(state.answer_ms))
            self._say(words, "good")
        else:
            words = self.tr("\u26a0 not answering")
            if state.last_answer is not None:
                words += self.tr(", last {age} ago").format(age=age_text(now - state.last_answer))
            self._say(words, "fault", state.reason)

    def simulate(self, bank: Bank) -> None:
        """Offer the switches of this simulated follower from now on."""
        self.switches = SimulatedSwitches(bank, self)
        boxes: list[QWidget] = [_box(action) for action in self.switches.actions]
        more = QPushButton(self.tr("More\u2026"))
        more.setAutoDefault(False)
        more.setToolTip(self.tr("Its other inputs, and trouble on the line"))
        more.setAccessibleName(self.tr("Inputs and line of {name}").format(name=self.follower.name))
        more.clicked.connect(self.switches.more.trigger)
        boxes.append(more)
        if self._narrow:
            for box in boxes:
                self._layout.addWidget(box)
        else:
            row = FlowLayout(spacing=12)
            caption = QLabel(self.tr("Simulated:"))
            caption.setProperty("look", "faint")
            row.addWidget(caption)
            for box in boxes:
                row.addWidget(box)
            self._layout.addLayout(row)
        if any(quantity.name in SHOWN for quantity in bank.overview()):
            self._values = QLabel()
            self._values.setTextFormat(Qt.TextFormat.PlainText)
            self._values.setWordWrap(True)
            self._values.setAccessibleName(self.tr("Own values of {name}").format(name=self.follower.name))
            self._layout.addWidget(self._values)
        names = _settable(self._project, bank)
        if names:
            self._layout.addWidget(ValueSetter(self._project, bank, names, narrow=self._narrow))
        self.refresh()

    def refresh(self) -> None:
        """Show the simulated follower's own values as they are now."""
        if self.switches is None or self._values is None or not self.isVisible():
            return
        shown = [_text(quantity) for quantity in self.switches.bank.overview() if quantity.name in SHOWN]
        words = "   ".join(shown)
        if words != self._values.text():
            self._values.setText(words)

    def _say(self, words: str, look: str, reason: str = "") -> None:
        if self.reason.text() != reason:
            self.reason.setText(reason)
            self.reason.setVisible(bool(reason))
        if self.state.text() != words:
            self.state.setText(words)
            self.state.setToolTip(words)
        set_look(self.state, look)


class FollowerCards(QScrollArea):
    """The cards of the followers, as high as they are, but never more than half of the room; alone, all of it."""

    def __init__(self, *, alone: bool = False) -> None:
        super().__init__()
        self._alone = alone
        self._inner = QWidget()
        self.setWidget(self._inner)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        upright = QSizePolicy.Policy.Expanding if alone else QSizePolicy.Policy.Maximum
        self.setSizePolicy(QSizePolicy.Policy.Preferred, upright)

    def show_cards(self, cards: Sequence[QWidget]) -> None:
        """Show these cards and forget the former ones."""
        inner = QWidget()
        column = QVBoxLayout(inner)
        column.setContentsMargins(0, 0, 0, 0)
        for card in cards:
            column.addWidget(card)
        column.addStretch(1)
        self._inner = inner
        self.setWidget(inner)
        inner.installEventFilter(self)
        self.updateGeometry()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Follow the cards as they grow."""
        if event.type() == QEvent.Type.LayoutRequest:
            self.updateGeometry()
        return super().eventFilter(watched, event)

    def sizeHint(self) -> QSize:
        """As high as the cards, half of the room at most where something else shares it."""
        parent = None if self._alone else self.parentWidget()
        wanted = self._inner.sizeHint()
        half = parent.height() // 2 if parent is not None else wanted.height()
        return QSize(wanted.width(), max(60, min(wanted.height(), half)))

    def minimumSizeHint(self) -> QSize:
        """Enough for one card."""
        return QSize(200, min(120, self.sizeHint().height()))


class ValueSetter(QWidget):
    """Sets what a signal of a simulated follower reads, whatever the line may do to it."""

    def __init__(
        self,
        project: Project,
        bank: Bank,
        names: Sequence[str],
        parent: QWidget | None = None,
        *,
        narrow: bool = False,
    ) -> None:
        super().__init__(parent)
        self._project = project
        self._bank = bank
        self.signal = QComboBox()
        self.signal.addItems(list(names))
        self.signal.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.signal.setMinimumContentsLength(10)
        self.signal.setAccessibleName(self.tr("Signal to set"))
        self.value = QLineEdit()
        self.value.setFixedWidth(scaled(70 if narrow else 90))
        self.value.setAccessibleName(self.tr("Value to set"))
        button = QPushButton(self.tr("Set"))
        button.setAutoDefault(False)
        self.said = QLabel()
        self.said.setTextFormat(Qt.TextFormat.PlainText)
        self.said.setProperty("look", "caution")
        self.said.setWordWrap(True)
        self.said.hide()
        row = FlowLayout(spacing=8)
        if not narrow:
            caption = QLabel(self.tr("Set its"))
            caption.setProperty("look", "faint")
            row.addWidget(caption)
        self.signal.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        row.addWidget(self.signal)
        self._unit = QLabel()
        self._unit.setMinimumWidth(self._unit.fontMetrics().horizontalAdvance("min-1"))
        row.addWidget(self.value)
        row.addWidget(self._unit)
        row.addWidget(button)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        layout.addLayout(row)
        layout.addWidget(self.said)
        button.clicked.connect(self._set)
        self.value.returnPressed.connect(self._set)
        self.value.textEdited.connect(lambda _text: self.said.hide())
        self.signal.currentTextChanged.connect(self._chosen)
        self._chosen(self.signal.currentText())

    def _chosen(self, name: str) -> None:
        self._unit.setText(self._project.signal_named[name].unit)
        self.said.hide()

    def _set(self) -> None:
        from app.follower.errors import FollowerError

        name, text = self.signal.currentText(), self.value.text().strip()
        signal = self._project.signal_named[name]
        value: Fraction | str
        if isinstance(signal, RegisterSignal) and is_text(signal.encoding):
            value = text
        else:
            if not NUMBER.fullmatch(text):
                self._say(self.tr("\u26a0 \u201c{text}\u201d is not a number").format(text=text))
                return
            value = Fraction(text.replace(",", "."))
        try:
            self._bank.set(name, value)
        except FollowerError as why:
            self._say(f"\u26a0 {why}")
            return
        self.said.hide()
        self.value.selectAll()

    def _say(self, words: str) -> None:
        self.said.setText(words)
        self.said.show()


def _box(action: QAction) -> QCheckBox:
    box = QCheckBox(action.text())
    box.setToolTip(action.toolTip())
    box.setChecked(action.isChecked())
    box.toggled.connect(action.setChecked)
    action.toggled.connect(box.setChecked)
    return box


def _settable(project: Project, bank: Bank) -> list[str]:
    """The signals that one can play by hand: not those that a drive's model works out itself.

    Those that the line cannot write come first.
    """
    own = [
        binding.signal
        for binding in bindings(project).values()
        if binding.follower.name == bank.name and not bank.works_out(binding)
    ]
    return [signal.name for signal in sorted(own, key=lambda signal: signal.write)]


def _coarse(ms: float) -> str:
    """A time that does not flicker: whole milliseconds, and no more than two figures."""
    if ms < 1:
        return "< 1"
    return f"{ms:.0f}" if ms < 100 else f"{round(ms, -1):.0f}"


def _text(quantity: Quantity) -> str:
    value = quantity.value
    if isinstance(value, str):
        return value
    # The model counts in binary floats: what it means by 38.149999999 is 38.15, and that is shown as 38.2.
    exact = Fraction(repr(round(float(value), 6)))
    text = number_digits(exact, 0 if abs(exact) >= 1000 else 1)
    return f"{text} {quantity.unit}".strip()
