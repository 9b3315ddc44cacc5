"""How widgets are drawn: Qt's Fusion, with flat edges that stand out, and the looks that a widget can ask for.

A style instead of a style sheet. Under a sheet Qt works out the look of every widget anew whenever one gets another
parent or the sheet another colour: Design took eight times as long to make, and a change of palette longer than that.
Here colours are looked up when something is painted, so that a change of palette only paints.
"""

from __future__ import annotations

from typing import Any, Final

from PySide6.QtCore import QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontInfo, QFontMetrics, QPainter, QPalette, QPen
from PySide6.QtWidgets import (
    QFrame,
    QLabel,
    QLineEdit,
    QPlainTextEdit,
    QProxyStyle,
    QStyle,
    QStyleOption,
    QStyleOptionButton,
    QTextEdit,
    QWidget,
)

from widgets.kit import palette
from widgets.kit.palette import Colours
from widgets.kit.scaling import heading_margin, scaled

_Control = QStyle.ControlElement
_Metric = QStyle.PixelMetric
_Part = QStyle.PrimitiveElement
_State = QStyle.StateFlag
_Role = QPalette.ColorRole
_Weight = QFont.Weight

INKS: Final = {
    "": (_Role.WindowText, _Weight.Normal),
    "heading": (_Role.WindowText, _Weight.DemiBold),
    "faint": (_Role.PlaceholderText, _Weight.Normal),
    "good": (palette.GOOD, _Weight.DemiBold),
    "caution": (palette.CAUTION, _Weight.DemiBold),
    "fault": (palette.FAULT, _Weight.DemiBold),
    "armed": (palette.ON_ARMED, _Weight.Bold),
    "alarm": (_Role.Base, _Weight.Bold),
}
"""The looks of a label: the role of its colour in our palette, and its weight."""
LARGE: Final = 1.4
"""Of an alarm: times the size of other texts."""
FRAMES: Final = {
    "bar": (0, 0, 0, 1),
    "card": (1, 1, 1, 1),
    "notice": (5, 1, 1, 1),
    "alarm": (0, 0, 0, 0),
    "armed": (0, 0, 0, 0),
    "unarmed": (1, 1, 1, 1),
}
"""The looks of a frame: how thick its edges are, left, top, right and bottom."""
BUTTONS: Final = {
    "": _Weight.Normal,
    "primary": _Weight.DemiBold,
    "badge": _Weight.DemiBold,
    "workspace": _Weight.Bold,
}
"""The looks of a button: the weight of its text."""
_DEFAULT: Final = QStyleOptionButton.ButtonFeature.DefaultButton
_CLEAR: Final = QColor(0, 0, 0, 0)
_INSET: Final = 2
"""Pixels between the edge of a line that can be filled in and those that Qt itself leaves beside its text."""
ROUND: Final = 4.0
"""Radius of corners, in pixels."""


def set_look(widget: QWidget, look: str) -> None:
    """Give `widget` one of the looks above, also after it was shown."""
    if widget.property("look") != look:
        widget.setProperty("look", look)
        _take_look(widget, look)
        widget.update()


def _look_of(widget: QWidget | None) -> str:
    return "" if widget is None else widget.property("look") or ""


def _take_look(widget: QWidget, look: str) -> None:
    """What a look changes besides painting: weight, role, room for edges."""
    weight = _Weight.Normal
    if isinstance(widget, QLabel):
        role, weight = INKS[look]
        widget.setForegroundRole(role)
    elif isinstance(widget, QFrame):
        if look in FRAMES:
            widget.setContentsMargins(*FRAMES[look])
        return
    elif look in BUTTONS:
        weight = BUTTONS[look]
    else:
        return
    font = QFont()
    font.setWeight(weight)  # and nothing else: the size is that of the application
    if look == "alarm":
        font.setPointSizeF(LARGE * QFontInfo(font).pointSizeF())
    widget.setFont(font)


