"""The box of the alarm that waits: which one it shows, and that no other is acknowledged."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from app.events.alarms import Alarm, AlarmState
from tests.widgets.driving import shown
from widgets.start_up.alarm_box import AlarmBox

ALT_SHIFT = Qt.KeyboardModifier.AltModifier | Qt.KeyboardModifier.ShiftModifier
FAULT = Alarm("fault", "fault is set", AlarmState.UNACKNOWLEDGED, 3.0)
HOT = Alarm("hot", "racks is above 60")
DOOR = Alarm("door", "door is clear", AlarmState.RETURNED, 2.0)


@pytest.fixture
def box(qtbot: QtBot) -> AlarmBox:
    return shown(AlarmBox(), qtbot, 344, 60)


def test_its_room_is_kept_while_there_is_no_alarm(box: AlarmBox) -> None:
    assert box.title.text() == "no alarm"
    height = box.height()
    box.show_alarms({2: FAULT})
    assert box.height() == height
    assert (box.title.text(), box.state.text()) == ("fault is set", "active, not acknowledged")
    assert box.accessibleDescription() == "fault is set. active, not acknowledged"


def test_what_is_active_comes_first_and_only_what_is_seen_is_acknowledged(box: AlarmBox, qtbot: QtBot) -> None:
    box.show_alarms({7: DOOR, 5: HOT, 2: FAULT})
    assert box.listed == (2, 7), "the normal one is not"
    assert box.more.text() == "1 more"
    with qtbot.waitSignal(box.acknowledge_wanted) as wanted:
        QTest.keyClick(box, Qt.Key.Key_A, ALT_SHIFT)
    assert wanted.args == [(2,)]
    box.show_alarms({7: DOOR, 2: Alarm("fault", "fault is set", AlarmState.ACKNOWLEDGED, 4.0)})
    assert box.shown == 7, "on to the next that waits"
    assert box.state.text() == "returned to normal, not acknowledged"
    with qtbot.waitSignal(box.acknowledge_wanted) as wanted:
        QTest.mouseClick(box.acknowledge, Qt.MouseButton.LeftButton)
    assert wanted.args == [(7,)]
    box.show_alarms({2: Alarm("fault", "fault is set", AlarmState.ACKNOWLEDGED, 4.0)})
    assert box.shown == 2
    assert not box.acknowledge.isEnabled()


def test_an_alarm_that_comes_does_not_push_away_the_one_that_is_looked_at(box: AlarmBox) -> None:
    box.show_alarms({7: DOOR})
    box.show_alarms({7: DOOR, 2: FAULT})
    assert box.shown == 7


def test_alarms_of_a_recording_are_looked_at_only(box: AlarmBox) -> None:
    box.show_alarms({2: FAULT}, may_acknowledge=False)
    assert box.title.text() == "fault is set"
    assert not box.acknowledge_action.isEnabled()
    assert not box.acknowledge.isVisible()
