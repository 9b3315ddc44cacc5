"""A follower on the bench: how it is in words and, while it is simulated, its own switches and values."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QCoreApplication, QSize, Qt, Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import (
    QCheckBox,
    QFrame,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QScrollArea,
    QSizePolicy,
    QStackedWidget,
    QTabBar,
    QVBoxLayout,
    QWidget,
)

from app.project.binding import bindings_of
from app.project.model import Follower, Project, RegisterSignal
from app.signals.encoding import is_text
from app.signals.text import number_digits
from widgets.kit.commands import mark_entry
from widgets.kit.controls import push_button
from widgets.kit.elided import ShortChoice, ShortLabel, ShortLines
from widgets.kit.flow import FlowLayout
from widgets.kit.icons import state_icon
from widgets.kit.look import set_look
from widgets.kit.plain import plain_label, plain_tip
from widgets.kit.scaling import percent, scaled
from widgets.live.readings_model import age_text

if TYPE_CHECKING:  # followers are simulated only when a project is connected
    from app.follower.register_bank import Quantity, RegisterBank
    from app.line.states import FollowerState
    from app.line.status import Status, Statuses

translate = QCoreApplication.translate

SHOWN: Final = ("state", "output frequency", "shaft speed", "current")
"""Which of a drive's own values stand on its card; there is no room for all."""

DOUBTED: Final = 2
"""The `StatusLevel` from which on something is wrong: with data, and above that with devices and lines."""
BODY_LINES: Final = {100: 3, 125: 4, 150: 5, 175: 6, 200: 7}
"""Of a card, by the size of texts: the longest of what is told of a device that does not answer has room in them."""

NUMBER: Final = re.compile(r"[+-]?\d{1,20}(?:[.,]\d{1,20})?")
"""What can be typed as a value. No exponents: 1e999999999 would keep the window busy for minutes."""


class SimulatedSwitches:
    """What a person can do at a simulated follower, as actions for a menu and for check boxes alike."""

    def __init__(self, bank: RegisterBank, parent: QWidget) -> None:
        self.bank = bank
        self.silent = self._switch(
            parent,
            translate("SimulatedSwitches", "Does not &answer"),
            translate("SimulatedSwitches", "As if unplugged from the line: receives nothing and answers nothing."),
            lambda on: setattr(bank, "silent", on),
        )
        self.actions = [self.silent]
        inputs = getattr(bank, "inputs", None)
        if inputs is not None:
            self.jammed = self._switch(
                parent,
                translate("SimulatedSwitches", "Shaft &blocked"),
                translate(
                    "SimulatedSwitches",
                    "Something holds the shaft fast: a running motor trips, one that starts stays at the torque limit.",
                ),
                lambda on: setattr(inputs, "jammed", on),
            )
            self.actions = [self.jammed, self.silent]
        self.more = mark_entry(QAction(translate("SimulatedSwitches", "&Inputs and line\u2026"), parent))
        self.more.triggered.connect(lambda: self._show_more(parent))

    def _show_more(self, parent: QWidget) -> None:
        from widgets.live.follower_trouble import TroubleDialog

        dialog = TroubleDialog(self.bank, parent.window())
        parent.destroyed.connect(dialog.close)  # with its card the follower is gone
        dialog.show()

    @staticmethod
    def _switch(parent: QWidget, text: str, tip: str, act: Callable[[bool], None]) -> QAction:
        action = QAction(text, parent)
        action.setCheckable(True)
        action.setToolTip(plain_tip(tip))
        action.toggled.connect(act)
        return mark_entry(action)


