"""Measures of every pane and dialog: one height, tabs that stay, one primary button, amber for arming alone."""

from __future__ import annotations

import numpy as np
import pytest
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QAbstractSpinBox, QComboBox, QLineEdit, QPushButton, QTabBar, QWidget

from tests.pictures.panes import panes
from tests.pictures.stage import Setting, settle, staged
from widgets.kit import palette
from widgets.kit.look import CONTROL
from widgets.kit.palette import Appearance

TALLER = {"answer": 40}
"""Looks of buttons that are as high as this on purpose."""


def controls(top: QWidget) -> list[QWidget]:
    """What is pressed or filled in, in one line, and is in sight."""
    return [
        each
        for each in top.findChildren(QWidget)
        if each.isVisible()
        and (
            isinstance(each, QComboBox | QAbstractSpinBox | QPushButton)
            or (isinstance(each, QLineEdit) and each.hasFrame())
        )
        and not isinstance(each.parentWidget(), QComboBox | QAbstractSpinBox)
    ]


def test_every_control_is_as_high_and_one_button_at_most_is_primary() -> None:
    odd: dict[str, list[str]] = {}
    looked_at = 0
    with staged(Setting()) as window:
        for pane in panes():
            with pane.open(window) as shown:
                found = controls(shown)
                looked_at += len(found)
                for each in found:
                    wanted = TALLER.get(str(each.property("look")), CONTROL)
                    if each.height() != wanted:
                        odd.setdefault(pane.name, []).append(f"{type(each).__name__} is {each.height()} high")
                primary = [each for each in found if each.property("look") == "primary" and each.window() is shown]
                if len(primary) > 1:
                    odd.setdefault(pane.name, []).append(f"primary: {len(primary)}")
    assert odd == {}
    assert looked_at > 300


def test_tabs_stay_where_they_are_whichever_is_chosen() -> None:
    seen = 0
    with staged(Setting()) as window:
        for bar in window.findChildren(QTabBar):
            places = []
            for number in range(bar.count()):
                bar.setCurrentIndex(number)
                settle()
                places.append([bar.tabRect(each) for each in range(bar.count())])
            assert all(each == places[0] for each in places)
            seen += bar.count() > 1
    assert seen >= 1


@pytest.mark.parametrize("look", [Appearance.LIGHT, Appearance.DARK])
def test_nothing_is_amber_while_nothing_is_armed(look: Appearance) -> None:
    amber = int(palette.LIGHT.armed[1:], 16)
    with staged(Setting(look)) as window:
        for pane in panes():
            with pane.open(window) as shown:
                image = shown.grab().toImage().convertToFormat(QImage.Format.Format_RGB32)
                pixels = np.frombuffer(image.constBits(), np.uint32) & 0xFFFFFF
                assert not np.any(pixels == amber), pane.name
