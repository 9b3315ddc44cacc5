"""A follower on the bench: how it is in words, its own values, and what can be done to it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QCoreApplication, QRect, QSize, Qt, Signal
from PySide6.QtGui import QAction, QFont, QFontMetrics, QPainter, QPaintEvent, QShowEvent
from PySide6.QtWidgets import (
    QCheckBox,
    QDialogButtonBox,
    QFrame,
    QHBoxLayout,
    QPushButton,
    QScrollArea,
    QSizePolicy,
    QStackedWidget,
    QTabBar,
    QVBoxLayout,
    QWidget,
)

from app.project.model import Follower, Project, SerialLine
from app.signals.text import spoken_digits
from widgets.kit import palette
from widgets.kit.commands import plain
from widgets.kit.controls import push_button
from widgets.kit.dialogs.questions import Question, say
from widgets.kit.elided import ShortLabel, ShortLines, StateLabel
from widgets.kit.icons import state_icon
from widgets.kit.look import set_look
from widgets.kit.plain import plain_label
from widgets.kit.scaling import scaled
from widgets.live.readings_model import age_text
from widgets.live.simulated_switches import SimulatedSwitches, switch_names
from widgets.live.value_setter import ValueSetter, settable, writable

if TYPE_CHECKING:  # followers are simulated only when a project is connected
    from app.follower.register_bank import Quantity, RegisterBank
    from app.line.states import FollowerState
    from app.line.status import Status, Statuses

translate = QCoreApplication.translate

DOUBTED: Final = 2
"""The `StatusLevel` from which on something is wrong: with data, and above that with devices and lines."""
HEIGHT: Final = 154
"""Of a card in pixels at 100 per cent, whatever it says."""
BODY: Final = 36
ROW: Final = 28
CAPTION: Final = 58
"""Pixels at 100 per cent: the height of the values or of two lines of words, of a row, the width of its caption."""
BODY_LINES: Final = 2
NARROW_LINES: Final = 3
"""Of what is wrong and what to do; the whole of it is one press away."""

NOTHING: Final = "\u2013"
Told = tuple[str, str]
"""A value and what it is of."""


def own_values(bank: RegisterBank) -> list[Told]:
    """Those of a simulated drive that stand on its card, as caption and value; there is no room for all."""
    captions = _drive_captions()
    return [(captions[each.name], _text(each)) for each in bank.overview() if each.name in captions]


def _drive_captions() -> dict[str, str]:
    return {
        "state": translate("FollowerCard", "State"),
        "output frequency": translate("FollowerCard", "Output"),
        "shaft speed": translate("FollowerCard", "Speed"),
        "torque": translate("FollowerCard", "Torque"),
        "current": translate("FollowerCard", "Current"),
    }


def _captions(*, drive: bool) -> Sequence[str]:
    """What the values on a card are of."""
    if drive:
        return tuple(_drive_captions().values())
    return (
        translate("FollowerCard", "Requests"),
        translate("FollowerCard", "Good answers"),
        translate("FollowerCard", "Faults"),
    )


class FollowerCard(QFrame):
    """One follower: its name, how it is, and its switches while it is simulated.

    As high with any of that as without: what it says has a fixed number of lines, and rows not wanted are empty.
    """

    was_set = Signal(str)
    """A simulated device was given a value: DEVICE.SIGNAL=VALUE."""
    write_wanted = Signal(str, str)
    """Of a real device: this signal is to be written with what was typed."""
    find_wanted = Signal(str)
    """This device does not answer as it should; what is there is to be found out."""

    def __init__(
        self, project: Project, follower: Follower, parent: QWidget | None = None, *, narrow: bool = False
    ) -> None:
        """`narrow`: for a column where the switches have no room side by side, and where no line is spoken of."""
        super().__init__(parent)
        self._narrow = narrow
        self._project = project
        self.follower = follower
        self.switches: SimulatedSwitches | None = None
        self._values = [(caption, NOTHING) for caption in _captions(drive=follower.simulated.model == "drive")]
        self._reason = ""
        self._refused = ""
        self.setProperty("look", "card")
        self.state = StateLabel()
        self.state.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self.body = ShortLines(NARROW_LINES if narrow else BODY_LINES)
        """What is wrong and what to do about it; while nothing is, its own values stand in this place."""
        self.body.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
        self.values = _Values()
        self.more_words = push_button(self.tr("More\u2026"), self._say_all, "quiet")
        self.more_words.setAccessibleName(self.tr("All of what is wrong with {name}").format(name=follower.name))
        self._body = QStackedWidget()
        self._layout = QVBoxLayout(self)
        self._lay_out()
        self.show_state(None, 0.0)

    # Layout

    def _lay_out(self) -> None:
        side = scaled(6) if self._narrow else scaled(14)
        self._layout.setContentsMargins(side, scaled(9), side, scaled(11))
        self._layout.setSpacing(scaled(6))
        self._layout.addLayout(self._head())
        words = QWidget()
        row = QHBoxLayout(words)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(self.body, 1)
        row.addWidget(self.more_words, 0, Qt.AlignmentFlag.AlignTop)
        kept = self.more_words.sizePolicy()
        kept.setRetainSizeWhenHidden(True)  # else the words would break elsewhere as it comes and goes
        self.more_words.setSizePolicy(kept)
        self._body.addWidget(self.values)
        self._body.addWidget(words)
        if not self._narrow:
            self._body.setFixedHeight(scaled(BODY))
        self._layout.addWidget(self._body)
        self.state.setHidden(self._narrow)  # it has a parent only now: hidden before, it would be shown with it
        if self._narrow:
            self._layout.addStretch(1)
        else:
            self._add_rows()
            self.setFixedHeight(scaled(HEIGHT))

    def _head(self) -> QHBoxLayout:
        name = ShortLabel(self.follower.name)
        name.setProperty("look", "heading")
        name.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Preferred)
        name.setMaximumWidth(scaled(220))
        head = QHBoxLayout()
        head.setSpacing(scaled(8))
        head.addWidget(name)
        self.unit = ShortLabel(self.tr("unit address {unit}").format(unit=self.follower.unit))
        self.unit.setProperty("look", "faint")
        head.addWidget(self.unit, 1)
        head.addWidget(self.state, 1)
        return head

    def _add_rows(self) -> None:
        """What can be done to it: its switches or where its line leads, and a value for one of its signals."""
        self._second = QStackedWidget()
        self._second.setFixedHeight(scaled(ROW))
        self.buttons = [_switch(name) for name in switch_names(drive=self.follower.simulated.model == "drive")]
        self.more = push_button(self.tr("More\u2026"), self._open_more, "quiet")
        self.more.setToolTip(self.tr("Other inputs, and line faults"))
        self.more.setAccessibleName(self.tr("Inputs and line of {name}").format(name=self.follower.name))
        make_it = _captioned(self.tr("Make it"), [*self.buttons, self.more])
        self.line = ShortLabel(self._line_words())
        line = _captioned(self.tr("Line"), [self.line])
        for row in (make_it, line):
            self._second.addWidget(row)
        self.setter = ValueSetter(self._project, None, writable(self._project, self.follower))
        self.setter.refused.connect(self._set_refused)
        self.setter.wanted.connect(self.write_wanted)
        self.setter.was_set.connect(self.was_set)
        self._layout.addWidget(self._second)
        self._layout.addWidget(_captioned(self.tr("Set"), [self.setter]))
        self._allow(connected=False)

    def _open_more(self) -> None:
        if self.switches is not None:
            self.switches.more.trigger()

    def _line_words(self) -> str:
        line = next((each for each in self._project.lines if each.name == self.follower.line), None)
        if line is None:
            return ""
        if isinstance(line, SerialLine):
            where = f"{line.device}, {line.baud} 8{line.parity[0].upper()}{line.stop_bits}"
        else:
            where = f"{line.host}:{line.port}"
        return self.tr("{where} \u00b7 time-out {ms} ms").format(where=where, ms=line.timeout_ms)

    def _allow(self, *, connected: bool) -> None:
        """Let what acts be used only while there is something to act on."""
        simulated = self.switches is not None
        self._second.setCurrentIndex(int(connected and not simulated))
        for widget in (*self.buttons, self.more):
            widget.setEnabled(simulated)
            if not simulated:
                widget.setToolTip(self.tr("Connect to simulated devices first"))
        offered = self.setter.signal.count() > 0
        self.setter.setEnabled(connected and offered)
        why = self.tr("Connect first") if offered else self.tr("No signal of this device may be written.")
        self.setter.setToolTip("" if self.setter.isEnabled() else why)

    # How it is

    def show_state(self, state: FollowerState | None, now: float, status: Status | None = None) -> None:
        """Say how the follower is; None while nothing is connected. `now` is `time.monotonic()` in seconds.

        `status` is that of this follower, its line and its data: the worst of these leads.
        """
        if not self._narrow:
            self._name_unit(connected=state is not None)
            self._allow(connected=state is not None)
        if state is None:
            self._values = [(caption, NOTHING) for caption, _ in self._values]
            self._say("unread", self.tr("not connected"))
        elif state.answering is None:
            self._say("unread", self.tr("not polled yet"))
        elif status is not None and status.level >= DOUBTED and (state.answering or state.two_devices):
            self._say("alarm" if status_look(status) == "fault" else "caution", status.words, status.advice)
        elif state.answering:
            words = self.tr("answering")
            if state.answer_ms is not None:
                words += self.tr(", {ms} ms").format(ms=_coarse(state.answer_ms))
            self._say("good", words)
        else:
            words = self.tr("not answering")
            if state.last_answer is not None:
                words += self.tr(", last answer {age} ago").format(age=age_text(now - state.last_answer))
            self._say("alarm", words, state.reason or (status.advice if status is not None else ""))
        if state is not None and not (self.switches and own_values(self.switches.bank)):
            counts = (state.requests, state.good, sum(state.faults.values()))
            self._values = list(zip(_captions(drive=False), map(str, counts), strict=True))
            self._show_body()

    def _name_unit(self, *, connected: bool) -> None:
        words = self.tr("unit address {unit}, line {line}").format(unit=self.follower.unit, line=self.follower.line)
        if connected and self.switches is not None:
            words = self.tr("{where} \u00b7 simulated").format(where=words)
        self.unit.setText(words)

    def simulate(self, bank: RegisterBank, switches: SimulatedSwitches | None = None) -> None:
        """Offer the switches of this simulated follower from now on."""
        self.switches = switches or SimulatedSwitches(bank, self)
        names = settable(self._project, bank)
        if self._narrow:
            self._add_below(bank, names)
        else:
            for button, action in zip(self.buttons, self.switches.actions, strict=True):
                _follow(button, action)
            self.more.setToolTip(self.tr("Other inputs, and line faults"))
            self.setter.serve(bank, names)
            self._allow(connected=True)
        self.refresh()

    def _add_below(self, bank: RegisterBank, names: Sequence[str]) -> None:
        assert self.switches is not None
        more = push_button(self.tr("More\u2026"), self.switches.more.trigger)
        more.setToolTip(self.tr("Other inputs, and line faults"))
        more.setAccessibleName(self.tr("Inputs and line of {name}").format(name=self.follower.name))
        below: list[QWidget] = [*(_box(action) for action in self.switches.actions), more]
        if names:
            setter = ValueSetter(self._project, bank, names, narrow=True)
            setter.refused.connect(self._set_refused)
            setter.was_set.connect(self.was_set)
            below.append(setter)
        for widget in below:
            self._layout.insertWidget(self._layout.count() - 1, widget)

    def refresh(self) -> None:
        """Show the simulated follower's own values as they are now."""
        if self.switches is None or not self.isVisible():
            return
        own = own_values(self.switches.bank)
        if own:
            self._values = own
            self._show_body()

    def showEvent(self, event: QShowEvent) -> None:
        """What it was told before it was to be seen is shown with it."""
        super().showEvent(event)
        self.refresh()

    def _set_refused(self, why: str) -> None:
        self._refused = why
        self._show_body()

    def _say(self, mark: str, words: str, reason: str = "") -> None:
        self.state.show_state(mark, words)
        self._reason = reason
        self._show_body()

    def _show_body(self) -> None:
        """What somebody did here just now comes first, then what is wrong, then the values."""
        words = self._refused or self._reason
        if words != self.body.text():
            self.body.setText(words)
            self.body.setAccessibleName(words)
        set_look(self.body, "caution" if self._refused else "")
        self.more_words.setVisible(bool(words) and not self.body.whole)
        self.values.tell(self._values, self.tr("Values of {name}").format(name=self.follower.name))
        self._body.setCurrentIndex(int(bool(words)))

    def _say_all(self) -> None:
        words = self.body.text()
        if self.switches is not None:
            say(self, "note", self.follower.name, words)
            return
        question = Question(self, "note", self.follower.name, self.follower.name, words)
        close = QDialogButtonBox.StandardButton.Close
        if question.ask([], False, apart=[(self.tr("&Find out what is there\u2026"), True)], way_out=close):
            self.find_wanted.emit(self.follower.name)


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

    was_set = Signal(str)
    """A simulated device was given a value: DEVICE.SIGNAL=VALUE."""
    write_wanted = Signal(str, str)
    """Of a real device: this signal is to be written with what was typed."""
    find_wanted = Signal(str)
    """See FollowerCard."""

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
        self.heads.addTab("0")
        self._heads_height = self.heads.sizeHint().height() + 2
        self.heads.removeTab(0)
        self.heads.currentChanged.connect(self._choose)
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(2)
        self._layout.addWidget(self.heads)
        self._layout.addWidget(self._holder, 1)

    @property
    def wanted_height(self) -> int:
        """Pixels that one card needs with the heads, whether there are any: the keys above stay where they are."""
        return scaled(HEIGHT) + self._heads_height

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
    def current(self) -> FollowerCard | None:
        """The card that is open; None without any follower."""
        shown = self._holder.currentWidget()
        return shown if isinstance(shown, FollowerCard) else None

    @property
    def switches(self) -> Mapping[str, SimulatedSwitches]:
        """Those of the simulated followers, by name."""
        return self._switches

    def show_states(self, states: Mapping[str, FollowerState], now: float, statuses: Statuses | None = None) -> None:
        """Say how the followers are; nothing of those while nothing is connected. `now` is `time.monotonic()`."""
        self._states, self._now, self._statuses = states, now, statuses
        if self.current is not None:
            self._tell(self.current)
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
            made.write_wanted.connect(self.write_wanted)
            made.was_set.connect(self.was_set)
            made.find_wanted.connect(self.find_wanted)
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


