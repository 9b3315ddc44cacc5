"""Tool tips: long ones are broken into lines, whatever they are made of."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint
from PySide6.QtWidgets import QApplication, QLabel, QToolTip, QWidget
from pytestqt.qtbot import QtBot

from widgets.kit.drawn.tips import WIDEST
from widgets.shell.application import make_application


def shown_tip() -> QLabel:
    tips = [each for each in QApplication.topLevelWidgets() if each.inherits("QTipLabel") and each.isVisible()]
    assert len(tips) == 1
    assert isinstance(tips[0], QLabel)
    return tips[0]


@pytest.mark.parametrize("text", ["a word and another " * 30, "<p>" + "a word and another " * 30 + "</p>"])
def test_a_long_one_is_broken_into_lines_at_first_and_when_it_changes(qtbot: QtBot, text: str) -> None:
    make_application()
    owner = QWidget()
    qtbot.addWidget(owner)
    owner.show()
    QToolTip.showText(QPoint(40, 40), text, owner)
    try:
        tip = shown_tip()
        assert tip.width() <= WIDEST
        assert tip.height() >= 4 * tip.fontMetrics().height()
        QToolTip.showText(QPoint(40, 40), text + "changed", owner)
        assert shown_tip().width() <= WIDEST
        QToolTip.showText(QPoint(40, 40), "short", owner)
        assert shown_tip().width() < WIDEST / 2
    finally:
        QToolTip.hideText()
        qtbot.waitUntil(lambda: not any(each.inherits("QTipLabel") for each in QApplication.topLevelWidgets()))
