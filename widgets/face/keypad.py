"""The keys of the panel face: real buttons with legends of our own, and how keys of a keyboard stand for them."""

from __future__ import annotations

from collections.abc import Iterable
from math import ceil
from typing import Final

from PySide6.QtCore import QCoreApplication, QEvent, QPoint, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QContextMenuEvent,
    QFont,
    QFontMetrics,
    QKeyEvent,
    QKeySequence,
    QPainter,
    QPaintEvent,
    QPen,
    QPolygonF,
)
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from widgets.face.colours import LIGHT, FaceColours, upright
from widgets.kit.plain import plain_tip
from widgets.kit.scaling import scaled

translate = QCoreApplication.translate
ROUND: Final = 6.0
"""Radius of the corners of a key, in pixels."""
ARROWS: Final = ("left", "right", "up", "down")
HEIGHTS: Final = {True: 36, False: 24}
APART: Final = {True: 8, False: 4}
"""The height of a key and the room between keys in pixels at 100 per cent, where there is room and where not."""
RING: Final = 2
"""Pixels around a key that belong to it: the place of the ring that shows the focus."""
SAME_WIDTH: Final = 96
"""Pixels at 100 per cent up to which roomy keys, but for the arrows, are all as wide as the widest."""
BETWEEN: Final = 3
"""The column between the arrows and the others."""
BESIDE_ARROWS: Final = {True: 24, False: 8}
"""Its width in pixels at 100 per cent, where there is room and where not."""
_PRINTED: Final = {"escape": "ESC"}
_PLACES: Final = {"up": (0, 1), "left": (1, 0), "down": (1, 1), "right": (1, 2)}
_NAMED: Final = {
    "left": Qt.Key.Key_Left,
    "right": Qt.Key.Key_Right,
    "up": Qt.Key.Key_Up,
    "down": Qt.Key.Key_Down,
    "enter": Qt.Key.Key_Return,
    "escape": Qt.Key.Key_Escape,
    "home": Qt.Key.Key_Home,
    "end": Qt.Key.Key_End,
    "plus": Qt.Key.Key_Plus,
    "minus": Qt.Key.Key_Minus,
}


def key_legend(key: str) -> str:
    """What is printed on a key, and on its picture in lists: its name in capitals, whatever the window speaks."""
    return _PRINTED.get(key.lower()) or key.upper()


def key_words(key: str) -> str:
    """A common key in the language of the window, for who does not read what is printed; empty for all others."""
    words = {
        "left": translate("Keypad", "left arrow key"),
        "right": translate("Keypad", "right arrow key"),
        "up": translate("Keypad", "up arrow key"),
        "down": translate("Keypad", "down arrow key"),
        "enter": translate("Keypad", "enter key"),
        "escape": translate("Keypad", "escape key"),
        "stop": translate("Keypad", "stop key"),
        "start": translate("Keypad", "start key"),
        "reset": translate("Keypad", "reset key"),
    }
    return words.get(key.lower(), "")


def keyboard_map(keys: Iterable[str]) -> dict[Qt.Key, str]:
    """Which key of the keyboard stands for which key of the panel.

    Arrows, Enter and Escape stand for themselves, a key named by a letter, digit or sign for that character, F1 to F12
    for keys of that name; all others get the function keys that are left, in order. Keys past F12 have none.
    """
    keys = tuple(keys)
    found: dict[Qt.Key, str] = {}
    left_over: list[str] = []
    for name in keys:
        low = name.lower()
        key = _NAMED.get(low)
        if key is None and len(name) == 1 and name.isascii():
            key = Qt.Key(ord(name.upper()))
        if key is None and low[:1] == "f" and low[1:].isdecimal() and 1 <= int(low[1:]) <= 12:
            key = Qt.Key(Qt.Key.Key_F1.value + int(low[1:]) - 1)
        if key is None or key in found:
            left_over.append(name)
        else:
            found[key] = name
    free = (Qt.Key(Qt.Key.Key_F1.value + number) for number in range(12))
    for key in free:
        if left_over and key not in found:
            found[key] = left_over.pop(0)
    if Qt.Key.Key_Return in found:
        found.setdefault(Qt.Key.Key_Enter, found[Qt.Key.Key_Return])
    return found