class FollowerCard(QFrame):
    """One follower: its name, how it is, and its switches while it is simulated.

    As high with any of that as without: what it says has a fixed number of lines, and rows not wanted are empty.
    """

    def __init__(
        self, project: Project, follower: Follower, parent: QWidget | None = None, *, narrow: bool = False
    ) -> None:
        """`narrow`: for a column where the switches have no room side by side, and where no line is spoken of."""
        super().__init__(parent)
        self._narrow = narrow
        self._project = project
        self.follower = follower
        self.switches: SimulatedSwitches | None = None
        self._has_values = False
        self._values = ""
        self._reason = ""
        self._refused = ""
        self.setProperty("look", "card")
        self._name = ShortLabel(self.tr("{name}, unit address {unit}").format(name=follower.name, unit=follower.unit))
        self._name.setProperty("look", "heading")
        self.state = ShortLabel()
        self.state.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self.body = ShortLines(BODY_LINES[percent()])
        """What is wrong and what to do about it; while nothing is, its own values."""
        self.body.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
        head = QHBoxLayout()
        head.addWidget(self._name, 2)
        head.addWidget(self.state, 3)
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(10, 6, 10, 6)
        self._layout.setSpacing(4)
        self._layout.addLayout(head)
        self._layout.addWidget(self.body)
        self.state.setHidden(narrow)  # it has a parent only now: shown before, it would be a window of its own
        self._layout.addStretch(1)
        self.show_state(None, 0.0)

    def show_state(self, state: FollowerState | None, now: float, status: Status | None = None) -> None:
        """Say how the follower is; None while nothing is connected. `now` is `time.monotonic()` in seconds.

        `status` is that of this follower, its line and its data: the worst of these leads.
        """
        if state is None:
            self._values = ""
            self._say(self.tr("not connected"), "faint")
        elif state.answering is None:
            self._say(self.tr("\u2026 not polled yet"), "faint")
        elif status is not None and status.level >= DOUBTED and (state.answering or state.two_devices):
            self._say(f"\u26a0 {status.words}", status_look(status), status.advice)
        elif state.answering:
            words = self.tr("\u2713 answering")
            if state.answer_ms is not None:
                words += self.tr(", {ms} ms").format(ms=_coarse(state.answer_ms))
            if self.switches is None and state.requests:
                self._values = self.tr("on line {line}, good answers: {good}, faults: {faults}").format(
                    line=state.line, good=state.good, faults=sum(state.faults.values())
                )
            self._say(words, "good")
        else:
            words = self.tr("\u26a0 not answering")
            if state.last_answer is not None:
                words += self.tr(", last answer {age} ago").format(age=age_text(now - state.last_answer))
            self._say(words, "fault", state.reason or (status.advice if status is not None else ""))

    def simulate(self, bank: RegisterBank, switches: SimulatedSwitches | None = None) -> None:
        """Offer the switches of this simulated follower from now on."""
        self.switches = switches or SimulatedSwitches(bank, self)
        self._has_values = any(quantity.name in SHOWN for quantity in bank.overview())
        boxes: list[QWidget] = [_box(action) for action in self.switches.actions]
        more = push_button(self.tr("More\u2026"), self.switches.more.trigger)
        more.setToolTip(self.tr("Other inputs, and line faults"))
        more.setAccessibleName(self.tr("Inputs and line of {name}").format(name=self.follower.name))
        boxes.append(more)
        at = self._layout.count() - 1
        if self._narrow:
            for box in boxes:
                self._layout.insertWidget(at, box)
                at += 1
        else:
            row = FlowLayout(spacing=12)
            caption = plain_label(self.tr("Simulated:"), "faint")
            row.addWidget(caption)
            for box in boxes:
                row.addWidget(box)
            self._layout.insertLayout(at, row)
            at += 1
        names = _settable(self._project, bank)
        if names:
            setter = ValueSetter(self._project, bank, names, narrow=self._narrow)
            setter.refused.connect(self._set_refused)
            self._layout.insertWidget(at, setter)
        self.refresh()

    def refresh(self) -> None:
        """Show the simulated follower's own values as they are now."""
        if self.switches is None or not self._has_values or not self.isVisible():
            return
        shown = [_text(quantity) for quantity in self.switches.bank.overview() if quantity.name in SHOWN]
        self._values = "   ".join(shown)
        self._show_body()

    def _set_refused(self, why: str) -> None:
        self._refused = why
        self._show_body()

    def _say(self, words: str, look: str, reason: str = "") -> None:
        if self.state.text() != words:
            self.state.setText(words)
        set_look(self.state, look)
        self._reason = reason
        self._show_body()

    def _show_body(self) -> None:
        """What somebody did here just now comes first, then what is wrong, then the values."""
        words = self._refused or self._reason or self._values
        if words != self.body.text():
            self.body.setText(words)
            own = self.tr("Values of {name}").format(name=self.follower.name)
            self.body.setAccessibleName(words if self._refused or self._reason else f"{own}: {words}" if words else "")
        set_look(self.body, "caution" if self._refused else "")


class CardColumn(QScrollArea):
    """Cards one below the other, as a pane of their own."""

    def __init__(self) -> None:
        super().__init__()
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.show_cards([])

    def show_cards(self, cards: Sequence[QWidget]) -> None:
        """Show these cards and forget the former ones."""
        inner = QWidget()
        column = QVBoxLayout(inner)
        column.setContentsMargins(0, 0, 0, 0)
        for card in cards:
            column.addWidget(card)
        column.addStretch(1)
        self.setWidget(inner)