class Look(QProxyStyle):
    """Our style, the same on every system."""

    def __init__(self) -> None:
        super().__init__("Fusion")

    # The signatures of PySide6's stubs take overloads apart that arrive here as one.
    def polish(self, what: Any) -> Any:
        if isinstance(what, QWidget):
            look = what.property("look")
            if look:
                _take_look(what, look)
            elif isinstance(what, QLineEdit) and what.hasFrame():
                what.setTextMargins(_INSET, 0, _INSET, 0)
        return super().polish(what)

    # Measures

    def pixelMetric(
        self, metric: QStyle.PixelMetric, option: QStyleOption | None = None, widget: QWidget | None = None
    ) -> int:
        own = _METRICS.get(metric)
        return super().pixelMetric(metric, option, widget) if own is None else scaled(own[0]) + own[1]

    def sizeFromContents(self, kind: QStyle.ContentsType, option: Any, inner: QSize, widget: Any = None) -> QSize:
        if kind is QStyle.ContentsType.CT_PushButton:
            return _around(inner, 14, 4)
        if kind is QStyle.ContentsType.CT_LineEdit:
            return _around(inner, 2, 3) if option.lineWidth else inner
        if kind is QStyle.ContentsType.CT_ToolButton and (look := _look_of(widget)):
            return _around(inner, 10, 2) if look == "badge" else _around(inner, 15, 5)
        found = super().sizeFromContents(kind, option, inner, widget)
        if kind is QStyle.ContentsType.CT_HeaderSection:
            found += QSize(2 * _beside_heading(widget), scaled(6))
        return found

    # Painting

    def drawPrimitive(
        self, part: QStyle.PrimitiveElement, option: QStyleOption, painter: QPainter, widget: QWidget | None = None
    ) -> None:
        draw = _PARTS.get(part)
        if draw is None:
            super().drawPrimitive(part, option, painter, widget)
        else:
            draw(option, painter, widget, palette.current())

    def drawControl(
        self, control: QStyle.ControlElement, option: Any, painter: QPainter, widget: QWidget | None = None
    ) -> None:
        if control is _Control.CE_HeaderSection:
            _heading(option.rect, painter, palette.current())
        elif control is _Control.CE_ShapedFrame and (look := _look_of(widget)) in FRAMES:
            _frame(look, option.rect, painter, palette.current())
        elif control is not _Control.CE_Splitter:  # plain ground
            if control is _Control.CE_HeaderLabel:
                _write_heading(option, painter, widget, palette.current())
            elif control is _Control.CE_ComboBoxLabel and not option.editable:
                option.rect = option.rect.translated(scaled(3), 0)
            elif control in (_Control.CE_PushButtonLabel, _Control.CE_ToolButtonLabel) and (look := _look_of(widget)):
                _write_in(look, option, palette.current())
            super().drawControl(control, option, painter, widget)

    def drawComplexControl(
        self, control: QStyle.ComplexControl, option: Any, painter: QPainter, widget: QWidget | None = None
    ) -> None:
        if control is QStyle.ComplexControl.CC_ComboBox and widget is not None:
            arrow = self.subControlRect(control, option, QStyle.SubControl.SC_ComboBoxArrow, widget)
            _choice(option, arrow, painter, widget, palette.current())
        else:
            super().drawComplexControl(control, option, painter, widget)
            if control is QStyle.ComplexControl.CC_SpinBox:
                edge = palette.current().colour("edge" if option.state & _State.State_Enabled else "line")
                _box(painter, option.rect, edge, _CLEAR, radius=2.0)


_METRICS: Final = {
    _Metric.PM_IndicatorWidth: (14, 2),
    _Metric.PM_IndicatorHeight: (14, 2),
    _Metric.PM_ExclusiveIndicatorWidth: (14, 2),
    _Metric.PM_ExclusiveIndicatorHeight: (14, 2),
    _Metric.PM_CheckBoxLabelSpacing: (8, 0),
    _Metric.PM_RadioButtonLabelSpacing: (8, 0),
    _Metric.PM_ButtonIconSize: (16, 0),
    _Metric.PM_HeaderDefaultSectionSizeHorizontal: (100, 0),
}
"""What grows with the texts, in pixels at 100 per cent, and the edges around it, which do not."""


