"""Tabs, bars that scroll, slide or show progress, and the lines between panes."""

from __future__ import annotations

from typing import Any, Final

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QIcon, QPainter
from PySide6.QtWidgets import QStyle, QStyleOptionSlider, QStyleOptionTab, QTabBar, QWidget

from widgets.kit.drawn.boxes import CLEAR, paint_box, paint_ring
from widgets.kit.palette import Colours
from widgets.kit.scaling import scaled

_State = QStyle.StateFlag
_Sub = QStyle.SubControl
UNDERLINE: Final = 3
"""Pixels of the line below the tab that is chosen."""
NOWHERE: Final = "nowhere"
"""Dynamic property of tabs of which none is in front, though Qt always holds one for the chosen one."""
SCROLL: Final = 12
"""Pixels at 100 per cent across a scroll bar, and the room beside its handle."""
BESIDE: Final = 3
LEAST_HANDLE: Final = 32


def paint_tab(option: QStyleOptionTab, painter: QPainter, widget: QWidget | None, colours: Colours) -> None:
    """A tab: its icon and its text, with a line below it if it is the one."""
    state: Any = option.state
    chosen, usable = state & _State.State_Selected, state & _State.State_Enabled
    if widget is not None and widget.property(NOWHERE):
        chosen = _State.State_None
    rect: QRect = option.rect
    if state & _State.State_MouseOver and usable and not chosen:
        painter.fillRect(rect, colours.colour("hover"))
    ink = "off" if not usable else "accent" if chosen else "ink" if state & _State.State_MouseOver else "faint"
    gap = scaled(6)
    metrics = painter.fontMetrics()
    text = option.text
    bar = widget if isinstance(widget, QTabBar) else None
    icon: QIcon = option.icon
    wide = 0 if icon.isNull() else option.iconSize.width()
    room = rect.adjusted(scaled(6), 0, -scaled(6), 0)
    flags = Qt.TextFlag.TextShowMnemonic
    whole = metrics.size(flags, text).width() + (wide + gap if wide else 0)
    at = room.left() + max(0, (room.width() - whole) // 2)
    if wide:
        mode = QIcon.Mode.Normal if usable else QIcon.Mode.Disabled
        icon.paint(painter, QRect(at, rect.top(), wide, rect.height()), Qt.AlignmentFlag.AlignCenter, mode)
        at += wide + gap
    if bar is not None:
        text = metrics.elidedText(text, bar.elideMode(), room.right() + 1 - at, flags)
    painter.setPen(colours.colour(ink))
    place = QRect(at, rect.top(), room.right() + 1 - at, rect.height() - UNDERLINE)
    painter.drawText(place, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter | flags, text)
    if chosen and usable:  # while nothing can be gone to, nothing is in front
        underline(painter, rect, colours)
    if state & _State.State_HasFocus:
        paint_ring(painter, rect)


def underline(painter: QPainter, rect: QRect, colours: Colours) -> None:
    """The line below the tab that is chosen."""
    high = scaled(UNDERLINE)
    painter.fillRect(rect.left(), rect.bottom() + 1 - high, rect.width(), high, colours.colour("accent"))


def paint_base(option: Any, painter: QPainter, _widget: QWidget | None, colours: Colours) -> None:
    """The hairline that tabs stand on."""
    painter.fillRect(option.rect.left(), option.rect.bottom(), option.rect.width(), 1, colours.colour("line"))


def paint_nothing(option: Any, painter: QPainter, widget: QWidget | None, colours: Colours) -> None:
    """No frame."""


def paint_between(option: Any, painter: QPainter, _widget: QWidget | None, colours: Colours) -> None:
    """The line between two panes, in the middle of what can be dragged."""
    rect: QRect = option.rect
    if rect.width() < rect.height():
        painter.fillRect(rect.center().x(), rect.top(), 1, rect.height(), colours.colour("line"))
    else:
        painter.fillRect(rect.left(), rect.center().y(), rect.width(), 1, colours.colour("line"))


# Scroll bars


def scroll_part(option: QStyleOptionSlider, part: QStyle.SubControl) -> QRect:
    """Where a part of a scroll bar is: a handle in a groove, and no arrows at the ends."""
    bar: Any = option
    rect: QRect = bar.rect
    upright = bar.orientation == Qt.Orientation.Vertical
    long = rect.height() if upright else rect.width()
    span = bar.maximum - bar.minimum
    handle = long if span <= 0 else max(min(scaled(LEAST_HANDLE), long), long * bar.pageStep // (span + bar.pageStep))
    start = QStyle.sliderPositionFromValue(bar.minimum, bar.maximum, bar.sliderPosition, long - handle, bar.upsideDown)
    along = {
        _Sub.SC_ScrollBarGroove: (0, long),
        _Sub.SC_ScrollBarSlider: (start, handle),
        _Sub.SC_ScrollBarSubPage: (0, start),
        _Sub.SC_ScrollBarAddPage: (start + handle, long - start - handle),
    }.get(part)
    if along is None:
        return QRect()
    if upright:
        return QRect(rect.left(), rect.top() + along[0], rect.width(), along[1])
    return QRect(rect.left() + along[0], rect.top(), along[1], rect.height())


def paint_scroll_bar(option: Any, painter: QPainter, handle: QRect, colours: Colours) -> None:
    """A slim handle on plain ground."""
    painter.fillRect(option.rect, colours.colour("pane"))
    if option.maximum <= option.minimum:
        return
    beside = scaled(BESIDE)
    held = option.state & _State.State_Sunken and option.activeSubControls & _Sub.SC_ScrollBarSlider
    over = option.state & _State.State_MouseOver and option.activeSubControls & _Sub.SC_ScrollBarSlider
    ink = colours.colour("ink" if held else "faint" if over else "edge")
    upright = option.orientation == Qt.Orientation.Vertical
    body = handle.adjusted(beside, 2, -beside, -2) if upright else handle.adjusted(2, beside, -2, -beside)
    paint_box(painter, body, CLEAR, ink, thick=0, radius=min(body.width(), body.height()) / 2)


# Progress and sliders


def paint_groove(option: Any, painter: QPainter, _widget: QWidget | None, colours: Colours) -> None:
    """Where progress is shown."""
    paint_box(painter, option.rect, colours.colour("edge"), colours.colour("base"))


def paint_progress(option: Any, painter: QPainter, _widget: QWidget | None, colours: Colours) -> None:
    """The part that is done; where nobody knows how much that is, all of it in the ground of what is on."""
    span = option.maximum - option.minimum
    done = QRect(option.rect)
    if span > 0:
        done.setWidth(done.width() * (option.progress - option.minimum) // span)
    if done.width() > 2:
        paint_box(painter, done, CLEAR, colours.colour("accent" if span > 0 else "soft"), thick=0)


def paint_slider(option: Any, painter: QPainter, handle: QRect, colours: Colours) -> None:
    """A line, the part before the handle in the accent, and the handle."""
    usable = option.state & _State.State_Enabled
    rect, middle = option.rect, handle.center()
    flat = option.orientation == Qt.Orientation.Horizontal
    thick = scaled(4)
    line, done = QRect(rect), QRect(rect)
    if flat:
        line = QRect(rect.left(), middle.y() - thick // 2 + 1, rect.width(), thick)
        done = QRect(line)
        done.setRight(middle.x())
    else:
        line = QRect(middle.x() - thick // 2 + 1, rect.top(), thick, rect.height())
        done = QRect(line)
        done.setTop(middle.y())
    paint_box(painter, line, CLEAR, colours.colour("edge" if usable else "line"), thick=0, radius=thick / 2)
    if usable:
        paint_box(painter, done, CLEAR, colours.colour("accent"), thick=0, radius=thick / 2)
    side = min(handle.width(), handle.height())
    knob = QRect(0, 0, side, side)
    knob.moveCenter(middle)
    focused = option.state & _State.State_HasFocus
    edge = "line" if not usable else "accent" if focused else "edge"
    paint_box(
        painter,
        knob,
        colours.colour(edge),
        colours.colour("raised" if usable else "pane"),
        thick=2.0 if focused else 1.0,
        radius=side / 2,
    )
