"""The one slot for notices: what is said stays as long as it must, what is worse leads, and nothing in it moves."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLineEdit, QPushButton, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

import widgets.kit.notice_slot as slots
from widgets.kit.notice_slot import KEPT, Gravity, NoticeSlot
from widgets.kit.row_list import RowList


@pytest.fixture
def slot(qtbot: QtBot) -> Iterator[NoticeSlot]:
    host = QWidget()
    qtbot.addWidget(host)
    editor = QLineEdit()  # where somebody works, apart from the pointer
    made = NoticeSlot()
    layout = QVBoxLayout(host)
    layout.addWidget(editor)
    layout.addWidget(made)
    host.resize(800, 200)
    with qtbot.waitExposed(host):
        host.show()
    editor.setFocus()
    yield made
    host.close()


def test_what_happened_is_told_for_a_while(slot: NoticeSlot, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(slots, "TOLD_MS", 60)
    slot.set_idle("Saved 14:06")
    assert (slot.words, slot.text.text()) == ("", "Saved 14:06")
    slot.tell("Imported signals: 12")
    assert slot.words == slot.text.text() == "Imported signals: 12"
    qtbot.waitUntil(lambda: slot.words == "")
    assert slot.text.text() == "Saved 14:06"
    assert slot.told == ""


def test_what_is_wrong_stays_until_it_is_closed_or_something_else_happens(
    slot: NoticeSlot, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(slots, "TOLD_MS", 60)
    slot.tell("Not included: a row", Gravity.CAUTION)
    qtbot.wait(4 * slots.TOLD_MS)
    assert slot.words == "Not included: a row"
    slot.close_shown()
    assert slot.words == ""
    slot.tell("Not included: a row", Gravity.CAUTION)
    slot.tell("Saved")
    qtbot.waitUntil(lambda: slot.words == "")


def test_closed_or_over_the_one_before_comes_back(slot: NoticeSlot) -> None:
    slot.say("file", "changed on disk")
    slot.say("line", "slow")
    assert slot.words == "slow"
    assert slot.about == "line"
    slot.retract("line")
    assert slot.words == "changed on disk"
    slot.retract("file")
    assert slot.words == ""


def test_a_fault_leads_and_nothing_that_merely_happened_covers_it(
    slot: NoticeSlot, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    slot.say("line", "the line is lost", gravity=Gravity.FAULT)
    slot.tell("Saved")
    assert slot.words == "the line is lost"
    slot.say("disarmed", "the line was disarmed", gravity=Gravity.ALARM)
    slot.say("line", "the line is lost, and more", gravity=Gravity.FAULT)
    assert slot.words == "the line was disarmed"
    monkeypatch.setattr(slots, "TOLD_MS", 40)
    slot.tell("Not opened: writing is armed", Gravity.CAUTION)
    assert slot.words == "Not opened: writing is armed", "whoever did something is answered"
    qtbot.waitUntil(lambda: slot.words == "the line was disarmed")
    slot.retract("disarmed")
    assert slot.words == "the line is lost, and more"
    slot.retract("line")
    assert slot.words == "Not opened: writing is armed"


def test_what_is_told_stands_over_a_caution_that_was_said_before(slot: NoticeSlot) -> None:
    slot.say("file", "changed on disk")
    slot.tell("Copied")
    assert slot.words == "Copied"
    slot.say("port", "in use")
    assert slot.words == "in use"


def test_a_deed_closes_its_notice_first(slot: NoticeSlot) -> None:
    done: list[str] = []
    slot.say("file", "changed on disk", (("Compare", lambda: done.append(slot.words)), ("Reload", lambda: None)))
    assert [button.text() for button in slot.buttons] == ["Compare", "Reload"]
    QTest.mouseClick(slot.buttons[0], Qt.MouseButton.LeftButton)
    assert done == [""]
    assert slot.buttons == []


def test_a_button_under_the_pointer_does_not_become_another(slot: NoticeSlot, qtbot: QtBot) -> None:
    """Whoever is about to press Undo must not press what came in its place."""
    slot.tell("Imported signals: 12", Gravity.GOOD, (("Undo", lambda: None),))
    undo = slot.buttons[0]
    undo.setAttribute(Qt.WidgetAttribute.WA_UnderMouse)
    slot.say("file", "changed on disk", (("Reload", lambda: None),))
    assert slot.buttons == [undo]
    slot.say("line", "the line is lost", gravity=Gravity.FAULT)
    assert slot.words == "the line is lost"
    slot.retract("line")
    assert slot.words == "changed on disk"


def test_the_same_matter_in_other_words_is_one_notice(slot: NoticeSlot) -> None:
    slot.say("line", "3 values are old")
    slot.say("line", "4 values are old")
    assert slot.words == slot.text.text() == "4 values are old"
    assert [notice.text for notice in slot.history] == ["4 values are old"]


def test_it_is_as_high_with_a_notice_as_without_and_its_words_stand_still(slot: NoticeSlot) -> None:
    slot.set_idle("Saved 14:06")
    before = slot.height(), slot.text.pos()
    for gravity in Gravity:
        slot.tell("a sentence that goes on " * 30, gravity, (("Undo", lambda: None), ("Show", lambda: None)))
        assert (slot.height(), slot.text.pos()) == before


def test_the_last_are_listed_behind_the_icon(slot: NoticeSlot, qtbot: QtBot) -> None:
    for number in range(KEPT + 5):
        slot.tell(f"number {number}")
    QTest.mouseClick(slot.list_button, Qt.MouseButton.LeftButton)
    said = slot.findChild(RowList)
    assert said is not None
    items = [said.topLevelItem(row) for row in range(said.topLevelItemCount())]
    assert [item.text(1) for item in items if item] == [f"number {number}" for number in range(KEPT + 4, 4, -1)]
    assert said.hasFocus()
    QTest.keyClick(said, Qt.Key.Key_Escape)
    qtbot.waitUntil(lambda: slot.findChild(RowList) is None)


def test_work_that_lasts_is_told_with_how_far_it_is_and_a_way_to_stop_it(
    slot: NoticeSlot, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(slots, "WORK_AFTER_MS", 40)
    stopped: list[bool] = []
    slot.tell("Saved")
    work = slot.begin("Exporting 20 000 rows", lambda: stopped.append(True))
    assert slot.words == "Saved"
    qtbot.waitUntil(lambda: slot.words == "Exporting 20 000 rows")
    assert slot.progress.isVisible()
    assert slot.progress.maximum() == 0, "nobody knows yet"
    work.show(0.4)
    assert slot.progress.value() == 40
    assert isinstance(slot.buttons[0], QPushButton)
    QTest.mouseClick(slot.buttons[0], Qt.MouseButton.LeftButton)
    assert stopped == [True]
    work.end()
    assert slot.words == "Saved"
    assert not slot.progress.isVisible()


def test_work_that_is_done_at_once_is_not_told(slot: NoticeSlot, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(slots, "WORK_AFTER_MS", 40)
    slot.begin("Exporting").end()
    qtbot.wait(2 * slots.WORK_AFTER_MS)
    assert slot.words == ""
