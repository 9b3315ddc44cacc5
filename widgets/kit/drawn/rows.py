"""Rows of lists, trees and tables, and the headings of their columns."""

from __future__ import annotations

from typing import Any, Final

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QFont, QFontMetrics, QPainter, QPalette
from PySide6.QtWidgets import QAbstractItemView, QListView, QStyle, QTableView, QTreeView, QWidget

from widgets.kit.drawn.boxes import CLEAR, DOWNWARDS, RING, paint_box, paint_stroke, square_in
from widgets.kit.palette import Colours
from widgets.kit.scaling import heading_font, heading_margin, scaled

_State = QStyle.StateFlag
_Role = QPalette.ColorRole
BAR: Final = 3
"""Pixels of the bar at the left of what is selected."""
RIGHTWARDS: Final = tuple((y, x) for x, y in DOWNWARDS)


def paint_selected(painter: QPainter, rect: QRect, colours: Colours, *, focused: bool) -> None:
    """The ground of a selected row, or of a part of it; the part at the left edge of what is seen has the bar."""
    painter.fillRect(rect, colours.colour("soft"))
    if rect.left() <= 0 < rect.right():
        painter.fillRect(0, rect.top(), BAR, rect.height(), colours.colour("accent" if focused else "edge"))


def paint_row(option: Any, painter: QPainter, widget: QWidget | None, colours: Colours) -> None:
    """The ground of an item."""
    if option.backgroundBrush.style() != Qt.BrushStyle.NoBrush:
        painter.fillRect(option.rect, option.backgroundBrush)
    if option.state & _State.State_Selected:
        paint_selected(painter, option.rect, colours, focused=_has_focus(widget))
    elif option.state & _State.State_MouseOver and isinstance(widget, QListView):
        painter.fillRect(option.rect, colours.colour("hover"))
    if isinstance(widget, QTableView | QTreeView):
        paint_hairline(painter, option.rect, colours)


def paint_hairline(painter: QPainter, rect: QRect, colours: Colours) -> None:
    """A line below a row."""
    painter.fillRect(rect.left(), rect.bottom(), rect.width(), 1, colours.colour("line"))


def paint_branch(option: Any, painter: QPainter, widget: QWidget | None, colours: Colours) -> None:
    """What stands before an item of a tree."""
    if option.state & _State.State_Selected:
        paint_selected(painter, option.rect, colours, focused=_has_focus(widget))
    paint_hairline(painter, option.rect, colours)
    if option.state & _State.State_Children:
        corners = DOWNWARDS if option.state & _State.State_Open else RIGHTWARDS
        paint_stroke(painter, square_in(option.rect, scaled(10)), corners, colours.colour("faint"))


def keep_ink(option: Any) -> None:
    """Let the text of a selected item keep its colour."""
    if option.state & _State.State_Selected:
        option.palette.setColor(_Role.HighlightedText, option.palette.color(_Role.Text))


def paint_current(option: Any, painter: QPainter, widget: QWidget | None, colours: Colours) -> None:
    """The outline of the current cell, where cells are chosen; of the current row only where that is not selected."""
    if not option.state & _State.State_HasFocus or not isinstance(widget, QAbstractItemView):
        return
    cells = widget.selectionBehavior() is QAbstractItemView.SelectionBehavior.SelectItems
    if (isinstance(widget, QTableView) and cells) or not option.state & _State.State_Selected:
        paint_box(painter, option.rect, colours.colour("accent"), CLEAR, thick=RING, radius=2.0)


def _has_focus(view: QWidget | None) -> bool:
    return view is not None and view.hasFocus()


def paint_heading(rect: QRect, painter: QPainter, colours: Colours, ground: str = "pane") -> None:
    """The ground of the heading of a column or a row."""
    painter.fillRect(rect, colours.colour(ground))
    paint_hairline(painter, rect, colours)


def prepare_heading(option: Any, painter: QPainter, colours: Colours) -> None:
    """Let a heading be written in its weight, its colour and its margins."""
    more = heading_margin() - 2
    option.rect = option.rect.adjusted(more, 0, -more, 0)
    option.palette.setColor(_Role.ButtonText, colours.colour("faint"))
    font: QFont = heading_font(painter.font())
    painter.setFont(font)
    option.fontMetrics = QFontMetrics(font)
