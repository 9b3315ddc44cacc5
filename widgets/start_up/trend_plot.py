"""The drawing of a trend: a pane for each unit above one another, lanes for bits below, one axis of time for all."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final

import numpy as np
import pyqtgraph as pg
from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QGraphicsItem, QWidget

from app.curves.source import CurveSource
from app.curves.value_axis import bounds
from widgets.kit import palette
from widgets.start_up.trend_curves import is_lane, pen, shape

LANE: Final = 0.7
"""How high a lane is drawn, of the room of 1 that it has."""
SAME_CLOCK_S: Final = 0.1
"""By how much the civil times of an axis may be off before its clock counts as another one."""
LEAST_SPAN_S: Final = 0.05
LONGEST_SPAN_S: Final = 400 * 24 * 3600.0
LANE_HEIGHT: Final = 20
"""Pixels."""
LEAST_DIGITS: Final = 20
"""So many of the last digits that are shown an axis spans at least."""


class TrendPlot(pg.GraphicsLayoutWidget):  # type: ignore[misc]  # pyqtgraph has no types
    """Draws signals of a source over a span of time. Mouse: drag to move, wheel to zoom, both along the time only."""

    span_moved = Signal(float, float)
    """Somebody moved or zoomed by the mouse: the span that is shown now."""
    moment_chosen = Signal(float)
    """Somebody double-clicked at a time."""
    cursors_moved = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._source: CurveSource | None = None
        self._names: tuple[str, ...] = ()
        self._span = (0.0, 60.0)
        self.panes: list[Any] = []
        self.curves: dict[str, tuple[Any, Any]] = {}
        self._heights: dict[Any, tuple[float, float]] = {}
        """The bounds of the value axes, by pane."""
        self._lanes: dict[str, int] = {}
        self.axis_zero = 0.0
        """The time of the source at the zero of the axis."""
        self._utc_offset = 0.0
        self._setting = False
        self._cursor_at: list[float | None] = [None, None]
        self.cursor_lines: list[list[Any]] = [[], []]
        self._moment: float | None = None
        self._moment_lines: list[Any] = []
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(self.tr("Trend"))
        self.scene().sigMouseClicked.connect(self._click)
        self._recolour()

    # What is drawn

    @property
    def names(self) -> tuple[str, ...]:
        """The signals that are drawn."""
        return self._names

    def set_source(self, source: CurveSource | None) -> None:
        """Draw values of another source."""
        if source is not self._source:
            self._source = source
            self._build()

    def set_names(self, names: Sequence[str]) -> None:
        """Draw these signals."""
        if tuple(names) != self._names:
            self._names = tuple(names)
            self._build()

    @property
    def span(self) -> tuple[float, float]:
        """The span of time that is shown."""
        return self._span

    @property
    def pixel_s(self) -> float:
        """How many seconds one pixel stands for."""
        begin, end = self._span
        return (end - begin) / max(1, int(self.width()))

    def set_span(self, begin: float, end: float) -> None:
        """Show another span of time."""
        middle = (begin + end) / 2
        length = min(max(end - begin, LEAST_SPAN_S), LONGEST_SPAN_S)
        self._span = (middle - length / 2, middle + length / 2)
        self._show_span()
        self.draw()

    def draw(self) -> None:
        """Draw what the source has in the span now."""
        source = self._source
        if source is None or not self.isVisible():
            return
        begin, end = self._span
        pixels = max(50, self.width())
        seen: dict[Any, list[float]] = {}
        for name, (curve, pane) in self.curves.items():
            found = shape(source, name, begin, end, pixels)
            values = found.values
            lane = self._lanes.get(name)
            if lane is not None:
                values = values * LANE - lane
            if len(found.times) < 2 or np.isnan(values).all():
                curve.setData([], [])
            else:
                curve.setData(found.times - self.axis_zero, values, connect="finite", skipFiniteCheck=False)
                if lane is None:
                    seen.setdefault(pane, []).extend((float(np.nanmin(values)), float(np.nanmax(values))))
        for pane, ends in seen.items():
            self._fit(pane, min(ends), max(ends))

    def _fit(self, pane: Any, low: float, high: float) -> None:
        """Bring values into sight."""
        if self._source is None or not np.isfinite((low, high)).all():
            return
        signals = self._source.project.signal_named
        decimals = min(signals[name].decimals for name, (_, where) in self.curves.items() if where is pane)
        now = self._heights.get(pane)
        wanted = bounds(low, high, least=LEAST_DIGITS * 10.0**-decimals, now=now)
        if wanted != now:
            self._heights[pane] = wanted
            pane.setYRange(*wanted, padding=0)

    # Cursors and the moment of a replay

    @property
    def cursors(self) -> tuple[float | None, float | None]:
        """The times of the two cursors, None for one that is not there."""
        return self._cursor_at[0], self._cursor_at[1]

    def set_cursor(self, number: int, at: float | None) -> None:
        """Put cursor 0 or 1 at a time, or take it away."""
        self._cursor_at[number] = at
        self._draw_cursors()
        self.cursors_moved.emit()

    def set_moment(self, at: float | None) -> None:
        """Mark where a replay stands, or nothing."""
        self._moment = at
        if at is not None and self._moment_lines:
            for line in self._moment_lines:
                line.setValue(at - self.axis_zero)
        else:
            self._draw_cursors()

    # Making the panes

    def _build(self) -> None:
        # While their panes are there: the lines of panes that are gone can no longer be asked where they are.
        self._take_lines_out()
        self.clear()
        self.panes, self.curves, self._lanes, self._heights = [], {}, {}, {}
        source = self._source
        if source is None:
            return
        self._take_axis_zero(source)
        project = source.project
        known = [name for name in self._names if name in project.signal_named]
        units: dict[str, list[str]] = {}
        for name in known:
            if not is_lane(project, name):
                units.setdefault(project.signal_named[name].unit, []).append(name)
        lanes = [name for name in known if is_lane(project, name)]
        rows = len(units) + bool(lanes)
        for row, (unit, names) in enumerate(units.items()):
            pane = self._pane(row, last=row == rows - 1)
            pane.setLabel("left", unit or self.tr("value"))
            for name in names:
                self._add_curve(pane, name)
        if lanes:
            pane = self._pane(rows - 1, last=True)
            self._lanes = {name: number for number, name in enumerate(lanes)}
            pane.getAxis("left").setTicks([[(LANE / 2 - number, name) for name, number in self._lanes.items()]])
            pane.setYRange(-len(lanes) + 1 - 0.15, 1, padding=0)
            pane.setMouseEnabled(x=True, y=False)
            height = LANE_HEIGHT * (len(lanes) + (2 if rows == 1 else 1)) + 24
            self.ci.layout.setRowMaximumHeight(rows - 1, height)
            for name in lanes:
                self._add_curve(pane, name)
        else:
            self.ci.layout.setRowMaximumHeight(max(0, rows - 1), 16_000)
        widest = max((pane.getAxis("left").width() for pane in self.panes), default=0)
        for pane in self.panes:
            pane.getAxis("left").setWidth(max(64, widest, self._lane_width(lanes)))
            if pane is not self.panes[0]:
                pane.setXLink(self.panes[0])
        if self.panes:
            self.panes[0].getViewBox().sigXRangeChanged.connect(self._x_changed)
        self._show_span()
        self._recolour()
        self.draw()

    def _lane_width(self, lanes: Sequence[str]) -> int:
        metrics = self.fontMetrics()
        return min(170, max((metrics.horizontalAdvance(name) + 16 for name in lanes), default=0))

    def _pane(self, row: int, *, last: bool) -> Any:
        axis = pg.DateAxisItem(orientation="bottom", utcOffset=self._utc_offset)
        pane = self.addPlot(row=row, col=0, axisItems={"bottom": axis}, enableMenu=False)
        pane.ctrlMenu.deleteLater()  # nobody opens it, and it would outlive its pane
        pane.ctrlMenu = None
        pane.hideButtons()
        pane.showGrid(x=True, y=True, alpha=0.18)
        pane.setMouseEnabled(x=True, y=False)
        pane.disableAutoRange()
        for each in (axis, pane.getAxis("left")):
            # Their words are set anew at every painting; as a picture they need not be while only curves change.
            each.setCacheMode(QGraphicsItem.CacheMode.DeviceCoordinateCache)
            each.enableAutoSIPrefix(False)
        if not last:
            axis.setStyle(showValues=False)
        self.panes.append(pane)
        return pane

    def _add_curve(self, pane: Any, name: str) -> None:
        self.curves[name] = (pane.plot([], []), pane)

    def _take_axis_zero(self, source: CurveSource) -> None:
        """Along the axis are seconds since 1970, so that its ticks fall on round civil times.

        Where the civil clock was set within the span, they are those of its end.
        """
        end = self._span[1]
        civil = source.civil(end)
        offset = civil.utcoffset()
        self.axis_zero = end - civil.timestamp()
        self._utc_offset = 0.0 if offset is None else -offset.total_seconds()

    def _show_span(self) -> None:
        source = self._source
        if self.panes and source is not None:
            before = self.axis_zero
            self._take_axis_zero(source)
            if abs(self.axis_zero - before) > SAME_CLOCK_S:
                for pane in self.panes:
                    pane.getAxis("bottom").utcOffset = self._utc_offset
                self._draw_cursors()
            else:
                self.axis_zero = before
            self._setting = True
            begin, end = self._span
            self.panes[0].setXRange(begin - self.axis_zero, end - self.axis_zero, padding=0)
            self._setting = False

    def _x_changed(self, _box: object, span: tuple[float, float]) -> None:
        if self._setting:
            return
        begin, end = span[0] + self.axis_zero, span[1] + self.axis_zero
        self._span = (begin, end)
        self.draw()
        self.span_moved.emit(begin, end)

    def _take_lines_out(self) -> None:
        for line in (*self.cursor_lines[0], *self.cursor_lines[1], *self._moment_lines):
            line.getViewBox().removeItem(line)
        self.cursor_lines, self._moment_lines = [[], []], []

    def _draw_cursors(self) -> None:
        self._take_lines_out()
        colours = palette.current()
        for number, at in enumerate(self._cursor_at):
            if at is None:
                continue
            for place, pane in enumerate(self.panes):
                style = Qt.PenStyle.SolidLine if number == 0 else Qt.PenStyle.DashLine
                line = pg.InfiniteLine(
                    at - self.axis_zero,
                    angle=90,
                    movable=True,
                    pen=pg.mkPen(colours.accent, width=1.5, style=style),
                    hoverPen=pg.mkPen(colours.accent, width=3),
                    label="AB"[number] if place == 0 else None,
                    labelOpts={"position": 0.85, "color": colours.on_accent, "fill": colours.accent},
                )
                line.sigPositionChanged.connect(lambda moved, number=number: self._cursor_dragged(number, moved))
                pane.addItem(line, ignoreBounds=True)
                self.cursor_lines[number].append(line)
        if self._moment is not None:
            for pane in self.panes:
                line = pg.InfiniteLine(
                    self._moment - self.axis_zero,
                    angle=90,
                    pen=pg.mkPen(colours.ink, width=1, style=Qt.PenStyle.DotLine),
                )
                pane.addItem(line, ignoreBounds=True)
                self._moment_lines.append(line)

    def _cursor_dragged(self, number: int, moved: Any) -> None:
        at = float(moved.value()) + self.axis_zero
        if self._cursor_at[number] == at:
            return
        self._cursor_at[number] = at
        for line in self.cursor_lines[number]:
            if line is not moved:
                line.blockSignals(True)
                line.setValue(at - self.axis_zero)
                line.blockSignals(False)
        self.cursors_moved.emit()

    # Events

    def _click(self, event: Any) -> None:
        if not event.double() or not self.panes:
            return
        for pane in self.panes:
            box = pane.getViewBox()
            if box.sceneBoundingRect().contains(event.scenePos()):
                self.moment_chosen.emit(float(box.mapSceneToView(event.scenePos()).x()) + self.axis_zero)
                return

    def _recolour(self) -> None:
        colours = palette.current()
        self.setBackground(QColor(colours.base))
        for pane in self.panes:
            pane.getViewBox().setBorder(pg.mkPen(colours.line))
            for axis in (pane.getAxis("bottom"), pane.getAxis("left")):
                axis.setPen(colours.line)
                axis.setTextPen(colours.ink)
        for name, (curve, _) in self.curves.items():
            curve.setPen(pen(self._names.index(name), dark=colours.dark))
        self._draw_cursors()

    def changeEvent(self, event: QEvent) -> None:
        """Follow a change of the palette, with the panes that are there.

        Panes own menus, which are windows to Qt: taken down here, in the middle of Qt's own walk over all widgets,
        they would end the process.
        """
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange and hasattr(self, "panes"):
            self._recolour()

    def showEvent(self, event: Any) -> None:
        """Nothing is drawn while hidden; catch up."""
        super().showEvent(event)
        self.draw()

    def resizeEvent(self, event: Any) -> None:
        super().resizeEvent(event)
        if hasattr(self, "curves"):
            self.draw()
