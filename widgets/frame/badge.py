"""The badge of arming: the loudest thing in the window whenever something can be written to a machine."""

from __future__ import annotations

import enum
from typing import Final

from PySide6.QtCore import QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QAction, QColor, QFont, QFontInfo, QFontMetrics, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QToolButton, QWidget

from widgets.kit import palette
from widgets.kit.look import CONTROL
from widgets.kit.plain import plain_tip
from widgets.kit.scaling import air, line_height, scaled
from widgets.live.arming import WritePermission

WIDTH, HEIGHT = 344, 48
"""Of the badge, in pixels at 100 per cent, whatever it says: its left edge is the line of the right pane."""
STRIPE: Final = 4
"""Height of the line under the header, in pixels at 100 per cent."""
EDGE: Final = 12
"""Pixels at 100 per cent from the badge's right edge to its button, and between its parts."""
LARGE: Final = 1.23
"""Of ARMED: times the size of other texts."""
SPACED: Final = 1.2
"""Of ARMED: pixels between its letters."""
SMALL: Final = 0.92
"""Of the line below: times the size of other texts."""


class WriteState(enum.Enum):
    """What can be written, as the badge tells it."""

    NONE = enum.auto()
    SIMULATED = enum.auto()
    LOCKED = enum.auto()
    DISARMED = enum.auto()
    """It disarmed itself: only what stops is written."""
    ARMED = enum.auto()


def state_of(writing: WritePermission) -> WriteState:
    """How what may be written is told. As long as one line is armed, keys move a machine."""
    if not writing.live:
        return WriteState.NONE
    if writing.simulated:
        return WriteState.SIMULATED
    if writing.armed:
        return WriteState.ARMED
    return WriteState.DISARMED if writing.disarmed else WriteState.LOCKED


_GROUNDS: Final = {
    WriteState.NONE: ("frame", "line", "ink"),
    WriteState.SIMULATED: ("sim_soft", "sim", "sim"),
    WriteState.LOCKED: ("caution_soft", "caution", "caution"),
    WriteState.DISARMED: ("caution_soft", "caution", "caution"),
    WriteState.ARMED: ("armed", "armed", "on_armed"),
}
"""The colours of each state: ground, left edge, and what is written."""