class PanelKey(QAbstractButton):
    """One key of the panel. Space presses it while it has the focus; the other keys belong to the face."""

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.key = name
        self._colours = LIGHT
        self.marked = False
        """Whether it is the one that is talked about: it has a ring."""
        self.setText(name)
        self.setAccessibleName(self.tr("Key %s") % name)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def set_colours(self, colours: FaceColours) -> None:
        """Another set of colours."""
        self._colours = colours
        self.update()

    def sizeHint(self) -> QSize:
        return self.size_when(roomy=False)

    def size_when(self, *, roomy: bool) -> QSize:
        """The size of a roomy or of a compact key: by its legend, never by what the panel shows or does."""
        metrics = QFontMetrics(self._legend_font())
        height = max(metrics.height() + 4, scaled(HEIGHTS[roomy])) + 2 * RING
        width = height + scaled(10 if roomy else 2)
        if self.key not in ARROWS:
            width = max(width, metrics.horizontalAdvance(self.legend) + scaled(28 if roomy else 12) + 2 * RING)
        return QSize(width, height)

    @property
    def legend(self) -> str:
        """What is printed on the key."""
        return key_legend(self.key)

    def _legend_font(self) -> QFont:
        font = QFont(self.font())
        font.setWeight(QFont.Weight.DemiBold)
        font.setLetterSpacing(QFont.SpacingType.AbsoluteSpacing, 0.5)
        return font

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Space, Qt.Key.Key_Select):
            super().keyPressEvent(event)
        else:
            event.ignore()

    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Space, Qt.Key.Key_Select):
            super().keyReleaseEvent(event)
        else:
            event.ignore()

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: ARG002
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colours, down = self._colours, self.isDown()
        body = QRectF(self.rect()).adjusted(RING, RING, -RING, -RING)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colours.key_rim)
        painter.drawRoundedRect(body, ROUND, ROUND)  # its shadow: what the body above leaves of it
        top = body.adjusted(1, 2, -1, 0) if down else body.adjusted(0, 0, 0, -2)
        painter.setBrush(colours.key_down if down else upright(top, colours.key, colours.key_low))
        painter.drawRoundedRect(top, ROUND, ROUND)
        if self.hasFocus() or self.marked:
            painter.setPen(QPen(colours.lit, RING))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            half = RING / 2
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(half, half, -half, -half), ROUND + 1, ROUND + 1)
        ink = colours.key_ink if self.isEnabled() else colours.key_off
        if self.key in ARROWS:
            self._paint_arrow(painter, top.center(), ink)
        else:
            painter.setFont(self._legend_font())
            painter.setPen(ink)
            painter.drawText(top, Qt.AlignmentFlag.AlignCenter, self.legend)

    def _paint_arrow(self, painter: QPainter, centre: QPointF, ink: QColor) -> None:
        reach = self.height() * 0.15
        painter.save()
        painter.translate(centre)
        painter.rotate({"right": 0, "down": 90, "left": 180, "up": 270}[self.key])
        pen = QPen(ink, max(1.6, self.height() / 16))
        pen.setCapStyle(Qt.PenCapStyle.RoundCap)
        pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
        painter.setPen(pen)
        painter.drawPolyline(
            QPolygonF([QPointF(-reach / 2, -reach), QPointF(reach / 2, 0), QPointF(-reach / 2, reach)])
        )
        painter.restore()


