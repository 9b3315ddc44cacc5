"""Icons of one hand from `resources/icons`, in the window's colours of the moment, and the buttons that carry them.

A file draws on 16 x 16 with lines of 1.6. In it `currentColor` stands for the colour that is asked for, `#ground` for
what is written in a filled shape.
"""

from __future__ import annotations

from functools import cache, lru_cache
from importlib import resources
from typing import Final

from PySide6.QtCore import QRect, QRectF, QSize, Qt
from PySide6.QtGui import QIcon, QIconEngine, QPainter, QPixmap
from PySide6.QtSvg import QSvgRenderer
from PySide6.QtWidgets import QToolButton, QWidget

from widgets.kit import palette
from widgets.kit.scaling import scaled

SIDE: Final = 16
"""Of an icon, in pixels at 100 per cent."""
PROGRAM_SIDES: Final = (16, 20, 24, 32, 40, 48, 64, 96, 128, 256)
"""Of the icon of the program, in pixels."""
SMALL: Final = 24
"""Pixels up to which it has fewer parts."""
STATES: Final = {
    "good": "good",
    "caution": "caution",
    "alarm": "fault",
    "note": "faint",
    "simulated": "sim",
    "asks": "accent",
    "running": "accent",
    "off": "faint",
    "unread": "off",
}
"""The states that have an icon, each of a shape of its own, and the colour of each."""


@cache
def _source(name: str) -> str:
    return (resources.files("resources") / "icons" / f"{name}.svg").read_text("utf-8")


@lru_cache(1024)
def _picture(name: str, colour: str, ground: str, width: int, height: int) -> QPixmap:
    """An icon in the middle of so many pixels, its colours as `#rrggbb`."""
    picture = QPixmap(width, height)
    picture.fill(Qt.GlobalColor.transparent)
    drawing = _source(name).replace("currentColor", colour).replace("#ground", ground)
    side = min(width, height)
    painter = QPainter(picture)
    QSvgRenderer(drawing.encode()).render(painter, QRectF((width - side) / 2, (height - side) / 2, side, side))
    painter.end()
    return picture


class _Engine(QIconEngine):
    """Looks its colour up whenever it is painted, so that a change of palette only paints."""

    def __init__(self, name: str, colour: str) -> None:
        super().__init__()
        self._name, self._colour = name, colour

    def scaledPixmap(self, size: QSize, mode: QIcon.Mode, state: QIcon.State, scale: float) -> QPixmap:  # noqa: ARG002
        colours = palette.current()
        colour = "off" if mode is QIcon.Mode.Disabled else self._colour
        return _picture(self._name, getattr(colours, colour), colours.base, size.width(), size.height())

    def pixmap(self, size: QSize, mode: QIcon.Mode, state: QIcon.State) -> QPixmap:
        return self.scaledPixmap(size, mode, state, 1.0)

    def paint(self, painter: QPainter, rect: QRect, mode: QIcon.Mode, state: QIcon.State) -> None:
        device = painter.device()
        ratio = device.devicePixelRatio() if device is not None else 1.0
        picture = self.scaledPixmap(rect.size() * ratio, mode, state, ratio)
        painter.drawPixmap(rect, picture, picture.rect())

    def clone(self) -> QIconEngine:
        return _Engine(self._name, self._colour)


def icon(name: str, colour: str = "ink") -> QIcon:
    """An icon by the name of its file, in one of the window's colours; disabled it is drawn in `off`.

    Raises FileNotFoundError at once, and not as late as it is painted, if there is none of this name.
    """
    _source(name)
    return QIcon(_Engine(name, colour))


def state_icon(state: str, *, none: bool = False) -> QIcon:
    """The icon of one of STATES, in its colour; in `off` where `none` is in that state."""
    return icon(f"state-{state}", "off" if none else STATES[state])


def paint_icon(painter: QPainter, name: str, colour: str, place: QRect) -> None:
    """Paint an icon, as large as it fits, into the middle of a place."""
    side = min(place.width(), place.height())
    square = QRect(0, 0, side, side)
    square.moveCenter(place.center())
    icon(name, colour).paint(painter, square)


def program_picture(side: int) -> QPixmap:
    """The icon of the program, so many pixels wide and high; small ones have fewer parts."""
    picture = QPixmap(side, side)
    picture.fill(Qt.GlobalColor.transparent)
    painter = QPainter(picture)
    QSvgRenderer(_source("fanlight-small" if side <= SMALL else "fanlight").encode()).render(painter)
    painter.end()
    return picture


def program_icon() -> QIcon:
    """The icon of the program in all sizes that windows, task bars and switchers ask for."""
    shown = QIcon()
    for side in PROGRAM_SIDES:
        shown.addPixmap(program_picture(side))
    return shown


def tool(picture: QIcon | str, name: str, parent: QWidget, tip: str = "") -> QToolButton:
    """A flat button with an icon (or the name of one) and a spoken name."""
    button = QToolButton(parent)
    button.setIcon(icon(picture) if isinstance(picture, str) else picture)
    button.setIconSize(QSize(scaled(SIDE), scaled(SIDE)))
    button.setAutoRaise(True)
    button.setToolTip(tip or name)
    button.setAccessibleName(name)
    button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
    return button
