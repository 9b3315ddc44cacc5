"""The measure itself: it finds what is cut off, and only that."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QLabel,
    QLineEdit,
    QPushButton,
    QScrollArea,
    QTabBar,
    QToolButton,
    QTreeWidget,
    QVBoxLayout,
    QWidget,
)
from pytestqt.qtbot import QtBot

from tests.pictures.cut_off import ELIDES, cut_off_texts

TEXT = "A text that takes some room"


def label() -> QLabel:
    return QLabel(TEXT)


def wrapped() -> QLabel:
    made = QLabel(f"{TEXT}. " * 6)
    made.setWordWrap(True)
    return made


def combo() -> QComboBox:
    made = QComboBox()
    made.addItem(TEXT)
    return made


def placeholder() -> QLineEdit:
    made = QLineEdit()
    made.setPlaceholderText(TEXT)
    return made


def tool() -> QToolButton:
    made = QToolButton()
    made.setText(TEXT)
    return made


def tabs() -> QTabBar:
    made = QTabBar()
    for _ in range(3):
        made.addTab(TEXT)
    return made


def table() -> QTreeWidget:
    made = QTreeWidget()
    made.setHeaderLabels([TEXT, ""])
    made.setColumnWidth(0, 500)
    return made


def shown(qtbot: QtBot, widget: QWidget, width: int, height: int) -> QWidget:
    window = QWidget()
    qtbot.addWidget(window)
    window.resize(800, 400)
    widget.setParent(window)
    widget.setGeometry(5, 5, width, height)
    window.show()
    return window


@pytest.mark.parametrize(
    "make", [label, wrapped, lambda: QPushButton(TEXT), lambda: QCheckBox(TEXT), combo, placeholder, tool, tabs]
)
def test_a_text_is_told_where_it_has_no_room_and_only_there(qtbot: QtBot, make: object) -> None:
    assert callable(make)
    assert cut_off_texts(shown(qtbot, make(), 700, 200)) == []
    found = cut_off_texts(shown(qtbot, make(), 70, 30))
    assert found
    assert "A text that takes some room" in found[0]


def test_a_word_may_be_broken_behind_its_hyphen_and_nowhere_else(qtbot: QtBot) -> None:
    def made(text: str) -> QLabel:
        label = QLabel(text)
        label.setWordWrap(True)
        return label

    half = made("").fontMetrics().horizontalAdvance("Kommunikations-") + 4
    assert cut_off_texts(shown(qtbot, made("Kommunikations-Timeout"), half, 200)) == []
    assert cut_off_texts(shown(qtbot, made("Kommunikationstimeout"), half, 200))


def test_a_heading_is_told(qtbot: QtBot) -> None:
    tree = table()
    window = shown(qtbot, tree, 700, 200)
    assert cut_off_texts(window) == []
    tree.setColumnWidth(0, 60)
    assert "heading" in cut_off_texts(window)[0]


def test_what_lies_outside_its_parent_is_told_but_not_what_one_can_scroll_to(qtbot: QtBot) -> None:
    cut = QLabel(TEXT)
    window = shown(qtbot, cut, 300, 30)
    cut.move(650, 5)
    assert "cut off by" in cut_off_texts(window)[0]
    area = QScrollArea()
    inner = QWidget()
    column = QVBoxLayout(inner)
    for _ in range(40):
        column.addWidget(QLabel(TEXT))
    area.setWidget(inner)
    assert cut_off_texts(shown(qtbot, area, 100, 100)) == []


def test_what_is_shortened_on_purpose_needs_a_tool_tip(qtbot: QtBot) -> None:
    short = QLabel(TEXT)
    short.setProperty(ELIDES, True)
    window = shown(qtbot, short, 50, 30)
    assert "tool tip" in cut_off_texts(window)[0]
    short.setToolTip(TEXT)
    assert cut_off_texts(window) == []