class KeyPad(QWidget):
    """All keys of a panel: the arrows as a cluster, the others beside it."""

    key_pressed = Signal(str)
    key_released = Signal(str)
    menu_wanted = Signal(str, QPoint)
    """A menu of this key is wanted, at a place on the screen."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._keys: tuple[str, ...] = ()
        self._colours = LIGHT
        self._cells: dict[str, tuple[int, int]] = {}
        self._measured: dict[bool, tuple[dict[int, int], int, int]] = {}
        self.buttons: dict[str, PanelKey] = {}

    @property
    def keys(self) -> tuple[str, ...]:
        """The names of the keys."""
        return self._keys

    def set_colours(self, colours: FaceColours) -> None:
        """Another set of colours."""
        self._colours = colours
        for button in self.buttons.values():
            button.set_colours(colours)

    def set_keys(self, keys: Iterable[str]) -> None:
        """Other keys. A key that is held is released first."""
        keys = tuple(dict.fromkeys(keys))
        if keys == self._keys:
            return
        for button in self.buttons.values():
            if button.isDown():
                self.key_released.emit(button.key)
            button.hide()
            button.deleteLater()
        self._keys = keys
        self._cells = _cells(keys)
        self._measured.clear()
        self._make()

    def _make(self) -> None:
        keyboard = {name: key for key, name in reversed(keyboard_map(self._keys).items())}
        self.buttons = {}
        for name in self._keys:
            button = PanelKey(name, self)
            button.set_colours(self._colours)
            lines = [key_words(name)]
            if name in keyboard:
                shown = QKeySequence(keyboard[name]).toString(QKeySequence.SequenceFormat.NativeText)
                lines.append(self.tr("On the keyboard: %s") % shown)
            button.setToolTip(plain_tip("\n".join(filter(None, lines))))
            button.pressed.connect(lambda name=name: self.key_pressed.emit(name))
            button.released.connect(lambda name=name: self.key_released.emit(name))
            self.buttons[name] = button
            button.show()

    def mark_key(self, name: str) -> None:
        """Put a ring around this key, and around no other; empty: around none."""
        for key, button in self.buttons.items():
            if button.marked != (key == name):
                button.marked = key == name
                button.update()

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        key = self.childAt(event.pos())
        if isinstance(key, PanelKey):
            self.menu_wanted.emit(key.key, event.globalPos())

    def sizeHint(self) -> QSize:
        return self.size_when(roomy=True)

    def size_when(self, *, roomy: bool) -> QSize:
        """The size of all keys together: high and well apart, or low and close together."""
        widths, height, gap = self._measure(roomy=roomy)
        rows = 1 + max((row for row, _column in self._cells.values()), default=-1)
        return QSize(sum(widths.values()) + gap * max(0, len(widths) - 1), rows * height + gap * max(0, rows - 1))

    def arrange(self, *, roomy: bool) -> None:
        """Place the keys, from the upper left corner."""
        widths, height, gap = self._measure(roomy=roomy)
        for name, (row, column) in self._cells.items():
            left = sum(width + gap for other, width in widths.items() if other < column)
            size = self.buttons[name].size_when(roomy=roomy)
            width = size.width() if name in ARROWS else widths[column]
            self.buttons[name].setGeometry(left + (widths[column] - width) // 2, row * (height + gap), width, height)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.FontChange, QEvent.Type.StyleChange):
            self._measured.clear()

    def _measure(self, *, roomy: bool) -> tuple[dict[int, int], int, int]:
        """The width of each column, the height of all rows and the gap between keys, in pixels."""
        # Asked for at every step of the search for the largest glass that fits.
        if roomy not in self._measured:
            self._measured[roomy] = self._measure_anew(roomy=roomy)
        return self._measured[roomy]

    def _measure_anew(self, *, roomy: bool) -> tuple[dict[int, int], int, int]:
        widths: dict[int, int] = {}
        height = 0
        for name, (_row, column) in self._cells.items():
            size = self.buttons[name].size_when(roomy=roomy)
            widths[column] = max(widths.get(column, 0), size.width())
            height = max(height, size.height())
        others = {column: width for column, width in widths.items() if column > BETWEEN}
        widest = max(others.values(), default=0)
        if roomy and widest <= scaled(SAME_WIDTH):
            widths.update(dict.fromkeys(others, widest))
        if len({name in ARROWS for name in self._cells}) == 2:
            widths[BETWEEN] = scaled(BESIDE_ARROWS[roomy])
        return widths, height, scaled(APART[roomy]) - 2 * RING

    def keys_down(self) -> tuple[str, ...]:
        """The keys that are down by the mouse or the space bar."""
        return tuple(name for name, button in self.buttons.items() if button.isDown())

    def release_all(self) -> None:
        """Let go of every key that is down."""
        for name in self.keys_down():
            self.buttons[name].setDown(False)
            self.key_released.emit(name)


def _cells(keys: tuple[str, ...]) -> dict[str, tuple[int, int]]:
    """The row and the column of each key: the arrows as a cluster, the others in two rows beside it."""
    arrows = [name for name in keys if name in ARROWS]
    others = [name for name in keys if name not in ARROWS]
    across = max(1, min(8, ceil(len(others) / 2)))
    upright = bool({"up", "down"} & set(arrows))
    two_rows = len(others) > across
    cells: dict[str, tuple[int, int]] = {}
    for name in arrows:
        row, column = _PLACES[name]
        cells[name] = (row if upright else int(two_rows), column)
    for number, name in enumerate(others):
        row, column = divmod(number, across)
        cells[name] = (row if two_rows or not upright else 1, column + BETWEEN + 1)
    highest = min((row for row, _column in cells.values()), default=0)
    return {name: (row - highest, column) for name, (row, column) in cells.items()}
