"""A screen tried in place: keys operate the panel, followers are played by hand, Space ends it, nothing is opened."""

from __future__ import annotations

import socket
import threading

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QCheckBox
from pytestqt.qtbot import QtBot

from app import edits
from app.project.model import Project
from app.project_file.files import load, parse
from projects import demo_path
from tests.app.session.test_rehearsal import BANK
from tests.widgets.design.test_workspace import must
from tests.widgets.driving import designed
from widgets.design.screen.try_it import Tryout
from widgets.document.document import Document, Selection
from widgets.live.follower_card import FollowerCard

CTRL = Qt.KeyboardModifier.ControlModifier


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
    project = edits.add_screen_change(project, edits.screen_change(key="f1", to="other"))
    begin(tryout, project, "run", qtbot)
    QTest.keyClick(tryout.face, Qt.Key.Key_F1)
    assert "Went to" in tryout.said.text()
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


def test_a_fault_of_the_drive_shows_its_screen(tryout: Tryout, qtbot: QtBot) -> None:
    begin(tryout, load(demo_path("booster-pump")), "run", qtbot)
    before = shown(tryout)
    qtbot.addWidget(tryout.followers)
    tryout.followers.show()
    card = must(tryout.followers.findChild(FollowerCard))
    must(card.switches).more.trigger()
    box = next(box for box in tryout.followers.findChildren(QCheckBox) if "External" in box.text())
    QTest.mouseClick(box, Qt.MouseButton.LeftButton, pos=QPoint(8, box.height() // 2))
    qtbot.waitUntil(lambda: shown(tryout) != before and "Went to" in tryout.said.text())


def test_a_project_that_cannot_be_played_says_why(tryout: Tryout) -> None:
    reason = tryout.begin(parse(BANK.replace("start_value = 42.5", "start_value = 9000")), "run", 20)
    assert reason is not None
    assert "'level'" in reason
    assert not tryout.running


def test_what_a_held_key_pressed_is_let_go_at_the_end(tryout: Tryout, qtbot: QtBot) -> None:
    text = BANK.replace("[16]", "[5, 16]").replace('do = "set"', 'do = "momentary"')
    begin(tryout, parse(text), "run", qtbot)
    QTest.keyPress(tryout.face, Qt.Key.Key_F1)
    assert len(tryout.face.held_keys) == 1
    tryout.hide()
    assert not tryout.face.held_keys


# In the Design workplace


def test_space_on_a_field_tries_the_screen_and_space_again_edits_the_one_that_is_reached(qtbot: QtBot) -> None:
    document = Document(edits.add_screen_change(parse(BANK), edits.screen_change(key="f1", to="other")))
    design = designed(document, qtbot)
    document.select(Selection("run", (0, 6), (0,)))
    design.editor.face.setFocus()
    QTest.keyClick(design.editor.face, Qt.Key.Key_Space)
    tried = design.editor.tryout
    assert tried.running
    assert tried.face.hasFocus()
    assert design.editor.area.isHidden()
    assert tried.followers.isVisible()
    QTest.keyClick(tried.face, Qt.Key.Key_F1)
    QTest.keyClick(tried.face, Qt.Key.Key_Space)
    assert not tried.running
    assert design.editor.face.hasFocus()
    assert document.selection.screen == "other"
    assert not tried.followers.isVisible()
    assert document.undo_name is None, "trying changes nothing"


def test_a_screen_chosen_in_the_list_is_shown_by_the_panel_that_is_tried(qtbot: QtBot) -> None:
    document = Document(parse(BANK))
    design = designed(document, qtbot)
    QTest.keyClick(design.editor.face, Qt.Key.Key_F9)
    tried = design.editor.tryout
    before = shown(tried)
    document.select_screen("other")
    assert tried.running
    other = shown(tried)
    assert other != before
    document.select_screen("run")
    assert shown(tried) == before
    assert document.undo_name is None


def test_what_covers_a_screen_that_is_chosen_is_said(qtbot: QtBot) -> None:
    covered = BANK + '\n[[screen_change]]\nto = "run"\nwhen = { signal = "level", is = "above", value = 0 }\n'
    document = Document(parse(covered))
    design = designed(document, qtbot)
    QTest.keyClick(design.editor.face, Qt.Key.Key_F9)
    document.select_screen("other")
    assert "\u201crun\u201d covers \u201cother\u201d" in design.editor.tryout.said.text()


def test_space_among_text_is_a_blank(qtbot: QtBot) -> None:
    document = Document(parse(BANK))
    design = designed(document, qtbot)
    document.select(Selection("run", (0, 0)))
    design.editor.face.setFocus()
    QTest.keyClick(design.editor.face, Qt.Key.Key_Space)
    assert not design.editor.tryout.running
    assert document.project.screen_named["run"].text[0].startswith(" evel")


def test_the_followers_beside_it_have_all_the_room(qtbot: QtBot) -> None:
    design = designed(Document(load(demo_path("booster-pump"))), qtbot)
    design.editor.face.setFocus()
    QTest.keyClick(design.editor.face, Qt.Key.Key_F9)
    cards = design.editor.tryout.followers
    qtbot.waitUntil(cards.isVisible)
    qtbot.waitUntil(lambda: cards.height() > 500)
    assert cards.verticalScrollBar().maximum() == 0, "nothing has to be scrolled for"


@pytest.mark.parametrize("keys", [(Qt.Key.Key_F9, Qt.KeyboardModifier.NoModifier), (Qt.Key.Key_Space, CTRL)])
def test_the_command_tries_it_from_any_view(keys: tuple[Qt.Key, Qt.KeyboardModifier], qtbot: QtBot) -> None:
    design = designed(Document(parse(BANK)), qtbot)
    design.show_view("signals")
    QTest.keyClick(must(QApplication.focusWidget()), *keys)
    assert design.view == "screen"
    assert design.editor.tryout.running
    QTest.keyClick(must(QApplication.focusWidget()), *keys)
    assert not design.editor.tryout.running


def test_another_view_ends_it(qtbot: QtBot) -> None:
    design = designed(Document(parse(BANK)), qtbot)
    QTest.keyClick(design.editor.face, Qt.Key.Key_F9)
    assert design.editor.tryout.running
    design.show_view("map")
    assert not design.editor.tryout.running


def test_why_it_cannot_be_tried_is_said(qtbot: QtBot) -> None:
    design = designed(Document(parse(BANK.replace("start_value = 42.5", "start_value = 9000"))), qtbot)
    QTest.keyClick(design.editor.face, Qt.Key.Key_F9)
    assert not design.editor.tryout.running
    assert "'level'" in design.editor.notice.text.text()
