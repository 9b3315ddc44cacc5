"""What a step or a ramp between the two cursors of a trend looked like, in numbers and with what they mean."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final, NamedTuple

import numpy as np
from PySide6.QtCore import QCoreApplication, Qt, Signal
from PySide6.QtGui import QGuiApplication, QPainter, QPaintEvent
from PySide6.QtWidgets import (
    QComboBox,
    QFormLayout,
    QGridLayout,
    QHBoxLayout,
    QSizePolicy,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from app.curves.response import (
    Measurement,
    RampResponse,
    StepResponse,
    is_ramp,
    is_straight,
    ramp_response,
    step_response,
    steps,
)
from app.curves.source import Array, CurveSource
from app.errors import FanlightError
from app.language import with_mark
from app.project.binding import bindings
from app.project.model import Project
from app.recording.reader import TooMany
from widgets.kit import palette
from widgets.kit.commands import command
from widgets.kit.controls import push_button
from widgets.kit.elided import ShortChoice, ShortLabel
from widgets.kit.look import set_look
from widgets.kit.plain import plain_label
from widgets.kit.scaling import scaled
from widgets.start_up.trend_curves import is_lane

translate = QCoreApplication.translate

AROUND_S: Final = (2.0, 20.0)
"""Before and behind a step that was found: the span that is marked, in seconds."""
MOST_LINES: Final = 8
"""Figures of a ramp with its set point; a step has one less."""


class ResponseView(QWidget):
    """Measures one signal of a source over a span; emits the spans of steps that it finds."""

    span_found = Signal(float, float)
    """The next step of the set point: the span around it."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._source: CurveSource | None = None
        self._span: tuple[float, float] | None = None
        self._form = ""
        """As what was measured last where that is found out; empty before."""
        self._found: list[float] = []
        self.signal = _choice(self.tr("Signal to measure"))
        self.set_point = _choice(self.tr("Its set point"))
        self.kind = _choice(self.tr("Kind of response"))
        self.kind.setMinimumContentsLength(9)
        self.kind.addItem("", "")
        self.kind.addItem(self.tr("as a step"), "step")
        self.kind.addItem(self.tr("as a ramp"), "ramp")
        self.next_step = push_button(self.tr("Next step"), self._find)
        self.next_step.setToolTip(self.tr("Puts the cursors around the next step of the set point"))
        self.copy_action = command(self, self.tr("Cop&y the figures"), self._copy, "Alt+Shift+C", within=True)
        self.result = plain_label(look="faint", wrap=True)
        """What is to be done first, or why nothing was measured."""
        self.result.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
        self._table = _Figures()
        self._table.setToolTip(
            self.tr(
                "Rise time: from 10 % to 90 % of the change, first crossings. Overshoot: greatest excess "
                "over the final value, relative to the change. Settling time: until it stays within 2 % of "
                "the change. Definitions of IEC 60050-351."
            )
        )
        self._name_form()
        self._lay_out()
        for box in (self.signal, self.set_point, self.kind):
            box.activated.connect(lambda _index: self._measure())
        self.set_point.activated.connect(lambda _index: self._found.clear())
        self._measure()

    def _lay_out(self) -> None:
        form = QFormLayout()
        form.setHorizontalSpacing(scaled(12))
        form.setVerticalSpacing(scaled(8))
        form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.ExpandingFieldsGrow)
        row = QHBoxLayout()
        row.setSpacing(scaled(8))
        row.addWidget(self.set_point, 1)
        row.addWidget(self.next_step)
        form.addRow(self.tr("Curve"), self.signal)
        form.addRow(self.tr("After"), row)
        # One place for both, as high as all figures: the button stays where it is while one goes from step to step.
        self._results = QStackedWidget()
        self._results.addWidget(self.result)
        self._results.addWidget(self._table)
        heading = ShortLabel(self.tr("Response, A to B"))
        set_look(heading, "heading")
        top = QHBoxLayout()
        top.addWidget(heading, 1)
        top.addWidget(self.kind)
        layout = QVBoxLayout(self)
        # All seven figures stand below a face on the least of screens, without a bar to scroll them by.
        layout.setContentsMargins(scaled(12), scaled(6), scaled(12), 0)
        layout.setSpacing(scaled(6))
        layout.addLayout(top)
        layout.addLayout(form)
        layout.addWidget(self._results)
        layout.addStretch()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """It is a pane, also where what lies behind is the ground of a face."""
        painter = QPainter(self)
        colours = palette.current()
        painter.fillRect(self.rect(), colours.colour("pane"))
        painter.fillRect(0, 0, self.width(), 1, colours.colour("line"))

    @property
    def figures(self) -> tuple[Figure, ...]:
        """What was measured; nothing where `result` says why not."""
        return self._table.figures if self._results.currentWidget() is self._table else ()

    def _copy(self) -> None:
        """Put the figures on the clipboard, for a spreadsheet."""
        if self.figures:
            QGuiApplication.clipboard().setText("\n".join("\t".join(each) for each in self.figures))

    def _say(self, words: str) -> None:
        self.result.setText(words)
        self._results.setCurrentWidget(self.result)

    def _tell(self, figures: Sequence[Figure]) -> None:
        self._table.show_figures(figures)
        self._results.setCurrentWidget(self._table)

    def show_source(self, source: CurveSource | None, names: tuple[str, ...]) -> None:
        """The curves of another source, in which no step is marked yet."""
        self._span = None
        self.show_signals(source, names)

    def show_signals(self, source: CurveSource | None, names: tuple[str, ...]) -> None:
        """The curves that can be measured."""
        self._source = source
        self._found = []
        known = [] if source is None else [name for name in names if not is_lane(source.project, name)]
        _refill(self.signal, [(name, name) for name in known])
        wanted = [(self.tr("(none)"), ""), *((name, name) for name in known if self._is_written(name))]
        _refill(self.set_point, wanted)
        if self.set_point.currentData() in (None, "") and len(wanted) > 1:
            self.set_point.setCurrentIndex(1)
        if self.signal.currentData() == self.set_point.currentData():
            other = next((name for name in known if not self._is_written(name)), None)
            if other is not None:
                self.signal.setCurrentIndex(self.signal.findData(other))
        self._measure()

    def show_span(self, begin: float, end: float) -> None:
        """Measure between these times."""
        self._span = (begin, end)
        self._measure()

    def _is_written(self, name: str) -> bool:
        signal = self._source.project.signal_named.get(name) if self._source is not None else None
        return bool(getattr(signal, "write", False))

    def _find(self) -> None:
        source, name = self._source, self.set_point.currentData()
        if source is None or not name:
            self._say(self.tr("Choose a set point first; its steps are then found."))
            return
        if not self._found:
            try:
                self._found = steps(*source.window(name, *source.span()))
            except TooMany as why:
                self._say(str(why)[:1].upper() + str(why)[1:] + ".")
                return
            if not self._found:
                self._say(self.tr("No step of the set point was found in the observed time."))
                return
        at = self._found.pop(0)
        end = source.span()[1]
        following = self._found[0] if self._found else end
        self.span_found.emit(max(at - AROUND_S[0], source.span()[0]), min(at + AROUND_S[1], following, end))

    def _measure(self) -> None:
        source, span, name = self._source, self._span, self.signal.currentData()
        if source is None or not name:
            self._say(self.tr("Show a curve in the trend to measure it."))
            return
        if span is None:
            self._say(self.tr("Put the cursors A and B around a step or a ramp."))
            return
        try:
            self._tell(self._measured(source, name, *span))
        except FanlightError as why:
            ends = self._ends(source, name, *span)
            between = "" if ends is None else f" {ends.name}: {ends.value} {ends.unit}."
            self._say(f"{str(why)[:1].upper()}{str(why)[1:]}.{between}")
        except KeyError:
            self._say(self.tr("This signal is not in the observed data."))

    def _measured(self, source: CurveSource, name: str, begin: float, end: float) -> list[Figure]:
        times, values = source.window(name, begin, end)
        wanted = self.set_point.currentData()
        unit = source.project.signal_named[name].unit
        quantum = _last_digit(source.project, name)
        write = _Writing(quantum, unit)
        set_times, set_values = source.window(wanted, begin, end) if wanted else (None, None)
        form = self.kind.currentData()
        if not form:
            form = self._form = self._found_form(times, values, begin, end, set_times, set_values)
            self._name_form()
        if form == "ramp":
            ramp = ramp_response(times, values, begin, end, set_times=set_times, set_values=set_values, quantum=quantum)
            return self._ramp_words(ramp, write) + self._least(source, name, begin, end)
        start = after = begin
        set_point = None
        if set_times is not None and set_values is not None:
            jumps = [at for at in steps(set_times, set_values, hold_s=0.0) if begin <= at <= end]
            start = jumps[0] if jumps else begin
            before = set_times[set_times < start]
            after = float(before[-1]) if jumps and len(before) else start
            set_point = float(set_values[-1]) if len(set_values) else None
        step = step_response(
            times, values, start, end, set_point=set_point, quantum=quantum, begin_after=min(after, start)
        )
        return self._step_words(step, write) + self._least(source, name, begin, end)

    @staticmethod
    def _found_form(
        times: Array, values: Array, begin: float, end: float, set_times: Array | None, set_values: Array | None
    ) -> str:
        """The set point says what it is where it moves; else the shape of the response does."""
        if (
            set_times is not None
            and set_values is not None
            and len(set_values)
            and np.nanmax(set_values) > np.nanmin(set_values)
        ):
            return "ramp" if is_ramp(set_times, set_values, begin, end) else "step"
        return "ramp" if is_straight(times, values, begin, end) else "step"

    def _name_form(self) -> None:
        names = {"": self.tr("step or ramp"), "step": self.tr("found: a step"), "ramp": self.tr("found: a ramp")}
        self.kind.setItemText(0, names[self._form])

    def _least(self, source: CurveSource, name: str, begin: float, end: float) -> list[Figure]:
        ends = self._ends(source, name, begin, end)
        return [] if ends is None else [ends]

    def _ends(self, source: CurveSource, name: str, begin: float, end: float) -> Figure | None:
        """The least and the greatest value between the cursors; None where there is none."""
        try:
            times, values = source.window(name, begin, end)
        except (KeyError, TooMany):
            return None
        inside = values[(times >= begin) & (times <= end) & ~np.isnan(values)]
        if not len(inside):
            return None
        write = _Writing(_last_digit(source.project, name), source.project.signal_named[name].unit)
        return write.ends(self.tr("Least, greatest"), float(inside.min()), float(inside.max()))

    def _step_words(self, step: StepResponse, write: _Writing) -> list[Figure]:
        missing = self.tr("not reached")
        settled = step.settling_s if step.settled else None
        lines = [
            write.change(step.initial, step.final),
            write.seconds(self.tr("Rise time"), step.rise_s, missing),
            write.share(self.tr("Overshoot"), step.overshoot),
            write.seconds(self.tr("Settling time"), settled, missing),
            write.value(self.tr("Ripple at the end"), step.ripple),
        ]
        if step.error is not None:
            lines.append(write.value(self.tr("Set point minus final value"), step.error))
        return lines

    def _ramp_words(self, ramp: RampResponse, write: _Writing) -> list[Figure]:
        lines = [
            write.change(ramp.initial, ramp.final),
            write.slope(self.tr("Slope"), ramp.slope),
            write.seconds(self.tr("Ramp time"), ramp.ramp_s),
            write.share(self.tr("Overshoot"), ramp.overshoot),
            write.value(self.tr("Ripple at the end"), ramp.ripple),
        ]
        if ramp.set_ramp_s is not None:
            lines.append(write.seconds(self.tr("Ramp time of the set point"), ramp.set_ramp_s))
        if ramp.lag_s is not None:
            lines.append(write.seconds(self.tr("Lag"), ramp.lag_s))
        return lines