class FollowerCards(QWidget):
    """The followers of a project: one is the card; of several the heads, and the card of the one that is chosen."""

    def __init__(self) -> None:
        super().__init__()
        self._project: Project | None = None
        self._states: Mapping[str, FollowerState] = {}
        self._statuses: Statuses | None = None
        self._now = 0.0
        self._cards: dict[int, FollowerCard] = {}
        self._switches: dict[str, SimulatedSwitches] = {}
        self._models: Mapping[str, RegisterBank] = {}
        self._holder = QStackedWidget()
        self.heads = QTabBar()
        """Which follower, where there are several; the mark before each name tells how it is."""
        self.heads.setAccessibleName(self.tr("Devices"))
        self.heads.setExpanding(False)
        self.heads.setDrawBase(False)
        self.heads.setIconSize(QSize(scaled(16), scaled(16)))
        self.heads.setElideMode(Qt.TextElideMode.ElideRight)
        self.heads.currentChanged.connect(self._choose)
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(2)
        self._layout.addWidget(self.heads)
        self._layout.addWidget(self._holder, 1)

    @property
    def wanted_height(self) -> int:
        """Pixels that one card needs, with the heads where there are several; by the project and the size of texts."""
        line = self.fontMetrics().lineSpacing()
        control = self.fontMetrics().height() + scaled(8) + 4
        card = (1 + BODY_LINES[percent()]) * line + 2 * control + 12 + 4 * 4 + 4
        return card + (self.heads.sizeHint().height() + 2 if self.heads.count() > 1 else 0)

    def show_project(self, project: Project) -> None:
        """Show the followers of this project, not connected, and forget the former ones."""
        former, self._holder = self._holder, QStackedWidget()
        self._layout.replaceWidget(former, self._holder)
        former.hide()
        former.deleteLater()
        self._project = project
        self._states, self._models, self._cards, self._switches = {}, {}, {}, {}
        self.heads.blockSignals(True)
        while self.heads.count():
            self.heads.removeTab(0)
        for follower in project.followers:
            self.heads.addTab(follower.name.replace("&", "&&"))
            self.heads.setTabToolTip(self.heads.count() - 1, follower.name)
        self.heads.blockSignals(False)
        self.heads.setVisible(len(project.followers) > 1)
        if project.followers:
            self._choose(0)
        self.show_states({}, 0.0)

    def simulate(self, models: Mapping[str, RegisterBank]) -> None:
        """Offer the switches of these simulated followers from now on."""
        self._models = models
        self._switches = {name: SimulatedSwitches(bank, self._holder) for name, bank in models.items()}
        for card in self._cards.values():
            self._simulate(card)

    @property
    def switches(self) -> Mapping[str, SimulatedSwitches]:
        """Those of the simulated followers, by name."""
        return self._switches

    def show_states(self, states: Mapping[str, FollowerState], now: float, statuses: Statuses | None = None) -> None:
        """Say how the followers are; nothing of those while nothing is connected. `now` is `time.monotonic()`."""
        self._states, self._now, self._statuses = states, now, statuses
        shown = self._holder.currentWidget()
        if isinstance(shown, FollowerCard):
            self._tell(shown)
        if self.heads.count() > 1 and self._project is not None:
            for number, follower in enumerate(self._project.followers):
                self._mark(number, states.get(follower.name))

    def _tell(self, card: FollowerCard) -> None:
        name = card.follower.name
        status = None if self._statuses is None else self._statuses.of(name)
        card.show_state(self._states.get(name), self._now, status)
        card.refresh()

    def card(self, number: int) -> FollowerCard:
        """The card of the follower with this number; made when it is first wanted."""
        project = self._project
        assert project is not None, "no project is shown"
        if number not in self._cards:
            made = self._cards[number] = FollowerCard(project, project.followers[number])
            self._holder.addWidget(made)
            self._simulate(made)
            self._tell(made)
        return self._cards[number]

    def _simulate(self, card: FollowerCard) -> None:
        name = card.follower.name
        if name in self._switches:
            card.simulate(self._models[name], self._switches[name])

    def _choose(self, number: int) -> None:
        card = self.card(number)
        self._holder.setCurrentWidget(card)
        self._tell(card)

    def _mark(self, number: int, state: FollowerState | None) -> None:
        if state is None or state.answering is None:
            mark, words = "off", self.tr("not connected")
        elif state.answering or state.two_devices:
            status = self._statuses.of(state.name) if self._statuses is not None else None
            if status is not None and status.level >= DOUBTED:
                mark, words = "alarm" if status_look(status) == "fault" else "caution", status.words
            else:
                mark, words = "good", self.tr("answering")
        else:
            mark, words = "alarm", self.tr("not answering")
        if self.heads.tabData(number) == mark:
            return
        self.heads.setTabData(number, mark)
        self.heads.setTabIcon(number, state_icon(mark))
        name = self._project.followers[number].name if self._project is not None else ""
        said = self.tr("{name}: {state}").format(name=name, state=words)
        self.heads.setTabToolTip(number, said)
        self.heads.setAccessibleTabName(number, said)


