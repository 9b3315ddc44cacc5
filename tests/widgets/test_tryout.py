"""A screen tried in place: keys operate the panel, followers are played by hand, Space ends it, nothing is opened."""

from __future__ import annotations

import socket
import threading

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QCheckBox
from pytestqt.qtbot import QtBot

from app.project import edits
from app.project.files import load, parse
from app.project.model import Project
from projects import demo_path
from tests.app.test_rehearsal import BANK
from widgets.tryout import Tryout


@pytest.fixture(autouse=True)
def _no_line_and_no_thread(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object, **__: object) -> None:
        raise AssertionError("trying a screen opened something")

    monkeypatch.setattr(socket, "socket", refuse)
    monkeypatch.setattr(threading.Thread, "start", refuse)


@pytest.fixture
def tryout(qtbot: QtBot) -> Tryout:
    made = Tryout()
    qtbot.addWidget(made)
    made.resize(800, 560)
    return made


def begin(tryout: Tryout, project: Project, screen: str, qtbot: QtBot) -> None:
    assert tryout.begin(project, screen, 20) is None
    tryout.show()
    tryout.activateWindow()
    qtbot.waitUntil(tryout.isActiveWindow)
    tryout.setFocus()


def shown(tryout: Tryout) -> list[str]:
    return [row.text.rstrip() for row in tryout.face.rows]


def test_keys_of_the_keyboard_operate_the_panel(tryout: Tryout, qtbot: QtBot) -> None:
    begin(tryout, parse(BANK), "run", qtbot)
    assert shown(tryout)[0] == "Level  42.5 %"
    for key in (Qt.Key.Key_Return, Qt.Key.Key_Up, Qt.Key.Key_Return):
        QTest.keyClick(tryout.face, key)
    assert "Wrote 43.0 to level" in tryout.said.text()
    qtbot.waitUntil(lambda: shown(tryout)[0] == "Level  43.0 %")


def test_space_ends_it_and_tells_where_the_panel_was(tryout: Tryout, qtbot: QtBot) -> None:
    project = parse(BANK)
    project = edits.add_turn(project, edits.turn(key="f1", to="other"))
    begin(tryout, project, "run", qtbot)
    QTest.keyClick(tryout.face, Qt.Key.Key_F1)
    assert "Turned to" in tryout.said.text()
    with qtbot.waitSignal(tryout.ended) as ended:
        QTest.keyClick(tryout.face, Qt.Key.Key_Space)
    assert ended.args == ["other"]
    assert not tryout.running


def test_its_button_ends_it_too_and_so_does_hiding_it(tryout: Tryout, qtbot: QtBot) -> None:
    begin(tryout, parse(BANK), "run", qtbot)
    with qtbot.waitSignal(tryout.ended):
        QTest.mouseClick(tryout.back, Qt.MouseButton.LeftButton)
    begin(tryout, parse(BANK), "run", qtbot)
    with qtbot.waitSignal(tryout.ended):
        tryout.hide()


def test_space_on_a_key_of_the_panel_presses_that_key(tryout: Tryout, qtbot: QtBot) -> None:
    begin(tryout, parse(BANK), "run", qtbot)
    button = tryout.face.keypad.buttons["enter"]
    button.setFocus()
    QTest.keyClick(button, Qt.Key.Key_Space)
    assert tryout.running
    QTest.keyClick(tryout.face, Qt.Key.Key_Up)
    QTest.keyClick(button, Qt.Key.Key_Space)
    assert "Wrote 43.0 to level" in tryout.said.text()


def test_a_fault_played_at_the_drive_shows_its_screen(tryout: Tryout, qtbot: QtBot) -> None:
    begin(tryout, load(demo_path("booster-pump")), "run", qtbot)
    before = shown(tryout)
    box = next(box for box in tryout.findChildren(QCheckBox) if "External" in box.text())
    QTest.mouseClick(box, Qt.MouseButton.LeftButton, pos=QPoint(8, box.height() // 2))
    qtbot.waitUntil(lambda: shown(tryout) != before and "Turned to" in tryout.said.text())


def test_a_project_that_cannot_be_played_says_why(tryout: Tryout) -> None:
    reason = tryout.begin(parse(BANK.replace("start_value = 42.5", "start_value = 9000")), "run", 20)
    assert reason is not None
    assert "'level'" in reason
    assert not tryout.running


def test_what_a_held_key_pressed_is_let_go_at_the_end(tryout: Tryout, qtbot: QtBot) -> None:
    text = BANK.replace("[16]", "[5, 16]").replace('do = "set"', 'do = "momentary"')
    begin(tryout, parse(text), "run", qtbot)
    QTest.keyPress(tryout.face, Qt.Key.Key_F1)
    assert tryout.face.held_keys == ("f1",)
    tryout.hide()
    assert tryout.face.held_keys == ()
