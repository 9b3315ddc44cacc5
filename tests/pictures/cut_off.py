"""Measures whether the texts of visible widgets have the room that they need."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from PySide6.QtCore import QPoint, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetrics, Qt as GuiQt, QTextDocument
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractScrollArea,
    QCheckBox,
    QComboBox,
    QGroupBox,
    QHeaderView,
    QLabel,
    QLineEdit,
    QMenuBar,
    QPushButton,
    QRadioButton,
    QSplitter,
    QStyle,
    QStyleOptionButton,
    QStyleOptionComboBox,
    QStyleOptionFrame,
    QTabBar,
    QToolButton,
    QWidget,
)

from widgets.kit.scaling import heading_font

ELIDES: Final = "elides"
"""Dynamic property of a label that shows as much as fits, and the whole text as its tool tip."""
HEADING_MARGIN: Final = 3
"""Pixels that a heading keeps from the next one, at either side."""
SLACK: Final = 1
"""Pixels that rounding may take."""


def cut_off_texts(top: QWidget) -> list[str]:
    """What cannot be read in full in this window: a line for each, naming the widget, its text and what is missing."""
    found: list[str] = []
    for widget in [top, *top.findChildren(QWidget)]:
        if widget.isVisible() and widget.window() is top.window():
            found += [f"{_name(widget)}: {words}" for words in _lacks(widget)]
    return found


def _name(widget: QWidget) -> str:
    names: list[str] = []
    step: QWidget | None = widget
    while step is not None and len(names) < 4:
        kind = type(step).__name__
        if not kind.startswith("Q") or step is widget:
            names.append(kind)
        step = step.parentWidget()
    return " < ".join(names)


def _lacks(widget: QWidget) -> Iterator[str]:
    match widget:
        case QLabel():
            yield from _label(widget)
        case QAbstractButton():
            yield from _button(widget)
        case QComboBox():
            yield from _combo(widget)
        case QLineEdit():
            yield from _placeholder(widget)
        case QTabBar():
            yield from _tabs(widget)
        case QHeaderView():
            yield from _header(widget)
        case QMenuBar():
            yield from _menu_bar(widget)
        case QGroupBox():
            yield from _too_wide(widget.title(), widget.fontMetrics(), widget.width())


def _too_wide(text: str, metrics: QFontMetrics, room: int) -> Iterator[str]:
    needed = metrics.size(Qt.TextFlag.TextShowMnemonic, text).width()
    if text and needed > room + SLACK:
        yield f"'{text}' needs {needed} px and has {room}"


def _label(label: QLabel) -> Iterator[str]:
    text = label.text()
    if not text or not label.pixmap().isNull() or not label.updatesEnabled():
        return  # nothing, a picture, or only for assistive technology
    if label.property(ELIDES):
        if not label.toolTip():
            yield f"'{text}' may be shortened, but has no tool tip"
        return
    margin = 2 * label.margin() + max(0, label.indent())
    room = label.contentsRect().adjusted(0, 0, -margin, 0)
    rich = label.textFormat() == Qt.TextFormat.RichText or (
        label.textFormat() == Qt.TextFormat.AutoText and GuiQt.mightBeRichText(text)
    )
    if rich:
        document = QTextDocument()
        document.setDefaultFont(label.font())
        document.setDocumentMargin(0)
        document.setHtml(text)
        document.setTextWidth(room.width() if label.wordWrap() else -1)
        size = _size_of(document)
    else:
        size = _plain_size(text, label, room.width())
    if size.width() > room.width() + SLACK:
        yield f"'{text}' needs {size.width()} px of width and has {room.width()}"
    elif size.height() > room.height() + SLACK:
        yield f"'{text}' needs {size.height()} px of height and has {room.height()}"
    yield from _hidden(label, size, text)


def _size_of(document: QTextDocument) -> QSize:
    """The size of a laid out text, rounded up."""
    size = document.size()
    return QSize(int(document.idealWidth() + 0.99), int(size.height() + 0.99))


def _plain_size(text: str, label: QLabel, width: int) -> QSize:
    metrics = QFontMetrics(label.font())
    if label.wordWrap():
        around = metrics.boundingRect(QRect(0, 0, max(width, 1), 100_000), Qt.TextFlag.TextWordWrap, text)
        # A line may end behind a hyphen too.
        parts = re.split(r"\s+|(?<=\w-)(?=\w)", text)
        words = max((metrics.horizontalAdvance(part) for part in parts), default=0)
        return QSize(words, around.height())
    flags = Qt.TextFlag.TextShowMnemonic if label.buddy() is not None else Qt.TextFlag.TextExpandTabs
    return metrics.size(flags, text)


def _button(button: QAbstractButton) -> Iterator[str]:
    text = button.text()
    metrics = button.fontMetrics()
    if button.property(ELIDES):
        if not button.toolTip():
            yield f"'{text}' may be shortened, but has no tool tip"
        return
    if isinstance(button, QPushButton | QCheckBox | QRadioButton):
        option = QStyleOptionButton()
        button.initStyleOption(option)
        element = {
            QPushButton: QStyle.SubElement.SE_PushButtonContents,
            QCheckBox: QStyle.SubElement.SE_CheckBoxContents,
            QRadioButton: QStyle.SubElement.SE_RadioButtonContents,
        }[next(kind for kind in (QPushButton, QCheckBox, QRadioButton) if isinstance(button, kind))]
        room = button.style().subElementRect(element, option, button).width()
        yield from _too_wide(text, metrics, room)
    elif isinstance(button, QToolButton):
        shown = button.toolButtonStyle() != Qt.ToolButtonStyle.ToolButtonIconOnly or button.icon().isNull()
        shown_text = button.defaultAction().iconText() if button.defaultAction() is not None else text
        if shown and shown_text and button.width() < button.sizeHint().width() - SLACK:
            yield f"'{shown_text}' needs {button.sizeHint().width()} px with its frame and has {button.width()}"
    elif text and button.width() < button.sizeHint().width() - SLACK:
        yield f"'{text}' needs {button.sizeHint().width()} px with its frame and has {button.width()}"
    if text and button.height() < metrics.height() - SLACK:
        yield f"'{text}' needs {metrics.height()} px of height and has {button.height()}"
    yield from _hidden(button, button.size(), text or button.accessibleName())


def _combo(box: QComboBox) -> Iterator[str]:
    option = QStyleOptionComboBox()
    box.initStyleOption(option)
    field = box.style().subControlRect(
        QStyle.ComplexControl.CC_ComboBox, option, QStyle.SubControl.SC_ComboBoxEditField, box
    )
    if box.property(ELIDES):
        if not box.toolTip():
            yield f"'{box.currentText()}' may be shortened, but has no tool tip"
    elif not box.isEditable():
        icon = box.iconSize().width() + 4 if not box.itemIcon(box.currentIndex()).isNull() else 0
        yield from _too_wide(box.currentText().replace("&", "&&"), box.fontMetrics(), field.width() - icon)
    if box.height() < box.fontMetrics().height():
        yield f"'{box.currentText()}' needs {box.fontMetrics().height()} px of height and has {box.height()}"
    yield from _hidden(box, box.size(), box.currentText() or box.accessibleName())


def _placeholder(edit: QLineEdit) -> Iterator[str]:
    if edit.text() or not edit.placeholderText():
        return
    option = QStyleOptionFrame()
    edit.initStyleOption(option)
    inner = edit.style().subElementRect(QStyle.SubElement.SE_LineEditContents, option, edit)
    margins = edit.textMargins()
    room = inner.width() - margins.left() - margins.right() - 4  # Qt keeps two pixels at each side
    if isinstance(edit.parentWidget(), QComboBox):
        room = edit.width() - 4
    if edit.toolTip() and edit.property(ELIDES):
        return
    yield from _too_wide(edit.placeholderText().replace("&", "&&"), edit.fontMetrics(), room)


def _tabs(bar: QTabBar) -> Iterator[str]:
    for index in range(bar.count()):
        text, tip = bar.tabText(index), bar.tabToolTip(index)
        if not bar.isTabVisible(index) or (bar.elideMode() != Qt.TextElideMode.ElideNone and text in tip):
            continue
        rect = bar.tabRect(index)
        icon = bar.iconSize().width() + 4 if not bar.tabIcon(index).isNull() else 0
        yield from _too_wide(text, bar.fontMetrics(), rect.width() - icon)
        if rect.left() < -SLACK or rect.right() > bar.width() + SLACK:
            yield f"the tab '{text}' lies outside of its bar of {bar.width()} px"


def _header(header: QHeaderView) -> Iterator[str]:
    if header.orientation() != Qt.Orientation.Horizontal:
        return
    model = header.model()
    for section in range(header.count()):
        text = model.headerData(section, Qt.Orientation.Horizontal)
        if header.isSectionHidden(section) or not text:
            continue
        asked = model.headerData(section, Qt.Orientation.Horizontal, Qt.ItemDataRole.ToolTipRole)
        mark = header.style().pixelMetric(QStyle.PixelMetric.PM_HeaderMarkSize, None, header)
        sorted_here = header.isSortIndicatorShown() and header.sortIndicatorSection() == section
        needed = (
            QFontMetrics(heading_font(header.font())).horizontalAdvance(str(text))
            + 2 * HEADING_MARGIN
            + (mark if sorted_here else 0)
        )
        has = header.sectionSize(section)
        if has < needed and not (header.property(ELIDES) and asked):
            yield f"the heading '{text}' needs {needed} px and has {has}"


def _menu_bar(bar: QMenuBar) -> Iterator[str]:
    for action in bar.actions():
        rect = bar.actionGeometry(action)
        if action.isVisible() and action.text() and (rect.isEmpty() or rect.right() > bar.width()):
            yield f"the menu '{action.text()}' lies outside of its bar of {bar.width()} px"


def _hidden(widget: QWidget, needed: QSize, text: str) -> Iterator[str]:
    """What a parent cuts off, unless one can scroll to it or push it there with a splitter."""
    seen = QRect(QPoint(0, 0), QSize(min(needed.width(), widget.width()), min(needed.height(), widget.height())))
    step = widget
    while not step.isWindow():
        parent = step.parentWidget()
        if parent is None or isinstance(parent, QSplitter):
            return
        seen.translate(step.pos())
        area = parent.parentWidget()
        if isinstance(area, QAbstractScrollArea) and parent is area.viewport():
            if isinstance(area, QHeaderView):
                return  # it scrolls with its table
            off = Qt.ScrollBarPolicy.ScrollBarAlwaysOff
            if area.horizontalScrollBarPolicy() == off and (seen.left() < 0 or seen.right() > parent.width() + SLACK):
                yield f"'{text}' is cut off by the side of {_name(area)}, which does not scroll sideways"
            return
        inside = QRectF(parent.rect()).adjusted(-SLACK, -SLACK, SLACK, SLACK)
        if not inside.contains(QRectF(seen)):
            yield f"'{text}' at {seen.getRect()} is cut off by {_name(parent)} of {parent.size().toTuple()}"
            return
        step = parent
