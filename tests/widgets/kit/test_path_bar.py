"""The way to what the properties show: each part leads there, and the bar is always as high."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from widgets.kit.path_bar import HEIGHT, PathBar


def test_each_part_leads_there(qtbot: QtBot) -> None:
    bar = PathBar()
    qtbot.addWidget(bar)
    been: list[str] = []
    bar.set_path([("Panel", lambda: been.append("panel")), ("Filter", lambda: been.append("filter"))], "Pressure")
    assert bar.words() == ("Panel", "Filter", "Pressure")
    for step in bar.steps:
        QTest.mouseClick(step, Qt.MouseButton.LeftButton)
    assert been == ["panel", "filter"]


def test_the_same_words_keep_their_buttons_and_lead_to_the_newest_place(qtbot: QtBot) -> None:
    bar = PathBar()
    qtbot.addWidget(bar)
    been: list[int] = []
    bar.set_path([("Panel", lambda: been.append(1))], "Run")
    button = bar.steps[0]
    bar.set_path([("Panel", lambda: been.append(2))], "Run")
    assert bar.steps == [button]
    button.click()
    assert been == [2]


def test_it_is_as_high_whatever_it_shows_and_asks_for_little_room(qtbot: QtBot) -> None:
    bar = PathBar()
    qtbot.addWidget(bar)
    for steps, last in (([], ""), ([("W" * 99, lambda: None)], "n" * 200), ([("a & b", lambda: None)] * 2, "c")):
        bar.set_path(steps, last)
        assert bar.height() == HEIGHT
        assert bar.minimumSizeHint().width() < 344, "the width of the pane of properties"
    assert [step.accessibleName() for step in bar.steps] == ["a & b", "a & b"]
    assert bar.steps[0].text() == "a && b", "an ampersand of a name is no access key"