class Figure(NamedTuple):
    """One figure of a response: its name, its value with how far off it may be, and its unit."""

    name: str
    value: str
    unit: str


class _Figures(QWidget):
    """Figures as a form: names at the left, values to the right, a column of units."""

    def __init__(self) -> None:
        super().__init__()
        self.figures: tuple[Figure, ...] = ()
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(scaled(8))
        grid.setVerticalSpacing(scaled(2))
        grid.setColumnStretch(0, 1)
        self._rows = [(ShortLabel(), plain_label(look="heading"), plain_label(look="faint")) for _ in range(MOST_LINES)]
        for row, (name, value, unit) in enumerate(self._rows):
            set_look(name, "faint")
            value.setAlignment(Qt.AlignmentFlag.AlignRight)
            value.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
            value.setText(" ")
            grid.addWidget(name, row, 0)
            grid.addWidget(value, row, 1)
            grid.addWidget(unit, row, 2)

    def show_figures(self, figures: Sequence[Figure]) -> None:
        """Show these."""
        self.figures = tuple(figures)
        for number, labels in enumerate(self._rows):
            shown = figures[number] if number < len(figures) else Figure("", " ", "")
            for label, text in zip(labels, shown, strict=True):
                label.setText(text)
        self.setAccessibleName(translate("ResponseView", "Figures of the response"))
        self.setAccessibleDescription(". ".join(f"{each.name}: {each.value} {each.unit}" for each in figures))


