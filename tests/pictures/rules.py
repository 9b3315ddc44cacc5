"""The rules of one hand: what is measured in every window, in every language, font and size.

Each function takes a window that is shown, and tells in words, a line for each, what breaks its rule.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from typing import Final

import numpy as np
from PySide6.QtCore import QPoint, QRect, QSignalBlocker
from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtWidgets import (
    QAbstractSpinBox,
    QComboBox,
    QFormLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QStyle,
    QStyleOptionComboBox,
    QTabBar,
    QWidget,
)

from tests.pictures.stage import SMALLEST_SCREEN, settle
from widgets.design.forms.form import Form
from widgets.kit.look import CONTROL
from widgets.kit.scaling import line_height, percent

TALLER: Final = {"answer": 40}
"""Looks of buttons that are as high as this on purpose."""
Editor = QComboBox | QAbstractSpinBox | QLineEdit


def controls(top: QWidget) -> list[QWidget]:
    """What is pressed or filled in, in one line, and is in sight."""
    return [
        each
        for each in top.findChildren(QWidget)
        if each.isVisible()
        and each.window() is top
        and (isinstance(each, Editor | QPushButton))
        and (not isinstance(each, QLineEdit) or each.hasFrame())
        and not isinstance(each.parentWidget(), QComboBox | QAbstractSpinBox)
    ]


def named(widget: QWidget) -> str:
    """Enough to find a widget by."""
    text = widget.text() if isinstance(widget, QLabel | QPushButton | QLineEdit) else widget.accessibleName()
    return f"{type(widget).__name__} '{text}' of {type(widget.parentWidget()).__name__}"


def heights(top: QWidget) -> Iterator[str]:
    """G1: all controls are equally high."""
    for each in controls(top):
        wanted = line_height(TALLER.get(str(each.property("look")), CONTROL))
        wanted = max(wanted, each.fontMetrics().height() + 4)
        if each.height() != wanted:
            yield f"{named(each)} is {each.height()} high, not {wanted}"


def primaries(top: QWidget) -> Iterator[str]:
    """G2: one button at most is the primary one."""
    found = [each for each in controls(top) if each.property("look") == "primary"]
    if len(found) > 1:
        yield f"primary are {', '.join(map(named, found))}"


def edges(top: QWidget) -> Iterator[str]:
    """G3: the editors of a form end at one edge."""
    for form, rows in _forms(top):
        ends: dict[int, list[str]] = defaultdict(list)
        for row in rows:
            wide = [
                each for each in controls(top) if isinstance(each, Editor) and (each is row or row.isAncestorOf(each))
            ]
            if wide:
                last = max(wide, key=lambda each: each.mapTo(top, each.rect().topRight()).x())
                ends[last.mapTo(top, last.rect().topRight()).x()].append(named(last))
        if len(ends) > 1:
            yield f"{type(form).__name__}: editors end at {dict(ends)}"


def _forms(top: QWidget) -> Iterator[tuple[object, list[QWidget]]]:
    for form in top.findChildren(Form):
        if form.isVisible() and form.window() is top:
            yield form, [row for row in form.rows if row.isVisible()]
    for layout in top.findChildren(QFormLayout):
        items = [layout.itemAt(row, QFormLayout.ItemRole.FieldRole) for row in range(layout.rowCount())]
        fields = [field for item in items if item is not None and (field := item.widget()) is not None]
        yield layout, [field for field in fields if field.isVisible() and field.window() is top]


def baselines(top: QWidget) -> Iterator[str]:
    """G4: a label and its editor stand on one line. Measured as drawn: the lowest row of a capital H in either."""
    for label in top.findChildren(QLabel):
        editor = label.buddy()
        if not isinstance(editor, Editor) or not (label.isVisible() and editor.isVisible()):
            continue
        if editor.hasFocus() or (isinstance(editor, QComboBox) and editor.isEditable()):
            continue  # the text cursor is lower than any letter
        if isinstance(editor, QLineEdit) and editor.echoMode() is not QLineEdit.EchoMode.Normal:
            continue  # no letter is drawn
        places = [QRect(each.mapTo(top, QPoint(0, 0)), each.size()) for each in (label, editor)]
        if places[0].bottom() <= places[1].top() or not top.rect().contains(places[1]):
            continue  # it stands above
        lowest = [place.top() + _foot(each) for place, each in zip(places, (label, editor), strict=True)]
        if abs(lowest[0] - lowest[1]) > (percent() > 100):  # larger sizes are rounded
            yield f"{named(label)} stands {lowest[0] - lowest[1]} px below its {type(editor).__name__}"


def _foot(widget: QWidget) -> int:
    """The lowest row of a capital H in this widget, from its top."""
    pictures = [_picture(widget, text) for text in ("H", " ")]
    rows = np.nonzero(np.any(pictures[0] != pictures[1], axis=1))[0]
    return int(rows[-1])


def _picture(widget: QWidget, text: str) -> np.ndarray:
    """`widget` as it is drawn with this text."""
    blocker = QSignalBlocker(widget)
    if isinstance(widget, QComboBox):
        option = QStyleOptionComboBox()
        widget.initStyleOption(option)
        option.currentText = text
    image = QImage(widget.size(), QImage.Format.Format_RGB32)
    image.fill(QColor("white"))
    if isinstance(widget, QComboBox):
        painter = QPainter(image)
        widget.style().drawControl(QStyle.ControlElement.CE_ComboBoxLabel, option, painter, widget)
        painter.end()
    else:
        line = widget if isinstance(widget, QLabel | QLineEdit) else widget.findChild(QLineEdit)
        assert isinstance(line, QLabel | QLineEdit)
        inner = QSignalBlocker(line)
        before, tip = line.text(), line.toolTip()
        line.setText(text)
        widget.render(image)
        line.setText(before)
        line.setToolTip(tip)
        inner.unblock()
    blocker.unblock()
    return np.frombuffer(image.constBits(), np.uint32).reshape(image.height(), -1)[:, : image.width()].copy()


def screens(top: QWidget, screen: tuple[int, int]) -> Iterator[str]:
    """S1: a window has room on its screen, and can be made as small as the smallest one."""
    width, height = SMALLEST_SCREEN
    least = top.minimumSizeHint().expandedTo(top.minimumSize())
    if least.width() > width or least.height() > height:
        yield f"it cannot be made smaller than {least.width()} x {least.height()}"
    width, height = screen
    if top.width() > width or top.height() > height:
        yield f"it is {top.width()} x {top.height()}, larger than the screen"


def tabs_that_move(top: QWidget) -> Iterator[str]:
    """K4: where tabs are does not depend on which is chosen."""
    for bar in top.findChildren(QTabBar):
        if not bar.isVisible():
            continue
        before, first = bar.currentIndex(), None
        for number in range(bar.count()):
            if bar.isTabEnabled(number):
                bar.setCurrentIndex(number)
                settle()
                places = [bar.tabRect(each) for each in range(bar.count())]
                first = first or places
                if places != first:
                    yield f"the tabs of {named(bar)} move with '{bar.tabText(number)}': {first} {places}"
        bar.setCurrentIndex(before)
