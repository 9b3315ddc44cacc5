"""What stands above and below the lanes of a trend: cursors to take hold of and alarms as flags; the times."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QDate, QEvent, QLocale, QPoint, QPointF, QRect, QRectF, Qt, Signal
from PySide6.QtGui import QHelpEvent, QMouseEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QToolTip, QWidget

from app.language import with_mark
from widgets.kit import palette
from widgets.kit.icons import paint_icon
from widgets.kit.plain import plain_tip
from widgets.kit.scaling import scaled
from widgets.start_up.trend_plot import Cursor, Flag, TrendPlot

HANDLE: Final = (16, 18)
"""Width and height of the handle of a cursor, in pixels at 100 per cent."""
FLAG: Final = 14
"""Side of the sign of an alarm, in pixels at 100 per cent."""
FLAG_WORDS: Final = 110
"""Pixels at 100 per cent that the words of an alarm may take."""
GRASP: Final = 12
"""Pixels at 100 per cent on either side of a handle or a sign that a pointer may be on: 24 together."""
SHORT: Final = QLocale.FormatType.ShortFormat


class TrendHead(QWidget):
    """Above the lanes. Its left edge is theirs."""

    moment_chosen = Signal(float)
    """Somebody clicked on an alarm: its time."""

    def __init__(self, plot: TrendPlot, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._plot = plot
        self._held: Cursor | None = None
        self.setMouseTracking(True)
        plot.moved_on.connect(self.update)

    def time_between(self) -> str:
        """The time between the two cursors, as it stands between their handles; empty if both are not there."""
        first, second = self._plot.cursors
        if first is None or second is None:
            return ""
        return self.tr("{seconds} s").format(seconds=with_mark(f"{abs(second - first):.3f}"))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter, colours = QPainter(self), palette.current()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), colours.colour("pane"))
        painter.fillRect(0, self.height() - 1, self.width(), 1, colours.colour("line"))
        places = {
            cursor: self._plot.x_of(at)
            for cursor, at in zip(Cursor, self._plot.cursors, strict=True)
            if at is not None and self._in_sight(at)
        }
        taken = [QRectF(x - scaled(HANDLE[0]) / 2, 0, scaled(HANDLE[0]), self.height()) for x in places.values()]
        words = self.time_between()
        wide = painter.fontMetrics().horizontalAdvance(words) + scaled(8)
        if words and len(places) == len(Cursor):
            left, right = sorted(places.values())
            if right - left > wide + scaled(HANDLE[0]):
                painter.setPen(colours.colour("accent"))
                between = QRectF((left + right - wide) / 2, 0, wide, self.height())
                painter.drawText(between, Qt.AlignmentFlag.AlignCenter, words)
                taken.append(between)
        for flag in self._plot.flags:
            if self._in_sight(flag.at):
                self._draw_flag(painter, flag, taken)
        for cursor, x in places.items():
            self._draw_handle(painter, cursor, x)

    def _in_sight(self, at: float) -> bool:
        begin, end = self._plot.span
        return begin <= at <= end

    def _draw_handle(self, painter: QPainter, cursor: Cursor, x: float) -> None:
        colours, (width, height) = palette.current(), map(scaled, HANDLE)
        body = QRectF(x - width / 2, self.height() - 1 - height, width, height)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colours.colour("accent"))
        painter.drawRoundedRect(body, 4, 4)
        painter.setPen(colours.colour("on_accent"))
        painter.drawText(body, Qt.AlignmentFlag.AlignCenter, cursor.name)

    def _draw_flag(self, painter: QPainter, flag: Flag, taken: list[QRectF]) -> None:
        """An octagon over the dashed line, with its words where nothing else stands."""
        colours, x, side = palette.current(), self._plot.x_of(flag.at), scaled(FLAG)
        middle = QPointF(x, (self.height() - 1) / 2)
        sign = QRectF(x - side / 2, middle.y() - side / 2, side, side)
        if any(sign.intersects(other) for other in taken):
            return  # its line is there; of several alarms at once the first one has the sign
        paint_icon(painter, "state-alarm", "fault", sign.toRect())
        taken.append(sign)
        words = painter.fontMetrics().elidedText(flag.words, Qt.TextElideMode.ElideRight, scaled(FLAG_WORDS))
        wide = painter.fontMetrics().horizontalAdvance(words)
        for left in (sign.right() + scaled(4), sign.left() - scaled(4) - wide):
            room = QRectF(left, 0, wide, self.height() - 1)
            if room.right() < self.width() and not any(room.intersects(other) for other in taken):
                painter.setPen(colours.colour("fault"))
                painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, words)
                taken.append(room)
                return

    # The mouse

    def _cursor(self, x: float) -> Cursor | None:
        near = [
            (abs(self._plot.x_of(at) - x), cursor)
            for cursor, at in zip(Cursor, self._plot.cursors, strict=True)
            if at is not None and abs(self._plot.x_of(at) - x) <= scaled(GRASP)
        ]
        return min(near)[1] if near else None

    def _flag(self, x: float) -> Flag | None:
        near = [(abs(self._plot.x_of(flag.at) - x), flag) for flag in self._plot.flags if self._in_sight(flag.at)]
        distance, flag = min(near, key=lambda found: found[0], default=(scaled(GRASP) + 1, None))
        return flag if distance <= scaled(GRASP) else None

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take hold of a cursor, or go to an alarm."""
        if event.button() != Qt.MouseButton.LeftButton:
            return
        self._held = self._cursor(event.position().x())
        flag = self._flag(event.position().x())
        if self._held is None and flag is not None:
            self.moment_chosen.emit(flag.at)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        x = event.position().x()
        if self._held is not None:
            self._plot.set_cursor(self._held, self._plot.time_at(x))
            return
        on_cursor, on_flag = self._cursor(x) is not None, self._flag(x) is not None
        shapes = Qt.CursorShape
        self.setCursor(
            shapes.SplitHCursor if on_cursor else shapes.PointingHandCursor if on_flag else shapes.ArrowCursor
        )

    def mouseReleaseEvent(self, _event: QMouseEvent) -> None:
        self._held = None

    def event(self, event: QEvent) -> bool:
        """The words of an alarm are its tool tip."""
        if event.type() == QEvent.Type.ToolTip and isinstance(event, QHelpEvent):
            flag = self._flag(event.pos().x())
            QToolTip.showText(event.globalPos() if flag else QPoint(), plain_tip(flag.words) if flag else "", self)
            return True
        return super().event(event)


class TimeScale(QWidget):
    """Below the lanes, and always in sight however they are scrolled: the civil times of their marks."""

    def __init__(self, plot: TrendPlot, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._plot = plot
        plot.moved_on.connect(self.update)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter, colours = QPainter(self), palette.current()
        painter.fillRect(self.rect(), colours.colour("base"))
        painter.setPen(colours.colour("faint"))
        for mark in self._plot.marks():
            words = mark.text or self.locale().toString(QDate(mark.civil.year, mark.civil.month, mark.civil.day), SHORT)
            wide = painter.fontMetrics().horizontalAdvance(words)
            left = min(round(self._plot.x_of(mark.at) - wide / 2), self.width() - wide)
            painter.drawText(QRect(left, 0, wide + 1, self.height()), Qt.AlignmentFlag.AlignVCenter, words)
