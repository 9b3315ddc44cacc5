"""What a step or a ramp between the two cursors of a trend looked like, in numbers and with what they mean."""

from __future__ import annotations

import math
from typing import Final

from PySide6.QtCore import QCoreApplication, Qt, Signal
from PySide6.QtWidgets import QComboBox, QFormLayout, QHBoxLayout, QVBoxLayout, QWidget

from app.curves.response import Measurement, RampResponse, StepResponse, ramp_response, step_response, steps
from app.curves.source import CurveSource
from app.errors import FanlightError
from app.project.binding import bindings
from app.project.model import Project
from app.recording.reader import TooMany
from widgets.kit.controls import Choice, push_button
from widgets.kit.plain import plain_label
from widgets.start_up.trend_curves import is_lane

translate = QCoreApplication.translate

AROUND_S: Final = (2.0, 20.0)
"""Before and behind a step that was found: the span that is marked, in seconds."""
STEP_LINES: Final = 6
"""Lines that tell of a step; a ramp has one more."""


class ResponseView(QWidget):
    """Measures one signal of a source over a span; emits the spans of steps that it finds."""

    span_found = Signal(float, float)
    """The next step of the set point: the span around it."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._source: CurveSource | None = None
        self._span: tuple[float, float] | None = None
        self._found: list[float] = []
        self.signal = _choice(self.tr("Signal to measure"))
        self.set_point = _choice(self.tr("Its set point"))
        self.kind = _choice(self.tr("Kind of response"))
        self.kind.addItem(self.tr("as a step"), "step")
        self.kind.addItem(self.tr("as a ramp"), "ramp")
        self.next_step = push_button(self.tr("Next step"), self._find)
        self.next_step.setToolTip(self.tr("Puts the cursors around the next step of the set point"))
        self.result = plain_label(wrap=True)
        self.result.setTextInteractionFlags(
            Qt.TextInteractionFlag.TextSelectableByMouse | Qt.TextInteractionFlag.TextSelectableByKeyboard
        )
        self.result.setAccessibleName(self.tr("Figures of the response"))
        self.result.setToolTip(
            self.tr(
                "Rise time: from 10 % to 90 % of the change, first crossings. Overshoot: greatest excess "
                "over the final value, relative to the change. Settling time: until it stays within 2 % of "
                "the change. Definitions of IEC 60050-351."
            )
        )
        self.result.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
        # Room for them from the start: the button stays where it is while one goes from step to step.
        self.result.setMinimumHeight(STEP_LINES * self.result.fontMetrics().lineSpacing())
        form = QFormLayout()
        form.setContentsMargins(0, 0, 0, 0)
        form.addRow(self.tr("Response of"), self.signal)
        form.addRow(self.tr("Set point"), self.set_point)
        row = QHBoxLayout()
        row.addWidget(self.kind, 1)
        row.addWidget(self.next_step)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 4, 8, 4)
        layout.setSpacing(4)
        layout.addLayout(form)
        layout.addLayout(row)
        layout.addWidget(self.result)
        for box in (self.signal, self.set_point, self.kind):
            box.activated.connect(lambda _index: self._measure())
        self.set_point.activated.connect(lambda _index: self._found.clear())
        self._measure()

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
            self.result.setText(self.tr("Choose a set point first; its steps are then found."))
            return
        if not self._found:
            try:
                self._found = steps(*source.window(name, *source.span()))
            except TooMany as why:
                self.result.setText(str(why)[:1].upper() + str(why)[1:] + ".")
                return
            if not self._found:
                self.result.setText(self.tr("No step of the set point was found in the observed time."))
                return
        at = self._found.pop(0)
        end = source.span()[1]
        following = self._found[0] if self._found else end
        self.span_found.emit(max(at - AROUND_S[0], source.span()[0]), min(at + AROUND_S[1], following, end))

    def _measure(self) -> None:
        source, span, name = self._source, self._span, self.signal.currentData()
        if source is None or not name:
            self.result.setText(self.tr("Show a curve in the trend to measure it."))
            return
        if span is None:
            self.result.setText(self.tr("Put the cursors A and B around a step or a ramp."))
            return
        try:
            self.result.setText(self._measured_text(source, name, *span))
        except FanlightError as why:
            self.result.setText(str(why)[:1].upper() + str(why)[1:] + ".")
        except KeyError:
            self.result.setText(self.tr("This signal is not in the observed data."))

    def _measured_text(self, source: CurveSource, name: str, begin: float, end: float) -> str:
        times, values = source.window(name, begin, end)
        wanted = self.set_point.currentData()
        unit = source.project.signal_named[name].unit
        quantum = _last_digit(source.project, name)
        write = _Writing(quantum, unit)
        if self.kind.currentData() == "ramp":
            set_times, set_values = source.window(wanted, begin, end) if wanted else (None, None)
            ramp = ramp_response(times, values, begin, end, set_times=set_times, set_values=set_values, quantum=quantum)
            return self._ramp_words(ramp, write)
        start = after = begin
        set_point = None
        if wanted:
            set_times, set_values = source.window(wanted, begin, end)
            jumps = [at for at in steps(set_times, set_values, hold_s=0.0) if begin <= at <= end]
            start = jumps[0] if jumps else begin
            before = set_times[set_times < start]
            after = float(before[-1]) if jumps and len(before) else start
            set_point = float(set_values[-1]) if len(set_values) else None
        step = step_response(
            times, values, start, end, set_point=set_point, quantum=quantum, begin_after=min(after, start)
        )
        return self._step_words(step, write)

    def _step_words(self, step: StepResponse, write: _Writing) -> str:
        missing = self.tr("not reached")
        lines = [
            self.tr("From {initial} to {final}").format(
                initial=write.number(step.initial), final=write.value(step.final)
            ),
            self.tr("Rise time: {value}").format(value=missing if step.rise_s is None else write.seconds(step.rise_s)),
            self.tr("Overshoot: {value}").format(value=write.share(step.overshoot)),
            self.tr("Settling time: {value}").format(
                value=missing if step.settling_s is None or not step.settled else write.seconds(step.settling_s)
            ),
            self.tr("Ripple at the end: {value}").format(value=write.value(step.ripple)),
        ]
        if step.error is not None:
            lines.append(self.tr("Set point minus final value: {value}").format(value=write.value(step.error)))
        return "\n".join(lines)

    def _ramp_words(self, ramp: RampResponse, write: _Writing) -> str:
        lines = [
            self.tr("From {initial} to {final}").format(
                initial=write.number(ramp.initial), final=write.value(ramp.final)
            ),
            self.tr("Slope: {value}").format(value=write.slope(ramp.slope)),
            self.tr("Ramp time: {value}").format(value=write.seconds(ramp.ramp_s)),
            self.tr("Overshoot: {value}").format(value=write.share(ramp.overshoot)),
            self.tr("Ripple at the end: {value}").format(value=write.value(ramp.ripple)),
        ]
        if ramp.set_ramp_s is not None:
            lines.append(self.tr("Ramp time of the set point: {value}").format(value=write.seconds(ramp.set_ramp_s)))
        if ramp.lag_s is not None:
            lines.append(self.tr("Lag: {value}").format(value=write.seconds(ramp.lag_s)))
        return "\n".join(lines)


class _Writing:
    """Writes figures with the digits that are known, and how far off they may be; no more."""

    def __init__(self, quantum: float, unit: str) -> None:
        self._digits = _digits(quantum)
        self._unit = unit
        self._under = translate("ResponseView", "{value} at most")

    def number(self, value: float) -> str:
        """A value without its unit."""
        return f"{value:z.{self._digits}f}"

    def value(self, value: float) -> str:
        """A value with its unit."""
        return f"{self.number(value)} {self._unit}".rstrip()

    def seconds(self, time: Measurement) -> str:
        """A time. What may be nothing at all between two samples has no figure but the most that it may be."""
        most = max(abs(time.low), abs(time.high))
        if time.low <= 0:
            return self._under.format(value=f"{most:.{_digits(most)}f} s")
        digits = _digits(time.within) if time.within else 3
        return f"{time:.{digits}f} \u00b1 {time.within:.{digits}f} s"

    def slope(self, slope: Measurement) -> str:
        """A value each second."""
        digits = _digits(slope.within)
        return f"{slope:z.{digits}f} \u00b1 {slope.within:.{digits}f} {self._unit}/s"

    def share(self, share: Measurement) -> str:
        """A share as a percentage."""
        digits = _digits(100 * share.high / 2 if share.low <= 0 else 100 * share.within)
        if share.low <= 0:
            return self._under.format(value=f"{100 * share.high:.{digits}f} %")
        return f"{100 * share:.{digits}f} %"


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
    box = Choice()
    box.setAccessibleName(name)
    box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
    box.setMinimumContentsLength(8)
    return box


def _refill(box: QComboBox, entries: list[tuple[str, str]]) -> None:
    """Offer these (words and data), and keep what was chosen if it is among them."""
    chosen = box.currentData()
    box.clear()
    for words, data in entries:
        box.addItem(words, data)
    box.setCurrentIndex(max(0, box.findData(chosen)))
