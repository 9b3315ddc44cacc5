"""What is said when: one thing after the other, the grave things first, and nothing that is no longer so."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import pytest
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import QLineEdit, QTableWidget
from pytestqt.qtbot import QtBot

from tests.widgets.driving import shown
from tests.widgets.listening import listening
from widgets.speech.voice import AT_MOST_S, NUMBERS_EVERY_S, Urgency, Voice, voice


class Hearer:
    """Takes what a voice says, at a time that only the test lets pass."""

    def __init__(self) -> None:
        self.now = 100.0
        self.log: list[str] = []
        self.there = True
        self.voice = Voice(self._hear, lambda: self.now)

    def _hear(self, words: str, assertive: bool) -> bool:
        if self.there:
            self.log.append(f"{words}!" if assertive else words)
        return self.there

    def later(self, seconds: float) -> list[str]:
        self.now += seconds
        self.voice.go_on()
        return self.log


@pytest.fixture
def hearer(qapp: object) -> Iterator[Hearer]:
    QAccessible.setActive(True)
    yield Hearer()
    QAccessible.setActive(False)


def test_news_waits_until_the_news_before_has_been_heard(hearer: Hearer) -> None:
    hearer.voice.say("ready to run")
    hearer.voice.say("key start pressed")
    assert hearer.log == ["ready to run"]
    assert hearer.later(0.3) == ["ready to run"]
    assert hearer.later(1.0) == ["ready to run", "key start pressed"]


def test_nothing_breaks_off_a_trip(hearer: Hearer) -> None:
    hearer.voice.say("another screen")
    hearer.voice.say("the drive has tripped", Urgency.URGENT)
    assert hearer.log == ["another screen", "the drive has tripped!"]
    hearer.later(3.0)
    hearer.later(3.0)
    hearer.log.clear()
    hearer.voice.say("the drive has tripped again", Urgency.URGENT)
    for urgency in Urgency:
        hearer.voice.say(f"then {urgency.name}", urgency)
    assert hearer.log == ["the drive has tripped again!"]
    assert hearer.later(2.0)[1:] == ["then URGENT!"]
    assert hearer.later(1.5)[2:] == ["then NEWS"]
    assert hearer.later(1.5)[3:] == ["then RESULT"]
    assert hearer.later(1.5)[4:] == ["then NUMBER"]


def test_news_that_a_trip_breaks_off_is_said_again(hearer: Hearer) -> None:
    hearer.voice.say("another screen")
    hearer.voice.say("tripped", Urgency.URGENT)
    assert hearer.later(1.0) == ["another screen", "tripped!", "another screen"]


def test_who_knows_better_is_asked_for_it_instead(hearer: Hearer) -> None:
    asked: list[str] = []
    hearer.voice.say("Speed 41.7 Hz", broken_off=lambda: asked.append("again"))
    hearer.voice.say("device lost", Urgency.URGENT)
    assert asked == ["again"]
    assert hearer.later(AT_MOST_S) == ["Speed 41.7 Hz", "device lost!"]


def test_newer_words_about_a_matter_take_the_place_of_older_ones(hearer: Hearer) -> None:
    hearer.voice.say("row 1", about="cursor")
    hearer.voice.say("row 2", about="cursor")
    assert hearer.log == ["row 1", "row 2"], "broken off"
    hearer.voice.say("tripped", Urgency.URGENT)
    hearer.voice.say("row 3", about="cursor")
    hearer.voice.say("row 4", about="cursor")
    assert hearer.later(AT_MOST_S) == ["row 1", "row 2", "tripped!", "row 4"]


def test_numbers_come_once_a_second_and_are_those_of_that_moment(hearer: Hearer) -> None:
    began = hearer.now
    for _ in range(50):
        hearer.voice.say(lambda: f"{hearer.now - began:.1f} Hz", Urgency.NUMBER, "speed")
        hearer.later(0.1)
    assert len(hearer.log) == pytest.approx(50 * 0.1 / NUMBERS_EVERY_S, abs=1)
    spoken = [float(words.split()[0]) for words in hearer.log]
    assert all(1.0 <= after - before < 1.2 for before, after in pairwise(spoken)), "each is of the moment it is said at"


def test_what_is_no_longer_so_is_not_said(hearer: Hearer) -> None:
    hearer.voice.say("tripped", Urgency.URGENT)
    hearer.voice.say(lambda: "")
    hearer.voice.say("over", about="matter")
    hearer.voice.forget("matter")
    assert hearer.later(AT_MOST_S) == ["tripped!"]


def test_a_trip_waits_for_something_that_has_the_focus(hearer: Hearer) -> None:
    hearer.there = False
    hearer.voice.say("tripped", Urgency.URGENT)
    assert hearer.later(1.0) == []
    hearer.there = True
    assert hearer.later(1.0) == ["tripped!"]


def test_nothing_is_worked_out_while_nobody_listens(qapp: object) -> None:
    hearer = Hearer()
    hearer.voice.say("words")
    assert hearer.later(1.0) == []


def test_it_is_said_through_what_has_the_focus(qtbot: QtBot) -> None:
    edit = shown(QLineEdit(), qtbot, 200, 40)
    edit.setAccessibleDescription("its own")
    edit.setFocus()
    with listening() as listener:
        listener.listen()
        voice().say("tripped", Urgency.URGENT)
        qtbot.waitUntil(lambda: "tripped" in listener.words)
        edit.clearFocus()
        qtbot.waitUntil(lambda: edit.accessibleDescription() == "its own")


def test_a_table_whose_cell_has_the_focus_is_not_read_so_a_notification_is(qtbot: QtBot) -> None:
    table = shown(QTableWidget(2, 2), qtbot, 200, 100)
    table.setFocus()
    with listening() as listener:
        voice().say("a table is told", Urgency.URGENT)
        qtbot.waitUntil(lambda: "a table is told" in listener.words)
    assert table.accessibleDescription() == ""