class ArmingBadge(QWidget):
    """Always in sight: whether Fanlight can write, to what, and the way to end that at once. One size in all states."""

    def __init__(self, arm: QAction, disarm: QAction, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._arm, self._disarm = arm, disarm
        self._state = WriteState.NONE
        self._title = self._sentence = ""
        self.button = BadgeButton(self)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setFixedSize(max(scaled(WIDTH), self.needed_width()), badge_height())
        self.show_writing(WritePermission())

    @property
    def state(self) -> WriteState:
        """What it tells."""
        return self._state

    @property
    def words(self) -> str:
        """What it says."""
        return f"{self._title}: {self._sentence}"

    def show_writing(self, writing: WritePermission) -> None:
        """Say this from now on."""
        state = self._state = state_of(writing)
        armed = state is WriteState.ARMED
        self._title, self._sentence = self._texts(state)
        lines = self.tr("Keys write to {lines}").format(lines=", ".join(writing.armed)) if armed else ""
        more = "\n".join(filter(None, (lines, writing.disarmed)))
        self.setToolTip(plain_tip(more or self.words))
        self.setAccessibleName(self.words)
        self.setAccessibleDescription(more)
        # The action that is no more the default one would stay behind as a menu of the button.
        self.button.removeAction(self._arm if armed else self._disarm)
        self.button.setDefaultAction(self._disarm if armed else self._arm)
        self.button.armed = armed
        self.button.setVisible(state in (WriteState.LOCKED, WriteState.DISARMED, WriteState.ARMED))
        self._place_button()
        self.update()

    def _texts(self, state: WriteState) -> tuple[str, str]:
        match state:
            case WriteState.NONE:
                return self.tr("Not connected"), self.tr("nothing can be written")
            case WriteState.SIMULATED:
                return self.tr("Simulated"), self.tr("nothing real can move")
            case WriteState.LOCKED:
                return self.tr("Real line, locked"), self.tr("reading only")
            case WriteState.DISARMED:
                return self.tr("Disarmed itself"), self.tr("only stops are written")
            case WriteState.ARMED:
                return self.tr("ARMED"), self.tr("keys move the machine")

    # Measures

    def needed_width(self) -> int:
        """Pixels within which nothing it can ever say is cut."""
        return max(self._needed(state) for state in WriteState)

    def _needed(self, state: WriteState) -> int:
        title, sentence = self._texts(state)
        words = max(
            QFontMetrics(self._title_font(state)).horizontalAdvance(title),
            QFontMetrics(self._small_font()).horizontalAdvance(sentence),
        )
        action = {WriteState.ARMED: self._disarm, WriteState.LOCKED: self._arm, WriteState.DISARMED: self._arm}.get(
            state
        )
        button = self.button.width_of(action.iconText()) + scaled(EDGE) if action is not None else 0
        return self._text_left(state) + words + scaled(EDGE) + button

    def _title_font(self, state: WriteState) -> QFont:
        font = QFont(self.font())
        if state is WriteState.ARMED:
            font.setWeight(QFont.Weight.Bold)
            font.setPointSizeF(LARGE * QFontInfo(font).pointSizeF())
            font.setLetterSpacing(QFont.SpacingType.AbsoluteSpacing, SPACED)
        else:
            font.setWeight(QFont.Weight.DemiBold)
        return font

    def _small_font(self) -> QFont:
        font = QFont(self.font())
        font.setPointSizeF(SMALL * QFontInfo(font).pointSizeF())
        return font

    @staticmethod
    def _text_left(state: WriteState) -> int:
        return scaled(50 if state is WriteState.ARMED else 44)

    def _place_button(self) -> None:
        size = self.button.sizeHint()
        self.button.setGeometry(
            QRect(self.width() - scaled(EDGE) - size.width(), (self.height() - size.height()) // 2, *size.toTuple())
        )

    # Painting

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Ground, left edge, shape, and two lines of words."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colours = palette.current()
        ground, edge, ink = (colours.colour(name) for name in _GROUNDS[self._state])
        painter.fillRect(self.rect(), ground)
        if self._state is WriteState.ARMED:
            draw_stripes(painter, QRect(0, 0, scaled(6), self.height()))
        else:
            painter.fillRect(0, 0, 1 if self._state is WriteState.NONE else scaled(4), self.height(), edge)
        side = scaled(26 if self._state is WriteState.ARMED else 16)
        box = QRect(0, 0, side, side)
        box.moveCenter(QPointF(scaled(26 if self._state is WriteState.ARMED else 24), self.height() / 2).toPoint())
        _SHAPES[self._state](painter, QRectF(box), ink, ground)
        title, small = self._title_font(self._state), self._small_font()
        above, below = QFontMetrics(title).height(), QFontMetrics(small).height()
        top = (self.height() - above - below) // 2
        left = self._text_left(self._state)
        painter.setPen(ink)
        painter.setFont(title)
        painter.drawText(QRect(left, top, self.width() - left, above), Qt.AlignmentFlag.AlignVCenter, self._title)
        painter.setPen(colours.colour("on_armed" if self._state is WriteState.ARMED else "faint"))
        painter.setFont(small)
        painter.drawText(
            QRect(left, top + above, self.width() - left, below), Qt.AlignmentFlag.AlignVCenter, self._sentence
        )


def badge_height() -> int:
    """Pixels of the badge, and of all that stands beside it."""
    return line_height(HEIGHT, lines=2)


class BadgeButton(QToolButton):
    """The button on the badge: a caution while it arms, solid while it disarms. It is never the primary one."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.armed = False
        """Whether it stands on the colour of arming."""
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.ArrowCursor)

    def width_of(self, text: str) -> int:
        """Pixels that it takes with this text."""
        return QFontMetrics(self._font()).horizontalAdvance(text) + 2 * scaled(14)

    def sizeHint(self) -> QSize:
        return QSize(self.width_of(self.text()), line_height(CONTROL))

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()

    def _font(self) -> QFont:
        font = QFont(self.font())
        font.setWeight(QFont.Weight.Bold if self.armed else QFont.Weight.DemiBold)
        return font

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colours = palette.current()
        ink = colours.colour("on_armed" if self.armed else "caution")
        ground = colours.colour("armed" if self.armed else "caution_soft")
        if self.isDown() or self.underMouse():
            ground = ground.darker(112) if self.isDown() else ground.lighter(106)
        thick = 3.0 if self.hasFocus() else 2.0 if self.armed else 1.0
        painter.setPen(QPen(ink, thick))
        painter.setBrush(ground)
        inset = thick / 2
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(inset, inset, -inset, -inset), 4, 4)
        painter.setPen(ink)
        painter.setFont(self._font())
        painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter, self.text())


class ArmingStripe(QWidget):
    """The line under the header: a hairline, and black and amber over the whole width while keys move a machine."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._armed = False
        self.setFixedHeight(air(STRIPE))

    @property
    def armed(self) -> bool:
        """Whether it is striped."""
        return self._armed

    def show_writing(self, writing: WritePermission) -> None:
        """Say this from now on."""
        armed = state_of(writing) is WriteState.ARMED
        if armed != self._armed:
            self._armed = armed
            self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        colours = palette.current()
        if self._armed:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            draw_stripes(painter, self.rect())
        else:
            painter.fillRect(self.rect(), colours.colour("frame"))
            painter.fillRect(0, self.height() - 1, self.width(), 1, colours.colour("line"))


def draw_stripes(painter: QPainter, rect: QRect) -> None:
    """Slanted stripes, black on amber, so that armed is seen without its colour too."""
    painter.save()
    painter.setClipRect(rect)
    painter.fillRect(rect, palette.current().colour("armed"))
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(palette.current().colour("on_armed"))
    pitch = scaled(16)
    slant = min(rect.width(), rect.height()) if rect.height() > rect.width() else rect.height()
    if rect.height() > rect.width():
        for top in range(rect.top() - slant, rect.bottom() + pitch, pitch):
            _stripe(painter, QPointF(rect.left(), top + slant), QPointF(rect.right() + 1, top), QPointF(0, pitch / 2))
    else:
        for left in range(rect.left() - slant, rect.right() + pitch, pitch):
            _stripe(painter, QPointF(left, rect.bottom() + 1), QPointF(left + slant, rect.top()), QPointF(pitch / 2, 0))
    painter.restore()


def _stripe(painter: QPainter, begin: QPointF, end: QPointF, thick: QPointF) -> None:
    painter.drawPolygon(QPolygonF([begin, end, end + thick, begin + thick]))


def _ring(painter: QPainter, box: QRectF, ink: QColor, _ground: QColor) -> None:
    painter.setPen(QPen(ink, scaled(2)))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawEllipse(box.adjusted(2, 2, -2, -2))


def _diamond(painter: QPainter, box: QRectF, ink: QColor, _ground: QColor) -> None:
    painter.setPen(QPen(ink, scaled(2)))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    middle = box.center()
    painter.drawPolygon(
        QPolygonF(
            [
                QPointF(middle.x(), box.top() + 1),
                QPointF(box.right() - 1, middle.y()),
                QPointF(middle.x(), box.bottom() - 1),
                QPointF(box.left() + 1, middle.y()),
            ]
        )
    )


def _lock(painter: QPainter, box: QRectF, ink: QColor, _ground: QColor) -> None:
    unit = box.width() / 16
    painter.setPen(QPen(ink, 2 * unit))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawArc(QRectF(box.left() + 4.5 * unit, box.top() + unit, 7 * unit, 9 * unit), 0, 180 * 16)
    painter.drawRoundedRect(
        QRectF(box.left() + 2 * unit, box.top() + 7 * unit, 12 * unit, 8 * unit), 1.5 * unit, 1.5 * unit
    )


def _triangle(painter: QPainter, box: QRectF, ink: QColor, ground: QColor) -> None:
    unit = box.width() / 26
    painter.setPen(QPen(ink, 2 * unit, j=Qt.PenJoinStyle.RoundJoin))
    painter.setBrush(ink)
    middle = box.center().x()
    painter.drawPolygon(
        QPolygonF(
            [
                QPointF(middle, box.top() + 2 * unit),
                QPointF(box.right() - unit, box.bottom() - 2 * unit),
                QPointF(box.left() + unit, box.bottom() - 2 * unit),
            ]
        )
    )
    painter.setPen(QPen(ground, 2.6 * unit, c=Qt.PenCapStyle.RoundCap))
    painter.drawLine(QPointF(middle, box.top() + 9 * unit), QPointF(middle, box.top() + 15.5 * unit))
    painter.drawPoint(QPointF(middle, box.top() + 20 * unit))


_SHAPES: Final = {
    WriteState.NONE: _ring,
    WriteState.SIMULATED: _diamond,
    WriteState.LOCKED: _lock,
    WriteState.DISARMED: _triangle,
    WriteState.ARMED: _triangle,
}
"""What stands before the words: colour tells nothing alone."""