class _Writing:
    """Writes figures with the digits that are known, and how far off they may be; no more."""

    def __init__(self, quantum: float, unit: str) -> None:
        self._digits = _digits(quantum)
        self._unit = unit
        self._under = translate("ResponseView", "{value} at most")
        self._change = translate("ResponseView", "From, to")

    @staticmethod
    def _number(value: float, digits: int) -> str:
        return with_mark(f"{value:z.{digits}f}")

    def ends(self, name: str, least: float, greatest: float) -> Figure:
        """The least and the greatest value."""
        return Figure(
            name, "{}; {}".format(*(self._number(each, self._digits) for each in (least, greatest))), self._unit
        )

    def change(self, initial: float, final: float) -> Figure:
        """The value before and behind."""
        both = f"{self._number(initial, self._digits)} \N{RIGHTWARDS ARROW} {self._number(final, self._digits)}"
        return Figure(self._change, both, self._unit)

    def value(self, name: str, value: float) -> Figure:
        """A value of the signal."""
        return Figure(name, self._number(value, self._digits), self._unit)

    def seconds(self, name: str, time: Measurement | None, missing: str = "") -> Figure:
        """A time. What may be nothing at all between two samples has no figure but the most that it may be."""
        if time is None:
            return Figure(name, missing, "")
        most = max(abs(time.low), abs(time.high))
        if time.low <= 0:
            return Figure(name, self._under.format(value=self._number(most, _digits(most))), "s")
        digits = _digits(time.within) if time.within else 3
        return Figure(name, f"{self._number(float(time), digits)} \u00b1 {self._number(time.within, digits)}", "s")

    def slope(self, name: str, slope: Measurement) -> Figure:
        """A value each second."""
        digits = _digits(slope.within)
        value = f"{self._number(float(slope), digits)} \u00b1 {self._number(slope.within, digits)}"
        return Figure(name, value, f"{self._unit}/s")

    def share(self, name: str, share: Measurement) -> Figure:
        """A share as a percentage."""
        digits = _digits(100 * share.high / 2 if share.low <= 0 else 100 * share.within)
        if share.low <= 0:
            return Figure(name, self._under.format(value=self._number(100 * share.high, digits)), "%")
        return Figure(name, self._number(100 * float(share), digits), "%")


def _digits(within: float) -> int:
    """Digits behind the point of a figure that may be off by so much: the last one is about as large as that."""
    # A little over: what is polled every 100 ms is not one digit finer for 99 ms between two answers.
    return max(0, math.ceil(-math.log10(within) - 0.15)) if within > 0 else 0


def _last_digit(project: Project, name: str) -> float:
    """The least step of a signal's values that can be seen: of its registers, and of its digits as they are shown."""
    binding = bindings(project)[name]
    shown = 10.0**-binding.signal.decimals
    return shown if binding.base.encoding in ("float32", "float64") else max(shown, abs(float(binding.scale.slope)))


def _choice(name: str) -> QComboBox:
    box = ShortChoice()
    box.setAccessibleName(name)
    box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
    box.setMinimumContentsLength(6)
    box.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
    return box


def _refill(box: QComboBox, entries: list[tuple[str, str]]) -> None:
    """Offer these (words and data), and keep what was chosen if it is among them."""
    chosen = box.currentData()
    box.clear()
    for words, data in entries:
        box.addItem(words, data)
    box.setCurrentIndex(max(0, box.findData(chosen)))
