"""What a person is asked, large: yes or no, a value that an instrument shows, something to do by hand."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import Final

from PySide6.QtCore import QDate, QEvent, QObject, Qt, Signal
from PySide6.QtGui import QAction, QKeyEvent
from PySide6.QtWidgets import (
    QCompleter,
    QFormLayout,
    QHBoxLayout,
    QLineEdit,
    QPlainTextEdit,
    QPushButton,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from app.trial.outcome import Instrument, PersonAsked, Reply
from widgets.kit.controls import UnitLine, completions_list, push_button
from widgets.kit.dialogs.dialog import Sign, WholeArea
from widgets.kit.elided import shorten_placeholder
from widgets.kit.flow import FlowLayout
from widgets.kit.icons import icon
from widgets.kit.look import set_look
from widgets.kit.plain import plain_label
from widgets.kit.scaling import air, line_height, percent, scaled
from widgets.live.arming import Caution, cautions
from widgets.live.value_setter import NUMBER

ANSWER: Final = 40
REMARK: Final = 68
"""Height of the answers and of the remark, in pixels at 100 per cent."""
LEAST_TOLD: Final = 60
"""Pixels at 100 per cent that the question has at least; the rest is scrolled."""
LARGE: Final = 150
"""The size in per cent from which on the remark gives way to the question."""


@dataclass(frozen=True, slots=True)
class AskedNow:
    """A question with what stands around it: what is expected, and by whom it is answered."""

    question: PersonAsked
    expected: str = ""
    by: str = ""


class AskPage(QWidget):
    """None of the answers is pressed by Enter; Y, N and U answer while nothing is being typed."""

    answered = Signal(object)
    """A `Reply`."""

    def __init__(self, yes: QAction, no: QAction, unknown: QAction) -> None:
        """The commands that give the answers, with their keys and words; this page sets what they say."""
        super().__init__()
        self._asked: AskedNow | None = None
        self._instruments: dict[str, Instrument] = {}
        self._actions = (yes, no, unknown)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self._sign = Sign("asks")
        self._kind = plain_label("", "heading", wrap=True)
        self.text = plain_label("", "question", wrap=True)
        self.text.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.expected = plain_label("", "faint", wrap=True)
        self._cautions = QWidget()
        lines = QVBoxLayout(self._cautions)
        lines.setContentsMargins(0, 0, 0, 0)
        lines.setSpacing(0)
        for words in cautions():
            lines.addWidget(Caution(words))
        self._measured = self._make_form()
        self.wrong = plain_label("", "fault", wrap=True)
        self.yes, self.no, self.unknown = (self._answer_button(action) for action in self._actions)
        self.take = push_button(self.tr("Enter value"), self._take_measured, "answer")
        self.take.setFixedHeight(line_height(ANSWER))
        self.take.setIcon(icon("tick"))
        self.remark = QPlainTextEdit()
        self.remark.setPlaceholderText(self.tr("Remark (goes into the record)"))
        self.remark.setAccessibleName(self.tr("Remark"))
        self.remark.setTabChangesFocus(True)
        self.remark.setFixedHeight(line_height(REMARK if percent() < LARGE else ANSWER))
        self._lay_out()
        for editor in (self.value, self.name, self.serial, self.due):
            editor.installEventFilter(self)
            editor.textChanged.connect(lambda _text: self._say_wrong(""))

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.setSpacing(scaled(8))
        head.addWidget(self._sign)
        head.addWidget(self._kind, 1)
        answers = FlowLayout(spacing=scaled(8))
        for button in (self.take, self.yes, self.no, self.unknown):
            button.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
            answers.addWidget(button)
        told = QWidget()
        inner = QVBoxLayout(told)
        inner.setContentsMargins(0, 0, 0, 0)
        inner.setSpacing(air(10))
        inner.addLayout(head)
        for part in (self.text, self.expected, self._cautions, self._measured, self.wrong):
            inner.addWidget(part)
        # The answers stay in sight, however long the question is.
        self._told = WholeArea(told)
        self._told.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Maximum)
        self._told.setMinimumHeight(scaled(LEAST_TOLD))
        for part in (told, self._told.viewport()):
            part.setAutoFillBackground(False)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(*[air(20)] * 4)
        layout.setSpacing(air(10))
        layout.addWidget(self._told)
        layout.addLayout(answers)
        layout.addWidget(self.remark)
        layout.addStretch()

    def _make_form(self) -> QWidget:
        whole = QWidget()
        form = QFormLayout(whole)
        form.setContentsMargins(0, 0, 0, 0)
        form.setHorizontalSpacing(scaled(8))
        form.setVerticalSpacing(air(6))
        form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.AllNonFixedFieldsGrow)
        self.value = UnitLine()
        self.name, self.serial, self.due = QLineEdit(), QLineEdit(), QLineEdit()
        shorten_placeholder(self.due, self.tr("such as 2027-03-31, or empty"))
        rows: Sequence[tuple[str, QLineEdit]] = (
            (self.tr("Value"), self.value),
            (self.tr("Instrument"), self.name),
            (self.tr("Serial number"), self.serial),
            (self.tr("Calibrated until"), self.due),
        )
        for words, editor in rows:
            editor.setAccessibleName(words)
            form.addRow(words, editor)
        self._form = form
        return whole

    def _answer_button(self, action: QAction) -> QPushButton:
        button = push_button("", action.trigger, "answer")
        button.setFixedHeight(line_height(ANSWER))
        return button

    # What is asked

    @property
    def asked(self) -> AskedNow | None:
        """What is asked now."""
        return self._asked

    def remember(self, instruments: Sequence[Instrument]) -> None:
        """Offer these instruments, the one used last first."""
        self._instruments = {each.name: each for each in instruments}
        completer = QCompleter(list(self._instruments), self)
        completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        completions_list(completer)
        completer.activated.connect(self._fill_in)
        self.name.setCompleter(completer)

    def ask(self, asked: AskedNow) -> None:
        """Ask this from now on."""
        self._asked = asked
        question = asked.question
        kind = question.kind
        measures, moves = kind == "measure", kind == "may move"
        self._sign.show_state("caution" if moves else "asks")
        self._kind.setText(self._heading(kind))
        self.text.setText(question.text)
        self.expected.setText(self.tr("Expected: {what}").format(what=asked.expected))
        self.expected.setVisible(bool(asked.expected) and kind in ("ask", "measure"))
        self._cautions.setVisible(moves)
        self._measured.setVisible(measures)
        for row in range(1, self._form.rowCount()):
            self._form.setRowVisible(row, question.instrument)
        self.take.setVisible(measures)
        self.yes.setVisible(not measures)
        self.no.setVisible(not measures)
        self.unknown.setVisible(not moves)
        self._name_answers(kind)
        self.value.set_unit(question.unit)
        self.value.clear()
        self.remark.clear()
        self._say_wrong("")
        newest = next(iter(self._instruments.values()), None)
        if measures and question.instrument and newest is not None and not self.name.text():
            self._fill_in(newest.name)
        self._told.verticalScrollBar().setValue(0)
        self._told.updateGeometry()
        self.setAccessibleName(f"{self._kind.text()}: {question.text}")

    def cautions_shown(self) -> list[str]:
        """What must be known before this is answered."""
        return [] if self._cautions.isHidden() else [each.label.text() for each in self._cautions.findChildren(Caution)]

    def take_focus(self) -> None:
        """Let a person answer at once: by a key, or by typing what was measured."""
        measures = self._asked is not None and self._asked.question.kind == "measure"
        (self.value if measures else self).setFocus(Qt.FocusReason.OtherFocusReason)

    def end(self) -> None:
        """Nothing is asked any more."""
        self._asked = None

    def _heading(self, kind: str) -> str:
        match kind:
            case "may move":
                return self.tr("Before the machine may move")
            case "by hand":
                return self.tr("To be done by hand")
            case "measure":
                return self.tr("Measure")
        return self.tr("Only you can see this")

    def _name_answers(self, kind: str) -> None:
        by_hand = kind == "by hand"
        words = (
            (self.tr("Done"), self.tr("Not possible")) if by_hand else (self.tr("Yes"), self.tr("No")),
            self.tr("Not measured") if kind == "measure" else self.tr("Cannot tell"),
        )
        for button, action, text, sign in (
            (self.yes, self._actions[0], words[0][0], "tick"),
            (self.no, self._actions[1], words[0][1], "cross"),
            (self.unknown, self._actions[2], words[1], ""),
        ):
            button.setText(text)
            if sign:
                button.setIcon(icon(sign))
            keys = action.shortcut().toString(action.shortcut().SequenceFormat.NativeText)
            button.setToolTip(f"{text}  {keys}")

    # Answers

    def say_yes(self) -> None:
        """It is so; or it was done. A measurement is taken as it was typed."""
        if self._asked is not None and self._asked.question.kind == "measure":
            self._take_measured()
        else:
            self._reply(True)

    def say_no(self) -> None:
        """It is not so, or not possible. Not an answer to what was measured."""
        if self._asked is not None and self._asked.question.kind != "measure":
            self._reply(False)

    def say_unknown(self) -> None:
        """Nobody can tell: the step counts as not tested. Not an answer to whether the machine may move."""
        if self._asked is not None and self._asked.question.kind != "may move":
            self._reply(None)

    def _reply(self, yes: bool | None, value: Fraction | None = None, instrument: Instrument | None = None) -> None:
        if self._asked is not None:
            by = self._asked.by
            self.answered.emit(Reply(yes, self.remark.toPlainText().strip(), by, value, instrument))

    def _take_measured(self) -> None:
        """Take what was typed, or say what is missing."""
        if self._asked is None:
            return
        text = self.value.text().strip()
        if not NUMBER.fullmatch(text):
            self._say_wrong(self.tr("The value is missing, or it is no number."), self.value)
            return
        instrument = None
        if self._asked.question.instrument:
            due = self.due.text().strip()
            day = _day(due)
            if not self.name.text().strip():
                self._say_wrong(self.tr("Which instrument was it? The step is not tested without it."), self.name)
                return
            if due and day is None:
                self._say_wrong(self.tr("A date is written as year-month-day, such as 2027-03-31."), self.due)
                return
            instrument = Instrument(self.name.text().strip(), self.serial.text().strip(), day)
        self._reply(True, Fraction(text.replace(",", ".")), instrument)

    def _say_wrong(self, words: str, editor: QLineEdit | None = None) -> None:
        self.wrong.setText(words)
        self.wrong.setVisible(bool(words))
        for each in (self.value, self.name, self.due):
            set_look(each, "wrong" if each is editor else "")
        if editor is not None:
            editor.setFocus(Qt.FocusReason.OtherFocusReason)

    def _fill_in(self, name: str) -> None:
        known = self._instruments.get(name)
        if known is not None:
            self.name.setText(known.name)
            self.serial.setText(known.serial)
            self.due.setText(known.due.isoformat() if known.due is not None else "")

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Enter in what is typed takes the measurement, or leads to what is missing."""
        if (
            event.type() == QEvent.Type.KeyPress
            and isinstance(event, QKeyEvent)
            and event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
        ):
            self._take_measured()
            return True
        return super().eventFilter(watched, event)


def _day(text: str) -> date | None:
    found = QDate.fromString(text, Qt.DateFormat.ISODate)
    return date(found.year(), found.month(), found.day()) if found.isValid() else None
