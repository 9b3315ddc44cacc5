"""What a curve is drawn from: the shape of a signal over a span, as points with gaps, and its look."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass
from typing import Final

import numpy as np
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QPen

from app.curves.source import Array, CurveSource
from app.project.model import BitSignal, Project, RegisterSignal
from app.recording.reader import TooMany

DENSE: Final = 4
"""From so many samples for each pixel on, the extremes in each pixel are drawn instead of the samples."""

_LIGHT: Final = ("#0b5fa5", "#b3420a", "#17693a", "#8a2b8f", "#7a5c00", "#006d77", "#a0143c", "#4b4fc4")
_DARK: Final = ("#6cb6f5", "#f59a5c", "#74d093", "#d79be0", "#e0c04f", "#5fd0d8", "#ff8aa5", "#a7a9ff")
_MEASURED: Final = (Qt.PenStyle.SolidLine, Qt.PenStyle.DotLine)
_SET: Final = (Qt.PenStyle.DashLine, Qt.PenStyle.DashDotLine)
COLOURS: Final = len(_LIGHT)
LOOKS: Final = len(_LIGHT) * len(_MEASURED)
"""Curves that look different from one another."""


def pen(number: int, *, dark: bool, wanted: bool = False, width: float = 1.4) -> QPen:
    """The pen of the curve with this number: eight colours, and after these another kind of line.

    Of what is `wanted`, a set point, the line is dashed.
    """
    colours = _DARK if dark else _LIGHT
    made = QPen(QColor(colours[number % COLOURS]))
    made.setWidthF(width)
    made.setCosmetic(True)
    made.setStyle((_SET if wanted else _MEASURED)[number // COLOURS % len(_MEASURED)])
    return made


@dataclass(frozen=True, slots=True)
class Shape:
    """Points to be joined by straight lines, but for those that are not-a-number: there the line is broken."""

    times: Array
    values: Array


def is_lane(project: Project, name: str) -> bool:
    """Whether a signal is 0 or 1 and is drawn as a lane under the curves."""
    signal = project.signal_named.get(name)
    return isinstance(signal, BitSignal) or (
        isinstance(signal, RegisterSignal) and signal.table in ("coil", "discrete")
    )


def is_set_point(project: Project, name: str) -> bool:
    """Whether a signal is a number that can be written."""
    signal = project.signal_named.get(name)
    return isinstance(signal, RegisterSignal) and signal.write and not is_lane(project, name)


def is_stepped(project: Project, name: str) -> bool:
    """Whether a signal holds its value until the next one, as a set point does."""
    signal = project.signal_named.get(name)
    return is_lane(project, name) or (isinstance(signal, RegisterSignal) and (signal.write or bool(signal.texts)))


def shape(source: CurveSource, name: str, begin: float, end: float, pixels: int) -> Shape:
    """The shape of a signal over a span in a picture of so many pixels. Raises KeyError for no such signal."""
    expected = (end - begin) * 1000 / _every_ms(source.project, name)
    if expected <= DENSE * pixels:
        with suppress(TooMany):  # more than its project says
            times, values = source.window(name, begin, end)
            if is_stepped(source.project, name):
                return _steps(times, values, min(end, source.span()[1]))
            return Shape(times, values)
    envelope = source.envelope(name, begin, end, pixels)
    middles = (envelope.edges[:-1] + envelope.edges[1:]) / 2
    return Shape(np.repeat(middles, 2), np.column_stack([envelope.low, envelope.high]).ravel())


def _steps(times: Array, values: Array, until: float) -> Shape:
    """The corners of a line that holds each value until the next one, the last one until now."""
    if not len(times):
        return Shape(times, values)
    corners = np.flatnonzero(values[1:] != values[:-1]) + 1
    times, values = times[[0, *corners]], values[[0, *corners]]
    times, values = np.append(times, max(until, times[-1])), np.append(values, values[-1])
    return Shape(np.repeat(times, 2)[1:-1], np.repeat(values, 2)[:-2])


def _every_ms(project: Project, name: str) -> int:
    signal = project.signal_named[name]
    if isinstance(signal, BitSignal):
        signal = project.signal_named.get(signal.bit.of, signal)
    return signal.every_ms if isinstance(signal, RegisterSignal) else 500
