"""What can be filled in: lines, numbers, choices, texts of several lines."""

from __future__ import annotations

from typing import Any, Final

from PySide6.QtCore import QRect
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QComboBox, QPlainTextEdit, QStyle, QTextEdit, QWidget

from widgets.kit.drawn.boxes import CLEAR, DOWNWARDS, RING, paint_box, paint_stroke, square_in
from widgets.kit.drawn.buttons import look_of
from widgets.kit.icons import SIDE, paint_icon
from widgets.kit.palette import Colours
from widgets.kit.scaling import scaled

_State = QStyle.StateFlag
BESIDE_SIGN: Final = 20
"""Pixels at 100 per cent that the sign of what is wrong takes from the text."""


def paint_entry(option: Any, painter: QPainter, widget: QWidget | None, colours: Colours) -> None:
    """The ground of a line that can be filled in; without a frame it is part of something that has one."""
    if not option.lineWidth:
        painter.fillRect(option.rect, colours.colour("base" if option.state & _State.State_Enabled else "pane"))
    else:
        _outlined(option, painter, widget, colours, ground="base")


def paint_number(option: Any, painter: QPainter, widget: QWidget | None, colours: Colours) -> None:
    """A number: the same ground, outline and height as a line."""
    _outlined(option, painter, widget, colours, ground="base")


def paint_choice(option: Any, arrow: QRect, painter: QPainter, widget: QWidget | None, colours: Colours) -> None:
    """The ground of what opens a list of choices, and its arrow."""
    over = option.state & _State.State_MouseOver
    _outlined(option, painter, widget, colours, ground="base" if option.editable else "hover" if over else "raised")
    usable = option.state & _State.State_Enabled
    paint_stroke(painter, square_in(arrow, scaled(11)), DOWNWARDS, colours.colour("ink" if usable else "off"))


def paint_around(option: Any, painter: QPainter, widget: QWidget | None, colours: Colours) -> None:
    """The edge around lists and tables, which is a hairline, and around texts of several lines, which are filled in."""
    if isinstance(widget, QPlainTextEdit | QTextEdit):
        _outlined(option, painter, widget, colours, ground="", focused=widget.hasFocus())
    else:
        edge = option.rect.adjusted(0, 0, -1, -1)
        painter.save()
        painter.setPen(colours.colour("line"))
        painter.drawRect(edge)
        painter.restore()


def _outlined(
    option: Any, painter: QPainter, widget: QWidget | None, colours: Colours, *, ground: str, focused: bool = False
) -> None:
    usable, wrong = option.state & _State.State_Enabled, look_of(widget) == "wrong"
    focused = focused or bool(option.state & _State.State_HasFocus) or look_of(widget) == "cell"
    edge = "fault" if wrong else "line" if not usable else "accent" if focused else "edge"
    inside = (colours.colour(ground) if usable else colours.colour("pane")) if ground else CLEAR
    paint_box(painter, option.rect, colours.colour(edge), inside, thick=RING if wrong or focused else 1.0)
    if wrong and not isinstance(widget, QPlainTextEdit | QTextEdit):
        place = QRect(option.rect.left() + scaled(6), option.rect.top(), scaled(SIDE - 2), option.rect.height())
        paint_icon(painter, "state-alarm", "fault", place)


def beside_sign(widget: QWidget | None) -> int:
    """Pixels that the text of a choice stands further to the right."""
    wrong = isinstance(widget, QComboBox) and look_of(widget) == "wrong"
    return scaled(BESIDE_SIGN if wrong else 3)