def _beside_heading(header: QWidget | None) -> int:
    """Pixels that our headings have on either side in addition to those of Fusion."""
    return heading_margin(header) - 2


def _around(inner: QSize, across: int, along: int) -> QSize:
    """`inner` with this much room on both sides, and an edge."""
    return inner + QSize(2 * scaled(across) + 2, 2 * scaled(along) + 2)


def _box(
    painter: QPainter, rect: QRect, edge: QColor, ground: QColor, *, thick: float = 1.0, radius: float = ROUND
) -> None:
    """A box with round corners, its edge wholly inside `rect`."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(edge, thick))
    painter.setBrush(ground)
    painter.drawRoundedRect(QRectF(rect).adjusted(thick / 2, thick / 2, -thick / 2, -thick / 2), radius, radius)
    painter.restore()


def _button(option: Any, painter: QPainter, widget: QWidget | None, colours: Colours) -> None:
    """The ground of a button: raised or pressed; with a thick edge the default one, and one that is on."""
    state = option.state
    pressed = state & _State.State_Sunken
    default = isinstance(option, QStyleOptionButton) and option.features & _DEFAULT
    edge, ground, thick = "edge", "line" if pressed else "raised", 1.0
    if not state & _State.State_Enabled:
        edge, ground = "line", "window"
    elif _look_of(widget) == "primary":
        edge = ground = "ink" if pressed else "accent"
    elif default or state & _State.State_On:
        edge, thick = "accent", 2.0
    elif state & _State.State_MouseOver:
        edge = "accent"
    _box(painter, option.rect, colours.colour(edge), colours.colour(ground), thick=thick)


def _tool(option: Any, painter: QPainter, widget: QWidget | None, colours: Colours) -> None:
    """The ground of a button in a bar; that of a workspace is a line below it."""
    if _look_of(widget) != "workspace":
        _button(option, painter, widget, colours)
        return
    if option.state & _State.State_MouseOver:
        painter.fillRect(option.rect, colours.colour("window"))
    if option.state & _State.State_On:
        below = QRect(option.rect)
        below.setTop(below.bottom() - scaled(3) + 1)
        painter.fillRect(below, colours.colour("accent"))


def _write_in(look: str, option: Any, colours: Colours) -> None:
    """Let the text of a button be written in the colour and the weight of its look."""
    if look == "workspace" and not option.state & _State.State_On:
        option.font.setWeight(_Weight.Normal)
    elif look in ("workspace", "primary") and option.state & _State.State_Enabled:
        pressed = option.state & _State.State_Sunken
        ink = "accent" if look == "workspace" else "window" if pressed else "on_accent"
        option.palette.setColor(_Role.ButtonText, colours.colour(ink))


def _entry(option: Any, painter: QPainter, widget: QWidget | None, colours: Colours) -> None:
    """The ground of a line that can be filled in."""
    usable, look = option.state & _State.State_Enabled, _look_of(widget)
    ground = colours.colour("base" if usable else "window")
    if not option.lineWidth:
        painter.fillRect(option.rect, ground)
        return
    edge = "fault" if look == "wrong" else "accent" if look == "cell" else "edge" if usable else "line"
    thick = 2.0 if look else 1.0
    _box(painter, option.rect, colours.colour(edge), ground, thick=thick, radius=3.0)


def _edge(option: Any, painter: QPainter, widget: QWidget | None, colours: Colours) -> None:
    """The edge around lists, tables, and texts of several lines."""
    if isinstance(widget, QPlainTextEdit | QTextEdit):
        wrong = _look_of(widget) == "wrong"
        edge = colours.colour("fault" if wrong else "edge" if option.state & _State.State_Enabled else "line")
        _box(painter, option.rect, edge, _CLEAR, thick=2.0 if wrong else 1.0, radius=2.0)
    else:
        painter.save()
        painter.setPen(colours.colour("line"))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(option.rect.adjusted(0, 0, -1, -1))
        painter.restore()


def _tick(option: Any, painter: QPainter, _widget: QWidget | None, colours: Colours) -> None:
    """A box to tick."""
    usable, on = option.state & _State.State_Enabled, option.state & (_State.State_On | _State.State_NoChange)
    ground, edge = ("accent", "accent") if on else ("base", "edge")
    if not usable:
        ground, edge = "window", "line"
    side = min(option.rect.width(), option.rect.height())
    square = QRect(0, 0, side, side)
    square.moveCenter(option.rect.center())
    _box(painter, square, colours.colour(edge), colours.colour(ground), radius=3.0)
    if not on:
        return
    corners = (
        ((0.22, 0.52), (0.42, 0.72), (0.78, 0.29)) if option.state & _State.State_On else ((0.25, 0.5), (0.75, 0.5))
    )
    _stroke(painter, square, corners, colours.colour("on_accent" if usable else "off"))


def _choice(option: Any, arrow: QRect, painter: QPainter, widget: QWidget | None, colours: Colours) -> None:
    """The ground of what opens a list of choices, and its arrow."""
    usable = option.state & _State.State_Enabled
    ground = "window" if not usable else "base" if option.editable else "raised"
    edge = "line" if not usable else "accent" if option.state & _State.State_MouseOver else "edge"
    wrong = _look_of(widget) == "wrong"
    edge, thick = ("fault", 2.0) if wrong else (edge, 1.0)
    _box(painter, option.rect, colours.colour(edge), colours.colour(ground), thick=thick)
    square = QRect(0, 0, scaled(12), scaled(12))
    square.moveCenter(arrow.center())
    corners = ((0.17, 0.33), (0.5, 0.67), (0.83, 0.33))
    _stroke(painter, square, corners, colours.colour("ink" if usable else "off"))


def _stroke(painter: QPainter, square: QRect, corners: tuple[tuple[float, float], ...], ink: QColor) -> None:
    """A line through `corners`, given as parts of a square."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(ink, square.width() / 8, c=Qt.PenCapStyle.RoundCap, j=Qt.PenJoinStyle.RoundJoin))
    left, top, side = square.left(), square.top(), square.width()
    painter.drawPolyline([QPointF(left + x * side, top + y * side) for x, y in corners])
    painter.restore()