class ValueSetter(QWidget):
    """Sets what a signal of a simulated follower reads, whatever the line may do to it."""

    refused = Signal(str)
    """Why what was typed cannot be set; empty: that is no longer so."""

    def __init__(
        self,
        project: Project,
        bank: RegisterBank,
        names: Sequence[str],
        parent: QWidget | None = None,
        *,
        narrow: bool = False,
    ) -> None:
        super().__init__(parent)
        self._project = project
        self._bank = bank
        self.signal = ShortChoice()
        self.signal.offer([(name, name) for name in names])
        self.signal.setCurrentIndex(0)
        self.signal.setSizeAdjustPolicy(ShortChoice.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.signal.setMinimumContentsLength(10)
        self.signal.setAccessibleName(self.tr("Signal to set"))
        self.value = QLineEdit()
        self.value.setFixedWidth(scaled(70 if narrow else 90))
        self.value.setAccessibleName(self.tr("Value to set"))
        button = QPushButton(self.tr("Set"))
        button.setAutoDefault(False)
        row = FlowLayout(spacing=8)
        if not narrow:
            caption = plain_label(self.tr("Set signal"), "faint")
            row.addWidget(caption)
        self.signal.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        row.addWidget(self.signal)
        self._unit = plain_label()
        self._unit.setMinimumWidth(self._unit.fontMetrics().horizontalAdvance("1/min"))
        row.addWidget(self.value)
        row.addWidget(self._unit)
        row.addWidget(button)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        layout.addLayout(row)
        button.clicked.connect(self._set)
        self.value.returnPressed.connect(self._set)
        self.value.textEdited.connect(lambda _text: self.refused.emit(""))
        self.signal.currentTextChanged.connect(self._show_unit)
        self._show_unit(self.signal.currentText())

    def _show_unit(self, name: str) -> None:
        self._unit.setText(self._project.signal_named[name].unit)
        self.refused.emit("")

    def _set(self) -> None:
        from app.follower.errors import FollowerError

        name, text = self.signal.currentText(), self.value.text().strip()
        signal = self._project.signal_named[name]
        value: Fraction | str
        if isinstance(signal, RegisterSignal) and is_text(signal.encoding):
            value = text
        else:
            if not NUMBER.fullmatch(text):
                self.refused.emit(self.tr("\u26a0 \u201c{text}\u201d is not a number").format(text=text))
                return
            value = Fraction(text.replace(",", "."))
        try:
            self._bank.set(name, value)
        except FollowerError as why:
            self.refused.emit(f"\u26a0 {why}")
            return
        self.refused.emit("")
        self.value.selectAll()


def status_look(status: Status) -> str:
    """The look of words about something that is wrong: a line or a device is worse than some data."""
    return "caution" if status.level == DOUBTED else "fault"


def _box(action: QAction) -> QCheckBox:
    box = QCheckBox(action.text())
    box.setToolTip(action.toolTip())
    box.setChecked(action.isChecked())
    box.toggled.connect(action.setChecked)
    action.toggled.connect(box.setChecked)
    return box


def _settable(project: Project, bank: RegisterBank) -> list[str]:
    """The signals that one can set by hand: not those that a drive's model works out itself.

    Those that the line cannot write come first.
    """
    own = [binding.signal for binding in bindings_of(project, bank.name).values() if not bank.works_out(binding)]
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
    # The model counts in binary floats: what it means by 41.649999999 is 41.65, and that is shown as 41.7.
    exact = Fraction(repr(round(float(value), 6)))
    text = number_digits(exact, 0 if abs(exact) >= 1000 else 1)
    return f"{text} {quantity.unit}".strip()
