"""The page "Which register is it?": what the display shows is typed, all registers are read, what agrees is listed.

They are read twice, half a second apart: what was typed while the display moved would only mislead.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLineEdit,
    QScrollArea,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from app.discovery.into_project import NamedRegister
from app.discovery.past import PastRegisters
from app.matching.advice import Namer, advice, mere_chance
from app.matching.candidates import Candidate, DisplayReading, MatchResult
from app.matching.match import match
from app.matching.moving import still_moving
from app.matching.reading_ways import RegisterWords
from app.matching.shown import Shown, shown
from app.project.model import Scale
from app.signals.numbering import register_text
from widgets.find_out.labelled import labelled
from widgets.find_out.match_tables import (
    CandidateColumn,
    CandidatesModel,
    ShownColumn,
    ShownModel,
    decimals_of,
    unit_of,
)
from widgets.kit.background import Background
from widgets.kit.controls import Choice, WholeNumber, push_button
from widgets.kit.elided import shorten_placeholder
from widgets.kit.empty_state import EmptyState
from widgets.kit.flow import FlowLayout
from widgets.kit.look import set_look
from widgets.kit.plain import plain_label, plain_tip
from widgets.kit.quick_cells import QuickTable
from widgets.kit.scaling import line_height, scaled
from widgets.kit.tables import add_copying, selected_rows, set_widths

_READINGS_IN_SIGHT, _CANDIDATES_IN_SIGHT = 3, 4
_MOST_SENTENCES: Final = 4
_MOST_DECIMALS: Final = 9
AGAIN_MS: Final = 500
"""Between the two reads."""


class _ReadingsTable(QuickTable):
    """What was typed; Delete takes the chosen ones away."""

    removing = Signal()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Delete:
            self.removing.emit()
            return
        super().keyPressEvent(event)


class WhichRegisterPage(QWidget):
    """Whoever owns it reads: it asks by `read_wanted`, and is answered by `take` or `cannot_read`.

    `stop` ends its work for good.
    """

    read_wanted = Signal()
    """All registers are to be read now, since the display was just looked at."""
    recording_wanted = Signal()
    """Registers are to be looked up in a recording: which one is to be asked, and told by `add_past`."""
    named = Signal(object)
    """A register was given a name: a `NamedRegister`."""
    _compared = Signal(int, object)
    _looked = Signal(object, bool)

    def __init__(self, name: Namer = register_text, parent: QWidget | None = None) -> None:
        """`name` says what people call registers: from a table, the first and the last address on the wire."""
        super().__init__(parent)
        self._name = name
        self._readings: list[DisplayReading] = []
        self._pending: Shown | None = None
        """What was typed, for registers that are being read."""
        self._first: RegisterWords | None = None
        """Those of the first of two reads."""
        self._doubted: DisplayReading | None = None
        """What was read while the display moved: kept only if the person insists."""
        self._named: list[NamedRegister] = []
        self._again = QTimer(self)
        self._again.setSingleShot(True)
        self._again.timeout.connect(self.read_wanted)
        self._work = Background("matching")
        self._turn = 0
        self._make_parts()
        self._lay_out()
        self.offer(None)
        self._compared.connect(self._show_match)
        self._looked.connect(self._show_looked)
        self._show()

    @property
    def readings(self) -> Sequence[DisplayReading]:
        """What was typed, with what all registers held then."""
        return tuple(self._readings)

    @property
    def match(self) -> MatchResult:
        """What is shown of it."""
        return self.candidates.result

    def stop(self) -> None:
        """End its work, which nobody looks at any more."""
        self._turn += 1
        self._again.stop()
        self._work.stop()

    def take(self, registers: RegisterWords) -> None:
        """All registers as they are now: what was typed last belongs to them, if they are the same when they are read
        once more."""
        pending, first = self._pending, self._first
        if pending is None:
            return
        if first is None:
            self._first = registers
            self._again.start(AGAIN_MS)
            return
        self._again.stop()
        reading = DisplayReading(first, pending)
        if first == registers:
            self._keep(reading)
            return
        self._doubted = reading
        readings = (*self._readings, reading)
        self._work.post("moving", lambda: self._looked.emit(reading, still_moving(readings, registers)))

    def _show_looked(self, reading: DisplayReading, moving: bool) -> None:
        if reading is not self._doubted:
            return
        if not moving:
            self._keep(reading)
            return
        self._pending = self._first = None
        self._say(self.tr("The display was still moving: wait until it stands, then read again."))
        self.keep_button.show()
        self._enable()
        self.value.setFocus()
        self.value.selectAll()

    def keep_doubted(self) -> None:
        """Keep what was read while the display moved."""
        if self._doubted is not None:
            self._keep(self._doubted)

    def _keep(self, reading: DisplayReading) -> None:
        self._forget_pending()
        self._readings.append(reading)
        self.value.clear()
        self._say("")
        self._compare()
        self._enable()
        self.value.setFocus()

    def _forget_pending(self) -> None:
        self._again.stop()
        self._pending = self._first = self._doubted = None
        self.keep_button.hide()

    def cannot_read(self, words: str) -> None:
        """Nothing could be read, for this reason; what was typed stays."""
        self._forget_pending()
        self._say(words)
        self._enable()
        self.value.setFocus()

    def take_named(self, register: NamedRegister, words: str) -> None:
        """A register was named, and is called so now; `words` tell if that is not as it was wanted."""
        self._named.append(register)
        self._show()
        self._say(words)

    def begin_anew(self, name: Namer | None = None, heard: PastRegisters | None = None) -> None:
        """Forget all readings: they were of another device. `heard` is what was heard of this one."""
        self.source.clear()
        self.offer(heard)
        if name is not None:
            self._name = name
            self.candidates.use(name)
        self._forget_pending()
        self._readings, self._named = [], []
        self._compare()
        self._enable()

    # Its parts

    def _make_parts(self) -> None:
        self._make_readings()
        self._make_candidates()
        self._make_naming()

    def _make_readings(self) -> None:
        self.value = QLineEdit()
        self.value.setAccessibleName(self.tr("The display shows"))
        shorten_placeholder(self.value, self.tr("e.g. 25.0 Hz"))
        self.value.returnPressed.connect(self.read_now)
        self.value.textEdited.connect(lambda _text: self._type_anew())
        self.source = Choice()
        self.source.setAccessibleName(self.tr("Where the registers are from"))
        self.source.activated.connect(lambda _at: self._choose_source())
        self.moment = QLineEdit()
        self.moment.setAccessibleName(self.tr("At"))
        self.moment.returnPressed.connect(self.read_now)
        self.moment.textEdited.connect(lambda _text: self._say(""))
        self.moment_row = labelled(self.tr("&At"), self.moment, 110)
        self._source = 0
        self._heard: PastRegisters | None = None
        self.step = QLineEdit()
        self.step.setAccessibleName(self.tr("Smallest step"))
        self.step.setToolTip(
            plain_tip(self.tr("By how much the display moves, or may have moved until the registers were read"))
        )
        shorten_placeholder(self.step, self.tr("one of its last digit"))
        self.step.returnPressed.connect(self.read_now)
        self.read_button = push_button(self.tr("&Read now"), self.read_now)
        self.keep_button = push_button(self.tr("&Keep it all the same"), self.keep_doubted, "quiet")
        self.keep_button.setToolTip(self.tr("The reading counts although the display was moving."))
        place = self.keep_button.sizePolicy()
        place.setRetainSizeWhenHidden(True)
        self.keep_button.setSizePolicy(place)
        self.keep_button.hide()
        self.remove_button = push_button(self.tr("Re&move reading"), self.remove_chosen, "quiet")
        self.state = plain_label("", "fault", wrap=True)
        self.state.setMinimumHeight(line_height(20))  # nothing moves when something is wrong
        self.readings_model = ShownModel(self)
        self.readings_table = _ReadingsTable(self.readings_model)
        self.readings_table.setAccessibleName(self.tr("Readings"))
        self.readings_table.removing.connect(self.remove_chosen)
        self.readings_table.selectionModel().selectionChanged.connect(lambda *_: self._enable())
        widths = {ShownColumn.NUMBER: 44, ShownColumn.SHOWN: 150, ShownColumn.REGISTERS: 120}
        set_widths(self.readings_table, {column: scaled(width) for column, width in widths.items()})
        header = self.readings_table.horizontalHeader().sizeHint().height()
        row = self.readings_table.verticalHeader().defaultSectionSize()
        self.readings_table.setFixedHeight(header + _READINGS_IN_SIGHT * row + 2)

    def _make_candidates(self) -> None:
        self.candidates = CandidatesModel(self._name, self)
        self.table = QuickTable(self.candidates)
        self.table.setAccessibleName(self.tr("Registers that agree"))
        self.table.setSelectionMode(QuickTable.SelectionMode.SingleSelection)
        self.table.selectionModel().selectionChanged.connect(lambda *_: self._choose())
        self.table.activated.connect(lambda _index: self._go_on())
        header = self.table.horizontalHeader().sizeHint().height()
        self.table.setMinimumHeight(header + _CANDIDATES_IN_SIGHT * self.table.verticalHeader().defaultSectionSize())
        add_copying(self.table, self.tr("Copy"), lambda: self.candidates.as_lines(selected_rows(self.table)))
        columns = {
            CandidateColumn.REGISTER: 190,
            CandidateColumn.VALUE: 100,
            CandidateColumn.RAW: 80,
            CandidateColumn.ENCODING: 90,
            CandidateColumn.ORDER: 150,
            CandidateColumn.SCALE: 190,
        }
        set_widths(self.table, {column: scaled(width) for column, width in columns.items()})
        self.empty = EmptyState()
        self.said = plain_label("", wrap=True)
        self.said.setMinimumHeight(line_height(44, lines=2))
        self.said.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.said.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.said.setAccessibleName(self.tr("What the readings tell"))

    def _make_naming(self) -> None:
        self.signal_name = QLineEdit()
        self.signal_name.setAccessibleName(self.tr("Name of the signal"))
        shorten_placeholder(self.signal_name, self.tr("e.g. output frequency"))
        self.signal_name.textChanged.connect(lambda _text: self._enable())
        self.signal_name.returnPressed.connect(self.use_chosen)
        self.unit = QLineEdit()
        self.unit.setAccessibleName(self.tr("Unit"))
        self.unit.returnPressed.connect(self.use_chosen)
        self.decimals = WholeNumber()
        self.decimals.setAccessibleName(self.tr("Decimals"))
        self.decimals.setRange(0, _MOST_DECIMALS)
        self.decimals.lineEdit().returnPressed.connect(self.use_chosen)
        self.use_button = push_button(self.tr("Use this &one"), self.use_chosen)
        self.so_far = plain_label("", "faint", wrap=True)

    def _lay_out(self) -> None:
        inner, scroll, outer = QWidget(), QScrollArea(), QVBoxLayout(self)
        outer.setContentsMargins(0, 0, 0, 0)
        outer.addWidget(scroll)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setWidgetResizable(True)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # it follows the focus of what is in it
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        scroll.setWidget(inner)
        layout = QVBoxLayout(inner)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(scaled(8))
        self.intro = plain_label("", "faint", wrap=True)
        layout.addWidget(self.intro)
        layout.addLayout(
            _bar(
                labelled(self.tr("&From"), self.source),
                labelled(self.tr("The display &shows"), self.value, 120),
                self.moment_row,
                labelled(self.tr("Smallest st&ep"), self.step, 140),
                self.read_button,
                self.remove_button,
            )
        )
        told = QHBoxLayout()
        told.addWidget(self.state, 1)
        told.addWidget(self.keep_button)
        layout.addLayout(told)
        layout.addWidget(self.readings_table)
        layout.addWidget(self.said)
        self._stack = QStackedWidget()
        self._stack.addWidget(self.empty)
        self._stack.addWidget(self.table)
        layout.addWidget(self._stack, 1)
        layout.addLayout(
            _bar(
                labelled(self.tr("N&ame"), self.signal_name, 200),
                labelled(self.tr("&Unit"), self.unit, 80),
                labelled(self.tr("&Decimals"), self.decimals, 56),
                self.use_button,
            )
        )
        layout.addWidget(self.so_far)

    # Where the registers are from

    def offer(self, heard: PastRegisters | None) -> None:
        """What was heard of this device, beside the device itself and recordings; the same again changes nothing."""
        if self.source.count() and heard == self._heard:
            return
        self._heard = heard
        self.source.clear()
        self.source.addItem(self.tr("the device, now"))
        if heard is not None:
            self.source.addItem(heard.title, heard)
        self.source.addItem(self.tr("a recording\u2026"))
        self._use(0)

    def add_past(self, pasts: Sequence[PastRegisters], unit: int | None) -> None:
        """Offer the devices of a recording too, and go to that of this unit, or to the first."""
        before = self.source.count() - 1
        for past in pasts:
            self.source.insertItem(self.source.count() - 1, past.title, past)
        place = next((at for at, past in enumerate(pasts) if past.unit == unit), 0)
        self._use(before + place)

    @property
    def _past(self) -> PastRegisters | None:
        """Where the registers are looked up; None: the device is read."""
        past: PastRegisters | None = self.source.itemData(self._source)
        return past

    def _choose_source(self) -> None:
        if self.source.currentIndex() < self.source.count() - 1:
            self._use(self.source.currentIndex())
            return
        self.source.setCurrentIndex(self._source)
        self.recording_wanted.emit()

    def _use(self, source: int) -> None:
        self._source = source
        self.source.setCurrentIndex(source)
        past = self._past
        self.moment_row.setVisible(past is not None)
        self._say("")
        if past is None:
            self.intro.setText(
                self.tr(
                    "Enter what the device's own display shows, and press Enter: all registers are read at that "
                    "moment. Then change the value at the device and do it again."
                )
            )
            self.read_button.setText(self.tr("&Read now"))
            return
        self.moment.setPlaceholderText(f"{past.begin:%H:%M:%S}")
        text = self.tr(
            "Enter what the device's own display showed, and at which time of day, and press Enter: the registers of "
            "that moment are looked up. They are known from {begin} to {end}; the device is not asked again."
        )
        self.intro.setText(text.format(begin=f"{past.begin:%Y-%m-%d %H:%M:%S}", end=f"{past.end:%H:%M:%S}"))
        self.read_button.setText(self.tr("&Look up"))

    # What a person does

    def read_now(self) -> None:
        """Take what was typed, and ask for all registers of this moment."""
        if self._pending is not None:
            return
        self._forget_pending()
        past = self._past
        try:
            step = shown(self.step.text()).value if self.step.text().strip() else None
        except ValueError as why:
            self._refuse(self.step, str(why))
            return
        try:
            self._pending = shown(self.value.text(), step)
        except ValueError as why:
            self._refuse(self.value, str(why))
            return
        try:
            at = 0.0 if past is None else past.moment(self.moment.text())
        except ValueError as why:
            self._pending = None
            self._refuse(self.moment, str(why))
            return
        self._say("")
        self._enable()
        if past is None:
            self.read_wanted.emit()
        elif held := past.registers(at):
            self._keep(DisplayReading(held, self._pending))
        else:
            self.cannot_read(self.tr("Nothing is known of the registers of that time."))

    def _type_anew(self) -> None:
        self._forget_pending()
        self._say("")

    def remove_chosen(self) -> None:
        """Take the chosen readings away, as mistyped."""
        gone = set(selected_rows(self.readings_table))
        self._readings = [each for at, each in enumerate(self._readings) if at not in gone]
        self._compare()

    def use_chosen(self) -> None:
        """Give the chosen register its name."""
        candidate = self._chosen()
        name = self.signal_name.text().strip()
        if candidate is None or not name:
            self._say(self._why_not())
            return
        best = candidate.best
        raw, value = best.points
        scale = None if best.slope == 1 and not best.offset else Scale(raw=raw, value=value)
        made = NamedRegister(
            name,
            best.table,
            best.address,
            best.way.encoding,
            word_order=best.way.word_order,
            byte_order=best.way.byte_order,
            scale=scale,
            unit=self.unit.text().strip(),
            decimals=self.decimals.value(),
        )
        self.signal_name.clear()
        self.step.clear()  # it was that of another display
        self._readings = []
        self._compare()
        self.named.emit(made)
        self.value.setFocus()

    # What is shown

    def _compare(self) -> None:
        self._turn += 1
        turn, readings = self._turn, tuple(self._readings)
        self._show()
        self._work.post("match", lambda: self._compared.emit(turn, match(readings)))

    def _show_match(self, turn: int, found: MatchResult) -> None:
        if turn != self._turn:
            return
        self.candidates.show(found)
        if found.candidates:
            if not mere_chance(found):  # whoever wants that one has to choose it
                self.table.selectRow(0)
            self._stack.setCurrentWidget(self.table)
        self.said.setText("\n".join(advice(found, self._name)[:_MOST_SENTENCES]))
        self._show()

    def _show(self) -> None:
        rows = [(each.shown, len(each.registers)) for each in self._readings]
        self.readings_model.show(rows, MatchResult(tuple(each.shown for each in self._readings), ()).told)
        self.readings_table.scrollToBottom()
        if not self._readings:
            self.candidates.show(MatchResult((), ()))
            self.said.setText("")
            self.empty.say(
                self.tr("Which register is it?"),
                self.tr("The registers that agree with what you enter are listed here, the likeliest first."),
            )
        elif not self.candidates.count():
            self.empty.say(self.tr("No register agrees"), self.tr("What to do next is said above."))
        if not self.candidates.count():
            self._stack.setCurrentWidget(self.empty)
        names = ", ".join(f"{each.name} ({self._name(each.table, each.address, each.address)})" for each in self._named)
        self.so_far.setText(self.tr("Named so far: {names}").format(names=names) if names else "")
        self.so_far.setVisible(bool(names))
        self._enable()

    def _go_on(self) -> None:
        self.signal_name.setFocus()

    def _choose(self) -> None:
        if self._chosen() is not None:
            readings = self.candidates.result.readings
            self.decimals.setValue(min(decimals_of(readings), _MOST_DECIMALS))
            if unit := unit_of(readings):
                self.unit.setText(unit)
        self._enable()

    def _chosen(self) -> Candidate | None:
        rows = selected_rows(self.table)
        return self.candidates.candidate(rows[0]) if rows and rows[0] < self.candidates.count() else None

    def _enable(self) -> None:
        reading = self._pending is not None
        self.read_button.setEnabled(not reading)
        self.read_button.setToolTip(self.tr("The registers are being read.") if reading else "")
        self.value.setReadOnly(reading)
        self.remove_button.setEnabled(bool(selected_rows(self.readings_table)))
        why = self._why_not()
        self.use_button.setEnabled(not why)
        self.use_button.setToolTip(plain_tip(why))

    def _why_not(self) -> str:
        """Why what is chosen cannot be used, empty if it can."""
        if self._chosen() is None:
            return self.tr("No register is chosen.")
        return "" if self.signal_name.text().strip() else self.tr("Enter a name first.")

    def _refuse(self, editor: QLineEdit, words: str) -> None:
        self._say(words)
        set_look(editor, "wrong")
        editor.setFocus()
        editor.selectAll()

    def _say(self, words: str) -> None:
        self.state.setText(words)
        for editor in (self.value, self.step, self.moment):
            set_look(editor, "")


def _bar(*parts: QWidget) -> FlowLayout:
    bar = FlowLayout(spacing=scaled(8))
    for part in parts:
        bar.addWidget(part)
    return bar