class _Values(QWidget):
    """Values side by side, each under its caption. A column never becomes narrower: they change all the time."""

    def __init__(self) -> None:
        super().__init__()
        self._values: list[Told] = []
        self._widths: dict[str, int] = {}
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)

    def tell(self, values: Sequence[Told], name: str) -> None:
        if values == self._values:
            return
        self._values = list(values)
        words = ", ".join(f"{caption} {value}" for caption, value in values)
        self.setAccessibleName(f"{name}: {words}" if words else "")
        self.update()

    def text(self) -> str:
        """All of it."""
        return ", ".join(f"{caption} {value}" for caption, value in self._values)

    def sizeHint(self) -> QSize:
        return QSize(0, 2 * self.fontMetrics().lineSpacing())

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        colours = palette.current()
        strong = QFont(self.font())
        strong.setWeight(QFont.Weight.DemiBold)
        plain, heavy, left = self.fontMetrics(), QFontMetrics(strong), 0
        for caption, value in self._values:
            wanted = max(plain.horizontalAdvance(caption), heavy.horizontalAdvance(value), self._widths.get(caption, 0))
            self._widths[caption] = wanted
            for font, ink, text, top in (
                (self.font(), "faint", caption, 0),
                (strong, "ink" if self.isEnabled() else "off", value, self.height() // 2),
            ):
                painter.setFont(font)
                painter.setPen(colours.colour(ink))
                painter.drawText(QRect(left, top, wanted + 2, self.height() // 2), Qt.AlignmentFlag.AlignVCenter, text)
            left += wanted + scaled(20)


def status_look(status: Status) -> str:
    """The look of words about something that is wrong: a line or a device is worse than some data."""
    return "caution" if status.level == DOUBTED else "fault"


def _captioned(caption: str, widgets: Sequence[QWidget]) -> QWidget:
    """A row of a card: what it is about, and its controls."""
    row = QWidget()
    layout = QHBoxLayout(row)
    layout.setContentsMargins(0, 0, 0, 0)
    layout.setSpacing(scaled(6))
    words = plain_label(caption, "faint")
    words.setFixedWidth(max(scaled(CAPTION), words.sizeHint().width() + scaled(8)))
    layout.addWidget(words)
    for widget in widgets:
        layout.addWidget(widget, int(isinstance(widget, ValueSetter | ShortLabel)))
    if not isinstance(widgets[-1], ValueSetter | ShortLabel):
        layout.addStretch(1)
    return row


def _switch(name: str) -> QPushButton:
    button = push_button(plain(name), lambda: None)
    button.setCheckable(True)
    return button


def _follow(button: QPushButton, action: QAction) -> None:
    button.setToolTip(action.toolTip())
    button.setChecked(action.isChecked())
    button.toggled.connect(action.setChecked)
    action.toggled.connect(button.setChecked)


def _box(action: QAction) -> QCheckBox:
    box = QCheckBox(plain(action.text()))
    box.setToolTip(action.toolTip())
    box.setChecked(action.isChecked())
    box.toggled.connect(action.setChecked)
    action.toggled.connect(box.setChecked)
    return box


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
    text = spoken_digits(exact, 0 if abs(exact) >= 1000 else 1)
    return f"{text} {quantity.unit}".strip()
