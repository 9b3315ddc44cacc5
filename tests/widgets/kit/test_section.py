"""A part of a form that opens and closes, by mouse and by key, and says what is in it while it is closed."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel
from pytestqt.qtbot import QtBot

from widgets.kit.section import Section


def test_its_heading_opens_and_closes_it(qtbot: QtBot) -> None:
    section = Section("Polling", QLabel("every"), "every 250 ms", is_open=False)
    qtbot.addWidget(section)
    section.show()
    told: list[bool] = []
    section.toggled.connect(told.append)
    assert (section.is_open, section.body.isVisible()) == (False, False)
    QTest.mouseClick(section.head, Qt.MouseButton.LeftButton)
    assert (section.is_open, section.body.isVisible()) == (True, True)
    section.head.setFocus()
    QTest.keyClick(section.head, Qt.Key.Key_Space)
    assert (section.is_open, told) == (False, [True, False])


def test_closed_it_says_what_is_in_it_to_everyone(qtbot: QtBot) -> None:
    section = Section("Polling", QLabel("every"), "every 250 ms", is_open=False)
    qtbot.addWidget(section)
    assert section.head.accessibleName() == "Polling"
    assert section.head.accessibleDescription() == "closed, every 250 ms"
    assert "every 250 ms" in section.head.toolTip()
    section.set_open(True)
    assert section.head.accessibleDescription() == "open"
    section.set_open(False)
    section.set_summary("")
    assert section.head.accessibleDescription() == "closed"


def test_a_long_heading_asks_for_no_room(qtbot: QtBot) -> None:
    section = Section("W" * 300, QLabel("x"), "n" * 300, is_open=False)
    qtbot.addWidget(section)
    assert section.minimumSizeHint().width() < 100
    assert section.head.height() == 36
