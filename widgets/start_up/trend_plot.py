"""The drawing of a trend: lanes above one another with one time for all, the cursors and alarms across them."""

from __future__ import annotations

import enum
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Final

import numpy as np
import pyqtgraph as pg
from PySide6.QtCore import QEvent, QPoint, QPointF, QRect, QRectF, Qt, Signal
from PySide6.QtGui import QAccessible, QColor, QContextMenuEvent, QHelpEvent, QMouseEvent, QPainter, QPen
from PySide6.QtWidgets import QGraphicsItem, QToolTip, QWidget

from app.curves.source import CurveSource
from app.curves.time_axis import TimeMark, time_marks
from app.curves.value_axis import FROM_ZERO, LEAST_SPANS, bounds
from app.language import with_mark
from app.project.binding import plain_text
from widgets.kit import palette
from widgets.kit.plain import plain_tip
from widgets.kit.scaling import scaled
from widgets.speech.roles import give_role
from widgets.start_up.trend_curves import is_set_point, pen, shape
from widgets.start_up.trend_lanes import Lane

BIT: Final = 0.6
"""How high a bit is drawn, of the room of 1 that it has."""
LEAST_SPAN_S: Final = 0.05
LONGEST_SPAN_S: Final = 400 * 24 * 3600.0
LEAST_DIGITS: Final = 20
"""So many of the last digits that are shown an axis spans at least."""
AXIS: Final = 46
"""Of the values beside a lane, in pixels at 100 per cent."""
MARKS_APART: Final = 90
"""Pixels at 100 per cent between two marks of time, at least."""
FREE: Final = 9
"""Pixels between the outermost value of a lane and its edge: no curve lies on that."""
GRASP: Final = 5
"""Pixels beside a cursor within which the mouse takes hold of it."""
GRID: Final = 40
"""Opacity of the lines of the grid, of 255."""


_SENTENCE: Final = int(Qt.AlignmentFlag.AlignCenter) | int(Qt.TextFlag.TextWordWrap)


class _Values(pg.AxisItem):  # type: ignore[misc]  # pyqtgraph has no types
    """The values of a lane, in the decimal mark of the window."""

    def tickStrings(self, values: list[float], scale: float, spacing: float) -> list[str]:
        return [with_mark(text) for text in super().tickStrings(values, scale, spacing)]


@dataclass(frozen=True, slots=True)
class Flag:
    """An alarm at a time."""

    at: float
    words: str


class Cursor(enum.IntEnum):
    """The two cursors."""

    A = 0
    B = 1


