"""Buttons in their ranks, and boxes and rings that are ticked."""

from __future__ import annotations

from typing import Any, Final

from PySide6.QtCore import QPointF, QRect, QSize, Qt
from PySide6.QtGui import QColor, QIcon, QPainter, QPalette, QPixmap
from PySide6.QtWidgets import QAbstractButton, QCheckBox, QRadioButton, QStyle, QStyleOptionButton, QToolButton, QWidget

from widgets.kit.drawn.boxes import CLEAR, RING, ROUND, paint_box, paint_ring, paint_stroke, square_in
from widgets.kit.palette import Colours
from widgets.kit.scaling import scaled

_State = QStyle.StateFlag
_DEFAULT: Final = QStyleOptionButton.ButtonFeature.DefaultButton
_TICK: Final = ((0.22, 0.52), (0.42, 0.72), (0.78, 0.29))
_DASH: Final = ((0.25, 0.5), (0.75, 0.5))
SEGMENT: Final = "segment"
"""Dynamic property of a button that touches others: on which sides, LEFT_ALIKE and RIGHT_ALIKE added."""
GAP: Final = 6
"""Pixels at 100 per cent between an icon and its text."""
LEFT_ALIKE: Final = 1
RIGHT_ALIKE: Final = 2
_SELF_DRAWN: Final = ("primary", "caution")
"""Ranks whose text has another colour than ink."""


def look_of(widget: QWidget | None) -> str:
    """The look that a widget asked for; empty: the usual one."""
    return "" if widget is None else widget.property("look") or ""


def paint_button(option: Any, painter: QPainter, widget: QWidget | None, colours: Colours) -> None:
    """The ground of a button and its outline, by its rank and its state."""
    state, rank = option.state, look_of(widget)
    quiet = rank in ("quiet", "path") or bool(state & _State.State_AutoRaise)
    edge, ground = _colours_of(state, rank, quiet)
    if edge == "edge" and isinstance(option, QStyleOptionButton) and option.features & _DEFAULT:
        edge = "accent"
    place, focused = option.rect, bool(state & _State.State_HasFocus)
    if rank == "primary" and focused:
        place = place.adjusted(4, 4, -4, -4)
    inside = colours.colour(ground) if ground else CLEAR
    outline = colours.colour(edge) if edge else CLEAR
    if segment := int((widget.property(SEGMENT) if widget is not None else 0) or 0):
        _paint_segment(painter, place, outline, inside, segment, bool(state & _State.State_On))
    else:
        paint_box(painter, place, outline, inside)
    if focused:
        paint_ring(painter, option.rect)


def _paint_segment(painter: QPainter, place: QRect, edge: QColor, ground: QColor, segment: int, on: bool) -> None:
    """A button that touches others: straight where it does, with the line between them on the right one of two."""
    left, right = segment & LEFT_ALIKE, segment & RIGHT_ALIKE
    beyond = int(2 * ROUND)
    painter.save()
    painter.setClipRect(place)
    paint_box(painter, place.adjusted(-beyond if left else 0, 0, beyond if right else 0, 0), edge, ground)
    if left:
        painter.fillRect(place.left(), place.top(), 1, place.height(), edge)
    if right and on:
        painter.fillRect(place.right(), place.top(), 1, place.height(), edge)
    painter.restore()


def _colours_of(state: Any, rank: str, quiet: bool) -> tuple[str, str]:
    """The names of the colours of edge and ground; empty: none."""
    pressed, over, on = (bool(state & each) for each in (_State.State_Sunken, _State.State_MouseOver, _State.State_On))
    if not state & _State.State_Enabled:
        return ("", "") if quiet else ("line", "pane")
    if rank == "primary":
        return ("accent_hover", "accent_hover") if pressed or over else ("accent", "accent")
    if rank == "caution":
        return "caution", "line" if pressed else "hover" if over else "caution_soft"
    ground = "line" if pressed else "soft" if on else "hover" if over else "" if quiet else "raised"
    return "accent" if on else "" if quiet else "edge", ground


def prepare_label(option: Any, widget: QWidget | None, colours: Colours) -> None:
    """Let the text and the icon of a button be drawn in the colour of its rank."""
    rank = look_of(widget)
    if rank not in _SELF_DRAWN or not option.state & _State.State_Enabled:
        return
    ink = "on_accent" if rank == "primary" else "caution"
    option.palette.setColor(QPalette.ColorRole.ButtonText, colours.colour(ink))
    if not option.icon.isNull():
        ratio = widget.devicePixelRatioF() if widget is not None else 1.0
        option.icon = QIcon(_tinted(option.icon.pixmap(option.iconSize, ratio), colours, ink))


