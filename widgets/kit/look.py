"""How widgets are drawn: Qt's Fusion, with flat edges that stand out, and the looks that a widget can ask for.

A style instead of a style sheet. Under a sheet Qt works out the look of every widget anew whenever one gets another
parent or the sheet another colour: Design took eight times as long to make, and a change of palette longer than that.
Here colours are looked up when something is painted, so that a change of palette only paints.
"""

from __future__ import annotations

from typing import Any, Final

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QFont, QFontInfo, QPainter, QPalette
from PySide6.QtWidgets import (
    QComboBox,
    QDialogButtonBox,
    QFrame,
    QLabel,
    QLineEdit,
    QPlainTextEdit,
    QProxyStyle,
    QStyle,
    QStyleOption,
    QStyleOptionToolButton,
    QTextEdit,
    QToolButton,
    QWidget,
)

from widgets.kit import palette
from widgets.kit.drawn import bars, buttons, entries, rows, tips
from widgets.kit.drawn.boxes import DOWNWARDS, paint_box, paint_stroke, square_in
from widgets.kit.drawn.buttons import look_of
from widgets.kit.palette import Colours
from widgets.kit.scaling import HEADING, air, heading_margin, line_height, scaled

_Control = QStyle.ControlElement
_Complex = QStyle.ComplexControl
_Contents = QStyle.ContentsType
_Metric = QStyle.PixelMetric
_Part = QStyle.PrimitiveElement
_State = QStyle.StateFlag
_Sub = QStyle.SubControl
_Role = QPalette.ColorRole
_Weight = QFont.Weight
_Popup = Qt.WindowType.Popup

INKS: Final = {
    "": (_Role.WindowText, _Weight.Normal, 1.0),
    "heading": (_Role.WindowText, _Weight.DemiBold, 1.0),
    "title": (_Role.WindowText, _Weight.DemiBold, 1.23),
    "question": (_Role.WindowText, _Weight.DemiBold, 1.46),
    "page": (_Role.WindowText, _Weight.DemiBold, 2.0),
    "faint": (_Role.PlaceholderText, _Weight.Normal, 1.0),
    "note": (_Role.PlaceholderText, _Weight.Normal, 0.92),
    "good": (palette.GOOD, _Weight.DemiBold, 1.0),
    "caution": (palette.CAUTION, _Weight.DemiBold, 1.0),
    "fault": (palette.FAULT, _Weight.DemiBold, 1.0),
    "sim": (palette.SIM, _Weight.DemiBold, 1.0),
    "alarm": (_Role.Base, _Weight.Bold, 1.4),
}
"""The looks of a label: the role of its colour in our palette, its weight, and its size, 1 for that of other texts."""
FRAMES: Final = {
    "bar": (0, 0, 0, 1),
    "card": (1, 1, 1, 1),
    "notice": (4, 0, 0, 0),
    "good notice": (4, 0, 0, 0),
    "fault notice": (4, 0, 0, 0),
    "sim notice": (4, 0, 0, 0),
    "canvas": (0, 0, 0, 0),
    "alarm": (0, 0, 0, 0),
}
"""The looks of a frame: how thick its edges are, left, top, right and bottom."""
BUTTONS: Final = {
    "": (_Weight.Normal, 1.0),
    "primary": (_Weight.DemiBold, 1.0),
    "quiet": (_Weight.Normal, 1.0),
    "path": (_Weight.Normal, 1.0),
    "caution": (_Weight.DemiBold, 1.0),
    "badge": (_Weight.DemiBold, 1.0),
    "answer": (_Weight.Normal, 1.077),
    "workspace": (_Weight.DemiBold, 1.077),
}
"""The looks of a button, and of tabs: the weight of its text, which no state changes, and its size."""
CONTROL: Final = 28
UNIT_ROOM: Final = "unit room"
"""Pixels at 100 per cent: height of a button, a line, a number, a choice; and of a row of a table and its headings."""
LEAST_BUTTON: Final = 96
"""Pixels at 100 per cent: width of the buttons of a dialog."""
_PADDING: Final = 12
_INSET: Final = 4
"""Pixels at 100 per cent between the edge of a line that can be filled in and those that Qt itself leaves beside it."""
_ARROW: Final = 24
"""Pixels at 100 per cent of the part of a choice that its arrow is in the middle of."""
_TAB: Final = 40
_WORKSPACE: Final = 48


