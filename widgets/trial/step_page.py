"""What came of one step, of one case, or of the whole trial, in full."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from app.trial.outcome import CaseOutcome, Result, SeenReading, StepOutcome
from widgets.kit.dialogs.dialog import Sign
from widgets.kit.look import set_look
from widgets.kit.plain import plain_label
from widgets.kit.scaling import air, scaled
from widgets.trial.steps_model import RESULTS, StepKey, TrialModel, took_words

_NOTICES: Final = {Result.FAIL: "fault notice", Result.BLOCKED: "notice", Result.NOT_TESTED: "notice"}
CAPTION: Final = 96
"""Pixels at 100 per cent of the words before a value."""


class Details(QWidget):
    """A state with its word, a headline, why it is so, and rows of words and values; all of it can be copied."""

    def __init__(self) -> None:
        super().__init__()
        self._sign = Sign()
        self.state = plain_label("", "heading")
        self.headline = plain_label("", "title", wrap=True)
        self.why = plain_label("", wrap=True)
        self._notice = QFrame()
        inner = QVBoxLayout(self._notice)
        inner.setContentsMargins(scaled(12), air(8), scaled(12), air(8))
        inner.addWidget(self.why)
        head = QHBoxLayout()
        head.setSpacing(scaled(8))
        head.addWidget(self._sign)
        head.addWidget(self.state, 1)
        self._rows = QVBoxLayout()
        self._rows.setSpacing(air(6))
        self._row_parts: list[tuple[QWidget, QLabel, QLabel]] = []
        layout = QVBoxLayout(self)
        layout.setContentsMargins(*[air(20)] * 4)
        layout.setSpacing(air(10))
        layout.addLayout(head)
        layout.addWidget(self.headline)
        layout.addWidget(self._notice)
        self._deeds = QVBoxLayout()
        layout.addLayout(self._deeds)
        layout.addLayout(self._rows)
        layout.addStretch()
        for label in (self.headline, self.why):
            label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)

    def tell(
        self,
        state: tuple[str, str],
        headline: str,
        why: str = "",
        rows: Iterable[tuple[str, str]] = (),
        notice: str = "notice",
    ) -> None:
        """Say all this. `state` is one of `icons.STATES`, or empty, and its word."""
        self._sign.show_state(state[0])
        self.state.setText(state[1])
        self.state.setVisible(bool(state[1]))
        self.headline.setText(headline)
        self.why.setText(why)
        set_look(self._notice, notice)
        self._notice.setVisible(bool(why))
        shown = [row for row in rows if row[1]]
        while len(self._row_parts) < len(shown):
            self._add_row()
        for number, (whole, caption, value) in enumerate(self._row_parts):
            whole.setVisible(number < len(shown))
            if number < len(shown):
                caption.setText(shown[number][0])
                value.setText(shown[number][1])
        self.setAccessibleName(f"{state[1]}: {headline}" if state[1] else headline)
        self.setAccessibleDescription(why)

    def add_deeds(self, part: QWidget) -> None:
        """Put what is done with it above the rows."""
        if isinstance(part, QPushButton):
            self._deeds.addWidget(part, 0, Qt.AlignmentFlag.AlignLeft)
        else:
            self._deeds.addWidget(part)

    def lines(self) -> list[tuple[str, str]]:
        """The rows that are shown."""
        return [(caption.text(), value.text()) for whole, caption, value in self._row_parts if not whole.isHidden()]

    def _add_row(self) -> None:
        whole = QWidget()
        row = QHBoxLayout(whole)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(scaled(8))
        caption, value = plain_label("", "faint", wrap=True), plain_label("", wrap=True)
        caption.setFixedWidth(scaled(CAPTION))
        value.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        row.addWidget(caption, 0, Qt.AlignmentFlag.AlignTop)
        row.addWidget(value, 1, Qt.AlignmentFlag.AlignTop)
        self._rows.addWidget(whole)
        self._row_parts.append((whole, caption, value))


class StepPage(Details):
    """Tells of the row that is chosen in the list."""

    def __init__(self, model: TrialModel) -> None:
        super().__init__()
        self._model = model

    def show_key(self, key: StepKey) -> None:
        """Tell of this step or case."""
        if key.part is None:
            self._show_case(key)
        else:
            self._show_step(key)

    def _state(self, key: StepKey, outcome: StepOutcome | CaseOutcome | None) -> tuple[str, str]:
        words = self._model.state_words(key)
        if outcome is not None:
            return RESULTS[outcome.result].icon.removeprefix("state-"), words
        if self._model.problem(key) is not None:
            return "caution", words
        return ("running" if key == self._model.now else "", words)

    def _show_step(self, key: StepKey) -> None:
        words, expected = self._model.columns(key)
        outcome = self._model.outcome(key)
        step = self._model.step(key)
        problem = self._model.problem(key)
        if outcome is None:
            why = "" if problem is None else f"{problem.where}: {problem.message}\n{problem.hint}".rstrip()
            remark = "" if step is None else step.remark
            self.tell(
                self._state(key, None), words, why, [(self.tr("Expected"), expected), (self.tr("Remark"), remark)]
            )
            return
        answer = outcome.answer
        instrument = None if answer is None else answer.instrument
        measured_with = ""
        if instrument is not None:
            due = "" if instrument.due is None else instrument.due.isoformat()
            measured_with = ", ".join(filter(None, (instrument.name, instrument.serial, due)))
        rows = [
            (self.tr("Expected"), expected),
            (self.tr("Seen"), outcome.found),
            (self.tr("Said by"), "" if answer is None else answer.by),
            (self.tr("Remark"), "\n".join(filter(None, ("" if answer is None else answer.remark, outcome.remark)))),
            (self.tr("Instrument"), measured_with),
            *(
                (reading.signal, self._reading_words(reading))
                for reading in (outcome.seen.readings if outcome.seen is not None else ())
            ),
            (self.tr("Took"), took_words(outcome.took_s)),
            (self.tr("At"), self._model.time_words(key.case, outcome)),
        ]
        self.tell(self._state(key, outcome), words, outcome.reason, rows, _NOTICES.get(outcome.result, "notice"))

    def _reading_words(self, reading: SeenReading) -> str:
        raw = self.tr("raw {raw}").format(raw=reading.raw) if reading.raw else ""
        quality = "" if reading.quality == "good" else f"{reading.quality} {reading.reason}".rstrip()
        return ", ".join(filter(None, (reading.value, raw, quality)))

    def _show_case(self, key: StepKey) -> None:
        case, outcome = self._model.case(key.case), self._model.case_outcome(key.case)
        if case is None:
            return
        problem = self._model.problem(key)
        moves = self.tr("can move the machine") if case.moves else self.tr("moves nothing")
        rows = [
            (self.tr("Notes"), case.notes),
            (self.tr("Steps"), str(len(self._model.steps(key.case)))),
            (self.tr("Machine"), moves),
        ]
        if outcome is None:
            why = "" if problem is None else f"{problem.message}\n{problem.hint}".rstrip()
            self.tell(self._state(key, None), case.name, why, rows)
            return
        rows += [
            (self.tr("Put back"), "\n".join(outcome.restored)),
            (self.tr("Not put back"), "\n".join(outcome.not_restored)),
            (self.tr("Took"), took_words(outcome.took_s)),
        ]
        why = outcome.reason if outcome.result is not Result.PASS else ""
        self.tell(self._state(key, outcome), case.name, why, rows, _NOTICES.get(outcome.result, "notice"))