def _write_heading(option: Any, painter: QPainter, header: QWidget | None, colours: Colours) -> None:
    """Let a heading be written in its weight, its colour and its margins."""
    more = _beside_heading(header)
    option.rect = option.rect.adjusted(more, 0, -more, 0)
    option.palette.setColor(_Role.ButtonText, colours.colour("faint"))
    heavy = painter.font()
    heavy.setWeight(_Weight.DemiBold)
    painter.setFont(heavy)
    option.fontMetrics = QFontMetrics(heavy)


def _heading(rect: QRect, painter: QPainter, colours: Colours) -> None:
    """The ground of the heading of a column or a row."""
    painter.fillRect(rect, colours.colour("band"))
    painter.fillRect(rect.left(), rect.bottom(), rect.width(), 1, colours.colour("line"))


def _frame(look: str, rect: QRect, painter: QPainter, colours: Colours) -> None:
    """A frame with one of the looks."""
    if look == "bar":
        _heading(rect, painter, colours)
    elif look == "alarm":
        painter.fillRect(rect, colours.colour("fault"))
    elif look == "notice":
        painter.fillRect(rect, colours.colour("caution"))
        painter.fillRect(rect.adjusted(5, 1, -1, -1), colours.colour("band"))
    else:
        ground = {"card": colours.colour("base"), "armed": colours.colour("armed")}.get(look, _CLEAR)
        edge = colours.colour("armed" if look == "armed" else "line")
        _box(painter, rect, edge, ground)


_PARTS: Final = {
    _Part.PE_PanelButtonCommand: _button,
    _Part.PE_PanelButtonTool: _tool,
    _Part.PE_PanelLineEdit: _entry,
    _Part.PE_Frame: _edge,
    _Part.PE_IndicatorCheckBox: _tick,
}
