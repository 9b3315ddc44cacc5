"""The wheel over every pane and dialog: nothing that can be edited changes unless it has the focus."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractSlider, QAbstractSpinBox, QApplication, QComboBox, QLineEdit, QScrollBar, QWidget
from pytestqt.qtbot import QtBot

import widgets
from tests.pictures.panes import panes
from tests.pictures.stage import Setting, staged
from widgets.kit.controls import Choice, DecimalNumber, Slider, WholeNumber

EDITORS = (QComboBox, QAbstractSpinBox, QAbstractSlider)
PLAIN = {"QComboBox", "QSpinBox", "QDoubleSpinBox", "QSlider", "QDial", "QDateTimeEdit", "QDateEdit", "QTimeEdit"}


def editors(top: QWidget) -> Iterator[QWidget]:
    for widget in top.findChildren(QWidget):
        if isinstance(widget, EDITORS) and not isinstance(widget, QScrollBar):
            yield widget


def value(widget: QWidget) -> object:
    if isinstance(widget, QComboBox):
        return widget.currentIndex()
    return widget.value()  # type: ignore[attr-defined]


def turn_wheel(widget: QWidget, notches: int) -> None:
    """As a mouse does: Qt gives the focus to what wants it of the wheel before it hands the wheel on."""
    place = QPointF(widget.rect().center())
    by = QPoint(0, 120 * notches)
    event = QWheelEvent(
        place,
        widget.mapToGlobal(place),
        QPoint(),
        by,
        Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    if widget.focusPolicy() == Qt.FocusPolicy.WheelFocus:
        widget.setFocus(Qt.FocusReason.MouseFocusReason)
    QApplication.sendEvent(widget, event)


def test_scrolling_past_an_editor_changes_nothing() -> None:
    seen: set[type] = set()
    changed = []
    with staged(Setting()) as window:
        for pane in panes():
            with pane.open(window) as shown:
                for widget in editors(shown):
                    if widget.hasFocus():
                        widget.clearFocus()
                    before = value(widget)
                    for target in (widget, *widget.findChildren(QLineEdit)):
                        for notches in (-1, 1, 1):
                            turn_wheel(target, notches)
                            if value(widget) != before or widget.hasFocus():
                                changed.append(f"{pane.name}: {widget.accessibleName()} {type(widget).__name__}")
                    seen.add(next(each for each in EDITORS if isinstance(widget, each)))
    assert seen == set(EDITORS), "editors of every kind were there to be tried"
    assert changed == []


def test_what_was_clicked_into_takes_the_wheel(qtbot: QtBot) -> None:
    top = QWidget()
    qtbot.addWidget(top)
    number, other = WholeNumber(top), WholeNumber(top)
    other.move(0, 60)
    with qtbot.waitActive(top):
        top.show()
        top.activateWindow()
    for clicked, left_alone in ((number, other), (other, number)):
        before = number.value() + other.value()
        QTest.mouseClick(clicked, Qt.MouseButton.LeftButton)
        turn_wheel(left_alone, 1)
        assert number.value() + other.value() == before
        turn_wheel(clicked, 1)
        assert number.value() + other.value() == before + 1


def test_editors_are_made_of_those_that_the_wheel_leaves_alone() -> None:
    found = []
    for path in sorted(Path(widgets.__file__).parent.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            made = [node.func] if isinstance(node, ast.Call) else node.bases if isinstance(node, ast.ClassDef) else []
            found += [
                f"{path.name}:{each.lineno} {each.id}"
                for each in made
                if isinstance(each, ast.Name) and each.id in PLAIN
            ]
    assert {each.split()[0].split(":")[0] for each in found} == {"controls.py"}, found
    for steady in (Choice, WholeNumber, DecimalNumber, Slider):
        assert steady.__mro__[1].__name__ == "_Steady"