def set_look(widget: QWidget, look: str) -> None:
    """Give `widget` one of the looks above, also after it was shown."""
    if widget.property("look") != look:
        widget.setProperty("look", look)
        take_look(widget, look)
        widget.update()


def take_look(widget: QWidget, look: str) -> None:
    """What a look changes besides painting: weight, size, role, room for edges, and for the unit in a line."""
    weight, size = _Weight.Normal, 1.0
    if isinstance(widget, QLabel):
        role, weight, size = INKS[look]
        widget.setForegroundRole(role)
    elif isinstance(widget, QLineEdit):
        if widget.hasFrame():
            left = entries.BESIDE_SIGN if look == "wrong" else _INSET
            widget.setTextMargins(scaled(left), 0, scaled(_INSET) + (widget.property(UNIT_ROOM) or 0), 0)
        elif widget.property(UNIT_ROOM):
            widget.setTextMargins(0, 0, scaled(_INSET) + widget.property(UNIT_ROOM), 0)
        elif isinstance(choice := widget.parentWidget(), QComboBox):
            widget.setTextMargins(entries.beside_sign(choice) + 1, 0, 0, 0)  # to stand under those of other choices
        return
    elif isinstance(widget, QComboBox):
        if (line := widget.lineEdit()) is not None:
            take_look(line, "")
        return
    elif isinstance(widget, QFrame):
        if look in FRAMES:
            widget.setContentsMargins(*FRAMES[look])
        return
    elif look in BUTTONS:
        weight, size = BUTTONS[look]
    else:
        return
    font = QFont()
    font.setWeight(weight)  # and nothing else: the size is that of the application
    if size != 1.0:
        font.setPointSizeF(size * QFontInfo(font).pointSizeF())
    widget.setFont(font)


