"""Bars that break into lines where the window is narrow."""

from __future__ import annotations

import pytest
from hypothesis import given, settings, strategies as st
from PySide6.QtWidgets import QApplication, QLineEdit, QPushButton, QSizePolicy, QWidget
from pytestqt.qtbot import QtBot

from widgets.kit.flow import FlowLayout

WORDS = ["Place a field", "Try it", "Overwrite", "Keys", "Sample values", "Fit"]


@pytest.fixture
def bar(qtbot: QtBot) -> QWidget:
    made = QWidget()
    qtbot.addWidget(made)
    layout = FlowLayout(made)
    for word in WORDS:
        layout.addWidget(QPushButton(word))
    return made


def at_width(bar: QWidget, width: int) -> list[QWidget]:
    layout = bar.layout()
    assert layout is not None
    bar.resize(width, layout.heightForWidth(width))
    layout.setGeometry(bar.rect())
    parts = [layout.itemAt(index).widget() for index in range(layout.count())]  # type: ignore[union-attr]
    return [part for part in parts if part is not None and not part.isHidden()]


@settings(deadline=None)
@given(width=st.integers(60, 1500))
def test_at_any_width_all_parts_are_whole_apart_and_inside(qapp: QApplication, width: int) -> None:
    bar = QWidget()
    layout = FlowLayout(bar)
    for word in WORDS:
        layout.addWidget(QPushButton(word))
    width = max(width, layout.minimumSize().width())
    parts = at_width(bar, width)
    assert len(parts) == len(WORDS)
    for number, part in enumerate(parts):
        assert bar.rect().contains(part.geometry())
        assert part.width() >= part.sizeHint().width()
        for other in parts[:number]:
            assert not part.geometry().intersects(other.geometry())
    bar.deleteLater()


def test_wide_enough_it_is_one_line_narrow_it_is_several(bar: QWidget) -> None:
    assert len({part.y() for part in at_width(bar, 1500)}) == 1
    assert len({part.y() for part in at_width(bar, 200)}) > 1
    assert bar.minimumSizeHint().width() == max(part.minimumSizeHint().width() for part in at_width(bar, 200))


def test_a_field_that_expands_takes_what_is_left(bar: QWidget) -> None:
    field = QLineEdit()
    field.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
    layout = bar.layout()
    assert isinstance(layout, FlowLayout)
    layout.addWidget(field)
    at_width(bar, 1500)
    assert field.geometry().right() == 1499
    assert field.width() > 600


def test_a_stretch_pushes_to_the_end(bar: QWidget) -> None:
    layout = bar.layout()
    assert isinstance(layout, FlowLayout)
    layout.add_stretch()
    last = QPushButton("Last")
    layout.addWidget(last)
    at_width(bar, 1500)
    assert last.geometry().right() == 1499


def test_what_is_hidden_takes_no_room(bar: QWidget) -> None:
    before = at_width(bar, 1500)
    second = before[1]
    second.hide()
    after = at_width(bar, 1500)
    assert after[1].x() == second.x()