class TrendPlot(pg.GraphicsLayoutWidget):  # type: ignore[misc]
    """Draws lanes of a source over a span of time. Mouse: drag to move, wheel to zoom, both along the time only."""

    span_moved = Signal(float, float)
    """Somebody moved or zoomed by the mouse: the span that is shown now."""
    moment_chosen = Signal(float)
    """Somebody double-clicked at a time."""
    cursors_moved = Signal()
    moved_on = Signal()
    """Another span, or another width: what stands along the time has other places."""
    menu_wanted = Signal(object, str)
    """Somebody wants a menu at this point of the screen, for this curve; "" beside all lanes."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._source: CurveSource | None = None
        self._lanes: tuple[Lane, ...] = ()
        self._numbers: Mapping[str, int] = {}
        self._span = (0.0, 60.0)
        self._boxes: list[tuple[Any, Any]] = []
        """The axis and the box of each lane."""
        self.curves: dict[str, Any] = {}
        self._ranges: dict[int, tuple[float, float]] = {}
        """The bounds of the value axes, by lane."""
        self._setting = False
        self._cursor_at: list[float | None] = [None, None]
        self._held: Cursor | None = None
        self._moment: float | None = None
        self._flags: tuple[Flag, ...] = ()
        self.sentence = ""
        """What stands in the middle where there are no values."""
        self.named = False
        """Whether the names of the curves stand in the lanes, as no legend does beside them."""
        # Kept as a picture, the ground would go on showing the marks of a span that has passed.
        self.setCacheMode(self.CacheModeFlag.CacheNone)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(self.tr("Trend"))
        self.setFrameShape(self.Shape.NoFrame)
        self.ci.layout.setContentsMargins(0, 0, 0, 0)
        self.ci.layout.setSpacing(0)
        self.scene().sigMouseClicked.connect(self._click)
        self.recolour()

    # What is drawn

    @property
    def names(self) -> tuple[str, ...]:
        """The signals that are drawn."""
        return tuple(self.curves)

    @property
    def lanes(self) -> tuple[Lane, ...]:
        """The lanes, from the top."""
        return self._lanes

    def show_lanes(self, source: CurveSource | None, lanes: Sequence[Lane], numbers: Mapping[str, int]) -> None:
        """Draw these lanes of a source, each curve with the pen of its number."""
        same = tuple(lanes) == self._lanes
        self._source, self._lanes, self._numbers = source, tuple(lanes), dict(numbers)
        self._ranges = {}
        if not same:
            self._build()
        self.recolour()
        self._show_span()
        self.draw()

    def set_heights(self, heights: Sequence[int]) -> None:
        """Make the lanes so many pixels high."""
        for row, height in enumerate(heights):
            self.ci.layout.setRowFixedHeight(row, height)
        self._widen()

    def _widen(self) -> None:
        """Qt shrinks what is laid out to what it holds just then, also while that is put together, and leaves it so."""
        self.ci.setGeometry(self.range)

    @property
    def span(self) -> tuple[float, float]:
        """The span of time that is shown."""
        return self._span

    @property
    def pixel_s(self) -> float:
        """How many seconds one pixel stands for."""
        begin, end = self._span
        return (end - begin) / max(1, self._along().width())

    def _along(self) -> QRect:
        """Where the curves are: right of the values, over all lanes."""
        left = scaled(AXIS)
        return QRect(left, 0, max(1, self.viewport().width() - left), self.viewport().height())

    def x_of(self, at: float) -> float:
        """Where a time is, in pixels from the left edge."""
        along, (begin, end) = self._along(), self._span
        return along.left() + (at - begin) / (end - begin) * along.width()

    def time_at(self, x: float) -> float:
        """The time at a place, in pixels from the left edge."""
        along, (begin, end) = self._along(), self._span
        return begin + (x - along.left()) / along.width() * (end - begin)

    def marks(self) -> list[TimeMark]:
        """The marks of time in the span."""
        source, (begin, end) = self._source, self._span
        if source is None:
            return []
        return list(time_marks(begin, end, source.civil(end), self._along().width() // scaled(MARKS_APART)))

    def set_span(self, begin: float, end: float) -> None:
        """Show another span of time."""
        middle = (begin + end) / 2
        length = min(max(end - begin, LEAST_SPAN_S), LONGEST_SPAN_S)
        # Exactly what was asked for where it can be: a moment at its very edge is in sight.
        self._span = (begin, end) if length == end - begin else (middle - length / 2, middle + length / 2)
        self._show_span()
        self.draw()

    def draw(self) -> None:
        """Draw what the source has in the span now."""
        source = self._source
        if source is None or not self.isVisible():
            return
        begin, end = self._span
        pixels = max(50, self._along().width())
        for place, lane in enumerate(self._lanes):
            ends: list[float] = []
            for number, name in enumerate(lane.names):
                found = shape(source, name, begin, end, pixels)
                values = found.values
                if len(found.times) < 2 or np.isnan(values).all():
                    self.curves[name].setData([], [])
                    continue
                if lane.band:
                    values = values * BIT + len(lane.names) - number - (1 + BIT) / 2
                else:
                    ends += (float(np.nanmin(values)), float(np.nanmax(values)))
                self.curves[name].setData(found.times, values, connect="finite")
            if not lane.band:
                self._fit(place, lane, ends)

    def fit(self, place: int) -> None:
        """Bring the axis of a lane close to its values."""
        self._ranges.pop(place, None)
        self.draw()

    def _fit(self, place: int, lane: Lane, ends: Sequence[float]) -> None:
        """Bring values into sight."""
        if self._source is None or not np.isfinite(ends).all() or (not ends and place in self._ranges):
            return
        signals = self._source.project.signal_named
        digits = LEAST_DIGITS * 10.0 ** -min(signals[name].decimals for name in lane.names)
        now = self._ranges.get(place)
        least = max(digits, LEAST_SPANS.get(lane.unit, 0.0))
        low, high = min(ends, default=0.0), max(ends, default=0.0)
        wanted = bounds(low, high, least=least, now=now, zero=not ends or lane.unit in FROM_ZERO)
        if wanted != now:
            self._ranges[place] = wanted
            self._show_range(place)

    def _show_range(self, place: int) -> None:
        if place not in self._ranges:
            return
        bottom, top = self._ranges[place]
        box = self._boxes[place][1]
        above = self.fontMetrics().height() if self._lanes[place].unit or self.named else FREE
        above = min(above, box.height() / 4)
        each = (top - bottom) / max(1.0, box.height() - FREE - above)
        box.setYRange(bottom - each * FREE, top + each * above, padding=0)

    def value_range(self, place: int) -> tuple[float, float]:
        """The bounds of the value axis of a lane; both 0 where nothing was drawn yet."""
        return self._ranges.get(place, (0.0, 0.0))

    # Cursors, alarms, and the moment of a replay

    @property
    def cursors(self) -> tuple[float | None, float | None]:
        """The times of the two cursors, None for one that is not there."""
        return self._cursor_at[0], self._cursor_at[1]

    def set_cursor(self, number: int, at: float | None) -> None:
        """Put cursor 0 or 1 at a time, or take it away."""
        self._cursor_at[number] = at
        self._draw_across()
        self.cursors_moved.emit()

    def set_moment(self, at: float | None) -> None:
        """Mark where a replay stands, or nothing."""
        self._moment = at
        self._draw_across()

    @property
    def flags(self) -> tuple[Flag, ...]:
        """The alarms that are marked."""
        return self._flags

    def set_flags(self, flags: Sequence[Flag]) -> None:
        """Mark these alarms."""
        if tuple(flags) != self._flags:
            self._flags = tuple(flags)
            self._draw_across()

    def _draw_across(self) -> None:
        self.viewport().update()
        self.moved_on.emit()

    # Making the lanes

    def _build(self) -> None:
        self.clear()
        self._boxes, self.curves = [], {}
        for row, lane in enumerate(self._lanes):
            # Their words are set anew at every painting; as a picture they need not be while only curves change.
            axis = _Values(orientation="left", maxTickLength=0)
            axis.setCacheMode(QGraphicsItem.CacheMode.DeviceCoordinateCache)
            axis.enableAutoSIPrefix(False)
            axis.setWidth(scaled(AXIS))
            axis.setStyle(tickTextOffset=4, tickAlpha=GRID, maxTickLevel=0)
            box = pg.ViewBox(enableMenu=False, enableMouse=True)
            box.setMouseEnabled(x=True, y=False)
            box.disableAutoRange()
            axis.linkToView(box)
            if lane.band:
                axis.setTicks([])
                box.setYRange(0, len(lane.names), padding=0)
            else:
                axis.setGrid(GRID)
            self.addItem(axis, row=row, col=0)
            self.addItem(box, row=row, col=1)
            for name in lane.names:
                self.curves[name] = pg.PlotCurveItem(antialias=True)
                box.addItem(self.curves[name], ignoreBounds=True)
            box.sigXRangeChanged.connect(self._x_changed)
            box.sigResized.connect(lambda _box, row=row: self._show_range(row))
            self._boxes.append((axis, box))
        self._widen()

    def _show_span(self) -> None:
        self._setting = True
        for _, box in self._boxes:
            box.setXRange(*self._span, padding=0)
        self._setting = False
        self._draw_across()

    def _x_changed(self, _box: object, span: tuple[float, float]) -> None:
        if not self._setting:
            self.set_span(float(span[0]), float(span[1]))
            self.span_moved.emit(*self._span)

    # Events

    def _click(self, event: Any) -> None:
        if event.double() and self._boxes and self._along().contains(event.scenePos().toPoint()):
            self.moment_chosen.emit(self.time_at(event.scenePos().x()))

    def cursor_at(self, x: float) -> Cursor | None:
        """The cursor that the mouse takes hold of at a place, in pixels from the left edge."""
        near = [
            (abs(self.x_of(at) - x), cursor)
            for cursor, at in zip(Cursor, self._cursor_at, strict=True)
            if at is not None and abs(self.x_of(at) - x) <= GRASP
        ]
        return min(near)[1] if near else None

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take hold of a cursor, or of the time."""
        if event.button() == Qt.MouseButton.LeftButton:
            self._held = self.cursor_at(event.position().x())
        if self._held is None:
            super().mousePressEvent(event)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        x = event.position().x()
        if self._held is not None:
            self.set_cursor(self._held, self.time_at(x))
            return
        on_one = not event.buttons() and self.cursor_at(x) is not None
        self.viewport().setCursor(Qt.CursorShape.SplitHCursor if on_one else Qt.CursorShape.ArrowCursor)
        super().mouseMoveEvent(event)

    def viewportEvent(self, event: QEvent) -> bool:
        """Where the mouse rests: the curve next to it, its value there, and when."""
        if isinstance(event, QHelpEvent):
            QToolTip.showText(event.globalPos(), plain_tip(self.words_at(event.pos())), self.viewport())
            return True
        return bool(super().viewportEvent(event))

    def words_at(self, at: QPoint) -> str:
        """The curve next to a place, its value at that time, and the time; empty where there is none."""
        source, name, moment = self._source, self.curve_near(at), self.time_at(at.x())
        value = float("nan") if source is None or not name else source.at(name, moment)
        if source is None or math.isnan(value):
            return ""
        signal = source.project.signal_named.get(name)
        digits = 3 if signal is None else signal.decimals
        text = plain_text(source.project, name, Fraction(repr(round(value, digits))))
        unit = "" if signal is None or signal.texts or not signal.unit else f" {signal.unit}"
        return f"{name}: {text}{unit}\n{source.civil(moment):%H:%M:%S.%f}"[:-5]

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        if self._held is None:
            super().mouseReleaseEvent(event)
        self._held = None

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        """Ask for a menu: that of the curve next to the mouse, or of the first one by key."""
        at = event.pos() if event.reason() is QContextMenuEvent.Reason.Mouse else self._along().topLeft()
        self.menu_wanted.emit(event.globalPos(), self.curve_near(at))
        event.accept()

    def curve_near(self, at: QPoint) -> str:
        """The curve of the lane at a place that is next to it; "" where there is no lane."""
        moment = self.time_at(at.x())
        for lane, (_, box) in zip(self._lanes, self._boxes, strict=True):
            place = box.sceneBoundingRect()
            if not place.top() <= at.y() < place.bottom():
                continue
            if lane.band or self._source is None:
                row = int((at.y() - place.top()) / max(1.0, place.height()) * len(lane.names))
                return lane.names[min(row, len(lane.names) - 1)]
            wanted = float(box.mapSceneToView(QPointF(at)).y())
            values = {name: self._source.at(name, moment) for name in lane.names}
            return min(lane.names, key=lambda name: np.nan_to_num(abs(values[name] - wanted), nan=np.inf))
        return ""

    # Painting

    def recolour(self) -> None:
        """Take the colours of the palette, and of the curves."""
        colours = palette.current()
        self.setBackground(QColor(colours.base))
        for axis, _ in self._boxes:
            axis.setPen(colours.line)
            axis.setTickPen(colours.ink)
            axis.setTextPen(colours.faint)
        project = self._source.project if self._source is not None else None
        for name, curve in self.curves.items():
            wanted = project is not None and is_set_point(project, name)
            curve.setPen(pen(self._numbers.get(name, 0), dark=colours.dark, wanted=wanted))
        self.viewport().update()

    def drawBackground(self, painter: QPainter, rect: QRectF) -> None:
        """Behind the curves: the marks of time, and the span between the cursors."""
        super().drawBackground(painter, rect)
        colours, along = palette.current(), self._along()
        grid = colours.colour("ink")
        grid = QColor(grid.red(), grid.green(), grid.blue(), GRID)
        painter.save()
        painter.resetTransform()
        first, second = self._cursor_at
        if first is not None and second is not None:
            tint = QColor(colours.accent)
            tint.setAlpha(GRID)
            left, right = sorted((self.x_of(first), self.x_of(second)))
            between = QRectF(left, along.top(), right - left, along.height())
            painter.fillRect(between.intersected(QRectF(along)), tint)
        painter.setPen(grid)
        for mark in self.marks():
            x = round(self.x_of(mark.at))
            painter.drawLine(x, along.top(), x, along.bottom())
        painter.restore()

    def drawForeground(self, painter: QPainter, rect: QRectF) -> None:  # noqa: ARG002
        """Before the curves: edges and units of the lanes, alarms, cursors, and where a replay stands."""
        colours, along = palette.current(), self._along()
        painter.save()
        painter.resetTransform()
        painter.setFont(self.font())
        for lane, (_, box) in zip(self._lanes, self._boxes, strict=True):
            place = box.sceneBoundingRect().toRect()
            painter.setPen(colours.colour("line"))
            painter.drawLine(0, place.bottom(), along.right(), place.bottom())
            self._write_lane(painter, lane, place)
        painter.setClipRect(along)
        for flag in self._flags:
            self._line(painter, flag.at, QPen(colours.colour("fault"), 1, Qt.PenStyle.DashLine))
        for at in self._cursor_at:
            if at is not None:
                self._line(painter, at, QPen(colours.colour("accent"), 1.5))
        if self._moment is not None:
            self._line(painter, self._moment, QPen(colours.colour("ink"), 1, Qt.PenStyle.DotLine))
        if self.sentence:
            around = painter.boundingRect(along, _SENTENCE, self.sentence)
            painter.fillRect(around.adjusted(-8, -4, 8, 4), colours.colour("base"))
            painter.setPen(colours.colour("faint"))
            painter.drawText(along, _SENTENCE, self.sentence)
        painter.restore()

    def _write_lane(self, painter: QPainter, lane: Lane, place: QRect) -> None:
        """The unit of a lane, and the names of its curves where no legend has them."""
        colours = palette.current()
        left, line = place.left() + scaled(4), painter.fontMetrics().height()
        parts = [(lane.unit, colours.colour("faint"))] if lane.unit else []
        if self.named:
            parts += [(name, pen(self._numbers.get(name, 0), dark=colours.dark).color()) for name in lane.names]
        for number, (words, colour) in enumerate(parts):
            painter.setPen(colour)
            if lane.band:
                down = round(place.top() + place.height() * number / len(parts))
                painter.drawText(QPointF(left, down + painter.fontMetrics().ascent()), words)
                continue
            painter.drawText(QRect(left, place.top() + 1, max(0, place.right() - left), line), 0, words)
            left += painter.fontMetrics().horizontalAdvance(words) + scaled(10)

    def _line(self, painter: QPainter, at: float, how: QPen) -> None:
        painter.setPen(how)
        x = round(self.x_of(at))
        painter.drawLine(x, 0, x, self.viewport().height())

    def changeEvent(self, event: QEvent) -> None:
        """Follow a change of the palette, with the lanes that are there."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange and hasattr(self, "_lanes"):
            self.recolour()

    def showEvent(self, event: Any) -> None:
        """Nothing is drawn while hidden; catch up."""
        super().showEvent(event)
        self.draw()

    def resizeEvent(self, event: Any) -> None:
        super().resizeEvent(event)
        if hasattr(self, "_lanes"):
            self.draw()
            self.moved_on.emit()


give_role(TrendPlot, QAccessible.Role.Chart)