class Look(QProxyStyle):
    """Our style, the same on every system."""

    def __init__(self) -> None:
        super().__init__("Fusion")

    # The signatures of PySide6's stubs take overloads apart that arrive here as one.
    def polish(self, what: Any) -> Any:
        if isinstance(what, QWidget):
            look = what.property("look")
            if look or isinstance(what, QLineEdit):
                take_look(what, look or "")
            elif isinstance(what, QLabel):
                tips.break_lines(what)
        return super().polish(what)

    # Measures

    def styleHint(
        self,
        hint: QStyle.StyleHint,
        option: QStyleOption | None = None,
        widget: QWidget | None = None,
        returns: Any = None,
    ) -> int:
        if hint is QStyle.StyleHint.SH_DialogButtonBox_ButtonsHaveIcons:
            return 0  # those of the desktop, on some buttons only
        return super().styleHint(hint, option, widget, returns)

    def pixelMetric(
        self, metric: QStyle.PixelMetric, option: QStyleOption | None = None, widget: QWidget | None = None
    ) -> int:
        if metric is _Metric.PM_DefaultFrameWidth and isinstance(widget, QPlainTextEdit | QTextEdit):
            return 2  # room for the outline of the focus, over which Qt would draw the text
        if metric is _Metric.PM_TabBarTabHSpace:
            return air(28)
        own = _METRICS.get(metric)
        return super().pixelMetric(metric, option, widget) if own is None else scaled(own[0]) + own[1]

    def sizeFromContents(self, kind: QStyle.ContentsType, option: Any, inner: QSize, widget: Any = None) -> QSize:
        if kind is _Contents.CT_PushButton:
            beside = 4 if look_of(widget) == "path" else _PADDING
            found = _control(inner + QSize(_more_gap(option), 0), beside)
            in_dialog = widget is not None and isinstance(widget.parentWidget(), QDialogButtonBox)
            return found.expandedTo(QSize(scaled(LEAST_BUTTON), 0)) if in_dialog else found
        if kind is _Contents.CT_LineEdit:
            # Its sign takes room from the text of a wrong line, so that nothing grows when something becomes wrong.
            sign = scaled(entries.BESIDE_SIGN) - scaled(_INSET) if look_of(widget) == "wrong" else 0
            return _control(inner - QSize(sign, 0), 2) if option.lineWidth else inner
        if kind is _Contents.CT_ToolButton:
            return _tool_size(option, inner, widget)
        if kind is _Contents.CT_TabBarTab:
            high = _WORKSPACE if look_of(widget) == "workspace" else _TAB
            return QSize(inner.width(), max(line_height(high), inner.height()))
        found = super().sizeFromContents(kind, option, inner, widget)
        if kind in (_Contents.CT_ComboBox, _Contents.CT_SpinBox):
            more = scaled(_ARROW) - _ARROW if kind is _Contents.CT_ComboBox else 0  # for an arrow larger than Qt's
            return QSize(found.width() + more, max(line_height(CONTROL), inner.height() + 4))
        if kind in (_Contents.CT_CheckBox, _Contents.CT_RadioButton):
            return QSize(found.width() + 4, max(line_height(24), found.height()))
        if kind in (_Contents.CT_MenuItem, _Contents.CT_MenuBarItem) and inner.height() > 4:
            return QSize(found.width(), max(line_height(26), found.height()))
        if kind is _Contents.CT_ItemViewItem and widget is not None and widget.window().windowType() is _Popup:
            return QSize(found.width(), max(line_height(CONTROL), found.height()))
        if kind is _Contents.CT_HeaderSection:
            return QSize(found.width() + 2 * (heading_margin() - 2), max(line_height(HEADING), found.height()))
        return found

    def subControlRect(
        self, control: QStyle.ComplexControl, option: Any, part: QStyle.SubControl, widget: Any = None
    ) -> QRect:
        if control is _Complex.CC_ScrollBar:
            return bars.scroll_part(option, part)
        found = super().subControlRect(control, option, part, widget)
        if control is _Complex.CC_ComboBox and part in (_Sub.SC_ComboBoxArrow, _Sub.SC_ComboBoxEditField):
            whole: QRect = option.rect
            arrow = QRect(whole.right() + 1 - scaled(_ARROW), whole.top(), scaled(_ARROW), whole.height())
            return (
                arrow if part is _Sub.SC_ComboBoxArrow else found.intersected(whole.adjusted(0, 0, -arrow.width(), 0))
            )
        if control is _Complex.CC_SpinBox and part is _Sub.SC_SpinBoxEditField:
            return found.adjusted(scaled(_INSET), 0, -scaled(_INSET), 0)
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
        colours = palette.current()
        if control in _CONTROLS:
            _CONTROLS[control](option, painter, widget, colours)
            return
        if control is _Control.CE_ShapedFrame and (look := look_of(widget)) in FRAMES:
            _frame(look, option.rect, painter, colours)
            return
        if control is _Control.CE_ItemViewItem:
            rows.keep_ink(option)
            super().drawControl(control, option, painter, widget)
            rows.paint_current(option, painter, widget, colours)
            return
        if control is _Control.CE_HeaderLabel:
            rows.prepare_heading(option, painter, colours)
        elif control is _Control.CE_ComboBoxLabel and not option.editable:
            option.rect = option.rect.translated(entries.beside_sign(widget), 0)
        elif control in (_Control.CE_PushButtonLabel, _Control.CE_ToolButtonLabel):
            if look_of(widget) == "workspace":
                _write_workspace(option, painter, colours)
            else:
                buttons.prepare_label(option, widget, colours)
                if _opens_menu(widget) and _has_text(option):
                    option.rect = option.rect.adjusted(0, 0, -scaled(_BESIDE_TEXT), 0)
                if buttons.has_both(option):
                    buttons.paint_both(option, painter, widget, self)
                    return
        elif control is _Control.CE_MenuBarItem:
            chosen = option.state & (_State.State_Selected | _State.State_Sunken)
            painter.fillRect(option.rect, colours.colour("soft" if chosen else "frame"))
            mnemonic = self.styleHint(QStyle.StyleHint.SH_UnderlineShortcut, option, widget)
            flags = Qt.TextFlag.TextShowMnemonic if mnemonic else Qt.TextFlag.TextHideMnemonic
            usable = bool(option.state & _State.State_Enabled)
            alike = Qt.AlignmentFlag.AlignCenter | flags
            self.drawItemText(painter, option.rect, alike, option.palette, usable, option.text, _Role.WindowText)
            return
        elif control is _Control.CE_MenuItem:
            option.palette.setColor(_Role.Highlight, colours.colour("soft"))
            option.palette.setColor(_Role.HighlightedText, colours.colour("ink"))
        super().drawControl(control, option, painter, widget)

    def drawComplexControl(
        self, control: QStyle.ComplexControl, option: Any, painter: QPainter, widget: QWidget | None = None
    ) -> None:
        colours = palette.current()
        if control is _Complex.CC_ComboBox:
            arrow = self.subControlRect(control, option, _Sub.SC_ComboBoxArrow, widget)
            entries.paint_choice(option, arrow, painter, widget, colours)
        elif control is _Complex.CC_SpinBox:
            entries.paint_number(option, painter, widget, colours)
        elif control is _Complex.CC_ScrollBar:
            handle = bars.scroll_part(option, _Sub.SC_ScrollBarSlider)
            bars.paint_scroll_bar(option, painter, handle, colours)
        elif control is _Complex.CC_Slider:
            handle = self.subControlRect(control, option, _Sub.SC_SliderHandle, widget)
            bars.paint_slider(option, painter, handle, colours)
        else:
            opens = control is _Complex.CC_ToolButton and _opens_menu(widget)
            if opens:
                option.features &= ~_HAS_MENU  # Qt's own arrow would lie in the corner
            super().drawComplexControl(control, option, painter, widget)
            if opens and _has_text(option):
                wide = scaled(_BESIDE_TEXT)
                place = QRect(option.rect.right() - wide - scaled(4), option.rect.top(), wide, option.rect.height())
                ink = "ink" if option.state & _State.State_Enabled else "off"
                paint_stroke(painter, square_in(place, scaled(11)), DOWNWARDS, colours.colour(ink))