def has_both(option: Any) -> bool:
    """Whether a button shows an icon and, beside it, a text."""
    style = getattr(option, "toolButtonStyle", Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
    beside = style is Qt.ToolButtonStyle.ToolButtonTextBesideIcon
    return bool(option.text) and not option.icon.isNull() and beside


def paint_both(option: Any, painter: QPainter, widget: QWidget | None, style: QStyle) -> None:
    """Icon and text in the middle of a button. Qt leaves fewer pixels between them, and as many at every size."""
    usable = bool(option.state & _State.State_Enabled)
    shown = style.styleHint(QStyle.StyleHint.SH_UnderlineShortcut, option, widget)
    flags = int(Qt.TextFlag.TextShowMnemonic if shown else Qt.TextFlag.TextHideMnemonic)
    wide = painter.fontMetrics().size(flags, option.text).width()
    place, side, gap = QRect(option.rect), option.iconSize.width(), scaled(GAP)
    left = place.left() + max(0, (place.width() - side - gap - wide) // 2)
    mode, on = (QIcon.Mode.Normal if usable else QIcon.Mode.Disabled), option.state & _State.State_On
    square = QRect(left, place.top(), side, place.height())
    option.icon.paint(painter, square, Qt.AlignmentFlag.AlignCenter, mode, QIcon.State.On if on else QIcon.State.Off)
    place.setLeft(left + side + gap)
    alike = flags | int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
    style.drawItemText(painter, place, alike, option.palette, usable, option.text, QPalette.ColorRole.ButtonText)


def _tinted(picture: QPixmap, colours: Colours, ink: str) -> QPixmap:
    """The same shape in one colour."""
    painter = QPainter(picture)
    painter.setCompositionMode(QPainter.CompositionMode.CompositionMode_SourceIn)
    size = QSize(picture.deviceIndependentSize().toSize())
    painter.fillRect(0, 0, size.width(), size.height(), colours.colour(ink))
    painter.end()
    return picture


def paint_workspace(option: Any, painter: QPainter, _widget: QWidget | None, colours: Colours) -> None:
    """The ground of a button that is a tab: a line below it."""
    if option.state & _State.State_MouseOver and not option.state & _State.State_On:
        painter.fillRect(option.rect, colours.colour("hover"))


def paint_focus(option: Any, painter: QPainter, widget: QWidget | None, _colours: Colours) -> None:
    """What has the focus: a tick has an outline around its text, a tool around all of it; others show it elsewhere."""
    if isinstance(widget, QCheckBox | QRadioButton):
        if widget.text():
            paint_ring(painter, option.rect.adjusted(-4, -3, 4, 3) & widget.rect())
    elif isinstance(widget, QToolButton):
        paint_ring(painter, widget.rect())


def paint_tick(option: Any, painter: QPainter, widget: QWidget | None, colours: Colours) -> None:
    """A box to tick."""
    usable, on = option.state & _State.State_Enabled, option.state & (_State.State_On | _State.State_NoChange)
    square = square_in(option.rect, option.rect.width())
    edge, ground, thick = _of_tick(option, widget, on)
    paint_box(painter, square, colours.colour(edge), colours.colour(ground), thick=thick, radius=3.0)
    if on:
        corners = _TICK if option.state & _State.State_On else _DASH
        paint_stroke(painter, square, corners, colours.colour("on_accent" if usable else "off"))


def paint_choice_ring(option: Any, painter: QPainter, widget: QWidget | None, colours: Colours) -> None:
    """One of several that exclude one another: a ring, with a point in it where it is the one."""
    on = option.state & _State.State_On
    square = square_in(option.rect, option.rect.width())
    edge, ground, thick = _of_tick(option, widget, False)
    if on and option.state & _State.State_Enabled:
        edge, ground = "accent", "accent"
    paint_box(painter, square, colours.colour(edge), colours.colour(ground), thick=thick, radius=square.width() / 2)
    if on:
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colours.colour("on_accent" if option.state & _State.State_Enabled else "off"))
        middle = QPointF(square.center()) + QPointF(0.5, 0.5)
        painter.drawEllipse(middle, square.width() * 0.2, square.width() * 0.2)
        painter.restore()


def _of_tick(option: Any, widget: QWidget | None, on: Any) -> tuple[str, str, float]:
    """Edge, ground and thickness of what is ticked."""
    if not option.state & _State.State_Enabled:
        return "off", "pane", 1.0
    bare = isinstance(widget, QAbstractButton) and not widget.text() and option.state & _State.State_HasFocus
    over = option.state & _State.State_MouseOver
    edge = "accent" if on or bare or over else "edge"
    return edge, "accent" if on else "base", RING if bare else 1.0