_BESIDE_TEXT: Final = 16
"""Pixels at 100 per cent of the arrow beside the text of a button that opens a menu."""
_HAS_MENU: Final = QStyleOptionToolButton.ToolButtonFeature.HasMenu
_METRICS: Final = {
    _Metric.PM_IndicatorWidth: (14, 2),
    _Metric.PM_IndicatorHeight: (14, 2),
    _Metric.PM_ExclusiveIndicatorWidth: (14, 2),
    _Metric.PM_ExclusiveIndicatorHeight: (14, 2),
    _Metric.PM_CheckBoxLabelSpacing: (8, 0),
    _Metric.PM_RadioButtonLabelSpacing: (8, 0),
    _Metric.PM_ButtonIconSize: (16, 0),
    _Metric.PM_SmallIconSize: (16, 0),
    _Metric.PM_TabBarIconSize: (16, 0),
    _Metric.PM_TabBarTabVSpace: (8, 0),
    _Metric.PM_TabBarBaseOverlap: (0, 0),
    _Metric.PM_FocusFrameHMargin: (7, 0),
    _Metric.PM_ScrollBarExtent: (bars.SCROLL, 0),
    _Metric.PM_SplitterWidth: (0, 5),
    _Metric.PM_ToolTipLabelFrameWidth: (6, 0),
    _Metric.PM_HeaderDefaultSectionSizeHorizontal: (100, 0),
}
"""What grows with the texts, in pixels at 100 per cent, and the edges around it, which do not."""


def _control(inner: QSize, across: int) -> QSize:
    """A control around its contents: as high as all others, and so much room on either side, and an edge."""
    return QSize(inner.width() + 2 * scaled(across) + 2, max(line_height(CONTROL), inner.height() + 2))


def _tool_size(option: Any, inner: QSize, widget: QWidget | None) -> QSize:
    """Of a button in a bar: square if it has nothing but an icon."""
    if look_of(widget) == "workspace":
        return QSize(inner.width() + 2 * scaled(15) + 2, max(line_height(_WORKSPACE), inner.height()))
    high = max(line_height(CONTROL), inner.height() + 2)
    if not _has_text(option):
        return QSize(max(high, inner.width() + 2 * scaled(4)), high)
    beside = scaled(_BESIDE_TEXT) if _opens_menu(widget) else 0
    return QSize(inner.width() + 2 * scaled(8) + 2 + beside + _more_gap(option), high)


def _more_gap(option: Any) -> int:
    """Pixels that we leave between icon and text in addition to those that Qt reckons with."""
    return scaled(buttons.GAP) - 4 if buttons.has_both(option) else 0


def _opens_menu(widget: QWidget | None) -> bool:
    """Whether a press does nothing but open a menu."""
    if not isinstance(widget, QToolButton) or widget.popupMode() is not QToolButton.ToolButtonPopupMode.InstantPopup:
        return False
    return widget.menu() is not None


def _has_text(option: Any) -> bool:
    return bool(option.text) and option.toolButtonStyle is not Qt.ToolButtonStyle.ToolButtonIconOnly


def _write_workspace(option: Any, painter: QPainter, colours: Colours) -> None:
    """Let the text of a button that is a tab be written as that of a tab, and draw the line below it."""
    on = option.state & _State.State_On
    if on:
        bars.underline(painter, option.rect, colours)
    if option.state & _State.State_Enabled:
        option.palette.setColor(_Role.ButtonText, colours.colour("accent" if on else "faint"))


def _tool(option: Any, painter: QPainter, widget: QWidget | None, colours: Colours) -> None:
    look = look_of(widget)
    if look == "workspace":
        buttons.paint_workspace(option, painter, widget, colours)
    elif look != "section":
        buttons.paint_button(option, painter, widget, colours)


def _frame(look: str, rect: QRect, painter: QPainter, colours: Colours) -> None:
    """A frame with one of the looks."""
    if look == "bar":
        rows.paint_heading(rect, painter, colours, "frame")
    elif look == "alarm":
        painter.fillRect(rect, colours.colour("fault"))
    elif look == "canvas":
        painter.fillRect(rect, colours.colour("canvas"))
    elif look.endswith("notice"):
        state = look.removesuffix("notice").strip() or "caution"
        painter.fillRect(rect, colours.colour(f"{state}_soft"))
        painter.fillRect(rect.left(), rect.top(), FRAMES[look][0], rect.height(), colours.colour(state))
    else:
        paint_box(painter, rect, colours.colour("line"), colours.colour("base"), radius=6.0)


def _arrow(*corners: tuple[float, float]) -> Any:
    def draw(option: Any, painter: QPainter, _widget: QWidget | None, colours: Colours) -> None:
        ink = colours.colour("ink" if option.state & _State.State_Enabled else "off")
        paint_stroke(painter, square_in(option.rect, scaled(11)), corners, ink)

    return draw


def _ground(name: str) -> Any:
    def draw(option: Any, painter: QPainter, _widget: QWidget | None, colours: Colours) -> None:
        painter.fillRect(option.rect, colours.colour(name))

    return draw


def _heading(option: Any, painter: QPainter, _widget: QWidget | None, colours: Colours) -> None:
    rows.paint_heading(option.rect, painter, colours)


_PARTS: Final = {
    _Part.PE_PanelButtonCommand: buttons.paint_button,
    _Part.PE_PanelButtonTool: _tool,
    _Part.PE_FrameFocusRect: buttons.paint_focus,
    _Part.PE_IndicatorCheckBox: buttons.paint_tick,
    _Part.PE_IndicatorItemViewItemCheck: buttons.paint_tick,
    _Part.PE_IndicatorRadioButton: buttons.paint_choice_ring,
    _Part.PE_PanelLineEdit: entries.paint_entry,
    _Part.PE_Frame: entries.paint_around,
    _Part.PE_PanelItemViewItem: rows.paint_row,
    _Part.PE_PanelItemViewRow: bars.paint_nothing,
    _Part.PE_IndicatorBranch: rows.paint_branch,
    _Part.PE_FrameTabBarBase: bars.paint_base,
    _Part.PE_FrameTabWidget: bars.paint_nothing,
    _Part.PE_FrameStatusBarItem: bars.paint_nothing,
    _Part.PE_IndicatorDockWidgetResizeHandle: bars.paint_between,
    _Part.PE_PanelTipLabel: tips.paint_tip,
    _Part.PE_PanelMenuBar: bars.paint_nothing,
    _Part.PE_PanelScrollAreaCorner: _ground("pane"),
    _Part.PE_IndicatorArrowDown: _arrow(*DOWNWARDS),
    _Part.PE_IndicatorArrowUp: _arrow(*((x, 1 - y) for x, y in DOWNWARDS)),
    _Part.PE_IndicatorArrowRight: _arrow(*rows.RIGHTWARDS),
    _Part.PE_IndicatorArrowLeft: _arrow(*((1 - x, y) for x, y in rows.RIGHTWARDS)),
}
_CONTROLS: Final = {
    _Control.CE_HeaderSection: _heading,
    _Control.CE_Splitter: bars.paint_between,
    _Control.CE_TabBarTab: bars.paint_tab,
    _Control.CE_ProgressBarGroove: bars.paint_groove,
    _Control.CE_ProgressBarContents: bars.paint_progress,
    _Control.CE_MenuBarEmptyArea: _ground("frame"),
}
